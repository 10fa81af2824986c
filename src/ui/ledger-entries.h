/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Entries of a ledger's list while they are gathered, with the texts they point at.
 * Knows rows, not what is in them. */
#pragma once

#include "ui/ledger-list.h"

G_BEGIN_DECLS

typedef struct {
  GArray *entries;  /* DryLedgerEntry */
  GPtrArray *texts; /* live as long as the entries are being built */
} DryEntries;

DryEntries dry_entries_begin (void);
/* Hands the entries to the list and frees them. */
void dry_entries_end (DryEntries *self, DryLedgerList *list);
/* Takes the text; it lives until dry_entries_end(). */
const char *dry_entries_keep (DryEntries *self, char *text);
/* Takes a growing array of texts as a NULL-ended list. */
const char *const *dry_entries_keep_list (DryEntries *self, GPtrArray *list);
/* Heading and text of a detail; nothing without a text. */
void dry_entries_add_pair (GPtrArray *list, const char *heading, const char *text);
void dry_entries_add (DryEntries *self, DryLedgerEntry entry);

G_END_DECLS
