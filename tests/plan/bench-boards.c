/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long boards and cutting take, in processor time of the thread: furnished alcoves with every
 * system, random rooms, and lists of 40 pieces. Prints; fails only when something is out of all
 * proportion, since machines differ. */
#include <time.h>

#include "board-case.h"
#include "support/fixtures.h"

/* Aim: boards with cutting within 5 ms for an alcove. */
#define OUT_OF_PROPORTION_US 100000.0

static double
read_clock (void)
{
  struct timespec now;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double) now.tv_sec * 1e6 + (double) now.tv_nsec / 1e3;
}

static double
time_boards (BoardCase *c, guint rounds)
{
  double start = read_clock ();
  for (guint i = 0; i < rounds; i++)
    c->boards = dry_boards_compute (&c->context, c->faces, c->framing, NULL);
  return (read_clock () - start) / rounds;
}

static void
bench_alcoves (void)
{
  const char *const systems[] = {"cement-liquid", "cement-sheet",     "foam-bands",
                                 "foam-sealant",  "glass-mat-liquid", "fibre-cement"};
  for (guint i = 0; i < G_N_ELEMENTS (systems); i++) {
    BoardCase c;
    board_case_begin (&c, dry_test_furnished_alcove (systems[i]));
    board_case_compute (&c);
    double us = time_boards (&c, 50);
    g_test_message ("%-18s %2u boards %2u seams, %u sheets, bound %u: %7.0f us", systems[i],
                    c.boards->n, c.boards->n_seams, c.boards->cutting->n_sheets,
                    c.boards->cutting->lower_bound, us);
    g_assert_cmpfloat (us, <, OUT_OF_PROPORTION_US);
    board_case_end (&c);
  }
}

static void
bench_random (void)
{
  double sum = 0, worst = 0;
  guint sheets = 0, bound = 0, n = 200;
  for (guint32 seed = 1; seed <= n; seed++) {
    BoardCase c;
    board_case_begin (&c, dry_test_random_project (seed));
    board_case_compute (&c);
    double us = time_boards (&c, 2);
    sum += us;
    worst = MAX (worst, us);
    sheets += c.boards->cutting->n_sheets;
    bound += c.boards->cutting->lower_bound;
    board_case_end (&c);
  }
  g_test_message ("%u random rooms: mean %.0f us, worst %.0f us, %u sheets, bound %u", n, sum / n,
                  worst, sheets, bound);
  g_assert_cmpfloat (worst, <, OUT_OF_PROPORTION_US);
}

static void
bench_lists (void)
{
  const DryStock stock[] = {{"3x5", 36 * DRY_INCH, 60 * DRY_INCH, 0, -1},
                            {"4x8", 48 * DRY_INCH, 96 * DRY_INCH, 0, -1}};
  double sum = 0, worst = 0;
  guint sheets = 0, bound = 0, n = 100;
  for (guint32 seed = 1; seed <= n; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryPiece pieces[40];
    for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
      pieces[i] = (DryPiece){"p", g_rand_int_range (rand, 16, 48 * 4) * DRY_INCH / 4,
                             g_rand_int_range (rand, 16, 80 * 4) * DRY_INCH / 4, TRUE};
    double start = read_clock ();
    const DryCutting *cutting =
        dry_cutting_compute (arena, stock, 2, pieces, G_N_ELEMENTS (pieces), DRY_INCH / 8, 0);
    double us = read_clock () - start;
    sum += us;
    worst = MAX (worst, us);
    sheets += cutting->n_sheets;
    bound += cutting->lower_bound;
  }
  g_test_message ("%u lists of 40 pieces: mean %.0f us, worst %.0f us, %u sheets, bound %u", n,
                  sum / n, worst, sheets, bound);
  g_assert_cmpfloat (worst, <, OUT_OF_PROPORTION_US);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench/boards/alcoves", bench_alcoves);
  g_test_add_func ("/bench/boards/random-rooms", bench_random);
  g_test_add_func ("/bench/cutting/lists", bench_lists);
  return g_test_run ();
}
