/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The start page: new, open, recent and the demonstration projects.
 * Asks the window's actions for everything; keeps no state of the document. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

GtkWidget *dry_start_page_new (DrySession *session);
/* Looks again for unsaved work left by a crash; `page` may be NULL. */
void dry_start_page_update (GtkWidget *page);

G_END_DECLS
