/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks through the items page by page, or asks other programs what a file says. Knows no layout.
 */
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

char *
dry_test_run (const char *program, const char *a, const char *b)
{
  g_autofree char *found = g_find_program_in_path (program);
  const char *argv[] = {program, a, b, b ? "-" : NULL, NULL};
  char *out = NULL;

  if (!found)
    return NULL;
  g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out,
                               NULL, NULL, NULL));
  return out;
}

void
dry_test_collapse (char *text)
{
  char *to = text;

  for (const char *from = text; from && *from; from++)
    if (!g_ascii_isspace (*from))
      *to++ = *from;
    else if (to > text && to[-1] != ' ')
      *to++ = ' ';
  if (text)
    *to = '\0';
}
