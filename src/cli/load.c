/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loads catalogue and project for the subcommands and plans the rooms asked for.
 * Errors go up as they came: they already name file, place and reason. */
#include "cli/command.h"
#include "plan/rule-names.h"
#include "plan/plans.h"
#include "project/file.h"

#include <math.h>
#include <stdio.h>

static gboolean
add_paths (GPtrArray *all, char **paths, GFileTest test, const char *what, GError **error)
{
  for (guint i = 0; paths && paths[i]; i++) {
    if (!g_file_test (paths[i], test)) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: there is no such %s", paths[i], what);
      return FALSE;
    }
    g_ptr_array_add (all, g_strdup (paths[i]));
  }
  return TRUE;
}

DryCatalog *
dry_cli_load_catalog (GError **error)
{
  const DryCliOptions *options = dry_cli_get_options ();
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) shipped = dry_catalog_dup_default_folders ();

  for (guint i = 0; shipped[i]; i++)
    g_ptr_array_add (all, g_strdup (shipped[i]));
  if (!add_paths (all, options->catalogs, G_FILE_TEST_IS_DIR, "folder", error) ||
      !add_paths (all, options->packs, G_FILE_TEST_EXISTS, "file", error))
    return NULL;
  g_ptr_array_add (all, NULL);
  return dry_catalog_load_tolerant ((const char *const *) all->pdata, G_MAXUINT,
                                    dry_rule_names_check, error);
}

/* A room is asked for by its name or by its place in the file, from 1. */
static gboolean
is_asked_for (const DryRoom *room, guint index, const char *asked)
{
  guint64 number = 0;

  if (!asked || (room->name && g_str_equal (room->name, asked)))
    return TRUE;
  return g_ascii_string_to_unsigned (asked, 10, 1, G_MAXUINT, &number, NULL) && number == index + 1;
}

static void
report_unknown_room (const DryProject *project, const char *asked, GError **error)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < dry_project_get_n_rooms (project) && i < 12; i++) {
    const DryRoom *room = dry_project_get_room_at (project, i);
    g_string_append_printf (names, "%s%u (%s)", i ? ", " : "", i + 1,
                            room->name ? room->name : "unnamed");
  }
  g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "There is no room “%s”; the file holds %s",
               asked, names->str);
}

#define MAX_SECONDS 3600.0

static gboolean
check_seconds (GError **error)
{
  double seconds = dry_cli_get_options ()->seconds;

  if (isfinite (seconds) && seconds >= 0 && seconds <= MAX_SECONDS)
    return TRUE;
  g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED, "--search is from 0 to %d seconds",
               (int) MAX_SECONDS);
  return FALSE;
}

gboolean
dry_cli_get_effort (guint64 *effort, GError **error)
{
  /* Work, not time: the same file gives the same plan on every machine. */
  *effort = (guint64) (dry_cli_get_options ()->seconds * (double) DRY_PLAN_EFFORT);
  return check_seconds (error);
}

gboolean
dry_cli_find_room (const DryProject *project, DryId *room, GError **error)
{
  const char *asked = dry_cli_get_options ()->room;

  *room = 0;
  if (!asked)
    return TRUE;
  for (guint i = 0; i < dry_project_get_n_rooms (project); i++) {
    const DryRoom *at = dry_project_get_room_at (project, i);
    if (!is_asked_for (at, i, asked))
      continue;
    *room = at->id;
    return TRUE;
  }
  report_unknown_room (project, asked, error);
  return FALSE;
}

GPtrArray *
dry_cli_load_plans (const char *path, GError **error)
{
  guint64 effort;
  const char *asked = dry_cli_get_options ()->room;
  g_autoptr (GArray) rooms = g_array_new (FALSE, FALSE, sizeof (DryId));
  g_autoptr (DryCatalog) catalog = NULL;
  g_autoptr (DryProject) project = NULL;

  if (!dry_cli_get_effort (&effort, error) || !(project = dry_project_load (path, error)) ||
      !(catalog = dry_cli_load_catalog (error)))
    return NULL;
  for (guint i = 0; i < dry_project_get_n_rooms (project); i++) {
    const DryRoom *room = dry_project_get_room_at (project, i);

    if (is_asked_for (room, i, asked))
      g_array_append_val (rooms, room->id);
  }
  if (rooms->len == 0) {
    report_unknown_room (project, asked, error);
    return NULL;
  }
  return dry_plans_new (project, (const DryId *) (gpointer) rooms->data, rooms->len, catalog,
                        effort, NULL, error);
}

int
dry_cli_print (const char *text, gsize length)
{
  if (fwrite (text, 1, length, stdout) != length || fflush (stdout) != 0) {
    g_printerr ("drybay-cli: standard output could not be written\n");
    return DRY_EXIT_ERROR;
  }
  return DRY_EXIT_OK;
}

int
dry_cli_fail (const GError *error)
{
  g_printerr ("drybay-cli: %s\n", error->message);
  return DRY_EXIT_ERROR;
}
