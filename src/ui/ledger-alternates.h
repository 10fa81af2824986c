/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ledger's page of alternates: the project and other ways to build it side by side, what each
 * costs, when it is ready, and what is different. Compares in a thread of its own; the newest wins.
 */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_LEDGER_ALTERNATES (dry_ledger_alternates_get_type ())
G_DECLARE_FINAL_TYPE (DryLedgerAlternates, dry_ledger_alternates, DRY, LEDGER_ALTERNATES, GtkWidget)

GtkWidget *dry_ledger_alternates_new (DrySession *session);
/* Compares anew, soon: while a drag goes on, once it rests. */
void dry_ledger_alternates_fill (DryLedgerAlternates *self);

G_END_DECLS
