/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template of a niche at full size, tiled over as few pages as hold its rough opening: what to
 * cut, where it is level, the studs and joints round it. Knows the plan's lines, chooses none. */
#include <math.h>

#include "base/error.h"
#include "papers/frame.h"
#include "papers/full-size.h"

#define LEAST (DRY_MM)       /* round the opening ... */
#define MOST  (3 * DRY_INCH) /* ... and as far as the pages reach, but no farther */

typedef struct {
  const DryPapers *papers;
  const DryPlan *plan;
  const DryFace *face;
  const DryCutout *cut;
} Template;

static void
draw_joints (const Template *self, const DryFullCell *cell, DryRect area)
{
  const DryTileFace *tiled = dry_tiling_get_face (self->plan->tiling, self->face->index);

  for (guint i = 0; tiled && i < tiled->n_pieces; i++) {
    DryRect r = dry_rect_intersect (tiled->pieces[i].bounds, area);

    if (tiled->pieces[i].points == NULL && !dry_rect_is_empty (r))
      dry_cell_rect (cell, FALSE, DRY_INK_FAINT, DRY_PEN_013, r);
  }
  dry_cell_rect (cell, TRUE, DRY_INK_LINE, DRY_PEN_025, self->cut->finish);
}

static void
draw_studs (const Template *self, const DryFullCell *cell, DryRect area)
{
  for (guint i = 0; i < self->plan->framing->n; i++) {
    const DryMember *member = &self->plan->framing->items[i];
    DryRect r = dry_rect_intersect (member->rect, area);
    const double sides[] = {dry_length_to_mm (member->rect.x0), dry_length_to_mm (member->rect.x1)};

    if (member->face != self->face->index || dry_rect_is_empty (r) ||
        dry_rect_height (member->rect) < dry_rect_width (member->rect))
      continue;
    for (guint s = 0; s < 2; s++)
      if (sides[s] > dry_length_to_mm (area.x0) && sides[s] < dry_length_to_mm (area.x1))
        dry_cell_line (cell, DRY_INK_WOOD, DRY_PEN_035, sides[s], dry_length_to_mm (r.y0), sides[s],
                       dry_length_to_mm (r.y1));
  }
}

static void
draw_template (const Template *self, const DryFullCell *cell, DryRect area)
{
  const DryRect *rough = &self->cut->rough, *finish = &self->cut->finish;
  double middle = dry_length_to_mm (rough->x0 + rough->x1) / 2,
         level = dry_length_to_mm (finish->y0 + finish->y1) / 2;
  g_autofree char *w = dry_flow_length (self->papers, self->plan, dry_rect_width (*rough));
  g_autofree char *h = dry_flow_length (self->papers, self->plan, dry_rect_height (*rough));
  g_autofree char *up = dry_flow_length (self->papers, self->plan, (finish->y0 + finish->y1) / 2);
  g_autofree char *in = dry_flow_length (self->papers, self->plan, (rough->x0 + rough->x1) / 2);
  g_autofree char *opening = g_strdup_printf ("Cut here: rough opening %s × %s", w, h);
  g_autofree char *line = g_strdup_printf ("Level line, %s above the floor", up);
  g_autofree char *plumb = g_strdup_printf ("Plumb line, %s from the left corner", in);

  draw_joints (self, cell, area);
  draw_studs (self, cell, area);
  dry_cell_rect (cell, FALSE, DRY_INK_LINE, DRY_PEN_070, *rough);
  dry_cell_dashed (cell, DRY_INK_LINE, DRY_PEN_018, dry_length_to_mm (area.x0), level,
                   dry_length_to_mm (area.x1), level);
  dry_cell_dashed (cell, DRY_INK_LINE, DRY_PEN_018, middle, dry_length_to_mm (area.y0), middle,
                   dry_length_to_mm (area.y1));
  /* In each cell anew: pages are held up one by one. */
  {
    double u = MAX (dry_length_to_mm (rough->x0), cell->u) + 4,
           in_u = MAX (dry_length_to_mm (finish->x0), cell->u) + 4;

    dry_cell_write (cell, u, dry_length_to_mm (rough->y1) - 1.5, dry_type_strong, opening);
    dry_cell_write (cell, u, dry_length_to_mm (rough->y0) + 7, dry_type_strong, opening);
    dry_cell_write (cell, in_u, dry_length_to_mm (finish->y1) - 2, dry_type_small,
                    "Finished opening");
    dry_cell_write (cell, in_u, level - 1, dry_type_small, line);
    dry_cell_write (cell, middle + 2,
                    MIN (dry_length_to_mm (finish->y1), cell->z + cell->height) - 14,
                    dry_type_small, plumb);
  }
}

static char *
name_cell (guint column, guint row)
{
  return g_strdup_printf ("%c%u", 'A' + (int) (column % 26), row + 1);
}

static void
add_template_page (DryFlow *flow, const Template *self, DryRect area, const double *field,
                   const guint *grid, const guint *at)
{
  g_autofree char *name = name_cell (at[0], at[1]);
  g_autofree char *title = g_strdup_printf ("Template, part %s", name);
  double spare_u = grid[0] * field[0] - dry_length_to_mm (dry_rect_width (area));
  double spare_z = grid[1] * field[1] - dry_length_to_mm (dry_rect_height (area));
  DryFullCell cell = {.width = field[0], .height = field[1]};
  DryType large = {28, TRUE, DRY_INK_TEXT_FAINT, DRY_ALIGN_LEFT};

  dry_full_size_begin (flow, title);
  cell.page = flow->page;
  cell.x = flow->left + 4;
  cell.y = flow->bottom - DRY_FULL_SIZE_FOOT - 4 - field[1];
  cell.u = dry_length_to_mm (area.x0) - spare_u / 2 + at[0] * field[0];
  cell.z = dry_length_to_mm (area.y0) - spare_z / 2 + at[1] * field[1];
  dry_page_add_text (flow->page, cell.x + 3, cell.y + cell.height - 14, 0, large, name);
  draw_template (self, &cell, area);
  dry_cell_corners (&cell);
  dry_full_size_key (flow, grid[0], grid[1], at[0], at[1]);
}

/* As few pages as hold the opening; what they have to spare shows the wall round it. */
static DryRect
choose_area (DryRect rough, const double field[2], guint grid[2])
{
  DryLength sizes[] = {dry_rect_width (rough), dry_rect_height (rough)}, more[2];

  for (guint i = 0; i < 2; i++) {
    grid[i] = (guint) ceil (dry_length_to_mm (sizes[i] + 2 * LEAST) / field[i]);
    more[i] = (DryLength) (grid[i] * field[i] * (double) DRY_MM) - sizes[i];
    more[i] = CLAMP (more[i] / 2, LEAST, MOST);
  }
  return (DryRect){rough.x0 - more[0], rough.y0 - more[1], rough.x1 + more[0], rough.y1 + more[1]};
}

DryPapers *
dry_papers_new_template (const DryPlan *plan, DryId part, const DryPaperOptions *options,
                         GError **error)
{
  Template self = {.plan = plan};
  DryPapers *papers;
  DryRect area;
  double field[2];
  guint grid[2];
  DryFlow flow;

  for (guint i = 0; i < plan->faces->n && !self.cut; i++)
    for (guint c = 0; c < plan->faces->items[i].n_cutouts && !self.cut; c++)
      if (plan->faces->items[i].cutouts[c].object == part &&
          plan->faces->items[i].cutouts[c].kind == DRY_CUT_NICHE) {
        self.face = &plan->faces->items[i];
        self.cut = &self.face->cutouts[c];
      }
  if (!self.cut) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE,
                 "Part %u is no niche in a boarded wall: only these have a template", part);
    return NULL;
  }
  papers = dry_papers_new_empty (&plan, 1, options);
  self.papers = papers;
  dry_full_size_field (papers, &field[0], &field[1]);
  area = choose_area (self.cut->rough, field, grid);
  dry_flow_init (&flow, papers, plan);
  for (guint r = grid[1]; r-- > 0;)
    for (guint c = 0; c < grid[0]; c++)
      add_template_page (&flow, &self, area, field, grid, (guint[]){c, r});
  dry_flow_clear (&flow);
  dry_frame_close (papers);
  return papers;
}
