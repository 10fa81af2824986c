/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bar over the drawing: the file was changed or is gone, or it is of a newer version and open
 * for reading only. How a change is noticed is file-watch.c's; what a file holds, the session's. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "ui/file-watch.h"
#include "ui/wrapping.h"

/* A file may name any number of things, of any length. */
#define MOST_NAMED   200
#define MOST_LETTERS 120

/* --- the bar --- */

GtkBox *
dry_window_new_bar (const char *text)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_add_css_class (box, "file-bar");
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  dry_wrapping_watch (GTK_LABEL (label));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_BOX (box);
}

GtkWidget *
dry_window_add_bar_button (GtkBox *bar, const char *label, const char *action)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (bar, button);
  return button;
}

static void
hide_bar (DryWindow *self)
{
  adw_bin_set_child (self->banner_place, NULL);
}

/* `first` and `second` are label and action of two buttons. */
static void
show_bar (DryWindow *self, const char *text, const char *const first[2],
          const char *const second[2])
{
  GtkBox *bar = dry_window_new_bar (text);

  dry_window_add_bar_button (bar, first[0], first[1]);
  dry_window_add_bar_button (bar, second[0], second[1]);
  adw_bin_set_child (self->banner_place, GTK_WIDGET (bar));
}

/* --- changed or gone --- */

static void
look_at_file (DryWindow *self)
{
  const char *path = dry_session_get_path (self->session);
  g_autofree char *name = path != NULL ? g_filename_display_basename (path) : NULL;
  g_autofree char *text = NULL;
  DryFileState state = dry_session_look_at_file (self->session);

  if (state == DRY_FILE_AS_KNOWN) {
    hide_bar (self);
    return;
  }
  if (state == DRY_FILE_CHANGED)
    text = g_strdup_printf (_ ("“%s” was changed by another program or another person."), name);
  else
    text = g_strdup_printf (
        _ ("“%s” was moved or deleted, or cannot be reached. What you see is here only."), name);
  show_bar (self, text,
            state == DRY_FILE_CHANGED ? (const char *const[]){_ ("_Reload"), "win.reload-file"}
                                      : (const char *const[]){_ ("_Save Again"), "win.save"},
            (const char *const[]){_ ("_Keep Mine"), "win.keep-mine"});
}

static void
on_touched (gpointer data)
{
  look_at_file (data);
}

static void
on_reload (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  g_autoptr (GError) error = NULL;

  dry_canvas_cancel (self->canvas);
  if (dry_session_reload (self->session, &error))
    hide_bar (self);
  else
    dry_window_tell (self, error->message);
}

static void
on_keep_mine (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;

  dry_session_keep_mine (self->session);
  hide_bar (self);
}

/* --- of a newer version --- */

static char *
list_left_out (const DryNewer *newer)
{
  GString *list = g_string_new (NULL);
  guint n = newer->left_out->len;

  for (guint i = 0; i < MIN (n, MOST_NAMED); i++) {
    g_autofree char *name = dry_wrapping_cut (newer->left_out->pdata[i], MOST_LETTERS);

    g_string_append_printf (list, "%s\n", name);
  }
  if (n > MOST_NAMED)
    g_string_append_printf (list, ngettext ("and %u more", "and %u more", n - MOST_NAMED),
                            n - MOST_NAMED);
  return g_string_free (list, FALSE);
}

static void
on_left_out (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryWindow *self = data;
  const DryNewer *newer = dry_session_get_newer (self->session);
  GtkWidget *dialog, *scroller, *label;
  g_autofree char *list = NULL;

  if (newer == NULL)
    return;
  list = list_left_out (newer);
  dialog = adw_message_dialog_new (GTK_WINDOW (self), _ ("What Is Not Shown"), NULL);
  adw_message_dialog_set_body (
      ADW_MESSAGE_DIALOG (dialog),
      newer->left_out->len > 0
          ? _ ("These places of the file say things that only a newer Drybay knows.")
          : _ ("Everything in the file is known here."));
  label = gtk_label_new (list);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), label);
  gtk_widget_set_size_request (scroller, 360, 160);
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), scroller);
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _ ("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
show_newer (DryWindow *self, const DryNewer *newer)
{
  guint n = newer->left_out->len;
  g_autofree char *missing = NULL, *text = NULL;

  missing =
      n > 0 ? g_strdup_printf (
                  ngettext ("%u thing in it is not shown.", "%u things in it are not shown.", n), n)
            : g_strdup (_ ("Everything in it is shown."));
  text = g_strdup_printf (
      _ ("This file was saved by a newer Drybay and is open for reading only. %s"), missing);
  show_bar (self, text, (const char *const[]){_ ("_What Is Not Shown"), "win.left-out"},
            (const char *const[]){_ ("_Save a Copy…"), "win.save-as"});
}

gboolean
dry_window_refuses_papers (DryWindow *self)
{
  const DryNewer *newer = dry_session_get_newer (self->session);

  if (newer == NULL || newer->left_out->len == 0)
    return FALSE;
  dry_window_tell (self, _ ("Papers would lack what is not shown here. Save a copy, and look it "
                            "over, first."));
  return TRUE;
}

/* --- following the session --- */

static void
on_file_changed (DryWindow *self)
{
  const char *path = dry_session_get_path (self->session);
  const DryNewer *newer = dry_session_get_newer (self->session);
  const char *watched = self->watch != NULL ? dry_file_watch_get_path (self->watch) : NULL;

  if (g_strcmp0 (path, watched) != 0) {
    g_clear_pointer (&self->watch, dry_file_watch_free);
    hide_bar (self);
    if (path != NULL)
      self->watch = dry_file_watch_new (path, on_touched, self);
  }
  if (newer != NULL && adw_bin_get_child (self->banner_place) == NULL)
    show_newer (self, newer);
  else if (newer == NULL && path == NULL)
    hide_bar (self);
}

static void
on_active (GtkWindow *window, GParamSpec *spec, DryWindow *self)
{
  if (self->watch != NULL && gtk_window_is_active (window))
    dry_file_watch_look (self->watch);
}

void
dry_window_follow_file (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "reload-file", .activate = on_reload},
      {.name = "keep-mine", .activate = on_keep_mine},
      {.name = "left-out", .activate = on_left_out},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_signal_connect_object (self->session, "file-changed", G_CALLBACK (on_file_changed), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (on_active), self);
}

void
dry_window_stop_following (DryWindow *self)
{
  g_clear_pointer (&self->watch, dry_file_watch_free);
}
