/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimal numbers as people read them. Knows no unit and no locale but the decimal mark given. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* At most `places` (0 to 9) after the mark, without zeros at the end, and no "-0". With a comma,
 * "1,562" could be 1562: a fourth place leaves one reading, "1,5620". g_free() it. */
char *dry_decimals_format (double value, guint places, char decimal) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
