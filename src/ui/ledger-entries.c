/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers entries for a ledger's list and keeps their texts until the list has copied them.
 * Builds no widget. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-entries.h"

DryEntries
dry_entries_begin (void)
{
  return (DryEntries){g_array_new (FALSE, TRUE, sizeof (DryLedgerEntry)),
                      g_ptr_array_new_with_free_func (g_free)};
}

void
dry_entries_end (DryEntries *self, DryLedgerList *list)
{
  dry_ledger_list_set_entries (list, (const DryLedgerEntry *) (gconstpointer) self->entries->data,
                               self->entries->len);
  g_array_unref (self->entries);
  g_ptr_array_unref (self->texts);
}

const char *
dry_entries_keep (DryEntries *self, char *text)
{
  g_ptr_array_add (self->texts, text);
  return text;
}

const char *const *
dry_entries_keep_list (DryEntries *self, GPtrArray *list)
{
  g_ptr_array_add (list, NULL);
  return (const char *const *) (gconstpointer) dry_entries_keep (
      self, (char *) g_ptr_array_free (list, FALSE));
}

void
dry_entries_add_pair (GPtrArray *list, const char *heading, const char *text)
{
  if (!text || !*text)
    return;
  g_ptr_array_add (list, (gpointer) heading);
  g_ptr_array_add (list, (gpointer) text);
}

void
dry_entries_add (DryEntries *self, DryLedgerEntry entry)
{
  g_array_append_val (self->entries, entry);
}
