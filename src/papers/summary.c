/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The first sheet: what the job is, how it is built up, totals, findings and cautions.
 * Repeats the plan's numbers; their workings are on the take-off and order of work. */
#include "base/temperature.h"
#include "papers/papers-private.h"
#include "papers/scale.h"
#include "plan/cutting-standing.h"

static void
add_fact (DryFlow *flow, double x, double width, double *y, const char *label, const char *value)
{
  double label_width = 27, height;

  if (!value || !*value)
    return;
  dry_page_add_text (flow->page, x, *y + 0.3, label_width, dry_type_small, label);
  dry_page_add_text (flow->page, x + label_width, *y, width - label_width, dry_type_body, value);
  height = dry_page_measure (dry_type_body, value, width - label_width);
  *y += height + 0.9;
}

static char *
write_basin (const DryFlow *flow)
{
  const DryBasin *basin = &flow->plan->context.room->basin;
  g_autofree char *l = dry_flow_length (flow->papers, flow->plan, basin->length);
  g_autofree char *w = dry_flow_length (flow->papers, flow->plan, basin->width);
  g_autofree char *h = dry_flow_length (flow->papers, flow->plan, basin->height);

  if (!basin->id)
    return g_strdup ("none yet");
  return g_strdup_printf ("%s %s × %s, %s %s", basin->kind == DRY_BASIN_TUB ? "tub" : "pan", l, w,
                          basin->kind == DRY_BASIN_TUB ? "rim" : "curb", h);
}

static char *
write_tile (const DryFlow *flow)
{
  const DryFinish *finish = &flow->plan->context.room->finish;
  g_autofree char *w = dry_flow_length (flow->papers, flow->plan, finish->tile_width);
  g_autofree char *h = dry_flow_length (flow->papers, flow->plan, finish->tile_height);
  g_autofree char *joint = dry_flow_length (flow->papers, flow->plan, finish->joint);

  if (!finish->tiled)
    return g_strdup ("not chosen yet");
  return g_strdup_printf ("%s × %s, joint %s", w, h, joint);
}

static void
add_job_facts (DryFlow *flow, double x, double width, double *y)
{
  const DryPlanContext *context = &flow->plan->context;
  const DryJob *job = context->job;
  g_autofree char *year =
      job->year_built ? g_strdup_printf ("built %d", job->year_built) : g_strdup ("year unknown");
  g_autofree char *degrees =
      job->metric
          ? dry_flow_number (flow->papers, job->temperature, 1)
          : dry_flow_number (flow->papers, dry_temperature_to_fahrenheit (job->temperature), 0);
  g_autofree char *air = g_strdup_printf ("%s °%c while working", degrees, job->metric ? 'C' : 'F');
  g_autofree char *wet = context->room->wet.height > 0
                             ? dry_flow_length (flow->papers, flow->plan, context->room->wet.height)
                             : g_strdup ("to the ceiling");
  g_autofree char *basin = write_basin (flow), *tile = write_tile (flow);

  add_fact (flow, x, width, y, "Client", job->client);
  add_fact (flow, x, width, y, "House", year);
  add_fact (flow, x, width, y, "Air", air);
  add_fact (flow, x, width, y, "Basin", basin);
  add_fact (flow, x, width, y, "Wet wall height", wet);
  add_fact (flow, x, width, y, "Backer system", context->system->name);
  add_fact (flow, x, width, y, "Tile", tile);
  add_fact (flow, x, width, y, "Rules",
            context->rules && context->rules->name ? context->rules->name : "");
}

static void
add_totals (DryFlow *flow, double x, double width, double *y)
{
  const DryPlan *plan = flow->plan;
  const DryCutting *cutting = plan->boards->cutting;
  g_autofree char *wet = dry_papers_area (flow, plan->coating->wet_area);
  g_autofree char *board = dry_papers_area (flow, plan->coating->board_area);
  g_autofree char *mass = dry_papers_mass (flow, plan->takeoff->mass);
  g_autoptr (DryArena) arena = dry_arena_new ();
  const char *standing = dry_standing_to_text (dry_boards_get_standing (plan->boards), arena);
  g_autofree char *boards = g_strdup_printf (
      "%u pieces from %u sheet%s%s%s", plan->boards->n, cutting ? cutting->n_sheets : 0,
      cutting && cutting->n_sheets == 1 ? "" : "s", *standing ? ", " : "", standing);
  g_autofree char *screws = g_strdup_printf ("%u", plan->fasteners->n);
  g_autofree char *cost = dry_papers_money (flow->papers, plan->takeoff->cost);
  g_autofree char *sample = cost ? g_strdup_printf ("%s at sample prices", cost) : NULL;
  g_autofree char *hours = dry_flow_number (flow->papers, plan->order->hours, 1);
  g_autofree char *work = g_strdup_printf ("%s h, one installer", hours);
  g_autofree char *least = dry_flow_number (flow->papers, plan->order->hours_to_tile_min, 0);
  g_autofree char *most = dry_flow_number (flow->papers, plan->order->hours_to_tile_max, 0);
  g_autofree char *tile = g_str_equal (least, most)
                              ? g_strdup_printf ("%s h after the start", least)
                              : g_strdup_printf ("%s to %s h after the start", least, most);
  g_autofree char *open = g_strdup_printf (
      "%u stop, %u fix before tiling, %u advice", plan->findings->count[DRY_SEVERITY_STOP],
      plan->findings->count[DRY_SEVERITY_FIX], plan->findings->count[DRY_SEVERITY_ADVICE]);

  add_fact (flow, x, width, y, "Wet wall area", wet);
  add_fact (flow, x, width, y, "Board hung", board);
  add_fact (flow, x, width, y, "Boards", boards);
  add_fact (flow, x, width, y, "Weight of board", mass);
  add_fact (flow, x, width, y, "Fasteners", screws);
  add_fact (flow, x, width, y, "Material", sample);
  add_fact (flow, x, width, y, "Hands-on work", work);
  add_fact (flow, x, width, y, "Tiling can start", tile);
  add_fact (flow, x, width, y, "Findings", open);
}

static void
add_build_up (DryFlow *flow)
{
  const DryPlanContext *context = &flow->plan->context;
  g_autoptr (DryScene) scene = dry_drawing_section (context->system, &context->build_up);
  g_autofree char *scale = NULL, *text = NULL, *total = NULL;
  double height = 38;

  if (context->build_up.total <= 0)
    return;
  dry_flow_heading (flow, "Build-up of the wet wall", height + 8);
  scale = dry_scale_to_text (
      context->job->metric,
      dry_papers_place_scene (flow, scene, flow->left, flow->y, flow->width, height));
  dry_flow_skip (flow, height);
  total = dry_flow_length (flow->papers, flow->plan, context->build_up.total);
  text = g_strdup_printf ("Level section at a seam over a stud, %s. From the stud's face to the "
                          "tile's face: %s.",
                          scale, total);
  dry_flow_text (flow, dry_type_small, 0, text);
}

void
dry_papers_add_summary (DryFlow *flow)
{
  const DryPlanContext *context = &flow->plan->context;
  double gutter = 8, half = (flow->width - gutter) / 2, y0, left_y, right_y;

  dry_flow_begin (flow, "Summary");
  flow->y = flow->top;
  g_array_set_size (flow->page->items, 0);
  dry_flow_text (flow, dry_type_title, 0, context->job->title);
  dry_flow_text (flow, (DryType){12, FALSE, DRY_INK_TEXT_FAINT, DRY_ALIGN_LEFT}, 0,
                 dry_flow_room_name (flow->plan));
  dry_flow_skip (flow, 3);
  dry_page_add_line (flow->page, DRY_INK_LINE, DRY_PEN_035, flow->left, flow->y, flow->width, 0);
  dry_flow_skip (flow, 2.5);
  y0 = left_y = right_y = flow->y;
  dry_page_add_text (flow->page, flow->left, y0, half, dry_type_heading, "The job");
  dry_page_add_text (flow->page, flow->left + half + gutter, y0, half, dry_type_heading, "Totals");
  left_y = right_y = y0 + 6;
  add_job_facts (flow, flow->left, half, &left_y);
  add_totals (flow, flow->left + half + gutter, half, &right_y);
  flow->y = MAX (left_y, right_y) + 1;
  if (context->job->note)
    dry_flow_text (flow, dry_type_body, 0, context->job->note);
  add_build_up (flow);
  dry_papers_add_findings (flow);
  dry_papers_add_cautions (flow);
}
