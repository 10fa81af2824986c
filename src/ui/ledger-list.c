/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows are found again by key; only what is new is built and only what is gone is taken away.
 * A row unfolds by its arrow; clicking it chooses it. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-list.h"

#include <glib/gi18n.h>

#include "ui/access.h"
#include "ui/symbol.h"
#include "ui/wrapping.h"

/* Rows built at a time: each is some dozen widgets, and a large room may have a thousand findings.
 */
#define STEP 100

typedef struct {
  DryLedgerList *list;
  char *key, *heading;
  guint index;
  char *contents; /* details and acts as one text: built anew only when it changes */
  GtkWidget *row, *icon, *value;
  GPtrArray *children;
} Row;

struct _DryLedgerList {
  GtkWidget parent_instance;
  GtkWidget *stack, *scroller, *empty, *more;
  GtkListBox *box;
  GHashTable *rows; /* key to Row */
  char *chosen;     /* key of the marked row, or NULL */
  gboolean stepping;
  guint n, limit; /* entries there are, and how many of them at most have rows */
};

G_DEFINE_FINAL_TYPE (DryLedgerList, dry_ledger_list, GTK_TYPE_WIDGET)

enum { SIGNAL_CHOSEN, SIGNAL_ACTED, SIGNAL_UNFOLDED, SIGNAL_MORE, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
row_free (gpointer data)
{
  Row *row = data;

  g_free (row->key);
  g_free (row->heading);
  g_free (row->contents);
  g_ptr_array_unref (row->children);
  g_free (row);
}

/* --- building --- */

static void
act_clicked_cb (GtkButton *button, Row *row)
{
  guint act = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "act"));

  g_signal_emit (row->list, signals[SIGNAL_ACTED], 0, row->index, act);
}

static GtkWidget *
make_detail (const char *heading, const char *text)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  g_autofree char *short_heading = dry_wrapping_shorten (heading);
  GtkWidget *name = gtk_label_new (short_heading), *body = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  dry_wrapping_watch (GTK_LABEL (name));
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_yalign (GTK_LABEL (name), 0);
  gtk_label_set_width_chars (GTK_LABEL (name), 9);
  gtk_widget_add_css_class (name, "dim-label");
  gtk_label_set_xalign (GTK_LABEL (body), 0);
  gtk_label_set_wrap (GTK_LABEL (body), TRUE);
  dry_wrapping_watch (GTK_LABEL (body));
  gtk_label_set_selectable (GTK_LABEL (body), TRUE);
  gtk_widget_set_hexpand (body, TRUE);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), body);
  gtk_widget_add_css_class (box, "ledger-detail");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_widget_set_focusable (row, FALSE);
  return row;
}

static GtkWidget *
make_act (Row *row, const DryLedgerAct *act, guint index)
{
  GtkWidget *button = gtk_button_new_with_label (act->label);
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  dry_wrapping_watch (GTK_LABEL (label));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_sensitive (button, !act->refused);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  act->note ? act->note : "", -1);
  g_object_set_data (G_OBJECT (button), "act", GUINT_TO_POINTER (index));
  g_signal_connect (button, "clicked", G_CALLBACK (act_clicked_cb), row);
  return button;
}

/* Buttons alone stand in a line; each with its note has a line of its own. */
static GtkWidget *
make_acts (Row *row, const DryLedgerAct *acts, guint n)
{
  GtkWidget *line = gtk_list_box_row_new (), *grid = gtk_grid_new ();
  gboolean noted = FALSE;

  for (guint i = 0; i < n; i++)
    noted |= acts[i].note != NULL;
  for (guint i = 0; i < n; i++) {
    gtk_grid_attach (GTK_GRID (grid), make_act (row, &acts[i], i), noted ? 0 : (int) i,
                     noted ? (int) i : 0, 1, 1);
    if (acts[i].note) {
      GtkWidget *note = gtk_label_new (acts[i].note);

      gtk_label_set_xalign (GTK_LABEL (note), 0);
      gtk_label_set_wrap (GTK_LABEL (note), TRUE);
      dry_wrapping_watch (GTK_LABEL (note));
      gtk_widget_set_hexpand (note, TRUE);
      gtk_widget_add_css_class (note, "dim-label");
      gtk_grid_attach (GTK_GRID (grid), note, 1, (int) i, 1, 1);
    }
  }
  gtk_grid_set_column_spacing (GTK_GRID (grid), noted ? 14 : 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_widget_add_css_class (grid, "ledger-detail");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (line), grid);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (line), FALSE);
  gtk_widget_set_focusable (line, FALSE);
  return line;
}

static char *
join_contents (const DryLedgerEntry *entry)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; entry->details && entry->details[i]; i++)
    g_string_append_printf (text, "%s\n", entry->details[i]);
  for (guint i = 0; i < entry->n_acts; i++)
    g_string_append_printf (text, "!%d%s\n%s\n", entry->acts[i].refused, entry->acts[i].label,
                            entry->acts[i].note ? entry->acts[i].note : "");
  return g_string_free (text, FALSE);
}

static void
add_child (Row *row, GtkWidget *child)
{
  adw_expander_row_add_row (ADW_EXPANDER_ROW (row->row), child);
  g_ptr_array_add (row->children, child);
}

static void
fill_contents (Row *row, const DryLedgerEntry *entry)
{
  g_autofree char *contents = join_contents (entry);

  if (g_strcmp0 (contents, row->contents) == 0)
    return;
  for (guint i = 0; i < row->children->len; i++)
    adw_expander_row_remove (ADW_EXPANDER_ROW (row->row), row->children->pdata[i]);
  g_ptr_array_set_size (row->children, 0);
  /* First what can be done about it: nobody should have to scroll for that. */
  if (entry->n_acts > 0)
    add_child (row, make_acts (row, entry->acts, entry->n_acts));
  for (guint i = 0; entry->details && entry->details[i] && entry->details[i + 1]; i += 2)
    add_child (row, make_detail (entry->details[i], entry->details[i + 1]));
  g_free (row->contents);
  row->contents = g_steal_pointer (&contents);
}

static void
fill_row (Row *row, const DryLedgerEntry *entry, guint index)
{
  g_autofree char *title = dry_wrapping_shorten (entry->title);
  g_autofree char *subtitle = dry_wrapping_shorten (entry->subtitle);

  if (g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row->row)), title) != 0) {
    adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row->row), title);
    dry_access_name_expander_row (ADW_EXPANDER_ROW (row->row));
  }
  row->index = index;
  if (g_strcmp0 (row->heading, entry->heading) != 0) {
    g_free (row->heading);
    row->heading = g_strdup (entry->heading);
  }
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (row->row), subtitle ? subtitle : "");
  gtk_label_set_text (GTK_LABEL (row->value), entry->value ? entry->value : "");
  gtk_widget_set_visible (row->value, entry->value != NULL);
  fill_contents (row, entry);
}

/* --- the chosen row --- */

static Row *
get_row (DryLedgerList *self, guint index)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->box, (int) index);

  return row ? g_object_get_data (G_OBJECT (row), "row") : NULL;
}

/* The owner then gives the entries anew. */
static void
show_more (DryLedgerList *self)
{
  self->limit += STEP;
  g_signal_emit (self, signals[SIGNAL_MORE], 0);
}

static void
more_clicked_cb (DryLedgerList *self)
{
  guint first = self->limit;

  show_more (self);
  if (get_row (self, first))
    gtk_widget_grab_focus (get_row (self, first)->row);
}

/* The row of an entry, built when it has none yet. */
static Row *
reach_row (DryLedgerList *self, guint index)
{
  if (index < self->n && index >= self->limit) {
    self->limit = index + 1;
    show_more (self);
  }
  return index < self->n ? get_row (self, index) : NULL;
}

static void
mark_row (DryLedgerList *self, Row *row)
{
  Row *before = self->chosen ? g_hash_table_lookup (self->rows, self->chosen) : NULL;

  if (before == row)
    return;
  if (before)
    gtk_widget_remove_css_class (before->row, "chosen");
  if (row)
    gtk_widget_add_css_class (row->row, "chosen");
  g_free (self->chosen);
  self->chosen = row ? g_strdup (row->key) : NULL;
}

static void
choose_row (Row *row)
{
  if (row->list->stepping)
    mark_row (row->list, row);
  g_signal_emit (row->list, signals[SIGNAL_CHOSEN], 0, row->index);
}

static void
expanded_cb (AdwExpanderRow *widget, GParamSpec *pspec, Row *row)
{
  choose_row (row);
  g_signal_emit (row->list, signals[SIGNAL_UNFOLDED], 0);
}

/* The row whose own line, not something unfolded under it, has the focus. */
static Row *
get_focused_row (DryLedgerList *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root ? gtk_root_get_focus (root) : NULL, *row = focus;

  if (!focus || !GTK_IS_LIST_BOX_ROW (focus))
    return NULL;
  while (row && gtk_widget_get_parent (row) != GTK_WIDGET (self->box))
    row = gtk_widget_get_parent (row);
  return row ? g_object_get_data (G_OBJECT (row), "row") : NULL;
}

static void
focus_row (Row *row)
{
  gtk_widget_child_focus (row->row, GTK_DIR_TAB_FORWARD);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        DryLedgerList *self)
{
  Row *row = get_focused_row (self);

  if (!self->stepping || !row || (key != GDK_KEY_Return && key != GDK_KEY_KP_Enter))
    return GDK_EVENT_PROPAGATE;
  if (g_strcmp0 (row->key, self->chosen) == 0) {
    Row *next = reach_row (self, state & GDK_SHIFT_MASK ? row->index - 1 : row->index + 1);
    if (!next) {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return GDK_EVENT_STOP;
    }
    row = next;
    focus_row (row);
  }
  choose_row (row);
  return GDK_EVENT_STOP;
}

static void
update_header (GtkListBoxRow *widget, GtkListBoxRow *before, gpointer data)
{
  const Row *row = g_object_get_data (G_OBJECT (widget), "row");
  const Row *above = before ? g_object_get_data (G_OBJECT (before), "row") : NULL;
  GtkWidget *label = gtk_list_box_row_get_header (widget);

  if (!row || !row->heading || (above && g_strcmp0 (above->heading, row->heading) == 0)) {
    gtk_list_box_row_set_header (widget, NULL);
    return;
  }
  if (label && g_str_equal (gtk_label_get_text (GTK_LABEL (label)), row->heading))
    return;
  label = gtk_label_new (row->heading);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "ledger-heading");
  gtk_list_box_row_set_header (widget, label);
}

static Row *
make_row (DryLedgerList *self, const DryLedgerEntry *entry)
{
  Row *row = g_new0 (Row, 1);

  row->list = self;
  row->key = g_strdup (entry->key);
  row->children = g_ptr_array_new ();
  row->row = adw_expander_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row->row), FALSE);
  row->value = gtk_label_new (NULL);
  gtk_widget_add_css_class (row->value, "numeric");
  adw_expander_row_add_action (ADW_EXPANDER_ROW (row->row), row->value);
  if (entry->icon) {
    row->icon = gtk_image_new_from_paintable (dry_symbol_get (entry->icon));
    gtk_accessible_update_property (GTK_ACCESSIBLE (row->icon), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    entry->icon_name, -1);
    gtk_widget_set_tooltip_text (row->icon, entry->icon_name);
    if (entry->css)
      gtk_widget_add_css_class (row->icon, entry->css);
    adw_expander_row_add_prefix (ADW_EXPANDER_ROW (row->row), row->icon);
  }
  g_object_set_data (G_OBJECT (row->row), "row", row);
  g_signal_connect (row->row, "notify::expanded", G_CALLBACK (expanded_cb), row);
  g_hash_table_insert (self->rows, row->key, row);
  return row;
}

/* --- keeping in step --- */

static gboolean
has_focus (const Row *row)
{
  return (gtk_widget_get_state_flags (row->row) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
}

/* The index of the row that had the focus when it is among those taken away, else -1. */
static gint
remove_gone (DryLedgerList *self, const DryLedgerEntry *entries, guint n)
{
  gint orphaned = -1;
  g_autoptr (GHashTable) wanted = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  Row *row;

  for (guint i = 0; i < n; i++)
    g_hash_table_add (wanted, (gpointer) entries[i].key);
  g_hash_table_iter_init (&iter, self->rows);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *) &row))
    if (!g_hash_table_contains (wanted, row->key)) {
      if (has_focus (row))
        orphaned = (gint) row->index;
      if (g_strcmp0 (row->key, self->chosen) == 0)
        g_clear_pointer (&self->chosen, g_free);
      g_signal_handlers_disconnect_by_data (row->row, row);
      gtk_list_box_remove (self->box, row->row);
      g_hash_table_iter_remove (&iter);
    }
  return orphaned;
}

static void
place_row (DryLedgerList *self, Row *row, guint index)
{
  GtkListBoxRow *there = gtk_list_box_get_row_at_index (self->box, (int) index);

  if (there == GTK_LIST_BOX_ROW (row->row))
    return;
  if (gtk_widget_get_parent (row->row)) {
    gboolean focused = has_focus (row);
    g_object_ref (row->row);
    gtk_list_box_remove (self->box, row->row);
    gtk_list_box_insert (self->box, row->row, (int) index);
    g_object_unref (row->row);
    if (focused)
      focus_row (row);
  } else
    gtk_list_box_insert (self->box, row->row, (int) index);
}

void
dry_ledger_list_set_entries (DryLedgerList *self, const DryLedgerEntry *entries, guint n)
{
  gint orphaned;

  self->n = n;
  n = MIN (n, self->limit);
  orphaned = remove_gone (self, entries, n);

  for (guint i = 0; i < n; i++) {
    Row *row = g_hash_table_lookup (self->rows, entries[i].key);

    if (!row)
      row = make_row (self, &entries[i]);
    fill_row (row, &entries[i], i);
    place_row (self, row, i);
  }
  gtk_list_box_invalidate_headers (self->box);
  gtk_widget_set_visible (self->more, self->n > n);
  if (self->n > n) {
    g_autofree char *text = g_strdup_printf (
        ngettext ("Show More: %u Is Left", "Show More: %u Are Left", self->n - n), self->n - n);

    gtk_button_set_label (GTK_BUTTON (self->more), text);
  }
  if (orphaned >= 0 && n > 0) /* whoever works down the list goes on with what took its place */
    focus_row (get_row (self, MIN ((guint) orphaned, n - 1)));
  gtk_stack_set_visible_child (GTK_STACK (self->stack), n ? self->scroller : self->empty);
}

const char **
dry_ledger_list_get_unfolded (DryLedgerList *self)
{
  GPtrArray *keys = g_ptr_array_new ();
  GHashTableIter iter;
  Row *row;

  g_hash_table_iter_init (&iter, self->rows);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *) &row))
    if (adw_expander_row_get_expanded (ADW_EXPANDER_ROW (row->row)))
      g_ptr_array_add (keys, row->key);
  g_ptr_array_add (keys, NULL);
  return (const char **) g_ptr_array_free (keys, FALSE);
}

void
dry_ledger_list_show (DryLedgerList *self, guint index)
{
  Row *row = reach_row (self, index);
  GtkAdjustment *adjustment =
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller));
  graphene_rect_t bounds;

  mark_row (self, row);
  if (!row || !gtk_widget_compute_bounds (row->row, GTK_WIDGET (self->box), &bounds))
    return;
  gtk_adjustment_clamp_page (adjustment, bounds.origin.y, bounds.origin.y + bounds.size.height);
}

/* --- object --- */

static void
dry_ledger_list_dispose (GObject *object)
{
  DryLedgerList *self = DRY_LEDGER_LIST (object);
  GHashTableIter iter;
  Row *row;

  if (self->rows) {
    g_hash_table_iter_init (&iter, self->rows);
    while (g_hash_table_iter_next (&iter, NULL, (gpointer *) &row))
      g_signal_handlers_disconnect_by_data (row->row, row);
  }
  g_clear_pointer (&self->stack, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_hash_table_unref);
  g_clear_pointer (&self->chosen, g_free);
  G_OBJECT_CLASS (dry_ledger_list_parent_class)->dispose (object);
}

static void
dry_ledger_list_class_init (DryLedgerListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = dry_ledger_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[SIGNAL_CHOSEN] = g_signal_new ("chosen", DRY_TYPE_LEDGER_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[SIGNAL_ACTED] = g_signal_new ("acted", DRY_TYPE_LEDGER_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_UINT);
  signals[SIGNAL_UNFOLDED] = g_signal_new ("unfolded", DRY_TYPE_LEDGER_LIST, G_SIGNAL_RUN_LAST, 0,
                                           NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_MORE] = g_signal_new ("more", DRY_TYPE_LEDGER_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                       NULL, NULL, G_TYPE_NONE, 0);
}

static void
dry_ledger_list_init (DryLedgerList *self)
{
  GtkWidget *box = gtk_list_box_new ();
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  self->rows = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, row_free);
  self->box = GTK_LIST_BOX (box);
  gtk_list_box_set_header_func (self->box, update_header, NULL, NULL);
  gtk_list_box_set_selection_mode (self->box, GTK_SELECTION_NONE);
  gtk_widget_add_css_class (box, "boxed-list");
  gtk_widget_add_css_class (box, "ledger-rows");
  gtk_widget_set_valign (box, GTK_ALIGN_START);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), column);
  self->limit = STEP;
  self->more = gtk_button_new_with_label ("");
  gtk_widget_add_css_class (self->more, "flat");
  gtk_widget_hide (self->more);
  g_signal_connect_swapped (self->more, "clicked", G_CALLBACK (more_clicked_cb), self);
  gtk_box_append (GTK_BOX (column), box);
  gtk_box_append (GTK_BOX (column), self->more);
  self->empty = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->empty, "dim-label");
  self->stack = gtk_stack_new ();
  gtk_stack_add_child (GTK_STACK (self->stack), self->scroller);
  gtk_stack_add_child (GTK_STACK (self->stack), self->empty);
  gtk_stack_set_visible_child (GTK_STACK (self->stack), self->empty);
  gtk_widget_set_parent (self->stack, GTK_WIDGET (self));
}

GtkWidget *
dry_ledger_list_new (const char *name, const char *empty_text)
{
  DryLedgerList *self = g_object_new (DRY_TYPE_LEDGER_LIST, NULL);

  dry_access_set_name (GTK_WIDGET (self->box), name);
  gtk_label_set_text (GTK_LABEL (self->empty), empty_text);
  return GTK_WIDGET (self);
}

void
dry_ledger_list_set_stepping (DryLedgerList *self, gboolean stepping)
{
  self->stepping = stepping;
}
