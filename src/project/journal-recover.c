/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reading side of a journal: what is left over in a folder, and the undo list told by a file.
 * Trusts nothing in the file: the first record that is not whole ends it. */
#define G_LOG_DOMAIN "drybay-project"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.h"
#include "project/file.h"
#include "project/journal-private.h"

/* A step of the undo list as the records tell it; the project itself is made only when wanted. */
typedef struct {
  guint record; /* which text it is, counted from the base */
  char *name, *key;
} Told;

typedef struct {
  GPtrArray *steps; /* Told */
  guint current;
  guint saved; /* record number of the saved text */
  guint n_texts, n_unsaved;
  char *path, *title;
  gsize end; /* of the whole records */
} Tale;

static void
free_told (gpointer data)
{
  Told *told = data;

  g_free (told->name);
  g_free (told->key);
  g_free (told);
}

static void
clear_tale (Tale *tale)
{
  g_clear_pointer (&tale->steps, g_ptr_array_unref);
  g_clear_pointer (&tale->path, g_free);
  g_clear_pointer (&tale->title, g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Tale, clear_tale)

static Told *
told_at (const Tale *tale, guint index)
{
  return g_ptr_array_index (tale->steps, index);
}

static void
tell_step (Tale *tale, DryRecord *record)
{
  Told *told = g_new0 (Told, 1);

  told->record = tale->n_texts++;
  told->name = g_steal_pointer (&record->name);
  told->key = g_steal_pointer (&record->key);
  if (tale->steps->len > tale->current + 1)
    g_ptr_array_set_size (tale->steps, (gint) tale->current + 1);
  if (record->merged && tale->current > 0)
    g_ptr_array_set_size (tale->steps, (gint) tale->current);
  g_ptr_array_add (tale->steps, told);
  tale->current = tale->steps->len - 1;
}

/* What the record does to the list, as dry_history_*() would. */
static void
tell (Tale *tale, DryRecord *record)
{
  tale->n_unsaved++;
  switch (record->kind) {
  case DRY_RECORD_STEP:
    tell_step (tale, record);
    break;
  case DRY_RECORD_UNDO:
    tale->current -= tale->current > 0;
    break;
  case DRY_RECORD_REDO:
    tale->current += tale->current + 1 < tale->steps->len;
    break;
  case DRY_RECORD_SAVED:
    tale->saved = told_at (tale, tale->current)->record;
    tale->n_unsaved = 0;
    g_free (tale->path);
    tale->path = g_steal_pointer (&record->path);
    break;
  case DRY_RECORD_BASE:
    break;
  }
}

static gboolean
read_tale (const char *bytes, gsize length, Tale *tale)
{
  gsize magic = strlen (DRY_JOURNAL_MAGIC);
  g_auto (DryRecord) base = {0};

  memset (tale, 0, sizeof *tale);
  tale->end = magic;
  if (length < magic || memcmp (bytes, DRY_JOURNAL_MAGIC, magic) != 0 ||
      !dry_record_read (bytes, length, &tale->end, &base) || base.kind != DRY_RECORD_BASE)
    return FALSE;
  tale->path = g_steal_pointer (&base.path);
  tale->title = g_steal_pointer (&base.title);
  tale->steps = g_ptr_array_new_with_free_func (free_told);
  g_ptr_array_add (tale->steps, g_new0 (Told, 1));
  tale->n_texts = 1;
  while (TRUE) {
    g_auto (DryRecord) record = {0};
    gsize at = tale->end;

    if (!dry_record_read (bytes, length, &at, &record) || record.kind == DRY_RECORD_BASE)
      break;
    tell (tale, &record);
    tale->end = at;
  }
  if (told_at (tale, tale->current)->record == tale->saved)
    tale->n_unsaved = 0;
  return TRUE;
}

/* --- what is left over --- */

void
dry_leftover_free (DryLeftover *self)
{
  if (self == NULL)
    return;
  g_free (self->file);
  g_free (self->path);
  g_free (self->title);
  g_free (self);
}

static gint
compare_times (gconstpointer a, gconstpointer b)
{
  const DryLeftover *x = *(DryLeftover *const *) a, *y = *(DryLeftover *const *) b;

  return x->last_time != y->last_time ? (x->last_time < y->last_time ? 1 : -1)
                                      : strcmp (x->file, y->file);
}

/* A journal, but not one of this version: nobody here can say that nothing in it is wanted. */
static gboolean
is_newer (const char *bytes, gsize length)
{
  return length > strlen (DRY_JOURNAL_KIND) && g_str_has_prefix (bytes, DRY_JOURNAL_KIND) &&
         !g_str_has_prefix (bytes, DRY_JOURNAL_MAGIC);
}

static DryLeftover *
make_leftover (const char *file, Tale *tale, gint64 time)
{
  DryLeftover *leftover = g_new0 (DryLeftover, 1);

  leftover->file = g_strdup (file);
  leftover->path = g_steal_pointer (&tale->path);
  leftover->title = g_steal_pointer (&tale->title);
  leftover->n_unsaved = tale->n_unsaved;
  leftover->last_time = time;
  return leftover;
}

/* Looks at one file while holding it, so that two starts at once cannot both tidy up. */
static void
look_at (const char *file, GPtrArray *leftovers)
{
  g_auto (Tale) tale = {0};
  g_autofree char *bytes = NULL;
  gsize length;
  GStatBuf now;
  int fd = g_open (file, O_RDWR | O_CLOEXEC, 0);

  if (fd < 0)
    return;
  if (dry_journal_lock (fd) && fstat (fd, &now) == 0 &&
      g_file_get_contents (file, &bytes, &length, NULL)) {
    gboolean newer = is_newer (bytes, length);

    if (newer || (read_tale (bytes, length, &tale) && tale.n_unsaved > 0)) {
      DryLeftover *leftover = make_leftover (file, &tale, (gint64) now.st_mtime);

      leftover->newer = newer;
      g_ptr_array_add (leftovers, leftover);
    } else {
      g_unlink (file);
    }
  }
  close (fd);
}

GPtrArray *
dry_journal_list (const char *folder)
{
  GPtrArray *leftovers = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_leftover_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, DRY_JOURNAL_SUFFIX)) {
      g_autofree char *file = g_build_filename (folder, name, NULL);

      look_at (file, leftovers);
    }
  g_ptr_array_sort (leftovers, compare_times);
  return leftovers;
}

/* --- taking one over --- */

typedef struct {
  const Tale *tale;
  DryHistory *history;
  guint next; /* step whose text is looked for */
  guint end;  /* one past the last step that is kept */
} Build;

/* Which steps are kept: the current one, and whatever later and then earlier ones fit. */
static void
choose_steps (Build *build, gsize text_length)
{
  gsize most = MAX (DRY_JOURNAL_TEXT_MOST / MAX (text_length, 1), 1);
  guint n = build->tale->steps->len;

  build->next = n > most ? MIN (build->tale->current, n - (guint) most) : 0;
  build->end = n > most ? build->next + (guint) most : n;
}

/* Texts come in the order of the records, and so do the steps of the list. */
static gboolean
take_text (Build *build, guint record, const char *text, gsize length, GError **error)
{
  const Told *told;
  g_autoptr (DryProject) project = NULL;

  if (build->next >= build->end)
    return TRUE;
  told = told_at (build->tale, build->next);
  if (told->record != record)
    return TRUE;
  project = dry_project_from_text (text, length, "journal", error);
  if (project == NULL)
    return FALSE;
  if (build->history == NULL) {
    build->history = dry_history_new (project);
  } else {
    dry_history_seal (build->history);
    dry_history_push (build->history, project, told->name, told->key);
  }
  if (record == build->tale->saved)
    dry_history_mark_saved (build->history);
  build->next++;
  return TRUE;
}

/* Walks the texts; `text` and `length` are the last one's at the end. */
static gboolean
build_history (Build *build, const char *bytes, gsize length, char **text, gsize *text_length,
               GError **error)
{
  gsize at = strlen (DRY_JOURNAL_MAGIC);
  guint n = 0;

  *text = g_strdup ("");
  *text_length = 0;
  while (at < build->tale->end) {
    g_auto (DryRecord) record = {0};
    char *next;
    gsize next_length;

    if (!dry_record_read (bytes, length, &at, &record))
      break;
    if (record.kind != DRY_RECORD_BASE && record.kind != DRY_RECORD_STEP)
      continue;
    next = dry_record_join (&record, *text, *text_length, &next_length);
    if (next == NULL) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_SYNTAX, "journal: record %u does not fit", n);
      return FALSE;
    }
    g_free (*text);
    *text = next;
    *text_length = next_length;
    if (n == 0)
      choose_steps (build, next_length);
    if (!take_text (build, n++, *text, *text_length, error))
      return FALSE;
  }
  return TRUE;
}

static DryJournal *
take_over (const char *file, int fd, DryHistory **history, char **path, GError **error)
{
  g_auto (Tale) tale = {0};
  g_autofree char *bytes = NULL, *text = NULL;
  gsize length, text_length;
  Build build = {.tale = &tale};

  if (!g_file_get_contents (file, &bytes, &length, error))
    return NULL;
  if (is_newer (bytes, length)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_VERSION, "%s: written by a newer Drybay", file);
    return NULL;
  }
  if (!read_tale (bytes, length, &tale)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_SYNTAX, "%s: no whole journal", file);
    return NULL;
  }
  if (!build_history (&build, bytes, length, &text, &text_length, error)) {
    dry_history_free (build.history);
    return NULL;
  }
  for (guint i = build.end - 1; i > tale.current; i--)
    dry_history_undo (build.history);
  dry_history_seal (build.history);
  if (length > tale.end && ftruncate (fd, (off_t) tale.end) != 0)
    g_debug ("%s: torn end stays", file);
  *history = build.history;
  *path = g_steal_pointer (&tale.path);
  return dry_journal_continue (g_strdup (file), fd, tale.end, g_steal_pointer (&text), text_length);
}

DryJournal *
dry_journal_recover (const char *file, DryHistory **history, char **path, GError **error)
{
  int fd = g_open (file, O_RDWR | O_CLOEXEC, 0);
  DryJournal *self = NULL;

  if (fd < 0 || !dry_journal_lock (fd))
    g_set_error (error, DRY_ERROR, DRY_ERROR_FILE, "%s: %s", file, g_strerror (errno));
  else
    self = take_over (file, fd, history, path, error);
  if (self == NULL && fd >= 0)
    close (fd);
  return self;
}

void
dry_journal_discard (const char *file)
{
  g_unlink (file);
}
