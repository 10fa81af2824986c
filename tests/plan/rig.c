/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hand-made walls of the tests of fasteners, joints, coating, take-off and order.
 * Builds values only; it computes nothing that the stages under test compute. */
#include "rig.h"

#include "support/fixtures.h"
#include "walled.h"

static const DrySource invented = {"invented for the test", DRY_CERTAINTY_INVENTED};

static void
set_products (Rig *self)
{
  const DryProduct products[] = {
      {"screw", "Screw", DRY_USE_EACH, "pc", 1, 100, "box of 100", 1000, invented},
      {"washer", "Washer", DRY_USE_EACH, "pc", 1, 50, "bag of 50", 500, invented},
      {"band", "Band", DRY_USE_LENGTH, "m", 1, 10, "roll of 10 m", 2000, invented},
      {"mortar", "Mortar", DRY_USE_AREA, "kg", 3, 22.6796185, "bag of 50 lb", 1500, invented},
      {"sealant", "Sealant", DRY_USE_VOLUME, "L", 1, 0.3, "cartridge", 900, invented},
      {"filler", "Filler", DRY_USE_LENGTH, "m", 1, 2.4384, "strip of 8 ft", 0, invented},
      {"membrane", "Membrane", DRY_USE_AREA, "L", 0.5, 3.785411784, "gallon", 6000, invented},
      {"tile-mortar", "Tile mortar", DRY_USE_AREA, "kg", 3, 22.6796185, "bag of 50 lb", 0,
       invented},
      {"collar", "Collar", DRY_USE_EACH, "pc", 1, 1, "collar", 300, invented},
      {"primer", "Primer", DRY_USE_AREA, "L", 0.1, 1, "can", 700, invented},
  };

  for (guint i = 0; i < G_N_ELEMENTS (products); i++)
    self->products[i] = products[i];
  self->system.products = self->products;
  self->system.n_products = 9; /* without the primer, which few tests want */
}

static void
set_treatments (Rig *self)
{
  const DryJointKind banded[] = {DRY_JOINT_SEAM, DRY_JOINT_INSIDE_CORNER, DRY_JOINT_BASIN,
                                 DRY_JOINT_NICHE};
  DryTreatment *all = self->system.treatments;

  for (guint i = 0; i < G_N_ELEMENTS (banded); i++)
    all[banded[i]] = (DryTreatment){.kind = DRY_TREAT_BAND,
                                    .name = "band in mortar",
                                    .width = IN (4),
                                    .overlap = IN (2),
                                    .product = "band",
                                    .bedding = "mortar",
                                    .watertight = TRUE,
                                    .source = invented};
  all[DRY_JOINT_PENETRATION] = (DryTreatment){.kind = DRY_TREAT_BEAD,
                                              .name = "sealant",
                                              .width = IN (0.25),
                                              .depth = IN (0.25),
                                              .product = "sealant",
                                              .source = invented};
  all[DRY_JOINT_DRYWALL] = (DryTreatment){
      .kind = DRY_TREAT_FILLER, .name = "filler", .product = "filler", .source = invented};
}

static void
set_system (Rig *self)
{
  self->thickness = (DryLengthFigure){IN (0.5), invented};
  self->sheet = (DrySheet){"3x5", "3 x 5 ft", IN (36), IN (60), 2000};
  self->system = (DrySystem){
      .id = "test",
      .name = "Test system",
      .sheets = &self->sheet,
      .n_sheets = 1,
      .joint_gap = IN (0.125),
      .corner_gap = IN (0.125),
      .thicknesses = &self->thickness,
      .n_thicknesses = 1,
      .mass = {10, invented},
      .stud_spacing_max = {IN (16), invented},
      .fastener = "screw",
      .edge_spacing = {IN (8), invented},
      .field_spacing = {IN (8), invented},
      .edge_distance = {IN (0.5), invented},
      .edge_distance_min = {IN (0.375), invented},
      .edge_distance_max = {IN (1), invented},
      .basin_datum = DRY_DATUM_DECK,
      .membrane = DRY_MEMBRANE_LIQUID,
      .needs_membrane = TRUE,
      .membrane_product = "membrane",
      .coats = 2,
      .wet_film = {0.4, invented},
      .hours = {1, invented},
      .tile_mortar = "any",
  };
  self->waits[0] = (DryWait){"recoat", "between coats", 2, 4, invented};
  self->waits[1] = (DryWait){"tile", "to tiling", 12, 24, invented};
  self->waits[2] = (DryWait){"flood-test", "to the flood test", 24, 72, invented};
  self->system.waits = self->waits;
  self->system.n_waits = 3;
  set_products (self);
  set_treatments (self);
}

void
rig_set_up (Rig *self)
{
  memset (self, 0, sizeof *self);
  self->arena = dry_arena_new ();
  self->wall = (DryWall){.id = 1, .height = 0, .lining = IN (0.5), .stud_depth = IN (3.5)};
  self->room = (DryRoom){
      .id = 9, .name = (char *) "Room", .ceiling = IN (96), .walls = &self->wall, .n_walls = 1};
  self->job = (DryJob){.denominator = 16};
  set_system (self);
  self->context = (DryPlanContext){.arena = self->arena,
                                   .job = &self->job,
                                   .room = &self->room,
                                   .system = &self->system,
                                   .build_up = {.board = IN (0.5)}};
  self->faces.items = self->face_items;
  self->framing.items = self->member_items;
  self->boards.items = self->board_items;
  self->boards.blocking = self->blocking_items;
}

void
rig_tear_down (Rig *self)
{
  dry_arena_unref (self->arena);
}

DryFace *
rig_add_face (Rig *self, double length, double height)
{
  DryFace *face = &self->face_items[self->faces.n];

  *face = (DryFace){.index = self->faces.n++,
                    .kind = DRY_FACE_WALL,
                    .wall = 1,
                    .name = "Wall",
                    .mark = "A",
                    .length = IN (length),
                    .height = IN (height),
                    .wet_top = IN (height),
                    .wet_u1 = IN (length),
                    .left = {.face = -1},
                    .right = {.face = -1, .at = IN (length)}};
  face->region = dry_region_from_rect (self->arena, (DryRect){0, 0, IN (length), IN (height)});
  return face;
}

void
rig_join (Rig *self, guint left, guint right, double inset_of_right)
{
  DryFace *face = &self->face_items[left];

  face->right = (DryFaceEnd){.face = (gint) right, .angle = 90, .at = face->length};
  self->face_items[right].left =
      (DryFaceEnd){.face = (gint) left, .angle = 90, .inset = IN (inset_of_right)};
}

DryMember *
rig_add_member (Rig *self, guint face, DryMemberKind kind, double x0, double y0, double x1,
                double y1)
{
  DryMember *member = &self->member_items[self->framing.n++];

  g_assert_cmpuint (self->framing.n, <=, G_N_ELEMENTS (self->member_items));
  *member = (DryMember){.face = face, .kind = kind, .rect = {IN (x0), IN (y0), IN (x1), IN (y1)}};
  return member;
}

void
rig_add_studs (Rig *self, guint face, double first, double spacing, guint n)
{
  for (guint i = 0; i < n; i++)
    rig_add_member (self, face, DRY_MEMBER_STUD, first + i * spacing - 0.75, 0,
                    first + i * spacing + 0.75, 96);
}

DryBoard *
rig_add_board (Rig *self, guint face, double x0, double y0, double x1, double y1)
{
  DryBoard *board = &self->board_items[self->boards.n];
  DryRect rect = {IN (x0), IN (y0), IN (x1), IN (y1)};

  *board = (DryBoard){.index = self->boards.n++,
                      .face = face,
                      .mark = "A1",
                      .shape = dry_region_from_rect (self->arena, rect).polygons[0],
                      .bounds = rect};
  return board;
}

void
rig_cut (Rig *self, guint face, DryCutoutKind kind, DryId object, double x0, double y0, double x1,
         double y1)
{
  DryRect rect = {IN (x0), IN (y0), IN (x1), IN (y1)};
  DryRegion hole = dry_region_from_rect (self->arena, rect);
  DryFace *at = &self->face_items[face];
  DryCutout *cutouts = dry_arena_new_array (self->arena, DryCutout, at->n_cutouts + 1);

  for (guint i = 0; i < at->n_cutouts; i++)
    cutouts[i] = at->cutouts[i];
  cutouts[at->n_cutouts++] = (DryCutout){kind, object, rect, rect};
  at->cutouts = cutouts;
  at->region = dry_region_difference (self->arena, &at->region, &hole);
  for (guint i = 0; i < self->boards.n; i++) {
    DryRegion board = {&self->board_items[i].shape, 1};
    if (self->board_items[i].face != face)
      continue;
    board = dry_region_difference (self->arena, &board, &hole);
    g_assert_cmpuint (board.n_polygons, ==, 1);
    self->board_items[i].shape = board.polygons[0];
  }
}

void
rig_drill (Rig *self, guint board, double x, double y, double diameter)
{
  DryBoard *at = &self->board_items[board];
  DryHole *holes = dry_arena_new_array (self->arena, DryHole, at->n_holes + 1);

  for (guint i = 0; i < at->n_holes; i++)
    holes[i] = at->holes[i];
  holes[at->n_holes++] = (DryHole){70 + at->n_holes, {IN (x), IN (y)}, IN (diameter)};
  at->holes = holes;
}

void
rig_compute (Rig *self)
{
  g_autoptr (GError) error = NULL;
  const DryPlanContext *context = &self->context;

  self->fasteners =
      dry_fasteners_compute (context, &self->faces, &self->framing, &self->boards, &error);
  g_assert_no_error (error);
  self->joints = dry_joints_compute (context, &self->faces, &self->boards, &error);
  g_assert_no_error (error);
  self->coating = dry_coating_compute (context, &self->faces, &self->boards, self->fasteners,
                                       self->joints, &error);
  g_assert_no_error (error);
  self->takeoff =
      dry_takeoff_compute (context, &self->faces, &self->framing, &self->boards, self->fasteners,
                           self->joints, self->coating, NULL, NULL, &error);
  g_assert_no_error (error);
  self->order = dry_order_compute (context, &self->faces, &self->framing, &self->boards,
                                   self->joints, self->coating, NULL, &error);
  g_assert_no_error (error);
}

static void
check_plans (guint n, DryProject *(*make) (guint32), RigCheck check)
{
  for (guint32 seed = 1; seed <= n; seed++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = make (seed);
    g_autoptr (DryPlan) plan =
        dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);
    g_assert_no_error (error);
    check (plan, seed);
  }
}

void
rig_for_random_plans (guint n, RigCheck check)
{
  check_plans (n, dry_test_random_project, check);
}

void
rig_for_walled_plans (guint n, RigCheck check)
{
  check_plans (n, walled_project, check);
}
