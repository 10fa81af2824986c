/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the catalogue together from folders, later ones over earlier ones by id, and answers
 * look-ups. Finding and reading files is catalog-folders.c's work, understanding them the
 * readers'. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/catalog.h"
#include "base/json.h"
#include "catalog/catalog-folders.h"
#include "catalog/item-read.h"
#include "catalog/rule-read.h"
#include "catalog/system-read.h"

#include <string.h>

struct _DryCatalog {
  DryArena *arena; /* holds everything below */
  const DrySystem *const *systems;
  guint n_systems;
  const DryItem *const *items;
  guint n_items;
  const DryRulePack *packs;
  guint n_packs;
  const DryPriceBook *const *books;
  guint n_books;
  const DryLeftOut *left_out;
  guint n_left_out;
};

/* One thing read, and where from: the same id again in the same folder is a mistake, in a later
 * folder it is the firm's own version. */
typedef struct _Entry Entry;
struct _Entry {
  const char *id, *file;
  guint folder;
  gconstpointer value;
  const Entry *below; /* whose place it took, or NULL */
};

typedef struct {
  DryArena *arena;
  guint folder;
  const char *file;                        /* being read */
  GArray *systems, *items, *packs, *books; /* of Entry */
  guint n_strict;                          /* in the first so many folders nothing may be bad */
  DryRulePackCheck check;                  /* or NULL */
  GArray *left_out;                        /* of DryLeftOut */
} Loader;

static void
add_entry (Loader *self, GArray *entries, const char *id, gconstpointer value, DryJson at)
{
  Entry entry = {id, self->file, self->folder, value, NULL};

  for (guint i = 0; i < entries->len; i++) {
    Entry *other = &g_array_index (entries, Entry, i);
    if (!g_str_equal (other->id, id))
      continue;
    if (other->folder == self->folder)
      dry_json_fail (at, DRY_ERROR_SCHEMA, "“%s” is already in %s", id, other->file);
    else {
      Entry *below = dry_arena_new_array (self->arena, Entry, 1);
      *below = *other;
      entry.below = below;
      *other = entry;
    }
    return;
  }
  g_array_append_val (entries, entry);
}

static void
add_system (Loader *self, DryJson root)
{
  const DrySystem *system = dry_system_read (root, self->file, self->arena);

  if (system)
    add_entry (self, self->systems, system->id, system, dry_json_get (root, "id"));
}

static void
add_items (Loader *self, DryJson root)
{
  GArray *items = dry_items_read (root, self->arena);
  guint n = items->len;
  const DryItem *values = dry_arena_take_array (self->arena, items);

  for (guint i = 0; i < n; i++)
    add_entry (self, self->items, values[i].id, &values[i],
               dry_json_get (dry_json_item (dry_json_get (root, "items"), i), "id"));
}

static void
add_rules (Loader *self, DryJson root)
{
  const DryRawPack *pack = dry_rule_pack_read (root, self->file, self->arena);

  if (pack)
    add_entry (self, self->packs, pack->head.id, pack, dry_json_get (root, "id"));
}

static void
add_prices (Loader *self, DryJson root)
{
  const DryPriceBook *book = dry_price_book_read (root, self->arena);

  if (book)
    add_entry (self, self->books, book->id, book, dry_json_get (root, "id"));
}

static gboolean
load_file (Loader *self, const char *path, void (*add) (Loader *, DryJson), GError **error)
{
  g_autofree char *shown = g_filename_display_name (path);
  g_autoptr (DryJsonDocument) doc = NULL;
  g_autofree char *text = NULL;
  gsize length = 0;

  text = dry_catalog_read_file (path, &length, error);
  if (!text)
    return FALSE;
  doc = dry_json_document_new (text, length, shown, error);
  if (!doc)
    return FALSE;
  self->file = dry_arena_strdup (self->arena, shown);
  add (self, dry_json_root (doc));
  return dry_json_finish (doc, error);
}

/* --- bad rule packs of one's own --- */

/* Without the name of the file, which stands beside it. */
static const char *
cut_file (const char *message, const char *file)
{
  if (!g_str_has_prefix (message, file) || message[strlen (file)] != ':')
    return message;
  message += strlen (file) + 1;
  return message[0] == ' ' ? message + 1 : message;
}

static void
note_left_out (Loader *self, const char *file, const GError *reason)
{
  DryLeftOut left = {dry_arena_strdup (self->arena, file),
                     dry_arena_strdup (self->arena, cut_file (reason->message, file))};

  g_array_append_val (self->left_out, left);
}

static gboolean
is_tolerant (const Loader *self, guint folder)
{
  return folder >= self->n_strict;
}

/* One rule file: what is bad in it is an error, or noted. */
static gboolean
load_rules (Loader *self, const char *path, GError **error)
{
  g_autofree char *shown = NULL;
  g_autoptr (GError) reason = NULL;

  if (!is_tolerant (self, self->folder))
    return load_file (self, path, add_rules, error);
  if (load_file (self, path, add_rules, &reason))
    return TRUE;
  shown = g_filename_display_name (path);
  note_left_out (self, shown, reason);
  return TRUE;
}

/* A folder of rules that cannot be listed counts as one bad file. That `folder` itself is there has
 * been seen by then. */
static GPtrArray *
list_rules (Loader *self, const char *folder, GError **error)
{
  g_autofree char *path = g_build_filename (folder, "rules", NULL);
  g_autofree char *shown = g_filename_display_name (path);
  g_autoptr (GError) reason = NULL;
  GPtrArray *files = dry_catalog_list_files (folder, "rules", &reason);

  if (files)
    return files;
  if (!is_tolerant (self, self->folder)) {
    g_propagate_error (error, g_steal_pointer (&reason));
    return NULL;
  }
  note_left_out (self, shown, reason);
  return g_ptr_array_new ();
}

/* The pack of one's own that is to blame for what is wrong with pack `index`: itself, or the first
 * of those it stands on. -1: they are all shipped. */
static gint
find_own (const Loader *self, guint index)
{
  for (guint steps = 0; steps <= self->packs->len; steps++) {
    const Entry *entry = &g_array_index (self->packs, Entry, index);
    const DryRawPack *raw = entry->value;
    guint next = self->packs->len;

    if (is_tolerant (self, entry->folder))
      return (gint) index;
    for (guint i = 0; raw->head.extends && i < self->packs->len; i++)
      if (g_str_equal (g_array_index (self->packs, Entry, i).id, raw->head.extends))
        next = i;
    if (next == self->packs->len)
      return -1;
    index = next;
  }
  return -1;
}

/* Takes the pack out; the one whose place it had taken is back. */
static void
leave_out (Loader *self, guint index, const GError *reason)
{
  Entry *entry = &g_array_index (self->packs, Entry, index);

  note_left_out (self, entry->file, reason);
  if (entry->below)
    *entry = *entry->below;
  else
    g_array_remove_index (self->packs, index);
}

static gboolean
load_folder (Loader *self, const char *folder, GError **error)
{
  static const struct {
    const char *name;
    void (*add) (Loader *, DryJson);
  } PARTS[] = {{"systems", add_system}, {"items", add_items}, {"prices", add_prices}};
  g_autoptr (GPtrArray) rules = NULL;

  for (guint part = 0; part < G_N_ELEMENTS (PARTS); part++) {
    g_autoptr (GPtrArray) files = dry_catalog_list_files (folder, PARTS[part].name, error);
    if (!files)
      return FALSE;
    for (guint i = 0; i < files->len; i++)
      if (!load_file (self, g_ptr_array_index (files, i), PARTS[part].add, error))
        return FALSE;
  }
  rules = list_rules (self, folder, error);
  if (!rules)
    return FALSE;
  for (guint i = 0; i < rules->len; i++)
    if (!load_rules (self, g_ptr_array_index (rules, i), error))
      return FALSE;
  return TRUE;
}

/* The values of the entries, in order, as an array of pointers in the arena. */
static gpointer
take_values (Loader *self, const GArray *entries)
{
  gconstpointer *values = dry_arena_new_array (self->arena, gconstpointer, entries->len);

  for (guint i = 0; i < entries->len; i++)
    values[i] = g_array_index (entries, Entry, i).value;
  return values;
}

/* Joins the packs and looks each over; `at` is the bad one after a failure. */
static const DryRulePack *
join_packs (Loader *self, guint *at, GError **error)
{
  const DryRawPack *const *raw = take_values (self, self->packs);
  const DryRulePack *packs = dry_rule_packs_resolve (raw, self->packs->len, self->arena, at, error);

  for (guint i = 0; packs && self->check && i < self->packs->len; i++)
    if (!self->check (&packs[i], error)) {
      *at = i;
      return NULL;
    }
  return packs;
}

/* As long as a pack of one's own spoils the whole, it goes, and those that extend it after it. */
static const DryRulePack *
settle_packs (Loader *self, GError **error)
{
  for (;;) {
    g_autoptr (GError) reason = NULL;
    guint at = 0;
    const DryRulePack *packs = join_packs (self, &at, &reason);
    gint own = packs ? -1 : find_own (self, at);

    if (packs)
      return packs;
    if (own < 0) {
      g_propagate_error (error, g_steal_pointer (&reason));
      return NULL;
    }
    leave_out (self, (guint) own, reason);
  }
}

static DryCatalog *
finish_catalog (Loader *self, GError **error)
{
  const DryRulePack *packs = settle_packs (self, error);
  DryCatalog *catalog;

  if (!packs)
    return NULL;
  catalog = g_atomic_rc_box_new0 (DryCatalog);
  catalog->arena = dry_arena_ref (self->arena);
  catalog->systems = take_values (self, self->systems);
  catalog->n_systems = self->systems->len;
  catalog->items = take_values (self, self->items);
  catalog->n_items = self->items->len;
  catalog->packs = packs;
  catalog->n_packs = self->packs->len;
  catalog->books = take_values (self, self->books);
  catalog->n_books = self->books->len;
  catalog->n_left_out = self->left_out->len;
  catalog->left_out = dry_arena_take_array (self->arena, g_steal_pointer (&self->left_out));
  return catalog;
}

DryCatalog *
dry_catalog_load_tolerant (const char *const *folders, guint n_strict, DryRulePackCheck check,
                           GError **error)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GArray) systems = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_autoptr (GArray) packs = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_autoptr (GArray) books = g_array_new (FALSE, FALSE, sizeof (Entry));
  Loader self = {.arena = arena,
                 .systems = systems,
                 .items = items,
                 .packs = packs,
                 .books = books,
                 .n_strict = n_strict,
                 .check = check,
                 .left_out = g_array_new (FALSE, FALSE, sizeof (DryLeftOut))};
  DryCatalog *catalog = NULL;
  gboolean ok = TRUE;

  for (; ok && folders[self.folder]; self.folder++) {
    const char *folder = folders[self.folder];
    gboolean pack =
        g_file_test (folder, G_FILE_TEST_EXISTS) && !g_file_test (folder, G_FILE_TEST_IS_DIR);

    ok = pack ? load_rules (&self, folder, error) : load_folder (&self, folder, error);
  }
  if (ok)
    catalog = finish_catalog (&self, error);
  g_clear_pointer (&self.left_out, g_array_unref);
  return catalog;
}

DryCatalog *
dry_catalog_load (const char *const *folders, GError **error)
{
  return dry_catalog_load_tolerant (folders, G_MAXUINT, NULL, error);
}

guint
dry_catalog_get_n_left_out (const DryCatalog *self)
{
  return self->n_left_out;
}

const DryLeftOut *
dry_catalog_get_left_out_at (const DryCatalog *self, guint index)
{
  g_return_val_if_fail (index < self->n_left_out, NULL);
  return &self->left_out[index];
}

DryCatalog *
dry_catalog_ref (const DryCatalog *self)
{
  return g_atomic_rc_box_acquire ((DryCatalog *) self);
}

static void
clear_catalog (gpointer data)
{
  dry_arena_unref (((DryCatalog *) data)->arena);
}

void
dry_catalog_unref (DryCatalog *self)
{
  g_atomic_rc_box_release_full (self, clear_catalog);
}

guint
dry_catalog_get_n_systems (const DryCatalog *self)
{
  return self->n_systems;
}

const DrySystem *
dry_catalog_get_system_at (const DryCatalog *self, guint index)
{
  g_return_val_if_fail (index < self->n_systems, NULL);
  return self->systems[index];
}

const DrySystem *
dry_catalog_get_system (const DryCatalog *self, const char *id)
{
  for (guint i = 0; id && i < self->n_systems; i++)
    if (g_str_equal (self->systems[i]->id, id))
      return self->systems[i];
  return NULL;
}

guint
dry_catalog_get_n_items (const DryCatalog *self)
{
  return self->n_items;
}

const DryItem *
dry_catalog_get_item_at (const DryCatalog *self, guint index)
{
  g_return_val_if_fail (index < self->n_items, NULL);
  return self->items[index];
}

const DryItem *
dry_catalog_get_item (const DryCatalog *self, const char *id)
{
  for (guint i = 0; id && i < self->n_items; i++)
    if (g_str_equal (self->items[i]->id, id))
      return self->items[i];
  return NULL;
}

guint
dry_catalog_get_n_rule_packs (const DryCatalog *self)
{
  return self->n_packs;
}

const DryRulePack *
dry_catalog_get_rule_pack_at (const DryCatalog *self, guint index)
{
  g_return_val_if_fail (index < self->n_packs, NULL);
  return &self->packs[index];
}

const DryRulePack *
dry_catalog_get_rule_pack (const DryCatalog *self, const char *id)
{
  for (guint i = 0; id && i < self->n_packs; i++)
    if (g_str_equal (self->packs[i].id, id))
      return &self->packs[i];
  return NULL;
}

guint
dry_catalog_get_n_price_books (const DryCatalog *self)
{
  return self->n_books;
}

const DryPriceBook *
dry_catalog_get_price_book_at (const DryCatalog *self, guint index)
{
  g_return_val_if_fail (index < self->n_books, NULL);
  return self->books[index];
}

const DryPriceBook *
dry_catalog_get_price_book (const DryCatalog *self, const char *id)
{
  for (guint i = 0; i < self->n_books; i++)
    if (id == NULL || g_str_equal (self->books[i]->id, id))
      return self->books[i];
  return NULL;
}
