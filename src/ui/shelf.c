/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists the catalogue's items by group: each a button to click (then click the place) and a thing
 * to drag. Groups are filled when first opened; searching opens every group and hides what does not
 * match. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/shelf.h"

#include <glib/gi18n.h>
#include <string.h>

#include "ui/access.h"
#include "ui/item-drag.h"
#include "ui/item-picture.h"
#include "ui/later.h"
#include "ui/plain-entry.h"
#include "ui/wrapping.h"

static const struct {
  const char *id;
  const char *title;
  gboolean open; /* at the start */
} GROUPS[] = {
    {"basins", N_ ("Tubs and pans"), TRUE},
    {"niches", N_ ("Niches"), TRUE},
    {"fittings", N_ ("Valves and heads"), TRUE},
    {"seats-and-bars", N_ ("Benches and bars"), FALSE},
    {"glass", N_ ("Glass"), FALSE},
    {"openings", N_ ("Doors and windows"), FALSE},
    {"in-the-wall", N_ ("Found in the wall"), FALSE},
    {"tiles", N_ ("Tiles"), FALSE},
};

typedef struct {
  GtkWidget *expander, *box;
  gboolean was_open; /* before a search opened it */
  gboolean filled;
} Group;

struct _DryShelf {
  GtkWidget parent_instance;
  DrySession *session;
  DryCanvas *canvas;
  GtkEditable *search;
  GtkBox *groups;
  GtkWidget *scroller, *nothing;
  Group list[G_N_ELEMENTS (GROUPS)];
  gboolean searching;
};

G_DEFINE_FINAL_TYPE (DryShelf, dry_shelf, GTK_TYPE_WIDGET)

/* --- one item --- */

static const DryItem *
get_item (GtkWidget *button)
{
  return g_object_get_data (G_OBJECT (button), "item");
}

static void
clicked_cb (GtkButton *button, DryShelf *self)
{
  dry_canvas_begin_place (self->canvas, get_item (GTK_WIDGET (button))->id);
}

static GdkContentProvider *
drag_prepare_cb (GtkDragSource *source, double x, double y, GtkWidget *button)
{
  return dry_item_drag_provide (get_item (button)->id);
}

static void
drag_begin_cb (GtkDragSource *source, GdkDrag *drag, GtkWidget *button)
{
  g_autoptr (GdkPaintable) icon = dry_item_picture_make_icon (get_item (button), button);
  GdkSurface *surface = gdk_drag_get_drag_surface (drag);

  gtk_drag_source_set_icon (source, icon, 20, 20);
  /* While its picture still flies back, the next drag must not be dropped on it. */
  if (surface != NULL) {
    cairo_region_t *nowhere = cairo_region_create ();

    gdk_surface_set_input_region (surface, nowhere);
    cairo_region_destroy (nowhere);
  }
}

/* Name and sizes in the project's own units, as far as the thing has sizes. */
static char *
describe_item (DryShelf *self, const DryItem *item)
{
  DryLength sizes[3] = {0};
  GString *text = g_string_new (item->name);

  switch (item->kind) {
  case DRY_ITEM_BASIN:
    sizes[0] = item->basin.length, sizes[1] = item->basin.width, sizes[2] = item->basin.height;
    break;
  case DRY_ITEM_PART:
    sizes[0] = item->part.width, sizes[1] = item->part.height, sizes[2] = item->part.depth;
    break;
  case DRY_ITEM_OPENING:
    sizes[0] = item->opening.width, sizes[1] = item->opening.height;
    break;
  case DRY_ITEM_TILE:
  default:
    sizes[0] = item->tile_width, sizes[1] = item->tile_height, sizes[2] = item->tile_thickness;
    break;
  }
  for (guint i = 0, n = 0; i < G_N_ELEMENTS (sizes); i++)
    if (sizes[i] > 0) {
      g_autofree char *size = dry_session_format_length (self->session, sizes[i]);
      g_string_append_printf (text, "%s%s", n++ ? " × " : "\n", size);
    }
  return g_string_free (text, FALSE);
}

static GtkWidget *
make_item_button (DryShelf *self, const DryItem *item)
{
  GtkWidget *button = gtk_button_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = gtk_label_new (item->name);
  GtkDragSource *source = gtk_drag_source_new ();
  g_autofree char *tip = NULL;

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  dry_wrapping_watch (GTK_LABEL (label));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (box), dry_item_picture_new (item));
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "shelf-item");
  tip = describe_item (self, item);
  gtk_widget_set_tooltip_text (button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  item->name, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  _ ("Click, then click its place; or drag it onto the drawing"),
                                  -1);
  g_object_set_data (G_OBJECT (button), "item", (gpointer) item);
  g_signal_connect (button, "clicked", G_CALLBACK (clicked_cb), self);

  gtk_drag_source_set_actions (source, GDK_ACTION_COPY);
  g_signal_connect (source, "prepare", G_CALLBACK (drag_prepare_cb), button);
  g_signal_connect (source, "drag-begin", G_CALLBACK (drag_begin_cb), button);
  gtk_widget_add_controller (button, GTK_EVENT_CONTROLLER (source));
  return button;
}

/* --- groups and search --- */

static void
fill_group (DryShelf *self, guint index)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);
  Group *group = &self->list[index];

  if (group->filled)
    return;
  group->filled = TRUE;
  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);

    if (g_strcmp0 (item->group, GROUPS[index].id) == 0)
      gtk_box_append (GTK_BOX (group->box), make_item_button (self, item));
  }
}

static gboolean
has_items (DryShelf *self, guint index)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);

  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++)
    if (g_strcmp0 (dry_catalog_get_item_at (catalog, i)->group, GROUPS[index].id) == 0)
      return TRUE;
  return FALSE;
}

static void
group_opened_cb (GtkExpander *expander, GParamSpec *pspec, DryShelf *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (GROUPS); i++)
    if (self->list[i].expander == GTK_WIDGET (expander) && gtk_expander_get_expanded (expander))
      fill_group (self, i);
}

static gboolean
matches (const char *name, const char *wanted)
{
  g_autofree char *folded = g_utf8_casefold (name, -1);
  g_autofree char *want = g_utf8_casefold (wanted, -1);
  g_auto (GStrv) words = g_strsplit_set (want, " ", -1);

  for (guint i = 0; words[i]; i++)
    if (!strstr (folded, words[i]))
      return FALSE;
  return TRUE;
}

static guint
filter_group (Group *group, const char *wanted)
{
  guint n = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (group->box); child;
       child = gtk_widget_get_next_sibling (child)) {
    gboolean shown = matches (get_item (child)->name, wanted);
    gtk_widget_set_visible (child, shown);
    n += shown;
  }
  gtk_widget_set_visible (group->expander, n > 0 || !*wanted);
  return n;
}

static void
search_changed_cb (DryShelf *self)
{
  const char *wanted = gtk_editable_get_text (self->search);
  gboolean searching = *wanted != '\0';
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (GROUPS); i++) {
    Group *group = &self->list[i];

    if (!group->expander)
      continue;
    if (searching)
      fill_group (self, i);
    if (searching && !self->searching)
      group->was_open = gtk_expander_get_expanded (GTK_EXPANDER (group->expander));
    n += filter_group (group, wanted);
    gtk_expander_set_expanded (GTK_EXPANDER (group->expander), searching || group->was_open);
  }
  self->searching = searching;
  gtk_widget_set_visible (self->nothing, searching && n == 0);
}

static void
add_group (DryShelf *self, guint index)
{
  Group *group = &self->list[index];

  if (!has_items (self, index))
    return;
  group->expander = gtk_expander_new (_ (GROUPS[index].title));
  dry_access_set_name (group->expander, _ (GROUPS[index].title));
  group->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  group->was_open = GROUPS[index].open;
  gtk_expander_set_child (GTK_EXPANDER (group->expander), group->box);
  /* GTK 4.8 moves the focus by arrow keys into what a closed group does not show. */
  g_object_bind_property (group->expander, "expanded", group->box, "visible",
                          G_BINDING_SYNC_CREATE);
  gtk_widget_add_css_class (group->expander, "shelf-group");
  g_signal_connect (group->expander, "notify::expanded", G_CALLBACK (group_opened_cb), self);
  gtk_expander_set_expanded (GTK_EXPANDER (group->expander), group->was_open);
  gtk_box_append (self->groups, group->expander);
}

static void
begin (GtkWidget *widget)
{
  for (guint i = 0; i < G_N_ELEMENTS (GROUPS); i++)
    add_group (DRY_SHELF (widget), i);
}

/* --- keys --- */

/* Up and Down walk the items and headings that are seen; Tab leaves the list. */
static void
list_stops (GtkWidget *root, GPtrArray *stops)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child)) {
    if (!gtk_widget_get_mapped (child))
      continue;
    if (GTK_IS_EXPANDER (child) || GTK_IS_BUTTON (child))
      g_ptr_array_add (stops, child);
    list_stops (child, stops);
  }
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        DryShelf *self)
{
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  guint at = 0;
  gboolean inside;

  if (state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK | GDK_ALT_MASK))
    return GDK_EVENT_PROPAGATE;
  if (key != GDK_KEY_Up && key != GDK_KEY_Down && key != GDK_KEY_Home && key != GDK_KEY_End)
    return GDK_EVENT_PROPAGATE;
  list_stops (GTK_WIDGET (self->groups), stops);
  while (focus && !g_ptr_array_find (stops, focus, &at))
    focus = gtk_widget_get_parent (focus);
  inside = focus != NULL;
  if (stops->len == 0 || (!inside && key != GDK_KEY_Down))
    return GDK_EVENT_PROPAGATE;
  if (inside && at == 0 && key == GDK_KEY_Up)
    return gtk_widget_grab_focus (GTK_WIDGET (self->search));
  if (inside)
    at = key == GDK_KEY_Home  ? 0
         : key == GDK_KEY_End ? stops->len - 1
         : key == GDK_KEY_Up  ? at - 1
                              : MIN (at + 1, stops->len - 1);
  gtk_widget_grab_focus (stops->pdata[at]);
  return GDK_EVENT_STOP;
}

/* --- object --- */

static void
dry_shelf_dispose (GObject *object)
{
  DryShelf *self = DRY_SHELF (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_shelf_parent_class)->dispose (object);
}

static void
dry_shelf_class_init (DryShelfClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_shelf_dispose;
  gtk_widget_class_set_css_name (widget_class, "shelf");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/drybay/Drybay/shelf.ui");
  gtk_widget_class_bind_template_child (widget_class, DryShelf, search);
  gtk_widget_class_bind_template_child (widget_class, DryShelf, groups);
  gtk_widget_class_bind_template_child (widget_class, DryShelf, scroller);
  gtk_widget_class_bind_template_child (widget_class, DryShelf, nothing);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
}

static void
dry_shelf_init (DryShelf *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  dry_plain_entry_set_up (GTK_WIDGET (self->search));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

GtkWidget *
dry_shelf_new (DrySession *session, DryCanvas *canvas)
{
  DryShelf *self = g_object_new (DRY_TYPE_SHELF, NULL);

  self->session = g_object_ref (session);
  self->canvas = canvas; /* both live in the window, which outlives the signals between them */
  dry_later_after_frame (GTK_WIDGET (self), begin);
  return GTK_WIDGET (self);
}
