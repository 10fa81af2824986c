/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tries a rule pack over everything the catalogue reads, and copies it into the firm's folder.
 * What makes a pack good is the catalogue's and its check's to say. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/own-packs.h"
#include "base/error.h"
#include "base/json.h"
#include "catalog/catalog-folders.h"
#include "project/file-replace.h"

#include <glib/gstdio.h>
#include <string.h>

#define MAX_NAMES 1000

char *
dry_own_packs_dup_folder (void)
{
  g_autofree char *own = dry_catalog_dup_own_folder ();

  return g_build_filename (own, "rules", NULL);
}

/* The pack id a text gives itself; NULL when it cannot be told. */
static char *
dup_pack_id (const char *text, gsize length)
{
  g_autoptr (DryJsonDocument) doc = dry_json_document_new (text, length, "", NULL);
  const char *id = doc ? dry_json_string (dry_json_get (dry_json_root (doc), "id")) : "";

  return id[0] ? g_strdup (id) : NULL;
}

/* --- whether it is good --- */

static gboolean
was_left_out (const DryCatalog *catalog, const char *file)
{
  for (guint i = 0; i < dry_catalog_get_n_left_out (catalog); i++)
    if (g_str_equal (dry_catalog_get_left_out_at (catalog, i)->file, file))
      return TRUE;
  return FALSE;
}

/* `path` is the last that `with` read: what is bad about it was noted last, or after it when it
 * spoils another. */
static gboolean
check_left_out (const DryCatalog *before, const DryCatalog *with, const char *path, GError **error)
{
  g_autofree char *shown = g_filename_display_name (path);

  for (guint i = 0; i < dry_catalog_get_n_left_out (with); i++) {
    const DryLeftOut *left = dry_catalog_get_left_out_at (with, i);

    if (g_str_equal (left->file, shown)) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_SCHEMA, "%s: %s", shown, left->reason);
      return FALSE;
    }
    if (!was_left_out (before, left->file)) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
                   "%s: with it %s could no longer be used: %s", shown, left->file, left->reason);
      return FALSE;
    }
  }
  return TRUE;
}

/* The name of pack `id` of the file, when it and all others are good. */
static char *
dup_checked_name (const char *path, const char *id, DryRulePackCheck check, GError **error)
{
  g_autofree char *shipped = dry_catalog_dup_data_folder ();
  g_autofree char *own = dry_catalog_dup_own_folder ();
  gboolean is_there = g_file_test (own, G_FILE_TEST_IS_DIR);
  const char *folders[] = {shipped, is_there ? own : NULL, NULL};
  const char *more[] = {shipped, is_there ? own : path, is_there ? path : NULL, NULL};
  g_autoptr (DryCatalog) before = dry_catalog_load_tolerant (folders, 1, check, error);
  g_autoptr (DryCatalog) with = before ? dry_catalog_load_tolerant (more, 1, check, error) : NULL;
  const DryRulePack *pack;

  if (!with || !check_left_out (before, with, path, error))
    return NULL;
  pack = id ? dry_catalog_get_rule_pack (with, id) : NULL;
  if (!pack) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: changed while it was read", path);
    return NULL;
  }
  return g_strdup (pack->name);
}

/* --- where it goes --- */

/* The file in the folder that holds pack `id`, or NULL; `same`: with these very bytes. */
static char *
find_file (const char *id, const char *text, gsize length, gboolean *same)
{
  g_autofree char *own = dry_catalog_dup_own_folder ();
  g_autoptr (GPtrArray) files = dry_catalog_list_files (own, "rules", NULL);

  for (guint i = 0; files && i < files->len; i++) {
    const char *path = g_ptr_array_index (files, i);
    gsize size = 0;
    g_autofree char *bytes = dry_catalog_read_file (path, &size, NULL);
    g_autofree char *other = bytes ? dup_pack_id (bytes, size) : NULL;

    if (!other || !g_str_equal (other, id))
      continue;
    *same = size == length && memcmp (bytes, text, size) == 0;
    return g_strdup (path);
  }
  return NULL;
}

/* A name that nothing has yet. */
static char *
dup_free_name (const char *id)
{
  g_autofree char *folder = dry_own_packs_dup_folder ();

  for (guint i = 1; i < MAX_NAMES; i++) {
    g_autofree char *name =
        i == 1 ? g_strdup_printf ("%s.json", id) : g_strdup_printf ("%s-%u.json", id, i);
    g_autofree char *path = g_build_filename (folder, name, NULL);

    if (!g_file_test (path, G_FILE_TEST_EXISTS) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
      return g_steal_pointer (&path);
  }
  return NULL;
}

static gboolean
write_pack (const char *path, const char *text, gsize length, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  GStatBuf info;
  gboolean is_there = g_stat (path, &info) == 0;

  if (g_mkdir_with_parents (folder, 0700) != 0) {
    g_autofree char *shown = g_filename_display_name (folder);
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s", shown, g_strerror (errno));
    return FALSE;
  }
  return dry_file_replace (path, text, length, is_there ? &info : NULL, FALSE, error);
}

gboolean
dry_own_packs_add (const char *path, gboolean replace, DryRulePackCheck check,
                   DryOwnPackAnswer *answer, char **name, char **file, GError **error)
{
  gsize length = 0;
  g_autofree char *text = dry_catalog_read_file (path, &length, error);
  g_autofree char *id = text ? dup_pack_id (text, length) : NULL;
  g_autofree char *title = text ? dup_checked_name (path, id, check, error) : NULL;
  g_autofree char *target = NULL;
  gboolean same = FALSE;

  if (!title)
    return FALSE;
  target = find_file (id, text, length, &same);
  if (same)
    *answer = DRY_OWN_PACK_THERE;
  else if (target && !replace)
    *answer = DRY_OWN_PACK_ASKS;
  else {
    if (!target)
      target = dup_free_name (id);
    if (!target) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "%s: no name is free in the folder", id);
      return FALSE;
    }
    if (!write_pack (target, text, length, error))
      return FALSE;
    *answer = DRY_OWN_PACK_ADDED;
  }
  *name = g_steal_pointer (&title);
  *file = g_steal_pointer (&target);
  return TRUE;
}
