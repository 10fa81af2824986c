/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of what was found or recorded: the floor's framing, things beside the wet area, how the
 * membrane and the pan were made. What nobody entered gives no measure, so that rules stay silent.
 */
#include <string.h>

#include "plan/amounts.h"
#include "plan/measure-build.h"

/* Dwellings: 40 lb/ft2 of live load; IBC 2012 table 2308.8(2) is reckoned with it. In pascals. */
#define LIVE_LOAD 1915.2

/* Sawn joists are 1-1/2 in thick (PS 20). */
#define JOIST_WIDTH 0.0381

static void
measure_if (DryMeasuring *self, const char *name, DryLength value)
{
  if (value > 0)
    dry_measuring_length (self, name, value, NULL);
}

void
dry_measure_survey (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;

  if (room->fan > 0)
    dry_measuring_number (self, "fan", room->fan, "L/s", NULL);
  dry_measuring_boolean (self, "steam", room->steam, NULL);
  dry_measuring_number (self, "ceiling-slope", room->ceiling_slope * 100, "%", NULL);
  dry_measuring_boolean (self, "system-allows-steam", self->context->system->allows_steam, NULL);
  dry_measuring_boolean (self, "damp", room->damp, NULL);
  measure_if (self, "toilet-side", room->toilet_side);
  measure_if (self, "toilet-front", room->toilet_front);
  measure_if (self, "light-above", room->light_above);
  if (room->light_above > 0)
    dry_measuring_length (self, "light-away", room->light_away, NULL);
  measure_if (self, "outlet-away", room->outlet_away);
  dry_measuring_boolean (self, "switch-inside", room->switch_inside, NULL);
  if (room->hot_water > 0)
    dry_measuring_number (self, "hot-water", room->hot_water, "degrees C", NULL);
}

/* Span over deflection of a simple beam under the live load alone: 384 E I / (5 w L^3). */
static void
measure_deflection (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;
  double depth = dry_length_to_mm (room->floor_joist_depth) / 1000;
  double spacing = dry_length_to_mm (room->floor_joist_spacing) / 1000;
  double span = dry_length_to_mm (room->floor_joist_span) / 1000;
  double load = LIVE_LOAD * spacing, inertia = JOIST_WIDTH * depth * depth * depth / 12;

  if (room->floor_i_joists || depth <= 0 || spacing <= 0 || span <= 0 ||
      room->floor_joist_stiffness <= 0)
    return;
  dry_measuring_number (
      self, "span-over-deflection",
      384 * room->floor_joist_stiffness * 1e6 * inertia / (5 * load * span * span * span), "",
      "384 E I / (5 w L^3), 40 lb/ft2 live load, E %s MPa, joists %s deep at %s, span %s",
      dry_measuring_decimal (self, room->floor_joist_stiffness, 0),
      dry_measuring_text (self, room->floor_joist_depth),
      dry_measuring_text (self, room->floor_joist_spacing),
      dry_measuring_text (self, room->floor_joist_span));
}

void
dry_measure_floor (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;
  const DryBasin *basin = &room->basin;
  gboolean pan = basin->id && basin->kind == DRY_BASIN_PAN;

  dry_measuring_begin (self, "floor", room->id, -1, (DryRect){0}, "The floor");
  dry_measuring_boolean (self, "timber", room->timber_floor, NULL);
  dry_measuring_boolean (self, "protected", room->floor_protected, NULL);
  dry_measuring_boolean (self, "stone", room->floor_stone, NULL);
  dry_measuring_boolean (self, "i-joists", room->floor_i_joists, NULL);
  dry_measuring_boolean (self, "has-pan", pan, NULL);
  dry_measuring_boolean (self, "curbless", dry_basin_is_curbless (basin), NULL);
  dry_measuring_boolean (self, "point-drain", pan && !basin->linear_drain, NULL);
  dry_measuring_length (self, "recess", pan ? basin->recess : 0, NULL);
  dry_measuring_boolean (self, "joists-known", room->floor_i_joists || room->floor_joist_depth > 0,
                         "depth of the joists, or I-joists");
  measure_if (self, "joist-depth", room->floor_joist_depth);
  measure_if (self, "joist-span", room->floor_joist_span);
  measure_deflection (self);
  measure_if (self, "tile-side", room->floor_tile);
  if (room->floor_dcof > 0)
    dry_measuring_number (self, "wet-friction", room->floor_dcof, "DCOF", NULL);
  dry_measuring_end (self);
}

/* How much liquid membrane the coating stage reckoned, of which the recorded litres are a share. */
static double
find_needed (const DryMeasuring *self)
{
  const DryCoating *coating = self->plan->coating;
  const char *product = self->context->system->membrane_product;
  double needed = 0;

  for (guint i = 0; product && i < coating->n; i++)
    if (coating->items[i].product && strcmp (coating->items[i].product->id, product) == 0)
      needed += coating->items[i].amount;
  return needed;
}

void
dry_measure_records (DryMeasuring *self)
{
  const DryFinish *finish = &self->context->room->finish;
  const DrySystem *system = self->context->system;
  const DryTreatment *basin = &system->treatments[DRY_JOINT_BASIN];
  double needed = find_needed (self);

  if (system->membrane == DRY_MEMBRANE_LIQUID && finish->membrane_used > 0 && needed > 0)
    dry_measuring_number (self, "film-share", 100 * finish->membrane_used / needed, "%",
                          "%s L used of %s L that %s film needs",
                          dry_number_text (self->context->arena, finish->membrane_used, 2),
                          dry_number_text (self->context->arena, needed, 2), "the asked");
  dry_measuring_boolean (self, "listing-missing", finish->no_listing, NULL);
  dry_measuring_boolean (self, "mixed-makers", finish->mixed_makers, NULL);
  dry_measuring_boolean (self, "plain-screws", finish->plain_screws, NULL);
  dry_measuring_boolean (self, "gap-mortar", finish->gap_mortar, NULL);
  dry_measuring_boolean (self, "cut-guard", finish->cut_guard, NULL);
  dry_measuring_boolean (self, "sealant-at-basin", basin->kind == DRY_TREAT_BEAD, "%s",
                         basin->name ? basin->name : "nothing");
  dry_measuring_boolean (self, "band-at-basin", basin->kind == DRY_TREAT_BAND, "%s",
                         basin->name ? basin->name : "nothing");
}

/* The lowest fastener beside the pan, above its threshold: a liner must not be pierced there. */
static void
measure_lowest_fastener (DryMeasuring *self)
{
  const DryFasteners *fasteners = self->plan->fasteners;
  DryLength least = G_MAXINT64;

  for (guint i = 0; i < fasteners->n; i++) {
    const DryBoard *board = &self->plan->boards->items[fasteners->items[i].board];
    const DryFace *face = &self->plan->faces->items[board->face];
    DryPoint at = fasteners->items[i].at;

    if (face->kind == DRY_FACE_WALL && face->at_basin && at.x >= face->basin_u0 &&
        at.x <= face->basin_u1)
      least = MIN (least, at.y - face->deck);
  }
  if (least < G_MAXINT64)
    dry_measuring_length (self, "lowest-fastener", least, "above the threshold");
}

/* How much of the open side the fixed panes and doors close. */
static void
measure_glass_share (DryMeasuring *self, const DryInside *inside)
{
  const DryRoom *room = self->context->room;
  DryLength glass = 0, open = 0;

  /* The door of a neo-angle stands between its returns and is on no wall. */
  if (room->basin.corner_cut > 0)
    return;
  for (guint side = 0; side < 4; side++)
    if (!inside->wall[side])
      open += dry_point_distance (inside->corners[side], inside->corners[(side + 1) % 4]);
  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_GLASS)
      glass += room->parts[i].width;
  if (glass > 0 && open > 0)
    dry_measuring_number (self, "glass-share", 100.0 * (double) glass / (double) open, "%",
                          "%s of glass before %s open", dry_measuring_text (self, glass),
                          dry_measuring_text (self, open));
}

void
dry_measure_pan (DryMeasuring *self, const DryInside *inside)
{
  const DryBasin *basin = &self->context->room->basin;
  DryLength longer = MAX (inside->length, inside->width);
  DryLength shorter = MIN (inside->length, inside->width);

  dry_measuring_length (self, "overall-length", MAX (basin->length, basin->width), NULL);
  dry_measuring_length (self, "overall-width", MIN (basin->length, basin->width), NULL);
  if (shorter > 0)
    dry_measuring_number (self, "side-ratio", (double) longer / (double) shorter, "", "%s / %s",
                          dry_measuring_text (self, longer), dry_measuring_text (self, shorter));
  dry_measuring_boolean (self, "centre-drain",
                         basin->drain == DRY_END_CENTRE && !basin->linear_drain, NULL);
  if (basin->slope > 0)
    dry_measuring_number (self, "slope", basin->slope * 100, "%", NULL);
  dry_measuring_boolean (self, "site-built", basin->site_built, NULL);
  dry_measuring_boolean (self, "dam", basin->dam, NULL);
  measure_glass_share (self, inside);
  if (!basin->site_built)
    return;
  dry_measuring_boolean (self, "liner", basin->liner, NULL);
  dry_measuring_boolean (self, "clamping-drain", basin->clamping_drain, NULL);
  dry_measuring_boolean (self, "curb-wrapped", basin->curb_wrapped, NULL);
  dry_measuring_number (self, "curb-pitch", basin->curb_pitch * 100, "%", NULL);
  measure_if (self, "turn-up", basin->liner_turn_up);
  measure_lowest_fastener (self);
  if (!basin->liner)
    return;
  dry_measuring_boolean (self, "pre-slope", basin->pre_slope, NULL);
  dry_measuring_boolean (self, "weeps-open", basin->weeps_open, NULL);
}
