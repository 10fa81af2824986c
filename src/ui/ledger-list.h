/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of rows kept in step with a changing set of entries by key: rows that stay are not touched
 * beyond their text, so focus, scrolling and what is unfolded stay put. Knows no plan. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define DRY_TYPE_LEDGER_LIST (dry_ledger_list_get_type ())
G_DECLARE_FINAL_TYPE (DryLedgerList, dry_ledger_list, DRY, LEDGER_LIST, GtkWidget)

/* One thing that can be done about a row. */
typedef struct {
  const char *label; /* of its button */
  const char *note;  /* what it costs, shown beside it, or NULL */
  gboolean refused;  /* cannot be done: the note says why */
} DryLedgerAct;

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
  const DryLedgerAct *acts;   /* shown first when unfolded, in this order */
  guint n_acts;
} DryLedgerEntry;

/* Signals: "chosen" (guint index) when a row is clicked or stepped to; "acted" (guint index, guint
 * act) when one of its buttons is; "unfolded" when a row was unfolded or folded; "more" when
 * entries past the first hundred are to be seen: the owner sets the entries anew, and they get rows
 * too. */
GtkWidget *dry_ledger_list_new (const char *name, const char *empty_text);
/* Enter chooses the focused row and, when that is chosen already, steps on to the next (with Shift
 * to the one before); Space alone unfolds. Without it Enter unfolds as well. */
void dry_ledger_list_set_stepping (DryLedgerList *self, gboolean stepping);
void dry_ledger_list_set_entries (DryLedgerList *self, const DryLedgerEntry *entries, guint n);
/* The keys of the rows that are unfolded, NULL-ended; free the array, not the keys. */
const char **dry_ledger_list_get_unfolded (DryLedgerList *self);
/* Scrolls to a row and marks it as the chosen one; an index past the end marks none. */
void dry_ledger_list_show (DryLedgerList *self, guint index);

G_END_DECLS
