/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bar that tells which rule packs of one's own were left out of the catalogue, and why.
 * What is bad in them the catalogue says; mending them is done in their files. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/wrapping.h"

/* Files that are named before the rest is only counted, and letters of a reason. */
#define MOST_NAMED   3
#define MOST_LETTERS 200

static char *
dup_words (const DryCatalog *catalog)
{
  guint n = dry_catalog_get_n_left_out (catalog);
  g_autoptr (GString) names = g_string_new (NULL);

  if (n == 1) {
    const DryLeftOut *left = dry_catalog_get_left_out_at (catalog, 0);
    g_autofree char *name = g_path_get_basename (left->file);
    g_autofree char *reason = dry_wrapping_cut (left->reason, MOST_LETTERS);

    return g_strdup_printf (_ ("Your rule pack %s is left out. %s"), name, reason);
  }
  for (guint i = 0; i < MIN (n, MOST_NAMED); i++) {
    g_autofree char *name = g_path_get_basename (dry_catalog_get_left_out_at (catalog, i)->file);

    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", name);
  }
  if (n > MOST_NAMED)
    g_string_append (names, ", …");
  return g_strdup_printf (ngettext ("%u rule pack of your own is left out: %s",
                                    "%u rule packs of your own are left out: %s", n),
                          n, names->str);
}

static void
on_close (GtkButton *button, DryWindow *self)
{
  DryApplication *application = DRY_APPLICATION (gtk_window_get_application (GTK_WINDOW (self)));

  dry_application_note_packs_told (application);
  adw_bin_set_child (self->packs_place, NULL);
}

void
dry_window_tell_packs (DryWindow *self, DryApplication *application)
{
  const DryCatalog *catalog = dry_session_get_catalog (self->session);
  GtkBox *bar;
  g_autofree char *text = NULL;

  if (dry_catalog_get_n_left_out (catalog) == 0 || dry_application_has_told_packs (application))
    return;
  text = dup_words (catalog);
  bar = dry_window_new_bar (text);
  dry_window_add_bar_button (bar, _ ("_Preferences"), "app.preferences");
  g_signal_connect (dry_window_add_bar_button (bar, _ ("_Dismiss"), NULL), "clicked",
                    G_CALLBACK (on_close), self);
  adw_bin_set_child (self->packs_place, GTK_WIDGET (bar));
  /* No business of a client's. */
  g_object_bind_property (self->header, "visible", self->packs_place, "visible",
                          G_BINDING_SYNC_CREATE);
}
