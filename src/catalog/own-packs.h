/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The folder of one's own rule packs: where it is, and a file taken into it once it is known to be
 * good. Asks nobody: what needs an answer is handed back. */
#pragma once

#include "catalog/catalog.h"

typedef enum {
  DRY_OWN_PACK_ADDED,
  DRY_OWN_PACK_THERE, /* the same bytes are there already */
  DRY_OWN_PACK_ASKS,  /* another file of this pack id is there: replace it? Nothing was written */
} DryOwnPackAnswer;

/* XDG data home/drybay/catalog/rules, there or not. Free with g_free(). */
char *dry_own_packs_dup_folder (void);

/* Checks the file `path` as the catalogue would with it in place, then copies it into the folder,
 * which is made when missing, as <pack id>.json; a file there with another pack id or none is never
 * overwritten. With `replace` the file of the same id gives way. `name` is then the pack's, `file`
 * the copy's (or the one asked about); free both with g_free(). FALSE with an error that names file
 * and reason, also when a pack of one's own that was good would no longer be. */
gboolean dry_own_packs_add (const char *path, gboolean replace, DryRulePackCheck check,
                            DryOwnPackAnswer *answer, char **name, char **file, GError **error);
