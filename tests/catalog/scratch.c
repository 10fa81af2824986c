/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes and removes scratch folders for the catalogue's tests.
 * It checks nothing itself beyond that disk and shipped data are there. */
#include "scratch.h"

#include <glib/gstdio.h>
#include <string.h>

Scratch *
scratch_new (void)
{
  Scratch *self = g_new0 (Scratch, 1);
  g_autoptr (GError) error = NULL;

  self->path = g_dir_make_tmp ("drybay-catalog-XXXXXX", &error);
  g_assert_no_error (error);
  return self;
}

static void
remove_tree (const char *path)
{
  GDir *dir = g_file_test (path, G_FILE_TEST_IS_DIR) ? g_dir_open (path, 0, NULL) : NULL;
  const char *name;

  while (dir && (name = g_dir_read_name (dir))) {
    g_autofree char *child = g_build_filename (path, name, NULL);
    remove_tree (child);
  }
  if (dir)
    g_dir_close (dir);
  g_remove (path);
}

void
scratch_free (Scratch *self)
{
  remove_tree (self->path);
  g_free (self->path);
  g_free (self);
}

void
scratch_write (Scratch *self, const char *part, const char *name, const char *text, gssize length)
{
  g_autofree char *folder = g_build_filename (self->path, part, NULL);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_file_set_contents (path, text, length, &error);
  g_assert_no_error (error);
}

DryCatalog *
scratch_load (Scratch *self, GError **error)
{
  const char *folders[] = {self->path, NULL};

  return dry_catalog_load (folders, error);
}

static const char *
get_shipped_folder (void)
{
  const char *folder = g_getenv ("DRYBAY_DATA");

  g_assert_nonnull (folder);
  return folder;
}

char *
scratch_shipped_text (const char *name, gsize *length)
{
  g_autofree char *path = g_build_filename (get_shipped_folder (), name, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, length, &error);
  g_assert_no_error (error);
  return text;
}

DryCatalog *
scratch_load_shipped (void)
{
  const char *folders[] = {get_shipped_folder (), NULL};
  g_autoptr (GError) error = NULL;
  DryCatalog *catalog = dry_catalog_load (folders, &error);

  g_assert_no_error (error);
  return catalog;
}

char *
scratch_replace (const char *text, const char *find, const char *with)
{
  const char *at = strstr (text, find);
  g_autofree char *before = NULL;

  if (!at)
    g_error ("the shipped file no longer holds \"%s\"", find);
  before = g_strndup (text, (gsize) (at - text));
  return g_strconcat (before, with, at + strlen (find), NULL);
}
