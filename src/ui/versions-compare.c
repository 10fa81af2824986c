/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Differences come from plan/compare.h, as between alternates; this only asks and shows. A dialog
 * closed meanwhile gets no answer. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/versions-compare.h"

#include <glib/gi18n.h>

#include "plan/compare.h"
#include "project/alternate.h"

typedef struct {
  DryProject *now, *was;
  DryCatalog *catalog;
  DryId room;
} Pair;

static void
free_pair (gpointer data)
{
  Pair *pair = data;

  dry_project_unref (pair->now);
  dry_project_unref (pair->was);
  dry_catalog_unref (pair->catalog);
  g_free (pair);
}

/* The project alone: its alternates are no part of what is compared here. */
static DryProject *
leave_alternates (const DryProject *project)
{
  DryProject *bare = dry_project_ref (project);

  while (dry_project_get_n_alternates (bare) > 0) {
    DryId id = dry_alternate_get_id (dry_project_get_alternate_at (bare, 0));
    DryProject *less = dry_edit_remove_alternate (bare, id, NULL);
    dry_project_unref (bare);
    bare = less;
  }
  return bare;
}

static DryComparison *
compare_alone (const Pair *pair, const DryProject *project, GCancellable *cancellable,
               GError **error)
{
  g_autoptr (DryProject) bare = leave_alternates (project);
  const DryPriceBook *book =
      dry_catalog_get_price_book (pair->catalog, dry_project_get_job (bare)->prices);
  DryId room = dry_project_get_room (bare, pair->room) ? pair->room : 0;

  if (!book) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "%s",
                 _ ("The catalogue lacks the price book of the job"));
    return NULL;
  }
  return dry_comparison_new (bare, room, pair->catalog, book, NULL, NULL, 0, cancellable, error);
}

static char *
join (GArray *list)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < list->len; i++) {
    const DryDifference *difference = &g_array_index (list, DryDifference, i);
    g_string_append_printf (text, "%s• %s", i ? "\n" : "", difference->text);
    if (difference->why)
      g_string_append_printf (text, "\n   %s", difference->why);
  }
  if (list->len == 0)
    g_string_append (text, _ ("Nothing that the plan, its price or its days depend on."));
  return g_string_free (text, FALSE);
}

static void
compare_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Pair *pair = data;
  GError *error = NULL;
  g_autoptr (DryComparison) now = compare_alone (pair, pair->now, cancellable, &error);
  g_autoptr (DryComparison) was = now ? compare_alone (pair, pair->was, cancellable, &error) : NULL;
  g_autoptr (GArray) list = NULL;

  if (!was) {
    g_task_return_error (task, error);
    return;
  }
  list = dry_option_list_differences (&now->options[0], &was->options[0], now->arena);
  g_task_return_pointer (task, join (list), g_free);
}

static void
compared_cb (GObject *dialog, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_task_propagate_pointer (G_TASK (result), &error);

  if (gtk_widget_get_mapped (GTK_WIDGET (dialog)))
    adw_message_dialog_set_body (ADW_MESSAGE_DIALOG (dialog), text ? text : error->message);
}

static void
closed_cb (AdwMessageDialog *dialog, const char *response, GCancellable *cancellable)
{
  g_cancellable_cancel (cancellable);
}

void
dry_versions_compare (GtkWindow *parent, DrySession *session, const DryProject *version,
                      const char *time)
{
  /* Translators: date and time of a kept version */
  g_autofree char *heading = g_strdup_printf (_ ("Changed since %s"), time);
  GtkWidget *dialog = adw_message_dialog_new (parent, heading, _ ("Comparing…"));
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GTask) task = g_task_new (dialog, cancellable, compared_cb, NULL);
  Pair *pair = g_new0 (Pair, 1);

  pair->now = dry_project_ref (dry_session_get_project (session));
  pair->was = dry_project_ref (version);
  pair->catalog = dry_catalog_ref (dry_session_get_catalog (session));
  pair->room = dry_session_get_room_id (session);
  g_task_set_task_data (task, pair, free_pair);
  g_task_set_return_on_cancel (task, FALSE);
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _ ("_Close"));
  g_signal_connect_object (dialog, "response", G_CALLBACK (closed_cb), cancellable, 0);
  g_object_set_data_full (G_OBJECT (dialog), "cancellable", g_object_ref (cancellable),
                          g_object_unref);
  gtk_window_present (GTK_WINDOW (dialog));
  g_task_run_in_thread (task, compare_thread);
}
