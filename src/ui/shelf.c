/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place for the shelf until its widget is here.
 * Shows its name only; knows nothing of the session. */
#include "ui/shelf.h"

GtkWidget *
dry_shelf_new (DrySession *session, DryCanvas *canvas)
{
  return gtk_label_new ("shelf");
}
