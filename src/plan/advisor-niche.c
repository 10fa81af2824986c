/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a niche is asked: bay, studs, what is hidden behind, depth, reach, spray, seams, bottles.
 * The limits are the rule pack's; what no rule covers is common practice and says so. */
#include "plan/advisor-private.h"

#include <string.h>

#include "plan/faces-private.h"

#define FAR DRY_LENGTH_MAX

static gboolean
is_ready_made (const DryAdviceWork *self)
{
  return self->part->body_width > 0;
}

static DryLength
depth_needed (const DryAdviceWork *self, const DryPart *niche)
{
  DryLength board = niche->body_width > 0 ? self->context->build_up.board : 0;

  return MAX (0, niche->depth - board);
}

static void
gather_facts (DryAdviceWork *self)
{
  const DryWall *wall = self->wall;
  DryLength cavity = dry_wall_depth (wall), need = depth_needed (self, self->part);

  dry_advice_fact_yes (self, "ready-made", is_ready_made (self));
  dry_advice_fact_yes (self, "bearing-wall", wall->bearing);
  dry_advice_fact_yes (self, "exterior-wall", wall->exterior);
  dry_advice_fact_yes (self, "fire-rated-wall", wall->fire_rated);
  dry_advice_fact_length (self, "body", dry_rect_width (self->body));
  dry_advice_fact_length (self, "width", self->part->width);
  dry_advice_fact_length (self, "clear-height", self->part->height);
  dry_advice_fact_length (self, "depth", self->part->depth);
  dry_advice_fact_length (self, "cavity", cavity);
  dry_advice_fact_length (self, "cavity-needed", need);
  if (wall->exterior)
    dry_advice_fact_length (self, "insulation-behind",
                            MAX (0, MIN (wall->insulation, cavity - need)));
  dry_advice_fact_number (self, "pitch", self->part->pitch * 100);
}

/* --- studs and bays --- */

static DryStanding
stud_at (const DryAdviceWork *self, guint index)
{
  return g_array_index (self->standing, DryStanding, index);
}

static void
keep_off_stud (DryAdviceWork *self, guint index, double fixed, const char *kind)
{
  DryStanding stud = stud_at (self, index);

  dry_advice_keep_off (
      self, self->body, (DryRect){stud.u0, -FAR, stud.u1, FAR}, fixed,
      dry_arena_printf (self->context->arena, "the %s at %s", kind,
                        dry_advice_text (self, stud.u0 + (stud.u1 - stud.u0) / 2)));
}

/* The studs at the ends hold the corner, those beside an opening its header: they cannot be cut,
 * and no more can the plates. */
static gboolean
is_fixed_stud (const DryAdviceWork *self, guint index)
{
  DryStanding stud = stud_at (self, index);
  const DryRoom *room = self->context->room;

  if (index == 0 || index + 1 == self->standing->len)
    return TRUE;
  for (guint i = 0; i < room->n_openings; i++) {
    DryRect r;
    if (room->openings[i].wall != self->wall->id)
      continue;
    r = dry_faces_opening_rect (self->wall, self->face->side, &room->openings[i]);
    if ((stud.u0 <= r.x0 && stud.u1 >= r.x0) || (stud.u0 <= r.x1 && stud.u1 >= r.x1))
      return TRUE;
  }
  return FALSE;
}

static void
demand_frame (DryAdviceWork *self)
{
  DryLength t = self->wall->stud_width, height = dry_wall_height (self->context->room, self->wall);
  DryLength top = height - (self->wall->steel_studs ? 1 : 2) * t;

  for (guint i = 0; i < self->standing->len; i++)
    if (is_fixed_stud (self, i))
      keep_off_stud (self, i, 0,
                     i == 0 || i + 1 == self->standing->len ? "stud at the end of the wall"
                                                            : "stud beside the opening");
  dry_advice_keep_off (self, self->body, (DryRect){-FAR, -FAR, FAR, t}, 0, "the bottom plate");
  dry_advice_keep_off (self, self->body, (DryRect){-FAR, top, FAR, FAR}, 0, "the top plate");
  dry_advice_end_demand (self, DRY_ADVICE_FRAME, TRUE, FALSE, NULL, "common practice, no source");
}

/* Cut studs of a partition cost their header and sill; where the pack stops a cut they forbid. */
static void
demand_studs (DryAdviceWork *self)
{
  const DryRule *rule;
  gboolean hard;

  dry_advice_fact_number (self, "studs-cut", 1);
  rule = dry_advice_rule (self, "niche", "studs-cut");
  hard = (rule && rule->severity == DRY_SEVERITY_STOP) ||
         (self->advice->site->options.must & (1u << DRY_ADVICE_STUDS));
  for (guint i = 0; i < self->standing->len; i++)
    keep_off_stud (self, i, DRY_POINTS_STUD, "stud");
  dry_advice_end_demand (self, DRY_ADVICE_STUDS, hard, TRUE, rule, "common practice, no source");
}

/* A bay too narrow for the body and its clearance is closed, with the studs on both sides of it. */
static void
demand_bay (DryAdviceWork *self)
{
  DryAdviceRange range = {0};

  dry_advice_fact_length (self, "bay", 0);
  range = dry_advice_range (self, "niche", "bay");
  for (guint i = 0; range.has_low && i + 1 < self->standing->len; i++) {
    DryStanding left = stud_at (self, i), right = stud_at (self, i + 1);
    if (right.u0 - left.u1 >= range.low)
      continue;
    dry_advice_add_zone (self,
                         (DryRect){left.u0 - self->body.x1, -FAR, right.u1 - self->body.x0, FAR}, 0,
                         dry_arena_printf (self->context->arena, "the bay of %s at %s",
                                           dry_advice_text (self, right.u0 - left.u1),
                                           dry_advice_text (self, left.u1)));
  }
  if (range.has_low)
    dry_advice_end_demand (self, DRY_ADVICE_BAY,
                           dry_advice_is_hard (self, DRY_ADVICE_BAY, range.rule), FALSE, range.rule,
                           "common practice, no source");
}

/* --- pipes, vents, cables --- */

/* Whatever runs in the bay the body's middle stands in is in its way, and what the body reaches
 * beyond the bay. Places where the middle is on the edge of a stud count with the bay. */
static void
keep_off_hidden (DryAdviceWork *self, const DryPart *hidden)
{
  DryRect rect = dry_advice_hidden_rect (self, hidden), body = self->body;
  DryLength middle = body.x0 + dry_rect_width (body) / 2;
  const char *what = dry_arena_printf (self->context->arena, "the %s at %s",
                                       dry_measuring_part_name (&self->measuring, hidden),
                                       dry_advice_text (self, rect.x0 + dry_rect_width (rect) / 2));

  dry_advice_keep_off (self, body, rect, DRY_POINTS_HIDDEN, what);
  for (guint i = 0; i + 1 < self->standing->len; i++) {
    DryLength u0 = stud_at (self, i).u1, u1 = stud_at (self, i + 1).u0;
    if (MAX (u0, rect.x0) < MIN (u1, rect.x1))
      dry_advice_add_zone (
          self, (DryRect){u0 - middle - 1, rect.y0 - body.y1, u1 - middle + 1, rect.y1 - body.y0},
          DRY_POINTS_HIDDEN, what);
  }
}

static void
demand_hidden (DryAdviceWork *self)
{
  const DryRoom *room = self->context->room;
  const DryRule *rule = dry_advice_rule (self, "niche", "hidden-in-bay");

  for (guint i = 0; i < room->n_parts; i++)
    if (dry_part_kind_is_hidden (room->parts[i].kind) && room->parts[i].wall == self->wall->id)
      keep_off_hidden (self, &room->parts[i]);
  dry_advice_end_demand (self, DRY_ADVICE_HIDDEN,
                         dry_advice_is_hard (self, DRY_ADVICE_HIDDEN, rule), FALSE, rule,
                         "common practice, no source");
}

static void
demand_other_side (DryAdviceWork *self)
{
  const DryRoom *room = self->context->room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *other = &room->parts[i];
    DryRect r;
    if (other->kind != DRY_PART_NICHE || other->wall != self->wall->id ||
        other->side == self->face->side ||
        depth_needed (self, self->part) + depth_needed (self, other) <= dry_wall_depth (self->wall))
      continue;
    r = dry_faces_niche_rough (self->context, other);
    dry_advice_keep_off (
        self, self->body,
        (DryRect){self->face->length - r.x1, r.y0, self->face->length - r.x0, r.y1}, 0,
        dry_arena_printf (self->context->arena, "the %s in the other side",
                          dry_measuring_part_name (&self->measuring, other)));
  }
  dry_advice_end_demand (self, DRY_ADVICE_OTHER_SIDE, TRUE, FALSE, NULL,
                         "arithmetic: the two depths together are more than the wall");
}

/* --- what holds for the whole wall --- */

static void
demand_depth (DryAdviceWork *self)
{
  DryAdviceRange range = dry_advice_range (self, "niche", "cavity-needed");
  DryLength need = depth_needed (self, self->part);

  if (range.has_high && need > range.high)
    dry_advice_forbid_face (self, DRY_POINTS_RULE, "the depth of the wall");
  dry_advice_end_demand (self, DRY_ADVICE_DEPTH,
                         dry_advice_is_hard (self, DRY_ADVICE_DEPTH, range.rule), FALSE, range.rule,
                         "common practice, no source");
}

static void
demand_insulation (DryAdviceWork *self)
{
  DryAdviceRange range = {0};
  DryLength cavity = dry_wall_depth (self->wall), need = depth_needed (self, self->part);

  if (!self->wall->exterior)
    return;
  range = dry_advice_range (self, "niche", "insulation-behind");
  if (range.has_low && MAX (0, MIN (self->wall->insulation, cavity - need)) < range.low)
    dry_advice_forbid_face (self, DRY_POINTS_RULE, "what is left of the insulation");
  dry_advice_end_demand (self, DRY_ADVICE_INSULATION,
                         dry_advice_is_hard (self, DRY_ADVICE_INSULATION, range.rule), FALSE,
                         range.rule, "common practice, no source");
}

static void
demand_rated (DryAdviceWork *self)
{
  const DryRule *rule = dry_advice_rule (self, "niche", "fire-rated-wall");

  if (self->wall->fire_rated && rule)
    dry_advice_forbid_face (self, DRY_POINTS_RULE, "a fire-rated wall");
  dry_advice_end_demand (self, DRY_ADVICE_RATED, dry_advice_is_hard (self, DRY_ADVICE_RATED, rule),
                         FALSE, rule, "common practice, no source");
}

/* A bottle the user named must stand in it, with an inch to take it out; else the pack advises. */
static void
demand_bottle (DryAdviceWork *self)
{
  DryLength bottle = self->advice->site->options.tallest_bottle;
  DryAdviceRange range = dry_advice_range (self, "niche", "clear-height");
  gboolean hard = bottle > 0 || dry_advice_is_hard (self, DRY_ADVICE_BOTTLE, range.rule);

  if (bottle > 0 ? self->part->height < bottle + DRY_INCH
                 : range.has_low && self->part->height < range.low)
    dry_advice_forbid_face (self, DRY_POINTS_RULE, "the tallest bottle");
  dry_advice_end_demand (self, DRY_ADVICE_BOTTLE, hard, FALSE, bottle > 0 ? NULL : range.rule,
                         "common practice, no source: the tallest bottle and an inch");
}

/* --- reach --- */

/* Over a bench the reach is reckoned from its seat: where the niche stands over it in part, too. */
static void
demand_height (DryAdviceWork *self)
{
  const DryRoom *room = self->context->room;
  DryAdviceRange plain, over;
  DryLength from = -FAR;
  g_autoptr (GArray) seats = g_array_new (FALSE, FALSE, sizeof (DryRect));

  dry_advice_fact_yes (self, "over-bench", FALSE);
  plain = dry_advice_range (self, "niche", "bottom");
  dry_advice_fact_yes (self, "over-bench", TRUE);
  over = dry_advice_range (self, "niche", "above-bench");
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *bench = &room->parts[i];
    DryRect seat = dry_part_rect (bench), where;
    DryAdviceRange range = over;
    if (bench->kind != DRY_PART_BENCH || bench->wall != self->face->wall ||
        bench->side != self->face->side)
      continue;
    where = (DryRect){seat.x0 - self->finish.x1, -FAR, seat.x1 - self->finish.x0, FAR};
    range.low += bench->z;
    range.high += bench->z;
    dry_advice_keep_in_range (self, where, range, DRY_POINTS_REACH, DRY_POINTS_REACH_INCH,
                              "reach from the bench");
    g_array_append_val (seats, where);
  }
  /* Beside the benches: between them, edges included. */
  for (guint i = 0; i <= seats->len; i++) {
    DryLength to = FAR, next = FAR;
    for (guint j = 0; j < seats->len; j++) {
      DryRect seat = g_array_index (seats, DryRect, j);
      if (seat.x1 - 1 > from && seat.x0 + 1 < to) {
        to = seat.x0 + 1;
        next = seat.x1 - 1;
      }
    }
    dry_advice_keep_in_range (self, (DryRect){from, -FAR, MAX (from, to), FAR}, plain,
                              DRY_POINTS_REACH, DRY_POINTS_REACH_INCH, "reach");
    if (to >= FAR)
      break;
    from = next;
  }
  dry_advice_end_demand (self, DRY_ADVICE_HEIGHT,
                         dry_advice_is_hard (self, DRY_ADVICE_HEIGHT, plain.rule), FALSE,
                         plain.rule ? plain.rule : over.rule, "common practice, no source");
}

/* --- spray and seams --- */

static void
demand_spray (DryAdviceWork *self)
{
  const GArray *wet = self->advice->site->spray[self->face->index];

  for (guint i = 0; i < wet->len; i++)
    dry_advice_keep_off (self, self->finish, g_array_index (wet, DryRect, i), DRY_POINTS_SPRAY,
                         "the spray of the shower head");
  dry_advice_end_demand (self, DRY_ADVICE_SPRAY, dry_advice_is_hard (self, DRY_ADVICE_SPRAY, NULL),
                         FALSE, NULL,
                         "common practice, no source: a cone of 12 degrees about an axis 45 "
                         "degrees down, drops as fast "
                         "as the 0.56 N of spray force asked by EPA WaterSense gives");
}

static void
demand_seams (DryAdviceWork *self)
{
  const DryBoards *boards = self->advice->site->plan->boards;
  DryRect body = self->body;
  DryAdviceRange range = dry_advice_range (self, "seam", "to-niche-corner");
  DryLength near = range.has_low ? range.low : DRY_ADVICE_SEAM_NEAR;

  for (guint i = 0; i < boards->n_seams; i++) {
    const DrySeam *seam = &boards->seams[i];
    DryRect line = {MIN (seam->from.x, seam->to.x) - near, MIN (seam->from.y, seam->to.y) - near,
                    MAX (seam->from.x, seam->to.x) + near, MAX (seam->from.y, seam->to.y) + near};
    const char *what;
    if (seam->face != self->face->index)
      continue;
    what = seam->vertical ? dry_arena_printf (self->context->arena, "the board seam at %s",
                                              dry_advice_text (self, seam->from.x))
                          : dry_arena_printf (self->context->arena, "the level board seam at %s",
                                              dry_advice_text (self, seam->from.y));
    for (guint c = 0; c < 4; c++) {
      DryLength x = c % 2 ? body.x1 : body.x0, y = c / 2 ? body.y1 : body.y0;
      dry_advice_keep_off (self, (DryRect){x, y, x, y}, line, DRY_POINTS_SEAM, what);
    }
  }
  dry_advice_end_demand (self, DRY_ADVICE_SEAM,
                         (self->advice->site->options.must & (1u << DRY_ADVICE_SEAM)) != 0, FALSE,
                         range.rule, "common practice, no source");
}

void
dry_advice_niche_demands (DryAdviceWork *self)
{
  gather_facts (self);
  demand_rated (self);
  demand_depth (self);
  demand_insulation (self);
  demand_bottle (self);
  dry_advice_demand_boarded (self, self->body);
  demand_frame (self);
  demand_studs (self);
  demand_bay (self);
  demand_hidden (self);
  dry_advice_demand_parts (self, "niche", self->body);
  demand_other_side (self);
  demand_height (self);
  demand_spray (self);
  demand_seams (self);
  dry_advice_demand_near (self, self->body, MAX (DRY_ADVICE_NEAR_ROOM, self->part->flange));
  dry_advice_demand_wall (self);
}
