/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place for the inspector until its widget is here.
 * Shows its name only; knows nothing of the session. */
#include "ui/inspector.h"

GtkWidget *
dry_inspector_new (DrySession *session)
{
  return gtk_label_new ("inspector");
}
