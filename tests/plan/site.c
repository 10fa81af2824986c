/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the hand-made rooms of site.h. Knows the values of the project and no plan stage but the
 * two it runs. */
#include "site.h"

static DryWall
make_wall (DryId id)
{
  return (DryWall){.id = id,
                   .stud_width = IN (1.5),
                   .stud_depth = IN (3.5),
                   .stud_spacing = IN (16),
                   .first_stud = IN (16),
                   .lining = IN (0.5)};
}

static void
set_up_system (Site *self)
{
  self->system = (DrySystem){.id = "site",
                             .corner_gap = IN (0.125),
                             .basin_datum = DRY_DATUM_DECK,
                             .basin_gap = {.value = IN (1)}};
  self->context.system = &self->system;
  self->context.build_up = (DryBuildUp){.board = IN (0.5),
                                        .membrane = IN (0.0625),
                                        .mortar = IN (0.25),
                                        .tile = IN (0.375),
                                        .total = IN (1.1875)};
}

void
site_set_up (Site *self, const double *corners, guint n_corners)
{
  *self = (Site){0};
  set_up_system (self);
  self->context.arena = dry_arena_new ();
  self->room = (DryRoom){.id = 1, .ceiling = IN (96)};
  self->room.walls = self->walls;
  self->room.parts = self->parts;
  self->room.openings = self->openings;
  self->room.n_walls = self->room.n_outline = n_corners;
  for (guint i = 0; i < n_corners; i++) {
    guint j = (i + 1) % n_corners;

    self->walls[i] = make_wall (10 + i);
    self->walls[i].start = (DryPoint){IN (corners[2 * i]), IN (corners[2 * i + 1])};
    self->walls[i].end = (DryPoint){IN (corners[2 * j]), IN (corners[2 * j + 1])};
  }
  self->room.basin = (DryBasin){.id = 2,
                                .kind = DRY_BASIN_TUB,
                                .wall = 10,
                                .length = IN (60),
                                .width = IN (30),
                                .height = IN (15),
                                .flange = IN (1)};
  self->room.wet = (DryWetZone){.past = IN (2), .leg = TRUE};
  self->context.room = &self->room;
}

void
site_set_up_alcove (Site *self)
{
  static const double corners[] = {0, 96, 60, 96, 60, 0, 0, 0};

  site_set_up (self, corners, 4);
}

DryPart *
site_add_part (Site *self, DryPartKind kind, guint wall, double u, double z, double width,
               double height, double depth)
{
  DryPart *part = &self->parts[self->room.n_parts++];

  *part = (DryPart){.id = 100 + self->room.n_parts,
                    .kind = kind,
                    .wall = self->walls[wall].id,
                    .u = IN (u),
                    .z = IN (z),
                    .width = IN (width),
                    .height = IN (height),
                    .depth = IN (depth)};
  return part;
}

DryOpening *
site_add_opening (Site *self, DryOpeningKind kind, guint wall, double u, double z, double width,
                  double height)
{
  DryOpening *opening = &self->openings[self->room.n_openings++];

  *opening = (DryOpening){.id = 200 + self->room.n_openings,
                          .kind = kind,
                          .wall = self->walls[wall].id,
                          .u = IN (u),
                          .z = IN (z),
                          .width = IN (width),
                          .height = IN (height)};
  return opening;
}

DryWall *
site_add_wall (Site *self, double x0, double y0, double x1, double y1, double height)
{
  DryWall *wall = &self->walls[self->room.n_walls];

  *wall = make_wall (10 + self->room.n_walls++);
  wall->added = TRUE;
  wall->start = (DryPoint){IN (x0), IN (y0)};
  wall->end = (DryPoint){IN (x1), IN (y1)};
  wall->height = IN (height);
  wall->thickness = IN (3.5);
  return wall;
}

void
site_compute (Site *self)
{
  g_autoptr (GError) error = NULL;

  self->faces = dry_faces_compute (&self->context, &error);
  g_assert_no_error (error);
  self->framing = dry_framing_compute (&self->context, self->faces, &error);
  g_assert_no_error (error);
}

void
site_tear_down (Site *self)
{
  dry_arena_unref (self->context.arena);
}

const DryFace *
site_face (const Site *self, guint wall)
{
  const DryFace *inside = dry_faces_get_wall (self->faces, self->walls[wall].id, DRY_SIDE_INSIDE);
  const DryFace *outside = dry_faces_get_wall (self->faces, self->walls[wall].id, DRY_SIDE_OUTSIDE);

  g_assert_true (inside || outside);
  return inside ? inside : outside;
}

const DryFace *
site_find_face (const Site *site, const char *name)
{
  for (guint i = 0; i < site->faces->n; i++)
    if (g_str_equal (site->faces->items[i].name, name))
      return &site->faces->items[i];
  g_error ("no face “%s”", name);
}

void
site_check_small (const Site *site, const char *name, double length, double height,
                  DryJointKind left, DryJointKind top, DryJointKind right, DryJointKind bottom)
{
  const DryFace *face = site_find_face (site, name);
  DryRect bounds = dry_region_bounds (&face->region);

  g_assert_cmpint (face->length, ==, IN (length));
  g_assert_cmpint (face->height, ==, IN (height));
  g_assert_cmpint (bounds.x1, ==, IN (length));
  g_assert_cmpint (bounds.y1, ==, IN (height));
  g_assert_cmpint (face->edges[0], ==, left);
  g_assert_cmpint (face->edges[1], ==, top);
  g_assert_cmpint (face->edges[2], ==, right);
  g_assert_cmpint (face->edges[3], ==, bottom);
}
