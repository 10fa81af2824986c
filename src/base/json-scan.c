/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scanner that accepts exactly RFC 8259 within our caps and says where a text goes wrong.
 * cJSON alone accepts trailing garbage, leading zeros, bad UTF-8 and cut-off strings. */
#include "base/json-scan.h"
#include "base/json.h"

#include <string.h>

typedef struct {
  const char *start, *at, *end;
  const char *name;
  guint depth, nodes;
  GError **error;
} Scanner;

static gboolean scan_value (Scanner *scanner);

static gboolean
fail_as (Scanner *scanner, DryErrorCode code, const char *reason)
{
  guint line = 1;
  const char *line_start = scanner->start;

  for (const char *p = scanner->start; p < scanner->at; p++)
    if (*p == '\n') {
      line++;
      line_start = p + 1;
    }
  g_set_error (scanner->error, DRY_ERROR, code, "%s:%u:%u: %s", scanner->name, line,
               (guint) g_utf8_strlen (line_start, scanner->at - line_start) + 1, reason);
  return FALSE;
}

static gboolean
fail (Scanner *scanner, const char *reason)
{
  return fail_as (scanner, DRY_ERROR_SYNTAX,
                  scanner->at >= scanner->end ? "the file ends too early" : reason);
}

static char
peek (const Scanner *scanner)
{
  return scanner->at < scanner->end ? *scanner->at : '\0';
}

static void
skip_space (Scanner *scanner)
{
  while (scanner->at < scanner->end && strchr (" \t\r\n", *scanner->at) && *scanner->at)
    scanner->at++;
}

static gboolean
scan_digits (Scanner *scanner)
{
  if (!g_ascii_isdigit (peek (scanner)))
    return fail (scanner, "a digit was expected");
  while (g_ascii_isdigit (peek (scanner)))
    scanner->at++;
  return TRUE;
}

static gboolean
scan_number (Scanner *scanner)
{
  const char *start = scanner->at;

  if (peek (scanner) == '-')
    scanner->at++;
  if (peek (scanner) == '0')
    scanner->at++;
  else if (!scan_digits (scanner))
    return FALSE;
  if (g_ascii_isdigit (peek (scanner)))
    return fail (scanner, "a number may not begin with a zero");
  if (peek (scanner) == '.') {
    scanner->at++;
    if (!scan_digits (scanner))
      return FALSE;
  }
  if (peek (scanner) == 'e' || peek (scanner) == 'E') {
    scanner->at++;
    if (peek (scanner) == '+' || peek (scanner) == '-')
      scanner->at++;
    if (!scan_digits (scanner))
      return FALSE;
  }
  if (scanner->at - start > 60) /* cJSON reads at most 63 characters of a number */
    return fail_as (scanner, DRY_ERROR_LIMIT, "the number has too many digits");
  return TRUE;
}

static gboolean
scan_hex (Scanner *scanner, guint *out)
{
  *out = 0;
  for (guint i = 0; i < 4; i++, scanner->at++) {
    if (!g_ascii_isxdigit (peek (scanner)))
      return fail (scanner, "\\u needs four hexadecimal digits");
    *out = *out * 16 + (guint) g_ascii_xdigit_value (*scanner->at);
  }
  return TRUE;
}

/* Adds to `bytes` how long the character is as UTF-8. */
static gboolean
scan_unicode_escape (Scanner *scanner, gsize *bytes)
{
  guint code, low;

  if (!scan_hex (scanner, &code))
    return FALSE;
  if (code == 0)
    return fail (scanner, "\\u0000 is not allowed in a text");
  if (code >= 0xDC00 && code <= 0xDFFF)
    return fail (scanner, "half of a surrogate pair stands alone");
  *bytes += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0xD800 || code > 0xDBFF ? 3 : 4;
  if (code < 0xD800 || code > 0xDBFF)
    return TRUE;
  if (scanner->end - scanner->at < 2 || scanner->at[0] != '\\' || scanner->at[1] != 'u')
    return fail (scanner, "half of a surrogate pair stands alone");
  scanner->at += 2;
  if (!scan_hex (scanner, &low))
    return FALSE;
  return (low >= 0xDC00 && low <= 0xDFFF) ||
         fail (scanner, "half of a surrogate pair stands alone");
}

/* The cap is on the text itself: how it is escaped must not decide whether it can be saved. */
static gboolean
scan_string (Scanner *scanner)
{
  gsize bytes = 0;

  scanner->at++;
  while (scanner->at < scanner->end && *scanner->at != '"') {
    guchar c = (guchar) *scanner->at++;

    if (c < 0x20) {
      scanner->at--;
      return fail (scanner, "a control character stands inside a text");
    }
    if (c != '\\') {
      bytes++;
      continue;
    }
    c = (guchar) peek (scanner);
    if (c == 'u') {
      scanner->at++;
      if (!scan_unicode_escape (scanner, &bytes))
        return FALSE;
    } else if (c && strchr ("\"\\/bfnrt", c)) {
      scanner->at++;
      bytes++;
    } else
      return fail (scanner, "unknown escape in a text");
  }
  if (scanner->at >= scanner->end)
    return fail (scanner, "");
  if (bytes > DRY_JSON_MAX_STRING)
    return fail_as (scanner, DRY_ERROR_LIMIT, "the text is too long");
  scanner->at++;
  return TRUE;
}

static gboolean
scan_word (Scanner *scanner, const char *word)
{
  gsize n = strlen (word);

  if ((gsize) (scanner->end - scanner->at) < n || strncmp (scanner->at, word, n) != 0)
    return fail (scanner, "a value was expected");
  scanner->at += n;
  return TRUE;
}

static gboolean
scan_member_name (Scanner *scanner)
{
  if (peek (scanner) != '"')
    return fail (scanner, "a name in quotation marks was expected");
  if (!scan_string (scanner))
    return FALSE;
  skip_space (scanner);
  if (peek (scanner) != ':')
    return fail (scanner, "a colon was expected after the name");
  scanner->at++;
  return TRUE;
}

static gboolean
scan_container (Scanner *scanner, char close)
{
  scanner->at++;
  if (++scanner->depth > DRY_JSON_MAX_DEPTH)
    return fail_as (scanner, DRY_ERROR_LIMIT, "lists and objects are nested too deeply");
  skip_space (scanner);
  if (peek (scanner) == close) {
    scanner->at++;
    scanner->depth--;
    return TRUE;
  }
  for (;;) {
    skip_space (scanner);
    if (close == '}' && !scan_member_name (scanner))
      return FALSE;
    if (!scan_value (scanner))
      return FALSE;
    skip_space (scanner);
    if (peek (scanner) == close)
      break;
    if (peek (scanner) != ',')
      return fail (scanner,
                   close == '}' ? "a comma or } was expected" : "a comma or ] was expected");
    scanner->at++;
  }
  scanner->at++;
  scanner->depth--;
  return TRUE;
}

static gboolean
scan_value (Scanner *scanner)
{
  if (++scanner->nodes > DRY_JSON_MAX_NODES)
    return fail_as (scanner, DRY_ERROR_LIMIT, "the file holds too many values");
  skip_space (scanner);
  switch (peek (scanner)) {
  case '{':
    return scan_container (scanner, '}');
  case '[':
    return scan_container (scanner, ']');
  case '"':
    return scan_string (scanner);
  case 't':
    return scan_word (scanner, "true");
  case 'f':
    return scan_word (scanner, "false");
  case 'n':
    return scan_word (scanner, "null");
  default:
    if (peek (scanner) != '-' && !g_ascii_isdigit (peek (scanner)))
      return fail (scanner, "a value was expected");
    return scan_number (scanner);
  }
}

gboolean
dry_json_scan (const char *text, gsize length, const char *name, GError **error)
{
  Scanner scanner = {text, text, text + length, name, 0, 0, error};
  const char *bad;

  if (length > DRY_JSON_MAX_BYTES) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "%s: the file is larger than %d MB", name,
                 DRY_JSON_MAX_BYTES / (1024 * 1024));
    return FALSE;
  }
  if (!g_utf8_validate_len (text, length, &bad)) {
    scanner.at = bad;
    return fail_as (&scanner, DRY_ERROR_SYNTAX, "the text is not valid UTF-8 here");
  }
  if (!scan_value (&scanner))
    return FALSE;
  skip_space (&scanner);
  if (scanner.at < scanner.end)
    return fail_as (&scanner, DRY_ERROR_SYNTAX, "something follows the end of the JSON value");
  return TRUE;
}
