/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a layout is bought as, and where the user wishes its ends: sheets, boxes and spares counted
 * a second way, cuts out of tiles checked piece by piece, whole tiles at open edges, courses in
 * steps. */
#include <math.h>
#include <string.h>

#include "plan/plan.h"
#include "plan/tile-private.h"
#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *DRY_INCH))

typedef void (*ChangeFinish) (DryFinish *finish, gpointer data);

static DryProject *
set_finish (DryProject *from, ChangeFinish change, gpointer data)
{
  const DryRoom *room = dry_project_get_room_at (from, 0);
  DryFinish finish = room->finish;
  g_autoptr (GError) error = NULL;
  DryProject *project;

  change (&finish, data);
  project = dry_edit_set_finish (from, room->id, &finish, &error);
  g_assert_no_error (error);
  dry_project_unref (from);
  return project;
}

static DryPlan *
plan_of (const DryProject *project)
{
  g_autoptr (GError) error = NULL;
  DryPlan *plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return plan;
}

static void
take_item (DryFinish *finish, gpointer data)
{
  const DryItem *item = dry_catalog_get_item (dry_test_catalog (), data);

  g_assert_nonnull (item);
  finish->tiled = TRUE;
  finish->tile = data;
  finish->tile_width = item->tile_width;
  finish->tile_height = item->tile_height;
  finish->tile_thickness = item->tile_thickness;
  finish->joint = item->joint;
  finish->pattern = DRY_PATTERN_STRAIGHT;
  finish->box = 0;
}

static const DryTakeoffLine *
tile_line (const DryPlan *plan)
{
  for (guint i = 0; i < plan->takeoff->n; i++)
    if (strcmp (plan->takeoff->lines[i].id, "tile") == 0)
      return &plan->takeoff->lines[i];
  return NULL;
}

/* --- sheets --- */

/* Every sheet's place looked at one by one: is a chip there, and how far do they reach? */
static void
count_places (const DryTiling *tiling, const DryTileFace *face, guint *whole, guint *parts,
              guint *chips)
{
  gint32 across = (gint32) tiling->sheet_across, up = (gint32) tiling->sheet_up;
  gint32 c0 = G_MAXINT32, c1 = G_MININT32, r0 = G_MAXINT32, r1 = G_MININT32;

  for (guint i = 0; i < face->n_pieces; i++) {
    c0 = MIN (c0, face->pieces[i].column);
    c1 = MAX (c1, face->pieces[i].column);
    r0 = MIN (r0, face->pieces[i].row);
    r1 = MAX (r1, face->pieces[i].row);
  }
  for (gint32 c = c0; c <= c1; c += across)
    for (gint32 r = r0; r <= r1; r += up) {
      gint32 low[2] = {G_MAXINT32, G_MAXINT32}, high[2] = {G_MININT32, G_MININT32};

      for (guint i = 0; i < face->n_pieces; i++) {
        const DryTilePiece *piece = &face->pieces[i];

        if (piece->column < c || piece->column >= c + across || piece->row < r ||
            piece->row >= r + up)
          continue;
        low[0] = MIN (low[0], piece->column);
        high[0] = MAX (high[0], piece->column);
        low[1] = MIN (low[1], piece->row);
        high[1] = MAX (high[1], piece->row);
      }
      if (high[0] < low[0])
        continue;
      if (high[0] - low[0] + 1 == across && high[1] - low[1] + 1 == up)
        (*whole)++;
      else {
        (*parts)++;
        *chips += (guint) ((high[0] - low[0] + 1) * (high[1] - low[1] + 1));
      }
    }
}

static void
test_sheets (gconstpointer data)
{
  const char *id = data;
  g_autoptr (DryProject) project =
      set_finish (dry_test_furnished_alcove ("foam-bands"), take_item, (gpointer) id);
  g_autoptr (DryPlan) plan = NULL;
  const DryTiling *tiling;
  const DryTakeoffLine *line;
  guint whole = 0, parts = 0, chips = 0, n;

  if (strstr (id, "hex")) {
    DryFinish finish = dry_project_get_room_at (project, 0)->finish;
    DryProject *hex;

    finish.pattern = DRY_PATTERN_HEXAGON;
    hex = dry_edit_set_finish (project, dry_test_room (project), &finish, NULL);
    dry_project_unref (project);
    project = hex;
  }
  plan = plan_of (project);
  tiling = plan->tiling;
  for (guint f = 0; f < tiling->n_faces; f++)
    count_places (tiling, &tiling->faces[f], &whole, &parts, &chips);
  g_assert_cmpuint (tiling->n_whole_sheets, ==, whole);
  g_assert_cmpuint (whole, >, 0);
  g_assert_cmpuint (tiling->n_part_sheets, <=, parts);
  /* No fewer sheets than the chips cut out of them fill, and each block is in one sheet. */
  g_assert_cmpuint (tiling->n_part_sheets * tiling->sheet_across * tiling->sheet_up, >=, chips);
  n = tiling->n_whole_sheets + tiling->n_part_sheets;
  g_assert_cmpuint (tiling->n_spare, ==, (guint) ceil (0.03 * n - 1e-9)); /* 3 % in tiles.json */
  g_assert_cmpuint (tiling->n_sheets, ==, n + tiling->n_spare);
  /* The sheets cover what is tiled. */
  g_assert_cmpfloat (tiling->n_sheets * tiling->area_each, >=, tiling->area);
  g_assert_cmpuint (tiling->n_boxes, ==, (tiling->n_sheets + 9) / 10);
  line = tile_line (plan);
  g_assert_cmpstr (line->unit, ==, "sheet");
  g_assert_cmpfloat (line->amount, ==, tiling->n_sheets);
  g_assert_cmpint (line->packs, ==, tiling->n_boxes);
}

/* A wall of exactly 4 by 3 sheets takes twelve, one chip more in width a block of one column. */
static void
test_sheet_blocks (void)
{
  static const struct {
    guint columns, rows, whole, parts;
  } cases[] = {
      {24, 18, 12, 0}, {25, 18, 12, 1}, {27, 20, 12, 4}, {5, 5, 0, 1}, {6, 6, 1, 0}, {7, 1, 0, 1},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autofree DryTilePiece *pieces =
        g_new0 (DryTilePiece, (gsize) cases[i].columns * cases[i].rows);
    DryTileModule module = {.pattern = DRY_PATTERN_STRAIGHT,
                            .width = IN (2),
                            .height = IN (2),
                            .joint = IN (0.125),
                            .n_shifts = 1};
    DryPlanContext context = {.arena = arena};
    DryTileFace face = {.pieces = pieces, .n_pieces = cases[i].columns * cases[i].rows};
    DryTiling tiling = {.faces = &face, .n_faces = 1, .sheet_across = 6, .sheet_up = 6};

    for (guint k = 0; k < face.n_pieces; k++) {
      pieces[k].column = (gint32) (k % cases[i].columns) - 3;
      pieces[k].row = (gint32) (k / cases[i].columns) + 5;
    }
    dry_tile_count_sheets (&context, &module, &tiling);
    g_assert_cmpuint (tiling.n_whole_sheets, ==, cases[i].whole);
    /* 25 columns: three blocks of 1 x 6 out of one sheet. 27 x 20: three of 3 x 6, four of 6 x 2
     * and one of 3 x 2 are 108 chips, three sheets' worth, but beside two of 3 x 6, and a third
     * with one of 6 x 2 turned, and three of 6 x 2, the last has no place. */
    g_assert_cmpuint (tiling.n_part_sheets, ==, cases[i].parts);
  }
}

/* --- boxes and spares --- */

static void
change_packing (DryFinish *finish, gpointer data)
{
  finish->box = 7;
  finish->breakage = 12.5;
}

static void
test_packing (void)
{
  g_autoptr (DryProject) listed =
      set_finish (dry_test_alcove ("foam-bands"), take_item, (gpointer) "tile-12x24");
  g_autoptr (DryPlan) before = plan_of (listed), after = NULL;
  g_autoptr (DryProject) own = NULL;
  const DryTiling *tiling = before->tiling;
  guint n = tiling->n_whole + tiling->n_for_cuts;

  /* Five in a box and 5 % over, as data/items/tiles.json invents them. */
  g_assert_cmpuint (tiling->box, ==, 5);
  g_assert_cmpuint (tiling->n_boxes, ==, (tiling->n_tiles + 4) / 5);
  g_assert_cmpuint (tiling->n_spare, ==, (guint) ceil (0.05 * n - 1e-9));
  own = set_finish (dry_project_ref (listed), change_packing, NULL);
  after = plan_of (own);
  g_assert_cmpuint (after->tiling->n_spare, ==, (guint) ceil (0.125 * n - 1e-9));
  g_assert_cmpuint (after->tiling->n_boxes, ==, (after->tiling->n_tiles + 6) / 7);
  g_assert_cmpint (tile_line (after)->packs, ==, after->tiling->n_boxes);
  /* Sources go with the figures: invented ones say so. */
  for (guint i = 0; i < tiling->n_counts; i++)
    if (strcmp (tiling->counts[i].name, "Boxes") == 0 ||
        strcmp (tiling->counts[i].name, "Spares") == 0)
      g_assert_cmpint (tiling->counts[i].working.source.certainty, ==, DRY_CERTAINTY_INVENTED);
}

/* --- a whole tile at the open edge --- */

static void
change_ends (DryFinish *finish, gpointer data)
{
  finish->whole_outer = TRUE;
  finish->pattern = DRY_PATTERN_STRAIGHT;
  finish->wrap = data != NULL;
}

static void
check_open_ends (const DryPlan *plan, gboolean wished)
{
  const DryTiling *tiling = plan->tiling;
  guint open = 0;

  for (guint i = 0; i < tiling->n_faces; i++) {
    const DryTileFace *tiled = &tiling->faces[i];
    const DryFace *face = &plan->faces->items[tiled->face];

    if (face->kind != DRY_FACE_WALL || face->dry_left == face->dry_right)
      continue;
    open++;
    g_assert_true (tiled->whole_left == (wished && face->dry_left));
    g_assert_true (tiled->whole_right == (wished && face->dry_right));
    if (wished) {
      g_assert_cmpint (face->dry_left ? tiled->left_cut : tiled->right_cut, ==, tiling->width);
      g_assert_cmpstr (tiled->why_u, ==, "a whole tile at the open edge");
      g_assert_cmpint (tiled->trim_cut, <, tiled->trim);
    }
  }
  g_assert_cmpuint (open, >=, 2);
}

static void
test_whole_outer (void)
{
  DryProject *alcove = set_finish (dry_test_alcove ("foam-bands"), take_item, "tile-12x24");
  g_autoptr (DryProject) balanced = dry_project_ref (alcove);
  g_autoptr (DryProject) whole = set_finish (alcove, change_ends, NULL);
  g_autoptr (DryProject) round = set_finish (dry_project_ref (whole), change_ends, "round");
  g_autoptr (DryPlan) a = plan_of (balanced), b = plan_of (whole), c = plan_of (round);
  DryLength cut_before = a->tiling->trim_cut;

  check_open_ends (a, FALSE);
  check_open_ends (b, TRUE);
  /* Trim is as long, and covers fewer sawn edges. */
  g_assert_cmpint (a->tiling->trim, ==, b->tiling->trim);
  g_assert_cmpint (b->tiling->trim_cut, <, cut_before);
  /* Going round the corners, one end of the run can be whole, and is. */
  for (guint i = 0, n = 0; i < c->tiling->n_faces; i++) {
    const DryTileFace *tiled = &c->tiling->faces[i];

    n += (tiled->whole_left && tiled->left_cut == c->tiling->width) ||
         (tiled->whole_right && tiled->right_cut == c->tiling->width);
    if (i + 1 == c->tiling->n_faces)
      g_assert_cmpuint (n, >=, 1);
  }
}

/* One wall may want it otherwise than its room. */
static void
test_wall_ends (void)
{
  g_autoptr (DryProject) alcove = set_finish (
      set_finish (dry_test_alcove ("foam-bands"), take_item, "tile-12x24"), change_ends, NULL);
  const DryRoom *room = dry_project_get_room_at (alcove, 0);
  DryWall wall = *dry_room_get_wall (room, dry_test_wall (alcove, 'e'));
  g_autoptr (DryProject) set = NULL;
  g_autoptr (DryPlan) plan = NULL;

  wall.tile_ends = DRY_TILE_ENDS_BALANCED;
  set = dry_edit_set_wall (alcove, room->id, &wall, NULL, NULL);
  plan = plan_of (set);
  for (guint i = 0; i < plan->tiling->n_faces; i++) {
    const DryTileFace *tiled = &plan->tiling->faces[i];
    const DryFace *face = &plan->faces->items[tiled->face];

    if (face->kind == DRY_FACE_WALL && face->wall == wall.id) {
      g_assert_false (tiled->whole_left || tiled->whole_right);
      g_assert_cmpint (ABS (tiled->left_cut - tiled->right_cut), <=, 1);
    }
  }
}

/* --- courses in steps --- */

/* Thirds: the fourth course stands over the first, and no two neighbours over each other. Any
 * fraction keeps to its step within a hundredth of a tile. */
static void
test_steps (void)
{
  static const struct {
    double offset;
    guint n;
    double step; /* share */
  } cases[] = {{1.0 / 3, 3, 1.0 / 3}, {0.33, 3, 1.0 / 3}, {0.25, 4, 0.25},   {0.5, 2, 0.5},
               {0.2, 5, 0.2},         {0.4, 5, 0.4},      {0.45, 9, 4.0 / 9}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryFinish finish = {.pattern = DRY_PATTERN_OFFSET,
                        .tile_width = IN (24),
                        .tile_height = IN (12),
                        .offset = cases[i].offset,
                        .stepped = TRUE};
    DryTileModule module = dry_tile_module (&finish, IN (0.125));
    double pitch = (double) dry_tile_pitch_u (&module);

    g_assert_cmpuint (module.n_shifts, ==, cases[i].n);
    for (guint k = 0; k < module.n_shifts; k++) {
      double share = fmod (k * cases[i].step, 1);

      share = share > 1 - 1e-9 ? 0 : share;
      g_assert_cmpfloat_with_epsilon ((double) module.shifts[k] / pitch, share, 1e-6);
      g_assert_cmpfloat (fabs (cases[i].step - cases[i].offset), <=, 0.01);
    }
  }
}

static void
change_steps (DryFinish *finish, gpointer data)
{
  finish->pattern = DRY_PATTERN_OFFSET;
  finish->offset = *(double *) data;
  finish->stepped = TRUE;
}

/* In the room: courses follow the steps, and ANSI A108.02's limit of 33 % for sides over 15 in is
 * told of the step, whichever way courses go on. */
static void
test_stepped_room (void)
{
  static const struct {
    double offset;
    gboolean raised;
  } cases[] = {{1.0 / 3, FALSE}, {0.33, FALSE}, {0.5, TRUE}, {0.4, TRUE}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) project =
        set_finish (set_finish (dry_test_alcove ("foam-bands"), take_item, "tile-12x24"),
                    change_steps, (gpointer) &cases[i].offset);
    g_autoptr (DryPlan) plan = plan_of (project);
    const DryTiling *tiling = plan->tiling;
    DryTileModule module =
        dry_tile_module (&dry_project_get_room_at (project, 0)->finish, tiling->joint);
    gboolean raised = FALSE;

    for (guint f = 0; f < tiling->n_faces; f++)
      for (guint k = 0; k < tiling->faces[f].n_pieces; k++) {
        const DryTilePiece *piece = &tiling->faces[f].pieces[k];
        gint32 course = piece->row % (gint32) module.n_shifts;
        DryLength shift = module.shifts[course < 0 ? course + (gint32) module.n_shifts : course];

        if (piece->cut == DRY_TILE_WHOLE)
          g_assert_cmpint (piece->bounds.x0, ==,
                           tiling->faces[f].datum.x + shift +
                               piece->column * dry_tile_pitch_u (&module));
      }
    for (guint k = 0; k < plan->findings->n; k++)
      raised |= strcmp (plan->findings->items[k].rule->id, "offset-pattern") == 0;
    g_assert_true (raised == cases[i].raised);
  }
}

/* --- cuts out of slanted tile --- */

static void
change_slanted (DryFinish *finish, gpointer data)
{
  finish->tile = NULL;
  finish->pattern = *(DryPattern *) data;
  finish->tile_width = finish->tile_height = IN (6);
}

/* Never fewer than the bound, never more than one tile a cut, and halves do share: cut along its
 * diagonals, one square tile gives the four triangles of a border, kerf taken off. */
static void
test_slanted (void)
{
  static const DryPattern patterns[] = {DRY_PATTERN_DIAGONAL, DRY_PATTERN_HEXAGON};

  for (guint i = 0; i < G_N_ELEMENTS (patterns); i++) {
    g_autoptr (DryProject) project = set_finish (dry_test_furnished_alcove ("foam-bands"),
                                                 change_slanted, (gpointer) &patterns[i]);
    g_autoptr (DryPlan) plan = plan_of (project);
    const DryTiling *tiling = plan->tiling;

    g_assert_cmpuint (tiling->least_for_cuts, >, 0);
    g_assert_cmpuint (tiling->n_for_cuts, >=, tiling->least_for_cuts);
    g_assert_cmpuint (tiling->n_for_cuts, <, tiling->n_cut);
    g_test_message ("%s: %u cuts from %u tiles, at least %u",
                    patterns[i] == DRY_PATTERN_HEXAGON ? "hexagon" : "diagonal", tiling->n_cut,
                    tiling->n_for_cuts, tiling->least_for_cuts);
  }
}

/* A strip `share` of the tile's diagonal wide, cut off one of its corners, `n` times: two of a half
 * cannot share a tile, since the saw takes an eighth; two of a little less can; four corners of a
 * quarter can, one at each corner. */
static void
test_corners (void)
{
  static const struct {
    double depth; /* of the triangle, from the corner, inches */
    guint n, tiles;
  } cases[] = {
      /* The diagonal of 6 in is 8.485 in: half of it 4.243. */
      {4.2426, 2, 2},
      {4.17, 2, 1},
      {4.17, 4, 2},
      {2.0, 4, 1},
      {2.0, 5, 2},
      {2.0, 8, 2},
      /* Four triangles 3 in deep reach 3 in x sqrt 2 = 4.24 along a side of 6 in: only two fit. */
      {3.0, 4, 2},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryTileModule module = {
        .pattern = DRY_PATTERN_DIAGONAL, .width = IN (6), .height = IN (6), .n_shifts = 1};
    DryTilePiece pieces[8] = {0};
    DryPoint corners[3] = {{0, 0},
                           {IN (cases[i].depth), IN (cases[i].depth)},
                           {-IN (cases[i].depth), IN (cases[i].depth)}};
    DryTileFace face = {.pieces = pieces, .n_pieces = cases[i].n};
    DryTiling tiling = {.faces = &face, .n_faces = 1, .pattern = DRY_PATTERN_DIAGONAL};
    guint bound;

    for (guint k = 0; k < cases[i].n; k++)
      pieces[k] = (DryTilePiece){
          .cut = DRY_TILE_SHAPED,
          .points = corners,
          .n_points = 3,
          .area2 = (__int128) 2 * IN (cases[i].depth) * IN (cases[i].depth),
          .bounds = {corners[2].x, 0, corners[1].x, corners[1].y},
      };
    g_assert_cmpuint (dry_tile_nest_shapes (&module, &tiling, &bound), ==, cases[i].tiles);
    g_assert_cmpuint (bound, <=, cases[i].tiles);
  }
}

/* --- numbers of cuts --- */

static void
test_kinds (void)
{
  g_autoptr (DryProject) project =
      set_finish (dry_test_furnished_alcove ("foam-bands"), take_item, (gpointer) "tile-4x12");
  g_autoptr (DryPlan) plan = plan_of (project);
  const DryTiling *tiling = plan->tiling;
  guint sum = 0;

  for (guint f = 0; f < tiling->n_faces; f++)
    for (guint i = 0; i < tiling->faces[f].n_pieces; i++) {
      const DryTilePiece *piece = &tiling->faces[f].pieces[i];
      const DryTileKind *kind = piece->kind >= 0 ? &tiling->kinds[piece->kind] : NULL;

      g_assert_true ((piece->cut == DRY_TILE_WHOLE) == (kind == NULL));
      if (kind == NULL)
        continue;
      g_assert_cmpint (ABS (kind->width - dry_rect_width (piece->bounds)), <, DRY_INCH_64);
      g_assert_cmpint (ABS (kind->height - dry_rect_height (piece->bounds)), <, DRY_INCH_64);
    }
  for (guint i = 0; i < tiling->n_kinds; i++)
    sum += tiling->kinds[i].count;
  g_assert_cmpuint (sum, ==, tiling->n_cut);
}

/* --- no hole in the tile --- */

/* Where the face shows no tile there is a joint: some tile lies within a joint's width, or a strip
 * too narrow to be one. With tiles that do not overlap (test-tile.c), tile and joints are the face.
 */
static void
test_no_hole (gconstpointer data)
{
  DryPattern pattern = (DryPattern) GPOINTER_TO_UINT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (pattern + 1);
  g_autoptr (DryProject) project =
      set_finish (dry_test_furnished_alcove ("cement-liquid"), change_slanted, &pattern);
  g_autoptr (DryPlan) plan = plan_of (project);

  for (guint f = 0; f < plan->tiling->n_faces; f++) {
    const DryTileFace *face = &plan->tiling->faces[f];
    DryRect r = dry_region_bounds (&face->region);

    for (int k = 0; k < 500; k++) {
      DryPoint p = {r.x0 + (DryLength) (g_rand_double (rand) * (double) dry_rect_width (r)),
                    r.y0 + (DryLength) (g_rand_double (rand) * (double) dry_rect_height (r))};
      gboolean near = FALSE;

      if (!dry_region_contains (&face->region, p))
        continue;
      for (guint i = 0; i < face->n_pieces && !near; i++)
        near = dry_rect_contains (
            dry_rect_inflate (face->pieces[i].bounds, plan->tiling->joint + DRY_MM), p);
      g_assert_true (near);
    }
  }
}

int
main (int argc, char **argv)
{
  static const char *const patterns[] = {"straight", "offset",      "vertical",
                                         "diagonal", "herringbone", "hexagon"};

  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/tile/sheets/2x2", "tile-2x2", test_sheets);
  g_test_add_data_func ("/tile/sheets/hexagon", "tile-hex-2", test_sheets);
  g_test_add_func ("/tile/sheets/blocks", test_sheet_blocks);
  g_test_add_func ("/tile/packing", test_packing);
  g_test_add_func ("/tile/ends/room", test_whole_outer);
  g_test_add_func ("/tile/ends/wall", test_wall_ends);
  g_test_add_func ("/tile/steps/module", test_steps);
  g_test_add_func ("/tile/steps/room", test_stepped_room);
  g_test_add_func ("/tile/slanted/rooms", test_slanted);
  g_test_add_func ("/tile/slanted/corners", test_corners);
  g_test_add_func ("/tile/kinds", test_kinds);
  for (guint i = 0; i < G_N_ELEMENTS (patterns); i++) {
    g_autofree char *path = g_strdup_printf ("/tile/no-hole/%s", patterns[i]);

    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_no_hole);
  }
  return g_test_run ();
}
