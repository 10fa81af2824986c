/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows that say what the job is held against: the rule pack, and an option for each matter on
 * which its sources disagree. Shows the session and asks it for edits. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

/* The pack's row and the rows of its choices, into `expander`; the latter follow the pack. */
void dry_rules_add_rows (DrySession *session, AdwExpanderRow *expander);

G_END_DECLS
