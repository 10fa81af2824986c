/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads what is typed with the core's own parser and shows the reading under the title as one
 * types. Nothing is changed until the text is confirmed; Escape brings the shown value back. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/length-row.h"

#include <glib/gi18n.h>

struct _DryLengthRow {
  AdwActionRow parent_instance;
  GtkEntry *entry;
  DryLength value, minimum, maximum;
  DryLengthFormat format;
  DryUnit bare_unit;
  char *hint, *zero_text;
  gboolean typing;  /* the text is the person's, not ours */
  gboolean writing; /* we are setting the text */
};

G_DEFINE_FINAL_TYPE (DryLengthRow, dry_length_row, ADW_TYPE_ACTION_ROW)

enum { SIGNAL_ENTERED, N_SIGNALS };
static guint signals[N_SIGNALS];

static char *
write_value (DryLengthRow *self, DryLength value)
{
  if (value == 0 && self->zero_text)
    return g_strdup (self->zero_text);
  return dry_length_format (value, &self->format);
}

static void
show_value (DryLengthRow *self)
{
  g_autofree char *text = write_value (self, self->value);

  self->writing = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  self->writing = FALSE;
  self->typing = FALSE;
  gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "error");
  gtk_accessible_reset_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self), self->hint ? self->hint : "");
}

static gboolean
read_text (DryLengthRow *self, DryLength *out, GError **error)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));

  if (self->zero_text && (!*text || g_str_equal (text, self->zero_text))) {
    *out = 0;
    return TRUE;
  }
  if (!dry_length_parse (text, self->bare_unit, out, error))
    return FALSE;
  if (*out < self->minimum || *out > self->maximum) {
    g_autofree char *low = dry_length_format (self->minimum, &self->format);
    g_autofree char *high = dry_length_format (self->maximum, &self->format);
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _ ("Must be between %s and %s"), low,
                 high);
    return FALSE;
  }
  return TRUE;
}

/* The other system beside the usual one: whoever types 1562 wants to see the inches. */
static char *
echo_reading (DryLengthRow *self, DryLength length)
{
  DryLengthFormat other = self->format;
  g_autofree char *usual = dry_length_format (length, &self->format);
  g_autofree char *second = NULL;

  other.style = self->format.style >= DRY_LENGTH_MM ? DRY_LENGTH_INCHES : DRY_LENGTH_MM;
  other.denominator = 16;
  second = dry_length_format (length, &other);
  return g_strdup_printf (_ ("= %s, %s"), usual, second);
}

static void
entry_changed_cb (DryLengthRow *self)
{
  g_autoptr (GError) error = NULL;
  DryLength length = 0;

  if (self->writing)
    return;
  self->typing = TRUE;
  if (read_text (self, &length, &error)) {
    g_autofree char *echo = echo_reading (self, length);
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "error");
    gtk_accessible_reset_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID);
    adw_action_row_set_subtitle (ADW_ACTION_ROW (self), echo);
  } else {
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "error");
    gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                                 GTK_ACCESSIBLE_INVALID_TRUE, -1);
    adw_action_row_set_subtitle (ADW_ACTION_ROW (self), error->message);
  }
}

void
dry_length_row_confirm (DryLengthRow *self)
{
  DryLength length;

  if (!self->typing || !read_text (self, &length, NULL))
    return;
  if (length == self->value) {
    show_value (self);
    return;
  }
  self->value = length;
  show_value (self);
  g_signal_emit (self, signals[SIGNAL_ENTERED], 0);
}

static void
entry_activate_cb (DryLengthRow *self)
{
  dry_length_row_confirm (self);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

static void
entry_leave_cb (DryLengthRow *self)
{
  dry_length_row_confirm (self);
  if (self->typing) /* not a length: put back what is so, rather than leave a wrong text standing */
    show_value (self);
}

static gboolean
entry_key_cb (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
              gpointer data)
{
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));
  DryLengthRow *self = DRY_LENGTH_ROW (gtk_widget_get_ancestor (entry, DRY_TYPE_LENGTH_ROW));

  if (key != GDK_KEY_Escape || !self->typing)
    return GDK_EVENT_PROPAGATE;
  show_value (self);
  return GDK_EVENT_STOP;
}

static void
dry_length_row_finalize (GObject *object)
{
  DryLengthRow *self = DRY_LENGTH_ROW (object);

  g_free (self->hint);
  g_free (self->zero_text);
  G_OBJECT_CLASS (dry_length_row_parent_class)->finalize (object);
}

static void
dry_length_row_class_init (DryLengthRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = dry_length_row_finalize;
  signals[SIGNAL_ENTERED] = g_signal_new ("entered", DRY_TYPE_LENGTH_ROW, G_SIGNAL_RUN_LAST, 0,
                                          NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/drybay/Drybay/length-row.ui");
  gtk_widget_class_bind_template_child (widget_class, DryLengthRow, entry);
  gtk_widget_class_bind_template_callback (widget_class, entry_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, entry_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, entry_leave_cb);
  gtk_widget_class_bind_template_callback (widget_class, entry_key_cb);
}

static void
dry_length_row_init (DryLengthRow *self)
{
  self->format = (DryLengthFormat){DRY_LENGTH_INCHES, 16, '.'};
  self->bare_unit = DRY_UNIT_INCH;
  self->maximum = DRY_LENGTH_MAX;
  gtk_widget_init_template (GTK_WIDGET (self));
  show_value (self);
}

GtkWidget *
dry_length_row_new (const char *title)
{
  /* The entry takes its accessible name from the title, being the row's activatable widget. */
  return g_object_new (DRY_TYPE_LENGTH_ROW, "title", title, NULL);
}

void
dry_length_row_set_limits (DryLengthRow *self, DryLength minimum, DryLength maximum)
{
  self->minimum = minimum;
  self->maximum = maximum;
}

void
dry_length_row_set_zero_text (DryLengthRow *self, const char *zero_text)
{
  g_free (self->zero_text);
  self->zero_text = g_strdup (zero_text);
  show_value (self);
}

void
dry_length_row_set_format (DryLengthRow *self, const DryLengthFormat *format, DryUnit bare_unit)
{
  self->format = *format;
  self->bare_unit = bare_unit;
  if (!self->typing)
    show_value (self);
}

void
dry_length_row_set_value (DryLengthRow *self, DryLength value)
{
  if (self->value == value && !self->typing)
    return;
  self->value = value;
  if (!self->typing)
    show_value (self);
}

DryLength
dry_length_row_get_value (DryLengthRow *self)
{
  return self->value;
}

void
dry_length_row_set_hint (DryLengthRow *self, const char *hint)
{
  g_free (self->hint);
  self->hint = g_strdup (hint);
  if (!self->typing)
    show_value (self);
}
