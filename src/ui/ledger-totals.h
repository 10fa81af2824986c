/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line of totals that is always seen: a button for each total of the newest plan. Knows which
 * one was asked for, not what is shown for it. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* Signal "chosen" (total: a DryTotal as guint): its button was pressed. */
#define DRY_TYPE_LEDGER_TOTALS (dry_ledger_totals_get_type ())
G_DECLARE_FINAL_TYPE (DryLedgerTotals, dry_ledger_totals, DRY, LEDGER_TOTALS, GtkBox)

/* Whose plans it tells; asked for once, before it is filled. Holds the session. */
void dry_ledger_totals_set_session (DryLedgerTotals *self, DrySession *session);

/* Says what the session's plan comes to now. */
void dry_ledger_totals_fill (DryLedgerTotals *self);

G_END_DECLS
