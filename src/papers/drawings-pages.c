/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing sheets: plan, a page a wall face with its lists, small faces and cut sheets together.
 * Scales are standard and true; every sheet names its own. */
#include "papers/papers-private.h"
#include "papers/scale.h"

#define LEGEND_HEIGHT 16.0
#define GRID_GAP      4.0
#define LEAST_CELL    40.0 /* a grid's cell is as wide as its scene's name */

static double
choose_scale (const DryFlow *flow, const DryScene *scene, double width, double height)
{
  double m[4];

  dry_scene_margins (scene, DRY_LAYERS_ALL, m);
  return dry_scale_choose (flow->plan->context.job->metric, dry_rect_width (scene->bounds),
                           dry_rect_height (scene->bounds), width - m[0] - m[2],
                           height - m[1] - m[3]);
}

double
dry_papers_place_scene (DryFlow *flow, DryScene *scene, double x, double y, double width,
                        double height)
{
  DryLength w = dry_rect_width (scene->bounds), h = dry_rect_height (scene->bounds);
  double m[4], ratio = choose_scale (flow, scene, width, height), paper_w, paper_h;

  dry_scene_margins (scene, DRY_LAYERS_ALL, m);
  paper_w = dry_length_to_mm (w) / ratio + m[0] + m[2];
  paper_h = dry_length_to_mm (h) / ratio + m[1] + m[3];
  dry_page_add_scene (flow->page, scene, x + MAX ((width - paper_w) / 2, 0) + m[0],
                      y + MAX ((height - paper_h) / 2, 0) + m[1], ratio);
  return ratio;
}

static void
name_scale (DryFlow *flow, double ratio)
{
  g_free (flow->page->scale);
  flow->page->scale = dry_scale_to_text (flow->plan->context.job->metric, ratio);
}

/* One sign with its word. Signs are little scenes of their own, so that they match the drawing. */
static void
add_legend_sign (DryFlow *flow, double x, double y, DryPrimitive sign, const char *word)
{
  DryArena *arena = dry_arena_new ();
  DryScene *scene = dry_arena_alloc (arena, sizeof (DryScene));

  scene->arena = arena;
  scene->items = dry_arena_copy (arena, &sign, sizeof sign);
  scene->n = 1;
  scene->items[0].points = dry_arena_copy (arena, sign.points, sizeof (DryPoint) * sign.n_points);
  scene->items[0].index = scene->items[0].view = -1;
  scene->bounds = (DryRect){0, 0, 7 * DRY_MM, 3 * DRY_MM};
  dry_page_add_scene (flow->page, scene, x, y, 1);
  dry_page_add_text (flow->page, x + 9, y - 0.3, 0, dry_type_fine, word);
  dry_scene_unref (scene);
}

static DryPrimitive
make_swatch (DryInk stroke, DryPen pen, DryInk fill, double alpha, DryDash dash, gboolean line)
{
  static const DryPoint box[] = {
      {0, 0}, {7 * DRY_MM, 0}, {7 * DRY_MM, 3 * DRY_MM}, {0, 3 * DRY_MM}};
  static const DryPoint stroke_only[] = {{0, 3 * DRY_MM / 2}, {7 * DRY_MM, 3 * DRY_MM / 2}};

  return (DryPrimitive){.kind = DRY_PRIMITIVE_PATH,
                        .stroke = stroke,
                        .pen = pen,
                        .fill = fill,
                        .fill_alpha = alpha,
                        .dash = dash,
                        .points = line ? stroke_only : box,
                        .n_points = line ? 2 : 4,
                        .closed = !line};
}

static DryPrimitive
make_mark (DryMark mark, DryInk ink)
{
  static const DryPoint middle[] = {{7 * DRY_MM / 2, 3 * DRY_MM / 2}};

  return (DryPrimitive){.kind = DRY_PRIMITIVE_MARK,
                        .stroke = ink,
                        .pen = DRY_PEN_018,
                        .mark = mark,
                        .points = middle,
                        .n_points = 1};
}

/* North is up on every plan; beside it which elevation shows which wall. */
static void
add_plan_notes (DryFlow *flow, double y)
{
  const DryFaces *faces = flow->plan->faces;
  g_autoptr (GString) names = g_string_new (NULL);
  double x = flow->left + flow->width - 12;

  add_legend_sign (flow, x, y + 4, make_mark (DRY_MARK_NORTH, DRY_INK_LINE), "");
  dry_page_add_text (flow->page, x + 9, y + 3, 0, dry_type_strong, "N");
  for (guint i = 0; i < faces->n; i++)
    if (faces->items[i].kind == DRY_FACE_WALL)
      g_string_append_printf (names, "%s%s  %s", names->len ? "     " : "", faces->items[i].mark,
                              faces->items[i].name);
  if (names->len)
    dry_page_add_text (flow->page, flow->left, y + 3, flow->width - 18, dry_type_small, names->str);
}

void
dry_papers_add_plan (DryFlow *flow)
{
  g_autoptr (DryScene) scene = dry_drawing_plan (flow->plan);
  double notes = 14;

  if (scene->n == 0)
    return;
  dry_flow_begin (flow, "Plan");
  name_scale (flow, dry_papers_place_scene (flow, scene, flow->left, flow->y, flow->width,
                                            dry_flow_left_over (flow) - notes));
  add_plan_notes (flow, flow->bottom - notes);
}

/* Only what this system and face can show. */
typedef struct {
  double x, y;
} LegendPlace;

/* Signs stand one after another, each as wide as its word. */
static void
add_next_sign (DryFlow *flow, LegendPlace *at, DryPrimitive sign, const char *word)
{
  double width = 9 + dry_page_measure_width (dry_type_fine, word);

  if (at->x > 0 && at->x + width > flow->width) {
    at->x = 0;
    at->y += 5;
  }
  add_legend_sign (flow, flow->left + at->x, at->y, sign, word);
  at->x += width + 6;
}

static gboolean
shows_hidden (const DryPlan *plan, const DryFace *face)
{
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].wall == face->wall && room->parts[i].side == face->side &&
        dry_part_kind_is_hidden (room->parts[i].kind))
      return TRUE;
  return FALSE;
}

static gboolean
shows_finding (const DryPlan *plan, const DryFace *face, DrySeverity severity)
{
  for (guint i = 0; i < plan->findings->n; i++)
    if (plan->findings->items[i].face == (gint) face->index &&
        plan->findings->items[i].severity == severity)
      return TRUE;
  return FALSE;
}

static gboolean
shows_bead (const DryPlan *plan, const DryFace *face)
{
  for (guint i = 0; i < plan->joints->n; i++)
    if (plan->joints->items[i].face == face->index &&
        plan->context.system->treatments[plan->joints->items[i].kind].kind == DRY_TREAT_BEAD)
      return TRUE;
  return face->n_holes > 0 &&
         plan->context.system->treatments[DRY_JOINT_PENETRATION].kind == DRY_TREAT_BEAD;
}

static gboolean
hides (const DryFlow *flow, DryLayer layer)
{
  return (flow->hidden & 1u << layer) != 0;
}

static void
add_legend (DryFlow *flow, const DryFace *face, double y)
{
  const DrySystem *system = flow->plan->context.system;
  DryTreatmentKind seam = system->treatments[DRY_JOINT_SEAM].kind;
  LegendPlace at = {0, y};

#define SIGN(primitive, word) add_next_sign (flow, &at, (primitive), (word))
  if (!hides (flow, DRY_LAYER_BOARDS))
    SIGN (make_swatch (DRY_INK_BOARD, DRY_PEN_035, DRY_INK_BOARD, 0.13, 0, FALSE), "board");
  SIGN (make_swatch (DRY_INK_WOOD, DRY_PEN_018, 0, 1, DRY_DASH_DASHED, FALSE), "stud behind");
  SIGN (make_swatch (DRY_INK_WOOD, DRY_PEN_025, DRY_INK_WOOD, 0.16, DRY_DASH_DASHED, FALSE),
        "to be added");
  if (!hides (flow, DRY_LAYER_FASTENERS))
    SIGN (make_mark (system->washer ? DRY_MARK_WASHER : DRY_MARK_SCREW, DRY_INK_FASTENER),
          system->washer ? "fastener and washer" : "fastener");
  if (!hides (flow, DRY_LAYER_JOINTS) && (seam == DRY_TREAT_BAND || seam == DRY_TREAT_MESH))
    SIGN (make_swatch (0, 0, DRY_INK_BAND, 0.25, 0, FALSE),
          seam == DRY_TREAT_BAND ? "band" : "mesh in mortar");
  if (!hides (flow, DRY_LAYER_JOINTS) && shows_bead (flow->plan, face))
    SIGN (make_swatch (DRY_INK_SEALANT, DRY_PEN_050, 0, 1, 0, TRUE), "bead of sealant");
  if (!hides (flow, DRY_LAYER_HIDDEN) && shows_hidden (flow->plan, face))
    SIGN (make_swatch (DRY_INK_PIPE, DRY_PEN_035, DRY_INK_PIPE, 0.08, DRY_DASH_DASHED, FALSE),
          "hidden in the wall");
  if (shows_finding (flow->plan, face, DRY_SEVERITY_STOP))
    SIGN (make_mark (DRY_MARK_STOP, DRY_INK_STOP), "stop");
  if (shows_finding (flow->plan, face, DRY_SEVERITY_FIX))
    SIGN (make_mark (DRY_MARK_FIX, DRY_INK_FIX), "fix before tiling");
  if (shows_finding (flow->plan, face, DRY_SEVERITY_ADVICE))
    SIGN (make_mark (DRY_MARK_ADVICE, DRY_INK_ADVICE), "advice");
#undef SIGN
}

/* Boards that are listed: none where they are not shown. */
static guint
count_boards (const DryFlow *flow, const DryFace *face)
{
  const DryPlan *plan = flow->plan;
  guint n = 0;

  if (hides (flow, DRY_LAYER_BOARDS))
    return 0;
  for (guint i = 0; i < plan->boards->n; i++)
    n += plan->boards->items[i].face == face->index;
  return n;
}

static void
list_boards (DryFlow *flow, const DryFace *face)
{
  static const DryColumn columns[] = {
      {"Board", 0.13, DRY_ALIGN_LEFT},        {"Width", 0.15, DRY_ALIGN_RIGHT},
      {"Height", 0.15, DRY_ALIGN_RIGHT},      {"From left corner", 0.19, DRY_ALIGN_RIGHT},
      {"Above floor", 0.18, DRY_ALIGN_RIGHT}, {"Fasteners", 0.20, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  const DryPlan *plan = flow->plan;

  if (hides (flow, DRY_LAYER_BOARDS))
    return;
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < plan->boards->n; i++) {
    const DryBoard *board = &plan->boards->items[i];
    guint fasteners = 0;
    if (board->face != face->index)
      continue;
    for (guint f = 0; f < plan->fasteners->n; f++)
      fasteners += plan->fasteners->items[f].board == board->index;
    g_autofree char *w = dry_flow_length (flow->papers, plan, dry_rect_width (board->bounds));
    g_autofree char *h = dry_flow_length (flow->papers, plan, dry_rect_height (board->bounds));
    g_autofree char *u = dry_flow_length (flow->papers, plan, board->bounds.x0);
    g_autofree char *z = dry_flow_length (flow->papers, plan, board->bounds.y0);
    g_autofree char *n = g_strdup_printf ("%u", fasteners);
    const char *cells[] = {board->mark, w, h, u, z, n};
    dry_flow_table_row (flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_end (flow);
}

static void
list_holes (DryFlow *flow, const DryFace *face)
{
  static const DryColumn columns[] = {{"Hole (its middle) or opening", 0.34, DRY_ALIGN_LEFT},
                                      {"Size", 0.22, DRY_ALIGN_RIGHT},
                                      {"From left corner", 0.22, DRY_ALIGN_RIGHT},
                                      {"Above floor", 0.22, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  const DryPlan *plan = flow->plan;

  if (face->n_holes + face->n_cutouts == 0)
    return;
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < face->n_cutouts; i++) {
    const DryCutout *cut = &face->cutouts[i];
    g_autofree char *w = dry_flow_length (flow->papers, plan, dry_rect_width (cut->rough));
    g_autofree char *h = dry_flow_length (flow->papers, plan, dry_rect_height (cut->rough));
    g_autofree char *size = g_strdup_printf ("%s × %s", w, h);
    g_autofree char *u = dry_flow_length (flow->papers, plan, cut->rough.x0);
    g_autofree char *z = dry_flow_length (flow->papers, plan, cut->rough.y0);
    const char *cells[] = {cut->kind == DRY_CUT_NICHE ? "niche, rough" : "opening", size, u, z};
    dry_flow_table_row (flow, &table, cells, FALSE, NULL, 0);
  }
  for (guint i = 0; i < face->n_holes; i++) {
    const DryHole *hole = &face->holes[i];
    const DryPart *part = dry_room_get_part (plan->context.room, hole->object);
    g_autofree char *d = dry_flow_length (flow->papers, plan, hole->diameter);
    g_autofree char *size = g_strdup_printf ("ø %s", d);
    g_autofree char *u = dry_flow_length (flow->papers, plan, hole->centre.x);
    g_autofree char *z = dry_flow_length (flow->papers, plan, hole->centre.y);
    const char *cells[] = {part ? dry_part_kind_name (part->kind) : "pipe", size, u, z};
    dry_flow_table_row (flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_end (flow);
}

/* Boards and holes of a face one under the other, or side by side where height is short. */
typedef enum { LISTS_ELSEWHERE, LISTS_STACKED, LISTS_BESIDE } ListPlace;

static double
measure_lists (const DryFlow *flow, const DryFace *face, ListPlace place)
{
  double row = dry_page_measure (dry_type_body, "8", 0) + 2;
  guint boards = count_boards (flow, face), holes = face->n_holes + face->n_cutouts;

  if (place == LISTS_ELSEWHERE)
    return 0;
  if (place == LISTS_BESIDE) /* headings take two lines, names may */
    return 2 * row + MAX (row * boards, 1.8 * row * holes) + 3;
  return row * (1 + boards) + 3 + (holes ? row * (1 + holes) + 3 : 0);
}

static void
add_face_lists (DryFlow *flow, const DryFace *face, ListPlace place)
{
  double left = flow->left, width = flow->width, y = flow->y, gutter = 5, low;

  if (place != LISTS_BESIDE) {
    list_boards (flow, face);
    list_holes (flow, face);
    return;
  }
  flow->width = (width - gutter) * 0.54;
  list_boards (flow, face);
  low = flow->y;
  flow->left = left + flow->width + gutter;
  flow->width = width - gutter - flow->width;
  flow->y = y;
  list_holes (flow, face);
  flow->y = MAX (flow->y, low);
  flow->left = left;
  flow->width = width;
}

/* Draws the face; TRUE when its lists found room below. */
static gboolean
add_wall_face (DryFlow *flow, const DryFace *face)
{
  g_autoptr (DryScene) scene = dry_drawing_face (flow->plan, face->index);
  g_autofree char *title = g_strdup_printf ("Face %s – %s", face->mark, face->name);
  ListPlace place = LISTS_ELSEWHERE;
  double whole, height;

  dry_flow_begin (flow, title);
  height = whole = dry_flow_left_over (flow) - LEGEND_HEIGHT;
  /* A drawing that gains a step of scale by it has the page to itself. */
  for (ListPlace try = LISTS_STACKED; try <= LISTS_BESIDE && place == LISTS_ELSEWHERE; try++) {
    double shared = whole - measure_lists (flow, face, try);
    if (shared > whole / 3 && choose_scale (flow, scene, flow->width, whole) >=
                                  choose_scale (flow, scene, flow->width, shared)) {
      place = try;
      height = shared;
    }
  }
  name_scale (flow, dry_papers_place_scene (flow, scene, flow->left, flow->y, flow->width, height));
  dry_flow_skip (flow, height + 3);
  add_legend (flow, face, flow->y);
  dry_flow_skip (flow, LEGEND_HEIGHT - 4);
  if (place != LISTS_ELSEWHERE)
    add_face_lists (flow, face, place);
  return place != LISTS_ELSEWHERE;
}

/* The lists that found no room below their drawings, together on sheets of their own. */
static void
add_lists (DryFlow *flow, const GArray *faces)
{
  if (faces->len == 0)
    return;
  dry_flow_begin (flow, hides (flow, DRY_LAYER_BOARDS) ? "Openings and holes by face"
                                                       : "Boards and holes by face");
  for (guint i = 0; i < faces->len; i++) {
    const DryFace *face = &flow->plan->faces->items[g_array_index (faces, guint, i)];
    g_autofree char *heading = g_strdup_printf ("Face %s – %s", face->mark, face->name);
    dry_flow_heading (flow, heading, 16);
    list_boards (flow, face);
    list_holes (flow, face);
  }
}

/* Scenes side by side and row by row at one scale, each under its name. */
typedef struct {
  DryFlow *flow;
  double ratio, x, row_height;
  gboolean began;
} Grid;

static void
add_to_grid (Grid *grid, DryScene *scene, const char *name, const char *title)
{
  DryFlow *flow = grid->flow;
  double m[4], w, h;

  dry_scene_margins (scene, DRY_LAYERS_ALL, m);
  w = dry_length_to_mm (dry_rect_width (scene->bounds)) / grid->ratio + m[0] + m[2];
  w = MAX (MAX (w, LEAST_CELL), dry_page_measure_width (dry_type_strong, name) + 2);
  h = dry_length_to_mm (dry_rect_height (scene->bounds)) / grid->ratio + m[1] + m[3] + 6;
  if (grid->began && grid->x + w > flow->width) {
    dry_flow_skip (flow, grid->row_height + 5);
    grid->x = grid->row_height = 0;
  }
  if (!grid->began) {
    dry_flow_begin (flow, title);
    name_scale (flow, grid->ratio);
    grid->began = TRUE;
  } else if (grid->x == 0 && dry_flow_need (flow, h))
    name_scale (flow, grid->ratio);
  else if (grid->x > 0 && flow->y + h > flow->bottom) {
    /* Taller than what is left beside shorter ones: a page of its own row. */
    dry_flow_skip (flow, grid->row_height + 5);
    grid->x = grid->row_height = 0;
    if (dry_flow_need (flow, h))
      name_scale (flow, grid->ratio);
  }
  dry_page_add_text (flow->page, flow->left + grid->x, flow->y, 0, dry_type_strong, name);
  dry_page_add_scene (flow->page, scene, flow->left + grid->x + m[0], flow->y + 6 + m[1],
                      grid->ratio);
  grid->x += w + GRID_GAP;
  grid->row_height = MAX (grid->row_height, h);
}

/* Pages the scenes take at this scale, set as the grid sets them; a page too small for one: 1000.
 */
static guint
count_pages (const DryFlow *flow, GPtrArray *scenes, double ratio, double foot)
{
  double height = flow->bottom - flow->top - 12, x = 0, y = 0, row = 0;
  guint pages = 1;

  for (guint i = 0; i < scenes->len; i++) {
    const DryScene *scene = scenes->pdata[i];
    double m[4], w, h;
    dry_scene_margins (scene, DRY_LAYERS_ALL, m);
    w = MAX (dry_length_to_mm (dry_rect_width (scene->bounds)) / ratio + m[0] + m[2], LEAST_CELL);
    h = dry_length_to_mm (dry_rect_height (scene->bounds)) / ratio + m[1] + m[3] + 6;
    if (w > flow->width || h > height)
      return 1000;
    if (x > 0 && x + w > flow->width) {
      y += row + 5;
      x = row = 0;
    }
    if (y + h > height) {
      pages++;
      x = y = row = 0;
    }
    x += w + GRID_GAP;
    row = MAX (row, h);
  }
  return pages + (y + row + 5 + foot > height);
}

/* The largest scale of those that need the fewest pages; small ones that nobody reads are not
 * tried. */
static double
choose_grid_scale (const DryFlow *flow, GPtrArray *scenes, double smallest, double foot)
{
  gboolean metric = flow->plan->context.job->metric;
  double best = smallest, ratio = best;
  guint fewest = count_pages (flow, scenes, smallest, foot);

  while ((ratio = dry_scale_larger (metric, ratio)) > 0) {
    guint pages = count_pages (flow, scenes, ratio, foot);
    if (pages > fewest)
      break;
    fewest = pages;
    best = ratio;
  }
  return best;
}

/* Tall ones first, so that rows hold what is alike; the marks tell what is what. */
static int
compare_heights (gconstpointer a, gconstpointer b)
{
  const DryScene *x = *(const DryScene *const *) a, *y = *(const DryScene *const *) b;
  DryLength h = dry_rect_height (x->bounds), k = dry_rect_height (y->bounds);

  if (h != k)
    return h > k ? -1 : 1;
  return (x->views[0].face > y->views[0].face) - (x->views[0].face < y->views[0].face);
}

static void
unref_scene (gpointer scene)
{
  dry_scene_unref (scene);
}

void
dry_papers_add_faces (DryFlow *flow)
{
  const DryFaces *faces = flow->plan->faces;
  g_autoptr (GPtrArray) scenes = g_ptr_array_new_with_free_func (unref_scene);
  g_autoptr (GArray) later = g_array_new (FALSE, FALSE, sizeof (guint));
  Grid grid = {.flow = flow};

  for (guint i = 0; i < faces->n; i++) {
    const DryFace *face = &faces->items[i];
    if (face->kind != DRY_FACE_WALL && hides (flow, DRY_LAYER_BOARDS))
      continue; /* nothing but board is on them */
    if (face->kind == DRY_FACE_WALL) {
      if (!add_wall_face (flow, face))
        g_array_append_val (later, i);
      continue;
    }
    g_ptr_array_add (scenes, dry_drawing_face (flow->plan, i));
  }
  add_lists (flow, later);
  g_ptr_array_sort (scenes, compare_heights);
  grid.ratio = choose_grid_scale (flow, scenes, flow->plan->context.job->metric ? 10 : 12, 0);
  for (guint i = 0; i < scenes->len; i++) {
    DryScene *scene = scenes->pdata[i];
    const DryFace *face = &faces->items[scene->views[0].face];
    g_autofree char *name = g_strdup_printf ("%s – %s", face->mark, face->name);
    add_to_grid (&grid, scene, name, "Linings, benches and ceiling");
  }
}
