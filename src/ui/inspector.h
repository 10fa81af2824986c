/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inspector: exact entries for what is selected, the job and its system when nothing is.
 * Shows the session and asks it for edits; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

GtkWidget *dry_inspector_new (DrySession *session);

G_END_DECLS
