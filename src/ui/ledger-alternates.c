/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row an alternate, with its figures and differences unfolded; buttons to choose, rename and
 * remove, a menu that adds one by system and a button that keeps what was changed as one. Figures
 * come from plan/compare.h; nothing is reckoned here. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-alternates.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "plan/compare.h"
#include "ui/access.h"
#include "ui/comparer.h"
#include "ui/keep-alternate.h"
#include "ui/later.h"
#include "ui/ledger-entries.h"
#include "ui/ledger-pages.h"
#include "ui/ledger-schedule.h"

/* A drag makes a plan for every frame; alternates wait until it rests so long. */
#define REST_MS 150

struct _DryLedgerAlternates {
  GtkWidget parent_instance;
  DrySession *session;
  GtkWidget *box, *bar, *add, *spinner, *list;
  DryComparer *comparer;
  GArray *ids; /* DryId of the rows */
};

enum { ACT_CHOOSE, ACT_RENAME, ACT_REMOVE, N_ACTS };

G_DEFINE_FINAL_TYPE (DryLedgerAlternates, dry_ledger_alternates, GTK_TYPE_WIDGET)

/* --- rows --- */

static void
add_figures (DryEntries *entries, GPtrArray *details, const DryOption *option)
{
  const DryPlanContext *context = &option->plans[0]->context;
  g_autofree char *length = g_strdup (dry_context_length (context, option->seam_length));
  g_autofree char *thick = g_strdup (dry_context_length (context, option->thickness));
  gboolean metric = context->job->metric;
  double weight = metric ? option->weight : option->weight / 0.45359237;

#define PAIR(heading, ...)                                                                         \
  dry_entries_add_pair (details, heading, dry_entries_keep (entries, g_strdup_printf (__VA_ARGS__)))
  PAIR (_ ("Work"), _ ("%.1f h"), option->hours);
  if (option->days_to_tile > 0)
    PAIR (_ ("Days to tile"), "%d", (int) option->days_to_tile);
  if (option->days_to_shower > 0)
    PAIR (_ ("Days to the first shower"), "%d", (int) option->days_to_shower);
  PAIR (_ ("Sheets"), "%u", option->sheets);
  PAIR (_ ("Weight on the walls"), metric ? _ ("%.0f kg") : _ ("%.0f lb"), weight);
  PAIR (_ ("Seams"), "%u, %s", option->seams, length);
  PAIR (_ ("Stud to tile face"), "%s", thick);
  PAIR (_ ("Findings"), _ ("%u to stop for, %u to fix, %u advice"), option->findings[0],
        option->findings[1], option->findings[2]);
  for (guint i = 0; i < option->n_skill; i++)
    PAIR (_ ("Wants a practiced hand"), "%s: %s", option->skill[i].step, option->skill[i].why);
#undef PAIR
}

static char *
join_differences (const DryOption *option, guint most)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < option->n_differences && i < most; i++)
    g_string_append_printf (text, "%s%s", i ? ", " : "", option->differences[i].text);
  if (option->n_differences > most)
    g_string_append (text, " …");
  return g_string_free (text, FALSE);
}

static void
add_option (DryEntries *entries, const DryOption *option, guint index)
{
  GPtrArray *details = g_ptr_array_new ();
  g_autofree char *money = dry_text_money (option->cost->total);
  g_autofree char *day = option->schedule->shower >= 0
                             ? dry_text_day (option->schedule, option->schedule->shower)
                             : NULL;
  DryLedgerEntry entry = {
      .key = dry_entries_keep (entries, g_strdup_printf ("%u/%u", option->id, index)),
      .title = option->id == 0 ? _ ("As planned") : option->name,
      .subtitle = option->id == 0 ? _ ("What is on the board")
                  : option->n_differences == 0
                      ? _ ("No different as yet")
                      : dry_entries_keep (entries, join_differences (option, 5)),
      .value = dry_entries_keep (entries,
                                 day ? g_strdup_printf ("%s · %s", money, day) : g_strdup (money)),
  };

  if (option->id != 0) {
    DryLedgerAct *acts = g_new0 (DryLedgerAct, N_ACTS);
    acts[ACT_CHOOSE].label = _ ("Choose");
    acts[ACT_RENAME].label = _ ("Rename…");
    acts[ACT_REMOVE].label = _ ("Remove");
    entry.acts = (const DryLedgerAct *) (gconstpointer) dry_entries_keep (entries, (char *) acts);
    entry.n_acts = N_ACTS;
  }
  add_figures (entries, details, option);
  for (guint i = 0; i < option->n_differences; i++)
    dry_entries_add_pair (details, option->differences[i].text,
                          option->differences[i].why ? option->differences[i].why : "–");
  entry.details = dry_entries_keep_list (entries, details);
  dry_entries_add (entries, entry);
}

static void
compared_cb (DryLedgerAlternates *self)
{
  const DryComparison *comparison = dry_comparer_get (self->comparer);
  const char *error = dry_comparer_get_error (self->comparer);
  DryEntries entries;

  gtk_spinner_set_spinning (GTK_SPINNER (self->spinner), FALSE);
  g_array_set_size (self->ids, 0);
  entries = dry_entries_begin ();
  for (guint i = 0; comparison && i < comparison->n; i++) {
    g_array_append_val (self->ids, comparison->options[i].id);
    add_option (&entries, &comparison->options[i], i);
  }
  if (error)
    dry_entries_add (&entries, (DryLedgerEntry){.key = "error", .title = error});
  dry_entries_end (&entries, DRY_LEDGER_LIST (self->list));
}

void
dry_ledger_alternates_fill (DryLedgerAlternates *self)
{
  gtk_spinner_set_spinning (GTK_SPINNER (self->spinner), TRUE);
  dry_comparer_ask (self->comparer, REST_MS);
}

/* --- what people do --- */

static void
acted_cb (DryLedgerList *list, guint index, guint act, DryLedgerAlternates *self)
{
  const DryProject *project = dry_session_get_project (self->session);
  GError *error = NULL;
  DryProject *changed;
  DryId id;

  if (index >= self->ids->len)
    return;
  id = g_array_index (self->ids, DryId, index);
  if (act == ACT_RENAME) {
    dry_ask_alternate_name (GTK_WIDGET (self), self->session, id);
    return;
  }
  if (act == ACT_CHOOSE)
    changed = dry_edit_choose_alternate (project, id, _ ("As it was before"), &error);
  else
    changed = dry_edit_remove_alternate (project, id, &error);
  dry_session_apply (self->session, changed,
                     act == ACT_CHOOSE ? _ ("Choose Alternate") : _ ("Remove Alternate"), NULL,
                     error);
}

/* An alternate of the room shown with another backer system, named after it. */
static DryProject *
add_with_system (DryLedgerAlternates *self, const DrySystem *system, GError **error)
{
  const DryProject *project = dry_session_get_project (self->session);
  const DryRoom *room = dry_session_get_room (self->session);
  g_autoptr (DryProject) added = NULL, same = NULL, changed = NULL;
  DryFinish finish = room->finish;
  DryId id;

  added = dry_edit_add_alternate (project, system->name, NULL, &id, error);
  if (!added)
    return NULL;
  same = dry_project_resolve (added, id);
  finish.system = (char *) system->id;
  finish.sheet = NULL;
  finish.board = 0;
  changed = dry_edit_set_finish (same, room->id, &finish, error);
  return changed ? dry_edit_set_alternate (added, id, changed, error) : NULL;
}

static void
add_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  DryLedgerAlternates *self = DRY_LEDGER_ALTERNATES (widget);
  const DrySystem *system = dry_catalog_get_system (dry_session_get_catalog (self->session),
                                                    g_variant_get_string (parameter, NULL));
  GError *error = NULL;
  DryProject *project;

  if (!system)
    return;
  project = add_with_system (self, system, &error);
  dry_session_apply (self->session, project, _ ("Add Alternate"), NULL, error);
}

static void
fill_menu (DryLedgerAlternates *self)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);
  g_autoptr (GMenu) menu = g_menu_new ();

  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++) {
    const DrySystem *system = dry_catalog_get_system_at (catalog, i);
    g_autoptr (GMenuItem) item = g_menu_item_new (system->name, NULL);
    g_menu_item_set_action_and_target (item, "alternate.add", "s", system->id);
    g_menu_append_item (menu, item);
  }
  dry_later_menu (self->add, G_MENU_MODEL (menu));
}

/* --- object --- */

static void
dry_ledger_alternates_dispose (GObject *object)
{
  DryLedgerAlternates *self = DRY_LEDGER_ALTERNATES (object);

  if (self->comparer)
    dry_comparer_stop (self->comparer);
  g_clear_object (&self->comparer);
  self->list = NULL;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->ids, g_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_ledger_alternates_parent_class)->dispose (object);
}

static void
dry_ledger_alternates_class_init (DryLedgerAlternatesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_ledger_alternates_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_install_action (widget_class, "alternate.add", "s", add_cb);
}

static void
dry_ledger_alternates_init (DryLedgerAlternates *self)
{
  self->bar = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  self->ids = g_array_new (FALSE, FALSE, sizeof (DryId));
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->add = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->add), _ ("Add Alternate"));
  dry_access_set_name (self->add, _ ("Add an alternate with another backer system"));
  self->spinner = gtk_spinner_new ();
  dry_access_set_name (self->spinner, _ ("Comparing"));
  self->list = dry_ledger_list_new (_ ("Alternates"), _ ("Nothing to compare yet"));
  gtk_widget_set_vexpand (self->list, TRUE);
  gtk_widget_set_margin_start (self->bar, 12);
  gtk_widget_set_margin_bottom (self->bar, 6);
  gtk_box_append (GTK_BOX (self->bar), self->add);
  gtk_box_append (GTK_BOX (self->bar), self->spinner);
  gtk_box_append (GTK_BOX (self->box), self->bar);
  gtk_box_append (GTK_BOX (self->box), self->list);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  g_signal_connect (self->list, "acted", G_CALLBACK (acted_cb), self);
}

GtkWidget *
dry_ledger_alternates_new (DrySession *session)
{
  DryLedgerAlternates *self = g_object_new (DRY_TYPE_LEDGER_ALTERNATES, NULL);

  GtkWidget *show = gtk_button_new_with_mnemonic (_ ("_Show to the Client"));

  self->session = g_object_ref (session);
  self->comparer = dry_comparer_new (session);
  g_signal_connect_object (self->comparer, "compared", G_CALLBACK (compared_cb), self,
                           G_CONNECT_SWAPPED);
  fill_menu (self);
  gtk_box_insert_child_after (GTK_BOX (self->bar), dry_keep_alternate_new (session), self->add);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (show), "win.show-client");
  gtk_widget_set_halign (show, GTK_ALIGN_END);
  gtk_widget_set_hexpand (show, TRUE);
  gtk_widget_set_margin_end (show, 12);
  gtk_box_append (GTK_BOX (self->bar), show);
  return GTK_WIDGET (self);
}
