/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The session's state and how it keeps project, plan and selection in step.
 * No widgets here: it runs, and is tested, without a display. */
#include "ui/session-private.h"

#include <glib/gi18n.h>

#include "ui/studs.h"

enum {
  PROJECT_CHANGED,
  DOCUMENT_CHANGED,
  PLAN_CHANGED,
  SELECTION_CHANGED,
  TYPING_ENDS,
  VIEW_CHANGED,
  FILE_CHANGED,
  TOLD,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (DrySession, dry_session, G_TYPE_OBJECT)

/* While a thing is in hand the worker begins after the frame that shows where: it would take a
 * processor from the window or the display just then. The toolkit redraws at G_PRIORITY_HIGH_IDLE +
 * 20. */
#define AFTER_REDRAW (G_PRIORITY_HIGH_IDLE + 25)

/* --- plans --- */

static gboolean
ask_worker (gpointer data)
{
  DrySession *self = data;

  self->asking = 0;
  dry_worker_request (self->worker, dry_session_get_project (self), self->room, self->serial);
  return G_SOURCE_REMOVE;
}

static void
request_plan (DrySession *self)
{
  const DryProject *project = dry_session_get_project (self);
  gboolean shown = self->plan != NULL && self->plan->project == project &&
                   self->plan->context.room->id == self->room;

  self->serial++;
  g_clear_handle_id (&self->asking, g_source_remove);
  if (shown || dry_session_recall_plan (self, project)) {
    dry_worker_search (self->worker, self->plan, self->serial);
    self->busy = FALSE;
    dry_session_remember_plan (self);
    g_signal_emit (self, signals[PLAN_CHANGED], 0);
    return;
  }
  self->busy = TRUE;
  if (self->preview != NULL)
    self->asking = g_idle_add_full (AFTER_REDRAW, ask_worker, self, NULL);
  else
    dry_worker_request (self->worker, project, self->room, self->serial);
}

/* Another plan may have neither board nor seam there. */
static gboolean
has_lost_piece (DrySession *self)
{
  DryRect rect;

  return self->piece.kind != DRY_PIECE_NONE &&
         !dry_piece_get_rect (self->plan, dry_session_get_room (self), &self->piece, &rect);
}

static void
take_answer (const DryReply *answer, gpointer data)
{
  DrySession *self = data;
  gboolean newest = answer->serial == self->serial;

  if (answer->room != self->room)
    return;
  /* An older answer is worth showing only while a newer one of the same drag is under way. */
  if (!newest && self->preview == NULL)
    return;
  if (newest)
    self->busy = FALSE;
  if (answer->plan != NULL) {
    dry_session_show_plan (self, answer->plan, answer->scene);
  } else if (newest) {
    g_free (self->plan_error);
    self->plan_error = g_strdup (answer->error != NULL ? answer->error->message : "");
  }
  if (self->finding >= (gint) (self->plan != NULL ? self->plan->findings->n : 0)) {
    self->finding = -1;
    g_signal_emit (self, signals[SELECTION_CHANGED], 0);
  }
  if (self->preview == NULL && has_lost_piece (self)) {
    self->piece.kind = DRY_PIECE_NONE;
    g_signal_emit (self, signals[SELECTION_CHANGED], 0);
  }
  g_signal_emit (self, signals[PLAN_CHANGED], 0);
}

/* --- keeping in step --- */

/* A wished seam is selected as a piece of its wall. */
static DryId
resolve_object (DrySession *self, DryId object)
{
  const DryRoom *room = dry_session_get_room (self);
  const DrySeamWish *wish = room != NULL ? dry_room_get_seam (room, object) : NULL;

  self->piece = wish != NULL ? dry_piece_of_wish (wish) : (DryPieceRef){0};
  return wish != NULL ? wish->wall : object;
}

static gboolean
has_object (DrySession *self, DryId object)
{
  const DryRoom *room = dry_session_get_room (self);

  if (room == NULL || object == 0)
    return FALSE;
  return dry_room_get_part (room, object) != NULL || dry_room_get_opening (room, object) != NULL ||
         dry_room_get_wall (room, object) != NULL || room->basin.id == object;
}

/* A stud may be taken out from under the selection. */
static void
check_stud (DrySession *self)
{
  const DryRoom *room = dry_session_get_room (self);
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, self->selection) : NULL;
  g_autoptr (GArray) studs = wall != NULL ? dry_studs_list (wall) : NULL;

  if (studs == NULL || self->stud >= (gint) studs->len)
    dry_session_select (self, self->selection);
}

void
dry_session_announce (DrySession *self)
{
  const DryProject *project = dry_session_get_project (self);

  g_object_ref (self);
  if (dry_project_get_room (project, self->room) == NULL)
    self->room =
        dry_project_get_n_rooms (project) > 0 ? dry_project_get_room_at (project, 0)->id : 0;
  g_signal_emit (self, signals[PROJECT_CHANGED], 0);
  if (self->preview == NULL)
    g_signal_emit (self, signals[DOCUMENT_CHANGED], 0);
  if (self->selection != 0 && !has_object (self, self->selection))
    dry_session_select (self, 0);
  else if (self->stud >= 0)
    check_stud (self);
  request_plan (self);
  g_object_unref (self);
}

void
dry_session_drop_preview (DrySession *self)
{
  if (self->preview != NULL)
    dry_project_unref ((DryProject *) self->preview);
  self->preview = NULL;
}

/* --- the object --- */

static void
dry_session_finalize (GObject *object)
{
  DrySession *self = DRY_SESSION (object);

  g_clear_handle_id (&self->asking, g_source_remove);
  g_clear_pointer (&self->worker, dry_worker_free);
  dry_session_drop_preview (self);
  g_clear_pointer (&self->history, dry_history_free);
  g_clear_pointer (&self->keeper, dry_keeper_free);
  g_clear_pointer (&self->counted, g_free);
  g_clear_pointer (&self->plan, dry_plan_unref);
  g_clear_pointer (&self->scene, dry_scene_unref);
  for (guint i = 0; i < N_REMEMBERED; i++) {
    g_clear_pointer (&self->remembered[i].plan, dry_plan_unref);
    g_clear_pointer (&self->remembered[i].scene, dry_scene_unref);
  }
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->newer_path, g_free);
  dry_newer_clear (&self->newer);
  g_clear_pointer (&self->plan_error, g_free);
  dry_catalog_unref ((DryCatalog *) self->catalog);
  G_OBJECT_CLASS (dry_session_parent_class)->finalize (object);
}

static guint
add_signal (const char *name)
{
  return g_signal_new (name, DRY_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                       0);
}

static void
dry_session_class_init (DrySessionClass *class)
{
  G_OBJECT_CLASS (class)->finalize = dry_session_finalize;
  signals[PROJECT_CHANGED] = add_signal ("project-changed");
  signals[DOCUMENT_CHANGED] = add_signal ("document-changed");
  signals[PLAN_CHANGED] = add_signal ("plan-changed");
  signals[SELECTION_CHANGED] = add_signal ("selection-changed");
  signals[TYPING_ENDS] = add_signal ("typing-ends");
  signals[VIEW_CHANGED] = add_signal ("view-changed");
  add_signal ("counted-changed");
  signals[FILE_CHANGED] = add_signal ("file-changed");
  signals[TOLD] = g_signal_new ("told", DRY_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_STRING);
}

static void
dry_session_init (DrySession *self)
{
  self->finding = -1;
  self->stud = -1;
  self->layers = DRY_LAYERS_USUAL;
}

DrySession *
dry_session_new (const DryCatalog *catalog)
{
  DrySession *self = g_object_new (DRY_TYPE_SESSION, NULL);
  g_autoptr (DryProject) first = dry_project_new ();

  /* The first to be told: whoever follows finds the old light out. */
  g_signal_connect (self, "selection-changed", G_CALLBACK (dry_session_set_counted), NULL);
  self->catalog = dry_catalog_ref (catalog);
  self->worker = dry_worker_new (catalog, take_answer, self);
  self->history = dry_history_new (first);
  self->keeper = dry_keeper_new (NULL, NULL);
  dry_history_mark_saved (self->history);
  dry_session_announce (self);
  return self;
}

const DryCatalog *
dry_session_get_catalog (DrySession *self)
{
  return self->catalog;
}

const DryProject *
dry_session_get_project (DrySession *self)
{
  return self->preview != NULL ? self->preview : dry_history_get_current (self->history);
}

const DryRoom *
dry_session_get_room (DrySession *self)
{
  return dry_project_get_room (dry_session_get_project (self), self->room);
}

DryId
dry_session_get_room_id (DrySession *self)
{
  return self->room;
}

void
dry_session_end_typing (DrySession *self)
{
  g_signal_emit (self, signals[TYPING_ENDS], 0);
}

void
dry_session_set_room_id (DrySession *self, DryId room)
{
  if (room == self->room || dry_project_get_room (dry_session_get_project (self), room) == NULL)
    return;
  dry_session_end_typing (self);
  self->room = room;
  self->selection = 0;
  self->stud = -1;
  self->piece.kind = DRY_PIECE_NONE;
  self->finding = -1;
  g_signal_emit (self, signals[VIEW_CHANGED], 0);
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
  request_plan (self);
}

const DryPlan *
dry_session_get_plan (DrySession *self)
{
  return self->plan;
}

const DryScene *
dry_session_get_scene (DrySession *self)
{
  return self->scene;
}

gboolean
dry_session_is_busy (DrySession *self)
{
  return self->busy;
}

gboolean
dry_session_is_settled (DrySession *self)
{
  return self->plan != NULL && !self->busy &&
         self->plan->project == dry_history_get_current (self->history) &&
         self->plan->context.room->id == self->room;
}

const char *
dry_session_get_plan_error (DrySession *self)
{
  return self->plan_error;
}

DryHistory *
dry_session_get_history (DrySession *self)
{
  return self->history;
}

/* --- edits --- */

/* Work goes on without a journal; a person has to know that it does. */
void
dry_session_tell_trouble (DrySession *self)
{
  g_autofree char *trouble = dry_keeper_take_trouble (self->keeper);
  g_autofree char *text = NULL;

  if (trouble == NULL)
    return;
  text = g_strdup_printf (_ ("Changes would be lost in a crash: %s"), trouble);
  g_signal_emit (self, signals[TOLD], 0, text, NULL);
}

static void
push_step (DrySession *self, const DryProject *project, const char *name, const char *merge_key)
{
  gboolean merged;

  dry_keeper_prepare (self->keeper, dry_history_get_current (self->history));
  merged = dry_history_push (self->history, project, name, merge_key);
  dry_keeper_push (self->keeper, project, name, merge_key, merged);
  dry_session_tell_trouble (self);
}

gboolean
dry_session_apply (DrySession *self, DryProject *project, const char *name, const char *merge_key,
                   GError *error)
{
  gboolean was_preview = self->preview != NULL;

  if (project == NULL) {
    g_signal_emit (self, signals[TOLD], 0, error != NULL ? error->message : "", NULL);
    g_clear_error (&error);
    if (was_preview)
      dry_session_preview (self, NULL);
    return FALSE;
  }
  g_clear_error (&error);
  if (dry_project_equal (project, dry_history_get_current (self->history))) {
    dry_project_unref (project);
    if (was_preview)
      dry_session_preview (self, NULL);
    return FALSE;
  }
  /* The value just previewed is planned already: keep it rather than its twin. */
  if (was_preview && project != self->preview && dry_project_equal (project, self->preview)) {
    dry_project_unref (project);
    project = dry_project_ref (self->preview);
  }
  push_step (self, project, name, merge_key);
  dry_project_unref (project);
  dry_session_drop_preview (self);
  dry_session_announce (self);
  g_signal_emit (self, signals[FILE_CHANGED], 0);
  return TRUE;
}

void
dry_session_preview (DrySession *self, DryProject *project)
{
  if (project == NULL && self->preview == NULL)
    return;
  if (project != NULL && dry_project_equal (project, dry_session_get_project (self))) {
    dry_project_unref (project);
    return;
  }
  dry_session_drop_preview (self);
  self->preview = project;
  dry_session_announce (self);
}

/* The room a step changed, so that nobody undoes what cannot be seen: the shown one when it is
 * among them, else the first that came back or differs; 0: none, or only rooms that are gone. Rooms
 * that an edit does not touch are shared between its projects. */
static DryId
changed_room (DrySession *self, const DryProject *before, const DryProject *after)
{
  guint n = dry_project_get_n_rooms (after);
  DryId changed = 0;

  for (guint i = 0; i < n; i++) {
    const DryRoom *room = dry_project_get_room_at (after, i);

    if (dry_project_get_room (before, room->id) == room)
      continue;
    if (room->id == self->room)
      return room->id;
    if (changed == 0)
      changed = room->id;
  }
  return changed;
}

static void
travel (DrySession *self, gboolean (*step) (DryHistory *history), void (*keep) (DryKeeper *keeper))
{
  g_autoptr (DryProject) before = NULL;
  DryId room;

  dry_session_preview (self, NULL);
  before = dry_project_ref (dry_history_get_current (self->history));
  if (!step (self->history))
    return;
  keep (self->keeper);
  room = changed_room (self, before, dry_history_get_current (self->history));
  if (room != 0 && room != self->room) {
    self->room = room;
    self->selection = 0;
    self->stud = -1;
    self->piece.kind = DRY_PIECE_NONE;
    self->finding = -1;
    dry_session_announce (self);
    g_signal_emit (self, signals[VIEW_CHANGED], 0);
    g_signal_emit (self, signals[SELECTION_CHANGED], 0);
  } else {
    dry_session_announce (self);
  }
  g_signal_emit (self, signals[FILE_CHANGED], 0);
}

void
dry_session_undo (DrySession *self)
{
  travel (self, dry_history_undo, dry_keeper_undo);
}

void
dry_session_redo (DrySession *self)
{
  travel (self, dry_history_redo, dry_keeper_redo);
}

/* --- what is looked at --- */

DryId
dry_session_get_selection (DrySession *self)
{
  return self->selection;
}

void
dry_session_select (DrySession *self, DryId object)
{
  DryPieceKind piece;

  if (object != self->selection || self->stud >= 0 || self->piece.kind != DRY_PIECE_NONE)
    dry_session_end_typing (self);
  piece = self->piece.kind;
  dry_session_set_counted (self, NULL); /* also when nothing is selected before and after */
  object = resolve_object (self, object);
  if (object != 0 && !has_object (self, object))
    object = 0;
  if (object == self->selection && self->finding < 0 && self->stud < 0 && piece == DRY_PIECE_NONE &&
      self->piece.kind == DRY_PIECE_NONE)
    return;
  self->selection = object;
  self->stud = -1;
  self->finding = -1;
  dry_history_seal (self->history);
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

gint
dry_session_get_selected_stud (DrySession *self)
{
  return self->stud;
}

void
dry_session_select_stud (DrySession *self, DryId wall, gint stud)
{
  if (wall == self->selection && stud == self->stud && self->finding < 0 &&
      self->piece.kind == DRY_PIECE_NONE)
    return;
  dry_session_end_typing (self);
  self->piece.kind = DRY_PIECE_NONE;
  self->selection = has_object (self, wall) ? wall : 0;
  self->stud = self->selection != 0 ? stud : -1;
  self->finding = -1;
  dry_history_seal (self->history);
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

const DryPieceRef *
dry_session_get_selected_piece (DrySession *self)
{
  return self->selection != 0 && self->piece.kind != DRY_PIECE_NONE ? &self->piece : NULL;
}

void
dry_session_select_piece (DrySession *self, const DryPieceRef *piece)
{
  DryPieceRef wanted = *piece; /* it may be the session's own */

  if (self->selection == wanted.wall && self->finding < 0 && self->stud < 0 &&
      dry_piece_equal (&self->piece, &wanted))
    return;
  dry_session_end_typing (self);
  self->selection = has_object (self, wanted.wall) ? wanted.wall : 0;
  self->stud = -1;
  self->piece = wanted;
  self->finding = -1;
  dry_history_seal (self->history);
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

void
dry_session_follow_piece (DrySession *self, const DryPieceRef *piece)
{
  if (self->selection != piece->wall || dry_piece_equal (&self->piece, piece))
    return;
  self->piece = *piece;
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

gint
dry_session_get_selected_finding (DrySession *self)
{
  return self->finding;
}

void
dry_session_select_finding (DrySession *self, gint index)
{
  guint n = self->plan != NULL ? self->plan->findings->n : 0;

  if (index < 0 || (guint) index >= n)
    index = -1;
  if (index >= 0) {
    dry_session_end_typing (self);
    n = self->plan != NULL ? self->plan->findings->n : 0;
    index = (guint) index < n ? index : -1; /* entering what was typed may have mended it */
  }
  if (index >= 0) {
    DryId object = resolve_object (self, self->plan->findings->items[index].object);

    self->selection = has_object (self, object) ? object : 0;
    self->stud = -1;
  }
  self->finding = index;
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

guint
dry_session_get_layers (DrySession *self)
{
  return self->layers;
}

void
dry_session_set_layer (DrySession *self, DryLayer layer, gboolean shown)
{
  guint layers = shown ? self->layers | 1u << layer : self->layers & ~(1u << layer);

  if (layers == self->layers)
    return;
  self->layers = layers;
  g_signal_emit (self, signals[VIEW_CHANGED], 0);
}
