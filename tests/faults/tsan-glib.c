/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tells ThreadSanitizer of the order that GLib's locks, conditions, references and cancellables
 * make: Debian's GLib is not instrumented and takes its locks by futex, which the sanitizer does
 * not see. Preloaded by tests/faults/threads; each function tells no more than the real one
 * promises. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <gio/gio.h>

void __tsan_acquire (void *address);
void __tsan_release (void *address);

/* The real function behind ours. A dlsym() each time is slow enough to shift the threads about. */
#define REAL(name)                                                                                 \
  static __typeof__ (&name) real;                                                                  \
  if (real == NULL)                                                                                \
  real = (__typeof__ (&name)) dlsym (RTLD_NEXT, #name)

static void
both (gconstpointer address)
{
  __tsan_acquire ((gpointer) address);
  __tsan_release ((gpointer) address);
}

#undef g_object_ref
#undef g_atomic_rc_box_acquire

void
g_mutex_lock (GMutex *mutex)
{
  REAL (g_mutex_lock);
  real (mutex);
  __tsan_acquire (mutex);
}

gboolean
g_mutex_trylock (GMutex *mutex)
{
  REAL (g_mutex_trylock);
  gboolean got = real (mutex);

  if (got)
    __tsan_acquire (mutex);
  return got;
}

void
g_mutex_unlock (GMutex *mutex)
{
  REAL (g_mutex_unlock);
  __tsan_release (mutex);
  real (mutex);
}

void
g_cond_wait (GCond *cond, GMutex *mutex)
{
  REAL (g_cond_wait);
  __tsan_release (mutex);
  real (cond, mutex);
  __tsan_acquire (mutex);
}

gboolean
g_cond_wait_until (GCond *cond, GMutex *mutex, gint64 end)
{
  REAL (g_cond_wait_until);
  gboolean in_time;

  __tsan_release (mutex);
  in_time = real (cond, mutex, end);
  __tsan_acquire (mutex);
  return in_time;
}

/* Counting up and down are atomic operations of full order. */
gpointer
g_atomic_rc_box_acquire (gpointer box)
{
  REAL (g_atomic_rc_box_acquire);
  both (box);
  return real (box);
}

void
g_atomic_rc_box_release (gpointer box)
{
  REAL (g_atomic_rc_box_release);
  both (box);
  real (box);
}

/* What is cleared was released by all others before: by the last one, not by whoever is about to
 * be. Clearing may release further boxes, so the function is taken before it is called. */
static __thread GDestroyNotify waiting_clear;

static void
acquire_and_clear (gpointer box)
{
  GDestroyNotify clear = waiting_clear;

  __tsan_acquire (box);
  clear (box);
}

void
g_atomic_rc_box_release_full (gpointer box, GDestroyNotify clear)
{
  REAL (g_atomic_rc_box_release_full);
  __tsan_release (box);
  waiting_clear = clear;
  real (box, acquire_and_clear);
}

void (g_atomic_ref_count_inc) (gatomicrefcount *count)
{
  REAL (g_atomic_ref_count_inc);
  both ((gconstpointer) count);
  real (count);
}

gboolean (g_atomic_ref_count_dec) (gatomicrefcount *count)
{
  REAL (g_atomic_ref_count_dec);
  gboolean last;

  __tsan_release ((gpointer) count);
  last = real (count);
  if (last)
    __tsan_acquire ((gpointer) count);
  return last;
}

gpointer
g_object_ref (gpointer object)
{
  REAL (g_object_ref);
  both (object);
  return real (object);
}

void
g_object_unref (gpointer object)
{
  REAL (g_object_unref);
  both (object);
  real (object);
}

void
g_cancellable_cancel (GCancellable *cancellable)
{
  REAL (g_cancellable_cancel);
  if (cancellable != NULL)
    both (cancellable);
  real (cancellable);
}

gboolean
g_cancellable_is_cancelled (GCancellable *cancellable)
{
  REAL (g_cancellable_is_cancelled);
  gboolean cancelled = real (cancellable);

  if (cancelled)
    __tsan_acquire (cancellable);
  return cancelled;
}

/* --- from a thread to a main context: whoever hands over a callback is done before it is called */

typedef struct {
  GSourceFunc run;
  gpointer data;
  GDestroyNotify notify;
} Handed;

static gboolean
run_handed (gpointer data)
{
  Handed *handed = data;

  __tsan_acquire (handed);
  return handed->run (handed->data);
}

static void
free_handed (gpointer data)
{
  Handed *handed = data;

  __tsan_acquire (handed);
  if (handed->notify != NULL)
    handed->notify (handed->data);
  g_free (handed);
}

void
g_source_set_callback (GSource *source, GSourceFunc run, gpointer data, GDestroyNotify notify)
{
  REAL (g_source_set_callback);
  Handed *handed;

  /* Callbacks of other sources take other arguments. */
  if (source->source_funcs != &g_idle_funcs && source->source_funcs != &g_timeout_funcs) {
    real (source, run, data, notify);
    return;
  }
  handed = g_new (Handed, 1);
  *handed = (Handed){run, data, notify};
  __tsan_release (handed);
  real (source, run_handed, handed, free_handed);
}
