/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 10, findings: the rule pack's rules against the measures. A rule whose measure a subject
 * lacks is silent; a finding says what, where, measured and required, why, source and remedy. */
#pragma once

#include "plan/measures.h"

/* Who gave the figure a finding was held against. The first that has one answers: what the project
 * picked, the local pack, the backer system's instructions, the custom of the trade. */
typedef enum {
  DRY_ANSWER_WISH,
  DRY_ANSWER_PACK,
  DRY_ANSWER_SYSTEM,
  DRY_ANSWER_CUSTOM,
} DryAnswer;

/* "project", "pack", "system", "custom": the words of files. */
const char *dry_answer_to_text (DryAnswer answer);

typedef struct {
  const char *id; /* stable in a plan: "stud-spacing/7" (rule and object) */
  const DryRule *rule;
  DrySeverity severity;
  DryId object;
  gint face;
  DryRect place;
  const char *where;               /* "Back wall, niche 1" */
  const char *measured, *required; /* for people, in the job's units; may be "" for yes/no rules */
  const char *message;             /* one sentence: title with both values */
  DryWorking working;
  DryAnswer answer;
  const char *answered_by; /* for people: name of pack or system, the option picked */
} DryFinding;

typedef struct {
  DryFinding *items; /* stop first, then fix, then advice; within these by face and place */
  guint n;
  guint count[3]; /* by severity */
} DryFindings;

const DryFindings *dry_findings_compute (const DryPlanContext *context, const DryMeasures *measures,
                                         GError **error);
