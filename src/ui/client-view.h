/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a client sees, over the whole window: the wet area as it will look, and the ways to build it
 * as cards. Shows the session and its alternates; the one thing changed here is tile. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_CLIENT_VIEW (dry_client_view_get_type ())
G_DECLARE_FINAL_TYPE (DryClientView, dry_client_view, DRY, CLIENT_VIEW, GtkWidget)

/* `settings` keeps whether prices are shown. */
GtkWidget *dry_client_view_new (DrySession *session, GSettings *settings);
/* Differences are told from now on; called when it is shown. */
void dry_client_view_begin (DryClientView *self);
/* Nothing is compared any more; called when it is left. */
void dry_client_view_end (DryClientView *self);

G_END_DECLS
