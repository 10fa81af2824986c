/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is written of a chosen layout: whose hole a hole is, studs and blocking set behind seams and
 * what they keep clear of, boards on hand. Rooms are invented; shares no code with the engine. */
#include "board-case.h"

#include "plan/boards-private.h"
#include "support/fixtures.h"

#define IN DRY_INCH

static DryProject *
follow (DryProject *old, DryProject *next)
{
  g_assert_nonnull (next);
  dry_project_unref (old);
  return next;
}

static DryProject *
add_part (DryProject *project, char compass, DryPart part)
{
  part.wall = dry_test_wall (project, compass);
  return follow (project, dry_edit_set_part (project, dry_test_room (project), &part, NULL, NULL));
}

static DryProject *
add_valve (DryProject *project, char compass, DryLength u, DryLength z)
{
  return add_part (project, compass,
                   (DryPart){.kind = DRY_PART_VALVE,
                             .u = u,
                             .z = z,
                             .width = 7 * IN,
                             .height = 7 * IN,
                             .hole = 3 * IN});
}

static DryProject *
wish_level_seam (DryProject *project, DryLength z, DryLength through)
{
  const DrySeamWish wish = {
      .wall = dry_test_wall (project, 'n'), .level = TRUE, .at = z, .through = through};
  return follow (project, dry_edit_set_seam (project, dry_test_room (project), &wish, NULL, NULL));
}

static guint
count_holes (const BoardCase *c, guint face)
{
  guint n = 0;
  for (guint i = 0; i < c->boards->n; i++)
    if (c->boards->items[i].face == face)
      n += c->boards->items[i].n_holes;
  return n;
}

static const DryFace *
get_north (const BoardCase *c)
{
  return dry_faces_get_wall (c->faces, dry_test_wall (c->project, 'n'), DRY_SIDE_INSIDE);
}

/* A pipe through a board is that board's, on the rim of a niche too; within the niche it goes
 * through no board; in the joint between two it is one board's, not both's. */
static void
test_holes (void)
{
  static const struct {
    DryLength u, z;
    guint n;
    gboolean seam; /* wished, 40 in up */
  } CASES[] = {{10 * IN, 60 * IN, 1, FALSE},
               {24 * IN, 58 * IN, 0, FALSE},
               {10 * IN, 40 * IN, 1, TRUE},
               {45 * IN, 40 * IN, 1, TRUE}};
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    DryProject *project = dry_test_furnished_alcove ("cement-liquid");
    if (CASES[i].seam)
      project = wish_level_seam (project, 40 * IN, 30 * IN);
    BoardCase c;
    board_case_begin (&c, add_valve (project, 'n', CASES[i].u, CASES[i].z));
    board_case_compute (&c);
    g_assert_cmpuint (count_holes (&c, get_north (&c)->index), ==, CASES[i].n);
    board_case_end (&c);
  }
}

/* One board as large as the wall with the niche cut out of its middle: what goes through the niche
 * goes through no board, on the rim of the opening it does. */
static void
test_holes_round_a_niche (void)
{
  static const DrySheet LARGE = {"5x8", "5 x 8 ft", 60 * IN, 96 * IN, 9900};
  static const struct {
    DryLength u; /* of the pipe; the opening is 16.9 to 31.1 in */
    guint n;
  } CASES[] = {{24 * IN, 0}, {10 * IN, 1}, {31 * IN, 0}, {32 * IN, 1}};
  for (guint i = 0; i <= G_N_ELEMENTS (CASES); i++) {
    BoardCase c;
    board_case_begin (&c, dry_test_furnished_alcove ("foam-bands"));
    c.system.sheets = &LARGE;
    c.system.n_sheets = 1;
    DryFaces *faces = (DryFaces *) dry_faces_compute (&c.context, NULL);
    DryFace *north =
        (DryFace *) dry_faces_get_wall (faces, dry_test_wall (c.project, 'n'), DRY_SIDE_INSIDE);
    DryHole hole = {
        77, {i < G_N_ELEMENTS (CASES) ? CASES[i].u : north->cutouts[0].rough.x0, 58 * IN}, IN / 2};
    north->holes = &hole;
    north->n_holes = 1;
    c.faces = faces;
    c.framing = dry_framing_compute (&c.context, faces, NULL);
    c.boards = dry_boards_compute (&c.context, faces, c.framing, NULL);
    guint whole = 0;
    for (guint k = 0; k < c.boards->n; k++)
      whole += c.boards->items[k].face == north->index && c.boards->items[k].shape.n_holes == 1;
    g_assert_cmpuint (whole, ==, 1);
    g_assert_cmpuint (count_holes (&c, north->index), ==,
                      i < G_N_ELEMENTS (CASES) ? CASES[i].n : 1);
    board_case_end (&c);
  }
}

/* --- what stands behind seams --- */

/* Second studs stand clear of pipes: wherever a pipe comes through beside the stud that is to carry
 * a seam, the second one is set on its other side, or the seam goes elsewhere. */
static void
test_second_stud_and_pipe (void)
{
  guint added = 0;
  for (DryLength u = 30 * IN; u <= 52 * IN; u += IN / 2) {
    BoardCase c;
    board_case_begin (&c, add_valve (dry_test_alcove ("foam-bands"), 'n', u, 50 * IN));
    c.system.edge_distance.value = IN;
    c.system.edge_distance_min.value = 0; /* not known: the usual one is the least */
    c.system.edge_distance_max.value = IN;
    c.system.directional = TRUE;
    board_case_compute (&c);
    for (guint i = 0; i < c.boards->n_blocking; i++) {
      const DryMember *stud = &c.boards->blocking[i];
      DryRect pipe = {u - 3 * IN / 2, 50 * IN - 3 * IN / 2, u + 3 * IN / 2, 50 * IN + 3 * IN / 2};
      if (stud->face != get_north (&c)->index || stud->kind != DRY_MEMBER_STUD)
        continue;
      added++;
      g_assert_false (dry_rect_overlaps (stud->rect, pipe));
    }
    board_case_end (&c);
  }
  g_assert_cmpuint (added, >, 20);
}

/* TRUE when the header or sill of a niche lies behind a level seam at `z`. */
static gboolean
is_on_header (const BoardCase *c, guint face, DryLength z)
{
  for (guint i = 0; i < c->framing->n; i++) {
    const DryMember *member = &c->framing->items[i];
    if (member->face == face && member->object != 0 && member->rect.y0 < z && member->rect.y1 > z)
      return TRUE;
  }
  return FALSE;
}

/* A level seam wished close over or under a niche: its blocking gives way to the niche's opening
 * and crosses none; where header or sill lie behind it they serve. */
static void
test_blocking_at_niche (void)
{
  for (DryLength z = 40 * IN; z <= 76 * IN; z += IN / 2) {
    BoardCase c;
    guint cut = 0;
    board_case_begin (&c, wish_level_seam (dry_test_furnished_alcove ("foam-bands"), z, 5 * IN));
    board_case_compute (&c);
    const DryFace *north = get_north (&c);
    g_assert_cmpuint (north->n_cutouts, ==, 1);
    DryRect rough = north->cutouts[0].rough;
    for (guint i = 0; i < c.boards->n_blocking; i++) {
      const DryMember *block = &c.boards->blocking[i];
      if (block->face != north->index || block->kind != DRY_MEMBER_BLOCKING)
        continue;
      g_assert_false (dry_rect_overlaps (block->rect, rough));
      cut += block->rect.y0 == rough.y1 || block->rect.y1 == rough.y0;
    }
    /* half of 3-1/2 in of blocking reaches into the opening from as near as that */
    DryLength away = z > rough.y1 ? z - rough.y1 : z < rough.y0 ? rough.y0 - z : DRY_LENGTH_MAX;
    if (away > 0 && away < 7 * IN / 4 && !is_on_header (&c, north->index, z))
      g_assert_cmpuint (cut, >, 0);
    board_case_end (&c);
  }
}

/* Every upright seam of a wall nobody has put a stud in yet gets its own, in the middle. */
static void
test_no_studs_at_all (void)
{
  static const DryFraming NONE = {0};
  BoardCase c;
  guint upright = 0;
  board_case_begin (&c, dry_test_alcove ("foam-bands"));
  c.system.directional = TRUE;
  board_case_compute (&c);
  const DryBoards *boards = dry_boards_compute (&c.context, c.faces, &NONE, NULL);
  for (guint i = 0; i < boards->n_seams; i++) {
    const DrySeam *seam = &boards->seams[i];
    gboolean found = FALSE;
    if (!seam->vertical)
      continue;
    upright++;
    g_assert_true (seam->needs_second_stud);
    g_assert_cmpint (seam->member, ==, -1);
    for (guint k = 0; k < boards->n_blocking; k++) {
      DryRect stud = boards->blocking[k].rect;
      found |= boards->blocking[k].kind == DRY_MEMBER_STUD &&
               stud.x0 + stud.x1 == 2 * seam->from.x && stud.y0 <= seam->from.y &&
               stud.y1 >= seam->to.y;
    }
    g_assert_true (found);
  }
  g_assert_cmpuint (upright, >, 0);
  board_case_end (&c);
}

/* A tiled ceiling too large for one sheet: its seams lie along joists. */
static void
test_ceiling_seams (void)
{
  static const DryLength PASTS[] = {12 * IN, 30 * IN, 44 * IN};
  guint seams = 0;
  for (guint i = 0; i < G_N_ELEMENTS (PASTS); i++) {
    DryProject *project = dry_test_alcove ("foam-bands");
    DryWetZone wet = dry_test_first_room (project)->wet;
    wet.past = PASTS[i];
    wet.ceiling = TRUE;
    project =
        follow (project, dry_edit_set_wet_zone (project, dry_test_room (project), &wet, NULL));
    BoardCase c;
    board_case_begin (&c, project);
    board_case_compute (&c);
    for (guint k = 0; k < c.boards->n_seams; k++) {
      const DrySeam *seam = &c.boards->seams[k];
      if (c.faces->items[seam->face].kind != DRY_FACE_CEILING || !seam->vertical)
        continue;
      seams++;
      g_assert_cmpint (seam->member, >=, 0);
      DryRect joist = c.framing->items[seam->member].rect;
      g_assert_cmpint (joist.x0, <, seam->from.x);
      g_assert_cmpint (joist.x1, >, seam->from.x);
      g_assert_cmpint (joist.y1 - joist.y0, >=, seam->to.y - seam->from.y);
    }
    board_case_end (&c);
  }
  g_assert_cmpuint (seams, >, 1);
}

static DryLength
measure_backing (const DryBoards *boards, const DrySeam *seam)
{
  DryLength backed = 0;
  for (guint i = 0; i < boards->n_blocking; i++) {
    DryRect rect = boards->blocking[i].rect;
    if (boards->blocking[i].face != seam->face)
      continue;
    if (seam->vertical && rect.x0 < seam->from.x && rect.x1 > seam->from.x)
      backed = MAX (backed, MIN (rect.y1, seam->to.y) - MAX (rect.y0, seam->from.y));
    if (!seam->vertical && rect.y0 < seam->from.y && rect.y1 > seam->from.y)
      backed = MAX (backed, MIN (rect.x1, seam->to.x) - MAX (rect.x0, seam->from.x));
  }
  return backed;
}

/* A ceiling whose joists nobody knows, of sheets of 36 x 60 in and of long ones: a seam may be
 * anywhere, and gets a block along its whole length. */
static void
test_unknown_joists (void)
{
  static const DryFraming NONE = {0};
  static const DrySheet LONG = {"2x8", "2 x 8 ft", 24 * IN, 96 * IN, 3000};
  guint upright = 0, level = 0;
  for (guint i = 0; i < 2; i++) {
    DryProject *project = dry_test_alcove ("foam-bands");
    DryWetZone wet = dry_test_first_room (project)->wet;
    wet.past = 44 * IN;
    wet.ceiling = TRUE;
    project =
        follow (project, dry_edit_set_wet_zone (project, dry_test_room (project), &wet, NULL));
    BoardCase c;
    board_case_begin (&c, project);
    c.system.n_sheets = 1;
    if (i == 1)
      c.system.sheets = &LONG;
    board_case_compute (&c);
    const DryBoards *boards = dry_boards_compute (&c.context, c.faces, &NONE, NULL);
    for (guint k = 0; k < boards->n_seams; k++) {
      const DrySeam *seam = &boards->seams[k];
      if (c.faces->items[seam->face].kind != DRY_FACE_CEILING)
        continue;
      upright += seam->vertical;
      level += !seam->vertical;
      g_assert_cmpint (measure_backing (boards, seam), ==,
                       seam->vertical ? seam->to.y - seam->from.y : seam->to.x - seam->from.x);
    }
    board_case_end (&c);
  }
  g_assert_cmpuint (upright, >, 0);
  g_assert_cmpuint (level, >, 0);
}

/* An opening from end to end or from floor to ceiling leaves a wall in two parts: both are boarded,
 * no board reaches over the opening, and marks go from below up. */
static void
test_wall_in_two (void)
{
  static const DryOpening OPENINGS[] = {
      {.kind = DRY_OPENING_WINDOW, .z = 40 * IN, .width = 60 * IN, .height = 30 * IN},
      {.kind = DRY_OPENING_PASSAGE, .u = 25 * IN, .width = 10 * IN, .height = 96 * IN}};
  for (guint i = 0; i < G_N_ELEMENTS (OPENINGS); i++) {
    DryProject *project = dry_test_alcove ("cement-liquid");
    DryOpening opening = OPENINGS[i];
    opening.wall = dry_test_wall (project, 'n');
    project = follow (
        project, dry_edit_set_opening (project, dry_test_room (project), &opening, NULL, NULL));
    BoardCase c;
    board_case_begin (&c, project);
    board_case_compute (&c);
    /* Beside a passage a seam may give way to a sheet that is cut in two there all the same, which
     * the check of whole sheets does not allow. */
    if (i == 0)
      g_assert_cmpuint (board_case_check (&c), ==, 0);
    const DryFace *north = get_north (&c);
    guint first = 0, second = 0;
    DryLength last = 0;
    g_assert_cmpuint (north->region.n_polygons, ==, 2);
    for (guint k = 0; k < c.boards->n; k++) {
      DryRect bounds = c.boards->items[k].bounds;
      if (c.boards->items[k].face != north->index)
        continue;
      first += i == 0 ? bounds.y1 <= 40 * IN : bounds.x1 <= 25 * IN;
      second += i == 0 ? bounds.y0 >= 70 * IN : bounds.x0 >= 35 * IN;
      g_assert_false (dry_rect_overlaps (bounds, north->cutouts[0].rough));
      g_assert_cmpint (bounds.y0, >=, last);
      last = bounds.y0;
    }
    g_assert_cmpuint (first, >, 0);
    g_assert_cmpuint (second, >, 0);
    board_case_end (&c);
  }
}

/* --- rules --- */

/* Seams that meet one from both sides keep a stud's distance; walls that say nothing of their studs
 * are taken as usual. */
static void
test_stagger (void)
{
  static const struct {
    DryLength spacing, width, stagger;
  } CASES[] = {{16 * IN, 3 * IN / 2, 29 * IN / 2},
               {24 * IN, 3 * IN / 2, 29 * IN / 2}, /* never more than 16 in */
               {12 * IN, 3 * IN / 2, 21 * IN / 2},
               {0, 3 * IN / 2, 29 * IN / 2},
               {2 * IN, 3 * IN / 2, IN}}; /* a stud takes no more than half of it */
  g_assert_cmpint (dry_board_stagger (NULL), ==, 16 * IN);
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    DryWall wall = {.stud_spacing = CASES[i].spacing, .stud_width = CASES[i].width};
    g_assert_cmpint (dry_board_stagger (&wall), ==, CASES[i].stagger);
  }
}

/* A wall with nothing left to board has no place for a seam; one with board has some, on its studs,
 * and none so near an end that a sliver would be left. */
static void
test_seam_places (void)
{
  BoardCase c;
  board_case_begin (&c, dry_test_alcove ("foam-bands"));
  board_case_compute (&c);
  DryFace face = *get_north (&c);
  g_autoptr (GArray) some =
      dry_boards_list_seam_places (&c.context, &face, c.framing, 20 * IN, 90 * IN);
  g_assert_cmpuint (some->len, ==, 3); /* studs at 16, 32 and 48 in */
  for (guint i = 0; i < some->len; i++)
    g_assert_cmpint (g_array_index (some, DrySeamPlace, i).at, ==, (i + 1) * 16 * IN);
  c.system.min_piece = 20 * IN;
  g_autoptr (GArray) fewer =
      dry_boards_list_seam_places (&c.context, &face, c.framing, 20 * IN, 90 * IN);
  g_assert_cmpuint (fewer->len, ==, 1);
  g_assert_cmpint (g_array_index (fewer, DrySeamPlace, 0).at, ==, 32 * IN);
  face.region = (DryRegion){0};
  g_autoptr (GArray) none =
      dry_boards_list_seam_places (&c.context, &face, c.framing, 20 * IN, 90 * IN);
  g_assert_cmpuint (none->len, ==, 0);
  board_case_end (&c);
}

/* --- on hand --- */

/* Boards on hand of this system and thickness are cut before any is bought, others are left where
 * they are; the seams are the same as without. */
static void
test_on_hand (void)
{
  static const struct {
    const char *system;
    DryLength board;
    gint count;
    gboolean cut;
  } CASES[] = {{NULL, 0, 2, TRUE},
               {"foam-bands", 127 * DRY_MM / 10, 2, TRUE},
               {"cement-liquid", 0, 2, FALSE},
               {NULL, 19 * DRY_MM, 2, FALSE},
               {NULL, 0, 20, TRUE}};
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    DryProject *project = dry_test_alcove ("foam-bands");
    const DryOnHand board = {.system = (char *) CASES[i].system,
                             .board = CASES[i].board,
                             .width = 48 * IN,
                             .height = 96 * IN,
                             .count = CASES[i].count};
    BoardCase without, c;
    board_case_begin (&without, dry_project_ref (project));
    board_case_compute (&without);
    board_case_begin (&c, follow (project, dry_edit_set_on_hand (project, dry_test_room (project),
                                                                 0, &board, NULL)));
    board_case_compute (&c);
    g_assert_cmpuint (c.boards->n_seams, ==, without.boards->n_seams);
    g_assert_cmpuint (c.boards->cutting->n_unplaced, ==, 0);
    if (CASES[i].cut)
      g_assert_cmpuint (c.boards->cutting->n_bought, <, without.boards->cutting->n_bought);
    else
      g_assert_cmpuint (c.boards->cutting->n_bought, ==, without.boards->cutting->n_bought);
    if (CASES[i].count == 20) { /* nothing is bought, so no size was chosen to buy */
      g_assert_cmpuint (c.boards->cutting->n_bought, ==, 0);
      g_assert_null (c.boards->sheet);
    }
    board_case_end (&without);
    board_case_end (&c);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/boards-write/holes", test_holes);
  g_test_add_func ("/plan/boards-write/holes-round-a-niche", test_holes_round_a_niche);
  g_test_add_func ("/plan/boards-write/second-stud-and-pipe", test_second_stud_and_pipe);
  g_test_add_func ("/plan/boards-write/blocking-at-niche", test_blocking_at_niche);
  g_test_add_func ("/plan/boards-write/no-studs-at-all", test_no_studs_at_all);
  g_test_add_func ("/plan/boards-write/ceiling-seams", test_ceiling_seams);
  g_test_add_func ("/plan/boards-write/unknown-joists", test_unknown_joists);
  g_test_add_func ("/plan/boards-write/wall-in-two", test_wall_in_two);
  g_test_add_func ("/plan/boards-write/stagger", test_stagger);
  g_test_add_func ("/plan/boards-write/seam-places", test_seam_places);
  g_test_add_func ("/plan/boards-write/on-hand", test_on_hand);
  return g_test_run ();
}
