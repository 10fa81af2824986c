/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of what hangs on the wall: valve, spout, shower head, hand shower, grab bar.
 * Heights are centers above the finished floor, of a bar the top of its grip. */
#include "plan/measure-build.h"
#include "plan/outline.h"

/* Free space between the hole and the nearest stud; less than 0 when the hole cuts into one. */
static void
measure_stud_clear (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  g_autoptr (GArray) standing = dry_measuring_standing (self, wall, part->side);
  DryLength u0 = part->u - part->hole / 2, u1 = part->u + part->hole / 2, least = G_MAXINT64;

  for (guint i = 0; i < standing->len; i++) {
    const DryStanding *stud = &g_array_index (standing, DryStanding, i);
    least = MIN (least, MAX (stud->u0 - u1, u0 - stud->u1));
  }
  dry_measuring_length (self, "stud-clear", least, "hole from %s to %s",
                        dry_measuring_text (self, u0), dry_measuring_text (self, u1));
}

/* How far the water falls from where the shower is open to the room; curbless pans only, elsewhere
 * a curb stops it. */
static void
measure_open_edge (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  DryLength least = G_MAXINT64;
  DryInside inside;
  DryPoint at;

  if (!dry_basin_is_curbless (&self->context->room->basin) || !dry_measuring_inside (self, &inside))
    return;
  at = dry_wall_point (wall, part->side, part->u, 0);
  for (guint side = 0; side < 4; side++)
    if (!inside.wall[side])
      least = MIN (least,
                   dry_outline_distance (at, inside.corners[side], inside.corners[(side + 1) % 4]));
  if (least < G_MAXINT64)
    dry_measuring_length (self, "to-open-edge", least, "on the plan, from its wall");
}

static void
measure_water (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  const DryBasin *basin = &self->context->room->basin;

  if (part->kind == DRY_PART_SPOUT && basin->id && basin->kind == DRY_BASIN_TUB)
    dry_measuring_length (self, "above-rim", part->z - basin->height, "center at %s, rim at %s",
                          dry_measuring_text (self, part->z),
                          dry_measuring_text (self, basin->height));
  if (part->kind == DRY_PART_SHOWER_HEAD) {
    dry_measuring_boolean (self, "toward-entry", part->toward_entry, NULL);
    measure_open_edge (self, part, wall);
  }
  if (part->kind == DRY_PART_SHOWER_HEAD || part->kind == DRY_PART_HAND_SHOWER)
    dry_measuring_number (self, "flow", part->flow_lpm, "L/min", NULL);
}

/* What stands before the studs where the valve comes through, and what its trim takes of that. */
static void
measure_trim (DryMeasuring *self, const DryPart *part)
{
  const DryBuildUp *built = &self->context->build_up;

  if (part->kind != DRY_PART_VALVE || part->trim_max <= 0)
    return;
  dry_measuring_length (
      self, "wall-before-studs", built->total, "board %s, membrane %s, mortar %s, tile %s",
      dry_measuring_text (self, built->board), dry_measuring_text (self, built->membrane),
      dry_measuring_text (self, built->mortar), dry_measuring_text (self, built->tile));
  dry_measuring_length (self, "trim-least", part->trim_min, NULL);
  dry_measuring_length (self, "trim-most", part->trim_max, NULL);
}

static void
measure_fitting (DryMeasuring *self, const char *kind, const DryPart *part, const DryWall *wall)
{
  const DryFace *face = dry_measuring_face_of (self, part->wall, part->side);
  const DryBasin *basin = &self->context->room->basin;

  dry_measuring_begin (self, kind, part->id, face ? (gint) face->index : -1, dry_part_rect (part),
                       dry_measuring_part_name (self, part));
  dry_measuring_length (self, "height", part->z, NULL);
  dry_measuring_boolean (self, "at-tub", basin->id && basin->kind == DRY_BASIN_TUB, NULL);
  dry_measuring_boolean (self, "has-shower", dry_measuring_has_shower (self), NULL);
  dry_measuring_boolean (self, "exterior-wall", wall->exterior, NULL);
  if (face)
    dry_measuring_length (self, "wet-top", face->wet_top, NULL);
  if (basin->id && basin->kind == DRY_BASIN_TUB)
    dry_measuring_length (self, "rim", basin->height, NULL);
  if (part->hole > 0)
    measure_stud_clear (self, part, wall);
  measure_water (self, part, wall);
  measure_trim (self, part);
  dry_measuring_overlaps (self, part, dry_part_rect (part));
  dry_measuring_end (self);
}

/* What the framing stage put in to hold the part: blocks, or a stud of its own behind glass. */
static gboolean
serves_part (const DryMember *member, const DryPart *part, gint face)
{
  return member->object == part->id && (gint) member->face == face &&
         (member->kind == DRY_MEMBER_BLOCKING || member->kind == DRY_MEMBER_STUD);
}

/* An upright of any origin behind the line on which a pane meets the wall: one already there, or
 * one that another edge asked for. */
static gboolean
stands_behind (const DryMember *member, DryLength u, gint face)
{
  return (gint) member->face == face && member->rect.x0 <= u && member->rect.x1 >= u &&
         dry_rect_height (member->rect) > dry_rect_width (member->rect);
}

gboolean
dry_measuring_is_blocked (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  const DryFace *face = dry_measuring_face_of (self, part->wall, part->side);
  const DryFraming *framing = self->plan->framing;
  g_autoptr (GArray) standing = NULL;
  DryRect rect = dry_part_rect (part);

  for (guint i = 0; face && i < framing->n; i++)
    if (serves_part (&framing->items[i], part, (gint) face->index) ||
        (part->kind == DRY_PART_GLASS &&
         stands_behind (&framing->items[i], part->u, (gint) face->index)))
      return TRUE;
  standing = dry_measuring_standing (self, wall, part->side);
  return dry_measuring_count_cut (standing, rect.x0, rect.x0 + 1) > 0 &&
         dry_measuring_count_cut (standing, rect.x1 - 1, rect.x1) > 0;
}

static void
measure_bar (DryMeasuring *self, const DryPart *part, const DryWall *wall)
{
  const DryFace *face = dry_measuring_face_of (self, part->wall, part->side);

  dry_measuring_begin (self, "grab-bar", part->id, face ? (gint) face->index : -1,
                       dry_part_rect (part), dry_measuring_part_name (self, part));
  dry_measuring_length (self, "height", part->z, NULL);
  dry_measuring_length (self, "length", part->width, NULL);
  dry_measuring_length (self, "thickness", part->height, NULL);
  dry_measuring_boolean (self, "blocked", dry_measuring_is_blocked (self, part, wall),
                         "blocking of its own, or a stud behind both ends");
  dry_measuring_overlaps (self, part, dry_part_rect (part));
  dry_measuring_end (self);
}

void
dry_measure_fittings (DryMeasuring *self)
{
  static const struct {
    DryPartKind kind;
    const char *subject;
  } KINDS[] = {{DRY_PART_VALVE, "valve"},
               {DRY_PART_SPOUT, "spout"},
               {DRY_PART_SHOWER_HEAD, "shower-head"},
               {DRY_PART_HAND_SHOWER, "hand-shower"}};
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    const DryWall *wall = dry_room_get_wall (room, part->wall);

    for (guint k = 0; k < G_N_ELEMENTS (KINDS); k++)
      if (KINDS[k].kind == part->kind)
        measure_fitting (self, KINDS[k].subject, part, wall);
    if (part->kind == DRY_PART_GRAB_BAR)
      measure_bar (self, part, wall);
  }
}
