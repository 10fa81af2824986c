/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every remedy is given, and where the remedies of parts and of rooms live.
 * Private to remedy*.c. */
#pragma once

#include "plan/measure-build.h"
#include "plan/remedy.h"
#include "project/edit.h"

typedef struct {
  const DryProject *project;
  const DryRoom *room;
  const DryFinding *finding;
  DryMeasuring measuring; /* to look things up; writes nothing */
  /* What the finding is about; NULL unless the remedy's table says it is needed. */
  const DryPart *part;
  const DryWall *wall; /* the part's own, or the finding's */
  const DryOpening *opening;
  const DrySeamWish *seam;
} DryRemedyWork;

/* What the rule behind the finding asks of a measure: the least and the most; TRUE when it asks
 * anything. Bounds it does not give keep the values handed in. */
gboolean dry_remedy_get_bounds (const DryRemedyWork *work, const char *measure, DryLength *least,
                                DryLength *most);
/* The same for numbers. */
gboolean dry_remedy_get_number_bounds (const DryRemedyWork *work, const char *measure,
                                       double *least, double *most);

typedef DryProject *(*DryRemedyFunc) (const DryRemedyWork *work, GError **error);

typedef enum {
  DRY_ABOUT_ROOM,
  DRY_ABOUT_WALL,
  DRY_ABOUT_PART,
  DRY_ABOUT_OPENING,
  DRY_ABOUT_SEAM
} DryRemedyAbout;

typedef struct {
  const char *name;
  DryRemedyAbout about;
  DryRemedyFunc apply;
} DryRemedyEntry;

extern const DryRemedyEntry DRY_REMEDIES_OF_BOARDS[];
extern const guint DRY_N_REMEDIES_OF_BOARDS;
extern const DryRemedyEntry DRY_REMEDIES_OF_PARTS[];
extern const guint DRY_N_REMEDIES_OF_PARTS;
extern const DryRemedyEntry DRY_REMEDIES_OF_ROOMS[];
extern const guint DRY_N_REMEDIES_OF_ROOMS;
extern const DryRemedyEntry DRY_REMEDIES_OF_ORDERS[];
extern const guint DRY_N_REMEDIES_OF_ORDERS;
extern const DryRemedyEntry DRY_REMEDIES_OF_PANS[];
extern const guint DRY_N_REMEDIES_OF_PANS;
