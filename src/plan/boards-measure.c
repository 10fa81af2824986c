/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures a layout of seams: which pieces it gives, how long its seams are, which rules it breaks.
 * Quick, on slabs only; the exact shapes are cut once the choice is made. */
#define G_LOG_DOMAIN "plan"

#include "plan/boards-private.h"

#define FAULT_SLIVER   20
#define FAULT_FOUR     30
#define FAULT_TOO_WIDE 1000
#define FAULT_REFUSED  100000 /* a wish not obeyed */

static void
cut_interval (const DryCutSet *cuts, guint index, DryLength gap_low, DryLength gap_high,
              DryLength *low, DryLength *high)
{
  if (index > 0)
    *low = cuts->at[index - 1] + gap_high;
  if (index < cuts->n)
    *high = cuts->at[index] - gap_low;
}

void
dry_board_strip_span (const DryLayout *layout, guint strip, DryLength *low, DryLength *high)
{
  *low = strip > 0 ? layout->across.at[strip - 1] : -DRY_LENGTH_MAX;
  *high = strip < layout->across.n ? layout->across.at[strip] : DRY_LENGTH_MAX;
}

DryRect
dry_board_strip (const DryBoardFace *self, const DryLayout *layout, guint strip)
{
  DryRect rect = self->bounds;
  if (layout->rows)
    cut_interval (&layout->across, strip, self->gap_low, self->gap_high, &rect.y0, &rect.y1);
  else
    cut_interval (&layout->across, strip, self->gap_low, self->gap_high, &rect.x0, &rect.x1);
  return rect;
}

DryRect
dry_board_cell (const DryBoardFace *self, const DryLayout *layout, guint strip, guint cell)
{
  DryRect rect = dry_board_strip (self, layout, strip);
  const DryCutSet *cuts = &layout->strips[strip];
  if (layout->rows)
    cut_interval (cuts, cell, self->gap_low, self->gap_high, &rect.x0, &rect.x1);
  else
    cut_interval (cuts, cell, self->gap_low, self->gap_high, &rect.y0, &rect.y1);
  return rect;
}

static void
add_seams (const DryBoardFace *self, gboolean vertical, DryLength at, DryRect within, guint strip,
           gboolean across, GArray *stretches, GArray *out)
{
  g_array_set_size (stretches, 0);
  dry_board_list_stretches (self, vertical, at, vertical ? within.y0 : within.x0,
                            vertical ? within.y1 : within.x1, stretches);
  for (guint i = 0; i + 1 < stretches->len; i += 2) {
    DryRawSeam seam = {vertical,
                       at,
                       g_array_index (stretches, DryLength, i),
                       g_array_index (stretches, DryLength, i + 1),
                       strip,
                       across};
    g_array_append_val (out, seam);
  }
}

void
dry_board_list_seams (const DryBoardFace *self, const DryLayout *layout, GArray *out)
{
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (DryLength));
  for (guint i = 0; i < layout->across.n; i++)
    add_seams (self, !layout->rows, layout->across.at[i], self->bounds, i, TRUE, stretches, out);
  for (guint s = 0; s <= layout->across.n; s++) {
    DryRect strip = dry_board_strip (self, layout, s);
    if (dry_rect_is_empty (strip))
      continue;
    for (guint i = 0; i < layout->strips[s].n; i++)
      add_seams (self, layout->rows, layout->strips[s].at[i], strip, s, FALSE, stretches, out);
  }
}

/* Seams that meet an across seam from both sides must be apart: no four corners in one point. */
static guint
judge_crossings (const DryBoardFace *self, const DryLayout *layout, GArray *seams)
{
  guint faults = 0;
  for (guint i = 0; i < seams->len; i++) {
    const DryRawSeam *below = &g_array_index (seams, DryRawSeam, i);
    if (below->across || below->strip >= layout->across.n)
      continue;
    DryRect strip = dry_board_strip (self, layout, below->strip);
    DryRect next = dry_board_strip (self, layout, below->strip + 1);
    if (below->high != (layout->rows ? strip.y1 : strip.x1))
      continue;
    for (guint j = 0; j < seams->len; j++) {
      const DryRawSeam *above = &g_array_index (seams, DryRawSeam, j);
      if (above->across || above->strip != below->strip + 1 ||
          above->low != (layout->rows ? next.y0 : next.x0))
        continue;
      if (ABS (above->at - below->at) < self->stagger)
        faults += FAULT_FOUR;
    }
  }
  return faults;
}

static guint
judge_gaps (const DryBoardFace *self, const DryLayout *layout)
{
  guint faults = 0;
  DryRect all = self->bounds;
  for (guint i = 0; i < layout->across.n; i++)
    faults += dry_board_judge_gap (self, !layout->rows, layout->across.at[i],
                                   layout->rows ? all.x0 : all.y0, layout->rows ? all.x1 : all.y1);
  for (guint s = 0; s <= layout->across.n; s++) {
    DryRect strip = dry_board_strip (self, layout, s);
    for (guint i = 0; i < layout->strips[s].n; i++)
      faults += dry_board_judge_gap (self, layout->rows, layout->strips[s].at[i],
                                     layout->rows ? strip.y0 : strip.x0,
                                     layout->rows ? strip.y1 : strip.x1);
  }
  return faults;
}

static gboolean
fits_stock (const DryBoardFace *self, DryLength width, DryLength height)
{
  for (guint i = 0; i < self->n_stock; i++) {
    const DryStock *stock = &self->stock[i];
    if (stock->on_hand)
      continue;
    if ((width <= stock->width && height <= stock->height) ||
        (self->may_turn && height <= stock->width && width <= stock->height))
      return TRUE;
  }
  return FALSE;
}

/* A narrow piece is a fault only when a seam made it so, not when the wall is that narrow. */
static guint
judge_piece (const DryBoardFace *self, const DryRect *part, const DryRect *cell)
{
  guint faults = 0;
  gboolean seam_beside = (part->x0 == cell->x0 && cell->x0 > self->bounds.x0) ||
                         (part->x1 == cell->x1 && cell->x1 < self->bounds.x1);
  gboolean seam_above = (part->y0 == cell->y0 && cell->y0 > self->bounds.y0) ||
                        (part->y1 == cell->y1 && cell->y1 < self->bounds.y1);
  if (dry_rect_width (*part) < self->min_piece && seam_beside)
    faults += FAULT_SLIVER;
  if (dry_rect_height (*part) < self->min_piece && seam_above)
    faults += FAULT_SLIVER;
  if (!fits_stock (self, dry_rect_width (*part), dry_rect_height (*part)))
    faults += FAULT_TOO_WIDE;
  return faults;
}

void
dry_board_measure (const DryBoardFace *self, DryLayout *layout)
{
  g_autoptr (GArray) seams = g_array_new (FALSE, FALSE, sizeof (DryRawSeam));
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (DryRect));
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (DryPiece));
  layout->faults = 0;
  layout->effort = 0;
  dry_board_list_seams (self, layout, seams);
  for (guint i = 0; i < seams->len; i++) {
    const DryRawSeam *seam = &g_array_index (seams, DryRawSeam, i);
    layout->faults += dry_board_judge_seam (self, seam->vertical, seam->at, seam->low, seam->high,
                                            &layout->effort);
  }
  layout->faults += judge_crossings (self, layout, seams) + judge_gaps (self, layout);
  if (self->n_wishes > 0)
    layout->faults += FAULT_REFUSED * dry_board_count_refused (self, seams);
  for (guint s = 0; s <= layout->across.n; s++)
    for (guint c = 0; c <= layout->strips[s].n; c++) {
      DryRect cell = dry_board_cell (self, layout, s, c);
      g_array_set_size (parts, 0);
      if (!dry_rect_is_empty (cell))
        dry_board_list_parts (self, cell, parts);
      for (guint i = 0; i < parts->len; i++) {
        const DryRect *part = &g_array_index (parts, DryRect, i);
        DryPiece piece = {NULL, dry_rect_width (*part), dry_rect_height (*part), self->may_turn};
        layout->faults += judge_piece (self, part, &cell);
        g_array_append_val (pieces, piece);
      }
    }
  layout->n_pieces = pieces->len;
  layout->pieces = dry_arena_take_array (self->scratch, pieces);
}
