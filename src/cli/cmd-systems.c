/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli systems: what the catalogue holds, systems first, then items and rule packs.
 * Lengths are printed in inches and millimeters, since nobody's project says which. */
#include "cli/command.h"

static gboolean as_json;

static char *
both_units (DryLength length)
{
  DryLengthFormat format = {DRY_LENGTH_INCHES, 16, '.'};
  g_autofree char *inches = dry_length_format (length, &format);
  g_autofree char *mm = NULL;

  format.style = DRY_LENGTH_MM;
  mm = dry_length_format (length, &format);
  return g_strdup_printf ("%s (%s)", inches, mm);
}

static const char *
membrane_text (const DrySystem *system)
{
  static const char *const TEXTS[] = {"none, the board itself", "liquid-applied", "bonded sheet"};

  return TEXTS[system->membrane];
}

static void
append_system (GString *text, const DrySystem *system)
{
  g_autofree char *thickness =
      both_units (system->n_thicknesses ? system->thicknesses[0].value : 0);
  g_autofree char *studs = both_units (system->stud_spacing_max.value);
  g_autofree char *edge = both_units (system->edge_spacing.value);

  g_string_append_printf (text, "%s — %s\n  %s\n", system->id, system->name, system->summary);
  g_string_append_printf (
      text, "  thickness %s, studs at most %s on center, fasteners every %s at edges\n", thickness,
      studs, edge);
  g_string_append_printf (text, "  membrane: %s; sheets:", membrane_text (system));
  for (guint i = 0; i < system->n_sheets; i++)
    g_string_append_printf (text, "%s %s", i ? "," : "", system->sheets[i].name);
  g_string_append_printf (text, "%s\n\n", system->n_sheets ? "" : " none, laid on site");
}

static void
write_figure (DryJsonWriter *writer, const char *key, const DryLengthFigure *figure)
{
  dry_json_begin_object_inline (writer, key);
  dry_json_write_length (writer, "mm", figure->value);
  dry_json_write_string (writer, "source", figure->source.text);
  dry_json_write_string (writer, "certainty", dry_certainty_to_text (figure->source.certainty));
  dry_json_end_object (writer);
}

static void
write_system (DryJsonWriter *writer, const DrySystem *system)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "id", system->id);
  dry_json_write_string (writer, "name", system->name);
  dry_json_write_string (writer, "summary", system->summary);
  dry_json_write_string (writer, "membrane", membrane_text (system));
  if (system->n_thicknesses)
    write_figure (writer, "thickness", &system->thicknesses[0]);
  write_figure (writer, "stud_spacing_max", &system->stud_spacing_max);
  write_figure (writer, "edge_spacing", &system->edge_spacing);
  write_figure (writer, "field_spacing", &system->field_spacing);
  write_figure (writer, "edge_distance", &system->edge_distance);
  dry_json_begin_array_inline (writer, "sheets");
  for (guint i = 0; i < system->n_sheets; i++)
    dry_json_write_string (writer, NULL, system->sheets[i].id);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static int
print_json (const DryCatalog *catalog)
{
  g_autoptr (DryJsonWriter) writer = dry_json_writer_new ();
  g_autofree char *text = NULL;
  gsize length;

  dry_json_begin_object (writer, NULL);
  dry_json_begin_array (writer, "systems");
  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++)
    write_system (writer, dry_catalog_get_system_at (catalog, i));
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "items");
  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_string (writer, "id", item->id);
    dry_json_write_string (writer, "group", item->group);
    dry_json_write_string (writer, "name", item->name);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "rule_packs");
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (catalog); i++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (catalog, i);
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_string (writer, "id", pack->id);
    dry_json_write_string (writer, "name", pack->name);
    dry_json_write_string (writer, "edition", pack->edition);
    dry_json_write_integer (writer, "rules", pack->n_rules);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
  text = dry_json_writer_finish (g_steal_pointer (&writer), &length);
  return dry_cli_print (text, length);
}

static int
print_text (const DryCatalog *catalog)
{
  g_autoptr (GString) text = g_string_new ("Backer systems\n\n");

  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++)
    append_system (text, dry_catalog_get_system_at (catalog, i));
  g_string_append (text, "Items\n");
  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    g_string_append_printf (text, "  %-24s %-16s %s\n", item->id, item->group, item->name);
  }
  g_string_append (text, "\nRule packs\n");
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (catalog); i++) {
    const DryRulePack *pack = dry_catalog_get_rule_pack_at (catalog, i);
    g_string_append_printf (text, "  %-24s %s, %s: %u rules\n", pack->id, pack->name, pack->edition,
                            pack->n_rules);
  }
  return dry_cli_print (text->str, text->len);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryCatalog) catalog = dry_cli_load_catalog (&error);

  if (!catalog)
    return dry_cli_fail (error);
  return as_json ? print_json (catalog) : print_text (catalog);
}

static const GOptionEntry ENTRIES[] = {
    {"json", 'j', 0, G_OPTION_ARG_NONE, &as_json, "Print JSON instead of text", NULL},
    {NULL},
};

const DryCommand dry_command_systems = {
    .name = "systems",
    .arguments = NULL,
    .summary = "Print what the catalogue holds",
    .entries = ENTRIES,
    .takes_catalog = TRUE,
    .n_files = 0,
    .run = run,
};
