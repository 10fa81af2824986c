/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sheet of board with the pieces to cut from it, the cuts numbered in the order made.
 * Cutting never saw a wall, so neither does this. */
#include "draw/drawing-private.h"

static void
draw_pieces (DrySceneBuilder *b, const DryCutting *cutting, const DrySheetLayout *layout,
             guint sheet)
{
  for (guint i = 0; i < layout->n_placements; i++) {
    const DryPlacement *at = &layout->placements[i];
    const DryPiece *piece = at->piece < cutting->n_pieces ? &cutting->pieces[at->piece] : NULL;
    DryInk tint = i % 2 ? DRY_INK_BOARD_ALT : DRY_INK_BOARD;
    DryLength w = dry_rect_width (at->rect), h = dry_rect_height (at->rect);
    gboolean upright = h > 2 * w;
    DryPoint c = dry_rect_centre (at->rect);
    DryLettering mark = {
        .size = 2.8, .bold = TRUE, .anchor = DRY_ANCHOR_ABOVE, .room = upright ? h : w};
    DryLettering size = {.size = 1.9, .anchor = DRY_ANCHOR_BELOW, .room = w};

    dry_scene_builder_tag (b, DRY_LAYER_BOARDS, DRY_SHOWS_SHEET, 0, (gint) sheet);
    dry_scene_builder_rect (b, (DryLook){.fill = DRY_INK_PAPER}, at->rect);
    dry_scene_builder_rect (
        b, (DryLook){.stroke = tint, .pen = DRY_PEN_025, .fill = tint, .alpha = 0.16}, at->rect);
    dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_SHEET, 0, (gint) sheet);
    if (!piece)
      continue;
    if (upright || h < 7 * DRY_INCH) {
      mark.anchor = DRY_ANCHOR_CENTRE;
      mark.angle = upright ? 90 : 0;
      mark.size = 2;
      dry_scene_builder_text (b, c, mark, "%s   %s", piece->name, dry_scene_builder_size (b, w, h));
      continue;
    }
    dry_scene_builder_text (b, c, mark, "%s%s", piece->name, at->turned ? " (turned)" : "");
    dry_scene_builder_text (b, c, size, "%s", dry_scene_builder_size (b, w, h));
  }
}

static void
draw_offcuts (DrySceneBuilder *b, const DrySheetLayout *layout, guint sheet)
{
  DryLook look = {
      .stroke = DRY_INK_FAINT, .pen = DRY_PEN_018, .dash = DRY_DASH_DASHED, .fill = DRY_INK_PAPER};

  dry_scene_builder_tag (b, DRY_LAYER_BOARDS, DRY_SHOWS_SHEET, 0, (gint) sheet);
  for (guint i = 0; i < layout->n_offcuts; i++) {
    DryRect r = layout->offcuts[i];
    dry_scene_builder_rect (b, look, r);
    dry_scene_builder_text (
        b, dry_rect_centre (r),
        (DryLettering){
            .size = 1.8, .ink = DRY_INK_TEXT_FAINT, .ground = TRUE, .room = dry_rect_width (r)},
        "keep %s", dry_scene_builder_size (b, dry_rect_width (r), dry_rect_height (r)));
  }
}

static void
draw_cuts (DrySceneBuilder *b, const DrySheetLayout *layout, guint sheet)
{
  DryLook line = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_035, .dash = DRY_DASH_CHAIN};

  dry_scene_builder_tag (b, DRY_LAYER_JOINTS, DRY_SHOWS_SHEET, 0, (gint) sheet);
  for (guint i = 0; i < layout->n_cuts; i++) {
    const DryCut *cut = &layout->cuts[i];
    DryPoint from, to, at;
    /* Numbers stand at different shares of the cuts' lengths, so parallel ones do not meet. */
    DryLength share;

    if (cut->vertical) {
      from = (DryPoint){cut->at, cut->of.y0};
      to = (DryPoint){cut->at, cut->of.y1};
    } else {
      from = (DryPoint){cut->of.x0, cut->at};
      to = (DryPoint){cut->of.x1, cut->at};
    }
    share = 15 + 14 * (DryLength) (i % 3);
    at = (DryPoint){from.x + (to.x - from.x) / 100 * share, from.y + (to.y - from.y) / 100 * share};
    dry_scene_builder_line (b, line, from, to);
    dry_scene_builder_text (
        b, at, (DryLettering){.size = 1.9, .bold = TRUE, .framed = TRUE, .ground = TRUE}, "%u",
        i + 1);
  }
}

static void
draw_dimensions (DrySceneBuilder *b, const DryStock *stock, const DrySheetLayout *layout)
{
  g_autoptr (GArray) x = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) y = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryLength w[2] = {0, stock->width}, h[2] = {0, stock->height};
  guint row = 0;

  for (guint i = 0; i < layout->n_cuts; i++)
    g_array_append_val (layout->cuts[i].vertical ? x : y, layout->cuts[i].at);
  dry_scene_builder_tag (b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  if (x->len > 0) {
    g_array_append_vals (x, w, 2);
    row = dry_scene_builder_chain (b, (DryLength *) x->data, x->len, 0, DRY_TOWARD_DOWN, 0) + 1;
  }
  dry_scene_builder_chain (b, w, 2, 0, DRY_TOWARD_DOWN, row);
  row = 0;
  if (y->len > 0) {
    g_array_append_vals (y, h, 2);
    row = dry_scene_builder_chain (b, (DryLength *) y->data, y->len, 0, DRY_TOWARD_LEFT, 0) + 1;
  }
  dry_scene_builder_chain (b, h, 2, 0, DRY_TOWARD_LEFT, row);
}

DryScene *
dry_drawing_cut_sheet (const DryPlan *plan, guint sheet)
{
  const DryCutting *cutting = plan->boards->cutting;
  DrySceneBuilder b;

  dry_scene_builder_init (&b, plan->context.job);
  if (cutting && sheet < cutting->n_sheets) {
    const DrySheetLayout *layout = &cutting->sheets[sheet];
    const DryStock *stock = &cutting->stock[layout->stock];
    g_autofree char *name = g_strdup_printf ("Sheet %u", sheet + 1);

    dry_scene_builder_begin_view (&b, DRY_VIEW_SHEET, (gint) sheet, (DryPoint){0, 0}, name);
    /* Waste is what nothing else covers. */
    dry_scene_builder_tag (&b, DRY_LAYER_ROOM, DRY_SHOWS_SHEET, 0, (gint) sheet);
    dry_scene_builder_rect (
        &b, (DryLook){.fill = DRY_INK_FAINT, .alpha = 0.06, .hatch = DRY_HATCH_DIAGONAL},
        (DryRect){0, 0, stock->width, stock->height});
    draw_offcuts (&b, layout, sheet);
    draw_pieces (&b, cutting, layout, sheet);
    dry_scene_builder_tag (&b, DRY_LAYER_ROOM, DRY_SHOWS_SHEET, 0, (gint) sheet);
    dry_scene_builder_rect (&b, DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_050),
                            (DryRect){0, 0, stock->width, stock->height});
    draw_cuts (&b, layout, sheet);
    draw_dimensions (&b, stock, layout);
  }
  return dry_scene_builder_finish (&b);
}
