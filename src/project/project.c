/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project value: counted, never changed, and the alcove a new one begins with.
 * Knows neither edits nor how a file is laid out. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/project.h"

#include <string.h>

#include "project/alternate.h"
#include "project/fields.h"
#include "project/file.h"
#include "project/project-private.h"

struct _DryProject {
  gatomicrefcount references;
  DryJob job;
  GPtrArray *boxes;
  GPtrArray *alternates; /* of DryAlternate; NULL for none */
  DryId next_id;
};

DryRoomBox *
dry_room_box_new (DryRoom *room)
{
  DryRoomBox *self = g_new0 (DryRoomBox, 1);

  g_atomic_ref_count_init (&self->references);
  self->room = room;
  return self;
}

DryRoomBox *
dry_room_box_ref (DryRoomBox *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
dry_room_box_unref (DryRoomBox *self)
{
  if (!g_atomic_ref_count_dec (&self->references))
    return;
  dry_room_free (self->room);
  g_free (self);
}

DryProject *
dry_project_assemble (const DryJob *job, GPtrArray *boxes, GPtrArray *alternates, DryId next_id)
{
  DryProject *self = g_new0 (DryProject, 1);

  g_atomic_ref_count_init (&self->references);
  self->job = *job;
  self->job.metric = job->metric != FALSE;
  dry_fields_own (&dry_job_fields, &self->job);
  self->boxes = boxes;
  self->alternates = alternates;
  self->next_id = next_id;
  return self;
}

GPtrArray *
dry_project_share_boxes (const DryProject *self)
{
  GPtrArray *boxes =
      g_ptr_array_new_full (self->boxes->len + 1, (GDestroyNotify) dry_room_box_unref);

  for (guint i = 0; i < self->boxes->len; i++)
    g_ptr_array_add (boxes, dry_room_box_ref (g_ptr_array_index (self->boxes, i)));
  return boxes;
}

guint
dry_project_find_room (const DryProject *self, DryId id)
{
  for (guint i = 0; i < self->boxes->len; i++)
    if (((const DryRoomBox *) self->boxes->pdata[i])->room->id == id)
      return i;
  return self->boxes->len;
}

static void
fill_alcove_walls (DryRoom *room)
{
  /* 5 x 8 ft between studs, clockwise from the north-west corner. */
  const DryPoint corners[] = {
      {0, 96 * DRY_INCH}, {60 * DRY_INCH, 96 * DRY_INCH}, {60 * DRY_INCH, 0}, {0, 0}};

  room->n_walls = room->n_outline = G_N_ELEMENTS (corners);
  room->walls = g_new0 (DryWall, room->n_walls);
  for (guint i = 0; i < room->n_walls; i++) {
    DryWall *wall = &room->walls[i];

    dry_fields_reset (&dry_wall_fields, wall);
    wall->id = 2 + i;
    wall->start = corners[i];
    wall->end = corners[(i + 1) % room->n_walls];
  }
  /* Studs of the plumbing wall stand clear of the tub's centre line, where valve and spout go. */
  room->walls[1].plumbing = TRUE;
  room->walls[1].first_stud = 7 * DRY_INCH;
}

static DryRoom *
make_alcove (void)
{
  DryRoom *room = g_new0 (DryRoom, 1);

  room->id = 1;
  room->name = g_strdup ("Bathroom");
  room->ceiling = 96 * DRY_INCH;
  fill_alcove_walls (room);
  room->basin = (DryBasin){
      .id = 6,
      .kind = DRY_BASIN_TUB,
      .item = g_strdup ("tub-60x30"),
      .wall = 2,
      .length = 60 * DRY_INCH,
      .width = 30 * DRY_INCH,
      .height = 15 * DRY_INCH,
      .flange = DRY_INCH,
      .drain = DRY_END_RIGHT,
      .drain_diameter = 3 * DRY_INCH / 2,
  };
  room->wet = (DryWetZone){.past = 2 * DRY_INCH, .leg = TRUE};
  room->finish = (DryFinish){
      .system = g_strdup ("foam-bands"),
      .tile = g_strdup ("tile-12x24"),
      .tile_width = 24 * DRY_INCH,
      .tile_height = 12 * DRY_INCH,
      .tile_thickness = 5 * DRY_INCH / 16,
      .joint = DRY_INCH / 8,
      .mortar = DRY_INCH / 8,
      .tiled = TRUE,
  };
  return room;
}

DryProject *
dry_project_new (void)
{
  GPtrArray *boxes = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_room_box_unref);
  DryJob job = {.title = (char *) "New bathroom",
                .rule_pack = (char *) "us-residential",
                .temperature = 21,
                .denominator = 16};

  g_ptr_array_add (boxes, dry_room_box_new (make_alcove ()));
  return dry_project_assemble (&job, boxes, NULL, 7);
}

DryProject *
dry_project_ref (const DryProject *self)
{
  DryProject *counted = (DryProject *) self; /* only the count changes */

  g_atomic_ref_count_inc (&counted->references);
  return counted;
}

void
dry_project_unref (DryProject *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->references))
    return;
  dry_fields_clear (&dry_job_fields, &self->job);
  g_ptr_array_unref (self->boxes);
  g_clear_pointer (&self->alternates, g_ptr_array_unref);
  g_free (self);
}

const DryJob *
dry_project_get_job (const DryProject *self)
{
  return &self->job;
}

guint
dry_project_get_n_rooms (const DryProject *self)
{
  return self->boxes->len;
}

const DryRoom *
dry_project_get_room_at (const DryProject *self, guint index)
{
  const DryRoomBox *box = index < self->boxes->len ? g_ptr_array_index (self->boxes, index) : NULL;

  return box != NULL ? box->room : NULL;
}

const DryRoom *
dry_project_get_room (const DryProject *self, DryId id)
{
  return dry_project_get_room_at (self, dry_project_find_room (self, id));
}

guint
dry_project_get_n_alternates (const DryProject *self)
{
  return self->alternates != NULL ? self->alternates->len : 0;
}

const DryAlternate *
dry_project_get_alternate_at (const DryProject *self, guint index)
{
  return index < dry_project_get_n_alternates (self) ? self->alternates->pdata[index] : NULL;
}

DryId
dry_project_get_next_id (const DryProject *self)
{
  return self->next_id;
}

gboolean
dry_project_equal (const DryProject *a, const DryProject *b)
{
  g_autofree char *a_text = NULL, *b_text = NULL;
  gsize a_length, b_length;

  if (a == b)
    return TRUE;
  a_text = dry_project_to_text (a, &a_length);
  b_text = dry_project_to_text (b, &b_length);
  return a_length == b_length && memcmp (a_text, b_text, a_length) == 0;
}
