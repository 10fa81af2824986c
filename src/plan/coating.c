/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reckons what the joints, heads and surfaces of the boards take of each product, before packs.
 * Rates and widths are the system's; a figure it lacks is common practice and says so. */
#include "plan/coating.h"

#include "plan/amounts.h"
#include "plan/joint-runs.h"
#include "plan/outline.h"

/* Common practice, no source: sealant smeared flat stands a millimetre, sheet membrane comes in
 * rolls a metre wide. */
#define SMEAR_FILM DRY_MM
#define ROLL_WIDTH (1000 * DRY_MM)

static const DrySource common_practice = {"common practice, no source",
                                          DRY_CERTAINTY_COMMON_PRACTICE};

typedef struct {
  const DryPlanContext *context;
  const DryFaces *faces;
  const DryBoards *boards;
  const DryFasteners *fasteners;
  const DryJoints *joints;
  DryCoating *coating;
  GArray *items; /* DryAmount */
} Reckoning;

/* The runs of one kind of joint, added up. */
typedef struct {
  guint n, laps;
  double bare, length; /* m, without and with overlaps */
} RunSum;

static const char *
number (const Reckoning *self, double value, int decimals)
{
  return dry_number_text (self->context->arena, value, decimals);
}

static DrySource
source_or_practice (DrySource source)
{
  return source.text ? source : common_practice;
}

static void
add_amount (Reckoning *self, const DryProduct *product, double amount, const char *purpose,
            DryWorking working)
{
  DryAmount it = {product, amount, purpose, working};

  if (product && amount > 0)
    g_array_append_val (self->items, it);
}

static RunSum
sum_runs (const Reckoning *self, DryJointKind kind)
{
  DryLength overlap = self->context->system->treatments[kind].overlap;
  DryLength length = 0;
  RunSum sum = {0};

  for (guint i = 0; i < self->joints->n_runs; i++) {
    if (self->joints->runs[i].kind != kind)
      continue;
    sum.n++;
    sum.laps += dry_joint_runs_count_laps (self->joints, self->faces, i);
    length += self->joints->runs[i].length;
  }
  sum.length = dry_length_to_mm (length) / 1000;
  sum.bare = dry_length_to_mm (length - (DryLength) sum.laps * overlap) / 1000;
  return sum;
}

static const char *
describe_length (const Reckoning *self, const RunSum *sum, DryLength overlap)
{
  DryArena *arena = self->context->arena;
  const char *runs = dry_arena_printf (arena, "%u run%s %s m", sum->n, sum->n == 1 ? "" : "s",
                                       number (self, sum->bare, 2));

  if (sum->laps == 0 || overlap == 0)
    return runs;
  return dry_arena_printf (
      arena, "%s + %u overlap%s x %s m = %s m", runs, sum->laps, sum->laps == 1 ? "" : "s",
      number (self, dry_length_to_mm (overlap) / 1000, 3), number (self, sum->length, 2));
}

/* --- joints --- */

static void
add_bead (Reckoning *self, const DryTreatment *treatment, const DryProduct *product,
          const RunSum *sum, const char *purpose)
{
  DryArena *arena = self->context->arena;
  DryLength depth = treatment->depth ? treatment->depth : treatment->width;
  double bead = dry_bead_volume (treatment->width, depth, sum->length);
  double smear = dry_bead_volume (treatment->smear, SMEAR_FILM, sum->length);
  const char *formula = dry_arena_printf (arena, "%s; %s mm x %s mm x %s m = %s L",
                                          describe_length (self, sum, treatment->overlap),
                                          number (self, dry_length_to_mm (treatment->width), 3),
                                          number (self, dry_length_to_mm (depth), 3),
                                          number (self, sum->length, 2), number (self, bead, 3));

  if (smear > 0)
    formula = dry_arena_printf (arena, "%s, + smear %s mm x 1 mm x %s m = %s L", formula,
                                number (self, dry_length_to_mm (treatment->smear), 3),
                                number (self, sum->length, 2), number (self, bead + smear, 3));
  add_amount (self, product, bead + smear, purpose,
              dry_working_new (arena, source_or_practice (treatment->source), formula, "length",
                               describe_length (self, sum, treatment->overlap), "bead width",
                               dry_mm_text (arena, treatment->width), "bead depth",
                               dry_mm_text (arena, depth), "smear width",
                               dry_mm_text (arena, treatment->smear), "smear film",
                               dry_mm_text (arena, treatment->smear ? SMEAR_FILM : 0), NULL));
}

static void
add_length (Reckoning *self, const DryTreatment *treatment, const DryProduct *product,
            const RunSum *sum, const char *purpose)
{
  DryArena *arena = self->context->arena;

  add_amount (self, product, sum->length, purpose,
              dry_working_new (arena, source_or_practice (treatment->source),
                               describe_length (self, sum, treatment->overlap), "runs",
                               dry_arena_printf (arena, "%u", sum->n), "overlaps",
                               dry_arena_printf (arena, "%u", sum->laps), "overlap",
                               dry_mm_text (arena, treatment->overlap), "width",
                               dry_mm_text (arena, treatment->width), NULL));
}

/* A strip `width` wide at the product's rate a square metre. */
static void
add_strip (Reckoning *self, const DryTreatment *treatment, const DryProduct *product,
           const RunSum *sum, const char *purpose)
{
  DryArena *arena = self->context->arena;
  double width = dry_length_to_mm (treatment->width) / 1000;
  double amount = sum->length * width * product->rate;
  const char *formula =
      dry_arena_printf (arena, "%s m x %s m x %s %s/m2 = %s %s", number (self, sum->length, 2),
                        number (self, width, 3), number (self, product->rate, 3), product->unit,
                        number (self, amount, 2), product->unit);

  add_amount (self, product, amount, purpose,
              dry_working_new (arena, source_or_practice (product->source), formula, "length",
                               describe_length (self, sum, treatment->overlap), "rate",
                               dry_arena_printf (arena, "%s %s/m2", number (self, product->rate, 3),
                                                 product->unit),
                               NULL));
}

static void
add_pieces (Reckoning *self, const DryTreatment *treatment, const DryProduct *product, guint n,
            const char *purpose)
{
  DryArena *arena = self->context->arena;
  const char *count = dry_arena_printf (arena, "%u", n);

  add_amount (self, product, n, purpose,
              dry_working_new (arena, source_or_practice (treatment->source),
                               dry_arena_printf (arena, "1 for each of %u = %u", n, n), "count",
                               count, NULL));
}

static void
add_treatment_product (Reckoning *self, const DryTreatment *treatment, const DryProduct *product,
                       const RunSum *sum, const char *purpose)
{
  switch (product->use) {
  case DRY_USE_EACH:
    add_pieces (self, treatment, product, sum->n, purpose);
    break;
  case DRY_USE_LENGTH:
    add_length (self, treatment, product, sum, purpose);
    break;
  case DRY_USE_VOLUME:
    add_bead (self, treatment, product, sum, purpose);
    break;
  case DRY_USE_AREA:
    add_strip (self, treatment, product, sum, purpose);
    break;
  }
}

/* What closes the open gap behind a band or bead: a strip as long as the joint, or sealant. Of a
 * gap wider than 1/4 in only that much is filled (common practice, no source). */
static void
add_fill (Reckoning *self, DryJointKind kind, const RunSum *sum, const char *purpose)
{
  const DrySystem *system = self->context->system;
  const DryTreatment *treatment = &system->treatments[kind];
  const DryProduct *product =
      treatment->fill ? dry_system_get_product (system, treatment->fill) : NULL;
  DryLength gap = kind == DRY_JOINT_BASIN ? system->basin_gap.value : system->joint_gap;
  DryTreatment fill = {.width = MIN (gap, DRY_INCH / 4),
                       .depth = treatment->depth ? treatment->depth : self->context->build_up.board,
                       .source = treatment->source};
  /* Strips and beads are butted, not lapped. */
  RunSum bare = {.n = sum->n, .bare = sum->bare, .length = sum->bare};

  if (!product)
    return;
  if (product->use == DRY_USE_LENGTH)
    add_length (self, &fill, product, &bare, purpose);
  else if (product->use == DRY_USE_VOLUME && fill.width > 0 && fill.depth > 0)
    add_bead (self, &fill, product, &bare, purpose);
}

static void
add_treatments (Reckoning *self)
{
  const DrySystem *system = self->context->system;
  DryArena *arena = self->context->arena;

  for (guint kind = 0; kind < DRY_N_JOINT_KINDS; kind++) {
    const DryTreatment *treatment = &system->treatments[kind];
    RunSum sum = sum_runs (self, kind);
    const char *name = dry_joint_kind_name (kind);
    const DryProduct *product =
        treatment->product ? dry_system_get_product (system, treatment->product) : NULL;
    const DryProduct *bedding =
        treatment->bedding ? dry_system_get_product (system, treatment->bedding) : NULL;
    if (treatment->kind == DRY_TREAT_NONE || sum.n == 0)
      continue;
    if (product)
      add_treatment_product (self, treatment, product, &sum, name);
    add_fill (self, kind, &sum, dry_arena_printf (arena, "%s, gap filled", name));
    if (bedding)
      add_treatment_product (self, treatment, bedding, &sum,
                             dry_arena_printf (arena, "%s, bedding", name));
  }
}

/* --- screws and what covers them --- */

static gboolean
is_under_band (const Reckoning *self, const DryFastener *fastener)
{
  const DrySystem *system = self->context->system;

  for (guint i = 0; i < self->joints->n; i++) {
    const DryJoint *joint = &self->joints->items[i];
    const DryTreatment *treatment = &system->treatments[joint->kind];
    if (joint->face != fastener->face || treatment->kind != DRY_TREAT_BAND ||
        joint->kind == DRY_JOINT_PENETRATION)
      continue;
    DryLength reach = treatment->width / 2 - (fastener->washer ? system->washer_diameter / 2 : 0);
    if (dry_outline_distance (fastener->at, joint->from, joint->to) <= reach)
      return TRUE;
  }
  return FALSE;
}

static void
add_covers (Reckoning *self)
{
  const DrySystem *system = self->context->system;
  DryArena *arena = self->context->arena;
  const DryProduct *product =
      system->cover_product ? dry_system_get_product (system, system->cover_product) : NULL;
  guint bare = 0, n = self->fasteners->n;

  if (!system->cover_fasteners || !product)
    return;
  for (guint i = 0; i < n; i++)
    if (!is_under_band (self, &self->fasteners->items[i]))
      bare++;
  double amount = bare * system->cover_per_fastener;
  const char *formula = dry_arena_printf (arena, "(%u - %u under bands) heads x %s %s = %s %s", n,
                                          n - bare, number (self, system->cover_per_fastener, 4),
                                          product->unit, number (self, amount, 3), product->unit);
  add_amount (self, product, amount, "over fastener heads",
              dry_working_new (arena, common_practice, formula, "heads",
                               dry_arena_printf (arena, "%u", n), "under bands",
                               dry_arena_printf (arena, "%u", n - bare), NULL));
}

/* A wall without boards: lath is fastened all over, a row on each stud. */
static double
count_lath_fasteners (const Reckoning *self, const char **formula)
{
  const DrySystem *system = self->context->system;
  double stud = dry_length_to_mm (system->stud_spacing_max.value) / 1000;
  double field = dry_length_to_mm (system->field_spacing.value) / 1000;

  if (stud <= 0 || field <= 0)
    return 0;
  double n = (double) dry_packs_for (self->coating->wet_area / (stud * field), 1);
  *formula = dry_arena_printf (self->context->arena, "%s m2 / (%s m x %s m) = %s",
                               number (self, self->coating->wet_area, 2), number (self, stud, 3),
                               number (self, field, 3), number (self, n, 0));
  return n;
}

static void
add_fasteners (Reckoning *self)
{
  const DrySystem *system = self->context->system;
  DryArena *arena = self->context->arena;
  guint washers = 0, edge = 0, n = self->fasteners->n;
  const char *formula = NULL;
  double screws = n;

  for (guint i = 0; i < n; i++) {
    edge += self->fasteners->items[i].edge ? 1 : 0;
    washers += self->fasteners->items[i].washer ? 1 : 0;
  }
  if (system->n_sheets == 0)
    screws = count_lath_fasteners (self, &formula);
  else
    formula = dry_arena_printf (arena, "%u along edges + %u in the field = %u", edge, n - edge, n);
  if (system->fastener && screws > 0)
    add_amount (self, dry_system_get_product (system, system->fastener), screws, "fasteners",
                dry_working_new (arena, source_or_practice (system->edge_spacing.source), formula,
                                 "edge spacing", dry_mm_text (arena, system->edge_spacing.value),
                                 "field spacing", dry_mm_text (arena, system->field_spacing.value),
                                 NULL));
  if (system->washer)
    add_amount (self, dry_system_get_product (system, system->washer), washers, "washers",
                dry_working_new (arena, source_or_practice (system->field_spacing.source),
                                 dry_arena_printf (arena, "1 for each of %u fasteners", washers),
                                 "fasteners", dry_arena_printf (arena, "%u", washers), NULL));
}

/* --- surfaces --- */

static double
covered_area (const Reckoning *self)
{
  return self->context->system->n_sheets ? self->coating->board_area : self->coating->wet_area;
}

/* A litre a square metre is a millimetre of film, so the rate must not be below the wet film. */
static void
add_liquid_membrane (Reckoning *self, const DryProduct *product)
{
  const DrySystem *system = self->context->system;
  DryArena *arena = self->context->arena;
  double area = covered_area (self), wet = system->wet_film.value;
  gboolean litres = g_strcmp0 (product->unit, "L") == 0;
  double rate = litres ? MAX (product->rate, wet) : product->rate;
  double amount =
      litres ? dry_film_volume (area, rate) * system->coats : area * rate * system->coats;
  double mils = rate / DRY_MM_PER_MIL;
  const char *formula =
      dry_arena_printf (arena, "%s m2 x %u coat%s x %s %s/m2 = %s %s", number (self, area, 2),
                        system->coats, system->coats == 1 ? "" : "s", number (self, rate, 3),
                        product->unit, number (self, amount, 2), product->unit);
  const char *film =
      !litres ? "not reckoned"
              : dry_arena_printf (arena, "%s mm = %s mil, %s ft2 a gallon each coat; %s %s mm",
                                  number (self, rate, 3), number (self, mils, 1),
                                  number (self, dry_film_ft2_per_gallon (mils), 1),
                                  product->rate < wet ? "raised to the wet film asked for,"
                                                      : "not below the wet film asked for,",
                                  number (self, wet, 3));

  add_amount (self, product, amount, "coats on all of the wet wall",
              dry_working_new (arena, source_or_practice (product->source), formula, "area",
                               dry_arena_printf (arena, "%s m2", number (self, area, 2)), "film",
                               film, NULL));
}

/* Overlaps of a sheet membrane hung in upright lengths of one roll width. */
static double
sum_sheet_laps (const Reckoning *self)
{
  double laps = 0;

  for (guint i = 0; i < self->faces->n; i++) {
    DryRect bounds = dry_region_bounds (&self->faces->items[i].region);
    DryLength width = dry_rect_width (bounds);
    if (dry_region_is_empty (&self->faces->items[i].region) || width <= 0)
      continue;
    laps += (double) ((width + ROLL_WIDTH - 1) / ROLL_WIDTH - 1) *
            dry_length_to_mm (dry_rect_height (bounds)) / 1000;
  }
  return laps;
}

static void
add_sheet_membrane (Reckoning *self, const DryProduct *product)
{
  const DrySystem *system = self->context->system;
  DryArena *arena = self->context->arena;
  double rate = product->use == DRY_USE_AREA && product->rate > 0 ? product->rate : 1;
  /* a rate above one square metre already holds the laps */
  double area = covered_area (self), laps = rate > 1 ? 0 : sum_sheet_laps (self);
  double overlap = dry_length_to_mm (system->membrane_overlap) / 1000;
  double whole = area + laps * overlap;
  const char *formula = rate > 1
                            ? dry_arena_printf (arena, "%s m2", number (self, area, 2))
                            : dry_arena_printf (arena, "%s m2 + %s m of laps x %s m = %s m2",
                                                number (self, area, 2), number (self, laps, 2),
                                                number (self, overlap, 3), number (self, whole, 2));

  if (rate != 1)
    formula = dry_arena_printf (arena, "%s x %s with laps = %s %s", formula, number (self, rate, 3),
                                number (self, whole * rate, 2), product->unit);
  add_amount (self, product, whole * rate, "sheet on all of the wet wall",
              dry_working_new (arena, common_practice, formula, "roll width",
                               dry_metres_text (arena, ROLL_WIDTH), "overlap",
                               dry_mm_text (arena, system->membrane_overlap), NULL));
}

static gboolean
is_named_by_system (const DrySystem *system, const char *id)
{
  const char *const named[] = {system->fastener, system->washer, system->cover_product,
                               system->membrane_product, system->mortar_product};

  for (guint i = 0; i < G_N_ELEMENTS (named); i++)
    if (g_strcmp0 (named[i], id) == 0)
      return TRUE;
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++)
    if (g_strcmp0 (system->treatments[i].product, id) == 0 ||
        g_strcmp0 (system->treatments[i].bedding, id) == 0)
      return TRUE;
  return FALSE;
}

static void
add_spread (Reckoning *self, const DryProduct *product, const char *purpose)
{
  DryArena *arena = self->context->arena;
  double area = covered_area (self), amount = area * product->rate;
  const char *formula = dry_arena_printf (arena, "%s m2 x %s %s/m2 = %s %s", number (self, area, 2),
                                          number (self, product->rate, 3), product->unit,
                                          number (self, amount, 2), product->unit);

  add_amount (self, product, amount, purpose,
              dry_working_new (arena, source_or_practice (product->source), formula, "area",
                               dry_arena_printf (arena, "%s m2", number (self, area, 2)), NULL));
}

/* Products spread over everything that no treatment names: primer, lath. The tile setter's mortar
 * waits for the take-off, which knows the tile. */
static void
add_spread_products (Reckoning *self)
{
  const DrySystem *system = self->context->system;

  for (guint i = 0; i < system->n_products; i++) {
    const DryProduct *product = &system->products[i];
    if (product->use != DRY_USE_AREA || is_named_by_system (system, product->id) ||
        g_str_equal (product->id, DRY_TILE_MORTAR_ID))
      continue;
    add_spread (self, product, "on all of the wet wall");
  }
}

static void
add_surfaces (Reckoning *self)
{
  const DrySystem *system = self->context->system;
  const DryProduct *membrane =
      system->membrane_product ? dry_system_get_product (system, system->membrane_product) : NULL;
  const DryProduct *mortar =
      system->mortar_product ? dry_system_get_product (system, system->mortar_product) : NULL;

  if (membrane && system->membrane == DRY_MEMBRANE_LIQUID)
    add_liquid_membrane (self, membrane);
  else if (membrane && system->membrane == DRY_MEMBRANE_SHEET)
    add_sheet_membrane (self, membrane);
  if (mortar)
    add_spread (self, mortar,
                system->membrane == DRY_MEMBRANE_SHEET ? "under the sheet" : "mortar bed");
  add_spread_products (self);
}

const DryCoating *
dry_coating_compute (const DryPlanContext *context, const DryFaces *faces, const DryBoards *boards,
                     const DryFasteners *fasteners, const DryJoints *joints, GError **error)
{
  DryCoating *self = dry_arena_alloc (context->arena, sizeof *self);
  Reckoning reckoning = {
      context,
      faces,
      boards,
      fasteners,
      joints,
      self,
      g_array_new (FALSE, FALSE, sizeof (DryAmount)),
  };

  for (guint i = 0; i < faces->n; i++)
    self->wet_area += dry_region_area_m2 (&faces->items[i].region);
  for (guint i = 0; i < boards->n; i++)
    self->board_area += dry_outline_area_m2 (&boards->items[i].shape);
  add_fasteners (&reckoning);
  add_treatments (&reckoning);
  add_covers (&reckoning);
  add_surfaces (&reckoning);
  self->n = reckoning.items->len;
  self->items = dry_arena_take_array (context->arena, reckoning.items);
  return self;
}
