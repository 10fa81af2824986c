/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a number came to be: formula with the numbers put in, inputs by name, source, certainty.
 * Every quantity shown to a person carries one; this file knows nothing of what they measure. */
#pragma once

#include "base/arena.h"

typedef enum {
  DRY_CERTAINTY_PUBLISHED,       /* read in the standard, code or an exact quotation of it */
  DRY_CERTAINTY_SECONDARY,       /* read in trade press or another secondary text */
  DRY_CERTAINTY_COMMON_PRACTICE, /* common practice, no source */
  DRY_CERTAINTY_MEMORY,          /* from memory, to be verified */
  DRY_CERTAINTY_DERIVED,         /* arithmetic from a definition or from other figures */
  DRY_CERTAINTY_INVENTED,        /* sample data, never for real use */
} DryCertainty;

typedef struct {
  const char *text; /* e.g. "ANSI A108.02 4.1.4.3"; never NULL */
  DryCertainty certainty;
} DrySource;

typedef struct {
  const char *name;
  const char *value; /* with its unit, locale-independent */
} DryInput;

typedef struct {
  const char *formula; /* with the numbers put in: "(2.10 + 1.48) m2 x 2 coats = 7.16 m2" */
  const DryInput *inputs;
  guint n_inputs;
  DrySource source;
} DryWorking;

/* The word used in files and on papers: "published", "secondary", "common practice", ... */
const char *dry_certainty_to_text (DryCertainty certainty);
gboolean dry_certainty_from_text (const char *text, DryCertainty *out);

/* Builds a working in the arena: name/value pairs after the source, ended by NULL. Strings are
 * copied. */
DryWorking dry_working_new (DryArena *arena, DrySource source, const char *formula,
                            ...) G_GNUC_NULL_TERMINATED;
