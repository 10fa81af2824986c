/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli compare: the project and its alternates side by side, as a text table or JSON, and the
 * change order from one to another. Other backer systems may be compared too. */
#include <string.h>

#include "cli/book-option.h"
#include "cli/command.h"
#include "cli/paper-option.h"
#include "papers/client-papers.h"
#include "plan/amounts.h"
#include "plan/compare.h"
#include "project/file.h"

static gboolean as_json, all_systems;
static char **systems;
static char *book_name, *start, *change_order, *option_name, *paper, *date;

typedef const char *(*Show) (const DryOption *option, DryArena *arena);

static const char *
show_cost (const DryOption *option, DryArena *arena)
{
  return dry_arena_printf (arena, "%s%s", dry_money_text (arena, option->cost->total),
                           option->cost->n_gaps ? " + gaps" : "");
}

static const char *
show_hours (const DryOption *option, DryArena *arena)
{
  return dry_number_text (arena, option->hours, 1);
}

static const char *
show_days (DryArena *arena, gint64 days)
{
  return days > 0 ? dry_arena_printf (arena, "%" G_GINT64_FORMAT, days) : "-";
}

static const char *
show_tile (const DryOption *option, DryArena *arena)
{
  return show_days (arena, option->days_to_tile);
}

static const char *
show_shower (const DryOption *option, DryArena *arena)
{
  return show_days (arena, option->days_to_shower);
}

static const char *
show_sheets (const DryOption *option, DryArena *arena)
{
  return dry_arena_printf (arena, "%u", option->sheets);
}

static const char *
show_weight (const DryOption *option, DryArena *arena)
{
  return dry_arena_printf (arena, "%s kg%s", dry_number_text (arena, option->weight, 0),
                           option->weight_whole ? "" : " + tile");
}

static const char *
show_seams (const DryOption *option, DryArena *arena)
{
  return dry_arena_printf (arena, "%u, %s", option->seams,
                           dry_metres_text (arena, option->seam_length / DRY_MM * DRY_MM));
}

static const char *
show_thickness (const DryOption *option, DryArena *arena)
{
  return dry_arena_printf (arena, "%s mm",
                           dry_number_text (arena, dry_length_to_mm (option->thickness), 1));
}

static const char *
show_findings (const DryOption *option, DryArena *arena)
{
  return dry_arena_printf (arena, "%u/%u/%u", option->findings[0], option->findings[1],
                           option->findings[2]);
}

static const char *
show_skill (const DryOption *option, DryArena *arena)
{
  return dry_arena_printf (arena, "%u", option->n_skill);
}

static const struct {
  const char *heading;
  Show show;
} COLUMNS[] = {
    {"cost", show_cost},        {"hours", show_hours},     {"days to tile", show_tile},
    {"to shower", show_shower}, {"sheets", show_sheets},   {"on the walls", show_weight},
    {"seams", show_seams},      {"thick", show_thickness}, {"findings", show_findings},
    {"skill", show_skill},
};

static void
pad (GString *text, const char *cell, glong width)
{
  glong n = g_utf8_strlen (cell, -1);

  g_string_append (text, cell);
  for (; n < width; n++)
    g_string_append_c (text, ' ');
}

static void
append_table (GString *text, const DryComparison *comparison, DryArena *arena)
{
  glong name_width = 4, width[G_N_ELEMENTS (COLUMNS)];

  for (guint i = 0; i < comparison->n; i++)
    name_width = MAX (name_width, g_utf8_strlen (comparison->options[i].name, -1));
  for (guint j = 0; j < G_N_ELEMENTS (COLUMNS); j++) {
    width[j] = g_utf8_strlen (COLUMNS[j].heading, -1);
    for (guint i = 0; i < comparison->n; i++)
      width[j] =
          MAX (width[j], g_utf8_strlen (COLUMNS[j].show (&comparison->options[i], arena), -1));
  }
  pad (text, "", name_width + 2);
  for (guint j = 0; j < G_N_ELEMENTS (COLUMNS); j++)
    pad (text, COLUMNS[j].heading, width[j] + 2);
  for (guint i = 0; i < comparison->n; i++) {
    g_string_append_c (text, '\n');
    pad (text, comparison->options[i].name, name_width + 2);
    for (guint j = 0; j < G_N_ELEMENTS (COLUMNS); j++)
      pad (text, COLUMNS[j].show (&comparison->options[i], arena), width[j] + 2);
  }
  g_string_append_c (text, '\n');
}

static int
print_text (const DryComparison *comparison, const DryPriceBook *book, DryArena *arena)
{
  g_autoptr (GString) text = g_string_new (NULL);

  append_table (text, comparison, arena);
  g_string_append_printf (text,
                          "\nfindings: stop/fix/advice; skill: steps that want a practiced hand; "
                          "money in %s%s\n",
                          book->currency, book->invented ? ", invented samples" : "");
  for (guint i = 1; i < comparison->n; i++) {
    const DryOption *option = &comparison->options[i];
    g_string_append_printf (text, "\n%s\n", option->name);
    for (guint j = 0; j < option->n_differences; j++) {
      g_string_append_printf (text, "  %s\n", option->differences[j].text);
      if (option->differences[j].why)
        g_string_append_printf (text, "      %s\n", option->differences[j].why);
    }
    if (option->n_differences == 0)
      g_string_append (text, "  no different\n");
  }
  return dry_cli_print (text->str, text->len);
}

static int
print_json (const DryComparison *comparison)
{
  DryJsonWriter *writer = dry_json_writer_new ();
  g_autofree char *text = NULL;
  gsize length;

  dry_comparison_write_json (comparison, writer, NULL);
  text = dry_json_writer_finish (writer, &length);
  return dry_cli_print (text, length);
}

/* The option asked for by name; the only other one when none is. */
static gboolean
find_option (const DryComparison *comparison, guint *index, GError **error)
{
  for (guint i = 1; i < comparison->n; i++)
    if (option_name ? g_str_equal (comparison->options[i].name, option_name) : comparison->n == 2) {
      *index = i;
      return TRUE;
    }
  g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
               "Say with --option which alternate the change order is for; “%s” is none",
               option_name ? option_name : "");
  return FALSE;
}

static gboolean
write_change_order (const DryComparison *comparison, GError **error)
{
  DryPaperOptions options = {.date = date, .decimal = '.'};
  guint index;

  return find_option (comparison, &index, error) &&
         dry_cli_choose_paper (paper, &options.paper, error) &&
         dry_papers_write_change_order (comparison, index, &options, change_order, error);
}

static const char **
list_systems (const DryCatalog *catalog, const DryProject *project, DryArena *arena)
{
  guint n = dry_catalog_get_n_systems (catalog), used = 0;
  const char **list = dry_arena_new_array (arena, const char *, n + 1);
  const char *own = dry_project_get_room_at (project, 0)->finish.system;

  if (!all_systems)
    return (const char **) systems;
  for (guint i = 0; i < n; i++)
    if (!g_str_equal (dry_catalog_get_system_at (catalog, i)->id, own))
      list[used++] = dry_catalog_get_system_at (catalog, i)->id;
  return list;
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryCatalog) catalog = NULL;
  g_autoptr (DryProject) project = dry_project_load (files[0], &error);
  g_autoptr (DryComparison) comparison = NULL;
  const DryPriceBook *book;
  guint64 effort;
  DryId room;

  if (!project || !(catalog = dry_cli_load_catalog (&error)) ||
      !dry_cli_find_room (project, &room, &error) || !dry_cli_get_effort (&effort, &error))
    return dry_cli_fail (error);
  book = dry_cli_choose_book (catalog, dry_project_get_job (project), book_name, arena, &error);
  if (book)
    comparison = dry_comparison_new (project, room, catalog, book, start,
                                     (const char *const *) list_systems (catalog, project, arena),
                                     effort, NULL, &error);
  if (!comparison || (change_order && !write_change_order (comparison, &error)))
    return dry_cli_fail (error);
  if (as_json)
    return print_json (comparison);
  return change_order ? DRY_EXIT_OK : print_text (comparison, book, arena);
}

static const GOptionEntry ENTRIES[] = {
    {"json", 'j', 0, G_OPTION_ARG_NONE, &as_json, "Print JSON", NULL},
    {"system", 0, 0, G_OPTION_ARG_STRING_ARRAY, &systems,
     "Compare this backer system too (may be repeated)", "ID"},
    {"systems", 0, 0, G_OPTION_ARG_NONE, &all_systems, "Compare every backer system there is",
     NULL},
    {"change-order", 0, 0, G_OPTION_ARG_FILENAME, &change_order,
     "Write the change order from the project to an alternate", "OUT.pdf"},
    {"option", 'o', 0, G_OPTION_ARG_STRING, &option_name, "The alternate of the change order",
     "NAME"},
    {"book", 'b', 0, G_OPTION_ARG_STRING, &book_name,
     "Take this price book: an id of the catalogue, or a file", "BOOK"},
    {"start", 's', 0, G_OPTION_ARG_STRING, &start, "First day of work, instead of the job's",
     "YYYY-MM-DD"},
    {"paper", 'p', 0, G_OPTION_ARG_STRING, &paper,
     "a4, letter, a3 or tabloid; else as the locale's country", "SIZE"},
    {"date", 'd', 0, G_OPTION_ARG_STRING, &date, "Date to print on the pages; else none",
     "YYYY-MM-DD"},
    {NULL},
};

const DryCommand dry_command_compare = {
    .name = "compare",
    .arguments = "FILE",
    .summary = "Print the project's alternates side by side, and what is different",
    .details = "The first is the project itself; the others are the alternates in the file and the "
               "systems asked for.",
    .entries = ENTRIES,
    .takes_room = TRUE,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
