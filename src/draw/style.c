/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The palettes: one quiet colour an ink for paper, light, dark and high contrast.
 * Every ink has at least 3:1 and every letter 4.5:1 against its paper; areas are tints of an ink.
 */
#include "draw/style.h"

#define C(hex)                                                                                     \
  {                                                                                                \
    (((hex) >> 16) & 255) / 255.0, (((hex) >> 8) & 255) / 255.0, ((hex) &255) / 255.0              \
  }
#define FONT "Cantarell, DejaVu Sans"
/* ISO 128 line widths, mm. */
#define PENS                                                                                       \
  {                                                                                                \
    0, 0.13, 0.18, 0.25, 0.35, 0.5, 0.7                                                            \
  }

/* A picture of a room is a picture: the same in every style, only dimmed on a dark screen so that
 * it does not glare, and with deeper joints where more contrast is asked for. */
#define MATERIALS                                                                                  \
  [DRY_INK_GLAZE] = C (0xf1eee8), [DRY_INK_GLAZE_ALT] = C (0xe3ddd2),                              \
  [DRY_INK_GROUT] = C (0xbdb5a8), [DRY_INK_ENAMEL] = C (0xfdfdfb), [DRY_INK_PAINT] = C (0xe9e4da), \
  [DRY_INK_FLOOR] = C (0xc9b79c), [DRY_INK_METAL] = C (0x4a5159), [DRY_INK_SHADE] = C (0x1d2127)
#define MATERIALS_DIM                                                                              \
  [DRY_INK_GLAZE] = C (0xcfcbc3), [DRY_INK_GLAZE_ALT] = C (0xbfb9ae),                              \
  [DRY_INK_GROUT] = C (0x938c81), [DRY_INK_ENAMEL] = C (0xdcdcd8), [DRY_INK_PAINT] = C (0xb9b4aa), \
  [DRY_INK_FLOOR] = C (0x8f7f68), [DRY_INK_METAL] = C (0x33393f), [DRY_INK_SHADE] = C (0x101317)
#define MATERIALS_STARK                                                                            \
  [DRY_INK_GLAZE] = C (0xffffff), [DRY_INK_GLAZE_ALT] = C (0xf0ece4),                              \
  [DRY_INK_GROUT] = C (0x5c564c), [DRY_INK_ENAMEL] = C (0xffffff), [DRY_INK_PAINT] = C (0xe9e4da), \
  [DRY_INK_FLOOR] = C (0xb09a78), [DRY_INK_METAL] = C (0x000000), [DRY_INK_SHADE] = C (0x000000)

static const DryStyle styles[] = {
    [DRY_STYLE_PAPER] = {.inks = {[DRY_INK_LINE] = C (0x1b1e22),
                                  [DRY_INK_FAINT] = C (0x6e747b),
                                  [DRY_INK_PAPER] = C (0xffffff),
                                  [DRY_INK_WALL] = C (0x3d434a),
                                  [DRY_INK_WOOD] = C (0x8d6236),
                                  [DRY_INK_STEEL] = C (0x546a80),
                                  [DRY_INK_BOARD] = C (0x2f7a7a),
                                  [DRY_INK_BOARD_ALT] = C (0x61708f),
                                  [DRY_INK_BASIN] = C (0x3f6f98),
                                  [DRY_INK_GLASS] = C (0x2b8396),
                                  [DRY_INK_FITTING] = C (0x2c343d),
                                  [DRY_INK_BAND] = C (0xa8571f),
                                  [DRY_INK_SEALANT] = C (0x96406f),
                                  [DRY_INK_FASTENER] = C (0x303942),
                                  [DRY_INK_WET] = C (0x2d70b0),
                                  [DRY_INK_TILE] = C (0x7b7e77),
                                  [DRY_INK_DRYWALL] = C (0x83785f),
                                  [DRY_INK_PIPE] = C (0x7d4595),
                                  [DRY_INK_DIMENSION] = C (0x3f444b),
                                  [DRY_INK_TEXT] = C (0x16181b),
                                  [DRY_INK_TEXT_FAINT] = C (0x565c64),
                                  [DRY_INK_STOP] = C (0xb3222a),
                                  [DRY_INK_FIX] = C (0x9a5500),
                                  [DRY_INK_ADVICE] = C (0x1d66a6),
                                  MATERIALS},
                         .pens = PENS,
                         .font = FONT},
    [DRY_STYLE_LIGHT] = {.inks = {[DRY_INK_LINE] = C (0x22262b),
                                  [DRY_INK_FAINT] = C (0x767c83),
                                  [DRY_INK_PAPER] = C (0xfbfaf7),
                                  [DRY_INK_WALL] = C (0x474d55),
                                  [DRY_INK_WOOD] = C (0x936638),
                                  [DRY_INK_STEEL] = C (0x586e84),
                                  [DRY_INK_BOARD] = C (0x347f80),
                                  [DRY_INK_BOARD_ALT] = C (0x63739a),
                                  [DRY_INK_BASIN] = C (0x42749f),
                                  [DRY_INK_GLASS] = C (0x2b869a),
                                  [DRY_INK_FITTING] = C (0x333c46),
                                  [DRY_INK_BAND] = C (0xad5b22),
                                  [DRY_INK_SEALANT] = C (0x9b4473),
                                  [DRY_INK_FASTENER] = C (0x36404a),
                                  [DRY_INK_WET] = C (0x3074b6),
                                  [DRY_INK_TILE] = C (0x7d8079),
                                  [DRY_INK_DRYWALL] = C (0x857a62),
                                  [DRY_INK_PIPE] = C (0x824b9a),
                                  [DRY_INK_DIMENSION] = C (0x4a5058),
                                  [DRY_INK_TEXT] = C (0x1c2024),
                                  [DRY_INK_TEXT_FAINT] = C (0x596068),
                                  [DRY_INK_STOP] = C (0xb8262d),
                                  [DRY_INK_FIX] = C (0x9e5800),
                                  [DRY_INK_ADVICE] = C (0x1f69aa),
                                  MATERIALS},
                         .pens = PENS,
                         .font = FONT},
    [DRY_STYLE_DARK] = {.inks = {[DRY_INK_LINE] = C (0xe4e7ea),
                                 [DRY_INK_FAINT] = C (0x8b939c),
                                 [DRY_INK_PAPER] = C (0x1f2328),
                                 [DRY_INK_WALL] = C (0xb2b9c1),
                                 [DRY_INK_WOOD] = C (0xc89a66),
                                 [DRY_INK_STEEL] = C (0x9bb0c4),
                                 [DRY_INK_BOARD] = C (0x74b5b6),
                                 [DRY_INK_BOARD_ALT] = C (0x98a7d0),
                                 [DRY_INK_BASIN] = C (0x8db4d8),
                                 [DRY_INK_GLASS] = C (0x7cc5d4),
                                 [DRY_INK_FITTING] = C (0xd6dbe0),
                                 [DRY_INK_BAND] = C (0xe09a63),
                                 [DRY_INK_SEALANT] = C (0xd78fba),
                                 [DRY_INK_FASTENER] = C (0xc8ced5),
                                 [DRY_INK_WET] = C (0x6ea9de),
                                 [DRY_INK_TILE] = C (0x979b93),
                                 [DRY_INK_DRYWALL] = C (0xb8ac93),
                                 [DRY_INK_PIPE] = C (0xc398d8),
                                 [DRY_INK_DIMENSION] = C (0xaeb6be),
                                 [DRY_INK_TEXT] = C (0xf1f2f3),
                                 [DRY_INK_TEXT_FAINT] = C (0xabb2ba),
                                 [DRY_INK_STOP] = C (0xff8383),
                                 [DRY_INK_FIX] = C (0xefad55),
                                 [DRY_INK_ADVICE] = C (0x82bbf2),
                                 MATERIALS_DIM},
                        .pens = PENS,
                        .font = FONT},
    [DRY_STYLE_CONTRAST] = {.inks = {[DRY_INK_LINE] = C (0x000000),
                                     [DRY_INK_FAINT] = C (0x3c3c3c),
                                     [DRY_INK_PAPER] = C (0xffffff),
                                     [DRY_INK_WALL] = C (0x000000),
                                     [DRY_INK_WOOD] = C (0x5c3a12),
                                     [DRY_INK_STEEL] = C (0x22384e),
                                     [DRY_INK_BOARD] = C (0x00504f),
                                     [DRY_INK_BOARD_ALT] = C (0x2c3a66),
                                     [DRY_INK_BASIN] = C (0x0c3f6b),
                                     [DRY_INK_GLASS] = C (0x00566a),
                                     [DRY_INK_FITTING] = C (0x000000),
                                     [DRY_INK_BAND] = C (0x7a3400),
                                     [DRY_INK_SEALANT] = C (0x6e0f47),
                                     [DRY_INK_FASTENER] = C (0x000000),
                                     [DRY_INK_WET] = C (0x003f86),
                                     [DRY_INK_TILE] = C (0x454545),
                                     [DRY_INK_DRYWALL] = C (0x4c422b),
                                     [DRY_INK_PIPE] = C (0x500a6b),
                                     [DRY_INK_DIMENSION] = C (0x000000),
                                     [DRY_INK_TEXT] = C (0x000000),
                                     [DRY_INK_TEXT_FAINT] = C (0x2c2c2c),
                                     [DRY_INK_STOP] = C (0x8e0010),
                                     [DRY_INK_FIX] = C (0x6b3a00),
                                     [DRY_INK_ADVICE] = C (0x003f86),
                                     MATERIALS_STARK},
                            .pens = {0, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0},
                            .font = FONT},
    [DRY_STYLE_CONTRAST_DARK] = {.inks = {[DRY_INK_LINE] = C (0xffffff),
                                          [DRY_INK_FAINT] = C (0xc4c4c4),
                                          [DRY_INK_PAPER] = C (0x000000),
                                          [DRY_INK_WALL] = C (0xffffff),
                                          [DRY_INK_WOOD] = C (0xf0c48e),
                                          [DRY_INK_STEEL] = C (0xc5dcf2),
                                          [DRY_INK_BOARD] = C (0x98e6e4),
                                          [DRY_INK_BOARD_ALT] = C (0xc2cffc),
                                          [DRY_INK_BASIN] = C (0xb4d8fa),
                                          [DRY_INK_GLASS] = C (0xa2ecfa),
                                          [DRY_INK_FITTING] = C (0xffffff),
                                          [DRY_INK_BAND] = C (0xffbd85),
                                          [DRY_INK_SEALANT] = C (0xffb8e0),
                                          [DRY_INK_FASTENER] = C (0xffffff),
                                          [DRY_INK_WET] = C (0x9fd0ff),
                                          [DRY_INK_TILE] = C (0xc2c2c2),
                                          [DRY_INK_DRYWALL] = C (0xe3d7bb),
                                          [DRY_INK_PIPE] = C (0xe6bdfa),
                                          [DRY_INK_DIMENSION] = C (0xffffff),
                                          [DRY_INK_TEXT] = C (0xffffff),
                                          [DRY_INK_TEXT_FAINT] = C (0xdcdcdc),
                                          [DRY_INK_STOP] = C (0xff9a9a),
                                          [DRY_INK_FIX] = C (0xffc670),
                                          [DRY_INK_ADVICE] = C (0x9fd0ff),
                                          MATERIALS_STARK},
                                 .pens = {0, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0},
                                 .font = FONT},
};

const DryStyle *
dry_style_get (DryStyleName name)
{
  return &styles[(guint) name < G_N_ELEMENTS (styles) ? name : DRY_STYLE_PAPER];
}
