/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Timings of the real window on a virtual screen: first frame of an empty window and of ours, and
 * frames during a drag. Prints the monotonic time of the first frame, or the frames counted;
 * bench-window.py turns them into figures. */
#include <adwaita.h>
#include <time.h>

#include "project/edit.h"
#include "ui/window.h"

#define DRAG_SECONDS 4

typedef struct {
  GtkWidget *window;
  gboolean drag;
  gint64 start;
  guint frames, plans, late;
  gint64 last_frame, longest;
  DryId niche;
} Bench;

static void
print_memory (void)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) words = NULL;

  if (!g_file_get_contents ("/proc/self/statm", &text, NULL, NULL))
    return;
  words = g_strsplit (text, " ", 3);
  g_print ("rss-mb %.1f\n", g_ascii_strtod (words[1], NULL) * 4096 / 1e6);
}

/* What the main thread computed so far: other programs running beside do not show in it. */
static double
cpu_ms (void)
{
  struct timespec spent;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &spent);
  return (double) spent.tv_sec * 1e3 + (double) spent.tv_nsec / 1e6;
}

static void
print_first_frame (GdkFrameClock *clock, Bench *bench)
{
  g_signal_handlers_disconnect_by_data (clock, bench);
  g_print ("first-frame-us %" G_GINT64_FORMAT "\n", g_get_monotonic_time ());
  g_print ("cpu-ms %.2f\n", cpu_ms ());
  print_memory ();
  if (!bench->drag)
    gtk_window_destroy (GTK_WINDOW (bench->window));
}

static void
move_niche (Bench *bench, DrySession *session)
{
  const DryRoom *room = dry_session_get_room (session);
  const DryPart *niche = dry_room_get_part (room, bench->niche);
  DryLength u = niche->u + (bench->frames % 60 < 30 ? 1 : -1) * DRY_INCH / 4;

  dry_session_preview (session,
                       dry_edit_move_part (dry_session_get_project (session), room->id, niche->id,
                                           niche->wall, niche->side, u, niche->z, NULL));
}

static void
plan_changed_cb (Bench *bench)
{
  bench->plans++;
}

static gboolean
drag_tick_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  Bench *bench = data;
  DrySession *session = dry_window_get_session (DRY_WINDOW (bench->window));
  gint64 now = g_get_monotonic_time ();

  if (!dry_session_get_plan (session))
    return G_SOURCE_CONTINUE;
  if (!bench->start) {
    const DryRoom *room = dry_session_get_room (session);
    for (guint i = 0; i < room->n_parts; i++)
      if (room->parts[i].kind == DRY_PART_NICHE)
        bench->niche = room->parts[i].id;
    bench->start = now + G_USEC_PER_SEC; /* a second to settle */
    g_signal_connect_swapped (session, "plan-changed", G_CALLBACK (plan_changed_cb), bench);
  }
  move_niche (bench, session);
  if (now > bench->start) {
    gint64 gap = bench->last_frame ? now - bench->last_frame : 0;
    bench->frames++;
    bench->late += gap > 25000;
    bench->longest = MAX (bench->longest, gap);
    bench->last_frame = now;
  } else
    bench->plans = 0;
  if (now < bench->start + DRAG_SECONDS * G_USEC_PER_SEC)
    return G_SOURCE_CONTINUE;
  g_print ("drag-frames %.1f\ndrag-plans %.1f\ndrag-late %u\ndrag-longest-ms %.1f\n",
           (double) bench->frames / DRAG_SECONDS, (double) bench->plans / DRAG_SECONDS, bench->late,
           (double) bench->longest / 1000);
  print_memory ();
  dry_session_preview (session, NULL);
  gtk_window_destroy (GTK_WINDOW (bench->window));
  return G_SOURCE_REMOVE;
}

static void
realized_cb (GtkWidget *window, Bench *bench)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint",
                    G_CALLBACK (print_first_frame), bench);
}

static void
window_added_cb (GtkApplication *application, GtkWindow *window, Bench *bench)
{
  bench->window = GTK_WIDGET (window);
  g_signal_connect (window, "realize", G_CALLBACK (realized_cb), bench);
  if (bench->drag)
    gtk_widget_add_tick_callback (GTK_WIDGET (window), drag_tick_cb, bench, NULL);
}

static void
open_empty_cb (GtkApplication *application)
{
  GtkWidget *window = adw_application_window_new (application),
            *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  const char *mode = argc > 1 ? argv[1] : "empty";
  gboolean empty = g_str_equal (mode, "empty");
  Bench bench = {.drag = g_str_equal (mode, "drag")};
  g_autoptr (GApplication) application = NULL;

  if (empty) {
    application =
        G_APPLICATION (adw_application_new ("io.github.drybay.Empty", G_APPLICATION_NON_UNIQUE));
    g_signal_connect (application, "activate", G_CALLBACK (open_empty_cb), NULL);
    argc = 1;
  } else {
    application = G_APPLICATION (dry_application_new ());
    g_application_set_flags (application,
                             g_application_get_flags (application) | G_APPLICATION_NON_UNIQUE);
    argv[1] = argv[0];
    argc--;
    argv++;
  }
  g_signal_connect (application, "window-added", G_CALLBACK (window_added_cb), &bench);
  return g_application_run (application, argc, argv);
}
