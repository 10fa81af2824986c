/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The critical path engine against published worked examples, and what must hold of any network,
 * with and without nights. */
#include "plan/calendar.h"

typedef struct {
  const char *id, *after; /* ids apart by spaces */
  gint64 duration;
  gint64 dates[5]; /* ES, EF, LS, LF, slack; -1 in the first: only the slack is published */
} Row;

typedef struct {
  DryArena *arena;
  DryActivity *items;
  guint n;
} List;

static void
add (List *self, const char *id, gint64 duration, const char *after, gint64 wait)
{
  g_auto (GStrv) words = g_strsplit (after, " ", -1);
  DryLink *links = dry_arena_new_array (self->arena, DryLink, g_strv_length (words));
  guint n = 0;

  for (guint i = 0; words[i]; i++)
    if (*words[i])
      links[n++] = (DryLink){dry_arena_strdup (self->arena, words[i]), wait};
  self->items[self->n++] = (DryActivity){dry_arena_strdup (self->arena, id), duration, links, n};
}

static char *
path_text (const DryNetwork *network, const DryActivity *items)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < network->n_path; i++)
    g_string_append_printf (text, "%s%s", i ? "-" : "", items[network->path[i]].id);
  return g_string_free (text, FALSE);
}

static void
check_example (const Row *rows, guint n, gint64 length, const char *path)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  List list = {arena, dry_arena_new_array (arena, DryActivity, n), 0};
  g_autoptr (GError) error = NULL;
  const DryNetwork *network;
  g_autofree char *found = NULL;

  for (guint i = 0; i < n; i++)
    add (&list, rows[i].id, rows[i].duration, rows[i].after, 0);
  network = dry_network_compute (arena, list.items, n, NULL, 0, &error);
  g_assert_no_error (error);
  g_assert_cmpint (network->length, ==, length);
  found = path_text (network, list.items);
  g_assert_cmpstr (found, ==, path);
  for (guint i = 0; i < n; i++) {
    const DryActivityDates *dates = &network->dates[i];
    const gint64 *want = rows[i].dates;
    g_test_message ("%s", rows[i].id);
    g_assert_cmpint (dates->slack, ==, want[4]);
    g_assert_true (dates->critical == (want[4] == 0));
    if (want[0] < 0)
      continue;
    g_assert_cmpint (dates->early_start, ==, want[0]);
    g_assert_cmpint (dates->early_finish, ==, want[1]);
    g_assert_cmpint (dates->late_start, ==, want[2]);
    g_assert_cmpint (dates->late_finish, ==, want[3]);
  }
}

/* Hendrickson and Au, Project Management for Construction, ch. 10: activities, durations, early
 * dates, length 30 and path A-C-F-I; late dates worked out from the same table. */
static void
test_site_project (void)
{
  static const Row rows[] = {
      {"A", "", 4, {0, 4, 0, 4, 0}},        {"B", "", 3, {0, 3, 9, 12, 9}},
      {"C", "A", 8, {4, 12, 4, 12, 0}},     {"D", "A", 7, {4, 11, 15, 22, 11}},
      {"E", "B C", 9, {12, 21, 13, 22, 1}}, {"F", "B C", 12, {12, 24, 12, 24, 0}},
      {"G", "D E", 2, {21, 23, 22, 24, 1}}, {"H", "D E", 5, {21, 26, 25, 30, 4}},
      {"I", "F G", 6, {24, 30, 24, 30, 0}},
  };

  check_example (rows, G_N_ELEMENTS (rows), 30, "A-C-F-I");
}

/* Taylor, Introduction to Management Science, ch. 8, solutions: arcs 1-2 7, 1-3 10, 2-4 6, 3-4 5,
 * 3-5 4, 4-5 3, 5-6 2; length 20, critical 1-3-4-5-6, slacks 2, 0, 2, 0, 4, 0, 0. */
static void
test_arrow_network (void)
{
  static const Row rows[] = {
      {"1-2", "", 7, {-1, 0, 0, 0, 2}},        {"1-3", "", 10, {-1, 0, 0, 0, 0}},
      {"2-4", "1-2", 6, {-1, 0, 0, 0, 2}},     {"3-4", "1-3", 5, {-1, 0, 0, 0, 0}},
      {"3-5", "1-3", 4, {-1, 0, 0, 0, 4}},     {"4-5", "2-4 3-4", 3, {-1, 0, 0, 0, 0}},
      {"5-6", "3-5 4-5", 2, {-1, 0, 0, 0, 0}},
  };

  check_example (rows, G_N_ELEMENTS (rows), 20, "1-3-3-4-4-5-5-6");
}

/* Australian HSC question, table as published; the answer 44 by A-C-F-G-I-J-L and the slacks are
 * worked out from it (forward and backward pass by hand). */
static void
test_twelve_activities (void)
{
  static const Row rows[] = {
      {"A", "", 4, {0, 4, 0, 4, 0}},          {"B", "A", 6, {4, 10, 12, 18, 8}},
      {"C", "A", 8, {4, 12, 4, 12, 0}},       {"D", "A", 3, {4, 7, 15, 18, 11}},
      {"E", "B", 9, {10, 19, 22, 31, 12}},    {"F", "C", 6, {12, 18, 12, 18, 0}},
      {"G", "B D F", 7, {18, 25, 18, 25, 0}}, {"H", "C", 12, {12, 24, 13, 25, 1}},
      {"I", "G H", 6, {25, 31, 25, 31, 0}},   {"J", "E I", 4, {31, 35, 31, 35, 0}},
      {"K", "G H", 3, {25, 28, 41, 44, 16}},  {"L", "J", 9, {35, 44, 35, 44, 0}},
  };

  check_example (rows, G_N_ELEMENTS (rows), 44, "A-C-F-G-I-J-L");
}

/* Cal Poly course page, table as published; the answer 12 by B-D-F is worked out from it. */
static void
test_smallest (void)
{
  static const Row rows[] = {
      {"A", "", 5, {0, 5, 1, 6, 1}},    {"B", "", 4, {0, 4, 0, 4, 0}},
      {"C", "A", 3, {5, 8, 6, 9, 1}},   {"D", "B", 7, {4, 11, 4, 11, 0}},
      {"E", "C", 2, {8, 10, 9, 11, 1}}, {"F", "D E", 1, {11, 12, 11, 12, 0}},
  };

  check_example (rows, G_N_ELEMENTS (rows), 12, "B-D-F");
}

/* A wait after a coat holds up only what follows it: ASTM D5957-98 5.3, at least 24 h before the
 * flood test. */
static void
test_wait (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  List list = {arena, dry_arena_new_array (arena, DryActivity, 3), 0};
  g_autoptr (GError) error = NULL;
  const DryNetwork *network;

  add (&list, "coat", 2, "", 0);
  add (&list, "flood-test", 1, "coat", 24);
  add (&list, "clean", 5, "coat", 0);
  network = dry_network_compute (arena, list.items, list.n, NULL, 0, &error);
  g_assert_no_error (error);
  g_assert_cmpint (network->length, ==, 27);
  g_assert_cmpint (network->dates[1].early_start, ==, 26);
  g_assert_cmpint (network->dates[2].slack, ==, 20);
}

static void
expect_error (const List *list, gint code, const char *says)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (dry_network_compute (list->arena, list->items, list->n, NULL, 0, &error));
  g_assert_error (error, DRY_ERROR, code);
  if (!strstr (error->message, says))
    g_error ("“%s” does not say “%s”", error->message, says);
}

static void
test_errors (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  List list = {arena, dry_arena_new_array (arena, DryActivity, 8), 0};

  add (&list, "a", 1, "", 0);
  add (&list, "b", 1, "a d", 0);
  add (&list, "c", 1, "b", 0);
  add (&list, "d", 1, "c", 0);
  add (&list, "e", 1, "d", 0);
  expect_error (&list, DRY_ERROR_SCHEMA, "ring: b → c → d → b");
  list.n = 0;
  add (&list, "a", 1, "a", 0);
  expect_error (&list, DRY_ERROR_SCHEMA, "ring: a → a");
  list.n = 0;
  add (&list, "a", 1, "z", 0);
  expect_error (&list, DRY_ERROR_REFERENCE, "“z”");
  list.n = 0;
  add (&list, "a", 1, "", 0);
  add (&list, "a", 2, "", 0);
  expect_error (&list, DRY_ERROR_REFERENCE, "two activities “a”");
  list.n = 0;
  add (&list, "a", -1, "", 0);
  expect_error (&list, DRY_ERROR_LIMIT, "“a”");
}

static void
test_nothing (void)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GError) error = NULL;
  const DryNetwork *network = dry_network_compute (arena, NULL, 0, NULL, 7, &error);

  g_assert_no_error (error);
  g_assert_cmpint (network->length, ==, 7);
  g_assert_cmpuint (network->n_path, ==, 0);
}

/* --- what must hold of any network --- */

static List
random_list (DryArena *arena, GRand *random)
{
  guint n = (guint) g_rand_int_range (random, 1, 30);
  List list = {arena, dry_arena_new_array (arena, DryActivity, n), 0};
  g_autofree guint *names = g_new (guint, n);

  for (guint i = 0; i < n; i++)
    names[i] = i;
  for (guint i = n; i-- > 1;) { /* listed in any order */
    guint j = (guint) g_rand_int_range (random, 0, (gint) i + 1), swap = names[i];
    names[i] = names[j];
    names[j] = swap;
  }
  for (guint i = 0; i < n; i++) {
    g_autofree char *id = g_strdup_printf ("%u", names[i]);
    DryLink *links = dry_arena_new_array (arena, DryLink, names[i]);
    guint n_links = 0;
    for (guint j = 0; j < names[i]; j++)
      if (g_rand_int_range (random, 0, (gint) n) < 3)
        links[n_links++] =
            (DryLink){dry_arena_printf (arena, "%u", j),
                      g_rand_boolean (random) ? 0 : g_rand_int_range (random, 0, 3000)};
    list.items[list.n++] = (DryActivity){dry_arena_strdup (arena, id),
                                         g_rand_int_range (random, 0, 900), links, n_links};
  }
  return list;
}

static const DryActivity *
find (const List *list, const char *id)
{
  for (guint i = 0; i < list->n; i++)
    if (g_str_equal (list->items[i].id, id))
      return &list->items[i];
  g_assert_not_reached ();
}

static void
check_links (const List *list, const DryNetwork *network)
{
  for (guint i = 0; i < list->n; i++)
    for (guint j = 0; j < list->items[i].n_after; j++) {
      const DryLink *link = &list->items[i].after[j];
      const DryActivityDates *before = &network->dates[find (list, link->id) - list->items];
      g_assert_cmpint (before->early_finish + link->wait, <=, network->dates[i].early_start);
      g_assert_cmpint (before->late_finish + link->wait, <=, network->dates[i].late_start);
    }
}

/* The sum of durations and waits along the path is the length of the project. */
static void
check_path (const List *list, const DryNetwork *network)
{
  gint64 sum = 0;

  for (guint k = 0; k < network->n_path; k++) {
    const DryActivity *activity = &list->items[network->path[k]];
    gint64 wait = k == 0 ? 0 : -1;
    for (guint j = 0; k > 0 && j < activity->n_after; j++)
      if (g_str_equal (activity->after[j].id, list->items[network->path[k - 1]].id))
        wait = MAX (wait, activity->after[j].wait);
    g_assert_cmpint (wait, >=, 0);
    sum += wait + activity->duration;
    g_assert_cmpint (network->dates[network->path[k]].slack, ==, 0);
  }
  g_assert_cmpint (sum, ==, network->length);
}

static void
check_network (const List *list, const DryNetwork *network)
{
  for (guint i = 0; i < list->n; i++) {
    const DryActivityDates *dates = &network->dates[i];
    g_assert_cmpint (dates->slack, >=, 0);
    g_assert_cmpint (dates->late_finish, <=, network->length);
    g_assert_cmpint (dates->early_finish, <=, dates->late_finish);
    g_assert_cmpint (dates->early_finish - dates->early_start, >=, list->items[i].duration);
  }
  check_links (list, network);
}

/* Makes one wait or duration longer: nothing may come earlier by that. */
static void
check_longer (const List *list, const DryNetwork *network, const DryNetworkClock *clock,
              gint64 start, GRand *random)
{
  guint at = (guint) g_rand_int_range (random, 0, (gint) list->n);
  DryActivity *changed = (DryActivity *) &list->items[at];
  g_autoptr (GError) error = NULL;
  const DryNetwork *after;

  if (changed->n_after > 0)
    ((DryLink *) changed->after)[0].wait += g_rand_int_range (random, 1, 2000);
  else
    changed->duration += g_rand_int_range (random, 1, 2000);
  after = dry_network_compute (list->arena, list->items, list->n, clock, start, &error);
  g_assert_no_error (error);
  g_assert_cmpint (after->length, >=, network->length);
  for (guint i = 0; i < list->n; i++)
    g_assert_cmpint (after->dates[i].early_start, >=, network->dates[i].early_start);
}

static void
test_properties (void)
{
  for (guint32 seed = 1; seed <= 400; seed++) {
    g_autoptr (GRand) random = g_rand_new_with_seed (seed);
    g_autoptr (DryArena) arena = dry_arena_new ();
    List list = random_list (arena, random);
    g_autoptr (GError) error = NULL;
    const DryNetwork *network = dry_network_compute (arena, list.items, list.n, NULL, 0, &error);

    g_assert_no_error (error);
    check_network (&list, network);
    check_path (&list, network);
    check_longer (&list, network, NULL, 0, random);
  }
}

static void
test_properties_with_nights (void)
{
  for (guint32 seed = 1; seed <= 200; seed++) {
    g_autoptr (GRand) random = g_rand_new_with_seed (seed);
    g_autoptr (DryArena) arena = dry_arena_new ();
    List list = random_list (arena, random);
    g_autoptr (GError) error = NULL;
    DryJob job = {.work_days = (char *) (seed % 3 ? "Mon Tue Wed Thu Fri" : "Tue Sat"),
                  .holidays = (char *) "2026-12-24/2027-01-03",
                  .day_start = seed % 4,
                  .day_hours = 1 + seed % 14};
    const DryCalendar *calendar = dry_calendar_new (arena, &job, &error);
    DryNetworkClock clock = dry_calendar_clock (calendar);
    gint64 start = (20789 + seed % 9) * DRY_MINUTES_A_DAY; /* December 2026 */
    const DryNetwork *network;

    g_assert_no_error (error);
    network = dry_network_compute (arena, list.items, list.n, &clock, start, &error);
    g_assert_no_error (error);
    check_network (&list, network);
    for (guint i = 0; i < list.n; i++) {
      const DryActivityDates *dates = &network->dates[i];
      g_assert_cmpint (dry_calendar_between (calendar, dates->early_start, dates->early_finish), ==,
                       list.items[i].duration);
      g_assert_cmpint (dry_calendar_between (calendar, dates->late_start, dates->late_finish), >=,
                       list.items[i].duration);
    }
    check_longer (&list, network, &clock, start, random);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/network/site-project", test_site_project);
  g_test_add_func ("/network/arrow-network", test_arrow_network);
  g_test_add_func ("/network/twelve-activities", test_twelve_activities);
  g_test_add_func ("/network/smallest", test_smallest);
  g_test_add_func ("/network/wait", test_wait);
  g_test_add_func ("/network/errors", test_errors);
  g_test_add_func ("/network/nothing", test_nothing);
  g_test_add_func ("/network/properties", test_properties);
  g_test_add_func ("/network/properties-with-nights", test_properties_with_nights);
  return g_test_run ();
}
