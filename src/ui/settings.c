/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the settings' schema where it is installed, else the copy carried in the program, whose
 * settings last only as long as it runs. Knows no key. */
#include "ui/settings.h"

#define G_SETTINGS_ENABLE_BACKEND
#include <gio/gsettingsbackend.h>
#include <glib/gstdio.h>

#define SCHEMA_ID   "io.github.drybay.Drybay"
#define SCHEMA_PATH "/io/github/drybay/Drybay/schemas/gschemas.compiled"

/* GIO reads schemas from a folder only, so the carried copy is put into one for a moment. */
static GSettingsSchema *
read_carried_schema (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("drybay-XXXXXX", &error);
  g_autofree char *file =
      folder != NULL ? g_build_filename (folder, "gschemas.compiled", NULL) : NULL;
  g_autoptr (GBytes) bytes =
      g_resources_lookup_data (SCHEMA_PATH, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  g_autoptr (GSettingsSchemaSource) source = NULL;
  GSettingsSchema *schema = NULL;

  if (file != NULL && bytes != NULL &&
      g_file_set_contents (file, g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes),
                           &error))
    source = g_settings_schema_source_new_from_directory (folder, NULL, TRUE, &error);
  if (source != NULL)
    schema = g_settings_schema_source_lookup (source, SCHEMA_ID, FALSE);
  if (file != NULL)
    g_unlink (file);
  if (folder != NULL)
    g_rmdir (folder);
  if (schema == NULL)
    g_error ("The program carries no settings schema: %s", error != NULL ? error->message : "");
  return schema;
}

GSettings *
dry_settings_new (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema =
      source != NULL ? g_settings_schema_source_lookup (source, SCHEMA_ID, TRUE) : NULL;

  if (schema != NULL)
    return g_settings_new_full (schema, NULL, NULL);
  g_autoptr (GSettingsSchema) carried = read_carried_schema ();
  g_autoptr (GSettingsBackend) memory = g_memory_settings_backend_new ();

  return g_settings_new_full (carried, memory, NULL);
}
