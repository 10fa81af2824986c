/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record of a journal as bytes, shared by the side that writes and the side that reads.
 * Knows neither threads nor projects: a record is a kind, a few fields and a piece of text. */
#pragma once

#include <glib.h>

#include "project/journal.h"

#define DRY_JOURNAL_KIND   "drybay-journal "
#define DRY_JOURNAL_MAGIC  DRY_JOURNAL_KIND "1\n"
#define DRY_JOURNAL_SUFFIX ".journal"

typedef enum {
  DRY_RECORD_BASE, /* path, title; text: the project the undo list begins at */
  DRY_RECORD_STEP, /* name, key, merged; text: what is new since the last text */
  DRY_RECORD_UNDO,
  DRY_RECORD_REDO,
  DRY_RECORD_SAVED, /* path */
} DryRecordKind;

/* A text is told by what its front and back have in common with the text told before. */
typedef struct {
  DryRecordKind kind;
  char *path, *title, *name, *key;
  gboolean merged;
  gsize front, back;
  const char *middle; /* borrowed */
  gsize middle_length;
} DryRecord;

void dry_record_clear (DryRecord *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (DryRecord, dry_record_clear)

/* Appends the record's bytes, head and checksum included. */
void dry_record_write (const DryRecord *self, GByteArray *bytes);
/* Reads the record at `*offset` and moves on past it. FALSE, and nothing moved, when what stands
 * there is no whole record. `out` borrows from `bytes`. */
gboolean dry_record_read (const char *bytes, gsize length, gsize *offset, DryRecord *out);

/* What `after` has that `before` has not: sets front, back and middle. */
void dry_record_compare (DryRecord *self, const char *before, gsize before_length,
                         const char *after, gsize after_length);
/* The text told by the record, or NULL when it does not fit `before`. Free it. */
char *dry_record_join (const DryRecord *self, const char *before, gsize before_length,
                       gsize *length);

/* Takes over an open, locked file whose records end at `end`; `text` (consumed) is the last text
 * told in it. For journal-recover.c. */
DryJournal *dry_journal_continue (char *file, int fd, gsize end, char *text, gsize length);
/* TRUE when this process now holds the file alone. */
gboolean dry_journal_lock (int fd);
