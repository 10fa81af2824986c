/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ledger: a line of live totals that opens into findings, take-off and cut sheets.
 * Shows the session and asks it for edits; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

GtkWidget *dry_ledger_new (DrySession *session);

G_END_DECLS
