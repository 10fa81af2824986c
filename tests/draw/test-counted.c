/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a line of the take-off lights up on the board, against the plan's own lists: nothing more,
 * nothing less. */
#include "draw/counted.h"
#include "draw/drawings.h"
#include "fixture-plan.h"
#include "support/fixtures.h"

typedef struct {
  DryProject *project;
  DryPlan *plan;
  DryScene *scene;
} Room;

static void
set_up (Room *self, gconstpointer system)
{
  g_autoptr (GError) error = NULL;

  self->project = dry_test_furnished_alcove (system);
  self->plan = dry_plan_new (self->project, dry_test_room (self->project), dry_test_catalog (),
                             NULL, &error);
  g_assert_no_error (error);
  self->scene = dry_drawing_board (self->plan);
}

static void
tear_down (Room *self, gconstpointer system)
{
  dry_scene_unref (self->scene);
  dry_plan_unref (self->plan);
  dry_project_unref (self->project);
}

/* Every board lights up with the line of the sheet it is cut from, and with that alone. */
static void
test_sheets (Room *self, gconstpointer system)
{
  g_autofree guint *lit = g_new0 (guint, self->plan->boards->n);
  guint lines = 0;

  for (guint l = 0; l < self->plan->takeoff->n; l++) {
    const DryTakeoffLine *line = &self->plan->takeoff->lines[l];

    if (!g_str_equal (line->group, "sheets"))
      continue;
    lines++;
    for (guint i = 0; i < self->scene->n; i++)
      if (dry_counted (self->plan, line->group, line->id, &self->scene->items[i])) {
        g_assert_cmpint (self->scene->items[i].shows, ==, DRY_SHOWS_BOARD);
        lit[self->scene->items[i].index] |= 1u << l;
      }
  }
  g_assert_cmpuint (lines, >, 0);
  for (guint i = 0; i < self->plan->boards->n; i++) {
    g_assert_cmpuint (lit[i], !=, 0);
    g_assert_cmpuint (lit[i] & (lit[i] - 1), ==, 0); /* one bit: one line */
  }
}

/* Screws one by one; washers only where there are some; lumber only what is to be added. */
static void
test_pieces (Room *self, gconstpointer system)
{
  const DryPlan *plan = self->plan;
  const DrySystem *it = plan->context.system;
  guint washers = 0, added = 0, lit_members = 0;

  for (guint i = 0; i < plan->fasteners->n; i++)
    washers += plan->fasteners->items[i].washer;
  if (it->fastener != NULL)
    g_assert_cmpuint (dry_counted_in (plan, "fasteners", it->fastener, self->scene), ==,
                      plan->fasteners->n);
  if (it->washer != NULL)
    g_assert_cmpuint (dry_counted_in (plan, "fasteners", it->washer, self->scene), ==, washers);
  for (guint i = 0; i < plan->framing->n; i++)
    added += plan->framing->items[i].added;
  for (guint i = 0; i < self->scene->n; i++) {
    const DryPrimitive *item = &self->scene->items[i];

    if (!dry_counted (plan, "framing", "lumber", item))
      continue;
    lit_members++;
    g_assert_cmpint (item->shows, ==, DRY_SHOWS_MEMBER);
    if ((guint) item->index < plan->framing->n)
      g_assert_true (plan->framing->items[item->index].added);
  }
  g_assert_cmpuint (added + plan->boards->n_blocking, >, 0);
  g_assert_cmpuint (lit_members, >, 0);
  g_assert_cmpuint (dry_counted_in (plan, "no such group", "lumber", self->scene), ==, 0);
  g_assert_cmpuint (dry_counted_in (plan, "sheets", "no such sheet", self->scene), ==, 0);
}

/* Groups by what a primitive shows and its layer, on the hand-made plan: five boards, three of them
 * on no sheet, a screw without its washer, one block that is to be added. */
static void
test_groups (void)
{
  static const struct {
    const char *group, *id;
    DryPrimitiveKind kind;
    DryShows shows;
    DryLayer layer;
    gint index;
    gboolean counted;
  } cases[] = {
      {"sheets", "4x8", DRY_PRIMITIVE_PATH, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, 1, TRUE},
      {"on-hand", "4x8", DRY_PRIMITIVE_PATH, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, 2, TRUE},
      {"sheets", "4x10", DRY_PRIMITIVE_PATH, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, 1, FALSE},
      {"sheets", "4x8", DRY_PRIMITIVE_PATH, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, 0, FALSE},
      {"sheets", "4x8", DRY_PRIMITIVE_PATH, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, -1, FALSE},
      {"sheets", "4x8", DRY_PRIMITIVE_PATH, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, 99, FALSE},
      {"sheets", "4x8", DRY_PRIMITIVE_MARK, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, 1, FALSE},
      {"sheets", "4x8", DRY_PRIMITIVE_TEXT, DRY_SHOWS_BOARD, DRY_LAYER_LABELS, 1, FALSE},
      {"fasteners", "screw", DRY_PRIMITIVE_MARK, DRY_SHOWS_FASTENER, DRY_LAYER_FASTENERS, 0, TRUE},
      {"fasteners", "washer", DRY_PRIMITIVE_MARK, DRY_SHOWS_FASTENER, DRY_LAYER_FASTENERS, 0,
       FALSE},
      {"fasteners", "washer", DRY_PRIMITIVE_MARK, DRY_SHOWS_FASTENER, DRY_LAYER_FASTENERS, 1, TRUE},
      {"fasteners", "screw", DRY_PRIMITIVE_MARK, DRY_SHOWS_FASTENER, DRY_LAYER_FASTENERS, 4, FALSE},
      {"fasteners", "screw", DRY_PRIMITIVE_MARK, DRY_SHOWS_FASTENER, DRY_LAYER_FASTENERS, -1,
       FALSE},
      {"framing", "lumber", DRY_PRIMITIVE_PATH, DRY_SHOWS_MEMBER, DRY_LAYER_STUDS, 0, FALSE},
      {"framing", "lumber", DRY_PRIMITIVE_PATH, DRY_SHOWS_MEMBER, DRY_LAYER_STUDS, -1, FALSE},
      /* Behind the members of the framing come the blocks the boards asked for. */
      {"framing", "lumber", DRY_PRIMITIVE_PATH, DRY_SHOWS_MEMBER, DRY_LAYER_STUDS, 999, TRUE},
      {"joints", "band", DRY_PRIMITIVE_PATH, DRY_SHOWS_JOINT, DRY_LAYER_JOINTS, 0, TRUE},
      {"joints", "band", DRY_PRIMITIVE_PATH, DRY_SHOWS_BOARD, DRY_LAYER_BOARDS, 0, FALSE},
      {"joints", "band", DRY_PRIMITIVE_DIMENSION, DRY_SHOWS_JOINT, DRY_LAYER_JOINTS, 0, FALSE},
      {"membrane", "liquid", DRY_PRIMITIVE_PATH, DRY_SHOWS_WALL, DRY_LAYER_COATING, 0, TRUE},
      {"membrane", "liquid", DRY_PRIMITIVE_PATH, DRY_SHOWS_WALL, DRY_LAYER_TILE, 0, FALSE},
      {"membrane", "liquid", DRY_PRIMITIVE_MARK, DRY_SHOWS_WALL, DRY_LAYER_COATING, 0, FALSE},
      {"tile", "tile", DRY_PRIMITIVE_PATH, DRY_SHOWS_WALL, DRY_LAYER_TILE, 0, TRUE},
      {"tile", "tile", DRY_PRIMITIVE_PATH, DRY_SHOWS_WALL, DRY_LAYER_BOARDS, 0, FALSE},
      {"tile", "tile", DRY_PRIMITIVE_MARK, DRY_SHOWS_WALL, DRY_LAYER_TILE, 0, FALSE},
      {"floor", "mortar", DRY_PRIMITIVE_CIRCLE, DRY_SHOWS_BASIN, DRY_LAYER_BASIN, 0, TRUE},
      {"floor", "mortar", DRY_PRIMITIVE_PATH, DRY_SHOWS_WALL, DRY_LAYER_BASIN, 0, FALSE},
      {"floor", "mortar", DRY_PRIMITIVE_MARK, DRY_SHOWS_BASIN, DRY_LAYER_BASIN, 0, FALSE},
  };
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  DryFasteners fasteners = *fixture->plan.fasteners;
  g_autofree DryFastener *items =
      g_memdup2 (fasteners.items, fasteners.n * sizeof *fasteners.items);

  items[0].washer = FALSE;
  fasteners.items = items;
  fixture->plan.fasteners = &fasteners;
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    DryPrimitive item = {.kind = cases[i].kind,
                         .shows = cases[i].shows,
                         .layer = cases[i].layer,
                         .index = cases[i].index};

    g_test_message ("%u: %s %s", i, cases[i].group, cases[i].id);
    g_assert_cmpint (dry_counted (&fixture->plan, cases[i].group, cases[i].id, &item), ==,
                     cases[i].counted);
  }
}

/* Before anything is cut no board is from a sheet. */
static void
test_uncut (void)
{
  g_autoptr (DryFixture) fixture = dry_fixture_new (FALSE);
  DryBoards boards = *fixture->plan.boards;
  DryPrimitive item = {.kind = DRY_PRIMITIVE_PATH, .shows = DRY_SHOWS_BOARD, .index = 1};

  g_assert_cmpuint (dry_cutting_find_sheet (boards.cutting, "B1"), ==, 1);
  g_assert_cmpuint (dry_cutting_find_sheet (boards.cutting, "C1"), ==, 0);
  g_assert_cmpuint (dry_cutting_find_sheet (NULL, "B1"), ==, 0);
  g_assert_true (dry_counted (&fixture->plan, "sheets", "4x8", &item));
  boards.cutting = NULL;
  fixture->plan.boards = &boards;
  g_assert_false (dry_counted (&fixture->plan, "sheets", "4x8", &item));
}

int
main (int argc, char **argv)
{
  static const char *systems[] = {"foam-bands", "foam-sealant", "cement-liquid"};

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/counted/groups", test_groups);
  g_test_add_func ("/draw/counted/uncut", test_uncut);
  for (guint i = 0; i < G_N_ELEMENTS (systems); i++) {
    g_autofree char *sheets = g_strdup_printf ("/draw/counted/%s/sheets", systems[i]);
    g_autofree char *pieces = g_strdup_printf ("/draw/counted/%s/pieces", systems[i]);

    g_test_add (sheets, Room, systems[i], set_up, test_sheets, tear_down);
    g_test_add (pieces, Room, systems[i], set_up, test_pieces, tear_down);
  }
  return g_test_run ();
}
