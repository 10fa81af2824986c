/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One button a sheet with the sheet's drawing in it, and the window that shows one of them large
 * and steps to its neighbours. The drawings are the crew's own (draw/drawing-cut-sheet.c). */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-sheets.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/access.h"
#include "ui/later.h"
#include "ui/pieces.h"
#include "ui/scene-view.h"

struct _DryLedgerSheets {
  GtkWidget parent_instance;
  DrySession *session;
  GtkWidget *stack, *scroller, *empty, *box;
};

G_DEFINE_FINAL_TYPE (DryLedgerSheets, dry_ledger_sheets, GTK_TYPE_WIDGET)

static guint
count_sheets (const DryPlan *plan)
{
  return plan != NULL && plan->boards->cutting != NULL ? plan->boards->cutting->n_sheets : 0;
}

/* --- one sheet, large --- */

typedef struct {
  DrySession *session; /* of the row of pictures, which outlives this window */
  GPtrArray *scenes;
  guint index;
  GtkWidget *window, *view, *title, *before, *after, *offcuts;
} Viewer;

static void
free_viewer (gpointer data)
{
  Viewer *viewer = data;

  g_ptr_array_unref (viewer->scenes);
  g_free (viewer);
}

static void
show_sheet (Viewer *viewer)
{
  g_autoptr (GMenuModel) offcuts = dry_offcuts_menu (viewer->session, viewer->index);
  g_autofree char *title =
      g_strdup_printf (_ ("Cut sheet %u of %u"), viewer->index + 1, viewer->scenes->len);

  dry_scene_view_set_scene (DRY_SCENE_VIEW (viewer->view), viewer->scenes->pdata[viewer->index]);
  gtk_accessible_update_property (GTK_ACCESSIBLE (viewer->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  title, -1);
  adw_window_title_set_title (ADW_WINDOW_TITLE (viewer->title), title);
  gtk_window_set_title (GTK_WINDOW (viewer->window), title);
  dry_later_menu (viewer->offcuts, offcuts);
  gtk_widget_set_visible (viewer->offcuts, g_menu_model_get_n_items (offcuts) > 0);
  gtk_widget_set_sensitive (viewer->before, viewer->index > 0);
  gtk_widget_set_sensitive (viewer->after, viewer->index + 1 < viewer->scenes->len);
}

static void
step_cb (GtkWidget *button, Viewer *viewer)
{
  viewer->index += button == viewer->after ? 1 : (guint) -1;
  show_sheet (viewer);
}

static gboolean
viewer_key_cb (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
               Viewer *viewer)
{
  gboolean back = key == GDK_KEY_Left || key == GDK_KEY_Page_Up;

  if (key == GDK_KEY_Escape) {
    gtk_window_close (GTK_WINDOW (viewer->window));
    return GDK_EVENT_STOP;
  }
  if (!back && key != GDK_KEY_Right && key != GDK_KEY_Page_Down)
    return GDK_EVENT_PROPAGATE;
  if (gtk_widget_is_sensitive (back ? viewer->before : viewer->after))
    step_cb (back ? viewer->before : viewer->after, viewer);
  return GDK_EVENT_STOP;
}

static GtkWidget *
make_step_button (Viewer *viewer, const char *icon, const char *name)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", G_CALLBACK (step_cb), viewer);
  return button;
}

static void
present_viewer (DryLedgerSheets *self, guint index)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  GtkWidget *bar = adw_header_bar_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkEventController *keys = gtk_event_controller_key_new ();
  Viewer *viewer = g_new0 (Viewer, 1);

  viewer->scenes = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_scene_unref);
  for (guint i = 0; i < count_sheets (plan); i++)
    g_ptr_array_add (viewer->scenes, dry_drawing_cut_sheet (plan, i));
  viewer->session = self->session;
  viewer->index = index;
  viewer->window = adw_window_new ();
  viewer->title = adw_window_title_new ("", "");
  viewer->view = dry_scene_view_new (360, 300, FALSE);
  viewer->before = make_step_button (viewer, "go-previous-symbolic", _ ("Sheet Before"));
  viewer->after = make_step_button (viewer, "go-next-symbolic", _ ("Next Sheet"));
  viewer->offcuts = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (viewer->offcuts), _ ("Keep Offcut"));
  dry_access_set_name (viewer->offcuts, _ ("Keep Offcut"));
  /* The main window's actions: this one is modal over it. */
  gtk_widget_insert_action_group (viewer->window, "win",
                                  G_ACTION_GROUP (gtk_widget_get_root (GTK_WIDGET (self))));
  adw_header_bar_pack_end (ADW_HEADER_BAR (bar), viewer->offcuts);
  adw_header_bar_set_title_widget (ADW_HEADER_BAR (bar), viewer->title);
  adw_header_bar_pack_start (ADW_HEADER_BAR (bar), viewer->before);
  adw_header_bar_pack_start (ADW_HEADER_BAR (bar), viewer->after);
  gtk_widget_set_valign (viewer->view, GTK_ALIGN_FILL);
  gtk_widget_set_vexpand (viewer->view, TRUE);
  gtk_box_append (GTK_BOX (box), bar);
  gtk_box_append (GTK_BOX (box), viewer->view);
  adw_window_set_content (ADW_WINDOW (viewer->window), box);
  gtk_window_set_default_size (GTK_WINDOW (viewer->window), 900, 700);
  gtk_window_set_modal (GTK_WINDOW (viewer->window), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (viewer->window),
                                GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (viewer_key_cb), viewer);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (viewer->window, keys);
  g_object_set_data_full (G_OBJECT (viewer->window), "viewer", viewer, free_viewer);
  show_sheet (viewer);
  gtk_window_present (GTK_WINDOW (viewer->window));
}

/* --- the row of pictures --- */

static void
clicked_cb (GtkWidget *button, DryLedgerSheets *self)
{
  GtkWidget *child = gtk_widget_get_first_child (self->box);
  guint index = 0;

  for (; child && child != button; child = gtk_widget_get_next_sibling (child))
    index++;
  /* A picture may be of the plan before, and go when what hangs open over the ledger has closed. */
  if (child && index < count_sheets (dry_session_get_plan (self->session)))
    present_viewer (self, index);
}

static GtkWidget *
add_picture (DryLedgerSheets *self)
{
  GtkWidget *button = gtk_button_new (), *view = dry_scene_view_new (320, 180, FALSE);

  gtk_widget_set_valign (view, GTK_ALIGN_FILL);
  gtk_button_set_child (GTK_BUTTON (button), view);
  gtk_widget_add_css_class (button, "card");
  gtk_widget_add_css_class (button, "ledger-sheet");
  g_signal_connect (button, "clicked", G_CALLBACK (clicked_cb), self);
  gtk_box_append (GTK_BOX (self->box), button);
  return button;
}

void
dry_ledger_sheets_fill (DryLedgerSheets *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  guint n = count_sheets (plan);
  GtkWidget *button = gtk_widget_get_first_child (self->box);

  for (guint i = 0; i < n; i++) {
    g_autoptr (DryScene) scene = dry_drawing_cut_sheet (plan, i);
    g_autofree char *name = g_strdup_printf (_ ("Cut sheet %u, show it large"), i + 1);

    if (!button)
      button = add_picture (self);
    gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                    -1);
    gtk_widget_set_tooltip_text (button, name);
    dry_scene_view_set_scene (DRY_SCENE_VIEW (gtk_button_get_child (GTK_BUTTON (button))), scene);
    button = gtk_widget_get_next_sibling (button);
  }
  while (button) {
    GtkWidget *next = gtk_widget_get_next_sibling (button);
    gtk_box_remove (GTK_BOX (self->box), button);
    button = next;
  }
  gtk_stack_set_visible_child (GTK_STACK (self->stack), n ? self->scroller : self->empty);
}

/* --- object --- */

static void
dry_ledger_sheets_dispose (GObject *object)
{
  DryLedgerSheets *self = DRY_LEDGER_SHEETS (object);

  g_clear_pointer (&self->stack, gtk_widget_unparent);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_ledger_sheets_parent_class)->dispose (object);
}

static void
dry_ledger_sheets_class_init (DryLedgerSheetsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = dry_ledger_sheets_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
dry_ledger_sheets_init (DryLedgerSheets *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  gtk_widget_add_css_class (self->box, "ledger-sheets");
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_AUTOMATIC,
                                  GTK_POLICY_NEVER);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->box);
  self->empty = gtk_label_new (_ ("This system is laid on site, without sheets"));
  gtk_label_set_wrap (GTK_LABEL (self->empty), TRUE);
  gtk_widget_add_css_class (self->empty, "dim-label");
  self->stack = gtk_stack_new ();
  gtk_stack_add_child (GTK_STACK (self->stack), self->scroller);
  gtk_stack_add_child (GTK_STACK (self->stack), self->empty);
  gtk_widget_set_parent (self->stack, GTK_WIDGET (self));
}

GtkWidget *
dry_ledger_sheets_new (DrySession *session)
{
  DryLedgerSheets *self = g_object_new (DRY_TYPE_LEDGER_SHEETS, NULL);

  self->session = g_object_ref (session);
  return GTK_WIDGET (self);
}
