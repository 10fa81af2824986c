/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The story pole at full size: strips to be cut out and joined, with every level joint of the walls
 * and the heights of what hangs there; and their list. Knows the plan's heights, chooses none. */
#include <math.h>

#include "base/error.h"
#include "papers/frame.h"
#include "papers/full-size.h"

#define STRIP 58.0 /* with the room to cut */

typedef struct {
  DryLength at;
  char *text; /* owned */
} Note;

static void
clear_note (gpointer data)
{
  g_free (((Note *) data)->text);
}

static void
add_note (GArray *notes, DryLength at, char *text)
{
  Note note = {at, text};

  g_array_append_val (notes, note);
}

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength x = *(const DryLength *) a, y = *(const DryLength *) b;

  return (x > y) - (x < y);
}

static gint
compare_notes (gconstpointer a, gconstpointer b)
{
  DryLength x = ((const Note *) a)->at, y = ((const Note *) b)->at;

  return (x > y) - (x < y);
}

/* No more letters than the strip has room for beside a height. */
static char *
cut_short (const char *text)
{
  g_autofree char *head = NULL;

  if (g_utf8_strlen (text, -1) <= 13)
    return g_strdup (text);
  head = g_utf8_substring (text, 0, 12);
  g_strdelimit (head, "\n\r\t\v\f", ' ');
  return g_strconcat (head, "…", NULL);
}

/* Heights the setter looks for besides the courses. */
static GArray *
list_notes (const DryPlan *plan)
{
  const DryRoom *room = plan->context.room;
  GArray *notes = g_array_new (FALSE, FALSE, sizeof (Note));
  DryLength deck = 0, top = 0;

  g_array_set_clear_func (notes, clear_note);
  for (guint i = 0; i < plan->faces->n; i++)
    if (plan->faces->items[i].kind == DRY_FACE_WALL) {
      deck = plan->faces->items[i].at_basin ? MAX (deck, plan->faces->items[i].deck) : deck;
      top = MAX (top, plan->faces->items[i].wet_top);
    }
  if (deck > 0)
    add_note (notes, deck,
              g_strdup (room->basin.kind == DRY_BASIN_TUB ? "tub rim" : "curb or pan edge"));
  if (top > 0)
    add_note (notes, top, g_strdup ("top of the wet wall"));
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    g_autofree char *own = dry_room_dup_part_name (room, part);
    g_autofree char *name = cut_short (own);
    DryRect r = dry_part_rect (part);

    if (dry_part_kind_is_hidden (part->kind) || part->kind == DRY_PART_GLASS)
      continue;
    if (part->kind == DRY_PART_NICHE) {
      add_note (notes, r.y0, g_strdup_printf ("%s, bottom", name));
      add_note (notes, r.y1, g_strdup_printf ("%s, top", name));
    } else
      add_note (notes, part->z, g_strdup (name));
  }
  g_array_sort (notes, compare_notes);
  return notes;
}

/* The level joints of all walls; courses meet round the room, so they are one set. */
static GArray *
list_courses (const DryPlan *plan)
{
  GArray *at = g_array_new (FALSE, FALSE, sizeof (DryLength));

  for (guint f = 0; f < plan->tiling->n_faces; f++) {
    const DryTileFace *tiled = &plan->tiling->faces[f];

    if (plan->faces->items[tiled->face].kind != DRY_FACE_WALL)
      continue;
    for (guint i = 0; i < tiled->n_level; i++) {
      gboolean known = FALSE;

      for (guint k = 0; k < at->len && !known; k++)
        known = g_array_index (at, DryLength, k) == tiled->level[i];
      if (!known)
        g_array_append_val (at, tiled->level[i]);
    }
  }
  g_array_sort (at, compare_lengths);
  return at;
}

static void
draw_ruler (const DryFullCell *cell, gboolean metric)
{
  double step = metric ? 10 : 25.4;
  guint large = metric ? 10 : 6;

  for (gint i = MAX ((gint) ceil (cell->z / step), 0); i * step <= cell->z + cell->height; i++) {
    gboolean long_one = i % (gint) large == 0;
    g_autofree char *text = g_strdup_printf ("%d", metric ? i * 10 : i);

    dry_cell_line (cell, DRY_INK_FAINT, DRY_PEN_018, cell->u, i * step,
                   cell->u + (long_one ? 5 : 2.5), i * step);
    if (long_one && i > 0)
      dry_cell_write (cell, cell->u + 0.8, i * step - 0.4, dry_type_fine, text);
  }
}

/* Letters beside a line that is in the cell, held within it. */
static void
write_beside (const DryFullCell *cell, double u, double z, DryType type, const char *text)
{
  double height = dry_page_measure (type, text, 0);

  dry_cell_write (cell, u, CLAMP (z, cell->z + height, cell->z + cell->height), type, text);
}

static gboolean
is_in (const DryFullCell *cell, double z)
{
  return z >= cell->z && z <= cell->z + cell->height;
}

static void
draw_courses (const DryFlow *flow, const DryFullCell *cell, const GArray *courses)
{
  double joint = dry_length_to_mm (flow->plan->tiling->joint) / 2;

  for (guint i = 0; i < courses->len; i++) {
    DryLength at = g_array_index (courses, DryLength, i);
    double z = dry_length_to_mm (at);
    g_autofree char *height = dry_flow_length (flow->papers, flow->plan, at);

    for (gint side = -1; side <= 1; side += 2)
      dry_cell_line (cell, DRY_INK_TILE, DRY_PEN_035, cell->u + 6, z + side * joint,
                     cell->u + cell->width, z + side * joint);
    if (is_in (cell, z))
      write_beside (cell, cell->u + 8, z - joint - 0.6, dry_type_small, height);
  }
}

/* TRUE with a joint so near above the line that letters over it would stand on the joint. */
static gboolean
has_joint_above (const GArray *courses, double z)
{
  for (guint i = 0; i < courses->len; i++) {
    double off = dry_length_to_mm (g_array_index (courses, DryLength, i)) - z;

    if (off > -3 && off < 7)
      return TRUE;
  }
  return FALSE;
}

static void
draw_notes (const DryFlow *flow, const DryFullCell *cell, const GArray *courses,
            const GArray *notes)
{
  double low = -G_MAXDOUBLE;

  for (guint i = 0; i < notes->len; i++) {
    const Note *note = &g_array_index (notes, Note, i);
    double z = dry_length_to_mm (note->at), write = has_joint_above (courses, z) ? z - 3.4 : z + 4;
    g_autofree char *height = dry_flow_length (flow->papers, flow->plan, note->at);
    g_autofree char *text = g_strdup_printf ("%s %s", note->text, height);

    dry_cell_line (cell, DRY_INK_LINE, DRY_PEN_070, cell->u + cell->width - 30, z,
                   cell->u + cell->width, z);
    write = MAX (write, low + 4);
    low = write;
    if (is_in (cell, z))
      write_beside (cell,
                    cell->u + MIN (cell->width - 30,
                                   cell->width - 1 - dry_page_measure_width (dry_type_fine, text)),
                    write, dry_type_fine, text);
  }
}

/* Somewhere near the middle where no line runs. */
static double
find_free (const DryFullCell *cell, const GArray *courses, const GArray *notes)
{
  for (guint step = 0; step < 40; step++) {
    double z = cell->z + cell->height / 2 + (step % 2 ? 5.0 : -5.0) * ((step + 1) / 2);
    gboolean is_free = TRUE;

    for (guint i = 0; i < courses->len; i++)
      is_free &= fabs (dry_length_to_mm (g_array_index (courses, DryLength, i)) - z) > 9;
    for (guint i = 0; i < notes->len; i++)
      is_free &= fabs (dry_length_to_mm (g_array_index (notes, Note, i).at) - z) > 12;
    if (is_free)
      return z;
  }
  return cell->z + cell->height / 2;
}

static void
add_strip (DryFlow *flow, double x, double height, guint index, guint n, const GArray *courses,
           const GArray *notes)
{
  DryFullCell cell = {
      flow->page, x, flow->bottom - DRY_FULL_SIZE_FOOT - 4 - height, STRIP - 6, height, 0, 0};
  g_autofree char *name = g_strdup_printf ("%u of %u", index + 1, n);

  cell.z = index * height;
  dry_page_add_line (cell.page, DRY_INK_LINE, DRY_PEN_025, cell.x, cell.y, 0, height);
  dry_page_add_line (cell.page, DRY_INK_LINE, DRY_PEN_025, cell.x + cell.width, cell.y, 0, height);
  dry_page_add_line (cell.page, DRY_INK_LINE, DRY_PEN_018, cell.x - 3, cell.y, cell.width + 6, 0);
  dry_page_add_line (cell.page, DRY_INK_LINE, DRY_PEN_018, cell.x - 3, cell.y + height,
                     cell.width + 6, 0);
  draw_ruler (&cell, flow->plan->context.job->metric);
  draw_courses (flow, &cell, courses);
  draw_notes (flow, &cell, courses, notes);
  dry_cell_write (&cell, cell.u + cell.width - 16, find_free (&cell, courses, notes) + 2,
                  dry_type_strong, name);
}

static void
add_course_list (DryFlow *flow, const GArray *courses)
{
  static const DryColumn columns[] = {{"Joint", 0.2, DRY_ALIGN_RIGHT},
                                      {"Middle, above the floor", 0.3, DRY_ALIGN_RIGHT},
                                      {"To the one below", 0.3, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};

  dry_flow_begin (flow, "Heights of the courses");
  dry_flow_text (flow, dry_type_body, 0,
                 "Joints of the walls from the bottom up. Cut the strips of the pages before along "
                 "their upright lines, join them in order and glue them to a straight lath; its "
                 "foot stands on the finished floor.");
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < courses->len; i++) {
    DryLength at = g_array_index (courses, DryLength, i);
    g_autofree char *number = g_strdup_printf ("%u", i + 1);
    g_autofree char *height = dry_flow_length (flow->papers, flow->plan, at);
    g_autofree char *off = i > 0 ? dry_flow_length (flow->papers, flow->plan,
                                                    at - g_array_index (courses, DryLength, i - 1))
                                 : g_strdup ("–");
    const char *cells[] = {number, height, off};

    dry_flow_table_row (flow, &table, cells, FALSE, NULL, 0);
  }
  dry_flow_table_end (flow);
}

DryPapers *
dry_papers_new_story_pole (const DryPlan *plan, const DryPaperOptions *options, GError **error)
{
  g_autoptr (GArray) courses = list_courses (plan);
  g_autoptr (GArray) notes = NULL;
  DryPapers *papers;
  double field[2], top;
  guint across, n;
  DryFlow flow;

  if (courses->len == 0) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
                 "The walls of “%s” have no tile in level courses: nothing to put on a story pole",
                 dry_flow_room_name (plan));
    return NULL;
  }
  papers = dry_papers_new_empty (&plan, 1, options);
  notes = list_notes (plan);
  dry_full_size_field (papers, &field[0], &field[1]);
  top = dry_length_to_mm (g_array_index (courses, DryLength, courses->len - 1));
  if (notes->len > 0)
    top = MAX (top, dry_length_to_mm (g_array_index (notes, Note, notes->len - 1).at));
  n = (guint) ceil ((top + 12) / field[1]);
  across = MAX ((guint) ((field[0] + 6) / STRIP), 1);
  dry_flow_init (&flow, papers, plan);
  for (guint i = 0; i < n; i++) {
    if (i % across == 0)
      dry_full_size_begin (&flow, "Story pole");
    add_strip (&flow, flow.left + 4 + i % across * STRIP, field[1], i, n, courses, notes);
  }
  add_course_list (&flow, courses);
  dry_flow_clear (&flow);
  dry_frame_close (papers);
  return papers;
}
