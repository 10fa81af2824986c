/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random but sound rooms for property tests: the same seed gives the same room on every machine.
 * Parts keep clear of one another; everything else may be as odd as houses are. */
#include "support/fixtures.h"

static const char *const systems[] = {
    "cement-liquid",    "cement-sheet", "foam-bands", "foam-sealant",
    "glass-mat-liquid", "fibre-cement", "mortar-bed",
};

typedef struct {
  GRand *random;
  DryProject *project;
  DryId room;
} Maker;

/* In sixteenths, as a tape is read. */
static DryLength
pick_inches (Maker *self, int low, int high)
{
  return (DryLength) g_rand_int_range (self->random, low * 16, high * 16 + 1) * (DRY_INCH / 16);
}

static gboolean
pick_one_in (Maker *self, int n)
{
  return g_rand_int_range (self->random, 0, n) == 0;
}

static void
follow (Maker *self, DryProject *next, GError **error)
{
  g_assert_no_error (*error);
  g_assert_nonnull (next);
  dry_project_unref (self->project);
  self->project = next;
}

static const DryRoom *
get_room (Maker *self)
{
  return dry_project_get_room (self->project, self->room);
}

static void
make_outline (Maker *self)
{
  DryLength width = pick_inches (self, 54, 120), depth = pick_inches (self, 66, 144);
  const DryPoint corners[] = {{0, depth}, {width, depth}, {width, 0}, {0, 0}};
  DryRoom *room = dry_room_copy (get_room (self));
  g_autoptr (GError) error = NULL;

  room->ceiling = pick_inches (self, 84, 108);
  follow (self, dry_edit_set_room (self->project, room, NULL, &error), &error);
  dry_room_free (room);
  follow (self, dry_edit_set_outline (self->project, self->room, corners, 4, &error), &error);
}

static void
make_studs (Maker *self, char compass)
{
  static const int spacings[] = {12, 16, 16, 16, 24};
  const DryRoom *room = get_room (self);
  DryWall wall = *dry_room_get_wall (room, dry_test_wall (self->project, compass));
  DryLength found[64], length = dry_wall_length (&wall), at;
  g_autoptr (GError) error = NULL;

  wall.stud_spacing = spacings[g_rand_int_range (self->random, 0, 5)] * DRY_INCH;
  wall.first_stud = pick_inches (self, 2, (int) (wall.stud_spacing / DRY_INCH));
  wall.bearing = pick_one_in (self, 4);
  wall.exterior = pick_one_in (self, 4);
  wall.insulation = wall.exterior ? pick_inches (self, 0, 3) : 0;
  if (pick_one_in (self, 4)) {
    at = pick_inches (self, 6, 16);
    while (at < length - 3 * DRY_INCH && wall.n_found_studs < G_N_ELEMENTS (found)) {
      found[wall.n_found_studs++] = at;
      at += pick_inches (self, 10, 19);
    }
    wall.found_studs = wall.n_found_studs > 0 ? found : NULL;
  }
  follow (self, dry_edit_set_wall (self->project, self->room, &wall, NULL, &error), &error);
}

static void
make_basin (Maker *self)
{
  const DryRoom *room = get_room (self);
  DryBasin basin = room->basin;
  DryLength wall = dry_wall_length (&room->walls[0]);
  g_autoptr (GError) error = NULL;

  basin.item = NULL;
  basin.kind = pick_one_in (self, 2) ? DRY_BASIN_PAN : DRY_BASIN_TUB;
  basin.length = MIN (wall, pick_inches (self, 48, 72));
  basin.width = pick_inches (self, 30, 42);
  basin.height =
      basin.kind == DRY_BASIN_TUB ? pick_inches (self, 14, 20) : pick_inches (self, 2, 6);
  basin.flange = pick_inches (self, 0, 1);
  /* In an alcove, or in a corner with one end open. */
  if (pick_one_in (self, 2))
    basin.length = wall;
  else if (pick_one_in (self, 2))
    basin.along = wall - basin.length;
  basin.drain = pick_one_in (self, 2) ? DRY_END_LEFT : DRY_END_RIGHT;
  follow (self, dry_edit_set_basin (self->project, self->room, &basin, NULL, &error), &error);
}

static void
make_finish (Maker *self)
{
  const DryRoom *room = get_room (self);
  DryFinish finish = room->finish;
  DryWetZone wet = room->wet;
  g_autoptr (GError) error = NULL;

  finish.system = (char *) systems[g_rand_int_range (self->random, 0, G_N_ELEMENTS (systems))];
  wet.height = pick_one_in (self, 2) ? 0 : pick_inches (self, 74, 83);
  wet.past = pick_inches (self, 2, 6);
  wet.leg = !pick_one_in (self, 3);
  follow (self, dry_edit_set_finish (self->project, self->room, &finish, &error), &error);
  follow (self, dry_edit_set_wet_zone (self->project, self->room, &wet, &error), &error);
}

static gboolean
is_clear (const DryRoom *room, const DryPart *part)
{
  DryRect rect = dry_rect_inflate (dry_part_rect (part), 3 * DRY_INCH);

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].wall == part->wall &&
        dry_rect_overlaps (rect, dry_part_rect (&room->parts[i])))
      return FALSE;
  return TRUE;
}

static DryPart
pick_part (Maker *self)
{
  DryPart part = {.kind = DRY_PART_NICHE, .depth = 3 * DRY_INCH, .pitch = 0.020833};

  if (pick_one_in (self, 2)) {
    part.width = pick_inches (self, 8, 16);
    part.height = pick_inches (self, 10, 22);
    part.site_built = pick_one_in (self, 2);
    if (!part.site_built) {
      part.body_width = part.width + DRY_INCH;
      part.body_height = part.height + DRY_INCH;
      part.flange = DRY_INCH;
    }
    return part;
  }
  part.kind = DRY_PART_VALVE + (DryPartKind) g_rand_int_range (self->random, 0, 3);
  part.width = part.height = part.kind == DRY_PART_VALVE ? 7 * DRY_INCH : 5 * DRY_INCH / 2;
  part.hole = part.kind == DRY_PART_VALVE ? 3 * DRY_INCH : DRY_INCH;
  part.pitch = 0;
  return part;
}

/* On a wall the basin touches, above it and within its reach; given up when there is no room. */
static void
make_part (Maker *self)
{
  const DryRoom *room = get_room (self);
  DryPart part = pick_part (self);
  gboolean at_left = room->basin.along == 0;
  char compass = "new"[g_rand_int_range (self->random, 0, 3)];
  DryLength low = 0, high, wall, half = part.width / 2 + 2 * DRY_INCH;
  g_autoptr (GError) error = NULL;

  if (compass == 'w' && !at_left)
    compass = 'n';
  if (compass == 'e' && room->basin.along + room->basin.length < dry_wall_length (&room->walls[0]))
    compass = 'n';
  part.wall = dry_test_wall (self->project, compass);
  wall = dry_wall_length (dry_room_get_wall (room, part.wall));
  low = compass == 'n' ? room->basin.along : compass == 'w' ? wall - room->basin.width : 0;
  high = compass == 'n' ? low + room->basin.length : low + room->basin.width;
  part.u = low + half + pick_inches (self, 0, 60) % MAX (DRY_INCH / 16, high - low - 2 * half);
  part.z = pick_inches (self, 34, 48);
  if (!is_clear (room, &part))
    return;
  follow (self, dry_edit_set_part (self->project, self->room, &part, NULL, &error), &error);
}

DryProject *
dry_test_random_project (guint32 seed)
{
  Maker self = {g_rand_new_with_seed (seed), dry_project_new (), 0};
  int n_parts;

  self.room = dry_test_room (self.project);
  make_outline (&self);
  for (const char *compass = "nesw"; *compass != '\0'; compass++)
    make_studs (&self, *compass);
  make_basin (&self);
  make_finish (&self);
  n_parts = g_rand_int_range (self.random, 0, 5);
  for (int i = 0; i < n_parts; i++)
    make_part (&self);
  g_rand_free (self.random);
  return self.project;
}
