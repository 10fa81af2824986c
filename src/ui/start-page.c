/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place for the start-page until its widget is here.
 * Shows its name only; knows nothing of the session. */
#include "ui/start-page.h"

GtkWidget *
dry_start_page_new (DrySession *session)
{
  return gtk_label_new ("start-page");
}
