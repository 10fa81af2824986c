/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of the order of work, of waits that somebody means to cut short, and of the tile on
 * order against what the layout takes. Knows no limit; what nobody told is not measured. */
#include "plan/measure-build.h"

#include <string.h>

#define NOWHERE ((DryRect){0})

/* --- the order of work --- */

static void
measure_system_wait (DryMeasuring *self, const char *name, const char *id)
{
  const DryWait *wait = dry_system_get_wait (self->context->system, id);

  if (wait)
    dry_measuring_number (self, name, wait->hours_min, "h", "%s: %s", self->context->system->name,
                          wait->name);
}

static void
measure_waits (DryMeasuring *self)
{
  const DryFinish *finish = &self->context->room->finish;

  if (!finish->tiled)
    return;
  dry_measuring_length (self, "tile-long-side", MAX (finish->tile_width, finish->tile_height),
                        NULL);
  if (finish->grout_after > 0) {
    dry_measuring_number (self, "grout-after", finish->grout_after, "h", "from the last tile");
    measure_system_wait (self, "system-grout-after", "grout");
  }
  if (finish->water_after > 0) {
    dry_measuring_number (self, "water-after", finish->water_after, "h", "from grouting");
    measure_system_wait (self, "system-water-after", "shower");
  }
}

void
dry_measure_order (DryMeasuring *self)
{
  const DryOrder *order = self->plan->order;
  gboolean holds = FALSE;

  if (!order->n)
    return;
  for (guint i = 0; i < order->n; i++)
    holds |= order->items[i].hold && strstr (order->items[i].id, "flood") != NULL;
  dry_measuring_begin (self, "order", 0, -1, NOWHERE, "The order of work");
  dry_measuring_boolean (
      self, "is-pan",
      self->context->room->basin.id && self->context->room->basin.kind == DRY_BASIN_PAN, NULL);
  dry_measuring_boolean (self, "flood-test", holds, "%u steps looked through for a hold", order->n);
  dry_measuring_number (self, "hours-to-tile", order->hours_to_tile_min, "h", NULL);
  measure_waits (self);
  dry_measuring_end (self);
}

/* --- the tile on order --- */

/* What the layout takes, its cuts and no spares: tiles, or sheets. */
static guint
count_taken (const DryTiling *tiling)
{
  return tiling->sheet_across > 0 ? tiling->n_whole_sheets + tiling->n_part_sheets
                                  : tiling->n_whole + tiling->n_for_cuts;
}

void
dry_measure_tile_order (DryMeasuring *self)
{
  const DryTiling *tiling = self->plan->tiling;
  const DryFinish *finish = &self->context->room->finish;
  const char *unit = tiling->sheet_across > 0 ? "sheets" : "tiles";
  guint taken = count_taken (tiling);
  double covered;

  dry_measuring_boolean (self, "mixed-lots", finish->mixed_lots, NULL);
  dry_measuring_boolean (self, "diagonal", finish->pattern == DRY_PATTERN_DIAGONAL, NULL);
  dry_measuring_boolean (self, "herringbone", finish->pattern == DRY_PATTERN_HERRINGBONE, NULL);
  if (finish->tiles_ordered == 0 || taken == 0)
    return;
  covered = finish->tiles_ordered * tiling->area_each;
  dry_measuring_number (self, "ordered-over", 100 * (covered / tiling->area - 1), "%",
                        "%d %s cover %s m2 of %s m2", finish->tiles_ordered, unit,
                        dry_measuring_decimal (self, covered, 2),
                        dry_measuring_decimal (self, tiling->area, 2));
  dry_measuring_number (self, "ordered-short", MAX (0, (gint) taken - finish->tiles_ordered), "",
                        "%u %s taken by the layout with its cuts, %d on order", taken, unit,
                        finish->tiles_ordered);
}
