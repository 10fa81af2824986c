/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a line of the take-off counts, lit up on the board with the quantity beside it. Changes
 * nothing. */
#include <glib/gi18n.h>

#include "draw/counted.h"
#include "ui/canvas-mark.h"

typedef struct {
  const DryPlan *plan;
  const char *group, *id;
} Wanted;

static gboolean
wants (const DryPrimitive *item, gconstpointer data)
{
  const Wanted *wanted = data;

  return dry_counted (wanted->plan, wanted->group, wanted->id, item);
}

static const DryTakeoffLine *
find_line (const DryPlan *plan, const char *key)
{
  for (guint i = 0; i < plan->takeoff->n; i++) {
    const DryTakeoffLine *line = &plan->takeoff->lines[i];
    gsize n = strlen (line->group);

    if (strncmp (key, line->group, n) == 0 && key[n] == '/' && strcmp (key + n + 1, line->id) == 0)
      return line;
  }
  return NULL;
}

void
dry_canvas_paint_counted (DryCanvas *self, GtkSnapshot *snapshot)
{
  const char *key = dry_session_get_counted (self->session);
  const DryTakeoffLine *line =
      key != NULL && self->plan != NULL ? find_line (self->plan, key) : NULL;
  float width = (float) gtk_widget_get_width (GTK_WIDGET (self));
  float height = (float) gtk_widget_get_height (GTK_WIDGET (self));
  g_autofree char *text = NULL;
  Wanted wanted;

  if (line == NULL)
    return;
  wanted = (Wanted){self->plan, line->group, line->id};
  if (dry_counted_in (self->plan, line->group, line->id, self->scene) > 0) {
    cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));

    dry_painter_paint_wanted (cr, self->scene, &self->view, dry_screen_style (), DRY_INK_ADVICE,
                              wants, &wanted);
    cairo_destroy (cr);
    text = g_strdup_printf ("%s: %.2f %s", line->name, line->amount, line->unit);
  } else
    text = g_strdup_printf (_ ("%s: has no place on the drawing"), line->name);
  dry_mark_chip (self, snapshot, (DrySpot){width / 2, 26}, text, DRY_CHIP_ACCENT);
}
