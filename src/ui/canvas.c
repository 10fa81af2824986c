/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The canvas widget: its view (zoom and place), its layout, and how it follows the session.
 * Painting, objects, dragging and keys have files of their own. */
#include "ui/canvas-private.h"

#include <adwaita.h>
#include <math.h>

#include "ui/canvas-advice.h"
#include "ui/canvas-entry.h"
#include "ui/later.h"

G_DEFINE_FINAL_TYPE (DryCanvas, dry_canvas, GTK_TYPE_WIDGET)

#define PIXELS_PER_MM (96.0 / 25.4)

/* --- the view --- */

/* Letters and pens grow with the text size the desktop asks for. */
static double
paper_mm_of (DryCanvas *self)
{
  gint dpi = 96 * 1024;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-xft-dpi", &dpi, NULL);
  return PIXELS_PER_MM * (dpi > 0 ? (double) dpi / (96.0 * 1024.0) : 1.0);
}

void
dry_canvas_to_device (DryCanvas *self, DryPoint at, double *x, double *y)
{
  dry_transform_to_device (&self->view, at, x, y);
}

DryPoint
dry_canvas_to_scene (DryCanvas *self, double x, double y)
{
  return dry_transform_to_scene (&self->view, x, y);
}

DryLength
dry_canvas_pixels (DryCanvas *self, double pixels)
{
  return (DryLength) (pixels / self->view.scale);
}

void
dry_canvas_redraw (DryCanvas *self)
{
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Panning goes by whole pixels, or what is painted could not be moved as it is. */
static void
pan_to (DryCanvas *self, double x, double y)
{
  double dx = x - self->view.x + self->rest_x, dy = y - self->view.y + self->rest_y;

  self->rest_x = dx - round (dx);
  self->rest_y = dy - round (dy);
  self->view.x += round (dx);
  self->view.y += round (dy);
  self->pan_x += round (dx);
  self->pan_y += round (dy);
}

void
dry_canvas_set_view (DryCanvas *self, double scale, double x, double y)
{
  if (scale == self->view.scale)
    pan_to (self, x, y);
  else {
    self->view.scale = scale;
    self->view.x = x;
    self->view.y = y;
    self->pan_x = self->pan_y = self->rest_x = self->rest_y = 0;
  }
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  dry_canvas_redraw (self);
}

/* Zooming stops where a screen would hold a fifth of a millimetre or a small estate. */
static double
limit_scale (double scale)
{
  return CLAMP (scale, 1e-10 * 20, 1e-6 * 40);
}

/* One view and the dimensions round it fill the board. */
static void
fit_view (DryCanvas *self, const DryView *view, double width, double height, double tools)
{
  const double margin = 84; /* dimension strings and labels beside it */
  double world_w = MAX ((double) dry_rect_width (view->bounds), 1e6);
  double world_h = MAX ((double) dry_rect_height (view->bounds), 1e6);
  double scale = limit_scale (MIN (MAX (width - 2 * margin, 40) / world_w,
                                   MAX (height - tools - 2 * margin, 40) / world_h));

  dry_canvas_set_view (self, scale, width / 2 - scale * ((double) view->bounds.x0 + world_w / 2),
                       (height - tools) / 2 + scale * ((double) view->bounds.y0 + world_h / 2));
}

void
dry_canvas_fit (DryCanvas *self)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));
  const double margin = 12, tools = 44; /* the buttons floating at the bottom */
  DryTransform fit;

  if (self->scene == NULL || width < 40 || height < 40)
    return;
  if (self->facing >= 0 && (guint) self->facing < self->scene->n_views) {
    fit_view (self, &self->scene->views[self->facing], width, height, tools);
    return;
  }
  self->view.paper_mm = paper_mm_of (self);
  fit = dry_transform_fit (self->scene, width - 2 * margin, height - 2 * margin - tools,
                           self->view.paper_mm);
  dry_canvas_set_view (self, fit.scale, fit.x + margin, fit.y + margin);
}

void
dry_canvas_fit_all (DryCanvas *self)
{
  self->fitted = TRUE;
  self->facing = -1;
  dry_canvas_fit (self);
}

void
dry_canvas_zoom_at (DryCanvas *self, double factor, double x, double y)
{
  double scale = limit_scale (self->view.scale * factor);
  double ratio = scale / self->view.scale;

  if (self->scene == NULL)
    return;
  self->fitted = FALSE;
  dry_canvas_set_view (self, scale, x - (x - self->view.x) * ratio, y - (y - self->view.y) * ratio);
}

void
dry_canvas_zoom_by (DryCanvas *self, double factor)
{
  dry_canvas_zoom_at (self, factor, gtk_widget_get_width (GTK_WIDGET (self)) / 2.0,
                      gtk_widget_get_height (GTK_WIDGET (self)) / 2.0);
}

static gboolean
bounds_of_object (DryCanvas *self, DryId object, DryRect *bounds)
{
  DryShape shapes[8];
  guint n = dry_canvas_shapes (self, dry_session_get_room (self->session), object, shapes, 8);

  if (n == 0)
    return FALSE;
  /* Where a thing is drawn both in plan and on its face, the face says more. */
  const DryShape *shape = &shapes[n - 1];

  *bounds = (DryRect){G_MAXINT64, G_MAXINT64, G_MININT64, G_MININT64};
  for (guint i = 0; i < 4; i++) {
    bounds->x0 = MIN (bounds->x0, shape->points[i].x);
    bounds->y0 = MIN (bounds->y0, shape->points[i].y);
    bounds->x1 = MAX (bounds->x1, shape->points[i].x);
    bounds->y1 = MAX (bounds->y1, shape->points[i].y);
  }
  return TRUE;
}

static void
show_rect (DryCanvas *self, DryRect rect)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self));
  double height = gtk_widget_get_height (GTK_WIDGET (self));
  double world_w = MAX ((double) dry_rect_width (rect), 1e6);
  double world_h = MAX ((double) dry_rect_height (rect), 1e6);
  double scale = limit_scale (MIN (width / world_w, height / world_h) * 0.6);

  self->fitted = FALSE;
  dry_canvas_set_view (self, scale, width / 2 - scale * ((double) rect.x0 + world_w / 2),
                       height / 2 + scale * ((double) rect.y0 + world_h / 2));
}

void
dry_canvas_fit_selection (DryCanvas *self)
{
  DryRect bounds;

  if (bounds_of_object (self, dry_session_get_selection (self->session), &bounds))
    show_rect (self, bounds);
  else
    dry_canvas_fit_all (self);
}

void
dry_canvas_reveal (DryCanvas *self, DryId object)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self));
  double height = gtk_widget_get_height (GTK_WIDGET (self));
  double x0, y0, x1, y1, dx = 0, dy = 0;
  DryRect bounds;

  if (!bounds_of_object (self, object, &bounds))
    return;
  dry_canvas_to_device (self, (DryPoint){bounds.x0, bounds.y1}, &x0, &y0);
  dry_canvas_to_device (self, (DryPoint){bounds.x1, bounds.y0}, &x1, &y1);
  if (x1 < 24 || x0 > width - 24)
    dx = width / 2 - (x0 + x1) / 2;
  if (y1 < 24 || y0 > height - 24)
    dy = height / 2 - (y0 + y1) / 2;
  if (dx == 0 && dy == 0)
    return;
  self->fitted = FALSE;
  dry_canvas_set_view (self, self->view.scale, self->view.x + dx, self->view.y + dy);
}

/* --- following the session --- */

/* While something is held, the drawing round it must not jump: the view it is in keeps its place on
 * the screen even when the sheet is laid out anew. */
static void
keep_place (DryCanvas *self, const DryScene *old, const DryScene *new)
{
  gint index = -1;

  if (self->hand.kind == DRY_HAND_EMPTY || self->hand.kind == DRY_HAND_PAN || old == NULL)
    return;
  index = dry_scene_find_view (old, dry_canvas_to_scene (self, self->pointer_x, self->pointer_y),
                               DRY_LENGTH_MAX / 4);
  if (index < 0 || (guint) index >= new->n_views || old->n_views != new->n_views)
    return;
  self->view.x +=
      (double) (old->views[index].origin.x - new->views[index].origin.x) * self->view.scale;
  self->view.y -=
      (double) (old->views[index].origin.y - new->views[index].origin.y) * self->view.scale;
}

static void
on_plan_changed (DrySession *session, DryCanvas *self)
{
  const DryScene *scene = dry_session_get_scene (session);
  const DryPlan *plan = dry_session_get_plan (session);
  gboolean first = self->scene == NULL;

  if (scene == NULL || scene == self->scene || !self->seen)
    return;
  if (!first)
    keep_place (self, self->scene, scene);
  g_clear_pointer (&self->scene, dry_scene_unref);
  g_clear_pointer (&self->plan, dry_plan_unref);
  self->scene = dry_scene_ref (scene);
  self->plan = dry_plan_ref (plan);
  dry_cells_scene_changed (self->cells);
  if (first || (self->fitted && self->hand.kind == DRY_HAND_EMPTY))
    dry_canvas_fit (self);
  if (self->hand.kind == DRY_HAND_EMPTY)
    dry_canvas_sync_objects (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  dry_canvas_redraw (self);
}

/* The window's first frame waits neither for the worker nor for letters to be laid out. */
static void
begin (GtkWidget *widget)
{
  DryCanvas *self = DRY_CANVAS (widget);

  self->seen = TRUE;
  on_plan_changed (self->session, self);
}

static void
on_project_changed (DrySession *session, DryCanvas *self)
{
  /* What is in hand is laid out with the plan that follows: the frame that shows its new place is
   * not to wait for a layout. */
  if (self->hand.kind != DRY_HAND_EMPTY)
    dry_canvas_describe_hand (self);
  else
    dry_canvas_sync_objects (self);
  if (self->hand.kind == DRY_HAND_EMPTY || dry_entry_is_open (self))
    gtk_widget_queue_allocate (GTK_WIDGET (self));
  dry_canvas_redraw (self);
}

static void
on_selection_changed (DrySession *session, DryCanvas *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  DryId object = dry_session_get_selection (session);
  /* Asked now: the focused object may be gone after what follows. */
  gboolean focused = focus != NULL && (focus == GTK_WIDGET (self) ||
                                       gtk_widget_is_ancestor (focus, GTK_WIDGET (self)));

  if (dry_entry_is_open (self) && self->hand.kind == DRY_HAND_EMPTY)
    dry_entry_close (self);
  dry_canvas_sync_objects (self);
  if (!self->focusing && focused)
    dry_canvas_focus_object (self, object);
  if (dry_session_get_selected_finding (session) >= 0)
    dry_canvas_reveal (self, object);
  dry_canvas_redraw (self);
}

static void
on_view_changed (DrySession *session, DryCanvas *self)
{
  dry_cells_scene_changed (self->cells);
  dry_canvas_redraw (self);
}

/* A document just opened is shown whole. */
static void
on_file_changed (DrySession *session, DryCanvas *self)
{
  if (dry_history_get_undo_name (dry_session_get_history (session)) == NULL &&
      dry_history_get_redo_name (dry_session_get_history (session)) == NULL) {
    self->fitted = TRUE;
    self->facing = -1;
  }
}

static void
on_style_changed (DryCanvas *self)
{
  dry_cells_style_changed (self->cells);
  dry_canvas_redraw (self);
}

/* --- the widget --- */

static void
dry_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  DryCanvas *self = DRY_CANVAS (widget);

  if (self->fitted && self->hand.kind == DRY_HAND_EMPTY)
    dry_canvas_fit (self);
  dry_canvas_allocate_objects (self);
  dry_entry_allocate (self);
  dry_advice_allocate (self);
  dry_canvas_allocate_menu (self, width, height);
}

static void
dry_canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                    int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = 200;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 720 : 520;
}

static gboolean
dry_canvas_focus (GtkWidget *widget, GtkDirectionType direction)
{
  return dry_canvas_walk (DRY_CANVAS (widget), direction);
}

static void
dry_canvas_dispose (GObject *object)
{
  DryCanvas *self = DRY_CANVAS (object);

  if (self->session != NULL) {
    dry_hand_drop (self);
    g_signal_handlers_disconnect_by_data (self->session, self);
  }
  g_signal_handlers_disconnect_by_data (adw_style_manager_get_default (), self);
  dry_advice_dispose (self);
  dry_canvas_dispose_menu (self);
  g_clear_pointer (&self->entry.box, gtk_widget_unparent);
  if (self->objects != NULL)
    for (guint i = 0; i < self->objects->len; i++)
      gtk_widget_unparent (g_ptr_array_index (self->objects, i));
  g_clear_pointer (&self->objects, g_ptr_array_unref);
  g_clear_handle_id (&self->keeping, g_source_remove);
  g_clear_pointer (&self->cells, dry_cells_free);
  g_clear_pointer (&self->scene, dry_scene_unref);
  g_clear_pointer (&self->plan, dry_plan_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_canvas_parent_class)->dispose (object);
}

static void
dry_canvas_class_init (DryCanvasClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = dry_canvas_dispose;
  widget_class->size_allocate = dry_canvas_size_allocate;
  widget_class->measure = dry_canvas_measure;
  widget_class->snapshot = dry_canvas_snapshot;
  widget_class->focus = dry_canvas_focus;
  gtk_widget_class_set_css_name (widget_class, "board");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST);
}

static void
dry_canvas_init (DryCanvas *self)
{
  self->objects = g_ptr_array_new ();
  self->cells = dry_cells_new ();
  self->fitted = TRUE;
  self->facing = self->hover_stud = self->hand.stud = self->press.stud = -1;
  self->view.scale = 1e-7;
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
}

GtkWidget *
dry_canvas_new (DrySession *session)
{
  DryCanvas *self = g_object_new (DRY_TYPE_CANVAS, NULL);
  AdwStyleManager *style = adw_style_manager_get_default ();

  self->session = g_object_ref (session);
  self->view.paper_mm = paper_mm_of (self);
  g_signal_connect (session, "plan-changed", G_CALLBACK (on_plan_changed), self);
  g_signal_connect (session, "project-changed", G_CALLBACK (on_project_changed), self);
  g_signal_connect (session, "selection-changed", G_CALLBACK (on_selection_changed), self);
  g_signal_connect (session, "view-changed", G_CALLBACK (on_view_changed), self);
  g_signal_connect_swapped (session, "counted-changed", G_CALLBACK (gtk_widget_queue_draw), self);
  g_signal_connect (session, "file-changed", G_CALLBACK (on_file_changed), self);
  g_signal_connect_swapped (style, "notify::dark", G_CALLBACK (on_style_changed), self);
  g_signal_connect_swapped (style, "notify::high-contrast", G_CALLBACK (on_style_changed), self);
  dry_canvas_add_pointer (self);
  dry_canvas_add_drop (self);
  dry_canvas_add_keys (self);
  dry_canvas_sync_objects (self);
  dry_later_after_frame (GTK_WIDGET (self), begin);
  return GTK_WIDGET (self);
}
