/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The room's picture: nothing of the workshop, nothing outside its frame, every visible wall's tile
 * and every fitting in it; and the projection by what perspective must give. */
#include <string.h>

#include "draw/drawings.h"
#include "draw/eye.h"
#include "support/fixtures.h"

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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/room/cases", test_cases);
  g_test_add_func ("/room/furnished", test_furnished);
  g_test_add_func ("/room/figures", test_figures);
  g_test_add_func ("/room/without-basin", test_without_basin);
  g_test_add_func ("/eye/perspective", test_perspective);
  g_test_add_func ("/eye/behind", test_behind);
  g_test_add_func ("/eye/clip", test_clip);
  return g_test_run ();
}
