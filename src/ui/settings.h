/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The settings of this person on this machine (window size, panes, units of new projects).
 * Always usable: without an installed schema they live in memory. Knows no project. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* A new object holding one reference; never NULL. Ask dry_application_get_settings() for the one
 * the windows share. */
GSettings *dry_settings_new (void);

G_END_DECLS
