/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an item of the shelf makes of a value of the document. Reads nothing and knows no room. */
#include "catalog/item.h"

DryFinish
dry_item_lay_tile (const DryItem *self, const DryFinish *now)
{
  DryFinish finish = *now;

  finish.tile = (char *) self->id;
  finish.tile_width = self->tile_width;
  finish.tile_height = self->tile_height;
  finish.tile_thickness = self->tile_thickness;
  finish.joint = self->joint > 0 ? self->joint : finish.joint;
  /* Sheet, box and spares are the new tile's own. */
  finish.box = finish.chips_across = finish.chips_up = 0;
  finish.breakage = 0;
  finish.tiled = TRUE;
  return finish;
}
