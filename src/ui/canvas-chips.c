/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds places for the distances written over the board, so that the drawing's own letters can
 * still be read. Paints nothing and moves nothing. */
#include <math.h>

#include "ui/canvas-distance.h"
#include "ui/canvas-mark.h"

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

/* What the next chip keeps off, and its size. */
typedef struct {
  DryCanvas *canvas;
  GArray *letters; /* graphene_rect_t, of the drawing */
  graphene_rect_t taken[4];
  guint n; /* chips that have their places */
  double width, height;
} Chips;

/* Where letters stand on the widget; FALSE when they are not shown. Widths are estimated: shaping
 * each of them in every frame of a drag would cost more than the frame has. */
static gboolean
find_letters (DryCanvas *self, const DryPrimitive *item, graphene_rect_t *box)
{
  double mm = self->view.paper_mm, gap = (item->pen != DRY_PEN_NONE ? 1.5 : 0.8) * mm;
  double width = 0.78 * item->size * mm * (double) g_utf8_strlen (item->text, -1);
  double height = 1.9 * item->size * mm;
  DrySpot at = dry_mark_spot (self, item->points[0]);

  if (item->room != 0 && width > (double) item->room * self->view.scale)
    return FALSE;
  if (fabs (sin (item->angle * G_PI / 180)) > 0.7) {
    double upright = width;

    width = height;
    height = upright;
  }
  at.x += item->anchor == DRY_ANCHOR_LEFT         ? width / 2 + gap
          : item->anchor == DRY_ANCHOR_ABOVE_LEFT ? width / 2
          : item->anchor == DRY_ANCHOR_RIGHT      ? -width / 2 - gap
                                                  : 0;
  at.y += item->anchor == DRY_ANCHOR_BELOW        ? height / 2 + gap * 0.3
          : item->anchor == DRY_ANCHOR_ABOVE      ? -height / 2 - gap * 0.3
          : item->anchor == DRY_ANCHOR_ABOVE_LEFT ? -height / 2 - gap * 0.3
                                                  : 0;
  *box = GRAPHENE_RECT_INIT ((float) (at.x - width / 2), (float) (at.y - height / 2), (float) width,
                             (float) height);
  return TRUE;
}

static GArray *
collect_letters (DryCanvas *self)
{
  GArray *letters = g_array_new (FALSE, FALSE, sizeof (graphene_rect_t));
  guint layers = dry_session_get_layers (self->session);

  for (guint i = 0; self->scene != NULL && i < self->scene->n; i++) {
    const DryPrimitive *item = &self->scene->items[i];
    graphene_rect_t box;

    if (item->kind == DRY_PRIMITIVE_TEXT && item->text != NULL && item->n_points > 0 &&
        layers & 1u << item->layer && find_letters (self, item, &box))
      g_array_append_val (letters, box);
  }
  return letters;
}

static graphene_rect_t
chip_at (const Chips *chips, DrySpot at)
{
  return GRAPHENE_RECT_INIT ((float) (at.x - chips->width / 2), (float) (at.y - chips->height / 2),
                             (float) chips->width, (float) chips->height);
}

static double
covered_area (const graphene_rect_t *chip, const graphene_rect_t *others, guint n)
{
  double area = 0;

  for (guint i = 0; i < n; i++) {
    graphene_rect_t common;

    if (graphene_rect_intersection (chip, &others[i], &common))
      area += common.size.width * common.size.height;
  }
  return area;
}

/* What the next chip would cover there: another chip is the worst. */
static double
harm_at (const Chips *chips, DrySpot at)
{
  graphene_rect_t chip = chip_at (chips, at);
  const graphene_rect_t *letters = (const graphene_rect_t *) (gpointer) chips->letters->data;

  return covered_area (&chip, letters, chips->letters->len) +
         100 * covered_area (&chip, chips->taken, chips->n);
}

/* The first of those that do least harm. */
static DrySpot
choose (const Chips *chips, const DrySpot *places, guint n)
{
  guint best = 0;
  double least = harm_at (chips, places[0]);

  for (guint i = 1; i < n && least > 0; i++) {
    double harm = harm_at (chips, places[i]);

    if (harm < least) {
      least = harm;
      best = i;
    }
  }
  return places[best];
}

/* Near the middle of the line, which is long enough for it. */
static DrySpot
place_on_line (const Chips *chips, DrySpot a, DrySpot b)
{
  static const double shares[] = {0.5, 0.45, 0.55, 0.4,  0.6, 0.35, 0.65,
                                  0.3, 0.7,  0.25, 0.75, 0.2, 0.8};
  DrySpot places[G_N_ELEMENTS (shares)];
  double length = hypot (b.x - a.x, b.y - a.y);
  gboolean across = fabs (b.x - a.x) > fabs (b.y - a.y);
  double keep = (across ? chips->width : chips->height) / 2 + 4;
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    if (i == 0 || length * MIN (shares[i], 1 - shares[i]) >= keep)
      places[n++] = (DrySpot){a.x + (b.x - a.x) * shares[i], a.y + (b.y - a.y) * shares[i]};
  return choose (chips, places, n);
}

/* Beside the thing at the middle of the line, on the one side or the other. Not farther off: it
 * would not be seen what it is of. */
static DrySpot
place_beside (const Chips *chips, DryNeighbourSide side, DrySpot at, DrySpot low, DrySpot high,
              gboolean across)
{
  double width = chips->width, height = chips->height;
  DrySpot below = {at.x, high.y + height / 2 + 10}, above = {at.x, low.y - height / 2 - 10};
  DrySpot right = {high.x + width / 2 + 12, at.y}, left = {low.x - width / 2 - 12, at.y};
  DrySpot places[2] = {across ? above : left, across ? below : right};

  if (side == DRY_TOWARD_SIDE_LEFT || side == DRY_TOWARD_SIDE_DOWN) {
    DrySpot first = places[1];

    places[1] = places[0];
    places[0] = first;
  }
  return choose (chips, places, 2);
}

/* Whether the line is long enough to have the chip on it. */
static gboolean
has_room (const Chips *chips, const DryMeasuredSide *found)
{
  DrySpot a = dry_mark_spot (chips->canvas, found->from);
  DrySpot b = dry_mark_spot (chips->canvas, found->to);
  double x = fabs (b.x - a.x), y = fabs (b.y - a.y);

  return MAX (x, y) >= (x > y ? chips->width : chips->height) + 12;
}

static DrySpot
place_chip (const Chips *chips, const DryMeasured *measured, DryNeighbourSide side)
{
  DrySpot a = dry_mark_spot (chips->canvas, measured->sides[side].from);
  DrySpot b = dry_mark_spot (chips->canvas, measured->sides[side].to);
  DrySpot at = {(a.x + b.x) / 2, (a.y + b.y) / 2}, low, high;

  if (!bounds_of_thing (chips->canvas, measured, &low, &high))
    return at;
  if (has_room (chips, &measured->sides[side]))
    return place_on_line (chips, a, b);
  return place_beside (chips, side, at, low, high, fabs (b.x - a.x) > fabs (b.y - a.y));
}

/* A distance is written only where there is one. */
static gboolean
has_chip (const DryMeasured *measured, DryNeighbourSide side)
{
  const DryMeasuredSide *found = &measured->sides[side];

  return measured->drawn && found->known && found->shown && found->distance > 0;
}

static void
measure_chip (DryCanvas *self, const DryMeasuredSide *found, graphene_size_t *size)
{
  g_autofree char *text = dry_session_format_length (self->session, found->distance);
  double width, height;

  dry_mark_chip_size (self, text, &width, &height);
  *size = GRAPHENE_SIZE_INIT ((float) width, (float) height);
}

/* Those that have to stand beside their line first: the others have more places to choose from. */
void
dry_canvas_place_chips (DryCanvas *self, const DryMeasured *measured, graphene_rect_t places[4])
{
  g_autoptr (GArray) letters = collect_letters (self);
  Chips chips = {.canvas = self, .letters = letters};

  for (guint i = 0; i < 4; i++) {
    places[i] = GRAPHENE_RECT_INIT (0, 0, 0, 0);
    if (has_chip (measured, (DryNeighbourSide) i))
      measure_chip (self, &measured->sides[i], &places[i].size);
  }
  for (guint i = 0; i < 8; i++) {
    DryNeighbourSide side = (DryNeighbourSide) (i % 4);

    chips.width = places[side].size.width;
    chips.height = places[side].size.height;
    if (chips.width <= 0 || has_room (&chips, &measured->sides[side]) != (i >= 4))
      continue;
    places[side] = chip_at (&chips, place_chip (&chips, measured, side));
    chips.taken[chips.n++] = places[side];
  }
}
