/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Starts the program: locale, then the application.
 * Everything else is in the library that the tests link. */
#include <glib/gi18n.h>
#include <locale.h>

#include "ui/application.h"
#include "ui/heap.h"

int
main (int argc, char *argv[])
{
  g_autoptr (DryApplication) application = NULL;

  dry_heap_set_up ();
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, DRYBAY_LOCALEDIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  application = dry_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
