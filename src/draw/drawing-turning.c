/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a wheelchair turns on the plan: the circle that fits, or the largest that does, and what
 * the doors sweep. Draws what the plan reckons of the free floor; measures nothing itself. */
#include "draw/drawing-private.h"
#include "plan/free-floor.h"

#define LETTERS 2.2

/* A quarter, or less, round `hinge` on a face. */
static void
draw_sector (DrySceneBuilder *b, const DryWall *wall, DrySide side, DryLength hinge, DryLength leaf,
             double from, double to)
{
  DryLook look = {.stroke = DRY_INK_ADVICE,
                  .pen = DRY_PEN_018,
                  .dash = DRY_DASH_DOTTED,
                  .fill = DRY_INK_ADVICE,
                  .alpha = 0.12};
  DryPoint p[2 * DRY_CURVE_POINTS + 1];
  guint n = dry_points_arc (p, (DryPoint){0, 0}, (double) leaf, (double) leaf, from, to,
                            2 * DRY_CURVE_POINTS);

  p[n++] = (DryPoint){0, 0};
  for (guint i = 0; i < n; i++)
    p[i] = dry_wall_point (wall, side, hinge + p[i].x, p[i].y);
  dry_scene_builder_path (b, look, p, n, TRUE);
}

/* As the doors are drawn: a room's door hung at its left, opening in; a door of glass both ways. */
static void
draw_swings (DrySceneBuilder *b, const DryRoom *room)
{
  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *o = &room->openings[i];
    const DryWall *wall = dry_room_get_wall (room, o->wall);
    if (o->kind == DRY_OPENING_DOOR)
      draw_sector (b, wall, DRY_SIDE_INSIDE, o->u, o->width, 0, 90);
  }
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    const DryWall *wall = dry_room_get_wall (room, part->wall);
    if (part->kind == DRY_PART_GLASS && part->hinged)
      draw_sector (b, wall, part->side, part->u, part->width, 45, 135);
  }
}

/* Never more than there is: down to the sixteenth or the millimeter. */
static DryLength
round_down (DryLength length, gboolean metric)
{
  DryLength step = metric ? DRY_MM : DRY_INCH / 16;

  return length / step * step;
}

void
dry_draw_turning (DrySceneBuilder *b, const DryPlan *plan)
{
  DryFreeFloor free_floor =
      dry_free_floor_reckon (&plan->context, plan->faces, DRY_TURNING_DIAMETER);
  DryInk ink = free_floor.fits ? DRY_INK_FITTING : DRY_INK_FIX;
  DryLength shown = free_floor.fits ? free_floor.wanted : free_floor.diameter;
  DryLettering how = {.size = LETTERS, .ink = ink, .ground = TRUE, .anchor = DRY_ANCHOR_ABOVE};

  dry_scene_builder_tag (b, DRY_LAYER_TURNING, DRY_SHOWS_NOTHING, 0, -1);
  draw_swings (b, plan->context.room);
  if (free_floor.diameter <= 0)
    return;
  dry_scene_builder_circle (b,
                            (DryLook){.stroke = ink, .pen = DRY_PEN_050, .dash = DRY_DASH_DASHED},
                            free_floor.centre, shown / 2);
  if (free_floor.fits)
    dry_scene_builder_text (
        b, free_floor.centre, how, "%s turn, largest %s", dry_scene_builder_length (b, shown),
        dry_scene_builder_length (b, round_down (free_floor.diameter, b->metric)));
  else
    dry_scene_builder_text (b, free_floor.centre, how, "No %s turn, largest %s",
                            dry_scene_builder_length (b, free_floor.wanted),
                            dry_scene_builder_length (b, round_down (shown, b->metric)));
  how.anchor = DRY_ANCHOR_BELOW;
  how.ink = DRY_INK_TEXT_FAINT;
  dry_scene_builder_text (b, free_floor.centre, how, "as drawn: no toilet or vanity");
}
