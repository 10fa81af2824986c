/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the room's picture share: the eye, the frame, surfaces of walls.
 * Private to drawing-room*.c. */
#pragma once

#include "draw/drawing-private.h"
#include "draw/eye.h"

typedef struct {
  DrySceneBuilder *b;
  const DryPlan *plan;
  const DryRoom *room;
  DryEye eye;
  DryPoint frame[4]; /* of the picture, in the scene */
} DryRoomPicture;

/* One side of one wall: `o` is where u = 0 and z = 0, (ux, uy) along, (nx, ny) into the room. */
typedef struct {
  DrySpot o;
  double ux, uy, nx, ny;
} DrySurface;

#define DRY_MATERIAL(ink)    ((DryLook){.fill = (ink), .alpha = 1})
#define DRY_SHADOW(strength) ((DryLook){.fill = DRY_INK_SHADE, .alpha = (strength)})

DrySurface dry_surface_of (const DryWall *wall, DrySide side);
/* The spot `u` along, `z` up and `out` from the surface. */
DrySpot dry_surface_spot (const DrySurface *self, double u, double z, double out);
gboolean dry_picture_sees (const DryRoomPicture *self, const DrySurface *surface);
/* Flat shapes and rectangles of a surface, within the frame. */
void dry_picture_shape (DryRoomPicture *self, DryLook look, const DrySpot *spots, guint n);
void dry_picture_rect (DryRoomPicture *self, DryLook look, const DrySurface *surface, DryRect r,
                       double out);

/* drawing-room-wall.c: tile, openings, niches and fittings on one side of one wall. */
void dry_picture_wall (DryRoomPicture *self, const DryWall *wall, DrySide side);
/* drawing-room-things.c: what stands on the floor. */
void dry_picture_basin (DryRoomPicture *self, gboolean figures);
void dry_picture_benches (DryRoomPicture *self);
void dry_picture_glass (DryRoomPicture *self);
