/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A hotel: 1, 10, 100 and 1,000 baths in one project, written, read, planned on all processors, and
 * exported as take-off and papers. Prints seconds, seconds a bath, and the most memory it took.
 *   bench-hotel [BATHS...]     Each size in a process of its own, so that memory is its own, too.
 */
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "papers/papers.h"
#include "plan/plans.h"
#include "project/file.h"
#include "support/fixtures.h"

/* Of seeds there are 40: a hotel has its types of bath. */
static DryProject *
make_hotel (guint n)
{
  DryProject *hotel = dry_test_random_project (1);

  for (guint i = 1; i < n; i++) {
    g_autoptr (DryProject) other = dry_test_random_project (1 + i % 40);
    DryRoom *room = dry_room_copy (dry_project_get_room_at (other, 0));
    DryProject *next;

    room->id = 0;
    g_free (room->name);
    room->name = g_strdup_printf ("Room %u%02u", 1 + i / 40, i % 40);
    next = dry_edit_set_room (hotel, room, NULL, NULL);
    g_assert_nonnull (next);
    dry_room_free (room);
    dry_project_unref (hotel);
    hotel = next;
  }
  return hotel;
}

static void
lap (gint64 *since, guint n, const char *what)
{
  gint64 now = g_get_monotonic_time ();
  double seconds = (double) (now - *since) / G_TIME_SPAN_SECOND;

  g_print ("  %-24s %9.3f s %9.2f ms a bath\n", what, seconds, 1000 * seconds / n);
  *since = g_get_monotonic_time ();
}

static void
measure (guint n)
{
  g_autofree char *folder = g_dir_make_tmp ("drybay-hotel-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "hotel.drybay", NULL);
  g_autofree char *pdf = g_build_filename (folder, "papers.pdf", NULL);
  g_autofree char *text = NULL;
  g_autofree DryId *rooms = NULL;
  gsize csv_length = 0;
  g_autoptr (DryProject) hotel = NULL, read = NULL, edited = NULL;
  g_autoptr (GPtrArray) plans = NULL;
  g_autoptr (GError) error = NULL;
  DryPaperOptions options = {.paper = DRY_PAPER_A4};
  struct rusage usage;
  gsize length;
  gint64 at;

  (void) dry_test_catalog ();
  at = g_get_monotonic_time ();
  hotel = make_hotel (n);
  lap (&at, n, "made, room by room");
  g_assert_true (dry_project_save (hotel, file, &error));
  lap (&at, n, "saved");
  read = dry_project_load (file, &error);
  g_assert_no_error (error);
  lap (&at, n, "opened");
  edited = dry_edit_move_basin (read, dry_project_get_room_at (read, n - 1)->id,
                                dry_project_get_room_at (read, n - 1)->walls[0].id, DRY_INCH, 0,
                                FALSE, &error);
  g_assert_no_error (error);
  lap (&at, n, "one edit");
  rooms = dry_test_rooms (read);
  plans = dry_plans_new (read, rooms, n, dry_test_catalog (), 0, NULL, &error);
  g_assert_no_error (error);
  lap (&at, n, "planned");
  for (guint i = 0; i < plans->len; i++) {
    g_autofree char *csv = dry_takeoff_to_csv (((const DryPlan *) plans->pdata[i])->takeoff);

    csv_length += strlen (csv);
  }
  lap (&at, n, "take-off as CSV");
  g_assert_true (
      dry_papers_write ((const DryPlan *const *) plans->pdata, plans->len, &options, pdf, &error));
  g_assert_no_error (error);
  lap (&at, n, "papers as PDF");
  text = dry_project_to_text (read, &length);
  getrusage (RUSAGE_SELF, &usage);
  g_print ("  file %" G_GSIZE_FORMAT " bytes, CSV %" G_GSIZE_FORMAT " bytes, most memory %ld MB\n",
           length, csv_length, usage.ru_maxrss / 1024);
  unlink (file);
  unlink (pdf);
  rmdir (folder);
}

int
main (int argc, char **argv)
{
  static const guint sizes[] = {1, 10, 100, 1000};
  guint count = argc > 1 ? (guint) argc - 1 : G_N_ELEMENTS (sizes);

  for (guint i = 0; i < count; i++) {
    guint n = argc > 1 ? (guint) g_ascii_strtoull (argv[i + 1], NULL, 10) : sizes[i];
    pid_t child;
    int status;

    g_print ("%u baths, %u processors\n", n, g_get_num_processors ());
    fflush (stdout);
    child = fork ();
    if (child == 0) {
      measure (n);
      fflush (stdout);
      _exit (0);
    }
    if (waitpid (child, &status, 0) != child || status != 0)
      return 1;
  }
  return 0;
}
