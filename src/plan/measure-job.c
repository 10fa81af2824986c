/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of the job, the room, the backer system, the tile and the order of work.
 * Nothing here hangs on a wall. */
#include "plan/measure-build.h"

#include <string.h>

#define NOWHERE ((DryRect){0})

static void
measure_job (DryMeasuring *self)
{
  const DryJob *job = self->context->job;

  dry_measuring_begin (self, "job", 0, -1, NOWHERE, "The house");
  if (job->year_built > 0)
    dry_measuring_number (self, "year-built", job->year_built, "", NULL);
  dry_measuring_number (self, "temperature", job->temperature, "degrees C", NULL);
  dry_measuring_boolean (self, "dry-saw", job->dry_saw, NULL);
  if (job->grinding_hours > 0)
    dry_measuring_number (self, "grinding-hours", job->grinding_hours, "h", NULL);
  dry_measuring_end (self);
}

static double
sum_flow (const DryRoom *room, guint *n)
{
  double flow = 0;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    if (part->kind != DRY_PART_SHOWER_HEAD && part->kind != DRY_PART_HAND_SHOWER)
      continue;
    flow += part->flow_lpm;
    (*n)++;
  }
  return flow;
}

static void
measure_ceiling (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;
  const DrySystem *system = self->context->system;

  dry_measuring_length (self, "ceiling", room->ceiling, NULL);
  dry_measuring_boolean (self, "ceiling-tiled", room->wet.ceiling, NULL);
  dry_measuring_boolean (self, "ceiling-framing-known", room->joist_spacing > 0, NULL);
  if (room->joist_spacing > 0)
    dry_measuring_length (self, "ceiling-framing", room->joist_spacing, NULL);
  dry_measuring_boolean (self, "system-allows-ceiling", system->ceiling_spacing_max.value > 0,
                         NULL);
  if (system->ceiling_spacing_max.value > 0)
    dry_measuring_length (self, "system-ceiling-framing", system->ceiling_spacing_max.value,
                          "%s: ceiling framing at most %s on center", system->name,
                          dry_measuring_text (self, system->ceiling_spacing_max.value));
}

static void
measure_room (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;
  guint n_heads = 0;
  double flow = sum_flow (room, &n_heads);

  dry_measuring_begin (self, "room", room->id, -1, NOWHERE, room->name);
  measure_ceiling (self);
  dry_measuring_boolean (self, "has-basin", room->basin.id != 0, NULL);
  dry_measuring_boolean (self, "has-shower", n_heads > 0, NULL);
  dry_measuring_boolean (self, "has-valve", dry_measuring_find_part (self, DRY_PART_VALVE) != NULL,
                         NULL);
  dry_measuring_number (self, "heads", n_heads, "", NULL);
  dry_measuring_number (self, "flow", flow, "L/min", "sum of %u head%s", n_heads,
                        n_heads == 1 ? "" : "s");
  dry_measure_survey (self);
  dry_measuring_end (self);
}

static gboolean
finds_amount (const DryCoating *coating, const char *product)
{
  for (guint i = 0; product && i < coating->n; i++)
    if (coating->items[i].product && strcmp (coating->items[i].product->id, product) == 0 &&
        coating->items[i].amount > 0)
      return TRUE;
  return FALSE;
}

static gboolean
finds_thickness (const DrySystem *system, DryLength thickness)
{
  for (guint i = 0; i < system->n_thicknesses; i++)
    if (system->thicknesses[i].value == thickness)
      return TRUE;
  return system->n_thicknesses == 0;
}

static void
measure_system (DryMeasuring *self)
{
  const DrySystem *system = self->context->system;
  const DryPlan *plan = self->plan;

  dry_measuring_begin (self, "system", 0, -1, NOWHERE, system->name);
  dry_measuring_length (self, "board", self->context->build_up.board, NULL);
  dry_measuring_boolean (
      self, "board-offered", finds_thickness (system, self->context->build_up.board),
      "%u thickness%s offered", system->n_thicknesses, system->n_thicknesses == 1 ? "" : "es");
  dry_measuring_boolean (self, "needs-membrane", system->needs_membrane, NULL);
  dry_measuring_boolean (self, "has-membrane",
                         system->membrane != DRY_MEMBRANE_NONE && system->membrane_product, NULL);
  dry_measuring_boolean (self, "liquid-membrane", system->membrane == DRY_MEMBRANE_LIQUID, NULL);
  if (system->membrane == DRY_MEMBRANE_LIQUID) {
    dry_measuring_number (self, "coats", system->coats, "", NULL);
    dry_measuring_number (self, "dry-film", system->dry_film.value, "mm", NULL);
  }
  dry_measuring_length (self, "joint-gap", system->joint_gap, NULL);
  dry_measuring_boolean (self, "must-cover-fasteners", system->cover_fasteners, NULL);
  dry_measuring_number (self, "fasteners", plan->fasteners->n, "", NULL);
  dry_measuring_boolean (self, "covers-fasteners",
                         finds_amount (plan->coating, system->cover_product) ||
                             (system->membrane != DRY_MEMBRANE_NONE &&
                              finds_amount (plan->coating, system->membrane_product)),
                         "%u fasteners, covered by %s", plan->fasteners->n,
                         system->fastener_cover ? system->fastener_cover : "nothing");
  dry_measuring_boolean (self, "allows-floor", system->allows_floor, NULL);
  dry_measuring_boolean (self, "allows-steam", system->allows_steam, NULL);
  dry_measure_records (self);
  dry_measuring_end (self);
}

static void
measure_tile_mass (DryMeasuring *self, const DryFinish *finish)
{
  const DryItem *item =
      finish->tile ? dry_catalog_get_item (self->context->catalog, finish->tile) : NULL;

  if (item && item->tile_mass > 0)
    dry_measuring_number (self, "mass", item->tile_mass, "kg/m2", "tile “%s”", item->name);
  if (self->context->system->tile_mass_max.value > 0)
    dry_measuring_number (self, "system-mass", self->context->system->tile_mass_max.value, "kg/m2",
                          NULL);
}

/* What it is set in, its trim, and what was found behind it. The system's mortar is a sentence; it
 * asks for the plain kind when it says "unmodified". */
static void
measure_setting (DryMeasuring *self, const DryFinish *finish)
{
  const char *asked = self->context->system->tile_mortar;
  gboolean plain = asked && strstr (asked, "unmodified") != NULL;
  double area = dry_length_to_mm (finish->tile_width) * dry_length_to_mm (finish->tile_height);

  dry_measuring_number (self, "area", area / 100, "cm2", "%s x %s",
                        dry_measuring_text (self, finish->tile_width),
                        dry_measuring_text (self, finish->tile_height));
  dry_measuring_boolean (self, "mortar-as-asked",
                         finish->mortar_kind == DRY_MORTAR_AS_SYSTEM ||
                             (finish->mortar_kind == DRY_MORTAR_UNMODIFIED) == plain,
                         "the system asks for: %s", asked ? asked : "nothing special");
  if (finish->variation > 0)
    dry_measuring_length (self, "variation", finish->variation, "largest face less smallest");
  if (finish->trim > 0)
    dry_measuring_length (self, "trim-past-tile", finish->trim - finish->tile_thickness,
                          "trim of %s less tile of %s", dry_measuring_text (self, finish->trim),
                          dry_measuring_text (self, finish->tile_thickness));
  if (finish->coverage > 0)
    dry_measuring_number (self, "coverage", finish->coverage, "%", "found behind lifted tile");
  if (self->context->job->saw > 0)
    dry_measuring_length (self, "saw", self->context->job->saw, "longest cut of the saw at hand");
}

static void
measure_tile (DryMeasuring *self)
{
  const DryFinish *finish = &self->context->room->finish;

  if (!finish->tiled)
    return;
  dry_measuring_begin (self, "tile", 0, -1, NOWHERE, "The tile");
  dry_measuring_length (self, "long-side", MAX (finish->tile_width, finish->tile_height), NULL);
  dry_measuring_length (self, "short-side", MIN (finish->tile_width, finish->tile_height), NULL);
  dry_measuring_length (self, "thickness", finish->tile_thickness, NULL);
  dry_measuring_length (self, "joint", finish->joint, NULL);
  dry_measuring_length (self, "mortar", finish->mortar, NULL);
  dry_measuring_boolean (self, "offset-pattern", finish->pattern == DRY_PATTERN_OFFSET, NULL);
  if (finish->pattern == DRY_PATTERN_OFFSET)
    dry_measuring_number (self, "offset", finish->offset * 100, "%", NULL);
  dry_measuring_boolean (self, "system-allows-floor", self->context->system->allows_floor, NULL);
  dry_measuring_boolean (self, "system-allows-steam", self->context->system->allows_steam, NULL);
  measure_tile_mass (self, finish);
  measure_setting (self, finish);
  dry_measure_tile_order (self);
  dry_measuring_end (self);
}

static void
measure_water (DryMeasuring *self)
{
  const DryWater *water = self->plan->water;
  guint nowhere = 0;

  if (!water || !water->n_paths)
    return;
  for (guint i = 0; i < water->n_breaks; i++)
    nowhere += water->breaks[i].kind == DRY_BREAK_NOWHERE;
  dry_measuring_begin (self, "water", 0, -1, NOWHERE, "The water's way");
  dry_measuring_boolean (self, "closed", water->closed, "%u way%s followed, %u break%s",
                         water->n_paths, water->n_paths == 1 ? "" : "s", water->n_breaks,
                         water->n_breaks == 1 ? "" : "s");
  dry_measuring_number (self, "breaks", water->n_breaks, "", NULL);
  dry_measuring_number (self, "nowhere", nowhere, "", "wet walls that end over nothing");
  dry_measuring_end (self);
}

void
dry_measure_job (DryMeasuring *self)
{
  measure_job (self);
  measure_room (self);
  dry_measure_floor (self);
  measure_system (self);
  measure_tile (self);
  dry_measure_order (self);
  measure_water (self);
}
