/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws the frame and the title block in the foot of each page.
 * The last row says what these papers are and are not. */
#include "papers/frame.h"

#include <string.h>

#define MARGIN       10.0
#define BLOCK        15.0
#define NOTE         5.0
#define INSET        5.0
#define MOST_LETTERS 200

static const char note[] = "Quantities and reminders, not permission: local code and the maker's "
                           "instructions decide.";

void
dry_frame_field (const DryPapers *papers, double *left, double *top, double *width, double *height)
{
  *left = MARGIN + INSET;
  *top = MARGIN + INSET;
  *width = papers->width - 2 * (MARGIN + INSET);
  *height = papers->height - 2 * MARGIN - 2 * INSET - BLOCK - NOTE;
}

/* One line a cell: a long name is cut with an ellipsis rather than run into its neighbour. No cell
 * has room for more than MOST_LETTERS, so a text of many pages need not be measured. */
static char *
cut_to_fit (DryType type, const char *value, double room)
{
  g_autofree char *line =
      g_utf8_substring (value, 0, MIN (g_utf8_strlen (value, -1), MOST_LETTERS));
  glong least = 0, most;

  g_strdelimit (line, "\n\r\t\v\f", ' ');
  if (strlen (line) == strlen (value) && dry_page_measure_width (type, line) <= room)
    return g_steal_pointer (&line);
  /* Cut to `least` letters it fits, to `most` it does not. */
  most = g_utf8_strlen (line, -1) + 1;
  while (most - least > 1) {
    glong middle = least + (most - least) / 2;
    g_autofree char *head = g_utf8_substring (line, 0, middle);
    g_autofree char *cut = g_strconcat (head, "…", NULL);

    if (dry_page_measure_width (type, cut) <= room)
      least = middle;
    else
      most = middle;
  }
  if (least == 0)
    return g_strdup ("");
  line[g_utf8_offset_to_pointer (line, least) - line] = '\0';
  return g_strconcat (line, "…", NULL);
}

static void
add_cell (DryPage *page, double x, double y, double width, const char *label, const char *value,
          gboolean strong)
{
  DryType small = {6.5, FALSE, DRY_INK_TEXT_FAINT, DRY_ALIGN_LEFT};
  DryType type = {strong ? 10 : 9, strong, DRY_INK_TEXT, DRY_ALIGN_LEFT};
  g_autofree char *cut = cut_to_fit (type, value ? value : "", width - 4);

  dry_page_add_text (page, x + 2, y + 0.8, 0, small, label);
  dry_page_add_text (page, x + 2, y + 3.0, 0, type, cut);
}

static void
close_page (DryPapers *papers, DryPage *page, guint number)
{
  const DryJob *job = page->plan->context.job;
  double w = papers->width - 2 * MARGIN, h = papers->height - 2 * MARGIN, half = BLOCK / 2;
  double y = papers->height - MARGIN - NOTE - BLOCK, x = MARGIN;
  double a = w * 0.40, b = w * 0.38, c = w - a - b;
  DryType fine = {6.5, FALSE, DRY_INK_TEXT_FAINT, DRY_ALIGN_CENTRE};
  g_autofree char *count = g_strdup_printf ("%u of %u", number + 1, papers->pages->len);
  const char *unit =
      job->metric ? "Scale; dimensions in millimeters" : "Scale; dimensions in inches";
  g_autofree char *scale = page->scale ? g_strdup (page->scale) : g_strdup ("–");

  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_050, x, MARGIN, w, 0);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_050, x, MARGIN + h, w, 0);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_050, x, MARGIN, 0, h);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_050, x + w, MARGIN, 0, h);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_035, x, y, w, 0);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_018, x, y + BLOCK, w, 0);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_018, x, y + half, w, 0);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_018, x + a, y, 0, BLOCK);
  dry_page_add_line (page, DRY_INK_LINE, DRY_PEN_018, x + a + b, y, 0, BLOCK);
  add_cell (page, x, y, a, "Project", job->title, TRUE);
  add_cell (page, x, y + half, a, "Room", dry_flow_room_name (page->plan), FALSE);
  add_cell (page, x + a, y, b, "Sheet", page->title, TRUE);
  add_cell (page, x + a, y + half, b, page->scale ? unit : "Scale", scale, FALSE);
  add_cell (page, x + a + b, y, c, "Date", papers->date ? papers->date : "–", FALSE);
  add_cell (page, x + a + b, y + half, c, "Page", count, FALSE);
  dry_page_add_text (page, x, y + BLOCK + 1.0, w, fine, note);
}

void
dry_frame_close (DryPapers *papers)
{
  for (guint i = 0; i < papers->pages->len; i++)
    close_page (papers, papers->pages->pdata[i], i);
}
