/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chapters of the papers, each adding its pages. Private to the papers floor. */
#pragma once

#include "papers/flow.h"

void dry_papers_add_summary (DryFlow *flow);
void dry_papers_add_plan (DryFlow *flow);
void dry_papers_add_faces (DryFlow *flow);
void dry_papers_add_niches (DryFlow *flow);
/* The list of tile cuts under the numbers the drawings give them; nothing without tile. */
void dry_papers_add_tile_cuts (DryFlow *flow);
void dry_papers_add_water (DryFlow *flow);
void dry_papers_add_cut_sheets (DryFlow *flow);
void dry_papers_add_takeoff (DryFlow *flow);
void dry_papers_add_order (DryFlow *flow);
void dry_papers_add_inspection (DryFlow *flow);

/* Papers without pages that hold the plans, for other sets than the crew's. */
DryPapers *dry_papers_new_empty (const DryPlan *const *plans, guint n_plans,
                                 const DryPaperOptions *options);

/* Findings grouped by severity with remedies; cautions that fit this house and system. */
void dry_papers_add_findings (DryFlow *flow);
void dry_papers_add_cautions (DryFlow *flow);

/* Puts the drawing in the middle of a field at the largest standard scale that fits with its
 * dimensions, and returns the scale's ratio. */
double dry_papers_place_scene (DryFlow *flow, DryScene *scene, double x, double y, double width,
                               double height);
/* "formula. Source: ..." or NULL. */
char *dry_papers_working (const DryWorking *working) G_GNUC_WARN_UNUSED_RESULT;
/* "text (certainty)", the certainty left away where the text says it; NULL without a source. */
char *dry_papers_source (const DrySource *source) G_GNUC_WARN_UNUSED_RESULT;
/* The part as findings call it, with a capital: "Niche 2". */
char *dry_papers_part_name (const DryPlan *plan, const DryPart *part) G_GNUC_WARN_UNUSED_RESULT;
/* "1,234.50" without currency, from minor units; NULL for 0. */
char *dry_papers_money (const DryPapers *papers, gint64 minor) G_GNUC_WARN_UNUSED_RESULT;
/* Mass and area in the job's unit; in inches with the metric figure behind. */
char *dry_papers_mass (const DryFlow *flow, double kg) G_GNUC_WARN_UNUSED_RESULT;
char *dry_papers_area (const DryFlow *flow, double m2) G_GNUC_WARN_UNUSED_RESULT;
