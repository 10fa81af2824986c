/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The room's picture: nothing of the workshop, nothing outside its frame, every visible wall's tile
 * and every fitting in it; and the projection by what perspective must give. */
#include <string.h>

#include "draw/drawings.h"
#include "draw/eye.h"
#include "draw/scene-questions.h"
#include "plan/rule-room.h"

static DryPlan *
make_plan (DryProject *project)
{
  g_autoptr (GError) error = NULL;
  DryPlan *plan = dry_plan_new (project, dry_project_get_room_at (project, 0)->id,
                                dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  return plan;
}

static guint
count_layer (const DryScene *scene, DryLayer layer)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    n += scene->items[i].layer == layer;
  return n;
}

static gboolean
shows_object (const DryScene *scene, DryId object)
{
  for (guint i = 0; i < scene->n; i++)
    if (scene->items[i].object == object && scene->items[i].shows == DRY_SHOWS_PART)
      return TRUE;
  return FALSE;
}

/* The frame is the first shape drawn. */
static void
check_within (const DryScene *scene)
{
  DryPoint low = scene->items[0].points[0], high = scene->items[0].points[2];

  g_assert_cmpint (scene->items[0].n_points, ==, 4);
  for (guint i = 0; i < scene->n; i++)
    for (guint k = 0; k < scene->items[i].n_points; k++) {
      DryPoint p = scene->items[i].points[k];
      if (scene->items[i].kind == DRY_PRIMITIVE_TEXT)
        continue;
      g_assert_cmpint (p.x, >=, low.x - 1);
      g_assert_cmpint (p.x, <=, high.x + 1);
      g_assert_cmpint (p.y, >=, low.y - 1);
      g_assert_cmpint (p.y, <=, high.y + 1);
    }
}

static void
check_no_workshop (const DryScene *scene)
{
  static const DryLayer hidden[] = {DRY_LAYER_STUDS,    DRY_LAYER_BOARDS,     DRY_LAYER_JOINTS,
                                    DRY_LAYER_HIDDEN,   DRY_LAYER_DIMENSIONS, DRY_LAYER_FASTENERS,
                                    DRY_LAYER_FINDINGS, DRY_LAYER_COATING,    DRY_LAYER_WATER};

  for (guint i = 0; i < G_N_ELEMENTS (hidden); i++)
    g_assert_cmpuint (count_layer (scene, hidden[i]), ==, 0);
}

static void
test_cases (void)
{
  static const char *const files[] = {
      "01-alcove",        "03-window-wall", "04-neo-angle",  "05-roll-in", "08-steam",
      "10-thirty-square", "15-tray-uk",     "16-pony-wall",  "17-drop-in", "19-large-tile",
      "alcove-refit",     "client-shower",  "two-bath-house"};

  for (guint i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autofree char *name = g_strconcat (files[i], ".drybay", NULL);
    g_autoptr (DryProject) project = dry_test_load (name);
    g_autoptr (DryPlan) plan = make_plan (project);
    g_autoptr (DryScene) scene = dry_drawing_room (plan, FALSE);
    g_autoptr (DryScene) again = dry_drawing_room (plan, FALSE);
    g_autofree char *text = dry_scene_to_text (scene), *same = dry_scene_to_text (again);

    g_test_message ("%s", name);
    g_assert_cmpuint (count_layer (scene, DRY_LAYER_TILE), >, 0);
    g_assert_cmpuint (count_layer (scene, DRY_LAYER_BASIN), >, 0);
    check_no_workshop (scene);
    check_within (scene);
    g_assert_cmpstr (text, ==, same);
  }
}

/* In an alcove seen from the front all three walls are seen, and so is all that hangs on them. */
static void
test_furnished (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = make_plan (project);
  g_autoptr (DryScene) scene = dry_drawing_room (plan, FALSE);
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < room->n_parts; i++)
    g_assert_true (shows_object (scene, room->parts[i].id));
}

/* Two people stand in it, the taller one told as 6' 3"; they change nothing else. */
static void
test_figures (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = make_plan (project);
  g_autoptr (DryScene) without = dry_drawing_room (plan, FALSE);
  g_autoptr (DryScene) with = dry_drawing_room (plan, TRUE);
  guint texts = 0;

  for (guint i = 0; i < without->n; i++)
    g_assert_cmpint (without->items[i].kind, !=, DRY_PRIMITIVE_TEXT);
  for (guint i = 0; i < with->n; i++)
    texts += with->items[i].kind == DRY_PRIMITIVE_TEXT;
  g_assert_cmpuint (texts, ==, 2);
  check_within (with);
  check_no_workshop (with);
}

static void
test_without_basin (void)
{
  g_autoptr (DryProject) project = dry_project_new ();
  const DryRoom *room = dry_project_get_room_at (project, 0);
  g_autoptr (DryProject) bare = dry_edit_remove (project, room->id, room->basin.id, NULL);
  g_autoptr (DryPlan) plan = make_plan (bare);
  g_autoptr (DryScene) scene = dry_drawing_room (plan, TRUE);

  g_assert_cmpuint (scene->n, ==, 0);
}

/* What is twice as far is half as large; what lies at the height of the eye stays there. */
static void
test_perspective (void)
{
  DryEye eye = {.x = 0, .y = 0, .z = 100, .dx = 0, .dy = 1, .cut = 10};
  DrySpot near[3] = {{-5, 100, 100}, {5, 100, 100}, {5, 100, 110}};
  DrySpot far[3] = {{-5, 200, 100}, {5, 200, 100}, {5, 200, 110}};
  DryPoint a[5], b[5];

  for (guint i = 0; i < 3; i++) {
    near[i].x *= 1e6;
    near[i].y *= 1e6;
    near[i].z *= 1e6;
    far[i].x *= 1e6;
    far[i].y *= 1e6;
    far[i].z *= 1e6;
  }
  eye.z *= 1e6;
  eye.cut *= 1e6;
  g_assert_cmpuint (dry_eye_project (&eye, near, 3, a), ==, 3);
  g_assert_cmpuint (dry_eye_project (&eye, far, 3, b), ==, 3);
  g_assert_cmpint (a[1].x - a[0].x, ==, 2 * (b[1].x - b[0].x));
  g_assert_cmpint (a[2].y - a[1].y, ==, 2 * (b[2].y - b[1].y));
  g_assert_cmpint (a[0].y, ==, 100 * DRY_MM);
  g_assert_cmpint (b[0].y, ==, 100 * DRY_MM);
}

/* A wall that runs past the eye is cut where it stands, and one behind is not seen. */
static void
test_behind (void)
{
  DryEye eye = {.x = 0, .y = 0, .z = 0, .dx = 0, .dy = 1, .cut = 1e7};
  const DrySpot wall[4] = {{1e9, -5e9, 0}, {1e9, 5e9, 0}, {1e9, 5e9, 1e9}, {1e9, -5e9, 1e9}};
  const DrySpot behind[4] = {{0, -1e9, 0}, {1e9, -1e9, 0}, {1e9, -1e9, 1e9}, {0, -1e9, 1e9}};
  DryPoint out[6];

  g_assert_cmpuint (dry_eye_project (&eye, wall, 4, out), ==, 4);
  g_assert_cmpuint (dry_eye_project (&eye, behind, 4, out), ==, 0);
}

/* Clipping a square by another: their overlap, whichever way round they go; apart: nothing. */
static void
test_clip (void)
{
  const DryPoint square[4] = {{0, 0}, {100, 0}, {100, 100}, {0, 100}};
  const DryPoint turned[4] = {{50, 50}, {50, 150}, {150, 150}, {150, 50}};
  const DryPoint apart[4] = {{200, 0}, {300, 0}, {300, 100}, {200, 100}};
  DryPoint out[16];
  DryRect r = {G_MAXINT64, G_MAXINT64, G_MININT64, G_MININT64};
  guint n = dry_eye_clip (square, 4, turned, 4, out);

  g_assert_cmpuint (n, >=, 4);
  for (guint i = 0; i < n; i++) {
    r.x0 = MIN (r.x0, out[i].x);
    r.y0 = MIN (r.y0, out[i].y);
    r.x1 = MAX (r.x1, out[i].x);
    r.y1 = MAX (r.y1, out[i].y);
  }
  g_assert_true (r.x0 == 50 && r.y0 == 50 && r.x1 == 100 && r.y1 == 100);
  g_assert_cmpuint (dry_eye_clip (square, 4, apart, 4, out), ==, 0);
}

/* --- rooms changed by edits --- */

static void
make_metric (DryJob *job, gpointer data)
{
  job->metric = TRUE;
}

static void
take_tile_off (DryFinish *finish, gpointer data)
{
  finish->tiled = FALSE;
}

static void
lower_ceiling (DryRoom *room, gpointer data)
{
  room->ceiling = INCH (54);
}

static guint
count_fill (const DryScene *scene, DryLayer layer, DryInk fill)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    n += scene->items[i].layer == layer && scene->items[i].fill == fill;
  return n;
}

static DryScene *
picture_and_unref (DryProject *project, gboolean figures)
{
  g_autoptr (DryPlan) plan = make_plan (project);
  DryScene *scene = dry_drawing_room (plan, figures);

  dry_project_unref (project);
  check_within (scene);
  check_no_workshop (scene);
  return scene;
}

static void
set_drain (DryBasin *basin, gpointer data)
{
  *basin = (DryBasin){.id = basin->id,
                      .kind = DRY_BASIN_PAN,
                      .wall = basin->wall,
                      .length = INCH (60),
                      .width = INCH (36),
                      .height = INCH (4),
                      .linear_drain = ((const DryBasin *) data)->linear_drain,
                      .turned = ((const DryBasin *) data)->turned,
                      .drain = ((const DryBasin *) data)->drain};
}

/* Where the grate is seen. */
static DryRect
see_drain (DryBasin basin)
{
  g_autoptr (DryScene) scene = picture_and_unref (
      rule_room_set_basin (dry_test_alcove ("foam-bands"), set_drain, &basin), FALSE);

  for (guint i = 0; i < scene->n; i++)
    if (scene->items[i].layer == DRY_LAYER_BASIN && scene->items[i].fill == DRY_INK_METAL)
      return dry_primitive_bounds (&scene->items[i]);
  g_assert_not_reached ();
}

/* The grate is where the plan has it: toward the end the drain is at; at the back it is farther
 * away, so higher in the picture and smaller. */
static void
test_drains (void)
{
  for (guint channel = 0; channel < 2; channel++) {
    gboolean lies = channel;
    DryRect left = see_drain ((DryBasin){.drain = DRY_END_LEFT, .linear_drain = lies});
    DryRect right = see_drain ((DryBasin){.drain = DRY_END_RIGHT, .linear_drain = lies});
    DryRect middle = see_drain ((DryBasin){.drain = DRY_END_CENTRE, .linear_drain = lies});
    DryRect back = see_drain ((DryBasin){.drain = DRY_END_BACK, .linear_drain = lies});

    g_assert_cmpint (left.x1, <, (middle.x0 + middle.x1) / 2);
    g_assert_cmpint (right.x0, >, (middle.x0 + middle.x1) / 2);
    g_assert_cmpint (back.y0, >, middle.y1);
    g_assert_cmpint (dry_rect_width (back), <, dry_rect_width (middle));
  }
}

/* Turned, the left end is at the wall: farther away. */
static void
test_turned_drains (void)
{
  for (guint channel = 0; channel < 2; channel++) {
    DryBasin basin = {.drain = DRY_END_LEFT, .turned = TRUE, .linear_drain = (gboolean) channel};
    DryRect left = see_drain (basin), right;

    basin.drain = DRY_END_RIGHT;
    right = see_drain (basin);
    g_assert_cmpint (left.y0, >, right.y1);
  }
}

/* People are told in the job's own measure, to the millimeter, and in a pan longer than it is wide
 * one behind the other. */
static void
test_people (void)
{
  static const struct {
    gboolean metric;
    const char *small, *tall;
    gboolean turned;
  } cases[] = {{FALSE, "62\"", "75\"", FALSE},
               {TRUE, "1575 mm", "1905 mm", FALSE},
               {FALSE, "62\"", "75\"", TRUE}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryBasin basin = {.turned = cases[i].turned};
    DryProject *project = rule_room_set_basin (dry_test_alcove ("foam-bands"), set_drain, &basin);
    g_autoptr (DryScene) scene = NULL;

    if (cases[i].metric)
      project = rule_room_set_job (project, make_metric, NULL);
    scene = picture_and_unref (project, TRUE);
    g_assert_true (dry_scene_says (scene, cases[i].small));
    g_assert_true (dry_scene_says (scene, cases[i].tall));
  }
}

/* A wall with no tile chosen is one plain ground. */
static void
test_untiled (void)
{
  g_autoptr (DryScene) scene = picture_and_unref (
      rule_room_set_finish (dry_test_furnished_alcove ("foam-bands"), take_tile_off, NULL), FALSE);
  g_autoptr (DryScene) tiled = picture_and_unref (dry_test_furnished_alcove ("foam-bands"), FALSE);

  g_assert_cmpuint (count_layer (scene, DRY_LAYER_TILE), >=, 3);
  g_assert_cmpuint (count_layer (scene, DRY_LAYER_TILE), <, count_layer (tiled, DRY_LAYER_TILE));
}

/* Tile that ends below the ceiling has a trim along its top as well, on each of the three walls. */
static void
test_trim (void)
{
  g_autoptr (DryScene) full = picture_and_unref (dry_test_alcove ("foam-bands"), FALSE);
  g_autoptr (DryScene) part = picture_and_unref (
      rule_room_set_wet (dry_test_alcove ("foam-bands"),
                         (DryWetZone){.height = INCH (75), .past = INCH (2), .leg = TRUE}),
      FALSE);

  g_assert_cmpuint (count_fill (part, DRY_LAYER_TILE, DRY_INK_GROUT), ==,
                    count_fill (full, DRY_LAYER_TILE, DRY_INK_GROUT) + 3);
}

/* A door shows its leaf and two panels, a passage darkness, a window glass and its rail. */
static void
test_openings (void)
{
  static const struct {
    DryOpeningKind kind;
    guint shapes;
  } cases[] = {{DRY_OPENING_DOOR, 4}, {DRY_OPENING_PASSAGE, 2}, {DRY_OPENING_WINDOW, 3}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryOpening opening = {.kind = cases[i].kind,
                          .u = INCH (36),
                          .z = cases[i].kind == DRY_OPENING_WINDOW ? INCH (48) : 0,
                          .width = INCH (12),
                          .height = INCH (24)};
    g_autoptr (DryScene) scene = picture_and_unref (
        rule_room_add_opening (dry_test_alcove ("foam-bands"), 'e', opening), FALSE);
    guint n = 0;

    for (guint k = 0; k < scene->n; k++)
      n += scene->items[k].shows == DRY_SHOWS_OPENING;
    g_assert_cmpuint (n, ==, cases[i].shapes);
  }
}

/* What hangs on the wall behind whoever looks, or beside the frame, is not in the picture. */
static void
test_out_of_sight (void)
{
  static const struct {
    char wall;
    DryLength u;
    gboolean seen;
  } cases[] = {{'n', INCH (24), TRUE}, {'e', INCH (92), FALSE}, {'s', INCH (24), FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryPart niche = {.kind = DRY_PART_NICHE,
                     .u = cases[i].u,
                     .z = INCH (48),
                     .width = INCH (6),
                     .height = INCH (12),
                     .depth = INCH (3),
                     .site_built = TRUE};
    g_autoptr (DryScene) scene = picture_and_unref (
        rule_room_add_part (dry_test_alcove ("foam-bands"), cases[i].wall, niche), FALSE);
    guint n = 0;

    for (guint k = 0; k < scene->n; k++)
      n += scene->items[k].shows == DRY_SHOWS_PART;
    g_assert_cmpint (n > 0, ==, cases[i].seen);
  }
}

/* A fold-down bench is a seat only; a built one has sides down to the floor. A glass door has a
 * handle, a pane none. */
static void
test_benches_and_glass (void)
{
  DryBasin basin = {0};
  guint shapes[4];

  for (guint i = 0; i < 4; i++) {
    DryPart part = i < 2 ? (DryPart){.kind = DRY_PART_BENCH,
                                     .u = INCH (80),
                                     .z = INCH (18),
                                     .width = INCH (20),
                                     .height = INCH (2),
                                     .depth = INCH (14),
                                     .fold_down = i == 1}
                         : (DryPart){.kind = DRY_PART_GLASS,
                                     .u = INCH (60),
                                     .z = INCH (4),
                                     .width = INCH (24),
                                     .height = INCH (72),
                                     .depth = INCH (0.375),
                                     .hinged = i == 3};
    g_autoptr (DryScene) scene = picture_and_unref (
        rule_room_add_part (rule_room_set_basin (dry_test_alcove ("foam-bands"), set_drain, &basin),
                            'w', part),
        FALSE);

    shapes[i] = 0;
    for (guint k = 0; k < scene->n; k++)
      shapes[i] += scene->items[k].shows == DRY_SHOWS_PART;
    g_assert_cmpuint (shapes[i], >, 0);
  }
  /* The shade under the front of what reaches the floor. */
  g_assert_cmpuint (shapes[0], >, shapes[1]);
  g_assert_cmpuint (shapes[3], >, shapes[2]);
}

/* The picture is as wide as asked for, within reason. */
static void
test_shapes (void)
{
  static const double aspects[][2] = {{0.1, 0.4}, {0.4, 0.4}, {1, 1}, {2, 2}, {9, 4}};
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPlan) plan = make_plan (project);

  for (guint i = 0; i < G_N_ELEMENTS (aspects); i++) {
    g_autoptr (DryScene) scene = dry_drawing_room_shaped (plan, FALSE, aspects[i][0]);
    DryRect frame = dry_primitive_bounds (&scene->items[0]);
    double aspect = (double) dry_rect_width (frame) / (double) dry_rect_height (frame);

    g_assert_cmpfloat_with_epsilon (aspect, aspects[i][1], 0.001);
  }
}

/* A ceiling below the eye is not seen from below. */
static void
test_low_ceiling (void)
{
  g_autoptr (DryScene) low = picture_and_unref (
      rule_room_set_room (dry_test_alcove ("foam-bands"), lower_ceiling, NULL), FALSE);
  g_autoptr (DryScene) full = picture_and_unref (dry_test_alcove ("foam-bands"), FALSE);

  g_assert_cmpuint (count_fill (full, DRY_LAYER_ROOM, DRY_INK_ENAMEL), ==, 1);
  g_assert_cmpuint (count_fill (low, DRY_LAYER_ROOM, DRY_INK_ENAMEL), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/room/cases", test_cases);
  g_test_add_func ("/room/furnished", test_furnished);
  g_test_add_func ("/room/figures", test_figures);
  g_test_add_func ("/room/without-basin", test_without_basin);
  g_test_add_func ("/room/drains", test_drains);
  g_test_add_func ("/room/turned-drains", test_turned_drains);
  g_test_add_func ("/room/people", test_people);
  g_test_add_func ("/room/untiled", test_untiled);
  g_test_add_func ("/room/trim", test_trim);
  g_test_add_func ("/room/openings", test_openings);
  g_test_add_func ("/room/out-of-sight", test_out_of_sight);
  g_test_add_func ("/room/benches-and-glass", test_benches_and_glass);
  g_test_add_func ("/room/shapes", test_shapes);
  g_test_add_func ("/room/low-ceiling", test_low_ceiling);
  g_test_add_func ("/eye/perspective", test_perspective);
  g_test_add_func ("/eye/behind", test_behind);
  g_test_add_func ("/eye/clip", test_clip);
  return g_test_run ();
}
