/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The real window on a virtual screen, timed from within: first frame of an empty window and of
 * ours, and the frames of a drag that bench-window.py makes with the pointer. Prints the monotonic
 * time of the first frame, or the frames counted; the script turns them into figures. */
#include <adwaita.h>
#include <time.h>

#include "ui/window.h"

#define DRAG_SECONDS 4

typedef struct {
  GtkWidget *window;
  gboolean drag;
  gint64 start;
  guint frames, plans;
  gint64 first_counter, first_time, last_frame, longest;
  double last_cpu;
  GArray *cpu; /* double: milliseconds of the main thread, one a frame */
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

static gint
compare_doubles (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y ? 1 : 0;
}

/* Frames that the clock had time for and that were not painted, and what the main thread computed
 * from one frame to the next, which other programs do not change. */
static void
print_drag (Bench *bench, GdkFrameClock *clock)
{
  gint64 interval = 0, drawn = gdk_frame_clock_get_frame_counter (clock) - bench->first_counter;
  gint64 spent = gdk_frame_clock_get_frame_time (clock) - bench->first_time, due;
  GArray *cpu = bench->cpu;

  gdk_frame_clock_get_refresh_info (clock, 0, &interval, NULL);
  due = (spent + interval / 2) / interval;
  g_array_sort (cpu, compare_doubles);
  g_print ("drag-frames %.1f\ndrag-plans %.1f\ndrag-dropped %" G_GINT64_FORMAT
           "\ndrag-due %" G_GINT64_FORMAT "\ndrag-longest-ms %.1f\n",
           (double) drawn * G_USEC_PER_SEC / (double) spent, (double) bench->plans / DRAG_SECONDS,
           MAX (due - drawn, 0), due, (double) bench->longest / 1000);
  g_print ("drag-cpu-ms %.2f\ndrag-cpu95-ms %.2f\ndrag-cpumax-ms %.2f\n",
           g_array_index (cpu, double, cpu->len / 2),
           g_array_index (cpu, double, cpu->len * 95 / 100),
           g_array_index (cpu, double, cpu->len - 1));
}

static void
note_frame (Bench *bench, GdkFrameClock *clock)
{
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double cpu = cpu_ms (), used = cpu - bench->last_cpu;

  if (bench->cpu == NULL) {
    bench->cpu = g_array_new (FALSE, FALSE, sizeof (double));
    bench->first_counter = gdk_frame_clock_get_frame_counter (clock);
    bench->first_time = now;
  } else {
    g_array_append_val (bench->cpu, used);
    bench->longest = MAX (bench->longest, now - bench->last_frame);
  }
  bench->last_frame = now;
  bench->last_cpu = cpu;
}

static void
plan_changed_cb (Bench *bench)
{
  bench->plans++;
}

/* The first change of the project is the hand's first step; from then on frames are counted. */
static void
project_changed_cb (Bench *bench)
{
  if (bench->start == 0)
    bench->start = g_get_monotonic_time () + G_USEC_PER_SEC / 2;
}

static gboolean
drag_tick_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  Bench *bench = data;
  DrySession *session = dry_window_get_session (DRY_WINDOW (bench->window));
  gint64 now = g_get_monotonic_time ();

  if (bench->frames == 0 && dry_session_get_plan (session) != NULL) {
    g_signal_connect_swapped (session, "project-changed", G_CALLBACK (project_changed_cb), bench);
    g_signal_connect_swapped (session, "plan-changed", G_CALLBACK (plan_changed_cb), bench);
    bench->frames++;
  }
  if (bench->start == 0 || now < bench->start)
    return G_SOURCE_CONTINUE;
  if (bench->cpu == NULL)
    bench->plans = 0;
  note_frame (bench, clock);
  if (now < bench->start + DRAG_SECONDS * G_USEC_PER_SEC)
    return G_SOURCE_CONTINUE;
  print_drag (bench, clock);
  print_memory ();
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
