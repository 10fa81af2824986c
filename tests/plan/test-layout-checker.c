/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tests of the layout checker the other tests lean on: a layout that is wrong must be told as
 * wrong, or its consent proves nothing. */
#include <string.h>

#include "layout-checker.h"

#define IN DRY_INCH

static const DryCutting *
compute_checked (DryArena *arena, const DryStock *stock, guint n_stock, const DryPiece *pieces,
                 guint n_pieces)
{
  const DryCutting *cutting = dry_cutting_compute (arena, stock, n_stock, pieces, n_pieces, 0, 0);
  g_autofree char *problem = dry_check_cutting (cutting, 0);
  g_assert_cmpstr (problem, ==, NULL);
  return cutting;
}

typedef struct {
  const char *what;
  void (*spoil) (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts);
  DryLength kerf;
} Fault;

static void
lose_piece (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  sheet->n_placements--;
}

static void
lose_whole_sheet (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  cutting->n_sheets = cutting->n_bought = 0;
}

static void
double_piece (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  places[1].piece = places[0].piece;
  places[1].rect = places[0].rect;
}

static void
overlap (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  places[1].rect = (DryRect){IN, IN, IN + dry_rect_width (places[1].rect),
                             IN + dry_rect_height (places[1].rect)};
}

static void
leave_sheet (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  places[0].rect.x0 += 30 * IN;
  places[0].rect.x1 += 30 * IN;
}

static void
shrink_piece (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  places[0].rect.x1 -= IN;
}

static void
turn_piece (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  places[0].turned = TRUE;
}

static void
leave_out_cut (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  sheet->n_cuts--;
}

static void
miss_with_cut (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  cuts[0].at = 200 * IN;
}

static void
shift_cut (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  cuts[0].at -= IN;
}

/* A cut that stops half way across what it cuts. */
static void
stop_cut (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  if (cuts[0].vertical)
    cuts[0].of.y1 /= 2;
  else
    cuts[0].of.x1 /= 2;
}

/* From the opening of a piece that has none. */
static void
take_from_no_opening (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places,
                      DryCut *cuts)
{
  places[0].inside = (gint) places[1].piece;
}

static void
cut_no_opening (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  cuts[sheet->n_cuts - 1].inside = (gint) places[0].piece;
}

static void
hide_offcuts (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  sheet->n_offcuts = 0;
}

static void
raise_bound (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  cutting->lower_bound = 2;
}

static void
lower_cost (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
  cutting->cost -= 1;
}

static void
nothing (DryCutting *cutting, DrySheetLayout *sheet, DryPlacement *places, DryCut *cuts)
{
}

static const Fault FAULTS[] = {
    {"a lost piece", lose_piece},
    {"a lost sheet", lose_whole_sheet},
    {"a piece twice", double_piece},
    {"an overlap", overlap},
    {"out of the sheet", leave_sheet},
    {"a wrong size", shrink_piece},
    {"turned unasked", turn_piece},
    {"a cut left out", leave_out_cut},
    {"a cut that misses", miss_with_cut},
    {"a cut through a piece", shift_cut},
    {"not edge to edge", stop_cut},
    {"offcuts not told", hide_offcuts},
    {"too high a bound", raise_bound},
    {"a wrong cost", lower_cost},
    {"from no opening", take_from_no_opening},
    {"a cut of no opening", cut_no_opening},
    {"kerf ignored", nothing, IN / 8},
};

static void
test_checker_rejects (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryStock stock[] = {{"3x5", 36 * IN, 60 * IN, 1200, -1}};
  const DryPiece pieces[] = {{"a", 20 * IN, 20 * IN, FALSE}, {"b", 16 * IN, 20 * IN, FALSE}};
  const DryCutting *good = compute_checked (arena, stock, 1, pieces, 2);
  for (guint i = 0; i < G_N_ELEMENTS (FAULTS); i++) {
    DryCutting bad = *good;
    DrySheetLayout sheet = good->sheets[0];
    DryPlacement *places =
        dry_arena_copy (arena, sheet.placements, sizeof (DryPlacement) * sheet.n_placements);
    DryCut *cuts = dry_arena_copy (arena, sheet.cuts, sizeof (DryCut) * sheet.n_cuts);
    sheet.placements = places;
    sheet.cuts = cuts;
    bad.sheets = &sheet;
    FAULTS[i].spoil (&bad, &sheet, places, cuts);
    g_autofree char *problem = dry_check_cutting (&bad, FAULTS[i].kerf);
    g_test_message ("%s: %s", FAULTS[i].what, problem);
    g_assert_nonnull (problem);
  }
}

/* Five pieces round a hole: in place, apart, on the sheet, and no saw can cut them. */
static void
test_checker_rejects_pinwheel (void)
{
  const DryStock stock = {"3x3", 3 * IN, 3 * IN, 0, -1};
  const DryPiece pieces[] = {{"a", 2 * IN, IN, FALSE},
                             {"b", IN, 2 * IN, FALSE},
                             {"c", 2 * IN, IN, FALSE},
                             {"d", IN, 2 * IN, FALSE},
                             {"e", IN, IN, FALSE}};
  const DryPlacement places[] = {{0, {0, 0, 2 * IN, IN}, FALSE, -1},
                                 {1, {2 * IN, 0, 3 * IN, 2 * IN}, FALSE, -1},
                                 {2, {IN, 2 * IN, 3 * IN, 3 * IN}, FALSE, -1},
                                 {3, {0, IN, IN, 3 * IN}, FALSE, -1},
                                 {4, {IN, IN, 2 * IN, 2 * IN}, FALSE, -1}};
  const DryCut cuts[] = {{{0, 0, 3 * IN, 3 * IN}, FALSE, IN, 0, -1},
                         {{0, 0, 3 * IN, IN}, TRUE, 2 * IN, 1, -1},
                         {{0, IN, 3 * IN, 3 * IN}, TRUE, IN, 1, -1},
                         {{IN, IN, 3 * IN, 3 * IN}, FALSE, 2 * IN, 2, -1},
                         {{IN, IN, 3 * IN, 2 * IN}, TRUE, 2 * IN, 3, -1}};
  const DrySheetLayout sheet = {0, places, 5, cuts, 5, NULL, 0};
  const DryCutting pinwheel = {&stock, 1, pieces, 5, &sheet, 1, 1, TRUE, NULL, 0, 0, 1, -1};
  g_autofree char *problem = dry_check_cutting (&pinwheel, 0);
  g_assert_nonnull (problem);
  g_assert_nonnull (strstr (problem, "do not free"));
  /* And the engine, asked for the same, needs two sheets. */
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_assert_cmpuint (compute_checked (arena, &stock, 1, pieces, 5)->n_sheets, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/layout-checker/rejects", test_checker_rejects);
  g_test_add_func ("/plan/layout-checker/rejects-pinwheel", test_checker_rejects_pinwheel);
  return g_test_run ();
}
