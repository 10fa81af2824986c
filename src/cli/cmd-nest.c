/* SPDX-License-Identifier: GPL-3.0-or-later */
/* drybay-cli nest: cuts a list of rectangles from sheets, list and answer as JSON.
 * The order of the work is the saw's: edge to edge, one cut after the other. */
#include <math.h>
#include <string.h>

#include "base/json.h"
#include "cli/command.h"
#include "cli/nest-list.h"

#define MAX_SECONDS     3600.0
#define MAX_THREADS     64
#define DEFAULT_SECONDS 1.0

static double seconds = DEFAULT_SECONDS;
static gint n_threads = 1;

/* --- writing --- */

typedef struct {
  DryJsonWriter *json;
  const DryNestList *list;
  const DryCutting *cutting;
  const DrySheetLayout *sheet;
  guint next; /* cut to be written next */
} Writer;

static void
write_rect (Writer *self, DryRect rect)
{
  dry_json_write_length (self->json, "x", rect.x0);
  dry_json_write_length (self->json, "y", rect.y0);
  dry_json_write_length (self->json, "width", dry_rect_width (rect));
  dry_json_write_length (self->json, "height", dry_rect_height (rect));
}

static gboolean
is_same (DryRect a, DryRect b)
{
  return a.x0 == b.x0 && a.y0 == b.y0 && a.x1 == b.x1 && a.y1 == b.y1;
}

static void
write_leaf (Writer *self, const char *key, DryRect rect)
{
  dry_json_begin_object_inline (self->json, key);
  write_rect (self, rect);
  for (guint i = 0; i < self->sheet->n_placements; i++)
    if (is_same (self->sheet->placements[i].rect, rect)) {
      guint piece = self->sheet->placements[i].piece;
      dry_json_write_string (self->json, "piece", self->cutting->pieces[piece].name);
      dry_json_write_integer (self->json, "number",
                              g_array_index (self->list->number, guint, piece));
      dry_json_end_object (self->json);
      return;
    }
  gboolean keep = FALSE;
  for (guint i = 0; i < self->sheet->n_offcuts && !keep; i++)
    keep = is_same (self->sheet->offcuts[i], rect);
  dry_json_write_boolean (self->json, "offcut", keep);
  dry_json_end_object (self->json);
}

static gboolean
is_cut (const Writer *self, DryRect rect, const DryCut **cut)
{
  if (self->next >= self->sheet->n_cuts || !is_same (self->sheet->cuts[self->next].of, rect))
    return FALSE;
  *cut = &self->sheet->cuts[self->next];
  return TRUE;
}

static void write_part (Writer *self, const char *key, DryRect rect);

/* The parts of a rectangle cut again and again the same way stand side by side in the answer; the
 * cuts come in the order made, so the tree is read off them in one go. */
static void
write_parts (Writer *self, DryRect rect, gboolean vertical)
{
  const DryCut *cut;

  while (is_cut (self, rect, &cut) && cut->vertical == vertical) {
    DryRect kept = rect;
    self->next++;
    if (vertical) {
      kept.x1 = cut->at;
      rect.x0 = cut->at + self->list->kerf;
    } else {
      kept.y1 = cut->at;
      rect.y0 = cut->at + self->list->kerf;
    }
    write_part (self, NULL, kept);
    if (rect.x0 >= rect.x1 || rect.y0 >= rect.y1)
      return; /* the blade took the rest */
  }
  write_part (self, NULL, rect);
}

static void
write_part (Writer *self, const char *key, DryRect rect)
{
  const DryCut *cut;

  if (!is_cut (self, rect, &cut)) {
    write_leaf (self, key, rect);
    return;
  }
  dry_json_begin_object (self->json, key);
  write_rect (self, rect);
  dry_json_write_string (self->json, "cuts", cut->vertical ? "vertical" : "horizontal");
  dry_json_begin_array (self->json, "parts");
  write_parts (self, rect, cut->vertical);
  dry_json_end_array (self->json);
  dry_json_end_object (self->json);
}

static void
write_placement (Writer *self, const DryPlacement *placement)
{
  dry_json_begin_object_inline (self->json, NULL);
  dry_json_write_string (self->json, "id", self->cutting->pieces[placement->piece].name);
  dry_json_write_integer (self->json, "number",
                          g_array_index (self->list->number, guint, placement->piece));
  write_rect (self, placement->rect);
  dry_json_write_boolean (self->json, "rotated", placement->turned);
  dry_json_end_object (self->json);
}

static void
write_sheet (Writer *self, const DrySheetLayout *sheet)
{
  const DryStock *stock = &self->cutting->stock[sheet->stock];
  DryRect whole = {0, 0, stock->width, stock->height};

  self->sheet = sheet;
  self->next = 0;
  dry_json_begin_object (self->json, NULL);
  dry_json_write_string (self->json, "sheet", stock->id);
  dry_json_write_length (self->json, "width", stock->width);
  dry_json_write_length (self->json, "height", stock->height);
  dry_json_begin_array (self->json, "pieces");
  for (guint i = 0; i < sheet->n_placements; i++)
    write_placement (self, &sheet->placements[i]);
  dry_json_end_array (self->json);
  write_part (self, "tree", whole);
  dry_json_begin_array (self->json, "offcuts");
  for (guint i = 0; i < sheet->n_offcuts; i++) {
    dry_json_begin_object_inline (self->json, NULL);
    write_rect (self, sheet->offcuts[i]);
    dry_json_end_object (self->json);
  }
  dry_json_end_array (self->json);
  dry_json_end_object (self->json);
}

static void
write_unplaced (Writer *self)
{
  dry_json_begin_array (self->json, "unplaced");
  for (guint i = 0; i < self->cutting->n_unplaced; i++) {
    guint piece = self->cutting->unplaced[i];
    dry_json_begin_object_inline (self->json, NULL);
    dry_json_write_string (self->json, "id", self->cutting->pieces[piece].name);
    dry_json_write_integer (self->json, "number", g_array_index (self->list->number, guint, piece));
    dry_json_end_object (self->json);
  }
  dry_json_end_array (self->json);
}

static char *
make_json (const DryNestList *list, const DryCutting *cutting, double spent, gsize *length)
{
  g_autoptr (DryJsonWriter) json = dry_json_writer_new ();
  Writer self = {.json = json, .list = list, .cutting = cutting};

  dry_json_begin_object (json, NULL);
  dry_json_begin_array (json, "sheets");
  for (guint i = 0; i < cutting->n_sheets; i++)
    write_sheet (&self, &cutting->sheets[i]);
  dry_json_end_array (json);
  dry_json_write_integer (json, "used", cutting->n_sheets);
  dry_json_write_integer (json, "bought", cutting->n_bought);
  if (cutting->cost >= 0)
    dry_json_write_integer (json, "cost", cutting->cost);
  else
    dry_json_write_string (json, "cost", NULL);
  dry_json_write_integer (json, "lower_bound", cutting->lower_bound);
  dry_json_write_boolean (json, "proven", cutting->proven);
  dry_json_write_number (json, "waste", cutting->waste);
  write_unplaced (&self);
  dry_json_write_number (json, "seconds", spent);
  dry_json_end_object (json);
  return dry_json_writer_finish (g_steal_pointer (&json), length);
}

/* --- running --- */

static gboolean
check_options (GError **error)
{
  if (!isfinite (seconds) || seconds < 0 || seconds > MAX_SECONDS) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED, "--seconds is from 0 to %d",
                 (int) MAX_SECONDS);
    return FALSE;
  }
  if (n_threads < 1 || n_threads > MAX_THREADS) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED, "--threads is from 1 to %d", MAX_THREADS);
    return FALSE;
  }
  return TRUE;
}

static DryJsonDocument *
load_document (const char *path, GError **error)
{
  g_autofree char *text = NULL, *name = g_filename_display_name (path);
  gsize length;
  GError *file_error = NULL;

  if (!g_file_get_contents (path, &text, &length, &file_error)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s", file_error->message);
    g_error_free (file_error);
    return NULL;
  }
  return dry_json_document_new (text, length, name, error);
}

static int
run (char **files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryJsonDocument) document = NULL;
  g_auto (DryNestList) list = {0};

  if (!check_options (&error) || !(document = load_document (files[0], &error)) ||
      !dry_nest_list_read (&list, document, &error))
    return dry_cli_fail (error);
  gint64 start = g_get_monotonic_time ();
  const DryCutting *cutting = dry_cutting_improve (
      arena, (const DryStock *) list.stock->data, list.stock->len,
      (const DryPiece *) list.pieces->data, list.pieces->len, list.kerf,
      (guint64) (seconds * (double) DRY_CUTTING_SECOND), (guint) n_threads, NULL);
  double spent = (double) (g_get_monotonic_time () - start) / G_USEC_PER_SEC;
  gsize length;
  g_autofree char *json = make_json (&list, cutting, spent, &length);
  int status = dry_cli_print (json, length);
  return status == DRY_EXIT_OK && cutting->n_unplaced > 0 ? DRY_EXIT_OPEN : status;
}

static const GOptionEntry ENTRIES[] = {
    {"seconds", 's', 0, G_OPTION_ARG_DOUBLE, &seconds,
     "Search about so long, unless the fewest are proven before (1)", "S"},
    {"threads", 't', 0, G_OPTION_ARG_INT, &n_threads, "Search on so many processors (1)", "N"},
    {NULL},
};

const DryCommand dry_command_nest = {
    .name = "nest",
    .arguments = "LIST.json",
    .summary = "Cut a list of rectangles from the fewest, then cheapest, sheets",
    .details =
        "The list, in millimeters:\n"
        "  {\"kerf\": 3.2, \"rotate\": true,\n"
        "   \"sheets\": [{\"id\": \"4x8\", \"width\": 1219.2, \"height\": 2438.4, \"count\": null, "
        "\"price\": 1900}],\n"
        "   \"pieces\": [{\"id\": \"back\", \"width\": 1500, \"height\": 900, \"count\": 2, "
        "\"rotate\": false}]}\n"
        "count null: any number. price: in the smallest coin, may be left out; a sheet of price 0 "
        "with a count is\n"
        "an offcut on hand, used first and not counted as bought. The same list, seconds and "
        "threads give the same\n"
        "answer on every machine: seconds stand for a fixed amount of work.\n\n"
        "Exit status: 0 all placed, 1 the sheets did not suffice, 2 error.",
    .entries = ENTRIES,
    .n_files = 1,
    .run = run,
};
