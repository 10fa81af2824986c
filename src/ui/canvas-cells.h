/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board's drawing as small pictures that are kept until something in them changes, and moved
 * as they are when the view is panned. Knows the scene and the view, no session. */
#pragma once

#include <gtk/gtk.h>

#include "draw/painter.h"

G_BEGIN_DECLS

typedef struct _DryCells DryCells;

DryCells *dry_cells_new (void);
void dry_cells_free (DryCells *self);
/* The scene, its place or the layers are others: pictures are kept where they still hold. */
void dry_cells_scene_changed (DryCells *self);
/* Colours are others: nothing is kept. */
void dry_cells_style_changed (DryCells *self);
/* The drawing as seen in `view`, `width` by `height`. `pan_x` and `pan_y` say how far, in whole
 * device pixels, the view was moved without being zoomed; what is kept moves with them. FALSE when
 * it was drawn at a new zoom and nothing is kept yet: draw again when the zoom has come to rest. */
gboolean dry_cells_snapshot (DryCells *self, GtkSnapshot *snapshot, const DryScene *scene,
                             const DryTransform *view, double pan_x, double pan_y, guint layers,
                             float width, float height, int scale_factor);

G_END_DECLS
