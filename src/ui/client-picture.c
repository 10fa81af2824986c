/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scene is made for the widget's own proportions and painted once into a node, which is kept
 * until plan, size or colors change. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/client-picture.h"

#include <adwaita.h>

#include "draw/drawings.h"
#include "draw/painter.h"
#include "ui/screen-style.h"

struct _DryClientPicture {
  GtkWidget parent_instance;
  DryPlan *plan;
  gboolean figures;
  GskRenderNode *node;
  int width, height; /* of the node */
};

G_DEFINE_FINAL_TYPE (DryClientPicture, dry_client_picture, GTK_TYPE_WIDGET)

static void
forget_node (DryClientPicture *self)
{
  g_clear_pointer (&self->node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
paint_node (DryClientPicture *self, int width, int height)
{
  g_autoptr (DryScene) scene =
      dry_drawing_room_shaped (self->plan, self->figures, (double) width / height);
  double wide = MAX ((double) dry_rect_width (scene->bounds), 1);
  double high = MAX ((double) dry_rect_height (scene->bounds), 1);
  double scale = MAX (width / wide, height / high);
  DryTransform transform = {.scale = scale,
                            .x = (width - wide * scale) / 2 - (double) scene->bounds.x0 * scale,
                            .y = (height + high * scale) / 2 + (double) scene->bounds.y0 * scale,
                            .paper_mm = CLAMP (height / 190.0, 2.6, 6)};
  cairo_t *cr;

  self->node = gsk_cairo_node_new (&GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  self->width = width;
  self->height = height;
  cr = gsk_cairo_node_get_draw_context (self->node);
  dry_painter_paint (cr, scene, &transform, dry_screen_style (), DRY_LAYERS_ALL, NULL);
  cairo_destroy (cr);
}

static void
dry_client_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DryClientPicture *self = DRY_CLIENT_PICTURE (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);

  if (!self->plan || width <= 0 || height <= 0)
    return;
  if (self->width != width || self->height != height)
    g_clear_pointer (&self->node, gsk_render_node_unref);
  if (!self->node)
    paint_node (self, width, height);
  gtk_snapshot_append_node (snapshot, self->node);
}

static void
dry_client_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size,
                            int *minimum, int *natural, int *minimum_baseline,
                            int *natural_baseline)
{
  *minimum = 120;
  *natural = 640;
}

static void
dry_client_picture_dispose (GObject *object)
{
  DryClientPicture *self = DRY_CLIENT_PICTURE (object);

  g_clear_pointer (&self->node, gsk_render_node_unref);
  g_clear_pointer (&self->plan, dry_plan_unref);
  G_OBJECT_CLASS (dry_client_picture_parent_class)->dispose (object);
}

static void
dry_client_picture_class_init (DryClientPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_client_picture_dispose;
  widget_class->snapshot = dry_client_picture_snapshot;
  widget_class->measure = dry_client_picture_measure;
  gtk_widget_class_set_css_name (widget_class, "clientpicture");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
dry_client_picture_init (DryClientPicture *self)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();

  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  g_signal_connect_object (manager, "notify::dark", G_CALLBACK (forget_node), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (manager, "notify::high-contrast", G_CALLBACK (forget_node), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
dry_client_picture_new (void)
{
  return g_object_new (DRY_TYPE_CLIENT_PICTURE, NULL);
}

void
dry_client_picture_set_plan (DryClientPicture *self, const DryPlan *plan, gboolean figures)
{
  if (plan == self->plan && figures == self->figures)
    return;
  g_clear_pointer (&self->plan, dry_plan_unref);
  self->plan = plan ? dry_plan_ref ((DryPlan *) plan) : NULL;
  self->figures = figures;
  forget_node (self);
}
