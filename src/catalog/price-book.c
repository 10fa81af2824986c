/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads and writes a price book as JSON, strictly: unknown keys, negative prices and prices without
 * a source are refused. It knows no plan and computes nothing. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/price-book.h"

#include <string.h>

#include "catalog/read.h"

#define FORMAT     "drybay-prices"
#define MAX_PRICES 20000
#define MAX_TASKS  200
#define MAX_HOURS  1000

static const DrySource not_given = {"not given", DRY_CERTAINTY_MEMORY};

static const char *
read_text_or_null (DryJson node, DryArena *arena)
{
  return dry_json_is_present (node) ? dry_read_text (node, arena) : NULL;
}

/* "2026-01-31"; that the day exists is the plan's to see. */
static const char *
read_date_or_null (DryJson node, DryArena *arena)
{
  const char *text = read_text_or_null (node, arena);

  if (!text || dry_json_has_failed (node.doc))
    return NULL;
  for (guint i = 0; i < 10; i++)
    if (strlen (text) != 10 || (i == 4 || i == 7 ? text[i] != '-' : !g_ascii_isdigit (text[i]))) {
      dry_json_fail (node, DRY_ERROR_SCHEMA, "a date is written as 2026-01-31");
      return NULL;
    }
  return text;
}

static gint64
read_money (DryJson node, gint64 least)
{
  return dry_json_integer (node, least, DRY_CATALOG_MAX_PRICE);
}

static DryPrice
read_price (DryJson node, DryArena *arena)
{
  DryPrice price;

  dry_json_only_keys (node, "id", "system", "name", "unit", "pack", "pack_name", "price",
                      "supplier", "valid_from", "valid_to", "source", "certainty", NULL);
  price.id = dry_read_id (dry_json_get (node, "id"), arena);
  price.system = dry_read_id_or_null (dry_json_opt (node, "system"), arena);
  price.name = read_text_or_null (dry_json_opt (node, "name"), arena);
  price.unit = dry_read_text (dry_json_get (node, "unit"), arena);
  price.pack = dry_json_number (dry_json_get (node, "pack"), 1e-6, 1e9);
  price.pack_name = dry_read_text (dry_json_get (node, "pack_name"), arena);
  price.price = read_money (dry_json_get (node, "price"), 1);
  price.supplier = read_text_or_null (dry_json_opt (node, "supplier"), arena);
  price.valid_from = read_date_or_null (dry_json_opt (node, "valid_from"), arena);
  price.valid_to = read_date_or_null (dry_json_opt (node, "valid_to"), arena);
  price.source = dry_read_source (node, arena);
  return price;
}

static DryTaskRate
read_task (DryJson node, DryArena *arena)
{
  DryTaskRate task;

  dry_json_only_keys (node, "task", "fixed_hours", "hours_each", "crew", "rate", "source",
                      "certainty", NULL);
  task.task = dry_read_id (dry_json_get (node, "task"), arena);
  task.fixed = dry_json_number_or (dry_json_opt (node, "fixed_hours"), 0, MAX_HOURS, -1);
  task.each = dry_json_number_or (dry_json_opt (node, "hours_each"), 0, MAX_HOURS, -1);
  task.crew = (gint) dry_json_integer_or (dry_json_opt (node, "crew"), 1, 50, 0);
  task.rate = dry_json_integer_or (dry_json_opt (node, "rate"), 1, DRY_CATALOG_MAX_PRICE, 0);
  task.source = dry_read_source (node, arena);
  return task;
}

static DryWaste
read_waste (DryJson node, DryArena *arena)
{
  DryWaste waste;

  dry_json_only_keys (node, "group", "percent", "source", "certainty", NULL);
  waste.group = dry_read_id (dry_json_get (node, "group"), arena);
  waste.percent = dry_json_number (dry_json_get (node, "percent"), 0, 100);
  waste.source = dry_read_source (node, arena);
  return waste;
}

static DryHire
read_hire (DryJson node, DryArena *arena)
{
  DryJson list = dry_json_get (node, "tasks");
  guint n = dry_read_count (list, 1, MAX_TASKS);
  const char **tasks = dry_arena_new_array (arena, const char *, n + 1);
  DryHire hire;

  dry_json_only_keys (node, "id", "name", "price_per_day", "tasks", "source", "certainty", NULL);
  hire.id = dry_read_id (dry_json_get (node, "id"), arena);
  hire.name = dry_read_text (dry_json_get (node, "name"), arena);
  hire.price = read_money (dry_json_get (node, "price_per_day"), 1);
  for (guint i = 0; i < n; i++)
    tasks[i] = dry_read_id (dry_json_item (list, i), arena);
  hire.tasks = tasks;
  hire.source = dry_read_source (node, arena);
  return hire;
}

#define READ_LIST(root, key, most, Type, function, out, n_out, arena)                              \
  G_STMT_START                                                                                     \
  {                                                                                                \
    DryJson list_ = dry_json_opt (root, key);                                                      \
    guint n_ = dry_json_is_present (list_) ? dry_read_count (list_, 0, most) : 0;                  \
    Type *values_ = dry_arena_new_array (arena, Type, n_);                                         \
    for (guint i_ = 0; i_ < n_ && !dry_json_has_failed ((root).doc); i_++)                         \
      values_[i_] = function (dry_json_item (list_, i_), arena);                                   \
    out = values_;                                                                                 \
    n_out = n_;                                                                                    \
  }                                                                                                \
  G_STMT_END

static void
read_labor (DryPriceBook *self, DryJson node, DryArena *arena)
{
  self->rate_source = not_given;
  if (!dry_json_is_present (node))
    return;
  dry_json_only_keys (node, "rate", "source", "certainty", NULL);
  self->rate = read_money (dry_json_get (node, "rate"), 1);
  self->rate_source = dry_read_source (node, arena);
}

static void
read_delivery (DryPriceBook *self, DryJson node, DryArena *arena)
{
  self->delivery = -1;
  self->delivery_source = not_given;
  if (!dry_json_is_present (node))
    return;
  dry_json_only_keys (node, "price", "free_from", "source", "certainty", NULL);
  self->delivery = read_money (dry_json_get (node, "price"), 0);
  self->free_delivery =
      dry_json_integer_or (dry_json_opt (node, "free_from"), 0, DRY_CATALOG_MAX_PRICE, 0);
  self->delivery_source = dry_read_source (node, arena);
}

static void
read_disposal (DryPriceBook *self, DryJson node, DryArena *arena)
{
  self->disposal = -1;
  self->disposal_source = not_given;
  if (!dry_json_is_present (node))
    return;
  dry_json_only_keys (node, "price_per_kg", "minimum", "tear_out_kg_per_m2", "source", "certainty",
                      NULL);
  self->disposal = read_money (dry_json_get (node, "price_per_kg"), 0);
  self->disposal_minimum =
      dry_json_integer_or (dry_json_opt (node, "minimum"), 0, DRY_CATALOG_MAX_PRICE, 0);
  self->tear_out = dry_json_number_or (dry_json_opt (node, "tear_out_kg_per_m2"), 0, 1000, 0);
  self->disposal_source = dry_read_source (node, arena);
}

static void
read_markup_and_tax (DryPriceBook *self, DryJson root, DryArena *arena)
{
  DryJson markup = dry_json_opt (root, "markup"), tax = dry_json_opt (root, "tax");

  self->markup_source = self->tax_source = not_given;
  if (dry_json_is_present (markup)) {
    dry_json_only_keys (markup, "percent", "source", "certainty", NULL);
    self->markup = dry_json_number (dry_json_get (markup, "percent"), 0, 1000);
    self->markup_source = dry_read_source (markup, arena);
  }
  if (dry_json_is_present (tax)) {
    dry_json_only_keys (tax, "name", "percent", "on_labor", "source", "certainty", NULL);
    self->tax_name = dry_read_text (dry_json_get (tax, "name"), arena);
    self->tax = dry_json_number (dry_json_get (tax, "percent"), 0, 100);
    self->tax_labor = dry_json_boolean_or (dry_json_opt (tax, "on_labor"), FALSE);
    self->tax_source = dry_read_source (tax, arena);
  }
}

static const char *
read_currency (DryJson node, DryArena *arena)
{
  const char *text = dry_json_string (node);

  if (!dry_json_has_failed (node.doc) &&
      (strlen (text) != 3 || strspn (text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3))
    dry_json_fail (node, DRY_ERROR_SCHEMA, "a currency is three capital letters, as USD");
  return dry_arena_strdup (arena, text);
}

const DryPriceBook *
dry_price_book_read (DryJson root, DryArena *arena)
{
  DryPriceBook *self = dry_arena_alloc (arena, sizeof *self);

  if (!dry_read_head (root, FORMAT))
    return NULL;
  dry_json_only_keys (root, "format", "version", "note", "id", "name", "currency", "invented",
                      "catalog_samples", "valid_from", "valid_to", "labor", "tasks", "prices",
                      "waste", "delivery", "disposal", "hire", "markup", "tax", NULL);
  self->id = dry_read_id (dry_json_get (root, "id"), arena);
  self->name = dry_read_text (dry_json_get (root, "name"), arena);
  self->note = read_text_or_null (dry_json_opt (root, "note"), arena);
  self->currency = read_currency (dry_json_get (root, "currency"), arena);
  self->invented = dry_json_boolean_or (dry_json_opt (root, "invented"), FALSE);
  self->samples = dry_json_boolean_or (dry_json_opt (root, "catalog_samples"), FALSE);
  self->valid_from = read_date_or_null (dry_json_opt (root, "valid_from"), arena);
  self->valid_to = read_date_or_null (dry_json_opt (root, "valid_to"), arena);
  read_labor (self, dry_json_opt (root, "labor"), arena);
  READ_LIST (root, "tasks", MAX_TASKS, DryTaskRate, read_task, self->tasks, self->n_tasks, arena);
  READ_LIST (root, "prices", MAX_PRICES, DryPrice, read_price, self->prices, self->n_prices, arena);
  READ_LIST (root, "waste", MAX_TASKS, DryWaste, read_waste, self->waste, self->n_waste, arena);
  read_delivery (self, dry_json_opt (root, "delivery"), arena);
  read_disposal (self, dry_json_opt (root, "disposal"), arena);
  READ_LIST (root, "hire", MAX_TASKS, DryHire, read_hire, self->hire, self->n_hire, arena);
  read_markup_and_tax (self, root, arena);
  return dry_json_has_failed (root.doc) ? NULL : self;
}

const DryPriceBook *
dry_price_book_from_text (const char *text, gsize length, const char *name, DryArena *arena,
                          GError **error)
{
  g_autoptr (DryJsonDocument) document = dry_json_document_new (text, length, name, error);
  const DryPriceBook *book;

  if (!document)
    return NULL;
  book = dry_price_book_read (dry_json_root (document), arena);
  return dry_json_finish (document, error) ? book : NULL;
}

/* --- writing --- */

static void
write_text (DryJsonWriter *writer, const char *key, const char *text)
{
  if (text)
    dry_json_write_string (writer, key, text);
}

static void
write_source (DryJsonWriter *writer, const DrySource *source)
{
  dry_json_write_string (writer, "source", source->text);
  dry_json_write_string (writer, "certainty", dry_certainty_to_text (source->certainty));
}

static void
write_price (DryJsonWriter *writer, const DryPrice *price)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "id", price->id);
  write_text (writer, "system", price->system);
  write_text (writer, "name", price->name);
  dry_json_write_string (writer, "unit", price->unit);
  dry_json_write_number (writer, "pack", price->pack);
  dry_json_write_string (writer, "pack_name", price->pack_name);
  dry_json_write_integer (writer, "price", price->price);
  write_text (writer, "supplier", price->supplier);
  write_text (writer, "valid_from", price->valid_from);
  write_text (writer, "valid_to", price->valid_to);
  write_source (writer, &price->source);
  dry_json_end_object (writer);
}

static void
write_task (DryJsonWriter *writer, const DryTaskRate *task)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "task", task->task);
  if (task->fixed >= 0)
    dry_json_write_number (writer, "fixed_hours", task->fixed);
  if (task->each >= 0)
    dry_json_write_number (writer, "hours_each", task->each);
  if (task->crew > 0)
    dry_json_write_integer (writer, "crew", task->crew);
  if (task->rate > 0)
    dry_json_write_integer (writer, "rate", task->rate);
  write_source (writer, &task->source);
  dry_json_end_object (writer);
}

static void
write_lists (DryJsonWriter *writer, const DryPriceBook *self)
{
  if (self->n_tasks > 0) {
    dry_json_begin_array (writer, "tasks");
    for (guint i = 0; i < self->n_tasks; i++)
      write_task (writer, &self->tasks[i]);
    dry_json_end_array (writer);
  }
  if (self->n_prices > 0) {
    dry_json_begin_array (writer, "prices");
    for (guint i = 0; i < self->n_prices; i++)
      write_price (writer, &self->prices[i]);
    dry_json_end_array (writer);
  }
  if (self->n_waste > 0) {
    dry_json_begin_array (writer, "waste");
    for (guint i = 0; i < self->n_waste; i++) {
      dry_json_begin_object (writer, NULL);
      dry_json_write_string (writer, "group", self->waste[i].group);
      dry_json_write_number (writer, "percent", self->waste[i].percent);
      write_source (writer, &self->waste[i].source);
      dry_json_end_object (writer);
    }
    dry_json_end_array (writer);
  }
}

static void
write_hire (DryJsonWriter *writer, const DryPriceBook *self)
{
  if (self->n_hire == 0)
    return;
  dry_json_begin_array (writer, "hire");
  for (guint i = 0; i < self->n_hire; i++) {
    const DryHire *hire = &self->hire[i];
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "id", hire->id);
    dry_json_write_string (writer, "name", hire->name);
    dry_json_write_integer (writer, "price_per_day", hire->price);
    dry_json_begin_array_inline (writer, "tasks");
    for (guint j = 0; hire->tasks[j]; j++)
      dry_json_write_string (writer, NULL, hire->tasks[j]);
    dry_json_end_array (writer);
    write_source (writer, &hire->source);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

static void
write_rest (DryJsonWriter *writer, const DryPriceBook *self)
{
  if (self->delivery >= 0) {
    dry_json_begin_object (writer, "delivery");
    dry_json_write_integer (writer, "price", self->delivery);
    if (self->free_delivery > 0)
      dry_json_write_integer (writer, "free_from", self->free_delivery);
    write_source (writer, &self->delivery_source);
    dry_json_end_object (writer);
  }
  if (self->disposal >= 0) {
    dry_json_begin_object (writer, "disposal");
    dry_json_write_integer (writer, "price_per_kg", self->disposal);
    if (self->disposal_minimum > 0)
      dry_json_write_integer (writer, "minimum", self->disposal_minimum);
    if (self->tear_out > 0)
      dry_json_write_number (writer, "tear_out_kg_per_m2", self->tear_out);
    write_source (writer, &self->disposal_source);
    dry_json_end_object (writer);
  }
  write_hire (writer, self);
  if (self->markup > 0) {
    dry_json_begin_object (writer, "markup");
    dry_json_write_number (writer, "percent", self->markup);
    write_source (writer, &self->markup_source);
    dry_json_end_object (writer);
  }
  if (self->tax_name) {
    dry_json_begin_object (writer, "tax");
    dry_json_write_string (writer, "name", self->tax_name);
    dry_json_write_number (writer, "percent", self->tax);
    if (self->tax_labor)
      dry_json_write_boolean (writer, "on_labor", TRUE);
    write_source (writer, &self->tax_source);
    dry_json_end_object (writer);
  }
}

void
dry_price_book_write_json (const DryPriceBook *self, DryJsonWriter *writer)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "format", FORMAT);
  dry_json_write_integer (writer, "version", 1);
  write_text (writer, "note", self->note);
  dry_json_write_string (writer, "id", self->id);
  dry_json_write_string (writer, "name", self->name);
  dry_json_write_string (writer, "currency", self->currency);
  if (self->invented)
    dry_json_write_boolean (writer, "invented", TRUE);
  if (self->samples)
    dry_json_write_boolean (writer, "catalog_samples", TRUE);
  write_text (writer, "valid_from", self->valid_from);
  write_text (writer, "valid_to", self->valid_to);
  if (self->rate > 0) {
    dry_json_begin_object (writer, "labor");
    dry_json_write_integer (writer, "rate", self->rate);
    write_source (writer, &self->rate_source);
    dry_json_end_object (writer);
  }
  write_lists (writer, self);
  write_rest (writer, self);
  dry_json_end_object (writer);
}

char *
dry_price_book_to_text (const DryPriceBook *self, gsize *length)
{
  DryJsonWriter *writer = dry_json_writer_new ();

  dry_price_book_write_json (self, writer);
  return dry_json_writer_finish (writer, length);
}

/* --- look-ups --- */

const DryTaskRate *
dry_price_book_get_task (const DryPriceBook *self, const char *task)
{
  for (guint i = 0; self && i < self->n_tasks; i++)
    if (g_str_equal (self->tasks[i].task, task))
      return &self->tasks[i];
  return NULL;
}

const DryWaste *
dry_price_book_get_waste (const DryPriceBook *self, const char *group)
{
  for (guint i = 0; self && group && i < self->n_waste; i++)
    if (g_str_equal (self->waste[i].group, group))
      return &self->waste[i];
  return NULL;
}
