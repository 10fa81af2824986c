/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one list of points that the trades measure to, each with the trades that need it.
 * Takes heights as the plan has them; reckons none itself. */
#include "base/arena.h"
#include "papers/papers-private.h"
#include "papers/trades.h"

#define BIT(trade) (1u << DRY_TRADE_##trade)

typedef struct {
  const DryPlan *plan;
  DryArena *arena;
  GArray *marks;
} List;

static const char *
face_title (const List *list, const DryFace *face)
{
  return dry_arena_printf (list->arena, "%s – %s", face->mark, face->name);
}

static void
add (List *list, const DryFace *face, DryId object, guint trades, const char *what, DryPoint at,
     DryLength width, DryLength height)
{
  DryTradeMark mark = {.what = what,
                       .wall = face_title (list, face),
                       .object = object,
                       .face = (gint) face->index,
                       .u = at.x,
                       .z = at.y,
                       .width = width,
                       .height = height,
                       .trades = trades};

  g_array_append_val (list->marks, mark);
}

/* --- the wall itself --- */

static void
add_levels (List *list, const DryFace *face)
{
  const DryBasin *basin = &list->plan->context.room->basin;
  gboolean tub = basin->kind == DRY_BASIN_TUB;

  if (face->at_basin) {
    add (list, face, basin->id, DRY_TRADES_ALL, tub ? "Tub rim" : "Curb or pan edge",
         (DryPoint){face->basin_u0, face->deck}, face->basin_u1 - face->basin_u0, 0);
    if (face->flange_top > face->deck)
      add (list, face, basin->id, BIT (HANGER) | BIT (WATERPROOFER), "Top of the flange",
           (DryPoint){face->basin_u0, face->flange_top}, 0, 0);
    add (list, face, basin->id, BIT (HANGER) | BIT (WATERPROOFER), "Lower edge of the board",
         (DryPoint){face->basin_u0, face->board_bottom}, 0, 0);
  }
  if (face->wet_top > 0)
    add (list, face, 0, BIT (FRAMER) | BIT (HANGER) | BIT (WATERPROOFER) | BIT (SETTER),
         "Top of the wet wall", (DryPoint){face->wet_u0, face->wet_top},
         face->wet_u1 - face->wet_u0, 0);
}

static void
add_cutout (List *list, const DryFace *face, const DryCutout *cut)
{
  static const char *const kinds[] = {"Niche", "Window", "Door"};
  const DryPart *part = dry_room_get_part (list->plan->context.room, cut->object);
  g_autofree char *own = part ? dry_papers_part_name (list->plan, part) : NULL;
  const char *name = own ? own : kinds[cut->kind];
  guint rough = BIT (FRAMER) | BIT (PLUMBER) | BIT (HANGER) | BIT (WATERPROOFER);
  guint finish = BIT (WATERPROOFER) | BIT (SETTER);
  const struct {
    DryRect r;
    const char *word;
    guint trades;
  } rings[] = {{cut->rough, "rough opening", rough}, {cut->finish, "finished opening", finish}};

  for (guint i = 0; i < G_N_ELEMENTS (rings); i++) {
    DryRect r = rings[i].r;

    add (list, face, cut->object, rings[i].trades,
         dry_arena_printf (list->arena, "%s: %s, lower left corner", name, rings[i].word),
         (DryPoint){r.x0, r.y0}, dry_rect_width (r), dry_rect_height (r));
    add (list, face, cut->object, rings[i].trades,
         dry_arena_printf (list->arena, "%s: %s, upper right corner", name, rings[i].word),
         (DryPoint){r.x1, r.y1}, 0, 0);
  }
}

static void
add_member (List *list, const DryMember *member)
{
  static const char *const kinds[] = {"Stud", "Corner backing", "Plate",   "Trimmer", "Header",
                                      "Sill", "Blocking",       "Cripple", "Cleat"};
  const DryFace *face = &list->plan->faces->items[member->face];

  if (!member->added || face->kind != DRY_FACE_WALL)
    return;
  add (list, face, member->object, BIT (FRAMER),
       dry_arena_printf (list->arena, "%s, new: lower left corner%s%s%s", kinds[member->kind],
                         member->reason ? " (" : "", member->reason ? member->reason : "",
                         member->reason ? ")" : ""),
       (DryPoint){member->rect.x0, member->rect.y0}, dry_rect_width (member->rect),
       dry_rect_height (member->rect));
}

static void
add_joints (List *list, const DryTileFace *tiled)
{
  const DryFace *face = &list->plan->faces->items[tiled->face];

  if (face->kind != DRY_FACE_WALL || tiled->n_level == 0)
    return;
  add (list, face, 0, BIT (SETTER), "Lowest level joint: middle",
       (DryPoint){face->wet_u0, tiled->level[0]}, 0, 0);
  if (tiled->n_level > 1)
    add (list, face, 0, BIT (SETTER), "Highest level joint: middle",
         (DryPoint){face->wet_u0, tiled->level[tiled->n_level - 1]}, 0, 0);
}

/* --- what hangs there --- */

/* Where a part's z is, and who measures it. Niches are told by their openings. */
static const struct {
  const char *where;
  guint trades;
} PARTS[DRY_N_PART_KINDS] = {
    [DRY_PART_NICHE] = {NULL, 0},
    [DRY_PART_VALVE] = {"middle", DRY_TRADES_ALL},
    [DRY_PART_SPOUT] = {"middle", DRY_TRADES_ALL},
    [DRY_PART_SHOWER_HEAD] = {"middle", DRY_TRADES_ALL},
    [DRY_PART_HAND_SHOWER] = {"middle", DRY_TRADES_ALL},
    [DRY_PART_GRAB_BAR] = {"middle, top of the bar", BIT (FRAMER) | BIT (PLUMBER) | BIT (SETTER)},
    [DRY_PART_BENCH] = {"middle, top of the seat", DRY_TRADES_ALL},
    [DRY_PART_GLASS] = {"middle, lower edge", BIT (FRAMER) | BIT (PLUMBER) | BIT (SETTER)},
    [DRY_PART_PIPE] = {"middle, lower end", BIT (FRAMER) | BIT (PLUMBER) | BIT (HANGER)},
    [DRY_PART_VENT] = {"middle, lower end", BIT (FRAMER) | BIT (PLUMBER) | BIT (HANGER)},
    [DRY_PART_CABLE] = {"middle, lower end", BIT (FRAMER) | BIT (PLUMBER) | BIT (HANGER)},
};

static const char *
part_wall (const List *list, const DryPart *part, const DryFace *face)
{
  const DryRoom *room = list->plan->context.room;

  if (face)
    return face_title (list, face);
  for (guint i = 0; i < room->n_walls; i++)
    if (room->walls[i].id == part->wall)
      return room->walls[i].name ? dry_arena_strdup (list->arena, room->walls[i].name)
                                 : dry_arena_printf (list->arena, "Wall %u", i + 1);
  return "–";
}

static void
add_part (List *list, const DryPart *part)
{
  const DryFace *face = dry_faces_get_wall (list->plan->faces, part->wall, part->side);
  g_autofree char *name = dry_papers_part_name (list->plan, part);
  gboolean drilled = part->hole > 0;
  DryTradeMark mark = {.wall = part_wall (list, part, face),
                       .object = part->id,
                       .face = face ? (gint) face->index : -1,
                       .u = part->u,
                       .z = part->z,
                       .width = drilled ? part->hole : part->width,
                       .height = drilled ? 0 : part->height,
                       .round = drilled,
                       .trades = PARTS[part->kind].trades};

  if (!mark.trades)
    return;
  mark.what = dry_arena_printf (list->arena, "%s: %s", name, PARTS[part->kind].where);
  g_array_append_val (list->marks, mark);
}

static gint
compare_marks (gconstpointer a, gconstpointer b)
{
  const DryTradeMark *x = a, *y = b;

  if (x->face != y->face) /* those without a face last */
    return (guint) x->face < (guint) y->face ? -1 : 1;
  if (x->z != y->z)
    return x->z < y->z ? -1 : 1;
  if (x->u != y->u)
    return x->u < y->u ? -1 : 1;
  return g_strcmp0 (x->what, y->what);
}

DryTradeMarks *
dry_trade_marks_new (const DryPlan *plan)
{
  DryTradeMarks *self = g_new0 (DryTradeMarks, 1);
  List list = {plan, dry_arena_new (), g_array_new (FALSE, FALSE, sizeof (DryTradeMark))};

  for (guint i = 0; i < plan->faces->n; i++) {
    const DryFace *face = &plan->faces->items[i];

    if (face->kind != DRY_FACE_WALL)
      continue;
    add_levels (&list, face);
    for (guint c = 0; c < face->n_cutouts; c++)
      add_cutout (&list, face, &face->cutouts[c]);
  }
  for (guint i = 0; i < plan->framing->n; i++)
    add_member (&list, &plan->framing->items[i]);
  for (guint i = 0; i < plan->boards->n_blocking; i++)
    add_member (&list, &plan->boards->blocking[i]);
  for (guint i = 0; i < plan->tiling->n_faces; i++)
    add_joints (&list, &plan->tiling->faces[i]);
  for (guint i = 0; i < plan->context.room->n_parts; i++)
    add_part (&list, &plan->context.room->parts[i]);
  g_array_sort (list.marks, compare_marks);
  self->arena = list.arena;
  self->n = list.marks->len;
  self->items = dry_arena_take_array (list.arena, list.marks);
  return self;
}

void
dry_trade_marks_free (DryTradeMarks *self)
{
  if (!self)
    return;
  dry_arena_unref (self->arena);
  g_free (self);
}
