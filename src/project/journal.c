/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The writing side of a journal: one thread turns steps into records and hands them to the system,
 * a second one asks the disk to keep them. Knows nothing of reading them back. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/journal.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.h"
#include "project/file.h"
#include "project/journal-private.h"

typedef struct {
  DryRecord record;
  DryProject *project; /* of a step */
} Task;

struct _DryJournal {
  char *file;
  int fd;
  gsize end;           /* of the whole records in the file; the writer's */
  GByteArray *backlog; /* records not yet in the file; the writer's */
  char *text;          /* told last; the writer's */
  gsize text_length;

  GThread *writer, *syncer;
  GMutex lock; /* guards what follows */
  GCond changed;
  Task *task;     /* being written or waiting for it; at most one */
  gboolean dirty; /* the file has what the disk may not have */
  gboolean syncing, ending;
  char *trouble;
};

static void
free_task (Task *task)
{
  dry_record_clear (&task->record);
  if (task->project != NULL)
    dry_project_unref (task->project);
  g_free (task);
}

/* --- the writer's side --- */

static gboolean
write_at (int fd, const guint8 *bytes, gsize length, gsize at)
{
  while (length > 0) {
    gssize put = pwrite (fd, bytes, length, (off_t) at);

    if (put < 0 && errno == EINTR)
      continue;
    if (put <= 0)
      return FALSE;
    bytes += put;
    at += (gsize) put;
    length -= (gsize) put;
  }
  return TRUE;
}

/* NULL when the file has everything; else why not. Half a record is taken back, as far as it can
 * be: a reader stops in front of it anyway. */
static char *
write_backlog (DryJournal *self)
{
  char *why;

  if (write_at (self->fd, self->backlog->data, self->backlog->len, self->end)) {
    self->end += self->backlog->len;
    g_byte_array_set_size (self->backlog, 0);
    return NULL;
  }
  why = g_strdup (g_strerror (errno));
  if (ftruncate (self->fd, (off_t) self->end) != 0)
    g_debug ("half a record stays at the end of %s", self->file);
  return why;
}

static void
add_record (DryJournal *self, Task *task)
{
  g_autofree char *text = NULL;
  gsize length = 0;

  if (task->project != NULL) {
    text = dry_project_to_text (task->project, &length);
    dry_record_compare (&task->record, self->text, self->text_length, text, length);
  }
  dry_record_write (&task->record, self->backlog);
  if (text != NULL) {
    g_free (self->text);
    self->text = g_steal_pointer (&text);
    self->text_length = length;
  }
}

static gpointer
run_writer (gpointer data)
{
  DryJournal *self = data;

  g_mutex_lock (&self->lock);
  while (TRUE) {
    Task *task;
    char *trouble;

    while (self->task == NULL && !self->ending)
      g_cond_wait (&self->changed, &self->lock);
    if (self->task == NULL)
      break;
    task = self->task;
    g_mutex_unlock (&self->lock);
    add_record (self, task);
    trouble = write_backlog (self);
    g_mutex_lock (&self->lock);
    free_task (task);
    self->task = NULL;
    self->dirty = TRUE;
    g_free (self->trouble);
    self->trouble = trouble;
    g_cond_broadcast (&self->changed);
  }
  g_mutex_unlock (&self->lock);
  return NULL;
}

/* Syncing may take as long as a slow disk likes; the writer does not wait for it. */
static gpointer
run_syncer (gpointer data)
{
  DryJournal *self = data;

  g_mutex_lock (&self->lock);
  while (TRUE) {
    while (!self->dirty && !self->ending)
      g_cond_wait (&self->changed, &self->lock);
    if (!self->dirty)
      break;
    self->dirty = FALSE;
    self->syncing = TRUE;
    g_mutex_unlock (&self->lock);
    if (fdatasync (self->fd) != 0)
      g_debug ("%s: %s", self->file, g_strerror (errno));
    g_mutex_lock (&self->lock);
    self->syncing = FALSE;
    g_cond_broadcast (&self->changed);
  }
  g_mutex_unlock (&self->lock);
  return NULL;
}

/* --- the owner's side --- */

static void
post (DryJournal *self, Task *task)
{
  g_mutex_lock (&self->lock);
  while (self->task != NULL)
    g_cond_wait (&self->changed, &self->lock);
  self->task = task;
  g_cond_broadcast (&self->changed);
  g_mutex_unlock (&self->lock);
}

static void
post_kind (DryJournal *self, DryRecordKind kind, const char *path)
{
  Task *task = g_new0 (Task, 1);

  task->record.kind = kind;
  task->record.path = g_strdup (path);
  post (self, task);
}

void
dry_journal_push (DryJournal *self, const DryProject *project, const char *name,
                  const char *merge_key, gboolean merged)
{
  Task *task = g_new0 (Task, 1);

  task->record.kind = DRY_RECORD_STEP;
  task->record.name = g_strdup (name);
  task->record.key = g_strdup (merge_key);
  task->record.merged = merged;
  task->project = dry_project_ref (project);
  post (self, task);
}

void
dry_journal_undo (DryJournal *self)
{
  post_kind (self, DRY_RECORD_UNDO, NULL);
}

void
dry_journal_redo (DryJournal *self)
{
  post_kind (self, DRY_RECORD_REDO, NULL);
}

void
dry_journal_saved (DryJournal *self, const char *path)
{
  post_kind (self, DRY_RECORD_SAVED, path);
}

void
dry_journal_flush (DryJournal *self)
{
  g_mutex_lock (&self->lock);
  while (self->task != NULL || self->dirty || self->syncing)
    g_cond_wait (&self->changed, &self->lock);
  g_mutex_unlock (&self->lock);
}

char *
dry_journal_dup_trouble (DryJournal *self)
{
  char *trouble;

  g_mutex_lock (&self->lock);
  trouble = g_strdup (self->trouble);
  g_mutex_unlock (&self->lock);
  return trouble;
}

const char *
dry_journal_get_file (const DryJournal *self)
{
  return self->file;
}

/* --- beginning and end --- */

gboolean
dry_journal_lock (int fd)
{
  GStatBuf now;

  if (flock (fd, LOCK_EX | LOCK_NB) != 0)
    return FALSE;
  /* Someone tidying up may have been quicker: then nobody would ever find this file again. */
  return fstat (fd, &now) == 0 && now.st_nlink > 0;
}

DryJournal *
dry_journal_continue (char *file, int fd, gsize end, char *text, gsize length)
{
  DryJournal *self = g_new0 (DryJournal, 1);

  self->file = file;
  self->fd = fd;
  self->end = end;
  self->text = text;
  self->text_length = length;
  self->backlog = g_byte_array_new ();
  g_mutex_init (&self->lock);
  g_cond_init (&self->changed);
  self->writer = g_thread_new ("journal", run_writer, self);
  self->syncer = g_thread_new ("journal-sync", run_syncer, self);
  return self;
}

static int
make_file (const char *folder, char **file)
{
  for (int i = 0; i < 16; i++) {
    g_autofree char *name = g_build_filename (folder, "drybay-XXXXXX" DRY_JOURNAL_SUFFIX, NULL);
    int fd = g_mkstemp_full (name, O_RDWR | O_CLOEXEC, 0600);

    if (fd < 0)
      return -1;
    if (dry_journal_lock (fd)) {
      *file = g_steal_pointer (&name);
      return fd;
    }
    g_unlink (name);
    close (fd);
  }
  return -1;
}

DryJournal *
dry_journal_new (const char *folder, const DryProject *base, const char *path, GError **error)
{
  g_auto (DryRecord) record = {.kind = DRY_RECORD_BASE};
  g_autofree char *file = NULL, *text = NULL;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  gsize length;
  int fd = -1;

  text = dry_project_to_text (base, &length);
  record.path = g_strdup (path);
  record.title = g_strdup (dry_project_get_job (base)->title);
  dry_record_compare (&record, "", 0, text, length);
  g_byte_array_append (bytes, (const guint8 *) DRY_JOURNAL_MAGIC, strlen (DRY_JOURNAL_MAGIC));
  dry_record_write (&record, bytes);
  if (g_mkdir_with_parents (folder, 0700) == 0)
    fd = make_file (folder, &file);
  if (fd < 0 || !write_at (fd, bytes->data, bytes->len, 0)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s", folder, g_strerror (errno));
    if (fd >= 0) {
      g_unlink (file);
      close (fd);
    }
    return NULL;
  }
  return dry_journal_continue (g_steal_pointer (&file), fd, bytes->len, g_steal_pointer (&text),
                               length);
}

static void
end_journal (DryJournal *self, gboolean delete)
{
  if (self == NULL)
    return;
  g_mutex_lock (&self->lock);
  self->ending = TRUE;
  g_cond_broadcast (&self->changed);
  g_mutex_unlock (&self->lock);
  g_thread_join (self->writer);
  g_thread_join (self->syncer);
  if (delete)
    g_unlink (self->file);
  close (self->fd);
  g_mutex_clear (&self->lock);
  g_cond_clear (&self->changed);
  g_byte_array_unref (self->backlog);
  g_free (self->trouble);
  g_free (self->text);
  g_free (self->file);
  g_free (self);
}

void
dry_journal_finish (DryJournal *self)
{
  end_journal (self, TRUE);
}

void
dry_journal_abandon (DryJournal *self)
{
  end_journal (self, FALSE);
}
