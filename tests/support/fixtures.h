/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ready rooms and the shipped catalogue, for tests of every floor.
 * Values here are invented; what they must give is checked in the tests. */
#pragma once

#include "catalog/catalog.h"
#include "project/edit.h"

/* The shipped catalogue, loaded once a process; fails the test when it does not load. Borrowed. */
const DryCatalog *dry_test_catalog (void);
/* Reads a project of tests/cases or data/demo by file name ("01-alcove.drybay"). Fails the test on
 * error. */
DryProject *dry_test_load (const char *name) G_GNUC_WARN_UNUSED_RESULT;

/* An alcove: room 60 x 96 in, ceiling 96 in, tub 60 x 30 (rim 15, flange 1 in) along the north
 * wall; studs 2x4 at 16 in; wet zone to the ceiling, 2 in past the tub with legs; given system;
 * nothing on the walls. Walls clockwise: north (back, the tub's), east (right end, plumbing),
 * south, west (left end). */
DryProject *dry_test_alcove (const char *system) G_GNUC_WARN_UNUSED_RESULT;
/* The same with a site-built niche 12 x 20 at 48 on the back wall, valve, spout and head on the
 * east wall. */
DryProject *dry_test_furnished_alcove (const char *system) G_GNUC_WARN_UNUSED_RESULT;
/* Ids in both: the only room, its walls by compass. */
DryId dry_test_room (const DryProject *project);
DryId dry_test_wall (const DryProject *project, char compass); /* 'n', 'e', 's', 'w' */
/* The ids of all rooms of any project, in order. Free with g_free(). */
DryId *dry_test_rooms (const DryProject *project) G_GNUC_WARN_UNUSED_RESULT;

/* The room's first niche; a room without one fails the test. Borrowed. */
const DryPart *dry_test_niche (const DryRoom *room);

/* The project's first room; NULL when it has none. Borrowed. */
const DryRoom *dry_test_first_room (const DryProject *project);

/* An edit that made nothing and said why: an error of this code whose words hold `part`. Clears it.
 */
void dry_test_refused (DryProject *project, GError **error, gint code, const char *part);

/* A folder of a test's own goes with all that is in it; links are taken away, not followed. */
void dry_test_remove_tree (const char *folder);
/* How many names stand in the folder; 0 when it is not there. */
guint dry_test_count_files (const char *folder);

/* The whole number an environment variable holds, for runs longer than usual. */
guint32 dry_test_number (const char *variable, guint32 otherwise);

/* A deterministic random room (seed): rectangular, any of the systems, tub or pan, 0..4 niches and
 * fittings, odd stud offsets. Always a valid project. For property tests. */
DryProject *dry_test_random_project (guint32 seed) G_GNUC_WARN_UNUSED_RESULT;

/* Switches the whole process to a locale that writes decimals with a comma, building one in a
 * temporary folder when none is installed. FALSE when that cannot be done: skip the test. The
 * caller sets the old locale again with setlocale(). */
gboolean dry_test_use_decimal_comma (void);

/* What an edit made of `old`, which is let go; fails the test when it was refused. */
DryProject *dry_test_follow (DryProject *old, DryProject *next, GError *error);
