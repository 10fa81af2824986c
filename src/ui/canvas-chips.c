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

/* Where letters of the drawing stand on the widget. Widths are estimated: shaping each of them in
 * every frame of a drag would cost more than the frame has. */
static GArray *
collect_letters (DryCanvas *self)
{
  GArray *letters = g_array_new (FALSE, FALSE, sizeof (graphene_rect_t));
  guint layers = dry_session_get_layers (self->session);
  double mm = self->view.paper_mm;

  for (guint i = 0; self->scene != NULL && i < self->scene->n; i++) {
    const DryPrimitive *item = &self->scene->items[i];
    double width, height;
    graphene_rect_t box;
    DrySpot at;

    if (item->kind != DRY_PRIMITIVE_TEXT || item->text == NULL || item->n_points == 0 ||
        item->anchor != DRY_ANCHOR_CENTRE || !(layers & 1u << item->layer))
      continue;
    width = 0.78 * item->size * mm * (double) g_utf8_strlen (item->text, -1);
    height = 1.9 * item->size * mm;
    if (item->room != 0 && width > (double) item->room * self->view.scale)
      continue; /* not shown */
    if (fabs (sin (item->angle * G_PI / 180)) > 0.7) {
      double upright = width;

      width = height;
      height = upright;
    }
    at = dry_mark_spot (self, item->points[0]);
    box = GRAPHENE_RECT_INIT ((float) (at.x - width / 2), (float) (at.y - height / 2),
                              (float) width, (float) height);
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

static gboolean
touches_any (const graphene_rect_t *chip, const graphene_rect_t *others, guint n)
{
  for (guint i = 0; i < n; i++)
    if (graphene_rect_intersection (chip, &others[i], NULL))
      return TRUE;
  return FALSE;
}

/* Written over the drawing where that cannot be helped, over another chip only as a last resort. */
typedef enum { CLEAR_OF_ALL, CLEAR_OF_CHIPS, CLEAR_OF_NOTHING } Clear;

static gboolean
is_free (const Chips *chips, DrySpot at, Clear clear)
{
  graphene_rect_t chip = chip_at (chips, at);

  if (clear != CLEAR_OF_NOTHING && touches_any (&chip, chips->taken, chips->n))
    return FALSE;
  return clear != CLEAR_OF_ALL ||
         !touches_any (&chip, (const graphene_rect_t *) (gpointer) chips->letters->data,
                       chips->letters->len);
}

/* The place on the line nearest to its middle. */
static gboolean
find_on_line (const Chips *chips, DrySpot a, DrySpot b, Clear clear, DrySpot *place)
{
  static const double shares[] = {0.5, 0.45, 0.55, 0.4,  0.6, 0.35, 0.65,
                                  0.3, 0.7,  0.25, 0.75, 0.2, 0.8};
  double length = hypot (b.x - a.x, b.y - a.y);
  gboolean across = fabs (b.x - a.x) > fabs (b.y - a.y);
  double keep = (across ? chips->width : chips->height) / 2 + 4;

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++) {
    DrySpot at = {a.x + (b.x - a.x) * shares[i], a.y + (b.y - a.y) * shares[i]};

    if (length * MIN (shares[i], 1 - shares[i]) < keep || !is_free (chips, at, clear))
      continue;
    *place = at;
    return TRUE;
  }
  return FALSE;
}

/* Two places beside the thing, and the way from the first to farther ones; the other way from the
 * second. */
typedef struct {
  DrySpot first, second, step;
} Beside;

static gboolean
find_beside (const Chips *chips, const Beside *beside, Clear clear, DrySpot *place)
{
  for (guint i = 0; i < 8; i++) {
    double way = i % 2 == 0 ? i / 2 : -(double) (i / 2);
    DrySpot from = i % 2 == 0 ? beside->first : beside->second;

    *place = (DrySpot){from.x + way * beside->step.x, from.y + way * beside->step.y};
    if (is_free (chips, *place, clear))
      return TRUE;
  }
  return FALSE;
}

static Beside
beside_line (const Chips *chips, DryNeighbourSide side, DrySpot at, DrySpot low, DrySpot high,
             gboolean across)
{
  double width = chips->width, height = chips->height;
  DrySpot below = {at.x, high.y + height / 2 + 10}, above = {at.x, low.y - height / 2 - 10};
  DrySpot right = {high.x + width / 2 + 12, at.y}, left = {low.x - width / 2 - 12, at.y};

  if (across)
    return side == DRY_TOWARD_SIDE_LEFT ? (Beside){below, above, {0, height / 2}}
                                        : (Beside){above, below, {0, -height / 2}};
  return side == DRY_TOWARD_SIDE_DOWN ? (Beside){right, left, {width / 2, 0}}
                                      : (Beside){left, right, {-width / 2, 0}};
}

/* On its line; when the line is too short for it, or what stands there would be covered, beside the
 * thing. */
static DrySpot
place_chip (const Chips *chips, const DryMeasured *measured, DryNeighbourSide side)
{
  DrySpot a = dry_mark_spot (chips->canvas, measured->sides[side].from);
  DrySpot b = dry_mark_spot (chips->canvas, measured->sides[side].to);
  DrySpot at = {(a.x + b.x) / 2, (a.y + b.y) / 2}, low, high;
  gboolean across = fabs (b.x - a.x) > fabs (b.y - a.y);
  double need = (across ? chips->width : chips->height) + 12;
  gboolean fits = MAX (fabs (b.x - a.x), fabs (b.y - a.y)) >= need;
  Beside beside;

  if (!bounds_of_thing (chips->canvas, measured, &low, &high))
    return at;
  beside = beside_line (chips, side, at, low, high, across);
  for (Clear clear = CLEAR_OF_ALL; clear <= CLEAR_OF_NOTHING; clear++) {
    DrySpot place;

    if ((fits && find_on_line (chips, a, b, clear, &place)) ||
        find_beside (chips, &beside, clear, &place))
      return place;
  }
  return at;
}

/* A distance is written only where there is one. */
static gboolean
has_chip (const DryMeasured *measured, DryNeighbourSide side)
{
  const DryMeasuredSide *found = &measured->sides[side];

  return measured->drawn && found->known && found->shown && found->distance > 0;
}

void
dry_canvas_place_chips (DryCanvas *self, const DryMeasured *measured, graphene_rect_t places[4])
{
  g_autoptr (GArray) letters = collect_letters (self);
  Chips chips = {.canvas = self, .letters = letters};

  for (guint i = 0; i < 4; i++) {
    DryNeighbourSide side = (DryNeighbourSide) i;
    g_autofree char *text = NULL;

    places[i] = GRAPHENE_RECT_INIT (0, 0, 0, 0);
    if (!has_chip (measured, side))
      continue;
    text = dry_session_format_length (self->session, measured->sides[i].distance);
    dry_mark_chip_size (self, text, &chips.width, &chips.height);
    places[i] = chip_at (&chips, place_chip (&chips, measured, side));
    chips.taken[chips.n++] = places[i];
  }
}
