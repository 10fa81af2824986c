/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bar is to scale across, from the stud face at the left; each layer has its own hatch, so that
 * it is told apart without color, and the trim's range is a bracket under it. */
#include "ui/depth-bar.h"

#include <glib/gi18n.h>
#include <math.h>

#include "plan/plan.h"
#include "ui/screen-style.h"

#define BAR_HEIGHT 28
#define BRACKET    16

#define DRY_TYPE_DEPTH_BAR (dry_depth_bar_get_type ())
G_DECLARE_FINAL_TYPE (DryDepthBar, dry_depth_bar, DRY, DEPTH_BAR, GtkBox)

struct _DryDepthBar {
  GtkBox parent_instance;
  DrySession *session;
  DryId valve;
  GtkWidget *drawing, *words;
  DryBuildUp built;
  DryLength least, most; /* 0 = not known */
};

G_DEFINE_TYPE (DryDepthBar, dry_depth_bar, GTK_TYPE_BOX)

static gboolean
is_outside (const DryDepthBar *self)
{
  return self->most > 0 && (self->built.total < self->least || self->built.total > self->most);
}

/* --- drawing --- */

static void
hatch (cairo_t *cr, double x, double width, guint layer)
{
  static const double gaps[] = {6, 3, 4, 0}; /* board, membrane, mortar, tile */

  for (double k = x - BAR_HEIGHT; gaps[layer] > 0 && k < x + width; k += gaps[layer]) {
    cairo_move_to (cr, k, layer == 2 ? 0 : BAR_HEIGHT);
    cairo_line_to (cr, k + BAR_HEIGHT, layer == 2 ? BAR_HEIGHT : 0);
  }
  cairo_stroke (cr);
}

static void
draw_layer (cairo_t *cr, double x, double width, guint layer, const GdkRGBA *ink)
{
  if (width <= 0)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, x, 0, width, BAR_HEIGHT);
  cairo_clip (cr);
  cairo_set_line_width (cr, 1);
  cairo_set_source_rgba (cr, ink->red, ink->green, ink->blue, layer == 3 ? 0.28 : 0.10);
  cairo_paint (cr);
  cairo_set_source_rgba (cr, ink->red, ink->green, ink->blue, 0.5);
  hatch (cr, x, width, layer);
  cairo_restore (cr);
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, 1);
  cairo_rectangle (cr, floor (x) + 0.5, 0.5, ceil (width), BAR_HEIGHT - 1);
  cairo_stroke (cr);
}

static void
draw_bracket (cairo_t *cr, double x0, double x1, const GdkRGBA *ink)
{
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, 2);
  cairo_move_to (cr, x0, BAR_HEIGHT + 3);
  cairo_line_to (cr, x0, BAR_HEIGHT + 10);
  cairo_line_to (cr, x1, BAR_HEIGHT + 10);
  cairo_line_to (cr, x1, BAR_HEIGHT + 3);
  cairo_stroke (cr);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  DryDepthBar *self = data;
  const DryLength layers[] = {self->built.board, self->built.membrane, self->built.mortar,
                              self->built.tile};
  DryLength whole = MAX (MAX (self->built.total, self->most), DRY_INCH) * 11 / 10;
  const DryStyle *style = dry_screen_style ();
  DryColour text = style->inks[DRY_INK_TEXT];
  DryColour stop = style->inks[DRY_INK_STOP];
  GdkRGBA ink = {(float) text.r, (float) text.g, (float) text.b, 1};
  GdkRGBA bad = {(float) stop.r, (float) stop.g, (float) stop.b, 1};
  double scale = width / (double) whole, x = 0;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &ink);
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++) {
    double across = (double) layers[i] * scale;

    draw_layer (cr, x, across, i, is_outside (self) ? &bad : &ink);
    x += across;
  }
  if (self->most > 0)
    draw_bracket (cr, (double) self->least * scale, MAX ((double) self->most * scale - 1, 1),
                  is_outside (self) ? &bad : &ink);
}

/* --- words --- */

static char *
tell_range (DryDepthBar *self)
{
  g_autofree char *total = dry_session_format_length (self->session, self->built.total);
  g_autofree char *least = dry_session_format_length (self->session, self->least);
  g_autofree char *most = dry_session_format_length (self->session, self->most);

  if (self->most <= 0)
    return g_strdup_printf (_ ("%s of finished wall before the studs"), total);
  if (self->built.total < self->least)
    return g_strdup_printf (_ ("%s of finished wall: too thin for the trim, which takes %s to %s"),
                            total, least, most);
  if (self->built.total > self->most)
    return g_strdup_printf (_ ("%s of finished wall: too thick for the trim, which takes %s to %s"),
                            total, least, most);
  return g_strdup_printf (_ ("%s of finished wall: within the %s to %s the trim takes"), total,
                          least, most);
}

static char *
tell_layers (DryDepthBar *self)
{
  g_autofree char *board = dry_session_format_length (self->session, self->built.board);
  g_autofree char *membrane = dry_session_format_length (self->session, self->built.membrane);
  g_autofree char *mortar = dry_session_format_length (self->session, self->built.mortar);
  g_autofree char *tile = dry_session_format_length (self->session, self->built.tile);

  return g_strdup_printf (_ ("From the stud: board %s, membrane %s, mortar %s, tile %s"), board,
                          membrane, mortar, tile);
}

static void
follow (DryDepthBar *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryPart *valve = room != NULL ? dry_room_get_part (room, self->valve) : NULL;
  const DrySystem *system =
      room != NULL
          ? dry_catalog_get_system (dry_session_get_catalog (self->session), room->finish.system)
          : NULL;
  g_autofree char *range = NULL, *layers = NULL, *both = NULL;

  if (valve == NULL || system == NULL)
    return;
  self->built = dry_build_up_reckon (system, &room->finish);
  self->least = valve->trim_min;
  self->most = valve->trim_max;
  range = tell_range (self);
  layers = tell_layers (self);
  both = g_strdup_printf ("%s\n%s", range, layers);
  gtk_label_set_text (GTK_LABEL (self->words), both);
  if (is_outside (self))
    gtk_widget_add_css_class (self->words, "error");
  else
    gtk_widget_remove_css_class (self->words, "error");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->drawing), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  range, -1);
  gtk_widget_queue_draw (self->drawing);
}

static void
dry_depth_bar_dispose (GObject *object)
{
  DryDepthBar *self = DRY_DEPTH_BAR (object);

  if (self->session != NULL)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_depth_bar_parent_class)->dispose (object);
}

static void
dry_depth_bar_class_init (DryDepthBarClass *class)
{
  G_OBJECT_CLASS (class)->dispose = dry_depth_bar_dispose;
}

static void
dry_depth_bar_init (DryDepthBar *self)
{
  self->drawing = gtk_drawing_area_new ();
  self->words = gtk_label_new (NULL);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (self->drawing), BAR_HEIGHT + BRACKET);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self->drawing), draw, self, NULL);
  gtk_label_set_wrap (GTK_LABEL (self->words), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  gtk_widget_add_css_class (self->words, "caption");
  gtk_box_append (GTK_BOX (self), self->drawing);
  gtk_box_append (GTK_BOX (self), self->words);
}

GtkWidget *
dry_depth_bar_new (DrySession *session, DryId valve)
{
  DryDepthBar *self = g_object_new (DRY_TYPE_DEPTH_BAR, NULL);

  self->session = g_object_ref (session);
  self->valve = valve;
  g_signal_connect_swapped (session, "project-changed", G_CALLBACK (follow), self);
  follow (self);
  return GTK_WIDGET (self);
}
