/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dimension strings of a face: seams above, parts below, heights at the sides, overall outermost.
 * Widths run from the corners and heights from the floor, as a tape is held. */
#include "draw/drawing-private.h"

typedef struct {
  GArray *u, *z;
} Stops;

static void
add (GArray *stops, DryLength value, DryLength least, DryLength most)
{
  if (value > least && value < most)
    g_array_append_val (stops, value);
}

static void
chain (DrySceneBuilder *b, GArray *stops, DryLength from, DryLength to, DryLength base,
       DryToward side, guint *row)
{
  if (stops->len > 0) {
    g_array_append_val (stops, from);
    g_array_append_val (stops, to);
    *row = dry_scene_builder_chain (b, (DryLength *) stops->data, stops->len, base, side, *row) + 1;
  }
  g_array_set_size (stops, 0);
}

static void
collect_seams (const DryPlan *plan, const DryFace *face, Stops *stops)
{
  for (guint i = 0; i < plan->boards->n_seams; i++) {
    const DrySeam *seam = &plan->boards->seams[i];
    if (seam->face != face->index)
      continue;
    if (seam->vertical)
      add (stops->u, seam->from.x, 0, face->length);
    else
      add (stops->z, seam->from.y, 0, face->height);
  }
  if (face->kind != DRY_FACE_WALL)
    return;
  add (stops->u, face->wet_u0, 0, face->length);
  add (stops->u, face->wet_u1, 0, face->length);
  add (stops->z, face->wet_top, 0, face->height);
  if (face->at_basin) {
    add (stops->z, face->deck, 0, face->height);
    add (stops->z, face->board_bottom, 0, face->height);
  }
}

/* Widths of openings and niches (`wide`), or middles and heights of fittings. */
static void
collect_parts (const DryPlan *plan, const DryFace *face, gboolean wide, Stops *stops)
{
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < face->n_cutouts && wide; i++) {
    DryRect r = face->cutouts[i].finish;
    add (stops->u, r.x0, 0, face->length);
    add (stops->u, r.x1, 0, face->length);
    add (stops->z, r.y0, 0, face->height);
    add (stops->z, r.y1, 0, face->height);
  }
  for (guint i = 0; i < room->n_parts && !wide; i++) {
    const DryPart *part = &room->parts[i];
    if (part->wall != face->wall || part->side != face->side || part->kind == DRY_PART_NICHE)
      continue;
    add (stops->u, part->u, 0, face->length);
    if (part->kind != DRY_PART_GLASS && !dry_part_kind_is_hidden (part->kind))
      add (stops->z, part->z, 0, face->height);
  }
}

void
dry_draw_elevation_dimensions (DrySceneBuilder *b, const DryPlan *plan, const DryFace *face,
                               gboolean full)
{
  Stops stops = {g_array_new (FALSE, FALSE, sizeof (DryLength)),
                 g_array_new (FALSE, FALSE, sizeof (DryLength))};
  DryLength ends[2] = {0, face->length}, heights[2] = {0, face->height};
  guint up = 0, down = 0, left = 0, right = 0;
  gboolean heights_left = full || face->strip_x == 0;

  /* Linings of niches and benches are dimensioned on their own sheets. */
  if (!full && face->kind != DRY_FACE_WALL) {
    g_array_unref (stops.u);
    g_array_unref (stops.z);
    return;
  }

  dry_scene_builder_tag (b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  collect_seams (plan, face, &stops);
  chain (b, stops.u, 0, face->length, face->height, DRY_TOWARD_UP, &up);
  dry_scene_builder_chain (b, ends, 2, face->height, DRY_TOWARD_UP, up);
  if (heights_left) {
    chain (b, stops.z, 0, face->height, 0, DRY_TOWARD_LEFT, &left);
    dry_scene_builder_chain (b, heights, 2, 0, DRY_TOWARD_LEFT, left);
  }
  g_array_set_size (stops.z, 0);
  for (int wide = 1; wide >= 0; wide--) {
    collect_parts (plan, face, wide, &stops);
    chain (b, stops.u, 0, face->length, 0, DRY_TOWARD_DOWN, &down);
    if (full)
      chain (b, stops.z, 0, face->height, face->length, DRY_TOWARD_RIGHT, &right);
    g_array_set_size (stops.z, 0);
  }
  g_array_unref (stops.u);
  g_array_unref (stops.z);
}
