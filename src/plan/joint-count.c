/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the two sides of each shared joint so that it is bought once.
 * Reads joints as classified; how they came to be classified so it may not know. */
#include "plan/joint-count.h"

/* The two sides of a corner inside a niche differ by the thickness of its lining at most. */
#define TWIN_REACH (6 * DRY_INCH)

/* The back of a niche is its first face. */
static gboolean
is_on_back (const DryFaces *faces, const DryJoint *joint)
{
  const DryFace *face = &faces->items[joint->face];

  return joint->face == 0 || faces->items[joint->face - 1].object != face->object;
}

/* Floor and top lie with their width along, the sides stand with their depth along: where those
 * meet one edge is level and the other upright. At the back both run the same way. */
static gboolean
may_be_twins (const DryFaces *faces, const DryJoint *a, const DryJoint *b)
{
  gboolean same_way = (a->from.x == a->to.x) == (b->from.x == b->to.x);

  if (faces->items[a->face].kind != DRY_FACE_NICHE)
    return TRUE;
  return same_way == (is_on_back (faces, a) || is_on_back (faces, b));
}

/* Two faces meet in one corner only, though a seam may part it. */
static gboolean
have_met (GArray *joints, guint a, guint b)
{
  for (guint i = 0; i < joints->len; i++) {
    const DryJoint *joint = &g_array_index (joints, DryJoint, i);
    if (joint->face == a && joint->other_face == (gint) b)
      return TRUE;
  }
  return FALSE;
}

/* The other side of a corner inside one niche, or of an edge of one bench: nearest in length, of a
 * face not met yet where there is one. */
static DryJoint *
find_twin (GArray *joints, const DryFaces *faces, guint index)
{
  const DryJoint *joint = &g_array_index (joints, DryJoint, index);
  DryJoint *best = NULL;
  DryLength least = 0;

  for (guint i = 0; i < joints->len; i++) {
    DryJoint *other = &g_array_index (joints, DryJoint, i);
    DryLength off = ABS (other->length - joint->length);
    if (i == index || other->kind != joint->kind || other->object != joint->object ||
        other->face == joint->face || other->other_face >= 0 || !other->counted ||
        faces->items[other->face].kind != faces->items[joint->face].kind || off > TWIN_REACH ||
        !may_be_twins (faces, joint, other))
      continue;
    if (have_met (joints, joint->face, other->face))
      off += TWIN_REACH + 1;
    if (!best || off < least) {
      best = other;
      least = off;
    }
  }
  return best;
}

static void
pair_small_faces (GArray *joints, const DryFaces *faces)
{
  for (guint i = 0; i < joints->len; i++) {
    DryJoint *joint = &g_array_index (joints, DryJoint, i);
    DryFaceKind kind = faces->items[joint->face].kind;
    if (!joint->counted || joint->other_face >= 0)
      continue;
    if (kind == DRY_FACE_NICHE ? joint->kind != DRY_JOINT_INSIDE_CORNER
                               : kind != DRY_FACE_BENCH || joint->kind != DRY_JOINT_OUTSIDE_CORNER)
      continue;
    DryJoint *twin = find_twin (joints, faces, i);
    if (!twin)
      continue;
    twin->counted = FALSE;
    twin->other_face = (gint) joint->face;
    joint->other_face = (gint) twin->face;
  }
}

/* The walls count the corners they make with a cap or an end; between cap and end the cap counts
 * it, at its left or right. */
static gboolean
is_counted_on_cap (const DryFace *face, const DryJoint *joint)
{
  gboolean is_cap = face->edges[3] == DRY_JOINT_OUTSIDE_CORNER;

  if (joint->kind == DRY_JOINT_INSIDE_CORNER)
    return !is_cap;
  return joint->kind != DRY_JOINT_OUTSIDE_CORNER || (is_cap && joint->from.x == joint->to.x);
}

/* A joint seen from both its sides is bought once: on the first board or face. */
void
dry_joints_count_once (GArray *joints, const DryFaces *faces)
{
  for (guint i = 0; i < joints->len; i++) {
    DryJoint *joint = &g_array_index (joints, DryJoint, i);
    DryFaceKind kind = faces->items[joint->face].kind;
    if (joint->kind == DRY_JOINT_SEAM && joint->other_board >= 0)
      joint->counted = joint->board < joint->other_board;
    else if (kind == DRY_FACE_WALL && joint->kind == DRY_JOINT_INSIDE_CORNER && joint->object)
      joint->counted = FALSE; /* the bench counts it */
    else if (kind == DRY_FACE_WALL && joint->other_face >= 0)
      joint->counted = joint->face < (guint) joint->other_face;
    else if (kind == DRY_FACE_CEILING && joint->kind == DRY_JOINT_INSIDE_CORNER)
      joint->counted = FALSE; /* the walls below count it */
    else if (kind == DRY_FACE_CAP)
      joint->counted = is_counted_on_cap (&faces->items[joint->face], joint);
    else if (kind == DRY_FACE_NICHE && joint->kind == DRY_JOINT_NICHE)
      joint->counted = FALSE; /* the wall round it counts it */
  }
  pair_small_faces (joints, faces);
}
