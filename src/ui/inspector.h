/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inspector: exact entries for what is selected, the job and its system when nothing is.
 * Shows the session and asks it for edits; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_INSPECTOR (dry_inspector_get_type ())
G_DECLARE_FINAL_TYPE (DryInspector, dry_inspector, DRY, INSPECTOR, GtkWidget)

GtkWidget *dry_inspector_new (DrySession *session);
/* It follows the session one frame behind the board; this shows at once what is selected, for who
 * goes on into its entries. */
void dry_inspector_catch_up (GtkWidget *inspector);

G_END_DECLS
