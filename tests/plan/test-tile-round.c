/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Courses that go round rooms closed on all sides and from end to end of open ones, whole tiles at
 * open ends, and joints that may be chosen. Knows edges and cuts, not how they are searched for. */
#include <string.h>

#include "plan/rule-room.h"
#include "plan/tile.h"

#define TILED                                                                                      \
  "finish.tiled=1 finish.tile_thickness=8mm finish.joint=0.125in finish.mortar=3mm "               \
  "finish.joint_min=0 finish.joint_max=0 finish.offset=0 "

/* A pan 60 x 34 in with a wall on each of its four sides, as a shower cabin behind a door would be;
 * `words` set fields as rule_room_set_fields() does. */
static DryProject *
closed_shower (const char *words)
{
  DryProject *project = rule_room_shower (INCH (60), INCH (34));
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  DryLength built = plan->context.build_up.total;
  DryLength right = INCH (60) + 2 * built, back = INCH (34) + 2 * built;
  const DryPoint corners[] = {{0, back}, {right, back}, {right, 0}, {0, 0}};
  g_autoptr (GError) error = NULL;
  DryProject *closed = dry_edit_set_outline (project, dry_test_room (project), corners, 4, &error);

  g_assert_no_error (error);
  dry_project_unref (project);
  return rule_room_set_fields (closed, words);
}

static const DryTileFace *
face_of (const DryPlan *plan, DryId wall)
{
  const DryFace *face = dry_faces_get_wall (plan->faces, wall, DRY_SIDE_INSIDE);

  g_assert_nonnull (face);
  return dry_tiling_get_face (plan->tiling, face->index);
}

/* How many of the room's corners a tile goes round: what is cut off on the left of it, less the
 * saw, begins the wall on its right; where nothing worth a tile is left a whole one does. */
static guint
count_carried (const DryProject *project, const DryPlan *plan)
{
  const char *order = "nesw";
  DryLength width = plan->tiling->width;
  guint n = 0;

  for (guint i = 0; i < 4; i++) {
    const DryTileFace *left = face_of (plan, dry_test_wall (project, order[i]));
    const DryTileFace *right = face_of (plan, dry_test_wall (project, order[(i + 1) % 4]));
    DryLength rest = width - left->right_cut - DRY_TILE_KERF;

    g_assert_true (left->wraps_right && right->wraps_left);
    n += ABS (right->left_cut - (rest < DRY_MM ? width : rest)) <= 1;
  }
  return n;
}

/* Round a closed room every corner but one carries on: at that one the last tile meets the first.
 */
static void
test_closed (void)
{
  static const char *const sizes[] = {"finish.tile_width=24in finish.tile_height=12in",
                                      "finish.tile_width=6in finish.tile_height=6in",
                                      "finish.tile_width=10in finish.tile_height=16in"};

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++) {
    g_autofree char *words = g_strconcat (TILED, "finish.wrap=1 ", sizes[i], NULL);
    g_autoptr (DryProject) project = closed_shower (words);
    g_autoptr (DryPlan) plan = rule_room_plan (project);

    g_assert_cmpuint (count_carried (project, plan), >=, 3);
    for (const char *wall = "nesw"; *wall; wall++) {
      const DryTileFace *face = face_of (plan, dry_test_wall (project, *wall));

      g_assert_cmpstr (face->why_u, ==, "courses go on round the corner");
      g_assert_false (face->whole_left || face->whole_right); /* there is no open end */
    }
  }
}

/* Where the user says a tile starts it does, and the other walls go on from there both ways. */
static void
test_closed_given (void)
{
  static const double from[] = {0, 7, 23.5};

  for (const char *wall = "nesw"; *wall; wall++)
    for (guint i = 0; i < G_N_ELEMENTS (from); i++) {
      g_autoptr (DryProject) project = closed_shower (
          TILED
          "finish.wrap=1 finish.whole_outer=1 finish.tile_width=24in finish.tile_height=12in");
      g_autoptr (GError) error = NULL;
      g_autoptr (DryProject) given = NULL;
      g_autoptr (DryPlan) plan = NULL;
      DryWall set =
          *dry_room_get_wall (dry_test_first_room (project), dry_test_wall (project, *wall));

      set.tile_set = TRUE;
      set.tile_from = INCH (from[i]);
      given = dry_edit_set_wall (project, dry_test_room (project), &set, NULL, &error);
      g_assert_no_error (error);
      plan = rule_room_plan (given);
      g_assert_cmpint (face_of (plan, set.id)->datum.x, ==, INCH (from[i]));
      g_assert_cmpstr (face_of (plan, set.id)->why_u, ==, "set by you");
      g_assert_cmpuint (count_carried (given, plan), >=, 3);
    }
}

/* --- open ends --- */

static DryProject *
alcove (const char *words)
{
  return rule_room_set_fields (rule_room_alcove ("foam-bands", "us-residential"), words);
}

/* A run with two open ends has its whole tile at one of them, at that which leaves the wider cut at
 * the other; only one end wished whole is whole. */
static void
test_whole_ends (void)
{
  static const struct {
    const char *words;
    gboolean left, right; /* wished: the left end of the west wall, the right end of the east one */
  } rows[] = {
      {"finish.whole_outer=1", TRUE, TRUE},
      {"wall.w.tile_ends=2", TRUE, FALSE},
      {"wall.e.tile_ends=2", FALSE, TRUE},
      {"finish.whole_outer=1 wall.w.tile_ends=1", FALSE, TRUE},
      {"finish.whole_outer=1 wall.e.tile_ends=1", TRUE, FALSE},
      {"wall.n.tile_ends=2", FALSE, FALSE}, /* it has no open end */
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (guint wrap = 0; wrap < 2; wrap++) {
      g_autofree char *words = g_strconcat (TILED "finish.tile_width=24in finish.tile_height=12in ",
                                            rows[i].words, wrap ? " finish.wrap=1" : "", NULL);
      g_autoptr (DryProject) project = alcove (words);
      g_autoptr (DryPlan) plan = rule_room_plan (project);
      const DryTileFace *west = face_of (plan, dry_test_wall (project, 'w'));
      const DryTileFace *east = face_of (plan, dry_test_wall (project, 'e'));
      gboolean left = west->left_cut == plan->tiling->width;
      gboolean right = east->right_cut == plan->tiling->width;

      g_test_message ("%s wrap %u", rows[i].words, wrap);
      g_assert_true (west->whole_left == rows[i].left && east->whole_right == rows[i].right);
      if (wrap)
        g_assert_true ((left && rows[i].left) || (right && rows[i].right) ||
                       !(rows[i].left || rows[i].right));
      else {
        g_assert_true (left || !rows[i].left);
        g_assert_true (right || !rows[i].right);
      }
    }
}

/* --- joints --- */

static double
share_with (const char *size, const char *joint, DryLength *is)
{
  g_autofree char *words = g_strconcat (TILED, size, " ", joint, NULL);
  g_autoptr (DryProject) project = alcove (words);
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  *is = plan->tiling->joint;
  g_assert_true ((plan->tiling->why_joint != NULL) ==
                 (*is != dry_test_first_room (project)->finish.joint));
  if (plan->tiling->why_joint)
    g_assert_nonnull (strstr (plan->tiling->why_joint, " instead of "));
  return plan->tiling->smallest_share;
}

/* A joint that may be chosen is chosen within its bounds, and no cut is narrower for it than with
 * the joint asked for. */
static void
test_free_joint (void)
{
  static const char *const sizes[] = {
      "finish.tile_width=24in finish.tile_height=24in",
      "finish.tile_width=12in finish.tile_height=24in",
      "finish.tile_width=8in finish.tile_height=8in",
      "finish.tile_width=4in finish.tile_height=16in",
      "finish.tile_width=29in finish.tile_height=40in",
      "finish.tile_width=57in finish.tile_height=80in",
      "finish.tile_width=6in finish.tile_height=3in finish.pattern=1 finish.offset=0.5",
  };
  guint changed = 0;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++) {
    DryLength asked, is;
    double fixed = share_with (sizes[i], "", &asked);
    double chosen =
        share_with (sizes[i], "finish.joint_min=0.0625in finish.joint_max=0.3125in", &is);

    g_test_message ("%s: %.3f, %.3f with joints of %.4f in", sizes[i], fixed, chosen,
                    dry_length_to_inches (is));
    g_assert_cmpint (asked, ==, INCH (0.125));
    g_assert_cmpint (is, >=, INCH (0.0625));
    g_assert_cmpint (is, <=, INCH (0.3125));
    g_assert_cmpfloat (chosen, >=, MIN (fixed, 0.5) - 1e-9);
    changed += is != asked;
  }
  g_assert_cmpuint (changed, >, 0);
}

/* The mesh of mosaic holds its chips as they are, and slanted tile has no cuts to be bettered:
 * their joint is the one asked for. A joint narrower than the tile's faces vary may not be. */
static void
test_joint_kept (void)
{
  static const struct {
    const char *words;
    double joint; /* mm */
    const char *why;
  } rows[] = {
      {"finish.chips_across=6 finish.chips_up=6 finish.joint_max=10mm", 3.175, NULL},
      {"finish.pattern=3 finish.joint_max=10mm", 3.175, NULL},
      {"finish.joint_min=2mm finish.joint_max=2mm", 3.175, NULL},
      {"finish.variation=2mm", 6, "three times the variation"},
      {"finish.variation=2mm finish.joint_max=5mm", 6, "three times the variation"},
      {"finish.variation=0.5mm", 3.175, NULL},
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *words =
        g_strconcat (TILED, "finish.tile_width=2in finish.tile_height=2in ", rows[i].words, NULL);
    g_autoptr (DryProject) project = alcove (words);
    g_autoptr (DryPlan) plan = rule_room_plan (project);

    g_test_message ("%s", rows[i].words);
    g_assert_cmpfloat_with_epsilon (dry_length_to_mm (plan->tiling->joint), rows[i].joint, 1e-9);
    g_assert_true ((plan->tiling->why_joint != NULL) == (rows[i].why != NULL));
    if (rows[i].why)
      g_assert_nonnull (strstr (plan->tiling->why_joint, rows[i].why));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tile/round/closed", test_closed);
  g_test_add_func ("/tile/round/closed-given", test_closed_given);
  g_test_add_func ("/tile/round/whole-ends", test_whole_ends);
  g_test_add_func ("/tile/joint/free", test_free_joint);
  g_test_add_func ("/tile/joint/kept", test_joint_kept);
  return g_test_run ();
}
