/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page for each niche: its framing, the boards and the tile round it, its sizes and the steps
 * that keep it dry. All figures are the plan's and the system's; local code and the maker's
 * instructions come before them. */
#include <string.h>

#include "papers/papers-private.h"
#include "papers/scale.h"

#define GAP   6.0
#define TITLE 6.0

typedef struct {
  DryFlow *flow;
  const DryPlan *plan;
  const DryPart *part;
  const DryFace *face;
  const DryCutout *cut;
} Niche;

static char *
length_of (const Niche *self, DryLength length)
{
  return dry_flow_length (self->flow->papers, self->plan, length);
}

/* --- drawings --- */

static double
width_at (DryScene *scene, double ratio)
{
  double m[4];

  dry_scene_margins (scene, DRY_LAYERS_ALL, m);
  return dry_length_to_mm (dry_rect_width (scene->bounds)) / ratio + m[0] + m[2];
}

static double
height_at (DryScene *scene, double ratio)
{
  double m[4];

  dry_scene_margins (scene, DRY_LAYERS_ALL, m);
  return dry_length_to_mm (dry_rect_height (scene->bounds)) / ratio + m[1] + m[3];
}

/* Framing on the left, boards over tile on the right, at one scale. */
static double
find_scale (const Niche *self, DryScene *const scenes[3], double height)
{
  gboolean metric = self->plan->context.job->metric;
  double best = 0, ratio = metric ? 50 : 48;

  while (ratio > 0) {
    double left = width_at (scenes[0], ratio);
    double right = MAX (width_at (scenes[1], ratio), width_at (scenes[2], ratio));
    double tall =
        MAX (height_at (scenes[0], ratio) + TITLE,
             height_at (scenes[1], ratio) + height_at (scenes[2], ratio) + 2 * TITLE + GAP);

    if (best > 0 && (left + GAP + right > self->flow->width || tall > height))
      break;
    best = ratio;
    ratio = dry_scale_larger (metric, ratio);
  }
  return best;
}

static double
put_scene (const Niche *self, DryScene *scene, const char *title, double x, double y, double ratio)
{
  DryPage *page = self->flow->page;
  double m[4];

  dry_scene_margins (scene, DRY_LAYERS_ALL, m);
  dry_page_add_text (page, x, y, 0, dry_type_strong, title);
  dry_page_add_scene (page, scene, x + m[0], y + TITLE + m[1], ratio);
  return TITLE + height_at (scene, ratio);
}

static void
add_drawings (const Niche *self)
{
  DryFlow *flow = self->flow;
  g_autofree char *corner = length_of (self, self->cut->rough.x0);
  g_autofree char *framing =
      g_strdup_printf ("Framing, from the floor; %s from the left corner", corner);
  DryScene *scenes[3];
  double ratio, left, low;

  for (guint i = 0; i < 3; i++)
    scenes[i] = dry_drawing_niche (self->plan, self->part->id, (DryNicheView) i);
  ratio = find_scale (self, scenes, dry_flow_left_over (flow) * 0.70);
  g_free (flow->page->scale);
  flow->page->scale = dry_scale_to_text (self->plan->context.job->metric, ratio);
  left = width_at (scenes[0], ratio);
  low = put_scene (self, scenes[0], framing, flow->left, flow->y, ratio);
  {
    double x = flow->left + MAX (left + GAP, flow->width * 0.5), y = flow->y;

    y += put_scene (self, scenes[1], "Boards round the rough opening", x, y, ratio) + GAP;
    y += put_scene (self, scenes[2], "Tile round the finished opening", x, y, ratio);
    low = MAX (low, y - flow->y);
  }
  dry_flow_skip (flow, low + 2);
  for (guint i = 0; i < 3; i++)
    dry_scene_unref (scenes[i]);
}

/* --- sizes --- */

static void
add_size (const Niche *self, const DryTable *table, const char *what, DryLength width,
          DryLength height, DryLength u, DryLength z)
{
  g_autofree char *w = length_of (self, width), *h = length_of (self, height);
  g_autofree char *x = length_of (self, u), *y = length_of (self, z);
  const char *cells[] = {what, w, h, x, y};

  dry_flow_table_row (self->flow, table, cells, FALSE, NULL, 0);
}

static const DryBoard *
lining_at (const Niche *self, guint index)
{
  const DryBoard *board = &self->plan->boards->items[index];
  const DryFace *of = &self->plan->faces->items[board->face];

  return of->kind == DRY_FACE_NICHE && of->object == self->part->id ? board : NULL;
}

static gboolean
is_same_size (const DryBoard *a, const DryBoard *b)
{
  return dry_rect_width (a->bounds) == dry_rect_width (b->bounds) &&
         dry_rect_height (a->bounds) == dry_rect_height (b->bounds);
}

/* Its lining: each side is a small face with boards of its own; those of one size in one row. */
static void
add_lining (const Niche *self, const DryTable *table)
{
  guint n = self->plan->boards->n;
  g_autofree gboolean *told = g_new0 (gboolean, n + 1);

  for (guint i = 0; i < n; i++) {
    const DryBoard *board = lining_at (self, i);
    g_autoptr (GString) names = g_string_new ("Lining ");
    g_autofree char *w = NULL, *h = NULL;

    if (!board || told[i])
      continue;
    for (guint k = i; k < n; k++) {
      const DryBoard *other = lining_at (self, k);
      const char *name = other ? self->plan->faces->items[other->face].name : NULL;
      const char *side = name ? strrchr (name, ',') : NULL;

      if (!other || told[k] || !is_same_size (board, other))
        continue;
      told[k] = TRUE;
      g_string_append_printf (names, "%s%s%s", k > i ? ", " : "", other->mark,
                              side ? side + 1 : "");
    }
    w = length_of (self, dry_rect_width (board->bounds));
    h = length_of (self, dry_rect_height (board->bounds));
    {
      const char *cells[] = {names->str, w, h, "", ""};

      dry_flow_table_row (self->flow, table, cells, FALSE, NULL, 0);
    }
  }
}

static void
add_sizes (const Niche *self)
{
  static const DryColumn columns[] = {{"", 0.32, DRY_ALIGN_LEFT},
                                      {"Width", 0.16, DRY_ALIGN_RIGHT},
                                      {"Height", 0.16, DRY_ALIGN_RIGHT},
                                      {"From left corner", 0.18, DRY_ALIGN_RIGHT},
                                      {"Above floor", 0.18, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  const DryRect *rough = &self->cut->rough, *finish = &self->cut->finish;
  DryLength left, right;

  dry_flow_table_head (self->flow, &table);
  add_size (self, &table, "Rough opening", dry_rect_width (*rough), dry_rect_height (*rough),
            rough->x0, rough->y0);
  add_size (self, &table, "Finished opening", dry_rect_width (*finish), dry_rect_height (*finish),
            finish->x0, finish->y0);
  dry_drawing_niche_studs (self->plan, self->face, self->cut, &left, &right);
  add_size (self, &table, "Clear between stud faces", right - left, dry_rect_height (*rough), left,
            rough->y0);
  for (guint i = 0; i < self->plan->framing->n; i++) {
    const DryMember *member = &self->plan->framing->items[i];
    const char *what = member->kind == DRY_MEMBER_HEADER ? "Header over it"
                       : member->kind == DRY_MEMBER_SILL ? "Sill under it"
                                                         : NULL;

    if (what && member->face == self->face->index && member->object == self->part->id)
      add_size (self, &table, what, dry_rect_width (member->rect), dry_rect_height (member->rect),
                member->rect.x0, member->rect.y0);
  }
  add_lining (self, &table);
  dry_flow_table_end (self->flow);
}

/* --- steps --- */

static const char *
treatment_of (const Niche *self, DryJointKind kind)
{
  const DryTreatment *treatment = &self->plan->context.system->treatments[kind];

  return treatment->name && *treatment->name ? treatment->name : "as the maker says";
}

/* The boards of the wall that its opening cuts into. */
static char *
name_boards (const Niche *self, guint *n)
{
  GString *names = g_string_new (NULL);

  *n = 0;
  for (guint i = 0; i < self->plan->boards->n; i++) {
    const DryBoard *board = &self->plan->boards->items[i];

    if (board->face == self->face->index &&
        dry_rect_overlaps (board->bounds, dry_rect_inflate (self->cut->rough, DRY_INCH / 4)))
      g_string_append_printf (names, "%s%s", (*n)++ ? ", " : "", board->mark);
  }
  return g_string_free (names, FALSE);
}

static void add_step (const Niche *self, guint *number, const char *format, ...)
    G_GNUC_PRINTF (3, 4);

static void
add_step (const Niche *self, guint *number, const char *format, ...)
{
  g_autofree char *text = NULL, *line = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  line = g_strdup_printf ("%u.  %s", ++*number, text);
  dry_flow_text (self->flow, dry_type_body, 0, line);
}

/* What to do and in which order is common practice, no source, and said so under the steps; what
 * closes the joints is the system's. */
static void
add_steps_of_layers (const Niche *self, guint *number)
{
  const DrySystem *system = self->plan->context.system;

  if (system->membrane == DRY_MEMBRANE_NONE)
    add_step (self, number,
              "The board is the watertight layer: cover every fastener and cut edge as the system "
              "says before tile.");
  else
    add_step (self, number,
              "Take the membrane over face, edges, cheeks, back and floor in one, and look at the "
              "eight inside corners and four outside edges again before tile.");
}

static void
add_steps (const Niche *self)
{
  DryLength pitch = (DryLength) (self->part->pitch * (double) self->part->depth + 0.5);
  g_autofree char *w = length_of (self, dry_rect_width (self->cut->rough));
  g_autofree char *h = length_of (self, dry_rect_height (self->cut->rough));
  g_autofree char *depth = length_of (self, self->part->depth), *fall = length_of (self, pitch);
  /* 1/4 in a foot: common practice, no source; rule niche-floor-pitch tells where it is less. */
  g_autofree char *shelf =
      pitch > 0
          ? g_strdup_printf ("The floor falls %s to the front over its depth of %s.", fall, depth)
          : g_strdup ("Pitch the floor 1/4\" a foot to the front: drawn level, water stands.");
  guint number = 0, boards = 0;
  g_autofree char *names = name_boards (self, &boards);

  dry_flow_heading (self->flow, "In this order", 20);
  if (self->part->body_width > 0)
    add_step (self, &number,
              "Frame the opening %s by %s, level and plumb, and try the ready-made box in it.", w,
              h);
  else
    add_step (self, &number,
              "Frame the opening %s by %s, level and plumb, the finished niche %s deep; strips "
              "hold the edges of its back.",
              w, h, depth);
  add_step (self, &number,
            boards == 1 ? "Board %s goes round it in one piece, the opening cut out of it: no seam "
                          "runs into a corner, where it would crack."
                        : "Boards %s meet at it: cut each as an L round the corners, so that no "
                          "seam runs into a corner.",
            names);
  if (self->part->body_width > 0)
    add_step (self, &number, "Set the box against the board and close its flange: %s. %s",
              treatment_of (self, DRY_JOINT_NICHE), shelf);
  else
    add_step (
        self, &number,
        "Line it, back first, then floor, cheeks and top. %s Edges of the opening: %s. Inside "
        "corners: %s.",
        shelf, treatment_of (self, DRY_JOINT_NICHE), treatment_of (self, DRY_JOINT_INSIDE_CORNER));
  add_steps_of_layers (self, &number);
  add_step (
      self, &number,
      "Tile the wall round it to the lines drawn above; the shaded tiles are cut, numbered as "
      "in the list of cuts.");
  dry_flow_text (self->flow, dry_type_small, 0,
                 "Order, cuts of the boards and pitch: common practice, no source. What closes "
                 "joints and edges is the system's. Local code and the maker's instructions come "
                 "before all of it.");
}

/* --- the page --- */

static void
add_niche (Niche *self)
{
  g_autofree char *name = dry_papers_part_name (self->plan, self->part);
  g_autofree char *title = g_strdup_printf ("%s – %s", name, self->face->name);

  dry_flow_begin (self->flow, title);
  add_drawings (self);
  add_sizes (self);
  add_steps (self);
}

void
dry_papers_add_niches (DryFlow *flow)
{
  const DryPlan *plan = flow->plan;

  for (guint f = 0; f < plan->faces->n; f++) {
    const DryFace *face = &plan->faces->items[f];

    for (guint c = 0; face->kind == DRY_FACE_WALL && c < face->n_cutouts; c++) {
      const DryCutout *cut = &face->cutouts[c];
      Niche niche = {flow, plan, dry_room_get_part (plan->context.room, cut->object), face, cut};

      if (cut->kind == DRY_CUT_NICHE && niche.part)
        add_niche (&niche);
    }
  }
}
