/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is in a menu nobody shows any more. Knows menu models, not what they say. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* Takes out all items, those of sections and submenus too, and gives up the caller's reference.
 * GTK 4.8 never gives up its own to a section it has shown: what is left of it then is empty. */
void dry_menu_release (GMenuModel *menu);

G_END_DECLS
