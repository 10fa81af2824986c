/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A price book as one table and back: a row a price, a rate, a percentage. The way back goes by the
 * JSON reader, so that both forms are held to the same rules. Knows no file format. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/price-book.h"

#include <math.h>
#include <string.h>

/* --- out --- */

enum {
  KIND,
  ID,
  SYSTEM,
  NAME,
  UNIT,
  PACK,
  PACK_NAME,
  PRICE,
  SUPPLIER,
  FROM,
  TO,
  FIXED,
  EACH,
  CREW,
  PERCENT,
  LIMIT,
  TASKS,
  OPTIONS,
  SOURCE,
  CERTAINTY,
  N_COLUMNS
};

static const char *const headings[N_COLUMNS] = {
    "Kind",    "Id",       "System",     "Name",     "Unit",        "Pack",       "Pack name",
    "Price",   "Supplier", "Valid from", "Valid to", "Fixed hours", "Hours each", "Crew",
    "Percent", "Limit",    "Tasks",      "Options",  "Source",      "Certainty"};

/* What a row holds; what is not set is left empty. */
typedef struct {
  const char *texts[N_COLUMNS];
  gint64 price, limit;  /* 0 = none */
  double pack, percent; /* 0 = none */
  double fixed, each;   /* -1 = none */
  gint crew;
  gboolean priced, percented; /* written even when 0 */
  const DrySource *source;
} Row;

static Row
make_row (const char *kind, const char *id, const DrySource *source)
{
  return (Row){.texts = {kind, id}, .fixed = -1, .each = -1, .source = source};
}

static void
add_row (DryRows *rows, const Row *row)
{
  dry_rows_begin (rows);
  for (guint i = 0; i < N_COLUMNS; i++)
    if ((i == PRICE && (row->price > 0 || row->priced)))
      dry_rows_add_money (rows, row->price);
    else if (i == LIMIT && row->limit > 0)
      dry_rows_add_money (rows, row->limit);
    else if ((i == PACK && row->pack > 0) || (i == PERCENT && (row->percent > 0 || row->percented)))
      dry_rows_add_number (rows, i == PACK ? row->pack : row->percent, 9);
    else if ((i == FIXED && row->fixed >= 0) || (i == EACH && row->each >= 0))
      dry_rows_add_number (rows, i == FIXED ? row->fixed : row->each, 9);
    else if (i == CREW && row->crew > 0)
      dry_rows_add_number (rows, row->crew, 0);
    else if (i == SOURCE && row->source)
      dry_rows_add_text (rows, row->source->text);
    else if (i == CERTAINTY && row->source)
      dry_rows_add_text (rows, dry_certainty_to_text (row->source->certainty));
    else
      dry_rows_add_text (rows, row->texts[i]);
}

static void
add_price_row (DryRows *rows, const DryPrice *price)
{
  Row row = make_row ("price", price->id, &price->source);

  row.texts[SYSTEM] = price->system;
  row.texts[NAME] = price->name;
  row.texts[UNIT] = price->unit;
  row.texts[PACK_NAME] = price->pack_name;
  row.texts[SUPPLIER] = price->supplier;
  row.texts[FROM] = price->valid_from;
  row.texts[TO] = price->valid_to;
  row.pack = price->pack;
  row.price = price->price;
  add_row (rows, &row);
}

static void
add_task_row (DryRows *rows, const DryTaskRate *task)
{
  Row row = make_row ("task", task->task, &task->source);

  row.fixed = task->fixed;
  row.each = task->each;
  row.crew = task->crew;
  row.price = task->rate;
  add_row (rows, &row);
}

static void
add_percent_row (DryRows *rows, const char *kind, const char *id, double percent,
                 const DrySource *source)
{
  Row row = make_row (kind, id, source);

  row.percent = percent;
  row.percented = TRUE;
  add_row (rows, &row);
}

static void
add_hire_row (DryRows *rows, const DryHire *hire)
{
  g_autofree char *tasks = g_strjoinv (" ", (char **) hire->tasks);
  Row row = make_row ("hire", hire->id, &hire->source);

  row.texts[NAME] = hire->name;
  row.texts[TASKS] = tasks;
  row.price = hire->price;
  add_row (rows, &row);
}

static void
add_charge_row (DryRows *rows, const char *kind, gint64 price, gint64 limit, double each,
                const DrySource *source)
{
  Row row = make_row (kind, NULL, source);

  row.price = price;
  row.priced = TRUE;
  row.limit = limit;
  row.each = each;
  add_row (rows, &row);
}

static void
add_book_row (DryRows *rows, const DryPriceBook *self)
{
  Row row = make_row ("book", self->id, NULL);

  row.texts[NAME] = self->name;
  row.texts[UNIT] = self->currency;
  row.texts[FROM] = self->valid_from;
  row.texts[TO] = self->valid_to;
  row.texts[OPTIONS] = self->invented && self->samples ? "invented catalog-samples"
                       : self->invented                ? "invented"
                       : self->samples                 ? "catalog-samples"
                                                       : NULL;
  row.texts[SOURCE] = self->note;
  add_row (rows, &row);
}

static void
add_tax_row (DryRows *rows, const DryPriceBook *self)
{
  Row row = make_row ("tax", NULL, &self->tax_source);

  row.texts[NAME] = self->tax_name;
  row.texts[OPTIONS] = self->tax_labor ? "on-labor" : NULL;
  row.percent = self->tax;
  row.percented = TRUE;
  add_row (rows, &row);
}

DryRows *
dry_price_book_to_rows (const DryPriceBook *self)
{
  DryRows *rows = dry_rows_new ();

  dry_rows_begin (rows);
  for (guint i = 0; i < N_COLUMNS; i++)
    dry_rows_add_text (rows, headings[i]);
  add_book_row (rows, self);
  if (self->rate > 0)
    add_charge_row (rows, "labor", self->rate, 0, -1, &self->rate_source);
  for (guint i = 0; i < self->n_tasks; i++)
    add_task_row (rows, &self->tasks[i]);
  for (guint i = 0; i < self->n_prices; i++)
    add_price_row (rows, &self->prices[i]);
  for (guint i = 0; i < self->n_waste; i++)
    add_percent_row (rows, "waste", self->waste[i].group, self->waste[i].percent,
                     &self->waste[i].source);
  if (self->delivery >= 0)
    add_charge_row (rows, "delivery", self->delivery, self->free_delivery, -1,
                    &self->delivery_source);
  if (self->disposal >= 0)
    add_charge_row (rows, "disposal", self->disposal, self->disposal_minimum, self->tear_out,
                    &self->disposal_source);
  for (guint i = 0; i < self->n_hire; i++)
    add_hire_row (rows, &self->hire[i]);
  if (self->markup > 0)
    add_percent_row (rows, "markup", NULL, self->markup, &self->markup_source);
  if (self->tax_name)
    add_tax_row (rows, self);
  return rows;
}

/* --- in --- */

typedef struct {
  const DryRows *rows;
  gint column[N_COLUMNS]; /* where in the table; -1 = it has none */
  DryJsonWriter *writer;
  GError *error;
} Reading;

static const char *
cell (const Reading *self, guint row, guint what)
{
  return self->column[what] < 0 ? "" : dry_rows_get (self->rows, row, (guint) self->column[what]);
}

static void
fail (Reading *self, guint row, guint what, const char *why)
{
  if (!self->error)
    self->error = g_error_new (DRY_ERROR, DRY_ERROR_SCHEMA, "row %u, %s: “%.64s” %s", row + 1,
                               headings[what], cell (self, row, what), why);
}

static void
put_text (Reading *self, guint row, guint what, const char *key)
{
  if (*cell (self, row, what))
    dry_json_write_string (self->writer, key, cell (self, row, what));
}

/* A date, also where a spreadsheet has made it a count of days since 1899-12-30. */
static void
put_date (Reading *self, guint row, guint what, const char *key)
{
  const char *text = cell (self, row, what);
  guint64 serial;
  GDate date;
  char iso[16];

  if (!g_ascii_string_to_unsigned (text, 10, 1, 100000, &serial, NULL)) {
    put_text (self, row, what, key);
    return;
  }
  g_date_clear (&date, 1);
  g_date_set_julian (&date, (guint32) serial + 693594);
  g_snprintf (iso, sizeof iso, "%04d-%02d-%02d", g_date_get_year (&date), g_date_get_month (&date),
              g_date_get_day (&date));
  dry_json_write_string (self->writer, key, iso);
}

static gboolean
get_number (Reading *self, guint row, guint what, double *value)
{
  g_autofree char *text = g_strdup (cell (self, row, what));
  char *end;

  if (*g_strstrip (text) == '\0')
    return FALSE;
  if (self->rows->decimal == ',')
    g_strdelimit (text, ",", '.');
  *value = g_ascii_strtod (text, &end);
  if (*end != '\0' || !isfinite (*value)) {
    fail (self, row, what, "is no number");
    return FALSE;
  }
  return TRUE;
}

static void
put_number (Reading *self, guint row, guint what, const char *key)
{
  double value;

  if (get_number (self, row, what, &value))
    dry_json_write_number (self->writer, key, value);
}

/* Money is written with its hundredths, and no finer. */
static void
put_money (Reading *self, guint row, guint what, const char *key)
{
  double value;

  if (!get_number (self, row, what, &value))
    return;
  if (fabs (value) > 1e12 || fabs (value * 100 - round (value * 100)) > 1e-4)
    fail (self, row, what, "is no price in hundredths");
  else
    dry_json_write_integer (self->writer, key, (gint64) round (value * 100));
}

static void
put_source (Reading *self, guint row)
{
  put_text (self, row, SOURCE, "source");
  put_text (self, row, CERTAINTY, "certainty");
}

static void
put_words (Reading *self, guint row, guint what, const char *key)
{
  g_auto (GStrv) words = g_strsplit_set (cell (self, row, what), " ,", -1);

  dry_json_begin_array (self->writer, key);
  for (guint i = 0; words[i]; i++)
    if (*words[i])
      dry_json_write_string (self->writer, NULL, words[i]);
  dry_json_end_array (self->writer);
}

static gboolean
has_option (const Reading *self, guint row, const char *option)
{
  g_auto (GStrv) words = g_strsplit_set (cell (self, row, OPTIONS), " ,", -1);

  return g_strv_contains ((const char *const *) words, option);
}

static void
put_book (Reading *self, guint row)
{
  put_text (self, row, SOURCE, "note");
  put_text (self, row, ID, "id");
  put_text (self, row, NAME, "name");
  put_text (self, row, UNIT, "currency");
  if (has_option (self, row, "invented"))
    dry_json_write_boolean (self->writer, "invented", TRUE);
  if (has_option (self, row, "catalog-samples"))
    dry_json_write_boolean (self->writer, "catalog_samples", TRUE);
  put_date (self, row, FROM, "valid_from");
  put_date (self, row, TO, "valid_to");
}

static void
put_labor (Reading *self, guint row)
{
  put_money (self, row, PRICE, "rate");
  put_source (self, row);
}

static void
put_task (Reading *self, guint row)
{
  put_text (self, row, ID, "task");
  put_number (self, row, FIXED, "fixed_hours");
  put_number (self, row, EACH, "hours_each");
  put_number (self, row, CREW, "crew");
  put_money (self, row, PRICE, "rate");
  put_source (self, row);
}

static void
put_price (Reading *self, guint row)
{
  put_text (self, row, ID, "id");
  put_text (self, row, SYSTEM, "system");
  put_text (self, row, NAME, "name");
  put_text (self, row, UNIT, "unit");
  put_number (self, row, PACK, "pack");
  put_text (self, row, PACK_NAME, "pack_name");
  put_money (self, row, PRICE, "price");
  put_text (self, row, SUPPLIER, "supplier");
  put_date (self, row, FROM, "valid_from");
  put_date (self, row, TO, "valid_to");
  put_source (self, row);
}

static void
put_waste (Reading *self, guint row)
{
  put_text (self, row, ID, "group");
  put_number (self, row, PERCENT, "percent");
  put_source (self, row);
}

static void
put_delivery (Reading *self, guint row)
{
  put_money (self, row, PRICE, "price");
  put_money (self, row, LIMIT, "free_from");
  put_source (self, row);
}

static void
put_disposal (Reading *self, guint row)
{
  put_money (self, row, PRICE, "price_per_kg");
  put_money (self, row, LIMIT, "minimum");
  put_number (self, row, EACH, "tear_out_kg_per_m2");
  put_source (self, row);
}

static void
put_hire (Reading *self, guint row)
{
  put_text (self, row, ID, "id");
  put_text (self, row, NAME, "name");
  put_money (self, row, PRICE, "price_per_day");
  put_words (self, row, TASKS, "tasks");
  put_source (self, row);
}

static void
put_markup (Reading *self, guint row)
{
  put_number (self, row, PERCENT, "percent");
  put_source (self, row);
}

static void
put_tax (Reading *self, guint row)
{
  put_text (self, row, NAME, "name");
  put_number (self, row, PERCENT, "percent");
  if (has_option (self, row, "on-labor"))
    dry_json_write_boolean (self->writer, "on_labor", TRUE);
  put_source (self, row);
}

/* Kinds of row in the order of the file; a list, or one object. */
static const struct {
  const char *kind, *key;
  gboolean list;
  void (*put) (Reading *, guint);
} kinds[] = {
    {"book", NULL, FALSE, put_book},
    {"labor", "labor", FALSE, put_labor},
    {"task", "tasks", TRUE, put_task},
    {"price", "prices", TRUE, put_price},
    {"waste", "waste", TRUE, put_waste},
    {"delivery", "delivery", FALSE, put_delivery},
    {"disposal", "disposal", FALSE, put_disposal},
    {"hire", "hire", TRUE, put_hire},
    {"markup", "markup", FALSE, put_markup},
    {"tax", "tax", FALSE, put_tax},
};

static void
put_kind (Reading *self, guint kind)
{
  gboolean list = kinds[kind].list;
  guint n = 0;

  for (guint row = 1; row < self->rows->rows->len; row++) {
    if (g_ascii_strcasecmp (cell (self, row, KIND), kinds[kind].kind) != 0)
      continue;
    if (n++ > 0 && !list)
      fail (self, row, KIND, "stands twice");
    if (n == 1 && list)
      dry_json_begin_array (self->writer, kinds[kind].key);
    if (kinds[kind].key)
      dry_json_begin_object (self->writer, list ? NULL : kinds[kind].key);
    if (n == 1 || list)
      kinds[kind].put (self, row);
    if (kinds[kind].key)
      dry_json_end_object (self->writer);
  }
  if (n > 0 && list)
    dry_json_end_array (self->writer);
}

static void
find_columns (Reading *self)
{
  const GArray *first = self->rows->rows->len ? self->rows->rows->pdata[0] : NULL;

  for (guint i = 0; i < N_COLUMNS; i++) {
    self->column[i] = -1;
    for (guint j = 0; first && j < first->len; j++)
      if (g_ascii_strcasecmp (g_strstrip (g_array_index (first, DryCell, j).text), headings[i]) ==
          0)
        self->column[i] = (gint) j;
  }
  if (self->column[KIND] < 0)
    self->error = g_error_new (DRY_ERROR, DRY_ERROR_SCHEMA,
                               "row 1: there is no column “Kind”; docs/cost.md tells the columns");
}

static void
check_kinds (Reading *self)
{
  for (guint row = 1; row < self->rows->rows->len; row++) {
    const char *kind = cell (self, row, KIND);
    gboolean known = *kind == '\0';
    for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
      known |= g_ascii_strcasecmp (kind, kinds[i].kind) == 0;
    if (!known)
      fail (self, row, KIND, "is no kind of row");
  }
}

const DryPriceBook *
dry_price_book_from_rows (const DryRows *rows, const char *name, DryArena *arena, GError **error)
{
  Reading self = {.rows = rows};
  g_autofree char *text = NULL;
  const DryPriceBook *book = NULL;
  gsize length;

  find_columns (&self);
  self.writer = dry_json_writer_new ();
  dry_json_begin_object (self.writer, NULL);
  dry_json_write_string (self.writer, "format", "drybay-prices");
  dry_json_write_integer (self.writer, "version", 1);
  if (!self.error)
    check_kinds (&self);
  for (guint i = 0; !self.error && i < G_N_ELEMENTS (kinds); i++)
    put_kind (&self, i);
  dry_json_end_object (self.writer);
  text = dry_json_writer_finish (self.writer, &length);
  if (self.error)
    g_propagate_prefixed_error (error, self.error, "%s: ", name);
  else
    book = dry_price_book_from_text (text, length, name, arena, error);
  return book;
}
