/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Candidates are gathered as (coordinate, reason) pairs and the nearest to any of the moved
 * rectangle's left edge, centre and right edge wins. Knows no pixels: reach comes in as a length.
 */
#include "ui/canvas-snap.h"

#include <glib/gi18n.h>

#include "ui/studs.h"

typedef enum { EDGE = 1, CENTRE = 2, ANY = 3 } Meets;

typedef struct {
  DryLength at;
  Meets meets; /* which of the moved rectangle's lines it attracts */
  const char *reason;
} Target;

static void
add_target (GArray *targets, DryLength at, Meets meets, const char *reason)
{
  Target target = {at, meets, reason};

  g_array_append_val (targets, target);
}

/* Moves the lines low, centre and high to the nearest target in reach; earlier targets win ties, so
 * the more telling reasons are added first. */
static gboolean
choose_target (GArray *targets, DryLength low, DryLength high, DryLength reach, DryLength *shift,
               const Target **chosen)
{
  DryLength lines[3] = {low, low + (high - low) / 2, high};
  DryLength best = reach;
  gboolean found = FALSE;

  for (guint i = 0; i < targets->len; i++) {
    const Target *target = &g_array_index (targets, Target, i);

    for (guint k = 0; k < 3; k++) {
      Meets line = k == 1 ? CENTRE : EDGE;
      DryLength away = target->at - lines[k];

      if ((target->meets & line) == 0 || ABS (away) >= best)
        continue;
      best = ABS (away);
      *shift = away;
      *chosen = target;
      found = TRUE;
    }
  }
  return found;
}

static DryLength
round_to_grid (DryLength value, DryLength grid)
{
  DryLength half = grid / 2;

  if (grid <= 0)
    return value;
  return (value >= 0 ? (value + half) / grid : -((-value + half) / grid)) * grid;
}

static const DryFace *
find_face (const DrySnapRequest *request)
{
  if (request->plan == NULL || request->plan->faces == NULL)
    return NULL;
  return dry_faces_get_wall (request->plan->faces, request->wall, request->side);
}

gboolean
dry_snap_rect (const DryRoom *room, DryId object, DryId *wall, DrySide *side, DryRect *rect)
{
  const DryPart *part = dry_room_get_part (room, object);
  const DryOpening *opening = dry_room_get_opening (room, object);

  if (part != NULL) {
    *wall = part->wall;
    *side = part->side;
    *rect = dry_part_rect (part);
    return TRUE;
  }
  if (opening != NULL) {
    *wall = opening->wall;
    *side = DRY_SIDE_INSIDE;
    *rect = (DryRect){opening->u, opening->z, opening->u + opening->width,
                      opening->z + opening->height};
    return TRUE;
  }
  return FALSE;
}

/* Calls back for every other part and opening on the wall. */
typedef void (*SeeRect) (DryId object, DryRect rect, gpointer data);

static void
see_others (const DrySnapRequest *request, gboolean same_wall, SeeRect see, gpointer data)
{
  const DryRoom *room = request->room;

  for (guint i = 0; i < room->n_parts + room->n_openings; i++) {
    DryId id = i < room->n_parts ? room->parts[i].id : room->openings[i - room->n_parts].id;
    DryId wall = 0;
    DrySide side = DRY_SIDE_INSIDE;
    DryRect rect;

    if (id == request->moving || !dry_snap_rect (room, id, &wall, &side, &rect))
      continue;
    if (same_wall == (wall == request->wall && side == request->side))
      see (id, rect, data);
  }
}

static void
add_u_of_other (DryId object, DryRect rect, gpointer data)
{
  add_target (data, rect.x0 + dry_rect_width (rect) / 2, CENTRE, N_ ("In line with another part"));
  add_target (data, rect.x0, EDGE, N_ ("Edge of another part"));
  add_target (data, rect.x1, EDGE, N_ ("Edge of another part"));
}

static void
add_z_of_other (DryId object, DryRect rect, gpointer data)
{
  add_target (data, rect.y0 + dry_rect_height (rect) / 2, CENTRE,
              N_ ("Same height as another part"));
  add_target (data, rect.y0, EDGE, N_ ("Level with another part"));
  add_target (data, rect.y1, EDGE, N_ ("Level with another part"));
}

/* The basin's centre line and edges where they meet this wall, from its corners on the plan. */
static void
add_basin_lines (const DryRoom *room, const DryWall *wall, DrySide side, GArray *targets)
{
  DryPoint corners[4];
  DryLength low = G_MAXINT64, high = G_MININT64;

  if (!dry_room_basin_corners (room, corners))
    return;
  for (guint i = 0; i < 4; i++) {
    DryLength u = dry_wall_along (wall, side, corners[i]);

    low = MIN (low, u);
    high = MAX (high, u);
  }
  if (high <= 0 || low >= dry_wall_length (wall))
    return;
  add_target (targets, low + (high - low) / 2, CENTRE,
              room->basin.kind == DRY_BASIN_TUB ? N_ ("Center line of the tub")
                                                : N_ ("Center line of the pan"));
  add_target (targets, low, EDGE, N_ ("Edge of the basin"));
  add_target (targets, high, EDGE, N_ ("Edge of the basin"));
}

static void
add_bay_and_stud (GArray *targets, DryLength *last, DryLength low, DryLength high)
{
  if (low > *last)
    add_target (targets, *last + (low - *last) / 2, CENTRE, N_ ("Center of the stud bay"));
  add_target (targets, low, EDGE, N_ ("Face of a stud"));
  add_target (targets, high, EDGE, N_ ("Face of a stud"));
  *last = MAX (*last, high);
}

/* From the wall itself and not from the plan, whose framing follows the thing being moved: it would
 * snap to its own trimmers. */
static void
add_framing_lines (const DrySnapRequest *request, const DryWall *wall, GArray *targets)
{
  g_autoptr (GArray) studs = dry_studs_list (wall);
  DryLength t = wall->stud_width > 0 ? wall->stud_width : 3 * DRY_INCH / 2;
  DryLength length = dry_wall_length (wall), last = t;

  for (guint i = 0; i < studs->len; i++) {
    guint at = request->side == DRY_SIDE_OUTSIDE ? studs->len - 1 - i : i;
    DryLength u = g_array_index (studs, DryLength, at);

    if (request->side == DRY_SIDE_OUTSIDE)
      u = length - u;
    add_bay_and_stud (targets, &last, u - t / 2, u + t / 2);
  }
  if (length - t > last)
    add_target (targets, last + (length - t - last) / 2, CENTRE, N_ ("Center of the stud bay"));
}

static void
gather_u_targets (const DrySnapRequest *request, const DryWall *wall, GArray *targets)
{
  DryLength length = dry_wall_length (wall);

  add_basin_lines (request->room, wall, request->side, targets);
  see_others (request, TRUE, add_u_of_other, targets);
  add_framing_lines (request, wall, targets);
  add_target (targets, length / 2, CENTRE, N_ ("Center of the wall"));
  add_target (targets, 0, EDGE, N_ ("Corner"));
  add_target (targets, length, EDGE, N_ ("Corner"));
}

static void
gather_z_targets (const DrySnapRequest *request, const DryWall *wall, GArray *targets)
{
  const DryFace *face = find_face (request);

  see_others (request, TRUE, add_z_of_other, targets);
  see_others (request, FALSE, add_z_of_other, targets);
  if (face != NULL && face->at_basin)
    add_target (targets, face->deck, EDGE, N_ ("Rim of the basin"));
  if (face != NULL)
    add_target (targets, face->wet_top, EDGE, N_ ("Top of the wet wall"));
  add_target (targets, 0, EDGE, N_ ("Floor"));
  add_target (targets, dry_wall_height (request->room, wall), EDGE, N_ ("Top of the wall"));
}

DrySnap
dry_snap_on_wall (const DrySnapRequest *request)
{
  const DryWall *wall = dry_room_get_wall (request->room, request->wall);
  g_autoptr (GArray) targets = g_array_new (FALSE, FALSE, sizeof (Target));
  const Target *chosen = NULL;
  DryRect rect = request->rect;
  DrySnap snap = {0};

  if (wall == NULL)
    return snap;
  gather_u_targets (request, wall, targets);
  if (choose_target (targets, rect.x0, rect.x1, request->reach, &snap.du, &chosen)) {
    snap.u_reason = chosen->reason;
    snap.u_line = chosen->at;
  } else {
    DryLength centre = rect.x0 + dry_rect_width (rect) / 2;

    snap.du = round_to_grid (centre, request->grid) - centre;
  }
  if (request->lock_z)
    return snap;

  g_array_set_size (targets, 0);
  gather_z_targets (request, wall, targets);
  if (choose_target (targets, rect.y0, rect.y1, request->reach, &snap.dz, &chosen)) {
    snap.z_reason = chosen->reason;
    snap.z_line = chosen->at;
  } else {
    snap.dz = round_to_grid (rect.y0, request->grid) - rect.y0;
  }
  return snap;
}

DrySnap
dry_snap_along (const DryRoom *room, DryId wall_id, DryLength from, DryLength to, DryLength reach,
                DryLength grid)
{
  const DryWall *wall = dry_room_get_wall (room, wall_id);
  g_autoptr (GArray) targets = g_array_new (FALSE, FALSE, sizeof (Target));
  const Target *chosen = NULL;
  DrySnap snap = {0};

  if (wall == NULL)
    return snap;
  add_target (targets, 0, EDGE, N_ ("Corner"));
  add_target (targets, dry_wall_length (wall), EDGE, N_ ("Corner"));
  add_target (targets, dry_wall_length (wall) / 2, CENTRE, N_ ("Center of the wall"));
  if (choose_target (targets, from, to, reach, &snap.du, &chosen)) {
    snap.u_reason = chosen->reason;
    snap.u_line = chosen->at;
  } else {
    snap.du = round_to_grid (from, grid) - from;
  }
  return snap;
}

/* --- distances --- */

typedef struct {
  DryRect rect;
  DryNeighbours *found;
} Search;

static void
offer_neighbour (Search *search, guint side, DryLength distance, DryId object)
{
  if (distance >= search->found->distance[side])
    return;
  search->found->distance[side] = distance;
  search->found->object[side] = object;
}

/* Counts what stands beside or above the moved rectangle, not what is diagonal to it. */
static void
measure_other (DryId object, DryRect other, gpointer data)
{
  Search *search = data;
  DryRect rect = search->rect;
  gboolean beside = MAX (rect.y0, other.y0) < MIN (rect.y1, other.y1);
  gboolean above = MAX (rect.x0, other.x0) < MIN (rect.x1, other.x1);
  DryLength middle_x = rect.x0 + dry_rect_width (rect) / 2;
  DryLength middle_y = rect.y0 + dry_rect_height (rect) / 2;

  if (beside && !above) {
    if (other.x0 + dry_rect_width (other) / 2 < middle_x)
      offer_neighbour (search, DRY_TOWARD_SIDE_LEFT, rect.x0 - other.x1, object);
    else
      offer_neighbour (search, DRY_TOWARD_SIDE_RIGHT, other.x0 - rect.x1, object);
  }
  if (above && !beside) {
    if (other.y0 + dry_rect_height (other) / 2 < middle_y)
      offer_neighbour (search, DRY_TOWARD_SIDE_DOWN, rect.y0 - other.y1, object);
    else
      offer_neighbour (search, DRY_TOWARD_SIDE_UP, other.y0 - rect.y1, object);
  }
}

DryNeighbours
dry_snap_neighbours (const DrySnapRequest *request)
{
  const DryWall *wall = dry_room_get_wall (request->room, request->wall);
  DryNeighbours found = {0};
  Search search = {request->rect, &found};

  if (wall == NULL)
    return found;
  found.distance[DRY_TOWARD_SIDE_LEFT] = request->rect.x0;
  found.distance[DRY_TOWARD_SIDE_RIGHT] = dry_wall_length (wall) - request->rect.x1;
  found.distance[DRY_TOWARD_SIDE_DOWN] = request->rect.y0;
  found.distance[DRY_TOWARD_SIDE_UP] = dry_wall_height (request->room, wall) - request->rect.y1;
  see_others (request, TRUE, measure_other, &search);
  return found;
}

DryLength
dry_snap_grid (gboolean metric, DryLength least)
{
  static const DryLength inches[] = {DRY_INCH / 16, DRY_INCH / 8, DRY_INCH / 4, DRY_INCH / 2,
                                     DRY_INCH};
  static const DryLength metres[] = {DRY_MM, 5 * DRY_MM, 10 * DRY_MM, 50 * DRY_MM};
  const DryLength *steps = metric ? metres : inches;
  guint n = metric ? G_N_ELEMENTS (metres) : G_N_ELEMENTS (inches);

  for (guint i = 0; i < n; i++)
    if (steps[i] >= least)
      return steps[i];
  return steps[n - 1];
}
