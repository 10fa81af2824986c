/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row with one length to type in any usual form; it echoes how the text is read and says what is
 * wrong. Knows units and limits, not what the length is for. */
#pragma once

#include <adwaita.h>

#include "base/length.h"

G_BEGIN_DECLS

#define DRY_TYPE_LENGTH_ROW (dry_length_row_get_type ())
G_DECLARE_FINAL_TYPE (DryLengthRow, dry_length_row, DRY, LENGTH_ROW, AdwActionRow)

/* Signal "entered" (no arguments): a valid length other than the shown one was typed and confirmed
 * by Enter or by leaving the row; read it with dry_length_row_get_value(). */
GtkWidget *dry_length_row_new (const char *title);
void dry_length_row_set_limits (DryLengthRow *self, DryLength minimum, DryLength maximum);
/* `zero_text` is shown for 0 instead of a number ("to the ceiling"); typing it or nothing means 0.
 */
void dry_length_row_set_zero_text (DryLengthRow *self, const char *zero_text);
/* How lengths are written and what a bare number means. */
void dry_length_row_set_format (DryLengthRow *self, const DryLengthFormat *format,
                                DryUnit bare_unit);
void dry_length_row_set_value (DryLengthRow *self, DryLength value); /* keeps what is being typed */
DryLength dry_length_row_get_value (DryLengthRow *self);
void dry_length_row_confirm (DryLengthRow *self); /* enters what is being typed, as leaving does */
void dry_length_row_set_hint (DryLengthRow *self,
                              const char *hint); /* subtitle while nothing is typed */

G_END_DECLS
