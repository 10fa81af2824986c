/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts cuts of one size and shape under one number, so that a list of cuts and the marks on a
 * drawing are the same. Knows pieces only; nothing of how they are cut out of tiles. */
#include "plan/tile-private.h"

/* Nobody sets a saw finer: common practice, no source. */
#define ALIKE DRY_INCH_64

static gboolean
is_alike (const DryTileKind *kind, const DryTilePiece *piece)
{
  DryLength width = dry_rect_width (piece->bounds), height = dry_rect_height (piece->bounds);
  __int128 off = kind->area2 - piece->area2;

  return kind->cut == piece->cut && ABS (kind->width - width) < ALIKE &&
         ABS (kind->height - height) < ALIKE &&
         (off < 0 ? -off : off) < (__int128) 2 * ALIKE * MAX (width, height);
}

static guint
find_kind (GArray *kinds, const DryTilePiece *piece)
{
  DryTileKind kind = {piece->cut, dry_rect_width (piece->bounds), dry_rect_height (piece->bounds),
                      piece->area2, 0};

  for (guint i = 0; i < kinds->len; i++)
    if (is_alike (&g_array_index (kinds, DryTileKind, i), piece))
      return i;
  g_array_append_val (kinds, kind);
  return kinds->len - 1;
}

void
dry_tile_find_kinds (const DryPlanContext *context, DryTiling *self)
{
  GArray *kinds = g_array_new (FALSE, TRUE, sizeof (DryTileKind));

  for (guint f = 0; f < self->n_faces; f++)
    for (guint i = 0; i < self->faces[f].n_pieces; i++) {
      /* Laid in this plan's own arena and not yet shared. */
      DryTilePiece *piece = (DryTilePiece *) &self->faces[f].pieces[i];

      if (piece->cut == DRY_TILE_WHOLE)
        continue;
      piece->kind = (gint32) find_kind (kinds, piece);
      g_array_index (kinds, DryTileKind, piece->kind).count++;
    }
  self->n_kinds = kinds->len;
  self->kinds = dry_arena_take_array (context->arena, kinds);
}
