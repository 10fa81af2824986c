/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the advisor's own files share: the room without the part, the demands being written down for
 * one face, bands, and how limits are read out of the rule pack. */
#pragma once

#include "plan/advisor.h"
#include "plan/measure-build.h"

/* Points. What a thing costs beside another is a choice of this program: roughly what it adds to
 * the work, a stud cut being the measure. Common practice, no source. */
#define DRY_POINTS_STUD       12.0 /* each stud cut: header, sill, two short studs */
#define DRY_POINTS_SEAM       6.0  /* boards laid anew round it */
#define DRY_POINTS_SPRAY      8.0
#define DRY_POINTS_REACH      4.0 /* out of reach at all ... */
#define DRY_POINTS_REACH_INCH 2.0 /* ... and each inch of it */
#define DRY_POINTS_EDGE       2.0 /* an edge off its joint ... */
#define DRY_POINTS_EDGE_INCH  1.0 /* ... and each inch of it: tiles cut to a patchwork ... */
#define DRY_POINTS_EDGE_MOST  6.0 /* ... until it is a cut like any other */
#define DRY_POINTS_NEAR       3.0
#define DRY_POINTS_OUTSIDE    5.0
#define DRY_POINTS_PLUMBING   3.0
#define DRY_POINTS_BLOCKING   4.0
#define DRY_POINTS_RULE       6.0 /* any other rule of the pack that only advises */
#define DRY_POINTS_HIDDEN     6.0
#define DRY_POINTS_SLIVER                                                                          \
  4.0 /* a strip of tile narrower than 2 in beside the opening, or at an end */
#define DRY_POINTS_JOINT_32 0.5 /* each 1/32 in the joint is changed */

/* Boards are laid anew where a seam comes this near a corner; the pack's rule may say otherwise. */
#define DRY_ADVICE_SEAM_NEAR (2 * DRY_INCH)
#define DRY_ADVICE_NEAR_ROOM (2 * DRY_INCH)

/* The room without the part, planned once; shared by advice on several sizes of it. */
typedef struct {
  DryPlan *plan;
  DryAdviceOptions options;
  GArray **spray; /* by face: DryRect */
  guint n_faces;
  const DryCatalog *catalog;
} DryAdviceSite;

struct _DryAdvice {
  DryAdviceSite *site; /* atomic box */
  DryArena *arena;
  DryPart *part; /* owned copy */
  DryAdviceFace *faces;
  guint n_faces;
};

/* How the four edges of a niche meet the tile: left, right, bottom, top. */
typedef struct {
  DryLength off[4]; /* to the nearest joint; G_MAXINT64 without any */
  DryLength
      strip[4]; /* of tile left between the edge and the next joint outward; 0 when on a joint */
} DryAdviceEdges;

/* The demands of one face while they are written down. */
typedef struct {
  const DryAdvice *advice;
  const DryPlanContext *context; /* texts go to its arena: the advice's */
  const DryFace *face;
  const DryWall *wall;
  const DryPart *part;
  DryMeasuring measuring; /* for the look-ups of measure-build.h */
  DryRect finish, body;   /* relative to the place: u and z of the part */
  GArray *standing;       /* DryStanding */
  GArray *demands;        /* DryAdviceDemand */
  GArray *zones;          /* DryAdviceZone, of the demand being written */
  GArray *facts;          /* DryMeasure, what the rules may ask of the part */
} DryAdviceWork;

/* --- advisor-bands.c --- */
/* The closed set of places in `domain` that no open rectangle covers, as rectangles in the arena;
 * exact, lines and points included. */
const DryRect *dry_advice_bands (DryArena *arena, const DryRect *open, guint n_open, DryRect domain,
                                 guint *n_out);
gboolean dry_advice_in_bands (const DryRect *bands, guint n, DryPoint place);

/* --- advisor-rules.c --- */
void dry_advice_fact_length (DryAdviceWork *self, const char *name, DryLength value);
void dry_advice_fact_number (DryAdviceWork *self, const char *name, double value);
void dry_advice_fact_yes (DryAdviceWork *self, const char *name, gboolean value);

/* What the rules that apply ask of a length, all together; the rule behind each bound. */
typedef struct {
  gboolean any, has_low, has_high;
  DryLength low, high;
  const DryRule *rule; /* the gravest that bounds it */
} DryAdviceRange;

DryAdviceRange dry_advice_range (const DryAdviceWork *self, const char *subject,
                                 const char *measure);
/* The gravest rule that applies to the subject and asks something of this measure; NULL: none. */
const DryRule *dry_advice_rule (const DryAdviceWork *self, const char *subject,
                                const char *measure);
gboolean dry_advice_is_hard (const DryAdviceWork *self, DryAdviceKind kind, const DryRule *rule);

/* --- advisor-demands.c: what every kind of part is asked --- */
void dry_advice_add_zone (DryAdviceWork *self, DryRect places, double fixed, const char *what);
/* Every place at which `shape`, relative to the place, overlaps `obstacle` on the face. */
void dry_advice_keep_off (DryAdviceWork *self, DryRect shape, DryRect obstacle, double fixed,
                          const char *what);
void dry_advice_keep_in_range (DryAdviceWork *self, DryRect where, DryAdviceRange range,
                               double fixed, double per_inch, const char *what);
/* Ends a demand, which takes the zones written since the last; kept without any zone too, so that
 * a place can say that it holds. */
void dry_advice_end_demand (DryAdviceWork *self, DryAdviceKind kind, gboolean hard, gboolean sums,
                            const DryRule *rule, const char *else_source);
/* A zone of every place. */
void dry_advice_forbid_face (DryAdviceWork *self, double fixed, const char *what);
void dry_advice_demand_boarded (DryAdviceWork *self, DryRect shape);
void dry_advice_demand_parts (DryAdviceWork *self, const char *subject, DryRect shape);
void dry_advice_demand_near (DryAdviceWork *self, DryRect shape, DryLength room);
void dry_advice_demand_wall (DryAdviceWork *self);
/* A marked pipe, vent or cable as seen from the face, and its name. */
DryRect dry_advice_hidden_rect (const DryAdviceWork *self, const DryPart *hidden);
const char *dry_advice_text (DryAdviceWork *self, DryLength length);

void dry_advice_niche_demands (DryAdviceWork *self);   /* advisor-niche.c */
void dry_advice_fitting_demands (DryAdviceWork *self); /* advisor-fitting.c */

/* --- advisor-tile.c --- */
/* The joints of the tile laid on the face, moved by `datum`, with joints `joint` wide (0: as
 * chosen); no lines when nothing is tiled or the pattern has none that run through. */
DryAdviceLines dry_advice_lines (const DryAdviceSite *site, DryArena *arena, const DryFace *face,
                                 DryPoint datum, DryLength joint);
/* The first of the ordered values that is not less than `least`; `n` when all are. */
guint dry_advice_first_from (const DryLength *values, guint n, DryLength least);

/* --- advisor-layout.c: the tile chosen with the place --- */
/* One axis of the tile of a face: where joints repeat, and where its tiles end. */
typedef struct {
  DryLength from, to; /* joints lie between these */
  DryLength pitch, size, joint;
  DryLength middle[20]; /* of joints, one period; several where courses are offset */
  guint n_middle;
  DryLength low[16], high[16]; /* edges the tile ends at: this face's, or all faces' for courses */
  guint n_ends;
} DryAdviceAxis;

gboolean dry_advice_axis (const DryAdviceSite *site, const DryFace *face, DryLength joint,
                          gboolean level, DryAdviceAxis *out);
/* Ends whose cut is under half a tile with the layout moved by `shift`. */
guint dry_advice_axis_slivers (const DryAdviceAxis *self, DryLength shift);
/* Least points for a niche from `low` to `high` over every shift; the shift. */
double dry_advice_axis_best (const DryAdviceAxis *self, DryLength low, DryLength high,
                             DryLength tolerance, DryLength *shift);
/* Adds the places (of the part, whose edges are `low` and `high` from it) where that can be least.
 */
void dry_advice_axis_critical (const DryAdviceAxis *self, DryLength low, DryLength high,
                               DryLength tolerance, DryLength most, GArray *out);
double dry_advice_layout_points (const DryAdviceSite *site, const DryFace *face, DryLength joint,
                                 DryPoint shift);
/* Joint widths to be tried, the present one first. */
guint dry_advice_joints (const DryAdviceSite *site, gboolean free, DryLength joints[16]);

/* --- advisor-solve.c --- */
/* The points of everything but the joints; negative where it may not be. */
double dry_advice_reckon_demands (const DryAdvice *self, const DryAdviceFace *face, DryPoint place);
void dry_advice_find_critical (const DryAdvice *self, DryAdviceFace *face, const GArray *standing);

/* --- advisor.c --- */
/* Another size in the same room; never fails where there is advice on one size of the kind. */
DryAdvice *dry_advice_for_part (DryAdviceSite *site, const DryPart *part, GError **error);
/* The finished rectangle at a place, and the body behind the board. */
DryRect dry_advice_finish (const DryAdvice *self, DryPoint place);
DryRect dry_advice_body (const DryAdvice *self, DryPoint place);
double dry_advice_demand_points (const DryAdviceDemand *demand, DryPoint place, gboolean *broken,
                                 const DryAdviceZone **worst);
/* Points for edges off the lines; 0 for parts that do not care. */
double dry_advice_joint_points (const DryAdvice *self, const DryAdviceLines *lines, DryPoint place,
                                DryAdviceEdges *edges);
