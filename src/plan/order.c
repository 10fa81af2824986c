/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the work in the trade's order, one step after another, with hours and the system's waits.
 * A plain sequence for one installer; it knows no dates and no crews. */
#include "plan/order.h"

#include <math.h>

#include "plan/amounts.h"
#include "plan/plan.h"

/* How a system's hours a square metre fall to hanging, joints and membrane, or on a floated wall to
 * lath, scratch coat and joints, the rest being floated and coated; the hours of each
 * piece of wood cut and set, or stud cut out; covering a basin; a flood test's hands-on time.
 * Common practice, no source.
 */
#define SHARE_HANG           0.5
#define SHARE_JOINTS         0.3
#define SHARE_LATH           0.2
#define SHARE_SCRATCH        0.15
#define SHARE_FLOATED_JOINTS 0.1
#define HOURS_MEMBER         0.25
#define HOURS_PROTECT        0.5
#define HOURS_TEST           0.5

/* Hours of a floor made on site: fixed and for each square metre of it; and how long its mortar
 * must set before anything lies on it. Common practice, no source. */
#define HOURS_SLOPE    1.0, 1.0
#define HOURS_LINER    1.5, 0.5
#define HOURS_BED      1.5, 1.0
#define HOURS_MEMBRANE 0.5, 0.5
static const DryWait wait_slope = {"floor-slope",
                                   "from the slope to the liner",
                                   12,
                                   24,
                                   {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};
static const DryWait wait_bed = {"floor-bed",
                                 "the mortar of the floor sets",
                                 24,
                                 72,
                                 {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}};

static const DrySource practice = {"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE};

typedef struct {
  const DryPlanContext *context;
  const DryBoards *boards;
  const DryJoints *joints;
  const DryCoating *coating;
  const DryFloor *floor; /* NULL: none is made on site */
  GArray *steps;         /* DryStep */
  double area;           /* m2 worked on */
} Ordering;

static const char *
number (const Ordering *self, double value, int decimals)
{
  return dry_number_text (self->context->arena, value, decimals);
}

static DryStep *
add_step (Ordering *self, const char *id, const char *text)
{
  DryStep step = {.id = id,
                  .text = text,
                  .working =
                      dry_working_new (self->context->arena, practice, "no hours estimated", NULL)};

  g_array_append_val (self->steps, step);
  return &g_array_index (self->steps, DryStep, self->steps->len - 1);
}

static void
set_fixed_hours (Ordering *self, DryStep *step, double hours)
{
  step->hours = hours;
  step->working = dry_working_new (
      self->context->arena, practice,
      dry_arena_printf (self->context->arena, "%s h", number (self, hours, 2)), NULL);
}

/* `share` of the system's hours on the whole area. */
static void
set_area_hours (Ordering *self, DryStep *step, double share)
{
  DryArena *arena = self->context->arena;
  const DryNumberFigure *rate = &self->context->system->hours;

  step->hours = self->area * rate->value * share;
  step->working = dry_working_new (
      arena, rate->source.text ? rate->source : practice,
      dry_arena_printf (arena, "%s m2 x %s h/m2 x %s = %s h", number (self, self->area, 2),
                        number (self, rate->value, 2), number (self, share, 2),
                        number (self, step->hours, 2)),
      "area", dry_arena_printf (arena, "%s m2", number (self, self->area, 2)), "share of the hours",
      number (self, share, 2), NULL);
}

static void
set_wait (DryStep *step, const DryWait *wait)
{
  if (!wait)
    return;
  step->wait = wait;
  step->wait_min = wait->hours_min;
  step->wait_max = MAX (wait->hours_min, wait->hours_max);
}

static void
set_floor_hours (Ordering *self, DryStep *step, double fixed, double each)
{
  DryArena *arena = self->context->arena;
  double area = self->floor->area;

  step->hours = fixed + area * each;
  step->working =
      dry_working_new (arena, practice,
                       dry_arena_printf (arena, "%s h + %s m2 x %s h = %s h",
                                         number (self, fixed, 2), number (self, area, 2),
                                         number (self, each, 2), number (self, step->hours, 2)),
                       "floor", dry_arena_printf (arena, "%s m2", number (self, area, 2)), NULL);
}

static gboolean
is_pan (const Ordering *self)
{
  return self->context->room->basin.id && self->context->room->basin.kind == DRY_BASIN_PAN;
}

static double
share_of_joints (const DrySystem *system)
{
  if (system->n_sheets == 0)
    return SHARE_FLOATED_JOINTS;
  return system->membrane == DRY_MEMBRANE_NONE ? 1 - SHARE_HANG : SHARE_JOINTS;
}

static double
share_of_coats (const DrySystem *system)
{
  return system->membrane == DRY_MEMBRANE_NONE ? 0 : 1 - SHARE_HANG - SHARE_JOINTS;
}

static guint
count_runs (const Ordering *self, DryJointKind kind)
{
  guint n = 0;

  for (guint i = 0; i < self->joints->n_runs; i++)
    n += self->joints->runs[i].kind == kind ? 1 : 0;
  return n;
}

/* --- the steps --- */

static void
add_protection (Ordering *self)
{
  const DryJob *job = self->context->job;
  gboolean old = job->year_built > 0 && job->year_built < 1980;
  DryStep *step = add_step (
      self, "protect",
      old ? "Have dust, paint and old linings tested for lead and asbestos before anything is "
            "opened. Then turn off water and power, cover the tub or pan, and check walls for "
            "plumb "
            "and flat."
          : "Turn off water and power, cover the tub or pan, and check studs, pipes and walls for "
            "plumb and flat.");

  set_fixed_hours (self, step, HOURS_PROTECT);
}

/* Wood to be set, by what it is; each piece is cut, fitted and fastened once. */
typedef struct {
  guint seams;   /* blocks and second studs behind seams */
  guint studs;   /* and corners; the frame of a bench too */
  guint headers; /* and sills */
  guint sides;   /* of openings */
  guint blocks;  /* behind fittings, bars and glass, round a niche in its bay */
  guint cut;     /* studs cut out for a niche */
} Pieces;

static gboolean
is_niche (const DryFaces *faces, guint face, DryId object)
{
  for (guint i = 0; i < faces->items[face].n_cutouts; i++)
    if (faces->items[face].cutouts[i].kind == DRY_CUT_NICHE &&
        faces->items[face].cutouts[i].object == object)
      return TRUE;
  return FALSE;
}

/* What stays of a cut stud above the niche and below it tells of one stud. */
static gboolean
is_first_of_stud (const DryFraming *framing, guint index)
{
  const DryMember *member = &framing->items[index];

  for (guint i = 0; i < index; i++) {
    const DryMember *other = &framing->items[i];
    if (other->kind == DRY_MEMBER_CRIPPLE && other->face == member->face &&
        other->object == member->object && other->rect.x0 == member->rect.x0)
      return FALSE;
  }
  return TRUE;
}

static Pieces
count_pieces (const DryFaces *faces, const DryFraming *framing, const DryBoards *boards)
{
  Pieces n = {.seams = boards->n_blocking};

  for (guint i = 0; i < framing->n; i++) {
    const DryMember *member = &framing->items[i];
    if (member->kind == DRY_MEMBER_CRIPPLE)
      n.cut += !member->added && is_niche (faces, member->face, member->object) &&
               is_first_of_stud (framing, i);
    else if (!member->added)
      continue;
    else if (member->kind == DRY_MEMBER_STUD || member->kind == DRY_MEMBER_CORNER)
      n.studs++;
    else if (member->kind == DRY_MEMBER_HEADER || member->kind == DRY_MEMBER_SILL)
      n.headers++;
    else if (member->kind == DRY_MEMBER_TRIMMER)
      n.sides++;
    else
      n.blocks++;
  }
  return n;
}

static void
add_framing (Ordering *self, Pieces n)
{
  DryArena *arena = self->context->arena;
  guint all = n.seams + n.studs + n.headers + n.sides + n.blocks + n.cut;
  DryStep *step = add_step (
      self, "framing",
      "Set the added framing and blocking shown on the elevations, so that every seam and edge to "
      "come has wood behind it, and shield pipes near the stud faces.");

  step->hours = all * HOURS_MEMBER;
  step->working = dry_working_new (
      arena, practice,
      dry_arena_printf (arena, "(%u + %u + %u + %u + %u + %u) x %s h = %s h", n.seams, n.studs,
                        n.headers, n.sides, n.blocks, n.cut, number (self, HOURS_MEMBER, 2),
                        number (self, step->hours, 2)),
      "pieces behind seams", dry_arena_printf (arena, "%u", n.seams), "studs added",
      dry_arena_printf (arena, "%u", n.studs), "headers and sills",
      dry_arena_printf (arena, "%u", n.headers), "sides of niches",
      dry_arena_printf (arena, "%u", n.sides), "blocks and cleats",
      dry_arena_printf (arena, "%u", n.blocks), "studs cut for niches",
      dry_arena_printf (arena, "%u", n.cut), NULL);
}

static void
add_rough_inspection (Ordering *self)
{
  DryStep *step =
      add_step (self, "rough-inspection",
                "Have framing, plumbing and wiring inspected while the walls are open, where local "
                "code asks for it.");

  step->hold = TRUE;
}

static void
add_hanging (Ordering *self)
{
  const DrySystem *system = self->context->system;
  DryArena *arena = self->context->arena;

  if (system->n_sheets == 0) {
    DryStep *lath = add_step (self, "lath",
                              "Hang the lath over the studs, every sheet lapped over the one "
                              "below, clear of the lip of the tub or pan.");
    set_area_hours (self, lath, SHARE_LATH);
    return;
  }
  DryStep *step = add_step (
      self, "boards",
      dry_arena_printf (arena,
                        "Cut and hang the %u board%s, back wall first, then the end walls%s. Screw "
                        "heads flush, none through the lip of the tub or pan.",
                        self->boards->n, self->boards->n == 1 ? "" : "s",
                        system->spacers ? ", bottom edges on spacers" : ""));
  set_area_hours (self, step, SHARE_HANG);
}

static void
add_basin_gap (Ordering *self)
{
  const DryTreatment *treatment = &self->context->system->treatments[DRY_JOINT_BASIN];

  if (treatment->kind == DRY_TREAT_NONE || count_runs (self, DRY_JOINT_BASIN) == 0)
    return;
  DryStep *step =
      add_step (self, "basin-gap",
                dry_arena_printf (self->context->arena,
                                  "Close the gap between the wall and the tub or pan: %s.",
                                  treatment->name ? treatment->name : "as the system says"));
  set_area_hours (self, step, share_of_joints (self->context->system) * 0.2);
}

static void
add_joint_work (Ordering *self)
{
  const DrySystem *system = self->context->system;
  guint n = self->joints->n_runs - count_runs (self, DRY_JOINT_BASIN);

  if (n == 0)
    return;
  DryStep *step = add_step (
      self, "joints",
      dry_arena_printf (self->context->arena,
                        "Treat the %u remaining run%s of joint in the numbered order: inside "
                        "corners over the bottom run, then seams, niches, pipes and the edges to "
                        "drywall%s.",
                        n, n == 1 ? "" : "s",
                        /* else the coat or sheet covers them */
                        system->cover_fasteners && system->cover_product
                            ? "; last, cover every fastener head"
                            : ""));
  set_area_hours (self, step, share_of_joints (system) * 0.8);
  set_wait (step, dry_system_get_wait (system, "joints"));
}

static void
add_mortar_bed (Ordering *self)
{
  const DrySystem *system = self->context->system;
  DryStep *step =
      add_step (self, "scratch-coat", "Press the scratch coat into the lath and comb it level.");
  set_area_hours (self, step, SHARE_SCRATCH);
  step = add_step (self, "float-coat", "Float the walls plumb and flat over screeds.");
  set_area_hours (self, step,
                  1 - SHARE_LATH - SHARE_SCRATCH - SHARE_FLOATED_JOINTS - share_of_coats (system));
  set_wait (step, dry_system_get_wait (system, "cure"));
}

static void
add_coats (Ordering *self)
{
  const DrySystem *system = self->context->system;
  DryArena *arena = self->context->arena;
  double share = share_of_coats (system);

  if (system->membrane == DRY_MEMBRANE_SHEET) {
    DryStep *step = add_step (self, "sheet-membrane",
                              "Comb mortar on the boards and press the sheet in from the middle "
                              "out, every lap and corner fully bedded.");
    set_area_hours (self, step, share);
    return;
  }
  if (dry_system_get_wait (system, "prime")) {
    DryStep *step =
        add_step (self, "prime", "Prime the boards so that they do not drink the coat.");
    set_area_hours (self, step, share * 0.2);
    set_wait (step, dry_system_get_wait (system, "prime"));
    share *= 0.8;
  }
  for (guint i = 0; i < system->coats; i++) {
    DryStep *step =
        add_step (self, dry_arena_printf (arena, "coat-%u", i + 1),
                  dry_arena_printf (
                      arena,
                      "Coat %u of %u over all of the wet wall, corners and heads. Check the wet "
                      "film with a gauge as you go.",
                      i + 1, system->coats));
    set_area_hours (self, step, share / system->coats);
    if (i + 1 < system->coats)
      set_wait (step, dry_system_get_wait (system, "recoat"));
  }
}

static void
add_flood_test (Ordering *self)
{
  DryStep *step = add_step (
      self, "flood-test",
      "Plug the drain, fill the pan to at least 2 in at the threshold, and look below for leaks. "
      "Nothing goes on before it holds: 15 minutes by the model code, a day where it is the "
      "custom.");

  step->hours = HOURS_TEST;
  step->wait_min = 0.25;
  step->wait_max = 24;
  step->hold = TRUE;
  step->working = dry_working_new (
      self->context->arena,
      (DrySource){"IPC 312.9 / IRC P2503.6: 15 min; UPC 408.7.1 practice: 24 h",
                  DRY_CERTAINTY_PUBLISHED},
      "0.5 h to fill and check, 0.25 h to 24 h standing", "depth", "2 in at the threshold", NULL);
}

/* Before any wall is closed: a liner is tested while it can be seen and mended. */
static void
add_liner (Ordering *self)
{
  const DryFloor *floor = self->floor;
  DryArena *arena = self->context->arena;
  DryStep *step = add_step (
      self, "floor-slope",
      dry_arena_printf (arena,
                        "Lay the slope under the liner, %s down from the rim to the drain over %s, "
                        "so that what soaks through runs to the weep holes.",
                        dry_context_length (self->context, floor->fall),
                        dry_context_length (self->context, floor->run)));

  set_floor_hours (self, step, HOURS_SLOPE);
  set_wait (step, &wait_slope);
  step =
      add_step (self, "floor-liner",
                "Lay the liner in one piece, folded in the corners, over the curb, up the walls, "
                "and no nail below an inch above the threshold. Clamp the drain on it.");
  set_floor_hours (self, step, HOURS_LINER);
  add_flood_test (self);
}

static void
add_floor_bed (Ordering *self)
{
  const DryFloor *floor = self->floor;
  DryArena *arena = self->context->arena;
  DryStep *step = add_step (
      self, "floor-bed",
      dry_arena_printf (arena,
                        "Pack the mortar floor to a level line: %s deep at the drain, %s along the "
                        "rim%s. Check the fall with a level.",
                        dry_context_length (self->context, floor->drain_depth),
                        dry_context_length (self->context, floor->rim_depth),
                        floor->liner ? ", slope and bed together; gravel at the weep holes" : ""));

  set_floor_hours (self, step, HOURS_BED);
  set_wait (step, &wait_bed);
}

static void
add_floor_membrane (Ordering *self)
{
  DryStep *step =
      add_step (self, "floor-membrane",
                "Membrane over the floor, into the drain's flange, over the curb and up "
                "to lap the walls' own.");

  set_floor_hours (self, step, HOURS_MEMBRANE);
}

/* The wait of the last waterproofing step, then test and inspection. */
static void
add_tests (Ordering *self)
{
  const DrySystem *system = self->context->system;
  const DryWait *tile = dry_system_get_wait (system, "tile");
  const DryWait *flood = dry_system_get_wait (system, "flood-test");
  DryStep *last = &g_array_index (self->steps, DryStep, self->steps->len - 1);

  set_wait (last, tile);
  if (is_pan (self) && !(self->floor && self->floor->liner)) {
    if (flood) { /* the film must stand the water as well as the tile */
      double most = MAX (flood->hours_min, flood->hours_max);
      if (most >= last->wait_max)
        last->wait = flood;
      last->wait_min = MAX (last->wait_min, flood->hours_min);
      last->wait_max = MAX (last->wait_max, most);
    }
    add_flood_test (self);
  }
  DryStep *inspection = add_step (self, "inspection",
                                  "Photograph every wall with a rule in the picture and have the "
                                  "waterproofing inspected where local code asks for it.");
  inspection->hold = TRUE;
}

static void
sum_up (DryOrder *self)
{
  for (guint i = 0; i < self->n; i++) {
    self->hours += self->items[i].hours;
    self->hours_to_tile_min += self->items[i].hours + self->items[i].wait_min;
    self->hours_to_tile_max += self->items[i].hours + self->items[i].wait_max;
  }
}

const DryOrder *
dry_order_compute (const DryPlanContext *context, const DryFaces *faces, const DryFraming *framing,
                   const DryBoards *boards, const DryJoints *joints, const DryCoating *coating,
                   const DryFloor *floor, GError **error)
{
  DryOrder *self = dry_arena_alloc (context->arena, sizeof *self);
  Ordering ordering = {
      context,
      boards,
      joints,
      coating,
      floor && floor->built ? floor : NULL,
      g_array_new (FALSE, TRUE, sizeof (DryStep)),
      context->system->n_sheets ? coating->board_area : coating->wet_area,
  };

  if (ordering.area > 0) {
    add_protection (&ordering);
    add_framing (&ordering, count_pieces (faces, framing, boards));
    add_rough_inspection (&ordering);
    if (ordering.floor && ordering.floor->liner)
      add_liner (&ordering);
    add_hanging (&ordering);
    if (context->system->n_sheets == 0)
      add_mortar_bed (&ordering);
    add_basin_gap (&ordering);
    add_joint_work (&ordering);
    if (ordering.floor)
      add_floor_bed (&ordering);
    if (context->system->membrane != DRY_MEMBRANE_NONE)
      add_coats (&ordering);
    if (ordering.floor && !ordering.floor->liner)
      add_floor_membrane (&ordering);
    add_tests (&ordering);
    add_step (&ordering, "tile", "Tiling can start.");
  }
  self->n = ordering.steps->len;
  self->items = dry_arena_take_array (context->arena, ordering.steps);
  sum_up (self);
  return self;
}
