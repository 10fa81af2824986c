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
  GtkWidget *widget;  /* owned */
  GtkWidget *control; /* switch or spin button in it, or the widget itself; owned */
  gboolean filling;   /* what changes now is not the person's doing */
} DryInspectorRow;

/* Free with dry_inspector_row_free(): its widget may outlast it, while the focus is in it. */
DryInspectorRow *dry_inspector_row_new (DrySession *session, DrySubjectRef subject,
                                        const DryField *field) G_GNUC_WARN_UNUSED_RESULT;
void dry_inspector_row_free (DryInspectorRow *self);
/* Enters what is being typed, before something else is shown. */
void dry_inspector_row_confirm (DryInspectorRow *self);
/* Shows the session's value; leaves alone what is being typed. */
void dry_inspector_row_fill (DryInspectorRow *self);

G_END_DECLS
