/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards and seams on the board: picked, dragged to where a stud or a whole sheet wants them, and
 * painted with what the place does to the sheets. The edits are those of pieces.h. */
#include "ui/canvas-seam.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/canvas-mark.h"

#define SURE_REACH 5.0 /* px beside a seam where it is meant, whatever else is there */
#define SNAP_REACH 9.0
#define GRID_REACH 4.0

static gboolean
are_boards_shown (DryCanvas *self)
{
  return self->scene != NULL && self->plan != NULL &&
         (dry_session_get_layers (self->session) & 1u << DRY_LAYER_BOARDS) != 0;
}

/* --- under the pointer --- */

static double
distance_to_seam (const DrySeam *seam, DryPoint p)
{
  DryPoint near = {CLAMP (p.x, seam->from.x, seam->to.x), CLAMP (p.y, seam->from.y, seam->to.y)};

  return hypot ((double) (p.x - near.x), (double) (p.y - near.y));
}

/* Half of the 44 px a seam can be hit in, less where boards are drawn so small that nothing of them
 * would be left. */
static double
reach_of_seam (DryCanvas *self, const DryFace *face)
{
  double narrowest = 4 * HANDLE_REACH;

  for (guint i = 0; i < self->plan->boards->n; i++) {
    const DryBoard *board = &self->plan->boards->items[i];
    DryLength side = MIN (dry_rect_width (board->bounds), dry_rect_height (board->bounds));

    if (board->face == face->index)
      narrowest = MIN (narrowest, (double) side * self->view.scale);
  }
  return CLAMP (narrowest / 4, SURE_REACH + 1, HANDLE_REACH);
}

static const DrySeam *
pick_seam (DryCanvas *self, const DryFace *face, DryPoint p, double reach, double *away)
{
  const DrySeam *best = NULL;

  *away = reach / self->view.scale;
  for (guint i = 0; i < self->plan->boards->n_seams; i++) {
    const DrySeam *seam = &self->plan->boards->seams[i];
    double distance = seam->face == face->index ? distance_to_seam (seam, p) : *away;

    if (distance >= *away)
      continue;
    *away = distance;
    best = seam;
  }
  *away *= self->view.scale;
  return best;
}

static DryPieceRef
ref_to (const DryFace *face, DryPieceKind kind, gboolean level, DryPoint at)
{
  return (DryPieceRef){
      .kind = kind, .wall = face->wall, .side = face->side, .level = level, .at = at};
}

gboolean
dry_canvas_pick_piece (DryCanvas *self, double x, double y, DryId object, gboolean on_stud,
                       DryPieceRef *piece)
{
  const DryPieceRef *selected = dry_session_get_selected_piece (self->session);
  const DryFace *face;
  const DrySeam *seam;
  DryPlace place;
  double away;

  *piece = (DryPieceRef){0};
  if (!are_boards_shown (self) || !dry_canvas_locate (self, x, y, &place) || place.plan ||
      (object != 0 && object != place.wall))
    return FALSE;
  face = dry_faces_get_wall (self->plan->faces, place.wall, place.side);
  if (face == NULL)
    return FALSE;
  seam = pick_seam (self, face, place.local, reach_of_seam (self, face), &away);
  if (seam != NULL && (!on_stud || away <= SURE_REACH || selected != NULL)) {
    *piece = ref_to (face, DRY_PIECE_SEAM, !seam->vertical,
                     (DryPoint){seam->from.x + (seam->to.x - seam->from.x) / 2,
                                seam->from.y + (seam->to.y - seam->from.y) / 2});
    return TRUE;
  }
  /* Boards only once the wall's pieces are looked at: else its face is the wall. */
  if (on_stud || selected == NULL || selected->wall != place.wall)
    return FALSE;
  *piece = ref_to (face, DRY_PIECE_BOARD, FALSE, place.local);
  return dry_piece_get_board (self->plan, piece) != NULL;
}

void
dry_canvas_press_piece (DryCanvas *self, const DryPieceRef *piece)
{
  dry_session_select_piece (self->session, piece);
  dry_canvas_focus_object (self, piece->wall);
  self->press.object = piece->wall;
  self->press.piece = *piece;
  self->press.kind = piece->kind == DRY_PIECE_SEAM ? DRY_HAND_SEAM : DRY_HAND_PAN;
}

const char *
dry_canvas_seam_cursor (const DryPieceRef *piece)
{
  return piece->kind == DRY_PIECE_BOARD ? "pointer" : piece->level ? "ns-resize" : "ew-resize";
}

guint
dry_canvas_piece_shapes (DryCanvas *self, const DryPieceRef *piece, DryShape shapes[1])
{
  gint view = dry_canvas_find_view (self, FALSE, piece->wall, piece->side);
  DryRect r;
  DryPoint o;

  if (view < 0 || !dry_piece_get_rect (self->plan, dry_session_get_room (self->session), piece, &r))
    return 0;
  /* A seam is as thick as can be seen. */
  if (piece->kind == DRY_PIECE_SEAM && piece->level)
    r = (DryRect){r.x0, r.y0 - dry_canvas_pixels (self, 3), r.x1,
                  r.y1 + dry_canvas_pixels (self, 3)};
  else if (piece->kind == DRY_PIECE_SEAM)
    r = (DryRect){r.x0 - dry_canvas_pixels (self, 3), r.y0, r.x1 + dry_canvas_pixels (self, 3),
                  r.y1};
  o = self->scene->views[view].origin;
  shapes[0] = (DryShape){.view = view,
                         .points = {{o.x + r.x0, o.y + r.y0},
                                    {o.x + r.x1, o.y + r.y0},
                                    {o.x + r.x1, o.y + r.y1},
                                    {o.x + r.x0, o.y + r.y1}}};
  return 1;
}

/* --- in hand --- */

void
dry_canvas_take_seam (DryCanvas *self, const DryPieceRef *piece, gboolean sticky)
{
  const DryProject *base = dry_session_get_project (self->session);
  const DrySeamWish *wish =
      dry_piece_get_wish (dry_session_get_room (self->session), self->plan, piece);
  /* A new wish gets the next number, every time it is tried from the same base. */
  DryId id = wish != NULL ? wish->id : dry_project_get_next_id (base);
  DryPieceRef ref = *piece;

  dry_hand_take (self, DRY_HAND_SEAM, id, base, _ ("Move seam"));
  self->hand.piece = self->hand.piece_now = ref;
  self->hand.sticky = sticky;
  if (!dry_piece_get_rect (self->plan, dry_hand_room (self), &ref, &self->hand.rect))
    self->hand.rect = (DryRect){ref.at.x, ref.at.y, ref.at.x, ref.at.y};
}

gboolean
dry_canvas_begin_move_seam (DryCanvas *self)
{
  const DryPieceRef *piece = dry_session_get_selected_piece (self->session);

  if (piece == NULL || piece->kind != DRY_PIECE_SEAM || self->plan == NULL)
    return FALSE;
  dry_canvas_take_seam (self, piece, TRUE);
  dry_canvas_focus_object (self, piece->wall);
  dry_canvas_update_cursor (self);
  dry_canvas_redraw (self);
  return TRUE;
}

/* u or z at a place of the widget, meant on the seam's face wherever the pointer strays. */
static gboolean
along_of (DryCanvas *self, double x, double y, DryLength *along)
{
  const DryPieceRef *piece = &self->hand.piece;
  gint view = dry_canvas_find_view (self, FALSE, piece->wall, piece->side);
  DryPoint at = dry_canvas_to_scene (self, x, y);

  if (view < 0)
    return FALSE;
  *along = piece->level ? at.y - self->scene->views[view].origin.y
                        : at.x - self->scene->views[view].origin.x;
  return TRUE;
}

DryPoint
dry_canvas_seam_grab (DryCanvas *self, double x, double y)
{
  DryLength along;

  if (!along_of (self, x, y, &along))
    return (DryPoint){0, 0};
  return (DryPoint){along - dry_piece_get_at (&self->hand.piece), 0};
}

static void
offer (DryCanvas *self, DryLength place, DrySeamSnap kind, DryLength wanted, DryLength *best)
{
  DryLength away = ABS (place - wanted);

  if (away > *best)
    return;
  *best = away;
  self->hand.seam_snap = kind;
  self->hand.snap.u_line = place;
}

/* A whole sheet between the seam and the edge of what is boarded. */
static void
offer_whole_sheets (DryCanvas *self, const DryFace *face, DryLength wanted, DryLength *best)
{
  const DrySystem *system = self->plan->context.system;
  DryRect r = dry_region_bounds (&face->region);
  gboolean level = self->hand.piece.level;
  DryLength low = level ? r.y0 : r.x0, high = level ? r.y1 : r.x1;
  DryLength gap_low = system->joint_gap / 2, gap_high = system->joint_gap - gap_low;

  for (guint i = 0; i < system->n_sheets; i++)
    for (guint turned = 0; turned < 2; turned++) {
      DryLength size = (turned == 1) == level ? system->sheets[i].width : system->sheets[i].height;

      if (system->directional && turned == 1)
        continue;
      offer (self, low + size + gap_low, DRY_SEAM_SNAP_WHOLE, wanted, best);
      offer (self, high - size - gap_high, DRY_SEAM_SNAP_WHOLE, wanted, best);
    }
}

/* Studs first, then whole sheets and the place the plan chose, then the grid. */
static DryLength
snap_seam (DryCanvas *self, DryLength wanted, gboolean freely)
{
  const DryPieceRef *piece = &self->hand.piece;
  const DryPlan *plan = self->hand.before;
  const DryFace *face =
      plan != NULL ? dry_faces_get_wall (plan->faces, piece->wall, piece->side) : NULL;
  DryLength best = dry_canvas_pixels (self, SNAP_REACH);
  DryLength grid = dry_snap_grid (dry_project_get_job (self->hand.base)->metric,
                                  dry_canvas_pixels (self, GRID_REACH));

  self->hand.seam_snap = DRY_SEAM_SNAP_NONE;
  if (freely || face == NULL)
    return wanted;
  if (!piece->level) {
    g_autoptr (GArray) places = dry_boards_list_seam_places (
        &plan->context, face, plan->framing, self->hand.rect.y0, self->hand.rect.y1);

    for (guint i = 0; i < places->len; i++)
      offer (self, g_array_index (places, DrySeamPlace, i).at, DRY_SEAM_SNAP_STUD, wanted, &best);
  }
  if (self->hand.seam_snap == DRY_SEAM_SNAP_NONE) {
    offer_whole_sheets (self, face, wanted, &best);
    offer (self, dry_piece_get_at (piece), DRY_SEAM_SNAP_BACK, wanted, &best);
  }
  if (self->hand.seam_snap != DRY_SEAM_SNAP_NONE)
    return self->hand.snap.u_line;
  return (DryLength) (round ((double) wanted / (double) grid)) * grid;
}

static void
wish_at (DryCanvas *self, DryLength at)
{
  GError *error = NULL;
  DryProject *next;

  self->hand.piece_now = dry_piece_moved_to (&self->hand.piece, at);
  /* Put back where it was, nothing is wished. */
  if (at == dry_piece_get_at (&self->hand.piece))
    next = dry_project_ref (self->hand.base);
  else
    next = dry_piece_wish_at (self->hand.base, dry_hand_room (self), self->hand.before,
                              &self->hand.piece, at, NULL, &error);
  dry_hand_show (self, next, error);
}

void
dry_canvas_drag_seam (DryCanvas *self, double x, double y, gboolean freely)
{
  DryLength along;

  if (along_of (self, x, y, &along))
    wish_at (self, snap_seam (self, along - self->hand.grab.x, freely));
}

void
dry_canvas_step_seam (DryCanvas *self, DryLength dx, DryLength dy)
{
  self->hand.seam_snap = DRY_SEAM_SNAP_NONE;
  wish_at (self, dry_piece_get_at (&self->hand.piece_now) + (self->hand.piece.level ? dy : dx));
}

/* --- painted --- */

void
dry_canvas_paint_pieces (DryCanvas *self, GtkSnapshot *snapshot, gboolean focused)
{
  const DryPieceRef *selected = dry_session_get_selected_piece (self->session);
  gboolean held = self->hand.kind != DRY_HAND_EMPTY && self->hand.kind != DRY_HAND_PAN;
  DryShape shape[1];

  if (!are_boards_shown (self) || held)
    return;
  if (self->hover_piece.kind != DRY_PIECE_NONE &&
      dry_canvas_piece_shapes (self, &self->hover_piece, shape) > 0)
    dry_mark_shape (self, snapshot, &shape[0], dry_mark_accent (self, 0.55f), 1.5, 0.15f);
  if (selected == NULL || dry_canvas_piece_shapes (self, selected, shape) == 0)
    return;
  if (focused)
    dry_mark_shape (self, snapshot, &shape[0], dry_mark_accent (self, 0.35f), 7, 0);
  dry_mark_shape (self, snapshot, &shape[0], dry_mark_accent (self, 1), 2.5,
                  selected->kind == DRY_PIECE_SEAM ? 0.5f : 0.15f);
}

static char *
tell_sheets (DryCanvas *self)
{
  const DryCutting *now = self->plan != NULL ? self->plan->boards->cutting : NULL;
  const DryCutting *was = self->hand.before != NULL ? self->hand.before->boards->cutting : NULL;
  gint more;
  g_autofree char *count = NULL;

  if (now == NULL || was == NULL)
    return g_strdup ("");
  count = g_strdup_printf (ngettext ("%u sheet to buy", "%u sheets to buy", now->n_bought),
                           now->n_bought);
  more = (gint) now->n_bought - (gint) was->n_bought;
  if (more == 0)
    return g_steal_pointer (&count);
  /* Translators: "4 sheets to buy, 1 more than before" */
  return g_strdup_printf (more > 0 ? _ ("%s, %d more than before") : _ ("%s, %d fewer than before"),
                          count, ABS (more));
}

static char *
tell_place (DryCanvas *self)
{
  g_autofree char *at =
      dry_session_format_length (self->session, dry_piece_get_at (&self->hand.piece_now));

  switch (self->hand.seam_snap) {
  case DRY_SEAM_SNAP_STUD:
    return g_strdup_printf (_ ("Middle of the stud at %s"), at);
  case DRY_SEAM_SNAP_WHOLE:
    return g_strdup_printf (_ ("A whole sheet beside it, at %s"), at);
  case DRY_SEAM_SNAP_BACK:
    return g_strdup_printf (_ ("Where it was, at %s"), at);
  case DRY_SEAM_SNAP_NONE:
    break;
  }
  return g_strdup_printf (
      self->hand.piece.level ? _ ("%s above the floor") : _ ("%s from the left"), at);
}

void
dry_canvas_paint_seam (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DryPieceRef *now = &self->hand.piece_now;
  gint view = dry_canvas_find_view (self, FALSE, now->wall, now->side);
  DryRect r = self->hand.rect;
  DryLength at = dry_piece_get_at (now);
  DryPoint o;

  if (view < 0)
    return;
  o = self->scene->views[view].origin;
  DryPoint from = now->level ? (DryPoint){o.x + r.x0, o.y + at} : (DryPoint){o.x + at, o.y + r.y0};
  DryPoint to = now->level ? (DryPoint){o.x + r.x1, o.y + at} : (DryPoint){o.x + at, o.y + r.y1};

  dry_mark_line (snapshot, dry_mark_spot (self, from), dry_mark_spot (self, to),
                 dry_mark_accent (self, 1), 3, self->hand.seam_snap == DRY_SEAM_SNAP_NONE);
  if (self->hand.refusal != NULL || self->hand.sticky == FALSE || self->hand.changed) {
    g_autofree char *place = tell_place (self), *sheets = tell_sheets (self);
    g_autofree char *text = g_strdup_printf ("%s · %s", place, sheets);

    if (self->hand.refusal == NULL)
      dry_mark_chip (self, snapshot, dry_mark_foot (self, 0), text, DRY_CHIP_ACCENT);
  }
}
