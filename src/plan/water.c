/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers the breaks of the watertight layer and one path for each stretch that drains alike.
 * What a drop does is water-trace.c's; whether a break matters is for the rules to say. */
#include "plan/water.h"

#include <string.h>

typedef struct {
  const DryPlanContext *context;
  const DryFaces *faces;
  const DryFasteners *fasteners;
  const DryJoints *joints;
  const DryCoating *coating;
  const DryBoards *boards;
  GArray *breaks; /* DryWaterBreak */
  GArray *paths;  /* DryWaterPath */
} Water;

const char *
dry_break_kind_to_text (DryBreakKind kind)
{
  static const char *const WORDS[] = {"joint", "fastener", "hole", "board", "flange", "curb",
                                      "drain", "leg",      "edge", "pitch", "nowhere"};

  return WORDS[kind];
}

/* Breaks of one kind at one thing are told once, with their number. */
static guint
add_break (Water *self, DryBreakKind kind, gint face, DryPoint at, DryId object, const char *rule,
           const char *text)
{
  DryWaterBreak it = {kind, face, at, object, 1, text, rule};

  for (guint i = 0; i < self->breaks->len; i++) {
    DryWaterBreak *old = &g_array_index (self->breaks, DryWaterBreak, i);
    if (old->kind == kind && old->face == face && old->object == object &&
        strcmp (old->text, text) == 0) {
      old->n++;
      return i;
    }
  }
  g_array_append_val (self->breaks, it);
  return self->breaks->len - 1;
}

static gboolean
has_shower (const DryRoom *room)
{
  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_SHOWER_HEAD || room->parts[i].kind == DRY_PART_HAND_SHOWER)
      return TRUE;
  return FALSE;
}

static gboolean
finds_amount (const DryCoating *coating, const char *product)
{
  for (guint i = 0; product && i < coating->n; i++)
    if (strcmp (coating->items[i].product->id, product) == 0)
      return TRUE;
  return FALSE;
}

/* Water gets behind the board here when nothing closes it. */
static gboolean
is_wet (DryJointKind kind)
{
  return kind != DRY_JOINT_CEILING && kind != DRY_JOINT_DRYWALL && kind != DRY_JOINT_FREE;
}

static void
find_open_joints (Water *self, gboolean coated)
{
  const DrySystem *system = self->context->system;

  for (guint i = 0; i < self->joints->n; i++) {
    const DryJoint *joint = &self->joints->items[i];
    const DryTreatment *treatment = &system->treatments[joint->kind];
    gboolean hole = joint->kind == DRY_JOINT_PENETRATION;
    DryPoint middle = {(joint->from.x + joint->to.x) / 2, (joint->from.y + joint->to.y) / 2};

    if (!is_wet (joint->kind) ||
        (hole ? treatment->kind != DRY_TREAT_NONE : treatment->watertight || coated))
      continue;
    add_break (self, hole ? DRY_BREAK_HOLE : DRY_BREAK_JOINT, (gint) joint->face, middle,
               hole ? joint->object : 0, hole ? "pipe-unsealed" : "joint-open",
               dry_arena_printf (self->context->arena, "%s: %s, and nothing closes it",
                                 self->faces->items[joint->face].name,
                                 dry_joint_kind_name (joint->kind)));
  }
}

static void
find_open_boards (Water *self, gboolean coated)
{
  const DrySystem *system = self->context->system;
  gboolean covered = finds_amount (self->coating, system->cover_product) ||
                     (system->membrane != DRY_MEMBRANE_NONE &&
                      finds_amount (self->coating, system->membrane_product));

  for (guint i = 0; system->cover_fasteners && !covered && i < self->fasteners->n; i++) {
    const DryBoard *board = &self->boards->items[self->fasteners->items[i].board];
    add_break (self, DRY_BREAK_FASTENER, (gint) board->face, self->fasteners->items[i].at, 0,
               "fasteners-uncovered",
               dry_arena_printf (self->context->arena, "%s: fastener heads are not covered",
                                 self->faces->items[board->face].name));
  }
  for (guint i = 0; system->needs_membrane && !coated && i < self->boards->n; i++) {
    const DryBoard *board = &self->boards->items[i];
    DryPoint middle = {(board->bounds.x0 + board->bounds.x1) / 2,
                       (board->bounds.y0 + board->bounds.y1) / 2};
    add_break (self, DRY_BREAK_BOARD, (gint) board->face, middle, 0, "no-membrane",
               dry_arena_printf (self->context->arena,
                                 "%s: the board is not watertight and nothing is put on it",
                                 self->faces->items[board->face].name));
  }
}

static void
find_basin_breaks (Water *self)
{
  const DryBasin *basin = &self->context->room->basin;
  DryPoint none = {0, 0};

  if (basin->kind == DRY_BASIN_TUB && basin->flange <= 0 && has_shower (self->context->room))
    add_break (self, DRY_BREAK_FLANGE, -1, none, basin->id, "no-flange",
               "The tub has no flange: water runs over its ledge behind the wall");
  if (self->context->room->finish.gap_mortar) {
    DryTreatmentKind kind = self->context->system->treatments[DRY_JOINT_BASIN].kind;
    if (kind == DRY_TREAT_BEAD || kind == DRY_TREAT_BAND)
      add_break (self, DRY_BREAK_FLANGE, -1, none, basin->id,
                 kind == DRY_TREAT_BAND ? "gap-mortar-band" : "gap-mortar",
                 "The gap at the basin is filled with mortar, which cracks when the basin moves");
  }
  if (basin->kind != DRY_BASIN_PAN || !basin->site_built)
    return;
  if (!basin->liner && !basin->curb_wrapped)
    add_break (self, DRY_BREAK_CURB, -1, none, basin->id, "curb-wrap",
               "The membrane of the floor stops at the curb");
  if (!basin->liner && basin->clamping_drain)
    add_break (self, DRY_BREAK_DRAIN, -1, none, basin->id, "clamping-drain",
               "The drain clamps a liner, but the membrane lies on top");
  if (basin->curb_pitch <= 0 && !dry_basin_is_curbless (basin))
    add_break (self, DRY_BREAK_PITCH, -1, none, basin->id, "curb-pitch",
               "Water stands on the curb");
}

static const char *
tell_stop (Water *self, const DryFace *face, DryBreakKind why, DryId object, const char **rule)
{
  const DryRoom *room = self->context->room;
  const DryPart *part = dry_room_get_part (room, object);

  if (why == DRY_BREAK_LEG) {
    *rule = "no-leg";
    return dry_arena_printf (self->context->arena,
                             "%s: the strip past the basin ends above the floor", face->name);
  }
  if (why == DRY_BREAK_PITCH && part) {
    *rule = part->kind == DRY_PART_NICHE ? "niche-floor-pitch" : "bench-pitch";
    return dry_arena_printf (self->context->arena, "%s: water stands in the %s", face->name,
                             part->kind == DRY_PART_NICHE ? "niche" : "bench's back corner");
  }
  if (why == DRY_BREAK_PITCH) {
    *rule = "window-sill-flat";
    return dry_arena_printf (self->context->arena, "%s: water stands on the window's sill",
                             face->name);
  }
  *rule = "water-nowhere";
  return dry_arena_printf (self->context->arena,
                           "%s: the wall ends over nothing that takes the water on", face->name);
}

/* The edges of the wet wall that are still sprayed: above by a head, beside within 2 in of the
 * basin. */
static void
find_edges (Water *self, const DryFace *face)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; face->dry_above && i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_SHOWER_HEAD && room->parts[i].wall == face->wall &&
        room->parts[i].side == face->side && room->parts[i].z > face->wet_top)
      add_break (self, DRY_BREAK_EDGE, (gint) face->index,
                 (DryPoint){room->parts[i].u, face->wet_top}, room->parts[i].id,
                 "head-above-wet-wall",
                 dry_arena_printf (self->context->arena, "%s: the head stands above the wet wall",
                                   face->name));
  if (!face->at_basin)
    return;
  if ((face->dry_left && face->basin_u0 - face->wet_u0 < 2 * DRY_INCH) ||
      (face->dry_right && face->wet_u1 - face->basin_u1 < 2 * DRY_INCH))
    add_break (
        self, DRY_BREAK_EDGE, (gint) face->index,
        (DryPoint){face->dry_left && face->basin_u0 - face->wet_u0 < 2 * DRY_INCH ? face->wet_u0
                                                                                  : face->wet_u1,
                   face->deck},
        0, "wet-past",
        dry_arena_printf (self->context->arena,
                          "%s: the wet wall ends less than 2 in past the basin", face->name));
}

static void
find_cap (Water *self, const DryFace *face)
{
  const DryWall *wall = dry_room_get_wall (self->context->room, face->wall);

  if (wall && dry_wall_height (self->context->room, wall) < self->context->room->ceiling &&
      wall->cap_pitch <= 0)
    add_break (self, DRY_BREAK_PITCH, (gint) face->index,
               (DryPoint){face->length / 2, face->wet_top}, wall->id, "cap-pitch",
               dry_arena_printf (self->context->arena, "%s: water stands on the half wall's cap",
                                 face->name));
}

static gint
compare_lengths (gconstpointer a, gconstpointer b)
{
  DryLength first = *(const DryLength *) a, second = *(const DryLength *) b;

  return first < second ? -1 : first > second;
}

static void
add_stop_at (GArray *stops, const DryFace *face, DryLength u)
{
  if (u >= face->wet_u0 && u <= face->wet_u1)
    g_array_append_val (stops, u);
}

/* Where along the face what lies below may change: corners of the region, openings, basin,
 * benches. Between two of them every drop does the same. */
static GArray *
list_stretches (Water *self, const DryFace *face)
{
  GArray *stops = g_array_new (FALSE, FALSE, sizeof (DryLength));
  const DryRoom *room = self->context->room;

  for (guint p = 0; p < face->region.n_polygons; p++) {
    const DryPolygon *polygon = &face->region.polygons[p];
    for (guint r = 0; r <= polygon->n_holes; r++) {
      const DryRing *ring = r ? &polygon->holes[r - 1] : &polygon->outer;
      for (guint i = 0; i < ring->n_points; i++)
        add_stop_at (stops, face, ring->points[i].x);
    }
  }
  for (guint i = 0; i < face->n_cutouts; i++) {
    add_stop_at (stops, face, face->cutouts[i].rough.x0);
    add_stop_at (stops, face, face->cutouts[i].rough.x1);
  }
  if (face->at_basin) {
    add_stop_at (stops, face, face->basin_u0);
    add_stop_at (stops, face, face->basin_u1);
  }
  for (guint i = 0; i < room->n_parts; i++)
    if (room->parts[i].kind == DRY_PART_BENCH && room->parts[i].wall == face->wall &&
        room->parts[i].side == face->side) {
      add_stop_at (stops, face, dry_part_rect (&room->parts[i]).x0);
      add_stop_at (stops, face, dry_part_rect (&room->parts[i]).x1);
    }
  g_array_sort (stops, compare_lengths);
  return stops;
}

static void
follow_face (Water *self, const DryFace *face)
{
  g_autoptr (GArray) stops = list_stretches (self, face);

  /* In an inside corner the neighbor's finish stands before this face. */
  DryLength built = self->context->build_up.total;
  DryLength first = face->left.face >= 0 && face->left.angle < 180 ? face->left.at + built : 0;
  DryLength last =
      face->right.face >= 0 && face->right.angle < 180 ? face->right.at - built : face->length;

  for (guint i = 0; i + 1 < stops->len; i++) {
    DryLength u0 = MAX (g_array_index (stops, DryLength, i), first);
    DryLength u1 = MIN (g_array_index (stops, DryLength, i + 1), last);
    DryBreakKind why = DRY_BREAK_NOWHERE;
    const char *rule = NULL, *text;
    DryId object = 0;
    DryWaterPath path;

    if (u1 - u0 < DRY_INCH / 16)
      continue;
    path = dry_water_trace (self->context, self->faces, face->index,
                            (DryPoint){u0 + (u1 - u0) / 2, face->wet_top}, &why, &object);
    if (path.n < 2)
      continue; /* no wall there: a doorway */
    if (path.end == DRY_WATER_STOPPED) {
      text = tell_stop (self, face, why, object, &rule);
      path.stop = (gint) add_break (self, why, (gint) face->index, path.steps[path.n - 1].at,
                                    object, rule, text);
    }
    g_array_append_val (self->paths, path);
  }
}

const DryWater *
dry_water_compute (const DryPlanContext *context, const DryFaces *faces, const DryBoards *boards,
                   const DryFasteners *fasteners, const DryJoints *joints,
                   const DryCoating *coating, GError **error)
{
  DryWater *self = dry_arena_alloc (context->arena, sizeof (DryWater));
  Water water = {context,
                 faces,
                 fasteners,
                 joints,
                 coating,
                 boards,
                 g_array_new (FALSE, FALSE, sizeof (DryWaterBreak)),
                 g_array_new (FALSE, FALSE, sizeof (DryWaterPath))};
  gboolean coated =
      context->system->membrane != DRY_MEMBRANE_NONE && context->system->membrane_product;

  for (guint i = 0; i < faces->n; i++)
    if (faces->items[i].kind == DRY_FACE_WALL) {
      follow_face (&water, &faces->items[i]);
      find_edges (&water, &faces->items[i]);
      find_cap (&water, &faces->items[i]);
    }
  find_open_joints (&water, coated);
  find_open_boards (&water, coated);
  if (faces->n)
    find_basin_breaks (&water);
  self->n_breaks = water.breaks->len;
  self->n_paths = water.paths->len;
  self->closed = faces->n > 0 && self->n_breaks == 0;
  self->breaks = dry_arena_take_array (context->arena, water.breaks);
  self->paths = dry_arena_take_array (context->arena, water.paths);
  return self;
}
