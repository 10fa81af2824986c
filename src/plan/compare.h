/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several ways to build the same, side by side: what each costs, takes and risks, and in plain
 * words what is different from the first and why. Each is the same as planned alone; plans of rooms
 * that are shared are made once. */
#pragma once

#include "plan/cost.h"
#include "project/alternate.h"
#include "project/edit.h"

/* A step that comes out well or ill by the hand that does it. */
typedef struct {
  const char *step, *why;
} DrySkillStep;

/* What a difference is about: what a client sees and decides, or what only the crew does. */
typedef enum {
  DRY_ABOUT_DESIGN,   /* system, tile, tub or pan, parts, walls */
  DRY_ABOUT_WORKSHOP, /* sheets, cuts, seams, blocks, hours */
  DRY_ABOUT_MONEY,
  DRY_ABOUT_TIME,
  DRY_ABOUT_BODY, /* weight, thickness */
  DRY_ABOUT_RISK, /* findings, steps that want a practiced hand */
} DryAbout;

/* How one difference weighs: words only, or a count or sum besides. */
typedef struct {
  DryAbout about;
  const char *text; /* "1 sheet fewer", "18.00 more", "ready Tue 2026-12-15, 3 days sooner" */
  const char *why;  /* "0.65 h/m2 instead of 0.98 h/m2"; NULL where it says it itself */
} DryDifference;

typedef struct {
  DryId id; /* of the alternate; 0 = the project itself */
  const char *name, *note;
  const DryPlan *const *plans; /* held */
  guint n_plans;
  const DrySchedule *schedule; /* owned, as the cost */
  const DryCost *cost;
  gint64 days_to_tile, days_to_shower; /* calendar days, the first counted; 0 = not known */
  double hours;
  guint sheets, boards, cuts, blocks, screws;
  guint seams;           /* runs of seam between boards */
  DryLength seam_length; /* of them */
  double weight;         /* kg on the wet walls: board, film, mortar, tile, grout */
  gboolean weight_whole; /* FALSE: the tile's mass is not known and not in it */
  DryLength thickness;   /* from stud to tile, the thickest room */
  guint findings[3];     /* by severity */
  const DrySkillStep *skill;
  guint n_skill;
  const DryDifference *differences; /* from the first; none for the first itself */
  guint n_differences;
} DryOption;

typedef struct {
  DryArena *arena;    /* owned */
  DryOption *options; /* the project first, then its alternates in order */
  guint n;
} DryComparison;

/* `room` 0: all rooms together. `systems`: ids of backer systems, NULL-ended, each compared too as
 * if it were an alternate; NULL for none. `effort`: as in dry_plan_new_searched(), for each room; 0
 * for live use. `book` must live as long, as must nothing else. Errors:
 * as dry_plan_new() and dry_schedule_new(), with the alternate's name before. */
DryComparison *dry_comparison_new (const DryProject *project, DryId room, const DryCatalog *catalog,
                                   const DryPriceBook *book, const char *start,
                                   const char *const *systems, guint64 effort,
                                   GCancellable *cancellable,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* What is different in `now` from `was`, which may be of another comparison; texts live in `arena`,
 * the list is the caller's: g_array_unref() it. */
GArray *dry_option_list_differences (const DryOption *now, const DryOption *was,
                                     DryArena *arena) G_GNUC_WARN_UNUSED_RESULT;
void dry_comparison_free (DryComparison *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryComparison, dry_comparison_free)
void dry_comparison_write_json (const DryComparison *self, DryJsonWriter *writer, const char *key);
