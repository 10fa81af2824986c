/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Windows and doors as found framed, and the framing a niche asks for: studs cut, header, sill and
 * sides, or blocks above and below within one bay. Sizes of headers are drawn, not engineered. */
#include "plan/faces-private.h"
#include "plan/framing-private.h"

/* A stud of the layout: it may be cut, ends and members of other openings may not. */
static gboolean
may_cut (const DryFrame *self, const DryMember *member)
{
  return member->kind == DRY_MEMBER_STUD && member->object == 0 && member->rect.x0 > 0 &&
         member->rect.x1 < self->face->length;
}

/* Takes the studs standing in u0..u1 out of the frame. */
static GArray *
cut_studs (DryFrame *self, DryLength u0, DryLength u1)
{
  GArray *cut = g_array_new (FALSE, TRUE, sizeof (DryMember));

  for (guint i = self->uprights->len; i > 0; i--) {
    DryMember member = g_array_index (self->uprights, DryMember, i - 1);

    if (may_cut (self, &member) && member.rect.x0 < u1 && member.rect.x1 > u0) {
      g_array_append_val (cut, member);
      g_array_remove_index (self->uprights, i - 1);
    }
  }
  return cut;
}

/* What stays of the cut studs above z1 and below z0. */
static void
add_cripples (DryFrame *self, const GArray *cut, DryLength z0, DryLength z1, gboolean added,
              DryId object, const char *reason)
{
  for (guint i = 0; i < cut->len; i++) {
    DryRect rect = g_array_index (cut, DryMember, i).rect;

    dry_frame_add (self, DRY_MEMBER_CRIPPLE, (DryRect){rect.x0, z1, rect.x1, self->z1}, added,
                   object, reason);
    dry_frame_add (self, DRY_MEMBER_CRIPPLE, (DryRect){rect.x0, self->z0, rect.x1, z0}, added,
                   object, reason);
  }
}

/* The nearest uprights left and right of a rough opening, at its height. */
static void
find_neighbours (const DryFrame *self, DryRect rough, DryLength *left, DryLength *right)
{
  *left = 0;
  *right = self->face->length;
  for (guint i = 0; i < self->uprights->len; i++) {
    DryRect rect = g_array_index (self->uprights, DryMember, i).rect;

    if (rect.y0 >= rough.y1 || rect.y1 <= rough.y0)
      continue;
    if (rect.x0 + rect.x1 <= rough.x0 + rough.x1)
      *left = MAX (*left, rect.x1);
    else
      *right = MIN (*right, rect.x0);
  }
  *left = MIN (*left, rough.x0);
  *right = MAX (*right, rough.x1);
}

/* --- windows, doors, passages: they stand already -------------------------------------------- */

static void
frame_opening (DryFrame *self, const DryOpening *opening, DryRect rough)
{
  DryLength t = self->stud, depth = self->wall->bearing || self->wall->exterior ? DRY_FRAME_2X6 : t;
  DryLength top = MIN (rough.y1, self->z1), head = MIN (top + depth, self->z1);
  DryLength left, right, sill = MAX (rough.y0 - t, self->z0);
  g_autoptr (GArray) cut = cut_studs (self, rough.x0 - 2 * t, rough.x1 + 2 * t);
  gboolean has_sill = rough.y0 > self->z0;

  find_neighbours (self, rough, &left, &right);
  for (guint i = cut->len; i > 0; i--) { /* those beside the opening became its own studs */
    DryRect rect = g_array_index (cut, DryMember, i - 1).rect;

    if (rect.x0 + rect.x1 <= 2 * rough.x0 || rect.x0 + rect.x1 >= 2 * rough.x1)
      g_array_remove_index (cut, i - 1);
  }
  dry_frame_add_upright (self, DRY_MEMBER_STUD,
                         (DryRect){MAX (left, rough.x0 - 2 * t), self->z0, rough.x0 - t, self->z1},
                         FALSE, opening->id, NULL);
  dry_frame_add_upright (self, DRY_MEMBER_TRIMMER,
                         (DryRect){MAX (left, rough.x0 - t), self->z0, rough.x0, top}, FALSE,
                         opening->id, NULL);
  dry_frame_add_upright (self, DRY_MEMBER_TRIMMER,
                         (DryRect){rough.x1, self->z0, MIN (right, rough.x1 + t), top}, FALSE,
                         opening->id, NULL);
  dry_frame_add_upright (self, DRY_MEMBER_STUD,
                         (DryRect){rough.x1 + t, self->z0, MIN (right, rough.x1 + 2 * t), self->z1},
                         FALSE, opening->id, NULL);
  dry_frame_add (self, DRY_MEMBER_HEADER,
                 (DryRect){MAX (left, rough.x0 - t), top, MIN (right, rough.x1 + t), head}, FALSE,
                 opening->id, NULL);
  if (has_sill)
    dry_frame_add (self, DRY_MEMBER_SILL, (DryRect){rough.x0, sill, rough.x1, rough.y0}, FALSE,
                   opening->id, NULL);
  add_cripples (self, cut, has_sill ? sill : self->z0, head, FALSE, opening->id, NULL);
}

void
dry_frame_add_openings (DryFrame *self)
{
  const DryRoom *room = self->context->room;
  DryRect whole = {0, 0, self->face->length, self->face->height};

  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *opening = &room->openings[i];
    DryRect rough;

    if (opening->wall != self->face->wall)
      continue;
    rough =
        dry_rect_intersect (dry_faces_opening_rect (self->wall, self->face->side, opening), whole);
    if (dry_rect_is_empty (rough))
      continue;
    frame_opening (self, opening, rough);
    g_array_append_val (self->roughs, rough);
  }
}

/* --- niches: the plan asks for their framing ---------------------------------------------------
 */

/* A side piece between the nearest upright and the rough opening; a gap too narrow for a stud is
 * furred. */
static void
add_side (DryFrame *self, DryRect rough, DryLength from, DryLength to, gboolean left, DryId object)
{
  DryLength gap = to - from, t = self->stud;
  DryRect rect = {left && gap > t ? to - t : from, rough.y0, !left && gap > t ? from + t : to,
                  rough.y1};

  if (gap > 0)
    dry_frame_add_upright (self, DRY_MEMBER_TRIMMER, rect, TRUE, object,
                           gap >= t ? "frames the side of the niche"
                                    : "furs the stud out to the side of the niche");
}

static void
frame_niche (DryFrame *self, const DryPart *niche, DryRect rough)
{
  DryLength t = self->stud, left, right, head, sill = MAX (rough.y0 - t, self->z0);
  g_autoptr (GArray) cut = cut_studs (self, rough.x0, rough.x1);
  gboolean cuts = cut->len > 0;
  gboolean heavy = cuts && (self->wall->bearing || self->wall->exterior);

  head = MIN (rough.y1 + (heavy ? DRY_FRAME_2X6 : t), self->z1);
  find_neighbours (self, rough, &left, &right);
  dry_frame_add (self, cuts ? DRY_MEMBER_HEADER : DRY_MEMBER_BLOCKING,
                 (DryRect){left, rough.y1, right, head}, TRUE, niche->id,
                 heavy  ? "carries the cut studs over the niche; an engineer must size it"
                 : cuts ? "carries the cut studs over the niche"
                        : "closes the bay above the niche");
  dry_frame_add (self, cuts ? DRY_MEMBER_SILL : DRY_MEMBER_BLOCKING,
                 (DryRect){left, sill, right, rough.y0}, TRUE, niche->id,
                 cuts ? "carries the niche on the cut studs" : "carries the niche in its bay");
  add_cripples (self, cut, sill, head, FALSE, niche->id,
                "what stays of the stud cut for the niche");
  if (cuts || dry_faces_is_site_built (niche)) {
    add_side (self, rough, left, rough.x0, TRUE, niche->id);
    add_side (self, rough, rough.x1, right, FALSE, niche->id);
  }
}

void
dry_frame_add_niches (DryFrame *self)
{
  const DryRoom *room = self->context->room;
  DryLength t = MIN (self->stud, self->face->length);
  DryRect free_of_ends = {t, self->z0, self->face->length - t, self->z1};

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    DryRect rough;

    if (part->kind != DRY_PART_NICHE || part->wall != self->face->wall ||
        part->side != self->face->side)
      continue;
    /* The studs at the wall's ends and its plates are never cut, however large the niche. */
    rough = dry_rect_intersect (dry_faces_niche_rough (self->context, part), free_of_ends);
    if (dry_rect_is_empty (rough))
      continue;
    frame_niche (self, part, rough);
    g_array_append_val (self->roughs, rough);
  }
}

/* --- what the lining of a niche is fastened to -------------------------------------------------
 */

/* Strips of 3/4 in, or of 1/2 in plywood where no more fits behind, as wide as a stud is thick.
 * Common practice, no source. */
#define STRIP       (3 * DRY_INCH / 4)
#define THIN_STRIP  (DRY_INCH / 2)
#define STRIP_WIDTH (3 * DRY_INCH / 2)

static DryLength
depth_of_studs (const DryFrame *self)
{
  return self->wall->stud_depth > 0 ? self->wall->stud_depth : DRY_FRAME_2X4;
}

/* The back is held along its edges by strips nailed round the inside of the framing, behind it.
 * Where the lining goes through the whole depth of the wall there is no room for any. */
static void
add_cleats (DryFrame *self)
{
  const DryFace *face = self->face;
  const DryPart *part = dry_room_get_part (self->context->room, face->object);
  DryLength cavity = self->wall->added && self->wall->thickness > 0 ? self->wall->thickness
                                                                    : depth_of_studs (self);
  DryLength room = cavity - part->depth;
  DryLength w = STRIP_WIDTH, x = face->length, y = face->height;
  const char *reason = room >= STRIP ? "cleat: holds the back of the niche"
                                     : "cleat of 1/2 in plywood: holds the back of the niche";

  if (room < THIN_STRIP)
    return;
  dry_frame_add (self, DRY_MEMBER_CLEAT, (DryRect){0, 0, x, MIN (w, y)}, TRUE, face->object,
                 reason);
  if (y > w)
    dry_frame_add (self, DRY_MEMBER_CLEAT, (DryRect){0, MAX (y - w, w), x, y}, TRUE, face->object,
                   reason);
  if (y <= 2 * w)
    return;
  dry_frame_add (self, DRY_MEMBER_CLEAT, (DryRect){0, w, MIN (w, x), y - w}, TRUE, face->object,
                 reason);
  if (x > w)
    dry_frame_add (self, DRY_MEMBER_CLEAT, (DryRect){MAX (x - w, w), w, x, y - w}, TRUE,
                   face->object, reason);
}

/* Floor, top and sides lie on members already counted on the wall: sill, header, uprights. Their
 * front edges stand before the wood by the board of the wall, with which they come flush. */
void
dry_frame_add_lining (DryFrame *self)
{
  const DryFace *face = self->face;
  DryLength near = self->context->build_up.board, far = near + depth_of_studs (self);
  DryLength x = face->length, y = face->height;

  if (face->edges[3] == DRY_JOINT_NICHE)
    dry_frame_add (self, DRY_MEMBER_SILL, (DryRect){0, near, x, far}, FALSE, face->object, NULL);
  else if (face->edges[1] == DRY_JOINT_NICHE)
    dry_frame_add (self, DRY_MEMBER_HEADER, (DryRect){0, y - far, x, y - near}, FALSE, face->object,
                   NULL);
  else if (face->edges[0] == DRY_JOINT_NICHE)
    dry_frame_add_upright (self, DRY_MEMBER_TRIMMER, (DryRect){near, 0, far, y}, FALSE,
                           face->object, NULL);
  else if (face->edges[2] == DRY_JOINT_NICHE)
    dry_frame_add_upright (self, DRY_MEMBER_TRIMMER, (DryRect){x - far, 0, x - near, y}, FALSE,
                           face->object, NULL);
  else
    add_cleats (self);
}
