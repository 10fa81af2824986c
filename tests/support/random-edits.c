/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random edits for stateful tests: one small function for each edit function, in a table that also
 * names it. Values are near what stands already, so that most edits go through. */
#include "support/random-edits.h"

#include "base/error.h"
#include "project/alternate.h"
#include "project/edit.h"

#define MAX_ROOMS  3
#define MAX_THINGS 20

typedef struct {
  GRand *random;
  const DryProject *project;
  const DryRoom *room;
} Maker;

static gint
pick (const Maker *self, gint low, gint high)
{
  return g_rand_int_range (self->random, low, high);
}

static gboolean
toss (const Maker *self)
{
  return g_rand_boolean (self->random);
}

/* In sixteenths, as a tape is read; now and then off the tape, or below nothing. */
static DryLength
pick_length (const Maker *self, gint low, gint high)
{
  if (pick (self, 0, 40) == 0)
    return -DRY_INCH;
  if (pick (self, 0, 20) == 0)
    return (DryLength) pick (self, low, high) * 25400001;
  return (DryLength) pick (self, low * 16, high * 16 + 1) * (DRY_INCH / 16);
}

static const DryWall *
pick_wall (const Maker *self)
{
  return &self->room->walls[pick (self, 0, (gint) self->room->n_walls)];
}

/* Nothing of the room, once in a while. */
static DryId
pick_object (const Maker *self)
{
  const DryRoom *room = self->room;
  guint n = room->n_walls + room->n_openings + room->n_parts + room->n_seams + 2;
  guint at = (guint) pick (self, 0, (gint) n);

  if (at < room->n_walls)
    return room->walls[at].id;
  at -= room->n_walls;
  if (at < room->n_openings)
    return room->openings[at].id;
  at -= room->n_openings;
  if (at < room->n_parts)
    return room->parts[at].id;
  at -= room->n_parts;
  if (at < room->n_seams)
    return room->seams[at].id;
  return at == room->n_seams ? room->basin.id : 999999;
}

static gboolean
is_full (const Maker *self)
{
  return self->room->n_parts + self->room->n_openings + self->room->n_seams +
             (self->room->n_walls - self->room->n_outline) >
         MAX_THINGS;
}

static DryProject *
refuse (GError **error)
{
  g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "The test wants no more.");
  return NULL;
}

/* --- job and rooms --- */

static DryProject *
set_job (const Maker *self, GError **error)
{
  static const char *const packs[] = {"us-residential", "common-practice", "germany", "canada"};
  DryJob job = *dry_project_get_job (self->project);
  g_autofree char *title = g_strdup_printf ("Größe %d \"&<\t", pick (self, 0, 1000));

  job.title = title;
  job.client = toss (self) ? (char *) "عميل 👷" : NULL;
  job.rule_pack = (char *) packs[pick (self, 0, G_N_ELEMENTS (packs))];
  job.temperature = pick (self, -20, 500) / 10.0;
  job.metric = toss (self);
  job.denominator = 8 << pick (self, 0, 4);
  job.crew = pick (self, -1, 8);
  job.day_hours = g_rand_double_range (self->random, 0, 12);
  return dry_edit_set_job (self->project, &job, error);
}

static DryProject *
set_room (const Maker *self, GError **error)
{
  DryRoom *room = dry_room_copy (self->room);
  DryProject *next;

  room->ceiling = pick_length (self, 80, 120);
  room->steam = toss (self);
  room->fan = g_rand_double_range (self->random, 0, 60);
  room->ceiling_slope = pick (self, 0, 3) == 0 ? 1.0 / 3.0 : 0;
  room->floor_joist_span = pick_length (self, 0, 200);
  g_free (room->name);
  room->name = g_strdup_printf ("Bath %d", pick (self, 0, 100));
  next = dry_edit_set_room (self->project, room, NULL, error);
  dry_room_free (room);
  return next;
}

static DryProject *
add_room (const Maker *self, GError **error)
{
  DryRoom *room;
  DryProject *next;

  if (dry_project_get_n_rooms (self->project) >= MAX_ROOMS)
    return refuse (error);
  room = dry_room_copy (self->room);
  room->id = 0;
  next = dry_edit_set_room (self->project, room, NULL, error);
  dry_room_free (room);
  return next;
}

static DryProject *
remove_room (const Maker *self, GError **error)
{
  return dry_edit_remove_room (self->project, self->room->id, error);
}

/* --- what is in a room --- */

static DryProject *
set_basin (const Maker *self, GError **error)
{
  DryBasin basin = self->room->basin;

  basin.kind = toss (self) ? DRY_BASIN_TUB : DRY_BASIN_PAN;
  basin.wall = pick_wall (self)->id;
  basin.length = pick_length (self, 30, 66);
  basin.width = pick_length (self, 28, 42);
  basin.along = toss (self) ? 0 : pick_length (self, 0, 40);
  basin.height = pick_length (self, 2, 20);
  basin.turned = toss (self);
  basin.slope = basin.kind == DRY_BASIN_PAN ? 0.0208 : 0;
  basin.drain = (DryEnd) pick (self, 0, 4);
  return dry_edit_set_basin (self->project, self->room->id, &basin, NULL, error);
}

static DryProject *
move_basin (const Maker *self, GError **error)
{
  return dry_edit_move_basin (self->project, self->room->id, pick_wall (self)->id,
                              pick_length (self, 0, 60), toss (self) ? 0 : pick_length (self, 0, 9),
                              toss (self), error);
}

static DryProject *
set_wet_zone (const Maker *self, GError **error)
{
  DryWetZone wet = {.height = toss (self) ? 0 : pick_length (self, 72, 96),
                    .past = pick_length (self, 0, 8),
                    .leg = toss (self),
                    .ceiling = toss (self)};

  return dry_edit_set_wet_zone (self->project, self->room->id, &wet, error);
}

static DryProject *
set_finish (const Maker *self, GError **error)
{
  static const char *const systems[] = {"cement-liquid",   "cement-sheet", "foam-bands",
                                        "foam-sealant",    "fibre-cement", "mortar-bed",
                                        "glass-mat-liquid"};
  DryFinish finish = self->room->finish;

  finish.system = (char *) systems[pick (self, 0, G_N_ELEMENTS (systems))];
  finish.board = 0;
  finish.sheet = NULL;
  finish.tiled = toss (self);
  finish.tile_width = pick_length (self, 3, 24);
  finish.tile_height = pick_length (self, 3, 24);
  finish.tile_thickness = 3 * DRY_INCH / 8;
  finish.joint = (DryLength) pick (self, 1, 5) * DRY_INCH / 16;
  finish.mortar = DRY_INCH / 8;
  finish.pattern = (DryPattern) pick (self, 0, DRY_PATTERN_HEXAGON + 1);
  finish.offset = g_rand_double_range (self->random, 0, 0.55);
  finish.wrap = toss (self);
  return dry_edit_set_finish (self->project, self->room->id, &finish, error);
}

static DryPart
make_part (const Maker *self)
{
  DryPart part = {.kind = (DryPartKind) pick (self, 0, DRY_N_PART_KINDS),
                  .wall = pick_wall (self)->id,
                  .u = pick_length (self, 2, 70),
                  .z = pick_length (self, 4, 80),
                  .width = pick_length (self, 2, 24),
                  .height = pick_length (self, 2, 24),
                  .depth = pick_length (self, 1, 4),
                  .hole = pick (self, 0, 3) == 0 ? DRY_INCH : 0,
                  .pitch = pick (self, 0, 2) / 48.0,
                  .site_built = toss (self)};

  part.side = pick (self, 0, 8) == 0 ? DRY_SIDE_OUTSIDE : DRY_SIDE_INSIDE;
  part.label = pick (self, 0, 4) == 0 ? (char *) "shelf ‮هنا‬" : NULL;
  return part;
}

static DryProject *
add_part (const Maker *self, GError **error)
{
  DryPart part = make_part (self);

  if (is_full (self))
    return refuse (error);
  return dry_edit_set_part (self->project, self->room->id, &part, NULL, error);
}

static DryProject *
set_part (const Maker *self, GError **error)
{
  DryPart part = make_part (self);

  if (self->room->n_parts == 0)
    return refuse (error);
  part.id = self->room->parts[pick (self, 0, (gint) self->room->n_parts)].id;
  return dry_edit_set_part (self->project, self->room->id, &part, NULL, error);
}

static DryProject *
move_part (const Maker *self, GError **error)
{
  const DryPart *part;

  if (self->room->n_parts == 0)
    return refuse (error);
  part = &self->room->parts[pick (self, 0, (gint) self->room->n_parts)];
  return dry_edit_move_part (self->project, self->room->id, part->id,
                             toss (self) ? part->wall : pick_wall (self)->id, part->side,
                             pick_length (self, 0, 80), pick_length (self, 0, 90), error);
}

static DryProject *
set_opening (const Maker *self, GError **error)
{
  const DryRoom *room = self->room;
  DryOpening opening = {.kind = (DryOpeningKind) pick (self, 0, 3),
                        .wall = pick_wall (self)->id,
                        .u = pick_length (self, 0, 40),
                        .z = pick_length (self, 0, 50),
                        .width = pick_length (self, 10, 36),
                        .height = pick_length (self, 10, 80)};

  if (room->n_openings > 0 && toss (self))
    opening.id = room->openings[pick (self, 0, (gint) room->n_openings)].id;
  else if (is_full (self))
    return refuse (error);
  return dry_edit_set_opening (self->project, room->id, &opening, NULL, error);
}

static DryProject *
set_seam (const Maker *self, GError **error)
{
  DrySeamWish seam = {.wall = pick_wall (self)->id,
                      .level = toss (self),
                      .at = pick_length (self, 4, 80),
                      .through = pick_length (self, 4, 80)};

  if (is_full (self))
    return refuse (error);
  return dry_edit_set_seam (self->project, self->room->id, &seam, NULL, error);
}

static DryProject *
clear_seams (const Maker *self, GError **error)
{
  return dry_edit_clear_seams (self->project, self->room->id, pick_wall (self)->id,
                               toss (self) ? DRY_SIDE_INSIDE : DRY_SIDE_OUTSIDE, error);
}

static DryProject *
set_on_hand (const Maker *self, GError **error)
{
  DryOnHand board = {.width = pick_length (self, 8, 48),
                     .height = pick_length (self, 8, 96),
                     .count = pick (self, 0, 4),
                     .note = toss (self) ? (char *) "behind the garage" : NULL};

  return dry_edit_set_on_hand (self->project, self->room->id, (guint) pick (self, 0, 4), &board,
                               error);
}

static DryProject *
remove_on_hand (const Maker *self, GError **error)
{
  return dry_edit_remove_on_hand (self->project, self->room->id, (guint) pick (self, 0, 3), error);
}

static DryProject *
remove_object (const Maker *self, GError **error)
{
  return dry_edit_remove (self->project, self->room->id, pick_object (self), error);
}

static DryProject *
duplicate (const Maker *self, GError **error)
{
  if (is_full (self))
    return refuse (error);
  return dry_edit_duplicate (self->project, self->room->id, pick_object (self), NULL, error);
}

/* --- walls --- */

static DryProject *
set_wall (const Maker *self, GError **error)
{
  DryWall wall = *pick_wall (self);
  DryLength studs[3] = {8 * DRY_INCH, 20 * DRY_INCH, 35 * DRY_INCH};

  wall.name = toss (self) ? (char *) "Wand" : NULL;
  wall.stud_spacing = toss (self) ? 16 * DRY_INCH : 24 * DRY_INCH;
  wall.first_stud = pick_length (self, 1, 16);
  wall.found_studs = toss (self) ? studs : NULL;
  wall.n_found_studs = wall.found_studs != NULL ? (guint) pick (self, 1, 4) : 0;
  wall.bearing = toss (self);
  wall.plane_error = pick_length (self, 0, 1);
  return dry_edit_set_wall (self->project, self->room->id, &wall, NULL, error);
}

static DryProject *
add_wall (const Maker *self, GError **error)
{
  DryWall wall = self->room->walls[0];

  if (is_full (self))
    return refuse (error);
  wall.id = 0;
  wall.name = NULL;
  wall.added = TRUE;
  wall.found_studs = NULL;
  wall.n_found_studs = 0;
  wall.height = toss (self) ? 0 : pick_length (self, 20, 60);
  wall.start = (DryPoint){pick_length (self, 0, 60), pick_length (self, 0, 60)};
  wall.end = toss (self) ? (DryPoint){wall.start.x, pick_length (self, 0, 90)}
                         : (DryPoint){pick_length (self, 0, 60), wall.start.y};
  return dry_edit_set_wall (self->project, self->room->id, &wall, NULL, error);
}

static DryProject *
set_outline (const Maker *self, GError **error)
{
  DryLength width = pick_length (self, 50, 120), depth = pick_length (self, 60, 144);
  const DryPoint corners[] = {
      {0, depth}, {width, depth}, {width, 0}, {width / 2, toss (self) ? 0 : DRY_INCH}, {0, 0}};

  return dry_edit_set_outline (self->project, self->room->id, corners, G_N_ELEMENTS (corners),
                               error);
}

static DryProject *
move_corner (const Maker *self, GError **error)
{
  const DryWall *wall = &self->room->walls[pick (self, 0, (gint) self->room->n_outline)];
  DryPoint to = {wall->start.x + (DryLength) pick (self, -64, 65) * (DRY_INCH / 16),
                 wall->start.y + (DryLength) pick (self, -64, 65) * (DRY_INCH / 16)};

  return dry_edit_move_corner (self->project, self->room->id, wall->id, to, error);
}

static DryProject *
insert_corner (const Maker *self, GError **error)
{
  if (self->room->n_outline > 10)
    return refuse (error);
  return dry_edit_insert_corner (self->project, self->room->id, pick_wall (self)->id,
                                 pick_length (self, 1, 60), NULL, error);
}

static DryProject *
set_wall_length (const Maker *self, GError **error)
{
  return dry_edit_set_wall_length (self->project, self->room->id, pick_wall (self)->id,
                                   pick_length (self, 30, 120), error);
}

static DryProject *
set_widths (const Maker *self, GError **error)
{
  DryLength back = pick_length (self, 30, 120);

  return dry_edit_set_widths (self->project, self->room->id, pick_wall (self)->id, back,
                              back + pick_length (self, -2, 2), back + pick_length (self, -3, 3),
                              error);
}

static DryProject *
move_wall (const Maker *self, GError **error)
{
  return dry_edit_move_wall (self->project, self->room->id, pick_wall (self)->id,
                             pick_length (self, -6, 6), error);
}

/* --- alternates --- */

static DryId
pick_alternate (const Maker *self)
{
  guint n = dry_project_get_n_alternates (self->project);

  if (n == 0)
    return 0;
  return dry_alternate_get_id (
      dry_project_get_alternate_at (self->project, (guint) pick (self, 0, (gint) n)));
}

static DryProject *
add_alternate (const Maker *self, GError **error)
{
  if (dry_project_get_n_alternates (self->project) >= 3)
    return refuse (error);
  return dry_edit_add_alternate (self->project, "Other", toss (self) ? "a note" : NULL, NULL,
                                 error);
}

static DryProject *
rename_alternate (const Maker *self, GError **error)
{
  return dry_edit_rename_alternate (self->project, pick_alternate (self),
                                    toss (self) ? "Bench" : "", NULL, error);
}

static DryProject *
remove_alternate (const Maker *self, GError **error)
{
  return dry_edit_remove_alternate (self->project, pick_alternate (self), error);
}

static DryProject *
choose_alternate (const Maker *self, GError **error)
{
  return dry_edit_choose_alternate (self->project, pick_alternate (self), "Former", error);
}

typedef DryProject *(*Make) (const Maker *self, GError **error);

/* An edit of the project as it would be in an alternate, put back into it. */
static DryProject *
set_alternate (const Maker *self, GError **error)
{
  static const Make makes[] = {set_basin, set_finish, add_part, move_part, set_wall, remove_object};
  DryId id = pick_alternate (self);
  g_autoptr (DryProject) resolved = id != 0 ? dry_project_resolve (self->project, id) : NULL;
  g_autoptr (DryProject) changed = NULL;
  Maker inner = *self;

  if (resolved == NULL)
    return refuse (error);
  inner.project = resolved;
  inner.room = dry_project_get_room_at (
      resolved, (guint) pick (self, 0, (gint) dry_project_get_n_rooms (resolved)));
  changed = makes[pick (self, 0, G_N_ELEMENTS (makes))](&inner, error);
  return changed != NULL ? dry_edit_set_alternate (self->project, id, changed, error) : NULL;
}

/* --- the table --- */

static const struct {
  const char *name;
  Make make;
} edits[] = {
    {"dry_edit_set_job", set_job},
    {"dry_edit_set_room", set_room},
    {"dry_edit_set_room (new)", add_room},
    {"dry_edit_remove_room", remove_room},
    {"dry_edit_set_basin", set_basin},
    {"dry_edit_set_wet_zone", set_wet_zone},
    {"dry_edit_set_finish", set_finish},
    {"dry_edit_set_part (new)", add_part},
    {"dry_edit_set_part", set_part},
    {"dry_edit_set_opening", set_opening},
    {"dry_edit_set_seam", set_seam},
    {"dry_edit_clear_seams", clear_seams},
    {"dry_edit_set_on_hand", set_on_hand},
    {"dry_edit_remove_on_hand", remove_on_hand},
    {"dry_edit_set_wall", set_wall},
    {"dry_edit_set_wall (new)", add_wall},
    {"dry_edit_remove", remove_object},
    {"dry_edit_duplicate", duplicate},
    {"dry_edit_set_outline", set_outline},
    {"dry_edit_move_corner", move_corner},
    {"dry_edit_insert_corner", insert_corner},
    {"dry_edit_set_wall_length", set_wall_length},
    {"dry_edit_set_widths", set_widths},
    {"dry_edit_move_wall", move_wall},
    {"dry_edit_move_part", move_part},
    {"dry_edit_move_basin", move_basin},
    {"dry_edit_add_alternate", add_alternate},
    {"dry_edit_rename_alternate", rename_alternate},
    {"dry_edit_remove_alternate", remove_alternate},
    {"dry_edit_set_alternate", set_alternate},
    {"dry_edit_choose_alternate", choose_alternate},
};

guint
dry_test_n_edits (void)
{
  return G_N_ELEMENTS (edits);
}

const char *
dry_test_edit_name (guint kind)
{
  return edits[kind].name;
}

DryProject *
dry_test_edit (GRand *random, const DryProject *project, guint *kind, GError **error)
{
  Maker self = {random, project, NULL};

  self.room = dry_project_get_room_at (
      project, (guint) pick (&self, 0, (gint) dry_project_get_n_rooms (project)));
  *kind = (guint) pick (&self, 0, G_N_ELEMENTS (edits));
  return edits[*kind].make (&self, error);
}
