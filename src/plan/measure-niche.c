/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of niches: the bay they need, what else is in it, how deep, how high.
 * The box behind the board is the ready-made body, or the rough opening of a site-built one. */
#include "plan/faces-private.h"
#include "plan/measure-build.h"

typedef struct {
  const DryPart *part;
  const DryWall *wall;
  const DryFace *face; /* NULL: the wall is not boarded */
  DryRect body;        /* what stands between the studs */
} DryNiche;

/* The part's rectangle as seen from `side` of its wall. */
static DryRect
see_from (const DryPart *part, const DryWall *wall, DrySide side)
{
  DryRect rect = dry_part_rect (part);
  DryLength length = dry_wall_length (wall);

  if (part->side == side)
    return rect;
  return (DryRect){length - rect.x1, rect.y0, length - rect.x0, rect.y1};
}

/* Names what is marked in the bay at the niche's height, and counts it. */
static guint
find_hidden (DryMeasuring *self, const DryNiche *niche, DryRect in_bay, GString *names)
{
  const DryRoom *room = self->context->room;
  guint n = 0;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (part->wall != niche->wall->id || !dry_part_kind_is_hidden (part->kind) ||
        !dry_rect_overlaps (in_bay, see_from (part, niche->wall, niche->part->side)))
      continue;
    if (names)
      g_string_append_printf (names, "%s%s", n ? ", " : "", dry_measuring_part_name (self, part));
    n++;
  }
  return n;
}

static DryRect
span_bay (const DryNiche *niche, DryStanding bay)
{
  return (DryRect){MIN (bay.u0, niche->body.x0), niche->body.y0, MAX (bay.u1, niche->body.x1),
                   niche->body.y1};
}

static void
measure_hidden (DryMeasuring *self, const DryNiche *niche, DryStanding bay)
{
  DryRect in_bay = span_bay (niche, bay);
  g_autoptr (GString) names = g_string_new (NULL);
  guint n = find_hidden (self, niche, in_bay, names);

  dry_measuring_number (self, "hidden-in-bay", n, "", "bay from %s to %s: %s",
                        dry_measuring_text (self, in_bay.x0), dry_measuring_text (self, in_bay.x1),
                        n ? names->str : "nothing marked in it");
}

static void
measure_bay (DryMeasuring *self, const DryNiche *niche)
{
  g_autoptr (GArray) standing = dry_measuring_standing (self, niche->wall, niche->part->side);
  DryLength centre = niche->body.x0 + dry_rect_width (niche->body) / 2;
  guint cut = dry_measuring_count_cut (standing, niche->body.x0, niche->body.x1);
  DryStanding bay = {niche->body.x0, niche->body.x1}, found;

  dry_measuring_length (self, "body", dry_rect_width (niche->body),
                        niche->part->body_width > 0 ? "the ready-made body"
                                                    : "rough opening: finished width plus lining");
  dry_measuring_number (self, "studs-cut", cut, "", "body from %s to %s",
                        dry_measuring_text (self, niche->body.x0),
                        dry_measuring_text (self, niche->body.x1));
  if (dry_measuring_bay (standing, centre, &found)) {
    bay = found;
    dry_measuring_length (self, "bay", bay.u1 - bay.u0, "clear between studs from %s to %s",
                          dry_measuring_text (self, bay.u0), dry_measuring_text (self, bay.u1));
  } else /* then only what the body itself covers is its bay */
    dry_measuring_length (self, "bay", 0, "its middle stands on a stud");
  measure_hidden (self, niche, bay);
}

/* A ready-made box hangs from the face of the board; a site-built one is lined as the wall is, so
 * what the lining takes and what the wall gives cancel out. */
static void
measure_depth (DryMeasuring *self, const DryNiche *niche)
{
  DryLength board = niche->part->body_width > 0 ? self->context->build_up.board : 0;
  DryLength cavity = dry_wall_depth (niche->wall);
  DryLength need = MAX (0, niche->part->depth - board);

  dry_measuring_length (self, "cavity", cavity, NULL);
  dry_measuring_length (self, "cavity-needed", need, "depth of %s less %s of board it passes",
                        dry_measuring_text (self, niche->part->depth),
                        dry_measuring_text (self, board));
  if (niche->wall->exterior)
    dry_measuring_length (self, "insulation-behind",
                          MAX (0, MIN (niche->wall->insulation, cavity - need)),
                          "%s of insulation in the wall, %s of cavity behind the niche",
                          dry_measuring_text (self, niche->wall->insulation),
                          dry_measuring_text (self, cavity - need));
}

static gboolean
lies_in_board (DryMeasuring *self, const DryNiche *niche)
{
  const DryFace *face = niche->face;
  DryRect finish = dry_part_rect (niche->part), rough = niche->body;
  DryLength built = self->context->build_up.total;

  if (!face)
    return FALSE;
  if (rough.x0 < face->wet_u0 || rough.x1 > face->wet_u1 || rough.y1 > face->wet_top ||
      rough.y0 < 0)
    return FALSE;
  if (face->at_basin && rough.x0 < face->basin_u1 && rough.x1 > face->basin_u0 &&
      rough.y0 < face->board_bottom)
    return FALSE;
  return (face->left.face < 0 || finish.x0 >= built) &&
         (face->right.face < 0 || finish.x1 <= face->length - built);
}

static void
measure_above_bench (DryMeasuring *self, const DryNiche *niche)
{
  const DryRoom *room = self->context->room;
  DryRect rect = dry_part_rect (niche->part);

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *bench = &room->parts[i];
    DryRect seat = dry_part_rect (bench);
    if (bench->kind != DRY_PART_BENCH || bench->wall != niche->wall->id ||
        bench->side != niche->part->side || seat.x0 >= rect.x1 || seat.x1 <= rect.x0)
      continue;
    dry_measuring_length (self, "above-bench", niche->part->z - bench->z, "bottom %s less seat %s",
                          dry_measuring_text (self, niche->part->z),
                          dry_measuring_text (self, bench->z));
    break;
  }
}

/* How far the worst of its four edges is from the middle of the nearest joint. Slanted tile has no
 * joints to stand on. */
static void
measure_joints (DryMeasuring *self, const DryNiche *niche)
{
  static const char *const edges[] = {"left", "right", "bottom", "top"};
  const DryTiling *tiling = self->plan->tiling;
  const DryTileFace *tiled = niche->face ? dry_tiling_get_face (tiling, niche->face->index) : NULL;
  DryLength set = self->context->room->finish.niche_tolerance, worst = -1;
  DryRect r = dry_part_rect (niche->part);
  const DryLength at[] = {r.x0, r.x1, r.y0, r.y1};
  guint which = 0;

  for (guint i = 0; tiled && i < G_N_ELEMENTS (at); i++) {
    DryLength off = i < 2 ? dry_tile_off_joint (tiled->upright, tiled->n_upright, at[i])
                          : dry_tile_off_joint (tiled->level, tiled->n_level, at[i]);

    if (off == G_MAXINT64 || off <= worst)
      continue;
    worst = off;
    which = i;
  }
  if (worst < 0)
    return;
  dry_measuring_length (self, "off-joint", worst, "its %s edge at %s, joints of %s", edges[which],
                        dry_measuring_text (self, at[which]),
                        dry_measuring_text (self, tiling->joint));
  dry_measuring_boolean (self, "tolerance-set", set > 0, NULL);
  if (set > 0)
    dry_measuring_length (self, "joint-tolerance", set, "set by you");
}

static void
measure_niche (DryMeasuring *self, const DryNiche *niche)
{
  const DryPart *part = niche->part;
  guint before;

  dry_measuring_begin (self, "niche", part->id, niche->face ? (gint) niche->face->index : -1,
                       dry_part_rect (part), dry_measuring_part_name (self, part));
  dry_measuring_length (self, "bottom", part->z, NULL);
  dry_measuring_length (self, "width", part->width, NULL);
  dry_measuring_length (self, "clear-height", part->height, NULL);
  dry_measuring_length (self, "depth", part->depth, NULL);
  dry_measuring_number (self, "pitch", part->pitch * 100, "%", NULL);
  dry_measuring_boolean (self, "ready-made", part->body_width > 0, NULL);
  dry_measuring_boolean (self, "bearing-wall", niche->wall->bearing, NULL);
  dry_measuring_boolean (self, "exterior-wall", niche->wall->exterior, NULL);
  dry_measuring_boolean (self, "fire-rated-wall", niche->wall->fire_rated, NULL);
  dry_measuring_boolean (
      self, "in-board", lies_in_board (self, niche), "body from %s to %s, %s to %s high",
      dry_measuring_text (self, niche->body.x0), dry_measuring_text (self, niche->body.x1),
      dry_measuring_text (self, niche->body.y0), dry_measuring_text (self, niche->body.y1));
  measure_bay (self, niche);
  measure_depth (self, niche);
  measure_joints (self, niche);
  dry_measuring_overlaps (self, niche->part, niche->body);
  before = self->measures->len;
  measure_above_bench (self, niche);
  dry_measuring_boolean (self, "over-bench", self->measures->len > before, NULL);
  dry_measuring_end (self);
}

void
dry_measure_niches (DryMeasuring *self)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_parts; i++) {
    DryNiche niche = {.part = &room->parts[i]};

    if (niche.part->kind != DRY_PART_NICHE)
      continue;
    niche.wall = dry_room_get_wall (room, niche.part->wall);
    niche.face = dry_measuring_face_of (self, niche.part->wall, niche.part->side);
    niche.body = dry_faces_niche_rough (self->context, niche.part);
    measure_niche (self, &niche);
  }
}

gboolean
dry_measuring_niche_fits (DryMeasuring *self, const DryPart *part, DryLength u, DryStanding bay)
{
  DryPart moved = *part; /* borrows the texts of the original */
  DryNiche niche = {.part = &moved, .wall = dry_room_get_wall (self->context->room, part->wall)};
  DryLength spare = part->body_width > 0 ? DRY_INCH / 4 : 0;

  niche.face = dry_measuring_face_of (self, part->wall, part->side);
  niche.body = dry_faces_niche_rough (self->context, part);
  niche.body.x0 += u - part->u;
  niche.body.x1 += u - part->u;
  moved.u = u;
  return niche.body.x0 >= bay.u0 && niche.body.x1 <= bay.u1 &&
         bay.u1 - bay.u0 >= dry_rect_width (niche.body) + spare && lies_in_board (self, &niche) &&
         find_hidden (self, &niche, span_bay (&niche, bay), NULL) == 0 &&
         dry_measuring_count_overlaps (self, part, niche.body) == 0;
}
