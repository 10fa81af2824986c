/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cut edges of tile a client will see, wall by wall: how wide the tile is left at each side, at
 * the bottom and at the top. Takes them from the tile stage; reckons nothing. */
#include "papers/client-private.h"

static char *
write_edge (const DryFlow *flow, const DryPlan *plan, DryLength left, DryLength whole)
{
  if (left <= 0)
    return g_strdup ("–");
  return left >= whole ? g_strdup ("whole") : dry_flow_length (flow->papers, plan, left);
}

void
dry_proposal_add_cuts (DryFlow *flow, const DryPlan *plan)
{
  static const DryColumn columns[] = {{"Wall", 0.32, DRY_ALIGN_LEFT},
                                      {"At the left", 0.17, DRY_ALIGN_RIGHT},
                                      {"At the right", 0.17, DRY_ALIGN_RIGHT},
                                      {"Bottom row", 0.17, DRY_ALIGN_RIGHT},
                                      {"Top row", 0.17, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  const DryTiling *tile = plan->tiling;

  if (!tile || tile->n_faces == 0)
    return;
  dry_flow_heading (flow, "Tile cuts you will see", 24);
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < tile->n_faces; i++) {
    const DryTileFace *face = &tile->faces[i];
    g_autofree char *left = write_edge (flow, plan, face->left_cut, tile->width);
    g_autofree char *right = write_edge (flow, plan, face->right_cut, tile->width);
    g_autofree char *bottom = write_edge (flow, plan, face->bottom_cut, tile->height);
    g_autofree char *top = write_edge (flow, plan, face->top_cut, tile->height);
    const char *cells[] = {plan->faces->items[face->face].name, left, right, bottom, top};
    dry_flow_table_row (flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_end (flow);
}
