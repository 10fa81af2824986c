/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of benches and glass, and of pipes, vents and cables hidden in the wall.
 * Glass weighs 2.5 kg a square meter for each millimeter of thickness. */
#include "plan/measure-build.h"

#include <math.h>

static void
begin_part (DryMeasuring *self, const char *kind, const DryPart *part)
{
  const DryFace *face = dry_measuring_face_of (self, part->wall, part->side);

  dry_measuring_begin (self, kind, part->id, face ? (gint) face->index : -1, dry_part_rect (part),
                       dry_measuring_part_name (self, part));
}

static void
measure_bench (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  gboolean pan = self->context->room->basin.kind == DRY_BASIN_PAN;
  DryInside inside;

  begin_part (self, "bench", part);
  dry_measuring_length (self, "height", part->z, NULL);
  dry_measuring_length (self, "depth", part->depth, NULL);
  dry_measuring_length (self, "length", part->width, NULL);
  dry_measuring_number (self, "pitch", part->pitch * 100, "%", NULL);
  dry_measuring_boolean (self, "fold-down", part->fold_down, NULL);
  dry_measuring_boolean (self, "system-allows-floor", self->context->system->allows_floor, NULL);
  dry_measuring_boolean (self, "blocked",
                         !part->fold_down || dry_measuring_is_blocked (self, part, wall),
                         part->fold_down ? "blocking of its own, or a stud behind both ends"
                                         : "framed from the floor");
  if (pan && dry_measuring_inside (self, &inside)) {
    dry_measuring_length (self, "shower-length", MAX (inside.length, inside.width),
                          "between finished walls");
    dry_measuring_length (self, "shower-width", MIN (inside.length, inside.width),
                          "between finished walls");
  }
  dry_measuring_end (self);
}

static void
measure_glass (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  DryLength height = dry_wall_height (self->context->room, wall);
  double mass = dry_length_to_mm (part->width) * dry_length_to_mm (part->height) *
                dry_length_to_mm (part->depth) * 2.5e-6;

  begin_part (self, "glass", part);
  dry_measuring_boolean (self, "safety-glass", part->safety_glass, NULL);
  dry_measuring_boolean (self, "hinged", part->hinged, NULL);
  dry_measuring_boolean (self, "screwed-down", part->screwed_down, NULL);
  dry_measuring_boolean (self, "ordered-early", part->ordered_early, NULL);
  dry_measuring_length (self, "width", part->width, NULL);
  dry_measuring_length (self, "thickness", part->depth, NULL);
  dry_measuring_number (self, "mass", mass, "kg", "%s x %s x %s at 2.5 kg/m2 a millimeter",
                        dry_measuring_text (self, part->width),
                        dry_measuring_text (self, part->height),
                        dry_measuring_text (self, part->depth));
  dry_measuring_boolean (self, "blocked", dry_measuring_is_blocked (self, part, wall),
                         "blocking of its own, or a stud behind it");
  if (wall->plumb_error)
    dry_measuring_length (self, "lean-in-6-ft",
                          (DryLength) llround (fabs ((double) wall->plumb_error) *
                                               (double) (6 * DRY_FOOT) / (double) height),
                          "%s over the wall's %s",
                          dry_measuring_text (self, ABS (wall->plumb_error)),
                          dry_measuring_text (self, height));
  dry_measuring_end (self);
}

/* A run along the wall goes through studs; one up a bay does not. */
static void
measure_bore (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  g_autoptr (GArray) standing = dry_measuring_standing (self, wall, part->side);
  DryRect rect = dry_part_rect (part);
  gboolean crosses =
      part->width >= part->height && dry_measuring_count_cut (standing, rect.x0, rect.x1) > 0;

  dry_measuring_boolean (self, "crosses-stud", crosses, NULL);
  dry_measuring_boolean (self, "bearing-wall", wall->bearing, NULL);
  if (!crosses)
    return;
  dry_measuring_number (self, "bore", 100.0 * (double) part->height / (double) wall->stud_depth,
                        "%", "hole of %s in a stud %s deep",
                        dry_measuring_text (self, part->height),
                        dry_measuring_text (self, wall->stud_depth));
  dry_measuring_length (self, "wood-left", wall->stud_depth - part->height, "%s - %s",
                        dry_measuring_text (self, wall->stud_depth),
                        dry_measuring_text (self, part->height));
  dry_measuring_length (self, "from-stud-face", (wall->stud_depth - part->height) / 2,
                        "(%s - %s) / 2, bored in the middle",
                        dry_measuring_text (self, wall->stud_depth),
                        dry_measuring_text (self, part->height));
}

static void
measure_hidden (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  begin_part (self, "hidden", part);
  dry_measuring_boolean (self, "pipe", part->kind == DRY_PART_PIPE, NULL);
  dry_measuring_boolean (self, "vent", part->kind == DRY_PART_VENT, NULL);
  dry_measuring_boolean (self, "cable", part->kind == DRY_PART_CABLE, NULL);
  measure_bore (self, part, wall);
  dry_measuring_end (self);
}

void
dry_measure_standing_parts (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    const DryWall *wall = dry_room_get_wall (room, part->wall);

    if (part->kind == DRY_PART_BENCH)
      measure_bench (self, part, wall);
    else if (part->kind == DRY_PART_GLASS)
      measure_glass (self, part, wall);
    else if (dry_part_kind_is_hidden (part->kind))
      measure_hidden (self, part, wall);
  }
}
