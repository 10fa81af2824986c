/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Picking: what a click at a place means, by rank, nearness and layer.
 * On the hand-made plan, whose places are known. */
#include "draw/drawings.h"
#include "fixture-plan.h"
#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

typedef struct {
  const char *name;
  double u, z; /* on face `face`, inches */
  gint face;
  double tolerance;
  guint layers;
  DryShows shows;
} PickCase;

static DryPoint
place (const DryScene *scene, gint face, double u, double z)
{
  DryPoint origin = scene->views[face + 1].origin;

  return (DryPoint){origin.x + IN (u), origin.y + IN (z)};
}

static void
test_ranks (void)
{
  static const guint all = DRY_LAYERS_ALL;
  static const PickCase cases[] = {
      {"the tub before the boards", 30, 8, 1, 0, all, DRY_SHOWS_BASIN},
      {"a niche before its wall", 24, 58, 1, 0, all, DRY_SHOWS_PART},
      {"a wall before its boards", 45, 80, 1, 0, all, DRY_SHOWS_WALL},
      {"boards once walls are off", 45, 80, 1, 0, 1u << DRY_LAYER_BOARDS, DRY_SHOWS_BOARD},
      {"a stud alone", 48, 80, 1, 0, 1u << DRY_LAYER_STUDS, DRY_SHOWS_MEMBER},
      {"a fastener within reach", 16.3, 36.2, 1, 0.6, 1u << DRY_LAYER_FASTENERS,
       DRY_SHOWS_FASTENER},
      {"a finding's mark before the wall", 30, 91, 1, 0.5, all, DRY_SHOWS_FINDING},
      {"nothing where no layer is on", 45, 80, 1, 1, 0, DRY_SHOWS_NOTHING},
      {"nothing far outside", 45, 500, 1, 1, all, DRY_SHOWS_NOTHING},
  };
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const PickCase *c = &cases[i];
    DryHit hit;
    gboolean found = dry_scene_pick (scene, place (scene, c->face, c->u, c->z), IN (c->tolerance),
                                     c->layers, &hit);
    g_test_message ("%s", c->name);
    g_assert_cmpint (found, ==, c->shows != DRY_SHOWS_NOTHING);
    if (found)
      g_assert_cmpint (hit.shows, ==, c->shows);
  }
}

static void
test_local (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);
  DryHit hit;

  g_assert_true (dry_scene_pick (scene, place (scene, 1, 24, 58), 0, DRY_LAYERS_ALL, &hit));
  g_assert_cmpint (hit.view, ==, 2);
  g_assert_cmpint (hit.local.x, ==, IN (24));
  g_assert_cmpint (hit.local.y, ==, IN (58));
  g_assert_nonnull (dry_room_get_part (fixture->plan.context.room, hit.object));
  /* Nothing there: the view and place in it are told all the same. */
  g_assert_false (dry_scene_pick (scene, place (scene, 0, 10, 20), 0, 0, &hit));
  g_assert_cmpint (hit.view, ==, 1);
  g_assert_cmpint (hit.local.x, ==, IN (10));
  g_assert_false (
      dry_scene_pick (scene, (DryPoint){IN (9999), IN (9999)}, 0, DRY_LAYERS_ALL, &hit));
  g_assert_cmpint (hit.view, ==, -1);
}

/* Every part and the basin can be picked at its middle on the faces, every wall on the plan. */
static void
test_everything_can_be_picked (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);
  const DryRoom *room = fixture->plan.context.room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    const DryFace *face = dry_faces_get_wall (fixture->plan.faces, part->wall, part->side);
    DryRect r = dry_part_rect (part);
    DryHit hit;
    DryPoint at = scene->views[face->index + 1].origin;
    at.x += (r.x0 + r.x1) / 2;
    at.y += (r.y0 + r.y1) / 2;
    g_assert_true (dry_scene_pick (scene, at, IN (0.25), DRY_LAYERS_ALL, &hit));
    g_assert_cmpuint (hit.object, ==, part->id);
  }
  for (guint i = 0; i < room->n_walls; i++) {
    const DryWall *wall = &room->walls[i];
    DryPoint at = dry_wall_point (wall, DRY_SIDE_INSIDE, dry_wall_length (wall) / 8, -IN (1.75));
    DryHit hit;
    g_assert_true (dry_scene_pick (scene, at, 0, DRY_LAYERS_ALL, &hit));
    g_assert_cmpint (hit.shows, ==, DRY_SHOWS_WALL);
    g_assert_cmpuint (hit.object, ==, wall->id);
  }
}

static void
test_find_view (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  g_autoptr (DryScene) scene = dry_drawing_board (&fixture->plan);
  DryRect plan = scene->views[0].bounds;

  g_assert_cmpint (dry_scene_find_view (scene,
                                        dry_rect_contains (plan, (DryPoint){0, 0})
                                            ? (DryPoint){0, 0}
                                            : (DryPoint){plan.x0, plan.y0},
                                        0),
                   ==, 0);
  g_assert_cmpint (dry_scene_find_view (scene, (DryPoint){plan.x0 - IN (3), plan.y1}, IN (2)), ==,
                   -1);
  g_assert_cmpint (dry_scene_find_view (scene, (DryPoint){plan.x0 - IN (3), plan.y1}, IN (4)), ==,
                   0);
  g_assert_cmpint (dry_scene_find_view (scene, place (scene, 2, 5, 5), 0), ==, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/pick/ranks", test_ranks);
  g_test_add_func ("/draw/pick/local", test_local);
  g_test_add_func ("/draw/pick/everything", test_everything_can_be_picked);
  g_test_add_func ("/draw/pick/find-view", test_find_view);
  return g_test_run ();
}
