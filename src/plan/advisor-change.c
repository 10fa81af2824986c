/* SPDX-License-Identifier: GPL-3.0-or-later */
/* "What would make it fit?": the smallest changes of place, size, depth or kind after which nothing
 * hard is broken, or less is paid. Each is tried by the same judging that found the fault. */
#include <math.h>
#include <string.h>

#include "plan/advisor-private.h"
#include "plan/faces-private.h"
#include "project/edit.h"

typedef struct {
  const DryAdvice *advice;
  DryArena *arena;
  DryPlanContext context; /* texts in the arena */
  DryAdvicePlace now;
  GArray *changes;
} Changing;

#define SAY(...) dry_arena_printf (self->arena, __VA_ARGS__)

static const char *
text_of (const Changing *self, DryLength length)
{
  return dry_context_length (&self->context, length);
}

static gboolean
helps (const Changing *self, const DryAdvicePlace *place)
{
  if (!place->legal)
    return FALSE;
  return !self->now.legal || place->points < self->now.points - 1e-9;
}

static void
add_change (Changing *self, const char *id, const char *text, double size, DryAdvicePlace place)
{
  DryAdviceChange change = {.id = id, .text = text, .size = size, .place = place};

  if (helps (self, &place))
    g_array_append_val (self->changes, change);
}

/* --- places --- */

static DryPoint
nearest_in (DryRect band, DryPoint from)
{
  return (DryPoint){CLAMP (from.x, band.x0, band.x1), CLAMP (from.y, band.y0, band.y1)};
}

static gboolean
nearest_of (const DryRect *bands, guint n, DryPoint from, DryPoint *out)
{
  double best = -1;

  for (guint i = 0; i < n; i++) {
    DryPoint at = nearest_in (bands[i], from);
    double away = hypot ((double) (at.x - from.x), (double) (at.y - from.y));
    if (best < 0 || away < best) {
      best = away;
      *out = at;
    }
  }
  return best >= 0;
}

static const char *
say_move (const Changing *self, DryPoint from, DryPoint to)
{
  DryLength du = to.x - from.x, dz = to.y - from.y;
  const char *aside =
      du ? SAY ("%s to the %s", text_of (self, ABS (du)), du < 0 ? "left" : "right") : "";
  const char *up = dz ? SAY ("%s %s", text_of (self, ABS (dz)), dz < 0 ? "down" : "up") : "";

  return SAY ("Move it %s%s%s", aside, *aside && *up ? " and " : "", up);
}

static void
try_move (Changing *self, const DryAdvice *advice, const char *before, double extra)
{
  const DryAdviceFace *face = dry_advice_get_face (advice, self->now.wall, self->now.side);
  DryPoint from = {self->now.u, self->now.z}, to = from;

  if (!face)
    return;
  for (guint pass = 0; pass < 2; pass++) {
    const DryRect *bands = pass ? face->best : face->legal;
    guint n = pass ? face->n_best : face->n_legal;
    const char *move;
    double inches;
    if (!nearest_of (bands, n, from, &to) || (to.x == from.x && to.y == from.y && !extra))
      continue;
    inches = hypot (dry_length_to_inches (to.x - from.x), dry_length_to_inches (to.y - from.y));
    move = inches > 0 ? say_move (self, from, to) : "";
    add_change (self, extra > 0 ? "size" : "move",
                SAY ("%s%s%s", before, *before && *move ? "; " : "", move), inches + extra,
                dry_advice_judge (advice, self->arena, face->wall, face->side, to));
  }
}

/* The best place of every other wall; as far as any move on its own. */
static void
try_walls (Changing *self)
{
  guint n = 0;
  const DryAdvicePlace *best =
      dry_advice_find_best (self->advice, self->arena, (DryAdviceFreedom){0}, 24, &n);

  for (guint f = 0; f < self->advice->n_faces; f++) {
    const DryAdviceFace *face = &self->advice->faces[f];
    if (face->wall == self->now.wall && face->side == self->now.side)
      continue;
    for (guint i = 0; i < n; i++)
      if (best[i].wall == face->wall && best[i].side == face->side) {
        add_change (self, "wall",
                    SAY ("Put it in the %s, %s from its left end, %s high", face->name,
                         text_of (self, best[i].u), text_of (self, best[i].z)),
                    60 + best[i].points, best[i]);
        break;
      }
  }
}

/* --- sizes --- */

static gboolean
try_size (Changing *self, const DryPart *part, const char *id, const char *text, double size)
{
  g_autoptr (DryAdvice) advice = dry_advice_for_part (self->advice->site, part, NULL);
  DryAdvicePlace place;

  place = dry_advice_judge (advice, self->arena, self->now.wall, self->now.side,
                            (DryPoint){self->now.u, self->now.z});
  if (part->item && g_strcmp0 (part->item, self->advice->part->item) != 0)
    place.item = dry_arena_strdup (self->arena, part->item);
  if (!helps (self, &place))
    return FALSE;
  add_change (self, id, text, size, place);
  return TRUE;
}

static gboolean
fits_as (const Changing *self, const DryPart *part)
{
  g_autoptr (DryAdvice) advice = dry_advice_for_part (self->advice->site, part, NULL);
  const DryAdviceFace *face = dry_advice_get_face (advice, self->now.wall, self->now.side);

  return face &&
         dry_advice_in_bands (face->legal, face->n_legal, (DryPoint){self->now.u, self->now.z});
}

/* The least taken off width or height, in sixteenths, with which it stands where it is. What is
 * hard for a larger one is hard for a smaller one only less, so halving finds it. */
static void
try_smaller (Changing *self, gboolean high)
{
  DryLength step = DRY_INCH / 16;
  DryLength own = high ? self->advice->part->height : self->advice->part->width;
  gint64 lo = 0, hi = (own - 4 * DRY_INCH) / step;
  DryPart part = *self->advice->part;
  DryLength *size = high ? &part.height : &part.width;

  if (part.body_width > 0 || self->now.legal || hi <= 0)
    return;
  *size = own - hi * step;
  if (!fits_as (self, &part))
    return;
  while (hi - lo > 1) {
    gint64 middle = (lo + hi) / 2;
    *size = own - middle * step;
    if (fits_as (self, &part))
      hi = middle;
    else
      lo = middle;
  }
  *size = own - hi * step;
  try_size (self, &part, high ? "height" : "width",
            SAY ("Make it %s %s: %s %s", text_of (self, own - *size), high ? "lower" : "narrower",
                 text_of (self, *size), high ? "high" : "wide"),
            dry_length_to_inches (own - *size));
}

/* A site-built niche can be made shallower; less than the usual 3-1/2 in still takes a bottle. */
static void
try_shallower (Changing *self)
{
  const DryWall *wall = dry_room_get_wall (self->context.room, self->now.wall);
  DryPart part = *self->advice->part;
  DryLength cavity, limits[2];

  if (!wall || part.body_width > 0)
    return;
  cavity = dry_wall_depth (wall);
  limits[0] = cavity;
  limits[1] = cavity - DRY_INCH;
  for (guint i = 0; i < 2; i++) {
    part.depth = limits[i];
    if (part.depth >= self->advice->part->depth || part.depth < 2 * DRY_INCH)
      continue;
    if (try_size (self, &part, "depth",
                  SAY ("Make it %s shallower: %s deep",
                       text_of (self, self->advice->part->depth - part.depth),
                       text_of (self, part.depth)),
                  dry_length_to_inches (self->advice->part->depth - part.depth)))
      return;
  }
}

static void
try_taller (Changing *self)
{
  DryLength bottle = self->advice->site->options.tallest_bottle;
  DryPart part = *self->advice->part;

  if (part.body_width > 0)
    return;
  part.height = bottle > 0 ? bottle + DRY_INCH : 12 * DRY_INCH;
  if (part.height > self->advice->part->height)
    try_size (self, &part, "height",
              SAY ("Make it %s taller: %s high",
                   text_of (self, part.height - self->advice->part->height),
                   text_of (self, part.height)),
              dry_length_to_inches (part.height - self->advice->part->height));
}

static gboolean
fits_anywhere (const Changing *self, const DryPart *part)
{
  g_autoptr (DryAdvice) advice = dry_advice_for_part (self->advice->site, part, NULL);
  const DryAdviceFace *face = dry_advice_get_face (advice, self->now.wall, self->now.side);

  return face && face->n_legal > 0;
}

/* The widest that stands anywhere on its wall, in sixteenths; 0 when none does. */
static DryLength
find_widest (const Changing *self, DryPart part)
{
  DryLength step = DRY_INCH / 16, own = part.width;
  gint64 lo = -1, hi = (own - 4 * DRY_INCH) / step;

  part.width = own - MAX (hi, 0) * step;
  if (hi < 0 || !fits_anywhere (self, &part))
    return 0;
  while (hi - lo > 1) {
    gint64 middle = (lo + hi) / 2;
    part.width = own - middle * step;
    if (fits_anywhere (self, &part))
      hi = middle;
    else
      lo = middle;
  }
  return own - hi * step;
}

/* Where no single change helps: narrower, shallower and moved together, on the wall it is wished
 * on. */
static void
try_together (Changing *self)
{
  const DryWall *wall = dry_room_get_wall (self->context.room, self->now.wall);
  DryLength own_width = self->advice->part->width, own_depth = self->advice->part->depth;
  DryLength depths[3] = {own_depth}, cavity;

  if (!wall || self->advice->part->body_width > 0 || self->now.legal)
    return;
  cavity = dry_wall_depth (wall);
  depths[1] = cavity;
  depths[2] = cavity - DRY_INCH;
  for (guint i = 0; i < 3; i++) {
    DryPart part = *self->advice->part;
    g_autoptr (DryAdvice) advice = NULL;
    const char *narrower = "", *shallower = "";
    part.depth = depths[i];
    if ((i > 0 && part.depth >= own_depth) || part.depth < 2 * DRY_INCH)
      continue;
    part.width = find_widest (self, part);
    if (part.width == 0 || (part.width == own_width && part.depth == own_depth))
      continue;
    if (part.width < own_width)
      narrower = SAY ("Make it %s narrower, %s wide", text_of (self, own_width - part.width),
                      text_of (self, part.width));
    if (part.depth < own_depth)
      shallower = SAY ("%s %s shallower, %s deep", *narrower ? ", and" : "Make it",
                       text_of (self, own_depth - part.depth), text_of (self, part.depth));
    advice = dry_advice_for_part (self->advice->site, &part, NULL);
    try_move (self, advice, SAY ("%s%s", narrower, shallower),
              dry_length_to_inches (own_width - part.width + own_depth - part.depth));
    return;
  }
}

/* Another niche off the shelf, where it stands or moved a little. */
static void
try_items (Changing *self)
{
  const DryCatalog *catalog = self->advice->site->catalog;

  for (guint i = 0; self->advice->part->body_width > 0 && i < dry_catalog_get_n_items (catalog);
       i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    DryPart part = *self->advice->part;
    double inches;
    if (item->kind != DRY_ITEM_PART || item->part.kind != DRY_PART_NICHE ||
        item->part.body_width <= 0 || g_strcmp0 (item->id, part.item) == 0 ||
        (item->part.width == part.width && item->part.height == part.height))
      continue;
    inches = fabs (dry_length_to_inches (item->part.width - part.width)) +
             fabs (dry_length_to_inches (item->part.height - part.height));
    part.item = (char *) item->id;
    part.width = item->part.width;
    part.height = item->part.height;
    part.depth = item->part.depth;
    part.body_width = item->part.body_width;
    part.body_height = item->part.body_height;
    part.flange = item->part.flange;
    try_size (self, &part, "item", SAY ("Take “%s” instead", item->name), inches);
  }
}

/* --- tile --- */

/* Where it stands, with the tile moved, or with other joints. */
static void
try_tile (Changing *self)
{
  const DryAdvice *advice = self->advice;
  const DryAdviceFace *face = dry_advice_get_face (advice, self->now.wall, self->now.side);
  const DryFace *plan_face = face ? &advice->site->plan->faces->items[face->face] : NULL;
  DryRect finish = dry_advice_finish (advice, (DryPoint){self->now.u, self->now.z});
  DryLength tolerance = advice->site->options.joint_tolerance, joints[16];
  DryPoint at = {self->now.u, self->now.z};
  DryAdviceAxis across, up;
  guint n = dry_advice_joints (advice->site, TRUE, joints);

  for (guint i = 0; face && i < n; i++) {
    DryLength joint = i ? joints[i] : 0;
    DryPoint shift = {0, 0};
    if (i > 0)
      add_change (
          self, "joint", SAY ("Make the joints %s wide", text_of (self, joint)),
          dry_length_to_inches (ABS (joint - joints[0])),
          dry_advice_judge_layout (advice, self->arena, face->wall, face->side, at, joint, shift));
    if (!dry_advice_axis (advice->site, plan_face, joint, FALSE, &across) ||
        !dry_advice_axis (advice->site, plan_face, joint, TRUE, &up))
      continue;
    dry_advice_axis_best (&across, finish.x0, finish.x1, tolerance, &shift.x);
    dry_advice_axis_best (&up, finish.y0, finish.y1, tolerance, &shift.y);
    if (i == 0 && (shift.x || shift.y))
      add_change (
          self, "datum",
          SAY ("Lay the tile for it: %s%s%s%s", shift.x ? text_of (self, ABS (shift.x)) : "",
               shift.x ? (shift.x < 0 ? " to the left" : " to the right") : "",
               shift.x && shift.y ? ", " : "",
               shift.y ? SAY ("%s %s", text_of (self, ABS (shift.y)), shift.y < 0 ? "down" : "up")
                       : ""),
          hypot (dry_length_to_inches (shift.x), dry_length_to_inches (shift.y)),
          dry_advice_judge_layout (advice, self->arena, face->wall, face->side, at, 0, shift));
  }
}

/* A site-built niche as wide, or as high, as whole tiles reach from one of its edges. */
static void
try_module (Changing *self, gboolean high)
{
  const DryAdviceFace *face = dry_advice_get_face (self->advice, self->now.wall, self->now.side);
  DryRect finish = dry_advice_finish (self->advice, (DryPoint){self->now.u, self->now.z});
  DryLength own = high ? self->advice->part->height : self->advice->part->width;
  DryLength tolerance = self->advice->site->options.joint_tolerance;
  guint n = face ? (high ? face->lines.n_level : face->lines.n_upright) : 0;
  DryPart part = *self->advice->part;

  for (guint i = 0; i < n && part.body_width <= 0; i++) {
    DryLength line = high ? face->lines.level[i] : face->lines.upright[i];
    DryLength low = high ? finish.y0 : finish.x0, size = line - low;
    g_autoptr (DryAdvice) advice = NULL;
    if (size < 6 * DRY_INCH || ABS (size - own) > 6 * DRY_INCH || ABS (size - own) <= tolerance)
      continue;
    part = *self->advice->part;
    if (high)
      part.height = size;
    else
      part.width = size;
    advice = dry_advice_for_part (self->advice->site, &part, NULL);
    /* Its low edge stays. */
    add_change (self, high ? "height" : "width",
                SAY ("Make it %s %s to a joint: %s %s", text_of (self, ABS (size - own)),
                     high ? (size > own ? "taller" : "lower") : (size > own ? "wider" : "narrower"),
                     text_of (self, size), high ? "high" : "wide"),
                dry_length_to_inches (ABS (size - own)),
                dry_advice_judge (advice, self->arena, face->wall, face->side,
                                  (DryPoint){high ? self->now.u : low + size / 2, self->now.z}));
  }
}

/* Another tile of the catalogue, laid as the tile stage would. Its thickness counts, too. */
static void
try_tiles (Changing *self)
{
  const DryAdviceSite *site = self->advice->site;
  const DryCatalog *catalog = site->catalog;
  DryId room = site->plan->context.room->id;
  const DryFinish *now = &site->plan->context.room->finish;

  for (guint i = 0; i < dry_catalog_get_n_items (catalog); i++) {
    const DryItem *item = dry_catalog_get_item_at (catalog, i);
    g_autoptr (DryProject) project = NULL;
    g_autoptr (DryAdvice) advice = NULL;
    DryFinish finish;
    DryAdvicePlace place;
    if (item->kind != DRY_ITEM_TILE || g_strcmp0 (item->id, now->tile) == 0)
      continue;
    finish = dry_item_lay_tile (item, now);
    finish.tiled = now->tiled;
    project = dry_edit_set_finish (site->plan->project, room, &finish, NULL);
    if (!project)
      continue;
    advice =
        dry_advice_new (project, room, self->advice->part, catalog, &site->options, NULL, NULL);
    if (!advice)
      continue;
    place = dry_advice_judge (advice, self->arena, self->now.wall, self->now.side,
                              (DryPoint){self->now.u, self->now.z});
    place.tile = dry_arena_strdup (self->arena, item->id);
    add_change (self, "tile", SAY ("Take “%s” instead", item->name),
                30 + dry_length_to_inches (ABS (item->tile_width - now->tile_width) +
                                           ABS (item->tile_height - now->tile_height)),
                place);
  }
}

static gboolean
joints_are_off (const Changing *self)
{
  for (guint i = 0; i < self->now.n_reasons; i++)
    if (self->now.reasons[i].kind == DRY_ADVICE_JOINTS)
      return !self->now.reasons[i].holds;
  return FALSE;
}

static gboolean
has_own_wall (const Changing *self)
{
  for (guint i = 0; i < self->changes->len; i++)
    if (g_array_index (self->changes, DryAdviceChange, i).place.wall == self->now.wall)
      return TRUE;
  return FALSE;
}

static gint
compare_changes (gconstpointer a, gconstpointer b)
{
  const DryAdviceChange *x = a, *y = b;

  if (x->size != y->size)
    return x->size < y->size ? -1 : 1;
  if (x->place.points != y->place.points)
    return x->place.points < y->place.points ? -1 : 1;
  return strcmp (x->text, y->text);
}

const DryAdviceChange *
dry_advice_find_changes (const DryAdvice *advice, DryArena *arena, guint *n)
{
  Changing changing = {.advice = advice, .arena = arena, .context = advice->site->plan->context};
  Changing *self = &changing;

  changing.context.arena = arena;
  changing.changes = g_array_new (FALSE, FALSE, sizeof (DryAdviceChange));
  changing.now = dry_advice_judge (advice, arena, advice->part->wall, advice->part->side,
                                   (DryPoint){advice->part->u, advice->part->z});
  if (!changing.now.legal || changing.now.points > 0) {
    try_move (self, advice, "", 0);
    try_walls (self);
    if (advice->part->kind == DRY_PART_NICHE) {
      try_smaller (self, FALSE);
      try_smaller (self, TRUE);
      try_shallower (self);
      try_taller (self);
      try_items (self);
      if (joints_are_off (self)) {
        try_tile (self);
        try_module (self, FALSE);
        try_module (self, TRUE);
        try_tiles (self);
      }
      if (!has_own_wall (self))
        try_together (self);
    }
  }
  g_array_sort (changing.changes, compare_changes);
  *n = changing.changes->len;
  return dry_arena_take_array (arena, changing.changes);
}
