/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile stage: worked layouts, cuts that no datum could better, areas to the last square
 * nanometre, and counts that add up. */
#include "plan/tile.h"

#include <math.h>
#include <string.h>

#include "plan/plan.h"
#include "plan/tile-private.h"
#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *DRY_INCH))

static const DryLength no_shift[] = {0};

/* --- one axis --- */

/* A run of `width` laid from datum 0 at its left end. */
static DryLength
smallest_of (DryLength width, DryLength size, DryLength joint)
{
  const DryTileEdge edges[] = {{0, TRUE}, {width, FALSE}};
  DryLength datum = dry_tile_solve_axis (edges, 2, no_shift, 1, size, joint);

  return dry_tile_judge_axis (edges, 2, no_shift, 1, datum, size, joint).smallest;
}

/* Ceramic Tile Education Foundation column (Floor Covering Installer 95138): with 24 in tile, a row
 * that ends in a 1-1/2 in sliver is shifted so that both ends get (24 + 1-1/2)/2 = 12-3/4 in;
 * joints left out there. */
static void
test_worked_layout (void)
{
  g_assert_cmpint (smallest_of (IN (24 * 4 + 1.5), IN (24), 0), ==, IN (12.75));
}

/* ANSI A108.02 4.3.1: centred and balanced, no cut under half a tile. With a joint of nothing that
 * can always be had; with one, all but the last half joint of it. */
static void
test_half_rule (void)
{
  static const DryLength sizes[] = {IN (3), IN (6), IN (12), IN (24), 300 * DRY_MM};

  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (DryLength width = IN (20); width < IN (90); width += IN (0.4375)) {
      DryLength joint = IN (0.125);

      if (width < 2 * sizes[s])
        continue;
      g_assert_cmpint (2 * smallest_of (width, sizes[s], 0), >=, sizes[s] - 1);
      g_assert_cmpint (2 * smallest_of (width, sizes[s], joint), >=, sizes[s] - joint - 1);
    }
}

/* What the solver answers is never below the best of a search over every sixteenth of an inch. */
static void
test_never_below_grid (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);

  for (int i = 0; i < 3000; i++) {
    DryLength size = g_rand_int_range (rand, 16, 400) * DRY_INCH / 16;
    DryLength joint = g_rand_int_range (rand, 0, 5) * DRY_INCH / 16;
    DryLength shifts[] = {0, g_rand_int_range (rand, 0, 51) * (size + joint) / 100};
    guint n_shifts = (guint) g_rand_int_range (rand, 1, 3);
    guint n = (guint) g_rand_int_range (rand, 1, 6);
    DryTileEdge edges[6];
    DryLength datum;
    DryTileAxis solved;

    for (guint k = 0; k < n; k++)
      edges[k] = (DryTileEdge){g_rand_int_range (rand, -2000, 2000) * DRY_INCH / 16,
                               g_rand_boolean (rand)};
    datum = dry_tile_solve_axis (edges, n, shifts, n_shifts, size, joint);
    g_assert_true (datum >= 0 && datum < size + joint);
    solved = dry_tile_judge_axis (edges, n, shifts, n_shifts, datum, size, joint);
    for (DryLength d = 0; d < size + joint; d += DRY_INCH / 16) {
      DryTileAxis tried = dry_tile_judge_axis (edges, n, shifts, n_shifts, d, size, joint);

      /* Midpoints are rounded to the nanometre. */
      g_assert_cmpint (solved.smallest, >=, tried.smallest - 1);
    }
  }
}

/* --- whole rooms --- */

typedef struct {
  const char *name;
  DryPattern pattern;
  double width, height, joint, offset; /* inches */
} Tile;

static const Tile tiles[] = {
    {"3x6 offset", DRY_PATTERN_OFFSET, 6, 3, 0.125, 0.5},
    {"12x24 straight", DRY_PATTERN_STRAIGHT, 24, 12, 0.125, 0},
    {"12x24 third", DRY_PATTERN_OFFSET, 24, 12, 0.1875, 0.33},
    {"4x12 upright", DRY_PATTERN_VERTICAL, 12, 4, 0.0625, 0},
    {"6x6 diagonal", DRY_PATTERN_DIAGONAL, 6, 6, 0.125, 0},
    {"3x6 herringbone", DRY_PATTERN_HERRINGBONE, 6.125, 3, 0.125, 0},
    {"2 in hexagon", DRY_PATTERN_HEXAGON, 2, 2, 0.125, 0},
};

static DryProject *
tile_room (const DryProject *from, const Tile *tile)
{
  const DryRoom *room = dry_project_get_room_at (from, 0);
  DryFinish finish = room->finish;
  g_autoptr (GError) error = NULL;
  DryProject *project;

  finish.tiled = TRUE;
  finish.tile = NULL;
  finish.tile_width = IN (tile->width);
  finish.tile_height = IN (tile->height);
  finish.tile_thickness = IN (0.3125);
  finish.joint = IN (tile->joint);
  finish.mortar = IN (0.125);
  finish.pattern = tile->pattern;
  finish.offset = tile->offset;
  project = dry_edit_set_finish (from, room->id, &finish, &error);
  g_assert_no_error (error);
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

static gboolean
is_in_piece (const DryTilePiece *piece, DryPoint p)
{
  DryRing ring = {(DryPoint *) piece->points, piece->n_points};

  if (!dry_rect_contains (piece->bounds, p))
    return FALSE;
  return piece->points == NULL || dry_ring_contains (&ring, p);
}

/* Tile and joints are the face, exactly; no point is in two tiles or in one outside the face. */
static void
check_face (const DryTileFace *face, GRand *rand)
{
  DryRect r = dry_region_bounds (&face->region);
  __int128 sum2 = 0;
  guint cut = 0;

  for (guint i = 0; i < face->n_pieces; i++) {
    sum2 += face->pieces[i].area2;
    cut += face->pieces[i].cut != DRY_TILE_WHOLE;
    g_assert_true (face->pieces[i].area2 > 0);
  }
  g_assert_cmpuint (cut, ==, face->n_cut);
  g_assert_cmpuint (face->n_whole + face->n_cut, ==, face->n_pieces);
  g_assert_true (sum2 <= dry_region_area2 (&face->region));
  g_assert_cmpfloat_with_epsilon (face->joint_area + (double) sum2 / 2e18, face->area, 1e-9);
  for (int k = 0; k < 40; k++) {
    DryPoint p = {r.x0 + (DryLength) (g_rand_double (rand) * (double) dry_rect_width (r)),
                  r.y0 + (DryLength) (g_rand_double (rand) * (double) dry_rect_height (r))};
    guint n = 0;

    for (guint i = 0; i < face->n_pieces; i++)
      n += is_in_piece (&face->pieces[i], p);
    g_assert_cmpuint (n, <=, 1);
    if (n > 0)
      g_assert_true (dry_region_contains (&face->region, p));
  }
}

/* The share of joints, by geometry: 1 - AB/((A+j)(B+j)). A face of whole tiles keeps to it; cuts at
 * the edges shift it a little. */
static void
check_joints (const DryTiling *tiling, const Tile *tile)
{
  double a = tile->width, b = tile->height, j = tile->joint;
  double share = 1 - a * b / ((a + j) * (b + j));

  if (tile->pattern == DRY_PATTERN_HEXAGON)
    share = 1 - a * a / ((a + j) * (a + j));
  g_assert_cmpfloat_with_epsilon (tiling->joint_area / tiling->area, share, 0.012);
}

/* The cuts that are told at the edges are those that were laid there. Returns how many faces were
 * looked at: plain rectangles that one tile reaches across (alone), or all others. */
static guint
check_edge_cuts (const DryTiling *tiling, gboolean alone)
{
  guint n = 0;

  for (guint f = 0; f < tiling->n_faces; f++) {
    const DryTileFace *face = &tiling->faces[f];
    DryRect r = dry_region_bounds (&face->region);
    DryLength least[] = {tiling->width, tiling->width, tiling->height, tiling->height};
    const DryLength told[] = {face->left_cut, face->right_cut, face->bottom_cut, face->top_cut};

    if (!dry_tile_is_grid (tiling->pattern) || face->region.n_polygons != 1 ||
        face->region.polygons[0].outer.n_points != 4 || face->region.polygons[0].n_holes > 0 ||
        (dry_rect_width (r) < tiling->width || dry_rect_height (r) < tiling->height) != alone)
      continue;
    for (guint i = 0; i < face->n_pieces; i++) {
      DryRect p = face->pieces[i].bounds;
      const DryLength off[] = {p.x0 - r.x0, r.x1 - p.x1, p.y0 - r.y0, r.y1 - p.y1};
      for (guint e = 0; e < 4; e++)
        if (off[e] <= tiling->joint)
          least[e] = MIN (least[e], e < 2 ? dry_rect_width (p) : dry_rect_height (p));
    }
    for (guint e = 0; e < 4; e++)
      g_assert_cmpint (told[e], ==, least[e]);
    n++;
  }
  return n;
}

static void
test_rooms (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  guint alone = 0, others = 0;

  for (guint32 seed = 1; seed <= 12; seed++)
    for (guint t = 0; t < G_N_ELEMENTS (tiles); t++) {
      g_autoptr (DryProject) room = dry_test_random_project (seed);
      g_autoptr (DryProject) project = tile_room (room, &tiles[t]);
      g_autoptr (DryPlan) plan = plan_of (project);
      const DryTiling *tiling = plan->tiling;

      g_test_message ("seed %u, %s: %u faces, %u tiles", seed, tiles[t].name, tiling->n_faces,
                      tiling->n_tiles);
      for (guint f = 0; f < tiling->n_faces; f++)
        check_face (&tiling->faces[f], rand);
      if (tiling->n_faces == 0)
        continue;
      check_joints (tiling, &tiles[t]);
      alone += check_edge_cuts (tiling, TRUE);
      others += check_edge_cuts (tiling, FALSE);
      g_assert_cmpuint (tiling->n_tiles, ==,
                        tiling->n_whole + tiling->n_for_cuts + tiling->n_spare);
      g_assert_cmpuint (tiling->n_for_cuts, <=, tiling->n_cut);
      /* The tile bought covers what is laid of it. */
      g_assert_cmpfloat ((tiling->n_whole + tiling->n_for_cuts) *
                             (double) dry_tile_area2 (&(DryTileModule){.pattern = tiling->pattern,
                                                                       .width = tiling->width,
                                                                       .height = tiling->height}) /
                             2e18,
                         >=, tiling->area - tiling->joint_area - 1e-9);
    }
  g_assert_cmpuint (alone, >, 20);
  g_assert_cmpuint (others, >, 20);
}

/* An independent count: the share of sampled points in tile is the share of area.
 */
static void
test_by_sampling (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);
  g_autoptr (DryProject) alcove = dry_test_furnished_alcove ("foam-bands");

  for (guint t = 0; t < G_N_ELEMENTS (tiles); t++) {
    g_autoptr (DryProject) project = tile_room (alcove, &tiles[t]);
    g_autoptr (DryPlan) plan = plan_of (project);

    for (guint f = 0; f < plan->tiling->n_faces; f++) {
      const DryTileFace *face = &plan->tiling->faces[f];
      DryRect r = dry_region_bounds (&face->region);
      guint on = 0, all = 0;

      /* At random: a regular grid would beat against the tile's own. */
      for (int k = 0; k < 3000; k++) {
        DryPoint p = {r.x0 + (DryLength) (g_rand_double (rand) * (double) dry_rect_width (r)),
                      r.y0 + (DryLength) (g_rand_double (rand) * (double) dry_rect_height (r))};

        if (!dry_region_contains (&face->region, p))
          continue;
        all++;
        for (guint i = 0; i < face->n_pieces; i++)
          if (is_in_piece (&face->pieces[i], p)) {
            on++;
            break;
          }
      }
      if (all > 400)
        g_assert_cmpfloat_with_epsilon ((double) on / all, 1 - face->joint_area / face->area, 0.03);
    }
  }
}

/* --- the user's own datum, wrapping, joints --- */

static const DryTileFace *
back_of (const DryPlan *plan)
{
  for (guint i = 0; i < plan->tiling->n_faces; i++)
    if (strcmp (plan->faces->items[plan->tiling->faces[i].face].name, "Back wall") == 0)
      return &plan->tiling->faces[i];
  g_assert_not_reached ();
}

static void
test_given_datum (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
  g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[1]);
  const DryRoom *room = dry_project_get_room_at (tiled, 0);
  DryWall wall = *dry_room_get_wall (room, dry_test_wall (tiled, 'n'));
  DryFinish finish = room->finish;
  g_autoptr (DryProject) from = NULL, level = NULL;
  g_autoptr (DryPlan) plan = NULL;
  const DryTileFace *back;

  wall.tile_set = TRUE;
  wall.tile_from = IN (7);
  from = dry_edit_set_wall (tiled, room->id, &wall, NULL, NULL);
  g_assert_nonnull (from);
  finish.level_set = TRUE;
  finish.level = IN (20);
  level = dry_edit_set_finish (from, room->id, &finish, NULL);
  g_assert_nonnull (level);
  plan = plan_of (level);
  back = back_of (plan);
  g_assert_true (back->given_u && back->given_z);
  g_assert_cmpint (back->datum.x, ==, IN (7));
  g_assert_cmpint (back->datum.y, ==, IN (20));
  /* From 7 in, courses of 24-1/8 in: joints' middles stand 1/16 in before each start. */
  g_assert_cmpint (dry_tile_off_joint (back->upright, back->n_upright, IN (7) - IN (0.0625)), ==,
                   0);
  g_assert_cmpint (dry_tile_off_joint (back->level, back->n_level, IN (20) - IN (0.0625)), ==, 0);
}

/* A whole course above the tub where the top then has half a tile or more: rim 15 in, joint 1/8 in.
 */
static void
test_first_course (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
  g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[1]);
  g_autoptr (DryPlan) plan = plan_of (tiled);
  const DryTileFace *back = back_of (plan);

  /* 96 - 1/8 - 15-1/8 = 80-3/4 in; six courses of 12-1/8 leave 8 in at the top: over half. */
  g_assert_cmpint (back->datum.y, ==, IN (15.125));
  g_assert_cmpint (back->bottom_cut, ==, IN (12));
  g_assert_cmpint (back->top_cut, ==, IN (8));
}

static void
test_wrap (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
  g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[1]);
  const DryRoom *room = dry_project_get_room_at (tiled, 0);
  DryFinish finish = room->finish;
  g_autoptr (DryProject) wrapped = NULL;
  g_autoptr (DryPlan) plan = NULL;
  const DryTileFace *back;

  finish.wrap = TRUE;
  wrapped = dry_edit_set_finish (tiled, room->id, &finish, NULL);
  plan = plan_of (wrapped);
  back = back_of (plan);
  for (guint i = 0; i < plan->tiling->n_faces; i++) {
    const DryTileFace *other = &plan->tiling->faces[i];
    const DryFace *face = &plan->faces->items[other->face];

    if (other == back || face->kind != DRY_FACE_WALL)
      continue;
    g_assert_cmpstr (other->why_u, ==, "courses go on round the corner");
    /* What was cut off on one wall, less the saw, begins the next. */
    if (face->left.face == (gint) back->face)
      g_assert_cmpint (back->right_cut + other->left_cut + DRY_TILE_KERF, ==, IN (24));
    else
      g_assert_cmpint (back->left_cut + other->right_cut + DRY_TILE_KERF, ==, IN (24));
    /* The corners are no edges: only where the run ends must half a tile be left. */
    g_assert_true (other->wraps_left != other->wraps_right);
    g_assert_cmpfloat (other->smallest_share, >=, 0.5);
  }
  g_assert_true (back->wraps_left && back->wraps_right);
}

/* No start of the wrapped run, tried at every sixteenth of an inch, leaves wider tiles at both of
 * its ends than the one chosen. */
static void
test_wrap_never_below_grid (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");

  for (guint t = 0; t < 4; t++) {
    g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[t]), wrapped = NULL;
    const DryRoom *room = dry_project_get_room_at (tiled, 0);
    g_autoptr (DryPlan) plan = NULL;
    DryFinish finish = room->finish;
    DryId wall = dry_test_wall (tiled, 'n');
    DryLength best = 0, chosen = G_MAXINT64;

    finish.wrap = TRUE;
    wrapped = dry_edit_set_finish (tiled, room->id, &finish, NULL);
    plan = plan_of (wrapped);
    for (guint i = 0; i < plan->tiling->n_faces; i++) {
      const DryTileFace *face = &plan->tiling->faces[i];

      if (face->wraps_left != face->wraps_right)
        chosen = MIN (chosen, face->wraps_left ? face->right_cut : face->left_cut);
    }
    for (DryLength from = 0; from < plan->tiling->width; from += DRY_INCH / 4) {
      g_autoptr (DryProject) moved = NULL;
      g_autoptr (DryPlan) other = NULL;
      DryWall start = *dry_room_get_wall (dry_project_get_room_at (wrapped, 0), wall);
      DryLength ends = G_MAXINT64;

      start.tile_set = TRUE;
      start.tile_from = from;
      moved = dry_edit_set_wall (wrapped, room->id, &start, NULL, NULL);
      other = plan_of (moved);
      for (guint i = 0; i < other->tiling->n_faces; i++) {
        const DryTileFace *face = &other->tiling->faces[i];

        if (face->wraps_left != face->wraps_right)
          ends = MIN (ends, face->wraps_left ? face->right_cut : face->left_cut);
      }
      best = MAX (best, ends);
    }
    /* Half a tile is enough: beyond it the corners decide as well. */
    g_assert_cmpint (chosen, >=, MIN (best, plan->tiling->width / 2) - 1);
  }
}

/* A tub 1/4 in out of level: the first course is whole at its low point, where it is drawn. Were it
 * out by more than half a tile, the course could not stay. */
static void
test_low_point (void)
{
  static const struct {
    double error;
    gboolean whole;
  } cases[] = {{0.25, TRUE}, {0.125, TRUE}, {7, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
    g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[1]), set = NULL;
    const DryRoom *room = dry_project_get_room_at (tiled, 0);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryPlan) plan = NULL;
    DryBasin basin = room->basin;

    basin.rim_error = IN (cases[i].error);
    set = dry_edit_set_basin (tiled, room->id, &basin, NULL, &error);
    g_assert_no_error (error);
    plan = plan_of (set);
    g_assert_cmpint (back_of (plan)->datum.y == IN (15.125), ==, cases[i].whole);
  }
}

/* TCNA EJ171, as the rule pack says: 12 ft at most where wet. On a wider wall joints of the tile
 * are marked so that no stretch is longer; here the interval is looked for in the pack itself. */
static void
test_movement_joints (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
  g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[1]), wide = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPlan) plan = NULL;
  const DryRoom *room = dry_project_get_room_at (tiled, 0);
  const DryTileFace *back;
  DryBasin basin;

  wide = dry_edit_set_wall_length (tiled, room->id, dry_test_wall (tiled, 'n'), IN (300), &error);
  g_assert_no_error (error);
  basin = dry_project_get_room_at (wide, 0)->basin;
  basin.length = IN (298);
  {
    g_autoptr (DryProject) long_basin = dry_edit_set_basin (wide, room->id, &basin, NULL, &error);

    g_assert_no_error (error);
    plan = plan_of (long_basin);
  }
  back = back_of (plan);
  g_assert_cmpint (back->span, >, 24 * DRY_FOOT);
  g_assert_cmpuint (back->n_breaks, >=, 2);
  g_assert_cmpint (back->run, <=, 12 * DRY_FOOT);
  for (guint i = 0; i < back->n_breaks; i++)
    g_assert_cmpint (dry_tile_off_joint (back->upright, back->n_upright, back->breaks[i].from.x),
                     ==, 0);
}

/* Floor Covering Installer 96103: widening six joints by 1/32 in takes up 3/16 in, and the sliver
 * is gone. Here a back wall whose tiles would leave one. */
static void
test_joint_absorbs (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
  Tile tile = {"", DRY_PATTERN_STRAIGHT, 0, 12, 0.125, 0};
  g_autoptr (DryProject) tiled = NULL, free_joint = NULL;
  g_autoptr (DryPlan) fixed = NULL, chosen = NULL;
  const DryRoom *room;
  DryFinish finish;
  DryRect r;

  {
    g_autoptr (DryProject) any = tile_room (alcove, &tiles[1]);
    g_autoptr (DryPlan) plan = plan_of (any);

    r = dry_region_bounds (&back_of (plan)->region);
  }
  /* Seven tiles and six joints of 1/8 in, and 3/16 in over. */
  tile.width = ((double) dry_rect_width (r) / (double) DRY_INCH - 0.1875 - 6 * 0.125) / 7;
  tiled = tile_room (alcove, &tile);
  fixed = plan_of (tiled);
  room = dry_project_get_room_at (tiled, 0);
  finish = room->finish;
  finish.joint_min = IN (0.125);
  finish.joint_max = IN (0.1875);
  free_joint = dry_edit_set_finish (tiled, room->id, &finish, NULL);
  chosen = plan_of (free_joint);
  g_assert_cmpint (fixed->tiling->joint, ==, IN (0.125));
  g_assert_null (fixed->tiling->why_joint);
  g_assert_cmpint (chosen->tiling->joint, >=, IN (0.125));
  g_assert_cmpint (chosen->tiling->joint, <=, IN (0.1875));
  g_assert_cmpfloat (chosen->tiling->smallest_share, >=, MIN (fixed->tiling->smallest_share, 0.5));
  g_assert_true ((chosen->tiling->why_joint != NULL) == (chosen->tiling->joint != IN (0.125)));
  /* On one wall 3/8 in over: six joints 1/32 in wider take up 3/16 in of it, the joints at both
   * ends the rest, and no tile is cut. */
  g_assert_cmpint (smallest_of (IN (7 * 16 + 6 * 0.125 + 0.375), IN (16), IN (0.125)), <, IN (16));
  g_assert_cmpint (smallest_of (IN (7 * 16 + 6 * 0.125 + 0.375), IN (16), IN (0.15625)), ==,
                   IN (16));
}

/* ANSI A108.02-2017 4.3.8: three times the facial variation, never under 1/16 in; 1/16 in of
 * variation gives 3/16 in (Tile Letter, on the standard's own example). */
static void
test_least_joint (void)
{
  static const struct {
    double variation, least;
  } cases[] = {{0.0625, 0.1875}, {0, 0.0625}, {0.015625, 0.0625}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
    g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[1]), set = NULL;
    g_autoptr (DryPlan) plan = NULL;
    const DryRoom *room = dry_project_get_room_at (tiled, 0);
    DryFinish finish = room->finish;

    finish.variation = IN (cases[i].variation);
    set = dry_edit_set_finish (tiled, room->id, &finish, NULL);
    plan = plan_of (set);
    g_assert_cmpint (plan->tiling->least_joint, ==, IN (cases[i].least));
    /* Laid with 1/8 in unless that is too little. */
    g_assert_cmpint (plan->tiling->joint, ==, MAX (IN (0.125), IN (cases[i].least)));
    g_assert_true ((plan->tiling->why_joint != NULL) == (cases[i].least > 0.125));
  }
}

/* Boxes are whole, and the take-off buys what the layout counts. */
static void
test_boxes (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
  g_autoptr (DryProject) tiled = tile_room (alcove, &tiles[0]), set = NULL;
  g_autoptr (DryPlan) plan = NULL;
  const DryRoom *room = dry_project_get_room_at (tiled, 0);
  DryFinish finish = room->finish;
  const DryTakeoffLine *line = NULL;

  finish.box = 44;
  set = dry_edit_set_finish (tiled, room->id, &finish, NULL);
  plan = plan_of (set);
  g_assert_cmpuint (plan->tiling->n_boxes, ==, (plan->tiling->n_tiles + 43) / 44);
  for (guint i = 0; i < plan->takeoff->n; i++)
    if (strcmp (plan->takeoff->lines[i].id, "tile") == 0)
      line = &plan->takeoff->lines[i];
  g_assert_nonnull (line);
  g_assert_cmpint (line->packs, ==, plan->tiling->n_boxes);
  g_assert_cmpfloat (line->amount, ==, plan->tiling->n_tiles);
  g_assert_cmpuint (line->working.n_inputs, ==, plan->tiling->n_counts);
}

static void
test_untiled (void)
{
  g_autoptr (DryProject) alcove = dry_test_alcove ("foam-bands");
  const DryRoom *room = dry_project_get_room_at (alcove, 0);
  DryFinish finish = room->finish;
  g_autoptr (DryProject) bare = NULL;
  g_autoptr (DryPlan) plan = NULL;

  finish.tiled = FALSE;
  bare = dry_edit_set_finish (alcove, room->id, &finish, NULL);
  plan = plan_of (bare);
  g_assert_cmpuint (plan->tiling->n_faces, ==, 0);
  g_assert_cmpuint (plan->tiling->n_tiles, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tile/worked-layout", test_worked_layout);
  g_test_add_func ("/tile/half-rule", test_half_rule);
  g_test_add_func ("/tile/never-below-grid", test_never_below_grid);
  g_test_add_func ("/tile/rooms", test_rooms);
  g_test_add_func ("/tile/by-sampling", test_by_sampling);
  g_test_add_func ("/tile/given-datum", test_given_datum);
  g_test_add_func ("/tile/first-course", test_first_course);
  g_test_add_func ("/tile/wrap", test_wrap);
  g_test_add_func ("/tile/wrap-never-below-grid", test_wrap_never_below_grid);
  g_test_add_func ("/tile/low-point", test_low_point);
  g_test_add_func ("/tile/movement-joints", test_movement_joints);
  g_test_add_func ("/tile/joint-absorbs", test_joint_absorbs);
  g_test_add_func ("/tile/least-joint", test_least_joint);
  g_test_add_func ("/tile/boxes", test_boxes);
  g_test_add_func ("/tile/untiled", test_untiled);
  return g_test_run ();
}
