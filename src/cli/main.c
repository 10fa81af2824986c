/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli: finds the subcommand, parses its options and runs it.
 * Output is the same in every locale; only the paper size may follow it. */
#define G_LOG_DOMAIN "drybay-cli"
#include "cli/command.h"

#include <stdio.h>
#include <string.h>

static const DryCommand *const COMMANDS[] = {
    &dry_command_plan,     &dry_command_findings, &dry_command_takeoff, &dry_command_tile,
    &dry_command_papers,   &dry_command_drawing,  &dry_command_check,   &dry_command_systems,
    &dry_command_nest,     &dry_command_places,   &dry_command_cost,    &dry_command_schedule,
    &dry_command_compare,  &dry_command_prices,   &dry_command_remedy,  &dry_command_water,
    &dry_command_template,
};

static DryCliOptions shared_options = {.seconds = 1};

static const GOptionEntry ROOM_ENTRIES[] = {
    {"room", 'r', 0, G_OPTION_ARG_STRING, &shared_options.room,
     "Only this room: its name, or its number in the file", "ROOM"},
    {"search", 0, 0, G_OPTION_ARG_DOUBLE, &shared_options.seconds,
     "Search about so many seconds a room for fewer sheets, unless they are the fewest (1)",
     "SECONDS"},
    {NULL},
};

static const GOptionEntry CATALOG_ENTRIES[] = {
    {"catalog", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &shared_options.catalogs,
     "Read this catalogue folder too, after the shipped one (may be repeated)", "FOLDER"},
    {NULL},
};

void
dry_cli_set_pack_files (char **paths)
{
  shared_options.packs = paths;
}

const DryCliOptions *
dry_cli_get_options (void)
{
  return &shared_options;
}

static void
print_overview (void)
{
  g_print ("Usage: drybay-cli COMMAND [OPTION…] [FILE]\n\n"
           "Plans the wet walls of a bathroom without a screen.\n\nCommands:\n");
  for (guint i = 0; i < G_N_ELEMENTS (COMMANDS); i++)
    g_print ("  %-10s %s\n", COMMANDS[i]->name, COMMANDS[i]->summary);
  g_print ("\n  drybay-cli COMMAND --help    tells a command's options\n"
           "  drybay-cli --version         tells the version\n\n"
           "Exit status: 0 done, 1 done and findings are open (findings), 2 error.\n"
           "Quantities and reminders, not permission: local code, the maker's instructions and "
           "licensed\n"
           "practice decide.\n");
}

static GOptionContext *
make_context (const DryCommand *command)
{
  GOptionContext *context = g_option_context_new (command->arguments);

  g_option_context_set_summary (context, command->summary);
  if (command->details)
    g_option_context_set_description (context, command->details);
  if (command->entries)
    g_option_context_add_main_entries (context, command->entries, NULL);
  if (command->takes_room)
    g_option_context_add_main_entries (context, ROOM_ENTRIES, NULL);
  if (command->takes_catalog)
    g_option_context_add_main_entries (context, CATALOG_ENTRIES, NULL);
  return context;
}

static int
run_command (const DryCommand *command, int argc, char **argv)
{
  g_autoptr (GOptionContext) context = make_context (command);
  g_autofree char *program = g_strdup_printf ("drybay-cli %s", command->name);
  g_autoptr (GError) error = NULL;
  char **files;

  g_set_prgname (program);
  if (!g_option_context_parse (context, &argc, &argv, &error))
    return dry_cli_fail (error);
  files = argv + 1;
  if (files[0] && g_str_equal (files[0], "--"))
    files++;
  if (g_strv_length (files) != command->n_files) {
    g_printerr ("drybay-cli %s: %s\nTry: drybay-cli %s --help\n", command->name,
                g_strv_length (files) < command->n_files ? "a file is missing" : "too many files",
                command->name);
    return DRY_EXIT_ERROR;
  }
  return command->run (files);
}

/* GLib would turn what the C locale cannot show into question marks; our texts are UTF-8 wherever
 * they go. */
static void
print_plain (const char *text)
{
  (void) fputs (text, stdout);
}

static void
print_error_plain (const char *text)
{
  (void) fputs (text, stderr);
}

int
main (int argc, char **argv)
{
  const char *name = argc > 1 ? argv[1] : "--help";

  g_set_print_handler (print_plain);
  g_set_printerr_handler (print_error_plain);
  if (g_str_equal (name, "--help") || g_str_equal (name, "-h") || g_str_equal (name, "help")) {
    print_overview ();
    return argc > 1 ? DRY_EXIT_OK : DRY_EXIT_ERROR;
  }
  if (g_str_equal (name, "--version")) {
    g_print ("drybay-cli %s\n", DRYBAY_VERSION);
    return DRY_EXIT_OK;
  }
  for (guint i = 0; i < G_N_ELEMENTS (COMMANDS); i++)
    if (g_str_equal (COMMANDS[i]->name, name)) {
      argv[1] = argv[0];
      return run_command (COMMANDS[i], argc - 1, argv + 1);
    }
  g_printerr ("drybay-cli: there is no command “%s”\nTry: drybay-cli --help\n", name);
  return DRY_EXIT_ERROR;
}
