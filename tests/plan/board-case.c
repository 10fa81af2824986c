/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A project carried through faces, framing and boards, and what must hold for its boards whatever
 * they look like. Shared by the test and the benchmark of boards; shares no code with the engine.
 */
#include "board-case.h"

#include "layout-checker.h"
#include "support/fixtures.h"

void
board_case_begin (BoardCase *self, DryProject *project)
{
  *self = (BoardCase){.project = project};
  const DryRoom *room = dry_project_get_room_at (project, 0);
  const DryCatalog *catalog = dry_test_catalog ();
  const DrySystem *system = dry_catalog_get_system (catalog, room->finish.system);
  g_assert_nonnull (system);
  self->system = *system;
  self->context = (DryPlanContext){
      .arena = dry_arena_new (),
      .job = dry_project_get_job (project),
      .room = room,
      .catalog = catalog,
      .system = &self->system,
  };
  DryBuildUp *build_up = &self->context.build_up;
  build_up->board = system->n_thicknesses > 0 ? system->thicknesses[0].value : 0;
  build_up->mortar = 6 * DRY_MM;
  build_up->tile = 9 * DRY_MM;
  build_up->total = build_up->board + build_up->mortar + build_up->tile;
}

void
board_case_compute (BoardCase *self)
{
  self->faces = dry_faces_compute (&self->context, NULL);
  self->framing = dry_framing_compute (&self->context, self->faces, NULL);
  self->boards = dry_boards_compute (&self->context, self->faces, self->framing, NULL);
  g_assert_nonnull (self->boards);
}

void
board_case_end (BoardCase *self)
{
  dry_arena_unref (self->context.arena);
  dry_project_unref (self->project);
}

/* --- shapes --- */

static DryRegion
make_region (const DryPolygon *polygon)
{
  return (DryRegion){.polygons = (DryPolygon *) polygon, .n_polygons = 1};
}

static gboolean
is_rectilinear (const DryRegion *region)
{
  for (guint i = 0; i < region->n_polygons; i++) {
    if (!dry_ring_is_rectilinear (&region->polygons[i].outer))
      return FALSE;
    for (guint h = 0; h < region->polygons[i].n_holes; h++)
      if (!dry_ring_is_rectilinear (&region->polygons[i].holes[h]))
        return FALSE;
  }
  return TRUE;
}

/* Pieces + joint gaps + cut-outs = region, to the square nanometre. */
static void
check_shapes (const BoardCase *self, const DryFace *face)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryBoards *boards = self->boards;
  DryRegion rest = dry_region_copy (arena, &face->region);
  __int128 sum = 0, strips = 0;
  for (guint i = 0; i < boards->n; i++) {
    if (boards->items[i].face != face->index)
      continue;
    DryRegion shape = make_region (&boards->items[i].shape);
    DryRegion beyond = dry_region_difference (arena, &shape, &face->region);
    if (is_rectilinear (&face->region))
      g_assert_true (dry_region_is_empty (&beyond));
    sum += dry_region_area2 (&shape);
    rest = dry_region_difference (arena, &rest, &shape);
    for (guint j = 0; j < i; j++) {
      DryRegion other = make_region (&boards->items[j].shape);
      if (boards->items[j].face != face->index ||
          !dry_rect_overlaps (boards->items[i].bounds, boards->items[j].bounds))
        continue;
      DryRegion both = dry_region_intersection (arena, &shape, &other);
      g_assert_true (dry_region_is_empty (&both));
    }
  }
  for (guint i = 0; i < boards->n_seams; i++) {
    const DrySeam *seam = &boards->seams[i];
    if (seam->face == face->index)
      strips += 2 * (__int128) (seam->to.x - seam->from.x + seam->to.y - seam->from.y) *
                self->system.joint_gap;
  }
  if (!is_rectilinear (&face->region))
    return;
  g_assert_true (sum + dry_region_area2 (&rest) == dry_region_area2 (&face->region));
  g_assert_true (dry_region_area2 (&rest) == strips);
}

static void
check_sizes (const BoardCase *self)
{
  for (guint i = 0; i < self->boards->n; i++) {
    const DryBoard *board = &self->boards->items[i];
    DryLength width = dry_rect_width (board->bounds), height = dry_rect_height (board->bounds);
    gboolean fits = FALSE;
    for (guint s = 0; s < self->system.n_sheets; s++) {
      const DrySheet *sheet = &self->system.sheets[s];
      fits = fits || (width <= sheet->width && height <= sheet->height) ||
             (!self->system.directional && height <= sheet->width && width <= sheet->height);
    }
    g_assert_true (fits);
    g_assert_cmpuint (board->index, ==, i);
    g_assert_true (g_str_has_prefix (board->mark, self->faces->items[board->face].mark));
    for (guint j = 0; j < i; j++)
      g_assert_cmpstr (board->mark, !=, self->boards->items[j].mark);
  }
}

static void
check_holes (const BoardCase *self, const DryFace *face)
{
  for (guint h = 0; h < face->n_holes; h++) {
    const DryHole *hole = &face->holes[h];
    guint owners = 0;
    for (guint i = 0; i < self->boards->n; i++) {
      const DryBoard *board = &self->boards->items[i];
      for (guint k = 0; k < board->n_holes && board->face == face->index; k++)
        owners += board->holes[k].object == hole->object;
    }
    g_assert_cmpuint (owners, ==, dry_region_contains (&face->region, hole->centre) ? 1 : 0);
  }
}

/* --- rules of building --- */

/* Wood lies behind all of a cap, and along all edges of a lining. */
static gboolean
is_backed (const DryFace *face)
{
  return face->kind == DRY_FACE_NICHE || face->kind == DRY_FACE_CAP;
}

/* In the middle of the wood; off it only to hang a whole sheet beside the seam. Each board has at
 * least what the seam says. */
static gboolean
may_lie_off (const BoardCase *self, const DrySeam *seam, DryLength middle, DryLength wood)
{
  DryLength off = ABS (seam->from.x - middle), gap = self->system.joint_gap, low = gap / 2;
  gboolean whole = off == 0 || seam->wish != 0;
  for (guint i = 0; i < self->boards->n && !whole; i++) {
    const DryBoard *board = &self->boards->items[i];
    DryRect r = board->bounds;
    if (board->face != seam->face ||
        (r.x1 != seam->from.x - low && r.x0 != seam->from.x + gap - low) || r.y0 >= seam->to.y ||
        r.y1 <= seam->from.y)
      continue;
    for (guint s = 0; s < self->system.n_sheets; s++) {
      const DrySheet *sheet = &self->system.sheets[s];
      whole = whole || dry_rect_width (r) == sheet->width || dry_rect_width (r) == sheet->height;
    }
  }
  return whole && seam->bearing == wood - (gap - low) - off;
}

static gboolean
has_twin (const BoardCase *self, const DrySeam *seam)
{
  DryRect member = self->framing->items[seam->member].rect;
  for (guint i = 0; i < self->boards->n_blocking; i++) {
    const DryMember *twin = &self->boards->blocking[i];
    if (twin->face != seam->face || twin->kind != DRY_MEMBER_STUD)
      continue;
    if (twin->rect.x0 == member.x1 && may_lie_off (self, seam, member.x1, dry_rect_width (member)))
      return TRUE;
    if (twin->rect.x1 == member.x0 && may_lie_off (self, seam, member.x0, dry_rect_width (member)))
      return TRUE;
  }
  return FALSE;
}

static guint
check_upright_seam (const BoardCase *self, const DrySeam *seam)
{
  const DrySystem *system = &self->system;
  if (is_backed (&self->faces->items[seam->face]))
    return 0;
  if (seam->member < 0) {
    /* Shown as broken, and a stud asked for right there. */
    gboolean asked = FALSE;
    for (guint i = 0; i < self->boards->n_blocking; i++) {
      const DryMember *member = &self->boards->blocking[i];
      asked = asked || (member->face == seam->face && member->kind == DRY_MEMBER_STUD &&
                        dry_rect_contains (member->rect, seam->from) &&
                        dry_rect_contains (member->rect, seam->to));
    }
    g_assert_true (seam->needs_second_stud);
    g_assert_true (asked || seam->wish != 0); /* beside a stud that is too near for one */
    return seam->wish == 0;
  }
  const DryMember *member = &self->framing->items[seam->member];
  g_assert_cmpuint (member->face, ==, seam->face);
  if (seam->needs_second_stud && !has_twin (self, seam))
    return 1;
  if (!seam->needs_second_stud)
    g_assert_true (may_lie_off (self, seam, member->rect.x0 + dry_rect_width (member->rect) / 2,
                                dry_rect_width (member->rect) / 2));
  g_assert_cmpint (seam->edge_distance, >=, system->edge_distance_min.value);
  g_assert_cmpint (seam->edge_distance, <=,
                   MAX (system->edge_distance_max.value, system->edge_distance.value));
  /* 1/4 in of wood beyond it, as the fasteners stage sets them (DRY_WOOD_AROUND). */
  g_assert_cmpint (seam->edge_distance + DRY_INCH / 4, <=, seam->bearing);
  return 0;
}

/* Something stands or lies behind every inch of a level seam but for an inch at its ends. */
static void
check_level_seam (const BoardCase *self, const DrySeam *seam)
{
  if (is_backed (&self->faces->items[seam->face]))
    return;
  DryLength at = seam->from.x;
  for (gboolean moved = TRUE; moved && at < seam->to.x;) {
    moved = FALSE;
    for (guint i = 0; i < self->framing->n + self->boards->n_blocking; i++) {
      const DryMember *member = i < self->framing->n
                                    ? &self->framing->items[i]
                                    : &self->boards->blocking[i - self->framing->n];
      if (member->face != seam->face || member->rect.y0 >= seam->from.y ||
          member->rect.y1 <= seam->from.y || member->rect.x0 > at || member->rect.x1 <= at)
        continue;
      at = member->rect.x1;
      moved = TRUE;
    }
  }
  g_assert_cmpint (at, >=, seam->to.x);
}

static double
reckon_distance (const DrySeam *seam, DryPoint p)
{
  DryPoint near = {CLAMP (p.x, seam->from.x, seam->to.x), CLAMP (p.y, seam->from.y, seam->to.y)};
  return (double) dry_point_distance (near, p);
}

static guint
check_clearances (const BoardCase *self, const DrySeam *seam)
{
  const DryFace *face = &self->faces->items[seam->face];
  guint broken = 0;
  for (guint i = 0; i < face->n_cutouts; i++) {
    DryRect r = face->cutouts[i].rough;
    const DryPoint corners[] = {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}};
    for (guint c = 0; c < 4; c++) {
      /* Corners on the edge of the region are none: board stands on one side only. */
      gboolean inside = TRUE;
      for (guint way = 0; way < 4; way++) {
        DryPoint beside = {corners[c].x + (way & 1 ? 1 : -1), corners[c].y + (way & 2 ? 1 : -1)};
        gboolean in_cutout =
            beside.x > r.x0 && beside.x < r.x1 && beside.y > r.y0 && beside.y < r.y1;
        inside = inside && (in_cutout || dry_region_contains (&face->region, beside));
      }
      broken += inside && reckon_distance (seam, corners[c]) < 2 * DRY_INCH - 1;
    }
  }
  for (guint i = 0; i < face->n_holes; i++) {
    const DryHole *hole = &face->holes[i];
    broken += dry_region_contains (&face->region, hole->centre) &&
              reckon_distance (seam, hole->centre) < (double) (hole->diameter / 2 + DRY_INCH) - 1;
  }
  return broken;
}

/* Two seams that end at a third one from both sides, nearer than a stud or 16 in. */
static guint
check_crossings (const BoardCase *self)
{
  const DryBoards *boards = self->boards;
  DryLength gap = self->system.joint_gap;
  guint broken = 0;
  for (guint i = 0; i < boards->n_seams; i++)
    for (guint j = 0; j < boards->n_seams; j++) {
      const DrySeam *a = &boards->seams[i], *b = &boards->seams[j];
      if (a->face != b->face || a->vertical != b->vertical || i == j)
        continue;
      const DryFace *face = &self->faces->items[a->face];
      const DryWall *wall = dry_room_get_wall (self->context.room, face->wall);
      DryLength apart = wall != NULL ? MIN (wall->stud_spacing, 16 * DRY_INCH) : 16 * DRY_INCH;
      DryLength between = a->vertical ? b->from.y - a->to.y : b->from.x - a->to.x;
      DryLength beside = a->vertical ? ABS (a->from.x - b->from.x) : ABS (a->from.y - b->from.y);
      if (between != gap)
        continue;
      g_assert_cmpint (beside, >, 0);
      broken +=
          beside < apart - (wall != NULL ? wall->stud_width : 0) && (a->wish == 0 || b->wish == 0);
    }
  return broken;
}

/* A strip is the engine's doing when a seam it chose cut it off. */
static guint
check_slivers (const BoardCase *self)
{
  guint broken = 0;
  DryLength gap = self->system.joint_gap, low = gap / 2, high = gap - low;
  for (guint i = 0; i < self->boards->n; i++) {
    const DryBoard *board = &self->boards->items[i];
    const DryRect *r = &board->bounds;
    for (guint s = 0; s < self->boards->n_seams; s++) {
      const DrySeam *seam = &self->boards->seams[s];
      if (seam->face != board->face || seam->wish != 0)
        continue;
      if (seam->vertical && dry_rect_width (*r) < self->system.min_piece && seam->from.y < r->y1 &&
          seam->to.y > r->y0)
        broken += seam->from.x + high == r->x0 || seam->from.x - low == r->x1;
      if (!seam->vertical && dry_rect_height (*r) < self->system.min_piece &&
          seam->from.x < r->x1 && seam->to.x > r->x0)
        broken += seam->from.y + high == r->y0 || seam->from.y - low == r->y1;
    }
  }
  return broken;
}

static guint
tell (const char *what, guint broken)
{
  if (broken > 0)
    g_test_message ("%s: %u", what, broken);
  return broken;
}

guint
board_case_check (const BoardCase *self)
{
  const DryBoards *boards = self->boards;
  if (self->system.n_sheets == 0) {
    g_assert_cmpuint (boards->n + boards->n_seams + boards->n_blocking, ==, 0);
    g_assert_cmpuint (boards->cutting->n_sheets + boards->cutting->n_unplaced, ==, 0);
    return 0;
  }
  for (guint f = 0; f < self->faces->n; f++) {
    check_shapes (self, &self->faces->items[f]);
    check_holes (self, &self->faces->items[f]);
  }
  check_sizes (self);
  g_autofree char *problem = dry_check_cutting (boards->cutting, self->system.kerf);
  g_assert_cmpstr (problem, ==, NULL);
  g_assert_cmpuint (boards->cutting->n_pieces, ==, boards->n);
  g_assert_cmpuint (boards->cutting->n_unplaced, ==, 0);
  guint no_stud = 0, near = 0;
  for (guint i = 0; i < boards->n_seams; i++) {
    const DrySeam *seam = &boards->seams[i];
    if (seam->vertical)
      no_stud += check_upright_seam (self, seam);
    else
      check_level_seam (self, seam);
    near += seam->wish == 0 ? check_clearances (self, seam) : 0;
  }
  return tell ("seams without a stud", no_stud) + tell ("seams at corners or holes", near) +
         tell ("crossings", check_crossings (self)) + tell ("slivers", check_slivers (self));
}
