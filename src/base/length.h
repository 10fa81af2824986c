/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact lengths: whole nanometres, so that 1/64 in (396,875 nm) and 1 mm are both exact.
 * Knows how people write lengths; knows nothing of rooms, locale settings or widgets. */
#pragma once

#include <glib.h>

typedef int64_t DryLength;

#define DRY_MM      ((DryLength) 1000000)
#define DRY_INCH    ((DryLength) 25400000)
#define DRY_FOOT    (12 * DRY_INCH)
#define DRY_INCH_64 ((DryLength) 396875)
/* No coordinate or size may pass this: 1 km. Products of two lengths then fit __int128 with room.
 */
#define DRY_LENGTH_MAX ((DryLength) 1000 * 1000 * DRY_MM)

typedef enum {
  DRY_UNIT_INCH,
  DRY_UNIT_FOOT,
  DRY_UNIT_MM,
  DRY_UNIT_CM,
  DRY_UNIT_M,
} DryUnit;

typedef enum {
  DRY_LENGTH_FEET_INCHES,    /* 5' 1 1/2" */
  DRY_LENGTH_INCHES,         /* 61 1/2"   */
  DRY_LENGTH_INCHES_DECIMAL, /* 61.5"     */
  DRY_LENGTH_MM,             /* 1562 mm   */
  DRY_LENGTH_CM,             /* 156.2 cm  */
  DRY_LENGTH_M,              /* 1.562 m   */
} DryLengthStyle;

/* How to write a length for a person. `decimal` is '.' or ','; callers pick it from the locale. */
typedef struct {
  DryLengthStyle style;
  int denominator; /* fraction styles: 1, 2, 4, ... 64; rounding happens before feet are split off
                    */
  char decimal;
} DryLengthFormat;

/* Reads any usual way to write a length: `5' 1 1/2"`, `5ft 3.5in`, `61-1/2`, `61.5"`, `63½`, `1562
 * mm`, `1,6 m`, `-3/4`. A bare number is in `bare_unit`. Both '.' and ',' are decimal marks; a text
 * with two readings (`1,600.5`, `1.600,5`) is refused. The whole text must be used. Result within
 * +/-1 km. Errors: DRY_ERROR_TEXT with a sentence that says what was not understood and where. */
gboolean dry_length_parse (const char *text, DryUnit bare_unit, DryLength *out, GError **error);

/* Writes `length` for a person, rounded half away from zero, so that dry_length_parse() can read it
 * again. Free with g_free(). */
char *dry_length_format (DryLength length, const DryLengthFormat *format) G_GNUC_WARN_UNUSED_RESULT;

/* Writes `length` exactly as millimetres with at most six decimals, '.' always: "1524", "0.396875".
 * For files and programs; independent of locale. Free with g_free(). */
char *dry_length_to_mm_text (DryLength length) G_GNUC_WARN_UNUSED_RESULT;

/* Millimetres as read from JSON to a length, to the nearest nanometre.
 * FALSE if not finite or beyond DRY_LENGTH_MAX. */
gboolean dry_length_from_mm (double mm, DryLength *out);

static inline double
dry_length_to_mm (DryLength length)
{
  return (double) length / (double) DRY_MM;
}

static inline double
dry_length_to_inches (DryLength length)
{
  return (double) length / (double) DRY_INCH;
}
