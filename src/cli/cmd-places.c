/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli places: where a niche, fitting, bar or seat of a project may stand, the best places
 * with their reasons, and the smallest changes that would make it fit, as JSON or text. */
#include <string.h>

#include "base/error.h"
#include "cli/command.h"
#include "plan/advisor.h"
#include "project/file.h"

static gboolean as_text, free_size, free_joint, free_datum;
static gint wanted = 5;
static char *for_id, *bottle, *tolerance, *musts;

static gboolean
read_length (const char *text, const char *option, DryLength *out, GError **error)
{
  if (!text)
    return TRUE;
  if (!dry_length_parse (text, DRY_UNIT_INCH, out, error)) {
    g_prefix_error (error, "--%s: ", option);
    return FALSE;
  }
  if (*out < 0 || *out > 10 * DRY_FOOT) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "--%s: between 0 and 10 feet", option);
    return FALSE;
  }
  return TRUE;
}

static gboolean
read_musts (guint *must, GError **error)
{
  g_auto (GStrv) words = g_strsplit (musts ? musts : "", ",", -1);

  for (guint i = 0; words[i]; i++) {
    guint kind = 0;
    if (!*words[i])
      continue;
    while (kind < DRY_N_ADVICE && !g_str_equal (words[i], dry_advice_kind_id (kind)))
      kind++;
    if (kind == DRY_N_ADVICE) {
      g_autoptr (GString) known = g_string_new (NULL);
      for (guint k = 0; k < DRY_N_ADVICE; k++)
        g_string_append_printf (known, "%s%s", k ? ", " : "", dry_advice_kind_id (k));
      g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "--must: there is no “%s”; there are %s",
                   words[i], known->str);
      return FALSE;
    }
    *must |= 1u << kind;
  }
  return TRUE;
}

static gboolean
read_options (DryAdviceOptions *options, GError **error)
{
  *options = dry_advice_options_default ();
  return read_length (bottle, "bottle", &options->tallest_bottle, error) &&
         read_length (tolerance, "tolerance", &options->joint_tolerance, error) &&
         read_musts (&options->must, error);
}

/* The room that holds the part. */
static const DryRoom *
find_room (const DryProject *project, guint64 id)
{
  for (guint i = 0; i < dry_project_get_n_rooms (project); i++) {
    const DryRoom *room = dry_project_get_room_at (project, i);
    if (dry_room_get_part (room, (DryId) id))
      return room;
  }
  return NULL;
}

static void
append_place (GString *text, const DryAdvicePlace *place, const char *face, gboolean all)
{
  g_string_append_printf (text, "%s, %.4g\" from its left end, %.4g\" high: ", face,
                          dry_length_to_inches (place->u), dry_length_to_inches (place->z));
  if (place->legal)
    g_string_append_printf (text, "score %.1f\n", place->score);
  else
    g_string_append (text, "may not stand there\n");
  for (guint i = 0; i < place->n_reasons; i++) {
    const DryAdviceReason *reason = &place->reasons[i];
    if (!all && reason->holds)
      continue;
    if (reason->holds)
      g_string_append_printf (text, "    keeps   %s\n", reason->text);
    else if (reason->hard)
      g_string_append_printf (text, "    MAY NOT %s\n", reason->text);
    else
      g_string_append_printf (text, "    %5.1f   %s\n", reason->points, reason->text);
  }
}

static const char *
face_name (const DryAdvice *advice, DryId wall, DrySide side)
{
  const DryAdviceFace *face = dry_advice_get_face (advice, wall, side);

  return face ? face->name : "a wall that is not wet";
}

static char *
make_text (const DryAdvice *advice, DryAdviceFreedom freedom)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  GString *text = g_string_new (NULL);
  const DryPart *part = dry_advice_get_part (advice);
  DryAdvicePlace now =
      dry_advice_judge (advice, arena, part->wall, part->side, (DryPoint){part->u, part->z});
  guint n_best = 0, n_changes = 0;
  const DryAdvicePlace *best =
      dry_advice_find_best (advice, arena, freedom, (guint) wanted, &n_best);
  const DryAdviceChange *changes = dry_advice_find_changes (advice, arena, &n_changes);

  g_string_append (text, "Where it is: ");
  append_place (text, &now, face_name (advice, now.wall, now.side), TRUE);
  g_string_append_printf (text, "\n%s\n", n_best ? "Best places:" : "There is no place for it.");
  for (guint i = 0; i < n_best; i++) {
    g_string_append_printf (text, "  %u. ", i + 1);
    append_place (text, &best[i], face_name (advice, best[i].wall, best[i].side), FALSE);
  }
  if (n_changes)
    g_string_append (text, "\nSmallest changes:\n");
  for (guint i = 0; i < n_changes; i++)
    g_string_append_printf (text, "  %s (score %.1f)\n", changes[i].text, changes[i].place.score);
  return g_string_free (text, FALSE);
}

static char *
make_json (const DryAdvice *advice, DryAdviceFreedom freedom, gsize *length)
{
  g_autoptr (DryJsonWriter) writer = dry_json_writer_new ();

  dry_advice_write_json (advice, (guint) wanted, freedom, writer, NULL);
  return dry_json_writer_finish (g_steal_pointer (&writer), length);
}

static DryAdvice *
load (const char *path, GError **error)
{
  g_autoptr (DryProject) project = dry_project_load (path, error);
  g_autoptr (DryCatalog) catalog = NULL;
  DryAdviceOptions options;
  guint64 id = 0;
  const DryRoom *room;

  if (!project || !read_options (&options, error) || !(catalog = dry_cli_load_catalog (error)))
    return NULL;
  if (!for_id || !g_ascii_string_to_unsigned (for_id, 10, 1, G_MAXUINT32, &id, NULL)) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_REFERENCE,
                         "Say which part with --for ID; ids stand in the file and in the plan");
    return NULL;
  }
  room = find_room (project, id);
  if (!room) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "%s: there is no part %s", path, for_id);
    return NULL;
  }
  return dry_advice_new (project, room->id, dry_room_get_part (room, (DryId) id), catalog, &options,
                         NULL, error);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryAdvice) advice = NULL;
  g_autofree char *text = NULL;
  DryAdviceFreedom freedom = {.size = free_size, .joint = free_joint, .datum = free_datum};
  gsize length;

  wanted = CLAMP (wanted, 1, 50);
  advice = load (files[0], &error);
  if (!advice)
    return dry_cli_fail (error);
  if (as_text) {
    text = make_text (advice, freedom);
    length = strlen (text);
  } else
    text = make_json (advice, freedom, &length);
  return dry_cli_print (text, length);
}

static const GOptionEntry ENTRIES[] = {
    {"for", 'f', 0, G_OPTION_ARG_STRING, &for_id, "The niche, fitting, bar or seat, by its id",
     "ID"},
    {"top", 'n', 0, G_OPTION_ARG_INT, &wanted, "How many of the best places (5)", "N"},
    {"text", 't', 0, G_OPTION_ARG_NONE, &as_text, "Print text instead of JSON", NULL},
    {"bottle", 'b', 0, G_OPTION_ARG_STRING, &bottle, "The tallest bottle a niche must take",
     "LENGTH"},
    {"tolerance", 0, 0, G_OPTION_ARG_STRING, &tolerance,
     "How near a joint counts as on it (1/8 in)", "LENGTH"},
    {"must", 0, 0, G_OPTION_ARG_STRING, &musts,
     "Ask for these instead of only counting them: joints, height, spray …", "WORDS"},
    {"size", 0, 0, G_OPTION_ARG_NONE, &free_size, "The size may change too", NULL},
    {"joint", 0, 0, G_OPTION_ARG_NONE, &free_joint, "The tile joint may change too", NULL},
    {"datum", 0, 0, G_OPTION_ARG_NONE, &free_datum, "The tile layout may shift too", NULL},
    {NULL},
};

const DryCommand dry_command_places = {
    .name = "places",
    .arguments = "FILE",
    .summary = "Print where a niche or fitting may stand, the best places and why",
    .details =
        "Gives the exact bands of legal places on every wet wall, the best places with their\n"
        "reasons, and the smallest changes that would make the part fit.",
    .entries = ENTRIES,
    .takes_catalog = TRUE,
    .n_files = 1,
    .run = run,
};
