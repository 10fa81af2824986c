/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the plan of the drawing tests by hand.
 * Calls no stage, so a change in how boards are chosen does not touch the golden drawings. */
#include "fixture-plan.h"

#include "support/fixtures.h"

#define IN(x) ((DryLength) ((x) *25400000.0))

static DryFaces *
make_faces (DryArena *arena, const DryRoom *room, const DryProject *project)
{
  DryFaces *faces = dry_arena_alloc (arena, sizeof (DryFaces));
  static const char *const names[] = {"Left end wall", "Back wall", "Right end wall"};
  static const char *const marks[] = {"A", "B", "C"};
  static const char compass[] = "wne";
  DryLength x = 0;

  faces->n = 3;
  faces->items = dry_arena_new_array (arena, DryFace, 3);
  for (guint i = 0; i < 3; i++) {
    DryFace *f = &faces->items[i];
    gboolean back = i == 1;
    const DryWall *wall = dry_room_get_wall (room, dry_test_wall (project, compass[i]));
    f->index = i;
    f->kind = DRY_FACE_WALL;
    f->wall = wall->id;
    f->name = names[i];
    f->mark = marks[i];
    f->length = dry_wall_length (wall);
    f->height = IN (96);
    f->strip_x = x;
    x += f->length;
    f->wet_top = IN (96);
    f->wet_u0 = i == 0 ? f->length - IN (32) : 0;
    f->wet_u1 = i == 2 ? IN (32) : f->length;
    f->dry_left = i == 0;
    f->dry_right = i == 2;
    f->at_basin = TRUE;
    f->basin_u0 = i == 0 ? f->length - IN (30) : 0;
    f->basin_u1 = back ? IN (60) : i == 0 ? f->length : IN (30);
    f->deck = IN (15);
    f->flange_top = IN (16);
    f->board_bottom = IN (16.125);
    f->left.face = (gint) i - 1;
    f->right.face = i == 2 ? -1 : (gint) i + 1;
    f->region =
        dry_region_from_rect (arena, (DryRect){f->wet_u0, f->board_bottom, f->wet_u1, IN (96)});
  }
  faces->strip_length = x;
  return faces;
}

static void
add_niche (DryArena *arena, DryFace *face, const DryRoom *room)
{
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    DryCutout *cut;
    if (part->kind != DRY_PART_NICHE || part->wall != face->wall)
      continue;
    cut = dry_arena_new_array (arena, DryCutout, 1);
    *cut = (DryCutout){DRY_CUT_NICHE, part->id,
                       dry_rect_inflate (dry_part_rect (part), IN (0.9375)), dry_part_rect (part)};
    face->cutouts = cut;
    face->n_cutouts = 1;
  }
}

static void
add_holes (DryArena *arena, DryFace *face, const DryRoom *room)
{
  GArray *holes = g_array_new (FALSE, FALSE, sizeof (DryHole));

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    DryHole hole = {part->id, {part->u, part->z}, part->hole};
    if (part->wall == face->wall && part->hole > 0)
      g_array_append_val (holes, hole);
  }
  face->n_holes = holes->len;
  face->holes = dry_arena_take_array (arena, holes);
}

static DryFraming *
make_framing (DryArena *arena, const DryFaces *faces)
{
  DryFraming *framing = dry_arena_alloc (arena, sizeof (DryFraming));
  GArray *members = g_array_new (FALSE, TRUE, sizeof (DryMember));

  for (guint i = 0; i < faces->n; i++)
    for (DryLength u = IN (16); u < faces->items[i].length; u += IN (16)) {
      DryMember m = {.face = i,
                     .kind = DRY_MEMBER_STUD,
                     .rect = {u - IN (0.75), IN (1.5), u + IN (0.75), IN (94.5)}};
      g_array_append_val (members, m);
    }
  {
    DryMember block = {.face = 2,
                       .kind = DRY_MEMBER_BLOCKING,
                       .rect = {IN (8), IN (38), IN (15.25), IN (41.5)},
                       .added = TRUE,
                       .reason = "carries the valve"};
    g_array_append_val (members, block);
  }
  framing->n = members->len;
  framing->items = dry_arena_take_array (arena, members);
  return framing;
}

static DryBoards *
make_boards (DryArena *arena, const DryFaces *faces)
{
  DryBoards *boards = dry_arena_alloc (arena, sizeof (DryBoards));
  static const struct {
    guint face;
    const char *mark;
    double r[4];
  } given[] = {{0, "A1", {64, 16.125, 96, 96}},
               {1, "B1", {0, 16.125, 32, 64}},
               {1, "B2", {32, 16.125, 60, 64}},
               {1, "B3", {0, 64.125, 60, 96}},
               {2, "C1", {0, 16.125, 32, 96}}};
  DrySeam *seam = dry_arena_new_array (arena, DrySeam, 2);

  boards->n = G_N_ELEMENTS (given);
  boards->items = dry_arena_new_array (arena, DryBoard, boards->n);
  for (guint i = 0; i < boards->n; i++) {
    DryBoard *b = &boards->items[i];
    DryRect r = {IN (given[i].r[0]), IN (given[i].r[1]), IN (given[i].r[2]), IN (given[i].r[3])};
    DryRegion region = dry_region_from_rect (arena, r);
    b->index = i;
    b->face = given[i].face;
    b->mark = given[i].mark;
    b->bounds = r;
    b->shape = region.polygons[0];
  }
  boards->items[4].holes = faces->items[2].holes;
  boards->items[4].n_holes = faces->items[2].n_holes;
  seam[0] = (DrySeam){.face = 1,
                      .from = {IN (32), IN (16.125)},
                      .to = {IN (32), IN (64)},
                      .vertical = TRUE,
                      .member = -1};
  seam[1] = (DrySeam){.face = 1, .from = {0, IN (64)}, .to = {IN (60), IN (64)}, .member = -1};
  boards->seams = seam;
  boards->n_seams = 2;
  return boards;
}

static DryCutting *
make_cutting (DryArena *arena)
{
  DryCutting *cutting = dry_arena_alloc (arena, sizeof (DryCutting));
  DryStock *stock = dry_arena_new_array (arena, DryStock, 1);
  DryPiece *pieces = dry_arena_new_array (arena, DryPiece, 2);
  DryPlacement *places = dry_arena_new_array (arena, DryPlacement, 2);
  DryCut *cuts = dry_arena_new_array (arena, DryCut, 3);
  DryRect *offcuts = dry_arena_new_array (arena, DryRect, 1);
  DrySheetLayout *layout = dry_arena_new_array (arena, DrySheetLayout, 1);
  DryRect whole = {0, 0, IN (48), IN (96)};

  stock[0] = (DryStock){.id = "4x8", .width = IN (48), .height = IN (96), .count = -1};
  pieces[0] = (DryPiece){"B1", IN (32), IN (47.875), TRUE};
  pieces[1] = (DryPiece){"B2", IN (28), IN (47.875), TRUE};
  places[0] = (DryPlacement){0, {0, 0, IN (32), IN (47.875)}, FALSE};
  places[1] = (DryPlacement){1, {0, IN (47.875), IN (28), IN (95.75)}, FALSE};
  cuts[0] = (DryCut){whole, FALSE, IN (47.875), 0};
  cuts[1] = (DryCut){{0, 0, IN (48), IN (47.875)}, TRUE, IN (32), 1};
  cuts[2] = (DryCut){{0, IN (47.875), IN (48), IN (96)}, TRUE, IN (28), 1};
  offcuts[0] = (DryRect){IN (32), 0, IN (48), IN (47.875)};
  layout[0] = (DrySheetLayout){0, places, 2, cuts, 3, offcuts, 1};
  *cutting = (DryCutting){.stock = stock,
                          .n_stock = 1,
                          .pieces = pieces,
                          .n_pieces = 2,
                          .sheets = layout,
                          .n_sheets = 1,
                          .lower_bound = 1,
                          .proven = TRUE,
                          .waste = 0.4};
  return cutting;
}

static DryFindings *
make_findings (DryArena *arena)
{
  static const DryRemedy remedy[] = {{"Move the niche to the next bay", NULL}};
  static const DryRule rule = {
      .id = "sample",
      .subject = "niche",
      .title = "Niche over a stud",
      .why = "The stud would have to be cut",
      .remedies = remedy,
      .n_remedies = 1,
      .source = {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};
  DryFindings *findings = dry_arena_alloc (arena, sizeof (DryFindings));

  findings->n = 3;
  findings->items = dry_arena_new_array (arena, DryFinding, 3);
  for (guint i = 0; i < 3; i++) {
    findings->items[i] = (DryFinding){
        .id = "sample",
        .rule = &rule,
        .severity = (DrySeverity) i,
        .face = i == 2 ? -1 : 1,
        .place = i == 0 ? (DryRect){IN (18), IN (48), IN (30), IN (68)} : (DryRect){0, 0, 0, 0},
        .where = "Back wall",
        .message = i == 0 ? "Niche over a stud." : "A sample finding."};
    findings->count[i] = 1;
  }
  return findings;
}

static void
add_joints_and_fasteners (DryArena *arena, DryPlan *plan)
{
  DryJoints *joints = dry_arena_alloc (arena, sizeof (DryJoints));
  DryFasteners *fasteners = dry_arena_alloc (arena, sizeof (DryFasteners));

  joints->n = 3;
  joints->items = dry_arena_new_array (arena, DryJoint, 3);
  joints->items[0] = (DryJoint){.kind = DRY_JOINT_SEAM,
                                .face = 1,
                                .from = {IN (32), IN (16.125)},
                                .to = {IN (32), IN (64)},
                                .board = 1,
                                .other_board = 2,
                                .other_face = -1,
                                .counted = TRUE};
  joints->items[1] = (DryJoint){.kind = DRY_JOINT_INSIDE_CORNER,
                                .face = 1,
                                .from = {0, IN (96)},
                                .to = {0, IN (16.125)},
                                .board = 1,
                                .other_board = 0,
                                .other_face = 0,
                                .counted = TRUE};
  joints->items[2] = (DryJoint){.kind = DRY_JOINT_BASIN,
                                .face = 1,
                                .from = {0, IN (16.125)},
                                .to = {IN (60), IN (16.125)},
                                .board = 1,
                                .other_board = -1,
                                .other_face = -1,
                                .counted = TRUE};
  fasteners->n = 4;
  fasteners->items = dry_arena_new_array (arena, DryFastener, 4);
  for (guint i = 0; i < 4; i++)
    fasteners->items[i] = (DryFastener){
        .face = 1, .board = 1, .at = {IN (16), IN (24 + 12 * i)}, .edge = i == 0, .washer = TRUE};
  plan->joints = joints;
  plan->fasteners = fasteners;
}

static DrySystem *
make_system (DryArena *arena)
{
  DrySystem *system = dry_arena_alloc (arena, sizeof (DrySystem));

  system->id = "sample";
  system->name = "Sample board with bands";
  system->mass = (DryNumberFigure){3, {"invented", DRY_CERTAINTY_INVENTED}};
  system->joint_gap = DRY_MM;
  system->washer = "washer";
  system->treatments[DRY_JOINT_SEAM] =
      (DryTreatment){.kind = DRY_TREAT_BAND, .name = "5 in band", .width = IN (5)};
  system->treatments[DRY_JOINT_INSIDE_CORNER] = system->treatments[DRY_JOINT_SEAM];
  system->treatments[DRY_JOINT_BASIN] =
      (DryTreatment){.kind = DRY_TREAT_BEAD, .name = "bead", .width = IN (0.25)};
  return system;
}

static void
add_amounts (DryArena *arena, DryPlan *plan)
{
  DryTakeoff *takeoff = dry_arena_alloc (arena, sizeof (DryTakeoff));
  DryOrder *order = dry_arena_alloc (arena, sizeof (DryOrder));
  DryCoating *coating = dry_arena_alloc (arena, sizeof (DryCoating));

  takeoff->n = 1;
  takeoff->lines = dry_arena_new_array (arena, DryTakeoffLine, 1);
  takeoff->lines[0] = (DryTakeoffLine){
      .id = "4x8",
      .group = "sheets",
      .name = "Board 4 x 8 ft",
      .amount = 5,
      .unit = "pc",
      .pack = 1,
      .pack_name = "sheet",
      .packs = 5,
      .price = 1250,
      .cost = 6250,
      .working = {"5 pieces from 5 sheets", NULL, 0, {"the cut sheets", DRY_CERTAINTY_DERIVED}}};
  takeoff->cost = 6250;
  takeoff->mass = 20;
  order->n = 1;
  order->items = dry_arena_new_array (arena, DryStep, 1);
  order->items[0] = (DryStep){.id = "hang",
                              .text = "Hang the boards.",
                              .hours = 2,
                              .wait_min = 1,
                              .wait_max = 2,
                              .hold = TRUE};
  order->hours = 2;
  coating->wet_area = coating->board_area = 6;
  plan->takeoff = takeoff;
  plan->order = order;
  plan->coating = coating;
}

DryFixture *
dry_fixture_new (gboolean metric)
{
  DryFixture *self = g_new0 (DryFixture, 1);
  DryPlanContext *context = &self->plan.context;
  DryFaces *faces;
  DryBoards *boards;
  DryJob job;

  self->arena = dry_arena_new ();
  self->project = dry_test_furnished_alcove ("foam-bands");
  context->arena = self->arena;
  job = *dry_project_get_job (self->project);
  job.metric = metric;
  context->job = dry_arena_copy (self->arena, &job, sizeof job);
  context->room = dry_project_get_room_at (self->project, 0);
  context->system = make_system (self->arena);
  context->build_up = (DryBuildUp){IN (0.5), 0, IN (0.125), IN (0.3125), IN (0.9375)};
  self->plan.project = self->project;
  faces = make_faces (self->arena, context->room, self->project);
  add_niche (self->arena, &faces->items[1], context->room);
  add_holes (self->arena, &faces->items[2], context->room);
  self->plan.faces = faces;
  self->plan.tiling = dry_tiling_compute (context, faces, NULL);
  self->plan.framing = make_framing (self->arena, faces);
  boards = make_boards (self->arena, faces);
  boards->cutting = make_cutting (self->arena);
  self->plan.boards = boards;
  add_joints_and_fasteners (self->arena, &self->plan);
  add_amounts (self->arena, &self->plan);
  self->plan.findings = make_findings (self->arena);
  return self;
}

void
dry_fixture_free (DryFixture *self)
{
  if (!self)
    return;
  dry_project_unref (self->project);
  dry_arena_unref (self->arena);
  g_free (self);
}
