/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of windows and doors: height, distance to the water, sill.
 * Heights are above the highest surface one may stand on, as glazing rules ask. */
#include "plan/measure-build.h"
#include "plan/outline.h"

/* A tub's floor lies this far above the room's; nobody enters it, so it is taken, not measured. */
#define TUB_FLOOR (4 * DRY_INCH)

/* Shortest distance on the plan between the basin's outline and the opening. */
static DryLength
measure_to_water (const DryPoint corners[4], DryPoint a, DryPoint b)
{
  DryLength least = G_MAXINT64;

  for (guint i = 0; i < 4; i++) {
    DryPoint p = corners[i], q = corners[(i + 1) % 4];
    least = MIN (least, dry_outline_distance (p, a, b));
    least = MIN (least, dry_outline_distance (a, p, q));
    least = MIN (least, dry_outline_distance (b, p, q));
  }
  return least;
}

static void
measure_glazing (DryMeasuring *self, const DryOpening *opening, const DryWall *wall)
{
  const DryRoom *room = self->context->room;
  DryLength standing = room->basin.kind == DRY_BASIN_TUB ? TUB_FLOOR : 0;
  DryPoint corners[4];

  if (!dry_room_basin_corners (room, corners))
    return;
  dry_measuring_length (self, "above-standing", opening->z - standing,
                        "bottom at %s less the floor stood on, taken at %s",
                        dry_measuring_text (self, opening->z), dry_measuring_text (self, standing));
  dry_measuring_length (
      self, "from-water",
      measure_to_water (corners, dry_wall_point (wall, DRY_SIDE_INSIDE, opening->u, 0),
                        dry_wall_point (wall, DRY_SIDE_INSIDE, opening->u + opening->width, 0)),
      "shortest way on the plan from the basin's edge");
}

static gboolean
lies_in_wet_wall (const DryFace *face, const DryOpening *opening)
{
  DryRect wet;

  if (!face)
    return FALSE;
  wet = (DryRect){face->wet_u0, 0, face->wet_u1, face->wet_top};
  return dry_rect_overlaps (wet, (DryRect){opening->u, opening->z, opening->u + opening->width,
                                           opening->z + opening->height});
}

static void
measure_opening (DryMeasuring *self, const DryOpening *opening, const DryWall *wall)
{
  const DryFace *face = dry_measuring_face_of (self, wall->id, DRY_SIDE_INSIDE);
  gboolean window = opening->kind == DRY_OPENING_WINDOW;
  DryRect place = {opening->u, opening->z, opening->u + opening->width,
                   opening->z + opening->height};

  dry_measuring_begin (self, window ? "window" : "door", opening->id,
                       face ? (gint) face->index : -1, place,
                       window                                 ? "window"
                       : opening->kind == DRY_OPENING_PASSAGE ? "passage"
                                                              : "door");
  dry_measuring_length (self, "bottom", opening->z, NULL);
  dry_measuring_length (self, "width", opening->width, NULL);
  dry_measuring_boolean (self, "in-wet-wall", lies_in_wet_wall (face, opening), NULL);
  dry_measuring_boolean (self, "fits-wall",
                         place.x0 >= 0 && place.x1 <= dry_wall_length (wall) && place.y0 >= 0 &&
                             place.y1 <= dry_wall_height (self->context->room, wall),
                         "wall %s long and %s high",
                         dry_measuring_text (self, dry_wall_length (wall)),
                         dry_measuring_text (self, dry_wall_height (self->context->room, wall)));
  if (window) {
    dry_measuring_boolean (self, "safety-glass", opening->safety_glass, NULL);
    dry_measuring_boolean (self, "sloped-sill", opening->sloped_sill, NULL);
    dry_measuring_boolean (self, "wooden-jamb", opening->wooden_jamb, NULL);
    measure_glazing (self, opening, wall);
  }
  dry_measuring_end (self);
}

void
dry_measure_openings (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_openings; i++) {
    const DryWall *wall = dry_room_get_wall (room, room->openings[i].wall);

    measure_opening (self, &room->openings[i], wall);
  }
}
