/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comparisons of several rooms: which are planned and measured, what is refused and why, the
 * figures told and as JSON. What is told of designs is tested in test-compare-words.c. */
#include <math.h>
#include <string.h>

#include "base/error.h"
#include "compare-rig.h"
#include "plan/amounts.h"
#include "support/fixtures.h"

/* Two equal alcoves, the second under another system. */
static DryProject *
make_two_rooms (const char *first, const char *second)
{
  g_autoptr (DryProject) one = dry_test_furnished_alcove (first);
  g_autoptr (DryProject) other = dry_test_furnished_alcove (second);
  g_autoptr (DryRoom) room = dry_room_copy (dry_test_first_room (other));
  g_autoptr (GError) error = NULL;
  DryProject *both;

  room->id = 0;
  both = dry_edit_set_room (one, room, NULL, &error);
  g_assert_no_error (error);
  return both;
}

/* All rooms together are what each is: what is counted adds up, the thickest wall stands. */
static void
test_rooms_add_up (void)
{
  g_autoptr (DryProject) project = make_two_rooms ("foam-bands", "mortar-bed");
  g_autofree DryId *rooms = dry_test_rooms (project);
  g_autoptr (DryComparison) all = compare_project (project, 0, NULL);
  g_autoptr (DryComparison) one = compare_project (project, rooms[0], NULL);
  g_autoptr (DryComparison) other = compare_project (project, rooms[1], NULL);
  const DryOption *sum = &all->options[0], *a = &one->options[0], *b = &other->options[0];

  g_assert_cmpuint (sum->n_plans, ==, 2);
  g_assert_cmpuint (a->n_plans, ==, 1);
  g_assert_cmpuint (a->plans[0]->context.room->id, ==, rooms[0]);
  g_assert_cmpuint (b->plans[0]->context.room->id, ==, rooms[1]);
  g_assert_cmpuint (b->sheets, ==, 0); /* a bed of mortar buys no board */
  g_assert_cmpuint (a->sheets, >, 0);
  g_assert_cmpuint (sum->sheets, ==, a->sheets + b->sheets);
  g_assert_cmpuint (sum->boards, ==, a->boards + b->boards);
  g_assert_cmpuint (sum->cuts, ==, a->cuts + b->cuts);
  g_assert_cmpuint (sum->screws, ==, a->screws + b->screws);
  g_assert_cmpuint (sum->blocks, ==, a->blocks + b->blocks);
  g_assert_cmpint (sum->seam_length, ==, a->seam_length + b->seam_length);
  g_assert_cmpfloat_with_epsilon (sum->weight, a->weight + b->weight, 1e-6);
  g_assert_cmpint (sum->thickness, ==, MAX (a->thickness, b->thickness));
}

/* A step that wants a practiced hand is told once, though it comes in both rooms. */
static void
test_skill_once (void)
{
  g_autoptr (DryProject) twice = make_two_rooms ("mortar-bed", "mortar-bed");
  g_autofree DryId *rooms = dry_test_rooms (twice);
  g_autoptr (DryComparison) all = compare_project (twice, 0, NULL),
                            one = compare_project (twice, rooms[0], NULL);

  g_assert_cmpuint (one->options[0].n_skill, >, 0);
  g_assert_cmpuint (all->options[0].n_skill, ==, one->options[0].n_skill);
  for (guint i = 0; i < one->options[0].n_skill; i++)
    g_assert_cmpstr (all->options[0].skill[i].step, ==, one->options[0].skill[i].step);
}

static const char *
get_system (const DryOption *option, guint plan)
{
  return option->plans[plan]->context.system->id;
}

/* Another system is tried in the rooms compared and in no other; a room that has it stays the very
 * same plan, and a chosen board or sheet is forgotten with the system it was of. */
static void
test_systems_tried (void)
{
  static const char *const systems[] = {"mortar-bed", "cement-liquid", NULL};
  g_autoptr (DryProject) project = make_two_rooms ("foam-bands", "mortar-bed");
  g_autofree DryId *rooms = dry_test_rooms (project);
  DryFinish finish = dry_project_get_room (project, rooms[0])->finish;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) chosen = NULL;
  g_autoptr (DryComparison) all = NULL, one = NULL;

  finish.board = 5 * DRY_INCH / 8;
  finish.sheet = (char *) "4x8";
  chosen = dry_edit_set_finish (project, rooms[0], &finish, &error);
  g_assert_no_error (error);
  all = compare_project (chosen, 0, systems);
  one = compare_project (chosen, rooms[1], systems);
  g_assert_cmpuint (all->n, ==, 3);
  g_assert_cmpstr (get_system (&all->options[1], 0), ==, "mortar-bed");
  g_assert_true (all->options[1].plans[1] == all->options[0].plans[1]);
  g_assert_cmpstr (get_system (&all->options[2], 0), ==, "cement-liquid");
  g_assert_cmpstr (get_system (&all->options[2], 1), ==, "cement-liquid");
  finish = all->options[2].plans[0]->context.room->finish;
  g_assert_null (finish.sheet);
  g_assert_cmpint (finish.board, ==, 0);
  g_assert_cmpuint (one->options[2].n_plans, ==, 1);
  g_assert_cmpstr (get_system (&one->options[2], 0), ==, "cement-liquid");
  g_assert_cmpuint (one->options[1].n_differences, ==, 0); /* has it already */
}

static void
check_refused (const DryProject *project, DryId room, const char *const *systems,
               GCancellable *cancellable, gint code, const char *part)
{
  const DryPriceBook *book = dry_catalog_get_price_book (dry_test_catalog (), NULL);
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_comparison_new (project, room, dry_test_catalog (), book, "2026-12-01",
                                     systems, 0, cancellable, &error));
  g_assert_error (error, DRY_ERROR, code);
  if (!strstr (error->message, part))
    g_error ("\"%s\" lacks \"%s\"", error->message, part);
}

static void
test_refused (void)
{
  static const char *const unknown[] = {"no-such", NULL}, *const one[] = {"mortar-bed", NULL};
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  DryFinish finish = dry_test_first_room (project)->finish;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) added = NULL, same = NULL, wrong = NULL, alternate = NULL;
  DryId id;

  g_cancellable_cancel (cancelled);
  check_refused (project, 99, one, NULL, DRY_ERROR_REFERENCE, "no room 99");
  check_refused (project, 0, unknown, NULL, DRY_ERROR_REFERENCE, "“no-such”");
  check_refused (project, 0, one, cancelled, DRY_ERROR_CANCELLED, "As planned");

  /* What is wrong in an alternate is told with its name. */
  finish.system = (char *) "gone-from-the-catalogue";
  added = dry_edit_add_alternate (project, "Old boards", NULL, &id, &error);
  same = dry_project_resolve (added, id);
  wrong = dry_edit_set_finish (same, dry_test_room (same), &finish, &error);
  alternate = dry_edit_set_alternate (added, id, wrong, &error);
  g_assert_no_error (error);
  check_refused (alternate, 0, one, NULL, DRY_ERROR_REFERENCE, "Old boards: ");
}

static char *
write_json (const DryComparison *all)
{
  DryJsonWriter *writer = dry_json_writer_new ();

  dry_comparison_write_json (all, writer, NULL);
  return dry_json_writer_finish (writer, NULL);
}

static DryProject *
add_alternate (const DryProject *base, const char *name, const char *note,
               const DryProject *changed, DryId *id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) added = dry_edit_add_alternate (base, name, note, id, &error);
  DryProject *project = dry_edit_set_alternate (added, *id, changed, &error);

  g_assert_no_error (error);
  return project;
}

static guint
count_about (const DryOption *option, DryAbout about)
{
  guint n = 0;

  for (guint i = 0; i < option->n_differences; i++)
    n += option->differences[i].about == about;
  return n;
}

/* Without tile nobody knows the day of the first shower, without a tub or pan neither that nor when
 * tiling can start: no day is written, and none is called later or sooner. */
static void
test_unknown_days (void)
{
  g_autoptr (DryProject) base = dry_test_furnished_alcove ("foam-bands");
  const DryRoom *room = dry_test_first_room (base);
  DryFinish finish = room->finish;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) bare = NULL, empty = NULL, one = NULL, both = NULL;
  g_autoptr (DryComparison) all = NULL;
  g_autofree char *text = NULL;
  char *second, *third;
  DryId id;

  finish.tiled = FALSE;
  bare = dry_edit_set_finish (base, room->id, &finish, &error);
  empty = dry_edit_remove (base, room->id, room->basin.id, &error);
  g_assert_no_error (error);
  one = add_alternate (base, "Later", NULL, bare, &id);
  both = add_alternate (one, "No tub", NULL, empty, &id);
  all = compare_project (both, 0, NULL);
  g_assert_cmpint (all->options[1].days_to_tile, >, 0);
  g_assert_cmpint (all->options[1].days_to_shower, ==, 0);
  g_assert_cmpint (all->options[2].days_to_tile, ==, 0);
  g_assert_cmpuint (count_about (&all->options[2], DRY_ABOUT_TIME), ==, 0);
  text = write_json (all);
  second = strstr (text, "\"Later\"");
  third = strstr (text, "\"No tub\"");
  g_assert_true (second != NULL && third > second);
  g_assert_nonnull (strstr (third, "\"tile_day\": null"));
  g_assert_nonnull (strstr (third, "\"days_to_tile\": null"));
  *third = '\0';
  g_assert_null (strstr (second, "\"tile_day\": null"));
  g_assert_nonnull (strstr (second, "\"shower_day\": null"));
  *second = '\0';
  g_assert_null (strstr (text, "null"));
}

/* An alternate has its number and note, the project itself neither; a difference tells why, where
 * it does not say it itself. */
static void
test_json (void)
{
  g_autoptr (DryProject) base = dry_test_furnished_alcove ("foam-bands");
  DryFinish finish = dry_test_first_room (base)->finish;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) bed = NULL, project = NULL;
  g_autoptr (DryComparison) all = NULL;
  g_autofree char *text = NULL, *id_text = NULL;
  char *second;
  DryId id;

  finish.system = (char *) "mortar-bed";
  finish.joint = DRY_INCH / 4;
  bed = dry_edit_set_finish (base, dry_test_room (base), &finish, &error);
  g_assert_no_error (error);
  project = add_alternate (base, "Bed", "As the old house has it", bed, &id);
  all = compare_project (project, 0, NULL);
  text = write_json (all);
  second = strstr (text, "\"As the old house");
  id_text = g_strdup_printf ("\"id\": %u", id);
  g_assert_nonnull (second);
  g_assert_true (strstr (text, id_text) > strstr (text, "\"As planned\""));
  g_assert_nonnull (strstr (second, "\"why\": \"the wall is only as plumb"));
  g_assert_nonnull (strstr (second, "\"text\": \"tile joints 1/4"));
  *second = '\0';
  g_assert_nonnull (strstr (text, "\"note\": ")); /* before the words just cut off */
  g_assert_null (strstr (strstr (text, "\"note\": ") + 1, "\"note\""));
}

/* --- figures --- */

static const char *const SYSTEMS[] = {"cement-liquid", "cement-sheet", "fibre-cement",
                                      "foam-sealant",  "mortar-bed",   NULL};

/* The number that begins the line with `word`, with its sign by what ends it; 0 when not told. */
static double
find_told (const char *lines, const char *word, const char *more, const char *less)
{
  g_auto (GStrv) all = g_strsplit (lines, "\n", -1);

  for (guint i = 0; all[i]; i++) {
    double sign = g_str_has_suffix (all[i], more) ? 1 : g_str_has_suffix (all[i], less) ? -1 : 0;
    if (!strstr (all[i], word))
      continue;
    g_assert_cmpfloat (sign, !=, 0);
    return sign * g_ascii_strtod (all[i], NULL);
  }
  return 0;
}

/* "tiling can start Tue 2026-12-08, 3 days later" */
static gint64
find_days (const char *lines, const char *what)
{
  g_auto (GStrv) all = g_strsplit (lines, "\n", -1);

  for (guint i = 0; all[i]; i++) {
    const char *comma = strrchr (all[i], ',');
    gint64 days;
    if (!g_str_has_prefix (all[i], what))
      continue;
    days = g_ascii_strtoll (comma + 1, NULL, 10);
    g_assert_nonnull (strstr (comma, days == 1 ? " day " : " days "));
    return g_str_has_suffix (all[i], "later") ? days : -days;
  }
  return 0;
}

static gint64
subtract (guint now, guint was)
{
  return (gint64) now - (gint64) was;
}

static void
check_work (const DryOption *now, const DryOption *was)
{
  g_autofree char *lines = compare_lines (now, was, DRY_ABOUT_WORKSHOP);
  double hours = now->hours - was->hours;

  g_assert_cmpint (find_told (lines, "sheet", "more", "fewer"), ==,
                   subtract (now->sheets, was->sheets));
  g_assert_cmpint (find_told (lines, "block", "more", "fewer"), ==,
                   subtract (now->blocks, was->blocks));
  g_assert_cmpint (find_told (lines, "cut", "more", "fewer"), ==, subtract (now->cuts, was->cuts));
  g_assert_cmpint (find_told (lines, "seam", "more", "fewer"), ==,
                   subtract (now->seams, was->seams));
  g_assert_cmpfloat_with_epsilon (find_told (lines, "h of work", "more", "less"),
                                  fabs (hours) < 0.05 ? 0 : hours, 0.051);
}

static void
check_body_and_risk (const DryOption *now, const DryOption *was)
{
  g_autofree char *body = compare_lines (now, was, DRY_ABOUT_BODY);
  g_autofree char *risk = compare_lines (now, was, DRY_ABOUT_RISK);
  double weight = now->weight - was->weight;

  g_assert_cmpfloat_with_epsilon (find_told (body, "kg", "heavier", "lighter"),
                                  fabs (weight) < 1 ? 0 : weight, 0.51);
  g_assert_cmpint (strstr (body, "thicker") != NULL, ==,
                   now->thickness - was->thickness >= DRY_MM / 2);
  g_assert_cmpint (strstr (body, "thinner") != NULL, ==,
                   was->thickness - now->thickness >= DRY_MM / 2);
  g_assert_cmpint (find_told (risk, "stop", "more", "fewer"), ==,
                   subtract (now->findings[DRY_SEVERITY_STOP], was->findings[DRY_SEVERITY_STOP]));
  g_assert_cmpint (find_told (risk, "practiced", "more", "fewer"), ==,
                   subtract (now->n_skill, was->n_skill));
}

/* A reason tells what is different: nothing is so much "instead of" as much. */
static void
check_reasons (const DryOption *now, const DryOption *was)
{
  g_autoptr (GArray) told = dry_option_list_differences (now, was, now->plans[0]->context.arena);

  for (guint i = 0; i < told->len; i++) {
    const char *why = g_array_index (told, DryDifference, i).why;
    g_assert_false (why && g_regex_match_simple ("(?<![0-9.])([0-9.]+) h of [^,]* instead of \\1 h",
                                                 why, 0, 0));
  }
}

static void
check_pair (const DryOption *now, const DryOption *was)
{
  g_autofree char *money = compare_lines (now, was, DRY_ABOUT_MONEY);
  g_autofree char *time = compare_lines (now, was, DRY_ABOUT_TIME);
  gint64 by = now->cost->total - was->cost->total;

  g_assert_cmpint (strstr (money, dry_money_text (now->plans[0]->context.arena, ABS (by))) != NULL,
                   ==, by != 0);
  g_assert_cmpint (find_days (time, "tiling can start"), ==, now->days_to_tile - was->days_to_tile);
  g_assert_cmpint (find_days (time, "ready"), ==, now->days_to_shower - was->days_to_shower);
  check_work (now, was);
  check_body_and_risk (now, was);
  check_reasons (now, was);
}

/* Between any two of several ways to back the same walls, the words give the figures' difference,
 * with their sign. */
static void
test_figures (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryComparison) all = compare_project (project, 0, SYSTEMS);

  g_assert_cmpuint (all->n, ==, G_N_ELEMENTS (SYSTEMS));
  for (guint i = 0; i < all->n; i++)
    for (guint j = 0; j < all->n; j++)
      check_pair (&all->options[i], &all->options[j]);
}

static gboolean
has_step_of (const DryOption *option, const char *why)
{
  for (guint i = 0; i < option->n_skill; i++)
    if (g_str_equal (option->skill[i].why, why))
      return TRUE;
  return FALSE;
}

/* Where more steps want a practiced hand, the reason is one of those that came, not of one that was
 * there before. */
static void
test_skill_reason (void)
{
  g_autoptr (DryProject) project = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryComparison) all = compare_project (project, 0, SYSTEMS);
  guint n = 0;

  for (guint i = 0; i < all->n; i++)
    for (guint j = 0; j < all->n; j++) {
      const DryOption *now = &all->options[i], *was = &all->options[j];
      g_autoptr (GArray) list = dry_option_list_differences (now, was, all->arena);
      for (guint k = 0; k < list->len; k++) {
        const DryDifference *difference = &g_array_index (list, DryDifference, k);
        if (!strstr (difference->text, "practiced hand") || !difference->why)
          continue;
        g_assert_true (has_step_of (now, difference->why));
        g_assert_false (has_step_of (was, difference->why));
        n++;
      }
    }
  g_assert_cmpuint (n, >, 0);
}

/* Walls that want a practiced hand over a floor of mortar that is in both: the reason is the
 * walls', though the floor's step comes first. */
static void
test_wall_reason (void)
{
  g_autoptr (DryProject) tub = dry_test_furnished_alcove ("foam-bands");
  const DryRoom *room = dry_test_first_room (tub);
  DryBasin basin = room->basin;
  DryFinish finish = room->finish;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) floor = NULL, coated = NULL;
  g_autoptr (DryComparison) was = NULL, now = NULL;
  g_autoptr (GArray) list = NULL;
  const char *why = NULL;

  basin.kind = DRY_BASIN_PAN;
  basin.height = 4 * DRY_INCH;
  basin.site_built = TRUE;
  floor = dry_edit_set_basin (tub, room->id, &basin, NULL, &error);
  finish.system = (char *) "cement-liquid";
  coated = dry_edit_set_finish (floor, room->id, &finish, &error);
  g_assert_no_error (error);
  was = compare_project (floor, 0, NULL);
  now = compare_project (coated, 0, NULL);
  list = dry_option_list_differences (&now->options[0], &was->options[0], now->arena);
  for (guint i = 0; i < list->len; i++)
    if (strstr (g_array_index (list, DryDifference, i).text, "practiced hand"))
      why = g_array_index (list, DryDifference, i).why;
  g_assert_cmpstr (was->options[0].skill[0].step, ==, now->options[0].skill[0].step);
  g_assert_cmpstr (why, ==, "the film must come out thick enough, everywhere");
}

/* A tile of unknown mass leaves the weight of the wall open: nothing is said of it then. */
static void
test_weight_unknown (void)
{
  g_autoptr (DryProject) light = dry_test_furnished_alcove ("foam-bands");
  g_autoptr (DryProject) heavy = dry_test_furnished_alcove ("mortar-bed");
  DryFinish finish = dry_test_first_room (heavy)->finish;
  g_autoptr (DryProject) own = NULL, bare = NULL;
  g_autoptr (DryComparison) was = compare_project (light, 0, NULL);
  g_autoptr (DryComparison) now = compare_project (heavy, 0, NULL);
  g_autoptr (DryComparison) open = NULL, none = NULL;
  g_autofree char *known = NULL, *unknown = NULL;

  finish.tile = NULL;
  own = dry_edit_set_finish (heavy, dry_test_room (heavy), &finish, NULL);
  finish.tiled = FALSE;
  bare = dry_edit_set_finish (heavy, dry_test_room (heavy), &finish, NULL);
  open = compare_project (own, 0, NULL);
  none = compare_project (bare, 0, NULL);
  known = compare_lines (&now->options[0], &was->options[0], DRY_ABOUT_BODY);
  unknown = compare_lines (&open->options[0], &was->options[0], DRY_ABOUT_BODY);
  g_assert_true (now->options[0].weight_whole);
  g_assert_false (open->options[0].weight_whole);
  g_assert_nonnull (strstr (known, "heavier"));
  g_assert_null (strstr (unknown, "heavier"));
  g_assert_nonnull (strstr (unknown, "thicker"));
  /* Without tile there is nothing unknown, and less to carry. */
  g_assert_true (none->options[0].weight_whole);
  g_assert_cmpfloat (none->options[0].weight, <, now->options[0].weight);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/compare/rooms-add-up", test_rooms_add_up);
  g_test_add_func ("/compare/skill-once", test_skill_once);
  g_test_add_func ("/compare/systems-tried", test_systems_tried);
  g_test_add_func ("/compare/refused", test_refused);
  g_test_add_func ("/compare/unknown-days", test_unknown_days);
  g_test_add_func ("/compare/figures", test_figures);
  g_test_add_func ("/compare/skill-reason", test_skill_reason);
  g_test_add_func ("/compare/wall-reason", test_wall_reason);
  g_test_add_func ("/compare/weight-unknown", test_weight_unknown);
  g_test_add_func ("/compare/json", test_json);
  return g_test_run ();
}
