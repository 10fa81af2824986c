/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The preferences' rows for rule packs of one's own: where they are, how one is added, which of
 * them are left out. Knows no document. */
#pragma once

#include <adwaita.h>

#include "catalog/catalog.h"

G_BEGIN_DECLS

/* Adds the rows to `group` of `window`. `catalog` is only read now. */
void dry_preferences_add_packs (AdwPreferencesWindow *window, AdwPreferencesGroup *group,
                                const DryCatalog *catalog);
/* Takes the file at `path` into the folder, and tells or asks what there is to tell and ask. What a
 * file chooser's answer does. */
void dry_preferences_add_pack_file (AdwPreferencesWindow *window, const char *path,
                                    gboolean replace);

G_END_DECLS
