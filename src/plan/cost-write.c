/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cost as JSON and as a table for a spreadsheet. The same lines and sums in both; a gap has no
 * price and no cost in either. */
#include "plan/cost.h"

static void
write_line (const DryCostLine *line, DryJsonWriter *writer)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "group", dry_cost_group_to_text (line->group));
  if (line->room != DRY_COST_JOB)
    dry_json_write_integer (writer, "room", line->room + 1);
  dry_json_write_string (writer, "id", line->id);
  dry_json_write_string (writer, "name", line->name);
  if (line->part)
    dry_json_write_string (writer, "part", line->part);
  dry_json_write_number (writer, "amount", line->amount);
  dry_json_write_string (writer, "unit", line->unit);
  if (line->pack_name) {
    dry_json_write_number (writer, "pack", line->pack);
    dry_json_write_string (writer, "pack_name", line->pack_name);
    dry_json_write_integer (writer, "packs", line->packs);
  }
  if (line->priced) {
    if (line->price > 0)
      dry_json_write_integer (writer, "price", line->price);
    dry_json_write_integer (writer, "cost", line->cost);
  }
  if (line->supplier)
    dry_json_write_string (writer, "supplier", line->supplier);
  if (line->sample)
    dry_json_write_boolean (writer, "sample", TRUE);
  if (line->expired)
    dry_json_write_boolean (writer, "expired", TRUE);
  dry_working_write_json (&line->working, writer, "working");
  dry_json_end_object (writer);
}

void
dry_cost_write_json (const DryCost *self, DryJsonWriter *writer, const char *key)
{
  dry_json_begin_object (writer, key);
  dry_json_write_string (writer, "book", self->book->id);
  dry_json_write_string (writer, "currency", self->book->currency);
  dry_json_write_string (writer, "money", "hundredths of the currency");
  if (self->book->invented)
    dry_json_write_boolean (writer, "invented", TRUE);
  dry_json_begin_object (writer, "sums");
  for (guint i = 0; i < DRY_N_COST_GROUPS; i++)
    dry_json_write_integer (writer, dry_cost_group_to_text (i), self->sum[i]);
  dry_json_end_object (writer);
  dry_json_write_integer (writer, "total", self->total);
  dry_json_write_integer (writer, "gaps", self->n_gaps);
  dry_json_write_integer (writer, "samples", self->n_samples);
  if (self->dated)
    dry_json_write_integer (writer, "expired", self->n_expired);
  dry_json_write_number (writer, "hours", self->hours);
  dry_json_write_number (writer, "disposal_kg", self->disposal_mass);
  dry_json_begin_array (writer, "lines");
  for (guint i = 0; i < self->n; i++)
    write_line (&self->lines[i], writer);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static void
add_line (DryRows *rows, const DryCostLine *line, const char *room)
{
  dry_rows_begin (rows);
  dry_rows_add_text (rows, dry_cost_group_to_text (line->group));
  dry_rows_add_text (rows, room);
  dry_rows_add_text (rows, line->id);
  dry_rows_add_text (rows, line->name);
  dry_rows_add_number (rows, line->amount, 6);
  dry_rows_add_text (rows, line->unit);
  dry_rows_add_text (rows, line->pack_name);
  if (line->pack_name)
    dry_rows_add_number (rows, (double) line->packs, 0);
  else
    dry_rows_add_text (rows, NULL);
  if (line->priced && line->price > 0)
    dry_rows_add_money (rows, line->price);
  else
    dry_rows_add_text (rows, NULL);
  if (line->priced)
    dry_rows_add_money (rows, line->cost);
  else
    dry_rows_add_text (rows, "no price");
  dry_rows_add_text (rows, line->supplier);
  dry_rows_add_text (rows, line->working.formula);
  dry_rows_add_text (rows, line->working.source.text);
  dry_rows_add_text (rows, dry_certainty_to_text (line->working.source.certainty));
}

static void
add_sum (DryRows *rows, const char *what, gint64 sum)
{
  dry_rows_begin (rows);
  dry_rows_add_text (rows, what);
  for (guint i = 0; i < 8; i++)
    dry_rows_add_text (rows, NULL);
  dry_rows_add_money (rows, sum);
}

DryRows *
dry_cost_to_rows (const DryCost *self, const DryPlan *const *plans)
{
  static const char *const headings[] = {"Group",    "Room",    "Id",     "Item",     "Amount",
                                         "Unit",     "Pack",    "Packs",  "Price",    "Cost",
                                         "Supplier", "Working", "Source", "Certainty"};
  DryRows *rows = dry_rows_new ();

  dry_rows_begin (rows);
  for (guint i = 0; i < G_N_ELEMENTS (headings); i++)
    dry_rows_add_text (rows, headings[i]);
  for (guint i = 0; i < self->n; i++) {
    const DryCostLine *line = &self->lines[i];
    add_line (rows, line,
              line->room == DRY_COST_JOB ? NULL : plans[line->room]->context.room->name);
  }
  for (guint i = 0; i < DRY_N_COST_GROUPS; i++) {
    g_autofree char *what = g_strdup_printf ("sum of %s", dry_cost_group_to_text (i));
    add_sum (rows, what, self->sum[i]);
  }
  add_sum (rows, "total", self->total);
  return rows;
}
