/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Grows a scene: views, lines, shapes, marks and letters, tagged with what they show.
 * Dimension strings and their rows are in scene-rows.c; nothing here knows a wall. */
#include "draw/scene-builder.h"
#include "draw/scene-rows.h"

#include <math.h>

void
dry_scene_builder_init (DrySceneBuilder *self, const DryJob *job)
{
  gboolean metric = job && job->metric;

  *self = (DrySceneBuilder){
      .arena = dry_arena_new (),
      .items = g_array_sized_new (FALSE, TRUE, sizeof (DryPrimitive), 1024),
      .views = g_array_new (FALSE, TRUE, sizeof (DryView)),
      .rows = g_array_new (FALSE, TRUE, sizeof (DryRowStretch)),
      .view = -1,
      .format = {.style = metric ? DRY_LENGTH_MM : DRY_LENGTH_INCHES,
                 .denominator = job && job->denominator > 0 ? job->denominator : 16,
                 .decimal = '.'},
      .metric = metric,
  };
}

DryScene *
dry_scene_builder_finish (DrySceneBuilder *self)
{
  DryScene *scene = dry_arena_alloc (self->arena, sizeof (DryScene));

  if (self->view >= 0)
    dry_scene_builder_end_view (self);
  scene->arena = self->arena;
  scene->n = self->items->len;
  scene->n_views = self->views->len;
  for (guint i = 0; i < self->views->len; i++) {
    DryRect b = g_array_index (self->views, DryView, i).bounds;
    scene->bounds = i == 0 ? b
                           : (DryRect){MIN (scene->bounds.x0, b.x0), MIN (scene->bounds.y0, b.y0),
                                       MAX (scene->bounds.x1, b.x1), MAX (scene->bounds.y1, b.y1)};
  }
  scene->items = dry_arena_take_array (self->arena, self->items);
  scene->views = dry_arena_take_array (self->arena, self->views);
  g_array_unref (self->rows);
  *self = (DrySceneBuilder){.view = -1};
  return scene;
}

void
dry_scene_builder_begin_view (DrySceneBuilder *self, DryViewKind kind, gint face, DryPoint origin,
                              const char *name)
{
  DryView view = {.kind = kind,
                  .face = face,
                  .origin = origin,
                  .bounds = {origin.x, origin.y, origin.x, origin.y},
                  .name = dry_arena_strdup (self->arena, name)};

  if (self->view >= 0)
    dry_scene_builder_end_view (self);
  g_array_append_val (self->views, view);
  self->view = (gint) self->views->len - 1;
  self->origin = origin;
  self->has_extent = FALSE;
  g_array_set_size (self->rows, 0);
}

void
dry_scene_builder_end_view (DrySceneBuilder *self)
{
  if (self->view >= 0 && self->has_extent)
    g_array_index (self->views, DryView, self->view).bounds = self->extent;
  self->view = -1;
  self->origin = (DryPoint){0, 0};
}

void
dry_scene_builder_move_view (DrySceneBuilder *self, guint view, DryLength dx, DryLength dy)
{
  DryView *moved = &g_array_index (self->views, DryView, view);

  moved->origin.x += dx;
  moved->origin.y += dy;
  moved->bounds = (DryRect){moved->bounds.x0 + dx, moved->bounds.y0 + dy, moved->bounds.x1 + dx,
                            moved->bounds.y1 + dy};
  for (guint i = 0; i < self->items->len; i++) {
    DryPrimitive *item = &g_array_index (self->items, DryPrimitive, i);
    if (item->view != (gint) view)
      continue;
    /* The builder allocated these points itself, so it may still move them. */
    DryPoint *points = (DryPoint *) item->points;
    for (guint p = 0; p < item->n_points; p++) {
      points[p].x += dx;
      points[p].y += dy;
    }
  }
}

void
dry_scene_builder_tag (DrySceneBuilder *self, DryLayer layer, DryShows shows, DryId object,
                       gint index)
{
  self->layer = layer;
  self->shows = shows;
  self->object = object;
  self->index = index;
}

static void
extend (DrySceneBuilder *self, DryPoint at, DryLength by)
{
  DryRect b = {at.x - by, at.y - by, at.x + by, at.y + by};

  if (!self->has_extent)
    self->extent = b;
  else
    self->extent = (DryRect){MIN (self->extent.x0, b.x0), MIN (self->extent.y0, b.y0),
                             MAX (self->extent.x1, b.x1), MAX (self->extent.y1, b.y1)};
  self->has_extent = TRUE;
}

DryPrimitive *
dry_scene_builder_add (DrySceneBuilder *self, DryPrimitiveKind kind, DryLook look,
                       const DryPoint *points, guint n)
{
  DryPoint *copy = dry_arena_new_array (self->arena, DryPoint, n);
  gboolean solid = kind == DRY_PRIMITIVE_PATH || kind == DRY_PRIMITIVE_CIRCLE;
  DryPrimitive item = {.kind = kind,
                       .layer = self->layer,
                       .shows = self->shows,
                       .object = self->object,
                       .index = self->index,
                       .view = self->view,
                       .stroke = look.stroke,
                       .fill = look.fill,
                       .pen = look.pen,
                       .dash = look.dash,
                       .hatch = look.hatch,
                       .fill_alpha = look.alpha > 0 ? look.alpha : 1,
                       .points = copy,
                       .n_points = n};

  for (guint i = 0; i < n; i++) {
    copy[i] = (DryPoint){points[i].x + self->origin.x, points[i].y + self->origin.y};
    if (solid)
      extend (self, copy[i], 0);
  }
  g_array_append_val (self->items, item);
  return &g_array_index (self->items, DryPrimitive, self->items->len - 1);
}

void
dry_scene_builder_line (DrySceneBuilder *self, DryLook look, DryPoint a, DryPoint b)
{
  dry_scene_builder_add (self, DRY_PRIMITIVE_PATH, look, (DryPoint[]){a, b}, 2);
}

void
dry_scene_builder_path (DrySceneBuilder *self, DryLook look, const DryPoint *points, guint n,
                        gboolean closed)
{
  if (n < 2)
    return;
  dry_scene_builder_add (self, DRY_PRIMITIVE_PATH, look, points, n)->closed = closed;
}

void
dry_scene_builder_rings (DrySceneBuilder *self, DryLook look, const DryPoint *points, guint n,
                         const guint *ring_ends, guint n_rings, gboolean closed)
{
  DryPrimitive *item;

  if (n < 2)
    return;
  item = dry_scene_builder_add (self, DRY_PRIMITIVE_PATH, look, points, n);
  item->ring_ends = dry_arena_copy (self->arena, ring_ends, sizeof (guint) * n_rings);
  item->n_rings = n_rings;
  item->closed = closed;
}

void
dry_scene_builder_rect (DrySceneBuilder *self, DryLook look, DryRect r)
{
  DryPoint points[4] = {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}};

  dry_scene_builder_path (self, look, points, 4, TRUE);
}

void
dry_scene_builder_polygon (DrySceneBuilder *self, DryLook look, const DryPolygon *polygon)
{
  guint n = polygon->outer.n_points, at = 0;
  g_autofree DryPoint *points = NULL;
  g_autofree guint *ends = NULL;

  for (guint i = 0; i < polygon->n_holes; i++)
    n += polygon->holes[i].n_points;
  points = g_new (DryPoint, MAX (n, 1));
  ends = g_new (guint, polygon->n_holes + 1);
  for (guint i = 0; i <= polygon->n_holes; i++) {
    const DryRing *ring = i == 0 ? &polygon->outer : &polygon->holes[i - 1];
    for (guint p = 0; p < ring->n_points; p++)
      points[at++] = ring->points[p];
    ends[i] = at;
  }
  dry_scene_builder_rings (self, look, points, n, ends, polygon->n_holes + 1, TRUE);
}

void
dry_scene_builder_circle (DrySceneBuilder *self, DryLook look, DryPoint centre, DryLength radius)
{
  DryPrimitive *item = dry_scene_builder_add (self, DRY_PRIMITIVE_CIRCLE, look, &centre, 1);

  item->radius = MAX (radius, 0);
  item->closed = TRUE;
  extend (self, item->points[0], item->radius);
}

void
dry_scene_builder_mark (DrySceneBuilder *self, DryMark mark, DryInk ink, DryPoint at)
{
  dry_scene_builder_add (self, DRY_PRIMITIVE_MARK, DRY_LOOK_LINE (ink, DRY_PEN_025), &at, 1)->mark =
      mark;
}

void
dry_scene_builder_text (DrySceneBuilder *self, DryPoint at, DryLettering how, const char *format,
                        ...)
{
  DryLook look = {.stroke = how.ink ? how.ink : DRY_INK_TEXT,
                  .fill = how.ground ? DRY_INK_PAPER : DRY_INK_NONE,
                  .alpha = 0.85,
                  .pen = how.framed ? DRY_PEN_025 : DRY_PEN_NONE};
  g_autofree char *text = NULL;
  DryPrimitive *item;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  if (!*text)
    return;
  item = dry_scene_builder_add (self, DRY_PRIMITIVE_TEXT, look, &at, 1);
  item->text = dry_arena_strdup (self->arena, text);
  item->size = how.size > 0 ? how.size : 2.5;
  item->anchor = how.anchor;
  item->room = how.room;
  item->angle = how.angle;
  item->bold = how.bold;
}

char *
dry_scene_builder_write (DrySceneBuilder *self, DryLength length)
{
  g_autofree char *text = dry_length_format (length, &self->format);
  const char *slash = strchr (text, '/');
  char *space = slash ? strchr (text, ' ') : NULL;

  /* A wider gap before the fraction: in small letters 31 7/8 must not read as 317/8. */
  if (!space || space > slash)
    return g_steal_pointer (&text);
  *space = '\0';
  return g_strconcat (text, "\u2004", space + 1, NULL);
}

const char *
dry_scene_builder_length (DrySceneBuilder *self, DryLength length)
{
  g_autofree char *text = dry_scene_builder_write (self, length);

  return dry_arena_strdup (self->arena, text);
}

const char *
dry_scene_builder_size (DrySceneBuilder *self, DryLength width, DryLength height)
{
  g_autofree char *w = dry_scene_builder_write (self, width);
  g_autofree char *h = dry_scene_builder_write (self, height);

  if (self->metric && g_str_has_suffix (w, " mm"))
    w[strlen (w) - 3] = '\0';
  return dry_arena_printf (self->arena, "%s × %s", w, h);
}

guint
dry_points_arc (DryPoint *out, DryPoint centre, double rx, double ry, double from, double to,
                guint n)
{
  for (guint i = 0; i < n; i++) {
    double a = (from + (to - from) * i / (n > 1 ? n - 1 : 1)) * G_PI / 180.0;
    out[i] = (DryPoint){centre.x + llround (rx * cos (a)), centre.y + llround (ry * sin (a))};
  }
  return n;
}

guint
dry_points_round_rect (DryPoint *out, DryRect r, DryLength radius)
{
  DryLength most = MIN (dry_rect_width (r), dry_rect_height (r)) / 2;
  double q = (double) CLAMP (radius, 0, MAX (most, 0));
  DryLength d = (DryLength) q;
  guint n = 0;

  n += dry_points_arc (out + n, (DryPoint){r.x1 - d, r.y0 + d}, q, q, -90, 0, DRY_CURVE_POINTS);
  n += dry_points_arc (out + n, (DryPoint){r.x1 - d, r.y1 - d}, q, q, 0, 90, DRY_CURVE_POINTS);
  n += dry_points_arc (out + n, (DryPoint){r.x0 + d, r.y1 - d}, q, q, 90, 180, DRY_CURVE_POINTS);
  n += dry_points_arc (out + n, (DryPoint){r.x0 + d, r.y0 + d}, q, q, 180, 270, DRY_CURVE_POINTS);
  return n;
}

DryPoint
dry_rect_centre (DryRect r)
{
  return (DryPoint){r.x0 + (r.x1 - r.x0) / 2, r.y0 + (r.y1 - r.y0) / 2};
}
