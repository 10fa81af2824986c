/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings as marks at their place: octagon, triangle or circle by severity.
 * Marks that would fall on one another step aside; knows no rules. */
#include "draw/drawing-private.h"

#define STEP (8 * DRY_INCH)

static gboolean
find_on_plan (const DryRoom *room, DryId object, DryPoint *at)
{
  const DryPart *part = dry_room_get_part (room, object);
  const DryOpening *opening = dry_room_get_opening (room, object);
  const DryWall *wall = dry_room_get_wall (room, object);
  DryPoint c[4];

  if (object == 0)
    return FALSE;
  if (object == room->basin.id && dry_room_basin_corners (room, c)) {
    *at = (DryPoint){(c[0].x + c[2].x) / 2, (c[0].y + c[2].y) / 2};
    return TRUE;
  }
  if (part) {
    *at = dry_wall_point (dry_room_get_wall (room, part->wall), part->side, part->u, 3 * DRY_INCH);
    return TRUE;
  }
  if (opening) {
    *at = dry_wall_point (dry_room_get_wall (room, opening->wall), DRY_SIDE_INSIDE,
                          opening->u + opening->width / 2, 0);
    return TRUE;
  }
  if (wall) {
    *at = dry_wall_point (wall, DRY_SIDE_INSIDE, dry_wall_length (wall) / 2, 0);
    return TRUE;
  }
  return FALSE;
}

static DryPoint
find_middle (const DryRoom *room)
{
  g_autofree DryPoint *points = g_new (DryPoint, room->n_outline + 1);
  DryRing ring = {points, room->n_outline};
  DryRect r;

  for (guint i = 0; i < room->n_outline; i++)
    points[i] = room->walls[i].start;
  r = dry_ring_bounds (&ring);
  return (DryPoint){(r.x0 + r.x1) / 2, r.y0 + (r.y1 - r.y0) / 5};
}

static DryPoint
find_place (const DryPlan *plan, const DryFinding *finding, const DryFace *face)
{
  DryPoint at;

  if (!face)
    return find_on_plan (plan->context.room, finding->object, &at)
               ? at
               : find_middle (plan->context.room);
  if (!dry_rect_is_empty (finding->place)) {
    /* The upper right corner, so that the thing itself can still be grasped in its middle. */
    DryRect r = finding->place;
    if (dry_rect_width (r) < face->length / 2 && dry_rect_height (r) < face->height / 2)
      return (DryPoint){CLAMP (r.x1, 0, face->length), CLAMP (r.y1, 0, face->height)};
    return dry_rect_centre (r);
  }
  return (DryPoint){face->length / 2, face->height - 5 * DRY_INCH};
}

static DryPoint
step_aside (const GArray *taken, DryPoint at)
{
  for (guint i = 0; i < taken->len; i++) {
    DryPoint t = g_array_index (taken, DryPoint, i);
    if (ABS (t.x - at.x) < STEP && ABS (t.y - at.y) < STEP) {
      at.x = t.x + STEP;
      i = (guint) -1; /* look at all of them again from the new place */
    }
  }
  return at;
}

void
dry_draw_findings (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face)
{
  static const DryMark marks[] = {[DRY_SEVERITY_STOP] = DRY_MARK_STOP,
                                  [DRY_SEVERITY_FIX] = DRY_MARK_FIX,
                                  [DRY_SEVERITY_ADVICE] = DRY_MARK_ADVICE};
  static const DryInk inks[] = {[DRY_SEVERITY_STOP] = DRY_INK_STOP,
                                [DRY_SEVERITY_FIX] = DRY_INK_FIX,
                                [DRY_SEVERITY_ADVICE] = DRY_INK_ADVICE};
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (DryPoint));

  for (guint i = 0; i < plan->findings->n; i++) {
    const DryFinding *f = &plan->findings->items[i];
    DryPoint at;

    if (face ? f->face != (gint) face->index : f->face >= 0)
      continue;
    at = step_aside (taken, find_place (plan, f, face));
    g_array_append_val (taken, at);
    dry_scene_builder_tag (b, DRY_LAYER_FINDINGS, DRY_SHOWS_FINDING, f->object, (gint) i);
    dry_scene_builder_mark (b, marks[MIN (f->severity, 2)], inks[MIN (f->severity, 2)], at);
  }
}
