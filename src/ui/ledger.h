/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ledger: a line of live totals that opens into findings, take-off, cut sheets and order of
 * work. Shows the newest plan; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_LEDGER (dry_ledger_get_type ())
G_DECLARE_FINAL_TYPE (DryLedger, dry_ledger, DRY, LEDGER, GtkWidget)

/* Property "open" (boolean): whether the pages are shown above the line. */
GtkWidget *dry_ledger_new (DrySession *session);

G_END_DECLS
