/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the comparison of when it was opened, to tell what changed since; a newer comparison fills
 * the cards anew. Menus are in client-menus.c, words in client-words.c. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/client-view.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/access.h"
#include "ui/client-card.h"
#include "ui/client-menus.h"
#include "ui/client-picture.h"
#include "ui/client-words.h"
#include "ui/comparer.h"

#define CARDS_MOST 4
#define REST_MS    60

struct _DryClientView {
  GtkWidget parent_instance;
  DrySession *session;
  DryComparer *comparer;
  gboolean beginning; /* what changes is told from the next comparison on */
  gboolean open, filling;
  DryId shown;  /* alternate in the picture */
  GArray *told; /* DryId the person chose to be shown; empty: the first four */

  GtkWidget *box, *side, *changes, *tile, *choice, *leave;
  GtkStack *stage;
  DryClientPicture *picture;
  GtkLabel *title, *place, *changes_text;
  GtkBox *cards;
  GtkToggleButton *prices, *people;
};

G_DEFINE_FINAL_TYPE (DryClientView, dry_client_view, GTK_TYPE_WIDGET)

static void refill (DryClientView *self);

/* --- which options --- */

static gboolean
is_told (DryClientView *self, DryId id, guint index)
{
  if (self->told->len == 0)
    return index < CARDS_MOST;
  for (guint i = 0; i < self->told->len; i++)
    if (g_array_index (self->told, DryId, i) == id)
      return TRUE;
  return FALSE;
}

/* Options that went away are no longer asked for; with none left, the first four are told again. */
static void
forget_gone (DryClientView *self, const DryComparison *comparison)
{
  for (guint i = self->told->len; i > 0; i--)
    if (!dry_comparison_find (comparison, g_array_index (self->told, DryId, i - 1)))
      g_array_remove_index (self->told, i - 1);
}

static void
choice_changed_cb (DryId id, gboolean wanted, gpointer data)
{
  DryClientView *self = data;
  const DryComparison *comparison = dry_comparer_get (self->comparer);

  /* The first choice is a choice among those that are shown. */
  if (self->told->len == 0 && comparison)
    for (guint i = 0; i < MIN (comparison->n, CARDS_MOST); i++)
      g_array_append_val (self->told, comparison->options[i].id);
  for (guint i = self->told->len; i > 0; i--)
    if (g_array_index (self->told, DryId, i - 1) == id)
      g_array_remove_index (self->told, i - 1);
  if (wanted)
    g_array_append_val (self->told, id);
  dry_comparer_ask (self->comparer, 0);
}

/* --- filling --- */

static void
show_option (DryClientView *self, const DryOption *option)
{
  const DryPlan *plan = option && option->n_plans > 0 ? option->plans[0] : NULL;
  gboolean any = plan && plan->faces->n > 0;
  g_autofree char *name = NULL;

  dry_client_picture_set_plan (self->picture, any ? plan : NULL,
                               gtk_toggle_button_get_active (self->people));
  gtk_stack_set_visible_child_name (self->stage, any ? "picture" : "none");
  if (!option)
    return;
  /* Translators: name of a way to build it, name of its system */
  name = g_strdup_printf (_ ("Picture of the wet area: %s, %s"),
                          option->id ? option->name : _ ("As planned"), dry_client_system (option));
  dry_access_set_name (GTK_WIDGET (self->picture), name);
}

static void
card_toggled_cb (GtkToggleButton *card, DryClientView *self)
{
  if (self->filling)
    return;
  /* A card is chosen by pressing it, and stays chosen when pressed again. */
  self->shown = dry_client_card_get_option (DRY_CLIENT_CARD (card));
  refill (self);
}

static void
fit_cards (DryClientView *self, guint wanted)
{
  GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards));

  for (guint i = 0; i < wanted; i++) {
    if (!card) {
      card = dry_client_card_new ();
      g_signal_connect (card, "toggled", G_CALLBACK (card_toggled_cb), self);
      gtk_box_append (self->cards, card);
    }
    card = gtk_widget_get_next_sibling (card);
  }
  while (card) {
    GtkWidget *next = gtk_widget_get_next_sibling (card);
    gtk_box_remove (self->cards, card);
    card = next;
  }
}

static void
fill_cards (DryClientView *self, const DryComparison *comparison)
{
  gboolean prices = gtk_toggle_button_get_active (self->prices);
  guint n = 0, wanted = 0;
  GtkWidget *card;

  for (guint i = 0; i < comparison->n; i++)
    wanted += is_told (self, comparison->options[i].id, i);
  fit_cards (self, MIN (wanted, CARDS_MOST));
  card = gtk_widget_get_first_child (GTK_WIDGET (self->cards));
  for (guint i = 0; card && i < comparison->n && n < CARDS_MOST; i++) {
    const DryOption *option = &comparison->options[i];
    if (!is_told (self, option->id, i))
      continue;
    dry_client_card_fill (DRY_CLIENT_CARD (card), option, i > 0 ? &comparison->options[0] : NULL,
                          prices, option->id == self->shown);
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card), option->id == self->shown);
    card = gtk_widget_get_next_sibling (card);
    n++;
  }
}

/* What the person and the client did to the option shown while they looked at it. */
static void
fill_changes (DryClientView *self, const DryOption *option)
{
  const DryOption *was =
      dry_comparison_find (dry_comparer_get_marked (self->comparer), self->shown);
  g_autoptr (GPtrArray) lines =
      option && was
          ? dry_client_differences (option, was, gtk_toggle_button_get_active (self->prices), TRUE)
          : NULL;
  g_autofree char *text = NULL;

  if (lines && lines->len > 0) {
    g_ptr_array_add (lines, NULL);
    text = g_strjoinv ("\n", (char **) lines->pdata);
    gtk_label_set_text (self->changes_text, text);
  }
  gtk_widget_set_visible (self->changes, text != NULL);
}

static void
fill_title (DryClientView *self)
{
  const DryJob *job = dry_project_get_job (dry_session_get_project (self->session));
  const DryRoom *room = dry_session_get_room (self->session);

  gtk_label_set_text (self->title, *job->title ? job->title : _ ("Your Bathroom"));
  gtk_label_set_text (self->place, room && room->name ? room->name : "");
  gtk_widget_set_visible (GTK_WIDGET (self->place), room && room->name && *room->name);
}

static void
refill (DryClientView *self)
{
  const DryComparison *comparison = dry_comparer_get (self->comparer);
  const DryOption *option;

  fill_title (self);
  if (!comparison || self->filling)
    return;
  self->filling = TRUE;
  forget_gone (self, comparison);
  option = dry_comparison_find (comparison, self->shown);
  if (!option) {
    option = &comparison->options[0];
    self->shown = option->id;
  }
  fill_cards (self, comparison);
  show_option (self, option);
  fill_changes (self, option);
  dry_client_choice_fill (self->choice, comparison, self->told, CARDS_MOST);
  self->filling = FALSE;
}

static void
compared_cb (DryClientView *self)
{
  if (!self->open)
    return;
  if (self->beginning && dry_comparer_get (self->comparer)) {
    dry_comparer_mark (self->comparer); /* to tell what changes from here on */
    self->beginning = FALSE;
  }
  refill (self);
}

static void
project_changed_cb (DryClientView *self)
{
  if (self->open)
    dry_comparer_ask (self->comparer, REST_MS);
}

/* --- changing --- */

static void
tile_chosen_cb (const DryItem *item, gpointer data)
{
  DryClientView *self = data;

  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->tile));
  dry_client_set_tile (self->session, self->shown, item);
}

/* --- keys --- */

static GtkWidget *
focused_card (DryClientView *self)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  return focus ? gtk_widget_get_ancestor (focus, DRY_TYPE_CLIENT_CARD) : NULL;
}

/* From a card to the next; from elsewhere to the one that is shown. */
static void
walk_cards (DryClientView *self, gint step)
{
  GtkWidget *card = focused_card (self), *next;

  if (card)
    next = step > 0 ? gtk_widget_get_next_sibling (card) : gtk_widget_get_prev_sibling (card);
  else
    for (next = gtk_widget_get_first_child (GTK_WIDGET (self->cards));
         next && !gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (next));)
      next = gtk_widget_get_next_sibling (next);
  if (next)
    gtk_widget_grab_focus (next);
}

static void
toggle (GtkToggleButton *button)
{
  gtk_toggle_button_set_active (button, !gtk_toggle_button_get_active (button));
}

static gboolean
key_cb (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
        DryClientView *self)
{
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK))
    return FALSE;
  switch (key) {
  case GDK_KEY_Up:
  case GDK_KEY_Left:
  case GDK_KEY_KP_Up:
  case GDK_KEY_KP_Left:
    walk_cards (self, -1);
    return TRUE;
  case GDK_KEY_Down:
  case GDK_KEY_Right:
  case GDK_KEY_KP_Down:
  case GDK_KEY_KP_Right:
    walk_cards (self, 1);
    return TRUE;
  case GDK_KEY_p:
  case GDK_KEY_P:
    toggle (self->prices);
    return TRUE;
  case GDK_KEY_e:
  case GDK_KEY_E:
    toggle (self->people);
    return TRUE;
  case GDK_KEY_t:
  case GDK_KEY_T:
    gtk_menu_button_popup (GTK_MENU_BUTTON (self->tile));
    return TRUE;
  case GDK_KEY_Escape:
    gtk_widget_activate_action (GTK_WIDGET (self), "win.show-client", NULL);
    return TRUE;
  default:
    /* Single letters and digits are acts on the board, which nobody sees now. */
    return g_unichar_isgraph (gdk_keyval_to_unicode (key)) || key == GDK_KEY_Delete ||
           key == GDK_KEY_Insert || key == GDK_KEY_Page_Down || key == GDK_KEY_Page_Up;
  }
}

/* --- object --- */

void
dry_client_view_begin (DryClientView *self)
{
  self->open = TRUE;
  self->beginning = TRUE;
  self->shown = 0;
  gtk_widget_set_visible (self->changes, FALSE);
  fill_title (self);
  dry_comparer_ask (self->comparer, 0);
  gtk_widget_grab_focus (self->leave);
}

void
dry_client_view_end (DryClientView *self)
{
  self->open = FALSE;
  dry_comparer_stop (self->comparer);
  dry_comparer_unmark (self->comparer);
}

static void
dry_client_view_dispose (GObject *object)
{
  DryClientView *self = DRY_CLIENT_VIEW (object);

  if (self->comparer)
    dry_comparer_stop (self->comparer);
  self->open = FALSE;
  g_clear_object (&self->comparer);
  g_clear_pointer (&self->told, g_array_unref);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_client_view_parent_class)->dispose (object);
}

static void
dry_client_view_class_init (DryClientViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (DRY_TYPE_CLIENT_PICTURE);
  G_OBJECT_CLASS (klass)->dispose = dry_client_view_dispose;
  gtk_widget_class_set_css_name (widget_class, "clientview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/drybay/Drybay/client-view.ui");
#define BIND(name) gtk_widget_class_bind_template_child (widget_class, DryClientView, name)
  BIND (box);
  BIND (side);
  BIND (changes);
  BIND (tile);
  BIND (choice);
  BIND (leave);
  BIND (stage);
  BIND (picture);
  BIND (title);
  BIND (place);
  BIND (changes_text);
  BIND (cards);
  BIND (prices);
  BIND (people);
#undef BIND
}

static void
dry_client_view_init (DryClientView *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->told = g_array_new (FALSE, FALSE, sizeof (DryId));
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

GtkWidget *
dry_client_view_new (DrySession *session, GSettings *settings)
{
  DryClientView *self = g_object_new (DRY_TYPE_CLIENT_VIEW, NULL);

  self->session = g_object_ref (session);
  self->comparer = dry_comparer_new (session);
  g_signal_connect_object (self->comparer, "compared", G_CALLBACK (compared_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (project_changed_cb), self,
                           G_CONNECT_SWAPPED);
  if (settings)
    g_settings_bind (settings, "client-prices", self->prices, "active", G_SETTINGS_BIND_DEFAULT);
  g_signal_connect_object (self->prices, "toggled", G_CALLBACK (refill), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->people, "toggled", G_CALLBACK (refill), self, G_CONNECT_SWAPPED);
  dry_client_tile_fill (self->tile, dry_session_get_catalog (session), tile_chosen_cb, self);
  dry_client_choice_init (self->choice, choice_changed_cb, self);
  return GTK_WIDGET (self);
}
