/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rule pack of the job, with whose rules they are and which edition, and the options picked where
 * its sources disagree. Names and sources come from the catalogue and are shown as they are. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-rules.h"

#include <glib/gi18n.h>

#include "project/edit.h"

/* The rows of one job section; owned by the pack's row. */
typedef struct {
  DrySession *session;
  GtkWidget *expander; /* borrowed; outlives the rows in it */
  GtkWidget *pack;
  GPtrArray *choices; /* of rows, borrowed */
  const DryRulePack *shown;
} Rules;

static const DryRulePack *
get_pack (DrySession *session)
{
  const DryJob *job = dry_project_get_job (dry_session_get_project (session));

  return dry_catalog_get_rule_pack (dry_session_get_catalog (session), job->rule_pack);
}

static void
set_job (DrySession *session, const char *step, const char *rule_pack, const char *choices)
{
  const DryProject *project = dry_session_get_project (session);
  DryJob job = *dry_project_get_job (project);
  GError *error = NULL;
  DryProject *next;

  job.rule_pack = (char *) rule_pack;
  job.choices = (char *) choices;
  next = dry_edit_set_job (project, &job, &error);
  dry_session_apply (session, next, step, NULL, error);
}

/* --- the choices --- */

static void
option_chosen_cb (AdwComboRow *row, GParamSpec *pspec, DrySession *session)
{
  const DryJob *job = dry_project_get_job (dry_session_get_project (session));
  const DryRulePack *pack = get_pack (session);
  const DryRuleChoice *choice =
      pack ? dry_rule_pack_get_choice (pack, g_object_get_data (G_OBJECT (row), "choice")) : NULL;
  guint index = adw_combo_row_get_selected (row);
  g_autofree char *picks = NULL;

  if (!choice || index >= choice->n_options ||
      index == dry_rule_choice_get_picked (choice, job->choices))
    return;
  picks = dry_rule_choice_pick (choice, job->choices, index);
  set_job (session, choice->title, job->rule_pack, picks);
}

static void
show_option (DrySession *session, GtkWidget *row, const DryRuleChoice *choice)
{
  const DryJob *job = dry_project_get_job (dry_session_get_project (session));
  guint index = dry_rule_choice_get_picked (choice, job->choices);

  g_signal_handlers_block_by_func (row, option_chosen_cb, session);
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), index);
  g_signal_handlers_unblock_by_func (row, option_chosen_cb, session);
}

/* Each option with its source: nobody shall pick a figure without knowing whose it is. */
static GtkWidget *
make_choice (DrySession *session, const DryRuleChoice *choice)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GtkWidget *row = adw_combo_row_new ();

  for (guint i = 0; i < choice->n_options; i++) {
    g_autofree char *text =
        g_strdup_printf ("%s (%s)", choice->options[i].title, choice->options[i].source.text);
    gtk_string_list_append (names, text);
  }
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), choice->title);
  adw_combo_row_set_use_subtitle (ADW_COMBO_ROW (row), TRUE);
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (names));
  gtk_widget_set_tooltip_text (row, choice->why);
  g_object_set_data_full (G_OBJECT (row), "choice", g_strdup (choice->id), g_free);
  g_signal_connect_object (row, "notify::selected", G_CALLBACK (option_chosen_cb), session, 0);
  return row;
}

static void
show_choices (Rules *self)
{
  const DryRulePack *pack = get_pack (self->session);

  if (pack != self->shown) {
    for (guint i = 0; i < self->choices->len; i++)
      adw_expander_row_remove (ADW_EXPANDER_ROW (self->expander), self->choices->pdata[i]);
    g_ptr_array_set_size (self->choices, 0);
    self->shown = pack;
    for (guint i = 0; pack && i < pack->n_choices; i++) {
      GtkWidget *row = make_choice (self->session, &pack->choices[i]);
      adw_expander_row_add_row (ADW_EXPANDER_ROW (self->expander), row);
      g_ptr_array_add (self->choices, row);
    }
  }
  for (guint i = 0; pack && i < self->choices->len; i++)
    show_option (self->session, self->choices->pdata[i], &pack->choices[i]);
}

/* --- the pack --- */

static void
pack_chosen_cb (AdwComboRow *row, GParamSpec *pspec, DrySession *session)
{
  const DryCatalog *catalog = dry_session_get_catalog (session);
  const DryJob *job = dry_project_get_job (dry_session_get_project (session));
  guint index = adw_combo_row_get_selected (row);
  const DryRulePack *pack = index < dry_catalog_get_n_rule_packs (catalog)
                                ? dry_catalog_get_rule_pack_at (catalog, index)
                                : NULL;
  g_autofree char *step = NULL;

  if (!pack || g_str_equal (pack->id, job->rule_pack))
    return;
  step = g_strdup_printf (_ ("Rules: %s"), pack->name);
  set_job (session, step, pack->id, job->choices);
}

static void
show_rules (Rules *self)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);
  const DryRulePack *pack = get_pack (self->session);

  for (guint i = 0; i < dry_catalog_get_n_rule_packs (catalog); i++) {
    if (dry_catalog_get_rule_pack_at (catalog, i) != pack)
      continue;
    g_signal_handlers_block_by_func (self->pack, pack_chosen_cb, self->session);
    adw_combo_row_set_selected (ADW_COMBO_ROW (self->pack), i);
    g_signal_handlers_unblock_by_func (self->pack, pack_chosen_cb, self->session);
    gtk_widget_set_tooltip_text (self->pack, pack->edition);
  }
  show_choices (self);
}

static void
changed_cb (DrySession *session, GtkWidget *row)
{
  Rules *self = g_object_get_data (G_OBJECT (row), "rules");

  if (self)
    show_rules (self);
}

static void
rules_free (gpointer data)
{
  Rules *self = data;

  g_ptr_array_unref (self->choices);
  g_object_unref (self->session);
  g_free (self);
}

void
dry_rules_add_rows (DrySession *session, AdwExpanderRow *expander)
{
  const DryCatalog *catalog = dry_session_get_catalog (session);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  Rules *self = g_new0 (Rules, 1);

  self->session = g_object_ref (session);
  self->expander = GTK_WIDGET (expander);
  self->choices = g_ptr_array_new ();
  self->pack = adw_combo_row_new ();
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (catalog); i++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (catalog, i);
    g_autofree char *text =
        g_str_equal (pack->jurisdiction, "none")
            ? g_strdup_printf ("%s: %s", pack->name, pack->edition)
            : g_strdup_printf ("%s (%s): %s", pack->name, pack->jurisdiction, pack->edition);
    gtk_string_list_append (names, text);
  }
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self->pack), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->pack), _ ("Held against the rules of"));
  adw_combo_row_set_use_subtitle (ADW_COMBO_ROW (self->pack), TRUE);
  adw_combo_row_set_model (ADW_COMBO_ROW (self->pack), G_LIST_MODEL (names));
  g_object_set_data_full (G_OBJECT (self->pack), "rules", self, rules_free);
  g_signal_connect_object (self->pack, "notify::selected", G_CALLBACK (pack_chosen_cb), session, 0);
  g_signal_connect_object (session, "document-changed", G_CALLBACK (changed_cb), self->pack, 0);
  adw_expander_row_add_row (expander, self->pack);
  show_rules (self);
}
