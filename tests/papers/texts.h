/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is written on papers, before they are written to a file and after. Knows items of pages, no
 * words. */
#pragma once

#include "papers/papers.h"

/* How many texts of all pages hold `text`. */
guint dry_test_count_texts (const DryPapers *papers, const char *text);

/* What a program prints, or NULL when it is not installed: then the test is skipped. */
char *dry_test_run (const char *program, const char *a, const char *b) G_GNUC_WARN_UNUSED_RESULT;
/* Runs of blanks and line ends as one space, so that a phrase is found wherever it broke. */
void dry_test_collapse (char *text);
