/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Empties menus that have been shown, since GTK keeps their sections. Knows menu models, not what
 * they say. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/menu-contents.h"

static void
empty (GMenuModel *menu)
{
  static const char *const links[] = {G_MENU_LINK_SECTION, G_MENU_LINK_SUBMENU};

  for (int i = 0; i < g_menu_model_get_n_items (menu); i++) {
    for (guint k = 0; k < G_N_ELEMENTS (links); k++) {
      g_autoptr (GMenuModel) inner = g_menu_model_get_item_link (menu, i, links[k]);

      if (inner)
        empty (inner);
    }
  }
  if (G_IS_MENU (menu))
    g_menu_remove_all (G_MENU (menu));
}

void
dry_menu_release (GMenuModel *menu)
{
  empty (menu);
  g_object_unref (menu);
}
