/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a session holds, shared by the files that make it up. Nobody else includes this. */
#pragma once

#include "ui/keeper.h"
#include "ui/pieces.h"
#include "ui/session.h"
#include "ui/worker.h"

/* Plans of the latest steps, so that undo, redo and a cancelled drag show at once. */
#define N_REMEMBERED 8

struct _DrySession {
  GObject parent_instance;

  const DryCatalog *catalog;
  DryHistory *history;
  DryKeeper *keeper;
  const DryProject *preview; /* NULL: the history's current one is shown */
  DryId room;
  char *path;
  DryNewer newer;   /* version 0: the document is of none */
  char *newer_path; /* its file then */

  DryWorker *worker;
  guint serial; /* of the newest request */
  guint asking; /* source that is about to put it; 0: it is put */
  gboolean busy;
  DryPlan *plan;
  DryScene *scene;
  char *plan_error;
  struct {
    DryPlan *plan;
    DryScene *scene;
  } remembered[N_REMEMBERED];
  guint next_slot;

  DryId selection;
  gint stud;         /* of the selected wall, or -1 */
  DryPieceRef piece; /* of the selected wall, or of no kind */
  gint finding;
  char *counted; /* "group/id" of the take-off line that is shown, or NULL */
  guint layers;
};

/* The shown project is another value: tells it, keeps room and selection in step, asks for a plan.
 */
void dry_session_announce (DrySession *self);
/* Shows this plan from now on and keeps it when it is of a step; takes references. */
void dry_session_show_plan (DrySession *self, DryPlan *plan, DryScene *scene);
/* Keeps the plan shown when it is of the history's current step, not of a preview. */
void dry_session_remember_plan (DrySession *self);
/* Shows the kept plan of that value and the room shown; FALSE when there is none. */
gboolean dry_session_recall_plan (DrySession *self, const DryProject *project);
/* Forgets the preview without telling anybody. */
void dry_session_drop_preview (DrySession *self);
/* Says once when a crash would lose changes. */
void dry_session_tell_trouble (DrySession *self);
