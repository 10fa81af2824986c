/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slopes as people write and read them: a fall in inches a foot, in per cent, as a ratio or an
 * angle; kept as rise over run. No locale but the decimal mark given; knows no rule of the trade.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* "1/4 in/ft", "1/4\" per foot", "20 mm per m", "2 %", "1:48", "1/4 in : 12 in", "1.2°". A bare
 * number is in inches a foot, or in per cent when `metric` says so. Point and comma both count as
 * decimal mark. FALSE for anything else, for a fall the other way (below 0) and for one as steep as
 * a wall; `slope`, rise over run, is then left alone. */
gboolean dry_slope_parse (const char *text, gboolean metric, double *slope);

/* "1/4 in/ft" to the nearest 1/64 where that is within a thousandth of an inch, else "0.23 in/ft"
 * to a thousandth; `metric`: "2.08 %" to a hundredth. Without zeros at the end. g_free() it. */
char *dry_slope_format (double slope, gboolean metric, char decimal) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
