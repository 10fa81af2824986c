/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The small entry on the board: a typed number becomes the distance to the neighbor on one side of
 * what is in hand or selected. */
#pragma once

#include "ui/canvas-private.h"

G_BEGIN_DECLS

gboolean dry_entry_is_open (DryCanvas *self);
/* A key press: a digit opens it when something can be measured. TRUE when it was used. */
gboolean dry_entry_key (DryCanvas *self, guint key, GdkModifierType state);
void dry_entry_close (DryCanvas *self);
DryNeighbourSide dry_entry_side (DryCanvas *self);
void dry_entry_allocate (DryCanvas *self);
void dry_entry_snapshot (DryCanvas *self, GtkSnapshot *snapshot);

G_END_DECLS
