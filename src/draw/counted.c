/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The take-off counts by group and product, the drawing says what each primitive shows and its
 * number in the plan: here the two meet. Computes no quantity itself. */
#include "draw/counted.h"

/* The sheet a board is cut from, or NULL. Pieces carry the boards' names. */
static const DryStock *
find_stock (const DryPlan *plan, guint board)
{
  const DryCutting *cutting = plan->boards->cutting;
  const char *name = plan->boards->items[board].mark;

  for (guint s = 0; cutting != NULL && s < cutting->n_sheets; s++)
    for (guint i = 0; i < cutting->sheets[s].n_placements; i++) {
      guint piece = cutting->sheets[s].placements[i].piece;

      if (g_strcmp0 (cutting->pieces[piece].name, name) == 0)
        return &cutting->stock[cutting->sheets[s].stock];
    }
  return NULL;
}

static gboolean
is_added (const DryPlan *plan, gint index)
{
  if (index < 0)
    return FALSE;
  /* Behind the members of the framing come the blocks the boards asked for. */
  return (guint) index >= plan->framing->n || plan->framing->items[index].added;
}

static gboolean
counts_board (const DryPlan *plan, const char *id, gint index)
{
  const DryStock *stock;

  if (index < 0 || (guint) index >= plan->boards->n)
    return FALSE;
  stock = find_stock (plan, (guint) index);
  return stock != NULL && g_str_equal (stock->id, id);
}

static gboolean
counts_fastener (const DryPlan *plan, const char *id, gint index)
{
  const DrySystem *system = plan->context.system;

  if (index < 0 || (guint) index >= plan->fasteners->n)
    return FALSE;
  /* A screw goes through every washer. */
  return g_strcmp0 (id, system->washer) != 0 || plan->fasteners->items[index].washer;
}

gboolean
dry_counted (const DryPlan *plan, const char *group, const char *id, const DryPrimitive *item)
{
  gboolean shape = item->kind == DRY_PRIMITIVE_PATH || item->kind == DRY_PRIMITIVE_CIRCLE;

  if (item->kind == DRY_PRIMITIVE_TEXT || item->kind == DRY_PRIMITIVE_DIMENSION)
    return FALSE;
  if (g_str_equal (group, "sheets") || g_str_equal (group, "on-hand"))
    return shape && item->shows == DRY_SHOWS_BOARD && counts_board (plan, id, item->index);
  if (g_str_equal (group, "fasteners"))
    return item->shows == DRY_SHOWS_FASTENER && counts_fastener (plan, id, item->index);
  if (g_str_equal (group, "joints"))
    return item->shows == DRY_SHOWS_JOINT;
  if (g_str_equal (group, "framing"))
    return shape && item->shows == DRY_SHOWS_MEMBER && is_added (plan, item->index);
  if (g_str_equal (group, "membrane"))
    return shape && item->layer == DRY_LAYER_COATING;
  if (g_str_equal (group, "tile"))
    return shape && item->layer == DRY_LAYER_TILE;
  if (g_str_equal (group, "floor"))
    return shape && item->shows == DRY_SHOWS_BASIN;
  return FALSE;
}

guint
dry_counted_in (const DryPlan *plan, const char *group, const char *id, const DryScene *scene)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    n += dry_counted (plan, group, id, &scene->items[i]);
  return n;
}
