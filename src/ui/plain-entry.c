/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Takes from fields what is in the way of typing into them: the chooser of emoji, the wheel. Knows
 * nothing of what is typed. */
#include "ui/plain-entry.h"

/* GTK reads every font with emoji for its chooser and keeps them for good, 2 MB in use and 12 more
 * resident. */
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

GtkWidget *
dry_plain_spin_new (double low, double high, double step)
{
  GtkWidget *spin = gtk_spin_button_new_with_range (low, high, step);
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (spin);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

    if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
      gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_NONE);
  }
  return spin;
}
