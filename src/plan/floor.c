/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reckons the mortar floor of a shower from its outline, drain and slope. The rim is taken level,
 * as tile on the walls wants it; what the joists below carry is not known here. */
#include "plan/floor.h"

#include <math.h>

#include "plan/amounts.h"
#include "plan/plan.h"

/* IRC P2709.1 and UPC 408.5: 1/4 in per ft at least. */
#define LEAST_SLOPE (1.0 / 48)

/* Finish bed over a liner: ANSI A108.1A-2017 as explained in the trade press; the same is common
 * practice for a bed under a bonded membrane. Thin edge of a pre-slope: common practice, no source.
 */
#define BED       (3 * DRY_INCH / 2)
#define PRE_SLOPE (DRY_INCH / 2)

/* In place 110 to 125 lb/ft3, middle taken; from memory, to be verified. */
#define DENSITY (117.5 * DRY_KG_PER_LB / 28.316846592) /* kg/L */

/* Turned up above the threshold: UPC 408.7 asks 3 in, the most of the rules in use. */
#define TURN_UP (3 * DRY_INCH)

static const DrySource from_outline = {"from the outline", DRY_CERTAINTY_DERIVED};

double
dry_floor_volume (double area_m2, DryLength least, DryLength most, gboolean channel)
{
  double t = dry_length_to_mm (least), T = dry_length_to_mm (most);

  return channel ? area_m2 * (t + T) / 2 : area_m2 * (t + 2 * T) / 3;
}

DryPoint
dry_floor_drain (const DryBasin *basin, DryLength from_edge)
{
  DryLength mid = basin->width / 2;

  switch (basin->drain) {
  case DRY_END_LEFT:
    return (DryPoint){from_edge, mid};
  case DRY_END_RIGHT:
    return (DryPoint){basin->length - from_edge, mid};
  case DRY_END_BACK:
    return (DryPoint){basin->length / 2, MIN (from_edge, mid)};
  default:
    return (DryPoint){basin->length / 2, mid};
  }
}

static const char *
number (const DryPlanContext *context, double value, int decimals)
{
  return dry_number_text (context->arena, value, decimals);
}

/* --- outline --- */

/* Back left, back right, then round the front, where a neo-angle's corner is cut off: which of the
 * two is the same to every figure here but the farthest run, which takes the worse. */
static DryLength
farthest_corner (const DryBasin *basin, DryPoint drain)
{
  const DryPoint corners[] = {
      {0, 0}, {basin->length, 0}, {basin->length, basin->width}, {0, basin->width}};
  double most = 0;

  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    most = MAX (most, hypot ((double) (corners[i].x - drain.x), (double) (corners[i].y - drain.y)));
  return (DryLength) llround (most);
}

/* A channel lies along the edge its end names; in the middle, the floor falls to it from both
 * sides. */
static DryLength
across (const DryBasin *basin)
{
  switch (basin->drain) {
  case DRY_END_LEFT:
  case DRY_END_RIGHT:
    return basin->length;
  case DRY_END_BACK:
    return basin->width;
  default:
    return basin->width / 2;
  }
}

static void
reckon_area (DryFloor *self, const DryPlanContext *context, const DryBasin *basin)
{
  double l = dry_length_to_mm (basin->length) / 1000, w = dry_length_to_mm (basin->width) / 1000;
  double cut = dry_length_to_mm (basin->corner_cut) / 1000;

  self->area = l * w - cut * cut / 2;
  self->area_working = dry_working_new (
      context->arena, from_outline,
      cut > 0 ? dry_arena_printf (context->arena, "%s m x %s m - (%s m)2 / 2 = %s m2",
                                  number (context, l, 3), number (context, w, 3),
                                  number (context, cut, 3), number (context, self->area, 2))
              : dry_arena_printf (context->arena, "%s m x %s m = %s m2", number (context, l, 3),
                                  number (context, w, 3), number (context, self->area, 2)),
      NULL);
}

static void
reckon_fall (DryFloor *self, const DryPlanContext *context, const DryBasin *basin)
{
  DryLength edge = MIN (basin->length, basin->width) / 4;
  gboolean own = basin->slope > 0;

  self->slope = own ? basin->slope : LEAST_SLOPE;
  self->run =
      basin->linear_drain ? across (basin) : farthest_corner (basin, dry_floor_drain (basin, edge));
  self->fall = (DryLength) llround ((double) self->run * self->slope);
  self->fall_working = dry_working_new (
      context->arena,
      own ? (DrySource){"the job", DRY_CERTAINTY_DERIVED}
          : (DrySource){"IRC P2709.1, UPC 408.5: at least 1/4 in per ft", DRY_CERTAINTY_PUBLISHED},
      dry_arena_printf (context->arena, "%s x %s %% = %s", dry_context_length (context, self->run),
                        number (context, self->slope * 100, 2),
                        dry_context_length (context, self->fall)),
      basin->linear_drain ? "run across to the channel" : "run to the farthest corner",
      dry_context_length (context, self->run), NULL);
}

/* --- mortar --- */

static void
reckon_mortar (DryFloor *self, const DryPlanContext *context, const DryBasin *basin)
{
  DryArena *arena = context->arena;
  DryLength least = self->liner ? PRE_SLOPE : BED, most = least + self->fall;
  const char *t = number (context, dry_length_to_mm (least), 1);
  const char *T = number (context, dry_length_to_mm (most), 1);
  const char *deep = basin->linear_drain ? dry_arena_printf (arena, "(%s + %s) / 2", t, T)
                                         : dry_arena_printf (arena, "(%s + 2 x %s) / 3", t, T);

  self->volume = dry_floor_volume (self->area, least, most, basin->linear_drain);
  if (self->liner)
    self->volume += self->area * dry_length_to_mm (BED);
  self->drain_depth = least + (self->liner ? BED : 0);
  self->rim_depth = most + (self->liner ? BED : 0);
  self->volume_working = dry_working_new (
      arena,
      (DrySource){"block less wedge or pyramid; bed of 1-1/2 in: ANSI A108.1A-2017 as explained in "
                  "the trade press",
                  DRY_CERTAINTY_SECONDARY},
      self->liner
          ? dry_arena_printf (arena, "%s m2 x (%s + %s) mm = %s L", number (context, self->area, 2),
                              deep, number (context, dry_length_to_mm (BED), 1),
                              number (context, self->volume, 1))
          : dry_arena_printf (arena, "%s m2 x %s mm = %s L", number (context, self->area, 2), deep,
                              number (context, self->volume, 1)),
      "depth at the drain", dry_context_length (context, self->drain_depth),
      "depth along the level rim", dry_context_length (context, self->rim_depth),
      self->liner ? "of this the bed on the liner" : NULL, dry_context_length (context, BED), NULL);
  self->mass = self->volume * DENSITY;
  self->mass_working = dry_working_new (
      arena, (DrySource){"110 to 125 lb/ft3 in place, from memory", DRY_CERTAINTY_MEMORY},
      dry_arena_printf (arena, "%s L x %s kg/L = %s kg", number (context, self->volume, 1),
                        number (context, DENSITY, 2), number (context, self->mass, 0)),
      NULL);
}

/* --- liner or membrane --- */

static void
reckon_sheet (DryFloor *self, const DryPlanContext *context, const DryBasin *basin)
{
  double cut = dry_length_to_mm (basin->corner_cut) / 1000;
  double round_ = 2 * dry_length_to_mm (basin->length + basin->width) / 1000 - cut * (2 - G_SQRT2);
  DryLength above = basin->liner_turn_up > 0 ? basin->liner_turn_up : TURN_UP;
  double up = dry_length_to_mm (basin->height + above) / 1000;

  self->sheet_area = self->area + round_ * up;
  self->sheet_working = dry_working_new (
      context->arena,
      basin->liner_turn_up > 0
          ? (DrySource){"the job", DRY_CERTAINTY_DERIVED}
          : (DrySource){"UPC 408.7: 3 in above the threshold", DRY_CERTAINTY_PUBLISHED},
      dry_arena_printf (context->arena, "%s m2 + %s m round x %s m up = %s m2",
                        number (context, self->area, 2), number (context, round_, 2),
                        number (context, up, 3), number (context, self->sheet_area, 2)),
      "above the threshold", dry_context_length (context, above), NULL);
}

const DryFloor *
dry_floor_compute (const DryPlanContext *context, GError **error)
{
  DryFloor *self = dry_arena_alloc (context->arena, sizeof *self);
  const DryBasin *basin = &context->room->basin;

  if (basin->id == 0 || basin->kind != DRY_BASIN_PAN || !basin->site_built)
    return self;
  self->built = TRUE;
  self->liner = basin->liner;
  reckon_area (self, context, basin);
  reckon_fall (self, context, basin);
  reckon_mortar (self, context, basin);
  reckon_sheet (self, context, basin);
  return self;
}
