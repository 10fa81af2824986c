/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For every set of pieces, all smallest rectangles they can be cut from edge to edge: of a single
 * piece itself and turned, of a larger set every two parts of it beside and above one another. Then
 * sets are put on sheets in every way. */
#include "exact-nester.h"

#include <string.h>

typedef struct {
  DryLength width, height;
} Box;

typedef struct {
  GArray *boxes[1 << EXACT_MOST_PIECES]; /* Box, none inside another */
} Boxes;

static void
keep (GArray *boxes, Box box, DryLength most_width, DryLength most_height)
{
  if (box.width > most_width || box.height > most_height)
    return;
  for (guint i = 0; i < boxes->len; i++) {
    const Box *other = &g_array_index (boxes, Box, i);
    if (other->width <= box.width && other->height <= box.height)
      return;
  }
  for (guint i = boxes->len; i > 0; i--) {
    const Box *other = &g_array_index (boxes, Box, i - 1);
    if (box.width <= other->width && box.height <= other->height)
      g_array_remove_index_fast (boxes, i - 1);
  }
  g_array_append_val (boxes, box);
}

/* Sizes are swollen by a kerf, and so is the sheet: then cuts take nothing. */
static void
join (const Boxes *self, guint set, DryLength width, DryLength height)
{
  for (guint part = (set - 1) & set; part > 0; part = (part - 1) & set) {
    guint rest = set & ~part;
    if (part < rest)
      break;
    for (guint i = 0; i < self->boxes[part]->len; i++)
      for (guint k = 0; k < self->boxes[rest]->len; k++) {
        Box a = g_array_index (self->boxes[part], Box, i);
        Box b = g_array_index (self->boxes[rest], Box, k);
        keep (self->boxes[set], (Box){a.width + b.width, MAX (a.height, b.height)}, width, height);
        keep (self->boxes[set], (Box){MAX (a.width, b.width), a.height + b.height}, width, height);
      }
  }
}

gboolean
exact_fits (const ExactPiece *pieces, guint n, gboolean may_turn, DryLength width, DryLength height,
            DryLength kerf, guint sheets)
{
  guint n_sets = 1u << n;
  guint fewest[1 << EXACT_MOST_PIECES];
  Boxes self;

  g_assert_cmpuint (n, <=, EXACT_MOST_PIECES);
  width += kerf;
  height += kerf;
  for (guint set = 0; set < n_sets; set++) {
    self.boxes[set] = g_array_new (FALSE, FALSE, sizeof (Box));
    if (set == 0)
      continue;
    if ((set & (set - 1)) == 0) {
      const ExactPiece *piece = &pieces[g_bit_nth_lsf (set, -1)];
      keep (self.boxes[set], (Box){piece->width + kerf, piece->height + kerf}, width, height);
      if (may_turn)
        keep (self.boxes[set], (Box){piece->height + kerf, piece->width + kerf}, width, height);
    } else {
      join (&self, set, width, height);
    }
  }
  fewest[0] = 0;
  for (guint set = 1; set < n_sets; set++) {
    fewest[set] = G_MAXUINT;
    for (guint part = set; part > 0; part = (part - 1) & set)
      if (self.boxes[part]->len > 0 && fewest[set & ~part] != G_MAXUINT)
        fewest[set] = MIN (fewest[set], fewest[set & ~part] + 1);
  }
  for (guint set = 0; set < n_sets; set++)
    g_array_unref (self.boxes[set]);
  return fewest[n_sets - 1] <= sheets;
}
