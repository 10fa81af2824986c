/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the drawing as a picture of which only the opacity counts, and paints it in the color that
 * the widget gives. Knows names in the resource, not what they mean. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/symbol.h"

#define SIZE  16
#define SCALE 4 /* sharp on the densest screens */

struct _DrySymbol {
  GObject parent_instance;
  GdkTexture *shape;
};

static void paintable_init (GdkPaintableInterface *iface);
static void symbolic_init (GtkSymbolicPaintableInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (DrySymbol, dry_symbol, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (GDK_TYPE_PAINTABLE, paintable_init)
                                   G_IMPLEMENT_INTERFACE (GTK_TYPE_SYMBOLIC_PAINTABLE,
                                                          symbolic_init))

static void
paint (DrySymbol *self, GdkSnapshot *snapshot, double width, double height, const GdkRGBA *color)
{
  graphene_matrix_t matrix;
  graphene_vec4_t offset;

  graphene_matrix_init_from_float (&matrix, (const float[16]){[15] = color->alpha});
  graphene_vec4_init (&offset, color->red, color->green, color->blue, 0);
  if (!self->shape) {
    gtk_snapshot_append_color (snapshot, color,
                               &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
    return;
  }
  gtk_snapshot_push_color_matrix (snapshot, &matrix, &offset);
  gtk_snapshot_append_texture (snapshot, self->shape,
                               &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  gtk_snapshot_pop (snapshot);
}

static void
dry_symbol_snapshot_symbolic (GtkSymbolicPaintable *paintable, GdkSnapshot *snapshot, double width,
                              double height, const GdkRGBA *colors, gsize n_colors)
{
  const GdkRGBA black = {0, 0, 0, 1};

  paint (DRY_SYMBOL (paintable), snapshot, width, height,
         n_colors > GTK_SYMBOLIC_COLOR_FOREGROUND ? &colors[GTK_SYMBOLIC_COLOR_FOREGROUND]
                                                  : &black);
}

static void
dry_symbol_snapshot (GdkPaintable *paintable, GdkSnapshot *snapshot, double width, double height)
{
  dry_symbol_snapshot_symbolic (GTK_SYMBOLIC_PAINTABLE (paintable), snapshot, width, height, NULL,
                                0);
}

static int
dry_symbol_get_size (GdkPaintable *paintable)
{
  return SIZE;
}

static GdkPaintableFlags
dry_symbol_get_flags (GdkPaintable *paintable)
{
  return GDK_PAINTABLE_STATIC_SIZE | GDK_PAINTABLE_STATIC_CONTENTS;
}

static void
paintable_init (GdkPaintableInterface *iface)
{
  iface->snapshot = dry_symbol_snapshot;
  iface->get_intrinsic_width = dry_symbol_get_size;
  iface->get_intrinsic_height = dry_symbol_get_size;
  iface->get_flags = dry_symbol_get_flags;
}

static void
symbolic_init (GtkSymbolicPaintableInterface *iface)
{
  iface->snapshot_symbolic = dry_symbol_snapshot_symbolic;
}

static void
dry_symbol_finalize (GObject *object)
{
  g_clear_object (&DRY_SYMBOL (object)->shape);
  G_OBJECT_CLASS (dry_symbol_parent_class)->finalize (object);
}

static void
dry_symbol_class_init (DrySymbolClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = dry_symbol_finalize;
}

static void
dry_symbol_init (DrySymbol *self)
{
}

static DrySymbol *
read_symbol (const char *name)
{
  g_autofree char *path = g_strdup_printf ("/io/github/drybay/Drybay/symbols/%s.svg", name);
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkPixbuf) pixbuf =
      gdk_pixbuf_new_from_resource_at_scale (path, SIZE * SCALE, SIZE * SCALE, TRUE, &error);
  DrySymbol *self = g_object_new (DRY_TYPE_SYMBOL, NULL);

  if (pixbuf)
    self->shape = gdk_texture_new_for_pixbuf (pixbuf);
  else /* a machine whose toolkit reads no SVG: a square of the right color */
    g_debug ("%s: %s", path, error->message);
  return self;
}

/* Kept by the display: a list of findings shows a few symbols hundreds of times. */
GdkPaintable *
dry_symbol_get (const char *name)
{
  static const char KEY[] = "drybay-symbols";
  GObject *display = G_OBJECT (gdk_display_get_default ());
  GHashTable *known = g_object_get_data (display, KEY);
  DrySymbol *symbol;

  if (!known) {
    known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
    g_object_set_data_full (display, KEY, known, (GDestroyNotify) g_hash_table_unref);
  }
  symbol = g_hash_table_lookup (known, name);
  if (!symbol) {
    symbol = read_symbol (name);
    g_hash_table_insert (known, g_strdup (name), symbol);
  }
  return GDK_PAINTABLE (symbol);
}
