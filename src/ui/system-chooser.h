/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The backer systems to choose from, each shown by its section with thickness, weight and wait.
 * Shows the session and asks it for edits; keeps no state of the document. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_SYSTEM_CHOOSER (dry_system_chooser_get_type ())
G_DECLARE_FINAL_TYPE (DrySystemChooser, dry_system_chooser, DRY, SYSTEM_CHOOSER,
                      AdwPreferencesGroup)

GtkWidget *dry_system_chooser_new (DrySession *session);

G_END_DECLS
