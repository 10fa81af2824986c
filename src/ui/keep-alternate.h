/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Making an alternate of what was changed: the plan goes back to where it was, and what it is now
 * is kept beside it under a name. Shows undo steps and asks the session for one edit. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* A button with a popover: a name, and which step the plan goes back before. */
GtkWidget *dry_keep_alternate_new (DrySession *session);
/* The present project's rooms kept as an alternate `name`, and those of `before` taken back
 * instead; everything else stays as it is now. Errors: as dry_edit_add_alternate(), and
 * DRY_ERROR_TEXT when nothing differs. */
DryProject *dry_keep_as_alternate (const DryProject *present, const DryProject *before,
                                   const char *name, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Asks for a name in a dialog over the widget's window, and renames. */
void dry_ask_alternate_name (GtkWidget *widget, DrySession *session, DryId alternate);

G_END_DECLS
