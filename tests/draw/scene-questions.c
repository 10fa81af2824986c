/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers questions to a scene by walking through its primitives.
 * Draws nothing and knows no plan. */
#include "draw/scene-questions.h"

static gboolean
is_wanted (const DryPrimitive *item, DryWanted wanted)
{
  return item->layer == wanted.layer && item->shows == wanted.shows && item->kind == wanted.kind &&
         (wanted.object == 0 || item->object == wanted.object);
}

const DryPrimitive *
dry_scene_nth (const DryScene *scene, DryWanted wanted, guint nth)
{
  for (guint i = 0; i < scene->n; i++)
    if (is_wanted (&scene->items[i], wanted) && nth-- == 0)
      return &scene->items[i];
  return NULL;
}

guint
dry_scene_count (const DryScene *scene, DryWanted wanted)
{
  guint n = 0;

  for (guint i = 0; i < scene->n; i++)
    n += is_wanted (&scene->items[i], wanted);
  return n;
}

gboolean
dry_scene_says (const DryScene *scene, const char *text)
{
  for (guint i = 0; i < scene->n; i++)
    if (scene->items[i].kind == DRY_PRIMITIVE_TEXT && g_str_equal (scene->items[i].text, text))
      return TRUE;
  return FALSE;
}

DryRect
dry_primitive_bounds (const DryPrimitive *item)
{
  DryRect r = {item->points[0].x, item->points[0].y, item->points[0].x, item->points[0].y};

  for (guint i = 1; i < item->n_points; i++) {
    r.x0 = MIN (r.x0, item->points[i].x);
    r.y0 = MIN (r.y0, item->points[i].y);
    r.x1 = MAX (r.x1, item->points[i].x);
    r.y1 = MAX (r.y1, item->points[i].y);
  }
  return r;
}
