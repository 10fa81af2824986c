/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A price book: what packs cost, what an hour costs, how long a task takes, and the rest of a
 * quote: waste, delivery, disposal, hire, markup, tax. Read from data/prices or from a
 * spreadsheet; immutable. Knows no plan. */
#pragma once

#include "base/arena.h"
#include "base/json.h"
#include "base/working.h"

/* A pack on sale. Where one id stands several times, the plan buys the pack that comes cheapest. */
typedef struct {
  const char *id;     /* product or sheet id, "tile" id, "lumber", ... as in the take-off */
  const char *system; /* only for this backer system; NULL = any */
  const char *name;
  const char *unit; /* of `pack`, as in the take-off: "pc", "m", "L", "kg", "m2" */
  double pack;      /* units in a pack */
  const char *pack_name;
  gint64 price; /* of a pack, hundredths of the currency; never 0 */
  const char *supplier;
  const char *valid_from, *valid_to; /* "2026-01-01"; NULL = as the book */
  DrySource source;
} DryPrice;

/* How long a task takes and what its hour costs. Members at -1 or NULL: as usual. */
typedef struct {
  const char *task; /* a step of the order of work, or of what follows it: docs/schedule.md */
  double fixed;     /* hours in any case */
  double each;      /* hours for each unit of the task: m2, m or piece */
  gint crew;        /* more people than this do not make it faster; 0 = as usual */
  gint64 rate;      /* an hour, hundredths; 0 = the book's general rate */
  DrySource source;
} DryTaskRate;

typedef struct {
  const char *group; /* of the take-off: "sheets", "joints", ... */
  double percent;    /* bought besides what the take-off says */
  DrySource source;
} DryWaste;

/* A tool hired by the day while the tasks named are done. */
typedef struct {
  const char *id, *name;
  gint64 price;             /* a day */
  const char *const *tasks; /* NULL-ended */
  DrySource source;
} DryHire;

typedef struct {
  const char *id, *name;
  const char *note;     /* says that prices are invented, where they are */
  const char *currency; /* ISO 4217 */
  gboolean invented;
  gboolean samples; /* where it has no price, the catalogue's invented samples are taken */
  const char *valid_from, *valid_to;
  const DryPrice *prices;
  guint n_prices;
  gint64 rate; /* an hour of work; 0 = not given */
  DrySource rate_source;
  const DryTaskRate *tasks;
  guint n_tasks;
  const DryWaste *waste;
  guint n_waste;
  gint64 delivery;      /* one delivery; -1 = not given */
  gint64 free_delivery; /* none is charged from this sum of material on; 0 = always charged */
  DrySource delivery_source;
  gint64 disposal;         /* a kilogram; -1 = not given */
  gint64 disposal_minimum; /* at least */
  double tear_out;         /* kg of old lining for each m2 of wet wall; 0 = none */
  DrySource disposal_source;
  const DryHire *hire;
  guint n_hire;
  double markup; /* per cent on all but tax */
  DrySource markup_source;
  double tax; /* per cent */
  const char *tax_name;
  gboolean tax_labor; /* work is taxed too */
  DrySource tax_source;
} DryPriceBook;

/* One that is read; its values live in `arena`. NULL and the failure recorded in the document. */
const DryPriceBook *dry_price_book_read (DryJson root, DryArena *arena);
/* The same file again: reading it gives an equal book. */
void dry_price_book_write_json (const DryPriceBook *self, DryJsonWriter *writer);
char *dry_price_book_to_text (const DryPriceBook *self, gsize *length) G_GNUC_WARN_UNUSED_RESULT;
/* From the text of a JSON file; `name` appears in errors. */
const DryPriceBook *dry_price_book_from_text (const char *text, gsize length, const char *name,
                                              DryArena *arena, GError **error);

/* NULL when not there. */
const DryTaskRate *dry_price_book_get_task (const DryPriceBook *self, const char *task);
const DryWaste *dry_price_book_get_waste (const DryPriceBook *self, const char *group);

/* --- as a table, for spreadsheets: docs/cost.md tells the columns --- */

/* A cell of a table: text as it is, or a number written with a point. */
typedef struct {
  char *text; /* never NULL */
  gboolean number;
} DryCell;

/* A table: rows of cells. Free with dry_rows_free(). */
typedef struct {
  GPtrArray *rows; /* of GArray of DryCell */
  char decimal;    /* mark of numbers in cells that were read as text: ',' or 0 for '.' */
} DryRows;

DryRows *dry_rows_new (void) G_GNUC_WARN_UNUSED_RESULT;
void dry_rows_free (DryRows *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryRows, dry_rows_free)
/* Begins a row; cells are added to the last one. */
void dry_rows_begin (DryRows *self);
void dry_rows_add_text (DryRows *self, const char *text); /* NULL: an empty cell */
void dry_rows_add_number (DryRows *self, double value, gint decimals);
void dry_rows_add_money (DryRows *self, gint64 hundredths);
/* "" beyond the row's end. */
const char *dry_rows_get (const DryRows *self, guint row, guint column);

DryRows *dry_price_book_to_rows (const DryPriceBook *self) G_GNUC_WARN_UNUSED_RESULT;
/* Errors: DRY_ERROR_SCHEMA with the row and column that are wrong. */
const DryPriceBook *dry_price_book_from_rows (const DryRows *rows, const char *name,
                                              DryArena *arena, GError **error);
