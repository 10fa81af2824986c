/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms no one would build, for invariants: angles, added walls, gaps, parts anywhere, some larger
 * than their wall. Deterministic by seed. */
#include "site.h"

void
site_set_up_wild (Site *site, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
#define ROLL(a, b) ((double) g_rand_int_range (rand, (a) *16, (b) *16 + 1) / 16)
  double width = ROLL (50, 90), cut = ROLL (0, 20);
  const double corners[] = {0,          96, width, 96, width + ROLL (-10, 20), 96 - 1 - cut,
                            width + 20, 0,  0,     0};
  guint n_parts = g_rand_int_range (rand, 0, 12);

  site_set_up (site, corners, 5);
  site->room.ceiling = IN (ROLL (84, 120));
  site->room.basin.along = IN (ROLL (0, 6));
  site->room.basin.away = IN (ROLL (0, 3));
  site->room.basin.turned = g_rand_int_range (rand, 0, 4) == 0;
  site->room.basin.drop_in = g_rand_int_range (rand, 0, 4) == 0;
  site->room.wet = (DryWetZone){.height = IN (ROLL (0, 110)),
                                .past = IN (ROLL (0, 24)),
                                .leg = g_rand_boolean (rand),
                                .ceiling = g_rand_boolean (rand)};
  if (g_rand_boolean (rand)) {
    double x = ROLL (40, 70);

    site_add_wall (site, x, 96, x + ROLL (-4, 4), 96 - ROLL (10, 50), ROLL (10, 100));
  }
  for (guint i = 0; i < site->room.n_walls; i++) {
    site->walls[i].first_stud = IN (ROLL (0, 20));
    site->walls[i].stud_spacing = IN (ROLL (1, 24));
    site->walls[i].bearing = g_rand_boolean (rand);
  }
  for (guint i = 0; i < n_parts; i++) {
    DryPart *part =
        site_add_part (site, (DryPartKind) g_rand_int_range (rand, 0, DRY_N_PART_KINDS),
                       g_rand_int_range (rand, 0, (gint) site->room.n_walls), ROLL (-5, 80),
                       ROLL (0, 90), ROLL (1, 40), ROLL (1, 40), ROLL (0, 20));

    part->hole = IN (ROLL (0, 3));
    part->site_built = g_rand_boolean (rand);
    part->body_width = part->site_built ? 0 : part->width + IN (2);
    part->fold_down = g_rand_boolean (rand);
    part->side = g_rand_int_range (rand, 0, 4) == 0 ? DRY_SIDE_OUTSIDE : DRY_SIDE_INSIDE;
  }
  for (gint i = g_rand_int_range (rand, 0, 3); i > 0; i--)
    site_add_opening (site, DRY_OPENING_WINDOW, g_rand_int_range (rand, 0, 5), ROLL (-5, 70),
                      ROLL (0, 90), ROLL (4, 60), ROLL (4, 60));
#undef ROLL
}
