/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes advice as one JSON object for the command line and for tests; lengths are millimetres.
 * Reckons nothing of its own. */
#include "plan/advisor-private.h"
#include "plan/plan-json-private.h"

static void
write_bands (DryJsonWriter *writer, const char *key, const DryRect *bands, guint n)
{
  dry_json_begin_array (writer, key);
  for (guint i = 0; i < n; i++)
    dry_plan_json_rect (writer, NULL, bands[i]);
  dry_json_end_array (writer);
}

static void
write_reason (DryJsonWriter *writer, const DryAdviceReason *reason)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "id", reason->id);
  dry_json_write_string (writer, "title", reason->title);
  dry_json_write_boolean (writer, "holds", reason->holds);
  dry_json_write_boolean (writer, "must", reason->hard);
  dry_json_write_number (writer, "points", reason->points);
  dry_json_write_string (writer, "text", reason->text);
  dry_working_write_json (&reason->working, writer, "working");
  dry_json_end_object (writer);
}

static void
write_place (DryJsonWriter *writer, const char *key, const DryAdvicePlace *place)
{
  dry_json_begin_object (writer, key);
  dry_json_write_integer (writer, "wall", place->wall);
  dry_json_write_string (writer, "side", place->side == DRY_SIDE_INSIDE ? "inside" : "outside");
  dry_json_write_length (writer, "u", place->u);
  dry_json_write_length (writer, "z", place->z);
  dry_json_write_length (writer, "width", place->width);
  dry_json_write_length (writer, "height", place->height);
  dry_json_write_length (writer, "depth", place->depth);
  if (place->item)
    dry_json_write_string (writer, "item", place->item);
  if (place->tile)
    dry_json_write_string (writer, "tile", place->tile);
  if (place->joint)
    dry_json_write_length (writer, "joint", place->joint);
  if (place->datum.x || place->datum.y) {
    dry_json_begin_array_inline (writer, "datum");
    dry_json_write_length (writer, NULL, place->datum.x);
    dry_json_write_length (writer, NULL, place->datum.y);
    dry_json_end_array (writer);
  }
  dry_json_write_boolean (writer, "legal", place->legal);
  dry_json_write_number (writer, "points", place->points);
  dry_json_write_number (writer, "score", place->score);
  dry_json_begin_array (writer, "reasons");
  for (guint i = 0; i < place->n_reasons; i++)
    write_reason (writer, &place->reasons[i]);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

void
dry_advice_write_json (const DryAdvice *self, guint top, DryAdviceFreedom freedom,
                       DryJsonWriter *writer, const char *key)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  guint n_best = 0, n_changes = 0;
  const DryAdvicePlace *best = dry_advice_find_best (self, arena, freedom, top, &n_best);
  const DryAdviceChange *changes = dry_advice_find_changes (self, arena, &n_changes);
  DryAdvicePlace now = dry_advice_judge (self, arena, self->part->wall, self->part->side,
                                         (DryPoint){self->part->u, self->part->z});

  dry_json_begin_object (writer, key);
  dry_json_write_integer (writer, "part", self->part->id);
  dry_json_write_string (writer, "kind", dry_part_kind_to_text (self->part->kind));
  dry_json_begin_array (writer, "faces");
  for (guint i = 0; i < self->n_faces; i++) {
    const DryAdviceFace *face = &self->faces[i];
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "name", face->name);
    dry_json_write_integer (writer, "wall", face->wall);
    dry_json_write_string (writer, "side", face->side == DRY_SIDE_INSIDE ? "inside" : "outside");
    write_bands (writer, "legal", face->legal, face->n_legal);
    write_bands (writer, "best", face->best, face->n_best);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  write_place (writer, "now", &now);
  dry_json_begin_array (writer, "places");
  for (guint i = 0; i < n_best; i++)
    write_place (writer, NULL, &best[i]);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "changes");
  for (guint i = 0; i < n_changes; i++) {
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "id", changes[i].id);
    dry_json_write_string (writer, "text", changes[i].text);
    dry_json_write_number (writer, "size", changes[i].size);
    write_place (writer, "place", &changes[i].place);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}
