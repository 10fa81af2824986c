/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dimension strings of a scene and the rows they stand in.
 * A row is taken per side and base line; where it is taken already the next one out is used. */
#include "draw/scene-rows.h"

static gboolean
is_horizontal (DryToward side)
{
  return side == DRY_TOWARD_UP || side == DRY_TOWARD_DOWN;
}

static guint
take_row (DrySceneBuilder *self, DryRowStretch want)
{
  gboolean taken = TRUE;

  while (taken) {
    taken = FALSE;
    for (guint i = 0; i < self->rows->len && !taken; i++) {
      const DryRowStretch *other = &g_array_index (self->rows, DryRowStretch, i);
      taken = other->side == want.side && other->row == want.row && other->base == want.base &&
              MAX (other->from, want.from) < MIN (other->to, want.to);
    }
    if (taken)
      want.row++;
  }
  g_array_append_val (self->rows, want);
  return want.row;
}

static void
add_dimension (DrySceneBuilder *self, DryPoint a, DryPoint b, DryToward side, guint row)
{
  DryLook look = DRY_LOOK_LINE (DRY_INK_DIMENSION, DRY_PEN_018);
  DryLength length = is_horizontal (side) ? ABS (b.x - a.x) : ABS (b.y - a.y);
  DryLayer layer = self->layer;
  DryPrimitive *item;
  g_autofree char *text = dry_scene_builder_write (self, length);

  if (length == 0)
    return;
  /* Drawings in millimetres carry bare numbers; the sheet says the unit once. */
  if (self->metric && g_str_has_suffix (text, " mm"))
    text[strlen (text) - 3] = '\0';
  self->layer = DRY_LAYER_DIMENSIONS;
  item = dry_scene_builder_add (self, DRY_PRIMITIVE_DIMENSION, look, (DryPoint[]){a, b}, 2);
  self->layer = layer;
  item->text = dry_arena_strdup (self->arena, text);
  item->size = 2.2;
  item->side = side;
  item->row = row;
}

void
dry_scene_builder_dimension (DrySceneBuilder *self, DryPoint a, DryPoint b, DryToward side,
                             guint row)
{
  gboolean flat = is_horizontal (side);
  DryRowStretch want = {.side = side,
                        .row = row,
                        .base = flat ? a.y : a.x,
                        .from = flat ? MIN (a.x, b.x) : MIN (a.y, b.y),
                        .to = flat ? MAX (a.x, b.x) : MAX (a.y, b.y)};

  add_dimension (self, a, b, side, take_row (self, want));
}

static int
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength x = *(const DryLength *) a, y = *(const DryLength *) b;

  return (x > y) - (x < y);
}

guint
dry_scene_builder_chain (DrySceneBuilder *self, DryLength *stops, guint n, DryLength base,
                         DryToward side, guint row)
{
  DryRowStretch want = {.side = side, .row = row, .base = base};
  DryLength last;

  if (n < 2)
    return row;
  qsort (stops, n, sizeof *stops, compare_lengths);
  if (stops[0] == stops[n - 1])
    return row;
  want.from = stops[0];
  want.to = stops[n - 1];
  row = take_row (self, want);
  last = stops[0];
  for (guint i = 1; i < n; i++) {
    /* Stops closer than 2 mm are one to a person with a tape. */
    if (stops[i] - last < 2 * DRY_MM && i < n - 1)
      continue;
    if (is_horizontal (side))
      add_dimension (self, (DryPoint){last, base}, (DryPoint){stops[i], base}, side, row);
    else
      add_dimension (self, (DryPoint){base, last}, (DryPoint){base, stops[i]}, side, row);
    last = stops[i];
  }
  return row;
}
