/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads lengths as people write them: feet and inches, fractions, decimals with point or comma,
 * metric. Exact: numbers stay whole numerators over powers of ten or denominators until one
 * rounding at the end. */
#include "base/length.h"
#include "base/error.h"

#include <string.h>

/* A number as written: whole + numerator / denominator, all non-negative. */
typedef struct {
  int64_t whole;
  int64_t numerator;
  int64_t denominator;
} Value;

typedef struct {
  const char *at;   /* next character of the normalised text */
  const char *text; /* as typed, for messages */
  GError **error;
} Reader;

#define MAX_DIGITS      15
#define MAX_DENOMINATOR 10000
#define QUOTED          32 /* letters of what cannot be read */

static const struct {
  gunichar character;
  const char *plain;
} SUBSTITUTES[] = {
    {0x2032, "'"},    {0x2019, "'"},    {0x02B9, "'"},    {0x2033, "\""},   {0x201D, "\""},
    {0x02BA, "\""},   {0x2212, "-"},    {0x2013, "-"},    {0x2044, "/"},    {0x00A0, " "},
    {0x2009, " "},    {0x202F, " "},    {0x00BD, " 1/2"}, {0x00BC, " 1/4"}, {0x00BE, " 3/4"},
    {0x2153, " 1/3"}, {0x2154, " 2/3"}, {0x215B, " 1/8"}, {0x215C, " 3/8"}, {0x215D, " 5/8"},
    {0x215E, " 7/8"},
};

static const struct {
  const char *word;
  DryUnit unit;
} UNIT_WORDS[] = {
    /* longer words first, so that "mm" is not read as "m" */
    {"millimeters", DRY_UNIT_MM}, {"millimetres", DRY_UNIT_MM},
    {"millimeter", DRY_UNIT_MM},  {"millimetre", DRY_UNIT_MM},
    {"centimeters", DRY_UNIT_CM}, {"centimetres", DRY_UNIT_CM},
    {"centimeter", DRY_UNIT_CM},  {"centimetre", DRY_UNIT_CM},
    {"inches", DRY_UNIT_INCH},    {"meters", DRY_UNIT_M},
    {"metres", DRY_UNIT_M},       {"meter", DRY_UNIT_M},
    {"metre", DRY_UNIT_M},        {"feet", DRY_UNIT_FOOT},
    {"foot", DRY_UNIT_FOOT},      {"inch", DRY_UNIT_INCH},
    {"ft", DRY_UNIT_FOOT},        {"in", DRY_UNIT_INCH},
    {"mm", DRY_UNIT_MM},          {"cm", DRY_UNIT_CM},
    {"''", DRY_UNIT_INCH},        {"m", DRY_UNIT_M},
    {"'", DRY_UNIT_FOOT},         {"\"", DRY_UNIT_INCH},
};

static DryLength
unit_length (DryUnit unit)
{
  switch (unit) {
  case DRY_UNIT_INCH:
    return DRY_INCH;
  case DRY_UNIT_FOOT:
    return DRY_FOOT;
  case DRY_UNIT_CM:
    return 10 * DRY_MM;
  case DRY_UNIT_M:
    return 1000 * DRY_MM;
  case DRY_UNIT_MM:
  default:
    return DRY_MM;
  }
}

static gboolean
is_imperial (DryUnit unit)
{
  return unit == DRY_UNIT_INCH || unit == DRY_UNIT_FOOT;
}

/* What was written, short enough for a row: a page pasted by mistake is not repeated. */
static char *
quote (const char *text)
{
  g_autofree char *start = g_utf8_make_valid (text, (gssize) MIN (strlen (text), 4 * QUOTED + 4));
  GString *quoted = g_string_new (NULL);
  guint n = 0;

  for (const char *at = start; *at != '\0'; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);

    if (n++ == QUOTED || c == '\n' || c == '\r') {
      g_string_append (quoted, "…");
      break;
    }
    g_string_append_unichar (quoted, g_unichar_isspace (c) || g_unichar_iscntrl (c) ? ' ' : c);
  }
  return g_string_free (quoted, FALSE);
}

static gboolean
fail (Reader *reader, const char *reason)
{
  g_autofree char *quoted = quote (reader->text);

  g_set_error (reader->error, DRY_ERROR, DRY_ERROR_TEXT, "“%s” is not a length: %s", quoted,
               reason);
  return FALSE;
}

static char *
make_plain (const char *text)
{
  GString *plain = g_string_new (NULL);

  for (const char *p = text; *p; p = g_utf8_next_char (p)) {
    gunichar c = g_utf8_get_char (p);
    const char *substitute = NULL;

    for (guint i = 0; i < G_N_ELEMENTS (SUBSTITUTES) && !substitute; i++)
      if (SUBSTITUTES[i].character == c)
        substitute = SUBSTITUTES[i].plain;
    if (substitute)
      g_string_append (plain, substitute);
    else
      g_string_append_unichar (plain, g_unichar_tolower (c));
  }
  return g_string_free (plain, FALSE);
}

static void
skip_blanks (Reader *reader)
{
  while (g_ascii_isspace (*reader->at))
    reader->at++;
}

/* Digits into *out; *count says how many. Fails beyond MAX_DIGITS. */
static gboolean
read_digits (Reader *reader, int64_t *out, guint *count)
{
  *out = 0;
  *count = 0;
  for (; g_ascii_isdigit (*reader->at); reader->at++) {
    if (++*count > MAX_DIGITS)
      return fail (reader, "too many digits");
    *out = *out * 10 + (*reader->at - '0');
  }
  return TRUE;
}

/* After "12": ".5" or ",5" when a decimal mark stands there. */
static gboolean
read_decimals (Reader *reader, Value *value, guint whole_digits)
{
  char mark = *reader->at;
  guint count;

  if (mark != '.' && mark != ',')
    return TRUE;
  reader->at++;
  if (!read_digits (reader, &value->numerator, &count))
    return FALSE;
  if (whole_digits + count == 0 || (count == 0 && mark == ','))
    return fail (reader, "digits are missing at the decimal mark");
  if (*reader->at == '.' || *reader->at == ',')
    return fail (reader, "it has two decimal marks; write it without thousands marks");
  if (mark == ',' && count == 3 && whole_digits >= 1 && whole_digits <= 3 && value->whole > 0)
    return fail (
        reader,
        "the comma can be read as a thousands mark or as a decimal mark; write 1600 or 1.6");
  if (whole_digits + count > MAX_DIGITS)
    return fail (reader, "too many digits");
  value->denominator = 1;
  for (guint i = 0; i < count; i++)
    value->denominator *= 10;
  return TRUE;
}

/* "/2" after a numerator already read. */
static gboolean
read_denominator (Reader *reader, int64_t numerator, Value *value)
{
  guint count;

  reader->at++;
  skip_blanks (reader);
  if (!read_digits (reader, &value->denominator, &count))
    return FALSE;
  if (count == 0)
    return fail (reader, "the fraction has no denominator");
  if (value->denominator == 0)
    return fail (reader, "the fraction divides by zero");
  if (value->denominator > MAX_DENOMINATOR)
    return fail (reader, "the fraction is finer than any rule");
  value->numerator = numerator;
  return TRUE;
}

/* A fraction after a whole number, "1 1/2" or "1-1/2". Leaves the reader alone when there is none.
 */
static gboolean
read_fraction_after_whole (Reader *reader, Value *value)
{
  const char *start = reader->at, *p = start;
  int64_t numerator;
  guint count;

  while (g_ascii_isspace (*p))
    p++;
  if (*p == '-') {
    p++;
    while (g_ascii_isspace (*p))
      p++;
  }
  if (p == start)
    return TRUE;
  reader->at = p;
  if (!read_digits (reader, &numerator, &count))
    return FALSE;
  skip_blanks (reader);
  if (count == 0 || *reader->at != '/') {
    reader->at = start;
    return TRUE;
  }
  return read_denominator (reader, numerator, value);
}

static gboolean
read_value (Reader *reader, Value *value)
{
  guint digits;

  *value = (Value){0, 0, 1};
  if (!read_digits (reader, &value->whole, &digits))
    return FALSE;
  if (digits == 0 && *reader->at != '.' && *reader->at != ',')
    return fail (reader, *reader->at ? "a number was expected" : "there is no number in it");
  if (digits > 0 && *reader->at == '/') {
    int64_t numerator = value->whole;
    value->whole = 0;
    return read_denominator (reader, numerator, value);
  }
  if (*reader->at == '.' || *reader->at == ',')
    return read_decimals (reader, value, digits);
  return read_fraction_after_whole (reader, value);
}

static gboolean
read_unit (Reader *reader, DryUnit *unit)
{
  for (guint i = 0; i < G_N_ELEMENTS (UNIT_WORDS); i++)
    if (g_str_has_prefix (reader->at, UNIT_WORDS[i].word)) {
      gsize n = strlen (UNIT_WORDS[i].word);
      if (g_ascii_isalpha (UNIT_WORDS[i].word[0]) && g_ascii_isalpha (reader->at[n]))
        continue; /* "max" is no metre */
      reader->at += n;
      if (*reader->at == '.' && g_ascii_isalpha (UNIT_WORDS[i].word[0]))
        reader->at++; /* "in." */
      *unit = UNIT_WORDS[i].unit;
      return TRUE;
    }
  return FALSE;
}

static gboolean
add_value (Reader *reader, const Value *value, DryUnit unit, __int128 *sum)
{
  __int128 scaled =
      ((__int128) value->whole * value->denominator + value->numerator) * unit_length (unit);

  *sum += (scaled + value->denominator / 2) / value->denominator;
  if (*sum > DRY_LENGTH_MAX)
    return fail (reader, "it is longer than 1 km");
  return TRUE;
}

/* A part after the first one: smaller unit, same system, and feet may be followed by bare inches.
 */
static gboolean
check_order (Reader *reader, DryUnit last, DryUnit *unit, gboolean has_unit)
{
  if (!has_unit) {
    if (last != DRY_UNIT_FOOT)
      return fail (reader, "the last number has no unit");
    *unit = DRY_UNIT_INCH;
  }
  if (is_imperial (last) != is_imperial (*unit))
    return fail (reader, "it mixes inches and millimetres");
  if (unit_length (*unit) >= unit_length (last))
    return fail (reader, "its parts are not in order, larger unit first");
  return TRUE;
}

static gboolean
read_parts (Reader *reader, DryUnit bare_unit, __int128 *sum)
{
  DryUnit last = DRY_UNIT_M;
  gboolean first = TRUE;

  do {
    DryUnit unit = bare_unit;
    gboolean has_unit;
    Value value;

    if (!read_value (reader, &value))
      return FALSE;
    skip_blanks (reader);
    has_unit = read_unit (reader, &unit);
    if (!has_unit && *reader->at && !g_ascii_isdigit (*reader->at))
      return fail (reader, "what follows the number is no unit");
    if (!first && !check_order (reader, last, &unit, has_unit))
      return FALSE;
    if (!has_unit && first && *reader->at)
      return fail (reader, "two numbers follow each other without a unit");
    if (!add_value (reader, &value, unit, sum))
      return FALSE;
    last = unit;
    first = FALSE;
    skip_blanks (reader);
    if (*reader->at == '-' && last == DRY_UNIT_FOOT) { /* 5'-3" */
      reader->at++;
      skip_blanks (reader);
      if (!*reader->at)
        return fail (reader, "a number is missing after the dash");
    }
  } while (*reader->at);
  return TRUE;
}

gboolean
dry_length_parse (const char *text, DryUnit bare_unit, DryLength *out, GError **error)
{
  g_autofree char *plain = NULL;
  Reader reader = {.text = text, .error = error};
  gboolean negative;
  __int128 sum = 0;

  if (!g_utf8_validate (text, -1, NULL)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_TEXT, "The text is not valid UTF-8");
    return FALSE;
  }
  plain = make_plain (text);
  reader.at = plain;
  skip_blanks (&reader);
  negative = *reader.at == '-';
  if (*reader.at == '-' || *reader.at == '+')
    reader.at++;
  skip_blanks (&reader);
  if (!read_parts (&reader, bare_unit, &sum))
    return FALSE;
  *out = (DryLength) (negative ? -sum : sum);
  return TRUE;
}
