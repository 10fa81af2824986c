/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many rooms at once give the plans that each gives alone, in order; one that cannot be planned is
 * told with its own error. */
#include "plan/plans.h"
#include "support/fixtures.h"

static char *
tell (const DryPlan *plan)
{
  DryJsonWriter *writer = dry_json_writer_new ();

  dry_plan_write_json (plan, writer, NULL);
  return dry_json_writer_finish (writer, NULL);
}

/* `n` rooms, as different as random ones are. */
static DryProject *
make_house (guint n)
{
  DryProject *house = dry_test_random_project (1);

  for (guint32 seed = 2; seed <= n; seed++) {
    g_autoptr (DryProject) other = dry_test_random_project (seed);
    DryRoom *room = dry_room_copy (dry_project_get_room_at (other, 0));
    g_autoptr (GError) error = NULL;
    DryProject *next;

    room->id = 0;
    next = dry_edit_set_room (house, room, NULL, &error);
    g_assert_no_error (error);
    dry_room_free (room);
    dry_project_unref (house);
    house = next;
  }
  return house;
}

static GPtrArray *
plan_all (const DryProject *project, GCancellable *cancellable, GError **error)
{
  g_autofree DryId *rooms = dry_test_rooms (project);

  return dry_plans_new (project, rooms, dry_project_get_n_rooms (project), dry_test_catalog (), 0,
                        cancellable, error);
}

static void
test_same (void)
{
  g_autoptr (DryProject) house = make_house (24);

  for (int round = 0; round < 3; round++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (GPtrArray) plans = plan_all (house, NULL, &error);

    g_assert_no_error (error);
    g_assert_cmpuint (plans->len, ==, 24);
    for (guint i = 0; i < plans->len; i++) {
      DryId id = dry_project_get_room_at (house, i)->id;
      g_autoptr (DryPlan) alone = dry_plan_new (house, id, dry_test_catalog (), NULL, &error);
      g_autofree char *one = tell (plans->pdata[i]), *other = tell (alone);

      g_assert_cmpuint (((const DryPlan *) plans->pdata[i])->context.room->id, ==, id);
      g_assert_cmpstr (one, ==, other);
    }
  }
}

static void
test_errors (void)
{
  g_autoptr (DryProject) house = make_house (6), broken = NULL;
  const DryRoom *third = dry_project_get_room_at (house, 2);
  DryFinish finish = third->finish;
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  finish.system = (char *) "straw-and-hope";
  broken = dry_edit_set_finish (house, third->id, &finish, NULL);
  g_assert_null (plan_all (broken, NULL, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_REFERENCE);
  g_assert_nonnull (strstr (error->message, "straw-and-hope"));
  g_assert_null (plan_all (broken, NULL, NULL));
  g_clear_error (&error);
  g_cancellable_cancel (cancellable);
  g_assert_null (plan_all (house, cancellable, &error));
  g_assert_error (error, DRY_ERROR, DRY_ERROR_CANCELLED);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plans/same", test_same);
  g_test_add_func ("/plans/errors", test_errors);
  return g_test_run ();
}
