/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scene: a plain list of primitives with the ids of what they show, in world nanometres.
 * Painters turn it into screen, PDF, SVG, PNG, a hit-test and a text dump; the scene knows no zoom
 * and no Cairo. */
#pragma once

#include "plan/plan.h"

typedef enum {
  DRY_LAYER_ROOM, /* walls, floor, openings in plan; wall outline on faces */
  DRY_LAYER_STUDS,
  DRY_LAYER_BASIN,
  DRY_LAYER_BOARDS,
  DRY_LAYER_TILE,
  DRY_LAYER_COATING, /* wet zone tint */
  DRY_LAYER_JOINTS,
  DRY_LAYER_FASTENERS,
  DRY_LAYER_HIDDEN, /* pipes, vents and cables the user marked */
  DRY_LAYER_PARTS,
  DRY_LAYER_FINDINGS,
  DRY_LAYER_DIMENSIONS,
  DRY_LAYER_LABELS,
  DRY_LAYER_WATER,   /* the water's way; hidden unless asked for */
  DRY_LAYER_CUTS,    /* numbers of tile cuts; likewise */
  DRY_LAYER_TURNING, /* room for a wheelchair to turn, swings of doors; likewise */
  DRY_N_LAYERS,
} DryLayer;

/* What the colour stands for; a DryStyle (style.h) says which colour that is: light, dark,
 * contrast, paper. */
typedef enum {
  DRY_INK_NONE,
  DRY_INK_LINE,  /* the drawing's own black (or white on dark) */
  DRY_INK_FAINT, /* secondary lines */
  DRY_INK_PAPER,
  DRY_INK_WALL, /* cut wall in plan */
  DRY_INK_WOOD,
  DRY_INK_STEEL,
  DRY_INK_BOARD,
  DRY_INK_BOARD_ALT, /* neighbouring boards alternate */
  DRY_INK_BASIN,
  DRY_INK_GLASS,
  DRY_INK_FITTING,
  DRY_INK_BAND,
  DRY_INK_SEALANT,
  DRY_INK_FASTENER,
  DRY_INK_WET,
  DRY_INK_TILE,
  DRY_INK_DRYWALL,
  DRY_INK_PIPE,
  DRY_INK_DIMENSION,
  DRY_INK_TEXT,
  DRY_INK_TEXT_FAINT,
  DRY_INK_STOP,
  DRY_INK_FIX,
  DRY_INK_ADVICE,
  /* Materials of the client's picture: only ever filled, told apart by shape and shade. */
  DRY_INK_GLAZE, /* face of a tile */
  DRY_INK_GLAZE_ALT,
  DRY_INK_GROUT,
  DRY_INK_ENAMEL, /* tubs and pans */
  DRY_INK_PAINT,  /* dry walls and ceiling */
  DRY_INK_FLOOR,
  DRY_INK_METAL, /* fittings */
  DRY_INK_SHADE, /* what lies in shadow: dark in every style */
  DRY_N_INKS,
} DryInk;

#define DRY_INK_FIRST_MATERIAL DRY_INK_GLAZE

/* Line widths of ISO 128: 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 mm on paper. */
typedef enum {
  DRY_PEN_NONE,
  DRY_PEN_013,
  DRY_PEN_018,
  DRY_PEN_025,
  DRY_PEN_035,
  DRY_PEN_050,
  DRY_PEN_070
} DryPen;
typedef enum { DRY_DASH_SOLID, DRY_DASH_DASHED, DRY_DASH_CHAIN, DRY_DASH_DOTTED } DryDash;
typedef enum {
  DRY_HATCH_NONE,
  DRY_HATCH_DIAGONAL,
  DRY_HATCH_CROSS,
  DRY_HATCH_DOTS,
  DRY_HATCH_WOOD,
  DRY_HATCH_WARNING,
} DryHatch;

typedef enum {
  DRY_PRIMITIVE_PATH,      /* points, closed or open; several rings: ring_ends; even-odd */
  DRY_PRIMITIVE_CIRCLE,    /* points[0], radius */
  DRY_PRIMITIVE_MARK,      /* a symbol of paper size at points[0]: screw, washer, arrow, finding */
  DRY_PRIMITIVE_TEXT,      /* at points[0], paper-size letters */
  DRY_PRIMITIVE_DIMENSION, /* points[0] to points[1], set off by rows of paper millimetres to `side`
                            */
} DryPrimitiveKind;

typedef enum {
  DRY_MARK_SCREW,
  DRY_MARK_WASHER,
  DRY_MARK_STOP,
  DRY_MARK_FIX,
  DRY_MARK_ADVICE,
  DRY_MARK_NORTH,
  DRY_MARK_DRAIN,
  DRY_MARK_CROSS
} DryMark;
typedef enum {
  DRY_ANCHOR_CENTRE,
  DRY_ANCHOR_LEFT,
  DRY_ANCHOR_RIGHT,
  DRY_ANCHOR_ABOVE,
  DRY_ANCHOR_BELOW,
  DRY_ANCHOR_ABOVE_LEFT /* above the point, beginning at it */
} DryAnchor;
typedef enum { DRY_TOWARD_LEFT, DRY_TOWARD_RIGHT, DRY_TOWARD_UP, DRY_TOWARD_DOWN } DryToward;

/* What a primitive shows, so that a click finds it and a test can name it. */
typedef enum {
  DRY_SHOWS_NOTHING,
  DRY_SHOWS_ROOM,
  DRY_SHOWS_WALL,
  DRY_SHOWS_BASIN,
  DRY_SHOWS_PART,
  DRY_SHOWS_OPENING, /* object */
  DRY_SHOWS_MEMBER,
  DRY_SHOWS_BOARD,
  DRY_SHOWS_JOINT,
  DRY_SHOWS_FASTENER,
  DRY_SHOWS_FINDING,
  DRY_SHOWS_SHEET, /* index */
} DryShows;

typedef struct {
  DryPrimitiveKind kind;
  DryLayer layer;
  DryShows shows;
  DryId object;
  gint index;
  gint view; /* index in DryScene.views it belongs to, or -1 */
  DryInk stroke, fill;
  DryPen pen;
  DryDash dash;
  DryHatch hatch;
  double fill_alpha;      /* 1 = solid */
  const DryPoint *points; /* scene coordinates, y up */
  guint n_points;
  const guint *ring_ends; /* NULL: one ring */
  guint n_rings;
  gboolean closed;
  DryLength radius;
  DryMark mark;
  const char *text;
  double size; /* letters' height on paper, mm */
  gboolean bold;
  double angle; /* degrees counter-clockwise */
  DryAnchor anchor;
  DryLength room; /* text: hidden when wider than this on the drawing; 0 = always shown */
  DryToward side; /* dimension */
  guint row;      /* dimension: 0 nearest */
} DryPrimitive;

typedef enum { DRY_VIEW_PLAN, DRY_VIEW_FACE, DRY_VIEW_SHEET } DryViewKind;

/* A part of the scene with its own coordinates: scene = origin + local, same scale. */
typedef struct {
  DryViewKind kind;
  gint face;        /* face index, or sheet index */
  DryPoint origin;  /* of the local coordinates */
  DryRect bounds;   /* in scene coordinates */
  const char *name; /* accessible name: "Back wall, elevation" */
} DryView;

typedef struct _DryScene {
  DryArena *arena;     /* held */
  DryPrimitive *items; /* painted in order */
  guint n;
  DryView *views;
  guint n_views;
  DryRect bounds;
} DryScene;

DryScene *dry_scene_ref (const DryScene *self);
void dry_scene_unref (DryScene *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryScene, dry_scene_unref)

/* One line a primitive, coordinates in mm: for golden tests. */
char *dry_scene_to_text (const DryScene *self) G_GNUC_WARN_UNUSED_RESULT;

typedef struct {
  DryShows shows;
  DryId object;
  gint index;
  gint view;
  DryPoint local; /* in the view's coordinates */
} DryHit;

/* The topmost thing shown within `tolerance` of the scene point `at`, among `layers` (bit 1 <<
 * DryLayer); object kinds (basin, part, opening, wall) win over boards and members. FALSE when
 * nothing is there; `hit` then still says which view `at` lies in (-1 for none) and the local
 * coordinates. */
gboolean dry_scene_pick (const DryScene *self, DryPoint at, DryLength tolerance, guint layers,
                         DryHit *hit);
/* The view `at` lies in, or nearest within `reach`; -1 for none. */
gint dry_scene_find_view (const DryScene *self, DryPoint at, DryLength reach);
