/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tile stage's answer as JSON: counts, then each face's datum, cuts at the edges and, as pieces
 * that are cut, what is left of them. Reckons nothing. */
#include "plan/plan-json-private.h"

static const char *const cuts[] = {"whole", "cut", "shaped"};

static void
write_lengths (DryJsonWriter *writer, const char *key, const DryLength *lengths, guint n)
{
  dry_json_begin_array_inline (writer, key);
  for (guint i = 0; i < n; i++)
    dry_json_write_length (writer, NULL, lengths[i]);
  dry_json_end_array (writer);
}

static void
write_face (DryJsonWriter *writer, const DryFaces *faces, const DryTileFace *face)
{
  dry_json_begin_object (writer, NULL);
  dry_json_write_string (writer, "face", faces->items[face->face].mark);
  dry_plan_json_point (writer, "datum", face->datum);
  dry_json_write_string (writer, "across", face->why_u);
  dry_json_write_string (writer, "up", face->why_z);
  dry_json_write_number (writer, "area_m2", face->area);
  dry_json_write_number (writer, "joint_area_m2", face->joint_area);
  dry_json_write_integer (writer, "whole", face->n_whole);
  dry_json_write_integer (writer, "cut", face->n_cut);
  dry_json_write_length (writer, "left", face->left_cut);
  dry_json_write_length (writer, "right", face->right_cut);
  dry_json_write_length (writer, "bottom", face->bottom_cut);
  dry_json_write_length (writer, "top", face->top_cut);
  dry_json_write_length (writer, "trim", face->trim);
  dry_json_write_length (writer, "trim_over_cuts", face->trim_cut);
  dry_json_write_boolean (writer, "whole_at_open_left", face->whole_left);
  dry_json_write_boolean (writer, "whole_at_open_right", face->whole_right);
  dry_json_write_number (writer, "smallest_share", face->smallest_share);
  dry_json_write_number (writer, "best_share", face->best_share);
  write_lengths (writer, "level_joints", face->level, face->n_level);
  write_lengths (writer, "upright_joints", face->upright, face->n_upright);
  dry_json_begin_array_inline (writer, "movement_joints");
  for (guint i = 0; i < face->n_breaks; i++)
    dry_json_write_length (writer, NULL, face->breaks[i].from.x);
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "cuts");
  for (guint i = 0; i < face->n_pieces; i++) {
    const DryTilePiece *piece = &face->pieces[i];

    if (piece->cut == DRY_TILE_WHOLE)
      continue;
    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "number", piece->kind + 1);
    dry_json_write_string (writer, "kind", cuts[piece->cut]);
    dry_plan_json_rect (writer, "bounds", piece->bounds);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}

static void
write_sheet (const DryTiling *self, DryJsonWriter *writer)
{
  dry_json_begin_object (writer, "sheets");
  dry_json_write_integer (writer, "across", self->sheet_across);
  dry_json_write_integer (writer, "up", self->sheet_up);
  dry_json_write_integer (writer, "whole", self->n_whole_sheets);
  dry_json_write_integer (writer, "cut", self->n_part_sheets);
  dry_json_write_integer (writer, "spare", self->n_spare);
  dry_json_write_integer (writer, "total", self->n_sheets);
  dry_json_end_object (writer);
}

void
dry_tiling_write_json (const DryTiling *self, const DryFaces *faces, DryJsonWriter *writer)
{
  if (self->n_faces == 0)
    return;
  dry_json_begin_object (writer, "tile");
  dry_json_write_length (writer, "width", self->width);
  dry_json_write_length (writer, "height", self->height);
  dry_json_write_length (writer, "joint", self->joint);
  if (self->why_joint != NULL)
    dry_json_write_string (writer, "why_joint", self->why_joint);
  dry_json_write_number (writer, "area_m2", self->area);
  dry_json_write_number (writer, "joint_area_m2", self->joint_area);
  dry_json_write_length (writer, "trim", self->trim);
  dry_json_write_length (writer, "trim_over_cuts", self->trim_cut);
  dry_json_write_length (writer, "movement_joints", self->movement);
  dry_json_begin_array (writer, "counts");
  for (guint i = 0; i < self->n_counts; i++) {
    dry_json_begin_object (writer, NULL);
    dry_json_write_string (writer, "name", self->counts[i].name);
    dry_json_write_number (writer, "amount", self->counts[i].amount);
    dry_working_write_json (&self->counts[i].working, writer, "working");
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  if (self->sheet_across > 0)
    write_sheet (self, writer);
  dry_json_begin_array (writer, "cut_list");
  for (guint i = 0; i < self->n_kinds; i++) {
    const DryTileKind *kind = &self->kinds[i];

    dry_json_begin_object_inline (writer, NULL);
    dry_json_write_integer (writer, "number", i + 1);
    dry_json_write_string (writer, "kind", cuts[kind->cut]);
    dry_json_write_length (writer, "width", kind->width);
    dry_json_write_length (writer, "height", kind->height);
    dry_json_write_integer (writer, "count", kind->count);
    dry_json_end_object (writer);
  }
  dry_json_end_array (writer);
  dry_json_begin_array (writer, "faces");
  for (guint i = 0; i < self->n_faces; i++)
    write_face (writer, faces, &self->faces[i]);
  dry_json_end_array (writer);
  dry_json_end_object (writer);
}
