/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place for the preferences window until it is here.
 * Does nothing yet. */
#include "ui/preferences.h"

void
dry_preferences_present (GtkWindow *parent)
{
}
