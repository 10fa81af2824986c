/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two states of a project side by side: what was changed since a kept version, in words, as a
 * dialog. Plans are made in a thread; nothing is changed by looking. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* `time` is how the version is called. The room shown is compared. */
void dry_versions_compare (GtkWindow *parent, DrySession *session, const DryProject *version,
                           const char *time);

G_END_DECLS
