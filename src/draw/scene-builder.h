/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Grows a scene: small helpers that every drawing uses to add lines, shapes, letters, dimensions.
 * Knows lengths and looks, nothing of walls or boards. */
#pragma once

#include "draw/scene.h"

/* How a shape looks. Zeroed members draw nothing. */
typedef struct {
  DryInk stroke;
  DryPen pen;
  DryInk fill;
  double alpha; /* of the fill; 0 with a fill set means solid */
  DryDash dash;
  DryHatch hatch;
} DryLook;

#define DRY_LOOK_LINE(ink, width) ((DryLook){.stroke = (ink), .pen = (width)})

typedef struct {
  DryArena *arena;
  GArray *items; /* DryPrimitive */
  GArray *views; /* DryView */
  GArray *rows;  /* taken stretches of dimension rows in the open view */
  DryPoint origin;
  gint view;
  /* What the next primitives belong to; set by dry_scene_builder_tag(). */
  DryLayer layer;
  DryShows shows;
  DryId object;
  gint index;
  DryLengthFormat format;
  gboolean metric;
  DryRect extent; /* of what was drawn in the open view, scene coordinates */
  gboolean has_extent;
} DrySceneBuilder;

/* `job` says how lengths are written; NULL: inches. */
void dry_scene_builder_init (DrySceneBuilder *self, const DryJob *job);
/* Hands over the scene and empties the builder. */
DryScene *dry_scene_builder_finish (DrySceneBuilder *self) G_GNUC_WARN_UNUSED_RESULT;

/* Between these two, coordinates are the view's own. The view's bounds are what was drawn in it. */
void dry_scene_builder_begin_view (DrySceneBuilder *self, DryViewKind kind, gint face,
                                   DryPoint origin, const char *name);
void dry_scene_builder_end_view (DrySceneBuilder *self);
/* Moves a finished view and everything in it; for setting views side by side. */
void dry_scene_builder_move_view (DrySceneBuilder *self, guint view, DryLength dx, DryLength dy);

void dry_scene_builder_tag (DrySceneBuilder *self, DryLayer layer, DryShows shows, DryId object,
                            gint index);

void dry_scene_builder_line (DrySceneBuilder *self, DryLook look, DryPoint a, DryPoint b);
void dry_scene_builder_path (DrySceneBuilder *self, DryLook look, const DryPoint *points, guint n,
                             gboolean closed);
/* Several open or closed rings as one primitive; `ring_ends` are ends (exclusive) in `points`. */
void dry_scene_builder_rings (DrySceneBuilder *self, DryLook look, const DryPoint *points, guint n,
                              const guint *ring_ends, guint n_rings, gboolean closed);
void dry_scene_builder_rect (DrySceneBuilder *self, DryLook look, DryRect rect);
void dry_scene_builder_polygon (DrySceneBuilder *self, DryLook look, const DryPolygon *polygon);
void dry_scene_builder_circle (DrySceneBuilder *self, DryLook look, DryPoint centre,
                               DryLength radius);
void dry_scene_builder_mark (DrySceneBuilder *self, DryMark mark, DryInk ink, DryPoint at);

/* Letters. With `ground` the space behind is painted paper; with `framed` a ring or frame is drawn
 * round them. */
typedef struct {
  double size; /* 0 = 2.5 mm */
  DryInk ink;  /* 0 = DRY_INK_TEXT */
  DryAnchor anchor;
  DryLength room;
  double angle;
  gboolean bold, ground, framed;
} DryLettering;
void dry_scene_builder_text (DrySceneBuilder *self, DryPoint at, DryLettering how,
                             const char *format, ...) G_GNUC_PRINTF (4, 5);

/* A dimension from `a` to `b` on `side`, in the first row from `row` on that is free there. */
void dry_scene_builder_dimension (DrySceneBuilder *self, DryPoint a, DryPoint b, DryToward side,
                                  guint row);
/* Dimensions between successive stops (sorted here, doubles dropped), all in one row. `base` is
 * where the extension lines start: y for up and down, x for left and right. Returns the row. */
guint dry_scene_builder_chain (DrySceneBuilder *self, DryLength *stops, guint n, DryLength base,
                               DryToward side, guint row);
/* The length as this job writes it, in the scene's arena. */
const char *dry_scene_builder_length (DrySceneBuilder *self, DryLength length);
/* "12 x 20" as the job writes it, with the inch mark on both or none in millimetres. */
const char *dry_scene_builder_size (DrySceneBuilder *self, DryLength width, DryLength height);

/* --- points of curves, into a buffer the caller has sized --- */

#define DRY_CURVE_POINTS 12 /* a quarter circle */

/* `n` points of an arc of an ellipse from `from` to `to` degrees, both ends included. */
guint dry_points_arc (DryPoint *out, DryPoint centre, double rx, double ry, double from, double to,
                      guint n);
/* A rectangle with round corners: 4 * DRY_CURVE_POINTS points. */
guint dry_points_round_rect (DryPoint *out, DryRect rect, DryLength radius);
DryPoint dry_rect_centre (DryRect rect);
