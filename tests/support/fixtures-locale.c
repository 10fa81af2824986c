/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A locale with a decimal comma for tests that must not care, even on machines that have only C.
 * Knows nothing of projects. */
#include "support/fixtures.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <string.h>

static gboolean
use_locale (const char *name)
{
  const struct lconv *conventions;

  if (setlocale (LC_ALL, name) == NULL)
    return FALSE;
  conventions = localeconv ();
  return strcmp (conventions->decimal_point, ",") == 0;
}

/* The C library looks into LOCPATH at every setlocale(). */
static gboolean
build_locale (void)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-locale-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "de_DE.UTF-8", NULL);
  const char *arguments[] = {"localedef", "-i", "de_DE", "-f", "UTF-8", path, NULL};
  const char *clean[] = {"rm", "-rf", folder, NULL};
  gboolean used;

  g_spawn_sync (NULL, (char **) arguments, NULL,
                G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL, NULL,
                NULL, NULL, NULL, NULL, NULL);
  g_setenv ("LOCPATH", folder, TRUE);
  used = use_locale ("de_DE.UTF-8");
  g_spawn_sync (NULL, (char **) clean, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL,
                NULL);
  return used;
}

gboolean
dry_test_use_decimal_comma (void)
{
  return use_locale ("de_DE.UTF-8") || use_locale ("de_DE.utf8") || use_locale ("fr_FR.UTF-8") ||
         build_locale ();
}
