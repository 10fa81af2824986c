/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What valves, spouts, heads, hand showers, bars and seats are asked: the heights of the rule pack,
 * studs in the way of their hole, pipes and cables where they are screwed on, studs to hold them.
 */
#include "plan/advisor-private.h"

#define FAR DRY_LENGTH_MAX

static const char *
subject_of (DryPartKind kind)
{
  switch (kind) {
  case DRY_PART_VALVE:
    return "valve";
  case DRY_PART_SPOUT:
    return "spout";
  case DRY_PART_SHOWER_HEAD:
    return "shower-head";
  case DRY_PART_HAND_SHOWER:
    return "hand-shower";
  case DRY_PART_GRAB_BAR:
    return "grab-bar";
  case DRY_PART_BENCH:
    return "bench";
  default:
    return "";
  }
}

static gboolean
is_screwed_on (const DryPart *part)
{
  return part->kind == DRY_PART_GRAB_BAR || part->kind == DRY_PART_BENCH;
}

static void
gather_facts (DryAdviceWork *self)
{
  const DryBasin *basin = &self->context->room->basin;
  gboolean tub = basin->id && basin->kind == DRY_BASIN_TUB;

  dry_advice_fact_yes (self, "at-tub", tub);
  dry_advice_fact_yes (self, "has-shower",
                       dry_measuring_has_shower (&self->measuring) ||
                           self->part->kind == DRY_PART_SHOWER_HEAD ||
                           self->part->kind == DRY_PART_HAND_SHOWER);
  dry_advice_fact_yes (self, "exterior-wall", self->wall->exterior);
  dry_advice_fact_length (self, "wet-top", self->face->wet_top);
  if (tub)
    dry_advice_fact_length (self, "rim", basin->height);
  dry_advice_fact_length (self, "length", self->part->width);
  dry_advice_fact_length (self, "thickness", self->part->height);
  dry_advice_fact_length (self, "depth", self->part->depth);
  dry_advice_fact_yes (self, "fold-down", self->part->fold_down);
}

/* The square round the hole in the board; of parts without one, what hangs on the wall. */
static DryRect
hole_of (const DryAdviceWork *self)
{
  DryLength half = self->part->hole / 2;

  if (self->part->hole <= 0)
    return self->finish;
  return (DryRect){-half, -half, self->part->hole - half, self->part->hole - half};
}

/* A valve's hole stays clear of studs by the pack's rule; an arm or spout can be blocked anywhere
 * but in a stud it has to be bored through. */
static void
demand_studs (DryAdviceWork *self)
{
  DryRect hole = hole_of (self);
  DryAdviceRange range;

  if (self->part->hole <= 0)
    return;
  range = dry_advice_range (self, subject_of (self->part->kind), "stud-clear");
  for (guint i = 0; i < self->standing->len; i++) {
    DryStanding stud = g_array_index (self->standing, DryStanding, i);
    DryLength room = range.has_low ? MAX (range.low, 0) : 0;
    dry_advice_keep_off (
        self, hole, (DryRect){stud.u0 - room, -FAR, stud.u1 + room, FAR}, DRY_POINTS_RULE,
        dry_arena_printf (self->context->arena, "the stud at %s",
                          dry_advice_text (self, stud.u0 + (stud.u1 - stud.u0) / 2)));
  }
  dry_advice_end_demand (
      self, DRY_ADVICE_STUDS, dry_advice_is_hard (self, DRY_ADVICE_STUDS, range.rule), TRUE,
      range.rule,
      "common practice, no source: a hole through a stud weakens it and leaves no "
      "room for the fitting's block");
}

/* A valve is fed by pipes that end behind it: those only cost a look. Nothing is screwed or bored
 * into a vent or cable, nor a bar or seat into anything. */
static void
demand_hidden (DryAdviceWork *self)
{
  const DryRoom *room = self->context->room;
  gboolean hard = is_screwed_on (self->part);

  for (guint pass = 0; pass < 2; pass++) {
    for (guint i = 0; i < room->n_parts; i++) {
      const DryPart *hidden = &room->parts[i];
      DryRect rect;
      if (!dry_part_kind_is_hidden (hidden->kind) || hidden->wall != self->wall->id ||
          (hard || hidden->kind != DRY_PART_PIPE) != (pass == 0))
        continue;
      rect = dry_advice_hidden_rect (self, hidden);
      dry_advice_keep_off (
          self, hole_of (self), rect, DRY_POINTS_HIDDEN,
          dry_arena_printf (self->context->arena, "the %s at %s",
                            dry_measuring_part_name (&self->measuring, hidden),
                            dry_advice_text (self, rect.x0 + dry_rect_width (rect) / 2)));
    }
    if (pass == 0 || self->zones->len)
      dry_advice_end_demand (self, DRY_ADVICE_HIDDEN, pass == 0, FALSE, NULL,
                             "common practice, no source");
  }
}

/* --- heights --- */

static DryRect
everywhere (void)
{
  return (DryRect){-FAR, -FAR, FAR, FAR};
}

static void
demand_height (DryAdviceWork *self)
{
  const DryBasin *basin = &self->context->room->basin;
  const char *subject = subject_of (self->part->kind);
  DryAdviceRange range = dry_advice_range (self, subject, "height");
  DryAdviceRange above = dry_advice_range (self, subject, "above-rim");
  const DryRule *rule = range.rule;

  if (above.any && basin->id && basin->kind == DRY_BASIN_TUB) {
    above.low += basin->height;
    above.high += basin->height;
    dry_advice_keep_in_range (self, everywhere (), above, DRY_POINTS_REACH, DRY_POINTS_REACH_INCH,
                              "the rim of the tub");
    rule = rule ? rule : above.rule;
  }
  dry_advice_keep_in_range (self, everywhere (), range, DRY_POINTS_REACH, DRY_POINTS_REACH_INCH,
                            "its usual height");
  dry_advice_end_demand (self, DRY_ADVICE_HEIGHT,
                         dry_advice_is_hard (self, DRY_ADVICE_HEIGHT, rule), FALSE, rule,
                         "common practice, no source");
}

/* No code names a height for shower heads; they are roughed in between 72 and 84 in. */
static void
demand_head_height (DryAdviceWork *self)
{
  DryAdviceRange usual = {TRUE, TRUE, TRUE, 72 * DRY_INCH, 84 * DRY_INCH, NULL};

  if (self->part->kind != DRY_PART_SHOWER_HEAD)
    return;
  dry_advice_keep_in_range (self, everywhere (), usual, DRY_POINTS_REACH, DRY_POINTS_REACH_INCH,
                            "the usual height of heads");
  dry_advice_end_demand (self, DRY_ADVICE_HEIGHT, FALSE, FALSE, NULL,
                         "common practice, no source: heads are roughed in 72 to 84 in high");
}

/* --- bars and seats --- */

/* Zones between the places where a stud stands behind both ends. */
static void
demand_hold (DryAdviceWork *self)
{
  const GArray *standing = self->standing;
  g_autoptr (GArray) good = g_array_new (FALSE, FALSE, sizeof (DryStanding));
  DryLength from = -FAR, x0 = self->finish.x0, x1 = self->finish.x1;

  /* The stud holds the end when it is over some of the first, or the last, nanometre of it. */
  for (guint i = 0; i < standing->len; i++)
    for (guint j = 0; j < standing->len; j++) {
      DryStanding a = g_array_index (standing, DryStanding, i);
      DryStanding b = g_array_index (standing, DryStanding, j), both;
      both.u0 = MAX (a.u0 - x0, b.u0 + 1 - x1);
      both.u1 = MIN (a.u1 - 1 - x0, b.u1 - x1);
      if (both.u0 <= both.u1)
        g_array_append_val (good, both);
    }
  for (;;) {
    DryLength next = FAR, end = FAR;
    for (guint i = 0; i < good->len; i++) {
      DryStanding span = g_array_index (good, DryStanding, i);
      if (span.u1 > from && span.u0 < next) {
        next = span.u0;
        end = span.u1;
      }
    }
    dry_advice_add_zone (self, (DryRect){from, -FAR, next, FAR}, DRY_POINTS_BLOCKING,
                         "blocking to be set behind it");
    if (next >= FAR)
      break;
    from = MAX (from, end);
  }
  dry_advice_end_demand (self, DRY_ADVICE_HOLD, dry_advice_is_hard (self, DRY_ADVICE_HOLD, NULL),
                         FALSE, dry_advice_rule (self, subject_of (self->part->kind), "blocked"),
                         "ADA 609.8: 250 lbf at any point");
}

/* Room for hand and arm: 12 in above a bar, 1-1/2 in below it. */
static void
demand_bar_room (DryAdviceWork *self)
{
  const DryRoom *room = self->context->room;
  DryRect wide = self->finish;

  wide.y1 += 12 * DRY_INCH;
  wide.y0 -= 3 * DRY_INCH / 2;
  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *other = &room->parts[i];
    if (other->wall == self->face->wall && other->side == self->face->side &&
        !dry_part_kind_is_hidden (other->kind) && other->kind != DRY_PART_NICHE)
      dry_advice_keep_off (self, wide, dry_part_rect (other), DRY_POINTS_NEAR,
                           dry_arena_printf (self->context->arena, "the %s",
                                             dry_measuring_part_name (&self->measuring, other)));
  }
  dry_advice_end_demand (self, DRY_ADVICE_NEAR, dry_advice_is_hard (self, DRY_ADVICE_NEAR, NULL),
                         FALSE, NULL, "ADA 609.3: 12 in clear above, 1-1/2 in below");
}

static void
demand_seams (DryAdviceWork *self)
{
  const DryBoards *boards = self->advice->site->plan->boards;

  if (self->part->hole <= 0)
    return;
  for (guint i = 0; i < boards->n_seams; i++) {
    const DrySeam *seam = &boards->seams[i];
    DryRect line = {MIN (seam->from.x, seam->to.x), MIN (seam->from.y, seam->to.y),
                    MAX (seam->from.x, seam->to.x), MAX (seam->from.y, seam->to.y)};
    if (seam->face == self->face->index)
      dry_advice_keep_off (
          self, hole_of (self), line, DRY_POINTS_SEAM,
          dry_arena_printf (self->context->arena, "the board seam at %s",
                            dry_advice_text (self, seam->vertical ? seam->from.x : seam->from.y)));
  }
  dry_advice_end_demand (self, DRY_ADVICE_SEAM,
                         (self->advice->site->options.must & (1u << DRY_ADVICE_SEAM)) != 0, FALSE,
                         dry_advice_rule (self, "seam", "to-hole"), "common practice, no source");
}

void
dry_advice_fitting_demands (DryAdviceWork *self)
{
  const char *subject = subject_of (self->part->kind);
  /* A built bench takes the wall down to the floor, where it is not boarded itself. */
  DryRect shape = self->part->kind == DRY_PART_BENCH && !self->part->fold_down
                      ? (DryRect){self->finish.x0, 0, self->finish.x1, 0}
                      : hole_of (self);

  gather_facts (self);
  dry_advice_demand_boarded (self, shape);
  demand_studs (self);
  demand_hidden (self);
  dry_advice_demand_parts (self, subject, self->finish);
  demand_height (self);
  demand_head_height (self);
  demand_seams (self);
  if (is_screwed_on (self->part) &&
      (self->part->kind == DRY_PART_GRAB_BAR || self->part->fold_down))
    demand_hold (self);
  if (self->part->kind == DRY_PART_GRAB_BAR)
    demand_bar_room (self);
  dry_advice_demand_wall (self);
}
