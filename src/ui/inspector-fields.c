/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gets and sets one field of the document by its table entry, through the project's pure edits.
 * The tables themselves are in inspector-tables.c. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector-fields.h"

#include <glib/gi18n.h>
#include <string.h>

gconstpointer
dry_subject_get_value (DrySession *session, DrySubjectRef subject)
{
  const DryRoom *room = dry_session_get_room (session);

  if (subject.kind == DRY_SUBJECT_JOB)
    return dry_project_get_job (dry_session_get_project (session));
  if (!room)
    return NULL;
  switch (subject.kind) {
  case DRY_SUBJECT_ROOM:
    return room;
  case DRY_SUBJECT_WET:
    return &room->wet;
  case DRY_SUBJECT_FINISH:
    return &room->finish;
  case DRY_SUBJECT_BASIN:
    return room->basin.id ? &room->basin : NULL;
  case DRY_SUBJECT_WALL:
    return dry_room_get_wall (room, subject.id);
  case DRY_SUBJECT_OPENING:
    return dry_room_get_opening (room, subject.id);
  case DRY_SUBJECT_PART:
    return dry_room_get_part (room, subject.id);
  case DRY_SUBJECT_JOB:
  default:
    return NULL;
  }
}

gboolean
dry_field_is_shown (DrySession *session, DrySubjectRef subject, const DryField *field)
{
  gconstpointer value = dry_subject_get_value (session, subject);

  if (!value)
    return FALSE;
  if (subject.kind == DRY_SUBJECT_PART && field->kinds &&
      !(field->kinds & (1u << ((const DryPart *) value)->kind)))
    return FALSE;
  return !field->is_shown || field->is_shown (dry_session_get_room (session), value);
}

/* --- reading --- */

static gconstpointer
member (DrySession *session, DrySubjectRef subject, const DryField *field)
{
  const char *value = dry_subject_get_value (session, subject);

  return value ? value + field->offset : NULL;
}

DryLength
dry_field_get_length (DrySession *session, DrySubjectRef subject, const DryField *field)
{
  gconstpointer at = member (session, subject, field);

  if (!at)
    return 0;
  if (field->get)
    return field->get (dry_session_get_room (session), dry_subject_get_value (session, subject));
  return *(const DryLength *) at;
}

double
dry_field_get_number (DrySession *session, DrySubjectRef subject, const DryField *field)
{
  gconstpointer at = member (session, subject, field);

  if (!at)
    return 0;
  return field->kind == DRY_FIELD_INTEGER ? *(const gint *) at : *(const double *) at;
}

guint
dry_field_get_index (DrySession *session, DrySubjectRef subject, const DryField *field)
{
  gconstpointer at = member (session, subject, field);

  /* enums and gboolean are both as wide as int */
  return at ? (guint) * (const gint *) at : 0;
}

const char *
dry_field_get_text (DrySession *session, DrySubjectRef subject, const DryField *field)
{
  gconstpointer at = member (session, subject, field);
  const char *text = at ? *(const char *const *) at : NULL;

  return text ? text : "";
}

/* --- writing --- */

/* Any of the structs, copied flat: its texts are borrowed, and every edit copies what it is given.
 */
typedef union {
  DryJob job;
  DryRoom room;
  DryWetZone wet;
  DryFinish finish;
  DryWall wall;
  DryBasin basin;
  DryOpening opening;
  DryPart part;
} AnySubject;

static gsize
subject_size (DrySubjectKind kind)
{
  static const gsize SIZES[] = {
      [DRY_SUBJECT_JOB] = sizeof (DryJob),         [DRY_SUBJECT_ROOM] = sizeof (DryRoom),
      [DRY_SUBJECT_WET] = sizeof (DryWetZone),     [DRY_SUBJECT_FINISH] = sizeof (DryFinish),
      [DRY_SUBJECT_WALL] = sizeof (DryWall),       [DRY_SUBJECT_BASIN] = sizeof (DryBasin),
      [DRY_SUBJECT_OPENING] = sizeof (DryOpening), [DRY_SUBJECT_PART] = sizeof (DryPart),
  };

  return SIZES[kind];
}

static DryProject *
put_back (DrySession *session, DrySubjectKind kind, const AnySubject *any, GError **error)
{
  const DryProject *project = dry_session_get_project (session);
  DryId room = dry_session_get_room_id (session);

  switch (kind) {
  case DRY_SUBJECT_JOB:
    return dry_edit_set_job (project, &any->job, error);
  case DRY_SUBJECT_ROOM:
    return dry_edit_set_room (project, &any->room, NULL, error);
  case DRY_SUBJECT_WET:
    return dry_edit_set_wet_zone (project, room, &any->wet, error);
  case DRY_SUBJECT_FINISH:
    return dry_edit_set_finish (project, room, &any->finish, error);
  case DRY_SUBJECT_WALL:
    return dry_edit_set_wall (project, room, &any->wall, NULL, error);
  case DRY_SUBJECT_BASIN:
    return dry_edit_set_basin (project, room, &any->basin, NULL, error);
  case DRY_SUBJECT_OPENING:
    return dry_edit_set_opening (project, room, &any->opening, NULL, error);
  case DRY_SUBJECT_PART:
  default:
    return dry_edit_set_part (project, room, &any->part, NULL, error);
  }
}

static void
change_member (DrySession *session, DrySubjectRef subject, const DryField *field,
               gconstpointer data, gsize size)
{
  gconstpointer value = dry_subject_get_value (session, subject);
  GError *error = NULL;
  DryProject *project;
  AnySubject any;

  if (!value)
    return;
  memcpy (&any, value, subject_size (subject.kind));
  memcpy ((char *) &any + field->offset, data, size);
  project = put_back (session, subject.kind, &any, &error);
  dry_session_apply (session, project, _ (field->label), NULL, error);
}

void
dry_field_set_length (DrySession *session, DrySubjectRef subject, const DryField *field,
                      DryLength value)
{
  gconstpointer at = dry_subject_get_value (session, subject);
  GError *error = NULL;

  if (!field->set) {
    change_member (session, subject, field, &value, sizeof value);
  } else if (at) {
    DryProject *project = field->set (session, at, value, &error);
    dry_session_apply (session, project, _ (field->label), NULL, error);
  }
}

void
dry_field_set_number (DrySession *session, DrySubjectRef subject, const DryField *field,
                      double value)
{
  gint whole = (gint) value;

  if (field->kind == DRY_FIELD_INTEGER)
    change_member (session, subject, field, &whole, sizeof whole);
  else
    change_member (session, subject, field, &value, sizeof value);
}

void
dry_field_set_index (DrySession *session, DrySubjectRef subject, const DryField *field, guint value)
{
  gint index = (gint) value;

  change_member (session, subject, field, &index, sizeof index);
}

void
dry_field_set_text (DrySession *session, DrySubjectRef subject, const DryField *field,
                    const char *value)
{
  const char *text = *value ? value : NULL;

  /* A title is never missing; everything else may be. */
  if (!text && subject.kind == DRY_SUBJECT_JOB && field->offset == G_STRUCT_OFFSET (DryJob, title))
    text = _ ("Untitled bath");
  change_member (session, subject, field, &text, sizeof text);
}
