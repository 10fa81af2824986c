/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of walls that carry a face: framing, what is in and behind them, how true they are.
 * One subject a face, so an added wall boarded on both sides is measured twice. */
#include "plan/faces-private.h"
#include "plan/measure-build.h"

/* Between the jambs of a door nothing is boarded. */
static gboolean
is_doorway (const DryRoom *room, const DryFace *face, const DryWall *wall, DryLength u)
{
  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *opening = &room->openings[i];
    DryRect rect = dry_faces_opening_rect (wall, face->side, opening);

    if (opening->wall == wall->id && opening->kind != DRY_OPENING_WINDOW && rect.x0 < u &&
        rect.x1 > u)
      return TRUE;
  }
  return FALSE;
}

/* The widest distance, centre to centre, between neighbouring studs that the boards bridge. */
static void
measure_studs (DryMeasuring *self, const DryFace *face, const DryWall *wall)
{
  g_autoptr (GArray) standing = dry_measuring_standing (self, wall, face->side);
  DryLength widest = 0, at = 0;

  for (guint i = 0; i + 1 < standing->len; i++) {
    DryLength u0 = g_array_index (standing, DryStanding, i).u1;
    DryLength u1 = g_array_index (standing, DryStanding, i + 1).u0;

    if (u0 >= face->wet_u1 || u1 <= face->wet_u0 || u1 - u0 + wall->stud_width <= widest ||
        is_doorway (self->context->room, face, wall, u0 + (u1 - u0) / 2))
      continue;
    widest = u1 - u0 + wall->stud_width;
    at = u0;
  }
  if (widest > 0)
    dry_measuring_length (
        self, "stud-spacing", widest, "clear bay of %s, %s from the left end, plus one stud of %s",
        dry_measuring_text (self, widest - wall->stud_width), dry_measuring_text (self, at),
        dry_measuring_text (self, wall->stud_width));
  if (self->context->system->stud_spacing_max.value > 0)
    dry_measuring_length (self, "system-stud-spacing",
                          self->context->system->stud_spacing_max.value, "%s",
                          self->context->system->name);
}

static void
measure_truth (DryMeasuring *self, const DryWall *wall)
{
  const DryFinish *finish = &self->context->room->finish;

  if (wall->plane_error)
    dry_measuring_length (self, "plane-error", ABS (wall->plane_error), NULL);
  if (wall->square_error)
    dry_measuring_length (self, "corner-taper", ABS (wall->square_error), NULL);
  if (wall->plumb_error)
    dry_measuring_length (self, "lean", ABS (wall->plumb_error), NULL);
  if (finish->tiled)
    dry_measuring_length (self, "tile-side", MAX (finish->tile_width, finish->tile_height), NULL);
}

/* Where the boards end beside drywall, and how far that is past the basin. A half wall at that end
 * stands where a leg would. */
static void
measure_dry_ends (DryMeasuring *self, const DryFace *face, const DryWall *wall)
{
  DryLength board = self->context->build_up.board, past = 0;
  gboolean beside = FALSE, leg = TRUE;

  if (face->at_basin && face->dry_left) {
    past = face->basin_u0 - face->wet_u0;
    leg = face->leg_left || face->left.face >= 0;
    beside = TRUE;
  }
  if (face->at_basin && face->dry_right) {
    past = beside ? MIN (past, face->wet_u1 - face->basin_u1) : face->wet_u1 - face->basin_u1;
    leg = leg && (face->leg_right || face->right.face >= 0);
    beside = TRUE;
  }
  if (beside) {
    dry_measuring_length (self, "past-basin", past, "wet wall's edge less the basin's open edge");
    dry_measuring_boolean (self, "leg", leg, NULL);
  }
  if (wall->lining > 0 && (face->dry_left || face->dry_right || face->dry_above))
    dry_measuring_length (
        self, "step-to-lining", ABS (wall->lining - board), "lining of %s against board of %s",
        dry_measuring_text (self, wall->lining), dry_measuring_text (self, board));
}

static void
measure_basin_edge (DryMeasuring *self, const DryFace *face)
{
  const DryBasin *basin = &self->context->room->basin;

  dry_measuring_boolean (self, "at-tub", face->at_basin && basin->kind == DRY_BASIN_TUB, NULL);
  dry_measuring_boolean (self, "at-pan", face->at_basin && basin->kind == DRY_BASIN_PAN, NULL);
  if (!face->at_basin || self->context->system->n_sheets == 0)
    return;
  dry_measuring_length (
      self, "gap-above-ledge", face->board_bottom - face->deck, "board starts at %s, ledge at %s",
      dry_measuring_text (self, face->board_bottom), dry_measuring_text (self, face->deck));
  if (basin->flange > 0)
    dry_measuring_length (self, "gap-above-flange", face->board_bottom - face->flange_top,
                          "board starts at %s, top of flange at %s",
                          dry_measuring_text (self, face->board_bottom),
                          dry_measuring_text (self, face->flange_top));
}

/* How far the wall goes on beyond a corner with another. */
static DryLength
measure_beyond (const DryFace *face, gboolean right)
{
  return right ? face->length - face->right.at : face->left.at;
}

/* Where a wall ends in a corner with a lower added wall, its end stands above that one. Caps and
 * end pieces are planned for open ends and walls as high or higher, not for such a step. */
static void
measure_bare_end (DryMeasuring *self, const DryFace *face, const DryWall *wall)
{
  DryLength most = 0;

  if (!wall->added)
    return;
  for (guint right = 0; right < 2; right++) {
    const DryFaceEnd *end = right ? &face->right : &face->left;
    const DryFace *next = end->face >= 0 ? &self->plan->faces->items[end->face] : NULL;
    const DryWall *other = next ? dry_room_get_wall (self->context->room, next->wall) : NULL;

    if (other && other->added && end->angle < 180 &&
        measure_beyond (face, right) <= dry_wall_depth (other) + other->lining)
      most = MAX (most, face->height - next->height);
  }
  if (most > 0)
    dry_measuring_length (self, "end-above-next", most, "%s high, the lower wall %s",
                          dry_measuring_text (self, face->height),
                          dry_measuring_text (self, face->height - most));
}

/* The wet wall's top as other codes name it, and what a half wall's cap does. */
static void
measure_heights (DryMeasuring *self, const DryFace *face, const DryWall *wall)
{
  const DryRoom *room = self->context->room;
  DryLength floor = room->finish.tiled ? room->finish.tile_thickness + room->finish.mortar : 0;
  gboolean half = dry_wall_height (room, wall) < room->ceiling;

  dry_measuring_length (self, "wet-top-above-substrate", face->wet_top + floor,
                        "top of wet wall %s, floor built up %s as the walls are",
                        dry_measuring_text (self, face->wet_top), dry_measuring_text (self, floor));
  if (face->at_basin && room->basin.kind == DRY_BASIN_TUB)
    dry_measuring_length (self, "wet-top-above-rim", face->wet_top - face->deck, NULL);
  dry_measuring_boolean (self, "half-wall", half, NULL);
  if (half)
    dry_measuring_number (self, "cap-pitch", wall->cap_pitch * 100, "%", NULL);
}

static void
measure_wall (DryMeasuring *self, const DryFace *face, const DryWall *wall)
{
  const DryBasin *basin = &self->context->room->basin;
  DryLength drain = basin->kind == DRY_BASIN_PAN ? -basin->recess : 0;

  dry_measuring_begin (self, "wall", wall->id, (gint) face->index, (DryRect){0}, face->name);
  dry_measuring_boolean (self, "has-shower", dry_measuring_has_shower (self), NULL);
  dry_measuring_boolean (
      self, "full-height",
      dry_wall_height (self->context->room, wall) >= self->context->room->ceiling, NULL);
  dry_measuring_length (self, "wet-top", face->wet_top, NULL);
  measure_heights (self, face, wall);
  dry_measuring_length (self, "wet-top-above-drain", face->wet_top - drain,
                        "top of wet wall %s less drain at about %s",
                        dry_measuring_text (self, face->wet_top), dry_measuring_text (self, drain));
  dry_measuring_boolean (self, "bearing", wall->bearing, NULL);
  dry_measuring_boolean (self, "exterior", wall->exterior, NULL);
  dry_measuring_boolean (self, "fire-rated", wall->fire_rated, NULL);
  dry_measuring_boolean (self, "steel-studs", wall->steel_studs, NULL);
  dry_measuring_boolean (self, "air-barrier", wall->air_barrier, NULL);
  dry_measuring_boolean (self, "vapour-barrier", wall->vapour_barrier, NULL);
  dry_measuring_boolean (self, "membrane-in-front",
                         !self->context->system->needs_membrane ||
                             self->context->system->membrane != DRY_MEMBRANE_NONE,
                         "%s", self->context->system->name);
  measure_studs (self, face, wall);
  measure_truth (self, wall);
  measure_dry_ends (self, face, wall);
  measure_bare_end (self, face, wall);
  measure_basin_edge (self, face);
  dry_measuring_end (self);
}

void
dry_measure_walls (DryMeasuring *self)
{
  const DryFaces *faces = self->plan->faces;

  for (guint i = 0; i < faces->n; i++) {
    const DryFace *face = &faces->items[i];
    const DryWall *wall = dry_room_get_wall (self->context->room, face->wall);

    if (face->kind == DRY_FACE_WALL)
      measure_wall (self, face, wall);
  }
}
