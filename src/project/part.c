/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Part values: copies, their words in files and messages, and the rectangle they take on a face.
 * Knows nothing of walls and what a part does to boards. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/part.h"

#include "project/fields.h"

static const char *const kind_names[DRY_N_PART_KINDS] = {
    [DRY_PART_NICHE] = "niche",
    [DRY_PART_VALVE] = "mixing valve",
    [DRY_PART_SPOUT] = "spout",
    [DRY_PART_SHOWER_HEAD] = "shower head",
    [DRY_PART_HAND_SHOWER] = "hand shower",
    [DRY_PART_GRAB_BAR] = "grab bar",
    [DRY_PART_BENCH] = "bench",
    [DRY_PART_GLASS] = "glass panel",
    [DRY_PART_PIPE] = "pipe",
    [DRY_PART_VENT] = "vent",
    [DRY_PART_CABLE] = "cable",
};

DryPart *
dry_part_copy (const DryPart *self)
{
  DryPart *copy;

  if (self == NULL)
    return NULL;
  copy = g_memdup2 (self, sizeof *self);
  dry_fields_own (&dry_part_fields, copy);
  return copy;
}

void
dry_part_free (DryPart *self)
{
  if (self == NULL)
    return;
  dry_fields_clear (&dry_part_fields, self);
  g_free (self);
}

DryRect
dry_part_rect (const DryPart *self)
{
  DryLength width = self->kind == DRY_PART_GLASS ? self->depth : self->width;
  DryLength bottom = self->z, height = self->height;

  switch (self->kind) {
  case DRY_PART_VALVE:
  case DRY_PART_SPOUT:
  case DRY_PART_SHOWER_HEAD:
  case DRY_PART_HAND_SHOWER:
    bottom = self->z - height / 2;
    break;
  case DRY_PART_GRAB_BAR:
    bottom = self->z - height;
    break;
  case DRY_PART_BENCH:
    /* A built bench is solid down to the floor; only a fold-down seat leaves the wall below free.
     */
    height = self->fold_down ? self->height : self->z;
    bottom = self->z - height;
    break;
  default:
    break;
  }
  return (DryRect){self->u - width / 2, bottom, self->u - width / 2 + width, bottom + height};
}

const char *
dry_part_kind_name (DryPartKind kind)
{
  return (guint) kind < DRY_N_PART_KINDS ? kind_names[kind] : "part";
}

const char *
dry_part_kind_to_text (DryPartKind kind)
{
  return (guint) kind < DRY_N_PART_KINDS ? dry_part_kind_words[kind] : NULL;
}

gboolean
dry_part_kind_from_text (const char *text, DryPartKind *out)
{
  for (guint i = 0; i < DRY_N_PART_KINDS; i++)
    if (g_strcmp0 (text, dry_part_kind_words[i]) == 0) {
      *out = (DryPartKind) i;
      return TRUE;
    }
  return FALSE;
}

gboolean
dry_part_kind_is_hidden (DryPartKind kind)
{
  return kind == DRY_PART_PIPE || kind == DRY_PART_VENT || kind == DRY_PART_CABLE;
}
