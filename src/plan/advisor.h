/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The advisor: every place on the wet walls where a niche, fitting, bar or seat may stand, what
 * each place costs and why, and the best of them. Input: a project and the part; it edits nothing
 * and knows no pointer. */
#pragma once

#include "plan/plan.h"
#include "plan/spray.h"

/* What is asked of a place. Limits come from the rule pack where it has a rule; the rest is common
 * practice and says so. */
typedef enum {
  DRY_ADVICE_BOARDED,    /* within the boarded part of the wall, off corners and basin */
  DRY_ADVICE_FRAME,      /* end studs, plates and the studs beside openings are never cut */
  DRY_ADVICE_STUDS,      /* studs cut, or in the way of a hole */
  DRY_ADVICE_BAY,        /* the bay takes the body with its clearance */
  DRY_ADVICE_HIDDEN,     /* pipes, vents and cables marked in the wall */
  DRY_ADVICE_PARTS,      /* other parts, windows and doors */
  DRY_ADVICE_OTHER_SIDE, /* a niche in the other side of the same wall */
  DRY_ADVICE_RATED,      /* fire-rated wall */
  DRY_ADVICE_DEPTH,      /* deeper than the wall */
  DRY_ADVICE_INSULATION, /* what stays behind it in an outside wall */
  DRY_ADVICE_BOTTLE,     /* clear height for the tallest bottle and an inch */
  DRY_ADVICE_HEIGHT,     /* reach, or the height the rules give a fitting */
  DRY_ADVICE_SPRAY,      /* direct spray of the shower heads */
  DRY_ADVICE_SEAM,       /* board seams near its corners, or through a hole */
  DRY_ADVICE_JOINTS,     /* edges on tile joints */
  DRY_ADVICE_NEAR,       /* room left to other parts */
  DRY_ADVICE_WALL,       /* outside or plumbing wall */
  DRY_ADVICE_HOLD,       /* studs behind both ends of a bar, else blocking */
  DRY_ADVICE_LAYOUT,     /* tile moved, or its joint changed, for the niche's sake */
  DRY_N_ADVICE,
} DryAdviceKind;

/* What the user may set. */
typedef struct {
  DryLength joint_tolerance; /* an edge this near a joint is on it; the finish's own comes before */
  DryLength tallest_bottle;  /* 0: the clear height the rule pack asks for */
  guint must;                /* bit set of DryAdviceKind: what otherwise only costs, asked for */
  DrySprayShape spray;
} DryAdviceOptions;

/* 1/8 in to a joint, the rule pack's clear height, the usual spray. */
DryAdviceOptions dry_advice_options_default (void);

/* A stretch of places, open: u of the part's middle and the height people name, as in DryPart. Any
 * place strictly inside breaks the demand; its edges do not. Sides that reach beyond the wall are
 * at +/- DRY_LENGTH_MAX. */
typedef struct {
  DryRect places;
  double fixed;     /* points */
  double per_inch;  /* points for each inch in from `toward` */
  guint toward;     /* which edge of `places` is nearest to being legal: DryAdviceEdge, 0 = none */
  const char *what; /* "the stud at 31 1/4\"" */
} DryAdviceZone;

typedef enum {
  DRY_ADVICE_EDGE_NONE,
  DRY_ADVICE_EDGE_BELOW, /* lowering it to places.y0 mends it */
  DRY_ADVICE_EDGE_ABOVE, /* raising it to places.y1 mends it */
} DryAdviceEdge;

/* One demand on one face. */
typedef struct {
  DryAdviceKind kind;
  gboolean hard; /* may not; else it costs */
  gboolean sums; /* every zone broken counts, else the dearest */
  const DryAdviceZone *zones;
  guint n_zones;
  DrySource source;
  const char *rule; /* id of the rule in the pack, or NULL */
} DryAdviceDemand;

/* Edges a niche would rather stand on, on one face: joints of the tile laid there. */
typedef struct {
  const DryLength *upright, *level; /* ascending, in face coordinates */
  guint n_upright, n_level;
} DryAdviceLines;

typedef struct {
  guint face; /* index in the faces without the part */
  DryId wall;
  DrySide side;
  const char *name;
  DryLength length, height;
  const DryAdviceDemand *demands;
  guint n_demands;
  DryAdviceLines lines;
  /* Closed rectangles of places, their union exact; a place is in one of them or may not be. Width
   * or height may be 0: one exact line or point. */
  const DryRect *legal; /* nothing hard is broken */
  guint n_legal;
  const DryRect *best; /* nothing at all is broken, joints included */
  guint n_best;
  /* Where points can be least: every edge of a zone, every kink of a cost; ascending. Some place
   * (u of one, z of the other) is as good as any on the face. */
  const DryLength *critical_u, *critical_z;
  guint n_critical_u, n_critical_z;
} DryAdviceFace;

/* One demand at one place. */
typedef struct {
  DryAdviceKind kind;
  const char *id, *title; /* "bay", "Fits its stud bay" */
  gboolean hard, holds;
  double points;    /* 0 where it holds; hard ones count none, they forbid */
  const char *text; /* plain words with the numbers */
  DryWorking working;
} DryAdviceReason;

/* A place and what speaks for and against it. */
typedef struct {
  DryId wall;
  DrySide side;
  DryLength u, z;
  DryLength width, height, depth; /* finished, as chosen */
  const char *item;               /* catalogue item chosen instead of the part's own, or NULL */
  const char *tile;               /* catalogue tile laid instead of the room's, or NULL */
  DryLength joint;                /* tile joint chosen; 0 = as it is */
  DryPoint datum;                 /* tile layout moved by this much on that face */
  gboolean legal;
  double points;                  /* sum over the reasons: less is better */
  double score;                   /* 100 less the points, not below 0 */
  const DryAdviceReason *reasons; /* broken ones first, dearest first */
  guint n_reasons;
} DryAdvicePlace;

/* A change that would make the part fit somewhere, or somewhere better. */
typedef struct {
  const char *id; /* "move", "wall", "height", "width", "depth", "joint", "datum", "tile", "item" */
  const char *text;     /* "Make it 1/2\" narrower" */
  double size;          /* how much is changed, in inches or as rank; for ordering within */
  DryAdvicePlace place; /* where it then stands */
} DryAdviceChange;

typedef struct _DryAdvice DryAdvice;

/* `part` is a niche, valve, spout, shower head, hand shower, grab bar or bench, of the room or new
 * (id 0). Errors: DRY_ERROR_REFERENCE (no such room, wall, system, pack), DRY_ERROR_GEOMETRY (a
 * kind of part the advisor does not place, or no wet wall), DRY_ERROR_CANCELLED. */
DryAdvice *dry_advice_new (const DryProject *project, DryId room, const DryPart *part,
                           const DryCatalog *catalog, const DryAdviceOptions *options,
                           GCancellable *cancellable, GError **error) G_GNUC_WARN_UNUSED_RESULT;
DryAdvice *dry_advice_ref (const DryAdvice *self);
void dry_advice_unref (DryAdvice *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryAdvice, dry_advice_unref)

gboolean dry_advice_places_kind (DryPartKind kind); /* whether dry_advice_new() takes it */
const DryPart *dry_advice_get_part (const DryAdvice *self);
guint dry_advice_get_n_faces (const DryAdvice *self);
const DryAdviceFace *dry_advice_get_face_at (const DryAdvice *self, guint index);
const DryAdviceFace *dry_advice_get_face (const DryAdvice *self, DryId wall,
                                          DrySide side); /* NULL */

/* The points of a place without words; negative when it may not be. Cheap: for drags. */
double dry_advice_reckon (const DryAdvice *self, const DryAdviceFace *face, DryPoint place);
/* Everything about a place, texts in `arena`. `wall` without a wet face: one broken hard reason. */
DryAdvicePlace dry_advice_judge (const DryAdvice *self, DryArena *arena, DryId wall, DrySide side,
                                 DryPoint place);
/* The best legal place within `reach` of `from` on that face, less points first, then nearer. FALSE
 * when there is none. Sideways only with `lock_z`. */
gboolean dry_advice_snap (const DryAdvice *self, const DryAdviceFace *face, DryPoint from,
                          DryLength reach, gboolean lock_z, DryPoint *out);

/* Which things may be chosen with the place. */
typedef struct {
  gboolean size;  /* catalogue niches, or a site-built one between the least and the most below */
  gboolean joint; /* within what the tile allows */
  gboolean datum; /* the layout on the face */
  DryLength width_min, width_max, height_min, height_max; /* site-built; 0: 4 in more or less */
} DryAdviceFreedom;

/* As judged, with the tile of that face moved by `shift` and its joints `joint` wide (0: as laid).
 */
DryAdvicePlace dry_advice_judge_layout (const DryAdvice *self, DryArena *arena, DryId wall,
                                        DrySide side, DryPoint place, DryLength joint,
                                        DryPoint shift);

/* Up to `wanted` best places, fewest points first, no two that overlap on one
 * face; never NULL, `n` may be 0. */
const DryAdvicePlace *dry_advice_find_best (const DryAdvice *self, DryArena *arena,
                                            DryAdviceFreedom freedom, guint wanted, guint *n);
/* The smallest changes that mend what is broken where the part stands now, smallest first; `n` is 0
 * when nothing is broken or nothing helps. */
const DryAdviceChange *dry_advice_find_changes (const DryAdvice *self, DryArena *arena, guint *n);

/* The project with the part put at the place, and with the size, tile, joint and layout chosen with
 * it. A part that is not in the room is added under a new id. Errors: those of the edits. */
DryProject *dry_advice_apply (const DryAdvice *self, const DryProject *project,
                              const DryAdvicePlace *place, DryId *id_out,
                              GError **error) G_GNUC_WARN_UNUSED_RESULT;

const char *dry_advice_kind_id (DryAdviceKind kind);    /* "bay" */
const char *dry_advice_kind_title (DryAdviceKind kind); /* "Fits its stud bay" */

/* The whole answer as one JSON object: bands per face, the place it has, best places, changes. */
void dry_advice_write_json (const DryAdvice *self, guint top, DryAdviceFreedom freedom,
                            DryJsonWriter *writer, const char *key);
