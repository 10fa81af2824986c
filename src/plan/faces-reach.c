/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which sides of which walls the basin and its wet zone reach, and from where to where.
 * Works on the plan only; knows no boards and no heights but those of walls. */
#include "plan/faces-private.h"

#include <math.h>

/* The basin seen from above, with what its wet zone adds. */
typedef struct {
  const DryRoom *room;
  DryPoint corners[4]; /* counter-clockwise from the back left */
  DryPoint centre;
  double nx[4], ny[4]; /* outward direction of the edge from corner i to i + 1 */
  DryLength touch;     /* how near counts as standing against */
  DryLength past;
} Basin;

static DryLength
round_length (double value)
{
  return (DryLength) llround (value);
}

DryPoint
dry_faces_see_point (const DryWetSide *side, DryPoint plan)
{
  double dx = (double) (plan.x - side->origin.x), dy = (double) (plan.y - side->origin.y);

  return (DryPoint){round_length (dx * side->ux + dy * side->uy),
                    round_length (dx * side->uy - dy * side->ux)};
}

DryLength
dry_faces_near_left (const DryWetSide *side)
{
  return side->left.half_top ? side->left.half_at : side->left.end;
}

DryLength
dry_faces_near_right (const DryWetSide *side)
{
  return side->right.half_top ? side->right.half_at : side->right.end;
}

static gboolean
see_basin (const DryRoom *room, Basin *basin)
{
  __int128 x = 0, y = 0;

  basin->room = room;
  if (!dry_room_basin_corners (room, basin->corners))
    return FALSE;
  for (guint i = 0; i < 4; i++) {
    DryPoint a = basin->corners[i], b = basin->corners[(i + 1) % 4];
    double dx = (double) (b.x - a.x), dy = (double) (b.y - a.y), length = hypot (dx, dy);

    if (length <= 0)
      return FALSE;
    basin->nx[i] = dy / length;
    basin->ny[i] = -dx / length;
    x += a.x;
    y += a.y;
  }
  basin->centre = (DryPoint){(DryLength) (x / 4), (DryLength) (y / 4)};
  /* A basin set off its wall stands on a ledge, which closes gaps as wide at its ends as well. */
  basin->touch = room->basin.drop_in ? DRY_FACES_DECK
                                     : CLAMP (room->basin.away, DRY_FACES_TOUCH, DRY_FACES_DECK);
  basin->past = MAX (room->wet.past, 0);
  return TRUE;
}

static gboolean
see_side (const DryRoom *room, guint order, DrySide which, DryWetSide *side)
{
  const DryWall *wall = &room->walls[order];
  DryPoint a, b;
  double length;

  *side = (DryWetSide){.wall = wall, .side = which, .order = order};
  side->length = dry_wall_length (wall);
  side->height = dry_wall_height (room, wall);
  if (side->length <= 0 || side->height <= 0)
    return FALSE;
  a = dry_wall_point (wall, which, 0, 0);
  b = dry_wall_point (wall, which, side->length, 0);
  length = hypot ((double) (b.x - a.x), (double) (b.y - a.y));
  side->origin = a;
  side->ux = (double) (b.x - a.x) / length;
  side->uy = (double) (b.y - a.y) / length;
  side->left.end = 0;
  side->right.end = side->length;
  return TRUE;
}

/* The stretch of u an added wall covers where it meets `side`; FALSE when it does not meet it. */
static gboolean
cover_stretch (const DryWetSide *side, const DryWall *added, DryLength *u0, DryLength *u1)
{
  DryLength length = dry_wall_length (added), lowest = DRY_LENGTH_MAX, highest = -DRY_LENGTH_MAX;
  DryPoint p[4] = {dry_wall_point (added, DRY_SIDE_INSIDE, 0, 0),
                   dry_wall_point (added, DRY_SIDE_INSIDE, length, 0),
                   dry_wall_point (added, DRY_SIDE_OUTSIDE, 0, 0),
                   dry_wall_point (added, DRY_SIDE_OUTSIDE, length, 0)};
  gboolean found = FALSE;

  for (guint i = 0; i < 4; i++) {
    p[i] = dry_faces_see_point (side, p[i]);
    lowest = MIN (lowest, p[i].y);
    highest = MAX (highest, p[i].y);
  }
  if (lowest > DRY_FACES_TOUCH || highest <= DRY_FACES_TOUCH)
    return FALSE;
  /* Its outline, cut off where it leaves the face. */
  for (guint i = 0; i < 4; i++) {
    DryPoint q = p[(i + 1) % 4];
    gboolean near = p[i].y <= DRY_FACES_TOUCH;
    DryLength at = p[i].x;

    if (!near && q.y > DRY_FACES_TOUCH)
      continue;
    if (!near || q.y > DRY_FACES_TOUCH) {
      double share = (double) (DRY_FACES_TOUCH - p[i].y) / (double) (q.y - p[i].y);
      DryLength crossing = p[i].x + round_length (share * (double) (q.x - p[i].x));

      *u0 = found ? MIN (*u0, crossing) : crossing;
      *u1 = found ? MAX (*u1, crossing) : crossing;
      found = TRUE;
    }
    if (near) {
      *u0 = found ? MIN (*u0, at) : at;
      *u1 = found ? MAX (*u1, at) : at;
      found = TRUE;
    }
  }
  return found && *u1 > 0 && *u0 < side->length;
}

/* An added wall standing at this side ends what can be seen of it from the basin. */
static void
stop_at_added_walls (const Basin *basin, DryWetSide *side)
{
  const DryRoom *room = basin->room;
  DryLength middle = dry_faces_see_point (side, basin->centre).x;

  for (guint i = room->n_outline; i < room->n_walls; i++) {
    const DryWall *added = &room->walls[i];
    DryLength u0 = 0, u1 = 0, top = dry_wall_height (room, added);
    gboolean half = top < side->wet_top;

    if (added == side->wall || top <= 0 || !cover_stretch (side, added, &u0, &u1))
      continue;
    if (u0 + u1 >= 2 * middle) {
      u0 = CLAMP (u0, 0, side->length);
      if (!half)
        side->right.end = MIN (side->right.end, u0);
      else if (!side->right.half_top || u0 < side->right.half_at)
        side->right = (DrySideStop){side->right.end, u0, u1, top};
    } else {
      u1 = CLAMP (u1, 0, side->length);
      if (!half)
        side->left.end = MAX (side->left.end, u1);
      else if (!side->left.half_top || u1 > side->left.half_at)
        side->left = (DrySideStop){side->left.end, u1, u0, top};
    }
  }
  if (side->right.half_at >= side->right.end)
    side->right.half_top = 0;
  if (side->left.half_at <= side->left.end)
    side->left.half_top = 0;
}

/* The basin's edge this side looks at. */
static void
find_basin_side (const Basin *basin, DryWetSide *side)
{
  double best = -2;

  for (guint i = 0; i < 4; i++) {
    double facing = -(side->uy * basin->nx[i] - side->ux * basin->ny[i]);

    if (facing > best + 1e-9) {
      best = facing;
      side->basin_side = i;
    }
  }
  side->parallel = best > 0.9999;
}

static gboolean
find_touch (const Basin *basin, DryWetSide *side)
{
  guint i = side->basin_side;
  DryPoint a = dry_faces_see_point (side, basin->corners[i]);
  DryPoint b = dry_faces_see_point (side, basin->corners[(i + 1) % 4]);

  if (!side->parallel || MAX (a.y, b.y) > basin->touch || MIN (a.y, b.y) < -DRY_FACES_INTO)
    return FALSE;
  side->b0 = MAX (MIN (a.x, b.x), dry_faces_near_left (side));
  side->b1 = MIN (MAX (a.x, b.x), dry_faces_near_right (side));
  return side->b1 - side->b0 > DRY_FACES_TOUCH;
}

/* From the basin's edge `at` outward (sign -1 left, 1 right): to the corner when it is near, else
 * `past` beyond the edge. */
static DryLength
reach_past (const Basin *basin, const DrySideStop *stop, DryLength at, gint sign, gboolean *leg)
{
  DryLength near = stop->half_top ? stop->half_at : stop->end;
  DryLength gap = sign * (near - at), beyond = sign * at + basin->past;

  *leg = basin->room->wet.leg && gap > basin->touch && basin->past > 0;
  if (gap > MAX (basin->touch, basin->past))
    return at + sign * basin->past;
  if (!stop->half_top)
    return stop->end;
  /* Above a half wall the wet wall goes on, at least over the half wall's top. */
  return sign * MIN (MAX (beyond, sign * stop->half_far), sign * stop->end);
}

/* The part of the side inside the wet zone's outline: the basin grown by `past` all round. */
static gboolean
clip_to_reach (const Basin *basin, DryWetSide *side)
{
  double t0 = (double) dry_faces_near_left (side), t1 = (double) dry_faces_near_right (side);
  double past = (double) basin->past + 0.5;

  for (guint i = 0; i < 4; i++) {
    double along = side->ux * basin->nx[i] + side->uy * basin->ny[i];
    double start = (double) (side->origin.x - basin->corners[i].x) * basin->nx[i] +
                   (double) (side->origin.y - basin->corners[i].y) * basin->ny[i];

    if (fabs (along) < 1e-12) {
      if (start > past)
        return FALSE;
    } else if (along > 0) {
      t1 = MIN (t1, ((double) basin->past - start) / along);
    } else {
      t0 = MAX (t0, ((double) basin->past - start) / along);
    }
  }
  if (t1 - t0 < (double) DRY_FACES_TOUCH)
    return FALSE;
  side->wet_u0 = round_length (t0);
  side->wet_u1 = round_length (t1);
  return TRUE;
}

static gint
turn_of (DryPoint a, DryPoint b, DryPoint c)
{
  __int128 cross = (__int128) (b.x - a.x) * (c.y - a.y) - (__int128) (b.y - a.y) * (c.x - a.x);

  return (cross > 0) - (cross < 0);
}

static gboolean
segments_cross (DryPoint a, DryPoint b, DryPoint c, DryPoint d)
{
  return turn_of (a, b, c) * turn_of (a, b, d) < 0 && turn_of (c, d, a) * turn_of (c, d, b) < 0;
}

/* TRUE when another wall stands between the basin and the middle of the wet stretch. */
static gboolean
is_hidden (const Basin *basin, const DryWetSide *side)
{
  const DryRoom *room = basin->room;
  DryPoint middle =
      dry_wall_point (side->wall, side->side, (side->wet_u0 + side->wet_u1) / 2, DRY_MM);

  for (guint i = 0; i < room->n_walls; i++)
    if (&room->walls[i] != side->wall &&
        segments_cross (basin->centre, middle, room->walls[i].start, room->walls[i].end))
      return TRUE;
  return FALSE;
}

/* FALSE when the wet zone does not reach this side. */
static gboolean
measure_side (const Basin *basin, DryWetSide *side)
{
  const DryWetZone *wet = &basin->room->wet;
  DryLength snap = DRY_FACES_TOUCH;

  if (dry_faces_see_point (side, basin->centre).y <= 0)
    return FALSE;
  side->wet_top = MIN (side->height, basin->room->ceiling);
  if (wet->height > 0)
    side->wet_top = MIN (side->wet_top, wet->height);
  stop_at_added_walls (basin, side);
  find_basin_side (basin, side);
  side->touches = find_touch (basin, side);
  if (side->touches) {
    side->wet_u0 = reach_past (basin, &side->left, side->b0, -1, &side->leg_left);
    side->wet_u1 = reach_past (basin, &side->right, side->b1, 1, &side->leg_right);
    if (basin->room->basin.drop_in) { /* the deck goes on to the corner */
      if (side->b0 - dry_faces_near_left (side) <= basin->touch)
        side->b0 = dry_faces_near_left (side);
      if (dry_faces_near_right (side) - side->b1 <= basin->touch)
        side->b1 = dry_faces_near_right (side);
    }
    return TRUE;
  }
  if (!clip_to_reach (basin, side) || is_hidden (basin, side))
    return FALSE;
  if (side->wet_u0 - side->left.end <= snap)
    side->wet_u0 = side->left.end;
  if (side->right.end - side->wet_u1 <= snap)
    side->wet_u1 = side->right.end;
  side->leg_left = side->leg_right = wet->leg;
  return TRUE;
}

/* The wall at the basin's long side, the basin's own wall first. */
static gint
find_back (const Basin *basin, const GArray *sides)
{
  const DryBasin *value = &basin->room->basin;
  gint best = -1, best_score = 0;
  DryLength best_width = 0;

  for (guint i = 0; i < sides->len; i++) {
    const DryWetSide *side = &g_array_index (sides, DryWetSide, i);
    gboolean own = side->wall->id == value->wall && side->side == DRY_SIDE_INSIDE;
    gboolean across = side->basin_side % 2 == 1; /* front or back edge as set down */
    gboolean is_long = value->length == value->width ||
                       across == ((value->length > value->width) != value->turned);
    gint score = side->touches ? 1 + own + 2 * is_long : 0;
    DryLength width = side->b1 - side->b0;

    if (score > best_score || (score == best_score && best >= 0 && width > best_width)) {
      best = (gint) i;
      best_score = score;
      best_width = width;
    }
  }
  return best >= 0 || sides->len == 0 ? best : 0;
}

static gint
compare_sides (gconstpointer a, gconstpointer b)
{
  const DryWetSide *left = a, *right = b;

  if (left->bearing != right->bearing)
    return left->bearing < right->bearing ? -1 : 1;
  return (gint) left->order - (gint) right->order;
}

/* Orders the sides as a person standing in the basin and turning clockwise sees them. */
static void
sort_sides (const Basin *basin, GArray *sides, gint *back)
{
  const DryWetSide *first = &g_array_index (sides, DryWetSide, *back);
  guint order = first->order;
  DrySide which = first->side;
  DryPoint to = dry_wall_point (first->wall, which, (first->wet_u0 + first->wet_u1) / 2, 0);
  double bx = (double) (to.x - basin->centre.x), by = (double) (to.y - basin->centre.y);

  for (guint i = 0; i < sides->len; i++) {
    DryWetSide *side = &g_array_index (sides, DryWetSide, i);
    DryPoint at = dry_wall_point (side->wall, side->side, (side->wet_u0 + side->wet_u1) / 2, 0);
    double vx = (double) (at.x - basin->centre.x), vy = (double) (at.y - basin->centre.y);

    side->bearing = atan2 (by * vx - bx * vy, bx * vx + by * vy) * 180 / G_PI;
  }
  g_array_sort (sides, compare_sides);
  for (guint i = 0; i < sides->len; i++) {
    const DryWetSide *side = &g_array_index (sides, DryWetSide, i);

    if (side->order == order && side->side == which)
      *back = (gint) i;
  }
}

GArray *
dry_faces_find_sides (const DryPlanContext *context, gint *back)
{
  const DryRoom *room = context->room;
  DryLength bottom = dry_faces_basin_heights (context).board_bottom;
  GArray *sides = g_array_new (FALSE, TRUE, sizeof (DryWetSide));
  Basin basin = {0};

  *back = -1;
  if (!see_basin (room, &basin))
    return sides;
  for (guint i = 0; i < room->n_walls; i++)
    for (guint which = DRY_SIDE_INSIDE; which <= (room->walls[i].added ? 1 : 0); which++) {
      DryWetSide side;

      if (see_side (room, i, (DrySide) which, &side) && measure_side (&basin, &side) &&
          side.wet_top > bottom && side.wet_u1 > side.wet_u0)
        g_array_append_val (sides, side);
    }
  if (sides->len) {
    *back = find_back (&basin, sides);
    sort_sides (&basin, sides, back);
  }
  return sides;
}

double
dry_faces_angle (const DryWetSide *left, const DryWetSide *right)
{
  double cross = left->ux * right->uy - left->uy * right->ux;
  double dot = left->ux * right->ux + left->uy * right->uy;

  return 180 + atan2 (cross, dot) * 180 / G_PI;
}

double
dry_faces_end_angle (const DryPlanContext *context, const DryWetSide *side, gboolean right)
{
  const DryRoom *room = context->room;
  DryLength u = right ? dry_faces_near_right (side) : dry_faces_near_left (side);
  DryPoint at = dry_wall_point (side->wall, side->side, u, 0);

  for (guint i = 0; i < room->n_walls; i++)
    for (guint which = DRY_SIDE_INSIDE; which <= (room->walls[i].added ? 1 : 0); which++) {
      DryWetSide other;
      DryPoint seen;

      if (&room->walls[i] == side->wall || !see_side (room, i, (DrySide) which, &other))
        continue;
      seen = dry_faces_see_point (&other, at);
      if (ABS (seen.y) > DRY_FACES_TOUCH || seen.x < -DRY_FACES_TOUCH ||
          seen.x > other.length + DRY_FACES_TOUCH)
        continue;
      if (fabs (side->ux * other.uy - side->uy * other.ux) < 1e-9 && !room->walls[i].added)
        return 180;
      /* Of an added wall only the side met head on counts: its viewer's side looks back at us. */
      if ((other.uy * side->ux - other.ux * side->uy) * (right ? 1 : -1) > 0 &&
          room->walls[i].added)
        continue;
      return right ? dry_faces_angle (side, &other) : dry_faces_angle (&other, side);
    }
  return 0;
}
