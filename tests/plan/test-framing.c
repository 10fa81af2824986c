/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Framing: studs, bays, openings, niches and blocking of hand-made rooms, against arithmetic.
 * Lumber is 1-1/2 in thick (PS 20): studs 16 in on centre leave 14-1/2 in clear. */
#include "base/error.h"
#include "checks.h"
#include "site.h"

typedef struct {
  DryMemberKind kind;
  double x0, y0, x1, y1;
  gboolean added;
} Member;

static const DryMember *
find_on_face (const Site *site, guint face, Member m)
{
  DryRect rect = {IN (m.x0), IN (m.y0), IN (m.x1), IN (m.y1)};

  for (guint i = 0; i < site->framing->n; i++) {
    const DryMember *member = &site->framing->items[i];

    if (member->face == face && member->kind == m.kind && member->added == m.added &&
        memcmp (&member->rect, &rect, sizeof rect) == 0)
      return member;
  }
  return NULL;
}

static const DryMember *
find_member (const Site *site, guint wall, Member m)
{
  return find_on_face (site, site_face (site, wall)->index, m);
}

static guint
count_on_face (const Site *site, guint face, DryMemberKind kind)
{
  guint n = 0;

  for (guint i = 0; i < site->framing->n; i++)
    n += site->framing->items[i].face == face && site->framing->items[i].kind == kind;
  return n;
}

static guint
count_members (const Site *site, guint wall, DryMemberKind kind, gboolean added)
{
  guint n = 0;

  for (guint i = 0; i < site->framing->n; i++)
    n += site->framing->items[i].face == site_face (site, wall)->index &&
         site->framing->items[i].kind == kind && site->framing->items[i].added == added;
  return n;
}

static void
assert_members (const Site *site, guint wall, const Member *members, guint n)
{
  for (guint i = 0; i < n; i++)
    if (!find_member (site, wall, members[i]))
      g_error ("no member %u of kind %d", i, members[i].kind);
  check_framing (&site->context, site->faces, site->framing);
}

static void
test_regular (void)
{
  /* Centres at 16, 32, 48 in a wall of 60; bottom plate and doubled top plate of 1-1/2. */
  static const Member back[] = {
      {DRY_MEMBER_CORNER, 0, 1.5, 1.5, 93},     {DRY_MEMBER_STUD, 15.25, 1.5, 16.75, 93},
      {DRY_MEMBER_STUD, 31.25, 1.5, 32.75, 93}, {DRY_MEMBER_STUD, 47.25, 1.5, 48.75, 93},
      {DRY_MEMBER_CORNER, 58.5, 1.5, 60, 93},   {DRY_MEMBER_PLATE, 0, 0, 60, 1.5},
      {DRY_MEMBER_PLATE, 0, 93, 60, 94.5},      {DRY_MEMBER_PLATE, 0, 94.5, 60, 96},
  };
  static const double bays[] = {1.5, 15.25, 16.75, 31.25, 32.75, 47.25, 48.75, 58.5};
  guint found = 0;
  Site site;

  site_set_up_alcove (&site);
  site_compute (&site);
  assert_members (&site, 0, back, G_N_ELEMENTS (back));
  for (guint i = 0; i < site.framing->n_bays; i++) {
    const DryBay *bay = &site.framing->bays[i];

    if (bay->face != site_face (&site, 0)->index)
      continue;
    g_assert_cmpint (bay->u0, ==, IN (bays[2 * found]));
    g_assert_cmpint (bay->u1, ==, IN (bays[2 * found + 1]));
    found++;
  }
  g_assert_cmpuint (found, ==, 4);
  g_assert_cmpint (site.framing->bays[1].u1 - site.framing->bays[1].u0, ==, IN (14.5));
  /* The right end wall is wet to 32: the stud centred there bears board and drywall, 3/4 each. */
  g_assert_cmpuint (count_members (&site, 1, DRY_MEMBER_STUD, TRUE), ==, 0);
  site_tear_down (&site);
}

static void
test_layout (void)
{
  /* 20, 30, 30.75 (overlaps: set against its neighbour), 59 (is the end stud) */
  DryLength found[] = {IN (20), IN (30), IN (31.25), IN (59)};
  static const Member studs[] = {
      {DRY_MEMBER_STUD, 19.25, 1.5, 20.75, 93},
      {DRY_MEMBER_STUD, 29.25, 1.5, 30.75, 93},
      {DRY_MEMBER_STUD, 30.75, 1.5, 32.25, 93},
  };
  static const Member outside[] = {{DRY_MEMBER_STUD, 19.25, 1.5, 20.75, 93}};
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};
  Site site;

  site_set_up_alcove (&site);
  site.walls[0].found_studs = found;
  site.walls[0].n_found_studs = G_N_ELEMENTS (found);
  site_compute (&site);
  assert_members (&site, 0, studs, G_N_ELEMENTS (studs));
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_STUD, FALSE), ==, 3);
  site_tear_down (&site);

  /* The stud 16 in from the start of a wall 36 long is 20 from its end, the left on the other side.
   */
  site_set_up (&site, corners, 4);
  site_add_wall (&site, 63.5, 60, 63.5, 96, 0);
  site_compute (&site);
  assert_members (&site, 4, outside, 1);
  site_tear_down (&site);

  /* Steel: a single track at the top. */
  site_set_up_alcove (&site);
  site.walls[0].steel_studs = TRUE;
  site_compute (&site);
  g_assert_nonnull (find_member (&site, 0, (Member){DRY_MEMBER_STUD, 15.25, 1.5, 16.75, 94.5}));
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_PLATE, FALSE), ==, 2);
  site_tear_down (&site);
}

/* What a wall leaves unsaid is as usual: studs of 1-1/2 in, 16 in apart, the first as far from the
 * corner. */
static void
test_unsaid (void)
{
  static const Member studs[] = {{DRY_MEMBER_STUD, 15.25, 1.5, 16.75, 93},
                                 {DRY_MEMBER_STUD, 31.25, 1.5, 32.75, 93},
                                 {DRY_MEMBER_STUD, 47.25, 1.5, 48.75, 93}};
  Site site;

  site_set_up_alcove (&site);
  site.walls[0].stud_width = site.walls[0].stud_spacing = site.walls[0].first_stud = 0;
  site_compute (&site);
  assert_members (&site, 0, studs, G_N_ELEMENTS (studs));
  site_tear_down (&site);
}

/* Seen from its other side a partition's studs stand the other way round, found one by one or laid
 * out from a start nobody measured. */
static void
test_mirrored (void)
{
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};
  DryLength found[] = {IN (6), IN (20)};
  /* 6 and 20 of 36 are 30 and 16 from the other end; 16 and 32 are 20 and 4 */
  static const Member as_found[] = {{DRY_MEMBER_STUD, 15.25, 1.5, 16.75, 93},
                                    {DRY_MEMBER_STUD, 29.25, 1.5, 30.75, 93}};
  static const Member laid_out[] = {{DRY_MEMBER_STUD, 3.25, 1.5, 4.75, 93},
                                    {DRY_MEMBER_STUD, 19.25, 1.5, 20.75, 93}};

  for (guint i = 0; i < 2; i++) {
    Site site;
    site_set_up (&site, corners, 4);
    site_add_wall (&site, 63.5, 60, 63.5, 96, 0);
    if (i == 0) {
      site.walls[4].found_studs = found;
      site.walls[4].n_found_studs = G_N_ELEMENTS (found);
    } else
      site.walls[4].first_stud = 0;
    site_compute (&site);
    assert_members (&site, 4, i == 0 ? as_found : laid_out, 2);
    site_tear_down (&site);
  }
}

/* A wall as low as its own plates is a curb: no plate, studs as high as it. */
static void
test_low_wall (void)
{
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};
  static const double heights[] = {4.5, 5};

  for (guint i = 0; i < G_N_ELEMENTS (heights); i++) {
    Site site;
    site_set_up (&site, corners, 4);
    site.room.basin.kind = DRY_BASIN_PAN;
    site.room.basin.height = IN (1);
    site.room.basin.flange = 0;
    site_add_wall (&site, 60, 96, 60, 60, heights[i]);
    site_compute (&site);
    g_assert_cmpuint (count_members (&site, 4, DRY_MEMBER_PLATE, FALSE), ==, i == 0 ? 0 : 3);
    g_assert_nonnull (find_member (
        &site, 4, (Member){DRY_MEMBER_CORNER, 0, i == 0 ? 0 : 1.5, 1.5, i == 0 ? heights[i] : 2}));
    site_tear_down (&site);
  }
}

/* A newer project stops it. */
static void
test_cancelled (void)
{
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  Site site;

  site_set_up_alcove (&site);
  site_compute (&site);
  g_cancellable_cancel (cancelled);
  site.context.cancellable = cancelled;
  g_assert_null (dry_framing_compute (&site.context, site.faces, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
  site_tear_down (&site);
}

static void
test_dry_edge (void)
{
  static const Member alone[] = {{DRY_MEMBER_STUD, 31.25, 1.5, 32.75, 93, TRUE}};
  static const Member beside[] = {{DRY_MEMBER_STUD, 32, 1.5, 33.5, 93, TRUE}};
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};
  static const Member corner[] = {{DRY_MEMBER_CORNER, 58.5, 1.5, 60, 93, TRUE}};
  Site site;

  /* Wet to 32 on the end wall, studs at 10, 26, 42: none there, so one is added. */
  site_set_up_alcove (&site);
  site.walls[1].first_stud = IN (10);
  site_compute (&site);
  assert_members (&site, 1, alone, 1);
  g_assert_cmpstr (find_member (&site, 1, alone[0])->reason, ==, "backs the edge of the wet wall");
  site_tear_down (&site);

  /* A stud from 30.5 to 32 holds the board but not the drywall: a second one beside it. */
  site_set_up_alcove (&site);
  site.walls[1].first_stud = IN (31.25);
  site_compute (&site);
  assert_members (&site, 1, beside, 1);
  site_tear_down (&site);

  /* An added wall at 60 of a wall of 120: backing left of it for the board in that corner. */
  site_set_up (&site, corners, 4);
  site_add_wall (&site, 60, 96, 60, 60, 0);
  site_compute (&site);
  assert_members (&site, 0, corner, 1);
  site_tear_down (&site);

  /* Foam board 2 in thick covers the end stud of the neighbour: a second one is asked for. */
  site_set_up_alcove (&site);
  site.context.build_up.board = IN (2);
  site_compute (&site);
  g_assert_nonnull (find_member (&site, 1, (Member){DRY_MEMBER_CORNER, 1.5, 1.5, 3, 93, TRUE}));
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_CORNER, TRUE), ==, 0);
  site_tear_down (&site);
}

static void
test_window (void)
{
  /* 20..50 x 50..86 in a partition: trimmers and king studs beside, flat header above. */
  static const Member members[] = {
      {DRY_MEMBER_TRIMMER, 18.5, 1.5, 20, 86},      {DRY_MEMBER_TRIMMER, 50, 1.5, 51.5, 86},
      {DRY_MEMBER_STUD, 17, 1.5, 18.5, 93},         {DRY_MEMBER_STUD, 51.5, 1.5, 53, 93},
      {DRY_MEMBER_HEADER, 18.5, 86, 51.5, 87.5},    {DRY_MEMBER_SILL, 20, 48.5, 50, 50},
      {DRY_MEMBER_CRIPPLE, 31.25, 87.5, 32.75, 93}, {DRY_MEMBER_CRIPPLE, 31.25, 1.5, 32.75, 48.5},
      {DRY_MEMBER_CRIPPLE, 47.25, 87.5, 48.75, 93},
  };
  Site site;

  site_set_up_alcove (&site);
  site_add_opening (&site, DRY_OPENING_WINDOW, 0, 20, 50, 30, 36);
  site_compute (&site);
  assert_members (&site, 0, members, G_N_ELEMENTS (members));
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_CRIPPLE, FALSE), ==, 4);
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_STUD, FALSE), ==, 3);
  site_tear_down (&site);

  /* A door has no sill and nothing below. */
  site_set_up_alcove (&site);
  site_add_opening (&site, DRY_OPENING_DOOR, 0, 20, 0, 30, 80);
  site_compute (&site);
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_SILL, FALSE), ==, 0);
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_CRIPPLE, FALSE), ==, 2);
  site_tear_down (&site);
}

static void
test_niche (void)
{
  /* Ready-made body 14 x 14 at 17..31, in the bay 16-3/4 .. 31-1/4: blocks above and below. */
  static const Member in_bay[] = {
      {DRY_MEMBER_BLOCKING, 16.75, 62, 31.25, 63.5, TRUE},
      {DRY_MEMBER_BLOCKING, 16.75, 46.5, 31.25, 48, TRUE},
      {DRY_MEMBER_STUD, 31.25, 1.5, 32.75, 93},
  };
  /* Rough 20 x 20 at 22..42 cuts the stud at 32; header and sill reach from 16-3/4 to 47-1/4. */
  static const Member across[] = {
      {DRY_MEMBER_HEADER, 16.75, 68, 47.25, 69.5, TRUE},
      {DRY_MEMBER_SILL, 16.75, 46.5, 47.25, 48, TRUE},
      {DRY_MEMBER_CRIPPLE, 31.25, 69.5, 32.75, 93},
      {DRY_MEMBER_CRIPPLE, 31.25, 1.5, 32.75, 46.5},
      {DRY_MEMBER_TRIMMER, 20.5, 48, 22, 68, TRUE},
      {DRY_MEMBER_TRIMMER, 42, 48, 43.5, 68, TRUE},
  };
  DryPart *niche;
  Site site;

  site_set_up_alcove (&site);
  niche = site_add_part (&site, DRY_PART_NICHE, 0, 24, 49, 12, 12, 3.5);
  niche->body_width = niche->body_height = IN (14);
  site_compute (&site);
  assert_members (&site, 0, in_bay, G_N_ELEMENTS (in_bay));
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_TRIMMER, TRUE), ==, 0);
  site_tear_down (&site);

  site_set_up_alcove (&site);
  niche = site_add_part (&site, DRY_PART_NICHE, 0, 32, 49, 18, 18, 3.5);
  niche->body_width = niche->body_height = IN (20);
  site_compute (&site);
  assert_members (&site, 0, across, G_N_ELEMENTS (across));
  g_assert_null (find_member (&site, 0, (Member){DRY_MEMBER_STUD, 31.25, 1.5, 32.75, 93}));
  site_tear_down (&site);

  /* Larger than its wall: end studs and plates stay. */
  site_set_up_alcove (&site);
  site_add_part (&site, DRY_PART_NICHE, 0, 30, 20, 200, 200, 3.5)->site_built = TRUE;
  site_compute (&site);
  g_assert_nonnull (find_member (&site, 0, (Member){DRY_MEMBER_CORNER, 0, 1.5, 1.5, 93}));
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_STUD, FALSE), ==, 0);
  check_framing (&site.context, site.faces, site.framing);
  site_tear_down (&site);
}

static guint
find_small_face (const Site *site, const char *word)
{
  for (guint i = 0; i < site->faces->n; i++)
    if (site->faces->items[i].kind == DRY_FACE_NICHE && strstr (site->faces->items[i].name, word))
      return i;
  g_assert_not_reached ();
}

/* Niche 12 x 20 in, 3 in deep, of a site-built lining in a 2x4 wall (3-1/2 in, PS 20): build-up
 * 1-3/16 in each side makes the opening 14-3/8 x 22-3/8 in; 1/2 in is left behind the back for
 * strips of plywood, in a deeper wall for 3/4 in ones, and in a niche as deep as the wall for none.
 * The wood of the other four begins behind the board of the wall, 1/2 in from their fronts. */
static void
test_lining (void)
{
  static const Member cleats[] = {
      {DRY_MEMBER_CLEAT, 0, 0, 14.375, 1.5, TRUE},
      {DRY_MEMBER_CLEAT, 0, 20.875, 14.375, 22.375, TRUE},
      {DRY_MEMBER_CLEAT, 0, 1.5, 1.5, 20.875, TRUE},
      {DRY_MEMBER_CLEAT, 12.875, 1.5, 14.375, 20.875, TRUE},
  };
  static const Member sill = {DRY_MEMBER_SILL, 0, 0.5, 14.375, 3};
  static const Member header = {DRY_MEMBER_HEADER, 0, 0, 14.375, 2.5};
  static const struct {
    double depth, studs;
    guint n;
    const char *word;
  } cases[] = {{3, 3.5, 4, "plywood"},
               {3, 5.5, 4, "cleat: holds"},
               {3.5, 3.5, 0, NULL},
               {3, 0, 4, "plywood"}}; /* not said: 2x4 */

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    Site site;
    site_set_up_alcove (&site);
    site.walls[0].stud_depth = IN (cases[i].studs);
    site_add_part (&site, DRY_PART_NICHE, 0, 24, 45, 12, 20, cases[i].depth)->site_built = TRUE;
    site_compute (&site);
    guint back = find_small_face (&site, "back"), floor = find_small_face (&site, "floor");
    guint top = find_small_face (&site, "top"), side = find_small_face (&site, "left side");
    g_assert_cmpuint (count_on_face (&site, back, DRY_MEMBER_CLEAT), ==, cases[i].n);
    for (guint j = 0; j < cases[i].n; j++) {
      const DryMember *cleat = find_on_face (&site, back, cleats[j]);
      g_assert_nonnull (cleat);
      g_assert_nonnull (strstr (cleat->reason, cases[i].word));
    }
    if (i == 0) {
      g_assert_nonnull (find_on_face (&site, floor, sill));
      g_assert_nonnull (find_on_face (&site, top, header));
    }
    g_assert_cmpuint (count_on_face (&site, side, DRY_MEMBER_TRIMMER), ==, 1);
    check_framing (&site.context, site.faces, site.framing);
    site_tear_down (&site);
  }
}

/* A partition is as deep as it is thick where that is said, else as its studs: so much is left
 * behind the niche for the strips that hold its back. */
static void
test_lining_of_partition (void)
{
  static const double corners[] = {0, 96, 120, 96, 120, 0, 0, 0};
  static const struct {
    double thickness;
    const char *word;
  } cases[] = {{5.5, "cleat: holds"}, {3.5, "plywood"}, {0, "plywood"}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    Site site;
    gboolean found = FALSE;
    site_set_up (&site, corners, 4);
    site_add_wall (&site, 60, 96, 60, 60, 0)->thickness = IN (cases[i].thickness);
    site_add_part (&site, DRY_PART_NICHE, 4, 18, 45, 8, 12, 3)->site_built = TRUE;
    site_compute (&site);
    guint back = find_small_face (&site, "back");
    for (guint k = 0; k < site.framing->n; k++) {
      const DryMember *member = &site.framing->items[k];
      if (member->face != back || member->kind != DRY_MEMBER_CLEAT)
        continue;
      found = TRUE;
      g_assert_nonnull (strstr (member->reason, cases[i].word));
    }
    g_assert_true (found);
    site_tear_down (&site);
  }
}

static void
test_blocking (void)
{
  /* Bar of 24 in, top of grip at 34: three bays, 2x6 (5-1/2, PS 20) about its middle 33-1/4. */
  static const Member bar[] = {
      {DRY_MEMBER_BLOCKING, 16.75, 30.5, 31.25, 36, TRUE},
      {DRY_MEMBER_BLOCKING, 32.75, 30.5, 47.25, 36, TRUE},
  };
  /* Valve at 8, 40: a 2x4 on edge (3-1/2) in its bay only; head above. */
  static const Member valve[] = {
      {DRY_MEMBER_BLOCKING, 1.5, 38.25, 15.25, 41.75, TRUE},
      {DRY_MEMBER_BLOCKING, 1.5, 76.25, 15.25, 79.75, TRUE},
  };
  /* Fold-down seat, top 18: a 2x8 (7-1/4) below it. */
  static const Member seat[] = {{DRY_MEMBER_BLOCKING, 16.75, 10.75, 31.25, 18, TRUE}};
  static const Member glass[] = {{DRY_MEMBER_STUD, 29.25, 1.5, 30.75, 93, TRUE}};
  Site site;

  site_set_up_alcove (&site);
  site_add_part (&site, DRY_PART_GRAB_BAR, 0, 32, 34, 24, 1.5, 3);
  site_compute (&site);
  assert_members (&site, 0, bar, G_N_ELEMENTS (bar));
  site_tear_down (&site);

  site_set_up_alcove (&site);
  site_add_part (&site, DRY_PART_VALVE, 1, 8, 40, 6, 6, 0)->hole = IN (3);
  site_add_part (&site, DRY_PART_SHOWER_HEAD, 1, 8, 78, 4, 4, 0)->hole = IN (1);
  site_compute (&site);
  assert_members (&site, 1, valve, G_N_ELEMENTS (valve));
  g_assert_cmpuint (count_members (&site, 1, DRY_MEMBER_BLOCKING, TRUE), ==, 2);
  site_tear_down (&site);

  site_set_up_alcove (&site);
  site_add_part (&site, DRY_PART_BENCH, 0, 24, 18, 12, 1, 14)->fold_down = TRUE;
  site_compute (&site);
  assert_members (&site, 0, seat, G_N_ELEMENTS (seat));
  g_assert_cmpuint (count_members (&site, 0, DRY_MEMBER_BLOCKING, TRUE), ==, 1);
  site_tear_down (&site);

  /* Glass at 30 of the back wall, between studs at 26 and 42. */
  site_set_up_alcove (&site);
  site.walls[0].first_stud = IN (10);
  site_add_part (&site, DRY_PART_GLASS, 0, 30, 15, 24, 58, 0.375)->hinged = TRUE;
  site_compute (&site);
  assert_members (&site, 0, glass, 1);
  g_assert_cmpstr (find_member (&site, 0, glass[0])->reason, ==,
                   "carries the hinges of the glass door");
  site_tear_down (&site);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/framing/regular", test_regular);
  g_test_add_func ("/framing/layout", test_layout);
  g_test_add_func ("/framing/unsaid", test_unsaid);
  g_test_add_func ("/framing/mirrored", test_mirrored);
  g_test_add_func ("/framing/low-wall", test_low_wall);
  g_test_add_func ("/framing/cancelled", test_cancelled);
  g_test_add_func ("/framing/lining-of-partition", test_lining_of_partition);
  g_test_add_func ("/framing/dry-edge", test_dry_edge);
  g_test_add_func ("/framing/window", test_window);
  g_test_add_func ("/framing/niche", test_niche);
  g_test_add_func ("/framing/lining", test_lining);
  g_test_add_func ("/framing/blocking", test_blocking);
  return g_test_run ();
}
