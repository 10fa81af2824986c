/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cuts of diagonal and hexagon tile, nested by their real shapes: each stays where it lies in its
 * tile, so that it keeps its factory edges, and the tile may be turned onto itself. Knows shapes
 * and the saw, no walls. */
#include "plan/tile-private.h"

#include <math.h>
#include <string.h>

#define POINTS_MOST 24
#define TURNS_MOST  6
#define SHARE_MOST  6    /* pieces out of one tile */
#define ALIKE       0.05 /* mm; the same cut */

typedef struct {
  double x, y;
} Spot;

/* A convex shape in its tile's frame, millimetres. */
typedef struct {
  Spot spots[POINTS_MOST];
  guint n;
  Spot normals[POINTS_MOST]; /* of the edge from each spot to the next, outward */
  double offs[POINTS_MOST];  /* of its line; none for an edge of no length */
  double area;
  guint count;
} Shape;

typedef struct {
  guint shape, turn;
} Part;

/* Tiles cut alike. */
typedef struct {
  Part parts[SHARE_MOST];
  guint n;
  guint count;
  double left;  /* area */
  gint8 *takes; /* by shape: the turn at which one more fits, NOT, or UNTRIED */
} Sort;

#define NOT     (-1)
#define UNTRIED (-2)

typedef struct {
  const DryTileModule *module;
  GArray *shapes; /* Shape */
  guint n_turns;
  double step; /* radians of one turn */
  Spot middle; /* turned about */
  double kerf;
  Shape *turned; /* [shape * n_turns + turn] */
  gint8 *pairs;  /* [(a * shapes + b) * n_turns + turn of b]: can share a tile, or UNTRIED */
  GArray *sorts; /* Sort */
} Nest;

/* --- shapes --- */

static int
compare_spots (gconstpointer a, gconstpointer b)
{
  const Spot *p = a, *q = b;

  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return (p->y > q->y) - (p->y < q->y);
}

static double
turn_of (Spot a, Spot b, Spot c)
{
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/* The convex hull, counter-clockwise from its leftmost spot (monotone chain). What is cut out at
 * the corner of a niche is not used again. */
static void
take_hull (Spot *spots, guint n, Shape *out)
{
  Spot hull[2 * POINTS_MOST + 2];
  guint k = 0, lower;

  qsort (spots, n, sizeof *spots, compare_spots);
  for (guint i = 0; i < n; i++) {
    while (k >= 2 && turn_of (hull[k - 2], hull[k - 1], spots[i]) <= 1e-9)
      k--;
    hull[k++] = spots[i];
  }
  lower = k + 1;
  for (guint i = n > 0 ? n - 1 : 0; i-- > 0;) {
    while (k >= lower && turn_of (hull[k - 2], hull[k - 1], spots[i]) <= 1e-9)
      k--;
    hull[k++] = spots[i];
  }
  out->n = k > 1 ? k - 1 : k;
  out->area = 0;
  for (guint i = 0; i < out->n; i++) {
    Spot p = hull[i], q = hull[(i + 1) % out->n];

    out->spots[i] = p;
    out->area += (p.x * q.y - p.y * q.x) / 2;
  }
}

static void
find_shape (const Nest *self, const DryTileFace *tiled, const DryTilePiece *piece, Shape *out)
{
  const DryRect *r = &piece->bounds;
  const DryPoint corners[] = {{r->x0, r->y0}, {r->x1, r->y0}, {r->x1, r->y1}, {r->x0, r->y1}};
  const DryPoint *points = piece->points ? piece->points : corners;
  guint n = piece->points ? MIN (piece->n_points, POINTS_MOST) : 4;
  gboolean hexagon = self->module->pattern == DRY_PATTERN_HEXAGON;
  Spot spots[POINTS_MOST];
  double x, z;

  dry_tile_origin (self->module, tiled->datum, piece->column, piece->row, &x, &z);
  for (guint i = 0; i < n; i++) {
    double dx = ((double) points[i].x - x) / 1e6, dz = ((double) points[i].y - z) / 1e6;

    spots[i] = hexagon ? (Spot){dx, dz} : (Spot){(dx + dz) * M_SQRT1_2, (dz - dx) * M_SQRT1_2};
  }
  *out = (Shape){.count = 1};
  take_hull (spots, n, out);
}

static gboolean
is_alike (const Shape *a, const Shape *b)
{
  if (a->n != b->n || fabs (a->area - b->area) > 1)
    return FALSE;
  for (guint i = 0; i < a->n; i++)
    if (fabs (a->spots[i].x - b->spots[i].x) > ALIKE ||
        fabs (a->spots[i].y - b->spots[i].y) > ALIKE)
      return FALSE;
  return TRUE;
}

static void
add_shape (GArray *shapes, const Shape *shape)
{
  for (guint i = 0; i < shapes->len; i++)
    if (is_alike (&g_array_index (shapes, Shape, i), shape)) {
      g_array_index (shapes, Shape, i).count++;
      return;
    }
  g_array_append_val (shapes, *shape);
}

static gint
compare_shapes (gconstpointer a, gconstpointer b)
{
  const Shape *x = a, *y = b;

  if (fabs (x->area - y->area) > 1e-6)
    return x->area > y->area ? -1 : 1;
  if (x->n != y->n)
    return x->n < y->n ? -1 : 1;
  for (guint i = 0; i < x->n; i++) {
    int order = compare_spots (&x->spots[i], &y->spots[i]);

    if (order != 0)
      return order;
  }
  return 0;
}

static void
find_edges (Shape *shape)
{
  for (guint i = 0; i < shape->n; i++) {
    Spot p = shape->spots[i], q = shape->spots[(i + 1) % shape->n];
    double length = hypot (q.x - p.x, q.y - p.y);

    shape->normals[i] =
        length > 1e-6 ? (Spot){(q.y - p.y) / length, (p.x - q.x) / length} : (Spot){0, 0};
    shape->offs[i] = shape->normals[i].x * p.x + shape->normals[i].y * p.y;
  }
}

static void
turn_shapes (Nest *self)
{
  self->turned = g_new (Shape, (gsize) self->shapes->len * self->n_turns + 1);
  for (guint s = 0; s < self->shapes->len; s++)
    for (guint t = 0; t < self->n_turns; t++) {
      Shape *out = &self->turned[s * self->n_turns + t];
      double c = cos (self->step * t), d = sin (self->step * t);

      *out = g_array_index (self->shapes, Shape, s);
      for (guint i = 0; i < out->n; i++) {
        double x = out->spots[i].x - self->middle.x, y = out->spots[i].y - self->middle.y;

        out->spots[i] = (Spot){self->middle.x + c * x - d * y, self->middle.y + d * x + c * y};
      }
      find_edges (out);
    }
}

/* --- what one saw cut parts --- */

static const Shape *
shape_of (const Nest *self, Part part)
{
  return &self->turned[part.shape * self->n_turns + part.turn];
}

/* Which side of the line along one edge of `of` a shape lies on: -1 this side of it, +1 beyond the
 * kerf, 0 across. */
static int
side_of (const Nest *self, const Shape *of, guint edge, const Shape *shape)
{
  Spot normal = of->normals[edge];
  double off = of->offs[edge], low = G_MAXDOUBLE, high = -G_MAXDOUBLE;

  for (guint i = 0; i < shape->n; i++) {
    double at = normal.x * shape->spots[i].x + normal.y * shape->spots[i].y - off;

    low = MIN (low, at);
    high = MAX (high, at);
  }
  if (high <= 1e-6)
    return normal.x == 0 && normal.y == 0 ? 0 : -1;
  return low >= self->kerf - 1e-6 ? 1 : 0;
}

/* Whether saw cuts right across, each along an edge of a part, take the parts of `set` asunder. */
static gboolean
can_part (const Nest *self, const Part *parts, guint n, guint set)
{
  if ((set & (set - 1)) == 0)
    return TRUE;
  for (guint i = 0; i < n; i++) {
    const Shape *of = shape_of (self, parts[i]);

    for (guint edge = 0; (set & 1u << i) && edge < of->n; edge++) {
      guint near = 0, far = 0;
      gboolean clean = TRUE;

      for (guint k = 0; k < n && clean; k++) {
        int side = set & 1u << k ? side_of (self, of, edge, shape_of (self, parts[k])) : 0;

        near |= side < 0 ? 1u << k : 0;
        far |= side > 0 ? 1u << k : 0;
        clean = !(set & 1u << k) || side != 0;
      }
      if (clean && near && far && can_part (self, parts, n, near) && can_part (self, parts, n, far))
        return TRUE;
    }
  }
  return FALSE;
}

/* Two parts, told once for every turn of one against the other. */
static gboolean
can_share (const Nest *self, Part a, Part b)
{
  guint turn = (b.turn + self->n_turns - a.turn) % self->n_turns;
  gint8 *known =
      &self->pairs[((gsize) a.shape * self->shapes->len + b.shape) * self->n_turns + turn];

  if (*known == UNTRIED) {
    const Part two[] = {{a.shape, 0}, {b.shape, turn}};

    *known = can_part (self, two, 2, 3);
  }
  return *known > 0;
}

static gboolean
fits (const Nest *self, const Sort *sort, Part part)
{
  Part parts[SHARE_MOST];

  if (sort->n == SHARE_MOST)
    return FALSE;
  for (guint i = 0; i < sort->n; i++) {
    if (!can_share (self, sort->parts[i], part))
      return FALSE;
    parts[i] = sort->parts[i];
  }
  parts[sort->n] = part;
  return sort->n < 2 || can_part (self, parts, sort->n + 1, (1u << (sort->n + 1)) - 1);
}

/* --- tiles --- */

static gint8
find_turn (const Nest *self, const Sort *sort, guint shape)
{
  if (sort->takes[shape] != UNTRIED)
    return sort->takes[shape];
  sort->takes[shape] = NOT;
  for (guint t = 0; t < self->n_turns && sort->takes[shape] == NOT; t++)
    if (fits (self, sort, (Part){shape, t}))
      sort->takes[shape] = (gint8) t;
  return sort->takes[shape];
}

/* One more tile with these parts. */
static void
add_tile (const Nest *self, Sort sort)
{
  for (guint i = 0; i < self->sorts->len; i++) {
    Sort *other = &g_array_index (self->sorts, Sort, i);

    if (other->n == sort.n && memcmp (other->parts, sort.parts, sizeof (Part) * sort.n) == 0) {
      other->count++;
      return;
    }
  }
  sort.count = 1;
  sort.takes = g_malloc (self->shapes->len);
  memset (sort.takes, UNTRIED, self->shapes->len);
  g_array_append_val (self->sorts, sort);
}

/* Puts one piece into the tile it leaves least of, or a new one. */
static void
place (const Nest *self, guint shape, double whole)
{
  double area = g_array_index (self->shapes, Shape, shape).area;
  Sort with = {.left = whole};
  gint best = -1;

  for (guint i = 0; i < self->sorts->len; i++) {
    const Sort *sort = &g_array_index (self->sorts, Sort, i);

    if (sort->count > 0 && sort->left >= area && (best < 0 || sort->left < with.left) &&
        find_turn (self, sort, shape) != NOT) {
      best = (gint) i;
      with = *sort;
    }
  }
  if (best >= 0) {
    g_array_index (self->sorts, Sort, best).count--;
    with.parts[with.n++] = (Part){shape, (guint) with.takes[shape]};
  } else
    with.parts[with.n++] = (Part){shape, 0};
  with.left -= area;
  add_tile (self, with);
}

static guint
place_all (Nest *self, double whole)
{
  guint n = 0;

  for (guint s = 0; s < self->shapes->len; s++)
    for (guint i = 0; i < g_array_index (self->shapes, Shape, s).count; i++)
      place (self, s, whole);
  for (guint i = 0; i < self->sorts->len; i++) {
    n += g_array_index (self->sorts, Sort, i).count;
    g_free (g_array_index (self->sorts, Sort, i).takes);
  }
  return n;
}

static void
set_up (Nest *self, const DryTileModule *module)
{
  double w = dry_length_to_mm (module->width), h = dry_length_to_mm (module->height);
  gboolean hexagon = module->pattern == DRY_PATTERN_HEXAGON;

  self->module = module;
  self->shapes = g_array_new (FALSE, FALSE, sizeof (Shape));
  self->sorts = g_array_new (FALSE, FALSE, sizeof (Sort));
  self->n_turns = hexagon ? 6 : module->width == module->height ? 4 : 2;
  self->step = 2 * G_PI / self->n_turns;
  self->middle = hexagon ? (Spot){0, 0} : (Spot){w / 2, h / 2};
  self->kerf = dry_length_to_mm (DRY_TILE_KERF);
}

guint
dry_tile_nest_shapes (const DryTileModule *module, const DryTiling *self, guint *bound)
{
  double whole = (double) dry_tile_area2 (module) / 2e12, sum = 0;
  guint large = 0, n, pairs;
  Nest nest;

  set_up (&nest, module);
  for (guint f = 0; f < self->n_faces; f++)
    for (guint i = 0; i < self->faces[f].n_pieces; i++)
      if (self->faces[f].pieces[i].cut != DRY_TILE_WHOLE) {
        const DryTilePiece *piece = &self->faces[f].pieces[i];
        double area = (double) piece->area2 / 2e12;
        Shape shape;

        find_shape (&nest, &self->faces[f], piece, &shape);
        add_shape (nest.shapes, &shape);
        sum += area;
        large += 2 * area > whole + 1e-6;
      }
  g_array_sort (nest.shapes, compare_shapes);
  turn_shapes (&nest);
  pairs = nest.shapes->len * nest.shapes->len * nest.n_turns;
  nest.pairs = g_malloc (pairs + 1);
  memset (nest.pairs, UNTRIED, pairs);
  n = place_all (&nest, whole);
  *bound = MAX (large, (guint) ceil (sum / whole - 1e-6));
  g_array_unref (nest.shapes);
  g_array_unref (nest.sorts);
  g_free (nest.turned);
  g_free (nest.pairs);
  return n;
}
