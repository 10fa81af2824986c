/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Snapping and distances as pure functions: which target wins, that nothing snaps from out of
 * reach, that Alt's reach of zero frees. */
#include "support/fixtures.h"
#include "ui/canvas-snap.h"

typedef struct {
  DryProject *project;
  DryPlan *plan;
  const DryRoom *room;
  DryId north;
} Place;

static void
place_set_up (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  place->project = dry_test_alcove ("foam-bands");
  place->room = dry_project_get_room (place->project, dry_test_room (place->project));
  place->north = dry_test_wall (place->project, 'n');
  place->plan = dry_plan_new (place->project, place->room->id, dry_test_catalog (), NULL, &error);
  g_assert_no_error (error);
}

static void
place_tear_down (Place *place, gconstpointer data)
{
  dry_plan_unref (place->plan);
  dry_project_unref (place->project);
}

static DrySnapRequest
request_at (Place *place, DryLength x, DryLength z, DryLength w, DryLength h)
{
  return (DrySnapRequest){.room = place->room,
                          .plan = place->plan,
                          .wall = place->north,
                          .side = DRY_SIDE_INSIDE,
                          .rect = {x, z, x + w, z + h},
                          .reach = DRY_INCH,
                          .grid = 0};
}

static void
test_centre_of_tub (Place *place, gconstpointer data)
{
  /* 12 in wide, its centre 1/2 in right of the middle of the 60 in tub. */
  DrySnapRequest request =
      request_at (place, 24 * DRY_INCH + DRY_INCH / 2, 50 * DRY_INCH, 12 * DRY_INCH, 12 * DRY_INCH);
  DrySnap snap = dry_snap_on_wall (&request);

  g_assert_cmpint (snap.du, ==, -DRY_INCH / 2);
  g_assert_nonnull (snap.u_reason);
  g_assert_cmpint (snap.u_line, ==, 30 * DRY_INCH);
}

/* From behind the wall the tub's lines lie where they do from before it, mirrored. */
static void
test_centre_of_tub_from_outside (Place *place, gconstpointer data)
{
  const DryWall *wall = dry_room_get_wall (place->room, place->north);
  DryLength middle = dry_wall_length (wall) - 30 * DRY_INCH;
  DrySnapRequest request = request_at (place, middle - 6 * DRY_INCH + DRY_INCH / 8, 50 * DRY_INCH,
                                       12 * DRY_INCH, 12 * DRY_INCH);
  DrySnap snap;

  request.side = DRY_SIDE_OUTSIDE;
  snap = dry_snap_on_wall (&request);
  g_assert_cmpstr (snap.u_reason, ==, "Center line of the tub");
  g_assert_cmpint (snap.u_line, ==, middle);
}

static void
test_stays_in_reach (Place *place, gconstpointer data)
{
  for (DryLength x = 0; x < 48 * DRY_INCH; x += DRY_INCH / 3) {
    DrySnapRequest request = request_at (place, x, 40 * DRY_INCH, 12 * DRY_INCH, 12 * DRY_INCH);
    DrySnap snap = dry_snap_on_wall (&request);

    g_assert_cmpint (ABS (snap.du), <, DRY_INCH);
    g_assert_cmpint (ABS (snap.dz), <, DRY_INCH);
    if (snap.u_reason == NULL)
      g_assert_cmpint (snap.du, ==, 0);
    request.reach = 0;
    snap = dry_snap_on_wall (&request);
    g_assert_cmpint (snap.du, ==, 0);
    g_assert_cmpint (snap.dz, ==, 0);
    g_assert_null (snap.u_reason);
  }
}

static void
test_snapped_is_stable (Place *place, gconstpointer data)
{
  for (DryLength x = 0; x < 48 * DRY_INCH; x += DRY_INCH / 5) {
    DrySnapRequest request = request_at (place, x, 40 * DRY_INCH, 12 * DRY_INCH, 12 * DRY_INCH);
    DrySnap snap = dry_snap_on_wall (&request);

    request.rect.x0 += snap.du;
    request.rect.x1 += snap.du;
    snap = dry_snap_on_wall (&request);
    g_assert_cmpint (snap.du, ==, 0);
  }
}

static void
test_grid (Place *place, gconstpointer data)
{
  DrySnapRequest request = request_at (place, 40 * DRY_INCH + DRY_INCH / 7, 41 * DRY_INCH + 1234,
                                       3 * DRY_INCH, 3 * DRY_INCH);
  DrySnap snap;

  request.reach = 0;
  request.grid = DRY_INCH / 4;
  snap = dry_snap_on_wall (&request);
  g_assert_cmpint ((request.rect.y0 + snap.dz) % (DRY_INCH / 4), ==, 0);
  g_assert_cmpint ((request.rect.x0 + snap.du + 3 * DRY_INCH / 2) % (DRY_INCH / 4), ==, 0);
  g_assert_cmpint (dry_snap_grid (FALSE, 1), ==, DRY_INCH / 16);
  g_assert_cmpint (dry_snap_grid (TRUE, 2 * DRY_MM), ==, 5 * DRY_MM);
  g_assert_cmpint (dry_snap_grid (FALSE, DRY_FOOT), ==, DRY_INCH);
}

static void
test_distances (Place *place, gconstpointer data)
{
  DrySnapRequest request =
      request_at (place, 20 * DRY_INCH, 40 * DRY_INCH, 12 * DRY_INCH, 20 * DRY_INCH);
  DryNeighbours near = dry_snap_neighbours (&request);

  g_assert_cmpint (near.distance[DRY_TOWARD_SIDE_LEFT], ==, 20 * DRY_INCH);
  g_assert_cmpint (near.distance[DRY_TOWARD_SIDE_RIGHT], ==, 28 * DRY_INCH);
  g_assert_cmpint (near.distance[DRY_TOWARD_SIDE_DOWN], ==, 40 * DRY_INCH);
  g_assert_cmpint (near.distance[DRY_TOWARD_SIDE_UP], ==, 36 * DRY_INCH);
}

static void
test_nearer_neighbour_counts (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  const DryRoom *room = dry_project_get_room (project, dry_test_room (project));
  const DryPart *niche = NULL;
  DryRect at;

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_NICHE)
      niche = &room->parts[i];
  g_assert_nonnull (niche);
  at = dry_part_rect (niche);
  DrySnapRequest request = {.room = room,
                            .wall = niche->wall,
                            .side = niche->side,
                            .rect = {at.x1 + 2 * DRY_INCH, at.y0, at.x1 + 5 * DRY_INCH, at.y1}};
  DryNeighbours near = dry_snap_neighbours (&request);

  g_assert_cmpint (near.distance[DRY_TOWARD_SIDE_LEFT], ==, 2 * DRY_INCH);
  g_assert_cmpuint (near.object[DRY_TOWARD_SIDE_LEFT], ==, niche->id);
}

#define ADD(name, function)                                                                        \
  g_test_add ("/snap/" name, Place, NULL, place_set_up, function, place_tear_down)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("centre-of-tub", test_centre_of_tub);
  ADD ("centre-of-tub-from-outside", test_centre_of_tub_from_outside);
  ADD ("stays-in-reach", test_stays_in_reach);
  ADD ("snapped-is-stable", test_snapped_is_stable);
  ADD ("grid", test_grid);
  ADD ("distances", test_distances);
  g_test_add_func ("/snap/nearer-neighbour-counts", test_nearer_neighbour_counts);
  return g_test_run ();
}
