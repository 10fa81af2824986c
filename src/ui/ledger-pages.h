/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the ledger's pages say of a plan: entries of the lists and texts of the totals.
 * Turns numbers into words for a person; builds no widget of its own. */
#pragma once

#include "ui/ledger-list.h"
#include "ui/session.h"

G_BEGIN_DECLS

typedef enum {
  DRY_TOTAL_AREA,
  DRY_TOTAL_SHEETS,
  DRY_TOTAL_TIME,
  DRY_TOTAL_COST,
  DRY_TOTAL_FINDINGS,
  DRY_N_TOTALS,
} DryTotal;

/* Orders of the take-off. */
typedef enum { DRY_SORT_GROUP, DRY_SORT_NAME, DRY_SORT_COST } DryLedgerSort;

/* The total in a few words, and how it came to be. Free both. */
char *dry_total_text (DrySession *session, DryTotal total);
char *dry_total_working (DrySession *session, DryTotal total);

void dry_ledger_fill_takeoff (DrySession *session, DryLedgerSort sort, DryLedgerList *list);
/* "group/id" of the take-off's row in that order, as dry_session_set_counted() takes it; NULL past
 * the end. Free. */
char *dry_ledger_takeoff_key (DrySession *session, DryLedgerSort sort, guint index);
void dry_ledger_fill_order (DrySession *session, DryLedgerList *list);
/* The take-off in that order with tabs between the columns, as spreadsheets take it from the
 * clipboard. No cell can be read as a formula. Free. */
char *dry_ledger_copy_takeoff (DrySession *session, DryLedgerSort sort);

/* Numbers and times for people, in the user's locale. Free. */
char *dry_text_hours (double hours);
char *dry_text_money (gint64 minor);
/* The text with each number and the word after it kept on one line. Free. */
char *dry_text_bind_units (const char *text);

G_END_DECLS
