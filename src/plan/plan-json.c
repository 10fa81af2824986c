/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a whole plan as one JSON object, stage by stage, for the command line and for tests.
 * Lengths are millimetres as everywhere in files; it reckons nothing of its own. */
#include "plan/plan.h"

#include "plan/plan-json-private.h"
#include "plan/cutting-standing.h"

static const char *const face_kinds[] = {"wall", "ceiling", "bench", "niche", "cap"};
static const char *const cutout_kinds[] = {"niche", "window", "door"};
static const char *const member_kinds[] = {"stud", "corner",   "plate",   "trimmer", "header",
                                           "sill", "blocking", "cripple", "cleat"};

void
dry_plan_json_point (DryJsonWriter *writer, const char *key, DryPoint p)
{
  dry_json_begin_array_inline (writer, key);
  dry_json_write_length (writer, NULL, p.x);
  dry_json_write_length (writer, NULL, p.y);
  dry_json_end_array (writer);
}

void
dry_plan_json_rect (DryJsonWriter *writer, const char *key, DryRect r)
{
  dry_json_begin_array_inline (writer, key);
  dry_json_write_length (writer, NULL, r.x0);
  dry_json_write_length (writer, NULL, r.y0);
  dry_json_write_length (writer, NULL, r.x1);
  dry_json_write_length (writer, NULL, r.y1);
  dry_json_end_array (writer);
}

static void
write_ring (DryJsonWriter *writer, const char *key, const DryRing *ring)
{
  dry_json_begin_array_inline (writer, key);
  for (guint i = 0; i < ring->n_points; i++)
    dry_plan_json_point (writer, NULL, ring->points[i]);
  dry_json_end_array (writer);
}

static void
write_polygon (DryJsonWriter *writer, const char *key, const DryPolygon *polygon)
{
  dry_json_begin_object (writer, key);
  write_ring (writer, "outer", &polygon->outer);
  dry_json_begin_array (writer, "holes");
  for (guint i = 0; i < polygon->n_holes; i++)
    write_ring (writer, NULL, &polygon->holes[i]);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

void
dry_working_write_json (const DryWorking *self, DryJsonWriter *writer, const char *key)
{
  dry_json_begin_object (writer, key);
  dry_json_write_string (writer, "formula", self->formula);
  dry_json_begin_array (writer, "inputs");
  for (guint i = 0; i < self->n_inputs; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_string (writer, "name", self->inputs[i].name);
    dry_json_write_string (writer, "value", self->inputs[i].value);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_write_string (writer, "source", self->source.text);
  dry_json_write_string (writer, "certainty", dry_certainty_to_text (self->source.certainty));
  dry_json_end_object (writer);
}

/* --- faces --- */

static void
write_holes (DryJsonWriter *writer, const DryHole *holes, guint n)
{
  dry_json_begin_array (writer, "holes");
  for (guint i = 0; i < n; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "object", holes[i].object);
    dry_plan_json_point (writer, "centre", holes[i].centre);
    dry_json_write_length (writer, "diameter", holes[i].diameter);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

static void
write_end (DryJsonWriter *writer, const char *key, const DryFaceEnd *end)
{
  dry_json_begin_object_inline (writer, key);
  dry_json_write_integer (writer, "face", end->face);
  dry_json_write_number (writer, "angle", end->angle);
  dry_json_write_length (writer, "inset", end->inset);
  dry_json_end_object (writer);
}

static void
write_basin_on_face (DryJsonWriter *writer, const DryFace *face)
{
  dry_json_write_boolean (writer, "at_basin", face->at_basin);
  if (!face->at_basin)
    return;
  dry_json_write_length (writer, "basin_u0", face->basin_u0);
  dry_json_write_length (writer, "basin_u1", face->basin_u1);
  dry_json_write_length (writer, "deck", face->deck);
  dry_json_write_length (writer, "flange_top", face->flange_top);
  dry_json_write_length (writer, "board_bottom", face->board_bottom);
  dry_json_write_boolean (writer, "leg_left", face->leg_left);
  dry_json_write_boolean (writer, "leg_right", face->leg_right);
}

static void
write_face_edges (DryJsonWriter *writer, const DryFace *face)
{
  write_end (writer, "left", &face->left);
  write_end (writer, "right", &face->right);
  dry_json_write_boolean (writer, "dry_left", face->dry_left);
  dry_json_write_boolean (writer, "dry_right", face->dry_right);
  dry_json_write_boolean (writer, "dry_above", face->dry_above);
  if (face->kind == DRY_FACE_WALL)
    return;
  dry_json_begin_array_inline (writer, "edges");
  for (guint i = 0; i < G_N_ELEMENTS (face->edges); i++)
    dry_json_write_string (writer, NULL, dry_joint_kind_to_text (face->edges[i]));
  dry_json_end_array (writer);
}

static void
write_face (DryJsonWriter *writer, const DryFace *face)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "mark", face->mark);
  dry_json_write_string (writer, "name", face->name);
  dry_json_write_string (writer, "kind", face_kinds[face->kind]);
  dry_json_write_integer (writer, "wall", face->wall);
  dry_json_write_string (writer, "side", face->side == DRY_SIDE_INSIDE ? "inside" : "outside");
  dry_json_write_integer (writer, "object", face->object);
  dry_json_write_length (writer, "length", face->length);
  dry_json_write_length (writer, "height", face->height);
  dry_json_write_length (writer, "strip_x", face->strip_x);
  dry_json_write_number (writer, "area_m2", dry_region_area_m2 (&face->region));
  dry_json_write_length (writer, "wet_top", face->wet_top);
  dry_json_write_length (writer, "wet_u0", face->wet_u0);
  dry_json_write_length (writer, "wet_u1", face->wet_u1);
  write_face_edges (writer, face);
  write_basin_on_face (writer, face);
  dry_json_begin_array (writer, "region");
  for (guint i = 0; i < face->region.n_polygons; i++)
    write_polygon (writer, NULL, &face->region.polygons[i]);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "cutouts");
  for (guint i = 0; i < face->n_cutouts; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_string (writer, "kind", cutout_kinds[face->cutouts[i].kind]);
    dry_json_write_integer (writer, "object", face->cutouts[i].object);
    dry_plan_json_rect (writer, "rough", face->cutouts[i].rough);
    dry_plan_json_rect (writer, "finish", face->cutouts[i].finish);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  write_holes (writer, face->holes, face->n_holes);
  dry_json_end_object (writer);
}

/* --- framing and boards --- */

static void
write_member (DryJsonWriter *writer, const DryMember *member)
{
  dry_json_begin_object_inline (writer, NULL);
  dry_json_write_integer (writer, "face", member->face);
  dry_json_write_string (writer, "kind", member_kinds[member->kind]);
  dry_plan_json_rect (writer, "rect", member->rect);
  dry_json_write_boolean (writer, "added", member->added);
  dry_json_write_integer (writer, "object", member->object);
  dry_json_write_string (writer, "reason", member->reason);
  dry_json_end_object (writer);
}

static void
write_framing (DryJsonWriter *writer, const DryFraming *framing)
{
  dry_json_begin_object (writer, "framing");
  dry_json_begin_array (writer, "members");
  for (guint i = 0; i < framing->n; i++)
    write_member (writer, &framing->items[i]);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "bays");
  for (guint i = 0; i < framing->n_bays; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "face", framing->bays[i].face);
    dry_json_write_length (writer, "u0", framing->bays[i].u0);
    dry_json_write_length (writer, "u1", framing->bays[i].u1);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static void
write_board (DryJsonWriter *writer, const DryBoard *board)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "mark", board->mark);
  dry_json_write_integer (writer, "face", board->face);
  dry_plan_json_rect (writer, "bounds", board->bounds);
  write_polygon (writer, "shape", &board->shape);
  write_holes (writer, board->holes, board->n_holes);
  dry_json_end_object (writer);
}

static void
write_seam (DryJsonWriter *writer, const DrySeam *seam)
{
  dry_json_begin_object_inline (writer, NULL);
  dry_json_write_integer (writer, "face", seam->face);
  dry_plan_json_point (writer, "from", seam->from);
  dry_plan_json_point (writer, "to", seam->to);
  dry_json_write_boolean (writer, "vertical", seam->vertical);
  dry_json_write_integer (writer, "member", seam->member);
  dry_json_write_length (writer, "bearing", seam->bearing);
  dry_json_write_length (writer, "edge_distance", seam->edge_distance);
  dry_json_write_boolean (writer, "needs_second_stud", seam->needs_second_stud);
  if (seam->wish != 0)
    dry_json_write_integer (writer, "wish", seam->wish);
  dry_json_end_object (writer);
}

static void
write_wishes (DryJsonWriter *writer, const DryBoards *boards)
{
  static const char *const states[] = {[DRY_WISH_OBEYED] = "obeyed",
                                       [DRY_WISH_OFF_BOARD] = "off-board",
                                       [DRY_WISH_TOO_NEAR] = "too-near"};

  dry_json_begin_array (writer, "wished_seams");
  for (guint i = 0; i < boards->n_wishes; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "id", boards->wishes[i].wish->id);
    dry_json_write_integer (writer, "face", boards->wishes[i].face);
    dry_json_write_string (writer, "state", states[boards->wishes[i].state]);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
}

static void
write_boards (DryJsonWriter *writer, const DryBoards *boards)
{
  dry_json_begin_array (writer, "boards");
  for (guint i = 0; i < boards->n; i++)
    write_board (writer, &boards->items[i]);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "seams");
  for (guint i = 0; i < boards->n_seams; i++)
    write_seam (writer, &boards->seams[i]);
  dry_json_end_array (writer);
  if (boards->n_wishes > 0)
    write_wishes (writer, boards);
  dry_json_begin_array (writer, "blocking");
  for (guint i = 0; i < boards->n_blocking; i++)
    write_member (writer, &boards->blocking[i]);
  dry_json_end_array (writer);
}

/* --- cutting --- */

static void
write_sheet (DryJsonWriter *writer, const DryCutting *cutting, const DrySheetLayout *sheet)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "stock", cutting->stock[sheet->stock].id);
  if (cutting->stock[sheet->stock].on_hand)
    dry_json_write_boolean (writer, "on_hand", TRUE);
  dry_json_begin_array (writer, "pieces");
  for (guint i = 0; i < sheet->n_placements; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_string (writer, "name", cutting->pieces[sheet->placements[i].piece].name);
    dry_plan_json_rect (writer, "rect", sheet->placements[i].rect);
    dry_json_write_boolean (writer, "turned", sheet->placements[i].turned);
    if (sheet->placements[i].inside >= 0)
      dry_json_write_string (writer, "cut_from_opening_of",
                             cutting->pieces[sheet->placements[i].inside].name);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "cuts");
  for (guint i = 0; i < sheet->n_cuts; i++) {
    dry_json_begin_object_inline (writer, NULL);
    dry_plan_json_rect (writer, "of", sheet->cuts[i].of);
    dry_json_write_boolean (writer, "vertical", sheet->cuts[i].vertical);
    dry_json_write_length (writer, "at", sheet->cuts[i].at);
    dry_json_write_integer (writer, "depth", sheet->cuts[i].depth);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "offcuts");
  for (guint i = 0; i < sheet->n_offcuts; i++)
    dry_plan_json_rect (writer, NULL, sheet->offcuts[i]);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static void
write_cutting (DryJsonWriter *writer, const DryBoards *boards)
{
  const DryCutting *cutting = boards->cutting;
  dry_json_begin_object (writer, "cutting");
  if (cutting) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    DryStanding standing = dry_boards_get_standing (boards);
    dry_json_write_integer (writer, "bought", cutting->n_bought);
    dry_json_write_integer (writer, "least_for_any_boards", boards->least_sheets);
    dry_json_write_string (writer, "standing", dry_standing_to_text (standing, arena));
    dry_json_write_integer (writer, "lower_bound", cutting->lower_bound);
    dry_json_write_boolean (writer, "proven", cutting->proven);
    dry_json_write_number (writer, "waste", cutting->waste);
    dry_json_begin_array (writer, "sheets");
    for (guint i = 0; i < cutting->n_sheets; i++)
      write_sheet (writer, cutting, &cutting->sheets[i]);
    dry_json_end_array (writer);
    dry_json_begin_array (writer, "unplaced");
    for (guint i = 0; i < cutting->n_unplaced; i++)
      dry_json_write_string (writer, NULL, cutting->pieces[cutting->unplaced[i]].name);
    dry_json_end_array (writer);
  }
  dry_json_end_object (writer);
}

void
dry_plan_write_json (const DryPlan *self, DryJsonWriter *writer, const char *key)
{
  dry_json_begin_object (writer, key);
  dry_json_write_string (writer, "room", self->context.room->name);
  dry_json_write_string (writer, "system", self->context.system->id);
  dry_json_write_string (writer, "rule_pack", self->context.rules->id);
  dry_json_begin_object_inline (writer, "build_up");
  dry_json_write_length (writer, "board", self->context.build_up.board);
  dry_json_write_length (writer, "membrane", self->context.build_up.membrane);
  dry_json_write_length (writer, "mortar", self->context.build_up.mortar);
  dry_json_write_length (writer, "tile", self->context.build_up.tile);
  dry_json_write_length (writer, "total", self->context.build_up.total);
  dry_json_end_object (writer);
  dry_json_begin_array (writer, "faces");
  for (guint i = 0; i < self->faces->n; i++)
    write_face (writer, &self->faces->items[i]);
  dry_json_end_array (writer);
  write_framing (writer, self->framing);
  write_boards (writer, self->boards);
  write_cutting (writer, self->boards);
  dry_plan_json_holding (writer, self);
  dry_tiling_write_json (self->tiling, self->faces, writer);
  dry_plan_json_quantities (writer, self);
  dry_plan_json_judgement (writer, self);
  dry_json_end_object (writer);
}
