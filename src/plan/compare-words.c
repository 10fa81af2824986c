/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is different in plain words, what for, and which steps want a practiced hand. Counts and
 * sums are the options' own; it reckons only differences. */
#include <math.h>
#include <string.h>

#include "plan/amounts.h"
#include "plan/compare-private.h"

/* --- skill --- */

/* Steps whose result hangs on the hand, by the beginning of their id. Common practice, no source.
 */
static const struct {
  const char *step, *why;
} skilled[] = {
    {"coat-", "the film must come out thick enough, everywhere"},
    {"float-coat", "the wall is only as plumb and flat as it is floated"},
    {"scratch-coat", "the mortar must be worked into the lath"},
    {"sheet-membrane", "every lap and corner must be fully bedded"},
    {"prime", "a board that still drinks starves the coat"},
    {"floor-bed", "a low spot in the floor is found by the first water"},
};

static void
add_skill (GArray *steps, const char *step, const char *why)
{
  DrySkillStep skill = {step, why};

  for (guint i = 0; i < steps->len; i++)
    if (g_str_equal (g_array_index (steps, DrySkillStep, i).step, step))
      return;
  g_array_append_val (steps, skill);
}

void
dry_option_find_skill (DryOption *self, DryArena *arena)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (DrySkillStep));

  for (guint i = 0; i < self->schedule->n; i++)
    for (guint j = 0; j < G_N_ELEMENTS (skilled); j++)
      if (g_str_has_prefix (self->schedule->tasks[i].step, skilled[j].step))
        add_skill (steps, self->schedule->tasks[i].step, skilled[j].why);
  for (guint i = 0; i < self->n_plans; i++) {
    const DryTreatment *seam = &self->plans[i]->context.system->treatments[DRY_JOINT_SEAM];
    /* Common practice, no source. */
    if (seam->kind == DRY_TREAT_BEAD && self->plans[i]->joints->total[DRY_JOINT_SEAM] > 0)
      add_skill (steps, "joints", "an unbroken bead in every seam is the whole waterproofing");
  }
  self->n_skill = steps->len;
  self->skill = dry_arena_take_array (arena, steps);
}

/* --- differences --- */

typedef struct {
  DryArena *arena;
  const DryOption *option, *base;
  GArray *list;   /* DryDifference */
  DryAbout about; /* of what is told next */
} Telling;

static void
tell (Telling *self, const char *text, const char *why)
{
  DryDifference difference = {self->about, text, why};

  g_array_append_val (self->list, difference);
}

static const char *
number (const Telling *self, double value, int decimals)
{
  return dry_number_text (self->arena, value, decimals);
}

static void
tell_count (Telling *self, guint now, guint was, const char *one, const char *many, const char *why)
{
  guint by = now > was ? now - was : was - now;

  if (by > 0)
    tell (self,
          dry_arena_printf (self->arena, "%u %s %s", by, by == 1 ? one : many,
                            now > was ? "more" : "fewer"),
          why);
}

static const char *
name_of_tile (const DryPlan *plan)
{
  const DryFinish *finish = &plan->context.room->finish;
  const DryItem *item =
      finish->tile ? dry_catalog_get_item (plan->context.catalog, finish->tile) : NULL;

  if (!finish->tiled)
    return "no tile";
  return item ? item->name
              : dry_arena_printf (plan->context.arena, "tile %s x %s",
                                  dry_context_length (&plan->context, finish->tile_width),
                                  dry_context_length (&plan->context, finish->tile_height));
}

static void
tell_finish (Telling *self, const DryPlan *now, const DryPlan *was)
{
  const DryFinish *a = &now->context.room->finish, *b = &was->context.room->finish;

  if (g_strcmp0 (a->system, b->system) != 0)
    tell (self,
          dry_arena_printf (self->arena, "%s instead of %s", now->context.system->name,
                            was->context.system->name),
          now->context.system->for_it);
  if (g_strcmp0 (a->tile, b->tile) != 0 || a->tiled != b->tiled || a->tile_width != b->tile_width ||
      a->tile_height != b->tile_height)
    tell (
        self,
        dry_arena_printf (self->arena, "%s instead of %s", name_of_tile (now), name_of_tile (was)),
        NULL);
  if (a->pattern != b->pattern || a->offset != b->offset)
    tell (self, "tile laid in another pattern", NULL);
  if (a->joint != b->joint)
    tell (self,
          dry_arena_printf (self->arena, "tile joints %s instead of %s",
                            dry_context_length (&now->context, a->joint),
                            dry_context_length (&now->context, b->joint)),
          NULL);
  if (a->board != b->board && g_strcmp0 (a->system, b->system) == 0)
    tell (self,
          dry_arena_printf (self->arena, "board %s instead of %s",
                            dry_context_length (&now->context, now->context.build_up.board),
                            dry_context_length (&now->context, was->context.build_up.board)),
          NULL);
}

static const char *
name_of_basin (const DryPlan *plan)
{
  const DryBasin *basin = &plan->context.room->basin;

  if (!basin->id)
    return "no tub or pan";
  return dry_arena_printf (plan->context.arena, "%s %s x %s",
                           basin->kind == DRY_BASIN_TUB ? "tub" : "pan",
                           dry_context_length (&plan->context, basin->length),
                           dry_context_length (&plan->context, basin->width));
}

/* What comes of each kind of pan and drain is common practice, no source. */
static void
tell_basin (Telling *self, const DryPlan *now, const DryPlan *was)
{
  const DryBasin *a = &now->context.room->basin, *b = &was->context.room->basin;
  const char *is = name_of_basin (now), *before = name_of_basin (was);

  if (!g_str_equal (is, before))
    tell (self, dry_arena_printf (self->arena, "%s instead of %s", is, before), NULL);
  else if (a->wall != b->wall || a->along != b->along || a->away != b->away ||
           a->turned != b->turned)
    tell (self, "tub or pan in another place", NULL);
  else if (dry_basin_is_curbless (a) != dry_basin_is_curbless (b))
    tell (self, dry_basin_is_curbless (a) ? "no curb to step over" : "a curb to step over",
          dry_basin_is_curbless (a)
              ? "the floor falls to the drain from outside; it is let into the joists or built up"
              : NULL);
  else if (a->height != b->height || a->drain != b->drain)
    tell (self, "tub or pan of another height or drain end", NULL);
  if (a->id && b->id && a->site_built != b->site_built)
    tell (self,
          a->site_built ? "floor of mortar made on site instead of a ready pan"
                        : "a ready pan instead of a floor of mortar made on site",
          a->site_built ? "any size, sloped by hand; the mortar must set before the next step"
                        : "set in a day, of the sizes there are");
  if (a->linear_drain != b->linear_drain)
    tell (self,
          a->linear_drain ? "a channel drain instead of a point drain"
                          : "a point drain instead of a channel",
          a->linear_drain ? "the floor slopes one way, so that large tile can lie on it"
                          : "the floor slopes from all sides and wants small tile");
}

static const char *
name_of_part (const Telling *self, const DryPlan *plan, const DryPart *part)
{
  if (part->label)
    return part->label;
  if (part->kind != DRY_PART_NICHE)
    return dry_part_kind_name (part->kind);
  return dry_arena_printf (self->arena, "%s %s x %s", dry_part_kind_name (part->kind),
                           dry_context_length (&plan->context, part->width),
                           dry_context_length (&plan->context, part->height));
}

static void
tell_parts (Telling *self, const DryPlan *now, const DryPlan *was)
{
  const DryRoom *a = now->context.room, *b = was->context.room;

  for (guint i = 0; i < a->n_parts; i++) {
    const DryPart *part = &a->parts[i], *before = dry_room_get_part (b, part->id);
    const char *name = name_of_part (self, now, part);
    if (!before)
      tell (self, dry_arena_printf (self->arena, "with a %s", name), NULL);
    else if (before->width != part->width || before->height != part->height ||
             before->depth != part->depth)
      tell (self, dry_arena_printf (self->arena, "%s of another size", name), NULL);
    else if (before->wall != part->wall || before->side != part->side || before->u != part->u ||
             before->z != part->z)
      tell (self, dry_arena_printf (self->arena, "%s in another place", name), NULL);
  }
  for (guint i = 0; i < b->n_parts; i++)
    if (!dry_room_get_part (a, b->parts[i].id))
      tell (
          self,
          dry_arena_printf (self->arena, "without the %s", name_of_part (self, was, &b->parts[i])),
          NULL);
}

static void
tell_walls (Telling *self, const DryPlan *now, const DryPlan *was)
{
  const DryRoom *a = now->context.room, *b = was->context.room;
  gboolean moved = a->n_walls != b->n_walls;

  for (guint i = 0; i < a->n_walls && !moved; i++)
    moved = a->walls[i].id != b->walls[i].id || a->walls[i].start.x != b->walls[i].start.x ||
            a->walls[i].start.y != b->walls[i].start.y || a->walls[i].end.x != b->walls[i].end.x ||
            a->walls[i].end.y != b->walls[i].end.y;
  if (moved)
    tell (self, "walls in another place", NULL);
  if (a->wet.height != b->wet.height)
    tell (self,
          dry_arena_printf (
              self->arena, "wet wall %s",
              a->wet.height ? dry_arena_printf (self->arena, "%s high",
                                                dry_context_length (&now->context, a->wet.height))
                            : "up to the ceiling"),
          NULL);
}

/* --- money, time, risk --- */

static const char *
money_by (const Telling *self, gint64 by, const char *more, const char *less)
{
  return dry_arena_printf (self->arena, "%s %s", dry_money_text (self->arena, ABS (by)),
                           by > 0 ? more : less);
}

/* "material 120.00 less, labor 44.00 more" */
static const char *
why_money (const Telling *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < DRY_N_COST_GROUPS; i++) {
    gint64 by = self->option->cost->sum[i] - self->base->cost->sum[i];
    if (by != 0)
      g_string_append_printf (text, "%s%s %s", text->len ? ", " : "", dry_cost_group_to_text (i),
                              money_by (self, by, "more", "less"));
  }
  return dry_arena_strdup (self->arena, text->str);
}

static double
hours_of (const DryOption *option, const char *step)
{
  double hours = 0;

  for (guint i = 0; i < option->schedule->n; i++)
    if (g_str_equal (option->schedule->tasks[i].step, step))
      hours += option->schedule->tasks[i].hours;
  return hours;
}

/* The steps of one option with what they take more there than in the other. */
static void
gather_steps (const Telling *self, const DryOption *of, const DryOption *than, const char *word,
              GString *text)
{
  const DrySchedule *schedule = of->schedule;

  for (guint i = 0; i < schedule->n; i++) {
    const char *step = schedule->tasks[i].step;
    double by = hours_of (of, step) - hours_of (than, step);
    gboolean first = TRUE;
    for (guint j = 0; j < i && first; j++)
      first = !g_str_equal (schedule->tasks[j].step, step);
    if (first && by > 0.05)
      g_string_append_printf (text, "%s%s %s h %s", text->len ? ", " : "", step,
                              number (self, by, 1), word);
  }
}

static const char *
why_hours (const Telling *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  gather_steps (self, self->option, self->base, "more", text);
  gather_steps (self, self->base, self->option, "less", text);
  return text->len ? dry_arena_strdup (self->arena, text->str) : NULL;
}

/* Waits along the chain that decides the end, in hours. */
static double
waits_on_path (const DrySchedule *schedule)
{
  gint64 minutes = 0;

  for (guint k = 1; k < schedule->n_path; k++) {
    const DryTask *task = &schedule->tasks[schedule->path[k]];
    for (guint j = 0; j < task->n_after; j++)
      if (task->after[j].task == schedule->path[k - 1])
        minutes += task->after[j].wait;
  }
  return (double) minutes / 60;
}

static void
add_hours (const Telling *self, GString *text, double now, double was, const char *of)
{
  if (fabs (now - was) >= 0.05)
    g_string_append_printf (text, "%s%s h of %s instead of %s h", text->len ? ", " : "",
                            number (self, now, 1), of, number (self, was, 1));
}

/* NULL where neither differs and only free days fall otherwise. */
static const char *
why_days (const Telling *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  add_hours (self, text, waits_on_path (self->option->schedule),
             waits_on_path (self->base->schedule), "waits on the critical path");
  add_hours (self, text, self->option->hours, self->base->hours, "work");
  return text->len ? dry_arena_strdup (self->arena, text->str) : NULL;
}

static void
tell_day (Telling *self, const char *what, gint64 at, gint64 was)
{
  const DrySchedule *schedule = self->option->schedule;
  gint64 by = at / DRY_MINUTES_A_DAY - was / DRY_MINUTES_A_DAY;

  if (at < 0 || was < 0 || by == 0)
    return;
  tell (self,
        dry_arena_printf (self->arena, "%s %s, %" G_GINT64_FORMAT " day%s %s", what,
                          dry_schedule_day ((DrySchedule *) schedule, at), ABS (by),
                          ABS (by) == 1 ? "" : "s", by > 0 ? "later" : "sooner"),
        why_days (self));
}

static void
tell_time_and_money (Telling *self)
{
  const DryOption *now = self->option, *was = self->base;
  gint64 by = now->cost->total - was->cost->total;
  double hours = now->hours - was->hours;

  self->about = DRY_ABOUT_MONEY;
  if (by != 0)
    tell (self, money_by (self, by, "more", "less"), why_money (self));
  tell_count (self, now->cost->n_gaps, was->cost->n_gaps, "line without a price",
              "lines without a price", NULL);
  self->about = DRY_ABOUT_WORKSHOP;
  if (fabs (hours) >= 0.05)
    tell (self,
          dry_arena_printf (self->arena, "%s h of work %s", number (self, fabs (hours), 1),
                            hours > 0 ? "more" : "less"),
          why_hours (self));
  self->about = DRY_ABOUT_TIME;
  tell_day (self, "tiling can start", now->schedule->tile_start, was->schedule->tile_start);
  tell_day (self, "ready", now->schedule->shower, was->schedule->shower);
}

static gboolean
has_skill (const DryOption *option, const char *step)
{
  gboolean has = FALSE;

  for (guint i = 0; i < option->n_skill && !has; i++)
    has = g_str_equal (option->skill[i].step, step);
  return has;
}

/* What hangs on the hand in the first step that the other, which has fewer, does without. */
static const char *
why_skill (const Telling *self)
{
  guint i = 0;

  while (has_skill (self->base, self->option->skill[i].step))
    i++;
  return self->option->skill[i].why;
}

static void
tell_mass_and_risk (Telling *self)
{
  const DryOption *now = self->option, *was = self->base;
  double weight = now->weight - was->weight;
  DryLength thick = now->thickness - was->thickness;

  self->about = DRY_ABOUT_BODY;
  if (fabs (weight) >= 1 && now->weight_whole == was->weight_whole)
    tell (self,
          dry_arena_printf (self->arena, "%s kg %s", number (self, fabs (weight), 0),
                            weight > 0 ? "heavier" : "lighter"),
          NULL);
  if (ABS (thick) >= DRY_MM / 2)
    tell (self,
          dry_arena_printf (self->arena, "wall %s %s",
                            dry_context_length (&now->plans[0]->context, ABS (thick)),
                            thick > 0 ? "thicker" : "thinner"),
          NULL);
  self->about = DRY_ABOUT_RISK;
  tell_count (self, now->findings[DRY_SEVERITY_STOP], was->findings[DRY_SEVERITY_STOP],
              "finding that stops the work", "findings that stop the work", NULL);
  tell_count (self, now->findings[DRY_SEVERITY_FIX], was->findings[DRY_SEVERITY_FIX],
              "finding to fix before tiling", "findings to fix before tiling", NULL);
  tell_count (self, now->findings[DRY_SEVERITY_ADVICE], was->findings[DRY_SEVERITY_ADVICE],
              "piece of advice", "pieces of advice", NULL);
  tell_count (self, now->n_skill, was->n_skill, "step that wants a practiced hand",
              "steps that want a practiced hand",
              now->n_skill > was->n_skill ? why_skill (self) : NULL);
}

GArray *
dry_option_list_differences (const DryOption *now, const DryOption *was, DryArena *arena)
{
  Telling telling = {arena, now, was, g_array_new (FALSE, FALSE, sizeof (DryDifference)),
                     DRY_ABOUT_DESIGN};

  for (guint i = 0; i < MIN (now->n_plans, was->n_plans); i++) {
    if (now->plans[i] == was->plans[i])
      continue; /* the very same room */
    tell_finish (&telling, now->plans[i], was->plans[i]);
    tell_basin (&telling, now->plans[i], was->plans[i]);
    tell_walls (&telling, now->plans[i], was->plans[i]);
    tell_parts (&telling, now->plans[i], was->plans[i]);
  }
  telling.about = DRY_ABOUT_WORKSHOP;
  tell_count (&telling, now->sheets, was->sheets, "sheet", "sheets", NULL);
  tell_count (&telling, now->blocks, was->blocks, "block or stud", "blocks and studs", NULL);
  tell_count (&telling, now->cuts, was->cuts, "cut", "cuts", NULL);
  tell_count (&telling, now->seams, was->seams, "seam", "seams", NULL);
  tell_time_and_money (&telling);
  tell_mass_and_risk (&telling);
  return telling.list;
}

void
dry_option_tell_differences (DryOption *self, const DryOption *base, DryArena *arena)
{
  GArray *list = dry_option_list_differences (self, base, arena);

  self->n_differences = list->len;
  self->differences = dry_arena_take_array (arena, list);
}
