/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place for the shortcuts window until it is here.
 * Does nothing yet. */
#include "ui/shortcuts.h"

void
dry_shortcuts_present (GtkWindow *parent)
{
}
