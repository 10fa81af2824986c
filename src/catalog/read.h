/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every catalogue reader shares: file heads, ids, texts, sources and sourced figures.
 * Values are copied into the catalogue's arena; it knows nothing of systems, items or rules. */
#pragma once

#include "base/arena.h"
#include "base/json.h"
#include "catalog/system.h"

/* Longest text and id a catalogue file may hold, in bytes; docs/catalog.md states them. */
#define DRY_CATALOG_MAX_TEXT 2000
#define DRY_CATALOG_MAX_ID   64
/* No wall, board or fitting is larger. */
#define DRY_CATALOG_MAX_SIZE (100 * 1000 * DRY_MM)
/* Prices: up to ten million of the currency, in hundredths. */
#define DRY_CATALOG_MAX_PRICE G_GINT64_CONSTANT (1000000000)

/* FALSE, and the failure recorded, when `root` is not version 1 of `format`. */
gboolean dry_read_head (DryJson root, const char *format);

/* Lower-case letters and digits in words joined by '-', '.' (ids) or also '_' (measures). */
const char *dry_read_id (DryJson node, DryArena *arena);
const char *dry_read_id_or_null (DryJson node, DryArena *arena); /* absent or null: NULL */
const char *dry_read_measure_name (DryJson node, DryArena *arena);
const char *dry_read_text (DryJson node, DryArena *arena); /* not empty */

/* The length of a list that must be there, held between `least` and `most`; 0 after a failure. */
guint dry_read_count (DryJson array, guint least, guint most);

/* The members "source" and "certainty" of `object`. */
DrySource dry_read_source (DryJson object, DryArena *arena);
/* {"mm": n, "source": ..., "certainty": ...} */
DryLengthFigure dry_read_length_figure (DryJson object, DryLength minimum, DryLength maximum,
                                        DryArena *arena);
/* {"value": n, "source": ..., "certainty": ...} */
DryNumberFigure dry_read_number_figure (DryJson object, double minimum, double maximum,
                                        DryArena *arena);
/* The same for figures that may be left out: zero, with a source that says so. */
DryLengthFigure dry_read_length_figure_or_none (DryJson object, DryLength minimum,
                                                DryLength maximum, DryArena *arena);
DryNumberFigure dry_read_number_figure_or_none (DryJson object, double minimum, double maximum,
                                                DryArena *arena);
