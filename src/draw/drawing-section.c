/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A level section through a wet wall at a seam over a stud: every layer to scale with its name.
 * Knows a system and its build-up, no room; both units are written since no job says which. */
#include "draw/drawing-private.h"

#define HALF_WIDTH (5 * DRY_INCH)

typedef struct {
  DryLength x;  /* where its leader points, along the wall; 0: near the right end */
  DryLength at; /* depth of the layer's middle, studs' faces at 0, room downwards negative */
  char *name;
} Layer;

static char *
write_both (DryLength length)
{
  g_autofree char *inch = dry_length_format (
      length, &(DryLengthFormat){.style = DRY_LENGTH_INCHES, .denominator = 32, .decimal = '.'});
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  /* Membranes and beds are no fractions of an inch a person knows. */
  g_ascii_formatd (number, sizeof number, "%.3g", dry_length_to_mm (length));
  if (length < DRY_INCH / 8)
    return g_strdup_printf ("%s mm", number);
  return g_strdup_printf ("%s (%s mm)", inch, number);
}

static void
draw_layer (DrySceneBuilder *b, DryLook look, DryLength x0, DryLength x1, DryLength *depth,
            DryLength thickness)
{
  dry_scene_builder_rect (b, look, (DryRect){x0, *depth - thickness, x1, *depth});
}

static void
name_layer (GArray *layers, DryLength from, DryLength thickness, const char *what)
{
  g_autofree char *size = write_both (thickness);
  Layer layer = {0, from - thickness / 2, g_strdup_printf ("%s, %s", what, size)};

  g_array_append_val (layers, layer);
}

static void
draw_stud (DrySceneBuilder *b, GArray *layers)
{
  DryLook wood = {.stroke = DRY_INK_WOOD,
                  .pen = DRY_PEN_050,
                  .fill = DRY_INK_WOOD,
                  .alpha = 0.12,
                  .hatch = DRY_HATCH_WOOD};
  DryLength half = 3 * DRY_INCH / 4, depth = 7 * DRY_INCH / 2;
  Layer layer = {DRY_INCH / 2, depth * 2 / 5, g_strdup ("Stud")};

  dry_scene_builder_rect (b, wood, (DryRect){-half, 0, half, depth});
  g_array_append_val (layers, layer);
}

/* What tells boards of one hatch apart: facers of gypsum board, layers of fibre board. */
static void
draw_grain (DrySceneBuilder *b, const DrySystem *system, DryRect r)
{
  DryLook line = DRY_LOOK_LINE (DRY_INK_BOARD, DRY_PEN_018);
  static const int facers[] = {12, 88}, layers[] = {25, 50, 75};
  gboolean knife = g_strcmp0 (system->cutting, "knife") == 0;
  const int *at = knife ? facers : layers;

  if (dry_drawing_board_hatch (system) != DRY_HATCH_DOTS ||
      (!knife && g_strcmp0 (system->cutting, "shears") != 0))
    return;
  for (guint i = 0; i < (knife ? 2u : 3u); i++) {
    DryLength y = r.y0 + dry_rect_height (r) * at[i] / 100;
    dry_scene_builder_line (b, line, (DryPoint){r.x0, y}, (DryPoint){r.x1, y});
  }
}

/* No boards: mortar floated over lath on the studs, without a seam. */
static void
draw_bed (DrySceneBuilder *b, const DryBuildUp *up, GArray *layers, DryLength *depth)
{
  DryLook bed = {.stroke = DRY_INK_BOARD,
                 .pen = DRY_PEN_035,
                 .fill = DRY_INK_BOARD,
                 .alpha = 0.10,
                 .hatch = DRY_HATCH_DOTS};
  DryLook lath = {.stroke = DRY_INK_STEEL, .pen = DRY_PEN_050, .dash = DRY_DASH_DASHED};
  DryLength y = *depth - MIN (up->board / 4, DRY_INCH / 8);
  Layer layer = {HALF_WIDTH - DRY_INCH / 2, y, g_strdup ("Lath")};

  draw_layer (b, bed, -HALF_WIDTH, HALF_WIDTH, depth, up->board);
  dry_scene_builder_line (b, lath, (DryPoint){-HALF_WIDTH, y}, (DryPoint){HALF_WIDTH, y});
  g_array_append_val (layers, layer);
  name_layer (layers, *depth, up->board, "Mortar bed");
  *depth -= up->board;
}

static void
draw_boards (DrySceneBuilder *b, const DrySystem *system, const DryBuildUp *up, GArray *layers,
             DryLength *depth)
{
  DryLook board = {.stroke = DRY_INK_BOARD,
                   .pen = DRY_PEN_035,
                   .fill = DRY_INK_BOARD,
                   .alpha = 0.10,
                   .hatch = dry_drawing_board_hatch (system)};
  DryLook screw = DRY_LOOK_LINE (DRY_INK_FASTENER, DRY_PEN_050);
  DryLength gap = MAX (system->joint_gap, DRY_MM / 2) / 2, t = up->board;
  DryLength in =
      system->edge_distance_min.value > 0 ? system->edge_distance_min.value : DRY_INCH / 2;
  DryLength reach = MAX (system->penetration.value, DRY_INCH);

  if (t <= 0)
    return;
  if (system->n_sheets == 0) {
    draw_bed (b, up, layers, depth);
    return;
  }
  draw_layer (b, board, -HALF_WIDTH, -gap, depth, t);
  draw_layer (b, board, gap, HALF_WIDTH, depth, t);
  draw_grain (b, system, (DryRect){-HALF_WIDTH, *depth - t, -gap, *depth});
  draw_grain (b, system, (DryRect){gap, *depth - t, HALF_WIDTH, *depth});
  /* Seen to scale: whether a fastener at the least distance still finds the stud. */
  for (int side = -1; side <= 1; side += 2) {
    DryLength x = side * (gap + MIN (in, 3 * DRY_INCH / 4 - 3 * DRY_MM)), head = 4 * DRY_MM;
    dry_scene_builder_line (b, screw, (DryPoint){x, *depth - t}, (DryPoint){x, reach});
    dry_scene_builder_line (b, screw, (DryPoint){x - head, *depth - t},
                            (DryPoint){x + head, *depth - t});
  }
  name_layer (layers, *depth, t, "Board");
  *depth -= t;
}

static void
draw_band (DrySceneBuilder *b, const DrySystem *system, GArray *layers, DryLength depth)
{
  const DryTreatment *seam = &system->treatments[DRY_JOINT_SEAM];
  DryLook look = {.stroke = DRY_INK_BAND, .pen = DRY_PEN_070};
  Layer layer = {0, depth, NULL};
  DryLength half = MIN (seam->width / 2, HALF_WIDTH - DRY_INCH / 2);

  if (seam->kind == DRY_TREAT_BAND || seam->kind == DRY_TREAT_MESH)
    dry_scene_builder_line (b, look, (DryPoint){-half, depth}, (DryPoint){half, depth});
  else if (seam->kind == DRY_TREAT_BEAD)
    dry_scene_builder_circle (
        b,
        (DryLook){
            .stroke = DRY_INK_SEALANT, .pen = DRY_PEN_025, .fill = DRY_INK_SEALANT, .alpha = 0.5},
        (DryPoint){0, depth}, MAX (seam->width / 2, 2 * DRY_MM));
  else
    return;
  layer.x = seam->kind == DRY_TREAT_BEAD ? seam->width / 2 : half - DRY_INCH / 4;
  layer.name = g_strdup_printf ("Seam: %s", seam->name && *seam->name ? seam->name : "treated");
  g_array_append_val (layers, layer);
}

static void
draw_covers (DrySceneBuilder *b, const DrySystem *system, const DryBuildUp *up, GArray *layers,
             DryLength *depth)
{
  DryLook film = {.stroke = DRY_INK_WET,
                  .pen = system->membrane == DRY_MEMBRANE_SHEET ? DRY_PEN_070 : DRY_PEN_035,
                  .fill = DRY_INK_WET,
                  .alpha = 0.6};
  DryLook bed = {.stroke = DRY_INK_FAINT,
                 .pen = DRY_PEN_018,
                 .fill = DRY_INK_FAINT,
                 .alpha = 0.08,
                 .hatch = DRY_HATCH_DOTS};

  if (up->membrane > 0) {
    draw_layer (b, film, -HALF_WIDTH, HALF_WIDTH, depth, up->membrane);
    name_layer (layers, *depth, up->membrane, "Membrane");
    *depth -= up->membrane;
  } else if (system->membrane == DRY_MEMBRANE_SHEET) {
    Layer layer = {HALF_WIDTH - DRY_INCH / 2, *depth, g_strdup ("Sheet membrane")};
    dry_scene_builder_line (b, DRY_LOOK_LINE (DRY_INK_WET, DRY_PEN_070),
                            (DryPoint){-HALF_WIDTH, *depth}, (DryPoint){HALF_WIDTH, *depth});
    g_array_append_val (layers, layer);
  }
  if (up->mortar > 0) {
    draw_layer (b, bed, -HALF_WIDTH, HALF_WIDTH, depth, up->mortar);
    name_layer (layers, *depth, up->mortar, "Mortar");
    *depth -= up->mortar;
  }
}

static void
draw_tiles (DrySceneBuilder *b, const DryBuildUp *up, GArray *layers, DryLength *depth)
{
  DryLook tile = {.stroke = DRY_INK_TILE,
                  .pen = DRY_PEN_035,
                  .fill = DRY_INK_TILE,
                  .alpha = 0.12,
                  .hatch = DRY_HATCH_DIAGONAL};
  DryLength joint = 3 * DRY_MM, middle = 5 * DRY_INCH / 2;

  if (up->tile <= 0)
    return;
  draw_layer (b, tile, -HALF_WIDTH, middle - joint, depth, up->tile);
  draw_layer (b, tile, middle, HALF_WIDTH, depth, up->tile);
  name_layer (layers, *depth, up->tile, "Tile");
  *depth -= up->tile;
}

/* Names stand one below the other with a leader each, the outermost layer lowest. */
static void
draw_leaders (DrySceneBuilder *b, GArray *layers, DryLength bottom)
{
  DryLook leader = DRY_LOOK_LINE (DRY_INK_DIMENSION, DRY_PEN_013);
  DryLength step = DRY_INCH, elbow = HALF_WIDTH + DRY_INCH / 2;
  DryLength z = bottom + step * (DryLength) layers->len - step / 2;

  dry_scene_builder_tag (b, DRY_LAYER_LABELS, DRY_SHOWS_NOTHING, 0, -1);
  for (guint i = 0; i < layers->len; i++, z -= step) {
    Layer *layer = &g_array_index (layers, Layer, i);
    DryLength x = layer->x ? layer->x : HALF_WIDTH - DRY_INCH;
    dry_scene_builder_path (
        b, leader, (DryPoint[]){{x, layer->at}, {elbow, z}, {elbow + DRY_INCH / 2, z}}, 3, FALSE);
    dry_scene_builder_circle (b, (DryLook){.fill = DRY_INK_DIMENSION}, (DryPoint){x, layer->at},
                              DRY_MM);
    dry_scene_builder_text (b, (DryPoint){elbow + DRY_INCH / 2, z},
                            (DryLettering){.size = 2, .anchor = DRY_ANCHOR_LEFT}, "%s",
                            layer->name);
    g_free (layer->name);
  }
}

DryScene *
dry_drawing_section (const DrySystem *system, const DryBuildUp *build_up)
{
  g_autoptr (GArray) layers = g_array_new (FALSE, TRUE, sizeof (Layer));
  DrySceneBuilder b;
  DryLength depth = 0;

  dry_scene_builder_init (&b, NULL);
  b.format.denominator = 32;
  dry_scene_builder_begin_view (&b, DRY_VIEW_SHEET, -1, (DryPoint){0, 0},
                                "Section through the wall");
  dry_scene_builder_tag (&b, DRY_LAYER_BOARDS, DRY_SHOWS_NOTHING, 0, -1);
  draw_stud (&b, layers);
  draw_boards (&b, system, build_up, layers, &depth);
  draw_band (&b, system, layers, depth);
  draw_covers (&b, system, build_up, layers, &depth);
  draw_tiles (&b, build_up, layers, &depth);
  draw_leaders (&b, layers, depth - DRY_INCH);
  return dry_scene_builder_finish (&b);
}
