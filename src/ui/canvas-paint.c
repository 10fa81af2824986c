/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Painting the board: the scene from its kept squares, selection and findings on top.
 * Changes nothing. */
#include "ui/canvas-advice.h"
#include "ui/canvas-distance.h"
#include "ui/canvas-entry.h"
#include "ui/canvas-mark.h"
#include "ui/canvas-seam.h"

#define ZOOM_RESTS 50 /* ms */

/* --- on top --- */

static void
draw_grips (DryCanvas *self, GtkSnapshot *snapshot)
{
  DryGripPlace grips[16];
  guint n = dry_canvas_grips (self, grips, 16);
  GdkRGBA paper = dry_mark_colour (dry_screen_style ()->inks[DRY_INK_PAPER], 1);
  GdkRGBA edge = dry_mark_accent (self, 1);

  for (guint i = 0; i < n; i++) {
    DrySpot at = dry_mark_spot (self, grips[i].at);
    GskRoundedRect box;
    float half = grips[i].kind == DRY_HAND_CORNER ? 6 : 4.5f;

    gsk_rounded_rect_init_from_rect (
        &box, &GRAPHENE_RECT_INIT ((float) at.x - half, (float) at.y - half, 2 * half, 2 * half),
        grips[i].kind == DRY_HAND_CORNER ? half : 2);
    gtk_snapshot_push_rounded_clip (snapshot, &box);
    gtk_snapshot_append_color (snapshot, &paper, &box.bounds);
    gtk_snapshot_pop (snapshot);
    gtk_snapshot_append_border (snapshot, &box, (float[]){2, 2, 2, 2},
                                (GdkRGBA[]){edge, edge, edge, edge});
  }
}

static void
draw_selection (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId selection = dry_session_get_selection (self->session);
  gboolean focused =
      selection != 0 && dry_canvas_focused_object (self) == selection &&
      gtk_window_get_focus_visible (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))));
  gboolean held = self->hand.kind != DRY_HAND_EMPTY && self->hand.kind != DRY_HAND_PAN;
  DryShape shapes[8];
  guint n;

  if (self->hover != 0 && self->hover != selection && !held) {
    n = dry_canvas_shapes (self, room, self->hover, shapes, 8);
    for (guint i = 0; i < n; i++)
      dry_mark_shape (self, snapshot, &shapes[i], dry_mark_accent (self, 0.55f), 1.5, 0.05f);
  }
  dry_canvas_paint_pieces (self, snapshot, focused);
  if (selection == 0)
    return;
  gboolean wall = room != NULL && dry_room_get_wall (room, selection) != NULL;

  n = dry_canvas_shapes (self, room, selection, shapes, 8);
  for (guint i = 0; i < n; i++) {
    /* The keyboard's place has a wide halo, told by more than colour. */
    if (focused && dry_session_get_selected_stud (self->session) < 0 &&
        dry_session_get_selected_piece (self->session) == NULL)
      dry_mark_shape (self, snapshot, &shapes[i], dry_mark_accent (self, 0.35f), 7, 0);
    dry_mark_shape (self, snapshot, &shapes[i], dry_mark_accent (self, 1), 2,
                    wall   ? 0.04f
                    : held ? 0.18f
                           : 0.08f);
  }
  dry_canvas_paint_studs (self, snapshot, focused);
  if (!held) {
    dry_mark_group (self, snapshot, draw_grips);
    dry_mark_group (self, snapshot, dry_canvas_paint_distances);
  }
}

/* --- findings --- */

static void
draw_finding (DryCanvas *self, GtkSnapshot *snapshot)
{
  gint index = dry_session_get_selected_finding (self->session);
  const DryFinding *finding;
  const DryStyle *style = dry_screen_style ();
  DryShape shape = {0};
  DryInk ink;

  if (index < 0 || self->plan == NULL || (guint) index >= self->plan->findings->n)
    return;
  finding = &self->plan->findings->items[index];
  ink = finding->severity == DRY_SEVERITY_STOP  ? DRY_INK_STOP
        : finding->severity == DRY_SEVERITY_FIX ? DRY_INK_FIX
                                                : DRY_INK_ADVICE;
  if (finding->face < 0 || (guint) finding->face >= self->plan->faces->n)
    return;
  for (guint i = 0; i < self->scene->n_views; i++) {
    const DryView *view = &self->scene->views[i];
    const DryFace *face = &self->plan->faces->items[finding->face];
    DryRect rect = finding->place;

    if (view->kind != DRY_VIEW_FACE || view->face != finding->face)
      continue;
    if (dry_rect_is_empty (rect) && rect.x0 == 0 && rect.y0 == 0 && rect.x1 == 0 && rect.y1 == 0)
      rect = (DryRect){0, 0, face->length, face->height};
    rect = dry_rect_inflate (rect, dry_canvas_pixels (self, 5));
    shape.points[0] = (DryPoint){view->origin.x + rect.x0, view->origin.y + rect.y0};
    shape.points[1] = (DryPoint){view->origin.x + rect.x1, view->origin.y + rect.y0};
    shape.points[2] = (DryPoint){view->origin.x + rect.x1, view->origin.y + rect.y1};
    shape.points[3] = (DryPoint){view->origin.x + rect.x0, view->origin.y + rect.y1};
    dry_mark_shape (self, snapshot, &shape, dry_mark_colour (style->inks[ink], 0.3), 8, 0);
    dry_mark_shape (self, snapshot, &shape, dry_mark_colour (style->inks[ink], 1), 2.5, 0.10f);
  }
}

static gboolean
on_zoom_rests (gpointer data)
{
  DryCanvas *self = data;

  self->keeping = 0;
  dry_canvas_redraw (self);
  return G_SOURCE_REMOVE;
}

static void
keep_soon (DryCanvas *self)
{
  if (self->keeping == 0)
    self->keeping = g_timeout_add (ZOOM_RESTS, on_zoom_rests, self);
}

void
dry_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DryCanvas *self = DRY_CANVAS (widget);
  float width = (float) gtk_widget_get_width (widget);
  float height = (float) gtk_widget_get_height (widget);
  GdkRGBA paper = dry_mark_colour (dry_screen_style ()->inks[DRY_INK_PAPER], 1);

  gtk_snapshot_append_color (snapshot, &paper, &GRAPHENE_RECT_INIT (0, 0, width, height));
  if (self->scene == NULL || width < 1 || height < 1)
    return;
  if (!dry_cells_snapshot (self->cells, snapshot, self->scene, &self->view, self->pan_x,
                           self->pan_y, dry_session_get_layers (self->session), width, height,
                           gtk_widget_get_scale_factor (widget)))
    keep_soon (self);
  dry_advice_paint_bands (self, snapshot);
  dry_mark_group (self, snapshot, dry_canvas_paint_counted);
  dry_mark_group (self, snapshot, draw_finding);
  dry_mark_group (self, snapshot, draw_selection);
  dry_mark_group (self, snapshot, dry_canvas_paint_hand);
  dry_mark_group (self, snapshot, dry_advice_paint_panel);
  dry_entry_snapshot (self, snapshot);
}
