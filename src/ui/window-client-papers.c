/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The client's papers from the window: the proposal, with prices or without as they are shown to
 * the client, and the change order from what was saved to what is now. What is on them is the
 * papers floor's. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "papers/client-papers.h"
#include "ui/keep-alternate.h"

static const DryPriceBook *
get_book (DryWindow *self)
{
  const DryJob *job = dry_project_get_job (dry_session_get_project (self->session));
  const DryPriceBook *book =
      dry_catalog_get_price_book (dry_session_get_catalog (self->session), job->prices);

  if (book == NULL)
    dry_window_tell (self, _ ("The catalogue lacks the price book of the job"));
  return book;
}

/* --- proposal --- */

static void
write_proposal (DryWindow *self, const char *path)
{
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  const DryPriceBook *book = get_book (self);
  g_autoptr (GPtrArray) plans = book != NULL ? dry_window_collect_plans (self, 0) : NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (DrySchedule) schedule = NULL;
  g_autoptr (DryCost) cost = NULL;
  const DryPlan *const *all;

  if (plans == NULL)
    return;
  all = (const DryPlan *const *) plans->pdata;
  schedule = dry_schedule_new (all, plans->len, book, NULL, &error);
  if (schedule == NULL) {
    dry_window_tell (self, error->message);
    return;
  }
  cost = dry_cost_new (all, plans->len, schedule, book);
  dry_window_tell_outcome (
      self,
      dry_papers_write_proposal (all, plans->len, cost, schedule,
                                 g_settings_get_boolean (self->settings, "client-prices"), &options,
                                 path, &error),
      path, error);
}

static void
on_export_proposal (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  gboolean prices = g_settings_get_boolean (self->settings, "client-prices");

  dry_window_ask_pdf (self,
                      prices ? _ ("Export the Proposal, with Prices")
                             : _ ("Export the Proposal, without Prices"),
                      /* Translators: end of a file's name */
                      _ (" - proposal.pdf"), write_proposal);
}

/* --- change order --- */

/* What was saved as the plan, what is now as its last alternate. */
static DryProject *
make_change (DryWindow *self, GError **error)
{
  DryHistory *history = dry_session_get_history (self->session);
  const DryProject *saved = dry_history_get_saved (history);
  const DryProject *now = dry_history_get_current (history);

  if (saved == NULL || saved == now) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_TEXT, "%s",
                 saved == NULL ? _ ("Save the project as agreed first: a change is told from that")
                               : _ ("Nothing was changed since the file was saved"));
    return NULL;
  }
  return dry_keep_as_alternate (now, saved, _ ("As changed"), error);
}

static void
write_change (DryWindow *self, const char *path)
{
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  const DryPriceBook *book = get_book (self);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) change = make_change (self, &error);
  g_autoptr (DryComparison) comparison = NULL;

  if (book != NULL && change != NULL)
    comparison = dry_comparison_new (change, 0, dry_session_get_catalog (self->session), book, NULL,
                                     NULL, 0, NULL, &error);
  if (comparison == NULL) {
    if (error != NULL)
      dry_window_tell (self, error->message);
    return;
  }
  dry_window_tell_outcome (
      self, dry_papers_write_change_order (comparison, comparison->n - 1, &options, path, &error),
      path, error);
}

static void
on_export_change (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) change = make_change (self, &error);

  if (change == NULL)
    dry_window_tell (self, error->message);
  else
    dry_window_ask_pdf (self, _ ("Export a Change Order"),
                        /* Translators: end of a file's name */
                        _ (" - change order.pdf"), write_change);
}

void
dry_window_add_client_paper_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "export-proposal", .activate = on_export_proposal},
      {.name = "export-change", .activate = on_export_change},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
