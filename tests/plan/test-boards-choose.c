/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The live choice of one layout a face, on faces that are nothing but lists of pieces: what is
 * given up for what, alone and together. It knows no wall. */
#include "layout-choice.h"

static void
choose (LayoutChoice *self)
{
  g_assert_true (dry_board_choose (self->pointers, self->layouts, self->n, 0, NULL, self->chosen));
}

static void
test_one_face (void)
{
  layout_choice_check_ways (choose);
}

static const DryStock LARGE = {"4x8", 48 * DRY_INCH, 96 * DRY_INCH, 9600, -1};
static const LayoutWay HALVES[] = {{0, 1, {FULL (30)}}, {0, 5, {FULL (24)}}};

/* Two faces wide or, for more seam, narrow: only both narrow come from one sheet. Where the area
 * says that one sheet cannot do, the seams stay short. */
static void
test_only_together (void)
{
  static const LayoutWay MORE[] = {{0, 1, {FULL (40)}}, {0, 5, {FULL (39), FULL (1)}}};
  for (guint i = 0; i < 2; i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    LayoutChoice choice = {0};
    layout_choice_add_face (&choice, &LARGE, 1, i == 0 ? HALVES : MORE, 2);
    layout_choice_add_face (&choice, &LARGE, 1, i == 0 ? HALVES : MORE, 2);
    layout_choice_set_area (&choice, i == 0 ? 1 : 5.0 / 3, arena);
    choose (&choice);
    g_assert_cmpuint (layout_choice_get_way (&choice, 0), ==, i == 0 ? 1 : 0);
    g_assert_cmpuint (layout_choice_get_way (&choice, 1), ==, i == 0 ? 1 : 0);
    layout_choice_clear (&choice);
  }
}

/* Boards on hand are cut first: with two there nothing need be bought for wide faces, so that their
 * seams stay short. */
static void
test_on_hand (void)
{
  static const DryStock STOCK[] = {{"4x8", 48 * DRY_INCH, 96 * DRY_INCH, 9600, -1},
                                   {"3x5", 36 * DRY_INCH, 60 * DRY_INCH, 4600, -1},
                                   {"on-hand-1", 48 * DRY_INCH, 96 * DRY_INCH, 0, 2, TRUE}};
  g_autoptr (DryArena) arena = dry_arena_new ();
  LayoutChoice choice = {0};
  layout_choice_add_face (&choice, STOCK, 3, HALVES, 2);
  layout_choice_add_face (&choice, STOCK, 3, HALVES, 2);
  layout_choice_set_area (&choice, 1, arena);
  choose (&choice);
  g_assert_cmpuint (layout_choice_get_way (&choice, 0), ==, 0);
  g_assert_cmpuint (layout_choice_get_way (&choice, 1), ==, 0);
  layout_choice_clear (&choice);
}

/* Stopped, it says so: what was chosen then depends on when. A room without faces is chosen at
 * once.
 */
static void
test_cancelled (void)
{
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  g_autoptr (DryArena) arena = dry_arena_new ();
  LayoutChoice choice = {0};
  g_cancellable_cancel (cancelled);
  g_assert_true (dry_board_choose (NULL, NULL, 0, 0, cancelled, NULL));
  layout_choice_add_face (&choice, &LARGE, 1, HALVES, 2);
  layout_choice_add_face (&choice, &LARGE, 1, HALVES, 2);
  layout_choice_set_area (&choice, 2, arena);
  g_assert_false (
      dry_board_choose (choice.pointers, choice.layouts, 2, 0, cancelled, choice.chosen));
  layout_choice_clear (&choice);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/boards-choose/one-face", test_one_face);
  g_test_add_func ("/plan/boards-choose/only-together", test_only_together);
  g_test_add_func ("/plan/boards-choose/on-hand", test_on_hand);
  g_test_add_func ("/plan/boards-choose/cancelled", test_cancelled);
  return g_test_run ();
}
