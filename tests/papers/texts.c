/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks through the items page by page. Knows no layout. */
#include "texts.h"

#include <string.h>

#include "papers/papers-private.h"

guint
dry_test_count_texts (const DryPapers *papers, const char *text)
{
  guint n = 0;

  for (guint p = 0; p < papers->pages->len; p++) {
    const DryPage *page = papers->pages->pdata[p];

    for (guint i = 0; i < page->items->len; i++) {
      const DryPageItem *item = &g_array_index (page->items, DryPageItem, i);

      n += item->kind == DRY_PAGE_TEXT && strstr (item->text, text) != NULL;
    }
  }
  return n;
}
