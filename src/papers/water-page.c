/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page with the water's way: the walls side by side with every way down and every break, and
 * below them the breaks in words. Says what the plan found and that the papers never permit. */
#include "papers/papers-private.h"

void
dry_papers_add_water (DryFlow *flow)
{
  const DryWater *water = flow->plan->water;
  g_autoptr (DryScene) scene = NULL;
  double high;

  if (!water || !water->n_paths)
    return;
  scene = dry_drawing_water (flow->plan);
  dry_flow_begin (flow, "Water's way");
  high = dry_flow_left_over (flow) * 0.6;
  dry_papers_place_scene (flow, scene, flow->left, flow->y, flow->width, high);
  dry_flow_skip (flow, high + 4);
  if (water->closed)
    dry_flow_text (flow, dry_type_strong, 0,
                   "Closed: every drop reaches the drain, and the watertight layer of this system "
                   "has no break in this plan.");
  for (guint i = 0; i < water->n_breaks; i++) {
    const DryWaterBreak *it = &water->breaks[i];
    g_autofree char *line = it->n > 1 ? g_strdup_printf ("Break: %s (%u places)", it->text, it->n)
                                      : g_strdup_printf ("Break: %s", it->text);
    dry_flow_text (flow, dry_type_body, 0, line);
  }
  dry_flow_skip (flow, 2);
  dry_flow_text (flow, dry_type_small, 0,
                 "Dotted lines are where water runs, crosses where it gets behind. Drawn from the "
                 "plan; what is built is for the flood test and the inspector to say.");
}
