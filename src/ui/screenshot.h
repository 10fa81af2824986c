/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture of a window as a file, taken once its plan has come and been painted.
 * For the README, the tests and machines without a screen; knows nothing of what is in it. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* Writes a PNG and closes the window; a failure is printed and makes the program end with 1. */
void dry_screenshot_take (GtkWindow *window, DrySession *session, const char *path);

G_END_DECLS
