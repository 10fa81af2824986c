/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The session: the one mutable object between the document and the widgets. Holds history, file,
 * plan, selection, layers and the drag in progress; hands projects to the worker and takes the
 * newest plan back. */
#pragma once

#include <gio/gio.h>

#include "draw/drawings.h"
#include "project/edit.h"
#include "project/file.h"
#include "project/history.h"
#include "ui/keeper.h"

G_BEGIN_DECLS

typedef enum { DRY_PIECE_NONE, DRY_PIECE_BOARD, DRY_PIECE_SEAM } DryPieceKind;

/* A board, or a seam between two, of one wall face. */
typedef struct {
  DryPieceKind kind;
  DryId wall;
  DrySide side;
  gboolean level; /* seam */
  DryPoint at;    /* u, z */
} DryPieceRef;

#define DRY_TYPE_SESSION (dry_session_get_type ())
G_DECLARE_FINAL_TYPE (DrySession, dry_session, DRY, SESSION, GObject)

/* Signals (no arguments unless said):
 *   "project-changed"    the shown project is another value (edit, undo, preview, open)
 *   "document-changed"   the same, but not for a preview: what need not move with the hand
 *   "plan-changed"       a newer plan (and scene) has arrived from the worker
 *   "typing-ends"        another thing or room is about to be selected, the file to be saved or the
 *                        window closed: what is being typed is to be entered now
 *   "selection-changed"
 *   "view-changed"       layers, room shown
 *   "file-changed"       path, title or saved state
 *   "told"  (char *text, char *undo_name or NULL)   something to say in a toast
 */
DrySession *dry_session_new (const DryCatalog *catalog);

const DryCatalog *dry_session_get_catalog (DrySession *self);
/* The project shown: the preview during a drag, else the history's current one. Borrowed. */
const DryProject *dry_session_get_project (DrySession *self);
const DryRoom *dry_session_get_room (DrySession *self);
void dry_session_end_typing (DrySession *self); /* enters what is being typed anywhere */
DryId dry_session_get_room_id (DrySession *self);
void dry_session_set_room_id (DrySession *self, DryId room);
/* Newest finished plan and its board scene; may lag behind the project while the worker runs. NULL
 * before the first. Borrowed; valid until the next main-loop turn, ref to keep. */
const DryPlan *dry_session_get_plan (DrySession *self);
const DryScene *dry_session_get_scene (DrySession *self);
gboolean dry_session_is_busy (DrySession *self); /* a computation is under way */
/* The plan is the document's own, of the room shown: no drag, and no newer plan on its way. */
gboolean dry_session_is_settled (DrySession *self);
const char *
dry_session_get_plan_error (DrySession *self); /* NULL when the newest computation went well */

/* Takes an edit's result: `project` is consumed and may be NULL, then `error` (consumed) is told in
 * a toast. A result equal to the current project changes nothing. TRUE when it was taken. */
gboolean dry_session_apply (DrySession *self, DryProject *project, const char *name,
                            const char *merge_key, GError *error);
/* Shows `project` (consumed) without a history step; NULL ends the preview. */
void dry_session_preview (DrySession *self, DryProject *project);
void dry_session_undo (DrySession *self);
void dry_session_redo (DrySession *self);
DryHistory *dry_session_get_history (DrySession *self);

DryId
dry_session_get_selection (DrySession *self); /* 0 = none; a part, opening, wall or the basin */
/* A wished seam's id selects its wall and the seam as the wall's piece. */
void dry_session_select (DrySession *self, DryId object);
/* One stud of the selected wall, by its index in dry_studs_list(); -1 = none. Selecting anything
 * else lets go of it. */
gint dry_session_get_selected_stud (DrySession *self);
void dry_session_select_stud (DrySession *self, DryId wall, gint stud);
/* One board or seam of the selected wall, told by a point on it; NULL = none. Borrowed; selecting
 * anything else lets go of it, and so does a plan that has nothing there. */
const DryPieceRef *dry_session_get_selected_piece (DrySession *self);
void dry_session_select_piece (DrySession *self, const DryPieceRef *piece);
/* The selected piece is now known by this point: it was moved. */
void dry_session_follow_piece (DrySession *self, const DryPieceRef *piece);
gint dry_session_get_selected_finding (DrySession *self); /* -1 = none */
void dry_session_select_finding (DrySession *self, gint index);

guint dry_session_get_layers (DrySession *self); /* bit set of DryLayer */
/* The line of the take-off, "group/id", whose things are lit up on the board; NULL: none. Whatever
 * is selected next puts it out. */
const char *dry_session_get_counted (DrySession *self);
void dry_session_set_counted (DrySession *self, const char *line);
void dry_session_set_layer (DrySession *self, DryLayer layer, gboolean shown);

void dry_session_open_project (DrySession *self, DryProject *project,
                               const char *path); /* consumed */
gboolean dry_session_open_path (DrySession *self, const char *path, GError **error);
/* What a file of a newer version holds that is not shown; NULL when the document is of none. Such a
 * document has no path until it is saved elsewhere: its own file, the second, is never written. */
const DryNewer *dry_session_get_newer (DrySession *self);
const char *dry_session_get_newer_path (DrySession *self);
/* How the session's file stands beside the document. Once it is gone the document counts as not
 * saved. */
DryFileState dry_session_look_at_file (DrySession *self);
/* Takes what is in the file now, as a step that can be undone. Errors as dry_project_load(). */
gboolean dry_session_reload (DrySession *self, GError **error);
/* What is in the file now is known to the user, who wants the document kept, as not saved. */
void dry_session_keep_mine (DrySession *self);
/* Errors as dry_project_save(), and DRY_ERROR_CHANGED: the session's file is not as it was read or
 * written here. dry_session_save_over() then writes all the same. */
gboolean dry_session_save (DrySession *self, const char *path, GError **error);
gboolean dry_session_save_over (DrySession *self, const char *path, GError **error);
/* Where journals and versions are kept; NULL: nowhere. Before the first step. */
void dry_session_keep_in (DrySession *self, const char *journals, const char *versions);
/* Takes over what a process that is gone left in `file` (see project/journal.h): the undo list as
 * it was, unsaved work included. */
gboolean dry_session_recover (DrySession *self, const char *file, GError **error);
/* The kept versions (DryVersion) of the session's file, newest first. Unref it. */
GPtrArray *dry_session_list_versions (DrySession *self);
const char *dry_session_get_path (DrySession *self); /* NULL: never saved */
gboolean dry_session_is_saved (DrySession *self);

/* How lengths are shown and typed in this project. */
DryLengthFormat dry_session_get_length_format (DrySession *self);
DryUnit dry_session_get_bare_unit (DrySession *self);
char *dry_session_format_length (DrySession *self, DryLength length); /* free */

G_END_DECLS
