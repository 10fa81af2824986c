/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window of earlier versions: each saved state of the session's file with a picture, to look at
 * and to go back to. Knows the session; going back is a step that can be undone. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

GtkWidget *dry_versions_window_new (DrySession *session);

G_END_DECLS
