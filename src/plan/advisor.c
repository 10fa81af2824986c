/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the advice of a part: the room planned without it, then demands and bands face by face.
 * Which demands there are is the business of advisor-niche.c and advisor-fitting.c. */
#include "plan/advisor-private.h"

#include <math.h>

#include "plan/faces-private.h"
#include "project/edit.h"

static const struct {
  const char *id, *title;
} KINDS[DRY_N_ADVICE] = {
    [DRY_ADVICE_BOARDED] = {"boarded", "In the boarded wall"},
    [DRY_ADVICE_FRAME] = {"frame", "Leaves the frame of the wall whole"},
    [DRY_ADVICE_STUDS] = {"studs", "Clear of studs"},
    [DRY_ADVICE_BAY] = {"bay", "Fits its stud bay"},
    [DRY_ADVICE_HIDDEN] = {"hidden", "Clear of pipes, vents and cables"},
    [DRY_ADVICE_PARTS] = {"parts", "Clear of other parts"},
    [DRY_ADVICE_OTHER_SIDE] = {"other-side", "Room for the niche behind"},
    [DRY_ADVICE_RATED] = {"rated", "No fire-rated wall"},
    [DRY_ADVICE_DEPTH] = {"depth", "No deeper than the wall"},
    [DRY_ADVICE_INSULATION] = {"insulation", "Leaves insulation behind it"},
    [DRY_ADVICE_BOTTLE] = {"bottle", "Takes the tallest bottle"},
    [DRY_ADVICE_HEIGHT] = {"height", "Within reach"},
    [DRY_ADVICE_SPRAY] = {"spray", "Out of the direct spray"},
    [DRY_ADVICE_SEAM] = {"seam", "Clear of board seams"},
    [DRY_ADVICE_JOINTS] = {"joints", "Edges on tile joints"},
    [DRY_ADVICE_NEAR] = {"near", "Room to what stands beside it"},
    [DRY_ADVICE_WALL] = {"wall", "In an inner wall without pipes"},
    [DRY_ADVICE_HOLD] = {"hold", "Studs behind both ends"},
    [DRY_ADVICE_LAYOUT] = {"layout", "Tile stays as it is laid"},
};

const char *
dry_advice_kind_id (DryAdviceKind kind)
{
  return (guint) kind < DRY_N_ADVICE ? KINDS[kind].id : "";
}

const char *
dry_advice_kind_title (DryAdviceKind kind)
{
  return (guint) kind < DRY_N_ADVICE ? KINDS[kind].title : "";
}

DryAdviceOptions
dry_advice_options_default (void)
{
  return (DryAdviceOptions){.joint_tolerance = DRY_INCH / 8, .spray = dry_spray_shape_default ()};
}

gboolean
dry_advice_places_kind (DryPartKind kind)
{
  return kind == DRY_PART_NICHE || kind == DRY_PART_VALVE || kind == DRY_PART_SPOUT ||
         kind == DRY_PART_SHOWER_HEAD || kind == DRY_PART_HAND_SHOWER ||
         kind == DRY_PART_GRAB_BAR || kind == DRY_PART_BENCH;
}

/* --- the room without the part --- */

static void
site_clear (gpointer data)
{
  DryAdviceSite *self = data;

  for (guint i = 0; i < self->n_faces; i++)
    g_array_unref (self->spray[i]);
  g_free (self->spray);
  dry_plan_unref (self->plan);
}

static void
site_unref (DryAdviceSite *self)
{
  g_atomic_rc_box_release_full (self, site_clear);
}

static void
reckon_spray (DryAdviceSite *self)
{
  const DryRoom *room = self->plan->context.room;

  self->n_faces = self->plan->faces->n;
  self->spray = g_new0 (GArray *, self->n_faces + 1);
  for (guint i = 0; i < self->n_faces; i++) {
    self->spray[i] = g_array_new (FALSE, FALSE, sizeof (DryRect));
    for (guint p = 0; p < room->n_parts && self->plan->faces->items[i].kind == DRY_FACE_WALL; p++)
      if (room->parts[p].kind == DRY_PART_SHOWER_HEAD)
        dry_spray_on_face (&self->plan->context, &room->parts[p], &self->plan->faces->items[i],
                           &self->options.spray, self->spray[i]);
  }
}

static DryAdviceSite *
site_new (const DryProject *project, DryId room_id, const DryPart *part, const DryCatalog *catalog,
          const DryAdviceOptions *options, GCancellable *cancellable, GError **error)
{
  const DryRoom *room = dry_project_get_room (project, room_id);
  g_autoptr (DryProject) without = NULL;
  DryAdviceSite *self;
  DryPlan *plan;

  if (room && part->id && dry_room_get_part (room, part->id)) {
    without = dry_edit_remove (project, room_id, part->id, error);
    if (!without)
      return NULL;
  }
  plan = dry_plan_new (without ? without : project, room_id, catalog, cancellable, error);
  if (!plan)
    return NULL;
  self = g_atomic_rc_box_new0 (DryAdviceSite);
  self->plan = plan;
  self->options = options ? *options : dry_advice_options_default ();
  /* What the project says of its niches goes with it; the caller's is one person's wont. */
  if (plan->context.room->finish.niche_tolerance > 0)
    self->options.joint_tolerance = plan->context.room->finish.niche_tolerance;
  self->catalog = plan->context.catalog;
  reckon_spray (self);
  return self;
}

/* --- one face --- */

static DryRect
finish_at_origin (const DryPart *part)
{
  DryPart at = *part;

  at.u = at.z = 0;
  return dry_part_rect (&at);
}

static DryRect
body_at_origin (const DryPlanContext *context, const DryPart *part)
{
  DryPart at = *part;

  at.u = at.z = 0;
  return part->kind == DRY_PART_NICHE ? dry_faces_niche_rough (context, &at) : dry_part_rect (&at);
}

/* A built bench reaches the floor wherever its top is. */
static DryRect
move_rect (const DryPart *part, DryRect rect, DryPoint by)
{
  DryRect moved = {rect.x0 + by.x, rect.y0 + by.y, rect.x1 + by.x, rect.y1 + by.y};

  if (part->kind == DRY_PART_BENCH && !part->fold_down)
    moved.y0 = 0;
  return moved;
}

DryRect
dry_advice_finish (const DryAdvice *self, DryPoint place)
{
  return move_rect (self->part, finish_at_origin (self->part), place);
}

DryRect
dry_advice_body (const DryAdvice *self, DryPoint place)
{
  return move_rect (self->part, body_at_origin (&self->site->plan->context, self->part), place);
}

/* Places where an edge is off every joint by more than the tolerance, as open zones; the part's two
 * edges each leave stretches between the joints. */
static void
add_off_joint (GArray *open, const DryLength *lines, guint n, DryLength edge, DryLength tolerance,
               gboolean level)
{
  DryLength from = -DRY_LENGTH_MAX;

  for (guint i = 0; n > 0 && i <= n; i++) {
    DryLength to = i < n ? lines[i] - tolerance - edge : DRY_LENGTH_MAX;
    DryRect zone = level ? (DryRect){-DRY_LENGTH_MAX, from, DRY_LENGTH_MAX, to}
                         : (DryRect){from, -DRY_LENGTH_MAX, to, DRY_LENGTH_MAX};
    if (to > from)
      g_array_append_val (open, zone);
    if (i < n)
      from = lines[i] + tolerance - edge;
  }
}

static void
add_joint_zones (const DryAdvice *self, const DryAdviceFace *face, GArray *open)
{
  DryRect finish = finish_at_origin (self->part);
  DryLength tolerance = self->site->options.joint_tolerance;
  const DryAdviceLines *lines = &face->lines;

  if (self->part->kind != DRY_PART_NICHE)
    return;
  add_off_joint (open, lines->upright, lines->n_upright, finish.x0, tolerance, FALSE);
  add_off_joint (open, lines->upright, lines->n_upright, finish.x1, tolerance, FALSE);
  add_off_joint (open, lines->level, lines->n_level, finish.y0, tolerance, TRUE);
  add_off_joint (open, lines->level, lines->n_level, finish.y1, tolerance, TRUE);
}

/* Bands: what the hard demands leave, and what all leave. */
static void
cut_bands (const DryAdvice *self, DryAdviceFace *face)
{
  DryRect domain = {0, 0, face->length, face->height};
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (DryRect));

  for (guint pass = 0; pass < 2; pass++) {
    for (guint i = 0; i < face->n_demands; i++)
      for (guint j = 0; face->demands[i].hard == (pass == 0) && j < face->demands[i].n_zones; j++)
        g_array_append_val (open, face->demands[i].zones[j].places);
    if ((pass == 0) == ((self->site->options.must & (1u << DRY_ADVICE_JOINTS)) != 0))
      add_joint_zones (self, face, open);
    if (pass == 0)
      face->legal = dry_advice_bands (self->arena, (DryRect *) (gpointer) open->data, open->len,
                                      domain, &face->n_legal);
    else
      face->best = dry_advice_bands (self->arena, (DryRect *) (gpointer) open->data, open->len,
                                     domain, &face->n_best);
  }
}

static void
advise_face (DryAdvice *self, DryPlanContext *context, const DryFace *face, DryAdviceFace *out)
{
  DryAdviceWork work = {.advice = self, .context = context, .face = face, .part = self->part};

  work.wall = dry_room_get_wall (context->room, face->wall);
  work.measuring = (DryMeasuring){.context = context, .plan = self->site->plan};
  work.finish = finish_at_origin (self->part);
  work.body = body_at_origin (context, self->part);
  work.standing = dry_measuring_standing (&work.measuring, work.wall, face->side);
  work.demands = g_array_new (FALSE, FALSE, sizeof (DryAdviceDemand));
  work.zones = g_array_new (FALSE, FALSE, sizeof (DryAdviceZone));
  work.facts = g_array_new (FALSE, FALSE, sizeof (DryMeasure));
  if (self->part->kind == DRY_PART_NICHE)
    dry_advice_niche_demands (&work);
  else
    dry_advice_fitting_demands (&work);
  *out = (DryAdviceFace){.face = face->index,
                         .wall = face->wall,
                         .side = face->side,
                         .name = face->name,
                         .length = face->length,
                         .height = face->height,
                         .n_demands = work.demands->len};
  out->demands = dry_arena_take_array (self->arena, work.demands);
  if (self->part->kind == DRY_PART_NICHE)
    out->lines = dry_advice_lines (self->site, self->arena, face, (DryPoint){0, 0}, 0);
  cut_bands (self, out);
  dry_advice_find_critical (self, out, work.standing);
  g_array_unref (work.standing);
  g_array_unref (work.zones);
  g_array_unref (work.facts);
}

DryAdvice *
dry_advice_for_part (DryAdviceSite *site, const DryPart *part, GError **error)
{
  const DryFaces *faces = site->plan->faces;
  DryPlanContext context = site->plan->context;
  DryAdvice *self;

  if (!dry_advice_places_kind (part->kind)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_GEOMETRY, "There is no advice on where a %s may stand",
                 dry_part_kind_name (part->kind));
    return NULL;
  }
  self = g_atomic_rc_box_new0 (DryAdvice);
  self->site = g_atomic_rc_box_acquire (site);
  self->arena = dry_arena_new ();
  self->part = dry_part_copy (part);
  self->faces = dry_arena_new_array (self->arena, DryAdviceFace, faces->n);
  context.arena = self->arena;
  for (guint i = 0; i < faces->n; i++)
    if (faces->items[i].kind == DRY_FACE_WALL && !dry_region_is_empty (&faces->items[i].region))
      advise_face (self, &context, &faces->items[i], &self->faces[self->n_faces++]);
  if (self->n_faces == 0) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_GEOMETRY,
                         "The room has no wet wall yet: put a tub or a pan in first");
    dry_advice_unref (self);
    return NULL;
  }
  return self;
}

DryAdvice *
dry_advice_new (const DryProject *project, DryId room, const DryPart *part,
                const DryCatalog *catalog, const DryAdviceOptions *options,
                GCancellable *cancellable, GError **error)
{
  DryAdviceSite *site = site_new (project, room, part, catalog, options, cancellable, error);
  DryAdvice *self;

  if (!site)
    return NULL;
  self = dry_advice_for_part (site, part, error);
  site_unref (site);
  return self;
}

DryAdvice *
dry_advice_ref (const DryAdvice *self)
{
  return g_atomic_rc_box_acquire ((DryAdvice *) self);
}

static void
advice_clear (gpointer data)
{
  DryAdvice *self = data;

  dry_arena_unref (self->arena);
  dry_part_free (self->part);
  site_unref (self->site);
}

void
dry_advice_unref (DryAdvice *self)
{
  g_atomic_rc_box_release_full (self, advice_clear);
}

const DryPart *
dry_advice_get_part (const DryAdvice *self)
{
  return self->part;
}

guint
dry_advice_get_n_faces (const DryAdvice *self)
{
  return self->n_faces;
}

const DryAdviceFace *
dry_advice_get_face_at (const DryAdvice *self, guint index)
{
  return index < self->n_faces ? &self->faces[index] : NULL;
}

const DryAdviceFace *
dry_advice_get_face (const DryAdvice *self, DryId wall, DrySide side)
{
  for (guint i = 0; i < self->n_faces; i++)
    if (self->faces[i].wall == wall && self->faces[i].side == side)
      return &self->faces[i];
  return NULL;
}

/* --- points --- */

static double
zone_points (const DryAdviceZone *zone, DryPoint place)
{
  DryLength past = zone->toward == DRY_ADVICE_EDGE_ABOVE   ? zone->places.y1 - place.y
                   : zone->toward == DRY_ADVICE_EDGE_BELOW ? place.y - zone->places.y0
                                                           : 0;

  return zone->fixed + zone->per_inch * dry_length_to_inches (past);
}

double
dry_advice_demand_points (const DryAdviceDemand *demand, DryPoint place, gboolean *broken,
                          const DryAdviceZone **worst)
{
  double points = 0, most = -1;

  *broken = FALSE;
  if (worst)
    *worst = NULL;
  for (guint i = 0; i < demand->n_zones; i++) {
    const DryAdviceZone *zone = &demand->zones[i];
    double here;
    if (place.x <= zone->places.x0 || place.x >= zone->places.x1 || place.y <= zone->places.y0 ||
        place.y >= zone->places.y1)
      continue;
    here = zone_points (zone, place);
    *broken = TRUE;
    if (here > most) {
      most = here;
      if (worst)
        *worst = zone;
    }
    points = demand->sums ? points + here : MAX (points, here);
  }
  return points;
}

/* From an edge outward to the next joint, when it is on none. The lines are in order: this is asked
 * for hundreds of places at every step of a drag. */
static DryLength
strip_beside (const DryLength *lines, guint n, DryLength at, gboolean downward)
{
  guint next = dry_advice_first_from (lines, n, at);

  if (next < n && (lines[next] == at || !downward))
    return lines[next] - at;
  return downward && next > 0 ? at - lines[next - 1] : 0;
}

double
dry_advice_joint_points (const DryAdvice *self, const DryAdviceLines *lines, DryPoint place,
                         DryAdviceEdges *edges)
{
  DryRect finish = finish_at_origin (self->part);
  const DryLength at[4] = {place.x + finish.x0, place.x + finish.x1, place.y + finish.y0,
                           place.y + finish.y1};
  DryLength tolerance = self->site->options.joint_tolerance;
  double points = 0;

  if (self->part->kind != DRY_PART_NICHE)
    return 0;
  for (guint i = 0; i < 4; i++) {
    const DryLength *list = i < 2 ? lines->upright : lines->level;
    guint n = i < 2 ? lines->n_upright : lines->n_level;
    edges->off[i] = dry_tile_off_joint (list, n, at[i]);
    edges->strip[i] = 0;
    if (edges->off[i] == G_MAXINT64 || edges->off[i] <= tolerance)
      continue;
    points += MIN (DRY_POINTS_EDGE + DRY_POINTS_EDGE_INCH * dry_length_to_inches (edges->off[i]),
                   DRY_POINTS_EDGE_MOST);
    edges->strip[i] = strip_beside (list, n, at[i], i % 2 == 0);
    if (edges->strip[i] > 0 && edges->strip[i] < DRY_TILE_SLIVER)
      points += DRY_POINTS_SLIVER;
  }
  return points;
}

double
dry_advice_reckon_demands (const DryAdvice *self, const DryAdviceFace *face, DryPoint place)
{
  double points = 0;
  gboolean broken;

  if (!dry_advice_in_bands (face->legal, face->n_legal, place))
    return -1;
  for (guint i = 0; i < face->n_demands; i++)
    if (!face->demands[i].hard)
      points += dry_advice_demand_points (&face->demands[i], place, &broken, NULL);
  return points;
}

double
dry_advice_reckon (const DryAdvice *self, const DryAdviceFace *face, DryPoint place)
{
  double points = dry_advice_reckon_demands (self, face, place);
  DryAdviceEdges edges;

  if (points >= 0 && !(self->site->options.must & (1u << DRY_ADVICE_JOINTS)))
    points += dry_advice_joint_points (self, &face->lines, place, &edges);
  return points;
}
