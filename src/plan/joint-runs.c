/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays joints in the trade's order: bottom band, corners over it, then seams, niches, pipes, and
 * the edges to other trades. Common practice, no source. */
#include "plan/joint-runs.h"

#include "plan/outline.h"

/* Gaps in one line up to this are run over; ends this near another run lap onto it. */
#define RUN_OVER  (DRY_INCH / 2)
#define LAP_REACH DRY_INCH

static const guint ranks[DRY_N_JOINT_KINDS] = {
    [DRY_JOINT_BASIN] = 0,          [DRY_JOINT_FLOOR] = 1,       [DRY_JOINT_INSIDE_CORNER] = 2,
    [DRY_JOINT_OUTSIDE_CORNER] = 3, [DRY_JOINT_SEAM] = 4,        [DRY_JOINT_NICHE] = 5,
    [DRY_JOINT_OPENING] = 6,        [DRY_JOINT_PENETRATION] = 7, [DRY_JOINT_DRYWALL] = 8,
    [DRY_JOINT_CEILING] = 9,        [DRY_JOINT_FREE] = 10,
};

/* A run while it grows, on its line. */
typedef struct {
  DryRun run;
  DryId object;
  gint line;        /* 0 upright, 1 level, 2 sloped or round: never joined */
  DryLength at;     /* x of an upright, y of a level one */
  DryLength lo, hi; /* along it */
} Draft;

static Draft
draft_of (const DryJoint *joint)
{
  Draft draft = {
      .run = {.kind = joint->kind,
              .face = joint->face,
              .from = joint->from,
              .to = joint->to,
              .other_face = joint->other_face,
              .length = joint->length},
      .object = joint->object,
      .line = joint->kind == DRY_JOINT_PENETRATION ? 2
              : joint->from.x == joint->to.x       ? 0
              : joint->from.y == joint->to.y       ? 1
                                                   : 2,
  };

  draft.at = draft.line == 0 ? joint->from.x : joint->from.y;
  if (joint->kind == DRY_JOINT_SEAM && draft.line != 2) {
    /* Along the middle of the gap, so that both its boards' stretches are in one line. The board is
     * on the left of the walk, the gap on its right. */
    gboolean ahead = draft.line == 0 ? joint->to.y > joint->from.y : joint->to.x < joint->from.x;
    draft.at += ahead ? joint->gap / 2 : -joint->gap / 2;
  }
  draft.lo = draft.line == 0 ? MIN (joint->from.y, joint->to.y) : MIN (joint->from.x, joint->to.x);
  draft.hi = draft.line == 0 ? MAX (joint->from.y, joint->to.y) : MAX (joint->from.x, joint->to.x);
  return draft;
}

static int
compare_drafts (gconstpointer a, gconstpointer b)
{
  const Draft *x = a, *y = b;

#define ORDER_BY(left, right)                                                                      \
  if ((left) != (right))                                                                           \
  return (left) < (right) ? -1 : 1
  ORDER_BY (ranks[x->run.kind], ranks[y->run.kind]);
  ORDER_BY (x->run.face, y->run.face);
  ORDER_BY (x->object, y->object);
  ORDER_BY (x->run.other_face, y->run.other_face);
  ORDER_BY (x->line, y->line);
  ORDER_BY (x->at, y->at);
  ORDER_BY (x->lo, y->lo);
  ORDER_BY (x->hi, y->hi);
#undef ORDER_BY
  return 0;
}

static gboolean
is_continued (const Draft *a, const Draft *b)
{
  return a->run.kind == b->run.kind && a->run.face == b->run.face && a->object == b->object &&
         a->run.other_face == b->run.other_face && a->line == b->line && a->line != 2 &&
         a->at == b->at && b->lo <= a->hi + RUN_OVER;
}

static void
close_draft (Draft *draft)
{
  if (draft->line == 2)
    return;
  /* laid upward and from left to right */
  draft->run.from =
      draft->line == 0 ? (DryPoint){draft->at, draft->lo} : (DryPoint){draft->lo, draft->at};
  draft->run.to =
      draft->line == 0 ? (DryPoint){draft->at, draft->hi} : (DryPoint){draft->hi, draft->at};
  draft->run.length = draft->hi - draft->lo;
}

static GArray *
collect_drafts (const DryJoints *self, const DryPlanContext *context)
{
  GArray *drafts = g_array_new (FALSE, FALSE, sizeof (Draft));

  for (guint i = 0; i < self->n; i++) {
    const DryJoint *joint = &self->items[i];
    if (!joint->counted || context->system->treatments[joint->kind].kind == DRY_TREAT_NONE)
      continue;
    Draft draft = draft_of (joint);
    g_array_append_val (drafts, draft);
  }
  g_array_sort (drafts, compare_drafts);
  return drafts;
}

/* The point as seen on a neighbouring face when it lies at their common corner. */
static gboolean
carry_round_corner (const DryFaces *faces, guint from, guint to, DryPoint p, DryPoint *out)
{
  const DryFace *face = &faces->items[from], *other = &faces->items[to];

  if (from == to) {
    *out = p;
    return TRUE;
  }
  if (face->left.face == (gint) to && p.x <= face->left.at + face->left.inset + LAP_REACH &&
      p.x >= face->left.at - LAP_REACH) {
    *out = (DryPoint){other->right.at - other->right.inset, p.y};
    return TRUE;
  }
  if (face->right.face == (gint) to && p.x >= face->right.at - face->right.inset - LAP_REACH &&
      p.x <= face->right.at + LAP_REACH) {
    *out = (DryPoint){other->left.at + other->left.inset, p.y};
    return TRUE;
  }
  return FALSE;
}

static gboolean
is_laid_over (const DryJoints *self, const DryFaces *faces, guint index, DryPoint end)
{
  const DryRun *run = &self->runs[index];

  for (guint i = 0; i < index; i++) {
    const DryRun *below = &self->runs[i];
    DryPoint p;
    if (below->kind == DRY_JOINT_PENETRATION ||
        !carry_round_corner (faces, run->face, below->face, end, &p))
      continue;
    if (dry_outline_distance (p, below->from, below->to) <= LAP_REACH)
      return TRUE;
  }
  return FALSE;
}

guint
dry_joint_runs_count_laps (const DryJoints *self, const DryFaces *faces, guint index)
{
  const DryRun *run = &self->runs[index];

  if (run->kind == DRY_JOINT_PENETRATION)
    return 0;
  return (is_laid_over (self, faces, index, run->from) ? 1 : 0) +
         (is_laid_over (self, faces, index, run->to) ? 1 : 0);
}

void
dry_joint_runs_lay (DryJoints *self, const DryPlanContext *context, const DryFaces *faces)
{
  g_autoptr (GArray) drafts = collect_drafts (self, context);
  GArray *runs = g_array_new (FALSE, FALSE, sizeof (DryRun));

  for (guint i = 0; i < drafts->len;) {
    Draft draft = g_array_index (drafts, Draft, i);
    for (i++; i < drafts->len; i++) {
      const Draft *next = &g_array_index (drafts, Draft, i);
      if (!is_continued (&draft, next))
        break;
      draft.hi = MAX (draft.hi, next->hi);
    }
    close_draft (&draft);
    draft.run.order = runs->len + 1;
    g_array_append_val (runs, draft.run);
  }
  self->n_runs = runs->len;
  self->runs = dry_arena_take_array (context->arena, runs);
  for (guint i = 0; i < self->n_runs; i++) {
    const DryTreatment *treatment = &context->system->treatments[self->runs[i].kind];
    self->runs[i].length +=
        (DryLength) dry_joint_runs_count_laps (self, faces, i) * treatment->overlap;
  }
}
