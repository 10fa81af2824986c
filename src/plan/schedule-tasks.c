/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tasks of one room: the order of work, then tile, grout, sealant, fittings, glass, first
 * shower, with hours from quantities and waits from the system. Knows no dates. */
#include "plan/schedule-private.h"

#include <math.h>
#include <string.h>

#include "plan/amounts.h"

/* Nobody plans the minute: tasks last whole quarters of an hour. */
#define QUARTER 15

static const DrySource practice = {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE};

/* What is done after the boards, and how long an inspector is waited for: hours in any case, for
 * each unit, and how many people help. Common practice, no source. */
static const struct {
  const char *task;
  double fixed, each;
  const char *unit;
  guint crew;
} usual[] = {
    {"set-tile", 1.0, 1.8, "m2", 2},     {"grout", 0.5, 0.35, "m2", 1},
    {"sealant", 0.25, 0.10, "m", 1},     {"seal-grout", 0.25, 0.10, "m2", 1},
    {"trim-out", 0, 0.75, "pc", 1},      {"measure-glass", 0.5, 0, "", 1},
    {"hang-glass", 0, 3.0, "pc", 2},     {"inspection", 4.0, 0, "", 1},
    {"rough-inspection", 4.0, 0, "", 1},
};

/* How many people a step of the order of work takes at most; others two. Common practice, no
 * source. */
static const struct {
  const char *step;
  guint crew;
} helping[] = {{"protect", 1}, {"basin-gap", 1}, {"flood-test", 1}, {"prime", 1}};

/* Waits no backer system tells: hours, shortest and longest. Common practice, no source. */
static const DryWait wait_sealant = {"sealant",
                                     "from grouting to sealant",
                                     24,
                                     48,
                                     {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};
static const DryWait wait_sealer = {"sealer",
                                    "from grouting to the grout sealer",
                                    48,
                                    72,
                                    {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};
static const DryWait wait_sealant_cure = {
    "sealant-cure",
    "sealant cures before water",
    24,
    48,
    {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};
static const DryWait wait_sealer_cure = {
    "sealer-cure",
    "sealer dries before water",
    24,
    24,
    {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};
static const DryWait wait_glass = {"glass",
                                   "glass is made after measuring",
                                   240,
                                   480,
                                   {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};

static const char *
number (const DryScheduling *self, double value, int decimals)
{
  return dry_number_text (self->schedule->arena, value, decimals);
}

/* --- tasks --- */

static guint
add_task (DryScheduling *self, const char *step, DryTaskKind kind, const char *text)
{
  DryArena *arena = self->schedule->arena;
  DryTask task = {.step = dry_arena_strdup (arena, step),
                  .text = dry_arena_strdup (arena, text),
                  .room = self->room,
                  .kind = kind,
                  .crew = 1};

  task.id = self->schedule->n_rooms > 1 ? dry_arena_printf (arena, "%u/%s", self->room + 1, step)
                                        : task.step;
  g_array_append_val (self->tasks, task);
  return self->tasks->len - 1;
}

static DryTask *
get_task (DryScheduling *self, guint index)
{
  return &g_array_index (self->tasks, DryTask, index);
}

/* One more link; lists are short and copied whole. */
static void
link_tasks (DryScheduling *self, guint index, guint before, DryTaskLink link)
{
  DryTask *task = get_task (self, index);
  DryTaskLink *links = dry_arena_new_array (self->schedule->arena, DryTaskLink, task->n_after + 1);

  if (task->n_after > 0)
    memcpy (links, task->after, sizeof (DryTaskLink) * task->n_after);
  link.task = before;
  links[task->n_after++] = link;
  task->after = links;
}

/* Between the shortest and the longest by temperature: shortest at 21 C and above, longest at the
 * coldest that is allowed. That it goes in a straight line is common practice, no source. */
static DryTaskLink
make_wait (DryScheduling *self, double least, double most, const char *because, DrySource source)
{
  DryArena *arena = self->schedule->arena;
  double t = self->schedule->temperature;
  double share = CLAMP ((DRY_WARM - t) / (DRY_WARM - DRY_COLDEST), 0, 1);
  double hours = least + (most - least) * share;
  const char *formula = most > least
                            ? dry_arena_printf (arena, "%s h + (%s h - %s h) x %s = %s h at %s C",
                                                number (self, least, 2), number (self, most, 2),
                                                number (self, least, 2), number (self, share, 3),
                                                number (self, hours, 2), number (self, t, 1))
                            : dry_arena_printf (arena, "%s h", number (self, least, 2));

  return (DryTaskLink){
      .wait = (gint64) ceil (hours * 60 - 1e-6),
      .longest = (gint64) ceil (most * 60 - 1e-6),
      .because = dry_arena_strdup (arena, because),
      .working = dry_working_new (arena, source, formula, "shortest, at 21 C and warmer",
                                  dry_arena_printf (arena, "%s h", number (self, least, 2)),
                                  "longest, at 10 C",
                                  dry_arena_printf (arena, "%s h", number (self, most, 2)), NULL)};
}

static DryTaskLink
wait_for (DryScheduling *self, const DryWait *wait)
{
  return wait ? make_wait (self, wait->hours_min, MAX (wait->hours_min, wait->hours_max),
                           wait->name, wait->source)
              : (DryTaskLink){0};
}

/* Large tile, with an edge of 15 in (ANSI A108.02), dries through its joints alone: it is grouted
 * after the longest of the system's hours. What the rule of that name asks is common practice. */
#define LARGE_FROM (15 * DRY_INCH)

static DryTaskLink
wait_for_grout (DryScheduling *self, const DryFinish *finish, const DryWait *wait)
{
  double most = wait ? MAX (wait->hours_min, wait->hours_max) : 0;

  if (!wait || MAX (finish->tile_width, finish->tile_height) < LARGE_FROM)
    return wait_for (self, wait);
  return make_wait (self, most, most, "large tile dries before grouting", wait->source);
}

/* Hours to minutes of the calendar with as many people as there are and as help. */
static void
set_hours (DryScheduling *self, guint index, double hours, guint helps, DryWorking working)
{
  const DryTaskRate *rate = dry_price_book_get_task (self->book, get_task (self, index)->step);
  DryTask *task = get_task (self, index);

  if (rate && rate->crew > 0)
    helps = (guint) rate->crew;
  task->hours = hours;
  task->crew = MAX (1, MIN (self->schedule->crew, helps));
  task->minutes = (gint64) ceil (hours * 60 / task->crew / QUARTER - 1e-6) * QUARTER;
  task->working = working;
}

/* `amount` units at the usual hours or the price book's. */
static void
set_usual_hours (DryScheduling *self, guint index, double amount)
{
  DryArena *arena = self->schedule->arena;
  const char *step = get_task (self, index)->step;
  const DryTaskRate *rate = dry_price_book_get_task (self->book, step);
  guint at = 0;

  while (!g_str_equal (usual[at].task, step))
    at++;
  double fixed = rate && rate->fixed >= 0 ? rate->fixed : usual[at].fixed;
  double each = rate && rate->each >= 0 ? rate->each : usual[at].each;
  double hours = fixed + each * amount;
  gboolean own = rate && (rate->fixed >= 0 || rate->each >= 0);
  const char *formula =
      each > 0 ? dry_arena_printf (arena, "%s h + %s %s x %s h = %s h", number (self, fixed, 2),
                                   number (self, amount, 2), usual[at].unit, number (self, each, 2),
                                   number (self, hours, 2))
               : dry_arena_printf (arena, "%s h", number (self, fixed, 2));

  set_hours (self, index, hours, usual[at].crew,
             dry_working_new (arena, own ? rate->source : practice, formula, NULL));
}

/* --- the order of work --- */

static guint
helpers_of (const char *step)
{
  for (guint i = 0; i < G_N_ELEMENTS (helping); i++)
    if (g_str_equal (helping[i].step, step))
      return helping[i].crew;
  return g_str_has_prefix (step, "coat-") ? 1 : 2;
}

/* What a step works on, m2: the wet wall, or the floor that is made on site. */
static double
area_of_step (const DryPlan *plan, const char *id)
{
  return g_str_has_prefix (id, "floor-") ? plan->floor->area : plan->coating->wet_area;
}

/* The price book may say how long a step takes, for each square meter. */
static void
set_step_hours (DryScheduling *self, guint index, const DryStep *step)
{
  const DryTaskRate *rate = dry_price_book_get_task (self->book, step->id);
  double hours = step->hours, area = area_of_step (self->plan, step->id);
  DryWorking working = step->working;

  if (rate && (rate->fixed >= 0 || rate->each >= 0)) {
    hours = MAX (rate->fixed, 0) + MAX (rate->each, 0) * area;
    working = dry_working_new (
        self->schedule->arena, rate->source,
        dry_arena_printf (self->schedule->arena, "%s h + %s m2 x %s h = %s h",
                          number (self, MAX (rate->fixed, 0), 2), number (self, area, 2),
                          number (self, MAX (rate->each, 0), 2), number (self, hours, 2)),
        NULL);
  }
  set_hours (self, index, hours, helpers_of (step->id), working);
}

/* Water stands as long as is the custom, whatever the air's temperature. */
static guint
add_flood_test (DryScheduling *self, const DryStep *step, guint last, DryTaskLink link)
{
  guint fill = add_task (self, step->id, DRY_TASK_WORK, step->text), stand;

  set_step_hours (self, fill, step);
  link_tasks (self, fill, last, link);
  stand = add_task (self, "flood-standing", DRY_TASK_HOLD,
                    "Water stands; nothing goes on before it has held.");
  get_task (self, stand)->minutes = (gint64) ceil (step->wait_max * 60 - 1e-6);
  get_task (self, stand)->standing = TRUE;
  get_task (self, stand)->working = step->working;
  link_tasks (self, stand, fill, (DryTaskLink){0});
  return stand;
}

static guint
add_step (DryScheduling *self, const DryStep *step, gint last, DryTaskLink link)
{
  guint index;

  if (step->hold && step->hours > 0)
    return add_flood_test (self, step, (guint) last, link);
  index = add_task (self, step->id,
                    g_str_equal (step->id, "tile") ? DRY_TASK_MILESTONE
                    : step->hold                   ? DRY_TASK_HOLD
                                                   : DRY_TASK_WORK,
                    step->text);
  if (step->hold)
    set_usual_hours (self, index, 0);
  else
    set_step_hours (self, index, step);
  if (step->hold)
    get_task (self, index)->hours = 0; /* the inspector's, not the crew's */
  if (last >= 0)
    link_tasks (self, index, (guint) last, link);
  return index;
}

/* The index of the milestone "tile", or -1 where nothing is boarded. */
static gint
add_order (DryScheduling *self)
{
  const DryOrder *order = self->plan->order;
  DryTaskLink link = {0};
  gint last = -1;

  for (guint i = 0; i < order->n; i++) {
    const DryStep *step = &order->items[i];
    last = (gint) add_step (self, step, last, link);
    link = step->wait_max > 0 && !step->hold ? make_wait (self, step->wait_min, step->wait_max,
                                                          step->wait->name, step->wait->source)
                                             : (DryTaskLink){0};
  }
  return last;
}

/* --- after the order of work --- */

static double
tiled_area (const DryPlan *plan)
{
  return plan->context.system->n_sheets ? plan->coating->board_area : plan->coating->wet_area;
}

/* Inside corners and the line at tub or pan, m. */
static double
sealant_length (const DryJoints *joints)
{
  return dry_length_to_mm (joints->total[DRY_JOINT_INSIDE_CORNER] +
                           joints->total[DRY_JOINT_BASIN]) /
         1000;
}

static guint
count_parts (const DryRoom *room, gboolean glass)
{
  guint n = 0;

  for (guint i = 0; i < room->n_parts; i++) {
    DryPartKind kind = room->parts[i].kind;
    gboolean fitting = kind == DRY_PART_VALVE || kind == DRY_PART_SPOUT ||
                       kind == DRY_PART_SHOWER_HEAD || kind == DRY_PART_HAND_SHOWER ||
                       kind == DRY_PART_GRAB_BAR;
    n += glass ? kind == DRY_PART_GLASS : fitting;
  }
  return n;
}

/* Cement grout is sealed; epoxy is not. */
static gboolean
is_sealed (const DryRoom *room)
{
  return room->finish.mortar_kind != DRY_MORTAR_EPOXY;
}

static guint
add_after (DryScheduling *self, const char *step, const char *text, double amount, guint last,
           DryTaskLink link)
{
  guint index = add_task (self, step, DRY_TASK_WORK, text);

  set_usual_hours (self, index, amount);
  link_tasks (self, index, last, link);
  return index;
}

static void
add_finish (DryScheduling *self, guint tile)
{
  const DryPlan *plan = self->plan;
  const DryRoom *room = plan->context.room;
  const DrySystem *system = plan->context.system;
  double area = tiled_area (plan) + plan->floor->area, length = sealant_length (plan->joints);
  guint fittings = count_parts (room, FALSE), panes = count_parts (room, TRUE);
  guint set, grout, shower, at;

  set = add_after (self, "set-tile",
                   "Set the tile, from the datum outward, sealant joints left open.", area, tile,
                   (DryTaskLink){0});
  grout = add_after (self, "grout",
                     "Grout, inside corners and the line at the tub or pan left open.", area, set,
                     wait_for_grout (self, &room->finish, dry_system_get_wait (system, "grout")));
  shower = add_task (self, "shower", DRY_TASK_MILESTONE, "First shower.");
  link_tasks (self, shower, grout, wait_for (self, dry_system_get_wait (system, "shower")));
  if (length > 0) {
    at = add_after (self, "sealant", "Sealant into inside corners and along the tub or pan.",
                    length, grout, wait_for (self, &wait_sealant));
    link_tasks (self, shower, at, wait_for (self, &wait_sealant_cure));
  }
  if (is_sealed (room)) {
    at = add_after (self, "seal-grout", "Seal the grout.", area, grout,
                    wait_for (self, &wait_sealer));
    link_tasks (self, shower, at, wait_for (self, &wait_sealer_cure));
  }
  if (fittings > 0) {
    at = add_after (self, "trim-out", "Fit trim, spout, heads and bars over sealed holes.",
                    fittings, grout, wait_for (self, &wait_sealant));
    link_tasks (self, shower, at, (DryTaskLink){0});
  }
  if (panes > 0) {
    at = add_after (self, "measure-glass", "Measure for glass, each opening at three heights.", 0,
                    grout, (DryTaskLink){0});
    at = add_after (self, "hang-glass", "Hang the glass; sealant outside only.", panes, at,
                    wait_for (self, &wait_glass));
    link_tasks (self, shower, at, wait_for (self, &wait_sealant_cure));
  }
}

void
dry_schedule_add_room (DryScheduling *self)
{
  gint tile = add_order (self);

  if (tile < 0)
    self->schedule->missing = "no wet wall is planned yet";
  else if (!self->plan->context.room->finish.tiled)
    self->schedule->missing = "no tile is chosen yet";
  else
    add_finish (self, (guint) tile);
}
