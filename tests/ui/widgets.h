/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For tests that look into windows: finding widgets by what they show, waiting on the main loop.
 * Knows GTK and none of our own panels. */
#pragma once

#include <gtk/gtk.h>

typedef gboolean (*DryTestFits) (GtkWidget *widget, gconstpointer what);

/* How many of `root` and all below it fit; `first` (may be NULL) is set to the first when NULL. */
guint dry_test_collect (GtkWidget *root, DryTestFits fits, gconstpointer what, GtkWidget **first);
GtkWidget *dry_test_find (GtkWidget *root, DryTestFits fits, gconstpointer what); /* or NULL */
/* `what` is a pointer to a GType. */
gboolean dry_test_is_type (GtkWidget *widget, gconstpointer what);
/* The first of that type; its absence fails the test. */
GtkWidget *dry_test_require (GtkWidget *root, GType type);
/* The open window of that type by its name, the last when there are several; `n` may be NULL. */
GtkWidget *dry_test_find_toplevel (const char *type, guint *n);
/* The controller of that type on the widget; its absence fails the test. Borrowed. */
GtkEventController *dry_test_controller (GtkWidget *widget, GType type);

/* The first field in it opens no chooser of emoji. */
void dry_test_assert_no_emoji (GtkWidget *root);

/* Lets the main loop run for an eighth of a second, and until each window has painted what that
 * changed. */
void dry_test_settle (void);

gboolean dry_test_give_up (gpointer what);

#define DRY_TEST_WAIT_FOR(condition)                                                               \
  G_STMT_START                                                                                     \
  {                                                                                                \
    guint limit = g_timeout_add_seconds (30, dry_test_give_up, (gpointer) #condition);             \
    while (!(condition))                                                                           \
      g_main_context_iteration (NULL, TRUE);                                                       \
    g_source_remove (limit);                                                                       \
  }                                                                                                \
  G_STMT_END
