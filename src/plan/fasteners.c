/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets out the screws of each board: rows along edges that lie over framing, then a row on every
 * stud that crosses it. Reads shapes and members only; why a board is where it is, it may not know.
 */
#include "plan/fasteners.h"

#include <math.h>

#include "base/error.h"
#include "plan/outline.h"

/* The least distance between two screws: closer ones split the stud. Common practice, no source. */
#define MIN_PITCH DRY_INCH
/* A row ends at a crossing row's screw when one stands this near. */
#define END_REACH (2 * DRY_INCH)
/* One line of screws holds a built-up post: a second member this near an existing row gets none. */
#define POST_WIDTH (3 * DRY_INCH)

/* A line of screws on one member. */
typedef struct {
  gint member;
  gboolean vertical;
  gboolean edge;
  DryLength across; /* x of a vertical row, z of a horizontal one */
  DrySpan span;     /* along it */
} Row;

/* One board being set out. */
typedef struct {
  const DryPlanContext *context;
  const DryFraming *framing;
  const DryBoards *boards;
  const DryFace *face;
  const DryBoard *board;
  guint index;
  GArray *edges;                  /* DryOutlineEdge */
  GArray *rows;                   /* Row, those placed */
  guint first;                    /* its first screw in items */
  GArray *items, *unheld;         /* of the whole plan */
  DryLength usual, nearest, most; /* distance from an edge: the usual, least and most allowed */
} Setting;

const DryMember *
dry_fasteners_get_member (const DryFraming *framing, const DryBoards *boards, gint member)
{
  if (member < 0)
    return NULL;
  if ((guint) member < framing->n)
    return &framing->items[member];
  return (guint) member < framing->n + boards->n_blocking
             ? &boards->blocking[(guint) member - framing->n]
             : NULL;
}

static gboolean
is_upright (const DryMember *member)
{
  switch (member->kind) {
  case DRY_MEMBER_STUD:
  case DRY_MEMBER_CORNER:
  case DRY_MEMBER_TRIMMER:
  case DRY_MEMBER_CRIPPLE:
    return TRUE;
  default:
    return dry_rect_height (member->rect) > dry_rect_width (member->rect);
  }
}

static DrySpan
span_across (const DryMember *member, gboolean vertical)
{
  return vertical ? (DrySpan){member->rect.x0, member->rect.x1}
                  : (DrySpan){member->rect.y0, member->rect.y1};
}

static DrySpan
span_along (const DryMember *member, gboolean vertical)
{
  return span_across (member, !vertical);
}

/* --- where on a line a screw may stand --- */

/* Takes out what lies too near a rectangle or segment given by its spans. */
static void
remove_near (GArray *spans, DryLength line, DrySpan across, DrySpan along, DryLength clear)
{
  if (line > across.lo - clear && line < across.hi + clear)
    dry_spans_remove (spans, along.lo - clear, along.hi + clear);
}

static void
remove_near_edges (const Setting *self, GArray *spans, gboolean vertical, DryLength line,
                   DryLength clear)
{
  for (guint i = 0; i < self->edges->len; i++) {
    const DryOutlineEdge *edge = &g_array_index (self->edges, DryOutlineEdge, i);
    DryPoint a = edge->from, b = edge->to;
    DrySpan across = {vertical ? MIN (a.x, b.x) : MIN (a.y, b.y),
                      vertical ? MAX (a.x, b.x) : MAX (a.y, b.y)};
    DrySpan along = {vertical ? MIN (a.y, b.y) : MIN (a.x, b.x),
                     vertical ? MAX (a.y, b.y) : MAX (a.x, b.x)};
    /* Beside a parallel edge the row's own distance was chosen already: only the least holds. */
    remove_near (spans, line, across, along, across.lo == across.hi ? self->nearest : clear);
  }
}

static void
remove_near_holes (const Setting *self, GArray *spans, gboolean vertical, DryLength line,
                   DryLength clear)
{
  for (guint i = 0; i < self->board->n_holes; i++) {
    const DryHole *hole = &self->board->holes[i];
    DryLength radius = (hole->diameter + 1) / 2;
    DryLength across = vertical ? hole->centre.x : hole->centre.y;
    DryLength along = vertical ? hole->centre.y : hole->centre.x;
    remove_near (spans, line, (DrySpan){across - radius, across + radius},
                 (DrySpan){along - radius, along + radius}, clear);
  }
}

/* No screw through the lip of the tub or pan, whatever hangs in front of it. */
static void
remove_flange (const Setting *self, GArray *spans, gboolean vertical, DryLength line)
{
  const DryFace *face = self->face;
  DrySpan across = {face->basin_u0, face->basin_u1}, along = {face->deck, face->flange_top};

  if (!face->at_basin || face->flange_top <= face->deck)
    return;
  if (vertical)
    remove_near (spans, line, across, along, DRY_WOOD_AROUND);
  else
    remove_near (spans, line, along, across, DRY_WOOD_AROUND);
}

static GArray *
find_free_spans (const Setting *self, gboolean vertical, DryLength line, DrySpan span,
                 DryLength clear)
{
  GArray *spans = g_array_new (FALSE, FALSE, sizeof (DrySpan));

  g_array_append_val (spans, span);
  remove_near_edges (self, spans, vertical, line, clear);
  remove_near_holes (self, spans, vertical, line, clear);
  remove_flange (self, spans, vertical, line);
  for (guint i = spans->len; i-- > 0;) {
    DrySpan *at = &g_array_index (spans, DrySpan, i);
    DryLength middle = at->lo + (at->hi - at->lo) / 2;
    DryPoint p = vertical ? (DryPoint){line, middle} : (DryPoint){middle, line};
    if (!dry_outline_contains (&self->board->shape, p))
      g_array_remove_index (spans, i);
  }
  return spans;
}

/* --- setting a row --- */

static DryPoint
point_on (const Row *row, DryLength along)
{
  return row->vertical ? (DryPoint){row->across, along} : (DryPoint){along, row->across};
}

/* The board's nearest screw closer than `reach`, or NULL. */
static const DryFastener *
find_near (const Setting *self, DryPoint p, DryLength reach)
{
  const DryFastener *best = NULL;
  __int128 least = (__int128) reach * reach;

  for (guint i = self->first; i < self->items->len; i++) {
    const DryFastener *it = &g_array_index (self->items, DryFastener, i);
    DryLength dx = it->at.x - p.x, dy = it->at.y - p.y;
    __int128 squared = (__int128) dx * dx + (__int128) dy * dy;
    if (squared < least) {
      best = it;
      least = squared;
    }
  }
  return best;
}

/* How far along its row a screw keeps from those of the board across the seam: their washers must
 * lie side by side, and two screws level in one stud split it. 0 when it stands clear. */
static DryLength
reckon_step_aside (const Setting *self, const Row *row, DryLength along)
{
  const DrySystem *system = self->context->system;
  double apart = (double) MAX (MIN_PITCH, system->washer ? system->washer_diameter : 0);
  DryPoint p = point_on (row, along);
  DryLength step = 0;

  for (guint i = 0; i < self->first && row->edge; i++) {
    const DryFastener *it = &g_array_index (self->items, DryFastener, i);
    double across = (double) (row->vertical ? it->at.x - p.x : it->at.y - p.y);
    DryLength off = row->vertical ? it->at.y - along : it->at.x - along;
    if (it->face != self->board->face || fabs (across) >= apart)
      continue;
    double needed = sqrt (apart * apart - across * across);
    if (fabs ((double) off) < needed)
      step = MAX (step, off + (DryLength) ceil (needed));
  }
  return step;
}

static void
add_screw (Setting *self, const Row *row, DryLength along)
{
  DryLength aside = reckon_step_aside (self, row, along);

  if (aside > 0 && along + aside <= row->span.hi)
    along += aside;
  else if (aside > 0 && along - aside >= row->span.lo)
    along -= aside;
  DryFastener it = {
      .face = self->board->face,
      .board = self->index,
      .at = point_on (row, along),
      .member = row->member,
      .edge = row->edge,
      .washer = self->context->system->washer != NULL,
  };

  if (!find_near (self, it.at, MIN_PITCH))
    g_array_append_val (self->items, it);
}

/* Rows beside each other on a narrow board each hold their own edge. */
static gboolean
is_on_row_beside (const Setting *self, const Row *row, const DryFastener *screw)
{
  DryLength across = row->vertical ? screw->at.x : screw->at.y;

  for (guint i = 0; i < self->rows->len; i++) {
    const Row *other = &g_array_index (self->rows, Row, i);
    if (other->vertical == row->vertical && other->across == across && across != row->across)
      return TRUE;
  }
  return FALSE;
}

/* Where the row begins or ends: at its own end, or at a crossing row's screw that stands there. */
static DryLength
settle_end (Setting *self, const Row *row, DryLength along)
{
  const DryFastener *there = find_near (self, point_on (row, along), END_REACH);

  if (there && !is_on_row_beside (self, row, there))
    return row->vertical ? there->at.y : there->at.x;
  add_screw (self, row, along);
  return along;
}

static void
set_row (Setting *self, const Row *row, DryLength spacing)
{
  DryLength length = row->span.hi - row->span.lo;

  g_array_append_val (self->rows, *row);
  if (length < MIN_PITCH) {
    add_screw (self, row, row->span.lo + length / 2);
    return;
  }
  DryLength from = settle_end (self, row, row->span.lo);
  DryLength to = settle_end (self, row, row->span.hi);
  DryLength n = to > from && spacing > 0 ? (to - from + spacing - 1) / spacing : 1;
  for (DryLength i = 1; i < n; i++) {
    DryLength at = from + (to - from) * i / n;
    if (at > row->span.lo && at < row->span.hi)
      add_screw (self, row, at);
  }
}

/* Sets `row` wherever a screw may stand on it. FALSE when nowhere. */
static gboolean
set_row_where_free (Setting *self, Row row, DryLength spacing)
{
  g_autoptr (GArray) spans =
      find_free_spans (self, row.vertical, row.across, row.span, self->usual);

  if (spans->len == 0) { /* a narrow piece: the least distance must do */
    g_array_unref (spans);
    spans = find_free_spans (self, row.vertical, row.across, row.span, self->nearest);
  }
  for (guint i = 0; i < spans->len; i++) {
    row.span = g_array_index (spans, DrySpan, i);
    set_row (self, &row, spacing);
  }
  return spans->len > 0;
}

/* --- rows along edges --- */

/* A member under an edge and the distance from the edge at which a screw finds it. */
typedef struct {
  gint member;
  DryLength distance; /* -1: none that the system allows */
  DryLength off;      /* from the usual distance; worst ones last */
  DryLength bearing;
  DrySpan along;
} Seat;

static gboolean
find_seat (const Setting *self, const DryOutlineEdge *edge, gint index, const DryMember *member,
           Seat *seat)
{
  gboolean vertical = dry_outline_edge_is_vertical (edge);
  /* the board is on the left: an edge walked upward has it toward smaller x */
  int inward = vertical ? (edge->to.y > edge->from.y ? -1 : 1) : edge->to.x > edge->from.x ? 1 : -1;
  DryLength at = vertical ? edge->from.x : edge->from.y;
  DrySpan across = span_across (member, vertical), along = span_along (member, vertical);
  DrySpan mine = {vertical ? MIN (edge->from.y, edge->to.y) : MIN (edge->from.x, edge->to.x),
                  vertical ? MAX (edge->from.y, edge->to.y) : MAX (edge->from.x, edge->to.x)};
  DryLength near = inward > 0 ? across.lo - at : at - across.hi;
  DryLength far = inward > 0 ? across.hi - at : at - across.lo;
  DryLength least = MAX (self->nearest, near + DRY_WOOD_AROUND);
  DryLength most = MIN (self->most, far - DRY_WOOD_AROUND);

  if (is_upright (member) != vertical || far <= 0 || near >= self->most)
    return FALSE;
  *seat = (Seat){.member = index,
                 .distance = least <= most ? CLAMP (self->usual, least, most) : -1,
                 .bearing = far - MAX (near, 0),
                 .along = {MAX (mine.lo, along.lo + DRY_WOOD_AROUND),
                           MIN (mine.hi, along.hi - DRY_WOOD_AROUND)}};
  seat->off = seat->distance < 0 ? G_MAXINT64 : ABS (seat->distance - self->usual);
  /* Framing further in than the edge itself belongs to the field. */
  return seat->along.lo <= seat->along.hi && (seat->distance >= 0 || near <= 0);
}

static int
compare_seats (gconstpointer a, gconstpointer b)
{
  const Seat *x = a, *y = b;

  if (x->off != y->off)
    return x->off < y->off ? -1 : 1;
  return x->member - y->member;
}

static GArray *
find_seats (const Setting *self, const DryOutlineEdge *edge)
{
  GArray *seats = g_array_new (FALSE, FALSE, sizeof (Seat));
  guint n = self->framing->n + self->boards->n_blocking;

  for (guint i = 0; i < n; i++) {
    const DryMember *member = dry_fasteners_get_member (self->framing, self->boards, (gint) i);
    Seat seat;
    if (member && member->face == self->board->face &&
        find_seat (self, edge, (gint) i, member, &seat))
      g_array_append_val (seats, seat);
  }
  g_array_sort (seats, compare_seats);
  return seats;
}

static void
report_unheld (Setting *self, const DryOutlineEdge *edge, const Seat *seat, DrySpan span)
{
  gboolean vertical = dry_outline_edge_is_vertical (edge);
  DryUnheldEdge it = {.board = self->index, .bearing = seat->bearing};

  it.from = vertical ? (DryPoint){edge->from.x, span.lo} : (DryPoint){span.lo, edge->from.y};
  it.to = vertical ? (DryPoint){edge->from.x, span.hi} : (DryPoint){span.hi, edge->from.y};
  if (span.hi - span.lo >= MIN_PITCH) /* shorter stretches hang on their neighbours */
    g_array_append_val (self->unheld, it);
}

static void
set_edge (Setting *self, const DryOutlineEdge *edge)
{
  gboolean vertical = dry_outline_edge_is_vertical (edge);
  int inward = vertical ? (edge->to.y > edge->from.y ? -1 : 1) : edge->to.x > edge->from.x ? 1 : -1;
  DryLength at = vertical ? edge->from.x : edge->from.y;
  g_autoptr (GArray) seats = find_seats (self, edge);
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (DrySpan));
  DrySpan all = {vertical ? MIN (edge->from.y, edge->to.y) : MIN (edge->from.x, edge->to.x),
                 vertical ? MAX (edge->from.y, edge->to.y) : MAX (edge->from.x, edge->to.x)};

  g_array_append_val (open, all);
  for (guint i = 0; i < seats->len; i++) {
    const Seat *seat = &g_array_index (seats, Seat, i);
    g_autoptr (GArray) mine = g_array_copy (open);
    dry_spans_remove (mine, G_MININT64, seat->along.lo);
    dry_spans_remove (mine, seat->along.hi, G_MAXINT64);
    for (guint j = 0; j < mine->len; j++) {
      Row row = {.member = seat->member,
                 .vertical = vertical,
                 .edge = TRUE,
                 .across = at + inward * seat->distance,
                 .span = g_array_index (mine, DrySpan, j)};
      /* a bare touch at the border of a neighbour's stretch is no stretch of its own */
      if (row.span.lo == row.span.hi && all.lo != all.hi)
        continue;
      if (seat->distance < 0 ||
          !set_row_where_free (self, row, self->context->system->edge_spacing.value))
        report_unheld (self, edge, seat, row.span);
    }
    dry_spans_remove (open, seat->along.lo, seat->along.hi);
  }
}

static void
set_edges (Setting *self, gboolean vertical)
{
  for (guint i = 0; i < self->edges->len; i++) {
    const DryOutlineEdge *edge = &g_array_index (self->edges, DryOutlineEdge, i);
    if (vertical ? dry_outline_edge_is_vertical (edge) : dry_outline_edge_is_horizontal (edge))
      set_edge (self, edge);
  }
}

/* --- rows in the field --- */

/* Takes out what rows already set nearby hold. */
static void
remove_held (const Setting *self, GArray *spans, DryLength line)
{
  for (guint i = 0; i < self->rows->len; i++) {
    const Row *row = &g_array_index (self->rows, Row, i);
    if (row->vertical && ABS (row->across - line) < POST_WIDTH)
      dry_spans_remove (spans, row->span.lo, row->span.hi);
  }
}

static void
set_field_row (Setting *self, gint index, const DryMember *member)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (DrySpan));
  DryRect rect = member->rect, bounds = self->board->bounds;
  DrySpan span = {MAX (rect.y0 + DRY_WOOD_AROUND, bounds.y0),
                  MIN (rect.y1 - DRY_WOOD_AROUND, bounds.y1)};
  DryLength line = rect.x0 + (rect.x1 - rect.x0) / 2;

  if (span.lo > span.hi || dry_rect_width (rect) < 2 * DRY_WOOD_AROUND)
    return;
  g_array_append_val (spans, span);
  remove_held (self, spans, line);
  for (guint i = 0; i < spans->len; i++) {
    Row row = {.member = index,
               .vertical = TRUE,
               .across = line,
               .span = g_array_index (spans, DrySpan, i)};
    if (row.span.hi - row.span.lo >= MIN_PITCH || spans->len == 1)
      set_row_where_free (self, row, self->context->system->field_spacing.value);
  }
}

static void
set_field (Setting *self)
{
  guint n = self->framing->n + self->boards->n_blocking;

  for (guint i = 0; i < n; i++) {
    const DryMember *member = dry_fasteners_get_member (self->framing, self->boards, (gint) i);
    if (member && member->face == self->board->face && is_upright (member) &&
        dry_rect_overlaps (member->rect, self->board->bounds))
      set_field_row (self, (gint) i, member);
  }
}

static void
set_board (Setting *self)
{
  self->edges = dry_outline_edges (&self->board->shape);
  self->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  self->first = self->items->len;
  set_edges (self, TRUE); /* seams hang on uprights; level rows run from one to the next */
  set_field (self);
  set_edges (self, FALSE);
  g_array_unref (self->edges);
  g_array_unref (self->rows);
}

const DryFasteners *
dry_fasteners_compute (const DryPlanContext *context, const DryFaces *faces,
                       const DryFraming *framing, const DryBoards *boards, GError **error)
{
  const DrySystem *system = context->system;
  DryFasteners *self = dry_arena_alloc (context->arena, sizeof *self);
  Setting setting = {
      .context = context,
      .framing = framing,
      .boards = boards,
      .items = g_array_new (FALSE, FALSE, sizeof (DryFastener)),
      .unheld = g_array_new (FALSE, FALSE, sizeof (DryUnheldEdge)),
      .usual = system->edge_distance.value,
      .nearest = MIN (system->edge_distance_min.value, system->edge_distance.value),
      .most = MAX (system->edge_distance_max.value, system->edge_distance.value),
  };
  gboolean cancelled = FALSE;

  if (setting.nearest <= 0)
    setting.nearest = setting.usual;
  for (guint i = 0; i < boards->n && !cancelled; i++) {
    setting.board = &boards->items[i];
    setting.face = &faces->items[setting.board->face];
    setting.index = i;
    set_board (&setting);
    cancelled = g_cancellable_is_cancelled (context->cancellable);
  }
  self->n = setting.items->len;
  self->n_unheld = setting.unheld->len;
  self->items = dry_arena_take_array (context->arena, setting.items);
  self->unheld = dry_arena_take_array (context->arena, setting.unheld);
  if (cancelled) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "A newer project took its place");
    return NULL;
  }
  return self;
}
