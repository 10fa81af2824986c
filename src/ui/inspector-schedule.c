/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Built when first unfolded. What a person types is tried on the calendar before it becomes an
 * edit: what is wrong with it stands right under the row, and the document stays as it is. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-schedule.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "plan/calendar.h"
#include "ui/access.h"
#include "ui/plain-entry.h"
#include "ui/steady.h"

typedef struct {
  DrySession *session; /* held */
  GtkWidget *expander;
  GtkWidget *start, *start_error, *crew, *days[7], *from, *hours, *off, *off_error, *book;
  gboolean built, filling;
} Schedule;

static void
free_schedule (gpointer data)
{
  Schedule *self = data;

  g_signal_handlers_disconnect_by_data (self->session, self);
  g_object_unref (self->session);
  g_free (self);
}

static const DryJob *
get_job (Schedule *self)
{
  return dry_project_get_job (dry_session_get_project (self->session));
}

static void
take (Schedule *self, const DryJob *job, const char *step, const char *merge)
{
  GError *error = NULL;
  DryProject *next = dry_edit_set_job (dry_session_get_project (self->session), job, &error);

  dry_session_apply (self->session, next, step, merge, error);
}

/* --- wrong texts --- */

static void
show_error (GtkWidget *row, GtkWidget *label, const char *text)
{
  gtk_label_set_text (GTK_LABEL (label), text ? text : "");
  gtk_widget_set_visible (gtk_widget_get_parent (label), text != NULL);
  if (text)
    gtk_widget_add_css_class (row, "error");
  else
    gtk_widget_remove_css_class (row, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_STATE_INVALID,
                               text ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

static GtkWidget *
add_error (Schedule *self)
{
  GtkWidget *row = gtk_list_box_row_new (), *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "error");
  gtk_widget_add_css_class (label, "ledger-detail");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_widget_set_focusable (row, FALSE);
  gtk_widget_set_visible (row, FALSE);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->expander), row);
  return label;
}

/* A job is good when its calendar can be made. The reason why not; free. */
static char *
find_fault (const DryJob *job)
{
  DryArena *arena = dry_arena_new ();
  g_autoptr (GError) error = NULL;
  gint64 day;
  char *fault = NULL;

  if (job->start && !dry_date_parse (job->start, &day))
    fault = g_strdup_printf (
        _ ("“%s” is no date. Write year, month and day, as in 2026-12-01; nothing for none yet."),
        job->start);
  else if (!dry_calendar_new (arena, job, &error))
    fault = g_strdup (error->message);
  dry_arena_unref (arena);
  return fault;
}

/* --- from row to session --- */

static char *
get_text (GtkWidget *row)
{
  char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (row))));

  if (*text == '\0')
    g_clear_pointer (&text, g_free);
  return text;
}

static void
start_applied_cb (Schedule *self)
{
  DryJob job = *get_job (self);
  g_autofree char *text = get_text (self->start);
  g_autofree char *fault = NULL;

  job.start = text;
  fault = find_fault (&job);
  show_error (self->start, self->start_error, fault);
  if (!fault && g_strcmp0 (text, get_job (self)->start) != 0)
    take (self, &job, _ ("First day of work"), NULL);
}

static void
off_applied_cb (Schedule *self)
{
  DryJob job = *get_job (self);
  g_autofree char *text = get_text (self->off);
  g_autofree char *fault = NULL;

  job.holidays = text;
  job.start = NULL; /* its own row tells of it */
  fault = find_fault (&job);
  job.start = get_job (self)->start;
  show_error (self->off, self->off_error, fault);
  if (!fault && g_strcmp0 (text, get_job (self)->holidays) != 0)
    take (self, &job, _ ("Days off"), NULL);
}

static void
crew_changed_cb (Schedule *self)
{
  DryJob job = *get_job (self);
  gint people = gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (self->crew));

  if (self->filling || people == MAX (job.crew, 1))
    return;
  job.crew = people > 1 ? people : 0;
  take (self, &job, _ ("People at work"), "job/crew");
}

static void
clock_changed_cb (GtkSpinButton *spin, Schedule *self)
{
  DryJob job = *get_job (self);
  gboolean from = GTK_WIDGET (spin) == self->from;
  double value = gtk_spin_button_get_value (spin);
  double *member = from ? &job.day_start : &job.day_hours;

  if (self->filling || fabs (value - (*member > 0 ? *member : 8)) < 1e-6)
    return;
  *member = fabs (value - 8) < 1e-6 ? 0 : value;
  take (self, &job, from ? _ ("Work begins") : _ ("Hours a day"), from ? "job/from" : "job/hours");
}

/* The week as the file writes it; NULL for Monday to Friday. */
static char *
week_text (Schedule *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < 7; i++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->days[i])))
      g_string_append_printf (text, "%s%s", text->len ? " " : "", dry_weekday_short (i));
  return g_str_equal (text->str, "Mon Tue Wed Thu Fri") ? NULL : g_strdup (text->str);
}

static void
day_toggled_cb (GtkToggleButton *button, Schedule *self)
{
  DryJob job = *get_job (self);
  g_autofree char *week = NULL;

  if (self->filling)
    return;
  week = week_text (self);
  if (week && *week == '\0') {
    /* One day must be left to work on. */
    gtk_toggle_button_set_active (button, TRUE);
    return;
  }
  job.work_days = week;
  take (self, &job, _ ("Working days"), NULL);
}

static void
book_chosen_cb (Schedule *self)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);
  DryJob job = *get_job (self);
  guint index = adw_combo_row_get_selected (ADW_COMBO_ROW (self->book));
  const DryPriceBook *now = dry_catalog_get_price_book (catalog, job.prices), *chosen;

  if (self->filling || index >= dry_catalog_get_n_price_books (catalog))
    return;
  chosen = dry_catalog_get_price_book_at (catalog, index);
  if (chosen == now)
    return;
  job.prices = index == 0 ? NULL : (char *) chosen->id;
  take (self, &job, _ ("Price book"), NULL);
}

/* --- from session to row --- */

static void
fill_text (GtkWidget *row, GtkWidget *error, const char *text)
{
  if (gtk_widget_get_state_flags (row) & GTK_STATE_FLAG_FOCUS_WITHIN)
    return; /* being typed in */
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (row)), text ? text : ""))
    gtk_editable_set_text (GTK_EDITABLE (row), text ? text : "");
  show_error (row, error, NULL);
}

static void
fill_week (Schedule *self, const DryJob *job)
{
  DryArena *arena = dry_arena_new ();
  const DryCalendar *calendar = dry_calendar_new (arena, job, NULL);

  for (guint i = 0; calendar && i < 7; i++)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->days[i]), calendar->works[i]);
  dry_arena_unref (arena);
}

static void
fill_book (Schedule *self, const DryJob *job)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);
  const DryPriceBook *book = dry_catalog_get_price_book (catalog, job->prices);

  for (guint i = 0; i < dry_catalog_get_n_price_books (catalog); i++)
    if (dry_catalog_get_price_book_at (catalog, i) == book)
      adw_combo_row_set_selected (ADW_COMBO_ROW (self->book), i);
}

static char *
describe (const DryJob *job)
{
  guint people = (guint) MAX (job->crew, 1);
  g_autofree char *crew =
      g_strdup_printf (ngettext ("%u person at work", "%u people at work", people), people);

  if (!job->start)
    /* Translators: followed by how many people work */
    return g_strdup_printf (_ ("No first day yet, %s"), crew);
  /* Translators: date, how many people work */
  return g_strdup_printf (_ ("From %s, %s"), job->start, crew);
}

static void
update (Schedule *self)
{
  const DryJob *job = get_job (self);
  g_autofree char *text = describe (job);

  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self->expander), text);
  if (!self->built || self->filling)
    return;
  self->filling = TRUE;
  fill_text (self->start, self->start_error, job->start);
  fill_text (self->off, self->off_error, job->holidays);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->crew), MAX (job->crew, 1));
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->from), job->day_start > 0 ? job->day_start : 8);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (self->hours),
                             job->day_hours > 0 ? job->day_hours : 8);
  fill_week (self, job);
  fill_book (self, job);
  self->filling = FALSE;
}

/* --- building --- */

static GtkWidget *
add_entry (Schedule *self, const char *title, const char *hint, GCallback applied)
{
  GtkWidget *row = dry_steady_entry_row_new (title);

  gtk_widget_set_tooltip_text (row, hint);
  dry_access_set_name (GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (row))), title);
  g_signal_connect_swapped (row, "apply", applied, self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->expander), row);
  return row;
}

static GtkWidget *
add_spin (Schedule *self, const char *title, double low, double high, double step, guint digits)
{
  GtkWidget *row = adw_action_row_new (), *spin = dry_plain_spin_new (low, high, step);

  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (spin), digits);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  gtk_widget_set_valign (spin, GTK_ALIGN_CENTER);
  dry_access_set_name (spin, title);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), spin);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), spin);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->expander), row);
  return spin;
}

/* 7.5 is shown as 07:30, and typed either way. */
static gboolean
show_clock_cb (GtkSpinButton *spin, gpointer unused)
{
  int minutes = (int) lround (gtk_spin_button_get_value (spin) * 60);
  g_autofree char *text = g_strdup_printf ("%02d:%02d", minutes / 60, minutes % 60);

  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (spin)), text))
    gtk_editable_set_text (GTK_EDITABLE (spin), text);
  return TRUE;
}

static int
read_clock_cb (GtkSpinButton *spin, double *value, gpointer unused)
{
  g_auto (GStrv) parts = g_strsplit (gtk_editable_get_text (GTK_EDITABLE (spin)), ":", 2);
  char *end;

  if (parts[0] == NULL || parts[1] == NULL)
    return FALSE; /* a plain number */
  *value = (double) g_ascii_strtoll (parts[0], &end, 10);
  if (*end != '\0' || end == parts[0])
    return GTK_INPUT_ERROR;
  *value += (double) g_ascii_strtoll (parts[1], &end, 10) / 60;
  return *end == '\0' && end != parts[1] ? TRUE : GTK_INPUT_ERROR;
}

static void
add_week (Schedule *self)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  g_autoptr (GDateTime) monday = g_date_time_new_utc (2026, 11, 30, 0, 0, 0);

  gtk_widget_add_css_class (box, "linked");
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_top (box, 8);
  gtk_widget_set_margin_bottom (box, 8);
  for (guint i = 0; i < 7; i++) {
    g_autoptr (GDateTime) day = g_date_time_add_days (monday, (int) i);
    g_autofree char *small = g_date_time_format (day, "%a"), *name = g_date_time_format (day, "%A");
    g_autofree char *two = g_utf8_substring (small, 0, MIN (g_utf8_strlen (small, -1), 2));
    g_autofree char *label = g_strdup_printf (_ ("Work on %s"), name);

    self->days[i] = gtk_toggle_button_new_with_label (two);
    dry_access_set_name (self->days[i], label);
    gtk_widget_set_tooltip_text (self->days[i], label);
    g_signal_connect (self->days[i], "toggled", G_CALLBACK (day_toggled_cb), self);
    gtk_box_append (GTK_BOX (box), self->days[i]);
  }
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_widget_set_focusable (row, FALSE);
  dry_access_set_name (row, _ ("Working days"));
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->expander), row);
}

static void
add_book (Schedule *self)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < dry_catalog_get_n_price_books (catalog); i++)
    gtk_string_list_append (names, dry_catalog_get_price_book_at (catalog, i)->name);
  self->book = adw_combo_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self->book), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->book), _ ("Price book"));
  adw_combo_row_set_use_subtitle (ADW_COMBO_ROW (self->book), TRUE);
  adw_combo_row_set_model (ADW_COMBO_ROW (self->book), G_LIST_MODEL (names));
  g_signal_connect_swapped (self->book, "notify::selected", G_CALLBACK (book_chosen_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->expander), self->book);
}

static void
build (Schedule *self)
{
  self->filling = TRUE;
  self->start = add_entry (self, _ ("First day of work"), _ ("Year, month and day: 2026-12-01"),
                           G_CALLBACK (start_applied_cb));
  self->start_error = add_error (self);
  self->crew = add_spin (self, _ ("People at work"), 1, 50, 1, 0);
  add_week (self);
  self->from = add_spin (self, _ ("Work begins"), 0.25, 23.5, 0.25, 2);
  gtk_spin_button_set_numeric (GTK_SPIN_BUTTON (self->from), FALSE); /* the colon */
  g_signal_connect (self->from, "output", G_CALLBACK (show_clock_cb), NULL);
  g_signal_connect (self->from, "input", G_CALLBACK (read_clock_cb), NULL);
  self->hours = add_spin (self, _ ("Hours a day"), 0.5, 24, 0.5, 1);
  self->off = add_entry (self, _ ("Days off"),
                         _ ("Days and stretches of days: 2026-12-25 2026-12-28/2027-01-01"),
                         G_CALLBACK (off_applied_cb));
  self->off_error = add_error (self);
  add_book (self);
  g_signal_connect_swapped (self->crew, "value-changed", G_CALLBACK (crew_changed_cb), self);
  g_signal_connect (self->from, "value-changed", G_CALLBACK (clock_changed_cb), self);
  g_signal_connect (self->hours, "value-changed", G_CALLBACK (clock_changed_cb), self);
  self->filling = FALSE;
  self->built = TRUE;
  update (self);
}

static void
unfolded_cb (Schedule *self)
{
  if (!self->built && adw_expander_row_get_expanded (ADW_EXPANDER_ROW (self->expander)))
    build (self);
}

GtkWidget *
dry_schedule_row_new (DrySession *session)
{
  Schedule *self = g_new0 (Schedule, 1);

  self->session = g_object_ref (session);
  self->expander = adw_expander_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self->expander), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->expander), _ ("Days, crew and prices"));
  dry_access_name_expander_row (ADW_EXPANDER_ROW (self->expander));
  g_object_set_data_full (G_OBJECT (self->expander), "schedule", self, free_schedule);
  g_signal_connect_swapped (self->expander, "notify::expanded", G_CALLBACK (unfolded_cb), self);
  g_signal_connect_swapped (session, "document-changed", G_CALLBACK (update), self);
  update (self);
  return self->expander;
}
