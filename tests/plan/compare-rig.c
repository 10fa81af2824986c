/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes comparisons and reads what they tell; see compare-rig.h. It knows no room of its own. */
#include "compare-rig.h"

#include "support/fixtures.h"

DryComparison *
compare_project (const DryProject *project, DryId room, const char *const *systems)
{
  const DryPriceBook *book = dry_catalog_get_price_book (dry_test_catalog (), NULL);
  g_autoptr (GError) error = NULL;
  DryComparison *all = dry_comparison_new (project, room, dry_test_catalog (), book, "2026-12-01",
                                           systems, 0, NULL, &error);

  g_assert_no_error (error);
  return all;
}

char *
compare_lines (const DryOption *now, const DryOption *was, DryAbout about)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GArray) list = dry_option_list_differences (now, was, arena);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < list->len; i++)
    if (g_array_index (list, DryDifference, i).about == about)
      g_string_append_printf (text, "%s%s", text->len ? "\n" : "",
                              g_array_index (list, DryDifference, i).text);
  return g_string_free (text, FALSE);
}
