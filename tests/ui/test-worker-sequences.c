/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A worker fed with random edits, undo and redo as fast as they come: every answer it gives equals
 * the plan made from scratch out of the saved text of that state. DRYBAY_PLAN_SEQUENCES says how
 * many sequences (12), DRYBAY_SEQUENCES_FROM the first seed (1), DRYBAY_ASK_EVERY that the worker
 * is asked after one step of so many (1) and after the last. */
#include <string.h>

#include "plan/plan.h"
#include "project/file.h"
#include "project/history.h"
#include "support/fixtures.h"
#include "support/random-edits.h"
#include "ui/worker.h"

typedef struct {
  guint32 seed;
  guint step, asked, latest; /* of the sequence; serial asked for and serial answered last */
  gint ask_every;
  guint64 n_requests, n_answers, n_checked, n_failed;
} Watch;

/* A plan and its board scene, or what is wrong, as one text. */
static char *
tell (const DryPlan *plan, const DryScene *scene, const GError *error)
{
  DryJsonWriter *writer;
  g_autofree char *json = NULL, *picture = NULL;

  if (plan == NULL)
    return g_strdup_printf ("%s %d %s", g_quark_to_string (error->domain), error->code,
                            error->message);
  writer = dry_json_writer_new ();
  dry_plan_write_json (plan, writer, NULL);
  json = dry_json_writer_finish (writer, NULL);
  picture = dry_scene_to_text (scene);
  return g_strconcat (json, "\n", picture, NULL);
}

/* The same from the bytes of the project alone. */
static char *
tell_from_scratch (const DryProject *project, DryId room)
{
  gsize length;
  g_autofree char *text = dry_project_to_text (project, &length);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) read = dry_project_from_text (text, length, "sequence", &error);
  g_autoptr (DryPlan) plan = NULL;
  g_autoptr (DryScene) scene = NULL;

  g_assert_no_error (error);
  plan = dry_plan_new (read, room, dry_test_catalog (), NULL, &error);
  scene = plan != NULL ? dry_drawing_board (plan) : NULL;
  return tell (plan, scene, error);
}

static void
answered_cb (const DryReply *answer, gpointer data)
{
  Watch *watch = data;
  g_autofree char *live = NULL, *scratch = NULL;

  g_assert_false (answer->searched);
  g_assert_cmpuint (answer->serial, >, watch->latest);
  watch->latest = answer->serial;
  watch->n_answers++;
  watch->n_failed += answer->plan == NULL;
  live = tell (answer->plan, answer->scene, answer->error);
  scratch = tell_from_scratch (answer->project, answer->room);
  watch->n_checked++;
  if (strcmp (live, scratch) != 0)
    g_error ("seed %u, step %u: the live plan is not the one from scratch", watch->seed,
             answer->serial);
}

static void
step_once (GRand *random, DryHistory *history)
{
  gint dice = g_rand_int_range (random, 0, 10);
  g_autoptr (DryProject) next = NULL;
  guint kind;

  if (dice == 0)
    dry_history_undo (history);
  else if (dice == 1)
    dry_history_redo (history);
  else if ((next = dry_test_edit (random, dry_history_get_current (history), &kind, NULL)) != NULL)
    dry_history_push (history, next, "edit", dice == 2 ? "drag" : NULL);
}

static void
ask (GRand *random, DryWorker *worker, const DryProject *project, Watch *watch)
{
  guint at = (guint) g_rand_int_range (random, 0, (gint) dry_project_get_n_rooms (project));

  dry_worker_request (worker, project, dry_project_get_room_at (project, at)->id, watch->step);
  watch->asked = watch->step;
  watch->n_requests++;
  /* Mostly faster than it can answer; now and then it is waited for. */
  while (g_main_context_iteration (NULL, FALSE))
    ;
  if (g_rand_int_range (random, 0, 8) == 0)
    while (watch->latest < watch->step)
      g_main_context_iteration (NULL, TRUE);
}

static void
run_sequence (guint32 seed, Watch *watch)
{
  static const guint64 none[] = {0};
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  g_autoptr (DryProject) first =
      seed % 4 == 0 ? dry_test_load ("two-bath-house.drybay") : dry_test_random_project (seed);
  g_autoptr (DryHistory) history = dry_history_new (first);
  g_autoptr (DryWorker) worker = dry_worker_new (dry_test_catalog (), answered_cb, watch);
  guint n = (guint) g_rand_int_range (random, 50, 201);

  watch->seed = seed;
  watch->asked = watch->latest = 0;
  dry_worker_set_efforts (worker, none);
  for (watch->step = 1; watch->step <= n; watch->step++) {
    step_once (random, history);
    if (watch->step == n || g_rand_int_range (random, 0, watch->ask_every) == 0)
      ask (random, worker, dry_history_get_current (history), watch);
  }
  while (watch->latest < watch->asked)
    g_main_context_iteration (NULL, TRUE);
}

static void
test_sequences (void)
{
  guint32 n = dry_test_number ("DRYBAY_PLAN_SEQUENCES", 12);
  guint32 from = dry_test_number ("DRYBAY_SEQUENCES_FROM", 1);
  Watch watch = {.ask_every = (gint) MAX (dry_test_number ("DRYBAY_ASK_EVERY", 1), 1)};

  for (guint32 seed = from; seed < from + n; seed++)
    run_sequence (seed, &watch);
  g_test_message ("%u sequences: %" G_GUINT64_FORMAT " requests, %" G_GUINT64_FORMAT
                  " answers, all compared, %" G_GUINT64_FORMAT " of them without a plan",
                  n, watch.n_requests, watch.n_answers, watch.n_failed);
  g_assert_cmpuint (watch.n_checked, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/worker/sequences", test_sequences);
  return g_test_run ();
}
