/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cut sheets: a page for each sheet of board, its drawing beside the cuts in order, the pieces
 * with where they go, and the offcuts to keep. Knows the plan, not how it was nested. */
#include "papers/papers-private.h"
#include "papers/scale.h"
#include "plan/cutting-standing.h"

#define DRAWING_SHARE  0.44 /* of the page's width */
#define COLUMN_GAP     5.0
#define OFFCUTS_HEIGHT 44.0 /* of the list below the drawing: four of them */

typedef struct {
  DryFlow *flow;
  const DryCutting *cutting;
  const DrySheetLayout *layout;
  guint index;
} Sheet;

static char *
write_length (const Sheet *self, DryLength length)
{
  return dry_flow_length (self->flow->papers, self->flow->plan, length);
}

static char *
write_size (const Sheet *self, DryLength width, DryLength height)
{
  g_autofree char *w = write_length (self, width), *h = write_length (self, height);
  char *unit = g_str_has_suffix (h, " mm") ? g_strrstr (w, " mm") : NULL;

  if (unit) /* said once */
    *unit = '\0';
  return g_strdup_printf ("%s × %s", w, h);
}

/* --- cuts --- */

static gboolean
is_same (DryRect a, DryRect b)
{
  return a.x0 == b.x0 && a.y0 == b.y0 && a.x1 == b.x1 && a.y1 == b.y1;
}

/* The piece or the offcut that lies exactly there, else NULL: a part still to be cut, or waste. */
static char *
name_part (const Sheet *self, DryRect rect)
{
  for (guint i = 0; i < self->layout->n_placements; i++)
    if (is_same (self->layout->placements[i].rect, rect))
      return g_strdup (self->cutting->pieces[self->layout->placements[i].piece].name);
  for (guint i = 0; i < self->layout->n_offcuts; i++)
    if (is_same (self->layout->offcuts[i], rect))
      return g_strdup_printf ("offcut %u", i + 1);
  return NULL;
}

/* What the cut frees for good. */
static char *
name_freed (const Sheet *self, const DryCut *cut, DryLength kerf)
{
  DryRect first = cut->of, second = cut->of;

  if (cut->vertical) {
    first.x1 = cut->at;
    second.x0 = cut->at + kerf;
  } else {
    first.y1 = cut->at;
    second.y0 = cut->at + kerf;
  }
  g_autofree char *one = name_part (self, first), *other = name_part (self, second);
  if (one && other)
    return g_strdup_printf ("%s, %s", one, other);
  return one ? g_steal_pointer (&one) : g_steal_pointer (&other);
}

static char *
name_in_hand (const Sheet *self, const DryCut *cut)
{
  const DryStock *stock = &self->cutting->stock[self->layout->stock];

  if (cut->inside >= 0)
    return g_strdup_printf ("opening of %s", self->cutting->pieces[cut->inside].name);
  if (is_same (cut->of, (DryRect){0, 0, stock->width, stock->height}))
    return g_strdup ("the sheet");
  return write_size (self, dry_rect_width (cut->of), dry_rect_height (cut->of));
}

static void
list_cuts (const Sheet *self)
{
  static const DryColumn columns[] = {{"Cut", 0.10, DRY_ALIGN_RIGHT},
                                      {"through", 0.36, DRY_ALIGN_LEFT},
                                      {"from", 0.15, DRY_ALIGN_LEFT},
                                      {"at", 0.215, DRY_ALIGN_RIGHT},
                                      {"frees", 0.175, DRY_ALIGN_LEFT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  DryLength kerf = self->flow->plan->context.system->kerf;

  if (self->layout->n_cuts == 0) {
    dry_flow_text (self->flow, dry_type_body, 0, "No cut: the sheet is used whole.");
    return;
  }
  dry_flow_table_head (self->flow, &table);
  for (guint i = 0; i < self->layout->n_cuts; i++) {
    const DryCut *cut = &self->layout->cuts[i];
    DryLength distance = cut->vertical ? cut->at - cut->of.x0 : cut->at - cut->of.y0;
    g_autofree char *number = g_strdup_printf ("%u", i + 1), *hand = name_in_hand (self, cut);
    g_autofree char *length = write_length (self, distance);
    g_autofree char *freed = name_freed (self, cut, kerf);
    const char *cells[] = {number, hand, cut->vertical ? "left" : "bottom", length, freed};
    dry_flow_table_row (self->flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_end (self->flow);
}

/* --- pieces --- */

static const DryBoard *
find_board (const DryBoards *boards, const char *mark)
{
  for (guint i = 0; i < boards->n; i++)
    if (g_strcmp0 (boards->items[i].mark, mark) == 0)
      return &boards->items[i];
  return NULL;
}

/* Where among the boards of its face: "top left", "" when it is alone. */
static char *
name_place (const DryBoards *boards, const DryBoard *board)
{
  DryRect all = board->bounds;
  guint n = 0;

  for (guint i = 0; i < boards->n; i++)
    if (boards->items[i].face == board->face) {
      DryRect r = boards->items[i].bounds;
      all =
          (DryRect){MIN (all.x0, r.x0), MIN (all.y0, r.y0), MAX (all.x1, r.x1), MAX (all.y1, r.y1)};
      n++;
    }
  gboolean bottom = board->bounds.y0 == all.y0, top = board->bounds.y1 == all.y1;
  gboolean left = board->bounds.x0 == all.x0, right = board->bounds.x1 == all.x1;
  const char *up = bottom && top ? "" : bottom ? "bottom" : top ? "top" : "middle";
  const char *across = left && right ? "" : left ? "left" : right ? "right" : "middle";
  if (n < 2)
    return g_strdup ("");
  if (g_str_equal (up, "middle") && g_str_equal (across, "middle"))
    across = "";
  return g_strdup_printf (", %s%s%s", up, *up && *across ? " " : "", across);
}

static char *
describe_piece (const Sheet *self, const DryPlacement *place)
{
  const DryPlan *plan = self->flow->plan;
  const DryPiece *piece = &self->cutting->pieces[place->piece];
  const DryBoard *board = find_board (plan->boards, piece->name);
  g_autoptr (GString) text = g_string_new (NULL);

  if (board) {
    g_autofree char *where = name_place (plan->boards, board);
    g_string_append_printf (text, "%s%s", plan->faces->items[board->face].name, where);
  }
  if (place->turned)
    g_string_append_printf (text, "%sturned on the sheet", text->len ? "; " : "");
  if (place->inside >= 0)
    g_string_append_printf (text, "%sfrom the opening of %s", text->len ? "; " : "",
                            self->cutting->pieces[place->inside].name);
  if (piece->n_openings > 0 || (board && (board->shape.n_holes > 0 || board->n_holes > 0)))
    g_string_append_printf (text, "%scut out as on its elevation", text->len ? "; " : "");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
list_pieces (const Sheet *self)
{
  static const DryColumn columns[] = {{"Piece", 0.14, DRY_ALIGN_LEFT},
                                      {"Width × height", 0.36, DRY_ALIGN_LEFT},
                                      {"Goes to", 0.50, DRY_ALIGN_LEFT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};

  dry_flow_heading (self->flow, "Pieces", 12);
  dry_flow_table_head (self->flow, &table);
  for (guint i = 0; i < self->layout->n_placements; i++) {
    const DryPlacement *place = &self->layout->placements[i];
    const DryPiece *piece = &self->cutting->pieces[place->piece];
    g_autofree char *size = write_size (self, piece->width, piece->height);
    g_autofree char *goes = describe_piece (self, place);
    const char *cells[] = {piece->name, size, goes};
    dry_flow_table_row (self->flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_end (self->flow);
}

static void
list_offcuts (const Sheet *self)
{
  static const DryColumn columns[] = {{"Keep", 0.30, DRY_ALIGN_LEFT},
                                      {"Width × height", 0.70, DRY_ALIGN_LEFT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};

  /* Below the drawing there is room for a few, the largest. */
  guint most = (guint) MAX ((dry_flow_left_over (self->flow) - 22) / 6.5, 0);

  if (self->layout->n_offcuts == 0)
    return;
  dry_flow_heading (self->flow, "Offcuts to keep", 12);
  dry_flow_table_head (self->flow, &table);
  for (guint i = 0; i < MIN (self->layout->n_offcuts, most); i++) {
    DryRect r = self->layout->offcuts[i];
    g_autofree char *name = g_strdup_printf ("offcut %u", i + 1);
    g_autofree char *size = write_size (self, dry_rect_width (r), dry_rect_height (r));
    const char *cells[] = {name, size};
    dry_flow_table_row (self->flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_end (self->flow);
}

/* --- pages --- */

static char *
name_sheet (const Sheet *self)
{
  const DryStock *stock = &self->cutting->stock[self->layout->stock];
  g_autofree char *size = write_size (self, stock->width, stock->height);

  return g_strdup_printf ("Sheet %u of %u: %s%s", self->index + 1, self->cutting->n_sheets, size,
                          stock->on_hand ? ", on hand" : "");
}

static void
say_standing (DryFlow *flow, const DryCutting *cutting)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autofree char *waste = dry_flow_number (flow->papers, cutting->waste * 100, 1);
  const char *standing = dry_standing_to_text (dry_boards_get_standing (flow->plan->boards), arena);
  g_autofree char *text = g_strdup_printf (
      "%u sheet%s: %s. Make the cuts in the order of the numbers, each edge to edge of the part in "
      "hand, measured from its left or bottom edge as drawn. Dashed fields are offcuts worth "
      "keeping, hatched ones waste (%s %% of the sheets).",
      cutting->n_sheets, cutting->n_sheets == 1 ? "" : "s", standing, waste);

  dry_flow_text (flow, dry_type_small, 0, text);
  dry_flow_skip (flow, 1.5);
}

/* At the top left, at the largest scale that fits; returns it, and where the drawing ends. */
static double
place_drawing (DryFlow *flow, DryScene *scene, double width, double *bottom)
{
  DryLength w = dry_rect_width (scene->bounds), h = dry_rect_height (scene->bounds);
  double m[4], ratio;

  dry_scene_margins (scene, DRY_LAYERS_ALL, m);
  ratio = dry_scale_choose (flow->plan->context.job->metric, w, h, width - m[0] - m[2],
                            dry_flow_left_over (flow) - m[1] - m[3] - OFFCUTS_HEIGHT);
  dry_page_add_scene (flow->page, scene, flow->left + m[0], flow->y + m[1], ratio);
  *bottom = flow->y + dry_length_to_mm (h) / ratio + m[1] + m[3];
  return ratio;
}

/* The drawing stands on the left with its offcuts below; the cuts and pieces flow down on the right
 * of it, and over to the next page where there are more. */
static void
add_sheet (const Sheet *self)
{
  DryFlow *flow = self->flow;
  g_autoptr (DryScene) scene = dry_drawing_cut_sheet (flow->plan, self->index);
  g_autofree char *name = name_sheet (self);
  double left = flow->left, width = flow->width, share = DRAWING_SHARE * width;
  double ratio, bottom, y;

  dry_flow_begin (flow, "Cut sheets");
  if (self->index == 0)
    say_standing (flow, self->cutting);
  dry_flow_text (flow, dry_type_strong, 0, name);
  ratio = place_drawing (flow, scene, share, &bottom);
  g_free (flow->page->scale);
  flow->page->scale = dry_scale_to_text (flow->plan->context.job->metric, ratio);
  y = flow->y;
  flow->width = share;
  flow->y = bottom + 4;
  list_offcuts (self);
  flow->y = y;
  flow->left = left + share + COLUMN_GAP;
  flow->width = width - share - COLUMN_GAP;
  list_cuts (self);
  list_pieces (self);
  flow->left = left;
  flow->width = width;
}

void
dry_papers_add_cut_sheets (DryFlow *flow)
{
  const DryCutting *cutting = flow->plan->boards->cutting;

  for (guint i = 0; cutting && i < cutting->n_sheets; i++) {
    Sheet sheet = {flow, cutting, &cutting->sheets[i], i};
    add_sheet (&sheet);
  }
}
