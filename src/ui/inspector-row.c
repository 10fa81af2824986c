/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the widget a kind of field needs and carries values both ways.
 * Which fields there are is in inspector-tables.c, how they are set in inspector-fields.c. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-row.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "base/slope.h"
#include "base/temperature.h"
#include "ui/length-row.h"
#include "ui/plain-entry.h"
#include "ui/steady.h"

/* --- from widget to session --- */

static void
length_entered_cb (DryLengthRow *row, DryInspectorRow *self)
{
  dry_field_set_length (self->session, self->subject, self->field, dry_length_row_get_value (row));
}

static void
switched_cb (GtkSwitch *control, GParamSpec *pspec, DryInspectorRow *self)
{
  if (!self->filling)
    dry_field_set_index (self->session, self->subject, self->field,
                         gtk_switch_get_active (control));
}

static void
chosen_cb (AdwComboRow *row, GParamSpec *pspec, DryInspectorRow *self)
{
  if (!self->filling)
    dry_field_set_index (self->session, self->subject, self->field,
                         adw_combo_row_get_selected (row));
}

static void
number_changed_cb (GtkSpinButton *control, DryInspectorRow *self)
{
  if (!self->filling)
    dry_field_set_number (self->session, self->subject, self->field,
                          gtk_spin_button_get_value (control));
}

static void
text_applied_cb (AdwEntryRow *row, DryInspectorRow *self)
{
  if (!self->filling)
    dry_field_set_text (self->session, self->subject, self->field,
                        gtk_editable_get_text (GTK_EDITABLE (row)));
}

/* --- temperatures, slopes: the spin button counts degrees Celsius, rise over run; its text is in
 * the job's unit --- */

static gboolean
has_units (const DryField *field)
{
  return field->is_temperature || field->is_slope;
}

static gboolean
is_metric (DryInspectorRow *self)
{
  return dry_project_get_job (dry_session_get_project (self->session))->metric;
}

static char *
dup_shown (DryInspectorRow *self, double value)
{
  const DryField *field = self->field;
  char decimal = dry_session_get_length_format (self->session).decimal;

  if (field->zero_text && value == 0)
    return g_strdup (_ (field->zero_text));
  return field->is_slope ? dry_slope_format (value, is_metric (self), decimal)
                         : dry_temperature_format (value, !is_metric (self), decimal);
}

static gboolean
units_output_cb (GtkSpinButton *control, DryInspectorRow *self)
{
  g_autofree char *text = dup_shown (self, gtk_spin_button_get_value (control));

  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (control)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (control), text);
  /* What the spin button itself tells is a number of the other unit. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (control), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                  text, -1);
  return TRUE;
}

static gint
units_input_cb (GtkSpinButton *control, double *value, DryInspectorRow *self)
{
  double kept = gtk_adjustment_get_value (gtk_spin_button_get_adjustment (control));
  g_autofree char *typed = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (control))));
  g_autofree char *shown = dup_shown (self, kept);
  const char *zero = self->field->zero_text;

  /* Text that was not touched is rounded, and must not change what is kept; what cannot be read
   * gives way to it. An error handed to the spin button would count as 0. */
  *value = kept;
  if (g_str_equal (typed, shown))
    return TRUE;
  if (zero && (!*typed || g_str_equal (typed, "0") || g_str_equal (typed, _ (zero))))
    *value = 0;
  else if (self->field->is_slope)
    dry_slope_parse (typed, is_metric (self), value);
  else
    dry_temperature_parse (typed, !is_metric (self), value);
  return TRUE;
}

/* One step is a degree of the unit shown; 1/16 in per ft or half a per cent. */
static void
fill_step (DryInspectorRow *self)
{
  double step = self->field->step;

  if (!is_metric (self))
    step = self->field->is_slope ? 1 / (16 * 12.0) : step / 1.8;
  gtk_spin_button_set_increments (GTK_SPIN_BUTTON (self->control), step, 10 * step);
}

/* --- from session to widget --- */

void
dry_inspector_row_fill (DryInspectorRow *self)
{
  DrySession *session = self->session;
  const DryField *field = self->field;

  self->filling = TRUE;
  switch (field->kind) {
  case DRY_FIELD_LENGTH: {
    DryLengthFormat format = dry_session_get_length_format (session);
    DryLengthRow *row = DRY_LENGTH_ROW (self->widget);
    dry_length_row_set_format (row, &format, dry_session_get_bare_unit (session));
    dry_length_row_set_value (row, dry_field_get_length (session, self->subject, field));
    break;
  }
  case DRY_FIELD_BOOLEAN:
    gtk_switch_set_active (GTK_SWITCH (self->control),
                           dry_field_get_index (session, self->subject, field) != 0);
    break;
  case DRY_FIELD_CHOICE:
    adw_combo_row_set_selected (ADW_COMBO_ROW (self->widget),
                                dry_field_get_index (session, self->subject, field));
    break;
  case DRY_FIELD_NUMBER:
  case DRY_FIELD_INTEGER:
    if (has_units (field))
      fill_step (self);
    if (!(gtk_widget_get_state_flags (self->control) & GTK_STATE_FLAG_FOCUS_WITHIN))
      gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->control),
                                 dry_field_get_number (session, self->subject, field));
    break;
  case DRY_FIELD_TEXT:
  default: {
    const char *text = dry_field_get_text (session, self->subject, field);
    GtkEditable *entry = GTK_EDITABLE (self->widget);
    /* Setting it anew would throw away what is being typed and the cursor's place. */
    if (!(gtk_widget_get_state_flags (self->widget) & GTK_STATE_FLAG_FOCUS_WITHIN) &&
        g_strcmp0 (gtk_editable_get_text (entry), text) != 0)
      gtk_editable_set_text (entry, text);
  }
  }
  self->filling = FALSE;
}

/* --- making --- */

static GtkWidget *
make_length_row (DryInspectorRow *self)
{
  const DryField *field = self->field;
  GtkWidget *row = dry_length_row_new (_ (field->label));

  dry_length_row_set_limits (DRY_LENGTH_ROW (row), field->low, field->high);
  if (field->zero_text)
    dry_length_row_set_zero_text (DRY_LENGTH_ROW (row), _ (field->zero_text));
  if (field->hint)
    dry_length_row_set_hint (DRY_LENGTH_ROW (row), _ (field->hint));
  g_signal_connect (row, "entered", G_CALLBACK (length_entered_cb), self);
  return row;
}

static GtkWidget *
make_row_with_control (DryInspectorRow *self, GtkWidget *control)
{
  const DryField *field = self->field;
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (field->label));
  if (field->hint)
    adw_action_row_set_subtitle (ADW_ACTION_ROW (row), _ (field->hint));
  gtk_widget_set_valign (control, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), control);
  /* The row's title names it from here on. */
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), control);
  self->control = control;
  return row;
}

static GtkWidget *
make_switch_row (DryInspectorRow *self)
{
  GtkWidget *control = gtk_switch_new ();

  g_signal_connect (control, "notify::active", G_CALLBACK (switched_cb), self);
  return make_row_with_control (self, control);
}

static GtkWidget *
make_number_row (DryInspectorRow *self)
{
  const DryField *field = self->field;
  GtkWidget *control = dry_plain_spin_new (field->number_low, field->number_high, field->step);

  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (control), field->digits);
  if (has_units (field)) {
    gtk_spin_button_set_numeric (GTK_SPIN_BUTTON (control), FALSE); /* units are letters */
    gtk_editable_set_width_chars (GTK_EDITABLE (control),
                                  field->zero_text || field->is_slope ? 12 : 8);
    g_signal_connect (control, "input", G_CALLBACK (units_input_cb), self);
    g_signal_connect (control, "output", G_CALLBACK (units_output_cb), self);
  }
  g_signal_connect (control, "value-changed", G_CALLBACK (number_changed_cb), self);
  return make_row_with_control (self, control);
}

static GtkWidget *
make_choice_row (DryInspectorRow *self)
{
  const DryField *field = self->field;
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  GtkWidget *row = adw_combo_row_new ();

  for (guint i = 0; field->choices[i]; i++)
    gtk_string_list_append (words, _ (field->choices[i]));
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (field->label));
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (words));
  g_signal_connect (row, "notify::selected", G_CALLBACK (chosen_cb), self);
  return row;
}

static GtkWidget *
make_text_row (DryInspectorRow *self)
{
  GtkWidget *row = dry_steady_entry_row_new (_ (self->field->label));

  g_signal_connect (row, "apply", G_CALLBACK (text_applied_cb), self);
  return row;
}

DryInspectorRow *
dry_inspector_row_new (DrySession *session, DrySubjectRef subject, const DryField *field)
{
  static GtkWidget *(*const MAKERS[]) (DryInspectorRow *) = {
      [DRY_FIELD_LENGTH] = make_length_row,  [DRY_FIELD_NUMBER] = make_number_row,
      [DRY_FIELD_INTEGER] = make_number_row, [DRY_FIELD_BOOLEAN] = make_switch_row,
      [DRY_FIELD_CHOICE] = make_choice_row,  [DRY_FIELD_TEXT] = make_text_row,
  };
  DryInspectorRow *self = g_new0 (DryInspectorRow, 1);

  self->session = session;
  self->subject = subject;
  self->field = field;
  self->filling = TRUE;
  self->widget = g_object_ref_sink (MAKERS[field->kind](self));
  self->filling = FALSE;
  if (!self->control)
    self->control = self->widget;
  g_object_ref (self->control);
  return self;
}

void
dry_inspector_row_free (DryInspectorRow *self)
{
  g_signal_handlers_disconnect_by_data (self->control, self);
  g_signal_handlers_disconnect_by_data (self->widget, self);
  g_object_unref (self->control);
  g_object_unref (self->widget);
  g_free (self);
}

void
dry_inspector_row_confirm (DryInspectorRow *self)
{
  if (self->field->kind == DRY_FIELD_LENGTH)
    dry_length_row_confirm (DRY_LENGTH_ROW (self->widget));
  else if (GTK_IS_SPIN_BUTTON (self->control) &&
           (gtk_widget_get_state_flags (self->control) & GTK_STATE_FLAG_FOCUS_WITHIN))
    /* Only where one types: text read anew is a number rounded to its digits. */
    gtk_spin_button_update (GTK_SPIN_BUTTON (self->control));
}
