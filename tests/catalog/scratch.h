/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder on disk that lives for one test, and the shipped catalogue's texts to put broken copies
 * of into it. Only for tests of the catalogue. */
#pragma once

#include "base/error.h"
#include "catalog/catalog.h"

typedef struct {
  char *path;
} Scratch;

Scratch *scratch_new (void);
void scratch_free (Scratch *self); /* removes all files in it */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Scratch, scratch_free)

/* Writes folder/part/name; the parts are made as needed. */
void scratch_write (Scratch *self, const char *part, const char *name, const char *text,
                    gssize length);
/* Loads the scratch folder alone. */
DryCatalog *scratch_load (Scratch *self, GError **error);

/* The text of a shipped file ("systems/foam-bands.json"), and the shipped catalogue alone, without
 * the folder of whoever runs the test. */
char *scratch_shipped_text (const char *name, gsize *length);
DryCatalog *scratch_load_shipped (void);
/* `text` with the first `find`, which must be there, replaced. */
char *scratch_replace (const char *text, const char *find, const char *with);
