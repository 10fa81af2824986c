/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Versions as plain files, one folder for each saved path, named by the time they were saved.
 * Knows nothing of windows and clocks. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/versions.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

#include "base/error.h"
#include "project/file-replace.h"

#define SUFFIX ".drybay"

void
dry_file_mark_of_text (const char *text, gsize length, DryFileMark *mark)
{
  g_autofree char *sum =
      g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) text, length);

  mark->exists = TRUE;
  g_strlcpy (mark->digest, sum, sizeof mark->digest);
}

gboolean
dry_file_mark_take (const char *path, DryFileMark *mark, GError **error)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) problem = NULL;
  gsize length;

  memset (mark, 0, sizeof *mark);
  if (g_file_get_contents (path, &text, &length, &problem)) {
    dry_file_mark_of_text (text, length, mark);
    return TRUE;
  }
  if (g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_NOENT) ||
      g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_NOTDIR))
    return TRUE;
  g_set_error_literal (error, DRY_ERROR, DRY_ERROR_FILE, problem->message);
  return FALSE;
}

gboolean
dry_file_mark_equal (const DryFileMark *a, const DryFileMark *b)
{
  return a->exists == b->exists && (!a->exists || strcmp (a->digest, b->digest) == 0);
}

/* One folder a path; links and relative names to the same file lead to the same one. */
static char *
dup_folder (const char *folder, const char *path)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);
  char real[4096];
  const char *name = realpath (whole, real) != NULL ? real : whole;
  g_autofree char *sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, name, -1);

  sum[24] = '\0';
  return g_build_filename (folder, sum, NULL);
}

void
dry_version_free (DryVersion *self)
{
  if (self == NULL)
    return;
  g_free (self->stamp);
  g_free (self->file);
  g_free (self);
}

static gint
compare_stamps (gconstpointer a, gconstpointer b)
{
  const DryVersion *x = *(DryVersion *const *) a, *y = *(DryVersion *const *) b;

  return -strcmp (x->stamp, y->stamp);
}

static GPtrArray *
list_folder (const char *own)
{
  GPtrArray *versions = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_version_free);
  g_autoptr (GDir) dir = g_dir_open (own, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, SUFFIX)) {
      DryVersion *version = g_new0 (DryVersion, 1);

      version->stamp = g_strndup (name, strlen (name) - strlen (SUFFIX));
      version->file = g_build_filename (own, name, NULL);
      g_ptr_array_add (versions, version);
    }
  g_ptr_array_sort (versions, compare_stamps);
  return versions;
}

GPtrArray *
dry_versions_list (const char *folder, const char *path)
{
  g_autofree char *own = dup_folder (folder, path);

  return list_folder (own);
}

static gboolean
holds_text (const DryVersion *version, const char *text, gsize length)
{
  g_autofree char *kept = NULL;
  gsize kept_length;

  return g_file_get_contents (version->file, &kept, &kept_length, NULL) && kept_length == length &&
         memcmp (kept, text, length) == 0;
}

gboolean
dry_versions_keep (const char *folder, const char *path, const char *stamp, const char *text,
                   gsize length, GError **error)
{
  g_autofree char *own = dup_folder (folder, path);
  g_autofree char *name = g_strconcat (stamp, SUFFIX, NULL);
  g_autofree char *file = g_build_filename (own, name, NULL);
  g_autoptr (GPtrArray) versions = list_folder (own);

  if (versions->len > 0 && holds_text (versions->pdata[0], text, length))
    return TRUE;
  if (g_mkdir_with_parents (own, 0700) != 0) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s", own, g_strerror (errno));
    return FALSE;
  }
  if (!dry_file_replace (file, text, length, NULL, TRUE, error))
    return FALSE;
  for (guint i = DRY_VERSIONS_KEPT - 1; i < versions->len; i++) {
    const DryVersion *old = versions->pdata[i];

    if (strcmp (old->stamp, stamp) != 0)
      g_unlink (old->file);
  }
  return TRUE;
}
