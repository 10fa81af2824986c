/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The catalogue: systems, items and rule packs read from one or more folders, later ones overriding
 * by id. Immutable and reference-counted; knows nothing of rooms or plans. */
#pragma once

#include "catalog/item.h"
#include "catalog/price-book.h"
#include "catalog/rule.h"
#include "catalog/system.h"

typedef struct _DryCatalog DryCatalog;

/* Reads `folders` (NULL-ended) in order, each with the sub-folders systems/, items/, rules/ and
 * prices/ (any may be missing) of *.json files in name order, or one file with a rule pack. Errors
 * name file, path and reason; one bad file fails the load. */
DryCatalog *dry_catalog_load (const char *const *folders, GError **error);

/* A rule pack that could not be used: its file, and what is wrong where in it, without the file's
 * name. Both as shown to people, owned by the catalogue. */
typedef struct {
  const char *file, *reason;
} DryLeftOut;

/* Whether a joined pack can be used, for what the catalogue itself cannot know; an error names file
 * and reason. */
typedef gboolean (*DryRulePackCheck) (const DryRulePack *pack, GError **error);

/* As dry_catalog_load(), but a bad rule pack in a folder after the first `n_strict` ones is left
 * out, with the packs that extend it, and listed; a pack whose place it had taken stands again.
 * Anything else that is bad is an error as there. `check` (or NULL) is asked about every pack. */
DryCatalog *dry_catalog_load_tolerant (const char *const *folders, guint n_strict,
                                       DryRulePackCheck check, GError **error);
guint dry_catalog_get_n_left_out (const DryCatalog *self);
const DryLeftOut *dry_catalog_get_left_out_at (const DryCatalog *self, guint index);

/* The shipped data (installed, or the source tree when run from the build; DRYBAY_DATA overrides),
 * then the firm's own folder (XDG data home/drybay/catalog) when it exists. `source_folder` is what
 * meson passes. */
DryCatalog *dry_catalog_load_default (GError **error);
/* The folder of the shipped data, found by the same rule; it also holds demo/. Free with g_free().
 */
char *dry_catalog_dup_data_folder (void);
/* The folders dry_catalog_load_default() reads, in order, NULL-ended. Free with g_strfreev(). */
char **dry_catalog_dup_default_folders (void);
DryCatalog *dry_catalog_ref (const DryCatalog *self);
void dry_catalog_unref (DryCatalog *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryCatalog, dry_catalog_unref)

guint dry_catalog_get_n_systems (const DryCatalog *self);
const DrySystem *dry_catalog_get_system_at (const DryCatalog *self, guint index);
const DrySystem *dry_catalog_get_system (const DryCatalog *self, const char *id); /* NULL */
guint dry_catalog_get_n_items (const DryCatalog *self);
const DryItem *dry_catalog_get_item_at (const DryCatalog *self, guint index);
const DryItem *dry_catalog_get_item (const DryCatalog *self, const char *id); /* NULL */
guint dry_catalog_get_n_rule_packs (const DryCatalog *self);
const DryRulePack *dry_catalog_get_rule_pack_at (const DryCatalog *self, guint index);
const DryRulePack *dry_catalog_get_rule_pack (const DryCatalog *self, const char *id); /* NULL */

guint dry_catalog_get_n_price_books (const DryCatalog *self);
const DryPriceBook *dry_catalog_get_price_book_at (const DryCatalog *self, guint index);
/* NULL when not there; with `id` NULL the first. */
const DryPriceBook *dry_catalog_get_price_book (const DryCatalog *self, const char *id);
