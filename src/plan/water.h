/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The water's way: from every wetted surface down over faces, niche floors, benches and sills to
 * the drain, and every place where the watertight layer of the chosen system has a break. Reads the
 * document and the stages before it; judges by no rule, rules ask for what it found. */
#pragma once

#include "plan/coating.h"

typedef enum {
  DRY_BREAK_JOINT,    /* a wet joint that nothing of the system makes watertight */
  DRY_BREAK_FASTENER, /* heads that must be covered and are not */
  DRY_BREAK_HOLE,     /* pipe holes without gasket or sealant */
  DRY_BREAK_BOARD,    /* a board that is not watertight, and no membrane on it */
  DRY_BREAK_FLANGE,   /* no flange under a shower, or its gap filled with what moves cannot bear */
  DRY_BREAK_CURB,     /* the membrane of a site-built floor stops at the curb */
  DRY_BREAK_DRAIN,    /* a membrane on top, but the drain clamps a liner */
  DRY_BREAK_LEG,      /* the strip past the basin ends above the floor */
  DRY_BREAK_EDGE,     /* the wet wall ends where it is still sprayed */
  DRY_BREAK_PITCH,    /* niche floor, bench, sill, curb or cap that does not drain */
  DRY_BREAK_NOWHERE,  /* a surface ends over nothing that takes the water on */
  DRY_N_BREAK_KINDS,
} DryBreakKind;

/* Where a drop comes to its end. */
typedef enum {
  DRY_WATER_BASIN,   /* the tub or pan, and so the drain */
  DRY_WATER_FLOOR,   /* beside the basin, over a leg down to the floor */
  DRY_WATER_STOPPED, /* at a break */
} DryWaterEnd;

typedef struct {
  guint face;
  DryPoint at;
} DryWaterStep;

typedef struct {
  const DryWaterStep *steps; /* from where it wets a face, downwards */
  guint n;
  DryWaterEnd end;
  gint stop; /* index of the break it ends at; -1: none */
} DryWaterPath;

typedef struct {
  DryBreakKind kind;
  gint face;        /* -1: at the basin's curb or drain */
  DryPoint at;      /* on the face */
  DryId object;     /* part, opening, wall or basin; 0: none */
  guint n;          /* places of this kind told as one */
  const char *text; /* "Inside corner of the back wall: nothing closes it" */
  const char *rule; /* id of the rule that tells it */
} DryWaterBreak;

typedef struct {
  DryWaterPath *paths; /* one for each stretch of a face that drains alike */
  guint n_paths;
  DryWaterBreak *breaks;
  guint n_breaks;
  gboolean closed; /* no break: every drop reaches the drain */
} DryWater;

/* "joint", "fastener", ...: the words of files. */
const char *dry_break_kind_to_text (DryBreakKind kind);

const DryWater *dry_water_compute (const DryPlanContext *context, const DryFaces *faces,
                                   const DryBoards *boards, const DryFasteners *fasteners,
                                   const DryJoints *joints, const DryCoating *coating,
                                   GError **error);

/* One drop from `at` on a wall face; for the window's pointer and for tests. Steps are in the
 * context's arena; `stop` is not filled in, `why` says at what kind of break it stopped. */
DryWaterPath dry_water_trace (const DryPlanContext *context, const DryFaces *faces, guint face,
                              DryPoint at, DryBreakKind *why, DryId *object);
