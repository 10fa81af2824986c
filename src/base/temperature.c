/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads and writes temperatures with their unit.
 * It does not know what a temperature is of, nor which of them are sensible. */
#include "base/temperature.h"

#include <math.h>
#include <string.h>

#include "base/decimals.h"

#define ABSOLUTE_ZERO (-273.15)
#define MAX_LETTERS   32

double
dry_temperature_to_fahrenheit (double celsius)
{
  return celsius * 1.8 + 32;
}

double
dry_temperature_from_fahrenheit (double fahrenheit)
{
  return (fahrenheit - 32) / 1.8;
}

/* Digits and at most one mark, as text that g_ascii_strtod() reads; how many bytes it took, or 0.
 * Exponents, "inf" and "nan" are nothing anybody writes for a temperature. */
static gsize
read_number (const char *text, double *value)
{
  char plain[MAX_LETTERS + 1];
  gsize n = 0, digits = 0, marks = 0, skip = 0;

  if (g_str_has_prefix (text, "−")) {
    skip = strlen ("−");
    plain[n++] = '-';
  } else if (text[0] == '-' || text[0] == '+') {
    plain[n++] = text[skip++];
  }
  for (; n < MAX_LETTERS; n++, skip++) {
    if (g_ascii_isdigit (text[skip])) {
      plain[n] = text[skip];
      digits++;
    } else if (text[skip] == '.' || text[skip] == ',') {
      plain[n] = '.';
      marks++;
    } else {
      break;
    }
  }
  plain[n] = '\0';
  if (digits == 0 || marks > 1 || n == MAX_LETTERS)
    return 0;
  *value = g_ascii_strtod (plain, NULL);
  return skip;
}

/* 'F', 'C', 0 for none, '?' for anything else. */
static char
read_unit (const char *text)
{
  char letter;

  if (g_str_has_prefix (text, "°"))
    text += strlen ("°");
  else if (text[0] == '\0')
    return 0;
  while (text[0] == ' ')
    text++;
  letter = g_ascii_toupper (text[0]);
  return (letter == 'F' || letter == 'C') && text[1] == '\0' ? letter : '?';
}

gboolean
dry_temperature_parse (const char *text, gboolean fahrenheit, double *celsius)
{
  g_autofree char *plain = g_strstrip (g_strdup (text));
  double value = 0;
  gsize length = read_number (plain, &value);
  char unit;

  if (length == 0)
    return FALSE;
  while (plain[length] == ' ')
    length++;
  if (g_str_has_prefix (plain + length, "\u00a0"))
    length += strlen ("\u00a0");
  unit = read_unit (plain + length);
  if (unit == '?')
    return FALSE;
  if (unit == 'F' || (unit == 0 && fahrenheit))
    value = dry_temperature_from_fahrenheit (value);
  if (value < ABSOLUTE_ZERO)
    return FALSE;
  *celsius = value;
  return TRUE;
}

char *
dry_temperature_format (double celsius, gboolean fahrenheit, char decimal)
{
  double value = fahrenheit ? dry_temperature_to_fahrenheit (celsius) : celsius;
  g_autofree char *digits = dry_decimals_format (round (value * 100) / 100, 2, decimal);

  return g_strconcat (digits, fahrenheit ? " °F" : " °C", NULL);
}
