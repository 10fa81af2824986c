/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sequences of 50 to 200 random edits with undo and redo among them: the document's bytes are those
 * of the same place of the list, whichever way it was reached, and can be read again.
 * DRYBAY_SEQUENCES says how many (300), DRYBAY_SEQUENCES_FROM the first seed (1). */
#include <string.h>

#include "project/file.h"
#include "project/history.h"
#include "support/fixtures.h"
#include "support/random-edits.h"

typedef struct {
  guint64 tried, done, undone, redone, compared, read;
  guint64 *done_of, *tried_of; /* by kind of edit */
} Count;

typedef struct {
  guint32 seed;
  guint step;
  GRand *random;
  DryHistory *history;
  GPtrArray *texts; /* of each place of the list */
  guint at;
  Count *count;
} Walk;

static void
check_bytes (Walk *walk)
{
  g_autofree char *text = dry_project_to_text (dry_history_get_current (walk->history), NULL);

  walk->count->compared++;
  if (strcmp (text, walk->texts->pdata[walk->at]) != 0)
    g_error ("seed %u, step %u: place %u of the list is not what it was", walk->seed, walk->step,
             walk->at);
}

static void
check_readable (Walk *walk)
{
  const char *text = walk->texts->pdata[walk->at];
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) read = dry_project_from_text (text, strlen (text), "sequence", &error);
  g_autofree char *again = read != NULL ? dry_project_to_text (read, NULL) : NULL;

  walk->count->read++;
  if (again == NULL)
    g_error ("seed %u, step %u: %s", walk->seed, walk->step, error->message);
  if (strcmp (text, again) != 0)
    g_error ("seed %u, step %u: read and written it is another", walk->seed, walk->step);
}

static void
edit_once (Walk *walk)
{
  static const char *const keys[] = {"drag", "type", NULL};
  guint kind;
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) next =
      dry_test_edit (walk->random, dry_history_get_current (walk->history), &kind, &error);
  const char *key = keys[g_rand_int_range (walk->random, 0, G_N_ELEMENTS (keys))];

  walk->count->tried_of[kind]++;
  walk->count->tried++;
  if (next == NULL) {
    /* Refused with words, and nothing has changed. */
    g_assert_nonnull (error);
    g_assert_cmpstr (error->message, !=, "");
    return;
  }
  g_assert_no_error (error);
  walk->count->done_of[kind]++;
  walk->count->done++;
  walk->at += !dry_history_push (walk->history, next, dry_test_edit_name (kind), key);
  g_ptr_array_set_size (walk->texts, (gint) walk->at);
  g_ptr_array_add (walk->texts, dry_project_to_text (next, NULL));
}

static void
go_back (Walk *walk)
{
  for (int n = g_rand_int_range (walk->random, 1, 8); n > 0; n--) {
    gboolean went = dry_history_undo (walk->history);

    g_assert_cmpint (went, ==, walk->at > 0);
    if (!went)
      return;
    walk->at--;
    walk->count->undone++;
    check_bytes (walk);
  }
}

static void
go_on (Walk *walk)
{
  for (int n = g_rand_int_range (walk->random, 1, 8); n > 0; n--) {
    gboolean went = dry_history_redo (walk->history);

    g_assert_cmpint (went, ==, walk->at + 1 < walk->texts->len);
    if (!went)
      return;
    walk->at++;
    walk->count->redone++;
    check_bytes (walk);
  }
}

/* All the way down and up again. */
static void
walk_whole_list (Walk *walk)
{
  while (dry_history_undo (walk->history)) {
    walk->at--;
    walk->count->undone++;
    check_bytes (walk);
  }
  g_assert_cmpuint (walk->at, ==, 0);
  while (dry_history_redo (walk->history)) {
    walk->at++;
    walk->count->redone++;
  }
  g_assert_cmpuint (walk->at, ==, walk->texts->len - 1);
  check_bytes (walk);
}

static void
run_sequence (guint32 seed, Count *count)
{
  static const char *const files[] = {"two-bath-house.drybay", "alcove-refit.drybay",
                                      "client-shower.drybay"};
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  g_autoptr (DryProject) first = seed % 8 < G_N_ELEMENTS (files) ? dry_test_load (files[seed % 8])
                                                                 : dry_test_random_project (seed);
  g_autoptr (DryHistory) history = dry_history_new (first);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  Walk walk = {seed, 0, random, history, texts, 0, count};
  guint n = (guint) g_rand_int_range (random, 50, 201);

  g_ptr_array_add (texts, dry_project_to_text (first, NULL));
  for (walk.step = 0; walk.step < n; walk.step++) {
    gint dice = g_rand_int_range (random, 0, 12);

    if (dice == 0)
      go_back (&walk);
    else if (dice == 1)
      go_on (&walk);
    else
      edit_once (&walk);
    if (dice == 2)
      dry_history_seal (history);
    if (walk.step % 32 == 0)
      check_readable (&walk);
  }
  check_readable (&walk);
  walk_whole_list (&walk);
}

static void
test_sequences (void)
{
  guint32 n = dry_test_number ("DRYBAY_SEQUENCES", 300),
          from = dry_test_number ("DRYBAY_SEQUENCES_FROM", 1);
  g_autofree guint64 *done_of = g_new0 (guint64, dry_test_n_edits ());
  g_autofree guint64 *tried_of = g_new0 (guint64, dry_test_n_edits ());
  Count count = {.done_of = done_of, .tried_of = tried_of};

  for (guint32 seed = from; seed < from + n; seed++) {
    run_sequence (seed, &count);
    if (n > 1000 && (seed - from + 1) % 1000 == 0)
      g_test_message ("%u sequences", seed - from + 1);
  }
  g_test_message ("%u sequences: %" G_GUINT64_FORMAT " edits tried, %" G_GUINT64_FORMAT
                  " made, %" G_GUINT64_FORMAT " undone, %" G_GUINT64_FORMAT
                  " redone, %" G_GUINT64_FORMAT " documents compared, %" G_GUINT64_FORMAT " read",
                  n, count.tried, count.done, count.undone, count.redone, count.compared,
                  count.read);
  for (guint i = 0; i < dry_test_n_edits (); i++) {
    g_test_message ("%-28s %" G_GUINT64_FORMAT " of %" G_GUINT64_FORMAT, dry_test_edit_name (i),
                    done_of[i], tried_of[i]);
    /* An edit that is never made would be an edit that is not tested. */
    g_assert_true (n < 100 || done_of[i] > 0);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sequences/bytes", test_sequences);
  return g_test_run ();
}
