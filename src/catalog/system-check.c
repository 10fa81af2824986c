/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks a system's values against each other, so that stages need not doubt them.
 * It judges consistency only; whether a figure is good practice is for rules and tests. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/system-read.h"

#define ANY_USE (-1)

static const char *const USE_NAMES[] = {"each", "length", "volume", "area"};

/* `at` names product `id`, which must be there and reckoned as `use`. */
static void
check_product (DryJson at, const DrySystem *self, const char *id, gint use)
{
  const DryProduct *product = dry_system_get_product (self, id);

  if (!id)
    return;
  if (!product)
    dry_json_fail (at, DRY_ERROR_REFERENCE, "the system lists no product “%s”", id);
  else if (use != ANY_USE && product->use != (DryUse) use)
    dry_json_fail (at, DRY_ERROR_SCHEMA, "product “%s” is used by “%s”; this needs “%s”", id,
                   USE_NAMES[product->use], USE_NAMES[use]);
}

/* Fails on the first id that an earlier entry of the list has. `stride` steps over the structs,
 * whose first member is the id. */
static void
check_unique (DryJson array, gconstpointer first, gsize stride, guint n)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n; i++) {
    const char *id = *(const char *const *) ((const char *) first + i * stride);
    if (!g_hash_table_add (seen, (gpointer) id))
      dry_json_fail (dry_json_get (dry_json_item (array, i), "id"), DRY_ERROR_SCHEMA,
                     "“%s” is already in this list", id);
  }
}

static void
check_lists (DryJson root, const DrySystem *self)
{
  DryJson board = dry_json_get (root, "board");

  check_unique (dry_json_get (board, "sheets"), self->sheets, sizeof *self->sheets, self->n_sheets);
  check_unique (dry_json_get (root, "products"), self->products, sizeof *self->products,
                self->n_products);
  check_unique (dry_json_get (root, "waits"), self->waits, sizeof *self->waits, self->n_waits);
}

static void
check_fastening (DryJson object, const DrySystem *self)
{
  DryJson cover = dry_json_opt (object, "cover");

  check_product (dry_json_get (object, "fastener"), self, self->fastener, DRY_USE_EACH);
  check_product (dry_json_opt (object, "washer"), self, self->washer, DRY_USE_EACH);
  if (self->washer && self->washer_diameter <= 0)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "a washer needs “washer_diameter_mm”");
  if (self->edge_distance_min.value > self->edge_distance.value)
    dry_json_fail (dry_json_get (object, "edge_distance_min"), DRY_ERROR_SCHEMA,
                   "is more than “edge_distance”");
  if (self->edge_distance_max.value < self->edge_distance.value)
    dry_json_fail (dry_json_get (object, "edge_distance_max"), DRY_ERROR_SCHEMA,
                   "is less than “edge_distance”");
  if (!self->cover_fasteners)
    return;
  check_product (dry_json_opt (cover, "product"), self, self->cover_product, ANY_USE);
  if (self->cover_per_fastener > 0 && !self->cover_product)
    dry_json_fail (cover, DRY_ERROR_SCHEMA, "“per_fastener” needs a “product”");
}

static void
check_fill (DryJson object, const DrySystem *self, const char *id)
{
  const DryProduct *product = dry_system_get_product (self, id);

  check_product (dry_json_opt (object, "fill"), self, id, ANY_USE);
  if (product && product->use != DRY_USE_LENGTH && product->use != DRY_USE_VOLUME)
    dry_json_fail (dry_json_opt (object, "fill"), DRY_ERROR_SCHEMA,
                   "product “%s” is used by “%s”; a fill needs “length” or “volume”", id,
                   USE_NAMES[product->use]);
}

static void
check_treatments (DryJson object, const DrySystem *self)
{
  static const gint USES[] = {
      [DRY_TREAT_NONE] = ANY_USE,          [DRY_TREAT_BAND] = DRY_USE_LENGTH,
      [DRY_TREAT_MESH] = DRY_USE_LENGTH,   [DRY_TREAT_BEAD] = DRY_USE_VOLUME,
      [DRY_TREAT_FILLER] = DRY_USE_LENGTH, [DRY_TREAT_GASKET] = DRY_USE_EACH,
  };

  for (guint kind = 0; kind < DRY_N_JOINT_KINDS; kind++) {
    const DryTreatment *t = &self->treatments[kind];
    DryJson member = dry_json_get (object, dry_joint_kind_to_text ((DryJointKind) kind));
    check_product (dry_json_opt (member, "product"), self, t->product, USES[t->kind]);
    check_product (dry_json_opt (member, "bedding"), self, t->bedding, DRY_USE_AREA);
    check_fill (member, self, t->fill);
  }
}

static void
check_membrane (DryJson object, const DrySystem *self)
{
  check_product (dry_json_opt (object, "product"), self, self->membrane_product, DRY_USE_AREA);
  check_product (dry_json_opt (object, "mortar"), self, self->mortar_product, DRY_USE_AREA);
  if (self->membrane == DRY_MEMBRANE_NONE) {
    if (self->needs_membrane)
      dry_json_fail (dry_json_get (object, "needed"), DRY_ERROR_SCHEMA,
                     "a board that needs a membrane cannot have the kind “none”");
    if (self->membrane_product || self->mortar_product || self->coats > 0)
      dry_json_fail (object, DRY_ERROR_SCHEMA, "“none” takes no product, mortar or coats");
    return;
  }
  if (!self->membrane_product)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "a membrane needs a “product”");
  if (self->membrane == DRY_MEMBRANE_LIQUID &&
      (self->coats == 0 || self->wet_film.value <= 0 || self->dry_film.value <= 0))
    dry_json_fail (object, DRY_ERROR_SCHEMA,
                   "a liquid membrane needs “coats”, “wet_film” and “dry_film”");
  if (self->membrane == DRY_MEMBRANE_LIQUID &&
      self->dry_film.value > self->wet_film.value * self->coats)
    dry_json_fail (dry_json_get (object, "dry_film"), DRY_ERROR_SCHEMA,
                   "is thicker than all wet coats together");
  if (self->membrane == DRY_MEMBRANE_SHEET && !self->mortar_product)
    dry_json_fail (object, DRY_ERROR_SCHEMA, "a sheet membrane needs its “mortar”");
}

void
dry_system_check (DryJson root, const DrySystem *self)
{
  check_lists (root, self);
  check_fastening (dry_json_get (root, "fastening"), self);
  check_treatments (dry_json_get (root, "treatments"), self);
  check_membrane (dry_json_get (root, "membrane"), self);
}
