/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Toasts on a virtual screen: told to go before they have come, one after the other, and with the
 * window that shows them. Freed memory is overwritten in tests (MALLOC_PERTURB_, set by meson). */
#include "desk.h"
#include "ui/toasts.h"

static AdwToast *
show (GtkWidget *place, const char *title)
{
  AdwToast *toast = adw_toast_new (title);

  dry_toasts_show (place, g_object_ref (toast));
  return toast;
}

static gboolean
says (GtkWidget *widget, gconstpointer text)
{
  return dry_desk_is_label (widget, text) && gtk_widget_get_mapped (widget);
}

/* Told to go in the frame in which it was shown: it comes, then goes, and the next has its turn. */
static void
test_toasts_gone_at_once (DryDesk *desk, gconstpointer data)
{
  GtkWidget *place = adw_toast_overlay_new ();

  dry_desk_show (desk, place);
  for (int i = 0; i < 3; i++) {
    g_autoptr (AdwToast) first = show (place, "First"), second = show (place, "Second");

    adw_toast_dismiss (first);
    adw_toast_dismiss (first);
    DRY_TEST_WAIT_FOR (dry_test_find (place, says, "Second") != NULL);
    g_assert_null (dry_test_find (place, says, "First"));
    adw_toast_dismiss (second);
    DRY_TEST_WAIT_FOR (dry_test_find (place, says, "Second") == NULL);
    for (int j = 0; j < 4; j++)
      dry_test_settle (); /* what is shown next waits no more */
  }
}

/* No frame is painted between the showing and long after the going was asked for. */
static void
test_toasts_without_frames (DryDesk *desk, gconstpointer data)
{
  GtkWidget *place = adw_toast_overlay_new ();
  g_autoptr (AdwToast) toast = NULL, next = NULL;

  dry_desk_show (desk, place);
  toast = show (place, "Late");
  adw_toast_dismiss (toast);
  g_usleep (900 * 1000);
  DRY_TEST_WAIT_FOR (dry_test_find (place, says, "Late") == NULL);
  next = show (place, "Next");
  DRY_TEST_WAIT_FOR (dry_test_find (place, says, "Next") != NULL);
  adw_toast_dismiss (next);
  DRY_TEST_WAIT_FOR (dry_test_find (place, says, "Next") == NULL);
}

/* The place goes while a toast is coming and another waits. */
static void
test_toasts_with_place (DryDesk *desk, gconstpointer data)
{
  GtkWidget *place = adw_toast_overlay_new ();
  g_autoptr (AdwToast) toast = NULL, waiting = NULL;

  dry_desk_show (desk, place);
  toast = show (place, "Coming");
  waiting = show (place, "Waiting");
  adw_toast_dismiss (toast);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (desk->window), NULL);
  for (int i = 0; i < 8; i++)
    dry_test_settle ();
  g_assert_cmpuint (G_OBJECT (toast)->ref_count, ==, 1);
  g_assert_cmpuint (G_OBJECT (waiting)->ref_count, ==, 1);
}

int
main (int argc, char *argv[])
{
  if (!dry_desk_begin (&argc, &argv))
    return 99;
  DRY_DESK_ADD ("/ui/toasts/gone-at-once", test_toasts_gone_at_once);
  DRY_DESK_ADD ("/ui/toasts/without-frames", test_toasts_without_frames);
  DRY_DESK_ADD ("/ui/toasts/with-place", test_toasts_with_place);
  return dry_desk_run ();
}
