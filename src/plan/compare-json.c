/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison as JSON: one object an option, the figures under the same names in each.
 * It reckons nothing of its own. */
#include "plan/compare.h"

static void
write_day (DryJsonWriter *writer, const char *key, gint64 days)
{
  if (days > 0)
    dry_json_write_integer (writer, key, days);
  else
    dry_json_write_string (writer, key, NULL);
}

static void
write_figures (const DryOption *self, DryJsonWriter *writer)
{
  dry_json_write_integer (writer, "cost", self->cost->total);
  dry_json_write_string (writer, "currency", self->cost->book->currency);
  dry_json_write_integer (writer, "gaps", self->cost->n_gaps);
  dry_json_write_number (writer, "hours", self->hours);
  write_day (writer, "days_to_tile", self->days_to_tile);
  write_day (writer, "days_to_shower", self->days_to_shower);
  dry_json_write_string (writer, "tile_day",
                         self->days_to_tile > 0
                             ? dry_schedule_day (self->schedule, self->schedule->tile_start)
                             : NULL);
  dry_json_write_string (
      writer, "shower_day",
      self->days_to_shower > 0 ? dry_schedule_day (self->schedule, self->schedule->shower) : NULL);
  dry_json_write_integer (writer, "sheets", self->sheets);
  dry_json_write_integer (writer, "boards", self->boards);
  dry_json_write_integer (writer, "cuts", self->cuts);
  dry_json_write_integer (writer, "blocks", self->blocks);
  dry_json_write_integer (writer, "screws", self->screws);
  dry_json_write_integer (writer, "seams", self->seams);
  dry_json_write_length (writer, "seam_length", self->seam_length);
  dry_json_write_number (writer, "weight_kg", self->weight);
  dry_json_write_boolean (writer, "weight_whole", self->weight_whole);
  dry_json_write_length (writer, "thickness", self->thickness);
  dry_json_begin_object_inline (writer, "findings");
  dry_json_write_integer (writer, "stop", self->findings[DRY_SEVERITY_STOP]);
  dry_json_write_integer (writer, "fix", self->findings[DRY_SEVERITY_FIX]);
  dry_json_write_integer (writer, "advice", self->findings[DRY_SEVERITY_ADVICE]);
  dry_json_end_object (writer);
}

static void
write_option (const DryOption *self, DryJsonWriter *writer)
{
  dry_json_begin_object (writer, NULL);
  if (self->id != 0)
    dry_json_write_integer (writer, "id", self->id);
  dry_json_write_string (writer, "name", self->name);
  if (self->note)
    dry_json_write_string (writer, "note", self->note);
  write_figures (self, writer);
  dry_json_begin_array (writer, "skill");
  for (guint i = 0; i < self->n_skill; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_string (writer, "step", self->skill[i].step);
    dry_json_write_string (writer, "why", self->skill[i].why);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "differences");
  for (guint i = 0; i < self->n_differences; i++) {
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "text", self->differences[i].text);
    if (self->differences[i].why)
      dry_json_write_string (writer, "why", self->differences[i].why);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

void
dry_comparison_write_json (const DryComparison *self, DryJsonWriter *writer, const char *key)
{
  dry_json_begin_object (writer, key);
  dry_json_write_string (writer, "money", "hundredths of the currency");
  dry_json_begin_array (writer, "options");
  for (guint i = 0; i < self->n; i++)
    write_option (&self->options[i], writer);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}
