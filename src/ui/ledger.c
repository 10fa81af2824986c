/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place for the ledger until its widget is here.
 * Shows its name only; knows nothing of the session. */
#include "ui/ledger.h"

GtkWidget *
dry_ledger_new (DrySession *session)
{
  return gtk_label_new ("ledger");
}
