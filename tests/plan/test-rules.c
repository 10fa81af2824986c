/* SPDX-License-Identifier: GPL-3.0-or-later */
/* No shipped rule may be one that cannot fail: rooms raise those a document can trigger, and plans
 * spoiled on purpose raise those that look over the stages' shoulders. */
#include <string.h>

#include "plan/rule-room.h"

static DryProject *
start (void)
{
  return rule_room_alcove ("cement-liquid", "us-residential");
}

static DryProject *
start_pan (void)
{
  return rule_room_shower (INCH (40), INCH (40));
}

/* --- parts --- */

static DryPart
make_part (DryPartKind kind, double u, double z, double width, double height)
{
  return (DryPart){.kind = kind,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (width),
                   .height = INCH (height),
                   .depth = INCH (3),
                   .pitch = 0.021,
                   .safety_glass = TRUE};
}

static DryProject *
room_flat_bench (void)
{
  DryPart bench = make_part (DRY_PART_BENCH, 20, 18, 20, 2);

  bench.pitch = 0;
  return rule_room_add_part (start_pan (), 'n', bench);
}

static DryProject *
room_thick_pipe (void)
{
  return rule_room_add_part (start (), 'n', make_part (DRY_PART_PIPE, 30, 30, 24, 1.25));
}

static void
change_exterior (DryWall *wall, gpointer data)
{
  wall->exterior = TRUE;
  wall->insulation = wall->stud_depth;
}

static DryProject *
room_cold_niche (void)
{
  return rule_room_set_wall (
      rule_room_add_part (start (), 'n', make_part (DRY_PART_NICHE, 24, 48, 12, 14)), 'n',
      change_exterior, NULL);
}

static DryProject *
room_cold_valve (void)
{
  return rule_room_set_wall (
      rule_room_add_part (start (), 'n', make_part (DRY_PART_VALVE, 24, 40, 6, 6)), 'n',
      change_exterior, NULL);
}

static DryProject *
room_overlap (DryPartKind kind)
{
  DryProject *project =
      rule_room_add_part (start (), 'n', make_part (DRY_PART_GRAB_BAR, 30, 34, 24, 1.25));

  return rule_room_add_part (project, 'n', make_part (kind, 24, 33, 4, 4));
}

static DryProject *
room_niche_over_bar (void)
{
  return room_overlap (DRY_PART_NICHE);
}

static DryProject *
room_valve_over_bar (void)
{
  return room_overlap (DRY_PART_VALVE);
}

static DryProject *
room_spout_over_bar (void)
{
  return room_overlap (DRY_PART_SPOUT);
}

static DryProject *
room_head_over_bar (void)
{
  return room_overlap (DRY_PART_SHOWER_HEAD);
}

static DryProject *
room_niche_in_corner (void)
{
  return rule_room_add_part (start (), 'n', make_part (DRY_PART_NICHE, 6.5, 48, 12, 14));
}

static DryPart
make_door (double width, double height)
{
  DryPart door = make_part (DRY_PART_GLASS, 40, 5, width, height);

  door.depth = INCH (0.375);
  door.hinged = TRUE;
  return door;
}

static DryProject *
room_wide_door (void)
{
  return rule_room_add_part (start_pan (), 'e', make_door (30, 60));
}

static DryProject *
room_heavy_door (void)
{
  /* 28 x 78 in: 1.409 m2; at 2.5 kg/m2 a millimetre 1/2 in weighs 44.7 kg, 99 lb. */
  DryPart door = make_door (28, 78);

  door.depth = INCH (0.5);
  return rule_room_add_part (start_pan (), 'e', door);
}

static DryProject *
room_glass_strip (void)
{
  return rule_room_add_part (start_pan (), 'e', make_door (4, 60));
}

/* --- walls, basin, ceiling, house --- */

static void
change_lean (DryWall *wall, gpointer data)
{
  wall->plumb_error = wall->square_error = INCH (0.375);
}

static DryProject *
room_leaning (void)
{
  return rule_room_set_wall (rule_room_add_part (start_pan (), 'e', make_door (24, 60)), 'e',
                             change_lean, NULL);
}

static void
change_rim (DryBasin *basin, gpointer data)
{
  basin->rim_error = INCH (0.25);
}

static DryProject *
room_rim (void)
{
  return rule_room_set_basin (start (), change_rim, NULL);
}

static void
change_endless (DryBasin *basin, gpointer data)
{
  basin->length = INCH (80);
}

static DryProject *
room_endless_tub (void)
{
  return rule_room_set_basin (start (), change_endless, NULL);
}

static void
change_low_flange (DryBasin *basin, gpointer data)
{
  basin->flange = INCH (0.5);
}

/* Cement board starts 1 in above the deck: 1/2 in over a flange of 1/2 in. */
static DryProject *
room_low_flange (void)
{
  return rule_room_set_basin (start (), change_low_flange, NULL);
}

static void
change_curbless (DryBasin *basin, gpointer data)
{
  basin->height = INCH (0.5);
}

static DryProject *
room_curbless (void)
{
  return rule_room_set_basin (start_pan (), change_curbless, NULL);
}

static void
change_joists (DryRoom *room, gpointer data)
{
  room->joist_spacing = 0;
}

static DryProject *
room_unknown_ceiling (void)
{
  DryWetZone wet = {.past = INCH (2), .leg = TRUE, .ceiling = TRUE};

  return rule_room_set_room (rule_room_set_wet (start (), wet), change_joists, NULL);
}

static void
change_cold (DryJob *job, gpointer data)
{
  job->temperature = 9; /* 48 F */
}

static DryProject *
room_cold (void)
{
  return rule_room_set_job (start (), change_cold, NULL);
}

static void
change_mosaic (DryFinish *finish, gpointer data)
{
  finish->tiled = TRUE;
  finish->tile = NULL;
  finish->tile_width = finish->tile_height = INCH (1);
}

static DryProject *
room_mosaic_on_gypsum (void)
{
  return rule_room_set_finish (rule_room_alcove ("glass-mat-liquid", "us-residential"),
                               change_mosaic, NULL);
}

static void
change_system (DryFinish *finish, gpointer data)
{
  finish->system = data;
}

static DryProject *
room_long_wall (void)
{
  return rule_room_set_finish (rule_room_shower (INCH (140), INCH (34)), change_system,
                               (gpointer) "cement-liquid");
}

static DryProject *
room_stepped_half_walls (void)
{
  return rule_room_half_walls (36, 30, 40);
}

/* --- wished seams --- */

/* On the north wall of the alcove: 60 in between corners, studs 16 in on center. */
static DryProject *
wish_seam (DryProject *project, gboolean level, double at, double through)
{
  DrySeamWish seam = {.wall = dry_test_wall (project, 'n'),
                      .level = level,
                      .at = INCH (at),
                      .through = INCH (through)};
  DryProject *wished = dry_edit_set_seam (project, dry_test_room (project), &seam, NULL, NULL);

  g_assert_nonnull (wished);
  dry_project_unref (project);
  return wished;
}

static DryProject *
room_seam_off_stud (void)
{
  return wish_seam (start (), FALSE, 38, 60);
}

static DryProject *
room_seam_sliver (void)
{
  return wish_seam (start (), FALSE, 58, 60);
}

static DryProject *
room_seams_crossing (void)
{
  DryProject *project = start ();

  for (guint i = 0; i < 3; i++) /* right across, so that the wall is split in rows */
    project = wish_seam (project, TRUE, 50, 10 + 26 * i - (i == 2 ? 12 : 0));
  return wish_seam (wish_seam (project, FALSE, 32, 52), FALSE, 40, 48);
}

static DryProject *
room_seam_at_niche (void)
{
  DryProject *project =
      rule_room_add_part (start (), 'n', make_part (DRY_PART_NICHE, 24, 48, 12, 20));

  return wish_seam (project, TRUE, 48.5, 31);
}

static DryProject *
room_seam_at_hole (void)
{
  DryPart valve = make_part (DRY_PART_VALVE, 40, 48, 6, 6);

  valve.hole = INCH (4);
  return wish_seam (rule_room_add_part (start (), 'n', valve), TRUE, 48, 40);
}

static DryProject *
room_seam_off_board (void)
{
  return wish_seam (start (), FALSE, 32, 5);
}

static DryProject *
room_seam_on_seam (void)
{
  return wish_seam (wish_seam (start (), FALSE, 32, 60), FALSE, 32.03, 60);
}

static void
change_thin_studs (DryWall *wall, gpointer data)
{
  wall->stud_width = INCH (0.75);
}

static DryProject *
room_seam_on_thin_stud (void)
{
  return wish_seam (rule_room_set_wall (start (), 'n', change_thin_studs, NULL), FALSE, 32.375, 60);
}

static const struct {
  const char *rule;
  DryProject *(*build) (void);
} ROOMS[] = {
    {"wish-off-stud", room_seam_off_stud},
    {"wish-sliver", room_seam_sliver},
    {"wish-stagger", room_seams_crossing},
    {"wish-at-niche-corner", room_seam_at_niche},
    {"wish-through-hole", room_seam_at_hole},
    {"wish-off-board", room_seam_off_board},
    {"wish-too-near", room_seam_on_seam},
    {"wish-second-stud", room_seam_on_thin_stud},
    {"bench-pitch", room_flat_bench},
    {"plate-over-bore", room_thick_pipe},
    {"niche-in-cold-wall", room_cold_niche},
    {"pipes-in-cold-wall", room_cold_valve},
    {"niche-overlaps", room_niche_over_bar},
    {"valve-overlaps", room_valve_over_bar},
    {"spout-overlaps", room_spout_over_bar},
    {"head-overlaps", room_head_over_bar},
    {"bar-overlaps", room_valve_over_bar},
    {"niche-outside-board", room_niche_in_corner},
    {"door-on-two-hinges", room_wide_door},
    {"door-on-two-hinges", room_heavy_door},
    {"panel-narrow", room_glass_strip},
    {"hinge-wall-lean", room_leaning},
    {"corner-taper", room_leaning},
    {"rim-level", room_rim},
    {"basin-outside-room", room_endless_tub},
    {"board-above-flange", room_low_flange},
    {"curbless-dam", room_curbless},
    {"curbless-floor", room_curbless},
    {"ceiling-unknown", room_unknown_ceiling},
    {"temperature", room_cold},
    {"small-tile-on-gypsum", room_mosaic_on_gypsum},
    {"shared-stud-distance", room_long_wall},
    {"end-above-half-wall", room_stepped_half_walls},
};

static void
test_room (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);

  if (!rule_room_is_raised (ROOMS[i].build (), ROOMS[i].rule))
    g_test_fail_printf ("“%s” is not raised", ROOMS[i].rule);
  /* And none of these are raised where nothing is wrong. */
  if (rule_room_is_raised (dry_test_furnished_alcove ("foam-bands"), ROOMS[i].rule))
    g_test_fail_printf ("“%s” is raised in an ordinary alcove", ROOMS[i].rule);
}

/* Either may be the higher; as high as each other nothing stands bare. */
static void
test_half_walls (void)
{
  g_autoptr (DryProject) project = rule_room_half_walls (42, 30, 36);
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  g_assert_cmpint (rule_room_measure (plan, "wall", "end-above-next")->length, ==, INCH (6));
  g_assert_nonnull (rule_room_find (plan, "end-above-half-wall"));
  g_assert_false (rule_room_is_raised (rule_room_half_walls (36, 30, 36), "end-above-half-wall"));
  /* Its end, flush with the other's far side, is as bare; of one that goes on no end is there. */
  g_assert_true (rule_room_is_raised (rule_room_half_walls (42, 33.5, 36), "end-above-half-wall"));
  g_assert_false (rule_room_is_raised (rule_room_half_walls (42, 60, 36), "end-above-half-wall"));
}

/* --- spoiled plans --- */

static void
change_known_tile (DryFinish *finish, gpointer data)
{
  finish->tiled = TRUE;
  for (guint i = 0; i < dry_catalog_get_n_items (dry_test_catalog ()); i++) {
    const DryItem *item = dry_catalog_get_item_at (dry_test_catalog (), i);
    if (item->kind == DRY_ITEM_TILE && item->tile_mass > 0)
      finish->tile = (char *) item->id;
  }
}

/* The long wall with what must be held, and with openings elsewhere. */
static DryProject *
room_laden (void)
{
  DryOpening door = {
      .kind = DRY_OPENING_DOOR, .u = INCH (20), .width = INCH (28), .height = INCH (80)};
  DryOpening window = {.kind = DRY_OPENING_WINDOW,
                       .u = INCH (80),
                       .z = INCH (70),
                       .width = INCH (20),
                       .height = INCH (20)};
  DryPart seat = make_part (DRY_PART_BENCH, 56, 18, 20, 2);
  DryProject *project = rule_room_set_wet (
      room_long_wall (), (DryWetZone){.past = INCH (2), .leg = TRUE, .ceiling = TRUE});

  seat.fold_down = TRUE;
  project = rule_room_set_finish (project, change_known_tile, NULL);
  project = rule_room_add_part (project, 'n', seat);
  project = rule_room_add_part (project, 'n', make_part (DRY_PART_GRAB_BAR, 104, 34, 20, 1.25));
  project = rule_room_add_part (project, 'e', make_door (24, 60));
  project = rule_room_add_opening (project, 's', door);
  return rule_room_add_opening (project, 's', window);
}

/* A plan whose stages' answers are copied, so that a test may spoil them. */
typedef struct {
  DryPlan plan;
  DrySystem system;
  DryBoards boards;
  DryFasteners fasteners;
  DryFaces faces;
  DryJoints joints;
  DryCoating coating;
  DryOrder order;
  DryFraming framing;
  DryCutting cutting;
  DryRoom room;
} Spoiled;

static void
copy_plan (Spoiled *self, const DryPlan *plan)
{
  DryArena *arena = plan->context.arena;

  *self =
      (Spoiled){*plan,         *plan->context.system, *plan->boards, *plan->fasteners, *plan->faces,
                *plan->joints, *plan->coating,        *plan->order,  *plan->framing,   {0}};
  self->boards.seams =
      dry_arena_copy (arena, self->boards.seams, sizeof (DrySeam) * self->boards.n_seams);
  self->fasteners.items =
      dry_arena_copy (arena, self->fasteners.items, sizeof (DryFastener) * self->fasteners.n);
  self->faces.items = dry_arena_copy (arena, self->faces.items, sizeof (DryFace) * self->faces.n);
  self->joints.items =
      dry_arena_copy (arena, self->joints.items, sizeof (DryJoint) * self->joints.n);
  self->plan.context.system = &self->system;
  self->plan.boards = &self->boards;
  self->plan.fasteners = &self->fasteners;
  self->plan.faces = &self->faces;
  self->plan.joints = &self->joints;
  self->plan.coating = &self->coating;
  self->plan.order = &self->order;
  self->plan.framing = &self->framing;
}

static DrySeam *
find_upright (Spoiled *self)
{
  for (guint i = 0; i < self->boards.n_seams; i++)
    if (self->boards.seams[i].vertical)
      return &self->boards.seams[i];
  g_error ("The long wall has no upright seam");
}

static void
spoil_seam (Spoiled *self)
{
  find_upright (self)->member = -1;
}

static void
spoil_stud (Spoiled *self)
{
  find_upright (self)->needs_second_stud = TRUE;
}

/* A niche and a hole put where the seam is, after the boards were split. */
static void
spoil_niche (Spoiled *self)
{
  DrySeam *seam = find_upright (self);
  DryFace *face = &self->faces.items[seam->face];
  DryCutout *cutout = dry_arena_alloc (self->plan.context.arena, sizeof (DryCutout));
  DryLength middle = (seam->from.y + seam->to.y) / 2;

  cutout->kind = DRY_CUT_NICHE;
  cutout->rough =
      (DryRect){seam->from.x + DRY_INCH, middle, seam->from.x + 10 * DRY_INCH, middle + DRY_FOOT};
  face->cutouts = cutout;
  face->n_cutouts = 1;
}

static void
spoil_hole (Spoiled *self)
{
  DrySeam *seam = find_upright (self);
  DryFace *face = &self->faces.items[seam->face];
  DryHole *hole = dry_arena_alloc (self->plan.context.arena, sizeof (DryHole));

  hole->centre = (DryPoint){seam->from.x + DRY_INCH, (seam->from.y + seam->to.y) / 2};
  hole->diameter = 3 * DRY_INCH;
  face->holes = hole;
  face->n_holes = 1;
}

static void
spoil_cross (Spoiled *self)
{
  DrySeam *seam = find_upright (self), level = *seam;
  DrySeam *both =
      dry_arena_alloc (self->plan.context.arena, sizeof (DrySeam) * (self->boards.n_seams + 1));

  level.vertical = FALSE;
  level.member = -1;
  level.from.y = level.to.y = (seam->from.y + seam->to.y) / 2;
  level.from.x -= DRY_FOOT;
  level.to.x += DRY_FOOT;
  memcpy (both, self->boards.seams, sizeof (DrySeam) * self->boards.n_seams);
  both[self->boards.n_seams++] = level;
  self->boards.seams = both;
}

static void
spoil_fastener (Spoiled *self)
{
  const DryBoard *board = &self->boards.items[self->fasteners.items[0].board];

  self->fasteners.items[0].at.x = board->bounds.x0 + DRY_INCH / 8;
}

/* Two of three fasteners fell out. */
static void
spoil_rows (Spoiled *self)
{
  guint kept = 0;

  for (guint i = 0; i < self->fasteners.n; i += 3)
    self->fasteners.items[kept++] = self->fasteners.items[i];
  self->fasteners.n = kept;
}

static void
spoil_edge (Spoiled *self)
{
  DryUnheldEdge *edge = dry_arena_alloc (self->plan.context.arena, sizeof (DryUnheldEdge));

  self->fasteners.unheld = edge;
  self->fasteners.n_unheld = 1;
}

static void
spoil_cover (Spoiled *self)
{
  self->coating.n = 0;
}

static void
spoil_membrane (Spoiled *self)
{
  self->system.membrane_product = NULL;
}

static void
spoil_sheets (Spoiled *self)
{
  static const guint UNPLACED[] = {0};
  DryPiece *piece = dry_arena_alloc (self->plan.context.arena, sizeof (DryPiece));

  piece->name = self->boards.items[0].mark;
  self->cutting.pieces = piece;
  self->cutting.n_pieces = 1;
  self->cutting.unplaced = UNPLACED;
  self->cutting.n_unplaced = 1;
  self->boards.cutting = &self->cutting;
}

static void
spoil_width (Spoiled *self)
{
  self->system.min_piece = 50 * DRY_INCH;
}

static void
spoil_band (Spoiled *self)
{
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++) {
    self->system.treatments[i].kind = DRY_TREAT_BAND;
    self->system.treatments[i].overlap = DRY_INCH;
  }
}

static void
spoil_treatments (Spoiled *self)
{
  for (guint i = 0; i < DRY_N_JOINT_KINDS; i++)
    self->system.treatments[i] = (DryTreatment){.kind = DRY_TREAT_NONE};
  for (guint i = 0; i < self->joints.n; i++)
    self->joints.items[i].gap = DRY_INCH / 4;
}

static void
spoil_open (Spoiled *self)
{
  spoil_treatments (self);
  spoil_membrane (self);
}

static void
spoil_pipes (Spoiled *self)
{
  spoil_treatments (self);
  self->joints.items[0].kind = DRY_JOINT_PENETRATION;
}

static void
spoil_tight (Spoiled *self)
{
  for (guint i = 0; i < self->joints.n; i++)
    self->joints.items[i].gap = 0;
}

static void
spoil_ledge (Spoiled *self)
{
  for (guint i = 0; i < self->faces.n; i++)
    self->faces.items[i].board_bottom = self->faces.items[i].deck;
}

static void
spoil_order (Spoiled *self)
{
  self->order.n = 1;
}

/* Nothing put in to hold what hangs on the walls. */
static void
spoil_blocking (Spoiled *self)
{
  self->framing.n = 0;
  self->boards.n_blocking = 0;
}

static void
spoil_ceiling (Spoiled *self)
{
  self->system.ceiling_spacing_max.value = 0;
}

static void
spoil_rating (Spoiled *self)
{
  self->system.tile_mass_max.value = 0.5;
}

/* Openings longer than their walls; the document's own edits let none in. */
static void
spoil_openings (Spoiled *self)
{
  self->room = *self->plan.context.room;
  self->room.openings = dry_arena_copy (self->plan.context.arena, self->room.openings,
                                        sizeof (DryOpening) * self->room.n_openings);
  for (guint i = 0; i < self->room.n_openings; i++)
    self->room.openings[i].width = 100 * DRY_FOOT;
  self->plan.context.room = &self->room;
}

static const struct {
  const char *rule;
  void (*spoil) (Spoiled *self);
} SPOILED[] = {
    {"seam-off-framing", spoil_seam},
    {"shared-stud-second", spoil_stud},
    {"seam-at-niche-corner", spoil_niche},
    {"seam-through-hole", spoil_hole},
    {"four-corners", spoil_cross},
    {"fasteners-edge", spoil_fastener},
    {"fasteners-edge-step", spoil_rows},
    {"fasteners-field-step", spoil_rows},
    {"edge-unheld", spoil_edge},
    {"fasteners-uncovered", spoil_cover},
    {"no-membrane", spoil_membrane},
    {"board-too-large", spoil_sheets},
    {"board-sliver", spoil_width},
    {"band-overlap", spoil_band},
    {"gap-under-liquid", spoil_treatments},
    {"joint-open", spoil_open},
    {"pipe-unsealed", spoil_pipes},
    {"basin-joint", spoil_tight},
    {"grab-bar-blocking", spoil_blocking},
    {"seat-blocking", spoil_blocking},
    {"glass-blocking", spoil_blocking},
    {"ceiling-system", spoil_ceiling},
    {"tile-weight", spoil_rating},
    {"window-outside-wall", spoil_openings},
    {"door-outside-wall", spoil_openings},
    {"board-on-ledge", spoil_ledge},
    {"no-flood-test", spoil_order},
};

static gboolean
raises (const DryPlan *plan, const char *rule)
{
  g_autoptr (GError) error = NULL;
  const DryMeasures *measures = dry_measures_compute (&plan->context, plan, &error);
  const DryFindings *findings = dry_findings_compute (&plan->context, measures, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < findings->n; i++)
    if (strcmp (findings->items[i].rule->id, rule) == 0)
      return TRUE;
  return FALSE;
}

static void
test_spoiled (gconstpointer data)
{
  const char *rule = SPOILED[GPOINTER_TO_UINT (data)].rule;
  g_autoptr (DryProject) project = room_laden ();
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  Spoiled spoiled;

  copy_plan (&spoiled, plan);
  if (raises (&spoiled.plan, rule))
    g_test_fail_printf ("“%s” is raised by a plan nobody spoiled", rule);
  SPOILED[GPOINTER_TO_UINT (data)].spoil (&spoiled);
  if (!raises (&spoiled.plan, rule))
    g_test_fail_printf ("“%s” is not raised by the spoiled plan", rule);
}

/* Wherever a pane meets a boarded wall, a stud stands behind it: one for it, or one that was there
 * or that the edge of the wet wall had asked for already. */
static void
test_glass_along_wall (void)
{
  for (guint step = 0; step < 80; step++) {
    DryPart glass = make_part (DRY_PART_GLASS, 4 + step * 0.5, 5, 24, 70);
    g_autoptr (DryProject) project =
        rule_room_add_part (rule_room_shower (INCH (60), INCH (36)), 'e', glass);
    g_autoptr (DryPlan) plan = rule_room_plan (project);

    if (rule_room_find (plan, "glass-blocking"))
      g_test_fail_printf ("nothing behind the glass at %g in", 4 + step * 0.5);
  }
}

/* --- all rules --- */

/* The nearest length that breaks a condition on a length. */
static DryLength
break_length (const DryCondition *condition)
{
  switch (condition->compare) {
  case DRY_COMPARE_LESS:
  case DRY_COMPARE_NOT_EQUAL:
    return condition->length;
  case DRY_COMPARE_AT_LEAST:
    return condition->length - 1;
  default:
    return condition->compare == DRY_COMPARE_GREATER ? condition->length : condition->length + 1;
  }
}

/* FALSE when what breaks `broken` also breaks a condition under `when`, so that the rule could
 * never be raised. */
static gboolean
can_fail (const DryRule *rule, const DryCondition *broken)
{
  for (guint i = 0; i < rule->n_when; i++) {
    const DryCondition *when = &rule->when[i];
    DryLength length;

    if (strcmp (when->measure, broken->measure) != 0 || when->kind != broken->kind)
      continue;
    if (when->kind == DRY_LIMIT_BOOLEAN && (when->number != 0) == (broken->number != 0))
      return FALSE;
    if (when->kind != DRY_LIMIT_LENGTH)
      continue;
    length = break_length (broken);
    if ((when->compare == DRY_COMPARE_LESS && length >= when->length) ||
        (when->compare == DRY_COMPARE_AT_MOST && length > when->length) ||
        (when->compare == DRY_COMPARE_GREATER && length <= when->length) ||
        (when->compare == DRY_COMPARE_AT_LEAST && length < when->length))
      return FALSE;
  }
  return TRUE;
}

static void
test_no_contradiction (void)
{
  const DryRulePack *pack = dry_catalog_get_rule_pack (dry_test_catalog (), "us-residential");

  for (guint i = 0; i < pack->n_rules; i++)
    for (guint j = 0; j < pack->rules[i].n_require; j++)
      if (!can_fail (&pack->rules[i], &pack->rules[i].require[j]))
        g_test_fail_printf ("“%s” can never be raised by its “%s”", pack->rules[i].id,
                            pack->rules[i].require[j].measure);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (ROOMS); i++) {
    g_autofree char *path = g_strdup_printf ("/rules/room/%s-%u", ROOMS[i].rule, i);
    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_room);
  }
  for (guint i = 0; i < G_N_ELEMENTS (SPOILED); i++) {
    g_autofree char *path = g_strdup_printf ("/rules/spoiled/%s", SPOILED[i].rule);
    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_spoiled);
  }
  g_test_add_func ("/rules/glass-along-wall", test_glass_along_wall);
  g_test_add_func ("/rules/half-walls", test_half_walls);
  g_test_add_func ("/rules/no-contradiction", test_no_contradiction);
  return g_test_run ();
}
