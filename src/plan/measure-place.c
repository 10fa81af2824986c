/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things stand in their walls and round the basin: studs and bays, finished clear sizes.
 * Reads the document and the faces; writes no measures itself. */
#include "plan/measure-build.h"

#include <math.h>

#include "plan/faces-private.h"

/* No wall is framed with more; keeps a mad spacing from filling the memory. */
#define MAX_STUDS 4096

/* A wall further than this from the basin's side does not close it; it is another wall. */
#define REACH (6 * DRY_INCH)

static void
add_standing (GArray *standing, DryLength u0, DryLength u1)
{
  DryStanding stud = {u0, u1};

  g_array_append_val (standing, stud);
}

static void
add_studs (GArray *standing, const DryWall *wall)
{
  DryLength length = dry_wall_length (wall), half = wall->stud_width / 2;
  DryLength spacing = MAX (wall->stud_spacing, wall->stud_width);
  DryLength first = wall->first_stud > 0 ? wall->first_stud : wall->stud_spacing;

  if (wall->n_found_studs) {
    for (guint i = 0; i < wall->n_found_studs; i++)
      add_standing (standing, wall->found_studs[i] - half, wall->found_studs[i] + half);
    return;
  }
  for (DryLength u = first; u < length && standing->len < MAX_STUDS; u += spacing)
    add_standing (standing, u - half, u + half);
}

/* Doors take the studs between their jambs away; under and over a window short studs remain. */
static void
apply_openings (GArray *standing, const DryRoom *room, const DryWall *wall)
{
  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *opening = &room->openings[i];
    DryLength u0 = opening->u, u1 = opening->u + opening->width;

    if (opening->wall != wall->id)
      continue;
    for (guint j = standing->len; opening->kind != DRY_OPENING_WINDOW && j-- > 0;) {
      DryStanding *stud = &g_array_index (standing, DryStanding, j);
      if (stud->u0 >= u0 - wall->stud_width / 2 && stud->u1 <= u1 + wall->stud_width / 2)
        g_array_remove_index (standing, j);
    }
    add_standing (standing, u0 - wall->stud_width, u0);
    add_standing (standing, u1, u1 + wall->stud_width);
  }
}

static gint
compare_standing (gconstpointer a, gconstpointer b)
{
  const DryStanding *first = a, *second = b;

  if (first->u0 != second->u0)
    return first->u0 < second->u0 ? -1 : 1;
  return first->u1 < second->u1 ? -1 : first->u1 > second->u1;
}

/* Studs that touch count as one: a bay cannot lie between them. */
static void
merge_standing (GArray *standing)
{
  guint kept = 0;

  g_array_sort (standing, compare_standing);
  for (guint i = 0; i < standing->len; i++) {
    DryStanding next = g_array_index (standing, DryStanding, i);
    DryStanding *last = kept ? &g_array_index (standing, DryStanding, kept - 1) : NULL;

    if (last && next.u0 <= last->u1)
      last->u1 = MAX (last->u1, next.u1);
    else
      g_array_index (standing, DryStanding, kept++) = next;
  }
  g_array_set_size (standing, kept);
}

GArray *
dry_measuring_standing (DryMeasuring *self, const DryWall *wall, DrySide side)
{
  GArray *standing = g_array_new (FALSE, FALSE, sizeof (DryStanding));
  DryLength length = dry_wall_length (wall);

  add_standing (standing, 0, wall->stud_width);
  add_standing (standing, length - wall->stud_width, length);
  add_studs (standing, wall);
  apply_openings (standing, self->context->room, wall);
  for (guint i = 0; side == DRY_SIDE_OUTSIDE && i < standing->len; i++) {
    DryStanding *stud = &g_array_index (standing, DryStanding, i);
    *stud = (DryStanding){length - stud->u1, length - stud->u0};
  }
  merge_standing (standing);
  return standing;
}

gboolean
dry_measuring_bay (const GArray *standing, DryLength u, DryStanding *out)
{
  gboolean left = FALSE, right = FALSE;

  for (guint i = 0; i < standing->len; i++) {
    const DryStanding *stud = &g_array_index (standing, DryStanding, i);

    if (stud->u0 < u && stud->u1 > u)
      return FALSE;
    if (stud->u1 <= u) {
      out->u0 = stud->u1;
      left = TRUE;
    } else if (!right) {
      out->u1 = stud->u0;
      right = TRUE;
    }
  }
  return left && right;
}

guint
dry_measuring_count_cut (const GArray *standing, DryLength u0, DryLength u1)
{
  guint n = 0;

  for (guint i = 0; i < standing->len; i++) {
    const DryStanding *stud = &g_array_index (standing, DryStanding, i);
    n += MAX (stud->u0, u0) < MIN (stud->u1, u1);
  }
  return n;
}

gboolean
dry_measuring_has_shower (const DryMeasuring *self)
{
  return dry_measuring_find_part (self, DRY_PART_SHOWER_HEAD) ||
         dry_measuring_find_part (self, DRY_PART_HAND_SHOWER);
}

const DryPart *
dry_measuring_find_part (const DryMeasuring *self, DryPartKind kind)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == kind)
      return &room->parts[i];
  return NULL;
}

const DryFace *
dry_measuring_face_of (const DryMeasuring *self, DryId wall, DrySide side)
{
  return dry_faces_get_wall (self->plan->faces, wall, side);
}

guint
dry_measuring_count_overlaps (const DryMeasuring *self, const DryPart *part, DryRect rect)
{
  const DryRoom *room = self->context->room;
  const DryWall *wall = dry_room_get_wall (room, part->wall);
  guint n = 0;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *other = &room->parts[i];
    if (other->id != part->id && other->wall == part->wall && other->side == part->side &&
        !dry_part_kind_is_hidden (other->kind))
      n += dry_rect_overlaps (rect, dry_part_rect (other));
  }
  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *other = &room->openings[i];
    if (other->wall == part->wall)
      n += dry_rect_overlaps (rect, dry_faces_opening_rect (wall, part->side, other));
  }
  return n;
}

void
dry_measuring_overlaps (DryMeasuring *self, const DryPart *part, DryRect rect)
{
  dry_measuring_number (self, "overlaps", dry_measuring_count_overlaps (self, part, rect), "",
                        "other parts and openings it reaches into");
}

const char *
dry_measuring_part_name (DryMeasuring *self, const DryPart *part)
{
  g_autofree char *name = dry_room_dup_part_name (self->context->room, part);

  return dry_arena_strdup (self->context->arena, name);
}

/* The side of the basin from `a` to `b`, its outside on the right, against one face of a wall.
 * Gives how far off the wall stands; FALSE when it does not run beside it. */
static gboolean
measure_off (const DryWall *wall, DrySide side, DryPoint a, DryPoint b, DryLength *off)
{
  double dx = (double) (b.x - a.x), dy = (double) (b.y - a.y), run = hypot (dx, dy);
  double ux, uy, nx, ny, mx, my, along0, along1;
  DryPoint start, end;

  if (run <= 0)
    return FALSE;
  dx /= run;
  dy /= run;
  dry_wall_axes (wall, side, &ux, &uy, &nx, &ny);
  /* Facing the basin within about five degrees: outward normal of the side is (dy, -dx). */
  if (nx * dy - ny * dx > -0.9962)
    return FALSE;
  start = dry_wall_point (wall, side, 0, 0);
  end = dry_wall_point (wall, side, dry_wall_length (wall), 0);
  along0 = (double) (start.x - a.x) * dx + (double) (start.y - a.y) * dy;
  along1 = (double) (end.x - a.x) * dx + (double) (end.y - a.y) * dy;
  if (MIN (MAX (along0, along1), run) - MAX (MIN (along0, along1), 0) < run / 2)
    return FALSE;
  mx = ((double) start.x + (double) end.x) / 2 - (double) a.x;
  my = ((double) start.y + (double) end.y) / 2 - (double) a.y;
  *off = (DryLength) llround (mx * dy - my * dx);
  return ABS (*off) <= REACH;
}

static void
find_walls (const DryRoom *room, DryInside *out)
{
  for (guint side = 0; side < 4; side++)
    for (guint i = 0; i < room->n_walls; i++) {
      const DryWall *wall = &room->walls[i];
      for (guint face = 0; face < (wall->added ? 2u : 1u); face++) {
        DryLength off;
        if (!measure_off (wall, (DrySide) face, out->corners[side], out->corners[(side + 1) % 4],
                          &off) ||
            (out->wall[side] && ABS (out->off[side]) <= ABS (off)))
          continue;
        out->wall[side] = wall;
        out->face[side] = (DrySide) face;
        out->off[side] = off;
      }
    }
}

/* How much a leaning wall narrows the opening at the basin's deck. */
static DryLength
reckon_lean (const DryRoom *room, const DryWall *wall)
{
  if (wall->plumb_error <= 0)
    return 0;
  return (DryLength) llround ((double) wall->plumb_error * (double) room->basin.height /
                              (double) dry_wall_height (room, wall));
}

/* The basin's end walls are the sides of an alcove behind it or before it: the tightest of the
 * alcove's three widths lies between them. Else their own distance, each taken at its middle. */
static DryLength
reckon_opening (const DryRoom *room, guint end0, guint end1, DryInside *inside)
{
  const DryWall *first = inside->wall[end0], *second = inside->wall[end1];

  for (guint side = 0; side < 4; side++) {
    guint index = inside->wall[side] ? dry_room_find_wall (room, inside->wall[side]->id) : 0;
    const DryWall *left, *right;

    if (side == end0 || side == end1 || !inside->wall[side] || index >= room->n_outline)
      continue;
    left = &room->walls[(index + room->n_outline - 1) % room->n_outline];
    right = &room->walls[(index + 1) % room->n_outline];
    if ((left == first ? right == second : left == second && right == first) &&
        dry_room_get_widths (room, room->walls[index].id, &inside->widths))
      return MIN (inside->widths.back, MIN (inside->widths.middle, inside->widths.front));
  }
  return room->basin.length + inside->off[end0] + inside->off[end1];
}

gboolean
dry_measuring_inside (DryMeasuring *self, DryInside *out)
{
  const DryRoom *room = self->context->room;
  const DryBasin *basin = &room->basin;
  DryLength built = self->context->build_up.total;
  guint end0 = basin->turned ? DRY_AT_BACK : DRY_AT_LEFT;
  guint end1 = basin->turned ? DRY_AT_FRONT : DRY_AT_RIGHT;

  *out = (DryInside){0};
  if (!dry_room_basin_corners (room, out->corners))
    return FALSE;
  find_walls (room, out);
  for (guint i = 0; i < 4; i++)
    if (out->wall[i])
      out->inset[i] = MAX (0, built - out->off[i]);
  out->length = MAX (0, basin->length - out->inset[end0] - out->inset[end1]);
  out->width = MAX (0, basin->width - out->inset[(end0 + 1) % 4] - out->inset[(end1 + 1) % 4]);
  if (out->wall[end0] && out->wall[end1])
    out->opening = reckon_opening (room, end0, end1, out) - reckon_lean (room, out->wall[end0]) -
                   reckon_lean (room, out->wall[end1]);
  return TRUE;
}
