/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces the drawings are put together from; each adds to an open view of a builder.
 * Private to the drawings. */
#pragma once

#include "draw/drawings.h"
#include "draw/scene-builder.h"

/* Adds the plan as a view whose room (0,0) stands at the scene's (0,0). */
void dry_draw_plan (DrySceneBuilder *b, const DryPlan *plan, gboolean turning);
/* Where a wheelchair turns and doors swing, into the open view of the plan. */
void dry_draw_turning (DrySceneBuilder *b, const DryPlan *plan);
/* Adds the unrolled faces as views, floor at y = 0. */
void dry_draw_strip (DrySceneBuilder *b, const DryPlan *plan, gboolean water);
/* The water's way down one face, into the open view. */
void dry_draw_water (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face);
/* Adds one face into the open view. `full`: with every dimension a crew needs. */
void dry_draw_elevation (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face,
                         gboolean full);

/* --- plan --- */
void dry_draw_plan_walls (DrySceneBuilder *b, const DryPlan *plan);
void dry_draw_plan_openings (DrySceneBuilder *b, const DryPlan *plan);
void dry_draw_plan_basin (DrySceneBuilder *b, const DryPlan *plan);
void dry_draw_plan_parts (DrySceneBuilder *b, const DryPlan *plan);
void dry_draw_plan_dimensions (DrySceneBuilder *b, const DryPlan *plan);
/* Whether a tub's left or right end slopes as a back rest: the end away from the drain; with the
 * drain in the middle both do. */
gboolean dry_drawing_tub_slopes (const DryBasin *basin, DryEnd end);
/* The drain of a pan, and the channel where it has one, in lengths from the basin's back left
 * corner, x along its length: as the floor's fall is reckoned. */
DryPoint dry_drawing_pan_drain (const DryBasin *basin);
DryRect dry_drawing_pan_channel (const DryBasin *basin);
/* The outer corner at the start of outline wall `i`. */
DryPoint dry_drawing_outer_corner (const DryRoom *room, guint i);

/* --- elevation --- */
void dry_draw_elevation_boards (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face,
                                gboolean full);
void dry_draw_elevation_joints (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face);
void dry_draw_elevation_tile (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face,
                              gboolean full);
void dry_draw_elevation_basin (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face);
void dry_draw_elevation_parts (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face);
void dry_draw_elevation_openings (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face);
void dry_draw_elevation_dimensions (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face,
                                    gboolean full);
/* One part seen straight on, its rectangle given. */
void dry_draw_part (DrySceneBuilder *b, const DryPart *part, DryRect rect);

/* Findings on `face`, or those on no face when `face` is NULL, as marks. */
void dry_draw_findings (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face);
/* The hatch that stands for this system's board. */
DryHatch dry_drawing_board_hatch (const DrySystem *system);

/* How a board is labelled. */
typedef struct {
  enum { DRY_LABEL_STACKED, DRY_LABEL_LINE, DRY_LABEL_UPRIGHT } form;
  DryRect free; /* nothing stands in it */
  DryPoint at;
} DryLabelPlace;
DryLabelPlace dry_drawing_label_place (const DryPlan *plan, const DryFace *face,
                                       const DryBoard *board, gboolean full);
