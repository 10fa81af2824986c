/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cap and the open ends of added walls in the wet zone, as small faces. Knows what each edge
 * meets; what lies behind and how it is cut is for others. */
#include "plan/faces-private.h"

typedef struct {
  const DryPlanContext *context;
  const DryWetSide *side;
  DryFace wall; /* of that side */
  const DryFace *faces;
  guint index;      /* of that side's face among them */
  DryLength across; /* from board face to the drywall's beyond */
  gboolean half;    /* its top is wet and does not reach the ceiling */
} CapWall;

static void
add_cap_face (const CapWall *self, const char *what, DryLength length, DryLength height,
              const DryJointKind edges[4], GArray *out)
{
  const DryWall *wall = self->side->wall;
  const char *name = wall->name && *wall->name                           ? wall->name
                     : self->side->height < self->context->room->ceiling ? "Half wall"
                                                                         : "Added wall";
  DryFace face = {.kind = DRY_FACE_CAP,
                  .wall = wall->id,
                  .side = self->side->side,
                  .object = wall->id,
                  .name = dry_arena_printf (self->context->arena, "%s, %s", name, what),
                  .length = length,
                  .height = height,
                  .wet_top = height,
                  .wet_u1 = length,
                  .left = {.face = -1},
                  .right = {.face = -1, .at = length}};

  if (length <= 0 || height <= 0)
    return;
  face.region = dry_region_from_rect (self->context->arena, (DryRect){0, 0, length, height});
  for (guint i = 0; i < 4; i++)
    face.edges[i] = edges[i];
  g_array_append_val (out, face);
}

static gboolean
is_open (const CapWall *self, gboolean right)
{
  const DryFaceEnd *end = right ? &self->wall.right : &self->wall.left;

  return !(right ? self->wall.dry_right : self->wall.dry_left) && end->angle <= 0;
}

/* The half wall of the same height that goes on round the corner at that end, or NULL. */
static const DryWall *
find_level (const CapWall *self, gboolean right)
{
  const DryFaceEnd *end = right ? &self->wall.right : &self->wall.left;
  const DryWall *wall;

  if (end->face < 0 || end->angle >= 180 || self->faces[end->face].height != self->wall.height)
    return NULL;
  wall = dry_room_get_wall (self->context->room, self->faces[end->face].wall);
  return wall->added ? wall : NULL;
}

/* Two caps in one plane: the first runs through over the corner of both walls. */
static gboolean
runs_through (const CapWall *self, gboolean right)
{
  return (gint) self->index < (right ? self->wall.right.face : self->wall.left.face);
}

/* What the cap meets at its end: the board of a higher wall, which goes on above it, the board of
 * the open end, the cap of a wall as high, or drywall. */
static DryJointKind
meet_end (const CapWall *self, gboolean right)
{
  const DryFaceEnd *end = right ? &self->wall.right : &self->wall.left;

  if (is_open (self, right))
    return DRY_JOINT_OUTSIDE_CORNER;
  if (end->face >= 0 && end->angle < 180 && self->faces[end->face].height > self->wall.height)
    return DRY_JOINT_INSIDE_CORNER;
  return find_level (self, right) && !runs_through (self, right) ? DRY_JOINT_SEAM
                                                                 : DRY_JOINT_DRYWALL;
}

/* How far the cap reaches beyond the studs of the wet side at that end; less than 0: short of it.
 */
static DryLength
reach_beyond (const CapWall *self, gboolean right)
{
  DryLength board = self->context->build_up.board;
  const DryWall *level = find_level (self, right);

  switch (meet_end (self, right)) {
  case DRY_JOINT_OUTSIDE_CORNER:
    return board;
  case DRY_JOINT_INSIDE_CORNER:
    return -(board + self->context->system->corner_gap);
  case DRY_JOINT_SEAM:
    return -board;
  default:
    return level ? dry_wall_depth (level) + level->lining : 0;
  }
}

/* Seen from above with the wet side at the bottom. It lies over the board of the wet side, the
 * drywall of the other and the boards of open ends; boards of higher walls stand before its ends.
 */
static void
add_cap (const CapWall *self, GArray *out)
{
  const DryJointKind edges[] = {meet_end (self, FALSE), DRY_JOINT_DRYWALL, meet_end (self, TRUE),
                                DRY_JOINT_OUTSIDE_CORNER};
  DryLength length = self->side->wet_u1 - self->side->wet_u0 + reach_beyond (self, FALSE) +
                     reach_beyond (self, TRUE);

  add_cap_face (self, "cap", length, self->across, edges, out);
}

/* How low the board of the wet side comes at that end. */
static DryLength
find_bottom (const CapWall *self, gboolean right)
{
  const DryRegion *region = &self->wall.region;
  DryRect bounds = dry_region_bounds (region);
  DryLength bottom = bounds.y1;

  for (guint i = 0; i < region->n_polygons; i++)
    for (guint j = 0; j < region->polygons[i].outer.n_points; j++) {
      DryPoint p = region->polygons[i].outer.points[j];
      if (p.x == (right ? bounds.x1 : bounds.x0))
        bottom = MIN (bottom, p.y);
    }
  return bottom;
}

/* Its board covers the edges of the board and the drywall; the one toward the wet side is on the
 * left of the right end, and the other way round. */
static void
add_end (const CapWall *self, gboolean right, GArray *out)
{
  DryLength bottom = find_bottom (self, right), top = self->wall.wet_top;
  DryJointKind far = DRY_JOINT_DRYWALL, above;
  DryJointKind foot = bottom <= DRY_INCH    ? DRY_JOINT_FLOOR
                      : self->side->touches ? DRY_JOINT_BASIN
                                            : DRY_JOINT_DRYWALL;

  if (self->half)
    above = DRY_JOINT_OUTSIDE_CORNER;
  else if (self->wall.dry_above)
    above = DRY_JOINT_DRYWALL;
  else
    above = self->context->room->wet.ceiling ? DRY_JOINT_INSIDE_CORNER : DRY_JOINT_CEILING;
  const DryJointKind edges[] = {right ? DRY_JOINT_OUTSIDE_CORNER : far, above,
                                right ? far : DRY_JOINT_OUTSIDE_CORNER, foot};
  add_cap_face (self, right ? "right end" : "left end", self->across, top - bottom, edges, out);
}

/* The tub or pan lies on one side of a wall, so no wall is wet on both. */
void
dry_faces_add_caps (const DryPlanContext *context, const DryWetSide *sides, guint n_sides,
                    GArray *faces)
{
  g_autoptr (GArray) found = g_array_new (FALSE, TRUE, sizeof (DryFace));

  for (guint i = 0; i < n_sides; i++) {
    const DryWetSide *side = &sides[i];
    const DryWall *wall = side->wall;
    DryLength thick = dry_wall_depth (wall);
    DryLength board = context->build_up.board;

    if (!wall->added || thick <= 0)
      continue;
    CapWall self = {.context = context,
                    .side = side,
                    .faces = (const DryFace *) faces->data,
                    .wall = g_array_index (faces, DryFace, i),
                    .index = i,
                    .across = thick + board + wall->lining,
                    .half = side->wet_top >= side->height && side->height < context->room->ceiling};
    if (self.half)
      add_cap (&self, found);
    for (guint right = 0; right < 2; right++)
      if (is_open (&self, right))
        add_end (&self, right, found);
  }
  g_array_append_vals (faces, found->data, found->len);
}
