/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands on the story pole besides the courses: by the words on its pages. Its measures are
 * test-full-size.c's. */
#include <math.h>
#include <string.h>

#include "base/error.h"
#include "papers/flow.h"
#include "plan/rule-room.h"
#include "texts.h"

static DryPapers *
make_pole (DryProject *project)
{
  DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  g_autoptr (GError) error = NULL;
  DryPapers *papers = dry_papers_new_story_pole (plan, &options, &error);

  dry_project_unref (project);
  g_assert_no_error (error);
  return papers;
}

/* What the setter looks for has its height; what is hidden in the wall or made of glass has none;
 * a long name is cut. */
static void
test_notes (void)
{
  static const DryPart parts[] = {{.kind = DRY_PART_VALVE,
                                   .u = INCH (15),
                                   .z = INCH (46),
                                   .width = INCH (6),
                                   .height = INCH (6)},
                                  {.kind = DRY_PART_PIPE,
                                   .label = (char *) "cold",
                                   .u = INCH (10),
                                   .z = INCH (20),
                                   .width = INCH (1),
                                   .height = INCH (30)},
                                  {.kind = DRY_PART_GLASS,
                                   .label = (char *) "pane",
                                   .u = INCH (31),
                                   .z = INCH (16),
                                   .width = INCH (24),
                                   .height = INCH (60),
                                   .depth = INCH (0.375)},
                                  {.kind = DRY_PART_GRAB_BAR,
                                   .label = (char *) "the long bar by the entry",
                                   .u = INCH (15),
                                   .z = INCH (34),
                                   .width = INCH (20),
                                   .height = INCH (1.5)}};
  DryProject *project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryPapers) papers = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    project = rule_room_add_part (project, 'e', parts[i]);
  papers = make_pole (project);
  g_assert_cmpuint (dry_test_count_texts (papers, "tub rim 15\""), ==, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, "top of the wet wall 96\""), ==, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, "niche, bottom 48\""), ==, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, "niche, top 68\""), ==, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, " 46\""), >=, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, "the long bar… 34\""), ==, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, "cold"), ==, 0);
  g_assert_cmpuint (dry_test_count_texts (papers, "pane"), ==, 0);
}

static void
make_pan (DryBasin *basin, gpointer data)
{
  basin->kind = DRY_BASIN_PAN;
  basin->height = INCH (4);
}

static void
make_metric (DryJob *job, gpointer data)
{
  job->metric = TRUE;
}

/* The ruler counts inches, long ones every six, or millimeters, long ones every hundred; a pan has
 * an edge and no rim. */
static void
test_rulers (void)
{
  static const struct {
    gboolean metric;
    const char *has, *lacks, *edge;
  } cases[] = {{FALSE, "66", "800", "curb or pan edge 4\""},
               {TRUE, "800", "66", "curb or pan edge 101.6 mm"}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryProject *project = rule_room_set_basin (dry_test_alcove ("foam-bands"), make_pan, NULL);
    g_autoptr (DryPapers) papers = NULL;
    guint has = 0, lacks = 0;

    if (cases[i].metric)
      project = rule_room_set_job (project, make_metric, NULL);
    papers = make_pole (project);
    for (guint p = 0; p < papers->pages->len; p++) {
      const DryPage *page = papers->pages->pdata[p];
      for (guint k = 0; k < page->items->len; k++) {
        const DryPageItem *item = &g_array_index (page->items, DryPageItem, k);
        if (item->kind != DRY_PAGE_TEXT)
          continue;
        has += g_str_equal (item->text, cases[i].has);
        lacks += g_str_equal (item->text, cases[i].lacks);
      }
    }
    g_assert_cmpuint (has, ==, 1);
    g_assert_cmpuint (lacks, ==, 0);
    g_assert_cmpuint (dry_test_count_texts (papers, cases[i].edge), ==, 1);
  }
}

/* Heights close together are written one above the other, never on one another. */
static void
test_close_heights (void)
{
  DryProject *project = dry_test_alcove ("foam-bands");
  g_autoptr (DryPapers) papers = NULL;
  double y[4] = {0};

  for (guint i = 0; i < 4; i++) {
    g_autofree char *label = g_strdup_printf ("close %u", i);
    project = rule_room_add_part (project, 'e',
                                  (DryPart){.kind = DRY_PART_VALVE,
                                            .label = label,
                                            .u = (6 + 5 * i) * DRY_INCH,
                                            .z = INCH (44) + i * DRY_MM,
                                            .width = INCH (3),
                                            .height = INCH (3)});
  }
  papers = make_pole (project);
  for (guint p = 0; p < papers->pages->len; p++) {
    const DryPage *page = papers->pages->pdata[p];
    for (guint k = 0; k < page->items->len; k++) {
      const DryPageItem *item = &g_array_index (page->items, DryPageItem, k);
      if (item->kind == DRY_PAGE_TEXT && g_str_has_prefix (item->text, "close "))
        y[item->text[6] - '0'] = item->y;
    }
  }
  for (guint i = 1; i < 4; i++) {
    g_assert_cmpfloat (y[i], >, 0);
    g_assert_cmpfloat (y[i - 1] - y[i], >=, 3.9);
  }
}

static void
change_tile (DryFinish *finish, gpointer data)
{
  const DryFinish *as = data;

  finish->tiled = as->tiled;
  finish->pattern = as->pattern;
  if (as->tile_height > 0) {
    finish->tile_width = as->tile_width;
    finish->tile_height = as->tile_height;
  }
}

/* Small tile leaves hardly any room between the courses: the strips still say which they are. */
static void
test_small_tile (void)
{
  DryFinish mosaic = {.tiled = TRUE, .tile_width = DRY_INCH, .tile_height = INCH (0.5)};
  g_autoptr (DryPapers) papers =
      make_pole (rule_room_set_finish (dry_test_alcove ("foam-bands"), change_tile, &mosaic));

  g_assert_cmpuint (dry_test_count_texts (papers, "1 of "), >=, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, "Heights of the courses"), >=, 1);
}

/* Without tile, or with tile in no level courses, there is no pole. */
static void
test_no_courses (void)
{
  static DryFinish finishes[] = {{.tiled = FALSE},
                                 {.tiled = TRUE, .pattern = DRY_PATTERN_DIAGONAL}};

  for (guint i = 0; i < G_N_ELEMENTS (finishes); i++) {
    g_autoptr (DryProject) project =
        rule_room_set_finish (dry_test_alcove ("foam-bands"), change_tile, &finishes[i]);
    g_autoptr (DryPlan) plan = rule_room_plan (project);
    DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
    g_autoptr (GError) error = NULL;

    g_assert_null (dry_papers_new_story_pole (plan, &options, &error));
    g_assert_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED);
    g_assert_nonnull (strstr (error->message, "“Bathroom” have no tile in level courses"));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/story-pole/notes", test_notes);
  g_test_add_func ("/story-pole/rulers", test_rulers);
  g_test_add_func ("/story-pole/close-heights", test_close_heights);
  g_test_add_func ("/story-pole/small-tile", test_small_tile);
  g_test_add_func ("/story-pole/no-courses", test_no_courses);
  return g_test_run ();
}
