/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small picture of a backer system: the section through its layers, to scale.
 * Paints a drawing of the draw floor; knows no session. */
#pragma once

#include <gtk/gtk.h>

#include "draw/drawings.h"

G_BEGIN_DECLS

#define DRY_TYPE_SECTION_VIEW (dry_section_view_get_type ())
G_DECLARE_FINAL_TYPE (DrySectionView, dry_section_view, DRY, SECTION_VIEW, GtkWidget)

/* `system` must outlive the widget (the session holds the catalogue). */
GtkWidget *dry_section_view_new (const DrySystem *system, int width, int height);
/* Thicknesses to draw, tile included; a change redraws. */
void dry_section_view_set_build_up (DrySectionView *self, const DryBuildUp *build_up);

G_END_DECLS
