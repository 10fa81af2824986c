/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of rows kept in step with a changing set of entries by key: rows that stay are not touched
 * beyond their text, so focus, scrolling and what is unfolded stay put. Knows no plan. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define DRY_TYPE_LEDGER_LIST (dry_ledger_list_get_type ())
G_DECLARE_FINAL_TYPE (DryLedgerList, dry_ledger_list, DRY, LEDGER_LIST, GtkWidget)

/* One row. All texts are plain, copied. */
typedef struct {
  const char *key;       /* what makes it the same row next time */
  const char *heading;   /* shown above the first row of a run of the same heading, or NULL */
  const char *icon;      /* one of the symbols in the resource, or NULL */
  const char *icon_name; /* what the icon says, for a screen reader */
  const char *css;       /* style class of the icon, or NULL */
  const char *title, *subtitle;
  const char *value;          /* shown at the end, or NULL */
  const char *const *details; /* NULL-ended pairs: heading, text; shown when unfolded */
  const char *const *acts;    /* NULL-ended button labels, or NULL */
} DryLedgerEntry;

/* Signals: "chosen" (guint index) when a row is clicked or stepped to; "acted" (guint index, guint
 * act) when one of its buttons is; "more" when entries past the first hundred are to be seen: the
 * owner sets the entries anew, and they get rows too. */
GtkWidget *dry_ledger_list_new (const char *name, const char *empty_text);
/* Enter chooses the focused row and, when that is chosen already, steps on to the next (with Shift
 * to the one before); Space alone unfolds. Without it Enter unfolds as well. */
void dry_ledger_list_set_stepping (DryLedgerList *self, gboolean stepping);
void dry_ledger_list_set_entries (DryLedgerList *self, const DryLedgerEntry *entries, guint n);
/* Scrolls to a row and marks it as the chosen one; an index past the end marks none. */
void dry_ledger_list_show (DryLedgerList *self, guint index);

G_END_DECLS
