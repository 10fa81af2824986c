/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row for each rule that is not silent, broken ones first. Made anew when a plan has come and
 * nothing is dragged; nothing is reckoned while the row is folded. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-checks.h"

#include <glib/gi18n.h>

#include "plan/rule-checks.h"
#include "ui/access.h"
#include "ui/symbol.h"
#include "ui/wrapping.h"

/* Owned by the row. */
typedef struct {
  DrySession *session;
  AdwExpanderRow *row; /* borrowed */
  GPtrArray *children; /* of rows, borrowed */
  DryPlan *shown;      /* held, so that no other takes its place; NULL = none */
} Checks;

static GtkWidget *
make_check (const DryCheck *check)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *title = g_strdup_printf ("%s: %s", check->where, check->measure);
  g_autofree char *short_title = dry_wrapping_shorten (title);
  g_autofree char *text = g_strdup_printf (
      _ ("Required: %s\nPlanned: %s\n%s (%s)"), check->required, check->planned,
      check->rule->source.text, dry_certainty_to_text (check->rule->source.certainty));
  g_autofree char *short_text = dry_wrapping_shorten (text);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), short_title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), short_text);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  if (check->n_broken > 0) {
    GtkWidget *image = gtk_image_new_from_paintable (dry_symbol_get ("drybay-fix-symbolic"));

    gtk_widget_add_css_class (image, "warning");
    gtk_widget_set_tooltip_text (image, check->rule->title);
    gtk_accessible_update_property (GTK_ACCESSIBLE (image), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    check->rule->title, -1);
    adw_action_row_add_prefix (ADW_ACTION_ROW (row), image);
  }
  return row;
}

static void
add_checks (Checks *self, const DryChecks *checks, gboolean broken)
{
  for (guint i = 0; i < checks->n; i++) {
    const DryCheck *check = &checks->items[i];
    GtkWidget *row;

    if ((check->n_broken > 0) != broken || !dry_check_is_official (self->shown, check))
      continue;
    row = make_check (check);
    adw_expander_row_add_row (self->row, row);
    g_ptr_array_add (self->children, row);
  }
}

static void
clear_checks (Checks *self)
{
  for (guint i = 0; i < self->children->len; i++)
    adw_expander_row_remove (self->row, self->children->pdata[i]);
  g_ptr_array_set_size (self->children, 0);
  g_clear_pointer (&self->shown, dry_plan_unref);
}

static void
show_checks (Checks *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  g_autoptr (DryChecks) checks = NULL;

  if (!adw_expander_row_get_expanded (self->row) || !dry_session_is_settled (self->session) ||
      plan == self->shown)
    return;
  clear_checks (self);
  self->shown = dry_plan_ref (plan);
  checks = dry_checks_new (plan);
  add_checks (self, checks, TRUE);
  add_checks (self, checks, FALSE);
}

static void
plan_changed_cb (DrySession *session, GtkWidget *row)
{
  Checks *self = g_object_get_data (G_OBJECT (row), "checks");

  if (self)
    show_checks (self);
}

static void
expanded_cb (GtkWidget *row, GParamSpec *pspec, DrySession *session)
{
  plan_changed_cb (session, row);
}

static void
checks_free (gpointer data)
{
  Checks *self = data;

  g_clear_pointer (&self->shown, dry_plan_unref);
  g_ptr_array_unref (self->children);
  g_object_unref (self->session);
  g_free (self);
}

void
dry_checks_add_row (DrySession *session, AdwExpanderRow *expander)
{
  Checks *self = g_new0 (Checks, 1);
  GtkWidget *row = adw_expander_row_new ();

  self->session = g_object_ref (session);
  self->row = ADW_EXPANDER_ROW (row);
  self->children = g_ptr_array_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("What applies"));
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (row),
                                 _ ("Required and planned, as for an inspector"));
  dry_access_name_expander_row (ADW_EXPANDER_ROW (row));
  g_object_set_data_full (G_OBJECT (row), "checks", self, checks_free);
  g_signal_connect_object (row, "notify::expanded", G_CALLBACK (expanded_cb), session, 0);
  g_signal_connect_object (session, "plan-changed", G_CALLBACK (plan_changed_cb), row, 0);
  adw_expander_row_add_row (expander, row);
}
