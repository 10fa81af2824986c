/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the boards stage, shared by the boards-*.c files: a face made ready for quick
 * questions, and layouts of seams on it. Knows nothing of joints, fasteners or drawings. */
#pragma once

#include "plan/boards.h"
#include "plan/cutting-private.h"

/* A slice of the region between two neighbouring x of its corners: bottom and top at both ends. */
typedef struct {
  DryLength x0, x1;
  DryLength bottom0, bottom1, top0, top1;
} DrySlab;

/* A line a vertical seam may follow, with what carries it there. */
typedef struct {
  DryLength at;
  DryLength y0, y1;
  gint member;        /* in the framing */
  DryLength bearing;  /* of each board */
  DryLength distance; /* of its fasteners from its edge */
  DryLength slack;    /* how far off `at` a seam may lie and both boards still be fastened */
  gboolean second;    /* only with a second stud beside the first */
  DryRect twin;       /* that stud; empty when there is no room for it */
} DryCarrier;

/* An inner corner of the region. */
typedef struct {
  DryPoint at;
  gboolean of_cutout; /* of a niche or window: no seam near it; else of a step: rather not */
} DryInnerCorner;

typedef struct {
  const DryPlanContext *context;
  const DryFace *face;
  const DryFraming *framing;
  DryArena *scratch;
  const DryStock *stock; /* the sheets that may be bought, then those on hand */
  guint n_stock;
  gboolean may_turn;
  DryRect bounds;
  const DrySlab *slabs;
  guint n_slabs;
  const DryCarrier *carriers; /* by `at` */
  guint n_carriers;
  gboolean seams_anywhere; /* linings: nothing to hit */
  const DryInnerCorner *corners;
  guint n_corners;
  DryLength gap, gap_low, gap_high; /* open, and its parts before and after the seam's line */
  DryLength min_piece;
  DryLength stagger;                /* between seams that meet a seam from both sides */
  DryLength block_half;             /* half the height of blocking */
  const DrySeamWish *const *wishes; /* of the user, with board on both sides of their points */
  guint n_wishes;
} DryBoardFace;

typedef struct {
  const DryLength *at; /* ascending */
  guint n;
} DryCutSet;

/* Seams of a face: all across in one direction, between them in the other. */
typedef struct {
  gboolean rows; /* `across` lie; else they stand */
  DryCutSet across;
  const DryCutSet *strips; /* across.n + 1 */
  guint style;             /* which sheet, which way up, rows or columns */
  /* Measured: */
  guint faults;     /* rules broken, weighed; 0 = can be built as it is */
  DryLength effort; /* length of seams, and what seconds studs and steps add to it */
  const DryPiece *pieces;
  guint n_pieces;
} DryLayout;

/* A seam as laid out, before it is known what carries it. */
typedef struct {
  gboolean vertical;
  DryLength at, low, high;
  guint strip;
  gboolean across;
} DryRawSeam;

/* What has wood behind all of it or along all its edges: its seams ask for none. */
static inline gboolean
dry_board_is_backed (const DryFace *face)
{
  return face->kind == DRY_FACE_NICHE || face->kind == DRY_FACE_CAP;
}

/* boards-slabs.c: quick geometry of one region. */
void dry_board_slice (DryBoardFace *self);
/* Appends the stretches (DryLength low, high) of a line with board on both sides. */
void dry_board_list_stretches (const DryBoardFace *self, gboolean vertical, DryLength at,
                               DryLength low, DryLength high, GArray *out);
/* Appends the bounds (DryRect) of each connected part of the region inside `cell`. */
void dry_board_list_parts (const DryBoardFace *self, DryRect cell, GArray *out);

/* boards-rules.c: what is allowed where. */
/* Least step between seams that meet one from both sides. `wall` may be NULL. */
DryLength dry_board_stagger (const DryWall *wall);
DryBoardFace *dry_board_face_new (const DryPlanContext *context, const DryFace *face,
                                  const DryFraming *framing, DryArena *scratch,
                                  const DryStock *stock, guint n_stock);
const DryCarrier *dry_board_find_carrier (const DryBoardFace *self, DryLength at, DryLength low,
                                          DryLength high);
/* What the board has least of on the carrier of a seam at `at`. */
DryLength dry_board_bearing_at (const DryCarrier *carrier, DryLength at);
/* Faults of one stretch, weighed; `effort` gets what is allowed but unwelcome. */
guint dry_board_judge_seam (const DryBoardFace *self, gboolean vertical, DryLength at,
                            DryLength low, DryLength high, DryLength *effort);
/* Whether the gap of a seam along the whole line would shave an edge of the region; weighed. */
guint dry_board_judge_gap (const DryBoardFace *self, gboolean vertical, DryLength at, DryLength low,
                           DryLength high);
/* Both, over all stretches of a line between low and high. */
guint dry_board_judge_line (const DryBoardFace *self, gboolean vertical, DryLength at,
                            DryLength low, DryLength high);
/* The distance from its edge at which a board with that bearing is fastened; FALSE when the system
 * allows none that hits the wood. */
gboolean dry_board_fit_distance (const DrySystem *system, DryLength bearing, DryLength *distance);

/* boards-cuts.c: sets of seam positions. Append DryCutSet to `out`. */
void dry_board_list_heights (const DryBoardFace *self, DryRect area, DryLength sheet_height,
                             gboolean leg_apart, GArray *out);
void dry_board_list_uprights (const DryBoardFace *self, DryRect area, DryLength sheet_width,
                              guint max, GArray *out);
/* Sets with one seam, or up to `more`, beyond what the sheets ask for: where smaller pieces may
 * come out of what is left of other sheets. */
void dry_board_list_more_heights (const DryBoardFace *self, DryRect area, DryLength sheet_height,
                                  guint more, GArray *out);
void dry_board_list_more_uprights (const DryBoardFace *self, DryRect area, DryLength sheet_width,
                                   guint max, guint more, GArray *out);

/* boards-wishes.c: seams where the user wants them. */
/* Takes from the room what concerns the face and can be obeyed; the others get their state in
 * `answers` (DryWishAnswer, one a wish of the room). */
void dry_board_find_wishes (DryBoardFace *self, GArray *answers);
gboolean dry_board_is_wished (const DryBoardFace *self, gboolean vertical, DryLength at);
/* The wish this seam fulfils, or another of `all` in the same line beyond an opening; NULL when
 * none.
 */
const DrySeamWish *dry_board_find_wish (const DryBoardFace *self, const DryRawSeam *seam,
                                        const GArray *all);
gboolean dry_board_is_seam_of (const DryBoardFace *self, const DrySeam *seam,
                               const DrySeamWish *wish);
/* Number of wishes none of the seams fulfils. */
guint dry_board_count_refused (const DryBoardFace *self, GArray *seams);
/* As dry_board_list_heights() and dry_board_list_uprights(), with the wished seams of that
 * direction among them that pass `area` between `low` and `high` of the other direction. */
void dry_board_list_wished_heights (const DryBoardFace *self, DryRect area, DryLength low,
                                    DryLength high, DryLength sheet_height, gboolean leg_apart,
                                    guint more, GArray *out);
void dry_board_list_wished_uprights (const DryBoardFace *self, DryRect area, DryLength low,
                                     DryLength high, DryLength sheet_width, guint max, guint more,
                                     GArray *out);

/* boards-layouts.c: the good layouts of a face, measured, best first; never none. */
GPtrArray *dry_board_list_layouts (const DryBoardFace *self);
/* Appends others with up to `more` seams in a strip beyond what must be, no more faulty than the
 * best of `layouts`; looks at `most` of them. */
void dry_board_list_more_layouts (const DryBoardFace *self, guint more, guint most,
                                  GPtrArray *layouts);

/* boards-measure.c */
/* Between which lines the strip lies, to the middle of the gaps. */
void dry_board_strip_span (const DryLayout *layout, guint strip, DryLength *low, DryLength *high);
DryRect dry_board_strip (const DryBoardFace *self, const DryLayout *layout, guint strip);
DryRect dry_board_cell (const DryBoardFace *self, const DryLayout *layout, guint strip, guint cell);
void dry_board_list_seams (const DryBoardFace *self, const DryLayout *layout, GArray *out);
void dry_board_measure (const DryBoardFace *self, DryLayout *layout);

/* boards-choose.c: one layout a face, the best together. FALSE when cancelled. */
gboolean dry_board_choose (DryBoardFace *const *faces, GPtrArray *const *layouts, guint n_faces,
                           DryLength kerf, GCancellable *cancellable, const DryLayout **chosen);

/* boards-write.c: the answer of one face appended to the arrays. */
typedef struct {
  GArray *boards, *seams, *blocking;
} DryBoardWriter;
void dry_board_write (DryBoardWriter *self, const DryBoardFace *face, const DryLayout *layout);
