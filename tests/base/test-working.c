/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Workings keep copies of what they are given, and certainties have one word each.
 * The arena under them hands out aligned, zeroed memory of any size. */
#include "base/working.h"

#include <string.h>

static void
test_working (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  char value[] = "2.10 m2";
  DryWorking working = dry_working_new (arena, (DrySource){"NCC 2022", DRY_CERTAINTY_PUBLISHED},
                                        "2 x 2 = 4", "wet area", value, "coats", "2", NULL);

  memset (value, 'x', sizeof value - 1);
  g_assert_cmpint (working.n_inputs, ==, 2);
  g_assert_cmpstr (working.inputs[0].value, ==, "2.10 m2");
  g_assert_cmpstr (working.source.text, ==, "NCC 2022");
}

static void
test_certainties (void)
{
  for (int i = DRY_CERTAINTY_PUBLISHED; i <= DRY_CERTAINTY_INVENTED; i++) {
    DryCertainty back;
    g_assert_true (dry_certainty_from_text (dry_certainty_to_text (i), &back));
    g_assert_cmpint (back, ==, i);
  }
  g_assert_false (dry_certainty_from_text ("hearsay", &(DryCertainty){0}));
}

static void
test_arena (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();

  for (gsize size = 0; size < 200000; size = size * 2 + 1) {
    guchar *memory = dry_arena_alloc (arena, size);
    g_assert_cmpint ((gintptr) memory % 16, ==, 0);
    for (gsize i = 0; i < size; i++)
      g_assert_cmpint (memory[i], ==, 0);
    memset (memory, 0xAA, size);
  }
  g_assert_null (dry_arena_strdup (arena, NULL));
  g_assert_null (dry_arena_take_array (arena, g_array_new (FALSE, FALSE, sizeof (int))));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/working/working", test_working);
  g_test_add_func ("/working/certainties", test_certainties);
  g_test_add_func ("/working/arena", test_arena);
  return g_test_run ();
}
