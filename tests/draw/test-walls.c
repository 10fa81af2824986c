/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan from above: walls, studs, doors, dimensions and the floor's fall to its drain, by what
 * must stand there. Rooms are changed by edits; sizes are invented. */
#include <string.h>

#include "draw/drawing-private.h"
#include "draw/scene-questions.h"
#include "plan/rule-room.h"

static DryScene *
draw_and_unref (DryProject *project)
{
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  dry_project_unref (project);
  return dry_drawing_plan (plan);
}

static DryWanted
studs_of (DryId wall)
{
  return (DryWanted){DRY_LAYER_STUDS, DRY_SHOWS_MEMBER, wall, DRY_PRIMITIVE_PATH};
}

static DryWanted
body_of (DryId wall)
{
  return (DryWanted){DRY_LAYER_ROOM, DRY_SHOWS_WALL, wall, DRY_PRIMITIVE_PATH};
}

static void
test_thickness (void)
{
  static const struct {
    DryWall wall;
    double inches;
  } cases[] = {{{.stud_depth = INCH (5.5)}, 5.5},
               {{.stud_depth = INCH (3.5), .thickness = INCH (6)}, 3.5},
               {{.added = TRUE, .stud_depth = INCH (3.5), .thickness = INCH (6)}, 6},
               {{.added = TRUE, .stud_depth = INCH (3.5)}, 3.5}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (dry_wall_depth (&cases[i].wall), ==, INCH (cases[i].inches));
}

/* Outside corners stand behind both walls; where two walls run on straight, or meet so sharply that
 * the miter would shoot out, squarely behind the second. */
static void
test_outer_corners (void)
{
  static const struct {
    double before[2], at[2], after[2], corner[2];
  } cases[] = {{{0, 0}, {0, 60}, {96, 60}, {-3.5, 63.5}},
               {{0, 60}, {40, 60}, {96, 60}, {40, 63.5}},
               {{0, 0}, {96, 2}, {0, 4}, {0}}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryWall walls[3] = {{.stud_depth = INCH (3.5)}, {.stud_depth = INCH (3.5)}, {.id = 3}};
    DryRoom room = {.walls = walls, .n_walls = 3, .n_outline = 3};
    DryPoint p, at = {INCH (cases[i].at[0]), INCH (cases[i].at[1])};

    walls[0].start = (DryPoint){INCH (cases[i].before[0]), INCH (cases[i].before[1])};
    walls[0].end = walls[1].start = at;
    walls[1].end = walls[2].start = (DryPoint){INCH (cases[i].after[0]), INCH (cases[i].after[1])};
    walls[2].end = walls[0].start;
    p = dry_drawing_outer_corner (&room, 1);
    if (i < 2) {
      g_assert_cmpint (ABS (p.x - INCH (cases[i].corner[0])), <=, 1);
      g_assert_cmpint (ABS (p.y - INCH (cases[i].corner[1])), <=, 1);
    } else
      g_assert_cmpint (ABS (p.x - at.x) + ABS (p.y - at.y), <, INCH (5));
  }
}

/* An outside wall is hatched as one cuts it; an added wall that ends below the cut is seen from
 * above: no hatch, and a finer edge. */
static void
test_low_walls (void)
{
  static const struct {
    double height;
    DryHatch hatch;
    DryPen edge;
  } cases[] = {{0, DRY_HATCH_DIAGONAL, DRY_PEN_050},
               {42, DRY_HATCH_NONE, DRY_PEN_025},
               {60, DRY_HATCH_DIAGONAL, DRY_PEN_050}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project = dry_test_alcove ("foam-bands");
    DryWall wall = dry_project_get_room_at (project, 0)->walls[0];
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) walled = NULL;
    g_autoptr (DryScene) scene = NULL;
    DryId id;

    wall.id = 0;
    wall.name = NULL;
    wall.added = TRUE;
    wall.exterior = TRUE;
    wall.height = INCH (cases[i].height);
    wall.start = (DryPoint){INCH (10), INCH (20)};
    wall.end = (DryPoint){INCH (50), INCH (20)};
    walled = dry_edit_set_wall (project, dry_test_room (project), &wall, &id, &error);
    g_assert_no_error (error);
    dry_project_unref (project);
    scene = draw_and_unref (dry_project_ref (walled));
    g_assert_cmpint (dry_scene_nth (scene, body_of (id), 0)->hatch, ==, cases[i].hatch);
    g_assert_cmpint (dry_scene_nth (scene, body_of (id), 1)->pen, ==, cases[i].edge);
    /* The body and four edges: both ends stand free. */
    g_assert_cmpuint (dry_scene_count (scene, body_of (id)), >=, 5);
  }
}

/* --- studs of walls the plan does not board --- */

typedef struct {
  const char *what;
  DryLength width, spacing, first;
  double found[3];
  guint n_found;
  guint studs; /* of a wall 60 in long */
} StudCase;

static void
set_studs (DryWall *wall, gpointer data)
{
  const StudCase *c = data;
  static DryLength found[3];

  wall->stud_width = c->width;
  wall->stud_spacing = c->spacing;
  wall->first_stud = c->first;
  for (guint i = 0; i < c->n_found; i++)
    found[i] = INCH (c->found[i]);
  wall->found_studs = c->n_found > 0 ? found : NULL;
  wall->n_found_studs = c->n_found;
}

static void
test_studs (void)
{
  static const StudCase cases[] = {
      {"as they usually stand", INCH (1.5), INCH (16), 0, {0}, 0, 2 + 3},
      {"counted from the first", INCH (1.5), INCH (16), INCH (4), {0}, 0, 2 + 4},
      {"those that were found", INCH (1.5), INCH (16), 0, {11, 30, 47}, 3, 2 + 3},
      {"farther apart than the wall is long", INCH (1.5), INCH (72), 0, {0}, 0, 2},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project =
        rule_room_set_wall (dry_test_alcove ("foam-bands"), 's', set_studs, (gpointer) &cases[i]);
    DryId wall = dry_test_wall (project, 's');
    g_autoptr (DryScene) scene = draw_and_unref (project);

    g_test_message ("%s", cases[i].what);
    g_assert_cmpuint (dry_scene_count (scene, studs_of (wall)), ==, cases[i].studs);
  }
}

/* No stud stands in a door, whether found or reckoned. */
static void
test_studs_and_doors (void)
{
  static const StudCase cases[] = {
      {"reckoned", INCH (1.5), INCH (16), 0, {0}, 0, 2 + 1},
      {"found", INCH (1.5), INCH (16), 0, {11, 30, 47}, 3, 2 + 1},
  };
  const DryOpening door = {
      .kind = DRY_OPENING_DOOR, .u = INCH (20), .width = INCH (30), .height = INCH (80)};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project =
        rule_room_set_wall (dry_test_alcove ("foam-bands"), 's', set_studs, (gpointer) &cases[i]);
    DryId wall = dry_test_wall (project, 's');
    g_autoptr (DryScene) scene = draw_and_unref (rule_room_add_opening (project, 's', door));

    g_test_message ("%s", cases[i].what);
    g_assert_cmpuint (dry_scene_count (scene, studs_of (wall)), ==, cases[i].studs);
  }
}

static void
make_steel (DryWall *wall, gpointer data)
{
  wall->steel_studs = TRUE;
}

static void
test_steel (void)
{
  DryProject *project = rule_room_set_wall (dry_test_alcove ("foam-bands"), 's', make_steel, NULL);
  DryId wall = dry_test_wall (project, 's'), other = dry_test_wall (project, 'e');
  g_autoptr (DryScene) scene = draw_and_unref (project);

  g_assert_cmpint (dry_scene_nth (scene, studs_of (wall), 0)->fill, ==, DRY_INK_STEEL);
  g_assert_cmpint (dry_scene_nth (scene, studs_of (wall), 0)->hatch, ==, DRY_HATCH_NONE);
  g_assert_cmpint (dry_scene_nth (scene, studs_of (other), 0)->fill, ==, DRY_INK_WOOD);
}

/* --- openings --- */

/* A door swings, a window has a pane in the wall, a passage is open and dashed. */
static void
test_openings (void)
{
  static const struct {
    DryOpeningKind kind;
    guint paths;
    DryDash dash;
  } cases[] = {{DRY_OPENING_DOOR, 3, DRY_DASH_SOLID},
               {DRY_OPENING_WINDOW, 2, DRY_DASH_SOLID},
               {DRY_OPENING_PASSAGE, 1, DRY_DASH_DASHED}};
  const DryWanted wanted = {DRY_LAYER_ROOM, DRY_SHOWS_OPENING, 0, DRY_PRIMITIVE_PATH};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryOpening opening = {
        .kind = cases[i].kind, .u = INCH (10), .width = INCH (28), .height = INCH (70)};
    g_autoptr (DryScene) scene =
        draw_and_unref (rule_room_add_opening (dry_test_alcove ("foam-bands"), 's', opening));

    g_assert_cmpuint (dry_scene_count (scene, wanted), ==, cases[i].paths);
    g_assert_cmpint (dry_scene_nth (scene, wanted, 0)->dash, ==, cases[i].dash);
  }
}

static void
take_lining_off (DryWall *wall, gpointer data)
{
  wall->lining = 0;
}

static guint
count_drywall (const DryScene *scene, DryId wall)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    n += scene->items[i].fill == DRY_INK_DRYWALL && scene->items[i].object == wall;
  return n;
}

/* Drywall is drawn from opening to opening; none where two of them meet, none on a bare wall. */
static void
test_drywall (void)
{
  const DryOpening door = {
      .kind = DRY_OPENING_DOOR, .u = INCH (10), .width = INCH (24), .height = INCH (80)};
  const DryOpening beside = {.kind = DRY_OPENING_WINDOW,
                             .u = INCH (34),
                             .z = INCH (40),
                             .width = INCH (12),
                             .height = INCH (40)};
  DryProject *project = dry_test_alcove ("foam-bands");
  DryId wall = dry_test_wall (project, 's');
  g_autoptr (DryScene) whole = draw_and_unref (dry_project_ref (project));
  g_autoptr (DryScene) one = NULL, two = NULL, bare = NULL;

  /* Put in from right to left: drawn from left to right all the same. */
  project = rule_room_add_opening (project, 's', beside);
  one = draw_and_unref (dry_project_ref (project));
  project = rule_room_add_opening (project, 's', door);
  two = draw_and_unref (dry_project_ref (project));
  bare = draw_and_unref (rule_room_set_wall (project, 's', take_lining_off, NULL));
  g_assert_cmpuint (count_drywall (whole, wall), ==, 1);
  g_assert_cmpuint (count_drywall (one, wall), ==, 2);
  g_assert_cmpuint (count_drywall (two, wall), ==, 2);
  g_assert_cmpuint (count_drywall (bare, wall), ==, 0);
}

/* --- the basin and its dimensions --- */

static void
make_channel (DryBasin *basin, gpointer data)
{
  basin->linear_drain = TRUE;
  basin->drain = *(const DryEnd *) data;
}

static void
set_end (DryBasin *basin, gpointer data)
{
  basin->drain = *(const DryEnd *) data;
}

static void
turn (DryBasin *basin, gpointer data)
{
  basin->turned = TRUE;
  basin->drain = DRY_END_LEFT;
}

static const DryWanted ring = {DRY_LAYER_BASIN, DRY_SHOWS_BASIN, 0, DRY_PRIMITIVE_CIRCLE};
static const DryWanted shape = {DRY_LAYER_BASIN, DRY_SHOWS_BASIN, 0, DRY_PRIMITIVE_PATH};

/* A quarter of the shorter side from the edge its end names, where the floor's fall is reckoned to
 * as well: dry_floor_drain(). The pan is 60 x 36 in, its back to the north. */
static void
test_point_drains (void)
{
  static const struct {
    DryEnd end;
    double along, out;
  } cases[] = {{DRY_END_LEFT, 9, 18},
               {DRY_END_RIGHT, 51, 18},
               {DRY_END_BACK, 30, 9},
               {DRY_END_CENTRE, 30, 18}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project = rule_room_set_basin (rule_room_shower (INCH (60), INCH (36)), set_end,
                                               (gpointer) &cases[i].end);
    DryPoint c[4], at;
    g_autoptr (DryScene) scene = NULL;

    g_assert_true (dry_room_basin_corners (dry_project_get_room_at (project, 0), c));
    scene = draw_and_unref (project);
    at = dry_scene_nth (scene, ring, 0)->points[0];
    g_assert_cmpint (at.x - c[0].x, ==, INCH (cases[i].along));
    g_assert_cmpint (c[0].y - at.y, ==, INCH (cases[i].out));
  }
}

/* A channel lies along the edge its end names, or across the middle, and is no round drain; the
 * floor falls to it from one side, to one in the middle from two. */
static void
test_channels (void)
{
  static const struct {
    DryEnd end;
    gboolean left, right, back, lies;
    guint falls;
  } cases[] = {{DRY_END_LEFT, TRUE, FALSE, FALSE, FALSE, 1},
               {DRY_END_RIGHT, FALSE, TRUE, FALSE, FALSE, 1},
               {DRY_END_BACK, FALSE, FALSE, TRUE, TRUE, 1},
               {DRY_END_CENTRE, FALSE, FALSE, FALSE, TRUE, 2}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project = rule_room_set_basin (rule_room_shower (INCH (60), INCH (36)),
                                               make_channel, (gpointer) &cases[i].end);
    DryPoint c[4];
    g_autoptr (DryScene) scene = NULL;
    DryRect channel;
    guint falls = 0;

    g_assert_true (dry_room_basin_corners (dry_project_get_room_at (project, 0), c));
    scene = draw_and_unref (project);
    g_assert_cmpuint (dry_scene_count (scene, ring), ==, 0);
    for (guint k = 0; k < dry_scene_count (scene, shape); k++)
      falls += dry_scene_nth (scene, shape, k)->dash == DRY_DASH_CHAIN;
    g_assert_cmpuint (falls, ==, cases[i].falls);
    /* Pan, floor, curb line, channel. */
    channel = dry_primitive_bounds (dry_scene_nth (scene, shape, 3));
    g_assert_cmpint (dry_rect_width (channel) > dry_rect_height (channel), ==, cases[i].lies);
    g_assert_cmpint (channel.x1 < c[0].x + INCH (30), ==, cases[i].left);
    g_assert_cmpint (channel.x0 > c[0].x + INCH (30), ==, cases[i].right);
    g_assert_cmpint (channel.y0 > c[0].y - INCH (18) && cases[i].lies, ==, cases[i].back);
  }
}

/* A tub standing out from its wall is drawn as it stands: 30 in along the wall, 60 in out of it,
 * its left end at the wall. */
static void
test_turned (void)
{
  DryProject *project = rule_room_set_basin (dry_test_alcove ("foam-bands"), turn, NULL);
  DryPoint c[4], at;
  g_autoptr (DryScene) scene = NULL;
  DryRect tub;

  g_assert_true (dry_room_basin_corners (dry_project_get_room_at (project, 0), c));
  scene = draw_and_unref (project);
  tub = dry_primitive_bounds (dry_scene_nth (scene, shape, 0));
  g_assert_cmpint (dry_rect_width (tub), ==, INCH (30));
  g_assert_cmpint (dry_rect_height (tub), ==, INCH (60));
  at = dry_scene_nth (scene, ring, 0)->points[0];
  g_assert_cmpint (at.x, ==, (tub.x0 + tub.x1) / 2);
  g_assert_cmpint (tub.y1 - at.y, <, INCH (12));
  /* 30 in of the wall are the tub, 30 in are beside it. */
  {
    guint halves = 0;
    for (guint i = 0; i < scene->n; i++)
      halves += scene->items[i].kind == DRY_PRIMITIVE_DIMENSION &&
                g_str_equal (scene->items[i].text, "30\"");
    g_assert_cmpuint (halves, ==, 2);
  }
}

static guint
count_figures (const DryScene *scene, DryToward side, const char *text)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    n += scene->items[i].kind == DRY_PRIMITIVE_DIMENSION && scene->items[i].side == side &&
         g_str_equal (scene->items[i].text, text);
  return n;
}

/* How far the tub stands out is told at a wall beside it, whichever wall it stands at; the room's
 * name stands where there is more floor. */
static void
test_each_wall (void)
{
  static const struct {
    char wall;
    DryToward side;
  } cases[] = {{'n', DRY_TOWARD_LEFT},
               {'s', DRY_TOWARD_LEFT},
               {'e', DRY_TOWARD_DOWN},
               {'w', DRY_TOWARD_DOWN}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
    g_autoptr (GError) error = NULL;
    DryProject *moved =
        dry_edit_move_basin (project, dry_test_room (project),
                             dry_test_wall (project, cases[i].wall), 0, 0, FALSE, &error);
    const DryWanted name = {DRY_LAYER_LABELS, DRY_SHOWS_ROOM, 0, DRY_PRIMITIVE_TEXT};
    DryPoint c[4], at;
    g_autoptr (DryScene) scene = NULL;

    g_assert_no_error (error);
    g_assert_true (dry_room_basin_corners (dry_project_get_room_at (moved, 0), c));
    scene = draw_and_unref (moved);
    g_assert_cmpuint (count_figures (scene, cases[i].side, "30\""), ==, 1);
    at = dry_scene_nth (scene, name, 0)->points[0];
    g_assert_true (at.y < MIN (c[0].y, c[2].y) || at.y > MAX (c[0].y, c[2].y));
  }
}

/* A wall at an angle has its length along it, never upside down. */
static void
test_slanted (void)
{
  for (guint i = 0; i < 4; i++) {
    const DryPoint square[4] = {{0, 0}, {0, INCH (96)}, {INCH (60), INCH (96)}, {INCH (60), 0}};
    DryPoint corners[5];
    g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
    g_autoptr (GError) error = NULL;
    DryProject *next;
    g_autoptr (DryScene) scene = NULL;
    guint n = 0, slanted = 0;

    /* One corner of the four is cut off. */
    for (guint k = 0; k < 4; k++)
      if (k != (i + 1) % 4)
        corners[n++] = square[k];
      else {
        DryPoint before = square[(k + 3) % 4], at = square[k], after = square[(k + 1) % 4];
        corners[n++] = (DryPoint){at.x + (before.x - at.x) / 3, at.y + (before.y - at.y) / 3};
        corners[n++] = (DryPoint){at.x + (after.x - at.x) / 3, at.y + (after.y - at.y) / 3};
      }
    g_assert_cmpuint (n, ==, 5);
    next = dry_edit_set_outline (project, dry_test_room (project), corners, 5, &error);
    g_assert_no_error (error);
    scene = draw_and_unref (next);
    for (guint k = 0; k < scene->n; k++) {
      const DryPrimitive *item = &scene->items[k];
      if (item->kind != DRY_PRIMITIVE_TEXT || item->layer != DRY_LAYER_DIMENSIONS)
        continue;
      slanted++;
      if (item->angle > 180)
        g_assert_cmpfloat (item->angle, >, 270);
      else
        g_assert_cmpfloat (item->angle, <=, 90);
    }
    g_assert_cmpuint (slanted, ==, 1);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/walls/thickness", test_thickness);
  g_test_add_func ("/draw/walls/outer-corners", test_outer_corners);
  g_test_add_func ("/draw/walls/low", test_low_walls);
  g_test_add_func ("/draw/walls/studs", test_studs);
  g_test_add_func ("/draw/walls/studs-and-doors", test_studs_and_doors);
  g_test_add_func ("/draw/walls/steel", test_steel);
  g_test_add_func ("/draw/walls/openings", test_openings);
  g_test_add_func ("/draw/walls/drywall", test_drywall);
  g_test_add_func ("/draw/walls/point-drains", test_point_drains);
  g_test_add_func ("/draw/walls/channels", test_channels);
  g_test_add_func ("/draw/walls/turned", test_turned);
  g_test_add_func ("/draw/walls/each-wall", test_each_wall);
  g_test_add_func ("/draw/walls/slanted", test_slanted);
  return g_test_run ();
}
