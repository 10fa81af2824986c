/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One function for each reader of foreign bytes: it reads them, and what is read must hold what the
 * reader promises. Called by libFuzzer, and by an ordinary test with every file of the corpus. */
#pragma once

#include <glib.h>

/* Each takes any bytes; a broken promise ends the program. */
void fuzz_json (const guint8 *data, gsize size);
void fuzz_length (const guint8 *data, gsize size);
void fuzz_project (const guint8 *data, gsize size);
void fuzz_items (const guint8 *data, gsize size);
void fuzz_system (const guint8 *data, gsize size);
void fuzz_rules (const guint8 *data, gsize size);
void fuzz_prices (const guint8 *data, gsize size);
void fuzz_sheet (const guint8 *data, gsize size);
void fuzz_nest (const guint8 *data, gsize size);
void fuzz_journal (const guint8 *data, gsize size);

typedef struct {
  const char *name; /* and of its folder in the corpus */
  void (*run) (const guint8 *data, gsize size);
} FuzzEntry;

/* Ends with a NULL name. */
extern const FuzzEntry fuzz_entries[];

/* An exact copy on the heap, so that a sanitizer sees one byte read too many. Free it. */
char *fuzz_copy (const guint8 *data, gsize size);
/* Exactly one of the two: a value or an error with words. Frees the error. */
void fuzz_one_of (gboolean read, GError *error);
