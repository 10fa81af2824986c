/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comparisons for tests: of a project by the shipped catalogue and prices, and what is told about
 * one thing as lines. It knows no expectation. */
#pragma once

#include "plan/compare.h"

/* From the same day always; fails the test on an error. */
DryComparison *compare_project (const DryProject *project, DryId room,
                                const char *const *systems) G_GNUC_WARN_UNUSED_RESULT;
/* What is told about one thing, in order, each on its own line. Free with g_free(). */
char *compare_lines (const DryOption *now, const DryOption *was,
                     DryAbout about) G_GNUC_WARN_UNUSED_RESULT;
