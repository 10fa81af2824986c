/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the painted node and paints anew only when scene, size or colours change.
 * The fit leaves room for dimension rows, except in bare pictures. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/scene-view.h"

#include <adwaita.h>

#include "draw/painter.h"
#include "ui/screen-style.h"

#define PAPER_MM 3.6 /* device units per paper millimetre: 2.5 mm letters come out at 9 px */

struct _DrySceneView {
  GtkWidget parent_instance;
  DryScene *scene;
  GskRenderNode *node;
  int least_width, least_height;
  int node_width, node_height;
  gboolean bare;
  DryRect focus; /* empty: the whole scene */
};

G_DEFINE_FINAL_TYPE (DrySceneView, dry_scene_view, GTK_TYPE_WIDGET)

static void
forget_node (DrySceneView *self)
{
  g_clear_pointer (&self->node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static DryTransform
fit_bare (DryRect bounds, int width, int height)
{
  double w = MAX ((double) dry_rect_width (bounds), 1),
         h = MAX ((double) dry_rect_height (bounds), 1);
  double scale = MIN (width / w, height / h);

  return (DryTransform){
      .scale = scale,
      .x = (width - w * scale) / 2 - (double) bounds.x0 * scale,
      .y = (height + h * scale) / 2 + (double) bounds.y0 * scale,
      .paper_mm = 2.4,
  };
}

static void
paint_node (DrySceneView *self, int width, int height)
{
  guint words = (1u << DRY_LAYER_LABELS) | (1u << DRY_LAYER_DIMENSIONS);
  DryTransform transform =
      self->bare ? fit_bare (dry_rect_is_empty (self->focus) ? self->scene->bounds : self->focus,
                             width, height)
                 : dry_transform_fit (self->scene, width, height, PAPER_MM);
  cairo_t *cr;

  self->node = gsk_cairo_node_new (&GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  self->node_width = width;
  self->node_height = height;
  cr = gsk_cairo_node_get_draw_context (self->node);
  dry_painter_paint (cr, self->scene, &transform, dry_screen_style (),
                     self->bare ? DRY_LAYERS_USUAL & ~words : DRY_LAYERS_ALL, NULL);
  cairo_destroy (cr);
}

static void
dry_scene_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DrySceneView *self = DRY_SCENE_VIEW (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);

  if (!self->scene || width <= 0 || height <= 0)
    return;
  if (self->node_width != width || self->node_height != height)
    g_clear_pointer (&self->node, gsk_render_node_unref);
  if (!self->node)
    paint_node (self, width, height);
  gtk_snapshot_append_node (snapshot, self->node);
}

static void
dry_scene_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  DrySceneView *self = DRY_SCENE_VIEW (widget);

  *minimum = *natural =
      orientation == GTK_ORIENTATION_HORIZONTAL ? self->least_width : self->least_height;
}

static void
dry_scene_view_dispose (GObject *object)
{
  DrySceneView *self = DRY_SCENE_VIEW (object);

  g_clear_pointer (&self->node, gsk_render_node_unref);
  g_clear_pointer (&self->scene, dry_scene_unref);
  G_OBJECT_CLASS (dry_scene_view_parent_class)->dispose (object);
}

static void
dry_scene_view_class_init (DrySceneViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_scene_view_dispose;
  widget_class->snapshot = dry_scene_view_snapshot;
  widget_class->measure = dry_scene_view_measure;
  gtk_widget_class_set_css_name (widget_class, "sceneview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
dry_scene_view_init (DrySceneView *self)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();

  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  g_signal_connect_object (manager, "notify::dark", G_CALLBACK (forget_node), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (manager, "notify::high-contrast", G_CALLBACK (forget_node), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
dry_scene_view_new (int width, int height, gboolean bare)
{
  DrySceneView *self = g_object_new (DRY_TYPE_SCENE_VIEW, NULL);

  self->least_width = width;
  self->least_height = height;
  self->bare = bare;
  return GTK_WIDGET (self);
}

void
dry_scene_view_set_scene (DrySceneView *self, const DryScene *scene)
{
  if (scene == self->scene)
    return;
  g_clear_pointer (&self->scene, dry_scene_unref);
  if (scene)
    self->scene = dry_scene_ref (scene);
  forget_node (self);
}

void
dry_scene_view_set_focus (DrySceneView *self, DryRect focus)
{
  self->focus = focus;
  forget_node (self);
}
