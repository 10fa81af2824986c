/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules of seams: what carries them, how far they keep from niche corners and holes, and what
 * breaking each weighs. Makes a face ready for the search; chooses nothing itself. */
#define G_LOG_DOMAIN "plan"

#include <math.h>

#include "plan/boards-private.h"

/* Trade list, warning 44: no seam within 2 in of a niche corner. Common practice, no source. */
#define CORNER_CLEAR (2 * DRY_INCH)
/* Board left round a pipe hole beside a seam. Common practice, no source. */
#define HOLE_CLEAR DRY_INCH
/* End joints are staggered by at least one stud or 16 in: ANSI A108.11, as quoted in trade press.
 */
#define STAGGER (16 * DRY_INCH)
/* Plates close the ends of a stud: two above, one below. */
#define PLATES (5 * DRY_INCH)

/* What breaking a rule weighs against breaking another. */
#define FAULT_CORNER  20
#define FAULT_HOLE    30
#define FAULT_NO_STUD 50
#define FAULT_SHAVE   20

/* What is allowed but unwelcome counts like so much more seam. */
#define EFFORT_SECOND (24 * DRY_INCH)
#define EFFORT_STEP   (12 * DRY_INCH)
/* A level seam over studs wants blocking in every bay and catches what runs down: each length of it
 * counts twice. Common practice, no source. */
#define EFFORT_LEVEL 1

gboolean
dry_board_fit_distance (const DrySystem *system, DryLength bearing, DryLength *distance)
{
  DryLength most = bearing - DRY_WOOD_AROUND;
  DryLength usual = system->edge_distance.value;
  DryLength least = system->edge_distance_min.value;
  DryLength largest = MAX (system->edge_distance_max.value, usual);
  if (least <= 0)
    least = usual;
  *distance = usual;
  if (usual <= most)
    return TRUE;
  *distance = MIN (largest, most);
  if (*distance >= least)
    return TRUE;
  *distance = least;
  return FALSE;
}

/* --- carriers --- */

static gboolean
is_upright (DryMemberKind kind)
{
  return kind == DRY_MEMBER_STUD || kind == DRY_MEMBER_TRIMMER || kind == DRY_MEMBER_CORNER ||
         kind == DRY_MEMBER_CRIPPLE;
}

static gboolean
has_room (const DryBoardFace *self, guint member, DryRect twin)
{
  const DryFace *face = self->face;
  if (twin.x0 < 0 || twin.x1 > face->length)
    return FALSE;
  for (guint i = 0; i < self->framing->n; i++) {
    const DryMember *other = &self->framing->items[i];
    if (i != member && other->face == face->index && is_upright (other->kind) &&
        dry_rect_overlaps (other->rect, twin))
      return FALSE;
  }
  for (guint i = 0; i < face->n_cutouts; i++)
    if (dry_rect_overlaps (face->cutouts[i].rough, twin))
      return FALSE;
  for (guint i = 0; i < face->n_holes; i++) {
    const DryHole *hole = &face->holes[i];
    DryRect square =
        dry_rect_inflate ((DryRect){hole->centre.x, hole->centre.y, hole->centre.x, hole->centre.y},
                          hole->diameter / 2 + 1);
    if (dry_rect_overlaps (square, twin))
      return FALSE;
  }
  return TRUE;
}

/* A sheet hung whole may push the seam off the middle, as long as the board that gives way still
 * has the least distance the system allows and wood round it. */
static void
keep_carrier (const DryBoardFace *self, DryCarrier carrier, GArray *carriers)
{
  const DrySystem *system = self->context->system;
  DryLength least = system->edge_distance_min.value;
  if (least <= 0)
    least = system->edge_distance.value;
  carrier.slack = MAX (carrier.bearing - DRY_WOOD_AROUND - least, 0);
  g_array_append_val (carriers, carrier);
}

/* The seam on the centre of the member, or, when no fastener would hold there, between it and a
 * second one set beside it. */
static void
add_carrier (const DryBoardFace *self, guint index, GArray *carriers)
{
  const DryMember *member = &self->framing->items[index];
  DryRect rect = member->rect;
  DryLength width = dry_rect_width (rect);
  DryCarrier carrier = {
      .at = rect.x0 + width / 2,
      .y0 = rect.y0 - PLATES,
      .y1 = rect.y1 + PLATES,
      .member = (gint) index,
      .bearing = width / 2 - self->gap_high,
  };
  const DrySystem *system = self->context->system;
  if (dry_board_fit_distance (system, carrier.bearing, &carrier.distance)) {
    keep_carrier (self, carrier, carriers);
    return;
  }
  carrier.second = TRUE;
  for (guint side = 0; side < 2; side++) {
    DryRect twin = rect;
    twin.x0 = side == 0 ? rect.x1 : rect.x0 - width;
    twin.x1 = twin.x0 + width;
    if (!has_room (self, index, twin))
      continue;
    carrier.twin = twin;
    carrier.at = side == 0 ? rect.x1 : rect.x0;
    carrier.bearing = width - self->gap_high;
    dry_board_fit_distance (system, carrier.bearing, &carrier.distance);
    break;
  }
  keep_carrier (self, carrier, carriers);
}

static gint
compare_carriers (gconstpointer a, gconstpointer b)
{
  const DryCarrier *left = a, *right = b;
  if (left->at != right->at)
    return left->at < right->at ? -1 : 1;
  return left->member < right->member ? -1 : left->member > right->member;
}

static void
find_carriers (DryBoardFace *self)
{
  GArray *carriers = g_array_new (FALSE, FALSE, sizeof (DryCarrier));
  for (guint i = 0; i < self->framing->n && !dry_board_is_backed (self->face); i++) {
    const DryMember *member = &self->framing->items[i];
    if (member->face == self->face->index && is_upright (member->kind) &&
        !dry_rect_is_empty (member->rect))
      add_carrier (self, i, carriers);
  }
  /* The lining of a niche lies on members along its edges only. */
  self->seams_anywhere = self->face->kind != DRY_FACE_WALL && carriers->len == 0;
  g_array_sort (carriers, compare_carriers);
  self->n_carriers = carriers->len;
  self->carriers = dry_arena_take_array (self->scratch, carriers);
}

/* --- inner corners --- */

static gboolean
is_cutout_corner (const DryFace *face, DryPoint p)
{
  for (guint i = 0; i < face->n_cutouts; i++) {
    DryRect r = face->cutouts[i].rough;
    if ((p.x == r.x0 || p.x == r.x1) && (p.y == r.y0 || p.y == r.y1))
      return TRUE;
  }
  return FALSE;
}

/* Outer rings run counter-clockwise and holes clockwise, so a right turn is an inner corner. */
static void
add_inner_corners (const DryFace *face, const DryRing *ring, GArray *corners)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[(i + ring->n_points - 1) % ring->n_points], b = ring->points[i];
    DryPoint c = ring->points[(i + 1) % ring->n_points];
    __int128 turn = (__int128) (b.x - a.x) * (c.y - b.y) - (__int128) (b.y - a.y) * (c.x - b.x);
    if (turn >= 0)
      continue;
    DryInnerCorner corner = {b, is_cutout_corner (face, b)};
    g_array_append_val (corners, corner);
  }
}

static void
find_inner_corners (DryBoardFace *self)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (DryInnerCorner));
  const DryRegion *region = &self->face->region;
  for (guint i = 0; i < region->n_polygons; i++) {
    add_inner_corners (self->face, &region->polygons[i].outer, corners);
    for (guint h = 0; h < region->polygons[i].n_holes; h++)
      add_inner_corners (self->face, &region->polygons[i].holes[h], corners);
  }
  self->n_corners = corners->len;
  self->corners = dry_arena_take_array (self->scratch, corners);
}

DryLength
dry_board_stagger (const DryWall *wall)
{
  DryLength stagger = STAGGER;
  if (wall == NULL)
    return stagger;
  if (wall->stud_spacing > 0)
    stagger = MIN (STAGGER, wall->stud_spacing);
  /* A seam beside a second stud stands half a stud off the centre. */
  return stagger - MIN (wall->stud_width, stagger / 2);
}

DryBoardFace *
dry_board_face_new (const DryPlanContext *context, const DryFace *face, const DryFraming *framing,
                    DryArena *scratch, const DryStock *stock, guint n_stock)
{
  DryBoardFace *self = dry_arena_alloc (scratch, sizeof (DryBoardFace));
  const DryWall *wall = dry_room_get_wall (context->room, face->wall);
  self->context = context;
  self->face = face;
  self->framing = framing;
  self->scratch = scratch;
  self->stock = stock;
  self->n_stock = n_stock;
  self->may_turn = !context->system->directional;
  self->gap = MAX (context->system->joint_gap, 0);
  self->gap_low = self->gap / 2;
  self->gap_high = self->gap - self->gap_low;
  self->min_piece = context->system->min_piece;
  self->block_half =
      (wall != NULL && wall->stud_depth > 0 ? wall->stud_depth : 7 * DRY_INCH / 2) / 2;
  self->stagger = dry_board_stagger (wall);
  dry_board_slice (self);
  find_carriers (self);
  find_inner_corners (self);
  return self;
}

/* --- judging --- */

const DryCarrier *
dry_board_find_carrier (const DryBoardFace *self, DryLength at, DryLength low, DryLength high)
{
  const DryCarrier *best = NULL;
  for (guint i = 0; i < self->n_carriers; i++) {
    const DryCarrier *carrier = &self->carriers[i];
    if (ABS (carrier->at - at) > carrier->slack || carrier->y0 > low || carrier->y1 < high)
      continue;
    if (best == NULL || (best->second && !carrier->second) ||
        (best->second == carrier->second && ABS (carrier->at - at) < ABS (best->at - at)))
      best = carrier;
  }
  return best;
}

DryLength
dry_board_bearing_at (const DryCarrier *carrier, DryLength at)
{
  return carrier->bearing - ABS (carrier->at - at);
}

/* Squared distance of a point from an axis-parallel stretch, in nm2 as a double. */
static double
reckon_distance2 (gboolean vertical, DryLength at, DryLength low, DryLength high, DryPoint p)
{
  DryLength across = vertical ? p.x - at : p.y - at;
  DryLength along = vertical ? p.y : p.x;
  DryLength beyond = along < low ? low - along : along > high ? along - high : 0;
  return (double) across * (double) across + (double) beyond * (double) beyond;
}

guint
dry_board_judge_seam (const DryBoardFace *self, gboolean vertical, DryLength at, DryLength low,
                      DryLength high, DryLength *effort)
{
  guint faults = 0;
  *effort += high - low;
  if (!vertical && !self->seams_anywhere)
    *effort += (high - low) * EFFORT_LEVEL;
  for (guint i = 0; i < self->n_corners; i++) {
    double clear = (double) CORNER_CLEAR;
    if (reckon_distance2 (vertical, at, low, high, self->corners[i].at) >= clear * clear)
      continue;
    if (self->corners[i].of_cutout)
      faults += FAULT_CORNER;
    else
      *effort += EFFORT_STEP;
  }
  for (guint i = 0; i < self->face->n_holes; i++) {
    const DryHole *hole = &self->face->holes[i];
    DryLength beside = vertical ? HOLE_CLEAR : MAX (HOLE_CLEAR, self->block_half);
    double clear = (double) (hole->diameter / 2 + beside);
    if (reckon_distance2 (vertical, at, low, high, hole->centre) < clear * clear)
      faults += FAULT_HOLE;
  }
  if (vertical && !self->seams_anywhere) {
    const DryCarrier *carrier = dry_board_find_carrier (self, at, low, high);
    if (carrier == NULL)
      faults += FAULT_NO_STUD;
    else if (carrier->second)
      *effort += EFFORT_SECOND;
  }
  return faults;
}

static gboolean
ring_shaves (const DryRing *ring, gboolean vertical, DryRect strip)
{
  for (guint i = 0; i < ring->n_points; i++) {
    DryPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
    if (vertical ? a.x == b.x && a.x > strip.x0 && a.x < strip.x1 && MIN (a.y, b.y) < strip.y1 &&
                       MAX (a.y, b.y) > strip.y0
                 : a.y == b.y && a.y > strip.y0 && a.y < strip.y1 && MIN (a.x, b.x) < strip.x1 &&
                       MAX (a.x, b.x) > strip.x0)
      return TRUE;
  }
  return FALSE;
}

/* An edge of the region inside the open gap: the seam would shave the board along that edge. */
guint
dry_board_judge_gap (const DryBoardFace *self, gboolean vertical, DryLength at, DryLength low,
                     DryLength high)
{
  DryRect strip = vertical ? (DryRect){at - self->gap_low, low, at + self->gap_high, high}
                           : (DryRect){low, at - self->gap_low, high, at + self->gap_high};
  const DryRegion *region = &self->face->region;
  for (guint i = 0; i < region->n_polygons && self->gap > 0; i++) {
    if (ring_shaves (&region->polygons[i].outer, vertical, strip))
      return FAULT_SHAVE;
    for (guint h = 0; h < region->polygons[i].n_holes; h++)
      if (ring_shaves (&region->polygons[i].holes[h], vertical, strip))
        return FAULT_SHAVE;
  }
  return 0;
}

guint
dry_board_judge_line (const DryBoardFace *self, gboolean vertical, DryLength at, DryLength low,
                      DryLength high)
{
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (DryLength));
  dry_board_list_stretches (self, vertical, at, low, high, stretches);
  guint faults = dry_board_judge_gap (self, vertical, at, low, high);
  DryLength effort = 0;
  for (guint i = 0; i + 1 < stretches->len; i += 2)
    faults += dry_board_judge_seam (self, vertical, at, g_array_index (stretches, DryLength, i),
                                    g_array_index (stretches, DryLength, i + 1), &effort);
  return faults;
}

/* --- for people --- */

GArray *
dry_boards_list_seam_places (const DryPlanContext *context, const DryFace *face,
                             const DryFraming *framing, DryLength low, DryLength high)
{
  g_autoptr (DryArena) scratch = dry_arena_new ();
  GArray *places = g_array_new (FALSE, FALSE, sizeof (DrySeamPlace));
  if (dry_region_is_empty (&face->region))
    return places;
  DryBoardFace *self = dry_board_face_new (context, face, framing, scratch, NULL, 0);
  for (guint i = 0; i < self->n_carriers; i++) {
    const DryCarrier *carrier = &self->carriers[i];
    DrySeamPlace place = {carrier->at, carrier->slack, carrier->member, carrier->second};
    if (carrier->at - self->bounds.x0 >= self->min_piece + self->gap_low &&
        self->bounds.x1 - carrier->at >= self->min_piece + self->gap_high &&
        dry_board_judge_line (self, TRUE, carrier->at, low, high) == 0)
      g_array_append_val (places, place);
  }
  return places;
}
