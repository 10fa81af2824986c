/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Advice where walls have two sides, seats, things hidden in them, and where none can be given.
 * What a place is told to break is worked out by hand; knows no demand's workings. */
#include <string.h>

#include "plan/added-wall.h"
#include "plan/advice-rig.h"

static const DryAdviceReason *
find_reason (const DryAdvicePlace *place, DryAdviceKind kind)
{
  for (guint i = 0; i < place->n_reasons; i++)
    if (place->reasons[i].kind == kind)
      return &place->reasons[i];
  return NULL;
}

/* Whether the demand is broken with the part's middle at u and its height at z, both in inches. */
static const DryAdviceReason *
judge (const DryAdvice *advice, DryArena *arena, DryId wall, DrySide side, double u, double z,
       DryAdviceKind kind)
{
  DryAdvicePlace place =
      dry_advice_judge (advice, arena, wall, side, (DryPoint){INCH (u), INCH (z)});
  const DryAdviceReason *reason = find_reason (&place, kind);

  g_assert_nonnull (reason);
  g_assert_cmpstr (reason->id, ==, dry_advice_kind_id (kind));
  g_assert_nonnull (reason->working.formula);
  if (!reason->holds && reason->hard)
    g_assert_false (place.legal);
  return reason;
}

static gboolean
holds (const DryAdvice *advice, DryId wall, DrySide side, double u, double z, DryAdviceKind kind)
{
  g_autoptr (DryArena) arena = dry_arena_new ();

  return judge (advice, arena, wall, side, u, z, kind)->holds;
}

static DryPart
make_niche (double width, double height, double depth)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .u = INCH (24),
                   .z = INCH (48),
                   .width = INCH (width),
                   .height = INCH (height),
                   .depth = INCH (depth),
                   .site_built = TRUE,
                   .pitch = 0.021};
}

static DryPart
make_part (DryPartKind kind, double width, double height, double hole)
{
  return (DryPart){.kind = kind,
                   .u = INCH (24),
                   .z = INCH (40),
                   .width = INCH (width),
                   .height = INCH (height),
                   .depth = INCH (3),
                   .hole = INCH (hole)};
}

/* --- walls with two sides --- */

/* Two niches back to back are as deep as the wall is thick or they meet. The one in the room is 8
 * to 16 in from the right as seen from there, so 8 to 16 in from the left as seen from the pan. */
static void
test_back_to_back (void)
{
  static const struct {
    double thickness, depth, u;
    gboolean free;
  } rows[] = {{3.5, 2, 12, FALSE}, {3.5, 2, 28, TRUE}, {3.5, 1.5, 12, TRUE}, {5.5, 2, 12, TRUE}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart niche = make_niche (6, 12, rows[i].depth), other = make_niche (8, 16, 2);
    DryId id = 0;
    g_autoptr (DryProject) project =
        added_wall_close (added_wall_corner_shower ("foam-bands"), 0, &id);
    DryWall wall = *dry_room_get_wall (dry_test_first_room (project), id);
    g_autoptr (DryAdvice) advice = NULL;

    wall.thickness = INCH (rows[i].thickness);
    project = added_wall_set (g_steal_pointer (&project), &wall);
    other.u = INCH (24);
    project = added_wall_put_part (g_steal_pointer (&project), id, DRY_SIDE_OUTSIDE, other);
    niche.wall = id;
    advice = advice_rig_advise (project, &niche, NULL);
    g_test_message ("row %u", i);
    g_assert_true (holds (advice, id, DRY_SIDE_INSIDE, rows[i].u, 50, DRY_ADVICE_OTHER_SIDE) ==
                   rows[i].free);
    /* another wall, and higher than the other niche, is free in any case */
    g_assert_true (holds (advice, id, DRY_SIDE_INSIDE, rows[i].u, 70, DRY_ADVICE_OTHER_SIDE));
    g_assert_true (holds (advice, dry_test_wall (project, 'n'), DRY_SIDE_INSIDE, rows[i].u, 50,
                          DRY_ADVICE_OTHER_SIDE));
  }
}

/* A niche deeper than an added wall is thick is told what it takes of it. */
static void
test_depth_of_added_wall (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryId id = 0;
  g_autoptr (DryProject) project =
      added_wall_close (added_wall_corner_shower ("foam-bands"), 0, &id);
  DryWall wall = *dry_room_get_wall (dry_test_first_room (project), id);
  DryPart niche = make_niche (6, 12, 4);
  g_autoptr (DryAdvice) thin = NULL, thick = NULL;
  const DryAdviceReason *reason;

  niche.wall = id;
  thin = advice_rig_advise (project, &niche, NULL);
  reason = judge (thin, arena, id, DRY_SIDE_INSIDE, 24, 50, DRY_ADVICE_DEPTH);
  g_assert_false (reason->holds);
  g_assert_nonnull (strstr (reason->text, "3 1/2\""));
  wall.thickness = INCH (5.5);
  project = added_wall_set (g_steal_pointer (&project), &wall);
  thick = advice_rig_advise (project, &niche, NULL);
  reason = judge (thick, arena, id, DRY_SIDE_INSIDE, 24, 50, DRY_ADVICE_DEPTH);
  g_assert_true (reason->holds);
  g_assert_nonnull (strstr (reason->text, "takes 4\" of the 5 1/2\""));
}

/* --- over seats --- */

/* Reach is reckoned from the seat where the niche stands over it in part, from the floor beside it
 * and between two seats: 36 to 60 in above the floor, 12 to 18 in above a seat of 18 in (the
 * shipped rules). */
static void
test_reach_over_seats (void)
{
  static const struct {
    double u, z;
    gboolean in_reach;
  } rows[] = {{12, 34, TRUE},    {12, 40, FALSE},  {12, 28, FALSE}, /* over the left seat */
              {30, 40, TRUE},    {30, 34, FALSE},                   /* between the two */
              {50, 34, TRUE},    {50, 40, FALSE},                   /* over the right one */
              {20.5, 40, FALSE}, {24.5, 40, TRUE}, {24.5, 61, FALSE}};
  g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
  DryPart seat = make_part (DRY_PART_BENCH, 16, 2, 0), niche = make_niche (8, 14, 3);
  g_autoptr (DryAdvice) advice = NULL;
  DryId wall = dry_test_wall (project, 'n');

  seat.z = INCH (18);
  seat.depth = INCH (15);
  seat.fold_down = TRUE;
  seat.u = INCH (12); /* 4 to 20 in */
  project = rule_room_add_part (g_steal_pointer (&project), 'n', seat);
  seat.u = INCH (50); /* 42 to 58 in */
  project = rule_room_add_part (g_steal_pointer (&project), 'n', seat);
  seat.u = INCH (30); /* one on another wall changes nothing here */
  project = rule_room_add_part (g_steal_pointer (&project), 'e', seat);
  advice = advice_rig_advise (project, &niche, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_test_message ("%g, %g", rows[i].u, rows[i].z);
    g_assert_true (holds (advice, wall, DRY_SIDE_INSIDE, rows[i].u, rows[i].z, DRY_ADVICE_HEIGHT) ==
                   rows[i].in_reach);
  }
}

/* --- what is hidden --- */

/* A valve's own pipe ends behind it: that costs a look. A vent may not be bored into, and a bar is
 * screwed into neither. */
static void
test_hidden (void)
{
  static const struct {
    DryPartKind part, hidden;
    gboolean behind, holds, hard;
  } rows[] = {
      {DRY_PART_VALVE, DRY_PART_PIPE, TRUE, FALSE, FALSE},
      {DRY_PART_VALVE, DRY_PART_VENT, TRUE, FALSE, TRUE},
      {DRY_PART_VALVE, DRY_PART_CABLE, TRUE, FALSE, TRUE},
      {DRY_PART_VALVE, DRY_PART_VENT, FALSE, TRUE, TRUE},
      {DRY_PART_GRAB_BAR, DRY_PART_PIPE, TRUE, FALSE, TRUE},
      {DRY_PART_BENCH, DRY_PART_CABLE, TRUE, FALSE, TRUE},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryPart part = make_part (rows[i].part, 12, 2, rows[i].part == DRY_PART_VALVE ? 3 : 0);
    DryPart hidden = make_part (rows[i].hidden, 2, 60, 0);
    g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
    g_autoptr (DryAdvice) advice = NULL;
    DryAdvicePlace place;
    const DryAdviceReason *worst = NULL;

    part.fold_down = TRUE;
    hidden.z = INCH (16);
    hidden.u = INCH (rows[i].behind ? 24 : 40);
    project = rule_room_add_part (g_steal_pointer (&project), 'n', hidden);
    advice = advice_rig_advise (project, &part, NULL);
    place = dry_advice_judge (advice, arena, dry_test_wall (project, 'n'), DRY_SIDE_INSIDE,
                              (DryPoint){INCH (24), INCH (40)});
    for (guint k = 0; k < place.n_reasons; k++)
      if (place.reasons[k].kind == DRY_ADVICE_HIDDEN && (!worst || !place.reasons[k].holds))
        worst = &place.reasons[k];
    g_test_message ("row %u", i);
    g_assert_nonnull (worst);
    g_assert_true (worst->holds == rows[i].holds && worst->hard == rows[i].hard);
    if (!worst->holds)
      g_assert_nonnull (strstr (worst->text, "In the way is the "));
  }
}

/* --- fittings and seats --- */

/* A seat that folds hangs on studs or on blocking to be set; one that is built stands on the
 * floor and asks for neither, but the wall under it must be boarded. */
static void
test_seats (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryProject) project = rule_room_shower (INCH (60), INCH (34));
  DryId wall = dry_test_wall (project, 'n');
  DryPart seat = make_part (DRY_PART_BENCH, 16, 2, 0);
  g_autoptr (DryAdvice) folding = NULL, built = NULL;
  DryAdvicePlace place;

  seat.depth = INCH (15);
  seat.fold_down = TRUE;
  folding = advice_rig_advise (project, &seat, NULL);
  g_assert_true (holds (folding, wall, DRY_SIDE_INSIDE, 24, 18, DRY_ADVICE_HOLD)); /* 16 to 32 in */
  g_assert_false (holds (folding, wall, DRY_SIDE_INSIDE, 30, 18, DRY_ADVICE_HOLD));
  seat.fold_down = FALSE;
  built = advice_rig_advise (project, &seat, NULL);
  place = dry_advice_judge (built, arena, wall, DRY_SIDE_INSIDE, (DryPoint){INCH (30), INCH (18)});
  g_assert_null (find_reason (&place, DRY_ADVICE_HOLD));
  g_assert_true (find_reason (&place, DRY_ADVICE_BOARDED)->holds);
  g_assert_cmpuint (dry_advice_get_face (built, wall, DRY_SIDE_INSIDE)->n_legal, >, 0);
}

/* Beside a bar there must be room for hand and arm: nothing 12 in over it or 1-1/2 in under it
 * (ADA 2010 609.3); a niche or what hides in the wall is not in the way. */
static void
test_room_at_bar (void)
{
  static const struct {
    DryPartKind other;
    char wall;
    double z;
    gboolean holds;
  } rows[] = {{DRY_PART_VALVE, 'n', 48, FALSE},
              {DRY_PART_VALVE, 'n', 58, TRUE},
              {DRY_PART_VALVE, 'e', 48, TRUE},
              {DRY_PART_NICHE, 'n', 42, TRUE},
              {DRY_PART_CABLE, 'n', 44, TRUE}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart bar = make_part (DRY_PART_GRAB_BAR, 16, 1.25, 0);
    DryPart other = make_part (rows[i].other, 6, 6, rows[i].other == DRY_PART_VALVE ? 3 : 0);
    g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
    g_autoptr (DryAdvice) advice = NULL;

    other.z = INCH (rows[i].z);
    project = rule_room_add_part (g_steal_pointer (&project), rows[i].wall, other);
    advice = advice_rig_advise (project, &bar, NULL);
    g_test_message ("row %u", i);
    g_assert_true (holds (advice, dry_test_wall (project, 'n'), DRY_SIDE_INSIDE, 24, 34,
                          DRY_ADVICE_NEAR) == rows[i].holds);
  }
}

/* --- what is asked for --- */

/* Studs cut and edges off their joints only cost; asked for, they forbid, and count no points. */
static void
test_asked_for (void)
{
  static const struct {
    DryAdviceKind kind;
    double u;
  } rows[] = {{DRY_ADVICE_STUDS, 32}, {DRY_ADVICE_JOINTS, 24}, {DRY_ADVICE_SEAM, 24}};

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (DryProject) project =
        rule_room_set_fields (rule_room_alcove ("foam-bands", "us-residential"),
                              "finish.tiled=1 finish.tile_width=12in finish.tile_height=12in "
                              "finish.tile_thickness=8mm finish.joint=0.125in finish.mortar=3mm");
    DryPart niche = make_niche (9.5, 13.3, 3);
    DryAdviceOptions options = dry_advice_options_default ();
    g_autoptr (DryAdvice) advice = advice_rig_advise (project, &niche, &options), strict = NULL;
    DryId wall = dry_test_wall (project, 'n');
    const DryAdviceFace *face;
    const DryAdviceReason *reason;
    DryPoint at = {INCH (rows[i].u), INCH (41.37)};
    DryAdvicePlace place = dry_advice_judge (advice, arena, wall, DRY_SIDE_INSIDE, at);

    g_assert_true (place.legal);
    g_assert_false (find_reason (&place, rows[i].kind)->hard);
    options.must = 1u << rows[i].kind;
    strict = advice_rig_advise (project, &niche, &options);
    place = dry_advice_judge (strict, arena, wall, DRY_SIDE_INSIDE, at);
    reason = find_reason (&place, rows[i].kind);
    g_assert_true (reason->hard);
    g_assert_cmpfloat (reason->points, ==, 0);
    g_assert_true (place.legal == reason->holds);
    g_assert_true (reason->holds == (rows[i].kind == DRY_ADVICE_SEAM));
    face = dry_advice_get_face (strict, wall, DRY_SIDE_INSIDE);
    g_assert_true ((dry_advice_reckon (strict, face, at) >= 0) == place.legal);
  }
}

/* A place that is allowed and dearer than all that a score has is worth nothing, not less. */
static void
test_score_ends (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
  DryPart niche = make_niche (40, 8, 3);
  g_autoptr (DryAdvice) advice = advice_rig_advise (project, &niche, NULL);
  DryAdvicePlace place = dry_advice_judge (advice, arena, dry_test_wall (project, 'n'),
                                           DRY_SIDE_INSIDE, (DryPoint){INCH (30), INCH (83)});

  g_assert_true (place.legal);
  g_assert_cmpfloat (place.points, >, 100);
  g_assert_cmpfloat (place.score, ==, 0);
}

/* A niche beside a door: not into it, not its jamb, and with room for tile and band. */
static void
test_beside_door (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryOpening door = {
      .kind = DRY_OPENING_PASSAGE, .u = INCH (24), .width = INCH (28), .height = INCH (80)};
  g_autoptr (DryProject) project =
      rule_room_add_opening (rule_room_alcove ("foam-bands", "us-residential"), 'e', door);
  DryPart niche = make_niche (8, 14, 3);
  g_autoptr (DryAdvice) advice = advice_rig_advise (project, &niche, NULL);
  DryId wall = dry_test_wall (project, 'e');
  const DryAdviceReason *reason;

  reason = judge (advice, arena, wall, DRY_SIDE_INSIDE, 22, 40, DRY_ADVICE_PARTS);
  g_assert_false (reason->holds);
  g_assert_cmpstr (reason->text, ==, "Reaches into the door");
  reason = judge (advice, arena, wall, DRY_SIDE_INSIDE, 19, 40, DRY_ADVICE_FRAME);
  g_assert_false (reason->holds);
  g_assert_nonnull (strstr (reason->text, "the stud beside the opening at"));
  g_assert_true (holds (advice, wall, DRY_SIDE_INSIDE, 15, 40, DRY_ADVICE_FRAME));
}

/* --- where there is no advice --- */

static void
test_refused (void)
{
  g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
  g_autoptr (DryProject) dry =
      added_wall_remove (dry_project_ref (project), dry_test_first_room (project)->basin.id);
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  const DryCatalog *catalog = dry_test_catalog ();
  DryId room = dry_test_room (project);
  DryPart niche = make_niche (8, 14, 3), glass = make_part (DRY_PART_GLASS, 24, 60, 0);
  g_autoptr (GError) error = NULL;

  niche.wall = glass.wall = dry_test_wall (project, 'n');
  g_assert_null (dry_advice_new (project, room, &glass, catalog, NULL, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_GEOMETRY);
  g_clear_error (&error);
  g_assert_null (dry_advice_new (dry, room, &niche, catalog, NULL, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_GEOMETRY);
  g_clear_error (&error);
  g_assert_null (dry_advice_new (project, room + 1000, &niche, catalog, NULL, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_clear_error (&error);
  g_cancellable_cancel (cancelled);
  g_assert_null (dry_advice_new (project, room, &niche, catalog, NULL, cancelled, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
  for (guint kind = 0; kind < DRY_N_PART_KINDS; kind++)
    g_assert_true (dry_advice_places_kind ((DryPartKind) kind) == (kind < DRY_PART_GLASS));
  g_assert_cmpstr (dry_advice_kind_id (DRY_N_ADVICE), ==, "");
  g_assert_cmpstr (dry_advice_kind_title (DRY_N_ADVICE), ==, "");
}

/* A wall that is not wet has no face to stand on, and a place there says so. */
static void
test_dry_wall (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
  DryPart niche = make_niche (8, 14, 3);
  DryId south = dry_test_wall (project, 's');
  g_autoptr (DryAdvice) advice = NULL;
  DryAdvicePlace place;
  guint n;

  niche.wall = south;
  advice = advice_rig_advise (project, &niche, NULL);
  g_assert_null (dry_advice_get_face (advice, south, DRY_SIDE_INSIDE));
  g_assert_null (dry_advice_get_face (advice, dry_test_wall (project, 'n'), DRY_SIDE_OUTSIDE));
  g_assert_null (dry_advice_get_face_at (advice, dry_advice_get_n_faces (advice)));
  place = dry_advice_judge (advice, arena, south, DRY_SIDE_INSIDE, (DryPoint){niche.u, niche.z});
  g_assert_false (place.legal);
  g_assert_cmpfloat (place.score, ==, 0);
  g_assert_cmpuint (place.n_reasons, ==, 1);
  g_assert_nonnull (strstr (place.reasons[0].text, "not wet"));
  /* What would make it fit is another wall, and nothing but that. */
  const DryAdviceChange *changes = dry_advice_find_changes (advice, arena, &n);
  g_assert_cmpuint (n, >, 0);
  for (guint i = 0; i < n; i++) {
    g_assert_cmpstr (changes[i].id, ==, "wall");
    g_assert_true (changes[i].place.legal);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advisor/walls/back-to-back", test_back_to_back);
  g_test_add_func ("/advisor/walls/depth", test_depth_of_added_wall);
  g_test_add_func ("/advisor/walls/reach-over-seats", test_reach_over_seats);
  g_test_add_func ("/advisor/walls/hidden", test_hidden);
  g_test_add_func ("/advisor/walls/seats", test_seats);
  g_test_add_func ("/advisor/walls/room-at-bar", test_room_at_bar);
  g_test_add_func ("/advisor/walls/asked-for", test_asked_for);
  g_test_add_func ("/advisor/walls/score-ends", test_score_ends);
  g_test_add_func ("/advisor/walls/beside-door", test_beside_door);
  g_test_add_func ("/advisor/walls/refused", test_refused);
  g_test_add_func ("/advisor/walls/dry-wall", test_dry_wall);
  return g_test_run ();
}
