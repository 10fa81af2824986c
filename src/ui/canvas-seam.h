/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards and seams on the board: a seam can be grabbed wherever boards are shown, and the boards of
 * the selected wall picked once one of its pieces is. Nobody but canvas*.c includes this. */
#pragma once

#include "ui/canvas-private.h"
#include "ui/pieces.h"

G_BEGIN_DECLS

/* What of the boards lies under the pointer where nothing else does but the wall `object` (0: not
 * even that); FALSE when nothing is meant. `on_stud`: a stud is under it too. */
gboolean dry_canvas_pick_piece (DryCanvas *self, double x, double y, DryId object, gboolean on_stud,
                                DryPieceRef *piece);
/* Selects it and notes the press: a drag takes a seam up. */
void dry_canvas_press_piece (DryCanvas *self, const DryPieceRef *piece);
/* Takes the selected seam in hand, to be put down by a click. FALSE when none is selected. */
gboolean dry_canvas_begin_move_seam (DryCanvas *self);
/* What of the hand is a seam's: begun, pointed somewhere, stepped by keys. */
void dry_canvas_take_seam (DryCanvas *self, const DryPieceRef *piece, gboolean sticky);
DryPoint dry_canvas_seam_grab (DryCanvas *self, double x, double y);
void dry_canvas_drag_seam (DryCanvas *self, double x, double y, gboolean freely);
void dry_canvas_step_seam (DryCanvas *self, DryLength dx, DryLength dy);
/* Where the piece is drawn; 0 when it is not. */
guint dry_canvas_piece_shapes (DryCanvas *self, const DryPieceRef *piece, DryShape shapes[1]);
const char *dry_canvas_seam_cursor (const DryPieceRef *piece);

void dry_canvas_paint_pieces (DryCanvas *self, GtkSnapshot *snapshot, gboolean focused);
void dry_canvas_paint_seam (DryCanvas *self, GtkSnapshot *snapshot); /* the one in hand */

G_END_DECLS
