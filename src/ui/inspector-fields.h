/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be typed about each kind of thing, as tables: label, kind of value, place in the struct,
 * limits. Reads values from the session and asks it for edits; builds no widget. */
#pragma once

#include "ui/session.h"

G_BEGIN_DECLS

/* The struct a field lies in. */
typedef enum {
  DRY_SUBJECT_JOB,     /* DryJob */
  DRY_SUBJECT_ROOM,    /* DryRoom */
  DRY_SUBJECT_WET,     /* DryWetZone */
  DRY_SUBJECT_FINISH,  /* DryFinish */
  DRY_SUBJECT_WALL,    /* DryWall */
  DRY_SUBJECT_BASIN,   /* DryBasin */
  DRY_SUBJECT_OPENING, /* DryOpening */
  DRY_SUBJECT_PART,    /* DryPart */
} DrySubjectKind;

typedef struct {
  DrySubjectKind kind;
  DryId id; /* walls, openings and parts */
} DrySubjectRef;

typedef enum {
  DRY_FIELD_LENGTH,
  DRY_FIELD_NUMBER,
  DRY_FIELD_INTEGER,
  DRY_FIELD_BOOLEAN,
  DRY_FIELD_CHOICE, /* an enum: index into `choices` */
  DRY_FIELD_TEXT,
} DryFieldKind;

typedef struct _DryField DryField;
struct _DryField {
  const char *group; /* begins a group of this title when not NULL; N_() */
  const char *label; /* N_() */
  const char *hint;  /* N_() or NULL */
  DryFieldKind kind;
  gsize offset;
  DryLength low, high; /* lengths */
  double number_low, number_high, step;
  guint digits;            /* numbers */
  gboolean is_temperature; /* numbers: kept in degrees Celsius, asked in the job's unit */
  gboolean is_slope;       /* numbers: kept as rise over run, asked in inches a foot or per cent */
  const char *const *choices; /* NULL-ended, N_() */
  const char *zero_text;      /* lengths, temperatures, slopes: what 0 means; N_() */
  guint32 kinds;              /* parts: bit per DryPartKind that has it; 0 = all */
  gboolean (*is_shown) (const DryRoom *room, gconstpointer value);
  /* Lengths that are no plain member: distance to an end, length of a wall. */
  DryLength (*get) (const DryRoom *room, gconstpointer value);
  DryProject *(*set) (DrySession *session, gconstpointer value, DryLength length, GError **error);
};

/* The table of a kind of subject, in the order shown. */
const DryField *dry_fields_list (DrySubjectKind kind, guint *n);
/* The struct itself, borrowed; NULL when the object is gone. */
gconstpointer dry_subject_get_value (DrySession *session, DrySubjectRef subject);
gboolean dry_field_is_shown (DrySession *session, DrySubjectRef subject, const DryField *field);

DryLength dry_field_get_length (DrySession *session, DrySubjectRef subject, const DryField *field);
double dry_field_get_number (DrySession *session, DrySubjectRef subject, const DryField *field);
guint dry_field_get_index (DrySession *session, DrySubjectRef subject,
                           const DryField *field); /* also booleans */
const char *dry_field_get_text (DrySession *session, DrySubjectRef subject,
                                const DryField *field); /* "" for NULL */

/* One undo step each, named after the field. */
void dry_field_set_length (DrySession *session, DrySubjectRef subject, const DryField *field,
                           DryLength value);
void dry_field_set_number (DrySession *session, DrySubjectRef subject, const DryField *field,
                           double value);
void dry_field_set_index (DrySession *session, DrySubjectRef subject, const DryField *field,
                          guint value);
void dry_field_set_text (DrySession *session, DrySubjectRef subject, const DryField *field,
                         const char *value);

G_END_DECLS
