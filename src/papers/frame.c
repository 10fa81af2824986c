/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws the frame and the title block in the foot of each page.
 * The last row says what these papers are and are not. */
#include "papers/frame.h"

#define MARGIN 10.0
#define BLOCK  15.0
#define NOTE   5.0
#define INSET  5.0

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

static void
add_cell (DryPage *page, double x, double y, double width, const char *label, const char *value,
          gboolean strong)
{
  DryType small = {6.5, FALSE, DRY_INK_TEXT_FAINT, DRY_ALIGN_LEFT};
  DryType type = {strong ? 10 : 9, strong, DRY_INK_TEXT, DRY_ALIGN_LEFT};
  g_autofree char *cut = g_strdup (value ? value : "");
  double room = width - 4;

  /* One line a cell: a long name is cut with an ellipsis rather than run into its neighbour. */
  while (*cut && dry_page_measure_width (type, cut) > room) {
    glong n = g_utf8_strlen (cut, -1);
    g_autofree char *head = g_utf8_substring (cut, 0, MAX (n - 2, 0));
    g_free (cut);
    cut = n <= 3 ? g_strdup ("") : g_strconcat (head, "…", NULL);
  }
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
  add_cell (page, x, y + half, a, "Room",
            page->plan->context.room->name ? page->plan->context.room->name : "Room", FALSE);
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
