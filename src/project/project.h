/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document: an immutable, reference-counted value. An edit (edit.h) makes a new one that shares
 * the untouched rooms; nobody changes a project, so it crosses threads without locks. */
#pragma once

#include "project/room.h"

typedef struct _DryProject DryProject;

/* Facts about the house and the job that hold for every room. */
typedef struct {
  char *title;        /* never NULL */
  char *client;       /* invented or the user's; may be NULL */
  char *note;         /* may be NULL */
  char *rule_pack;    /* catalogue id; never NULL */
  gint year_built;    /* 0 = unknown */
  double temperature; /* of the room while working, degrees C */
  gboolean metric;    /* how lengths are shown: millimetres, else feet and inches */
  gint denominator;   /* fraction of an inch shown: 8, 16, 32 or 64 */
  char *choices;      /* where the rule pack offers a choice: "flood-test=day jamb=3-in"; NULL: its
                         defaults */
  DryLength saw;      /* longest cut of the tile saw at hand; 0 = not known */
  gboolean dry_saw;   /* board or tile is cut indoors with a dry power saw */
  double grinding_hours; /* mortar or grout ground out a day, hours; 0 = none */
  /* When the work is done; the plan reads the texts (plan/calendar.h). */
  char *start;      /* first day of work, "2026-12-01", or NULL */
  gint crew;        /* people working; 0 = one */
  char *work_days;  /* "Mon Tue Wed Thu Fri"; NULL = these */
  double day_start; /* work begins, hours after midnight; 0 = 8 */
  double day_hours; /* worked a day; 0 = 8 */
  char *holidays;   /* "2026-12-25 2026-12-28/2027-01-01", or NULL */
  char *prices;     /* id of a price book of the catalogue; NULL = its first */
} DryJob;

/* An alcove with a bathroom round it, nothing on its walls: where new projects start. */
DryProject *dry_project_new (void) G_GNUC_WARN_UNUSED_RESULT;
DryProject *dry_project_ref (const DryProject *self);
void dry_project_unref (DryProject *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryProject, dry_project_unref)

const DryJob *dry_project_get_job (const DryProject *self);
guint dry_project_get_n_rooms (const DryProject *self);
const DryRoom *dry_project_get_room_at (const DryProject *self, guint index);
const DryRoom *dry_project_get_room (const DryProject *self, DryId id); /* NULL when not there */
DryId dry_project_get_next_id (const DryProject *self);
/* TRUE when a save of both would give the same bytes. */
gboolean dry_project_equal (const DryProject *a, const DryProject *b);
