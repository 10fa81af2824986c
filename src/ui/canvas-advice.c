/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Advice on the board: bands that glow while a part is in hand, the pull of the best place near by,
 * ghosts of the best places. What a place is worth is the advisor's business. */
#include "ui/canvas-advice.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/actions.h"
#include "ui/canvas-mark.h"
#include "ui/later.h"

#define GHOSTS       5
#define GHOST_LEAST  26 /* px */
#define PANEL_MARGIN 14

struct _DryCanvasAdvice {
  DryAdvice *advice; /* of the part in hand, or of the ghosts */
  DryId object;
  GtkWidget *panel;
  graphene_rect_t panel_area;
  gboolean told; /* the panel has something to say */

  GskRenderNode *bands; /* recorded for this scene and view */
  DryScene *scene;
  DryTransform view;

  DryArena *arena; /* of the places */
  const DryAdvicePlace *places;
  GtkWidget *ghosts[GHOSTS];
  guint n_ghosts;
  gulong project_changed, selection_changed;
};

static DryCanvasAdvice *
ensure (DryCanvas *self)
{
  if (self->advice == NULL)
    self->advice = g_new0 (DryCanvasAdvice, 1);
  return self->advice;
}

static void
drop_bands (DryCanvasAdvice *state)
{
  g_clear_pointer (&state->bands, gsk_render_node_unref);
  g_clear_pointer (&state->scene, dry_scene_unref);
}

static void
show_panel (DryCanvas *self, const DryAdvicePlace *place)
{
  DryCanvasAdvice *state = ensure (self);

  if (state->panel == NULL) {
    state->panel = dry_advice_panel_new ();
    gtk_widget_set_parent (state->panel, GTK_WIDGET (self));
  }
  dry_advice_panel_tell (state->panel, state->advice, place);
  state->told = TRUE;
  gtk_widget_set_visible (state->panel, TRUE);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

static void
hide_panel (DryCanvasAdvice *state)
{
  state->told = FALSE;
  if (state->panel != NULL)
    gtk_widget_set_visible (state->panel, FALSE);
}

static DryAdvice *
ask (DryCanvas *self, const DryProject *project, DryId object)
{
  const DryRoom *room = dry_project_get_room (project, dry_session_get_room_id (self->session));
  const DryPart *part = room != NULL ? dry_room_get_part (room, object) : NULL;
  DryAdviceOptions options = dry_advice_user_options ();

  if (part == NULL || !dry_advice_places_kind (part->kind))
    return NULL;
  return dry_advice_new (project, room->id, part, dry_session_get_catalog (self->session), &options,
                         NULL, NULL);
}

/* --- in hand --- */

void
dry_advice_begin (DryCanvas *self)
{
  DryCanvasAdvice *state;

  if (self->hand.kind != DRY_HAND_PART)
    return;
  dry_advice_hide_places (self);
  state = ensure (self);
  state->advice = ask (self, self->hand.base, self->hand.object);
  state->object = self->hand.object;
}

void
dry_advice_end (DryCanvas *self)
{
  DryCanvasAdvice *state = self->advice;

  if (state == NULL || state->n_ghosts > 0)
    return;
  g_clear_pointer (&state->advice, dry_advice_unref);
  drop_bands (state);
  hide_panel (state);
}

/* What held there and did not hold where it was pointed to: the dearest of it. */
static const char *
name_reason (DryCanvasAdvice *state, const DryAdviceFace *face, DryPoint from, DryPoint to)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryAdvicePlace was = dry_advice_judge (state->advice, arena, face->wall, face->side, from);
  DryAdvicePlace is = dry_advice_judge (state->advice, arena, face->wall, face->side, to);

  for (guint i = 0; i < was.n_reasons && !was.reasons[i].holds; i++)
    for (guint k = 0; k < is.n_reasons; k++)
      if (is.reasons[k].kind == was.reasons[i].kind && is.reasons[k].holds)
        return dry_advice_kind_title (is.reasons[k].kind); /* in the catalogue of texts too */
  return N_ ("Best place near by");
}

void
dry_advice_attract (DryCanvas *self, DryPoint at, gboolean lock_z, DryLength reach, DrySnap *snap)
{
  DryCanvasAdvice *state = self->advice;
  const DryAdviceFace *face;
  DryPoint snapped = {at.x + snap->du, at.y + snap->dz}, to;
  double there, here;

  if (state == NULL || state->advice == NULL || reach <= 0)
    return;
  face = dry_advice_get_face (state->advice, self->hand.wall, self->hand.side);
  if (face == NULL || !dry_advice_snap (state->advice, face, at, reach, lock_z, &to))
    return;
  there = dry_advice_reckon (state->advice, face, to);
  here = dry_advice_reckon (state->advice, face, snapped);
  if (here >= 0 && here <= there + 1e-9) /* what it snapped to is as good */
    return;
  *snap = (DrySnap){.du = to.x - at.x, .dz = lock_z ? snap->dz : to.y - at.y};
  snap->u_reason = name_reason (state, face, at, to);
  snap->u_line = to.x;
}

static void
follow_now (GtkWidget *widget)
{
  DryCanvas *self = DRY_CANVAS (widget);
  const DryRoom *room = dry_session_get_room (self->session);
  const DryPart *part = room != NULL ? dry_room_get_part (room, self->hand.object) : NULL;
  g_autoptr (DryArena) arena = NULL;
  DryAdvicePlace place;

  if (self->advice == NULL || self->advice->advice == NULL || part == NULL)
    return;
  arena = dry_arena_new ();
  place = dry_advice_judge (self->advice->advice, arena, part->wall, part->side,
                            (DryPoint){part->u, part->z});
  show_panel (self, &place);
}

/* Words may come a frame after the thing they are about. */
void
dry_advice_follow (DryCanvas *self)
{
  if (self->advice != NULL && self->advice->advice != NULL)
    dry_later_after_frame (GTK_WIDGET (self), follow_now);
}

/* --- ghosts --- */

static void
on_document_changed (DrySession *session, DryCanvas *self)
{
  dry_advice_hide_places (self);
}

void
dry_advice_hide_places (DryCanvas *self)
{
  DryCanvasAdvice *state = self->advice;
  gboolean focused = FALSE;

  if (state == NULL || state->n_ghosts == 0)
    return;
  g_clear_signal_handler (&state->project_changed, self->session);
  g_clear_signal_handler (&state->selection_changed, self->session);
  for (guint i = 0; i < state->n_ghosts; i++) {
    focused |= gtk_widget_has_focus (state->ghosts[i]);
    gtk_widget_unparent (state->ghosts[i]);
  }
  state->n_ghosts = 0;
  state->places = NULL;
  g_clear_pointer (&state->arena, dry_arena_unref);
  dry_advice_end (self);
  if (focused)
    dry_canvas_focus_object (self, dry_session_get_selection (self->session));
  dry_canvas_redraw (self);
}

static void
choose_place (DryCanvas *self, guint index)
{
  DryCanvasAdvice *state = self->advice;
  const DryAdvicePlace *place = &state->places[index];
  const DryProject *project = dry_session_get_project (self->session);
  DryId object = state->object;
  g_autofree char *object_name = dry_object_name (self->session, object);
  g_autofree char *name = g_strdup_printf (_ ("Put %s at the best place"), object_name);
  GError *error = NULL;
  DryProject *moved = dry_advice_apply (state->advice, project, place, NULL, &error);

  dry_advice_hide_places (self);
  dry_session_apply (self->session, moved, name, NULL, error);
  dry_session_select (self->session, object);
  dry_canvas_focus_object (self, object);
}

static void
on_ghost_clicked (GtkButton *ghost, DryCanvas *self)
{
  for (guint i = 0; self->advice != NULL && i < self->advice->n_ghosts; i++)
    if (self->advice->ghosts[i] == GTK_WIDGET (ghost)) {
      choose_place (self, i);
      return;
    }
}

static void
on_ghost_seen (GtkWidget *ghost, DryCanvas *self)
{
  for (guint i = 0; self->advice != NULL && i < self->advice->n_ghosts; i++)
    if (self->advice->ghosts[i] == ghost)
      show_panel (self, &self->advice->places[i]);
  dry_canvas_redraw (self);
}

static void
on_ghost_focused (GtkWidget *ghost, GParamSpec *pspec, DryCanvas *self)
{
  if (gtk_widget_has_focus (ghost))
    on_ghost_seen (ghost, self);
}

static void
on_ghost_hovered (GtkEventControllerMotion *motion, double x, double y, DryCanvas *self)
{
  on_ghost_seen (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (motion)), self);
}

/* "Place 1 of 5: Back wall, 24" from its left end, 48" high. Score 94 of 100." */
static char *
describe_ghost (DryCanvas *self, guint index, guint n)
{
  const DryAdvicePlace *place = &self->advice->places[index];
  const DryAdviceFace *face = dry_advice_get_face (self->advice->advice, place->wall, place->side);
  g_autofree char *u = dry_session_format_length (self->session, place->u);
  g_autofree char *z = dry_session_format_length (self->session, place->z);

  return g_strdup_printf (
      _ ("Place %u of %u: %s, %s from its left end, %s high. Score %.0f of 100"), index + 1, n,
      face != NULL ? face->name : "", u, z, round (place->score));
}

static void
add_ghost (DryCanvas *self, guint index, guint n)
{
  g_autofree char *label = g_strdup_printf ("%u", index + 1);
  g_autofree char *name = describe_ghost (self, index, n);
  GtkWidget *ghost = gtk_button_new_with_label (label);
  GtkEventController *motion = gtk_event_controller_motion_new ();

  gtk_widget_add_css_class (ghost, "place-ghost");
  gtk_widget_set_tooltip_text (ghost, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (ghost), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (ghost, "clicked", G_CALLBACK (on_ghost_clicked), self);
  g_signal_connect (ghost, "notify::has-focus", G_CALLBACK (on_ghost_focused), self);
  g_signal_connect (motion, "enter", G_CALLBACK (on_ghost_hovered), self);
  gtk_widget_add_controller (ghost, motion);
  gtk_widget_set_parent (ghost, GTK_WIDGET (self));
  self->advice->ghosts[index] = ghost;
}

gboolean
dry_advice_show_places (DryCanvas *self)
{
  DryId object = dry_session_get_selection (self->session);
  DryCanvasAdvice *state;
  guint n = 0;

  dry_canvas_cancel (self);
  dry_advice_hide_places (self);
  state = ensure (self);
  state->advice = ask (self, dry_session_get_project (self->session), object);
  if (state->advice == NULL)
    return FALSE;
  state->object = object;
  state->arena = dry_arena_new ();
  state->places = dry_advice_find_best (state->advice, state->arena,
                                        (DryAdviceFreedom){.datum = TRUE}, GHOSTS, &n);
  if (n == 0) {
    g_clear_pointer (&state->arena, dry_arena_unref);
    dry_advice_end (self);
    return FALSE;
  }
  for (guint i = 0; i < n; i++)
    add_ghost (self, i, n);
  state->n_ghosts = n;
  state->project_changed =
      g_signal_connect (self->session, "project-changed", G_CALLBACK (on_document_changed), self);
  state->selection_changed =
      g_signal_connect (self->session, "selection-changed", G_CALLBACK (on_document_changed), self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_grab_focus (state->ghosts[0]);
  dry_canvas_redraw (self);
  return TRUE;
}

gboolean
dry_canvas_show_places (DryCanvas *self)
{
  return dry_advice_show_places (self);
}

gboolean
dry_canvas_has_places (DryCanvas *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryPart *part =
      room != NULL ? dry_room_get_part (room, dry_session_get_selection (self->session)) : NULL;

  return part != NULL && dry_advice_places_kind (part->kind);
}

static guint
focused_ghost (DryCanvasAdvice *state)
{
  for (guint i = 0; i < state->n_ghosts; i++)
    if (gtk_widget_has_focus (state->ghosts[i]))
      return i;
  return state->n_ghosts;
}

gboolean
dry_advice_key (DryCanvas *self, guint key)
{
  DryCanvasAdvice *state = self->advice;
  guint n = state != NULL ? state->n_ghosts : 0, at;

  if (n == 0)
    return FALSE;
  at = focused_ghost (state);
  switch (key) {
  case GDK_KEY_Escape:
    dry_advice_hide_places (self);
    return TRUE;
  case GDK_KEY_Tab:
  case GDK_KEY_Right:
  case GDK_KEY_Down:
    gtk_widget_grab_focus (state->ghosts[at < n ? (at + 1) % n : 0]);
    return TRUE;
  case GDK_KEY_ISO_Left_Tab:
  case GDK_KEY_Left:
  case GDK_KEY_Up:
    gtk_widget_grab_focus (state->ghosts[at < n ? (at + n - 1) % n : n - 1]);
    return TRUE;
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
  case GDK_KEY_ISO_Enter:
  case GDK_KEY_space:
    if (at >= n)
      return FALSE;
    choose_place (self, at);
    return TRUE;
  default:
    if (key >= GDK_KEY_1 && key < GDK_KEY_1 + n) {
      choose_place (self, key - GDK_KEY_1);
      return TRUE;
    }
    return FALSE;
  }
}

/* --- where they stand --- */

static gboolean
find_spots (DryCanvas *self, const DryAdvicePlace *place, DrySpot *a, DrySpot *b)
{
  gint view = dry_canvas_find_view (self, FALSE, place->wall, place->side);
  DryPart part;
  DryRect rect;
  DryPoint o;

  if (view < 0 || self->scene == NULL)
    return FALSE;
  part = *dry_advice_get_part (self->advice->advice);
  part.u = place->u;
  part.z = place->z;
  part.width = place->width;
  part.height = place->height;
  rect = dry_part_rect (&part);
  o = self->scene->views[view].origin;
  *a = dry_mark_spot (self, (DryPoint){o.x + rect.x0, o.y + rect.y1});
  *b = dry_mark_spot (self, (DryPoint){o.x + rect.x1, o.y + rect.y0});
  return TRUE;
}

static void
allocate_ghost (DryCanvas *self, guint index)
{
  DrySpot a = {0}, b = {1, 1};
  int width, height, least;
  double x, y;

  find_spots (self, &self->advice->places[index], &a, &b);
  gtk_widget_measure (self->advice->ghosts[index], GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL,
                      NULL, NULL);
  width = MAX (MAX ((int) (b.x - a.x), least), GHOST_LEAST);
  gtk_widget_measure (self->advice->ghosts[index], GTK_ORIENTATION_VERTICAL, width, &least, NULL,
                      NULL, NULL);
  height = MAX (MAX ((int) (b.y - a.y), least), GHOST_LEAST);
  x = CLAMP ((a.x + b.x - width) / 2, -20000, 20000);
  y = CLAMP ((a.y + b.y - height) / 2, -20000, 20000);
  gtk_widget_allocate (self->advice->ghosts[index], width, height, -1,
                       gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) x, (float) y)));
}

/* At the top, on the side away from the pointer's half, so that it never lies on what is moved. */
static void
allocate_panel (DryCanvas *self)
{
  DryCanvasAdvice *state = self->advice;
  int width, height, all = gtk_widget_get_width (GTK_WIDGET (self));
  gboolean left = self->hand.kind != DRY_HAND_EMPTY && self->pointer_x > all / 2.0 &&
                  self->pointer_y < gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  double x, y = PANEL_MARGIN;

  gtk_widget_measure (state->panel, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  gtk_widget_measure (state->panel, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  x = left ? PANEL_MARGIN : MAX (PANEL_MARGIN, all - width - PANEL_MARGIN);
  state->panel_area = GRAPHENE_RECT_INIT ((float) x, (float) y, (float) width, (float) height);
  gtk_widget_allocate (state->panel, width, height, -1,
                       gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) x, (float) y)));
}

void
dry_advice_allocate (DryCanvas *self)
{
  if (self->advice == NULL)
    return;
  for (guint i = 0; i < self->advice->n_ghosts; i++)
    allocate_ghost (self, i);
  if (self->advice->told)
    allocate_panel (self);
}

/* --- painting --- */

static void
record_bands (DryCanvas *self)
{
  DryCanvasAdvice *state = self->advice;
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));
  cairo_surface_t *image = dry_advice_picture (self, state->advice, width, height);
  cairo_t *cr;

  drop_bands (state);
  state->bands = gsk_cairo_node_new (&GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  state->scene = dry_scene_ref (self->scene);
  state->view = self->view;
  cr = gsk_cairo_node_get_draw_context (state->bands);
  cairo_set_source_surface (cr, image, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (image);
}

void
dry_advice_paint_bands (DryCanvas *self, GtkSnapshot *snapshot)
{
  DryCanvasAdvice *state = self->advice;

  if (state == NULL || state->advice == NULL)
    return;
  if (state->bands == NULL || state->view.x != self->view.x || state->view.y != self->view.y ||
      state->view.scale != self->view.scale || state->scene->n_views != self->scene->n_views)
    record_bands (self);
  gtk_snapshot_append_node (snapshot, state->bands);
}

void
dry_advice_paint_panel (DryCanvas *self, GtkSnapshot *snapshot)
{
  DryCanvasAdvice *state = self->advice;
  const DryStyle *style = dry_screen_style ();
  GdkRGBA ground = dry_mark_colour (style->inks[DRY_INK_PAPER], 0.95);
  GdkRGBA edge = dry_mark_colour (style->inks[DRY_INK_TEXT], 0.25);
  GskRoundedRect box;

  if (state == NULL)
    return;
  for (guint i = 0; i < state->n_ghosts; i++)
    gtk_widget_snapshot_child (GTK_WIDGET (self), state->ghosts[i], snapshot);
  if (!state->told)
    return;
  gsk_rounded_rect_init_from_rect (&box, &state->panel_area, 9);
  gtk_snapshot_append_outset_shadow (snapshot, &box, &(GdkRGBA){0, 0, 0, 0.22f}, 0, 2, 0, 6);
  gtk_snapshot_push_rounded_clip (snapshot, &box);
  gtk_snapshot_append_color (snapshot, &ground, &box.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &box, (float[]){1, 1, 1, 1},
                              (GdkRGBA[]){edge, edge, edge, edge});
  gtk_widget_snapshot_child (GTK_WIDGET (self), state->panel, snapshot);
}

void
dry_advice_dispose (DryCanvas *self)
{
  DryCanvasAdvice *state = self->advice;

  if (state == NULL)
    return;
  dry_advice_hide_places (self);
  dry_advice_end (self);
  g_clear_pointer (&state->panel, gtk_widget_unparent);
  g_clear_pointer (&self->advice, g_free);
}
