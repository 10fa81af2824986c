/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paints the distances to the neighbors on all sides, and what the thing in hand would break where
 * it is: shapes on the faces and one line of text. Moves nothing. */
#include "ui/canvas-distance.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/canvas-entry.h"
#include "ui/canvas-mark.h"

/* --- distances --- */

/* Where the thing itself is on the widget, so that chips keep off it and its grips. */
static gboolean
bounds_of_thing (DryCanvas *self, const DryMeasured *measured, DrySpot *low, DrySpot *high)
{
  const DryMeasuredSide *sides = measured->sides;

  if (!sides[DRY_TOWARD_SIDE_LEFT].shown || !sides[DRY_TOWARD_SIDE_RIGHT].shown)
    return FALSE;
  DrySpot a = dry_mark_spot (self, sides[DRY_TOWARD_SIDE_LEFT].to);
  DrySpot b = dry_mark_spot (self, sides[DRY_TOWARD_SIDE_RIGHT].to);
  DrySpot c =
      sides[DRY_TOWARD_SIDE_DOWN].shown ? dry_mark_spot (self, sides[DRY_TOWARD_SIDE_DOWN].to) : a;
  DrySpot d =
      sides[DRY_TOWARD_SIDE_UP].shown ? dry_mark_spot (self, sides[DRY_TOWARD_SIDE_UP].to) : b;

  *low = (DrySpot){MIN (MIN (a.x, b.x), MIN (c.x, d.x)), MIN (MIN (a.y, b.y), MIN (c.y, d.y))};
  *high = (DrySpot){MAX (MAX (a.x, b.x), MAX (c.x, d.x)), MAX (MAX (a.y, b.y), MAX (c.y, d.y))};
  return TRUE;
}

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

/* On the middle of its line; when the line is too short for it, beside the thing. */
static DrySpot
place_chip (DryCanvas *self, const DryMeasured *measured, DryNeighbourSide side, DrySpot a,
            DrySpot b, const char *text)
{
  DrySpot at = {(a.x + b.x) / 2, (a.y + b.y) / 2}, low, high;
  gboolean across = fabs (b.x - a.x) > fabs (b.y - a.y);
  double width, height;

  dry_mark_chip_size (self, text, &width, &height);
  if (!bounds_of_thing (self, measured, &low, &high))
    return at;
  if (across && fabs (b.x - a.x) < width + 12)
    at.y = side == DRY_TOWARD_SIDE_LEFT ? high.y + height / 2 + 10 : low.y - height / 2 - 10;
  else if (!across && fabs (b.y - a.y) < height + 12)
    at.x = side == DRY_TOWARD_SIDE_DOWN ? high.x + width / 2 + 12 : low.x - width / 2 - 12;
  return at;
}

static void
draw_side (DryCanvas *self, GtkSnapshot *snapshot, const DryMeasured *measured,
           DryNeighbourSide side, gboolean typed)
{
  const DryMeasuredSide *found = &measured->sides[side];
  DrySpot a = dry_mark_spot (self, found->from), b = dry_mark_spot (self, found->to);
  g_autofree char *text = dry_session_format_length (self->session, found->distance);
  GdkRGBA colour = dry_mark_accent (self, 1);

  if (!found->shown || (found->distance <= 0 && !typed))
    return;
  dry_mark_line (snapshot, a, b, colour, typed ? 2.4 : 1.2, FALSE);
  draw_ticks (snapshot, a, b, colour);
  if (typed)
    return;
  dry_mark_chip (self, snapshot, place_chip (self, measured, side, a, b, text), text,
                 DRY_CHIP_QUIET);
}

void
dry_canvas_paint_distances (DryCanvas *self, GtkSnapshot *snapshot)
{
  gboolean open = dry_entry_is_open (self);
  DryMeasured measured;

  if (!dry_canvas_measure_object (self, &measured))
    return;
  for (guint i = 0; i < 4; i++) {
    gboolean typed = open && dry_entry_side (self) == i;

    if (measured.sides[i].known && (measured.drawn || typed))
      draw_side (self, snapshot, &measured, (DryNeighbourSide) i, typed);
  }
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
