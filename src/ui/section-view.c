/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the scene and its painted node; paints anew only when thicknesses, size or colours change.
 * Decoration for the eye: the row beside it says the same in words. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/section-view.h"

#include <adwaita.h>
#include <string.h>

#include "draw/painter.h"

#define PAPER_MM                                                                                   \
  2.6 /* device units per paper millimetre: letters would be too small, so the layer shows none */

struct _DrySectionView {
  GtkWidget parent_instance;
  const DrySystem *system;
  DryBuildUp build_up;
  DryScene *scene;
  GskRenderNode *node;
  int width, height; /* asked for */
  int node_width, node_height;
};

G_DEFINE_FINAL_TYPE (DrySectionView, dry_section_view, GTK_TYPE_WIDGET)

static void
forget_node (DrySectionView *self)
{
  g_clear_pointer (&self->node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static const DryStyle *
choose_style (void)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();
  gboolean dark = adw_style_manager_get_dark (manager);

  if (adw_style_manager_get_high_contrast (manager))
    return dry_style_get (dark ? DRY_STYLE_CONTRAST_DARK : DRY_STYLE_CONTRAST);
  return dry_style_get (dark ? DRY_STYLE_DARK : DRY_STYLE_LIGHT);
}

static void
paint_node (DrySectionView *self, int width, int height)
{
  guint layers = DRY_LAYERS_ALL & ~(1u << DRY_LAYER_LABELS) & ~(1u << DRY_LAYER_DIMENSIONS);
  DryRect bounds = self->scene->bounds;
  double w = (double) dry_rect_width (bounds), h = (double) dry_rect_height (bounds);
  double scale = MIN (width / MAX (w, 1), height / MAX (h, 1));
  DryTransform transform = {
      .scale = scale,
      .x = (width - w * scale) / 2 - (double) bounds.x0 * scale,
      .y = (height + h * scale) / 2 + (double) bounds.y0 * scale,
      .paper_mm = PAPER_MM,
  };
  cairo_t *cr;

  self->node = gsk_cairo_node_new (&GRAPHENE_RECT_INIT (0, 0, width, height));
  self->node_width = width;
  self->node_height = height;
  cr = gsk_cairo_node_get_draw_context (self->node);
  dry_painter_paint (cr, self->scene, &transform, choose_style (), layers, NULL);
  cairo_destroy (cr);
}

static void
dry_section_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DrySectionView *self = DRY_SECTION_VIEW (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);

  if (!self->scene)
    self->scene = dry_drawing_section (self->system, &self->build_up);
  if (self->node && (self->node_width != width || self->node_height != height))
    forget_node (self);
  if (!self->node)
    paint_node (self, width, height);
  gtk_snapshot_append_node (snapshot, self->node);
}

static void
dry_section_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  DrySectionView *self = DRY_SECTION_VIEW (widget);

  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? self->width : self->height;
}

static void
dry_section_view_dispose (GObject *object)
{
  DrySectionView *self = DRY_SECTION_VIEW (object);

  g_clear_pointer (&self->node, gsk_render_node_unref);
  g_clear_pointer (&self->scene, dry_scene_unref);
  G_OBJECT_CLASS (dry_section_view_parent_class)->dispose (object);
}

static void
dry_section_view_class_init (DrySectionViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_section_view_dispose;
  widget_class->snapshot = dry_section_view_snapshot;
  widget_class->measure = dry_section_view_measure;
  gtk_widget_class_set_css_name (widget_class, "sectionview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
dry_section_view_init (DrySectionView *self)
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
dry_section_view_new (const DrySystem *system, int width, int height)
{
  DrySectionView *self = g_object_new (DRY_TYPE_SECTION_VIEW, NULL);

  self->system = system;
  self->width = width;
  self->height = height;
  return GTK_WIDGET (self);
}

void
dry_section_view_set_build_up (DrySectionView *self, const DryBuildUp *build_up)
{
  if (memcmp (&self->build_up, build_up, sizeof *build_up) == 0)
    return;
  self->build_up = *build_up;
  g_clear_pointer (&self->scene, dry_scene_unref);
  forget_node (self);
}
