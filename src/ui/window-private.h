/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window's own files share: its widgets, actions and file dialogs.
 * Nobody but window*.c includes this. */
#pragma once

#include "papers/papers.h"
#include "ui/window.h"

G_BEGIN_DECLS

struct _DryWindow {
  AdwApplicationWindow parent_instance;

  DrySession *session;
  GSettings *settings;
  gboolean vacant;             /* the start page is shown */
  gboolean may_close;          /* asked and answered */
  gboolean showing, was_full;  /* to the client; full screen before that */
  GPtrArray *held;             /* GSimpleAction switched off meanwhile */
  char *undo_name, *redo_name; /* in the menu now */
  char *rooms;                 /* listed in the room menu */
  char *exported;              /* what the toast's Show button opens */

  AdwToastOverlay *toasts;
  GtkWidget *header;
  AdwWindowTitle *title;
  GtkStack *pages;
  AdwBin *banner_place, *packs_place;
  struct _DryFileWatch *watch; /* of the session's file; NULL without one */
  AdwBin *start_place, *shelf_place, *inspector_place, *ledger_place;
  GtkOverlay *board;
  GtkRevealer *shelf_revealer, *inspector_revealer, *error_revealer;
  GtkLabel *error_label;
  GtkWidget *shelf_button, *inspector_button, *history_buttons, *room_button, *papers_button;
  GtkWidget *undo_button, *redo_button;
  GtkWidget *menu_button, *layers_button;
  GMenuModel *primary_menu, *papers_menu, *layers_menu;
  GMenu *history_section;
  DryCanvas *canvas;
  GtkWidget *ledger;
};

void dry_window_tell (DryWindow *self, const char *text);
void dry_window_leave_start (DryWindow *self);

/* window-actions.c */
void dry_window_add_actions (DryWindow *self);
void dry_window_update_actions (DryWindow *self);
/* Before the window goes: GTK 4.8 may keep its actions a while longer than the window they tell of
 * their state, and another window may change it. */
void dry_window_remove_setting_actions (DryWindow *self);
void dry_window_update_layers (DryWindow *self);

/* window-client.c */
void dry_window_add_client_actions (DryWindow *self);
/* While the client looks on, nothing may be done to what nobody sees. */
void dry_window_hold_actions (DryWindow *self);

/* window-packs.c */
void dry_window_tell_packs (DryWindow *self, DryApplication *application);

/* window-boards.c */
void dry_window_add_board_actions (DryWindow *self);
void dry_window_update_board_actions (DryWindow *self);

/* window-room.c */
void dry_window_add_room_actions (DryWindow *self);
void dry_window_update_room_menu (DryWindow *self);

/* window-help.c */
void dry_window_add_help_actions (DryWindow *self);

/* window-keeping.c */
void dry_window_arm_keeper (DryWindow *self);
void dry_window_add_keeping_actions (DryWindow *self);
void dry_window_ask_changed (DryWindow *self); /* the session's file was changed by someone else */
void dry_window_offer_leftover (DryWindow *self, const char *path);
DryWindow *dry_window_find_file (DryWindow *self, const char *path); /* where it is open, or NULL */

/* window-watch.c */
/* A bar that says something, for over the drawing; floating. */
GtkBox *dry_window_new_bar (const char *text);
/* Adds one to its end; `action` may be NULL. Borrowed. */
GtkWidget *dry_window_add_bar_button (GtkBox *bar, const char *label, const char *action);
void dry_window_follow_file (DryWindow *self);
void dry_window_stop_following (DryWindow *self);
/* TRUE after telling why: what is shown is not all of the file. */
gboolean dry_window_refuses_papers (DryWindow *self);

/* window-client-papers.c */
void dry_window_add_client_paper_actions (DryWindow *self);

/* window-trades.c */
void dry_window_add_trade_actions (DryWindow *self);

/* window-full-size.c */
void dry_window_add_full_size_actions (DryWindow *self);

/* window-choose.c */
typedef void (*DryFileChosen) (DryWindow *self, const char *path);
void dry_window_ask_open (DryWindow *self, DryFileChosen chosen);
/* Asks where to write the project; what is chosen ends in ".drybay". */
void dry_window_ask_save (DryWindow *self, DryFileChosen chosen);
/* Asks where to write a PDF, its name suggested with that ending; what is chosen ends in ".pdf". */
void dry_window_ask_pdf (DryWindow *self, const char *title, const char *ending,
                         DryFileChosen chosen);
/* The same for the drawing; what is chosen may have any ending. */
void dry_window_ask_drawing (DryWindow *self, DryFileChosen chosen);
/* Tells that `path` is exported and offers to show it, or why it was not. */
void dry_window_tell_outcome (DryWindow *self, gboolean written, const char *path,
                              const GError *error);

/* window-files.c */
/* `*date` is part of it: free after use. */
DryPaperOptions dry_window_paper_options (DryWindow *self, char **date);
/* The plans of all rooms in their order, or of the `only` one unless that is 0. NULL after telling
 * why. */
GPtrArray *dry_window_collect_plans (DryWindow *self, DryId only);
/* Shows the print dialog for them; takes the papers. */
void dry_window_print (DryWindow *self, DryPapers *papers);
DryWindow *
dry_window_find_free (DryWindow *self); /* this one while it holds no work, or a new one */
void dry_window_add_file_actions (DryWindow *self);
void dry_window_add_drop (DryWindow *self);
gboolean dry_window_ask_before_close (DryWindow *self); /* TRUE: stay open, the answer is to come */

G_END_DECLS
