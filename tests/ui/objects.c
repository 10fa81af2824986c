/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Counts objects from their making to the end of their finalisation, when their data goes. */
#define _GNU_SOURCE
#include "objects.h"

#include <dlfcn.h>
#include <glib-object.h>

static GHashTable *counts; /* type name, as GObject keeps it, to number */
static GMutex mutex;

static void
add (gpointer type, int more)
{
  g_mutex_lock (&mutex);
  if (counts == NULL)
    counts = g_hash_table_new (g_str_hash, g_str_equal);
  g_hash_table_insert (
      counts, type, GINT_TO_POINTER (GPOINTER_TO_INT (g_hash_table_lookup (counts, type)) + more));
  g_mutex_unlock (&mutex);
}

static void
on_gone (gpointer type)
{
  add (type, -1);
}

static gpointer
note (gpointer object)
{
  GQuark quark = g_quark_from_static_string ("drybay-counted");
  gpointer type = (gpointer) G_OBJECT_TYPE_NAME (object);

  if (g_object_get_qdata (object, quark) == NULL) {
    add (type, 1);
    g_object_set_qdata_full (object, quark, type, on_gone);
  }
  return object;
}

/* --- before GObject's own --- */

GObject *
g_object_new_with_properties (GType type, guint n, const char *names[], const GValue values[])
{
  GObject *(*own) (GType, guint, const char **, const GValue *) =
      dlsym (RTLD_NEXT, "g_object_new_with_properties");

  return note (own (type, n, names, values));
}

GObject *
g_object_new_valist (GType type, const char *first, va_list list)
{
  GObject *(*own) (GType, const char *, va_list) = dlsym (RTLD_NEXT, "g_object_new_valist");

  return note (own (type, first, list));
}

gpointer
g_object_new (GType type, const char *first, ...)
{
  GObject *object;
  va_list list;

  if (first == NULL)
    return g_object_new_with_properties (type, 0, NULL, NULL);
  va_start (list, first);
  object = g_object_new_valist (type, first, list);
  va_end (list);
  return object;
}

/* --- asking --- */

int
dry_objects_count (const char *type)
{
  int count;

  g_mutex_lock (&mutex);
  count = GPOINTER_TO_INT (g_hash_table_lookup (counts, type));
  g_mutex_unlock (&mutex);
  return count;
}

GHashTable *
dry_objects_snapshot (void)
{
  GHashTable *copy = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  gpointer type, count;

  g_mutex_lock (&mutex);
  g_hash_table_iter_init (&iter, counts);
  while (g_hash_table_iter_next (&iter, &type, &count))
    g_hash_table_insert (copy, type, count);
  g_mutex_unlock (&mutex);
  return copy;
}

char *
dry_objects_grown (GHashTable *before, int least)
{
  g_autoptr (GHashTable) now = dry_objects_snapshot ();
  GString *text = g_string_new (NULL);
  GHashTableIter iter;
  gpointer type, count;

  g_hash_table_iter_init (&iter, now);
  while (g_hash_table_iter_next (&iter, &type, &count)) {
    int more = GPOINTER_TO_INT (count) - GPOINTER_TO_INT (g_hash_table_lookup (before, type));

    if (more >= least)
      g_string_append_printf (text, " %s +%d", (char *) type, more);
  }
  if (text->len == 0) {
    g_string_free (text, TRUE);
    return NULL;
  }
  return g_string_free (text, FALSE);
}
