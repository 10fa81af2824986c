/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inside of an alternate, for the reader, the writer and the edits of this floor. */
#pragma once

#include "project/alternate.h"
#include "project/project-private.h"

struct _DryAlternate {
  gatomicrefcount references;
  DryId id;
  char *name, *note;
  GPtrArray *boxes; /* of DryRoomBox: the rooms in which it differs */
};

/* Takes the boxes; copies the texts. */
DryAlternate *dry_alternate_new (DryId id, const char *name, const char *note,
                                 GPtrArray *boxes) G_GNUC_WARN_UNUSED_RESULT;
DryAlternate *dry_alternate_ref (DryAlternate *self);
void dry_alternate_unref (DryAlternate *self);

/* A list for dry_project_assemble(), with a new reference to each. */
GPtrArray *dry_project_share_alternates (const DryProject *self) G_GNUC_WARN_UNUSED_RESULT;
/* The same after a room of the base became another; `after` NULL: it was removed. */
GPtrArray *dry_project_rebase_alternates (const DryProject *self, const DryRoom *before,
                                          const DryRoom *after) G_GNUC_WARN_UNUSED_RESULT;
