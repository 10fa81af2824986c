/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Takes the chooser of emoji from a field: GTK reads every font with emoji for it and keeps them
 * for good, 2 MB in use and 12 more resident. Knows nothing of what is typed. */
#include "ui/plain-entry.h"

void
dry_plain_entry_set_up (GtkWidget *editable)
{
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (editable));

  while (text != NULL && !GTK_IS_TEXT (text))
    text = gtk_editable_get_delegate (text);
  if (text != NULL)
    gtk_text_set_input_hints (GTK_TEXT (text),
                              gtk_text_get_input_hints (GTK_TEXT (text)) | GTK_INPUT_HINT_NO_EMOJI);
}
