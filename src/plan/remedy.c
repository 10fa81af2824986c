/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds a remedy by name, gathers what it is about and lets it make the edit.
 * The remedies themselves are in remedy-part.c and remedy-room.c. */
#include "plan/remedy.h"

#include <string.h>

#include "plan/remedy-private.h"

static const DryRemedyEntry *
find_entry (const char *name)
{
  const struct {
    const DryRemedyEntry *entries;
    guint n;
  } tables[] = {
      {DRY_REMEDIES_OF_BOARDS, DRY_N_REMEDIES_OF_BOARDS},
      {DRY_REMEDIES_OF_ORDERS, DRY_N_REMEDIES_OF_ORDERS},
      {DRY_REMEDIES_OF_PANS, DRY_N_REMEDIES_OF_PANS},
      {DRY_REMEDIES_OF_PARTS, DRY_N_REMEDIES_OF_PARTS},
      {DRY_REMEDIES_OF_ROOMS, DRY_N_REMEDIES_OF_ROOMS},
  };

  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    for (guint k = 0; k < tables[i].n; k++)
      if (strcmp (tables[i].entries[k].name, name) == 0)
        return &tables[i].entries[k];
  return NULL;
}

gboolean
dry_remedy_is_known (const char *edit)
{
  return edit && find_entry (edit) != NULL;
}

const char *const *
dry_remedy_names (void)
{
  static const char *const NAMES[] = {"bar.to-height",
                                      "basin.close-walls",
                                      "basin.fur-flange",
                                      "basin.no-shower",
                                      "basin.open-walls",
                                      "bench.fold-down",
                                      "bench.to-depth",
                                      "bench.to-height",
                                      "finish.cut-guard",
                                      "finish.flush-board",
                                      "finish.gap-sealant",
                                      "finish.system-mortar",
                                      "finish.usual-board",
                                      "fitting.off-stud",
                                      "glass.bond-channel",
                                      "glass.door-width",
                                      "glass.safety-glass",
                                      "head.turn-away",
                                      "niche.above-bench",
                                      "niche.raise-into-reach",
                                      "niche.taller",
                                      "niche.to-cavity",
                                      "niche.to-clear-bay",
                                      "niche.to-joints",
                                      "opening.line-jamb",
                                      "opening.safety-glass",
                                      "opening.slope-sill",
                                      "order.wait-for-grout",
                                      "order.wait-for-water",
                                      "pan.bonding-flange",
                                      "pan.curb",
                                      "pan.pitch-curb",
                                      "pan.plan-dam",
                                      "pan.pre-slope",
                                      "pan.slope",
                                      "pan.turn-up",
                                      "pan.weeps-open",
                                      "pan.wrap-curb",
                                      "part.pitch",
                                      "room.protect-floor",
                                      "room.slope-ceiling",
                                      "seam.let-plan-choose",
                                      "seam.to-stud",
                                      "spout.raise",
                                      "tile.free-start",
                                      "tile.joint-eighth",
                                      "tile.offset-third",
                                      "tile.order-enough",
                                      "valve.to-reach",
                                      "wall.air-barrier",
                                      "wall.closer-studs",
                                      "wall.pitch-cap",
                                      "wall.remove-vapour-barrier",
                                      "wet.leg",
                                      "wet.no-ceiling",
                                      "wet.past-2in",
                                      "wet.to-ceiling",
                                      "wet.to-height",
                                      NULL};

  return NAMES;
}

gboolean
dry_remedy_get_bounds (const DryRemedyWork *work, const char *measure, DryLength *least,
                       DryLength *most)
{
  const DryRule *rule = work->finding->rule;
  gboolean found = FALSE;

  for (guint i = 0; i < rule->n_require; i++) {
    const DryCondition *condition = &rule->require[i];
    if (condition->kind != DRY_LIMIT_LENGTH || strcmp (condition->measure, measure) != 0)
      continue;
    if (condition->compare == DRY_COMPARE_AT_LEAST || condition->compare == DRY_COMPARE_EQUAL)
      *least = condition->length;
    if (condition->compare == DRY_COMPARE_AT_MOST || condition->compare == DRY_COMPARE_EQUAL)
      *most = condition->length;
    found = TRUE;
  }
  return found;
}

gboolean
dry_remedy_get_number_bounds (const DryRemedyWork *work, const char *measure, double *least,
                              double *most)
{
  const DryRule *rule = work->finding->rule;
  gboolean found = FALSE;

  for (guint i = 0; i < rule->n_require; i++) {
    const DryCondition *condition = &rule->require[i];
    if (condition->kind != DRY_LIMIT_NUMBER || strcmp (condition->measure, measure) != 0)
      continue;
    if (condition->compare == DRY_COMPARE_AT_LEAST)
      *least = condition->number;
    if (condition->compare == DRY_COMPARE_AT_MOST)
      *most = condition->number;
    found = TRUE;
  }
  return found;
}

/* FALSE when the thing the finding is about has gone. */
static gboolean
gather (DryRemedyWork *work, DryRemedyAbout about)
{
  DryId object = work->finding->object;

  work->part = dry_room_get_part (work->room, object);
  work->opening = dry_room_get_opening (work->room, object);
  work->seam = dry_room_get_seam (work->room, object);
  work->wall = dry_room_get_wall (work->room, work->part ? work->part->wall : object);
  switch (about) {
  case DRY_ABOUT_PART:
    return work->part != NULL;
  case DRY_ABOUT_WALL:
    return work->wall != NULL;
  case DRY_ABOUT_OPENING:
    return work->opening != NULL;
  case DRY_ABOUT_SEAM:
    return work->seam != NULL;
  case DRY_ABOUT_ROOM:
    break;
  }
  return TRUE;
}

DryProject *
dry_remedy_apply (const DryProject *project, DryId room, const DryPlan *plan,
                  const DryFinding *finding, const DryRemedy *remedy, GError **error)
{
  const DryRemedyEntry *entry = remedy->edit ? find_entry (remedy->edit) : NULL;
  DryRemedyWork work = {
      .project = project,
      .room = dry_project_get_room (project, room),
      .finding = finding,
      .measuring = {.context = &plan->context, .plan = plan},
  };

  if (!entry) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED, "“%s” has to be done by hand",
                 remedy->text);
    return NULL;
  }
  if (!work.room || !gather (&work, entry->about)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "What “%s” would change is not there",
                 remedy->text);
    return NULL;
  }
  return entry->apply (&work, error);
}
