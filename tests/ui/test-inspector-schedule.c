/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inspector's row of days, crew and prices on a virtual screen: what is typed wrong is told in
 * place and changes nothing, what is typed right is one step of undo and moves the dates. */
#include <string.h>

#include "desk.h"
#include "plan/schedule.h"
#include "support/fixtures.h"
#include "ui/inspector-schedule.h"

static const DryJob *
job_of (DryDesk *desk)
{
  return dry_project_get_job (dry_session_get_project (desk->session));
}

static GtkWidget *
show_row (DryDesk *desk)
{
  GtkWidget *row = dry_schedule_row_new (desk->session), *list = gtk_list_box_new ();

  gtk_list_box_append (GTK_LIST_BOX (list), row);
  dry_desk_show (desk, list);
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  dry_test_settle ();
  return row;
}

static GtkWidget *
find_row (GtkWidget *root, const char *title)
{
  GtkWidget *row = dry_test_find (root, dry_desk_is_row, title);

  g_assert_nonnull (row);
  return row;
}

static void
type_into (GtkWidget *row, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (row), text);
  g_signal_emit_by_name (row, "apply");
}

static gboolean
is_shown_fault (GtkWidget *widget, gconstpointer text)
{
  return GTK_IS_LABEL (widget) && gtk_widget_has_css_class (widget, "error") &&
         gtk_widget_get_mapped (widget) &&
         strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL;
}

static gboolean
is_toggle (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_TOGGLE_BUTTON (widget) &&
         g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0;
}

static GtkWidget *
spin_of (GtkWidget *root, const char *title)
{
  GType type = GTK_TYPE_SPIN_BUTTON;

  return dry_test_find (find_row (root, title), dry_test_is_type, &type);
}

/* The day tiling can start, as the plan reckons it from the job as it is. */
static gint64
tile_day (DryDesk *desk)
{
  const DryProject *project = dry_session_get_project (desk->session);
  g_autoptr (DryPlan) plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, NULL);
  g_autoptr (DrySchedule) schedule =
      dry_schedule_new ((const DryPlan *const[]){plan}, 1, NULL, NULL, NULL);

  g_assert_nonnull (schedule);
  return schedule->tile_start / DRY_MINUTES_A_DAY;
}

static void
test_first_day (DryDesk *desk, gconstpointer data)
{
  GtkWidget *row = show_row (desk), *start = find_row (row, "First day of work");
  static const char *const wrong[] = {"next Tuesday", "2026-02-30", "12/01/2026"};
  gint64 day;

  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++) {
    type_into (start, wrong[i]);
    dry_test_settle ();
    g_assert_null (job_of (desk)->start);
    g_assert_nonnull (dry_test_find (row, is_shown_fault, wrong[i]));
    g_assert_true (gtk_widget_has_css_class (start, "error"));
  }
  type_into (start, " 2026-12-01 ");
  dry_test_settle ();
  g_assert_cmpstr (job_of (desk)->start, ==, "2026-12-01");
  g_assert_null (dry_test_find (row, is_shown_fault, ""));
  day = tile_day (desk);
  type_into (start, "2026-12-08");
  g_assert_cmpint (tile_day (desk), ==, day + 7);
  dry_session_undo (desk->session);
  g_assert_cmpstr (job_of (desk)->start, ==, "2026-12-01");
  type_into (start, "");
  g_assert_null (job_of (desk)->start);
}

static void
test_days_off (DryDesk *desk, gconstpointer data)
{
  GtkWidget *row = show_row (desk), *off = find_row (row, "Days off");
  gint64 day;

  type_into (find_row (row, "First day of work"), "2026-12-01");
  day = tile_day (desk);
  type_into (off, "2026-12-25 Easter");
  dry_test_settle ();
  g_assert_null (job_of (desk)->holidays);
  g_assert_nonnull (dry_test_find (row, is_shown_fault, "Easter"));
  type_into (off, "2026-12-01/2026-12-04");
  dry_test_settle ();
  g_assert_cmpstr (job_of (desk)->holidays, ==, "2026-12-01/2026-12-04");
  g_assert_null (dry_test_find (row, is_shown_fault, ""));
  g_assert_cmpint (tile_day (desk), >=, day + 4);
}

static void
test_week (DryDesk *desk, gconstpointer data)
{
  GtkWidget *row = show_row (desk);
  static const char *const days[] = {"Mo", "Tu", "We", "Th", "Fr"};
  GtkWidget *saturday = dry_test_find (row, is_toggle, "Sa"), *last = NULL;

  g_assert_null (job_of (desk)->work_days);
  g_assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (saturday)));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (saturday), TRUE);
  g_assert_cmpstr (job_of (desk)->work_days, ==, "Mon Tue Wed Thu Fri Sat");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (saturday), FALSE);
  g_assert_null (job_of (desk)->work_days); /* as usual: the file says nothing */
  for (guint i = 0; i < G_N_ELEMENTS (days); i++) {
    last = dry_test_find (row, is_toggle, days[i]);
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (last), FALSE);
  }
  g_assert_cmpstr (job_of (desk)->work_days, ==, "Fri");
  g_assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (last)));
}

static void
test_crew_and_hours (DryDesk *desk, gconstpointer data)
{
  GtkWidget *row = show_row (desk), *from = spin_of (row, "Work begins");

  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (from)), ==, "08:00");
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin_of (row, "People at work")), 2);
  g_assert_cmpint (job_of (desk)->crew, ==, 2);
  gtk_editable_set_text (GTK_EDITABLE (from), "7:30");
  gtk_spin_button_update (GTK_SPIN_BUTTON (from));
  g_assert_cmpfloat (job_of (desk)->day_start, ==, 7.5);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (from)), ==, "07:30");
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin_of (row, "Hours a day")), 6);
  g_assert_cmpfloat (job_of (desk)->day_hours, ==, 6);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin_of (row, "Hours a day")), 8);
  g_assert_cmpfloat (job_of (desk)->day_hours, ==, 0); /* as usual */
}

/* What is in the project is shown, also when it comes from elsewhere. */
static void
test_follows (DryDesk *desk, gconstpointer data)
{
  GtkWidget *row = show_row (desk);
  DryJob job = *job_of (desk);

  job.start = (char *) "2027-03-01";
  job.crew = 3;
  job.work_days = (char *) "Sat Sun";
  dry_session_apply (desk->session,
                     dry_edit_set_job (dry_session_get_project (desk->session), &job, NULL),
                     "elsewhere", NULL, NULL);
  dry_test_settle ();
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (find_row (row, "First day of work"))), ==,
                   "2027-03-01");
  g_assert_cmpint (
      gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (spin_of (row, "People at work"))), ==, 3);
  g_assert_true (
      gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (dry_test_find (row, is_toggle, "Su"))));
  g_assert_false (
      gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (dry_test_find (row, is_toggle, "Mo"))));
  g_assert_nonnull (dry_test_find (row, dry_desk_is_row, "Price book"));
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/inspector/schedule/first-day", test_first_day);
  DRY_DESK_ADD ("/ui/inspector/schedule/days-off", test_days_off);
  DRY_DESK_ADD ("/ui/inspector/schedule/week", test_week);
  DRY_DESK_ADD ("/ui/inspector/schedule/crew-and-hours", test_crew_and_hours);
  DRY_DESK_ADD ("/ui/inspector/schedule/follows", test_follows);
  return dry_desk_run ();
}
