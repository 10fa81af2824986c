/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is written on papers that were not yet written to a file. Knows items of pages, no words. */
#pragma once

#include "papers/papers.h"

/* How many texts of all pages hold `text`. */
guint dry_test_count_texts (const DryPapers *papers, const char *text);
