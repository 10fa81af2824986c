/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mosaic: chips hang on sheets, and sheets are cut between rows of chips with a knife. Each face is
 * hung from its first column and row; what a sheet's place needs of it is a block of chips. Knows
 * no walls and no prices. */
#include "plan/cutting.h"
#include "plan/tile-private.h"

/* The chips one place for a sheet needs, as columns and rows of the pattern. */
typedef struct {
  gint32 sheet[2]; /* which place, from the face's first chip */
  gint32 c0, c1, r0, r1;
} Block;

static guint
hash_block (gconstpointer key)
{
  const Block *block = key;

  return (guint) block->sheet[0] * 92821u + (guint) block->sheet[1];
}

static gboolean
is_same_block (gconstpointer a, gconstpointer b)
{
  const Block *x = a, *y = b;

  return x->sheet[0] == y->sheet[0] && x->sheet[1] == y->sheet[1];
}

static void
add_chip (GHashTable *blocks, gint32 column, gint32 row, guint across, guint up)
{
  Block key = {{column / (gint32) across, row / (gint32) up}, column, column, row, row};
  Block *block = g_hash_table_lookup (blocks, &key);

  if (block == NULL) {
    g_hash_table_add (blocks, g_memdup2 (&key, sizeof key));
    return;
  }
  block->c0 = MIN (block->c0, column);
  block->c1 = MAX (block->c1, column);
  block->r0 = MIN (block->r0, row);
  block->r1 = MAX (block->r1, row);
}

/* The blocks of a face: whole sheets are counted, the others appended as pieces to be cut. */
static void
hang_face (const DryTileModule *module, DryTiling *self, const DryTileFace *tiled, GArray *pieces)
{
  g_autoptr (GHashTable) blocks = g_hash_table_new_full (hash_block, is_same_block, g_free, NULL);
  gint32 first_column = G_MAXINT32, first_row = G_MAXINT32;
  GHashTableIter iter;
  gpointer key;

  for (guint i = 0; i < tiled->n_pieces; i++) {
    first_column = MIN (first_column, tiled->pieces[i].column);
    first_row = MIN (first_row, tiled->pieces[i].row);
  }
  for (guint i = 0; i < tiled->n_pieces; i++)
    add_chip (blocks, tiled->pieces[i].column - first_column, tiled->pieces[i].row - first_row,
              self->sheet_across, self->sheet_up);
  g_hash_table_iter_init (&iter, blocks);
  while (g_hash_table_iter_next (&iter, &key, NULL)) {
    const Block *block = key;
    guint columns = (guint) (block->c1 - block->c0 + 1), rows = (guint) (block->r1 - block->r0 + 1);
    DryPiece piece = {.name = "block",
                      .width = columns * dry_tile_pitch_u (module),
                      .height = rows * dry_tile_row (module),
                      .may_turn = module->pattern == DRY_PATTERN_STRAIGHT &&
                                  module->width == module->height};

    if (columns == self->sheet_across && rows == self->sheet_up)
      self->n_whole_sheets++;
    else
      g_array_append_val (pieces, piece);
  }
}

void
dry_tile_count_sheets (const DryPlanContext *context, const DryTileModule *module, DryTiling *self)
{
  g_autoptr (GArray) pieces = g_array_new (FALSE, TRUE, sizeof (DryPiece));

  for (guint f = 0; f < self->n_faces; f++)
    hang_face (module, self, &self->faces[f], pieces);
  self->n_part_sheets =
      dry_tile_nest_rects (context, self->sheet_across * dry_tile_pitch_u (module),
                           self->sheet_up * dry_tile_row (module), pieces, 0);
}
