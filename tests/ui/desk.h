/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A session and a window to put one panel in, for tests of panels: what the panel shows is found by
 * what it says, as a person would. Knows no panel of its own. */
#pragma once

#include <adwaita.h>

#include "ui/application.h"
#include "ui/session.h"
#include "widgets.h"

typedef struct {
  DrySession *session; /* the furnished alcove */
  GtkWidget *window;
  char *opened; /* what the window's actions were asked for */
} DryDesk;

/* Begins the test program and registers the application; FALSE when there is no display. */
gboolean dry_desk_begin (int *argc, char ***argv);
/* Runs the tests and lets go of the application; what main() returns. */
int dry_desk_run (void);
DryApplication *dry_desk_get_application (void);

/* For g_test_add(). */
void dry_desk_set_up (DryDesk *desk, gconstpointer data);
void dry_desk_tear_down (DryDesk *desk, gconstpointer data);
#define DRY_DESK_ADD(path, test)                                                                   \
  g_test_add (path, DryDesk, NULL, dry_desk_set_up, test, dry_desk_tear_down)

/* Makes the panel the window's content and waits until it is seen. */
void dry_desk_show (DryDesk *desk, GtkWidget *panel);
const DryPart *dry_desk_find_part (DrySession *session, DryPartKind kind);
/* Types into a row's entry and presses Enter. */
void dry_desk_type_into (GtkWidget *row, const char *text);

/* For dry_test_find(): a row by its title, any row, a label by its text. */
gboolean dry_desk_is_row (GtkWidget *widget, gconstpointer title);
gboolean dry_desk_is_any_row (GtkWidget *widget, gconstpointer unused);
gboolean dry_desk_is_label (GtkWidget *widget, gconstpointer text);
