/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards and seams of a wall, one by one: which there are, how they are called, and acts on a seam.
 * A seam is moved by a wish for it, and given back to the plan by taking the wish away. Knows no
 * widget. */
#pragma once

#include "ui/session.h"

G_BEGIN_DECLS

/* Boards, then seams of the wall's faces, each from left to right. DryPieceRef; free with
 * g_array_unref(). `plan` may be NULL: none. */
GArray *dry_pieces_list (const DryPlan *plan, DryId wall) G_GNUC_WARN_UNUSED_RESULT;
gboolean dry_piece_equal (const DryPieceRef *a, const DryPieceRef *b);
/* Whether both points lie on the same board or seam of the plan. */
gboolean dry_piece_meant_same (const DryPlan *plan, const DryPieceRef *a, const DryPieceRef *b);

/* What the plan has there; NULL when nothing or the reference is to the other kind. Borrowed. */
const DryBoard *dry_piece_get_board (const DryPlan *plan, const DryPieceRef *self);
const DrySeam *dry_piece_get_seam (const DryPlan *plan, const DryPieceRef *self);
/* The wish behind a seam; NULL: the plan chose it. */
const DrySeamWish *dry_piece_get_wish (const DryRoom *room, const DryPlan *plan,
                                       const DryPieceRef *self);
/* On its face; a seam has no width. FALSE when there is nothing there now. */
gboolean dry_piece_get_rect (const DryPlan *plan, const DryRoom *room, const DryPieceRef *self,
                             DryRect *rect);
/* u of an upright seam, z of a level one. */
DryLength dry_piece_get_at (const DryPieceRef *self);
/* The same seam moved to there. */
DryPieceRef dry_piece_moved_to (const DryPieceRef *self, DryLength at);
/* The seam of a wish, laid or not. */
DryPieceRef dry_piece_of_wish (const DrySeamWish *wish);

/* The sheet a board is cut from: its number from 1 and what it is; 0 when it fits none. */
guint dry_piece_find_sheet (const DryPlan *plan, const DryBoard *board, const DryStock **stock);

/* "Board B2", "Upright seam at 32\""; "Back wall, 48\" × 80\"", "wished, on the stud". Free. */
char *dry_piece_name (DrySession *session, const DryPieceRef *self);
char *dry_piece_place (DrySession *session, const DryPieceRef *self);

/* A project with the seam wished at `at`; the wish's id goes to `id`. `plan` is of `project`. */
DryProject *dry_piece_wish_at (const DryProject *project, const DryRoom *room, const DryPlan *plan,
                               const DryPieceRef *self, DryLength at, DryId *id, GError **error);
/* The next place in a direction where an upright seam breaks no rule; FALSE when there is none. */
gboolean dry_piece_next_place (const DryPlan *plan, const DryPieceRef *self, gint direction,
                               DryLength *at);

/* The offcut of a sheet of the plan, both counted from 0, goes to the boards on hand of another
 * room. */
gboolean dry_act_keep_offcut (DrySession *session, guint sheet, guint offcut, DryId room);
/* A menu of that for every offcut of the sheet and every other room; empty when there is none. */
GMenuModel *dry_offcuts_menu (DrySession *session, guint sheet) G_GNUC_WARN_UNUSED_RESULT;
/* Acts on the selected seam, each one undo step. TRUE when done. */
gboolean dry_act_move_seam (DrySession *session, DryLength at, gboolean merge);
gboolean dry_act_nudge_seam (DrySession *session, DryLength by);
gboolean dry_act_step_seam (DrySession *session, gint direction); /* to the next stud */
gboolean dry_act_release_seam (DrySession *session);
gboolean dry_act_release_seams (DrySession *session); /* all of the selected wall */

G_END_DECLS
