/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What applies to the room shown: required and planned side by side with their source, as on the
 * sheet for the inspector. Rows of the job's section, filled while they are unfolded. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* Adds one row that unfolds into them. */
void dry_checks_add_row (DrySession *session, AdwExpanderRow *expander);

G_END_DECLS
