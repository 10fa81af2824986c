/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans, schedules and prices every alternate, and measures each the same way. A room that several
 * share is planned once. It tells no differences: compare-words.c does. */
#include "plan/compare.h"

#include <string.h>

#include "plan/amounts.h"
#include "plan/compare-private.h"

typedef struct {
  DryComparison *comparison;
  const DryCatalog *catalog;
  const DryPriceBook *book;
  const char *start;
  DryId room;
  guint64 effort;
  GCancellable *cancellable;
  GArray *options;   /* DryOption */
  GHashTable *known; /* DryRoom -> DryPlan: the same room value gives the same plan */
} Comparing;

/* --- measuring --- */

static void
count_plan (DryOption *self, const DryPlan *plan)
{
  const DryCutting *cutting = plan->boards->cutting;

  self->boards += plan->boards->n;
  self->blocks += plan->boards->n_blocking;
  for (guint i = 0; i < plan->framing->n; i++)
    self->blocks += plan->framing->items[i].added;
  self->screws += plan->fasteners->n;
  self->sheets += cutting->n_bought;
  for (guint i = 0; i < cutting->n_sheets; i++)
    self->cuts += cutting->sheets[i].n_cuts;
  self->seams += plan->boards->n_seams;
  self->seam_length += plan->joints->total[DRY_JOINT_SEAM];
  self->thickness = MAX (self->thickness, plan->context.build_up.total);
  for (guint i = 0; i < 3; i++)
    self->findings[i] += plan->findings->count[i];
}

/* Board or bed, what comes in kilograms (mortar, grout), the film at a litre a kilogram, tile by
 * its mass a square meter. */
static void
weigh_plan (DryOption *self, const DryPlan *plan)
{
  const DryPlanContext *context = &plan->context;
  const DryFinish *finish = &context->room->finish;
  const DryItem *tile = finish->tile ? dry_catalog_get_item (context->catalog, finish->tile) : NULL;
  double area = context->system->n_sheets ? plan->coating->board_area : plan->coating->wet_area;

  self->weight += plan->takeoff->mass;
  for (guint i = 0; i < plan->takeoff->n; i++) {
    const DryTakeoffLine *line = &plan->takeoff->lines[i];
    if (g_strcmp0 (line->group, "floor") == 0) /* lies, does not hang */
      continue;
    if (g_strcmp0 (line->unit, "kg") == 0 ||
        (g_strcmp0 (line->unit, "L") == 0 && g_strcmp0 (line->group, "membrane") == 0))
      self->weight += line->amount;
  }
  if (!finish->tiled)
    return;
  if (tile && tile->tile_mass > 0)
    self->weight += tile->tile_mass * area;
  else
    self->weight_whole = FALSE;
}

static void
measure (DryOption *self, DryArena *arena)
{
  self->weight_whole = TRUE;
  for (guint i = 0; i < self->n_plans; i++) {
    count_plan (self, self->plans[i]);
    weigh_plan (self, self->plans[i]);
  }
  self->hours = self->schedule->hours;
  if (self->schedule->tile_start >= 0)
    self->days_to_tile = dry_schedule_count_days (self->schedule, self->schedule->tile_start);
  if (self->schedule->shower >= 0)
    self->days_to_shower = dry_schedule_count_days (self->schedule, self->schedule->shower);
  dry_option_find_skill (self, arena);
}

/* --- planning --- */

static DryPlan *
plan_room (Comparing *self, const DryProject *project, const DryRoom *room, GError **error)
{
  DryPlan *plan = g_hash_table_lookup (self->known, room);

  if (plan)
    return dry_plan_ref (plan);
  plan = dry_plan_new_searched (project, room->id, self->catalog, self->effort, self->cancellable,
                                error);
  if (plan)
    g_hash_table_insert (self->known, (gpointer) room, dry_plan_ref (plan));
  return plan;
}

/* Plans are held by the array until the option is freed; `plans` grows as they are made. */
static gboolean
plan_rooms (Comparing *self, DryOption *option, const DryProject *project, GError **error)
{
  guint n = dry_project_get_n_rooms (project);
  const DryPlan **plans = dry_arena_new_array (self->comparison->arena, const DryPlan *, n);

  option->plans = plans;
  for (guint i = 0; i < n; i++) {
    const DryRoom *room = dry_project_get_room_at (project, i);
    DryPlan *plan;
    if (self->room != 0 && room->id != self->room)
      continue;
    plan = plan_room (self, project, room, error);
    if (!plan)
      return FALSE;
    plans[option->n_plans++] = plan;
  }
  if (option->n_plans == 0)
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "There is no room %u in this project",
                 self->room);
  return option->n_plans > 0;
}

static gboolean
add_option (Comparing *self, DryId id, const char *name, const char *note,
            const DryProject *project, GError **error)
{
  DryArena *arena = self->comparison->arena;
  DryOption option = {
      .id = id, .name = dry_arena_strdup (arena, name), .note = dry_arena_strdup (arena, note)};
  gboolean good = plan_rooms (self, &option, project, error);

  if (good) {
    option.schedule =
        dry_schedule_new (option.plans, option.n_plans, self->book, self->start, error);
    good = option.schedule != NULL;
  }
  if (good) {
    option.cost = dry_cost_new (option.plans, option.n_plans, option.schedule, self->book);
    measure (&option, arena);
  } else
    g_prefix_error (error, "%s: ", name);
  g_array_append_val (self->options, option);
  return good;
}

/* The project with another backer system in the rooms compared; board and sheet as it has them. */
static DryProject *
change_system (const Comparing *self, const DryProject *project, const char *system, GError **error)
{
  DryProject *changed = dry_project_ref (project);

  for (guint i = 0; i < dry_project_get_n_rooms (project) && changed; i++) {
    const DryRoom *room = dry_project_get_room_at (project, i);
    DryFinish finish = room->finish;
    DryProject *next;
    if ((self->room != 0 && room->id != self->room) || g_strcmp0 (finish.system, system) == 0)
      continue;
    finish.system = (char *) system;
    finish.sheet = NULL;
    finish.board = 0;
    next = dry_edit_set_finish (changed, room->id, &finish, error);
    dry_project_unref (changed);
    changed = next;
  }
  return changed;
}

static gboolean
add_alternates (Comparing *self, const DryProject *project, GError **error)
{
  for (guint i = 0; i < dry_project_get_n_alternates (project); i++) {
    const DryAlternate *alternate = dry_project_get_alternate_at (project, i);
    g_autoptr (DryProject) resolved =
        dry_project_resolve (project, dry_alternate_get_id (alternate));
    if (!add_option (self, dry_alternate_get_id (alternate), dry_alternate_get_name (alternate),
                     dry_alternate_get_note (alternate), resolved, error))
      return FALSE;
  }
  return TRUE;
}

static gboolean
add_systems (Comparing *self, const DryProject *project, const char *const *systems, GError **error)
{
  for (guint i = 0; systems && systems[i]; i++) {
    const DrySystem *system = dry_catalog_get_system (self->catalog, systems[i]);
    g_autoptr (DryProject) changed = NULL;
    if (!system) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
                   "The catalogue holds no backer system “%s”", systems[i]);
      return FALSE;
    }
    changed = change_system (self, project, system->id, error);
    if (!changed || !add_option (self, 0, system->name, NULL, changed, error))
      return FALSE;
  }
  return TRUE;
}

DryComparison *
dry_comparison_new (const DryProject *project, DryId room, const DryCatalog *catalog,
                    const DryPriceBook *book, const char *start, const char *const *systems,
                    guint64 effort, GCancellable *cancellable, GError **error)
{
  DryComparison *self = g_new0 (DryComparison, 1);
  Comparing comparing = {.comparison = self,
                         .catalog = catalog,
                         .book = book,
                         .start = start,
                         .room = room,
                         .effort = effort,
                         .cancellable = cancellable,
                         .options = g_array_new (FALSE, TRUE, sizeof (DryOption))};
  gboolean good;

  self->arena = dry_arena_new ();
  comparing.known = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) dry_plan_unref);
  good = add_option (&comparing, 0, "As planned", NULL, project, error) &&
         add_alternates (&comparing, project, error) &&
         add_systems (&comparing, project, systems, error);
  g_hash_table_unref (comparing.known);
  self->n = comparing.options->len;
  self->options = dry_arena_take_array (self->arena, comparing.options);
  for (guint i = 1; good && i < self->n; i++)
    dry_option_tell_differences (&self->options[i], &self->options[0], self->arena);
  if (good)
    return self;
  dry_comparison_free (self);
  return NULL;
}

void
dry_comparison_free (DryComparison *self)
{
  if (!self)
    return;
  for (guint i = 0; i < self->n; i++) {
    DryOption *option = &self->options[i];
    dry_cost_free ((DryCost *) option->cost);
    dry_schedule_free ((DrySchedule *) option->schedule);
    for (guint j = 0; j < option->n_plans; j++)
      dry_plan_unref ((DryPlan *) option->plans[j]);
  }
  dry_arena_unref (self->arena);
  g_free (self);
}
