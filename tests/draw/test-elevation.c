/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands before and in a wall on its elevation: doors, windows, tubs by their drain, parts of
 * every shape. Rooms are changed by edits; sizes are invented. */
#include <string.h>

#include "draw/drawing-private.h"
#include "draw/scene-questions.h"
#include "plan/rule-room.h"

static DryPlan *
plan_and_unref (DryProject *project)
{
  DryPlan *plan = rule_room_plan (project);

  dry_project_unref (project);
  return plan;
}

/* The elevation of a side of the wall. */
static DryScene *
draw_wall (const DryPlan *plan, DryId wall, DrySide side)
{
  const DryFace *face = dry_faces_get_wall (plan->faces, wall, side);

  g_assert_nonnull (face);
  return dry_drawing_face (plan, face->index);
}

static const DryWanted an_opening = {DRY_LAYER_ROOM, DRY_SHOWS_OPENING, 0, DRY_PRIMITIVE_PATH};

/* A door has a leaf with the sign of its hinges, a passage only a dashed edge, a window its pane
 * with a sill below; safety glass is told. */
static void
test_openings (void)
{
  static const struct {
    DryOpening opening;
    guint paths;
    DryDash frame;
    gboolean told;
  } cases[] = {
      {{.kind = DRY_OPENING_DOOR, .u = INCH (44), .width = INCH (30), .height = INCH (80)},
       2,
       DRY_DASH_SOLID,
       FALSE},
      {{.kind = DRY_OPENING_PASSAGE, .u = INCH (44), .width = INCH (30), .height = INCH (80)},
       1,
       DRY_DASH_DASHED,
       FALSE},
      {{.kind = DRY_OPENING_WINDOW,
        .u = INCH (44),
        .z = INCH (48),
        .width = INCH (36),
        .height = INCH (24)},
       5,
       DRY_DASH_SOLID,
       FALSE},
      {{.kind = DRY_OPENING_WINDOW,
        .u = INCH (44),
        .z = INCH (40),
        .width = INCH (20),
        .height = INCH (36),
        .safety_glass = TRUE},
       5,
       DRY_DASH_SOLID,
       TRUE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project =
        rule_room_add_opening (dry_test_alcove ("foam-bands"), 'e', cases[i].opening);
    DryId wall = dry_test_wall (project, 'e');
    g_autoptr (DryPlan) plan = plan_and_unref (project);
    g_autoptr (DryScene) scene = draw_wall (plan, wall, DRY_SIDE_INSIDE);
    const DryPrimitive *frame = dry_scene_nth (scene, an_opening, 0);
    DryRect r;

    g_assert_cmpuint (dry_scene_count (scene, an_opening), ==, cases[i].paths);
    g_assert_cmpint (frame->dash, ==, cases[i].frame);
    r = dry_primitive_bounds (frame);
    g_assert_cmpint (dry_rect_width (r), ==, cases[i].opening.width);
    g_assert_cmpint (dry_rect_height (r), ==, cases[i].opening.height);
    g_assert_cmpint (r.x0, ==, cases[i].opening.u);
    g_assert_cmpint (dry_scene_says (scene, "safety glass"), ==, cases[i].told);
  }
}

/* The elevation of another wall does not show it. */
static void
test_openings_of_other_walls (void)
{
  DryProject *project = rule_room_add_opening (
      dry_test_alcove ("foam-bands"), 's',
      (DryOpening){
          .kind = DRY_OPENING_DOOR, .u = INCH (20), .width = INCH (28), .height = INCH (80)});
  DryId wall = dry_test_wall (project, 'e');
  g_autoptr (DryPlan) plan = plan_and_unref (project);
  g_autoptr (DryScene) scene = draw_wall (plan, wall, DRY_SIDE_INSIDE);

  g_assert_cmpuint (dry_scene_count (scene, an_opening), ==, 0);
}

static void
set_drain (DryBasin *basin, gpointer data)
{
  basin->drain = *(const DryEnd *) data;
}

/* Whether the well of the tub before the wall slopes at its left and at its right end. */
static void
assert_slopes (const DryScene *scene, gboolean left, gboolean right)
{
  const DryWanted on_wall = {DRY_LAYER_BASIN, DRY_SHOWS_BASIN, 0, DRY_PRIMITIVE_PATH};
  const DryPrimitive *well = NULL;

  for (guint k = 0; k < dry_scene_count (scene, on_wall); k++)
    if (!dry_scene_nth (scene, on_wall, k)->closed)
      well = dry_scene_nth (scene, on_wall, k);
  g_assert_nonnull (well);
  g_assert_cmpint (well->points[1].x - well->points[0].x > INCH (4), ==, left);
  g_assert_cmpint (well->points[3].x - well->points[2].x > INCH (4), ==, right);
}

/* The end away from the drain is the back rest; with the drain in the middle there are two. Plan
 * and elevation agree. */
static void
test_tub_ends (void)
{
  static const struct {
    DryEnd drain;
    gboolean left, right;
  } cases[] = {{DRY_END_LEFT, FALSE, TRUE},
               {DRY_END_RIGHT, TRUE, FALSE},
               {DRY_END_CENTRE, TRUE, TRUE},
               {DRY_END_BACK, TRUE, TRUE}};
  const DryWanted on_wall = {DRY_LAYER_BASIN, DRY_SHOWS_BASIN, 0, DRY_PRIMITIVE_PATH};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project =
        rule_room_set_basin (dry_test_alcove ("foam-bands"), set_drain, (gpointer) &cases[i].drain);
    DryId wall = dry_test_wall (project, 'n');
    g_autoptr (DryPlan) plan = plan_and_unref (project);
    g_autoptr (DryScene) scene = draw_wall (plan, wall, DRY_SIDE_INSIDE);
    g_autoptr (DryScene) above = dry_drawing_plan (plan);
    DryRect in, bottom;

    assert_slopes (scene, cases[i].left, cases[i].right);
    /* Rim, well, bottom, from above. */
    in = dry_primitive_bounds (dry_scene_nth (above, on_wall, 1));
    bottom = dry_primitive_bounds (dry_scene_nth (above, on_wall, 2));
    g_assert_cmpint (bottom.x0 - in.x0 > INCH (4), ==, cases[i].left);
    g_assert_cmpint (in.x1 - bottom.x1 > INCH (4), ==, cases[i].right);
  }
}

static void
turn (DryBasin *basin, gpointer data)
{
  basin->turned = TRUE;
  basin->along = 0;
  basin->drain = *(const DryEnd *) data;
}

/* Turned, the tub's length runs out from its wall: that wall sees its end, and the wall beside it
 * the long front, the end at the back on the right of somebody who faces the left wall. */
static void
test_turned_tub_ends (void)
{
  static const struct {
    DryEnd drain;
    char wall;
    gboolean left, right;
  } cases[] = {{DRY_END_LEFT, 'n', FALSE, FALSE},
               {DRY_END_RIGHT, 'n', FALSE, FALSE},
               {DRY_END_LEFT, 'w', TRUE, FALSE},
               {DRY_END_RIGHT, 'w', FALSE, TRUE},
               {DRY_END_CENTRE, 'w', TRUE, TRUE}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project =
        rule_room_set_basin (dry_test_alcove ("foam-bands"), turn, (gpointer) &cases[i].drain);
    DryId wall = dry_test_wall (project, cases[i].wall);
    g_autoptr (DryPlan) plan = plan_and_unref (project);
    g_autoptr (DryScene) scene = draw_wall (plan, wall, DRY_SIDE_INSIDE);

    g_test_message ("row %u", i);
    assert_slopes (scene, cases[i].left, cases[i].right);
  }
}

/* --- parts by themselves --- */

static DryScene *
draw_part (const DryPart *part, DryRect r)
{
  DrySceneBuilder b;

  dry_scene_builder_init (&b, NULL);
  dry_scene_builder_begin_view (&b, DRY_VIEW_FACE, 0, (DryPoint){0, 0}, "part");
  dry_scene_builder_tag (&b, DRY_LAYER_PARTS, DRY_SHOWS_PART, part->id, -1);
  dry_draw_part (&b, part, r);
  dry_scene_builder_end_view (&b);
  return dry_scene_builder_finish (&b);
}

static void
check_within (const DryScene *scene, DryRect r)
{
  for (guint i = 0; i < scene->n; i++) {
    const DryPrimitive *item = &scene->items[i];
    DryLength reach = item->kind == DRY_PRIMITIVE_CIRCLE ? item->radius : 0;

    for (guint k = 0; k < item->n_points; k++) {
      g_assert_cmpint (item->points[k].x - reach, >=, r.x0);
      g_assert_cmpint (item->points[k].x + reach, <=, r.x1);
      g_assert_cmpint (item->points[k].y - reach, >=, r.y0);
      g_assert_cmpint (item->points[k].y + reach, <=, r.y1);
    }
  }
}

/* A fitting's trim is as large as the part says, however long or narrow it is. */
static void
test_within_trim (void)
{
  static const DryPartKind kinds[] = {DRY_PART_NICHE, DRY_PART_VALVE, DRY_PART_SPOUT};
  static const double sizes[][2] = {{7, 7}, {4, 12}, {12, 4}, {1, 2}, {0.1, 0.1}};

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    for (guint k = 0; k < G_N_ELEMENTS (sizes); k++) {
      DryPart part = {.id = 7, .kind = kinds[i]};
      DryRect r = {INCH (10), INCH (20), INCH (10 + sizes[k][0]), INCH (20 + sizes[k][1])};
      g_autoptr (DryScene) scene = draw_part (&part, r);

      g_assert_cmpuint (scene->n, >, 2);
      if (sizes[k][0] >= 1)
        check_within (scene, r);
    }
}

/* A head too small to be seen is drawn an inch in radius all the same, others as they are. */
static void
test_heads (void)
{
  static const double sizes[][3] = {{8, 8, 4}, {8, 5, 2.5}, {5, 8, 2.5},
                                    {1, 1, 1}, {0.5, 4, 1}, {4, 0.5, 1}};

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++) {
    DryPart part = {.kind = DRY_PART_SHOWER_HEAD, .u = INCH (30)};
    DryRect r = {INCH (30 - sizes[i][0] / 2), INCH (70), INCH (30 + sizes[i][0] / 2),
                 INCH (70 + sizes[i][1])};
    g_autoptr (DryScene) scene = draw_part (&part, r);
    DryLength most = 0;

    for (guint k = 0; k < scene->n; k++)
      if (scene->items[k].kind == DRY_PRIMITIVE_CIRCLE)
        most = MAX (most, scene->items[k].radius);
    g_assert_cmpint (most, ==, INCH (sizes[i][2]));
  }
}

/* A hand shower hangs on its rail from bottom to top, the rail thinner than it is wide. */
static void
test_hand_showers (void)
{
  static const double widths[] = {0.25, 1, 2, 4, 12};

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++) {
    DryPart part = {.kind = DRY_PART_HAND_SHOWER};
    DryRect r = {INCH (30), INCH (40), INCH (30 + widths[i]), INCH (70)}, rail;
    g_autoptr (DryScene) scene = draw_part (&part, r);

    rail = dry_primitive_bounds (&scene->items[0]);
    g_assert_cmpint (rail.y0, ==, r.y0);
    g_assert_cmpint (rail.y1, ==, r.y1);
    g_assert_cmpint (dry_rect_width (rail), <=, 20 * DRY_MM);
    g_assert_cmpint (dry_rect_width (rail), <=, MAX (INCH (widths[i]), DRY_INCH) / 4);
  }
}

/* A bar has a plate at both ends, whether it lies or stands. */
static void
test_bars (void)
{
  static const double sizes[][2] = {{24, 1.5}, {1.5, 24}};

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++) {
    DryPart part = {.kind = DRY_PART_GRAB_BAR};
    DryRect r = {INCH (10), INCH (34), INCH (10 + sizes[i][0]), INCH (34 + sizes[i][1])};
    g_autoptr (DryScene) scene = draw_part (&part, r);
    DryPoint first = scene->items[0].points[0], last = scene->items[2].points[0];

    g_assert_cmpint (scene->items[2].kind, ==, DRY_PRIMITIVE_CIRCLE);
    g_assert_cmpint (MAX (last.x - first.x, last.y - first.y), ==, INCH (24 - 1.5));
    g_assert_cmpint (MIN (last.x - first.x, last.y - first.y), ==, 0);
  }
}

/* A bench's top is as thick as it says and never thicker than what it stands on; a folding one has
 * two brackets instead of a body. */
static void
test_benches (void)
{
  static const struct {
    double thickness, top;
    gboolean folds;
    guint shapes;
  } cases[] = {{2, 2, FALSE, 3}, {40, 18, FALSE, 3}, {1.5, 1.5, TRUE, 4}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryPart part = {
        .kind = DRY_PART_BENCH, .height = INCH (cases[i].thickness), .fold_down = cases[i].folds};
    DryRect r = {0, 0, INCH (30), INCH (18)}, top;
    g_autoptr (DryScene) scene = draw_part (&part, r);

    g_assert_cmpuint (scene->n, ==, cases[i].shapes);
    top = dry_primitive_bounds (&scene->items[cases[i].folds ? 1 : 2]);
    g_assert_cmpint (top.y1, ==, r.y1);
    g_assert_cmpint (dry_rect_height (top), ==, INCH (cases[i].top));
  }
}

/* A pane seen edge on can be grasped, however thin; a thick one is as thick as it is. */
static void
test_panes (void)
{
  static const double thick[][2] = {{0.375, 0.5}, {0.75, 0.75}};

  for (guint i = 0; i < G_N_ELEMENTS (thick); i++) {
    DryPart part = {.kind = DRY_PART_GLASS, .width = INCH (30)};
    g_autoptr (DryScene) scene =
        draw_part (&part, (DryRect){INCH (20), 0, INCH (20 + thick[i][0]), INCH (72)});

    g_assert_cmpint (dry_rect_width (dry_primitive_bounds (&scene->items[0])), ==,
                     INCH (thick[i][1]));
    g_assert_true (dry_scene_says (scene, "glass 30\""));
  }
}

/* What is hidden in the wall shows its axis the way it runs, and its word along it. */
static void
test_hidden (void)
{
  static const struct {
    double width, height, angle;
    char *label;
    const char *word;
  } cases[] = {{2, 60, 90, NULL, "pipe"}, {60, 2, 0, "old supply", "old supply"}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryPart part = {.kind = DRY_PART_PIPE, .label = cases[i].label};
    g_autoptr (DryScene) scene =
        draw_part (&part, (DryRect){0, 0, INCH (cases[i].width), INCH (cases[i].height)});
    DryRect axis = dry_primitive_bounds (&scene->items[1]);

    g_assert_cmpint (dry_rect_width (axis) > dry_rect_height (axis), ==, cases[i].angle == 0);
    g_assert_true (dry_scene_says (scene, cases[i].word));
    g_assert_cmpfloat (scene->items[2].angle, ==, cases[i].angle);
  }
}

/* What the user called a part stands on the wall, and where nothing was said, what it is. */
static void
test_labels (void)
{
  DryPart valve = {.kind = DRY_PART_VALVE,
                   .u = INCH (15),
                   .z = INCH (44),
                   .width = INCH (6),
                   .height = INCH (8),
                   .hole = INCH (3)};
  DryProject *project = dry_test_alcove ("foam-bands");
  DryId wall = dry_test_wall (project, 'e');

  project = rule_room_add_part (project, 'e', valve);
  valve.label = (char *) "diverter";
  valve.z = INCH (60);
  project = rule_room_add_part (project, 'e', valve);
  {
    g_autoptr (DryPlan) plan = plan_and_unref (project);
    g_autoptr (DryScene) scene = draw_wall (plan, wall, DRY_SIDE_INSIDE);

    g_assert_true (dry_scene_says (scene, "mixing valve"));
    g_assert_true (dry_scene_says (scene, "diverter"));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/elevation/openings", test_openings);
  g_test_add_func ("/draw/elevation/openings-of-other-walls", test_openings_of_other_walls);
  g_test_add_func ("/draw/elevation/tub-ends", test_tub_ends);
  g_test_add_func ("/draw/elevation/turned-tub-ends", test_turned_tub_ends);
  g_test_add_func ("/draw/elevation/within-trim", test_within_trim);
  g_test_add_func ("/draw/elevation/heads", test_heads);
  g_test_add_func ("/draw/elevation/hand-showers", test_hand_showers);
  g_test_add_func ("/draw/elevation/bars", test_bars);
  g_test_add_func ("/draw/elevation/benches", test_benches);
  g_test_add_func ("/draw/elevation/panes", test_panes);
  g_test_add_func ("/draw/elevation/hidden", test_hidden);
  g_test_add_func ("/draw/elevation/labels", test_labels);
  return g_test_run ();
}
