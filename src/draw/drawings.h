/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawings of a plan, as scenes: the board of the window, plan, faces, cut sheets.
 * The screen and the papers use these same ones; one file a drawing. */
#pragma once

#include "draw/scene.h"
#include "plan/schedule.h"

#define DRY_LAYERS_ALL ((1u << DRY_N_LAYERS) - 1)
/* Before anybody chose. */
#define DRY_LAYERS_USUAL                                                                           \
  (DRY_LAYERS_ALL & ~(1u << DRY_LAYER_WATER) & ~(1u << DRY_LAYER_CUTS) & ~(1u << DRY_LAYER_TURNING))

/* The window's board: plan above, strip of unrolled faces below, on one paper. Works for a plan
 * without faces (room outline only). Free with dry_scene_unref(). */
DryScene *dry_drawing_board (const DryPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
DryScene *dry_drawing_plan (const DryPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
DryScene *dry_drawing_strip (const DryPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
/* The strip with the water's way drawn on it, its breaks, and a word where all is closed. */
DryScene *dry_drawing_water (const DryPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
DryScene *dry_drawing_face (const DryPlan *plan, guint face) G_GNUC_WARN_UNUSED_RESULT;
DryScene *dry_drawing_cut_sheet (const DryPlan *plan, guint sheet) G_GNUC_WARN_UNUSED_RESULT;
typedef enum { DRY_NICHE_FRAMING, DRY_NICHE_BOARDS, DRY_NICHE_TILE } DryNicheView;
/* A niche of a boarded wall by itself: its framing from the floor up, the boards round its rough
 * opening, or the tile round its edge, each with dimensions. Empty without such a niche. */
DryScene *dry_drawing_niche (const DryPlan *plan, DryId part,
                             DryNicheView view) G_GNUC_WARN_UNUSED_RESULT;
/* The clear faces of the uprights on both sides of a niche's rough opening, new ones included; the
 * wall's ends where there are none. */
void dry_drawing_niche_studs (const DryPlan *plan, const DryFace *face, const DryCutout *cut,
                              DryLength *left, DryLength *right);
/* A section through the layers of a system, to scale: stud, board, membrane, mortar, tile. */
DryScene *dry_drawing_section (const DrySystem *system,
                               const DryBuildUp *build_up) G_GNUC_WARN_UNUSED_RESULT;
/* The wet walls side by side with tile and fixtures, nothing of the workshop: for the client. */
DryScene *dry_drawing_client (const DryPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
/* One such wall with the number of every tile cut that has room for one: for the tile setter. */
DryScene *dry_drawing_tile (const DryPlan *plan, guint face) G_GNUC_WARN_UNUSED_RESULT;
/* The same as somebody standing in the room sees it, in colors of its own materials. `figures`:
 * with a short and a tall person standing in it. Empty without a tub or pan. */
DryScene *dry_drawing_room (const DryPlan *plan, gboolean figures) G_GNUC_WARN_UNUSED_RESULT;
/* The same in another shape: `aspect` is its width over its height. */
DryScene *dry_drawing_room_shaped (const DryPlan *plan, gboolean figures,
                                   double aspect) G_GNUC_WARN_UNUSED_RESULT;
/* Tasks `first` to `first` + `n` of a schedule as bars over its days, at paper size: a millimeter
 * of the scene is a millimeter of the page, 182 of them wide. */
DryScene *dry_drawing_gantt (const DrySchedule *schedule, const DryJob *job, guint first,
                             guint n) G_GNUC_WARN_UNUSED_RESULT;

/* Names for the command line: "board", "plan", "strip", "water", "face:A", "sheet:1", "section",
 * "client", "room". NULL with
 * DRY_ERROR_UNSUPPORTED that lists the names there are. */
DryScene *dry_drawing_by_name (const DryPlan *plan, const char *name, GError **error);
