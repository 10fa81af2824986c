/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board: one canvas with the plan above and the strip of unrolled faces below, painted from the
 * session's scene and edited in place. Knows no file and no panel; all it changes goes through the
 * session. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_CANVAS (dry_canvas_get_type ())
G_DECLARE_FINAL_TYPE (DryCanvas, dry_canvas, DRY, CANVAS, GtkWidget)

GtkWidget *dry_canvas_new (DrySession *session);

/* Takes a catalogue item in hand: a ghost stands at a sensible place and follows the pointer; a
 * click, Enter or a drop puts it down, Escape puts it away. A tile is laid at once. */
void dry_canvas_begin_place (DryCanvas *self, const char *item);
/* Takes an object of the room in hand in the same way: pick it, click the new place. */
void dry_canvas_begin_move (DryCanvas *self, DryId object);
/* Shows the best places of the selected niche, fitting, bar or seat as ghosts to choose from. FALSE
 * when nothing selected has any. */
gboolean dry_canvas_show_places (DryCanvas *self);
gboolean dry_canvas_has_places (DryCanvas *self); /* the selection is a part with such advice */
/* Opens the entry for a distance to what is beside the thing in hand or selected. */
void dry_canvas_begin_distance (DryCanvas *self);
/* Draws a new outline corner by corner on the plan. */
void dry_canvas_begin_outline (DryCanvas *self);
/* Ends whatever is in hand and puts everything back. TRUE when there was something. */
gboolean dry_canvas_cancel (DryCanvas *self);

void dry_canvas_fit_all (DryCanvas *self);
void dry_canvas_fit_selection (DryCanvas *self);
/* Turns to the next or the previous of plan and faces, which then fills the board. */
void dry_canvas_walk_faces (DryCanvas *self, gint step);
void dry_canvas_turn_to (DryCanvas *self, DryId wall);
/* Name of the face turned to; NULL when everything is shown. Borrowed from the scene. */
const char *dry_canvas_facing_name (DryCanvas *self);
/* Larger than 1 zooms in, about the middle of what is seen. */
void dry_canvas_zoom_by (DryCanvas *self, double factor);
/* Pans, only if need be, until the object can be seen. */
void dry_canvas_reveal (DryCanvas *self, DryId object);
/* Gives the keyboard to the object's place on the board (or the board itself when 0). */
void dry_canvas_focus_object (DryCanvas *self, DryId object);

G_END_DECLS
