/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sheet of board with the pieces to cut from it, the cuts numbered in the order made, each with
 * its distance from the edge it is measured from. Cutting never saw a wall, so neither does this.
 */
#include "draw/drawing-private.h"

/* A ring's width as part of the sheet's longer side: a sheet fills a page, or most of a window. */
#define RINGS_ALONG 24

/* The sheet being drawn, and the least that signs on it keep from one another. */
typedef struct {
  DrySceneBuilder *b;
  const DryCutting *cutting;
  const DrySheetLayout *layout;
  guint index;
  DryRect whole;
  DryLength ring;
  GArray *taken; /* Taken */
} Sheet;

static void
tag (const Sheet *self, DryLayer layer)
{
  dry_scene_builder_tag (self->b, layer, DRY_SHOWS_SHEET, 0, (gint) self->index);
}

static const char *
get_name (const Sheet *self, const DryPlacement *place)
{
  return place->piece < self->cutting->n_pieces ? self->cutting->pieces[place->piece].name : "";
}

static gboolean
is_small (const Sheet *self, DryRect r)
{
  return MIN (dry_rect_width (r), dry_rect_height (r)) < self->ring;
}

/* --- pieces and offcuts --- */

static void
name_piece (const Sheet *self, const DryPlacement *place)
{
  DrySceneBuilder *b = self->b;
  DryLength w = dry_rect_width (place->rect), h = dry_rect_height (place->rect);
  gboolean upright = h > 2 * w;
  DryPoint c = dry_rect_centre (place->rect);
  DryLettering mark = {
      .size = 3.2, .bold = TRUE, .anchor = DRY_ANCHOR_ABOVE, .room = upright ? h : w};
  DryLettering size = {.size = 2, .anchor = DRY_ANCHOR_BELOW, .room = w};
  const char *name = get_name (self, place);

  if (upright || h < 3 * self->ring / 2) {
    mark.anchor = DRY_ANCHOR_CENTRE;
    mark.angle = upright ? 90 : 0;
    mark.size = 2.2;
    mark.ground = TRUE;
    dry_scene_builder_text (b, c, mark, "%s   %s", name, dry_scene_builder_size (b, w, h));
    return;
  }
  if (place->turned)
    dry_scene_builder_text (b, c, mark, "%s (turned)", name);
  /* Hides behind the longer name where that fits. */
  dry_scene_builder_text (b, c, mark, "%s", name);
  dry_scene_builder_text (b, c, size, "%s", dry_scene_builder_size (b, w, h));
}

static void
draw_piece (const Sheet *self, const DryPlacement *place, guint number)
{
  DryInk tint = number % 2 ? DRY_INK_BOARD_ALT : DRY_INK_BOARD;

  tag (self, DRY_LAYER_BOARDS);
  dry_scene_builder_rect (self->b, (DryLook){.fill = DRY_INK_PAPER}, place->rect);
  dry_scene_builder_rect (
      self->b, (DryLook){.stroke = tint, .pen = DRY_PEN_025, .fill = tint, .alpha = 0.16},
      place->rect);
}

/* What is cut out of the piece, where it lies on the sheet; turned counter-clockwise with it. */
static void
draw_openings (const Sheet *self, const DryPlacement *place)
{
  const DryPiece *piece = &self->cutting->pieces[place->piece];
  DryLook look = {.stroke = DRY_INK_LINE,
                  .pen = DRY_PEN_018,
                  .dash = DRY_DASH_DASHED,
                  .fill = DRY_INK_FAINT,
                  .alpha = 0.06,
                  .hatch = DRY_HATCH_DIAGONAL};

  tag (self, DRY_LAYER_BOARDS);
  for (guint i = 0; i < piece->n_openings; i++) {
    DryRect r = piece->openings[i];
    if (place->turned)
      r = (DryRect){piece->height - r.y1, r.x0, piece->height - r.y0, r.x1};
    r = (DryRect){place->rect.x0 + r.x0, place->rect.y0 + r.y0, place->rect.x0 + r.x1,
                  place->rect.y0 + r.y1};
    dry_scene_builder_rect (self->b, (DryLook){.fill = DRY_INK_PAPER}, r);
    dry_scene_builder_rect (self->b, look, r);
  }
}

/* Those of the sheet first, then those from openings, whatever their order: on paper the last one
 * drawn covers the others. */
static void
draw_pieces (const Sheet *self)
{
  const DrySheetLayout *layout = self->layout;

  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < layout->n_placements; i++) {
      const DryPlacement *place = &layout->placements[i];
      if (place->piece >= self->cutting->n_pieces || (place->inside >= 0) != (pass == 1))
        continue;
      draw_piece (self, place, i);
      draw_openings (self, place);
    }
}

static void
name_pieces (const Sheet *self)
{
  tag (self, DRY_LAYER_LABELS);
  for (guint i = 0; i < self->layout->n_placements; i++)
    if (!is_small (self, self->layout->placements[i].rect))
      name_piece (self, &self->layout->placements[i]);
}

static void
draw_offcuts (const Sheet *self)
{
  DrySceneBuilder *b = self->b;
  DryLook look = {
      .stroke = DRY_INK_FAINT, .pen = DRY_PEN_018, .dash = DRY_DASH_DASHED, .fill = DRY_INK_PAPER};

  tag (self, DRY_LAYER_BOARDS);
  for (guint i = 0; i < self->layout->n_offcuts; i++) {
    DryRect r = self->layout->offcuts[i];
    DryLength w = dry_rect_width (r), h = dry_rect_height (r);
    gboolean upright = h > 3 * w / 2;
    DryLettering name = {.size = 1.9,
                         .ink = DRY_INK_TEXT_FAINT,
                         .ground = TRUE,
                         .angle = upright ? 90 : 0,
                         .room = upright ? h : w};
    dry_scene_builder_rect (b, look, r);
    /* Hides behind the longer one where that fits. */
    dry_scene_builder_text (b, dry_rect_centre (r), name, "offcut %u", i + 1);
    dry_scene_builder_text (b, dry_rect_centre (r), name, "offcut %u   %s", i + 1,
                            dry_scene_builder_size (b, w, h));
  }
}

/* --- signs --- */

/* Signs and names set so far, with the distance others keep from them. */
typedef struct {
  DryPoint at;
  DryLength clear;
} Taken;

static gboolean
is_clear (const Sheet *self, DryPoint at, DryLength need)
{
  for (guint i = 0; i < self->taken->len; i++) {
    const Taken *t = &g_array_index (self->taken, Taken, i);
    if (dry_point_distance (at, t->at) - t->clear < need)
      return FALSE;
  }
  return TRUE;
}

static void
take (const Sheet *self, DryPoint at, DryLength clear)
{
  Taken t = {at, clear};

  g_array_append_val (self->taken, t);
}

/* A spot round `from` that nothing stands near; the nearest ring first. */
static gboolean
find_spot (const Sheet *self, DryPoint from, DryPoint *spot)
{
  DryRect sheet = dry_rect_inflate (self->whole, -self->ring / 2);

  for (DryLength r = self->ring; r <= 5 * self->ring; r += self->ring / 2) {
    DryPoint ring[17];
    dry_points_arc (ring, from, (double) r, (double) r, -100, 260, 17);
    for (guint i = 0; i < 16; i++)
      if (dry_rect_contains (sheet, ring[i]) && is_clear (self, ring[i], self->ring)) {
        *spot = ring[i];
        return TRUE;
      }
  }
  return FALSE;
}

static void
draw_leader (const Sheet *self, DryPoint from, DryPoint to)
{
  dry_scene_builder_line (self->b, DRY_LOOK_LINE (DRY_INK_DIMENSION, DRY_PEN_013), from, to);
  dry_scene_builder_circle (self->b, (DryLook){.fill = DRY_INK_DIMENSION}, from, self->ring / 12);
}

/* Pieces too narrow for letters are named beside, with a leader. */
static void
name_small_pieces (const Sheet *self)
{
  tag (self, DRY_LAYER_LABELS);
  for (guint i = 0; i < self->layout->n_placements; i++) {
    const DryPlacement *place = &self->layout->placements[i];
    DryPoint c = dry_rect_centre (place->rect);
    if (!is_small (self, place->rect))
      take (self, c, self->ring);
    else
      take (self, c, -self->ring / 4);
  }
  for (guint i = 0; i < self->layout->n_placements; i++) {
    const DryPlacement *place = &self->layout->placements[i];
    DryPoint c = dry_rect_centre (place->rect), spot;
    DryLettering name = {.size = 2.2, .bold = TRUE, .ground = TRUE};
    if (!is_small (self, place->rect))
      continue;
    if (MIN (dry_rect_width (place->rect), dry_rect_height (place->rect)) > self->ring / 2) {
      name.angle = dry_rect_height (place->rect) > dry_rect_width (place->rect) ? 90 : 0;
      name.size = 1.8;
      dry_scene_builder_text (self->b, c, name, "%s", get_name (self, place));
      continue;
    }
    if (!find_spot (self, c, &spot))
      continue;
    draw_leader (self, c, spot);
    take (self, spot, self->ring / 4);
    dry_scene_builder_text (self->b, spot, name, "%s", get_name (self, place));
  }
}

/* On the cut, clear of numbers and names set before; near its start, since a cut is looked for from
 * its edge. FALSE where it is too short or too crowded; `at` is then its middle. */
static gboolean
find_number_place (const Sheet *self, DryPoint from, DryPoint to, DryPoint *at)
{
  for (DryLength share = 6; share <= 94; share += 4) {
    *at =
        (DryPoint){from.x + (to.x - from.x) / 100 * share, from.y + (to.y - from.y) / 100 * share};
    if (is_clear (self, *at, self->ring))
      return TRUE;
  }
  *at = (DryPoint){(from.x + to.x) / 2, (from.y + to.y) / 2};
  return FALSE;
}

/* How far from the left or lower edge of the part in hand, along the cut behind its number. */
static void
say_distance (const Sheet *self, const DryCut *cut, DryPoint number, DryPoint to)
{
  DryLength distance = cut->vertical ? cut->at - cut->of.x0 : cut->at - cut->of.y0;
  DryLength left = cut->vertical ? to.y - number.y : to.x - number.x;
  DryLength off = 9 * self->ring / 5;
  DryPoint at =
      cut->vertical ? (DryPoint){number.x, number.y + off} : (DryPoint){number.x + off, number.y};

  if (left < 3 * self->ring || !is_clear (self, at, self->ring))
    return;
  take (self, at, self->ring / 3);
  dry_scene_builder_text (
      self->b, at, (DryLettering){.size = 1.8, .ground = TRUE, .angle = cut->vertical ? 90 : 0},
      "%s", dry_scene_builder_length (self->b, distance));
}

static void
draw_cuts (const Sheet *self)
{
  DryLook line = {.stroke = DRY_INK_LINE, .pen = DRY_PEN_035, .dash = DRY_DASH_CHAIN};

  tag (self, DRY_LAYER_JOINTS);
  for (guint i = 0; i < self->layout->n_cuts; i++) {
    const DryCut *cut = &self->layout->cuts[i];
    DryPoint from, to, at, spot;
    gboolean on_cut;

    from = cut->vertical ? (DryPoint){cut->at, cut->of.y0} : (DryPoint){cut->of.x0, cut->at};
    to = cut->vertical ? (DryPoint){cut->at, cut->of.y1} : (DryPoint){cut->of.x1, cut->at};
    dry_scene_builder_line (self->b, line, from, to);
    on_cut = find_number_place (self, from, to, &at);
    if (!on_cut && find_spot (self, at, &spot)) {
      draw_leader (self, at, spot);
      at = spot;
    }
    take (self, at, 0);
    dry_scene_builder_text (self->b, at,
                            (DryLettering){.size = 2, .bold = TRUE, .framed = TRUE, .ground = TRUE},
                            "%u", i + 1);
    if (on_cut)
      say_distance (self, cut, at, to);
  }
}

/* Only the cuts that go through the whole sheet: a chain of others would be measured from edges
 * that are long gone when they are made. */
static void
draw_dimensions (const Sheet *self)
{
  g_autoptr (GArray) x = g_array_new (FALSE, FALSE, sizeof (DryLength));
  g_autoptr (GArray) y = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryLength w[2] = {0, self->whole.x1}, h[2] = {0, self->whole.y1};

  for (guint i = 0; i < self->layout->n_cuts; i++) {
    const DryCut *cut = &self->layout->cuts[i];
    if (cut->vertical && cut->of.y0 == 0 && cut->of.y1 == self->whole.y1)
      g_array_append_val (x, cut->at);
    else if (!cut->vertical && cut->of.x0 == 0 && cut->of.x1 == self->whole.x1)
      g_array_append_val (y, cut->at);
  }
  dry_scene_builder_tag (self->b, DRY_LAYER_DIMENSIONS, DRY_SHOWS_NOTHING, 0, -1);
  /* One row a side: the sheet's own size is its name. */
  g_array_append_vals (x, w, 2);
  dry_scene_builder_chain (self->b, (DryLength *) x->data, x->len, 0, DRY_TOWARD_DOWN, 0);
  g_array_append_vals (y, h, 2);
  dry_scene_builder_chain (self->b, (DryLength *) y->data, y->len, 0, DRY_TOWARD_LEFT, 0);
}

static void
draw_sheet (const Sheet *self)
{
  /* Waste is what nothing else covers. */
  tag (self, DRY_LAYER_ROOM);
  dry_scene_builder_rect (
      self->b, (DryLook){.fill = DRY_INK_FAINT, .alpha = 0.06, .hatch = DRY_HATCH_DIAGONAL},
      self->whole);
  draw_pieces (self);
  draw_offcuts (self);
  name_pieces (self);
  tag (self, DRY_LAYER_ROOM);
  dry_scene_builder_rect (self->b, DRY_LOOK_LINE (DRY_INK_LINE, DRY_PEN_050), self->whole);
  name_small_pieces (self);
  draw_cuts (self);
  draw_dimensions (self);
}

DryScene *
dry_drawing_cut_sheet (const DryPlan *plan, guint sheet)
{
  const DryCutting *cutting = plan->boards->cutting;
  DrySceneBuilder b;

  dry_scene_builder_init (&b, plan->context.job);
  if (cutting && sheet < cutting->n_sheets) {
    const DryStock *stock = &cutting->stock[cutting->sheets[sheet].stock];
    g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (Taken));
    g_autofree char *name = g_strdup_printf ("Sheet %u", sheet + 1);
    Sheet self = {
        .b = &b,
        .cutting = cutting,
        .layout = &cutting->sheets[sheet],
        .index = sheet,
        .whole = {0, 0, stock->width, stock->height},
        .ring = MAX (stock->width, stock->height) / RINGS_ALONG,
        .taken = taken,
    };

    dry_scene_builder_begin_view (&b, DRY_VIEW_SHEET, (gint) sheet, (DryPoint){0, 0}, name);
    draw_sheet (&self);
  }
  return dry_scene_builder_finish (&b);
}
