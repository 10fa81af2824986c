/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a board's mark and size stand: in the free rectangle of the piece that holds them best.
 * Parts, openings and the basin are in the way; letters' needs are reckoned for a usual scale. */
#include "draw/drawing-private.h"

#define MOST 24 /* things in the way of one board */

typedef struct {
  DryRect items[MOST];
  guint n;
  DryRect within;
} Obstacles;

/* World length of a paper millimetre at the scale a drawing is usually seen at. */
static DryLength
get_paper_mm (const DryFace *face, gboolean full)
{
  return !full ? 50 * DRY_MM : face->kind == DRY_FACE_WALL ? 20 * DRY_MM : 10 * DRY_MM;
}

static void
add_obstacle (Obstacles *self, DryRect r)
{
  r = dry_rect_intersect (r, self->within);
  if (!dry_rect_is_empty (r) && self->n < MOST)
    self->items[self->n++] = r;
}

/* A part with the name under it. */
static void
add_part (Obstacles *self, const DryPart *part, DryLength mm)
{
  DryRect r = dry_rect_inflate (dry_part_rect (part), mm / 2);
  DryLength middle = (r.x0 + r.x1) / 2, half = 6 * mm;

  add_obstacle (self, r);
  if (part->kind == DRY_PART_GLASS)
    add_obstacle (self, (DryRect){r.x1, r.y0, r.x1 + 3 * mm, r.y1});
  else if (part->kind != DRY_PART_NICHE && !dry_part_kind_is_hidden (part->kind))
    add_obstacle (self, (DryRect){middle - half, r.y0 - 4 * mm, middle + half, r.y0});
}

/* A board's corners stand at least a piece's least width apart, so samples see them all. */
static gboolean
is_outside (const DryRing *ring, DryRect r)
{
  if (dry_rect_is_empty (r))
    return FALSE;
  for (guint i = 0; i < 16; i++) {
    DryPoint p = {r.x0 + dry_rect_width (r) / 8 * (2 * (i % 4) + 1),
                  r.y0 + dry_rect_height (r) / 8 * (2 * (i / 4) + 1)};
    if (dry_ring_contains (ring, p))
      return FALSE;
  }
  return TRUE;
}

static void
collect (Obstacles *self, const DryPlan *plan, const DryFace *face, const DryBoard *board,
         DryLength mm)
{
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < face->n_cutouts; i++)
    add_obstacle (self, dry_rect_inflate (face->cutouts[i].rough, mm / 2));
  if (face->kind == DRY_FACE_WALL && face->at_basin)
    add_obstacle (self, (DryRect){face->basin_u0, 0, face->basin_u1, face->deck});
  for (guint i = 0; i < room->n_parts && face->kind == DRY_FACE_WALL; i++)
    if (room->parts[i].wall == face->wall && room->parts[i].side == face->side)
      add_part (self, &room->parts[i], mm);
  /* The corners cut out of an L. */
  for (guint i = 0; i < board->shape.outer.n_points && board->shape.outer.n_points > 4; i++) {
    DryPoint p = board->shape.outer.points[i];
    for (guint c = 0; c < 4; c++) {
      DryPoint corner = {c % 2 ? self->within.x1 : self->within.x0,
                         c / 2 ? self->within.y1 : self->within.y0};
      DryRect r = {MIN (p.x, corner.x), MIN (p.y, corner.y), MAX (p.x, corner.x),
                   MAX (p.y, corner.y)};
      if (is_outside (&board->shape.outer, r))
        add_obstacle (self, r);
    }
  }
}

/* How well letters of the given paper size go into the rectangle, 1 = just. Letters twice as
 * roomy as they need are well off; beyond that nearness to the middle counts more. */
static double
weigh (DryRect r, double width, double height, DryLength mm, DryPoint middle, double span)
{
  double w = (double) dry_rect_width (r) / (double) mm / width;
  double h = (double) dry_rect_height (r) / (double) mm / height;
  DryPoint c = dry_rect_centre (r);
  double off = (double) (ABS (c.x - middle.x) + ABS (c.y - middle.y)) / MAX (span, 1);

  return MIN (MIN (w, h), 2) - 0.4 * off;
}

static void
consider (DryLabelPlace *best, double *score, const Obstacles *o, DryRect r, DryLength mm)
{
  /* Paper sizes of: mark over size; both in one line; the line turned upright. */
  static const double needs[3][2] = {{17, 9}, {24, 4.5}, {4.5, 24}};
  static const double less[3] = {0, 0.35, 0.8};
  DryPoint middle = dry_rect_centre (o->within);
  double span = (double) (dry_rect_width (o->within) + dry_rect_height (o->within));

  for (guint form = 0; form < 3; form++) {
    double s = weigh (r, needs[form][0], needs[form][1], mm, middle, span) - less[form];
    if (s <= *score)
      continue;
    *score = s;
    *best = (DryLabelPlace){.form = form, .free = r};
  }
}

static int
compare_bottoms (gconstpointer a, gconstpointer b)
{
  const DryRect *x = a, *y = b;

  return (x->y0 > y->y0) - (x->y0 < y->y0);
}

/* Every widest gap between things in the way, for each pair of edges left and right. */
static void
search (Obstacles *o, DryLabelPlace *best, DryLength mm)
{
  DryLength lefts[MOST + 1], rights[MOST + 1];
  double score = -G_MAXDOUBLE;

  qsort (o->items, o->n, sizeof (DryRect), compare_bottoms);
  lefts[0] = o->within.x0;
  rights[0] = o->within.x1;
  for (guint i = 0; i < o->n; i++) {
    lefts[i + 1] = o->items[i].x1;
    rights[i + 1] = o->items[i].x0;
  }
  for (guint l = 0; l <= o->n; l++)
    for (guint r = 0; r <= o->n; r++) {
      DryRect gap = {lefts[l], o->within.y0, rights[r], 0};
      if (gap.x1 - gap.x0 < 2 * mm)
        continue;
      for (guint i = 0; i <= o->n; i++) {
        const DryRect *next = i < o->n ? &o->items[i] : NULL;
        if (next && (next->x0 >= gap.x1 || next->x1 <= gap.x0))
          continue;
        gap.y1 = next ? next->y0 : o->within.y1;
        if (gap.y1 > gap.y0)
          consider (best, &score, o, gap, mm);
        if (next)
          gap.y0 = MAX (gap.y0, next->y1);
      }
    }
}

DryLabelPlace
dry_drawing_label_place (const DryPlan *plan, const DryFace *face, const DryBoard *board,
                         gboolean full)
{
  DryLength mm = get_paper_mm (face, full);
  Obstacles o = {.within = board->bounds};
  DryLabelPlace best = {.free = board->bounds};

  collect (&o, plan, face, board, mm);
  search (&o, &best, mm);
  best.at = dry_rect_centre (best.free);
  return best;
}
