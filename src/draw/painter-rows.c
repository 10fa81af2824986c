/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decides at this zoom which rows of dimensions there is space for and where their lines stand.
 * Whole rows go at a time, inner ones before overall sizes; knows no figure's final place. */
#include "draw/painter-private.h"

#include <math.h>

/* Rows of one side over one base line. Faces on one floor share theirs, so that they lose a row
 * together and keep their lines level. */
typedef struct {
  DryToward side;
  DryLength base;
  gint view; /* -1: faces side by side */
  gboolean inner_gone, gone;
} Stack;

typedef struct {
  guint stack, row, place, n;
  gint view;
  double a, b, need;
  gboolean overall, gone;
} Row;

typedef struct {
  DryPainter *painter;
  GArray *stacks, *rows;
} Rows;

static DryLength
get_base (const DryPrimitive *item)
{
  DryPoint a = item->points[0], b = item->points[1];

  switch (item->side) {
  case DRY_TOWARD_UP:
    return MAX (a.y, b.y);
  case DRY_TOWARD_DOWN:
    return MIN (a.y, b.y);
  case DRY_TOWARD_LEFT:
    return MIN (a.x, b.x);
  default:
    return MAX (a.x, b.x);
  }
}

static guint
find_stack (Rows *self, const DryPrimitive *item)
{
  const DryScene *scene = self->painter->scene;
  gboolean face = item->view >= 0 && (guint) item->view < scene->n_views &&
                  scene->views[item->view].kind == DRY_VIEW_FACE;
  Stack want = {.side = item->side, .base = get_base (item), .view = face ? -1 : item->view};

  for (guint i = 0; i < self->stacks->len; i++) {
    const Stack *s = &g_array_index (self->stacks, Stack, i);
    if (s->side == want.side && s->base == want.base && s->view == want.view)
      return i;
  }
  g_array_append_val (self->stacks, want);
  return self->stacks->len - 1;
}

static guint
find_row (Rows *self, const DryDimension *d, guint stack)
{
  Row want = {.stack = stack, .row = d->item->row, .view = d->item->view, .a = d->a, .b = d->b};

  for (guint i = 0; i < self->rows->len; i++) {
    const Row *r = &g_array_index (self->rows, Row, i);
    if (r->stack == stack && r->row == want.row && r->view == want.view)
      return i;
  }
  g_array_append_val (self->rows, want);
  return self->rows->len - 1;
}

static gboolean
measure (DryPainter *self, const DryPrimitive *item, DryDimension *d)
{
  double x[2], y[2], h;
  gboolean swap;

  if (item->n_points < 2 || !item->text)
    return FALSE;
  for (int i = 0; i < 2; i++)
    dry_painter_place (self, item->points[i], &x[i], &y[i]);
  d->item = item;
  d->flat = item->side == DRY_TOWARD_UP || item->side == DRY_TOWARD_DOWN;
  d->out = item->side == DRY_TOWARD_UP || item->side == DRY_TOWARD_LEFT ? -1 : 1;
  swap = d->flat ? x[0] > x[1] : y[0] > y[1];
  d->a = d->flat ? x[swap] : y[swap];
  d->b = d->flat ? x[!swap] : y[!swap];
  d->base[0] = d->flat ? y[swap] : x[swap];
  d->base[1] = d->flat ? y[!swap] : x[!swap];
  dry_painter_shape (self, item->text, item->size, FALSE, &d->width, &h);
  return TRUE;
}

static void
gather (Rows *self)
{
  DryPainter *painter = self->painter;

  for (guint i = 0; i < painter->scene->n; i++) {
    const DryPrimitive *item = &painter->scene->items[i];
    DryDimension d = {0};
    Row *row;

    if (item->kind != DRY_PRIMITIVE_DIMENSION || !(painter->layers & (1u << item->layer)) ||
        !measure (painter, item, &d))
      continue;
    d.stack = find_stack (self, item);
    d.row = find_row (self, &d, d.stack);
    row = &g_array_index (self->rows, Row, d.row);
    row->a = MIN (row->a, d.a);
    row->b = MAX (row->b, d.b);
    row->need += d.width + dry_painter_mm (painter, DRY_FIGURE_GAP);
    row->n++;
    g_array_append_val (painter->dimensions, d);
  }
}

/* A lone dimension over all that its view measures on that side. */
static void
find_overall (Rows *self)
{
  for (guint i = 0; i < self->rows->len; i++) {
    Row *r = &g_array_index (self->rows, Row, i);
    double a = r->a, b = r->b;

    for (guint j = 0; j < self->rows->len; j++) {
      const Row *other = &g_array_index (self->rows, Row, j);
      if (other->stack == r->stack && other->view == r->view) {
        a = MIN (a, other->a);
        b = MAX (b, other->b);
      }
    }
    r->overall = r->n == 1 && r->b - r->a > (b - a) * 0.98;
    /* Two lines of figures above the line hold so much and no more. */
    r->gone = r->n > 1 ? r->need > 1.7 * (r->b - r->a)
                       : r->b - r->a < dry_painter_mm (self->painter, 1.5);
  }
}

static gboolean
is_gone (const Rows *self, const Row *r)
{
  const Stack *s = &g_array_index (self->stacks, Stack, r->stack);

  return r->gone || s->gone || (s->inner_gone && !r->overall);
}

/* Rows close ranks where others have gone, each view for itself. */
static void
close_ranks (Rows *self)
{
  for (guint i = 0; i < self->rows->len; i++) {
    Row *r = &g_array_index (self->rows, Row, i);
    r->place = 0;
    for (guint j = 0; j < self->rows->len; j++) {
      const Row *other = &g_array_index (self->rows, Row, j);
      r->place += other->stack == r->stack && other->view == r->view && other->row < r->row &&
                  !is_gone (self, other);
    }
    r->place = MIN (r->place, 40);
  }
  for (guint i = 0; i < self->painter->dimensions->len; i++) {
    DryDimension *d = &g_array_index (self->painter->dimensions, DryDimension, i);
    const Row *r = &g_array_index (self->rows, Row, d->row);
    double edge = d->out < 0 ? MIN (d->base[0], d->base[1]) : MAX (d->base[0], d->base[1]);
    d->place = r->place;
    d->gone = is_gone (self, r);
    d->line =
        edge + d->out * dry_painter_mm (self->painter, DRY_ROW_FIRST + DRY_ROW_STEP * d->place);
  }
}

/* What a dimension takes: its line and the figures above it. */
static DryBox
get_band (const DryPainter *self, const DryDimension *d)
{
  double high = dry_painter_mm (self, DRY_ROW_LETTERS), low = dry_painter_mm (self, 1);

  if (d->flat)
    return (DryBox){d->a, d->line - high, d->b, d->line + low};
  return (DryBox){d->line - high, d->a, d->line + low, d->b};
}

static gboolean
meet (DryBox a, DryBox b)
{
  return MAX (a.x0, b.x0) + 0.5 < MIN (a.x1, b.x1) && MAX (a.y0, b.y0) + 0.5 < MIN (a.y1, b.y1);
}

static gboolean
meets_view (const DryPainter *self, const DryDimension *d)
{
  DryBox band = get_band (self, d);

  for (guint v = 0; v < self->scene->n_views; v++) {
    DryRect r = self->scene->views[v].bounds;
    DryBox box;
    if ((gint) v == d->item->view)
      continue;
    dry_painter_place (self, (DryPoint){r.x0, r.y1}, &box.x0, &box.y0);
    dry_painter_place (self, (DryPoint){r.x1, r.y0}, &box.x1, &box.y1);
    if (meet (band, box))
      return TRUE;
  }
  return FALSE;
}

static gboolean
has_inner (const Rows *self, guint stack)
{
  for (guint i = 0; i < self->rows->len; i++) {
    const Row *r = &g_array_index (self->rows, Row, i);
    if (r->stack == stack && !r->overall && !is_gone (self, r))
      return TRUE;
  }
  return FALSE;
}

static void
give_way (Rows *self, guint stack)
{
  Stack *s = &g_array_index (self->stacks, Stack, stack);

  if (has_inner (self, stack))
    s->inner_gone = TRUE;
  else
    s->gone = TRUE;
}

/* Of two that meet the one with rows within goes first, and a plan before the faces. */
static guint
choose_loser (const Rows *self, guint a, guint b)
{
  gboolean plan_a = g_array_index (self->stacks, Stack, a).view >= 0;

  if (has_inner (self, a) != has_inner (self, b))
    return has_inner (self, a) ? a : b;
  return plan_a ? a : b;
}

/* TRUE when some row had to go. */
static gboolean
settle_one (Rows *self)
{
  GArray *all = self->painter->dimensions;

  for (guint i = 0; i < all->len; i++) {
    const DryDimension *d = &g_array_index (all, DryDimension, i);
    if (d->gone)
      continue;
    if (meets_view (self->painter, d)) {
      give_way (self, d->stack);
      return TRUE;
    }
    for (guint j = i + 1; j < all->len; j++) {
      const DryDimension *other = &g_array_index (all, DryDimension, j);
      if (other->gone || other->stack == d->stack ||
          !meet (get_band (self->painter, d), get_band (self->painter, other)))
        continue;
      give_way (self, choose_loser (self, d->stack, other->stack));
      return TRUE;
    }
  }
  return FALSE;
}

void
dry_painter_lay_out_rows (DryPainter *self)
{
  Rows rows = {self, g_array_new (FALSE, TRUE, sizeof (Stack)),
               g_array_new (FALSE, TRUE, sizeof (Row))};

  gather (&rows);
  find_overall (&rows);
  close_ranks (&rows);
  /* Each turn takes at least one row away for good. */
  while (settle_one (&rows))
    close_ranks (&rows);
  g_array_unref (rows.stacks);
  g_array_unref (rows.rows);
}
