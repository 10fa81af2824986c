/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures: named, typed facts about each thing in the plan ("niche.bottom" = 48 in), which rules
 * compare. One measuring function per kind of subject; the list of names is documented in
 * docs/measures.md. */
#pragma once

#include "plan/order.h"

struct _DryPlan;

typedef enum { DRY_MEASURE_LENGTH, DRY_MEASURE_NUMBER, DRY_MEASURE_BOOLEAN } DryMeasureKind;

typedef struct {
  const char *name; /* "bottom", without the subject's kind */
  DryMeasureKind kind;
  DryLength length;
  double number;    /* booleans: 0 or 1 */
  const char *unit; /* numbers: "%", "h", "degrees C", "" */
  const char *how;  /* how it was measured, with numbers; may be NULL */
} DryMeasure;

typedef struct {
  const char *kind; /* "room", "wall", "face", "basin", "niche", "valve", "board", "seam", ... */
  DryId object;     /* what to select; 0 = none */
  gint face;        /* -1 = not on a face */
  DryRect place;    /* on the face; empty = whole face */
  const char *name; /* for people: "Niche 12\" x 20\" on the back wall" */
  const DryMeasure *measures;
  guint n_measures;
} DrySubject;

typedef struct {
  DrySubject *items;
  guint n;
} DryMeasures;

const DryMeasures *dry_measures_compute (const DryPlanContext *context, const struct _DryPlan *plan,
                                         GError **error);
const DryMeasure *dry_subject_get (const DrySubject *self, const char *name); /* NULL */
