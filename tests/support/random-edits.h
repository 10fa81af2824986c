/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random edits for stateful tests: every edit function of the project floor, with values of which
 * most can stand and some cannot. Knows what an edit may be given, not what it must make of it. */
#pragma once

#include "project/project.h"

/* How many kinds of edit there are. */
guint dry_test_n_edits (void);
/* "dry_edit_move_part", ... of the kind `kind`. Borrowed. */
const char *dry_test_edit_name (guint kind);

/* One edit of a random kind, written to `kind`. NULL with `error` when it was refused, as some must
 * be. Projects stay small: at most three rooms, three alternates and some twenty things a room, so
 * that a long sequence stays as quick as a short one. Free with dry_project_unref(). */
DryProject *dry_test_edit (GRand *random, const DryProject *project, guint *kind,
                           GError **error) G_GNUC_WARN_UNUSED_RESULT;
