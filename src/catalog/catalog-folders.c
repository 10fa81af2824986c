/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the catalogue's folders and reads its files.
 * Everything it hands on is bytes and names; parsing is the readers' work. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/catalog-folders.h"
#include "base/error.h"
#include "base/json.h"
#include "catalog/catalog.h"

#include <glib/gstdio.h>
#include <string.h>

#define MAX_FILES 1000

static gint
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static void
set_file_error (GError **error, const char *path, const char *reason)
{
  g_autofree char *shown = g_filename_display_name (path);

  g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s", shown, reason);
}

GPtrArray *
dry_catalog_list_files (const char *folder, const char *part, GError **error)
{
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *path = g_build_filename (folder, part, NULL);
  g_autoptr (GError) reason = NULL;
  g_autoptr (GDir) dir = NULL;
  const char *name;

  if (!g_file_test (folder, G_FILE_TEST_IS_DIR)) {
    set_file_error (error, folder, "there is no such catalogue folder");
    return NULL;
  }
  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&files);
  dir = g_dir_open (path, 0, &reason);
  if (!dir) {
    set_file_error (error, path, reason->message);
    return NULL;
  }
  while ((name = g_dir_read_name (dir)))
    if (name[0] != '.' && g_str_has_suffix (name, ".json"))
      g_ptr_array_add (files, g_build_filename (path, name, NULL));
  if (files->len > MAX_FILES) {
    set_file_error (error, path, "holds more than 1000 files");
    return NULL;
  }
  g_ptr_array_sort (files, compare_names);
  return g_steal_pointer (&files);
}

char *
dry_catalog_read_file (const char *path, gsize *length, GError **error)
{
  g_autoptr (GError) reason = NULL;
  char *bytes = NULL;
  GStatBuf info;

  /* A pipe or device would make the reader wait for ever, a huge file eat the memory. */
  if (g_stat (path, &info) != 0) {
    set_file_error (error, path, g_strerror (errno));
    return NULL;
  }
  if (!S_ISREG (info.st_mode)) {
    set_file_error (error, path, "is no regular file");
    return NULL;
  }
  if (info.st_size > DRY_JSON_MAX_BYTES) {
    g_autofree char *shown = g_filename_display_name (path);
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "%s: larger than %d bytes", shown,
                 DRY_JSON_MAX_BYTES);
    return NULL;
  }
  if (!g_file_get_contents (path, &bytes, length, &reason)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s", reason->message);
    return NULL;
  }
  return bytes;
}

/* The shipped data: what the environment says, else installed, else the source tree. */
static const char *
find_shipped_folder (void)
{
  const char *wanted = g_getenv ("DRYBAY_DATA");

  if (wanted && wanted[0])
    return wanted;
  if (g_file_test (DRYBAY_PKGDATA "/systems", G_FILE_TEST_IS_DIR))
    return DRYBAY_PKGDATA;
  return DRYBAY_SOURCE_DATA;
}

char *
dry_catalog_dup_data_folder (void)
{
  return g_strdup (find_shipped_folder ());
}

char *
dry_catalog_dup_own_folder (void)
{
  return g_build_filename (g_get_user_data_dir (), "drybay", "catalog", NULL);
}

char **
dry_catalog_dup_default_folders (void)
{
  g_autofree char *own = dry_catalog_dup_own_folder ();
  char **folders = g_new0 (char *, 3);

  folders[0] = dry_catalog_dup_data_folder ();
  if (g_file_test (own, G_FILE_TEST_IS_DIR))
    folders[1] = g_steal_pointer (&own);
  return folders;
}

DryCatalog *
dry_catalog_load_default (GError **error)
{
  g_auto (GStrv) folders = dry_catalog_dup_default_folders ();

  return dry_catalog_load ((const char *const *) folders, error);
}
