/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A still picture of one scene, fitted into the widget: sections of systems, cut sheets.
 * Paints with the same painter as board and papers; knows no session. */
#pragma once

#include <gtk/gtk.h>

#include "draw/drawings.h"

G_BEGIN_DECLS

#define DRY_TYPE_SCENE_VIEW (dry_scene_view_get_type ())
G_DECLARE_FINAL_TYPE (DrySceneView, dry_scene_view, DRY, SCENE_VIEW, GtkWidget)

/* `width` and `height` are the least size; `bare` pictures are thumbnails without letters and
 * dimensions. Give it a name with gtk_accessible_update_property() unless something beside it says
 * the same. */
GtkWidget *dry_scene_view_new (int width, int height, gboolean bare);
/* Takes its own reference; NULL shows nothing. */
void dry_scene_view_set_scene (DrySceneView *self, const DryScene *scene);
/* Bare pictures only: shows this part of the scene, and what lies round it as far as there is room,
 * instead of the whole; with the same focus, scenes are seen at one scale. */
void dry_scene_view_set_focus (DrySceneView *self, DryRect focus);

G_END_DECLS
