/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The take-off counts by group and product, the drawing says what each primitive shows and its
 * number in the plan: here the two meet. Computes no quantity itself. */
#include "draw/counted.h"

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
  const DryCutting *cutting = plan->boards->cutting;
  guint sheet;

  if (index < 0 || (guint) index >= plan->boards->n)
    return FALSE;
  /* Pieces carry the boards' names. */
  sheet = dry_cutting_find_sheet (cutting, plan->boards->items[index].mark);
  return sheet > 0 && g_str_equal (cutting->stock[cutting->sheets[sheet - 1].stock].id, id);
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
