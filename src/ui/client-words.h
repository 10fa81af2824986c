/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a client is told of an option, in plain words: when it is done, what it costs, how it is
 * built, what is different. Nothing of sheets, cuts or screws; builds no widget. */
#pragma once

#include "plan/compare.h"

G_BEGIN_DECLS

/* "First shower Tuesday 8 Dec", or "First shower on day 14" without a first day of work, or why
 * there is no day. Free. */
char *dry_client_ready (const DryOption *option) G_GNUC_WARN_UNUSED_RESULT;
/* "1,234.50 USD" in the user's locale; a price missing or invented is said. Free. */
char *dry_client_price (const DryOption *option) G_GNUC_WARN_UNUSED_RESULT;
/* Name of the backer system of the first room. Borrowed. */
const char *dry_client_system (const DryOption *option);
/* One difference a line, what is different from `was` that a client sees, pays or waits for; texts
 * of money only with `prices`, and what they are made of only with `why`. Free with
 * g_ptr_array_unref(). */
GPtrArray *dry_client_differences (const DryOption *now, const DryOption *was, gboolean prices,
                                   gboolean why) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
