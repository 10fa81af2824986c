/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws the world at its own size into a page's field, and what every page at full size has. Cuts
 * lines to the field; knows nothing of what they are. */
#include "papers/full-size.h"

#include <math.h>

#include "papers/frame.h"

#define DASH_ON 5.0
#define DASH    8.0

/* --- a cell of the field, in which the world is drawn at its own size --- */

/* Cuts a level or upright line to the cell; FALSE when nothing is left. */
static gboolean
clip (const DryFullCell *cell, double *u0, double *z0, double *u1, double *z1)
{
  double right = cell->u + cell->width, top = cell->z + cell->height;

  if (MAX (*u0, *u1) < cell->u || MIN (*u0, *u1) > right || MAX (*z0, *z1) < cell->z ||
      MIN (*z0, *z1) > top)
    return FALSE;
  *u0 = CLAMP (*u0, cell->u, right);
  *u1 = CLAMP (*u1, cell->u, right);
  *z0 = CLAMP (*z0, cell->z, top);
  *z1 = CLAMP (*z1, cell->z, top);
  return TRUE;
}

void
dry_cell_line (const DryFullCell *cell, DryInk ink, DryPen pen, double u0, double z0, double u1,
               double z1)
{
  if (clip (cell, &u0, &z0, &u1, &z1))
    dry_page_add_line (cell->page, ink, pen, cell->x + u0 - cell->u,
                       cell->y + cell->height - (z0 - cell->z), u1 - u0, z0 - z1);
}

void
dry_cell_dashed (const DryFullCell *cell, DryInk ink, DryPen pen, double u0, double z0, double u1,
                 double z1)
{
  gboolean level = z0 == z1;
  double from = level ? u0 : z0, to = level ? u1 : z1;

  for (gint64 i = (gint64) floor (from / DASH); (double) i * DASH < to; i++) {
    double at = (double) i * DASH, a = MAX (at, from), b = MIN (at + DASH_ON, to);

    if (b > a && level)
      dry_cell_line (cell, ink, pen, a, z0, b, z1);
    else if (b > a)
      dry_cell_line (cell, ink, pen, u0, a, u1, b);
  }
}

void
dry_cell_rect (const DryFullCell *cell, gboolean dashed, DryInk ink, DryPen pen, DryRect rect)
{
  double u0 = dry_length_to_mm (rect.x0), z0 = dry_length_to_mm (rect.y0),
         u1 = dry_length_to_mm (rect.x1), z1 = dry_length_to_mm (rect.y1);
  void (*draw) (const DryFullCell *, DryInk, DryPen, double, double, double, double) =
      dashed ? dry_cell_dashed : dry_cell_line;

  draw (cell, ink, pen, u0, z0, u1, z0);
  draw (cell, ink, pen, u0, z1, u1, z1);
  draw (cell, ink, pen, u0, z0, u0, z1);
  draw (cell, ink, pen, u1, z0, u1, z1);
}

void
dry_cell_write (const DryFullCell *cell, double u, double z, DryType type, const char *text)
{
  double width = dry_page_measure_width (type, text), height = dry_page_measure (type, text, 0);

  if (u >= cell->u && u + width <= cell->u + cell->width && z - height >= cell->z &&
      z <= cell->z + cell->height)
    dry_page_add_text (cell->page, cell->x + u - cell->u, cell->y + cell->height - (z - cell->z), 0,
                       type, text);
}

/* --- what every page has --- */

/* 100 mm and 4 in, to be measured before anything is cut. */
static void
add_check (DryFlow *flow)
{
  static const struct {
    double length;
    const char *text;
  } lines[] = {{100, "100 mm"}, {101.6, "4 in"}};
  DryPage *page = flow->page;

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++) {
    double y = flow->bottom - DRY_FULL_SIZE_FOOT + 5 + 7 * i;

    dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_035, flow->left, y, lines[i].length, 0);
    dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_025, flow->left, y - 2, 0, 4);
    dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_025, flow->left + lines[i].length, y - 2, 0, 4);
    dry_page_add_text (page, flow->left + lines[i].length + 2, y - 2, 0, dry_type_fine,
                       lines[i].text);
  }
  dry_page_add_text (
      page, flow->left + 118, flow->bottom - DRY_FULL_SIZE_FOOT + 3, flow->width - 118 - 24,
      dry_type_fine,
      "Print at 100 %, never fitted to the page. Measure both lines before cutting.");
}

void
dry_cell_corners (const DryFullCell *cell)
{
  for (guint i = 0; i < 4; i++) {
    double x = cell->x + (i % 2 ? cell->width : 0), y = cell->y + (i / 2 ? cell->height : 0);

    dry_page_add_line (cell->page, DRY_INK_LINE, DRY_PEN_018, x - 3, y, 6, 0);
    dry_page_add_line (cell->page, DRY_INK_LINE, DRY_PEN_018, x, y - 3, 0, 6);
  }
}

void
dry_full_size_key (DryFlow *flow, guint columns, guint rows, guint column, guint row)
{
  double side = MIN (18.0 / columns, 13.0 / rows), x = flow->left + flow->width - side * columns;
  double y = flow->bottom - DRY_FULL_SIZE_FOOT + 2;

  for (guint c = 0; c < columns; c++)
    for (guint r = 0; r < rows; r++) {
      double cy = y + side * (rows - 1 - r);

      if (c == column && r == row)
        dry_page_add_fill (flow->page, DRY_INK_LINE, 0.5, x + side * c, cy, side, side);
      dry_page_add_line (flow->page, DRY_INK_LINE, DRY_PEN_018, x + side * c, cy, side, 0);
      dry_page_add_line (flow->page, DRY_INK_LINE, DRY_PEN_018, x + side * c, cy, 0, side);
      dry_page_add_line (flow->page, DRY_INK_LINE, DRY_PEN_018, x + side * c, cy + side, side, 0);
      dry_page_add_line (flow->page, DRY_INK_LINE, DRY_PEN_018, x + side * (c + 1), cy, 0, side);
    }
}

void
dry_full_size_begin (DryFlow *flow, const char *title)
{
  dry_flow_begin (flow, title);
  g_free (flow->page->scale);
  flow->page->scale = g_strdup ("Full size, 1:1");
  add_check (flow);
}

void
dry_full_size_field (const DryPapers *papers, double *width, double *height)
{
  double left, top, field;

  dry_frame_field (papers, &left, &top, width, &field);
  *width -= 8;
  *height = field - DRY_FULL_SIZE_FOOT - 14;
}
