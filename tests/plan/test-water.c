/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The water's way against a flood over a fine grid that knows only what is wall and what is not,
 * and every kind of break made on purpose. */
#include <string.h>

#include "plan/rule-room.h"

/* --- an independent flood --- */

#define CELL (DRY_INCH / 4)

typedef struct {
  DryWaterEnd end;
  DryBreakKind why;
} Fate;

static gboolean
is_wall (const DryFace *face, DryLength u, DryLength z)
{
  return dry_region_contains (&face->region, (DryPoint){u, z});
}

/* The first cell at or under `z` that is wall; FALSE when none is. */
static gboolean
fall_to_wall (const DryFace *face, DryLength u, DryLength *z)
{
  for (; *z > 0; *z -= CELL)
    if (is_wall (face, u, *z))
      return TRUE;
  return FALSE;
}

/* What is in the hole the drop fell into at (u, z): a niche or an opening of the document, grown by
 * what is built round it. */
static gboolean
is_hole_of (const DryPlan *plan, DryRect finish, DryLength u, DryLength z)
{
  return dry_rect_contains (dry_rect_inflate (finish, plan->context.build_up.total + DRY_INCH),
                            (DryPoint){u, z});
}

/* The next cell down is no wall: TRUE when the drop goes on, at `z`. */
static gboolean
leave_wall (const DryPlan *plan, const DryFace *face, DryLength u, DryLength *z, Fate *fate)
{
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < room->n_openings; i++) {
    const DryOpening *o = &room->openings[i];
    DryRect finish = {o->u, o->z, o->u + o->width, o->z + o->height};
    if (o->wall != face->wall || !is_hole_of (plan, finish, u, *z))
      continue;
    fate->end = o->kind == DRY_OPENING_WINDOW ? DRY_WATER_STOPPED : DRY_WATER_FLOOR;
    fate->why = DRY_BREAK_PITCH;
    *z = MIN (*z, o->z);
    return o->kind == DRY_OPENING_WINDOW && o->sloped_sill;
  }
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    DryRect rect = dry_part_rect (part);
    DryRect box = {part->u - part->body_width / 2, part->z, part->u + part->body_width / 2,
                   part->z + MAX (part->height, part->body_height)};
    if (part->wall != face->wall || part->side != face->side)
      continue;
    if (part->kind == DRY_PART_NICHE &&
        (is_hole_of (plan, rect, u, *z) ||
         (part->body_width > 0 &&
          dry_rect_contains (dry_rect_inflate (box, DRY_INCH), (DryPoint){u, *z})))) {
      fate->end = DRY_WATER_STOPPED;
      fate->why = DRY_BREAK_PITCH;
      *z = MIN (*z, part->z);
      return part->pitch > 0;
    }
    if (part->kind == DRY_PART_BENCH && !part->fold_down && rect.x0 <= u && rect.x1 >= u &&
        *z <= part->z + 2 * DRY_INCH) {
      fate->end = part->pitch > 0 ? DRY_WATER_BASIN : DRY_WATER_STOPPED;
      fate->why = DRY_BREAK_PITCH;
      return FALSE;
    }
  }
  if (face->at_basin && u >= face->basin_u0 && u <= face->basin_u1)
    fate->end = DRY_WATER_BASIN;
  else if (*z <= 2 * DRY_INCH)
    fate->end = DRY_WATER_FLOOR;
  else {
    fate->end = DRY_WATER_STOPPED;
    fate->why = face->at_basin ? DRY_BREAK_LEG : DRY_BREAK_NOWHERE;
  }
  return FALSE;
}

/* FALSE when the column has no wall. */
static gboolean
flood (const DryPlan *plan, const DryFace *face, DryLength u, Fate *fate)
{
  DryLength z = face->wet_top - CELL / 2;

  if (!fall_to_wall (face, u, &z))
    return FALSE;
  for (;;) {
    while (is_wall (face, u, z - CELL))
      z -= CELL;
    z -= CELL;
    if (!leave_wall (plan, face, u, &z, fate))
      return TRUE;
    if (!fall_to_wall (face, u, &z)) {
      /* Under a niche or sill there is nothing: as if the wall ended there. */
      z = MAX (z, 0);
      leave_wall (plan, face, u, &z, fate);
      return TRUE;
    }
  }
}

static gboolean
is_near_edge (const DryFace *face, DryLength u)
{
  for (guint p = 0; p < face->region.n_polygons; p++) {
    const DryPolygon *polygon = &face->region.polygons[p];
    for (guint r = 0; r <= polygon->n_holes; r++) {
      const DryRing *ring = r ? &polygon->holes[r - 1] : &polygon->outer;
      for (guint i = 0; i < ring->n_points; i++)
        if (ABS (ring->points[i].x - u) <= CELL)
          return TRUE;
    }
  }
  return FALSE;
}

/* Behind the finish of the wall round the corner nothing is wetted. */
static gboolean
is_covered (const DryPlan *plan, const DryFace *face, DryLength u)
{
  DryLength built = plan->context.build_up.total;

  return (face->left.face >= 0 && u <= face->left.at + built) ||
         (face->right.face >= 0 && u >= face->right.at - built);
}

static guint
compare_plan (const DryPlan *plan, const char *name)
{
  guint n = 0;

  for (guint f = 0; f < plan->faces->n; f++) {
    const DryFace *face = &plan->faces->items[f];
    for (DryLength u = CELL / 2; face->kind == DRY_FACE_WALL && u < face->length; u += CELL) {
      DryBreakKind why = DRY_BREAK_NOWHERE;
      DryWaterPath path;
      DryId object;
      Fate fate = {DRY_WATER_STOPPED, DRY_BREAK_NOWHERE};

      if (is_covered (plan, face, u) || is_near_edge (face, u) || !flood (plan, face, u, &fate))
        continue;
      path = dry_water_trace (&plan->context, plan->faces, f, (DryPoint){u, face->wet_top}, &why,
                              &object);
      n++;
      if (path.end != fate.end || (path.end == DRY_WATER_STOPPED && why != fate.why))
        g_test_fail_printf ("%s, %s at %.3f in: the grid ends at %d/%d, the way at %d/%d", name,
                            face->name, (double) u / (double) DRY_INCH, fate.end, fate.why,
                            path.end, why);
    }
  }
  return n;
}

static void
test_grid_random (void)
{
  guint n = 0;

  for (guint32 seed = 1; seed <= 200; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    g_autofree char *name = g_strdup_printf ("seed %u", seed);
    n += compare_plan (plan, name);
  }
  g_assert_cmpuint (n, >, 15000);
}

/* Every project of the test set, under the system it names and every other one. */
static void
test_grid_cases (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "cases", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir))) {
    g_autoptr (DryProject) project = NULL;
    g_autoptr (DryPlan) plan = NULL;

    if (!g_str_has_suffix (name, ".drybay"))
      continue;
    project = dry_test_load (name);
    plan = rule_room_plan (project);
    g_assert_cmpuint (compare_plan (plan, name), >, 60);
    for (guint i = 0; i < dry_catalog_get_n_systems (dry_test_catalog ()); i++) {
      DryFinish finish = dry_project_get_room_at (project, 0)->finish;
      g_autoptr (DryProject) other = NULL;
      g_autoptr (DryPlan) built = NULL;

      finish.system = (char *) dry_catalog_get_system_at (dry_test_catalog (), i)->id;
      finish.sheet = NULL;
      finish.board = 0;
      other = dry_edit_set_finish (project, dry_test_room (project), &finish, NULL);
      built = rule_room_plan (other);
      n += compare_plan (built, name);
    }
  }
  g_assert_cmpuint (n, >, 20000);
}

/* --- breaks --- */

static gboolean
has_break (const DryWater *water, DryBreakKind kind)
{
  for (guint i = 0; i < water->n_breaks; i++)
    if (water->breaks[i].kind == kind)
      return TRUE;
  return FALSE;
}

/* Every break names the rule that tells it, and the plan has that finding. */
static void
check_told (const DryPlan *plan)
{
  for (guint i = 0; i < plan->water->n_breaks; i++) {
    const DryWaterBreak *it = &plan->water->breaks[i];
    if (!rule_room_find (plan, it->rule))
      g_test_fail_printf ("“%s” is a break, but no finding “%s”", it->text, it->rule);
    g_assert_cmpint (it->face, <, (gint) plan->faces->n);
  }
  for (guint i = 0; i < plan->water->n_paths; i++) {
    const DryWaterPath *path = &plan->water->paths[i];
    g_assert_cmpuint (path->n, >=, 2);
    g_assert_true ((path->end == DRY_WATER_STOPPED) == (path->stop >= 0));
    g_assert_cmpint (path->stop, <, (gint) plan->water->n_breaks);
    for (guint s = 1; s < path->n; s++)
      g_assert_cmpint (path->steps[s].at.y, <=, path->steps[s - 1].at.y);
  }
  g_assert_true (plan->water->closed == (plan->water->n_breaks == 0 && plan->faces->n > 0));
}

static void
add_niche (DryProject **project, double pitch)
{
  DryPart niche = {.kind = DRY_PART_NICHE,
                   .u = INCH (24),
                   .z = INCH (48),
                   .width = INCH (12),
                   .height = INCH (14),
                   .depth = INCH (3),
                   .site_built = TRUE,
                   .pitch = pitch};
  *project = rule_room_add_part (*project, 'n', niche);
}

static void
add_head (DryProject **project, double z)
{
  DryPart head = {.kind = DRY_PART_SHOWER_HEAD,
                  .u = INCH (15),
                  .z = INCH (z),
                  .width = INCH (2),
                  .height = INCH (2),
                  .hole = INCH (1),
                  .flow_lpm = 6.8};
  *project = rule_room_add_part (*project, 'e', head);
}

static const struct {
  const char *name;
  gboolean pan;
  const char *set;
  double niche; /* its pitch; less than 0: none */
  double head;  /* its height; 0: none */
  gint kind;    /* -1: closed */
} BREAKS[] = {
    {"closed-tub", FALSE, "", -1, 0, -1},
    {"closed-pan", TRUE, "", -1, 0, -1},
    {"closed-niche", FALSE, "", 0.021, 0, -1},
    {"flat-niche", FALSE, "", 0, 0, DRY_BREAK_PITCH},
    {"no-leg", FALSE, "wet.leg=0", -1, 0, DRY_BREAK_LEG},
    {"short-past", FALSE, "wet.past=1in", -1, 0, DRY_BREAK_EDGE},
    {"high-head", FALSE, "wet.height=70in", -1, 78, DRY_BREAK_EDGE},
    {"no-flange", FALSE, "basin.flange=0", -1, 76, DRY_BREAK_FLANGE},
    {"mortar-gap", FALSE, "finish.basin_gap_mortar=1", -1, 0, DRY_BREAK_FLANGE},
    {"curb", TRUE, "basin.site_built=1 basin.curb_pitch=0.021", -1, 0, DRY_BREAK_CURB},
    {"curb-flat", TRUE, "basin.site_built=1 basin.curb_wrapped=1", -1, 0, DRY_BREAK_PITCH},
    {"curb-closed", TRUE, "basin.site_built=1 basin.curb_wrapped=1 basin.curb_pitch=0.021", -1, 0,
     -1},
    {"drain", TRUE,
     "basin.site_built=1 basin.curb_wrapped=1 basin.curb_pitch=0.021 basin.clamping_drain=1", -1, 0,
     DRY_BREAK_DRAIN},
    {"cap", FALSE, "wall.e.height=60in", -1, 0, DRY_BREAK_PITCH},
};

static DryWetZone
read_wet (const char *set)
{
  DryWetZone wet = {.past = INCH (2), .leg = TRUE};

  if (strstr (set, "wet.leg=0"))
    wet.leg = FALSE;
  if (strstr (set, "wet.past=1in"))
    wet.past = INCH (1);
  if (strstr (set, "wet.height=70in"))
    wet.height = INCH (70);
  return wet;
}

static void
test_break (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  DryProject *project = BREAKS[i].pan ? rule_room_shower (INCH (40), INCH (40))
                                      : rule_room_alcove ("foam-bands", "us-residential");

  project = rule_room_set_wet (project, read_wet (BREAKS[i].set));
  if (!g_str_has_prefix (BREAKS[i].set, "wet."))
    project = rule_room_set_fields (project, BREAKS[i].set);
  if (BREAKS[i].niche >= 0)
    add_niche (&project, BREAKS[i].niche);
  if (BREAKS[i].head > 0)
    add_head (&project, BREAKS[i].head);
  {
    g_autoptr (DryPlan) plan = rule_room_plan (project);

    check_told (plan);
    compare_plan (plan, BREAKS[i].name);
    for (guint b = 0; b < plan->water->n_breaks; b++)
      g_test_message ("%s at %.3f, %.3f in", plan->water->breaks[b].text,
                      (double) plan->water->breaks[b].at.x / (double) DRY_INCH,
                      (double) plan->water->breaks[b].at.y / (double) DRY_INCH);
    for (guint f = 0; f < plan->faces->n; f++)
      g_test_message ("%s basin %.3f to %.3f, wet %.3f to %.3f, board bottom %.3f",
                      plan->faces->items[f].name,
                      (double) plan->faces->items[f].basin_u0 / (double) DRY_INCH,
                      (double) plan->faces->items[f].basin_u1 / (double) DRY_INCH,
                      (double) plan->faces->items[f].wet_u0 / (double) DRY_INCH,
                      (double) plan->faces->items[f].wet_u1 / (double) DRY_INCH,
                      (double) plan->faces->items[f].board_bottom / (double) DRY_INCH);
    if (BREAKS[i].kind < 0)
      g_assert_true (plan->water->closed);
    else
      g_assert_true (has_break (plan->water, (DryBreakKind) BREAKS[i].kind));
  }
  dry_project_unref (project);
}

/* A hand shower wets the wall over a tub without a lip as a head does; a tub nobody showers in may
 * be without. */
static void
test_hand_shower (void)
{
  for (guint hangs = 0; hangs < 2; hangs++) {
    DryProject *project =
        rule_room_set_fields (rule_room_alcove ("foam-bands", "us-residential"), "basin.flange=0");
    DryPart shower = {.kind = DRY_PART_HAND_SHOWER,
                      .u = INCH (15),
                      .z = INCH (60),
                      .width = INCH (2),
                      .height = INCH (2),
                      .hole = INCH (1),
                      .flow_lpm = 6.8};
    if (hangs)
      project = rule_room_add_part (project, 'e', shower);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    g_assert_cmpint (has_break (plan->water, DRY_BREAK_FLANGE), ==, hangs);
    dry_project_unref (project);
  }
}

/* Water that comes down on a door's head runs off the door to the floor and breaks nothing; where a
 * passage takes the whole height of the wet wall no drop runs at all. */
static void
test_door_and_passage (void)
{
  static const struct {
    DryOpeningKind kind;
    double z, height;
    gboolean drops;
  } CASES[] = {{DRY_OPENING_DOOR, 0, 80, TRUE}, {DRY_OPENING_PASSAGE, 0, 96, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    DryOpening opening = {.kind = CASES[i].kind,
                          .u = INCH (34),
                          .z = INCH (CASES[i].z),
                          .width = INCH (20),
                          .height = INCH (CASES[i].height)};
    DryWetZone wet = {.past = INCH (30), .leg = TRUE};
    DryProject *project = rule_room_add_opening (
        rule_room_set_wet (rule_room_alcove ("foam-bands", "us-residential"), wet), 'e', opening);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    const DryFace *east =
        dry_faces_get_wall (plan->faces, dry_test_wall (project, 'e'), DRY_SIDE_INSIDE);
    gboolean drops = FALSE;

    for (guint p = 0; p < plan->water->n_paths; p++) {
      const DryWaterPath *path = &plan->water->paths[p];
      DryPoint from = path->steps[0].at;
      if (path->steps[0].face != east->index || from.x < INCH (35) || from.x > INCH (53))
        continue;
      drops = TRUE;
      g_assert_cmpint (path->end, ==, DRY_WATER_FLOOR);
      g_assert_cmpint (path->steps[path->n - 1].at.y, ==, 0);
    }
    g_assert_cmpint (drops, ==, CASES[i].drops);
    dry_project_unref (project);
  }
}

/* Joints, holes, heads and boards that nothing closes: the system itself spoiled. */
static void
test_spoiled_system (void)
{
  DryProject *project = rule_room_alcove ("foam-bands", "us-residential");
  DrySystem system;
  DryPlanContext context;
  const DryWater *water;

  add_head (&project, 76);
  {
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    g_autoptr (GError) error = NULL;

    g_assert_true (plan->water->closed);
    system = *plan->context.system;
    for (guint i = 0; i < DRY_N_JOINT_KINDS; i++)
      system.treatments[i] = (DryTreatment){.kind = DRY_TREAT_NONE};
    system.needs_membrane = TRUE;
    system.cover_fasteners = TRUE;
    system.cover_product = NULL;
    context = plan->context;
    context.system = &system;
    water = dry_water_compute (&context, plan->faces, plan->boards, plan->fasteners, plan->joints,
                               plan->coating, &error);
    g_assert_no_error (error);
    g_assert_true (has_break (water, DRY_BREAK_JOINT));
    g_assert_true (has_break (water, DRY_BREAK_HOLE));
    g_assert_true (has_break (water, DRY_BREAK_FASTENER));
    g_assert_true (has_break (water, DRY_BREAK_BOARD));
    g_assert_false (water->closed);
  }
  dry_project_unref (project);
}

static void
test_any_room (void)
{
  for (guint32 seed = 1; seed <= 60; seed++) {
    g_autoptr (DryProject) project = dry_test_random_project (seed);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    check_told (plan);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/water/grid/random", test_grid_random);
  g_test_add_func ("/water/grid/cases", test_grid_cases);
  for (guint i = 0; i < G_N_ELEMENTS (BREAKS); i++) {
    g_autofree char *path = g_strdup_printf ("/water/break/%s", BREAKS[i].name);
    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_break);
  }
  g_test_add_func ("/water/spoiled-system", test_spoiled_system);
  g_test_add_func ("/water/any-room", test_any_room);
  g_test_add_func ("/water/hand-shower", test_hand_shower);
  g_test_add_func ("/water/door-and-passage", test_door_and_passage);
  return g_test_run ();
}
