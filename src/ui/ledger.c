/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line of totals and the pages above it. Refreshed when a newer plan arrives; the pages only
 * while they are seen, so that a drag pays for nothing hidden. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "papers/papers.h"
#include "plan/remedy.h"
#include "ui/ledger-list.h"
#include "ui/ledger-pages.h"
#include "ui/scene-view.h"

typedef enum { PAGE_FINDINGS, PAGE_TAKEOFF, PAGE_SHEETS, PAGE_ORDER, N_PAGES } Page;

struct _DryLedger {
  GtkWidget parent_instance;
  DrySession *session;
  GtkWidget *bar, *toggle, *copy;
  GtkBox *totals;
  GtkSpinner *spinner;
  GtkRevealer *revealer;
  GtkStack *pages;
  GtkWidget *total[DRY_N_TOTALS];
  GtkWidget *page[N_PAGES];
  GtkWidget *sheets;              /* box of pictures in the cut sheets' page */
  const DryPlan *filled[N_PAGES]; /* compared only, never read */
  gboolean choosing;
};

G_DEFINE_FINAL_TYPE (DryLedger, dry_ledger, GTK_TYPE_WIDGET)

enum { PROP_OPEN = 1, N_PROPS };
static GParamSpec *properties[N_PROPS];

/* --- pages --- */

static void
fill_sheets (DryLedger *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  guint n = plan && plan->boards->cutting ? plan->boards->cutting->n_sheets : 0;
  GtkWidget *child = gtk_widget_get_first_child (self->sheets);

  for (guint i = 0; i < n; i++) {
    g_autoptr (DryScene) scene = dry_drawing_cut_sheet (plan, i);
    g_autofree char *name = g_strdup_printf (_ ("Cut sheet %u"), i + 1);

    if (!child) {
      child = dry_scene_view_new (236, 206, FALSE);
      gtk_widget_add_css_class (child, "card");
      gtk_box_append (GTK_BOX (self->sheets), child);
    }
    gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                    -1);
    gtk_widget_set_tooltip_text (child, name);
    dry_scene_view_set_scene (DRY_SCENE_VIEW (child), scene);
    child = gtk_widget_get_next_sibling (child);
  }
  while (child) {
    GtkWidget *next = gtk_widget_get_next_sibling (child);
    gtk_box_remove (GTK_BOX (self->sheets), child);
    child = next;
  }
}

static Page
get_page (DryLedger *self)
{
  GtkWidget *shown = gtk_stack_get_visible_child (self->pages);

  for (Page page = 0; page < N_PAGES; page++)
    if (self->page[page] == shown)
      return page;
  return PAGE_FINDINGS;
}

static void
fill_shown_page (DryLedger *self)
{
  Page page = get_page (self);
  const DryPlan *plan = dry_session_get_plan (self->session);

  gtk_widget_set_visible (self->copy, page == PAGE_TAKEOFF);
  if (!gtk_revealer_get_reveal_child (self->revealer) || !plan || self->filled[page] == plan)
    return;
  self->filled[page] = plan;
  switch (page) {
  case PAGE_FINDINGS:
    dry_ledger_fill_findings (self->session, DRY_LEDGER_LIST (self->page[page]));
    break;
  case PAGE_TAKEOFF:
    dry_ledger_fill_takeoff (self->session, DRY_LEDGER_LIST (self->page[page]));
    break;
  case PAGE_ORDER:
    dry_ledger_fill_order (self->session, DRY_LEDGER_LIST (self->page[page]));
    break;
  case PAGE_SHEETS:
  case N_PAGES:
  default:
    fill_sheets (self);
    break;
  }
}

static void
fill_totals (DryLedger *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  GtkWidget *findings = self->total[DRY_TOTAL_FINDINGS];

  for (guint i = 0; i < DRY_N_TOTALS; i++) {
    g_autofree char *text = dry_total_text (self->session, (DryTotal) i);
    g_autofree char *working = dry_total_working (self->session, (DryTotal) i);

    gtk_button_set_label (GTK_BUTTON (self->total[i]), text);
    gtk_widget_set_tooltip_text (self->total[i], working);
  }
  gtk_widget_remove_css_class (findings, "error");
  gtk_widget_remove_css_class (findings, "warning");
  if (plan && plan->findings->count[DRY_SEVERITY_STOP])
    gtk_widget_add_css_class (findings, "error");
  else if (plan && plan->findings->count[DRY_SEVERITY_FIX])
    gtk_widget_add_css_class (findings, "warning");
}

static void
plan_changed_cb (DryLedger *self)
{
  gboolean busy = dry_session_is_busy (self->session);

  gtk_spinner_set_spinning (self->spinner, busy && !dry_session_get_plan (self->session));
  fill_totals (self);
  fill_shown_page (self);
}

/* --- what people do --- */

static void
finding_chosen_cb (DryLedgerList *list, guint index, DryLedger *self)
{
  self->choosing = TRUE;
  dry_session_select_finding (self->session, (gint) index);
  self->choosing = FALSE;
}

static void
selection_changed_cb (DryLedger *self)
{
  gint finding = dry_session_get_selected_finding (self->session);

  if (finding < 0 || self->choosing)
    return;
  gtk_stack_set_visible_child (self->pages, self->page[PAGE_FINDINGS]);
  if (gtk_revealer_get_reveal_child (self->revealer))
    dry_ledger_list_show (DRY_LEDGER_LIST (self->page[PAGE_FINDINGS]), (guint) finding);
}

/* The remedy of the button's place among those that are edits. */
static const DryRemedy *
find_remedy (const DryRule *rule, guint act)
{
  for (guint i = 0; i < rule->n_remedies; i++) {
    const DryRemedy *remedy = &rule->remedies[i];

    if (!remedy->edit || !dry_remedy_is_known (remedy->edit))
      continue;
    if (act-- == 0)
      return remedy;
  }
  return NULL;
}

static void
finding_acted_cb (DryLedgerList *list, guint index, guint act, DryLedger *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  const DryRemedy *remedy;
  GError *error = NULL;
  DryProject *project;

  if (!plan || index >= plan->findings->n)
    return;
  remedy = find_remedy (plan->findings->items[index].rule, act);
  if (!remedy)
    return;
  project = dry_remedy_apply (dry_session_get_project (self->session),
                              dry_session_get_room_id (self->session), plan,
                              &plan->findings->items[index], remedy, &error);
  dry_session_apply (self->session, project, remedy->text, NULL, error);
}

static void
copy_clicked_cb (DryLedger *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  g_autofree char *csv = NULL;

  if (!plan)
    return;
  csv = dry_takeoff_to_csv (plan->takeoff);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), csv);
  g_signal_emit_by_name (self->session, "told", _ ("Take-off copied"), NULL);
}

static void
total_clicked_cb (GtkButton *button, DryLedger *self)
{
  static const Page PAGES[DRY_N_TOTALS] = {
      [DRY_TOTAL_AREA] = PAGE_TAKEOFF,      [DRY_TOTAL_SHEETS] = PAGE_SHEETS,
      [DRY_TOTAL_TIME] = PAGE_ORDER,        [DRY_TOTAL_COST] = PAGE_TAKEOFF,
      [DRY_TOTAL_FINDINGS] = PAGE_FINDINGS,
  };
  gboolean open = gtk_revealer_get_reveal_child (self->revealer);

  for (guint i = 0; i < DRY_N_TOTALS; i++)
    if (self->total[i] == GTK_WIDGET (button)) {
      gboolean shown = open && get_page (self) == PAGES[i];
      gtk_stack_set_visible_child (self->pages, self->page[PAGES[i]]);
      g_object_set (self, "open", !shown, NULL);
    }
}

/* --- building --- */

static void
add_page (DryLedger *self, Page page, GtkWidget *child, const char *name, const char *title)
{
  self->page[page] = child;
  gtk_stack_add_titled (self->pages, child, name, title);
}

static void
build_pages (DryLedger *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *findings = dry_ledger_list_new (_ ("Nothing to mind: no rule of the pack is broken"));

  add_page (self, PAGE_FINDINGS, findings, "findings", _ ("Findings"));
  add_page (self, PAGE_TAKEOFF, dry_ledger_list_new (_ ("Nothing to buy yet")), "takeoff",
            _ ("Take-off"));
  self->sheets = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  gtk_widget_add_css_class (self->sheets, "ledger-sheets");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_AUTOMATIC,
                                  GTK_POLICY_NEVER);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->sheets);
  add_page (self, PAGE_SHEETS, scroller, "sheets", _ ("Cut sheets"));
  add_page (self, PAGE_ORDER, dry_ledger_list_new (_ ("Nothing to do yet")), "order",
            _ ("Order of work"));
  g_signal_connect (findings, "chosen", G_CALLBACK (finding_chosen_cb), self);
  g_signal_connect (findings, "acted", G_CALLBACK (finding_acted_cb), self);
  g_signal_connect_swapped (self->pages, "notify::visible-child", G_CALLBACK (fill_shown_page),
                            self);
}

static void
build_totals (DryLedger *self)
{
  for (guint i = 0; i < DRY_N_TOTALS; i++) {
    self->total[i] = gtk_button_new_with_label ("");
    gtk_widget_add_css_class (self->total[i], "flat");
    gtk_widget_add_css_class (self->total[i], "ledger-total");
    g_signal_connect (self->total[i], "clicked", G_CALLBACK (total_clicked_cb), self);
    gtk_box_append (self->totals, self->total[i]);
  }
}

/* --- object --- */

static void
reveal_changed_cb (DryLedger *self)
{
  gboolean open = gtk_revealer_get_reveal_child (self->revealer);

  gtk_button_set_icon_name (GTK_BUTTON (self->toggle),
                            open ? "pan-down-symbolic" : "pan-up-symbolic");
  fill_shown_page (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_OPEN]);
}

static void
dry_ledger_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_OPEN)
    g_value_set_boolean (value, gtk_revealer_get_reveal_child (DRY_LEDGER (object)->revealer));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
dry_ledger_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_OPEN)
    gtk_revealer_set_reveal_child (DRY_LEDGER (object)->revealer, g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
dry_ledger_dispose (GObject *object)
{
  DryLedger *self = DRY_LEDGER (object);
  GtkWidget *child;

  if (self->pages)
    g_signal_handlers_disconnect_by_data (self->pages, self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  self->pages = NULL;
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_ledger_parent_class)->dispose (object);
}

static void
dry_ledger_class_init (DryLedgerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = dry_ledger_dispose;
  object_class->get_property = dry_ledger_get_property;
  object_class->set_property = dry_ledger_set_property;
  properties[PROP_OPEN] =
      g_param_spec_boolean ("open", NULL, NULL, FALSE,
                            G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "ledger");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/drybay/Drybay/ledger.ui");
  gtk_widget_class_bind_template_child (widget_class, DryLedger, bar);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, toggle);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, copy);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, totals);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, spinner);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, revealer);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, pages);
  gtk_widget_class_bind_template_callback (widget_class, copy_clicked_cb);
}

static void
dry_ledger_init (DryLedger *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_object_bind_property (self->toggle, "active", self->revealer, "reveal-child",
                          G_BINDING_BIDIRECTIONAL | G_BINDING_SYNC_CREATE);
  g_signal_connect_object (self->revealer, "notify::reveal-child", G_CALLBACK (reveal_changed_cb),
                           self, G_CONNECT_SWAPPED);
}

GtkWidget *
dry_ledger_new (DrySession *session)
{
  DryLedger *self = g_object_new (DRY_TYPE_LEDGER, NULL);

  self->session = g_object_ref (session);
  build_totals (self);
  build_pages (self);
  g_signal_connect_object (session, "plan-changed", G_CALLBACK (plan_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (plan_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  plan_changed_cb (self);
  return GTK_WIDGET (self);
}
