/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Merges a change of the base room into a room that differs from it: field by field, object by
 * object. What the variant set itself stays; knows fields by their tables and no field by name. */
#define G_LOG_DOMAIN "drybay-project"

#include <string.h>

#include "project/alternate.h"
#include "project/fields.h"
#include "project/room-check.h"

static gsize
size_of (const DryField *field)
{
  switch (field->type) {
  case DRY_FIELD_ID:
    return sizeof (DryId);
  case DRY_FIELD_FLAG:
  case DRY_FIELD_CHOICE:
  case DRY_FIELD_INTEGER:
    return sizeof (guint);
  case DRY_FIELD_NUMBER:
    return sizeof (double);
  case DRY_FIELD_LENGTH:
    return sizeof (DryLength);
  case DRY_FIELD_POINT:
    return sizeof (DryPoint);
  case DRY_FIELD_TEXT:
  case DRY_FIELD_LENGTHS:
    break;
  }
  return sizeof (gpointer);
}

static gboolean
equal_field (const DryField *field, gconstpointer a, gconstpointer b)
{
  gconstpointer at_a = (const guint8 *) a + field->offset;
  gconstpointer at_b = (const guint8 *) b + field->offset;

  if (field->type == DRY_FIELD_TEXT)
    return g_strcmp0 (*(const char *const *) at_a, *(const char *const *) at_b) == 0;
  if (field->type == DRY_FIELD_FLAG) /* any value but 0 is TRUE */
    return !*(const gboolean *) at_a == !*(const gboolean *) at_b;
  if (field->type == DRY_FIELD_LENGTHS) {
    guint n_a = *(const guint *) (gconstpointer) ((const guint8 *) a + field->count_offset);
    guint n_b = *(const guint *) (gconstpointer) ((const guint8 *) b + field->count_offset);
    return n_a == n_b &&
           (n_a == 0 || memcmp (*(const DryLength *const *) at_a, *(const DryLength *const *) at_b,
                                sizeof (DryLength) * n_a) == 0);
  }
  return memcmp (at_a, at_b, size_of (field)) == 0;
}

static gboolean
equal_values (const DryFieldSet *set, gconstpointer a, gconstpointer b)
{
  for (guint i = 0; i < set->n; i++)
    if (!equal_field (&set->fields[i], a, b))
      return FALSE;
  return TRUE;
}

static void
copy_field (const DryField *field, gconstpointer from, gpointer to)
{
  gconstpointer at = (const guint8 *) from + field->offset;
  gpointer *out = (gpointer *) (gpointer) ((guint8 *) to + field->offset);

  if (field->type == DRY_FIELD_TEXT) {
    g_free (*out);
    *out = g_strdup (*(const char *const *) at);
  } else if (field->type == DRY_FIELD_LENGTHS) {
    guint n = *(const guint *) (gconstpointer) ((const guint8 *) from + field->count_offset);
    g_free (*out);
    *out = n > 0 ? g_memdup2 (*(const DryLength *const *) at, sizeof (DryLength) * n) : NULL;
    *(guint *) (gpointer) ((guint8 *) to + field->count_offset) = n;
  } else
    memcpy (out, at, size_of (field));
}

/* What `out` had in common with `before` it gets from `after`. */
static void
merge_values (const DryFieldSet *set, gconstpointer before, gconstpointer after, gpointer out)
{
  for (guint i = 0; i < set->n; i++)
    if (equal_field (&set->fields[i], before, out) && !equal_field (&set->fields[i], before, after))
      copy_field (&set->fields[i], after, out);
}

/* --- lists of objects with ids --- */

typedef struct {
  gconstpointer items;
  guint n;
} List;

typedef struct {
  const DryFieldSet *set;
  gsize size;
  List before, after, variant;
} Lists;

/* Every object begins with its id. */
static DryId
id_at (const Lists *lists, const List *list, guint index)
{
  return *(const DryId *) (gconstpointer) ((const guint8 *) list->items + lists->size * index);
}

static gconstpointer
find (const Lists *lists, const List *list, DryId id)
{
  for (guint i = 0; i < list->n; i++)
    if (id_at (lists, list, i) == id)
      return (const guint8 *) list->items + lists->size * i;
  return NULL;
}

static void
append (const Lists *lists, GByteArray *out, gconstpointer value)
{
  gsize at = out->len;

  g_byte_array_append (out, value, (guint) lists->size);
  dry_fields_own (lists->set, out->data + at);
}

/* The base's objects first, in its order, then the variant's own. */
static gpointer
merge_lists (const Lists *lists, guint *n)
{
  GByteArray *out = g_byte_array_new ();

  for (guint i = 0; i < lists->after.n; i++) {
    DryId id = id_at (lists, &lists->after, i);
    gconstpointer before = find (lists, &lists->before, id);
    gconstpointer after = (const guint8 *) lists->after.items + lists->size * i;
    gconstpointer variant = find (lists, &lists->variant, id);
    if (before && !variant)
      continue; /* the variant goes without it */
    append (lists, out, variant ? variant : after);
    if (before)
      merge_values (lists->set, before, after, out->data + out->len - lists->size);
  }
  for (guint i = 0; i < lists->variant.n; i++) {
    DryId id = id_at (lists, &lists->variant, i);
    gconstpointer value = (const guint8 *) lists->variant.items + lists->size * i;
    gconstpointer before = find (lists, &lists->before, id);
    if (find (lists, &lists->after, id))
      continue;
    /* gone from the base: it goes here too, unless it was made something else here */
    if (!before || !equal_values (lists->set, before, value))
      append (lists, out, value);
  }
  *n = out->len / (guint) lists->size;
  return g_byte_array_free (out, FALSE);
}

static void
free_values (gpointer items, guint n, gsize size, const DryFieldSet *set)
{
  for (guint i = 0; i < n; i++)
    dry_fields_clear (set, (guint8 *) items + size * i);
  g_free (items);
}

#define MERGE(before_, after_, out_, member, count, Type, set_)                                    \
  G_STMT_START                                                                                     \
  {                                                                                                \
    Lists lists_ = {&set_,                                                                         \
                    sizeof (Type),                                                                 \
                    {(before_)->member, (before_)->count},                                         \
                    {(after_)->member, (after_)->count},                                           \
                    {(out_)->member, (out_)->count}};                                              \
    guint n_;                                                                                      \
    gpointer merged_ = merge_lists (&lists_, &n_);                                                 \
    free_values ((out_)->member, (out_)->count, sizeof (Type), &set_);                             \
    (out_)->member = merged_;                                                                      \
    (out_)->count = n_;                                                                            \
  }                                                                                                \
  G_STMT_END

/* --- walls: an outline, then added ones --- */

static gboolean
same_outline (const DryRoom *a, const DryRoom *b)
{
  if (a->n_outline != b->n_outline)
    return FALSE;
  for (guint i = 0; i < a->n_outline; i++)
    if (a->walls[i].id != b->walls[i].id)
      return FALSE;
  return TRUE;
}

/* The walls of the outline are a ring: theirs or ours, but one of them whole. */
static gpointer
merge_outline (const DryRoom *before, const DryRoom *after, const DryRoom *variant, guint *n)
{
  gboolean ours = !same_outline (before, variant);
  Lists lists = {&dry_wall_fields,
                 sizeof (DryWall),
                 {before->walls, before->n_outline},
                 {after->walls, after->n_outline},
                 {variant->walls, variant->n_outline}};
  GByteArray *out;

  if (!ours)
    return merge_lists (&lists, n);
  out = g_byte_array_new ();
  for (guint i = 0; i < variant->n_outline; i++) {
    DryId id = variant->walls[i].id;
    gconstpointer was = find (&lists, &lists.before, id), is = find (&lists, &lists.after, id);
    append (&lists, out, &variant->walls[i]);
    if (was && is)
      merge_values (&dry_wall_fields, was, is, out->data + out->len - sizeof (DryWall));
  }
  *n = variant->n_outline;
  return g_byte_array_free (out, FALSE);
}

static void
merge_walls (const DryRoom *before, const DryRoom *after, DryRoom *out)
{
  Lists lists = {&dry_wall_fields,
                 sizeof (DryWall),
                 {before->walls + before->n_outline, before->n_walls - before->n_outline},
                 {after->walls + after->n_outline, after->n_walls - after->n_outline},
                 {out->walls + out->n_outline, out->n_walls - out->n_outline}};
  guint n_outline, n_added;
  DryWall *outline = merge_outline (before, after, out, &n_outline);
  DryWall *added = merge_lists (&lists, &n_added);

  free_values (out->walls, out->n_walls, sizeof (DryWall), &dry_wall_fields);
  out->walls = g_renew (DryWall, outline, n_outline + n_added);
  if (n_added > 0)
    memcpy (out->walls + n_outline, added, sizeof (DryWall) * n_added);
  g_free (added);
  out->n_outline = n_outline;
  out->n_walls = n_outline + n_added;
  for (guint i = 0; i < n_outline; i++)
    out->walls[i].end = out->walls[(i + 1) % n_outline].start;
}

static gboolean
equal_on_hand (const DryRoom *a, const DryRoom *b)
{
  if (a->n_on_hand != b->n_on_hand)
    return FALSE;
  for (guint i = 0; i < a->n_on_hand; i++)
    if (!equal_values (&dry_on_hand_fields, &a->on_hand[i], &b->on_hand[i]))
      return FALSE;
  return TRUE;
}

static void
merge_on_hand (const DryRoom *before, const DryRoom *after, DryRoom *out)
{
  if (!equal_on_hand (before, out))
    return;
  free_values (out->on_hand, out->n_on_hand, sizeof (DryOnHand), &dry_on_hand_fields);
  out->n_on_hand = after->n_on_hand;
  out->on_hand = g_memdup2 (after->on_hand, sizeof (DryOnHand) * after->n_on_hand);
  for (guint i = 0; i < out->n_on_hand; i++)
    dry_fields_own (&dry_on_hand_fields, &out->on_hand[i]);
}

static void
merge_basin (const DryRoom *before, const DryRoom *after, DryRoom *out)
{
  if (before->basin.id == out->basin.id && out->basin.id == after->basin.id)
    merge_values (&dry_basin_fields, &before->basin, &after->basin, &out->basin);
  else if (equal_values (&dry_basin_fields, &before->basin, &out->basin)) {
    dry_fields_clear (&dry_basin_fields, &out->basin);
    out->basin = after->basin;
    dry_fields_own (&dry_basin_fields, &out->basin);
  }
}

DryRoom *
dry_room_merge (const DryRoom *before, const DryRoom *after, const DryRoom *variant)
{
  DryRoom *out = dry_room_copy (variant);
  DryProblem problem = {0};

  merge_values (&dry_room_fields, before, after, out);
  merge_walls (before, after, out);
  merge_basin (before, after, out);
  merge_values (&dry_wet_zone_fields, &before->wet, &after->wet, &out->wet);
  merge_values (&dry_finish_fields, &before->finish, &after->finish, &out->finish);
  MERGE (before, after, out, openings, n_openings, DryOpening, dry_opening_fields);
  MERGE (before, after, out, parts, n_parts, DryPart, dry_part_fields);
  MERGE (before, after, out, seams, n_seams, DrySeamWish, dry_seam_fields);
  merge_on_hand (before, after, out);
  if (g_strcmp0 (before->unknown, out->unknown) == 0) {
    g_free (out->unknown);
    out->unknown = g_strdup (after->unknown);
  }
  if (!dry_room_check (out, &problem))
    g_clear_pointer (&out, dry_room_free);
  dry_problem_clear (&problem);
  return out;
}
