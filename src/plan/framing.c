/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 2: puts up plates and studs of every face and gathers what framing-*.c add to them.
 * Steel studs stand as wood ones do; what they weigh or cost is not known here. */
#include "plan/framing-private.h"

#include "plan/faces-private.h"

/* For walls drawn without a spacing, ceilings with unknown joists, and benches; common practice, no
 * source. */
#define USUAL_SPACING (16 * DRY_INCH)
/* A dressed 2x4 is 1-1/2 in thick (PS 20). */
#define USUAL_STUD (3 * DRY_INCH / 2)

static DryMember
make_member (const DryFrame *self, DryMemberKind kind, DryRect rect, gboolean added, DryId object,
             const char *reason)
{
  DryRect whole = {0, 0, self->face->length, self->face->height};

  return (DryMember){
      self->face->index, kind, dry_rect_intersect (rect, whole), added, object, reason};
}

void
dry_frame_add (DryFrame *self, DryMemberKind kind, DryRect rect, gboolean added, DryId object,
               const char *reason)
{
  DryMember member = make_member (self, kind, rect, added, object, reason);

  if (!dry_rect_is_empty (member.rect))
    g_array_append_val (self->others, member);
}

gboolean
dry_frame_add_upright (DryFrame *self, DryMemberKind kind, DryRect rect, gboolean added,
                       DryId object, const char *reason)
{
  DryMember member = make_member (self, kind, rect, added, object, reason);

  if (dry_rect_is_empty (member.rect))
    return FALSE;
  for (guint i = 0; i < self->uprights->len; i++)
    if (dry_rect_overlaps (g_array_index (self->uprights, DryMember, i).rect, member.rect))
      return FALSE;
  g_array_append_val (self->uprights, member);
  return TRUE;
}

static gint
compare_members (gconstpointer a, gconstpointer b)
{
  const DryRect *left = &((const DryMember *) a)->rect, *right = &((const DryMember *) b)->rect;

  if (left->x0 != right->x0)
    return left->x0 < right->x0 ? -1 : 1;
  return left->y0 < right->y0 ? -1 : left->y0 > right->y0;
}

GArray *
dry_frame_find_bays (const DryFrame *self, DryLength z0, DryLength z1)
{
  GArray *bays = g_array_new (FALSE, TRUE, sizeof (DryBay));
  DryLength u = 0;

  g_array_sort (self->uprights, compare_members);
  for (guint i = 0; i <= self->uprights->len; i++) {
    DryBay bay = {self->face->index, u, self->face->length};

    if (i < self->uprights->len) {
      DryRect rect = g_array_index (self->uprights, DryMember, i).rect;

      if (rect.y0 >= z1 || rect.y1 <= z0)
        continue;
      bay.u1 = rect.x0;
      u = MAX (u, rect.x1);
    }
    if (bay.u1 > bay.u0)
      g_array_append_val (bays, bay);
  }
  return bays;
}

/* --- studs ------------------------------------------------------------------------------- */

static void
add_plates (DryFrame *self)
{
  DryLength length = self->face->length, height = self->face->height, t = self->stud;
  guint n_top = self->wall->steel_studs ? 1 : 2; /* wood top plates are doubled */

  if (height <= (DryLength) (n_top + 1) * t) { /* a curb rather than a wall */
    self->z1 = height;
    return;
  }
  self->z0 = t;
  self->z1 = height - (DryLength) n_top * t;
  dry_frame_add (self, DRY_MEMBER_PLATE, (DryRect){0, 0, length, t}, FALSE, 0, NULL);
  for (guint i = 0; i < n_top; i++) {
    DryLength z = self->z1 + (DryLength) i * t;

    dry_frame_add (self, DRY_MEMBER_PLATE, (DryRect){0, z, length, z + t}, FALSE, 0, NULL);
  }
}

static void
add_end_studs (DryFrame *self)
{
  const DryFace *face = self->face;
  DryLength t = MIN (self->stud, face->length), right = MAX (face->length - t, t);
  DryMemberKind left_kind =
      face->left.angle > 0 || face->dry_left ? DRY_MEMBER_CORNER : DRY_MEMBER_STUD;
  DryMemberKind right_kind =
      face->right.angle > 0 || face->dry_right ? DRY_MEMBER_CORNER : DRY_MEMBER_STUD;

  dry_frame_add_upright (self, left_kind, (DryRect){0, self->z0, t, self->z1}, FALSE, 0, NULL);
  dry_frame_add_upright (self, right_kind, (DryRect){right, self->z0, face->length, self->z1},
                         FALSE, 0, NULL);
}

/* A stud as found or laid out. One measured a little into its neighbour is set against it; one that
 * is mostly the end stud is the end stud. */
static void
add_stud (DryFrame *self, DryLength centre, DryLength *last)
{
  DryLength t = self->stud, x0 = centre - t / 2, end = self->face->length - t;

  if (self->wall->added && self->face->side == DRY_SIDE_OUTSIDE)
    x0 = self->face->length - (x0 + t);
  if (x0 < *last && *last - x0 <= t / 4)
    x0 = *last;
  if (x0 + t > end && x0 + t - end <= t / 4)
    x0 = end - t;
  if (x0 < *last || x0 + t > end)
    return;
  if (dry_frame_add_upright (self, DRY_MEMBER_STUD, (DryRect){x0, self->z0, x0 + t, self->z1},
                             FALSE, 0, NULL))
    *last = x0 + t;
}

static void
add_studs (DryFrame *self)
{
  const DryWall *wall = self->wall;
  DryLength last = self->stud,
            spacing = wall->stud_spacing > 0 ? wall->stud_spacing : USUAL_SPACING;
  gboolean mirrored = wall->added && self->face->side == DRY_SIDE_OUTSIDE;

  if (wall->n_found_studs) {
    for (guint i = 0; i < wall->n_found_studs; i++)
      add_stud (self, wall->found_studs[mirrored ? wall->n_found_studs - 1 - i : i], &last);
    return;
  }
  spacing = MAX (spacing, self->stud);
  if (mirrored) {
    DryLength first = wall->first_stud > 0 ? wall->first_stud : spacing;
    DryLength n = (self->face->length - first) / spacing;

    for (DryLength i = n; i >= 0; i--)
      add_stud (self, first + i * spacing, &last);
    return;
  }
  for (DryLength u = wall->first_stud > 0 ? wall->first_stud : spacing; u < self->face->length;
       u += spacing)
    add_stud (self, u, &last);
}

/* --- small faces --------------------------------------------------------------------------- */

/* Joists over the ceiling, and the frame the plan asks for under a bench. */
static void
frame_evenly (DryFrame *self, DryLength spacing, gboolean added, const char *reason)
{
  const DryFace *face = self->face;
  DryLength t = MIN (self->stud, face->length), last = face->length - t;
  DryId object = face->object;

  dry_frame_add_upright (self, DRY_MEMBER_STUD, (DryRect){0, 0, t, face->height}, added, object,
                         reason);
  for (DryLength u = spacing; u + t / 2 < last; u += spacing)
    dry_frame_add_upright (self, DRY_MEMBER_STUD,
                           (DryRect){u - t / 2, 0, u - t / 2 + t, face->height}, added, object,
                           reason);
  dry_frame_add_upright (self, DRY_MEMBER_STUD,
                         (DryRect){MAX (last, t), 0, face->length, face->height}, added, object,
                         reason);
}

/* The plate on an added wall, or the studs at its end, behind the boards of its sides. */
static void
frame_cap (DryFrame *self)
{
  const DryFace *face = self->face;
  DryLength board = self->context->build_up.board;
  DryLength thick = self->wall->thickness > 0 ? self->wall->thickness : self->wall->stud_depth;
  gboolean mirrored = face->edges[0] != DRY_JOINT_OUTSIDE_CORNER;
  DryLength x = mirrored ? face->length - board - thick : board;

  if (face->edges[3] == DRY_JOINT_OUTSIDE_CORNER)
    dry_frame_add (self, DRY_MEMBER_PLATE, (DryRect){0, board, face->length, board + thick}, FALSE,
                   face->object, NULL);
  else
    dry_frame_add_upright (self, DRY_MEMBER_CORNER, (DryRect){x, 0, x + thick, face->height}, FALSE,
                           face->object, NULL);
}

static void
frame_small (DryFrame *self)
{
  DryLength joists = self->context->room->joist_spacing;

  if (self->face->kind == DRY_FACE_CEILING)
    frame_evenly (self, MAX (joists > 0 ? joists : USUAL_SPACING, self->stud), FALSE, NULL);
  else if (self->face->kind == DRY_FACE_BENCH)
    frame_evenly (self, USUAL_SPACING, TRUE, "frames the bench");
  else if (self->face->kind == DRY_FACE_CAP && self->wall)
    frame_cap (self);
  else
    dry_frame_add_lining (self);
}

/* --- the stage ----------------------------------------------------------------------------- */

static void
frame_face (DryFrame *self)
{
  self->stud = self->wall && self->wall->stud_width > 0 ? self->wall->stud_width : USUAL_STUD;
  self->z0 = 0;
  self->z1 = self->face->height;
  if (self->face->kind != DRY_FACE_WALL || !self->wall) {
    frame_small (self);
    return;
  }
  add_plates (self);
  add_end_studs (self);
  add_studs (self);
  dry_frame_add_openings (self);
  dry_frame_add_niches (self);
  dry_frame_add_backing (self);
  dry_frame_add_blocking (self);
}

static void
gather_face (const DryPlanContext *context, const DryFace *face, GArray *members, GArray *bays)
{
  g_autoptr (GArray) uprights = g_array_new (FALSE, TRUE, sizeof (DryMember));
  g_autoptr (GArray) others = g_array_new (FALSE, TRUE, sizeof (DryMember));
  g_autoptr (GArray) roughs = g_array_new (FALSE, TRUE, sizeof (DryRect));
  g_autoptr (GArray) clear = NULL;
  DryFrame frame = {.context = context,
                    .face = face,
                    .wall = dry_room_get_wall (context->room, face->wall),
                    .uprights = uprights,
                    .others = others,
                    .roughs = roughs};

  frame_face (&frame);
  clear = dry_frame_find_bays (&frame, 0, face->height); /* sorts the uprights too */
  g_array_append_vals (members, uprights->data, uprights->len);
  g_array_append_vals (members, others->data, others->len);
  if (face->kind == DRY_FACE_WALL || uprights->len)
    g_array_append_vals (bays, clear->data, clear->len);
}

const DryFraming *
dry_framing_compute (const DryPlanContext *context, const DryFaces *faces, GError **error)
{
  DryFraming *self = dry_arena_alloc (context->arena, sizeof (DryFraming));
  GArray *members = g_array_new (FALSE, TRUE, sizeof (DryMember));
  GArray *bays = g_array_new (FALSE, TRUE, sizeof (DryBay));

  for (guint i = 0; i < faces->n; i++) {
    if (g_cancellable_is_cancelled (context->cancellable)) {
      g_array_unref (members);
      g_array_unref (bays);
      g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "Cancelled");
      return NULL;
    }
    gather_face (context, &faces->items[i], members, bays);
  }
  self->n = members->len;
  self->n_bays = bays->len;
  self->items = dry_arena_take_array (context->arena, members);
  self->bays = dry_arena_take_array (context->arena, bays);
  return self;
}

static gboolean
is_upright (const DryMember *member)
{
  return member->kind == DRY_MEMBER_STUD || member->kind == DRY_MEMBER_CORNER ||
         member->kind == DRY_MEMBER_TRIMMER;
}

const DryMember *const *
dry_framing_uprights (const DryPlanContext *context, const DryFraming *self, guint face, guint *n)
{
  const DryMember **found;
  guint count = 0;

  for (guint i = 0; i < self->n; i++)
    count += self->items[i].face == face && is_upright (&self->items[i]);
  found = dry_arena_new_array (context->arena, const DryMember *, count);
  *n = 0;
  for (guint i = 0; i < self->n; i++) /* kept in u order by dry_framing_compute() */
    if (self->items[i].face == face && is_upright (&self->items[i]))
      found[(*n)++] = &self->items[i];
  return found;
}
