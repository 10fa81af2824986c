/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chooses the paper: the option when given, else what the locale's country uses.
 * Reads the environment as the C library would, without changing the program's locale. */
#include "cli/paper-option.h"

static const char *
find_locale (void)
{
  static const char *const NAMES[] = {"LC_ALL", "LC_PAPER", "LANG"};

  for (guint i = 0; i < G_N_ELEMENTS (NAMES); i++) {
    const char *value = g_getenv (NAMES[i]);
    if (value && *value)
      return value;
  }
  return "C";
}

gboolean
dry_cli_choose_paper (const char *text, DryPaperSize *out, GError **error)
{
  if (!text) {
    *out = dry_paper_for_locale (find_locale ());
    return TRUE;
  }
  if (dry_paper_from_text (text, out))
    return TRUE;
  g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
               "“%s” is no paper size: use a4, letter, a3 or tabloid", text);
  return FALSE;
}
