/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a finding's remedies cost, told by planning the room anew with each of them, and their
 * order: what mends most for least comes first. Slow: one plan a remedy; asked for, never live. */
#pragma once

#include "plan/remedy.h"

typedef struct {
  const DryRemedy *remedy;
  gboolean by_hand;    /* no edit: nothing could be compared */
  const char *refused; /* why the edit cannot be made here, or NULL */
  DryProject *project; /* with the remedy applied; held by the list; NULL when refused or by hand */
  gboolean mends;      /* the finding is gone */
  gint found[3];       /* findings more (or less) than before, by severity */
  gint studs_cut;      /* more or less than before, like all that follow */
  gint members;        /* pieces of framing and blocking */
  gint sheets;
  double hours;     /* hands-on */
  double days;      /* until tiling can start, at least */
  gint64 money;     /* of the priced lines, minor units; sample prices are invented */
  gboolean priced;  /* FALSE when a line without price changed */
  const char *text; /* "1 sheet more, 0.6 h more, 12.40 more" or "costs nothing" */
} DryRemedyWeight;

typedef struct {
  DryArena *arena;
  DryRemedyWeight *items; /* best first: edits that mend, then by hand, then those that refuse */
  guint n;
} DryRemedyWeights;

/* All remedies of `finding`, a finding of `plan`, weighed against the live plan of its project: a
 * plan that was searched on is planned live first. They point into `plan`. Errors as
 * dry_plan_new(). */
DryRemedyWeights *dry_remedy_weigh (const DryPlan *plan, const DryFinding *finding,
                                    GCancellable *cancellable,
                                    GError **error) G_GNUC_WARN_UNUSED_RESULT;
void dry_remedy_weights_free (DryRemedyWeights *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryRemedyWeights, dry_remedy_weights_free)
