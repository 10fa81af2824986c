/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The application: command line, one window a document, and the actions that belong to no window.
 * Knows no drawing. */
#pragma once

#include <adwaita.h>

#include "catalog/catalog.h"

G_BEGIN_DECLS

#define DRY_APP_ID        "io.github.drybay.Drybay"
#define DRY_RESOURCE_ROOT "/io/github/drybay/Drybay"

#define DRY_TYPE_APPLICATION (dry_application_get_type ())
G_DECLARE_FINAL_TYPE (DryApplication, dry_application, DRY, APPLICATION, AdwApplication)

DryApplication *dry_application_new (void);
/* Borrowed. The catalogue is NULL when it could not be read; the reason is then shown by the
 * window. */
const DryCatalog *dry_application_get_catalog (DryApplication *self);
/* Whether somebody closed the bar that tells of rule packs left out: no window shows it again. */
gboolean dry_application_has_told_packs (DryApplication *self);
void dry_application_note_packs_told (DryApplication *self);
/* Full path of a shipped demonstration project by file name, or NULL. Free with g_free(). */
char *dry_application_find_demo (const char *name);
GSettings *dry_application_get_settings (DryApplication *self);

G_END_DECLS
