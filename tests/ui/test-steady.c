/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What comes or goes is watched through all of its frames: its letters keep their size, and at rest
 * it lies where libadwaita lays it. */
#include "desk.h"
#include "ui/steady.h"

#include <math.h>

typedef struct {
  double smallest, largest; /* drawn over own width */
  guint faded;              /* frames in which it was seen in part */
  double x, y;              /* of its upper left corner, last */
} Seen;

static void
look (GtkWidget *widget, GtkWidget *root, Seen *seen)
{
  graphene_point_t from, to;
  int width = gtk_widget_get_width (widget);
  double opacity = gtk_widget_get_opacity (widget);

  if (width <= 0 || !gtk_widget_compute_point (widget, root, &GRAPHENE_POINT_INIT (0, 0), &from) ||
      !gtk_widget_compute_point (widget, root, &GRAPHENE_POINT_INIT ((float) width, 0), &to))
    return;
  seen->smallest = MIN (seen->smallest, (double) (to.x - from.x) / width);
  seen->largest = MAX (seen->largest, (double) (to.x - from.x) / width);
  seen->faded += opacity > 0.02 && opacity < 0.98;
  seen->x = from.x;
  seen->y = from.y;
}

static void
assert_kept_size (const Seen *seen)
{
  g_assert_cmpfloat_with_epsilon (seen->smallest, 1, 1e-4);
  g_assert_cmpfloat_with_epsilon (seen->largest, 1, 1e-4);
}

/* --- titles --- */

static gboolean
has_class (GtkWidget *widget, gconstpointer name)
{
  return GTK_IS_LABEL (widget) && gtk_widget_has_css_class (widget, name);
}

static GtkWidget *
add_row (GtkWidget *list, GtkWidget *row)
{
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), "Name");
  gtk_list_box_append (GTK_LIST_BOX (list), row);
  return row;
}

static void
watch_title (GtkWidget *row, const char *name, Seen *seen)
{
  GtkWidget *title = dry_test_find (row, has_class, name);

  g_assert_nonnull (title);
  look (title, row, seen);
}

/* Until it lies still. */
static void
watch_titles (GtkWidget *row, Seen seen[2])
{
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (row)));
  gint64 end = g_get_monotonic_time () + G_USEC_PER_SEC;

  while (g_get_monotonic_time () < end) {
    g_main_context_iteration (NULL, FALSE);
    if (!gtk_widget_get_mapped (text))
      continue;
    watch_title (row, "title", &seen[0]);
    watch_title (row, "subtitle", &seen[1]);
  }
}

/* Left, and up to a pixel of rounding above, where a row that is left alone has it. */
static void
assert_same_place (GtkWidget *row, GtkWidget *plain, const char *name)
{
  Seen ours = {0}, theirs = {0};

  watch_title (row, name, &ours);
  watch_title (plain, name, &theirs);
  g_assert_cmpfloat_with_epsilon (ours.x, theirs.x, 0.01);
  g_assert_cmpfloat_with_epsilon (ours.y, theirs.y, 1.01);
}

static void
test_steady_titles (DryDesk *desk, gconstpointer data)
{
  GtkWidget *list = gtk_list_box_new ();
  GtkWidget *row = add_row (list, dry_steady_entry_row_new ("Name"));
  GtkWidget *plain = add_row (list, adw_entry_row_new ());
  Seen seen[2] = {{.smallest = 1, .largest = 1}, {.smallest = 1, .largest = 1}};

  gtk_list_box_insert (GTK_LIST_BOX (list), gtk_entry_new (), 0);
  dry_desk_show (desk, list);
  watch_titles (row, seen);
  g_assert_cmpint (gtk_widget_get_height (row), ==, gtk_widget_get_height (plain));
  assert_same_place (row, plain, "title");
  for (int i = 0; i < 2; i++) { /* typed into and left again */
    gtk_widget_grab_focus (GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (row))));
    watch_titles (row, seen);
    gtk_widget_child_focus (list, GTK_DIR_TAB_FORWARD);
    gtk_root_set_focus (gtk_widget_get_root (list), NULL);
    watch_titles (row, seen);
  }
  gtk_editable_set_text (GTK_EDITABLE (row), "Bath upstairs");
  gtk_editable_set_text (GTK_EDITABLE (plain), "Bath upstairs");
  watch_titles (row, seen);
  assert_same_place (row, plain, "subtitle");
  for (int i = 0; i < 2; i++) {
    assert_kept_size (&seen[i]);
    g_assert_cmpuint (seen[i].faded, >, 0);
  }
}

/* --- toasts --- */

static GtkWidget *
find_toast (GtkWidget *overlay)
{
  for (GtkWidget *child = gtk_widget_get_first_child (overlay); child;
       child = gtk_widget_get_next_sibling (child))
    if (child != adw_toast_overlay_get_child (ADW_TOAST_OVERLAY (overlay)))
      return child;
  return NULL;
}

static void
test_steady_toasts (DryDesk *desk, gconstpointer data)
{
  GtkWidget *overlay = adw_toast_overlay_new (), *toast;
  AdwToast *what = adw_toast_new ("Niche removed");
  Seen rest = {.smallest = 1, .largest = 1}, seen = rest;

  adw_toast_set_button_label (what, "Undo");
  adw_toast_set_timeout (what, 0);
  adw_toast_overlay_set_child (ADW_TOAST_OVERLAY (overlay), gtk_label_new ("Board"));
  dry_desk_show (desk, overlay);
  adw_toast_overlay_add_toast (ADW_TOAST_OVERLAY (overlay), g_object_ref (what));
  for (int i = 0; i < 8; i++)
    dry_test_settle (); /* it has come */
  toast = find_toast (overlay);
  g_assert_nonnull (toast);
  look (toast, overlay, &rest);
  adw_toast_dismiss (what);
  while ((toast = find_toast (overlay)) != NULL) {
    g_main_context_iteration (NULL, FALSE);
    if (find_toast (overlay) == toast)
      look (toast, overlay, &seen);
  }
  assert_kept_size (&seen);
  g_assert_cmpuint (seen.faded, >, 0);
  g_assert_cmpfloat_with_epsilon (seen.x, rest.x, 0.01);
  g_assert_cmpfloat_with_epsilon (seen.y, rest.y, 0.01);
  g_object_unref (what);
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  dry_steady_install ();
  DRY_DESK_ADD ("/ui/steady/titles", test_steady_titles);
  DRY_DESK_ADD ("/ui/steady/toasts", test_steady_toasts);
  return dry_desk_run ();
}
