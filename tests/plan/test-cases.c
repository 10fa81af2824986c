/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The test projects in tests/cases must raise the warnings their job asks for, each complete.
 * Rooms are invented; the numbers are those of docs/measures.md. */
#include "plan/rule-room.h"

typedef struct {
  const char *file;
  gint raised[8], silent[8]; /* 0-ended */
  gboolean no_stops;
} Case;

static const Case CASES[] = {
    {"01-alcove.drybay", {0}, {1, 19, 30, 42}, TRUE},
    {"02-old-house.drybay", {19, 30, 40, 62}, {27, 28}, FALSE},
    {"03-window-wall.drybay", {10, 64}, {30, 42}, FALSE},
    {"11-bearing-outside.drybay", {22, 28}, {19, 24, 27}, FALSE},
    {"12-steel-rated.drybay", {19, 27}, {40, 22}, FALSE},
    {"20-vent-bay.drybay", {24}, {19, 21, 22}, FALSE},
    {"20b-vent-bay-moved.drybay", {0}, {24, 19, 21, 22}, FALSE},
};

static void
test_case (gconstpointer data)
{
  const Case *test = data;
  g_autoptr (DryProject) project = dry_test_load (test->file);
  g_autoptr (DryPlan) plan = rule_room_plan (project);

  for (guint i = 0; i < plan->findings->n; i++)
    g_test_message ("%d %s: %s: %s", plan->findings->items[i].rule->number,
                    plan->findings->items[i].id, plan->findings->items[i].where,
                    plan->findings->items[i].message);
  rule_room_check_findings (plan);
  for (guint i = 0; test->raised[i]; i++)
    if (!rule_room_raises (plan, test->raised[i]))
      g_error ("%s does not raise %d", test->file, test->raised[i]);
  for (guint i = 0; test->silent[i]; i++)
    if (rule_room_raises (plan, test->silent[i]))
      g_error ("%s raises %d", test->file, test->silent[i]);
  if (test->no_stops)
    g_assert_cmpuint (plan->findings->count[DRY_SEVERITY_STOP], ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autofree char *path = g_strdup_printf ("/cases/%s", CASES[i].file);
    g_test_add_data_func (path, &CASES[i], test_case);
  }
  return g_test_run ();
}
