/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of rooms that are not the plain alcove: none wet yet, doors, walls put in, pans open to
 * the room. The values are worked out by hand from the sizes; knows no rule. */
#include <string.h>

#include "plan/added-wall.h"

static const DryMeasure *
measure_of (const DryPlan *plan, const char *kind, DryId object, const char *name)
{
  for (guint i = 0; i < plan->measures->n; i++)
    if (strcmp (plan->measures->items[i].kind, kind) == 0 &&
        plan->measures->items[i].object == object)
      return dry_subject_get (&plan->measures->items[i], name);
  return NULL;
}

static gboolean
is_measured (const DryPlan *plan, const char *kind, const char *name)
{
  for (guint i = 0; i < plan->measures->n; i++)
    if (strcmp (plan->measures->items[i].kind, kind) == 0 &&
        dry_subject_get (&plan->measures->items[i], name))
      return TRUE;
  return FALSE;
}

static DryPart
make_niche (double u, double z)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (10),
                   .height = INCH (14),
                   .depth = INCH (3),
                   .site_built = TRUE,
                   .pitch = 0.021};
}

static DryPart
make_fitting (DryPartKind kind, double u, double z)
{
  return (DryPart){.kind = kind,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (3),
                   .height = INCH (3),
                   .hole = INCH (2),
                   .flow_lpm = 6};
}

/* --- nothing wet yet --- */

/* Before a tub is chosen what hangs on the walls is measured all the same: from the floor and from
 * the studs, not from a rim or a board that is not there. */
static void
test_no_basin (void)
{
  DryProject *made = rule_room_alcove ("foam-bands", "us-residential");
  const DryOpening window = {.kind = DRY_OPENING_WINDOW,
                             .u = INCH (40),
                             .z = INCH (50),
                             .width = INCH (12),
                             .height = INCH (20)};
  DryPart bar = make_fitting (DRY_PART_GRAB_BAR, 24, 34);
  g_autoptr (DryProject) project = NULL;
  g_autoptr (DryPlan) plan = NULL;

  bar.width = INCH (16); /* from stud to stud: 16 and 32 in */
  made = added_wall_remove (made, dry_test_first_room (made)->basin.id);
  made = rule_room_add_part (made, 'n', make_niche (24, 48));
  made = rule_room_add_part (made, 'n', bar);
  made = rule_room_add_part (made, 'e', make_fitting (DRY_PART_VALVE, 15, 40));
  made = rule_room_add_part (made, 'e', make_fitting (DRY_PART_SPOUT, 8, 20));
  made = rule_room_add_part (made, 'e', make_fitting (DRY_PART_SHOWER_HEAD, 24, 80));
  project = rule_room_add_opening (made, 'n', window);
  plan = rule_room_plan (project);
  g_assert_cmpint (rule_room_measure (plan, "valve", "height")->length, ==, INCH (40));
  g_assert_cmpfloat (rule_room_measure (plan, "valve", "at-tub")->number, ==, 0);
  g_assert_cmpfloat (rule_room_measure (plan, "valve", "has-shower")->number, ==, 1);
  /* studs of 1-1/2 in at 7 and 23 in, the hole from 14 to 16 in */
  g_assert_cmpint (rule_room_measure (plan, "valve", "stud-clear")->length, ==, INCH (6.25));
  g_assert_cmpfloat (rule_room_measure (plan, "grab-bar", "blocked")->number, ==, 1);
  g_assert_cmpfloat (rule_room_measure (plan, "niche", "in-board")->number, ==, 0);
  g_assert_cmpint (rule_room_measure (plan, "niche", "bay")->length, ==, INCH (14.5));
  g_assert_cmpfloat (rule_room_measure (plan, "window", "safety-glass")->number, ==, 0);
  g_assert_false (is_measured (plan, "valve", "rim"));
  g_assert_false (is_measured (plan, "valve", "wet-top"));
  g_assert_false (is_measured (plan, "spout", "above-rim"));
  g_assert_false (is_measured (plan, "shower-head", "to-open-edge"));
  g_assert_false (is_measured (plan, "niche", "off-joint"));
  g_assert_false (is_measured (plan, "window", "from-water"));
  g_assert_false (is_measured (plan, "basin", "length"));
}

/* --- where a niche is in the board --- */

static void
test_in_board (void)
{
  static const struct {
    char wall;
    double u, z; /* of a niche 10 x 14 in, in; the opening is framed 1 in or so wider all round */
    gboolean in_board;
  } rows[] = {
      {'n', 24, 48, TRUE},     {'n', 5.25, 48, FALSE}, /* behind the left end wall's tile */
      {'n', 54.75, 48, FALSE}, {'n', 24, 60, FALSE},   /* above the wet wall of 72 in */
      {'n', 24, 15.5, FALSE},  {'n', 24, 20, TRUE},    /* the board begins above the rim of 15 in */
      {'e', 24, 48, TRUE},     {'e', 50, 48, FALSE},   /* past the wet wall, which ends at 46 in */
      {'w', 24, 48, FALSE}, /* ends at the same place, counted from its other end */
      {'w', 80, 48, TRUE},     {'e', 38, 4, TRUE},
      {'e', 38, 0.25, FALSE}, /* the opening would begin under the floor */
      {'s', 30, 48, FALSE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DryWetZone wet = {.height = INCH (72), .past = INCH (16), .leg = TRUE};
    g_autoptr (DryProject) project =
        rule_room_set_wet (rule_room_alcove ("foam-bands", "us-residential"), wet);
    g_autoptr (DryPlan) plan = NULL;

    project = rule_room_add_part (g_steal_pointer (&project), rows[i].wall,
                                  make_niche (rows[i].u, rows[i].z));
    plan = rule_room_plan (project);
    g_test_message ("%c %g, %g", rows[i].wall, rows[i].u, rows[i].z);
    g_assert_cmpfloat (rule_room_measure (plan, "niche", "in-board")->number, ==, rows[i].in_board);
  }
}

/* A niche taller than the wall is told, though the wall gives its opening no more than its height.
 */
static void
test_taller_than_wall (void)
{
  DryPart niche = make_niche (24, 84);
  g_autoptr (DryProject) project =
      rule_room_add_part (rule_room_alcove ("foam-bands", "us-residential"), 'n', niche);
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  g_assert_cmpint (niche.z + niche.height, >, dry_test_first_room (project)->ceiling);
  g_assert_cmpfloat (rule_room_measure (plan, "niche", "in-board")->number, ==, 0);
  g_assert_nonnull (rule_room_find (plan, "niche-outside-board"));
}

/* --- what is in the way --- */

/* Pipes and cables of the bay are told by name; what runs in the next bay, or above, is not in the
 * way. */
static void
test_hidden_in_bay (void)
{
  static const struct {
    double u, z;
    guint n;
  } rows[] = {{20, 0, 1}, {40, 0, 0}, {20, 80, 0}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart pipe = {.kind = DRY_PART_PIPE,
                    .u = INCH (rows[i].u),
                    .z = INCH (rows[i].z),
                    .width = INCH (1),
                    .height = INCH (60),
                    .depth = INCH (1)};
    DryPart cable = pipe;
    g_autoptr (DryProject) project = rule_room_add_part (
        rule_room_alcove ("foam-bands", "us-residential"), 'n', make_niche (24, 48));
    g_autoptr (DryPlan) plan = NULL;
    const DryMeasure *hidden;

    cable.kind = DRY_PART_CABLE;
    cable.u += INCH (2);
    project = rule_room_add_part (g_steal_pointer (&project), 'n', pipe);
    project = rule_room_add_part (g_steal_pointer (&project), 'n', cable);
    plan = rule_room_plan (project);
    hidden = rule_room_measure (plan, "niche", "hidden-in-bay");
    g_assert_cmpfloat (hidden->number, ==, 2 * rows[i].n);
    g_assert_nonnull (strstr (hidden->how, rows[i].n ? "pipe, cable" : "nothing marked in it"));
  }
}

/* An opening goes through the wall: what hangs on the wall's other side reaches into it, too, at
 * the place where it is seen from there. */
static void
test_opening_seen_from_both_sides (void)
{
  static const struct {
    DrySide side;
    double u; /* of a bar 6 in long, in from that side's left end */
    guint overlaps;
  } rows[] = {{DRY_SIDE_INSIDE, 10, 1},
              {DRY_SIDE_INSIDE, 26, 0},
              {DRY_SIDE_OUTSIDE, 10, 0},
              {DRY_SIDE_OUTSIDE, 26, 1}};
  /* 4 to 16 in from the left end as seen from the pan, 20 to 32 in as seen from the room. */
  const DryOpening window = {.kind = DRY_OPENING_WINDOW,
                             .u = INCH (4),
                             .z = INCH (40),
                             .width = INCH (12),
                             .height = INCH (24)};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart bar = make_fitting (DRY_PART_GRAB_BAR, rows[i].u, 50);
    DryId wall = 0;
    g_autoptr (DryProject) project =
        added_wall_close (added_wall_corner_shower ("foam-bands"), 0, &wall);
    g_autoptr (DryPlan) plan = NULL;

    bar.width = INCH (6);
    project = added_wall_put_opening (g_steal_pointer (&project), wall, window);
    project = added_wall_put_part (g_steal_pointer (&project), wall, rows[i].side, bar);
    plan = rule_room_plan (project);
    g_test_message ("row %u", i);
    g_assert_cmpfloat (rule_room_measure (plan, "grab-bar", "overlaps")->number, ==,
                       rows[i].overlaps);
  }
}

/* --- studs --- */

/* Between the jambs of a door no board hangs: the wall's widest bay is one of the others. Over and
 * under a window boards do hang on the studs that stand there. */
static void
test_doorway (void)
{
  static const struct {
    DryOpeningKind kind;
    double widest;
  } rows[] = {
      /* studs at 7 and 23 in, the opening from 22 in: its jamb stands 12-3/4 in from the first */
      {DRY_OPENING_DOOR, 14.25},
      {DRY_OPENING_PASSAGE, 14.25},
      {DRY_OPENING_WINDOW, 16}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DryOpening opening = {.kind = rows[i].kind,
                                .u = INCH (22),
                                .z = rows[i].kind == DRY_OPENING_WINDOW ? INCH (40) : 0,
                                .width = INCH (30),
                                .height = INCH (24)};
    g_autoptr (DryProject) project =
        rule_room_add_opening (rule_room_alcove ("foam-bands", "us-residential"), 'e', opening);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    const DryMeasure *spacing =
        measure_of (plan, "wall", dry_test_wall (project, 'e'), "stud-spacing");

    g_assert_nonnull (spacing);
    g_assert_cmpint (spacing->length, ==, INCH (rows[i].widest));
  }
}

/* Seen from the other side of a wall that was put in, the doorway is mirrored with its studs. */
static void
test_doorway_other_side (void)
{
  const DryOpening door = {
      .kind = DRY_OPENING_DOOR, .u = INCH (2), .width = INCH (24), .height = INCH (30)};
  DryId wall = 0;
  g_autoptr (DryProject) project =
      added_wall_close (added_wall_corner_shower ("foam-bands"), 0, &wall);
  g_autoptr (DryPlan) plan = NULL;
  guint seen = 0;

  project = added_wall_put_opening (g_steal_pointer (&project), wall, door);
  plan = rule_room_plan (project);
  for (guint i = 0; i < plan->measures->n; i++) {
    const DrySubject *subject = &plan->measures->items[i];
    const DryMeasure *spacing = dry_subject_get (subject, "stud-spacing");

    if (strcmp (subject->kind, "wall") != 0 || subject->object != wall)
      continue;
    seen++;
    g_assert_nonnull (spacing);
    /* jamb to 27-1/2 in, stud at 32 in: 3-3/4 in clear and a stud */
    g_assert_cmpint (spacing->length, ==, INCH (5.25));
  }
  g_assert_cmpuint (seen, >, 0);
}

static void
change_spacing (DryWall *wall, gpointer data)
{
  wall->stud_spacing = INCH (24);
  wall->first_stud = 0;
}

/* Where nobody found the first stud it stands one spacing from the end; studs found one by one are
 * where they were found. */
static void
test_studs_told_or_taken (void)
{
  static DryLength found[] = {INCH (20), INCH (41)};
  g_autoptr (DryProject) project =
      rule_room_add_part (rule_room_set_wall (rule_room_alcove ("foam-bands", "us-residential"),
                                              'n', change_spacing, NULL),
                          'n', make_niche (24, 48));
  g_autoptr (DryPlan) taken = rule_room_plan (project), told = NULL;
  DryWall wall = *dry_room_get_wall (dry_test_first_room (project), dry_test_wall (project, 'n'));

  g_assert_cmpint (rule_room_measure (taken, "niche", "bay")->length, ==, 0);
  wall.found_studs = found;
  wall.n_found_studs = G_N_ELEMENTS (found);
  project = added_wall_set (g_steal_pointer (&project), &wall);
  told = rule_room_plan (project);
  g_assert_cmpint (rule_room_measure (told, "niche", "bay")->length, ==, INCH (19.5));
}

/* --- water and glass --- */

/* A shower to be rolled into is open at its front: how far the water falls from there is measured
 * to the nearest open side, and not at all when a curb stops it or all sides are walls. */
static void
test_open_edge (void)
{
  g_autoptr (DryProject) curb = added_wall_corner_shower ("foam-bands");
  g_autoptr (DryProject) open = NULL;
  g_autoptr (DryPlan) plan = NULL, stopped = NULL;

  curb = rule_room_add_part (g_steal_pointer (&curb), 'w',
                             make_fitting (DRY_PART_SHOWER_HEAD, 66, 80));
  stopped = rule_room_plan (curb);
  g_assert_false (is_measured (stopped, "shower-head", "to-open-edge"));
  open = rule_room_set_fields (dry_project_ref (curb), "basin.height=0.5in");
  plan = rule_room_plan (open);
  g_assert_cmpfloat (rule_room_measure (plan, "basin", "curbless")->number, ==, 1);
  /* 66 in from the south end, the pan's front 60 in from it, its right side 48 in away */
  g_assert_cmpint (rule_room_measure (plan, "shower-head", "to-open-edge")->length, ==, INCH (6));
}

static void
set_lean (DryWall *wall, gpointer data)
{
  wall->plumb_error = -INCH (1);
}

/* Glass meets a wall that leans an inch over 96 in: three quarters of an inch in 6 ft. */
static void
test_glass_at_leaning_wall (void)
{
  const DryPart glass = {.kind = DRY_PART_GLASS,
                         .u = INCH (30),
                         .z = INCH (15),
                         .width = INCH (30),
                         .height = INCH (60),
                         .depth = INCH (0.375)};
  g_autoptr (DryProject) project =
      rule_room_add_part (rule_room_alcove ("foam-bands", "us-residential"), 'e', glass);
  g_autoptr (DryPlan) true_wall = rule_room_plan (project), leaning = NULL;

  g_assert_false (is_measured (true_wall, "glass", "lean-in-6-ft"));
  project = rule_room_set_wall (g_steal_pointer (&project), 'e', set_lean, NULL);
  leaning = rule_room_plan (project);
  g_assert_cmpint (rule_room_measure (leaning, "glass", "lean-in-6-ft")->length, ==, INCH (0.75));
  /* It leans out of the room, so that the tub's opening is as wide as at the floor. */
  g_assert_cmpint (rule_room_measure (leaning, "basin", "opening")->length, ==, INCH (60));
}

static void
set_name (DryBasin *basin, gpointer data)
{
  basin->label = data;
}

static void
test_basin_name (void)
{
  static const struct {
    const char *label, *name;
  } rows[] = {{NULL, "The tub"}, {"", "The tub"}, {"Grandmother's tub", "Grandmother's tub"}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryProject) project = rule_room_set_basin (
        rule_room_alcove ("foam-bands", "us-residential"), set_name, (gpointer) rows[i].label);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    const char *name = NULL;

    for (guint k = 0; k < plan->measures->n; k++)
      if (strcmp (plan->measures->items[k].kind, "basin") == 0)
        name = plan->measures->items[k].name;
    g_assert_cmpstr (name, ==, rows[i].name);
  }
}

/* --- openings and open ends --- */

static void
test_opening_fits (void)
{
  static const struct {
    DryOpeningKind kind;
    double u, z, width, height; /* in a wall 60 x 96 in */
    gboolean fits;
  } rows[] = {
      {DRY_OPENING_WINDOW, 0, 40, 60, 56, TRUE},   {DRY_OPENING_WINDOW, -1, 40, 20, 20, FALSE},
      {DRY_OPENING_WINDOW, 41, 40, 20, 20, FALSE}, {DRY_OPENING_WINDOW, 20, 80, 20, 17, FALSE},
      {DRY_OPENING_DOOR, 20, 0, 30, 80, TRUE},     {DRY_OPENING_PASSAGE, 20, 0, 30, 97, FALSE}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const DryOpening opening = {.kind = rows[i].kind,
                                .u = INCH (rows[i].u),
                                .z = INCH (rows[i].z),
                                .width = INCH (rows[i].width),
                                .height = INCH (rows[i].height)};
    g_autoptr (DryProject) project =
        rule_room_add_opening (rule_room_alcove ("foam-bands", "us-residential"), 's', opening);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    const char *kind = rows[i].kind == DRY_OPENING_WINDOW ? "window" : "door";

    g_test_message ("row %u", i);
    g_assert_cmpfloat (rule_room_measure (plan, kind, "fits-wall")->number, ==, rows[i].fits);
    g_assert_cmpfloat (rule_room_measure (plan, kind, "in-wet-wall")->number, ==, 0);
    g_assert_true (is_measured (plan, kind, "safety-glass") ==
                   (rows[i].kind == DRY_OPENING_WINDOW));
  }
}

static void
stand_free (DryBasin *basin, gpointer data)
{
  basin->along = INCH (30);
}

/* A tub along a long wall has an open end on both sides: the wet wall goes past each of them, and
 * both want a leg down to the floor. */
static void
test_tub_along_wall (void)
{
  for (guint leg = 0; leg < 2; leg++) {
    const DryPoint corners[] = {{0, INCH (96)}, {INCH (120), INCH (96)}, {INCH (120), 0}, {0, 0}};
    const DryWetZone wet = {.past = INCH (3), .leg = leg};
    DryProject *room = rule_room_alcove ("foam-bands", "us-residential");
    g_autoptr (GError) error = NULL;
    DryProject *longer = dry_edit_set_outline (room, dry_test_room (room), corners, 4, &error);
    g_autoptr (DryProject) project = NULL;
    g_autoptr (DryPlan) plan = NULL;
    const DryMeasure *past;

    g_assert_no_error (error);
    dry_project_unref (room);
    project = rule_room_set_wet (rule_room_set_basin (longer, stand_free, NULL), wet);
    plan = rule_room_plan (project);
    past = measure_of (plan, "wall", dry_test_wall (project, 'n'), "past-basin");
    g_assert_nonnull (past);
    g_assert_cmpint (past->length, ==, INCH (3));
    g_assert_cmpfloat (measure_of (plan, "wall", dry_test_wall (project, 'n'), "leg")->number, ==,
                       leg);
    g_assert_false (is_measured (plan, "basin", "opening")); /* between no walls */
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/measure-rooms/no-basin", test_no_basin);
  g_test_add_func ("/measure-rooms/in-board", test_in_board);
  g_test_add_func ("/measure-rooms/taller-than-wall", test_taller_than_wall);
  g_test_add_func ("/measure-rooms/hidden-in-bay", test_hidden_in_bay);
  g_test_add_func ("/measure-rooms/opening-from-both-sides", test_opening_seen_from_both_sides);
  g_test_add_func ("/measure-rooms/doorway", test_doorway);
  g_test_add_func ("/measure-rooms/doorway-other-side", test_doorway_other_side);
  g_test_add_func ("/measure-rooms/studs", test_studs_told_or_taken);
  g_test_add_func ("/measure-rooms/open-edge", test_open_edge);
  g_test_add_func ("/measure-rooms/glass-at-leaning-wall", test_glass_at_leaning_wall);
  g_test_add_func ("/measure-rooms/opening-fits", test_opening_fits);
  g_test_add_func ("/measure-rooms/tub-along-wall", test_tub_along_wall);
  g_test_add_func ("/measure-rooms/basin-name", test_basin_name);
  return g_test_run ();
}
