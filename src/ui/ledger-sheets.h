/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ledger's page of cut sheets: a row of pictures, each of which opens large by a click.
 * Draws what the newest plan holds; keeps no plan. */
#pragma once

#include <gtk/gtk.h>

#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_LEDGER_SHEETS (dry_ledger_sheets_get_type ())
G_DECLARE_FINAL_TYPE (DryLedgerSheets, dry_ledger_sheets, DRY, LEDGER_SHEETS, GtkWidget)

GtkWidget *dry_ledger_sheets_new (DrySession *session);
/* Draws the newest plan's sheets; pictures that stay keep their place and the focus. */
void dry_ledger_sheets_fill (DryLedgerSheets *self);

G_END_DECLS
