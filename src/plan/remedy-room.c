/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies that change a wall, an opening, the basin, the wet zone or the finish.
 * Each is one edit of the document, or a short chain of them. */
#include <string.h>

#include "plan/remedy-private.h"

static DryProject *
refuse (GError **error, const char *why)
{
  g_set_error_literal (error, DRY_ERROR, DRY_ERROR_GEOMETRY, why);
  return NULL;
}

/* --- walls --- */

static DryProject *
set_wall (const DryRemedyWork *work, const DryWall *wall, GError **error)
{
  return dry_edit_set_wall (work->project, work->room->id, wall, NULL, error);
}

/* Adds studs evenly between found ones that stand too far apart, the wall's ends included. */
static GArray *
fill_bays (const DryRemedyWork *work, DryLength most)
{
  const DryWall *wall = work->wall;
  GArray *studs = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryLength last = wall->stud_width / 2, end = dry_wall_length (wall) - wall->stud_width / 2;

  for (guint i = 0; i <= wall->n_found_studs; i++) {
    DryLength next = i < wall->n_found_studs ? wall->found_studs[i] : end;
    DryLength n = (next - last + most - 1) / most;

    for (DryLength k = 1; k < n && n < 1000; k++) {
      DryLength u = last + (next - last) * k / n;
      g_array_append_val (studs, u);
    }
    if (i < wall->n_found_studs)
      g_array_append_val (studs, next);
    last = next;
  }
  return studs;
}

static DryProject *
add_closer_studs (const DryRemedyWork *work, GError **error)
{
  DryLength most = work->measuring.context->system->stud_spacing_max.value;
  DryWall wall = *work->wall; /* borrows its texts and studs */
  g_autoptr (GArray) studs = NULL;

  if (most <= wall.stud_width)
    return refuse (error, "The system gives no stud spacing");
  if (wall.n_found_studs) {
    studs = fill_bays (work, most);
    wall.found_studs = (DryLength *) (gpointer) studs->data;
    wall.n_found_studs = studs->len;
  } else {
    wall.stud_spacing = MIN (wall.stud_spacing, most);
    wall.first_stud = MIN (wall.first_stud, most);
  }
  return set_wall (work, &wall, error);
}

static DryProject *
remove_vapour_barrier (const DryRemedyWork *work, GError **error)
{
  DryWall wall = *work->wall;

  wall.vapour_barrier = FALSE;
  return set_wall (work, &wall, error);
}

static DryProject *
add_air_barrier (const DryRemedyWork *work, GError **error)
{
  DryWall wall = *work->wall;

  wall.air_barrier = TRUE;
  return set_wall (work, &wall, error);
}

/* --- openings --- */

static DryProject *
set_opening (const DryRemedyWork *work, const DryOpening *opening, GError **error)
{
  return dry_edit_set_opening (work->project, work->room->id, opening, NULL, error);
}

static DryProject *
set_safety_pane (const DryRemedyWork *work, GError **error)
{
  DryOpening opening = *work->opening;

  opening.safety_glass = TRUE;
  return set_opening (work, &opening, error);
}

static DryProject *
slope_sill (const DryRemedyWork *work, GError **error)
{
  DryOpening opening = *work->opening;

  opening.sloped_sill = TRUE;
  return set_opening (work, &opening, error);
}

static DryProject *
line_jamb (const DryRemedyWork *work, GError **error)
{
  DryOpening opening = *work->opening;

  opening.wooden_jamb = FALSE;
  return set_opening (work, &opening, error);
}

/* --- basin --- */

static DryProject *
set_basin (const DryRemedyWork *work, const DryBasin *basin, GError **error)
{
  return dry_edit_set_basin (work->project, work->room->id, basin, NULL, error);
}

/* Moves the wall at the basin's far end until the opening is the basin's length. The far end, so
 * that the basin keeps its place along its own wall. */
static DryProject *
fit_walls (const DryRemedyWork *work, GError **error)
{
  DryMeasuring measuring = work->measuring;
  const DryBasin *basin = &work->room->basin;
  guint end = basin->turned ? DRY_AT_FRONT : DRY_AT_RIGHT;
  DryInside inside;

  if (!dry_measuring_inside (&measuring, &inside) || inside.opening <= 0)
    return refuse (error, "The basin does not stand between two walls");
  if (inside.wall[end]->added)
    return refuse (error, "The wall at the basin's end was added: move it by hand");
  return dry_edit_move_wall (work->project, work->room->id, inside.wall[end]->id,
                             inside.opening - basin->length, error);
}

static DryProject *
fur_flange (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;

  basin.flange_thickness = 0;
  return set_basin (work, &basin, error);
}

static DryProject *
set_curb (const DryRemedyWork *work, GError **error)
{
  DryBasin basin = work->room->basin;
  DryLength least = 2 * DRY_INCH - basin.recess, most = 9 * DRY_INCH - basin.recess;

  if (most <= 0)
    return refuse (error, "The recess is deeper than any curb may be");
  basin.height = CLAMP (basin.height, MAX (least, DRY_INCH), most);
  return set_basin (work, &basin, error);
}

static DryProject *
take_shower_off (const DryRemedyWork *work, GError **error)
{
  DryProject *project = dry_project_ref (work->project);

  for (guint i = 0; project && i < work->room->n_parts; i++) {
    const DryPart *part = &work->room->parts[i];
    DryProject *next;

    if (part->kind != DRY_PART_SHOWER_HEAD && part->kind != DRY_PART_HAND_SHOWER)
      continue;
    next = dry_edit_remove (project, work->room->id, part->id, error);
    dry_project_unref (project);
    project = next;
  }
  return project;
}

/* --- wet zone --- */

static DryProject *
set_wet (const DryRemedyWork *work, const DryWetZone *wet, GError **error)
{
  return dry_edit_set_wet_zone (work->project, work->room->id, wet, error);
}

static DryProject *
widen_wet_zone (const DryRemedyWork *work, GError **error)
{
  DryWetZone wet = work->room->wet;

  wet.past = MAX (wet.past, 2 * DRY_INCH);
  return set_wet (work, &wet, error);
}

static DryProject *
add_leg (const DryRemedyWork *work, GError **error)
{
  DryWetZone wet = work->room->wet;

  wet.leg = TRUE;
  return set_wet (work, &wet, error);
}

/* How much higher the wet wall must be, from whatever datum the rule counts. */
static DryLength
find_shortfall (const DryRemedyWork *work)
{
  const DryMeasures *measures = work->measuring.plan->measures;

  for (guint i = 0; i < measures->n; i++) {
    const DrySubject *subject = &measures->items[i];
    const DryRule *rule = work->finding->rule;

    if (strcmp (subject->kind, rule->subject) != 0 || subject->object != work->finding->object ||
        subject->face != work->finding->face)
      continue;
    for (guint r = 0; r < rule->n_require; r++) {
      const DryMeasure *measure = dry_subject_get (subject, rule->require[r].measure);
      if (measure && rule->require[r].kind == DRY_LIMIT_LENGTH)
        return rule->require[r].length - measure->length;
    }
  }
  return 0;
}

static DryProject *
raise_wet_zone (const DryRemedyWork *work, GError **error)
{
  DryWetZone wet = work->room->wet;

  if (wet.height > 0)
    wet.height += MAX (find_shortfall (work), 0);
  if (wet.height >= work->room->ceiling)
    wet.height = 0;
  return set_wet (work, &wet, error);
}

static DryProject *
raise_to_ceiling (const DryRemedyWork *work, GError **error)
{
  DryWetZone wet = work->room->wet;

  wet.height = 0;
  return set_wet (work, &wet, error);
}

static DryProject *
leave_ceiling (const DryRemedyWork *work, GError **error)
{
  DryWetZone wet = work->room->wet;

  wet.ceiling = FALSE;
  return set_wet (work, &wet, error);
}

/* --- finish --- */

static DryProject *
set_finish (const DryRemedyWork *work, const DryFinish *finish, GError **error)
{
  return dry_edit_set_finish (work->project, work->room->id, finish, error);
}

static DryProject *
lay_at_third (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.offset = 1.0 / 3;
  return set_finish (work, &finish, error);
}

static DryProject *
widen_joint (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.joint = MAX (finish.joint, DRY_INCH / 8);
  return set_finish (work, &finish, error);
}

/* Level line, starts, whole ends and wrapped corners given up: the layout then balances every wall.
 */
static DryProject *
free_start (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;
  g_autoptr (DryProject) project = NULL;

  finish.level_set = finish.wrap = finish.whole_outer = FALSE;
  finish.level = 0;
  project = set_finish (work, &finish, error);
  for (guint i = 0; project && i < work->room->n_walls; i++) {
    DryWall wall = work->room->walls[i];
    DryProject *next;

    if (!wall.tile_set && wall.tile_ends != DRY_TILE_ENDS_WHOLE_OUTER)
      continue;
    wall.tile_set = FALSE;
    wall.tile_ends = DRY_TILE_ENDS_AS_ROOM;
    wall.tile_from = 0;
    next = dry_edit_set_wall (project, work->room->id, &wall, NULL, error);
    dry_project_unref (project);
    project = next;
  }
  return g_steal_pointer (&project);
}

static DryProject *
take_usual_board (const DryRemedyWork *work, GError **error)
{
  DryFinish finish = work->room->finish;

  finish.board = 0;
  return set_finish (work, &finish, error);
}

static DryProject *
take_flush_board (const DryRemedyWork *work, GError **error)
{
  const DrySystem *system = work->measuring.context->system;
  DryFinish finish = work->room->finish;
  DryLength best = G_MAXINT64;

  for (guint i = 0; i < system->n_thicknesses; i++) {
    DryLength step = ABS (system->thicknesses[i].value - work->wall->lining);
    if (step >= best)
      continue;
    best = step;
    finish.board = system->thicknesses[i].value;
  }
  if (best > DRY_INCH / 16)
    return refuse (error, "The system offers no board as thick as this drywall: fur the thinner "
                          "of the two");
  return set_finish (work, &finish, error);
}

const DryRemedyEntry DRY_REMEDIES_OF_ROOMS[] = {
    {"wall.closer-studs", DRY_ABOUT_WALL, add_closer_studs},
    {"wall.remove-vapour-barrier", DRY_ABOUT_WALL, remove_vapour_barrier},
    {"wall.air-barrier", DRY_ABOUT_WALL, add_air_barrier},
    {"opening.safety-glass", DRY_ABOUT_OPENING, set_safety_pane},
    {"opening.slope-sill", DRY_ABOUT_OPENING, slope_sill},
    {"opening.line-jamb", DRY_ABOUT_OPENING, line_jamb},
    {"basin.open-walls", DRY_ABOUT_ROOM, fit_walls},
    {"basin.close-walls", DRY_ABOUT_ROOM, fit_walls},
    {"basin.fur-flange", DRY_ABOUT_ROOM, fur_flange},
    {"basin.no-shower", DRY_ABOUT_ROOM, take_shower_off},
    {"pan.curb", DRY_ABOUT_ROOM, set_curb},
    {"wet.past-2in", DRY_ABOUT_ROOM, widen_wet_zone},
    {"wet.leg", DRY_ABOUT_ROOM, add_leg},
    {"wet.to-height", DRY_ABOUT_ROOM, raise_wet_zone},
    {"wet.to-ceiling", DRY_ABOUT_ROOM, raise_to_ceiling},
    {"wet.no-ceiling", DRY_ABOUT_ROOM, leave_ceiling},
    {"tile.free-start", DRY_ABOUT_ROOM, free_start},
    {"tile.offset-third", DRY_ABOUT_ROOM, lay_at_third},
    {"tile.joint-eighth", DRY_ABOUT_ROOM, widen_joint},
    {"finish.usual-board", DRY_ABOUT_ROOM, take_usual_board},
    {"finish.flush-board", DRY_ABOUT_WALL, take_flush_board},
};
const guint DRY_N_REMEDIES_OF_ROOMS = G_N_ELEMENTS (DRY_REMEDIES_OF_ROOMS);
