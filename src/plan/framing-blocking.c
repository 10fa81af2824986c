/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wood added behind lines and points that need it: edges of the wet wall, corners with added walls,
 * glass, grab bars, fold-down benches, valves and outlets. Knows where, not how it is fastened. */
#include "plan/faces-private.h"
#include "plan/framing-private.h"

/* --- uprights behind a line --------------------------------------------------------------------
 */

typedef enum { ON_LEFT = 1, ON_RIGHT = 2, ON_BOTH = 3 } LineSides;

/* On which sides of the line at u wood already stands for all of z0..z1. */
static guint
find_bearing (const DryFrame *self, DryLength u, DryLength z0, DryLength z1)
{
  guint borne = 0;

  for (guint i = 0; i < self->uprights->len; i++) {
    DryRect rect = g_array_index (self->uprights, DryMember, i).rect;

    if (rect.y0 > MAX (z0, self->z0) || rect.y1 < MIN (z1, self->z1))
      continue;
    if (rect.x0 <= u - DRY_FRAME_BEARING && rect.x1 >= u)
      borne |= ON_LEFT;
    if (rect.x0 <= u && rect.x1 >= u + DRY_FRAME_BEARING)
      borne |= ON_RIGHT;
  }
  /* A line at the very end of the wall has one side only. */
  if (u - DRY_FRAME_BEARING < 0)
    borne |= ON_LEFT;
  if (u + DRY_FRAME_BEARING > self->face->length)
    borne |= ON_RIGHT;
  return borne;
}

/* An upright cut round the openings in its way. */
static gboolean
add_around (DryFrame *self, DryMemberKind kind, DryRect rect, guint from, DryId object,
            const char *reason)
{
  for (guint i = from; i < self->roughs->len; i++) {
    DryRect rough = g_array_index (self->roughs, DryRect, i), below = rect, above = rect;

    rough.y0 -= 2 * self->stud; /* header and sill */
    rough.y1 += 2 * self->stud;
    if (!dry_rect_overlaps (rough, rect))
      continue;
    below.y1 = rough.y0;
    above.y0 = rough.y1;
    return add_around (self, kind, below, i + 1, object, reason) |
           add_around (self, kind, above, i + 1, object, reason);
  }
  return dry_frame_add_upright (self, kind, rect, TRUE, object, reason);
}

/* Adds a stud where `sides` of the line lack bearing: centred on it, else against what is in the
 * way. */
static void
back_line (DryFrame *self, DryMemberKind kind, DryLength u, DryLength z0, DryLength z1, guint sides,
           DryId object, const char *reason)
{
  guint lacking = sides & ~find_bearing (self, u, z0, z1);
  DryLength t = self->stud, tries[3] = {u - t / 2, u - t, u};
  gboolean centred = lacking == ON_BOTH;

  if (!lacking)
    return;
  if (centred && add_around (self, kind, (DryRect){tries[0], self->z0, tries[0] + t, self->z1}, 0,
                             object, reason))
    return;
  for (guint i = 0; i < self->uprights->len; i++) {
    DryRect rect = g_array_index (self->uprights, DryMember, i).rect;

    if (rect.x0 < u + t && rect.x1 > u) /* something right of the line: stand left of it */
      tries[1] = MIN (tries[1], rect.x0 - t);
    if (rect.x1 > u - t && rect.x0 < u)
      tries[2] = MAX (tries[2], rect.x1);
  }
  if ((lacking & ON_LEFT) && u - tries[1] < 2 * t)
    add_around (self, kind, (DryRect){tries[1], self->z0, tries[1] + t, self->z1}, 0, object,
                reason);
  if ((lacking & ON_RIGHT) && tries[2] - u < t)
    add_around (self, kind, (DryRect){tries[2], self->z0, tries[2] + t, self->z1}, 0, object,
                reason);
}

static gboolean
is_wall_end (const DryFrame *self, DryLength u)
{
  return u <= 0 || u >= self->face->length;
}

/* Edges of the region that lie away from the wall's own end studs. */
static void
back_edges (DryFrame *self, DryLength u, gboolean dry, const DryFaceEnd *end, gboolean right)
{
  const DryFace *face = self->face;
  DryLength t = self->stud;

  if (dry) {
    back_line (self, DRY_MEMBER_STUD, u, 0, face->wet_top, ON_BOTH, 0,
               "backs the edge of the wet wall");
  } else if (end->angle > 0 && !is_wall_end (self, u)) {
    back_line (self, DRY_MEMBER_CORNER, u, 0, face->wet_top, right ? ON_LEFT : ON_RIGHT, 0,
               "backs the board in the corner with the added wall");
  } else if (end->inset + DRY_FRAME_BEARING > t) { /* a thick board covers the end stud */
    DryLength x = right ? face->length - 2 * t : t;

    dry_frame_add_upright (self, DRY_MEMBER_CORNER, (DryRect){x, self->z0, x + t, self->z1}, TRUE,
                           0, "backs the board behind the neighbor's thickness in the corner");
  }
}

void
dry_frame_add_backing (DryFrame *self)
{
  const DryRoom *room = self->context->room;
  const DryFace *face = self->face;

  back_edges (self, face->wet_u0, face->dry_left, &face->left, FALSE);
  back_edges (self, face->wet_u1, face->dry_right, &face->right, TRUE);
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (part->kind == DRY_PART_GLASS && part->wall == face->wall && part->side == face->side)
      back_line (self, DRY_MEMBER_STUD, part->u, part->z, part->z + part->height, ON_BOTH, part->id,
                 part->hinged ? "carries the hinges of the glass door"
                              : "backs the edge of the glass panel");
  }
}

/* --- blocks between uprights --------------------------------------------------------------------
 */

static gboolean
is_in_the_way (const DryFrame *self, DryRect rect)
{
  for (guint i = 0; i < self->roughs->len; i++)
    if (dry_rect_overlaps (g_array_index (self->roughs, DryRect, i), rect))
      return TRUE;
  return FALSE;
}

/* A block `height` high about z in every bay the stretch u0..u1 touches. */
static void
block_stretch (DryFrame *self, DryLength u0, DryLength u1, DryLength z, DryLength height,
               DryId object, const char *reason)
{
  DryLength z0 = MAX (z - height / 2, self->z0), z1 = MIN (z - height / 2 + height, self->z1);
  g_autoptr (GArray) bays = NULL;

  if (z0 >= z1)
    return;
  bays = dry_frame_find_bays (self, z0, z1);
  for (guint i = 0; i < bays->len; i++) {
    const DryBay *bay = &g_array_index (bays, DryBay, i);
    DryRect rect = {bay->u0, z0, bay->u1, z1};

    if (bay->u0 <= u1 && bay->u1 >= u0 && !is_in_the_way (self, rect))
      dry_frame_add (self, DRY_MEMBER_BLOCKING, rect, TRUE, object, reason);
  }
}

static void
block_grab_bar (DryFrame *self, const DryPart *part)
{
  DryRect rect = dry_part_rect (part);
  const char *reason = "holds the grab bar";

  if (dry_rect_height (rect) > dry_rect_width (rect)) { /* upright: both its ends */
    block_stretch (self, rect.x0, rect.x1, rect.y1, DRY_FRAME_2X6, part->id, reason);
    if (dry_rect_height (rect) >= DRY_FRAME_2X6)
      block_stretch (self, rect.x0, rect.x1, rect.y0, DRY_FRAME_2X6, part->id, reason);
    return;
  }
  block_stretch (self, rect.x0, rect.x1, (rect.y0 + rect.y1) / 2, DRY_FRAME_2X6, part->id, reason);
}

static void
block_part (DryFrame *self, const DryPart *part)
{
  DryLength half = MAX (part->hole, 0) / 2;

  switch (part->kind) {
  case DRY_PART_GRAB_BAR:
    block_grab_bar (self, part);
    break;
  case DRY_PART_BENCH:
    if (part->fold_down)
      block_stretch (self, part->u - part->width / 2, part->u + part->width / 2,
                     part->z - DRY_FRAME_2X8 / 2, DRY_FRAME_2X8, part->id,
                     "carries the fold-down bench");
    break;
  case DRY_PART_VALVE:
    block_stretch (self, part->u - half, part->u + half, part->z, DRY_FRAME_2X4, part->id,
                   "holds the valve");
    break;
  case DRY_PART_SHOWER_HEAD:
  case DRY_PART_HAND_SHOWER:
    block_stretch (self, part->u - half, part->u + half, part->z, DRY_FRAME_2X4, part->id,
                   "holds the elbow of the shower arm");
    break;
  case DRY_PART_SPOUT:
    block_stretch (self, part->u - half, part->u + half, part->z, DRY_FRAME_2X4, part->id,
                   "holds the stub-out of the spout");
    break;
  default:
    break;
  }
}

void
dry_frame_add_blocking (DryFrame *self)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].wall == self->face->wall && room->parts[i].side == self->face->side)
      block_part (self, &room->parts[i]);
}
