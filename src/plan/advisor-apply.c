/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes a place real by the document's own edits: the part, its size, and the tile chosen with it.
 * Decides nothing. */
#include "plan/advisor-private.h"
#include "project/edit.h"

static DryPart
part_at (const DryAdvice *self, const DryAdvicePlace *place)
{
  DryPart part = *self->part;

  part.wall = place->wall;
  part.side = place->side;
  part.u = place->u;
  part.z = place->z;
  part.width = place->width;
  part.height = place->height;
  part.depth = place->depth;
  if (place->item) {
    const DryItem *item = dry_catalog_get_item (self->site->catalog, place->item);

    part.item = (char *) item->id;
    part.body_width = item->part.body_width;
    part.body_height = item->part.body_height;
    part.flange = item->part.flange;
  }
  return part;
}

/* Another tile of the catalogue, laid as the advisor tried it. */
static DryProject *
take_tile (const DryAdvice *self, DryProject *project, const char *tile, GError **error)
{
  DryId id = self->site->plan->context.room->id;
  const DryFinish *now = &dry_project_get_room (project, id)->finish;
  DryFinish finish = dry_item_lay_tile (dry_catalog_get_item (self->site->catalog, tile), now);
  DryProject *next;

  finish.tiled = now->tiled;
  next = dry_edit_set_finish (project, id, &finish, error);
  dry_project_unref (project);
  return next;
}

/* With other joints the tile stage would look for another start: it is held to the one that was
 * judged. */
static DryProject *
set_tile (const DryAdvice *self, DryProject *project, const DryAdvicePlace *place, GError **error)
{
  DryId id = self->site->plan->context.room->id;
  const DryAdviceFace *face = dry_advice_get_face (self, place->wall, place->side);
  const DryTileFace *tiled = dry_tiling_get_face (self->site->plan->tiling, face->face);
  DryFinish finish = dry_project_get_room (project, id)->finish;
  DryProject *next;

  if (!tiled)
    return project;
  if (place->joint) {
    finish.joint = place->joint;
    finish.joint_min = finish.joint_max = 0;
  }
  if (place->joint || place->datum.y) {
    finish.level = tiled->datum.y + place->datum.y;
    finish.level_set = TRUE;
  }
  next = dry_edit_set_finish (project, id, &finish, error);
  dry_project_unref (project);
  if (next && (place->joint || place->datum.x)) {
    DryWall wall = *dry_room_get_wall (dry_project_get_room (next, id), place->wall);
    project = next;
    wall.tile_from = tiled->datum.x + place->datum.x;
    wall.tile_set = TRUE;
    next = dry_edit_set_wall (project, id, &wall, NULL, error);
    dry_project_unref (project);
  }
  return next;
}

DryProject *
dry_advice_apply (const DryAdvice *self, const DryProject *project, const DryAdvicePlace *place,
                  DryId *id_out, GError **error)
{
  DryPart part = part_at (self, place);
  DryProject *next =
      dry_edit_set_part (project, self->site->plan->context.room->id, &part, id_out, error);

  if (next && place->tile)
    next = take_tile (self, next, place->tile, error);
  if (next && (place->joint || place->datum.x || place->datum.y))
    next = set_tile (self, next, place, error);
  return next;
}
