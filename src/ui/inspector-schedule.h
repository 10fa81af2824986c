/* SPDX-License-Identifier: GPL-3.0-or-later */
/* When the work is done and at whose prices, as a foldable row of the inspector: first day, crew,
 * working days and hours, days off, price book. Shows the session and asks it for edits. */
#pragma once

#include <adwaita.h>

#include "ui/session.h"

G_BEGIN_DECLS

GtkWidget *dry_schedule_row_new (DrySession *session);

G_END_DECLS
