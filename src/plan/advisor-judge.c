/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One place put into words: every demand, whether it holds there, with what numbers, and its
 * points. Reckons nothing that the zones do not already say, but tells it with the sizes of the
 * place. */
#include <math.h>
#include <string.h>

#include "plan/advisor-private.h"
#include "plan/faces-private.h"

typedef struct {
  const DryAdvice *advice;
  const DryPlanContext *context; /* texts go to its arena */
  const DryAdviceFace *face;
  const DryFace *plan_face;
  const DryWall *wall;
  DryPoint place;
  DryRect finish, body;
  DryMeasuring measuring;
  GArray *standing;
  GArray *reasons;
  DryAdviceLines lines; /* the tile's, as it would be laid */
  DryLength joint;      /* 0: as it is */
  DryPoint shift;
} Judging;

static const char *
text_of (const Judging *self, DryLength length)
{
  return dry_context_length (self->context, length);
}

#define SAY(...) dry_arena_printf (self->context->arena, __VA_ARGS__)

static const char *
say_points (const Judging *self, double points)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return dry_arena_strdup (self->context->arena,
                           g_ascii_formatd (text, sizeof text, "%.1f", points));
}

/* --- what holds, by kind --- */

static const char *
say_bay (const Judging *self)
{
  DryStanding bay;

  if (!dry_measuring_bay (self->standing, self->body.x0 + dry_rect_width (self->body) / 2, &bay))
    return "Its middle stands on a stud";
  return SAY ("Body %s wide in the bay from %s to %s, %s clear: %s left over",
              text_of (self, dry_rect_width (self->body)), text_of (self, bay.u0),
              text_of (self, bay.u1), text_of (self, bay.u1 - bay.u0),
              text_of (self, bay.u1 - bay.u0 - dry_rect_width (self->body)));
}

static const char *
say_depth (const Judging *self)
{
  const DryPart *part = self->advice->part;
  DryLength board = part->body_width > 0 ? self->context->build_up.board : 0;
  DryLength cavity = dry_wall_depth (self->wall);

  return SAY ("%s deep%s%s%s takes %s of the %s of the wall", text_of (self, part->depth),
              board ? " less " : "", board ? text_of (self, board) : "", board ? " of board" : "",
              text_of (self, MAX (0, part->depth - board)), text_of (self, cavity));
}

static const char *
say_insulation (const Judging *self)
{
  const DryPart *part = self->advice->part;
  DryLength need =
      MAX (0, part->depth - (part->body_width > 0 ? self->context->build_up.board : 0));
  DryLength cavity = dry_wall_depth (self->wall);

  return SAY ("%s of the %s of insulation can stay behind it",
              text_of (self, MAX (0, MIN (self->wall->insulation, cavity - need))),
              text_of (self, self->wall->insulation));
}

static const char *
say_bottle (const Judging *self)
{
  DryLength bottle = self->advice->site->options.tallest_bottle;

  if (bottle > 0)
    return SAY ("%s clear; the tallest bottle of %s and an inch need %s",
                text_of (self, self->advice->part->height), text_of (self, bottle),
                text_of (self, bottle + DRY_INCH));
  return SAY ("%s clear height", text_of (self, self->advice->part->height));
}

static const char *
say_height (const Judging *self, const DryAdviceZone *zone)
{
  DryLength z = self->place.y;

  if (!zone)
    return SAY ("%s above the floor", text_of (self, z));
  if (zone->toward == DRY_ADVICE_EDGE_ABOVE)
    return SAY ("%s above the floor: %s too low, %s or more is asked for", text_of (self, z),
                text_of (self, zone->places.y1 - z), text_of (self, zone->places.y1));
  return SAY ("%s above the floor: %s too high, %s or less is asked for", text_of (self, z),
              text_of (self, z - zone->places.y0), text_of (self, zone->places.y0));
}

/* The water's top and bottom edge over the stretch the opening covers. */
static const char *
say_spray (const Judging *self, gboolean broken)
{
  const GArray *wet = self->advice->site->spray[self->face->face];
  DryLength top = -1, bottom = G_MAXINT64;

  for (guint i = 0; i < wet->len; i++) {
    DryRect r = g_array_index (wet, DryRect, i);
    if (r.x0 >= self->finish.x1 || r.x1 <= self->finish.x0)
      continue;
    top = MAX (top, r.y1);
    bottom = MIN (bottom, r.y0);
  }
  if (top < 0)
    return "No shower head sprays at this stretch of the wall";
  if (!broken && self->finish.y0 >= top)
    return SAY ("The spray meets the wall up to %s here; the opening begins %s above it",
                text_of (self, top), text_of (self, self->finish.y0 - top));
  if (!broken)
    return SAY ("The spray meets the wall from %s up here; the opening ends %s below it",
                text_of (self, bottom), text_of (self, bottom - self->finish.y1));
  return SAY ("The spray meets the wall from %s to %s here: %s of the opening's height is in it",
              text_of (self, bottom), text_of (self, top),
              text_of (self, MIN (top, self->finish.y1) - MAX (bottom, self->finish.y0)));
}

static const char *
say_studs (const Judging *self)
{
  g_autoptr (GString) names = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < self->standing->len; i++) {
    DryStanding stud = g_array_index (self->standing, DryStanding, i);
    if (MAX (stud.u0, self->body.x0) < MIN (stud.u1, self->body.x1))
      g_string_append_printf (names, "%s%s", n++ ? ", " : "",
                              text_of (self, stud.u0 + (stud.u1 - stud.u0) / 2));
  }
  if (self->advice->part->kind != DRY_PART_NICHE)
    return SAY ("The hole runs into the stud at %s", names->str);
  return SAY ("Cuts %u stud%s at %s: header over it, sill under it, %u short stud%s", n,
              n == 1 ? "" : "s", names->str, 2 * n, n ? "s" : "");
}

static const char *
say_seam (const Judging *self, const DryAdviceZone *zone)
{
  if (self->advice->part->kind != DRY_PART_NICHE)
    return SAY ("The hole lies on %s: the boards must be laid out round it", zone->what);
  return SAY (
      "A corner of the opening is nearer than 2 in to %s: the boards must be laid out round "
      "it, as an L",
      zone->what);
}

static const char *
say_kept (const Judging *self, DryAdviceKind kind)
{
  switch (kind) {
  case DRY_ADVICE_BOARDED:
    return SAY ("Rough opening from %s to %s, %s to %s high, in the boarded wall",
                text_of (self, self->body.x0), text_of (self, self->body.x1),
                text_of (self, self->body.y0), text_of (self, self->body.y1));
  case DRY_ADVICE_STUDS:
    return self->advice->part->kind == DRY_PART_NICHE ? "Cuts no stud"
                                                      : "The hole misses the studs";
  case DRY_ADVICE_BAY:
    return say_bay (self);
  case DRY_ADVICE_DEPTH:
    return say_depth (self);
  case DRY_ADVICE_INSULATION:
    return say_insulation (self);
  case DRY_ADVICE_BOTTLE:
    return say_bottle (self);
  case DRY_ADVICE_HEIGHT:
    return say_height (self, NULL);
  case DRY_ADVICE_SPRAY:
    return say_spray (self, FALSE);
  default:
    return dry_advice_kind_title (kind);
  }
}

static const char *
say_broken (const Judging *self, DryAdviceKind kind, const DryAdviceZone *zone)
{
  switch (kind) {
  case DRY_ADVICE_BOARDED:
    return SAY ("Reaches into %s (rough opening from %s to %s, %s to %s high)", zone->what,
                text_of (self, self->body.x0), text_of (self, self->body.x1),
                text_of (self, self->body.y0), text_of (self, self->body.y1));
  case DRY_ADVICE_FRAME:
    return SAY ("Would cut %s, which must stay", zone->what);
  case DRY_ADVICE_STUDS:
    return say_studs (self);
  case DRY_ADVICE_BAY:
    return SAY ("%s does not take a body of %s with its clearance", zone->what,
                text_of (self, dry_rect_width (self->body)));
  case DRY_ADVICE_HIDDEN:
    return SAY ("In the way is %s", zone->what);
  case DRY_ADVICE_PARTS:
    return SAY ("Reaches into %s", zone->what);
  case DRY_ADVICE_OTHER_SIDE:
    return SAY ("Meets %s", zone->what);
  case DRY_ADVICE_RATED:
    return "The wall is fire-rated: an opening takes its rating away";
  case DRY_ADVICE_DEPTH:
    return say_depth (self);
  case DRY_ADVICE_INSULATION:
    return say_insulation (self);
  case DRY_ADVICE_BOTTLE:
    return say_bottle (self);
  case DRY_ADVICE_HEIGHT:
    return say_height (self, zone);
  case DRY_ADVICE_SPRAY:
    return say_spray (self, TRUE);
  case DRY_ADVICE_SEAM:
    return say_seam (self, zone);
  case DRY_ADVICE_NEAR:
    return SAY ("Little room to %s", zone->what);
  case DRY_ADVICE_WALL:
    return SAY ("Stands in %s", zone->what);
  case DRY_ADVICE_HOLD:
    return "No stud behind one of its ends: blocking to be set";
  default:
    return dry_advice_kind_title (kind);
  }
}

/* --- reasons --- */

static DryWorking
show_working (const Judging *self, const DryAdviceReason *reason, DrySource source,
              const DryAdviceZone *zone)
{
  return dry_working_new (
      self->context->arena, source,
      SAY ("%s = %s points", reason->text, say_points (self, reason->points)), "place",
      SAY ("%s along, %s high", text_of (self, self->place.x), text_of (self, self->place.y)),
      "opening",
      SAY ("%s to %s, %s to %s high", text_of (self, self->finish.x0),
           text_of (self, self->finish.x1), text_of (self, self->finish.y0),
           text_of (self, self->finish.y1)),
      zone ? "against" : NULL, zone ? zone->what : NULL, NULL);
}

static void
add_reason (Judging *self, DryAdviceReason reason, DrySource source, const DryAdviceZone *zone)
{
  reason.id = dry_advice_kind_id (reason.kind);
  reason.title = dry_advice_kind_title (reason.kind);
  reason.working = show_working (self, &reason, source, zone);
  g_array_append_val (self->reasons, reason);
}

static void
judge_demand (Judging *self, const DryAdviceDemand *demand)
{
  const DryAdviceZone *zone;
  gboolean broken;
  double points = dry_advice_demand_points (demand, self->place, &broken, &zone);
  DryAdviceReason reason = {.kind = demand->kind, .hard = demand->hard, .holds = !broken};

  reason.points = demand->hard ? 0 : points;
  reason.text = broken ? say_broken (self, demand->kind, zone) : say_kept (self, demand->kind);
  add_reason (self, reason, demand->source, zone);
}

static void
judge_joints (Judging *self)
{
  static const char *const EDGES[] = {"left edge", "right edge", "bottom", "top"};
  const DryAdviceOptions *options = &self->advice->site->options;
  DryAdviceReason reason = {.kind = DRY_ADVICE_JOINTS, .holds = TRUE};
  g_autoptr (GString) text = g_string_new (NULL);
  DryAdviceEdges edges;

  if (self->advice->part->kind != DRY_PART_NICHE ||
      (self->lines.n_upright == 0 && self->lines.n_level == 0))
    return;
  reason.points = dry_advice_joint_points (self->advice, &self->lines, self->place, &edges);
  reason.hard = (options->must & (1u << DRY_ADVICE_JOINTS)) != 0;
  for (guint i = 0; i < 4; i++) {
    if (edges.off[i] == G_MAXINT64 || edges.off[i] <= options->joint_tolerance)
      continue;
    g_string_append_printf (text, "%s%s off a joint by %s", text->len ? ", " : "", EDGES[i],
                            text_of (self, edges.off[i]));
    if (edges.strip[i] > 0 && edges.strip[i] < DRY_TILE_SLIVER)
      g_string_append_printf (text, " (a sliver of %s beside it)", text_of (self, edges.strip[i]));
    reason.holds = FALSE;
  }
  if (reason.holds)
    g_string_printf (text, "All edges on tile joints, within %s",
                     text_of (self, options->joint_tolerance));
  else
    text->str[0] = g_ascii_toupper (text->str[0]);
  if (reason.hard)
    reason.points = 0;
  reason.text = dry_arena_strdup (self->context->arena, text->str);
  add_reason (self, reason,
              (DrySource){"common practice, no source: edges more than 1/8 in off the joint make a "
                          "patchwork",
                          DRY_CERTAINTY_COMMON_PRACTICE},
              NULL);
}

/* A layout moved for the niche must say so, with what it does at the ends. */
static void
judge_layout (Judging *self)
{
  DryAdviceReason reason = {.kind = DRY_ADVICE_LAYOUT};
  g_autoptr (GString) text = g_string_new (NULL);
  const DryTiling *tiling = self->advice->site->plan->tiling;

  if (self->shift.x == 0 && self->shift.y == 0 && self->joint == 0)
    return;
  if (self->joint)
    g_string_append_printf (text, "joints %s wide instead of %s", text_of (self, self->joint),
                            text_of (self, tiling->joint));
  if (self->shift.x)
    g_string_append_printf (text, "%stile of this wall moved %s to the %s", text->len ? ", " : "",
                            text_of (self, ABS (self->shift.x)),
                            self->shift.x < 0 ? "left" : "right");
  if (self->shift.y)
    g_string_append_printf (text, "%scourses moved %s %s", text->len ? ", " : "",
                            text_of (self, ABS (self->shift.y)), self->shift.y < 0 ? "down" : "up");
  text->str[0] = g_ascii_toupper (text->str[0]);
  reason.points =
      dry_advice_layout_points (self->advice->site, self->plan_face, self->joint, self->shift);
  reason.text = dry_arena_strdup (self->context->arena, text->str);
  reason.holds = reason.points == 0;
  add_reason (self, reason,
              (DrySource){"ANSI A108.02 4.3.1-.2: center and balance, usually no cut under half a "
                          "tile; points are this program's",
                          DRY_CERTAINTY_PUBLISHED},
              NULL);
}

static gint
compare_reasons (gconstpointer a, gconstpointer b)
{
  const DryAdviceReason *first = a, *second = b;

  if (first->holds != second->holds)
    return first->holds ? 1 : -1;
  if (first->hard != second->hard)
    return first->hard ? -1 : 1;
  if (first->points != second->points)
    return first->points > second->points ? -1 : 1;
  return (gint) first->kind - (gint) second->kind;
}

static void
sum_up (DryAdvicePlace *place, DryArena *arena, GArray *reasons)
{
  place->legal = TRUE;
  g_array_sort (reasons, compare_reasons);
  for (guint i = 0; i < reasons->len; i++) {
    const DryAdviceReason *reason = &g_array_index (reasons, DryAdviceReason, i);
    place->points += reason->points;
    place->legal = place->legal && (reason->holds || !reason->hard);
  }
  place->score = place->legal ? MAX (0, 100 - place->points) : 0;
  place->n_reasons = reasons->len;
  place->reasons = dry_arena_take_array (arena, reasons);
}

DryAdvicePlace
dry_advice_judge (const DryAdvice *self, DryArena *arena, DryId wall, DrySide side, DryPoint place)
{
  return dry_advice_judge_layout (self, arena, wall, side, place, 0, (DryPoint){0, 0});
}

DryAdvicePlace
dry_advice_judge_layout (const DryAdvice *self, DryArena *arena, DryId wall, DrySide side,
                         DryPoint place, DryLength joint, DryPoint shift)
{
  const DryAdviceFace *face = dry_advice_get_face (self, wall, side);
  DryPlanContext context = self->site->plan->context;
  DryAdvicePlace answer = {.wall = wall,
                           .side = side,
                           .u = place.x,
                           .z = place.y,
                           .width = self->part->width,
                           .height = self->part->height,
                           .depth = self->part->depth};
  Judging judging = {.advice = self, .context = &context, .face = face, .place = place};

  context.arena = arena;
  judging.reasons = g_array_new (FALSE, FALSE, sizeof (DryAdviceReason));
  judging.finish = dry_advice_finish (self, place);
  judging.body = dry_advice_body (self, place);
  if (!face) {
    add_reason (&judging,
                (DryAdviceReason){.kind = DRY_ADVICE_BOARDED,
                                  .hard = TRUE,
                                  .text = "This wall is not wet: nothing is boarded there"},
                (DrySource){"common practice, no source", DRY_CERTAINTY_COMMON_PRACTICE}, NULL);
    sum_up (&answer, arena, judging.reasons);
    return answer;
  }
  judging.plan_face = &self->site->plan->faces->items[face->face];
  judging.joint = answer.joint = joint;
  judging.shift = answer.datum = shift;
  judging.lines = joint || shift.x || shift.y
                      ? dry_advice_lines (self->site, arena, judging.plan_face, shift, joint)
                      : face->lines;
  judging.wall = dry_room_get_wall (context.room, wall);
  judging.measuring = (DryMeasuring){.context = &context, .plan = self->site->plan};
  judging.standing = dry_measuring_standing (&judging.measuring, judging.wall, side);
  for (guint i = 0; i < face->n_demands; i++)
    judge_demand (&judging, &face->demands[i]);
  judge_joints (&judging);
  judge_layout (&judging);
  g_array_unref (judging.standing);
  sum_up (&answer, arena, judging.reasons);
  return answer;
}
