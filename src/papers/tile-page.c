/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of tile cuts: sizes and how many, under the numbers that mark them on the drawings, and
 * what is bought for all of it. Knows the plan's layout only. */
#include "papers/papers-private.h"
#include "papers/scale.h"

static const char *const words[] = {"whole", "straight", "to shape"};

static void
add_kind (DryFlow *flow, const DryTable *table, guint index)
{
  const DryTileKind *kind = &flow->plan->tiling->kinds[index];
  g_autofree char *number = g_strdup_printf ("%u", index + 1);
  g_autofree char *width = dry_flow_length (flow->papers, flow->plan, kind->width);
  g_autofree char *height = dry_flow_length (flow->papers, flow->plan, kind->height);
  g_autofree char *count = g_strdup_printf ("%u", kind->count);
  g_autoptr (GString) faces = g_string_new (NULL);
  const DryTiling *tiling = flow->plan->tiling;

  for (guint f = 0; f < tiling->n_faces; f++) {
    guint n = 0;

    for (guint i = 0; i < tiling->faces[f].n_pieces; i++)
      n += tiling->faces[f].pieces[i].kind == (gint32) index;
    if (n > 0)
      g_string_append_printf (faces, "%s%s %u", faces->len ? ", " : "",
                              flow->plan->faces->items[tiling->faces[f].face].mark, n);
  }
  {
    const char *cells[] = {number, width, height, words[kind->cut], count, faces->str};

    dry_flow_table_row (flow, table, cells, FALSE, NULL, 0);
  }
}

/* A wall with its tile and the number of every cut, where any is cut. */
static void
add_wall (DryFlow *flow, const DryTileFace *tiled)
{
  const DryFace *face = &flow->plan->faces->items[tiled->face];
  g_autoptr (DryScene) scene = dry_drawing_tile (flow->plan, tiled->face);
  g_autofree char *title = g_strdup_printf ("Tile on %s – %s", face->mark, face->name);
  double ratio;

  if (face->kind != DRY_FACE_WALL || tiled->n_cut == 0 || scene->n == 0)
    return;
  dry_flow_begin (flow, title);
  ratio = dry_papers_place_scene (flow, scene, flow->left, flow->y, flow->width,
                                  dry_flow_left_over (flow));
  g_free (flow->page->scale);
  flow->page->scale = dry_scale_to_text (flow->plan->context.job->metric, ratio);
}

void
dry_papers_add_tile_cuts (DryFlow *flow)
{
  static const DryColumn columns[] = {
      {"Cut", 0.08, DRY_ALIGN_RIGHT},    {"Width", 0.15, DRY_ALIGN_RIGHT},
      {"Height", 0.15, DRY_ALIGN_RIGHT}, {"How", 0.13, DRY_ALIGN_LEFT},
      {"Pieces", 0.09, DRY_ALIGN_RIGHT}, {"On faces", 0.40, DRY_ALIGN_LEFT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  const DryTiling *tiling = flow->plan->tiling;

  if (tiling->n_faces == 0)
    return;
  for (guint i = 0; i < tiling->n_faces; i++)
    add_wall (flow, &tiling->faces[i]);
  dry_flow_begin (flow, "Tile: what to buy, what to cut");
  for (guint i = 0; i < tiling->n_counts; i++) {
    g_autofree char *line =
        g_strdup_printf ("%s: %s", tiling->counts[i].name, tiling->counts[i].working.formula);

    dry_flow_text (flow, dry_type_body, 0, line);
  }
  if (tiling->n_kinds == 0)
    return;
  dry_flow_heading (flow, "Cuts", 20);
  dry_flow_text (flow, dry_type_small, 0,
                 "Sizes of the box round each cut, for planning: hold every piece to its place "
                 "before it is cut. Numbers are those on the drawings.");
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < tiling->n_kinds; i++)
    add_kind (flow, &table, i);
  dry_flow_table_end (flow);
}
