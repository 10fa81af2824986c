/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line of totals that is always seen: a button for each total of the newest plan. Knows which
 * one was asked for, not what is shown for it. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-totals.h"

#include "ui/ledger-pages.h"

struct _DryLedgerTotals {
  GtkBox parent_instance;
  DrySession *session;
  GtkWidget *total[DRY_N_TOTALS];
};

G_DEFINE_FINAL_TYPE (DryLedgerTotals, dry_ledger_totals, GTK_TYPE_BOX)

enum { CHOSEN, N_SIGNALS };
static guint signals[N_SIGNALS];

/* Of a button of the line. */
static DryTotal
get_total (DryLedgerTotals *self, GtkWidget *button)
{
  for (guint i = 0; i < DRY_N_TOTALS; i++)
    if (self->total[i] == button)
      return (DryTotal) i;
  g_assert_not_reached ();
}

/* Only what changes: a class taken off and put on again has the window laid out anew. */
static void
set_class (GtkWidget *widget, const char *name, gboolean on)
{
  if (gtk_widget_has_css_class (widget, name) == on)
    return;
  if (on)
    gtk_widget_add_css_class (widget, name);
  else
    gtk_widget_remove_css_class (widget, name);
}

void
dry_ledger_totals_fill (DryLedgerTotals *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  GtkWidget *findings = self->total[DRY_TOTAL_FINDINGS];
  gboolean stop = plan && plan->findings->count[DRY_SEVERITY_STOP] > 0;

  for (guint i = 0; i < DRY_N_TOTALS; i++) {
    g_autofree char *text = dry_total_text (self->session, (DryTotal) i);
    g_autofree char *working = dry_total_working (self->session, (DryTotal) i);

    gtk_button_set_label (GTK_BUTTON (self->total[i]), text);
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->total[i]),
                                    GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, working, -1);
  }
  set_class (findings, "error", stop);
  set_class (findings, "warning", plan && !stop && plan->findings->count[DRY_SEVERITY_FIX] > 0);
}

/* --- a button --- */

static void
clicked_cb (GtkWidget *button, DryLedgerTotals *self)
{
  g_signal_emit (self, signals[CHOSEN], 0, (guint) get_total (self, button));
}

static gboolean
is_cut_short (GtkWidget *button)
{
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

  return pango_layout_is_ellipsized (gtk_label_get_layout (label));
}

/* Told when it is asked for: setting a tip at every step of a drag asks the display each time. */
static gboolean
query_tooltip_cb (GtkWidget *button, int x, int y, gboolean keyboard, GtkTooltip *tooltip,
                  DryLedgerTotals *self)
{
  g_autofree char *working = dry_total_working (self->session, get_total (self, button));
  g_autofree char *all =
      is_cut_short (button)
          ? g_strconcat (gtk_button_get_label (GTK_BUTTON (button)), "\n", working, NULL)
          : g_strdup (working);

  gtk_tooltip_set_text (tooltip, all);
  return all[0] != '\0';
}

/* The line must not keep the window from being narrow: a long total takes a second line, and is cut
 * short only where that is not enough. */
static void
let_wrap (GtkWidget *button)
{
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

  gtk_label_set_wrap (label, TRUE);
  gtk_label_set_lines (label, 2);
  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (label, 0);
}

/* --- object --- */

static void
dry_ledger_totals_dispose (GObject *object)
{
  g_clear_object (&DRY_LEDGER_TOTALS (object)->session);
  G_OBJECT_CLASS (dry_ledger_totals_parent_class)->dispose (object);
}

static void
dry_ledger_totals_class_init (DryLedgerTotalsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = dry_ledger_totals_dispose;
  signals[CHOSEN] = g_signal_new ("chosen", DRY_TYPE_LEDGER_TOTALS, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
dry_ledger_totals_init (DryLedgerTotals *self)
{
  for (guint i = 0; i < DRY_N_TOTALS; i++) {
    self->total[i] = gtk_button_new_with_label ("");
    gtk_widget_add_css_class (self->total[i], "flat");
    gtk_widget_add_css_class (self->total[i], "ledger-total");
    let_wrap (self->total[i]);
    gtk_widget_set_has_tooltip (self->total[i], TRUE);
    g_signal_connect (self->total[i], "query-tooltip", G_CALLBACK (query_tooltip_cb), self);
    g_signal_connect (self->total[i], "clicked", G_CALLBACK (clicked_cb), self);
    gtk_box_append (GTK_BOX (self), self->total[i]);
  }
}

void
dry_ledger_totals_set_session (DryLedgerTotals *self, DrySession *session)
{
  g_return_if_fail (self->session == NULL);
  self->session = g_object_ref (session);
}
