/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the measuring files write subjects and their measures down, and the order they run in.
 * Private to measures.c and the measure-*.c files; knows no rule. */
#pragma once

#include "plan/plan.h"

typedef struct {
  const DryPlanContext *context;
  const DryPlan *plan;
  GArray *subjects; /* DrySubject */
  GArray *measures; /* DryMeasure, of the subject being written */
  DrySubject current;
} DryMeasuring;

/* A subject is begun, measured and ended; a subject without measures is dropped. `name` is
 * borrowed and must live in the plan or the document. */
void dry_measuring_begin (DryMeasuring *self, const char *kind, DryId object, gint face,
                          DryRect place, const char *name);
void dry_measuring_end (DryMeasuring *self);

/* The working is a sentence with the numbers put in; NULL where the value was read as it stands. */
void dry_measuring_length (DryMeasuring *self, const char *name, DryLength value, const char *how,
                           ...) G_GNUC_PRINTF (4, 5);
void dry_measuring_number (DryMeasuring *self, const char *name, double value, const char *unit,
                           const char *how, ...) G_GNUC_PRINTF (5, 6);
void dry_measuring_boolean (DryMeasuring *self, const char *name, gboolean value, const char *how,
                            ...) G_GNUC_PRINTF (4, 5);
/* A length or number for a sentence; in the plan's arena. */
const char *dry_measuring_text (DryMeasuring *self, DryLength length);
const char *dry_measuring_decimal (DryMeasuring *self, double value, gint decimals);

/* --- what several kinds of subject need to know --- */

/* An upright that stands in the wall before the work begins, or stood there. */
typedef struct {
  DryLength u0, u1;
} DryStanding;

/* The studs of a wall as seen on `side`, in u order: its ends, its studs (found or from spacing)
 * and the sides of its windows and doors. The array is the caller's. */
GArray *dry_measuring_standing (DryMeasuring *self, const DryWall *wall, DrySide side);
/* The clear bay that holds `u`; FALSE when a stud does, or u is off the wall. */
gboolean dry_measuring_bay (const GArray *standing, DryLength u, DryStanding *out);
/* How many of them a stretch cuts into. */
guint dry_measuring_count_cut (const GArray *standing, DryLength u0, DryLength u1);

/* Any shower head or hand shower in the room. */
gboolean dry_measuring_has_shower (const DryMeasuring *self);
const DryPart *dry_measuring_find_part (const DryMeasuring *self, DryPartKind kind);
/* Blocking put in for the part, or a stud behind both its ends. */
gboolean dry_measuring_is_blocked (DryMeasuring *self, const DryPart *part, const DryWall *wall);
/* Whether the niche would stand in `bay` with its middle at `u`: in the boards, clear of studs, of
 * what is hidden there and of other parts. */
gboolean dry_measuring_niche_fits (DryMeasuring *self, const DryPart *part, DryLength u,
                                   DryStanding bay);
/* How many other visible parts and openings of the same face `rect` reaches into; and writes it as
 * the measure "overlaps". */
guint dry_measuring_count_overlaps (const DryMeasuring *self, const DryPart *part, DryRect rect);
void dry_measuring_overlaps (DryMeasuring *self, const DryPart *part, DryRect rect);
/* The face a part or opening is on; NULL when its wall is not boarded. */
const DryFace *dry_measuring_face_of (const DryMeasuring *self, DryId wall, DrySide side);
/* Name of a part for people: the user's label, or kind and number when there are several. */
const char *dry_measuring_part_name (DryMeasuring *self, const DryPart *part);

typedef enum { DRY_AT_LEFT, DRY_AT_FRONT, DRY_AT_RIGHT, DRY_AT_BACK } DryBasinSide;

/* What stands at the four sides of the basin, as seen by somebody facing its wall, and the clear
 * inside between finished walls. */
typedef struct {
  DryPoint corners[4];    /* dry_room_basin_corners() */
  const DryWall *wall[4]; /* DryBasinSide; NULL where it is open */
  DrySide face[4];        /* which of that wall's looks at the basin */
  DryLength off[4];       /* from that side of the basin to the stud face; less than 0: over it */
  DryLength inset[4]; /* from that side of the basin to the finished wall that reaches over it */
  DryLength length, width; /* clear between finished walls; to the basin's own edge where open */
  DryLength opening;       /* between the stud faces at its two ends; 0 = not between two walls */
  DryWidths widths;        /* of the alcove it fills from end to end; 0 = of none */
} DryInside;

/* FALSE when there is no basin. */
gboolean dry_measuring_inside (DryMeasuring *self, DryInside *out);

/* Parts of subjects begun elsewhere: what was found round the wet area, for the room; what was
 * recorded while building, for the system; how a pan is made, for the basin. */
void dry_measure_survey (DryMeasuring *self);
void dry_measure_records (DryMeasuring *self);
void dry_measure_pan (DryMeasuring *self, const DryInside *inside);
void dry_measure_inside (DryMeasuring *self, const DryInside *inside); /* room to stand in */

/* Part of the tile's subject: what is on order. */
void dry_measure_tile_order (DryMeasuring *self);

/* --- one function for each family of subjects --- */
void dry_measure_job (DryMeasuring *self);      /* job, room, system, tile */
void dry_measure_order (DryMeasuring *self);    /* order; called by dry_measure_job() */
void dry_measure_floor (DryMeasuring *self);    /* floor */
void dry_measure_walls (DryMeasuring *self);    /* wall */
void dry_measure_basin (DryMeasuring *self);    /* basin */
void dry_measure_openings (DryMeasuring *self); /* window, door */
void dry_measure_niches (DryMeasuring *self);   /* niche */
void dry_measure_fittings (DryMeasuring *self); /* valve, spout, shower-head, hand-shower, bar */
void dry_measure_standing_parts (DryMeasuring *self); /* bench, glass, pipe, vent, cable */
void dry_measure_boards (DryMeasuring *self);         /* board, seam, wished-seam, wish */
void dry_measure_wished_seam (DryMeasuring *self, const DrySeam *seam); /* more of wished-seam */
void dry_measure_wishes (DryMeasuring *self);                           /* wish */
void dry_measure_tile (DryMeasuring *self);                             /* layout */
void dry_measure_joints (DryMeasuring *self);                           /* joint */
