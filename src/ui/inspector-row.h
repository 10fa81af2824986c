/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row of the inspector: a field of the tables with the widget that shows and changes it.
 * Asks the session for values and edits; does not know what else is shown. */
#pragma once

#include <gtk/gtk.h>

#include "ui/inspector-fields.h"

G_BEGIN_DECLS

typedef struct {
  DrySession *session; /* borrowed: the inspector holds it */
  DrySubjectRef subject;
  const DryField *field;
  GtkWidget *widget;
  GtkWidget *control; /* switch or spin button in it, or the widget itself */
  gboolean filling;   /* what changes now is not the person's doing */
} DryInspectorRow;

/* Free with g_free() once its widget is gone or can signal no more. */
DryInspectorRow *dry_inspector_row_new (DrySession *session, DrySubjectRef subject,
                                        const DryField *field) G_GNUC_WARN_UNUSED_RESULT;
/* Shows the session's value; leaves alone what is being typed. */
void dry_inspector_row_fill (DryInspectorRow *self);

G_END_DECLS
