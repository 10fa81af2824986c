/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The room's picture as large as the widget, and of its shape. Draws one plan; knows no session. */
#pragma once

#include <gtk/gtk.h>

#include "plan/plan.h"

G_BEGIN_DECLS

#define DRY_TYPE_CLIENT_PICTURE (dry_client_picture_get_type ())
G_DECLARE_FINAL_TYPE (DryClientPicture, dry_client_picture, DRY, CLIENT_PICTURE, GtkWidget)

GtkWidget *dry_client_picture_new (void);
/* Takes its own reference; NULL shows nothing. `figures`: people stand in it. */
void dry_client_picture_set_plan (DryClientPicture *self, const DryPlan *plan, gboolean figures);

G_END_DECLS
