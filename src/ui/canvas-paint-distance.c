/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paints the distances to the neighbors on all sides, and what the thing in hand would break where
 * it is: shapes on the faces and one line of text. Moves nothing. */
#include "ui/canvas-distance.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/canvas-entry.h"
#include "ui/canvas-mark.h"

/* --- distances --- */

static void
draw_ticks (GtkSnapshot *snapshot, DrySpot a, DrySpot b, GdkRGBA colour)
{
  double size = hypot (b.x - a.x, b.y - a.y);
  double px = size > 0 ? (b.y - a.y) / size * 5 : 0, py = size > 0 ? (a.x - b.x) / size * 5 : 5;

  for (guint i = 0; i < 2; i++) {
    DrySpot end = i == 0 ? a : b;

    dry_mark_line (snapshot, (DrySpot){end.x - px, end.y - py}, (DrySpot){end.x + px, end.y + py},
                   colour, 1.2, FALSE);
  }
}

static void
draw_side (DryCanvas *self, GtkSnapshot *snapshot, const DryMeasuredSide *found, gboolean typed)
{
  DrySpot a = dry_mark_spot (self, found->from), b = dry_mark_spot (self, found->to);
  GdkRGBA colour = dry_mark_accent (self, 1);

  if (!found->shown || (found->distance <= 0 && !typed))
    return;
  dry_mark_line (snapshot, a, b, colour, typed ? 2.4 : 1.2, FALSE);
  draw_ticks (snapshot, a, b, colour);
}

static void
draw_chip (DryCanvas *self, GtkSnapshot *snapshot, const DryMeasuredSide *found,
           const graphene_rect_t *place)
{
  g_autofree char *text = dry_session_format_length (self->session, found->distance);
  graphene_point_t centre;

  graphene_rect_get_center (place, &centre);
  dry_mark_chip (self, snapshot, (DrySpot){centre.x, centre.y}, text, DRY_CHIP_QUIET);
}

void
dry_canvas_paint_distances (DryCanvas *self, GtkSnapshot *snapshot)
{
  gboolean open = dry_entry_is_open (self);
  graphene_rect_t places[4];
  DryMeasured measured;

  if (!dry_canvas_measure_object (self, &measured))
    return;
  for (guint i = 0; i < 4; i++) {
    gboolean typed = open && dry_entry_side (self) == i;

    if (measured.sides[i].known && (measured.drawn || typed))
      draw_side (self, snapshot, &measured.sides[i], typed);
  }
  dry_canvas_place_chips (self, &measured, places);
  for (guint i = 0; i < 4; i++)
    if (places[i].size.width > 0 && !(open && dry_entry_side (self) == i))
      draw_chip (self, snapshot, &measured.sides[i], &places[i]);
}

/* --- what it breaks --- */

static gboolean
was_there (const DryPlan *before, const DryFinding *finding)
{
  for (guint i = 0; before != NULL && i < before->findings->n; i++)
    if (g_strcmp0 (before->findings->items[i].id, finding->id) == 0)
      return TRUE;
  return FALSE;
}

/* Its own faults, and those of others that came with it. */
static gboolean
is_breakage (DryCanvas *self, const DryFinding *finding)
{
  if (finding->severity == DRY_SEVERITY_ADVICE)
    return FALSE;
  return finding->object == self->hand.object || !was_there (self->hand.before, finding);
}

static void
draw_fault (DryCanvas *self, GtkSnapshot *snapshot, const DryFinding *finding)
{
  DryInk ink = finding->severity == DRY_SEVERITY_STOP ? DRY_INK_STOP : DRY_INK_FIX;
  GdkRGBA colour = dry_mark_colour (dry_screen_style ()->inks[ink], 1);

  for (guint i = 0; i < self->scene->n_views; i++) {
    const DryView *view = &self->scene->views[i];
    DryRect r = finding->place;
    DryShape shape = {.view = (gint) i};

    if (view->kind != DRY_VIEW_FACE || view->face != finding->face || finding->face < 0 ||
        dry_rect_is_empty (r))
      continue;
    r = dry_rect_inflate (r, dry_canvas_pixels (self, 3));
    shape.points[0] = (DryPoint){view->origin.x + r.x0, view->origin.y + r.y0};
    shape.points[1] = (DryPoint){view->origin.x + r.x1, view->origin.y + r.y0};
    shape.points[2] = (DryPoint){view->origin.x + r.x1, view->origin.y + r.y1};
    shape.points[3] = (DryPoint){view->origin.x + r.x0, view->origin.y + r.y1};
    dry_mark_shape (self, snapshot, &shape, colour, finding->severity == DRY_SEVERITY_STOP ? 3 : 2,
                    0.10f);
  }
}

void
dry_canvas_paint_breakage (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DryFinding *worst = NULL;
  g_autofree char *text = NULL;
  guint n = 0;

  if (self->plan == NULL || self->hand.object == 0 || self->hand.refusal != NULL)
    return;
  for (guint i = 0; i < self->plan->findings->n; i++) {
    const DryFinding *finding = &self->plan->findings->items[i];

    if (!is_breakage (self, finding))
      continue;
    draw_fault (self, snapshot, finding);
    if (worst == NULL)
      worst = finding;
    n++;
  }
  if (worst == NULL)
    return;
  /* Told by a word, not by color alone. */
  text = worst->severity == DRY_SEVERITY_STOP ? g_strdup_printf (_ ("Stop: %s"), worst->message)
                                              : g_strdup_printf (_ ("To fix: %s"), worst->message);
  if (n > 1) {
    g_autofree char *one = g_steal_pointer (&text);

    text = g_strdup_printf (ngettext ("%s (and %u more)", "%s (and %u more)", n - 1), one, n - 1);
  }
  dry_mark_chip (self, snapshot, dry_mark_foot (self, 1), text, DRY_CHIP_WARNING);
}
