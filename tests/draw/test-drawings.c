/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawings against their golden text, by name, and on many random rooms.
 * To accept new golden files: DRYBAY_ACCEPT=1 meson test draw-drawings, then read the diff. */
#include "draw/drawings.h"
#include "fixture-plan.h"
#include "support/fixtures.h"

static void
check_golden (const DryScene *scene, const char *name)
{
  g_autofree char *file = g_strconcat (name, ".txt", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "draw", "golden", file, NULL);
  g_autofree char *text = dry_scene_to_text (scene), *wanted = NULL;
  g_autoptr (GError) error = NULL;

  if (g_getenv ("DRYBAY_ACCEPT")) {
    g_file_set_contents (path, text, -1, &error);
    g_assert_no_error (error);
    return;
  }
  g_file_get_contents (path, &wanted, NULL, &error);
  g_assert_no_error (error);
  if (!g_str_equal (text, wanted)) {
    g_auto (GStrv) a = g_strsplit (wanted, "\n", -1), b = g_strsplit (text, "\n", -1);
    for (guint i = 0; a[i] && b[i]; i++)
      if (!g_str_equal (a[i], b[i])) {
        g_test_message ("%s line %u\n  golden %s\n  now    %s", name, i + 1, a[i], b[i]);
        break;
      }
    g_test_fail_printf ("%s differs from its golden text", name);
  }
}

static void
test_golden (gconstpointer data)
{
  const char *name = data;
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryScene) scene = dry_drawing_by_name (&fixture->plan, name, &error);
  g_autofree char *file = g_strdelimit (g_strdup (name), ":", '-');

  g_assert_no_error (error);
  check_golden (scene, file);
}

static void
test_golden_metric (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (TRUE);
  g_autoptr (DryScene) scene = dry_drawing_face (&fixture->plan, 2);

  check_golden (scene, "face-C-metric");
}

/* A pan with its corner cut off, in plan and before both walls it stands at; a floor rolled into,
 * with its channel at the back; a half wall beside a pan. */
static void
test_golden_cases (void)
{
  static const struct {
    const char *project, *name, *file;
  } cases[] = {{"04-neo-angle.drybay", "plan", "neo-angle-plan"},
               {"04-neo-angle.drybay", "face:A", "neo-angle-face-A"},
               {"04-neo-angle.drybay", "face:B", "neo-angle-face-B"},
               {"05-roll-in.drybay", "plan", "roll-in-plan"},
               {"16-pony-wall.drybay", "plan", "pony-wall-plan"}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (DryProject) project = dry_test_load (cases[i].project);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryPlan) plan =
        dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);
    g_autoptr (DryScene) scene = NULL;

    g_assert_no_error (error);
    scene = dry_drawing_by_name (plan, cases[i].name, &error);
    g_assert_no_error (error);
    check_golden (scene, cases[i].file);
  }
}

static void
test_names (void)
{
  static const char *const bad[] = {"",        "board ",   "face:",    "face:Z", "sheet:0",
                                    "sheet:2", "sheet:1x", "sheet:-1", "PLAN",   NULL};
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);

  for (guint i = 0; bad[i]; i++) {
    g_autoptr (GError) error = NULL;
    g_assert_null (dry_drawing_by_name (&fixture->plan, bad[i], &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED);
    g_assert_nonnull (
        strstr (error->message, "board, plan, strip, water, section, client, room, face:A"));
  }
}

/* What every scene must keep to, whatever it shows. */
static void
check_scene (const DryScene *scene, gboolean has_views)
{
  for (guint i = 0; i < scene->n; i++) {
    const DryPrimitive *item = &scene->items[i];
    g_assert_cmpuint (item->n_points, >, 0);
    g_assert_cmpint (item->view, <, (gint) scene->n_views);
    if (has_views)
      g_assert_cmpint (item->view, >=, 0);
    g_assert_cmpint (item->layer, <, DRY_N_LAYERS);
    g_assert_cmpint (item->stroke, <, DRY_N_INKS);
    g_assert_cmpint (item->fill, <, DRY_N_INKS);
    g_assert_true (item->fill_alpha > 0 && item->fill_alpha <= 1);
    if (item->kind == DRY_PRIMITIVE_TEXT || item->kind == DRY_PRIMITIVE_DIMENSION) {
      g_assert_nonnull (item->text);
      g_assert_true (g_utf8_validate (item->text, -1, NULL));
      g_assert_cmpfloat (item->size, >=, 1.5);
    }
    if (item->ring_ends)
      g_assert_cmpuint (item->ring_ends[item->n_rings - 1], ==, item->n_points);
    for (guint p = 0; p < item->n_points; p++)
      if (item->kind == DRY_PRIMITIVE_PATH)
        g_assert_true (dry_rect_contains (scene->bounds, item->points[p]));
  }
}

static guint
count_turning (const DryScene *scene, DryPrimitiveKind kind)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    n += scene->items[i].layer == DRY_LAYER_TURNING && scene->items[i].kind == kind;
  return n;
}

/* Room to turn is on the board only, hidden unless asked for; a sector for every door. */
static void
test_turning (void)
{
  static const char *const files[] = {"05-roll-in.drybay", "client-shower.drybay",
                                      "01-alcove.drybay"};

  g_assert_cmpuint (DRY_LAYERS_USUAL & 1u << DRY_LAYER_TURNING, ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autoptr (DryProject) project = dry_test_load (files[i]);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryPlan) plan =
        dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);
    g_assert_no_error (error);
    const DryRoom *room = plan->context.room;
    g_autoptr (DryScene) board = dry_drawing_board (plan);
    g_autoptr (DryScene) paper = dry_drawing_plan (plan);
    guint doors = 0;
    for (guint k = 0; k < room->n_openings; k++)
      doors += room->openings[k].kind == DRY_OPENING_DOOR;
    for (guint k = 0; k < room->n_parts; k++)
      doors += room->parts[k].kind == DRY_PART_GLASS && room->parts[k].hinged;
    g_assert_cmpuint (count_turning (board, DRY_PRIMITIVE_CIRCLE), ==, 1);
    g_assert_cmpuint (count_turning (board, DRY_PRIMITIVE_TEXT), ==, 2);
    g_assert_cmpuint (count_turning (board, DRY_PRIMITIVE_PATH), ==, doors);
    for (guint kind = 0; kind <= DRY_PRIMITIVE_DIMENSION; kind++)
      g_assert_cmpuint (count_turning (paper, kind), ==, 0);
  }
}

/* No two dimensions of one row and base line overlap. */
static void
check_rows (const DryScene *scene)
{
  for (guint i = 0; i < scene->n; i++)
    for (guint j = i + 1; j < scene->n; j++) {
      const DryPrimitive *a = &scene->items[i], *b = &scene->items[j];
      gboolean flat = a->side == DRY_TOWARD_UP || a->side == DRY_TOWARD_DOWN;
      DryLength a0, a1, b0, b1;
      if (a->kind != DRY_PRIMITIVE_DIMENSION || b->kind != DRY_PRIMITIVE_DIMENSION ||
          a->side != b->side || a->row != b->row || a->view != b->view)
        continue;
      if ((flat ? a->points[0].y : a->points[0].x) != (flat ? b->points[0].y : b->points[0].x))
        continue;
      a0 = flat ? a->points[0].x : a->points[0].y;
      a1 = flat ? a->points[1].x : a->points[1].y;
      b0 = flat ? b->points[0].x : b->points[0].y;
      b1 = flat ? b->points[1].x : b->points[1].y;
      g_assert_cmpint (MAX (MIN (a0, a1), MIN (b0, b1)), >=, MIN (MAX (a0, a1), MAX (b0, b1)));
    }
}

static void
test_random_rooms (void)
{
  for (guint32 seed = 1; seed <= 40; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryPlan) plan = dry_plan_new (project, dry_project_get_room_at (project, 0)->id,
                                             dry_test_catalog (), NULL, &error);
    g_autoptr (DryScene) first = NULL, second = NULL;
    g_autofree char *a = NULL, *b = NULL;

    g_assert_no_error (error);
    first = dry_drawing_board (plan);
    second = dry_drawing_board (plan);
    a = dry_scene_to_text (first);
    b = dry_scene_to_text (second);
    g_assert_cmpstr (a, ==, b);
    check_scene (first, TRUE);
    check_rows (first);
    for (guint i = 0; i < plan->faces->n; i++) {
      g_autoptr (DryScene) face = dry_drawing_face (plan, i);
      check_scene (face, TRUE);
      check_rows (face);
    }
  }
}

static void
test_board_views (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);
  DryRect plan = scene->views[0].bounds;

  g_assert_cmpuint (scene->n_views, ==, 4);
  g_assert_cmpint (scene->views[0].kind, ==, DRY_VIEW_PLAN);
  for (guint i = 1; i < 4; i++) {
    const DryView *view = &scene->views[i];
    g_assert_cmpint (view->kind, ==, DRY_VIEW_FACE);
    g_assert_cmpint (view->face, ==, (gint) i - 1);
    /* Below the plan, and one floor for all. */
    g_assert_cmpint (view->bounds.y1, <, plan.y0);
    g_assert_cmpint (view->origin.y, ==, scene->views[1].origin.y);
    for (guint j = i + 1; j < 4; j++)
      g_assert_false (dry_rect_overlaps (view->bounds, scene->views[j].bounds));
  }
  g_assert_cmpstr (scene->views[2].name, ==, "Back wall, elevation");
}

/* A room without a basin, and one whose plan has nothing at all, still draw. */
static void
test_bare_room (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  g_autoptr (GError) error = NULL;
  DryId room = dry_test_room (project);
  g_autoptr (DryProject) bare =
      dry_edit_remove (project, room, dry_project_get_room (project, room)->basin.id, &error);
  g_autoptr (DryPlan) plan = dry_plan_new (bare, room, dry_test_catalog (), NULL, &error);
  g_autoptr (DryScene) board = NULL, strip = NULL;

  g_assert_no_error (error);
  board = dry_drawing_board (plan);
  strip = dry_drawing_strip (plan);
  g_assert_cmpuint (board->n_views, ==, 1);
  g_assert_cmpuint (strip->n, ==, 0);
  check_scene (board, TRUE);
}

static void
test_references (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  DryScene *scene = dry_drawing_plan (&fixture->plan);
  DryScene *again = dry_scene_ref (scene);

  g_assert_true (scene == again);
  dry_scene_unref (scene);
  g_assert_cmpuint (again->n, >, 0);
  g_assert_nonnull (again->items[0].points);
  dry_scene_unref (again);
  dry_scene_unref (NULL);
}

int
main (int argc, char **argv)
{
  static const char *const golden[] = {"board",  "plan",   "strip",   "face:A",
                                       "face:B", "face:C", "sheet:1", "section"};

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (golden); i++) {
    g_autofree char *path = g_strconcat ("/draw/golden/", golden[i], NULL);
    g_test_add_data_func (path, golden[i], test_golden);
  }
  g_test_add_func ("/draw/turning", test_turning);
  g_test_add_func ("/draw/golden/metric", test_golden_metric);
  g_test_add_func ("/draw/golden/cases", test_golden_cases);
  g_test_add_func ("/draw/names", test_names);
  g_test_add_func ("/draw/random-rooms", test_random_rooms);
  g_test_add_func ("/draw/board-views", test_board_views);
  g_test_add_func ("/draw/bare-room", test_bare_room);
  g_test_add_func ("/draw/references", test_references);
  return g_test_run ();
}
