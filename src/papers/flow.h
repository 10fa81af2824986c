/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets text, tables and drawings down the page and opens a new page where one is full.
 * Knows the frame's free field, not what is written. Private to the papers floor. */
#pragma once

#include "papers/page.h"

struct _DryPapers {
  DryPaperSize paper;
  double width, height; /* mm */
  char *date;
  char decimal;
  GPtrArray *pages; /* DryPage */
  GPtrArray *plans; /* DryPlan, held */
};

typedef struct {
  DryPapers *papers;
  const DryPlan *plan;
  DryPage *page;
  char *title;     /* of the sheet, repeated on pages that follow */
  const char *set; /* whose sheets these are, before the title in the title block; or NULL */
  guint hidden;    /* layers the drawings go without, a bit each */
  double left, top, width, bottom;
  double y;
} DryFlow;

void dry_flow_init (DryFlow *self, DryPapers *papers, const DryPlan *plan);
void dry_flow_clear (DryFlow *self);
/* A new page; the heading is set at its top. */
void dry_flow_begin (DryFlow *self, const char *title);
/* Opens a page of the same sheet unless `height` still fits; TRUE when it did. */
gboolean dry_flow_need (DryFlow *self, double height);
double dry_flow_left_over (const DryFlow *self);
void dry_flow_skip (DryFlow *self, double height);
void dry_flow_text (DryFlow *self, DryType type, double indent, const char *text);
/* A heading kept with at least `keep` mm of what follows. */
void dry_flow_heading (DryFlow *self, const char *text, double keep);

typedef struct {
  const char *heading;
  double share; /* of the width */
  DryAlign align;
} DryColumn;

typedef struct {
  const DryColumn *columns;
  guint n;
} DryTable;

/* A row of n cells with, when not NULL, a fine line below it from the column `under` on. The row
 * and its line stay together; a page that opens for it repeats the headings. */
void dry_flow_table_head (DryFlow *self, const DryTable *table);
void dry_flow_table_row (DryFlow *self, const DryTable *table, const char *const *cells,
                         gboolean strong, const char *foot, guint under);
/* A row of one text across the table, in the heading's type. */
void dry_flow_table_group (DryFlow *self, const DryTable *table, const char *text);
void dry_flow_table_end (DryFlow *self);

/* "12.5", with the papers' decimal mark and at most `decimals` digits after it. Free with g_free().
 */
char *dry_flow_number (const DryPapers *papers, double value,
                       int decimals) G_GNUC_WARN_UNUSED_RESULT;
/* The room's name; "Room" where it has none. Borrowed. */
const char *dry_flow_room_name (const DryPlan *plan);
/* A length as the job wants it, with the papers' decimal mark. */
char *dry_flow_length (const DryPapers *papers, const DryPlan *plan,
                       DryLength length) G_GNUC_WARN_UNUSED_RESULT;
