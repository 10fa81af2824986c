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
};

/* One thing read, and where from: the same id again in the same folder is a mistake, in a later
 * folder it is the firm's own version. */
typedef struct {
  const char *id, *file;
  guint folder;
  gconstpointer value;
} Entry;

typedef struct {
  DryArena *arena;
  guint folder;
  const char *file;                        /* being read */
  GArray *systems, *items, *packs, *books; /* of Entry */
} Loader;

static void
add_entry (Loader *self, GArray *entries, const char *id, gconstpointer value, DryJson at)
{
  Entry entry = {id, self->file, self->folder, value};

  for (guint i = 0; i < entries->len; i++) {
    Entry *other = &g_array_index (entries, Entry, i);
    if (!g_str_equal (other->id, id))
      continue;
    if (other->folder == self->folder)
      dry_json_fail (at, DRY_ERROR_SCHEMA, "“%s” is already in %s", id, other->file);
    else
      *other = entry;
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

static gboolean
load_folder (Loader *self, const char *folder, GError **error)
{
  static const struct {
    const char *name;
    void (*add) (Loader *, DryJson);
  } PARTS[] = {
      {"systems", add_system}, {"items", add_items}, {"rules", add_rules}, {"prices", add_prices}};

  for (guint part = 0; part < G_N_ELEMENTS (PARTS); part++) {
    g_autoptr (GPtrArray) files = dry_catalog_list_files (folder, PARTS[part].name, error);
    if (!files)
      return FALSE;
    for (guint i = 0; i < files->len; i++)
      if (!load_file (self, g_ptr_array_index (files, i), PARTS[part].add, error))
        return FALSE;
  }
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

static DryCatalog *
finish_catalog (Loader *self, GError **error)
{
  const DryRawPack *const *raw = take_values (self, self->packs);
  const DryRulePack *packs = dry_rule_packs_resolve (raw, self->packs->len, self->arena, error);
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
  return catalog;
}

DryCatalog *
dry_catalog_load (const char *const *folders, GError **error)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (GArray) systems = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_autoptr (GArray) packs = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_autoptr (GArray) books = g_array_new (FALSE, FALSE, sizeof (Entry));
  Loader self = {
      .arena = arena, .systems = systems, .items = items, .packs = packs, .books = books};

  for (; folders[self.folder]; self.folder++) {
    const char *folder = folders[self.folder];
    gboolean pack =
        g_file_test (folder, G_FILE_TEST_EXISTS) && !g_file_test (folder, G_FILE_TEST_IS_DIR);

    if (!(pack ? load_file (&self, folder, add_rules, error) : load_folder (&self, folder, error)))
      return NULL;
  }
  return finish_catalog (&self, error);
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
