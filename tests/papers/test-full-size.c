/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Papers at full size measured as a ruler would: what is drawn is as long on paper as on the wall,
 * over all pages together, and every page has its lines to check the printer by. */
#include <math.h>
#include <string.h>

#include "base/error.h"
#include "papers/flow.h"
#include "papers/papers.h"
#include "support/fixtures.h"
#include "texts.h"

static DryPlan *
make_plan (DryId *niche)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  const DryRoom *room = dry_project_get_room_at (project, 0);
  g_autoptr (GError) error = NULL;
  DryPlan *plan = dry_plan_new (project, room->id, dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_NICHE)
      *niche = room->parts[i].id;
  g_assert_cmpuint (*niche, >, 0);
  return plan;
}

static const DryCutout *
find_cutout (const DryPlan *plan, DryId niche)
{
  for (guint i = 0; i < plan->faces->n; i++)
    for (guint c = 0; c < plan->faces->items[i].n_cutouts; c++)
      if (plan->faces->items[i].cutouts[c].object == niche)
        return &plan->faces->items[i].cutouts[c];
  g_assert_not_reached ();
}

static guint
count_lines (const DryPage *page, double length)
{
  guint n = 0;

  for (guint i = 0; i < page->items->len; i++) {
    const DryPageItem *item = &g_array_index (page->items, DryPageItem, i);

    n += item->kind == DRY_PAGE_LINE && item->height == 0 && fabs (item->width - length) < 1e-9;
  }
  return n;
}

/* The thick outline cut over all pages adds up to the rough opening's round, and every line lies on
 * the paper. */
static void
test_template (gconstpointer data)
{
  DryPaperSize paper = (DryPaperSize) GPOINTER_TO_UINT (data);
  DryPaperOptions options = {.paper = paper, .decimal = '.'};
  DryId niche = 0;
  g_autoptr (DryPlan) plan = make_plan (&niche);
  const DryRect *rough = &find_cutout (plan, niche)->rough;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPapers) papers = dry_papers_new_template (plan, niche, &options, &error);
  double across = 0, up = 0;

  g_assert_no_error (error);
  for (guint p = 0; p < papers->pages->len; p++) {
    const DryPage *page = papers->pages->pdata[p];

    g_assert_cmpuint (count_lines (page, 100), ==, 1);
    g_assert_cmpuint (count_lines (page, 101.6), ==, 1);
    g_assert_cmpstr (page->scale, ==, "Full size, 1:1");
    for (guint i = 0; i < page->items->len; i++) {
      const DryPageItem *item = &g_array_index (page->items, DryPageItem, i);

      if (item->kind != DRY_PAGE_LINE)
        continue;
      g_assert_cmpfloat (MIN (item->x, item->x + item->width), >=, 9.99);
      g_assert_cmpfloat (MAX (item->x, item->x + item->width), <=, papers->width - 9.99);
      if (item->pen != DRY_PEN_070)
        continue;
      across += fabs (item->width);
      up += fabs (item->height);
    }
  }
  g_assert_cmpfloat_with_epsilon (across, 2 * dry_length_to_mm (dry_rect_width (*rough)), 1e-3);
  g_assert_cmpfloat_with_epsilon (up, 2 * dry_length_to_mm (dry_rect_height (*rough)), 1e-3);
  g_assert_cmpuint (dry_test_count_texts (papers, "Level line"), >, 0);
  g_assert_cmpuint (dry_test_count_texts (papers, "Plumb line"), >, 0);
}

static void
test_no_template (void)
{
  DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
  DryId niche = 0;
  g_autoptr (DryPlan) plan = make_plan (&niche);
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_papers_new_template (plan, 9999, &options, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
}

/* Each strip shows its stretch of the wall: joints that lie in one strip are as far apart there as
 * on the wall, and each of them has its height written beside it. */
static void
test_story_pole (void)
{
  DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
  DryId niche = 0;
  g_autoptr (DryPlan) plan = make_plan (&niche);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPapers) papers = dry_papers_new_story_pole (plan, &options, &error);
  double pitch = dry_length_to_mm (plan->tiling->height + plan->tiling->joint);
  guint pairs = 0, joints = 0;

  g_assert_no_error (error);
  for (guint p = 0; p + 1 < papers->pages->len; p++) {
    const DryPage *page = papers->pages->pdata[p];
    double last_x = -1, last_y = 0;

    g_assert_cmpuint (count_lines (page, 100), ==, 1);
    g_assert_cmpuint (count_lines (page, 101.6), ==, 1);
    for (guint i = 0; i < page->items->len; i++) {
      const DryPageItem *item = &g_array_index (page->items, DryPageItem, i);

      if (item->kind != DRY_PAGE_LINE || item->ink != DRY_INK_TILE)
        continue;
      /* Lower and upper edge of a joint by turns. */
      if (last_x == item->x && fabs (last_y - item->y) > 0.5 * pitch) {
        double off = fabs (last_y - item->y) + dry_length_to_mm (plan->tiling->joint);

        g_assert_cmpfloat_with_epsilon (off, pitch, 1e-3);
        pairs++;
      }
      joints++;
      last_x = item->x;
      last_y = item->y;
    }
  }
  g_assert_cmpuint (joints, >=, 2);
  g_test_message ("%u edges of joints, %u neighbours measured", joints, pairs);
  for (guint f = 0; f < plan->tiling->n_faces; f++)
    for (guint i = 0; i < plan->tiling->faces[f].n_level; i++) {
      g_autofree char *height = NULL;

      if (plan->faces->items[plan->tiling->faces[f].face].kind != DRY_FACE_WALL)
        continue;
      height = dry_flow_length (papers, plan, plan->tiling->faces[f].level[i]);
      /* On a strip and in the list. */
      g_assert_cmpuint (dry_test_count_texts (papers, height), >=, 2);
    }
  g_assert_cmpuint (dry_test_count_texts (papers, "niche, bottom"), ==, 1);
  g_assert_cmpuint (dry_test_count_texts (papers, "niche, top"), ==, 1);
}

/* The crew's papers have a page for the niche with its sizes and steps, and the list of cuts. */
static void
test_pages (void)
{
  DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
  DryId niche = 0;
  g_autoptr (DryPlan) plan = make_plan (&niche);
  const DryPlan *plans[] = {plan};
  g_autoptr (DryPapers) papers = dry_papers_new (plans, 1, &options);
  static const char *const words[] = {"Framing, from the floor",
                                      "Boards round the rough opening",
                                      "Rough opening",
                                      "Clear between stud faces",
                                      "The floor falls",
                                      "In this order",
                                      "what to cut",
                                      "Order, cuts of the boards and pitch: common practice",
                                      "Common practice, no source: what is asked for locally"};

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    g_assert_cmpuint (dry_test_count_texts (papers, words[i]), >=, 1);
  for (guint i = 0; i < plan->tiling->n_counts; i++)
    g_assert_cmpuint (dry_test_count_texts (papers, plan->tiling->counts[i].working.formula), >=,
                      1);
}

static DryProject *
with_niche (DryProject *project, char compass, DryLength z)
{
  const DryRoom *room = dry_project_get_room_at (project, 0);
  DryPart niche = *dry_test_niche (room);
  g_autoptr (GError) error = NULL;
  DryProject *next;

  niche.id = 0;
  niche.wall = dry_test_wall (project, compass);
  /* Over the tub, which stands at the left end of one wall and at the right end of the other. */
  niche.u = compass == 'e' ? 15 * DRY_INCH
                           : dry_wall_length (dry_room_get_wall (room, niche.wall)) - 15 * DRY_INCH;
  niche.z = z;
  niche.label = NULL;
  next = dry_edit_set_part (project, room->id, &niche, NULL, &error);
  g_assert_no_error (error);
  dry_project_unref (project);
  return next;
}

static const DryFace *
find_face (const DryPlan *plan, DryFaceKind kind, const DryPart *niche)
{
  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];

    if (face->kind == kind &&
        (kind == DRY_FACE_WALL ? face->wall == niche->wall : face->object == niche->id))
      return face;
  }
  g_assert_not_reached ();
}

/* Niches have one number on their pages, in findings, on their linings and in the photos asked for,
 * whichever wall comes first. */
static void
test_niche_names (void)
{
  DryPaperOptions options = {.paper = DRY_PAPER_LETTER, .decimal = '.'};
  g_autoptr (DryProject) project =
      with_niche (with_niche (dry_test_furnished_alcove ("foam-bands"), 'e', 55 * DRY_INCH), 'w',
                  50 * DRY_INCH);
  const DryRoom *room = dry_project_get_room_at (project, 0);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPlan) plan = dry_plan_new (project, room->id, dry_test_catalog (), NULL, &error);
  const DryPlan *plans[] = {plan};
  g_autoptr (DryPapers) papers = NULL;
  guint number = 0, last_face = 0, turned = 0;

  g_assert_no_error (error);
  papers = dry_papers_new (plans, 1, &options);
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    const DryFace *wall = NULL;
    g_autofree char *name = NULL, *title = NULL, *lining = NULL, *photo = NULL;
    guint subjects = 0;

    if (part->kind != DRY_PART_NICHE)
      continue;
    wall = find_face (plan, DRY_FACE_WALL, part);
    name = g_strdup_printf ("niche %u", ++number);
    title = g_strdup_printf ("Niche %u – %s", number, wall->name);
    lining = g_strdup_printf ("Niche %u, ", number);
    photo = g_strdup_printf ("Niche %u: floor", number);
    g_assert_cmpuint (dry_test_count_texts (papers, title), >=, 1);
    g_assert_cmpuint (dry_test_count_texts (papers, photo), ==, 1);
    g_assert_true (g_str_has_prefix (find_face (plan, DRY_FACE_NICHE, part)->name, lining));
    for (guint k = 0; k < plan->measures->n; k++)
      if (plan->measures->items[k].object == part->id &&
          g_str_equal (plan->measures->items[k].kind, "niche")) {
        g_assert_true (g_str_has_suffix (plan->measures->items[k].name, name));
        subjects++;
      }
    g_assert_cmpuint (subjects, ==, 1);
    turned += number > 1 && wall->index < last_face;
    last_face = wall->index;
  }
  g_assert_cmpuint (number, ==, 3);
  g_assert_cmpuint (turned, >, 0); /* else the walls' order would do as well */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/full-size/template/letter", GUINT_TO_POINTER (DRY_PAPER_LETTER),
                        test_template);
  g_test_add_data_func ("/full-size/template/a4", GUINT_TO_POINTER (DRY_PAPER_A4), test_template);
  g_test_add_data_func ("/full-size/template/a3", GUINT_TO_POINTER (DRY_PAPER_A3), test_template);
  g_test_add_func ("/full-size/template/none", test_no_template);
  g_test_add_func ("/full-size/story-pole", test_story_pole);
  g_test_add_func ("/full-size/crew", test_pages);
  g_test_add_func ("/full-size/niche-names", test_niche_names);
  return g_test_run ();
}
