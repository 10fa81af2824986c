/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields of the document's values: their names in files, types, ranges and defaults, said once
 * for reading, writing, checking and copying. Knows no file and no geometry. */
#pragma once

#include "base/json.h"
#include "project/project.h"

/* A thing, as opposed to a place in a room, is refused beyond this: it keeps a slip of the keyboard
 * from asking for a million boards. */
#define DRY_SIZE_MAX        (30000 * DRY_MM)
#define DRY_MAX_FOUND_STUDS 1000
#define DRY_MAX_TEXT        4096 /* bytes of a name or id */
#define DRY_MAX_NOTE        DRY_JSON_MAX_STRING

typedef enum {
  DRY_FIELD_ID,      /* DryId, 1 and up */
  DRY_FIELD_TEXT,    /* char *, owned */
  DRY_FIELD_FLAG,    /* gboolean */
  DRY_FIELD_CHOICE,  /* enum or gboolean, a word of `words` in files */
  DRY_FIELD_INTEGER, /* gint */
  DRY_FIELD_NUMBER,  /* double */
  DRY_FIELD_LENGTH,  /* DryLength */
  DRY_FIELD_POINT,   /* DryPoint */
  DRY_FIELD_LENGTHS, /* DryLength * with a guint count, owned */
} DryFieldType;

typedef enum {
  DRY_FIELD_REQUIRED = 1 << 0,   /* an error when a file lacks it */
  DRY_FIELD_ALWAYS = 1 << 1,     /* written even when it is at its default */
  DRY_FIELD_KEPT = 1 << 2,       /* a text that is never NULL */
  DRY_FIELD_FILLED = 1 << 3,     /* a text that is never empty */
  DRY_FIELD_ADDED_WALL = 1 << 4, /* only in walls that are no part of the outline */
} DryFieldFlags;

typedef struct {
  const char *key;
  DryFieldType type;
  gsize offset;
  guint flags;
  double minimum, maximum, fallback; /* lengths in nanometres, texts in bytes */
  const char *const *words;
  gsize count_offset; /* DRY_FIELD_LENGTHS */
} DryField;

typedef struct {
  const DryField *fields;
  guint n;
} DryFieldSet;

extern const DryFieldSet dry_job_fields, dry_room_fields, dry_wall_fields, dry_opening_fields,
    dry_basin_fields, dry_wet_zone_fields, dry_finish_fields, dry_part_fields, dry_seam_fields,
    dry_on_hand_fields;
extern const char *const dry_part_kind_words[];

/* What is wrong with a value, and where: "walls", 2, "start". */
typedef struct {
  DryErrorCode code;
  const char *list; /* member of the room; NULL = the value itself */
  gint index;       /* in that list; -1 = it is no list */
  const char *key;  /* NULL = the whole object */
  char *message;
} DryProblem;

void dry_problem_set (DryProblem *self, DryErrorCode code, const char *key, const char *format, ...)
    G_GNUC_PRINTF (4, 5);
void dry_problem_clear (DryProblem *self);

/* Gives a value that was copied bit by bit its own texts and lists. An empty text that means
 * nothing becomes NULL, so that equal values have equal files. */
void dry_fields_own (const DryFieldSet *set, gpointer value);
void dry_fields_clear (const DryFieldSet *set, gpointer value);
/* The value a file without any field stands for. */
void dry_fields_reset (const DryFieldSet *set, gpointer value);
/* Ranges and texts of a value made in memory. `omit`: fields with any of these flags are skipped.
 */
gboolean dry_fields_check (const DryFieldSet *set, guint omit, gconstpointer value,
                           DryProblem *problem);
