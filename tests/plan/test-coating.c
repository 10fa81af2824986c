/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amounts of band, mortar, sealant and membrane on hand-made walls against sums done on paper. */
#include <math.h>

#include "rig.h"

/* Of the product, over all purposes; the last working into `working`. */
static double
amount_of (const Rig *rig, const char *id, const DryWorking **working)
{
  double sum = 0;

  for (guint i = 0; i < rig->coating->n; i++)
    if (g_str_equal (rig->coating->items[i].product->id, id)) {
      sum += rig->coating->items[i].amount;
      if (working)
        *working = &rig->coating->items[i].working;
    }
  return sum;
}

static void
set_up_two_walls (Rig *rig)
{
  rig_set_up (rig);
  for (guint i = 0; i < 2; i++) {
    DryFace *face = rig_add_face (rig, i == 0 ? 60 : 32, 96);
    face->at_basin = TRUE;
    face->basin_u1 = face->length;
    face->deck = IN (15);
    face->flange_top = face->board_bottom = IN (16);
    face->region = dry_region_from_rect (rig->arena, (DryRect){0, IN (16), face->length, IN (96)});
    rig_add_studs (rig, i, 0.75, 16, i == 0 ? 4 : 2);
  }
  rig_join (rig, 0, 1, 0.625);
  rig_add_board (rig, 0, 0, 16, 29.9375, 96);
  rig_add_board (rig, 0, 30.0625, 16, 60, 96);
  rig_add_board (rig, 1, 0.625, 16, 32, 96);
}

/* Bands: (60 + 31.375 + 80 + 80) in and three overlaps of 2 in; mesh or band is as long as the
 * joints it covers (TCNA B412-19 as quoted). */
static void
test_bands (void)
{
  Rig rig;
  const DryWorking *working = NULL;
  const double inches = 60 + 31.375 + 80 + 80 + 3 * 2;

  set_up_two_walls (&rig);
  rig_compute (&rig);
  g_assert_cmpfloat_with_epsilon (amount_of (&rig, "band", &working), inches * 0.0254, 1e-9);
  g_assert_cmpfloat_with_epsilon (amount_of (&rig, "mortar", NULL),
                                  inches * 0.0254 * 4 * 0.0254 * 3, 1e-9);
  /* the two bottom runs are 2.32 m and lap once */
  gboolean found = FALSE;
  for (guint i = 0; i < rig.coating->n; i++)
    found |= g_strcmp0 (rig.coating->items[i].working.formula,
                        "2 runs 2.32 m + 1 overlap x 0.051 m = 2.37 m") == 0;
  g_assert_true (found);
  for (guint i = 0; i < rig.coating->n; i++) {
    const DryAmount *it = &rig.coating->items[i];
    g_assert_nonnull (it->purpose);
    g_assert_nonnull (it->working.formula);
    g_assert_nonnull (it->working.source.text);
    g_assert_cmpuint (it->working.n_inputs, >, 0);
  }
  rig_tear_down (&rig);
}

/* Two coats on the board area, at the product's rate or the wet film, whichever is more. */
static void
test_liquid_membrane (void)
{
  const double area = (29.9375 + 29.9375 + 31.375) * 80 * 0.0254 * 0.0254;
  const double films[] = {0.4, 0.6}, rates[] = {0.5, 0.6};

  for (guint i = 0; i < 2; i++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig.system.wet_film.value = films[i];
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (rig.coating->board_area, area, 1e-9);
    g_assert_cmpfloat_with_epsilon (rig.coating->wet_area, 92 * 80 * 0.0254 * 0.0254, 1e-9);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "membrane", NULL), area * 2 * rates[i], 1e-9);
    rig_tear_down (&rig);
  }
}

/* Sheets are lapped at each roll width unless the product's rate holds the laps already. */
static void
test_sheet_membrane (void)
{
  const double area = (29.9375 + 29.9375 + 31.375) * 80 * 0.0254 * 0.0254;
  const double rates[] = {1, 1.05};
  const double wanted[] = {area + 80 * 0.0254 * 0.05, area * 1.05};

  for (guint i = 0; i < 2; i++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig.system.membrane = DRY_MEMBRANE_SHEET;
    rig.system.mortar_product = "mortar";
    rig.system.membrane_overlap = 50 * DRY_MM;
    rig.products[6] =
        (DryProduct){"membrane", "Sheet", DRY_USE_AREA, "m2", rates[i], 10, "roll", 0, {0}};
    memset (rig.system.treatments, 0, sizeof rig.system.treatments);
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "membrane", NULL), wanted[i], 1e-9);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "mortar", NULL), area * 3, 1e-9);
    rig_tear_down (&rig);
  }
}

/* A 1/4 x 1/4 in bead round a 3 in hole; smeared an inch wide it takes a millimetre more. */
static void
test_sealant (void)
{
  const double round = G_PI * 3 * 0.0254;

  for (guint smeared = 0; smeared < 2; smeared++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig_drill (&rig, 2, 16, 40, 3);
    rig.system.treatments[DRY_JOINT_PENETRATION].smear = smeared ? IN (1) : 0;
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "sealant", NULL),
                                    round * (6.35 * 6.35 + (smeared ? 25.4 : 0)) / 1000, 1e-7);
    rig_tear_down (&rig);
  }
}

/* Under a bottom band the gap over the lip is filled as deep as the board: 1/8 x 1/2 in over both
 * walls; of a wider gap 1/4 in. */
static void
test_basin_fill (void)
{
  static const double gaps[] = {0.125, 1}, filled[] = {0.125, 0.25};

  for (guint i = 0; i < G_N_ELEMENTS (gaps); i++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig.system.basin_gap.value = IN (gaps[i]);
    rig.system.treatments[DRY_JOINT_BASIN].fill = "sealant";
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "sealant", NULL),
                                    filled[i] * 0.5 * (60 + 31.375) * 0.016387064, 1e-9);
    rig_tear_down (&rig);
  }
}

/* Behind the band onto the drywall lies a filler strip, as long as the edge, laps or not; the
 * system says so of its own joints, and without its word there is none. */
static void
test_drywall_fill (void)
{
  for (guint filled = 0; filled < 2; filled++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig.face_items[1].dry_right = TRUE;
    rig.system.treatments[DRY_JOINT_DRYWALL] = rig.system.treatments[DRY_JOINT_SEAM];
    rig.system.treatments[DRY_JOINT_DRYWALL].fill = filled ? "filler" : NULL;
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "filler", NULL), filled * 80 * 0.0254, 1e-9);
    rig_tear_down (&rig);
  }
}

/* One collar a hole; a filler strip as long as the edge to drywall. */
static void
test_collars_and_filler (void)
{
  Rig rig;

  set_up_two_walls (&rig);
  rig.face_items[1].dry_right = TRUE;
  rig.system.treatments[DRY_JOINT_PENETRATION] =
      (DryTreatment){.kind = DRY_TREAT_GASKET, .name = "collar", .product = "collar"};
  rig_drill (&rig, 2, 16, 40, 3);
  rig_drill (&rig, 2, 16, 70, 1);
  rig_compute (&rig);
  g_assert_cmpfloat (amount_of (&rig, "collar", NULL), ==, 2);
  /* both far ends: the left one of the back wall is free, the right one of the end wall dry */
  g_assert_cmpfloat_with_epsilon (amount_of (&rig, "filler", NULL), 80 * 0.0254, 1e-9);
  rig_tear_down (&rig);
}

static void
test_heads (void)
{
  Rig rig;
  guint bare = 0;

  set_up_two_walls (&rig);
  rig.system.washer = "washer";
  rig.system.washer_diameter = IN (1.25);
  rig.system.cover_fasteners = TRUE;
  rig.system.cover_product = "band";
  rig.system.cover_per_fastener = 0.127;
  rig_compute (&rig);
  double with = amount_of (&rig, "band", NULL);
  g_assert_cmpfloat (amount_of (&rig, "screw", NULL), ==, rig.fasteners->n);
  g_assert_cmpfloat (amount_of (&rig, "washer", NULL), ==, rig.fasteners->n);
  rig.system.cover_fasteners = FALSE;
  rig_compute (&rig);
  double patches = (with - amount_of (&rig, "band", NULL)) / 0.127;
  g_assert_cmpfloat_with_epsilon (patches, round (patches), 1e-6);
  /* 1/2 in washers rows at seam, corner and tub lie under the 4 in bands: 2 - 5/8 in reach */
  for (guint i = 0; i < rig.fasteners->n; i++) {
    const DryFastener *it = &rig.fasteners->items[i];
    DryLength from_corner = it->face == 0 ? IN (60) - it->at.x : it->at.x - IN (0.625);
    DryLength from_seam = it->face == 0 ? ABS (it->at.x - IN (30)) : IN (99);
    bare += it->at.y > IN (16 + 1.375) && from_corner > IN (1.375) && from_seam > IN (1.4375);
  }
  g_assert_cmpuint ((guint) round (patches), ==, bare);
  rig_tear_down (&rig);
}

/* A primer no treatment names goes on everything; tile mortar is left to the take-off. */
static void
test_spread (void)
{
  Rig rig;

  set_up_two_walls (&rig);
  rig.system.n_products = 10;
  rig_compute (&rig);
  g_assert_cmpfloat_with_epsilon (amount_of (&rig, "primer", NULL), rig.coating->board_area * 0.1,
                                  1e-9);
  g_assert_cmpfloat (amount_of (&rig, "tile-mortar", NULL), ==, 0);
  rig_tear_down (&rig);
}

/* Floated walls: no boards, areas from the faces, nails over the lath. */
static void
test_floated (void)
{
  Rig rig;

  set_up_two_walls (&rig);
  rig.boards.n = 0;
  rig.system.n_sheets = 0;
  rig.system.n_products = 10;
  rig_compute (&rig);
  double area = 92 * 80 * 0.0254 * 0.0254;
  g_assert_cmpfloat (rig.coating->board_area, ==, 0);
  g_assert_cmpfloat_with_epsilon (rig.coating->wet_area, area, 1e-9);
  g_assert_cmpfloat_with_epsilon (amount_of (&rig, "primer", NULL), area * 0.1, 1e-9);
  g_assert_cmpfloat (amount_of (&rig, "screw", NULL), ==, ceil (92 * 80 / (16.0 * 8)));
  g_assert_cmpfloat (amount_of (&rig, "band", NULL), >, 0);
  rig_tear_down (&rig);
}

/* A bead that is told only by its width is as deep as wide. */
static void
test_bead_as_deep (void)
{
  Rig rig;

  set_up_two_walls (&rig);
  rig_drill (&rig, 2, 16, 40, 3);
  rig.system.treatments[DRY_JOINT_PENETRATION].depth = 0;
  rig_compute (&rig);
  g_assert_cmpfloat_with_epsilon (amount_of (&rig, "sealant", NULL),
                                  G_PI * 3 * 0.0254 * 6.35 * 6.35 / 1000, 1e-7);
  rig_tear_down (&rig);
}

/* Where boards are butted, or there is no board to be as deep as, no gap is filled; nor by what is
 * sold by the piece. */
static void
test_no_gap (void)
{
  static const struct {
    double gap, board;
    const char *fill;
    gboolean filled;
  } CASES[] = {{0.125, 0.5, "sealant", TRUE},
               {0, 0.5, "sealant", FALSE},
               {0.125, 0, "sealant", FALSE},
               {0.125, 0.5, "collar", FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig.face_items[1].dry_right = TRUE;
    rig.system.joint_gap = IN (CASES[i].gap);
    rig.context.build_up.board = IN (CASES[i].board);
    rig.system.treatments[DRY_JOINT_DRYWALL] = rig.system.treatments[DRY_JOINT_SEAM];
    rig.system.treatments[DRY_JOINT_DRYWALL].fill = CASES[i].fill;
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "sealant", NULL),
                                    CASES[i].filled ? 0.125 * 0.5 * 80 * 0.016387064 : 0, 1e-9);
    g_assert_cmpfloat (amount_of (&rig, "collar", NULL), ==, 0);
    rig_tear_down (&rig);
  }
}

/* One coat is one coat; a membrane sold by weight is reckoned by its rate alone, whatever film is
 * asked for. */
static void
test_membrane_by_weight (void)
{
  const double area = (29.9375 + 29.9375 + 31.375) * 80 * 0.0254 * 0.0254;
  static const struct {
    const char *unit, *words;
    double rate, film, each;
    guint coats;
  } CASES[] = {{"L", "1 coat x", 0.5, 0.4, 0.5, 1},
               {"L", "2 coats x", 0.5, 0.5, 0.5, 2},
               {"kg", "2 coats x", 1.1, 5, 1.1, 2}};

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    const DryWorking *working = NULL;
    Rig rig;
    set_up_two_walls (&rig);
    rig.products[6].unit = CASES[i].unit;
    rig.products[6].rate = CASES[i].rate;
    rig.system.wet_film.value = CASES[i].film;
    rig.system.coats = CASES[i].coats;
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "membrane", &working),
                                    area * CASES[i].coats * CASES[i].each, 1e-9);
    g_assert_nonnull (strstr (working->formula, CASES[i].words));
    rig_tear_down (&rig);
  }
}

/* A sheet sold by the square metre of wall, whatever its rate says of something else, or none. A
 * face with nothing left to cover laps nowhere. */
static void
test_sheet_without_rate (void)
{
  const double area = (29.9375 + 29.9375 + 31.375) * 80 * 0.0254 * 0.0254;

  for (guint i = 0; i < 2; i++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig_add_face (&rig, 200, 96)->region = (DryRegion){0};
    rig.system.membrane = DRY_MEMBRANE_SHEET;
    rig.system.membrane_overlap = 50 * DRY_MM;
    rig.products[6] = (DryProduct){
        "membrane", "Sheet", i ? DRY_USE_EACH : DRY_USE_AREA, "m2", i ? 7 : 0, 10, "roll", 0, {0}};
    rig_compute (&rig);
    g_assert_cmpfloat_with_epsilon (amount_of (&rig, "membrane", NULL), area + 80 * 0.0254 * 0.05,
                                    1e-9);
    rig_tear_down (&rig);
  }
}

/* What a treatment names is not spread over the wall besides. */
static void
test_named_not_spread (void)
{
  Rig rig;

  set_up_two_walls (&rig);
  rig.system.n_products = 10;
  rig.system.treatments[DRY_JOINT_SEAM].product = "primer";
  rig_compute (&rig);
  /* a strip 4 in wide on the seam of 80 in and one lap, at 0.1 L/m2 */
  g_assert_cmpfloat (amount_of (&rig, "primer", NULL), >, 0);
  g_assert_cmpfloat (amount_of (&rig, "primer", NULL), <, 0.1 * 90 * 4 * 0.0254 * 0.0254);
  rig_tear_down (&rig);
}

/* Lath that nobody knows the spacing of is fastened by nothing that could be counted. */
static void
test_lath_spacing_unknown (void)
{
  for (guint i = 0; i < 3; i++) {
    Rig rig;
    set_up_two_walls (&rig);
    rig.boards.n = 0;
    rig.system.n_sheets = 0;
    if (i == 0)
      rig.system.stud_spacing_max.value = 0;
    else if (i == 1)
      rig.system.field_spacing.value = 0;
    else
      rig.system.fastener = NULL;
    rig_compute (&rig);
    g_assert_cmpfloat (amount_of (&rig, "screw", NULL), ==, 0);
    g_assert_cmpfloat (rig.coating->wet_area, >, 0);
    rig_tear_down (&rig);
  }
}

static void
check_random (const DryPlan *plan, guint32 seed)
{
  const DryCoating *coating = plan->coating;

  g_test_message ("seed %u, %s", seed, plan->context.system->id);
  g_assert_cmpfloat (coating->board_area, <=, coating->wet_area + 1e-9);
  for (guint i = 0; i < coating->n; i++) {
    g_assert_cmpfloat (coating->items[i].amount, >, 0);
    g_assert_true (isfinite (coating->items[i].amount));
    g_assert_nonnull (coating->items[i].working.formula);
  }
}

static void
test_random (void)
{
  rig_for_random_plans (40, check_random);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/coating/bands", test_bands);
  g_test_add_func ("/plan/coating/liquid-membrane", test_liquid_membrane);
  g_test_add_func ("/plan/coating/sheet-membrane", test_sheet_membrane);
  g_test_add_func ("/plan/coating/sealant", test_sealant);
  g_test_add_func ("/plan/coating/basin-fill", test_basin_fill);
  g_test_add_func ("/plan/coating/drywall-fill", test_drywall_fill);
  g_test_add_func ("/plan/coating/collars-and-filler", test_collars_and_filler);
  g_test_add_func ("/plan/coating/heads", test_heads);
  g_test_add_func ("/plan/coating/spread", test_spread);
  g_test_add_func ("/plan/coating/floated", test_floated);
  g_test_add_func ("/plan/coating/bead-as-deep", test_bead_as_deep);
  g_test_add_func ("/plan/coating/no-gap", test_no_gap);
  g_test_add_func ("/plan/coating/membrane-by-weight", test_membrane_by_weight);
  g_test_add_func ("/plan/coating/sheet-without-rate", test_sheet_without_rate);
  g_test_add_func ("/plan/coating/named-not-spread", test_named_not_spread);
  g_test_add_func ("/plan/coating/lath-spacing-unknown", test_lath_spacing_unknown);
  g_test_add_func ("/plan/coating/random", test_random);
  return g_test_run ();
}
