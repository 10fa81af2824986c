/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program as people elsewhere see it: DRYBAY_ODD may hold "right-to-left", "big" (letters of
 * twice the size) and "long" (every text 40 % longer). Only for tests: no locale need be installed
 * for it. */
#include <adwaita.h>
#include <libintl.h>
#include <string.h>

#include "ui/application.h"

/* The header turns these into calls of the two functions with a category. */
#undef gettext
#undef dgettext
#undef ngettext
#undef dcgettext
#undef dcngettext

/* Linked before the C library's own, for us and for the builder alike. Texts are kept for good, as
 * the library keeps them. */
static const char *
stretch (const char *text)
{
  static GHashTable *known;
  static GMutex mutex;
  const char *odd = g_getenv ("DRYBAY_ODD");
  char *longer;

  if (odd == NULL || strstr (odd, "long") == NULL || strlen (text) < 2)
    return text;
  g_mutex_lock (&mutex);
  if (known == NULL)
    known = g_hash_table_new (g_str_hash, g_str_equal);
  longer = g_hash_table_lookup (known, text);
  if (longer == NULL) {
    GString *built = g_string_new (text);
    gsize extra = (strlen (text) * 4 + 9) / 10;

    for (gsize i = 0; i < extra; i++)
      g_string_append_c (built, i % 6 == 0 ? ' ' : "aeiou"[i % 5]);
    longer = g_string_free (built, FALSE);
    g_hash_table_insert (known, g_strdup (text), longer);
  }
  g_mutex_unlock (&mutex);
  return longer;
}

char *
gettext (const char *text)
{
  return (char *) stretch (text);
}

char *
dgettext (const char *domain, const char *text)
{
  if (domain != NULL && strcmp (domain, "drybay") != 0)
    return (char *) text;
  return (char *) stretch (text);
}

char *
dcgettext (const char *domain, const char *text, int category)
{
  return dgettext (domain, text);
}

char *
dcngettext (const char *domain, const char *one, const char *many, unsigned long n, int category)
{
  return dgettext (domain, n == 1 ? one : many);
}

char *
ngettext (const char *one, const char *many, unsigned long n)
{
  return (char *) stretch (n == 1 ? one : many);
}

int
main (int argc, char **argv)
{
  const char *odd = g_getenv ("DRYBAY_ODD");
  g_autoptr (DryApplication) application = NULL;

  g_set_prgname ("drybay");
  gtk_init ();
  if (odd != NULL && strstr (odd, "right-to-left") != NULL)
    gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  if (odd != NULL && strstr (odd, "big") != NULL)
    g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  application = dry_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
