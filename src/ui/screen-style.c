/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks libadwaita each time: whoever keeps something painted must watch its style manager.
 * The styles themselves are the draw floor's. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/screen-style.h"

#include <adwaita.h>

const DryStyle *
dry_screen_style (void)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();
  gboolean dark = adw_style_manager_get_dark (manager);

  if (adw_style_manager_get_high_contrast (manager))
    return dry_style_get (dark ? DRY_STYLE_CONTRAST_DARK : DRY_STYLE_CONTRAST);
  return dry_style_get (dark ? DRY_STYLE_DARK : DRY_STYLE_LIGHT);
}
