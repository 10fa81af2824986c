/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels in a column; a screen reader hears the name, and the rest as its description. All texts
 * are client-words.c's. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/client-card.h"

#include <glib/gi18n.h>

#include "ui/client-words.h"
#include "ui/wrapping.h"

#define LINES_MOST 6

struct _DryClientCard {
  GtkToggleButton parent_instance;
  DryId id;
  GtkLabel *name, *system, *ready, *price, *differences;
};

G_DEFINE_FINAL_TYPE (DryClientCard, dry_client_card, GTK_TYPE_TOGGLE_BUTTON)

static GtkLabel *
add_label (GtkWidget *box, const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  dry_wrapping_watch (GTK_LABEL (label));
  if (css)
    gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static void
set_text (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text && *text);
}

static char *
join (GPtrArray *lines)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < lines->len && i < LINES_MOST; i++)
    g_string_append_printf (text, "%s%s", i ? "\n" : "", (const char *) lines->pdata[i]);
  if (lines->len > LINES_MOST)
    g_string_append (text, "\n…");
  return g_string_free (text, FALSE);
}

void
dry_client_card_fill (DryClientCard *self, const DryOption *option, const DryOption *base,
                      gboolean prices, gboolean why)
{
  g_autofree char *ready = dry_client_ready (option);
  g_autofree char *price = prices ? dry_client_price (option) : NULL;
  g_autoptr (GPtrArray) lines = base ? dry_client_differences (option, base, prices, why) : NULL;
  g_autofree char *different = lines ? join (lines) : NULL;
  const char *name = option->id ? option->name : _ ("As planned");
  g_autofree char *all = g_strdup_printf ("%s. %s. %s. %s", dry_client_system (option), ready,
                                          price ? price : "", different ? different : "");

  self->id = option->id;
  set_text (self->name, name);
  set_text (self->system, dry_client_system (option));
  set_text (self->ready, ready);
  set_text (self->price, price);
  set_text (self->differences, lines && lines->len == 0 ? _ ("No different as yet") : different);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, all, -1);
}

DryId
dry_client_card_get_option (DryClientCard *self)
{
  return self->id;
}

static void
dry_client_card_class_init (DryClientCardClass *klass)
{
}

static void
dry_client_card_init (DryClientCard *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_box_append (GTK_BOX (box), head);
  self->name = add_label (head, "title-3");
  gtk_widget_set_hexpand (GTK_WIDGET (self->name), TRUE);
  self->price = add_label (head, "client-price");
  gtk_widget_set_valign (GTK_WIDGET (self->price), GTK_ALIGN_START);
  gtk_label_set_wrap (self->price, FALSE);
  self->system = add_label (box, "dim-label");
  self->ready = add_label (box, "client-ready");
  self->differences = add_label (box, "client-lines");
  gtk_button_set_child (GTK_BUTTON (self), box);
  gtk_widget_add_css_class (GTK_WIDGET (self), "client-card");
  gtk_widget_add_css_class (GTK_WIDGET (self), "card");
}

GtkWidget *
dry_client_card_new (void)
{
  return g_object_new (DRY_TYPE_CLIENT_CARD, NULL);
}
