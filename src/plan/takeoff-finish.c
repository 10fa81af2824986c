/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Take-off lines of what no backer system lists: lumber for added framing, tile, its mortar and
 * grout. Knows formulas of the trade, not prices: these lines have none. */
#include "plan/amounts.h"
#include "plan/takeoff-private.h"

#define BAG_50_LB (50 * DRY_KG_PER_LB)
#define BAG_10_LB (10 * DRY_KG_PER_LB)

/* Tile of this side and more has its back buttered: a skim of 1/32 in, 1.5 kg of dry mortar a
 * litre. Common practice, no source. */
#define BUTTERED_FROM (15 * DRY_INCH)
#define BUTTER        (25.4 / 32 * 1.5) /* kg/m2 */

static const DrySource practice = {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE};

/* --- lumber --- */

/* Dressed widths and the names they are sold by (PS 20). */
static const struct {
  DryLength dressed; /* in 64ths of an inch */
  const char *nominal;
} lumber[] = {
    {64 + 32, "2"},     {2 * 64 + 32, "3"},  {3 * 64 + 32, "4"},   {5 * 64 + 32, "6"},
    {7 * 64 + 16, "8"}, {9 * 64 + 16, "10"}, {11 * 64 + 16, "12"},
};

/* Not of two-by stock: what holds the back of a niche. */
#define STRIP "strip"

static const char *
name_of_width (DryLength width)
{
  for (guint i = 0; i < G_N_ELEMENTS (lumber); i++)
    if (width <= lumber[i].dressed * DRY_INCH_64)
      return lumber[i].nominal;
  return "12";
}

/* Seen on the face a stud shows its edge; blocking laid flat shows its width. */
static const char *
nominal_of (const DryTakeoffDraft *self, const DryMember *member)
{
  if (member->kind == DRY_MEMBER_CLEAT)
    return STRIP;
  DryLength shown = MIN (dry_rect_width (member->rect), dry_rect_height (member->rect));

  return name_of_width (shown <= 2 * DRY_INCH ? self->context->room->walls[0].stud_depth : shown);
}

static DryLength
length_of (const DryMember *member)
{
  return MAX (dry_rect_width (member->rect), dry_rect_height (member->rect));
}

static void
gather_lumber (const DryTakeoffDraft *self, const char *nominal, GArray *lengths)
{
  for (guint i = 0; i < self->framing->n + self->boards->n_blocking; i++) {
    const DryMember *member = dry_fasteners_get_member (self->framing, self->boards, (gint) i);
    DryLength length = length_of (member);
    if ((member->added || i >= self->framing->n) &&
        g_str_equal (nominal_of (self, member), nominal))
      g_array_append_val (lengths, length);
  }
}

/* The shortest length sold, in feet, from which every piece can be cut; longer ones are spliced. */
static int
choose_stock_feet (GArray *lengths)
{
  static const int feet[] = {8, 10, 12, 16};
  DryLength longest = 0;

  for (guint i = 0; i < lengths->len; i++)
    longest = MAX (longest, g_array_index (lengths, DryLength, i));
  for (guint i = 0; i < G_N_ELEMENTS (feet); i++)
    if (longest <= feet[i] * DRY_FOOT)
      return feet[i];
  for (guint i = 0; i < lengths->len; i++) {
    DryLength *at = &g_array_index (lengths, DryLength, i);
    DryLength rest = *at - 16 * DRY_FOOT;
    if (rest > 0) {
      *at = 16 * DRY_FOOT;
      g_array_append_val (lengths, rest);
    }
  }
  return 16;
}

static void
add_lumber_of (DryTakeoffDraft *self, const char *nominal)
{
  g_autoptr (GArray) lengths = g_array_new (FALSE, FALSE, sizeof (DryLength));
  DryArena *arena = self->context->arena;
  DryLength total = 0;

  gather_lumber (self, nominal, lengths);
  if (lengths->len == 0)
    return;
  guint pieces = lengths->len;
  int feet = choose_stock_feet (lengths);
  for (guint i = 0; i < lengths->len; i++)
    total += g_array_index (lengths, DryLength, i);
  guint n = dry_stock_lengths ((const DryLength *) (gconstpointer) lengths->data, lengths->len,
                               feet * DRY_FOOT);
  gboolean strip = g_str_equal (nominal, STRIP);
  const char *formula =
      dry_arena_printf (arena, "%u piece%s, %s in all, cut from %u length%s of %s", pieces,
                        pieces == 1 ? "" : "s", dry_metres_text (arena, total), n,
                        n == 1 ? "" : "s", dry_metres_text (arena, feet * DRY_FOOT));
  dry_takeoff_add (
      self,
      (DryTakeoffLine){
          .id = strip                        ? STRIP
                : g_str_equal (nominal, "4") ? "lumber"
                                             : dry_arena_printf (arena, "lumber-2x%s", nominal),
          .group = "framing",
          .name = strip ? dry_arena_printf (arena, "3/4\" x 1 1/2\" strip, %d ft", feet)
                        : dry_arena_printf (arena, "2x%s stud, %d ft", nominal, feet),
          .amount = n,
          .unit = "pc",
          .pack = 1,
          .pack_name = dry_arena_printf (arena, "%d ft length", feet),
          .working = dry_working_new (arena, practice, formula, "pieces",
                                      dry_arena_printf (arena, "%u", pieces), "total",
                                      dry_metres_text (arena, total), NULL)});
}

void
dry_takeoff_add_lumber (DryTakeoffDraft *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (lumber); i++)
    add_lumber_of (self, lumber[i].nominal);
  add_lumber_of (self, STRIP);
}

/* --- tile --- */

static double
tiled_area (const DryTakeoffDraft *self)
{
  if (self->tiling && self->tiling->n_tiles > 0)
    return self->tiling->area;
  return self->context->system->n_sheets ? self->coating->board_area : self->coating->wet_area;
}

static const char *
name_of_tile (const DryTakeoffDraft *self, const DryFinish *finish)
{
  const DryItem *item =
      finish->tile ? dry_catalog_get_item (self->context->catalog, finish->tile) : NULL;

  return item ? item->name
              : dry_arena_printf (self->context->arena, "Tile %s x %s",
                                  dry_context_length (self->context, finish->tile_width),
                                  dry_context_length (self->context, finish->tile_height));
}

/* The layout's own count, with what the usual allowance would have bought beside it. */
static void
add_tiles_laid (DryTakeoffDraft *self, const DryFinish *finish)
{
  const DryTiling *tiling = self->tiling;
  gboolean sheets = tiling->sheet_across > 0;
  GArray *inputs = g_array_new (FALSE, FALSE, sizeof (DryInput));
  DryWorking working = {.source = {"counted on the layout", DRY_CERTAINTY_DERIVED}};

  for (guint i = 0; i < tiling->n_counts; i++) {
    DryInput input = {tiling->counts[i].name, tiling->counts[i].working.formula};

    g_array_append_val (inputs, input);
  }
  working.formula =
      sheets
          ? dry_arena_printf (
                self->context->arena, "%u whole + %u cut by rows of chips + %u spare = %u sheets",
                tiling->n_whole_sheets, tiling->n_part_sheets, tiling->n_spare, tiling->n_sheets)
          : dry_arena_printf (self->context->arena,
                              "%u whole + %u for %u cuts + %u spare = %u tiles", tiling->n_whole,
                              tiling->n_for_cuts, tiling->n_cut, tiling->n_spare, tiling->n_tiles);
  working.n_inputs = inputs->len;
  working.inputs = dry_arena_take_array (self->context->arena, inputs);
  dry_takeoff_add (self,
                   (DryTakeoffLine){.id = "tile",
                                    .group = "tile",
                                    .name = name_of_tile (self, finish),
                                    .amount = dry_tiling_to_buy (tiling),
                                    .unit = sheets ? "sheet" : "pc",
                                    .pack = tiling->box > 0 ? tiling->box : 1,
                                    .pack_name = tiling->box > 0
                                                     ? dry_arena_printf (self->context->arena,
                                                                         "box of %u", tiling->box)
                                                 : sheets ? "sheet"
                                                          : "tile",
                                    .working = working});
}

static void
add_tiles_by_area (DryTakeoffDraft *self, const DryFinish *finish)
{
  DryArena *arena = self->context->arena;
  double area = tiled_area (self), more = dry_tile_allowance (finish->pattern);
  double each = dry_tile_area (finish, finish->joint);
  double amount = area * (1 + more);
  const char *formula = dry_arena_printf (
      arena, "%s m2 + %s %% = %s m2; / %s m2 a tile and its joint = %" G_GINT64_FORMAT " tiles",
      dry_takeoff_number (self, area, 2), dry_takeoff_number (self, more * 100, 0),
      dry_takeoff_number (self, amount, 2), dry_takeoff_number (self, each, 5),
      dry_packs_for (amount, each));

  dry_takeoff_add (
      self,
      (DryTakeoffLine){
          .id = "tile",
          .group = "tile",
          .name = name_of_tile (self, finish),
          .amount = amount,
          .unit = "m2",
          .pack = each,
          .pack_name = "tile",
          .working = dry_working_new (
              arena, practice, formula, "area",
              dry_arena_printf (arena, "%s m2", dry_takeoff_number (self, area, 2)), "allowance",
              dry_arena_printf (arena, "%s %%", dry_takeoff_number (self, more * 100, 0)), NULL)});
}

void
dry_takeoff_add_tile_mortar (DryTakeoffDraft *self, DryTakeoffLine line, double kg)
{
  const DryProduct *product = dry_system_get_product (self->context->system, DRY_TILE_MORTAR_ID);

  line.amount = kg;
  line.unit = "kg";
  line.pack = product && product->pack > 0 ? product->pack : BAG_50_LB;
  line.pack_name = product ? product->pack_name : "bag of 50 lb";
  line.price = product ? product->price : 0;
  dry_takeoff_add (self, line);
}

void
dry_takeoff_add_grout (DryTakeoffDraft *self, DryTakeoffLine line, double kg)
{
  line.amount = kg;
  line.unit = "kg";
  line.pack = BAG_10_LB;
  line.pack_name = "bag of 10 lb";
  dry_takeoff_add (self, line);
}

static void
add_mortar (DryTakeoffDraft *self, const DryFinish *finish)
{
  DryArena *arena = self->context->arena;
  const DrySystem *system = self->context->system;
  const DryProduct *product = dry_system_get_product (system, DRY_TILE_MORTAR_ID);
  const DryTrowel *trowel = dry_trowel_for_tile (MAX (finish->tile_width, finish->tile_height));
  gboolean butter = MAX (finish->tile_width, finish->tile_height) >= BUTTERED_FROM;
  double area = tiled_area (self), spread = dry_trowel_mass (trowel);
  double rate = spread + (butter ? BUTTER : 0);
  const char *formula = dry_arena_printf (
      arena, "%s m2 x %s%s%s kg/m2 = %s kg", dry_takeoff_number (self, area, 2), butter ? "(" : "",
      dry_takeoff_number (self, spread, 2),
      butter ? dry_arena_printf (arena, " + %s)", dry_takeoff_number (self, BUTTER, 2)) : "",
      dry_takeoff_number (self, area * rate, 1));
  const char *coverage = dry_arena_printf (arena, "%s to %s ft2 a 50 lb bag",
                                           dry_takeoff_number (self, trowel->ft2_low, 0),
                                           dry_takeoff_number (self, trowel->ft2_high, 0));
  DrySource source = {"coverage of a 50 lb bag as how-to pages print it", DRY_CERTAINTY_SECONDARY};

  dry_takeoff_add_tile_mortar (
      self,
      (DryTakeoffLine){
          .id = DRY_TILE_MORTAR_ID,
          .group = "tile",
          .name = product ? product->name : "Tile mortar",
          .working = dry_working_new (
              arena, source, formula, "trowel", trowel->name, "coverage", coverage,
              butter ? "backs buttered" : NULL,
              "1/32 in at 1.5 kg/L of dry mortar, for tile of 15 in and more: common practice, no "
              "source",
              NULL)},
      area * rate);
}

static void
add_grout (DryTakeoffDraft *self, const DryFinish *finish)
{
  DryArena *arena = self->context->arena;
  gboolean laid = self->tiling && self->tiling->n_tiles > 0;
  DryLength joint = laid ? self->tiling->joint : finish->joint;
  double area = tiled_area (self), depth = dry_length_to_mm (finish->tile_thickness);
  double litres = dry_grout_volume_short (finish->tile_width, finish->tile_height, joint,
                                          finish->tile_thickness);
  double mass = area * litres * DRY_GROUT_DENSITY;
  const char *a = dry_takeoff_number (self, dry_length_to_mm (finish->tile_width), 2);
  const char *b = dry_takeoff_number (self, dry_length_to_mm (finish->tile_height), 2);
  const char *formula = dry_arena_printf (
      arena, "(%s + %s) / (%s x %s) x %s mm x %s mm = %s L/m2; x %s m2 x %s kg/L = %s kg", a, b, a,
      b, dry_takeoff_number (self, dry_length_to_mm (joint), 3),
      dry_takeoff_number (self, dry_length_to_mm (finish->tile_thickness), 3),
      dry_takeoff_number (self, litres, 3), dry_takeoff_number (self, area, 2),
      dry_takeoff_number (self, DRY_GROUT_DENSITY, 2), dry_takeoff_number (self, mass, 2));

  /* The printed formula counts the crossings of joints twice; the layout does not. */
  const char *exact =
      laid ? dry_arena_printf (arena, "%s m2 x %s mm = %s L",
                               dry_takeoff_number (self, self->tiling->joint_area, 3),
                               dry_takeoff_number (self, depth, 3),
                               dry_takeoff_number (self, self->tiling->joint_area * depth, 2))
           : NULL;

  dry_takeoff_add_grout (
      self,
      (DryTakeoffLine){.id = "grout",
                       .group = "tile",
                       .name = "Grout",
                       .working = dry_working_new (
                           arena,
                           (DrySource){"widely printed grout formula; density from memory",
                                       DRY_CERTAINTY_SECONDARY},
                           formula, "joint", dry_mm_text (arena, joint), "depth",
                           dry_mm_text (arena, finish->tile_thickness),
                           laid ? "joints on the layout" : NULL, exact, NULL)},
      mass);
}

void
dry_takeoff_add_tile (DryTakeoffDraft *self)
{
  const DryRoom *room = self->context->room;

  if (!room->finish.tiled)
    return;
  if (self->tiling && self->tiling->n_tiles > 0)
    add_tiles_laid (self, &room->finish);
  else
    add_tiles_by_area (self, &room->finish);
  add_mortar (self, &room->finish);
  add_grout (self, &room->finish);
}
