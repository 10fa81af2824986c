/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes keep what they promise: made by edits and judged anew in the changed room, the niche
 * stands as was said, for what was said; and what cannot help is not said. */
#include <string.h>

#include "plan/added-wall.h"
#include "plan/advice-rig.h"

static DryPart
make_niche (double u, double z, double width, double height, double depth)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .u = INCH (u),
                   .z = INCH (z),
                   .width = INCH (width),
                   .height = INCH (height),
                   .depth = INCH (depth),
                   .site_built = TRUE,
                   .pitch = 0.021};
}

static double
layout_points (const DryAdvicePlace *place)
{
  for (guint i = 0; i < place->n_reasons; i++)
    if (place->reasons[i].kind == DRY_ADVICE_LAYOUT)
      return place->reasons[i].points;
  return 0;
}

/* The part stands in the changed room as was told of the place, less what the change of the tile
 * itself was said to cost. */
static void
check_place (const DryProject *changed, DryId id, const DryAdvicePlace *told)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryPart *part = dry_room_get_part (dry_test_first_room (changed), id);
  g_autoptr (DryAdvice) again = advice_rig_advise (changed, part, NULL);
  DryAdvicePlace place =
      dry_advice_judge (again, arena, part->wall, part->side, (DryPoint){part->u, part->z});

  g_assert_true (place.legal);
  g_assert_cmpfloat_with_epsilon (place.points, told->points - layout_points (told), 1e-6);
}

static void
check_change (const DryAdvice *advice, const DryProject *project, const DryAdviceChange *change)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) changed = NULL;
  DryId id = 0;

  g_test_message ("%s %.4f: %s", change->id, change->size, change->text);
  changed = dry_advice_apply (advice, project, &change->place, &id, &error);
  g_assert_no_error (error);
  g_assert_false (dry_project_equal (project, changed));
  check_place (changed, id, &change->place);
}

static guint
check_changes (const DryProject *project, const DryAdviceOptions *options, const char *must_say)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryPart *niche =
      dry_room_get_part (dry_test_first_room (project), added_wall_last_part (project));
  g_autoptr (DryAdvice) advice = advice_rig_advise (project, niche, options);
  guint n = 0;
  const DryAdviceChange *changes = dry_advice_find_changes (advice, arena, &n);
  gboolean said = must_say == NULL;

  for (guint i = 0; i < n; i++) {
    said |= !said && g_str_has_prefix (changes[i].text, must_say);
    check_change (advice, project, &changes[i]);
  }
  if (!said)
    g_error ("Nothing says “%s”", must_say);
  return n;
}

/* Site-built niches, each with something wrong where it stands. */
static void
test_promises (void)
{
  static const struct {
    double u, z, width, height, depth;
    const char *says; /* one of the changes begins so */
  } rows[] = {
      {30, 40, 12, 14, 3, "Move it "},
      {33, 48, 12, 14, 3, "Move it 3"},
      {24, 40, 12, 14, 3, "Make it 6 15/16\" lower"}, /* to a joint */
      {20, 30, 12, 14, 3, "Lay the tile for it: "},
      {20, 30, 12, 14, 3, "Take “Porcelain tile, 12 x 12 in” instead"},
      {20, 70, 18, 14, 5, "Make it 1 1/2\" shallower: 3 1/2\" deep"},
      {5, 40, 12, 14, 6, "Make it 2 1/2\" shallower, 3 1/2\" deep; Move it 3 7/16\" to the right"},
      {24, 94, 12, 20, 3, "Move it 21 15/16\" down"},
      {24, 50, 12, 9, 3, NULL},
      {24, 2, 12, 14, 3, "Move it "},
      {24, 48, 70, 14, 6, NULL},
      {24, 48, 3, 14, 6, NULL},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    DryPart niche = make_niche (rows[i].u, rows[i].z, rows[i].width, rows[i].height, rows[i].depth);
    g_autoptr (DryProject) project =
        rule_room_add_part (dry_test_load ("01-alcove.drybay"), 'n', niche);

    g_test_message ("niche %u", i);
    check_changes (project, NULL, rows[i].says);
  }
}

/* A ready-made niche is taken as it is sold: where its box does not go between the studs another
 * one is named, and no inch is sawn off it. */
static void
test_ready_made (void)
{
  const DryCatalog *catalog = dry_test_catalog ();
  guint tried = 0, other = 0;

  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    g_autoptr (DryArena) arena = dry_arena_new ();
    g_autoptr (DryProject) project = NULL;
    g_autoptr (DryAdvice) advice = NULL;
    const DryAdviceChange *changes;
    DryPart niche;
    guint n = 0;

    if (item->kind != DRY_ITEM_PART || item->part.kind != DRY_PART_NICHE ||
        item->part.body_width <= 0)
      continue;
    tried++;
    niche = item->part;
    niche.item = (char *) item->id;
    niche.u = INCH (33); /* a stud stands at 32 in */
    niche.z = INCH (46);
    project = rule_room_add_part (rule_room_alcove ("foam-bands", "us-residential"), 'n', niche);
    check_changes (project, NULL, NULL);
    niche.id = added_wall_last_part (project);
    niche.wall = dry_test_wall (project, 'n');
    niche.u = INCH (24);
    niche.depth = INCH (6); /* as if it were deeper than sold */
    advice = advice_rig_advise (project, &niche, NULL);
    changes = dry_advice_find_changes (advice, arena, &n);
    for (guint k = 0; k < n; k++) {
      g_assert_cmpstr (changes[k].id, !=, "depth");
      g_assert_cmpstr (changes[k].id, !=, "width");
      g_assert_cmpstr (changes[k].id, !=, "height");
      if (g_str_equal (changes[k].id, "item")) {
        g_assert_nonnull (changes[k].place.item);
        g_assert_true (g_str_has_prefix (changes[k].text, "Take “"));
        check_change (advice, project, &changes[k]);
        other++;
      }
    }
  }
  g_assert_cmpuint (tried, >, 1);
  g_assert_cmpuint (other, >, 0);
}

/* The tallest bottle and an inch: a niche too low for it is told how much taller, one that takes it
 * is not. */
static void
test_taller (void)
{
  DryAdviceOptions options = dry_advice_options_default ();
  g_autoptr (DryProject) project = rule_room_add_part (
      rule_room_alcove ("foam-bands", "us-residential"), 'n', make_niche (24, 42, 12, 12, 3));

  options.tallest_bottle = INCH (15);
  check_changes (project, &options, "Make it 4\" taller: 16\" high");
}

/* A valve bored into a stud is moved beside it; no size or tile is named for it. */
static void
test_valve (void)
{
  for (gint side = -1; side <= 1; side += 2) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryPart valve = {.kind = DRY_PART_VALVE,
                     .u = INCH (32 + side),
                     .z = INCH (40),
                     .width = INCH (7),
                     .height = INCH (7),
                     .hole = INCH (3)};
    g_autoptr (DryProject) project =
        rule_room_add_part (rule_room_alcove ("foam-bands", "us-residential"), 'n', valve);
    g_autoptr (DryAdvice) advice = advice_rig_advise (
        project, dry_room_get_part (dry_test_first_room (project), added_wall_last_part (project)),
        NULL);
    guint n = 0;
    const DryAdviceChange *changes = dry_advice_find_changes (advice, arena, &n);

    g_assert_cmpuint (n, >, 0);
    /* 1-1/2 in of hole, 3/4 in of stud: off by 2-1/4 in, of which 1 in is there */
    g_assert_cmpstr (changes[0].id, ==, "move");
    g_assert_true (g_str_has_prefix (changes[0].text, "Move it 1 "));
    g_assert_nonnull (strstr (changes[0].text, side < 0 ? "to the left" : "to the right"));
    for (guint i = 0; i < n; i++) {
      g_assert_true (g_str_equal (changes[i].id, "move") || g_str_equal (changes[i].id, "wall"));
      check_change (advice, project, &changes[i]);
    }
  }
}

/* Nothing is said of a part that stands as well as it can. */
static void
test_nothing_to_say (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPart valve = {.kind = DRY_PART_VALVE,
                   .u = INCH (24),
                   .z = INCH (28) /* without a shower a tub's valve is at the rim to 33 in */,
                   .width = INCH (7),
                   .height = INCH (7),
                   .hole = INCH (3)};
  g_autoptr (DryProject) project =
      rule_room_add_part (rule_room_alcove ("foam-bands", "us-residential"), 'n', valve);
  g_autoptr (DryAdvice) advice = advice_rig_advise (
      project, dry_room_get_part (dry_test_first_room (project), added_wall_last_part (project)),
      NULL);
  guint n = 1;

  dry_advice_find_changes (advice, arena, &n);
  g_assert_cmpuint (n, ==, 0);
}

/* A niche that is in hand and on no wall yet is told the walls it may be put in, and its size is
 * let be. */
static void
test_on_no_wall (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryProject) project = rule_room_alcove ("foam-bands", "us-residential");
  DryPart niche = make_niche (24, 48, 12, 14, 5);
  g_autoptr (DryAdvice) deep = advice_rig_advise (project, &niche, NULL), advice = NULL;
  const DryAdviceChange *changes;
  guint n = 1;

  dry_advice_find_changes (deep, arena, &n);
  g_assert_cmpuint (n, ==, 0); /* deeper than every wall */
  niche.depth = INCH (3);
  advice = advice_rig_advise (project, &niche, NULL);
  changes = dry_advice_find_changes (advice, arena, &n);
  g_assert_cmpuint (n, ==, dry_advice_get_n_faces (advice));
  for (guint i = 0; i < n; i++)
    g_assert_cmpstr (changes[i].id, ==, "wall");
}

/* --- places chosen with the tile --- */

/* Joints chosen with the place, or none where nothing is tiled: what is found first costs no more
 * than with the tile as it is, and applied it sets the finish to the joint that was chosen. */
static void
test_joint_chosen (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GError) error = NULL;
  DryPart niche = make_niche (24, 48, 8.25, 21, 3);
  g_autoptr (DryProject) project = rule_room_set_fields (
      rule_room_alcove ("foam-bands", "us-residential"),
      "finish.tiled=1 finish.tile_width=4in finish.tile_height=4in finish.tile_thickness=8mm "
      "finish.joint=0.125in finish.mortar=3mm");
  g_autoptr (DryProject) changed = NULL;
  g_autoptr (DryAdvice) advice = NULL;
  const DryAdvicePlace *fixed, *chosen;
  guint n = 0;

  niche.wall = dry_test_wall (project, 'n');
  advice = advice_rig_advise (project, &niche, NULL);
  fixed = dry_advice_find_best (advice, arena, (DryAdviceFreedom){0}, 1, &n);
  g_assert_cmpuint (n, ==, 1);
  chosen = dry_advice_find_best (advice, arena, (DryAdviceFreedom){.joint = TRUE}, 1, &n);
  g_assert_cmpuint (n, ==, 1);
  /* five courses of 4-1/8 in are 20-5/8 in, of 4-3/16 in 20-15/16 in: within 1/8 in of 21 in */
  g_assert_cmpfloat (chosen->points, <, fixed->points);
  g_assert_cmpint (chosen->joint, >, INCH (0.125));
  changed = dry_advice_apply (advice, project, chosen, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (dry_test_first_room (changed)->finish.joint, ==, chosen->joint);
  g_assert_cmpint (dry_test_first_room (changed)->finish.joint_max, ==, 0);
  check_place (changed, added_wall_last_part (changed), chosen);
}

static void
test_untiled (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GError) error = NULL;
  DryPart niche = make_niche (24, 48, 8.25, 21, 3);
  g_autoptr (DryProject) project =
      rule_room_set_fields (rule_room_alcove ("foam-bands", "us-residential"), "finish.tiled=0");
  g_autoptr (DryProject) changed = NULL;
  g_autoptr (DryAdvice) advice = NULL;
  const DryAdvicePlace *places;
  DryAdvicePlace place;
  guint n = 0;

  niche.wall = dry_test_wall (project, 'n');
  advice = advice_rig_advise (project, &niche, NULL);
  places =
      dry_advice_find_best (advice, arena, (DryAdviceFreedom){.joint = TRUE, .datum = TRUE}, 1, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (places[0].joint, ==, 0);
  g_assert_true (places[0].datum.x == 0 && places[0].datum.y == 0);
  /* Asked all the same, there is no layout to move: the part is put, the finish left as it is. */
  place = dry_advice_judge_layout (advice, arena, niche.wall, DRY_SIDE_INSIDE,
                                   (DryPoint){niche.u, niche.z}, INCH (0.25), (DryPoint){0, 0});
  changed = dry_advice_apply (advice, project, &place, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (dry_test_first_room (changed)->n_parts, ==, 1);
  g_assert_cmpint (dry_test_first_room (changed)->finish.joint, ==,
                   dry_test_first_room (project)->finish.joint);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advisor/changes/promises", test_promises);
  g_test_add_func ("/advisor/changes/ready-made", test_ready_made);
  g_test_add_func ("/advisor/changes/taller", test_taller);
  g_test_add_func ("/advisor/changes/valve", test_valve);
  g_test_add_func ("/advisor/changes/nothing-to-say", test_nothing_to_say);
  g_test_add_func ("/advisor/changes/on-no-wall", test_on_no_wall);
  g_test_add_func ("/advisor/choices/joint", test_joint_chosen);
  g_test_add_func ("/advisor/choices/untiled", test_untiled);
  return g_test_run ();
}
