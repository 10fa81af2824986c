/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small rooms for the tests of rules, changed by the document's own edits, and questions to their
 * plans. Every function that takes a project over gives the next one in its place. */
#pragma once

#include "plan/plan.h"
#include "support/fixtures.h"

#define INCH(x) ((DryLength) ((x) *25400000.0 + ((x) < 0 ? -0.5 : 0.5)))

/* The fixture alcove under a rule pack. */
DryProject *rule_room_alcove (const char *system, const char *pack) G_GNUC_WARN_UNUSED_RESULT;
/* A room with a pan whose clear inside between finished walls is exactly `length` x `width`: three
 * walls stand off by the build-up, the front is open. Curb 4 in, drain 2 in. */
DryProject *rule_room_shower (DryLength length, DryLength width) G_GNUC_WARN_UNUSED_RESULT;

/* A tub in the corner of a wide room with two half walls round it, so many inches high: at its side
 * and before it. The one at its side is so long; the other meets it 30 in from the back wall. */
DryProject *rule_room_half_walls (double side, double length,
                                  double front) G_GNUC_WARN_UNUSED_RESULT;

DryProject *rule_room_set_job (DryProject *project, void (*change) (DryJob *, gpointer),
                               gpointer data) G_GNUC_WARN_UNUSED_RESULT;
DryProject *rule_room_set_basin (DryProject *project, void (*change) (DryBasin *, gpointer),
                                 gpointer data) G_GNUC_WARN_UNUSED_RESULT;
DryProject *rule_room_set_wet (DryProject *project, DryWetZone wet) G_GNUC_WARN_UNUSED_RESULT;
DryProject *rule_room_set_finish (DryProject *project, void (*change) (DryFinish *, gpointer),
                                  gpointer data) G_GNUC_WARN_UNUSED_RESULT;
DryProject *rule_room_set_wall (DryProject *project, char compass,
                                void (*change) (DryWall *, gpointer),
                                gpointer data) G_GNUC_WARN_UNUSED_RESULT;
DryProject *rule_room_set_room (DryProject *project, void (*change) (DryRoom *, gpointer),
                                gpointer data) G_GNUC_WARN_UNUSED_RESULT;
DryProject *rule_room_add_part (DryProject *project, char compass,
                                DryPart part) G_GNUC_WARN_UNUSED_RESULT;
DryProject *rule_room_add_opening (DryProject *project, char compass,
                                   DryOpening opening) G_GNUC_WARN_UNUSED_RESULT;

/* Sets fields by the names files have for them: "basin.floor_slope=0.02 room.toilet_side=15in
 * wall.n.bearing=1". A length may end in in, ft or mm and is in millimeters otherwise. */
DryProject *rule_room_set_fields (DryProject *project, const char *words) G_GNUC_WARN_UNUSED_RESULT;

/* The plan of the only room; fails the test on an error. */
DryPlan *rule_room_plan (const DryProject *project) G_GNUC_WARN_UNUSED_RESULT;
const DryFinding *rule_room_find (const DryPlan *plan, const char *rule); /* NULL: not raised */
gboolean rule_room_raises (const DryPlan *plan, gint number);
/* Plans and consumes the project; whether the rule is raised. */
gboolean rule_room_is_raised (DryProject *project, const char *rule);
/* A measure of the first subject of a kind that has it; fails the test when none does. */
const DryMeasure *rule_room_measure (const DryPlan *plan, const char *kind, const char *name);
/* Every finding must tell where, why, source and remedy. */
void rule_room_check_findings (const DryPlan *plan);
