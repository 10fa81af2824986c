/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the faces of layout-choice.h and holds choosers to one order. It chooses nothing itself.
 */
#include "layout-choice.h"

static DryLayout *
make_layout (const LayoutWay *way)
{
  DryLayout *layout = g_new0 (DryLayout, 1);
  *layout = (DryLayout){.faults = way->faults, .effort = way->effort, .pieces = way->pieces};
  while (layout->n_pieces < G_N_ELEMENTS (way->pieces) && way->pieces[layout->n_pieces].width > 0)
    layout->n_pieces++;
  return layout;
}

void
layout_choice_add_face (LayoutChoice *self, const DryStock *stock, guint n_stock,
                        const LayoutWay *ways, guint n_ways)
{
  guint at = self->n++;
  self->faces[at] = (DryBoardFace){.stock = stock, .n_stock = n_stock};
  self->pointers[at] = &self->faces[at];
  self->layouts[at] = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n_ways; i++)
    g_ptr_array_add (self->layouts[at], make_layout (&ways[i]));
  self->chosen[at] = g_ptr_array_index (self->layouts[at], 0);
}

guint
layout_choice_get_way (const LayoutChoice *self, guint face)
{
  guint at = G_MAXUINT;
  g_ptr_array_find (self->layouts[face], self->chosen[face], &at);
  return at;
}

void
layout_choice_clear (LayoutChoice *self)
{
  for (guint i = 0; i < self->n; i++)
    g_ptr_array_unref (self->layouts[i]);
}

static const struct {
  const char *what;
  LayoutWay ways[2];
  guint stays, sheets; /* of the way that stays */
} CASES[] = {
    {"a rule kept for a sheet more", {{1, 0, {FULL (48)}}, {0, 0, {FULL (48), FULL (20)}}}, 1, 2},
    {"no rule broken for a sheet less",
     {{0, 0, {FULL (48), FULL (20)}}, {1, 0, {FULL (48)}}},
     0,
     2},
    {"a piece no sheet holds is cut for a sheet more",
     {{0, 0, {FULL (60)}}, {0, 9, {FULL (30), FULL (30)}}},
     1,
     2},
    {"a sheet less for more seam",
     {{0, 0, {FULL (30), FULL (30)}}, {0, 900, {FULL (24), FULL (24)}}},
     1,
     1},
    {"no sheet more for less seam",
     {{0, 900, {FULL (24), FULL (24)}}, {0, 0, {FULL (30), FULL (30)}}},
     0,
     1},
    {"less seam of as many sheets",
     {{0, 9, {FULL (20), FULL (20)}}, {0, 8, {FULL (20), FULL (21)}}},
     1,
     1},
    {"fewer pieces of as much seam",
     {{0, 9, {FULL (20), FULL (10), FULL (10)}}, {0, 9, {FULL (20), FULL (20)}}},
     1,
     1},
    {"less money for as many pieces", /* the shorter sheet is the cheaper */
     {{0, 9, {FULL (30)}}, {0, 9, {{"p", 30 * DRY_INCH, 60 * DRY_INCH, FALSE}}}},
     1,
     1},
    {"no more money for as many pieces",
     {{0, 9, {{"p", 30 * DRY_INCH, 60 * DRY_INCH, FALSE}}}, {0, 9, {FULL (30)}}},
     0,
     1},
};
static const DryStock STOCK[] = {{"4x8", 48 * DRY_INCH, 96 * DRY_INCH, 9600, -1},
                                 {"3x5", 36 * DRY_INCH, 60 * DRY_INCH, 4600, -1}};

void
layout_choice_set_area (LayoutChoice *self, double sheets, DryArena *arena)
{
  DryPlanContext *context = dry_arena_alloc (arena, sizeof (DryPlanContext));
  DryRect share = {0, 0, (DryLength) (sheets / self->n * 48 * DRY_INCH), 96 * DRY_INCH};
  context->arena = arena;
  for (guint i = 0; i < self->n; i++) {
    DryFace *face = dry_arena_alloc (arena, sizeof (DryFace));
    face->region = dry_region_from_rect (arena, share);
    self->faces[i].face = face;
    self->faces[i].context = context;
  }
}

void
layout_choice_check_ways (void (*choose) (LayoutChoice *choice))
{
  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autoptr (DryArena) arena = dry_arena_new ();
    LayoutChoice choice = {0};
    layout_choice_add_face (&choice, STOCK, G_N_ELEMENTS (STOCK), CASES[i].ways, 2);
    layout_choice_set_area (&choice, CASES[i].sheets, arena);
    choose (&choice);
    if (layout_choice_get_way (&choice, 0) != CASES[i].stays)
      g_error ("%s: not kept to", CASES[i].what);
    layout_choice_clear (&choice);
  }
}
