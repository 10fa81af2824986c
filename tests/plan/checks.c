/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Invariants of faces and framing, asserted one by one. Knows no room in particular. */
#include "checks.h"

static void
check_region (const DryPlanContext *context, const DryFace *face)
{
  DryRect bounds = dry_region_bounds (&face->region);

  if (dry_region_is_empty (&face->region))
    return;
  g_assert_cmpint (bounds.x0, >=, 0);
  g_assert_cmpint (bounds.y0, >=, 0);
  g_assert_cmpint (bounds.x1, <=, face->length);
  g_assert_cmpint (bounds.y1, <=, face->height);
  g_assert_cmpint (bounds.x0, >=, face->wet_u0);
  g_assert_cmpint (bounds.x1, <=, face->wet_u1);
  g_assert_cmpint (bounds.y1, <=, face->wet_top);
  for (guint i = 0; i < face->n_cutouts; i++) {
    DryRegion rough = dry_region_from_rect (context->arena, face->cutouts[i].rough);
    DryRegion both = dry_region_intersection (context->arena, &face->region, &rough);

    g_assert_true (dry_region_is_empty (&both));
  }
}

static void
check_end (const DryFaces *faces, const DryFace *face, const DryFaceEnd *end, gboolean right)
{
  const DryFaceEnd *other;

  g_assert_cmpint (end->inset, >=, 0);
  if (end->face < 0) {
    g_assert_cmpint (end->inset, ==, 0);
    return;
  }
  g_assert_cmpint (end->face, <, (gint) faces->n);
  other = right ? &faces->items[end->face].left : &faces->items[end->face].right;
  g_assert_cmpint (other->face, ==, (gint) face->index);
  g_assert_cmpfloat (other->angle, ==, end->angle);
  /* At a square corner exactly one of the two boards gives way. */
  g_assert_true (end->inset == 0 || other->inset == 0);
  if (ABS (end->angle - 90) < 1)
    g_assert_cmpint (end->inset + other->inset, >, 0);
}

void
check_faces (const DryPlanContext *context, const DryFaces *faces)
{
  DryLength x = -1;

  for (guint i = 0; i < faces->n; i++) {
    const DryFace *face = &faces->items[i];

    g_assert_cmpuint (face->index, ==, i);
    g_assert_nonnull (face->name);
    g_assert_nonnull (face->mark);
    for (guint j = 0; j < i; j++)
      g_assert_cmpstr (face->mark, !=, faces->items[j].mark);
    g_assert_cmpint (face->length, >, 0);
    g_assert_cmpint (face->height, >, 0);
    g_assert_cmpint (face->strip_x, >=, MAX (x, 0));
    x = face->strip_x + face->length;
    check_region (context, face);
    check_end (faces, face, &face->left, FALSE);
    check_end (faces, face, &face->right, TRUE);
  }
  g_assert_cmpint (faces->strip_length, ==, MAX (x, 0));
}

/* Uprights ascend and do not overlap; with the bays they fill the wall from end to end. */
static void
check_uprights (const DryPlanContext *context, const DryFace *face, const DryFraming *framing)
{
  guint n, bay = 0;
  const DryMember *const *uprights = dry_framing_uprights (context, framing, face->index, &n);
  DryLength u = 0;

  for (guint i = 0; i < n; i++) {
    DryRect rect = uprights[i]->rect;

    for (guint j = 0; j < i; j++) {
      g_assert_cmpint (uprights[j]->rect.x0, <=, rect.x0);
      g_assert_false (dry_rect_overlaps (uprights[j]->rect, rect));
    }
  }
  if (face->kind != DRY_FACE_WALL)
    return;
  g_assert_cmpuint (n, >=, 1);
  while (bay < framing->n_bays && framing->bays[bay].face != face->index)
    bay++;
  for (guint i = 0; i < n; i++) {
    DryRect rect = uprights[i]->rect;

    if (rect.x0 > u) {
      g_assert_cmpuint (bay, <, framing->n_bays);
      g_assert_cmpint (framing->bays[bay].face, ==, (gint) face->index);
      g_assert_cmpint (framing->bays[bay].u0, ==, u);
      g_assert_cmpint (framing->bays[bay].u1, ==, rect.x0);
      bay++;
    }
    u = MAX (u, rect.x1);
  }
  g_assert_cmpint (u, ==, face->length);
  g_assert_true (bay >= framing->n_bays || framing->bays[bay].face != face->index);
}

void
check_framing (const DryPlanContext *context, const DryFaces *faces, const DryFraming *framing)
{
  for (guint i = 0; i < framing->n; i++) {
    const DryMember *member = &framing->items[i];
    const DryFace *face;

    g_assert_cmpuint (member->face, <, faces->n);
    face = &faces->items[member->face];
    g_assert_false (dry_rect_is_empty (member->rect));
    g_assert_cmpint (member->rect.x0, >=, 0);
    g_assert_cmpint (member->rect.y0, >=, 0);
    g_assert_cmpint (member->rect.x1, <=, face->length);
    g_assert_cmpint (member->rect.y1, <=, face->height);
    if (member->added)
      g_assert_nonnull (member->reason);
  }
  for (guint i = 0; i < faces->n; i++)
    check_uprights (context, &faces->items[i], framing);
}
