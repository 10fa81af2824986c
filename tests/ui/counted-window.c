/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program, which at SIGUSR1 writes into the file DRYBAY_OBJECTS how many objects of each type
 * there are, a line each. Only for tests. */
#include <adwaita.h>
#include <glib-unix.h>

#include "objects.h"
#include "ui/application.h"

static gboolean
tell (G_GNUC_UNUSED gpointer nothing)
{
  g_autoptr (GHashTable) counts = dry_objects_snapshot ();
  g_autoptr (GString) text = g_string_new (NULL);
  GHashTableIter iter;
  gpointer type, n;

  g_hash_table_iter_init (&iter, counts);
  while (g_hash_table_iter_next (&iter, &type, &n))
    g_string_append_printf (text, "%s %d\n", (char *) type, GPOINTER_TO_INT (n));
  g_file_set_contents (g_getenv ("DRYBAY_OBJECTS"), text->str, -1, NULL);
  return G_SOURCE_CONTINUE;
}

int
main (int argc, char **argv)
{
  g_autoptr (DryApplication) application = NULL;

  g_set_prgname ("drybay");
  g_unix_signal_add (SIGUSR1, tell, NULL);
  application = dry_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
