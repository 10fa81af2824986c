/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sheet of board with the pieces to cut from it, the cuts numbered in the order made.
 * Cutting never saw a wall, so neither does this. */
#include "draw/drawing-private.h"

/* Numbers keep this from one another: a ring's width at the smallest scale sheets are printed. */
#define NUMBER (13 * DRY_INCH / 2)

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
    if (!piece || MIN (w, h) < 5 * DRY_INCH)
      continue; /* named with a leader */
    if (upright || h < 7 * DRY_INCH) {
      mark.anchor = DRY_ANCHOR_CENTRE;
      mark.angle = upright ? 90 : 0;
      mark.size = 2;
      dry_scene_builder_text (b, c, mark, "%s   %s", piece->name, dry_scene_builder_size (b, w, h));
      continue;
    }
    if (at->turned)
      dry_scene_builder_text (b, c, mark, "%s (turned)", piece->name);
    /* Hides behind the longer name where that fits. */
    dry_scene_builder_text (b, c, mark, "%s", piece->name);
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

/* Signs and names set so far, with the distance others keep from them. */
typedef struct {
  DryPoint at;
  DryLength clear;
} Taken;

static DryLength
measure_clear (const GArray *taken, DryPoint at, DryLength enough)
{
  DryLength nearest = enough;

  for (guint i = 0; i < taken->len; i++) {
    const Taken *t = &g_array_index (taken, Taken, i);
    nearest = MIN (nearest, dry_point_distance (at, t->at) - t->clear);
  }
  return nearest;
}

static void
take (GArray *taken, DryPoint at, DryLength clear)
{
  Taken t = {at, clear};

  g_array_append_val (taken, t);
}

/* A spot round `from` that nothing stands near; the nearest ring first. */
static gboolean
find_spot (const GArray *taken, DryRect sheet, DryPoint from, DryPoint *spot)
{
  sheet = dry_rect_inflate (sheet, -4 * DRY_INCH);
  for (DryLength r = 7 * DRY_INCH; r <= 31 * DRY_INCH; r += 4 * DRY_INCH) {
    DryPoint ring[17];
    dry_points_arc (ring, from, (double) r, (double) r, -100, 260, 17);
    for (guint i = 0; i < 16; i++)
      if (dry_rect_contains (sheet, ring[i]) && measure_clear (taken, ring[i], NUMBER) >= NUMBER) {
        *spot = ring[i];
        return TRUE;
      }
  }
  return FALSE;
}

static void
draw_leader (DrySceneBuilder *b, DryPoint from, DryPoint to)
{
  dry_scene_builder_line (b, DRY_LOOK_LINE (DRY_INK_DIMENSION, DRY_PEN_013), from, to);
  dry_scene_builder_circle (b, (DryLook){.fill = DRY_INK_DIMENSION}, from, DRY_INCH / 2);
}

/* On the cut, clear of numbers and names set before; near its start, since a cut is looked for from
 * its edge. FALSE where it is too short or too crowded; `at` is then its middle. */
static gboolean
find_number_place (const GArray *taken, DryPoint from, DryPoint to, DryPoint *at)
{
  for (DryLength share = 10; share <= 90; share += 8) {
    *at =
        (DryPoint){from.x + (to.x - from.x) / 100 * share, from.y + (to.y - from.y) / 100 * share};
    if (measure_clear (taken, *at, NUMBER) >= NUMBER)
      return TRUE;
  }
  *at = (DryPoint){(from.x + to.x) / 2, (from.y + to.y) / 2};
  return FALSE;
}

static gboolean
is_small (DryRect r)
{
  return MIN (dry_rect_width (r), dry_rect_height (r)) < 5 * DRY_INCH;
}

/* Pieces too narrow for letters are named beside, with a leader. */
static void
name_small_pieces (DrySceneBuilder *b, const DryCutting *cutting, const DrySheetLayout *layout,
                   DryRect sheet, GArray *taken)
{
  for (guint i = 0; i < layout->n_placements; i++) {
    const DryPlacement *p = &layout->placements[i];
    DryPoint c = dry_rect_centre (p->rect);
    if (!is_small (p->rect))
      take (taken, c, 5 * DRY_INCH);
    else if (p->piece < cutting->n_pieces)
      take (taken, c, -3 * DRY_INCH);
  }
  for (guint i = 0; i < layout->n_placements; i++) {
    const DryPlacement *p = &layout->placements[i];
    DryPoint c = dry_rect_centre (p->rect), spot;
    if (!is_small (p->rect) || p->piece >= cutting->n_pieces || !find_spot (taken, sheet, c, &spot))
      continue;
    draw_leader (b, c, spot);
    take (taken, spot, DRY_INCH);
    dry_scene_builder_text (b, spot, (DryLettering){.size = 2, .bold = TRUE, .ground = TRUE}, "%s",
                            cutting->pieces[p->piece].name);
  }
}

static void
draw_cuts (DrySceneBuilder *b, const DryCutting *cutting, const DrySheetLayout *layout, guint sheet)
{
  const DryStock *stock = &cutting->stock[layout->stock];
  DryRect whole = {0, 0, stock->width, stock->height};
  DryLook line = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_035, .dash = DRY_DASH_CHAIN};

  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (Taken));

  dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_SHEET, 0, (gint) sheet);
  name_small_pieces (b, cutting, layout, whole, taken);
  dry_scene_builder_tag (b, DRY_LAYER_JOINTS, DRY_SHOWS_SHEET, 0, (gint) sheet);
  for (guint i = 0; i < layout->n_cuts; i++) {
    const DryCut *cut = &layout->cuts[i];
    DryPoint from, to, at, spot;

    if (cut->vertical) {
      from = (DryPoint){cut->at, cut->of.y0};
      to = (DryPoint){cut->at, cut->of.y1};
    } else {
      from = (DryPoint){cut->of.x0, cut->at};
      to = (DryPoint){cut->of.x1, cut->at};
    }
    dry_scene_builder_line (b, line, from, to);
    if (!find_number_place (taken, from, to, &at) && find_spot (taken, whole, at, &spot)) {
      draw_leader (b, at, spot);
      at = spot;
    }
    take (taken, at, 0);
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

  for (guint i = 0; i < layout->n_cuts; i++)
    g_array_append_val (layout->cuts[i].vertical ? x : y, layout->cuts[i].at);
  dry_scene_builder_tag (b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  /* One row a side: the sheet's own size is its name. */
  g_array_append_vals (x, w, 2);
  dry_scene_builder_chain (b, (DryLength *) x->data, x->len, 0, DRY_TOWARD_DOWN, 0);
  g_array_append_vals (y, h, 2);
  dry_scene_builder_chain (b, (DryLength *) y->data, y->len, 0, DRY_TOWARD_LEFT, 0);
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
    draw_cuts (&b, cutting, layout, sheet);
    draw_dimensions (&b, stock, layout);
  }
  return dry_scene_builder_finish (&b);
}
