/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The size of a niche solved with its place: no size of a grid of 1/16 in, each placed as well as
 * it can be, costs less than the one that was chosen. */
#include "plan/advice-rig.h"

typedef struct {
  const DryProject *project;
  DryPart niche;
  double least; /* points of the size chosen */
  guint tried;
} Grid;

/* Every size is asked for anew, as if the user had typed it. */
static void
try_size (Grid *self, DryLength width, DryLength height)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryPart niche = self->niche;
  g_autoptr (DryAdvice) advice = NULL;
  const DryAdvicePlace *places;
  guint n;

  niche.width = width;
  niche.height = height;
  advice = advice_rig_advise (self->project, &niche, NULL);
  places = dry_advice_find_best (advice, arena, (DryAdviceFreedom){0}, 1, &n);
  self->tried++;
  if (n > 0 && places[0].points < self->least - 1e-6)
    g_error ("%.4f x %.4f in costs %.3f at %.4f, %.4f in; the size chosen %.3f",
             dry_length_to_inches (width), dry_length_to_inches (height), places[0].points,
             dry_length_to_inches (places[0].u), dry_length_to_inches (places[0].z), self->least);
}

static void
try_grid (Grid *self, const DryAdviceFreedom *free, const DryAdvicePlace *best)
{
  DryLength fine = DRY_INCH / 16, coarse = DRY_INCH / 2;
  const DryLength widths[] = {best->width, self->niche.width, free->width_min, free->width_max};
  const DryLength heights[] = {best->height, self->niche.height, free->height_min,
                               free->height_max};

  for (DryLength w = free->width_min; w <= free->width_max; w += coarse)
    for (DryLength h = free->height_min; h <= free->height_max; h += coarse)
      try_size (self, w, h);
  for (guint i = 0; i < 2; i++) {
    for (DryLength w = free->width_min; w <= free->width_max; w += fine)
      try_size (self, w, heights[i]);
    for (DryLength h = free->height_min; h <= free->height_max; h += fine)
      try_size (self, widths[i], h);
  }
}

static void
test_sizes (gconstpointer data)
{
  const char *file = data;
  g_autoptr (DryProject) project = dry_test_load (file);
  g_autoptr (DryArena) arena = dry_arena_new ();
  g_autoptr (DryAdvice) advice = NULL;
  DryAdviceFreedom free = {.size = TRUE,
                           .width_min = 11 * DRY_INCH,
                           .width_max = 14 * DRY_INCH,
                           .height_min = 12 * DRY_INCH,
                           .height_max = 15 * DRY_INCH};
  Grid grid = {.project = project, .niche = advice_rig_small_niche (project, 2)};
  const DryAdvicePlace *places, *fixed;
  guint n;

  grid.niche.site_built = TRUE;
  grid.niche.width = 12 * DRY_INCH;
  grid.niche.height = 14 * DRY_INCH;
  advice = advice_rig_advise (project, &grid.niche, NULL);
  places = dry_advice_find_best (advice, arena, free, 1, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (places[0].width, >=, free.width_min);
  g_assert_cmpint (places[0].width, <=, free.width_max);
  g_assert_cmpint (places[0].height, >=, free.height_min);
  g_assert_cmpint (places[0].height, <=, free.height_max);
  grid.least = places[0].points;
  fixed = dry_advice_find_best (advice, arena, (DryAdviceFreedom){0}, 1, &n);
  if (n > 0)
    g_assert_cmpfloat (grid.least, <=, fixed[0].points + 1e-9);
  g_test_message ("%s: %.4f x %.4f in, %.2f points", file, dry_length_to_inches (places[0].width),
                  dry_length_to_inches (places[0].height), grid.least);
  try_grid (&grid, &free, &places[0]);
  g_assert_cmpuint (grid.tried, >, 200);
}

int
main (int argc, char **argv)
{
  static const char *const files[] = {"01-alcove.drybay", "03-window-wall.drybay",
                                      "13-ex-tub.drybay"};

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autofree char *path = g_strdup_printf ("/advisor/sizes/%s", files[i]);

    g_test_add_data_func (path, files[i], test_sizes);
  }
  return g_test_run ();
}
