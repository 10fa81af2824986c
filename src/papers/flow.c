/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The flow of text and tables over pages.
 * A row that does not fit goes to the next page whole, under the headings again. */
#include "papers/flow.h"

#include "papers/frame.h"

#define CELL_PAD 1.8
#define ROW_PAD  0.9

void
dry_flow_init (DryFlow *self, DryPapers *papers, const DryPlan *plan)
{
  *self = (DryFlow){.papers = papers, .plan = plan};
  dry_frame_field (papers, &self->left, &self->top, &self->width, &self->bottom);
  self->bottom += self->top;
}

void
dry_flow_clear (DryFlow *self)
{
  g_free (self->title);
}

static void
open_page (DryFlow *self, const char *title)
{
  g_autofree char *whole = self->set ? g_strdup_printf ("%s: %s", self->set, title) : NULL;

  self->page = dry_page_new (self->plan, whole ? whole : title);
  self->page->hidden = self->hidden;
  g_ptr_array_add (self->papers->pages, self->page);
  self->y = self->top;
}

void
dry_flow_begin (DryFlow *self, const char *title)
{
  g_free (self->title);
  self->title = g_strdup (title);
  open_page (self, title);
  dry_flow_text (self, (DryType){15, TRUE, DRY_INK_TEXT, DRY_ALIGN_LEFT}, 0, title);
  self->y += 2;
}

gboolean
dry_flow_need (DryFlow *self, double height)
{
  if (self->y + height <= self->bottom || self->y <= self->top + 0.01)
    return FALSE;
  open_page (self, self->title);
  return TRUE;
}

double
dry_flow_left_over (const DryFlow *self)
{
  return self->bottom - self->y;
}

void
dry_flow_skip (DryFlow *self, double height)
{
  self->y += height;
}

void
dry_flow_text (DryFlow *self, DryType type, double indent, const char *text)
{
  double width = self->width - indent;
  double height = dry_page_measure (type, text, width);

  dry_flow_need (self, height);
  dry_page_add_text (self->page, self->left + indent, self->y, width, type, text);
  self->y += height + 0.6;
}

void
dry_flow_heading (DryFlow *self, const char *text, double keep)
{
  double height = dry_page_measure (dry_type_heading, text, self->width);

  if (!dry_flow_need (self, 4 + height + keep))
    self->y += 4;
  dry_flow_text (self, dry_type_heading, 0, text);
  dry_page_add_line (self->page, DRY_INK_FAINT, DRY_PEN_018, self->left, self->y, self->width, 0);
  self->y += 1.4;
}

static void
set_cells (DryFlow *self, const DryTable *table, const char *const *cells, DryType type)
{
  double x = self->left;

  for (guint i = 0; i < table->n; i++) {
    double width = table->columns[i].share * self->width;
    type.align = table->columns[i].align;
    if (cells[i] && *cells[i])
      dry_page_add_text (self->page, x + CELL_PAD, self->y + ROW_PAD, width - 2 * CELL_PAD, type,
                         cells[i]);
    x += width;
  }
}

static double
measure_cells (const DryFlow *self, const DryTable *table, const char *const *cells, DryType type)
{
  double height = 0;

  for (guint i = 0; i < table->n; i++) {
    double width = table->columns[i].share * self->width - 2 * CELL_PAD;
    if (cells[i] && *cells[i])
      height = MAX (height, dry_page_measure (type, cells[i], width));
  }
  return height + 2 * ROW_PAD;
}

void
dry_flow_table_head (DryFlow *self, const DryTable *table)
{
  DryType type = {8, TRUE, DRY_INK_TEXT, DRY_ALIGN_LEFT};
  const char *cells[12] = {NULL};
  double height;

  for (guint i = 0; i < table->n && i < G_N_ELEMENTS (cells); i++)
    cells[i] = table->columns[i].heading;
  height = measure_cells (self, table, cells, type);
  /* Never headings without a row. */
  dry_flow_need (self, height + 6);
  dry_page_add_fill (self->page, DRY_INK_BASIN, 0.10, self->left, self->y, self->width, height);
  set_cells (self, table, cells, type);
  self->y += height;
  dry_page_add_line (self->page, DRY_INK_LINE, DRY_PEN_025, self->left, self->y, self->width, 0);
}

void
dry_flow_table_row (DryFlow *self, const DryTable *table, const char *const *cells, gboolean strong,
                    const char *foot, guint under)
{
  DryType type = strong ? dry_type_strong : dry_type_body;
  double height = measure_cells (self, table, cells, type), indent = 0, foot_height = 0;

  for (guint i = 0; i < under && i < table->n; i++)
    indent += table->columns[i].share * self->width;
  if (foot && *foot)
    foot_height = dry_page_measure (dry_type_fine, foot, self->width - indent - 2 * CELL_PAD) + 0.8;
  if (dry_flow_need (self, height + foot_height))
    dry_flow_table_head (self, table);
  set_cells (self, table, cells, type);
  self->y += height;
  if (foot_height > 0) {
    dry_page_add_text (self->page, self->left + indent + CELL_PAD, self->y - ROW_PAD + 0.2,
                       self->width - indent - 2 * CELL_PAD, dry_type_fine, foot);
    self->y += foot_height;
  }
  dry_page_add_line (self->page, DRY_INK_FAINT, DRY_PEN_013, self->left, self->y, self->width, 0);
}

void
dry_flow_table_group (DryFlow *self, const DryTable *table, const char *text)
{
  DryType type = {8.5, TRUE, DRY_INK_BASIN, DRY_ALIGN_LEFT};
  double height = dry_page_measure (type, text, self->width);

  if (dry_flow_need (self, height + 14))
    dry_flow_table_head (self, table);
  self->y += 1.6;
  dry_page_add_text (self->page, self->left + CELL_PAD, self->y, self->width, type, text);
  self->y += height + 0.6;
  dry_page_add_line (self->page, DRY_INK_FAINT, DRY_PEN_013, self->left, self->y, self->width, 0);
}

void
dry_flow_table_end (DryFlow *self)
{
  self->y += 2;
}

char *
dry_flow_number (const DryPapers *papers, double value, int decimals)
{
  char format[8] = "%.0f", text[G_ASCII_DTOSTR_BUF_SIZE];
  char *point;

  format[2] = (char) ('0' + CLAMP (decimals, 0, 6));
  g_ascii_formatd (text, sizeof text, format, value);
  point = strchr (text, '.');
  if (point) {
    char *last = text + strlen (text) - 1;
    while (*last == '0')
      *last-- = '\0';
    if (last == point)
      *last = '\0';
    else if (papers->decimal == ',')
      *point = ',';
  }
  return g_strdup (text);
}

char *
dry_flow_length (const DryPapers *papers, const DryPlan *plan, DryLength length)
{
  const DryJob *job = plan->context.job;

  g_autofree char *text = dry_length_format (
      length, &(DryLengthFormat){.style = job->metric ? DRY_LENGTH_MM : DRY_LENGTH_INCHES,
                                 .denominator = job->denominator > 0 ? job->denominator : 16,
                                 .decimal = papers->decimal == ',' ? ',' : '.'});
  char *slash = strchr (text, '/'), *space = slash ? strchr (text, ' ') : NULL;

  /* As on the drawings: in small letters 31 7/8 must not read as 317/8. */
  if (!space || space > slash)
    return g_steal_pointer (&text);
  *space = '\0';
  return g_strconcat (text, "\u2004", space + 1, NULL);
}

const char *
dry_flow_room_name (const DryPlan *plan)
{
  const char *name = plan->context.room->name;

  return *name ? name : "Room";
}
