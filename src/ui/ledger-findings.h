/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of findings: what is wrong, why, and what can be done about it with what each costs.
 * Turns the newest plan into rows; builds no widget of its own. */
#pragma once

#include "ui/ledger-list.h"
#include "ui/remedy-weigher.h"

G_BEGIN_DECLS

/* A row for each finding of the session's plan, in its order; remedies the weigher knows of come
 * best first, with their costs. */
void dry_ledger_fill_findings (DrySession *session, DryWeigher *weigher, DryLedgerList *list);
/* Has what is unfolded weighed. */
void dry_ledger_weigh_findings (DryWeigher *weigher, DryLedgerList *list);
/* Does what the button `act` of row `index` says: one step of undo. */
void dry_ledger_act_on_finding (DrySession *session, DryWeigher *weigher, guint index, guint act);

G_END_DECLS
