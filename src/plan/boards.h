/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 3, boards: splits each face's region into pieces that can be cut from sheets and hung.
 * Vertical seams only on framing with bearing for the edge distance, no four corners meeting, no
 * seam through a niche corner or a valve, no slivers; then fewest sheets, least seam (a
 * level one counts twice), fewest pieces, cheapest, least waste. */
#pragma once

#include "plan/cutting.h"
#include "plan/framing.h"

/* Wood left round a fastener in its member; the seams are planned and the fasteners set with the
 * same. Common practice, no source. */
#define DRY_WOOD_AROUND (DRY_INCH / 4)

typedef struct {
  guint index;
  guint face;
  const char *mark; /* "B2": face mark and number from left to right, bottom to top */
  DryPolygon shape; /* on the face, holes for niches inside the board; pipe holes apart */
  DryRect bounds;
  const DryHole *holes; /* pipe holes in this board */
  guint n_holes;
} DryBoard;

/* Where two boards of one face meet, before joints are classified. */
typedef struct {
  guint face;
  DryPoint from, to;
  gboolean vertical;
  gint member; /* framing member carrying a vertical seam; -1: blocking needed or horizontal */
  DryLength bearing;          /* what each board has on it; the lesser of the two where a sheet hung
                                 whole pushes the seam off the middle of the member */
  DryLength edge_distance;    /* the fastener distance that still hits the member */
  gboolean needs_second_stud; /* no distance the system allows fits this member */
  DryId wish;                 /* of the user that put it here; 0: the plan chose */
  /* Upright seams on studs that the user wished: how far off a stud's middle, how far it may be
   * there, and where that middle is. `stud_at` is -1 where the face has no such stud. */
  DryLength off_stud, off_allowed, stud_at;
} DrySeam;

typedef enum {
  DRY_WISH_OBEYED,
  DRY_WISH_OFF_BOARD, /* no board on both sides of the point, or the face is not boarded */
  DRY_WISH_TOO_NEAR,  /* to another wished seam: there would be nothing between them */
} DryWishState;

/* What became of one wish of the room. */
typedef struct {
  const DrySeamWish *wish;
  gint face; /* -1: not boarded */
  DryWishState state;
} DryWishAnswer;

typedef struct {
  DryBoard *items;
  guint n;
  DrySeam *seams;
  guint n_seams;
  DryMember *blocking; /* added behind horizontal seams and second studs */
  guint n_blocking;
  const DryWishAnswer *wishes; /* in the room's order */
  guint n_wishes;
  const DrySheet *sheet; /* chosen size when all come from one */
  const DryCutting *cutting;
  guint least_sheets; /* no boards that keep the rules need fewer bought, wherever seams fall */
} DryBoards;

/* Errors: DRY_ERROR_CANCELLED only. Boards always cover the region less joint gaps. A wished seam
 * lies exactly where it is wished, whatever rule that breaks; all others keep the rules round it.
 */
const DryBoards *dry_boards_compute (const DryPlanContext *context, const DryFaces *faces,
                                     const DryFraming *framing, GError **error);

/* A line of a face along which a seam breaks no rule by itself, whatever other seams there are. */
typedef struct {
  DryLength at;    /* u when upright, z when level */
  DryLength slack; /* how far off it a seam is still fastened; 0 when level */
  gint member;     /* framing member whose middle it is; -1: level */
  gboolean second; /* only with a second stud beside that one */
} DrySeamPlace;

/* Where an upright seam from `low` to `high` may stand on the face; by `at`. DrySeamPlace; free
 * with g_array_unref(). */
GArray *dry_boards_list_seam_places (const DryPlanContext *context, const DryFace *face,
                                     const DryFraming *framing, DryLength low,
                                     DryLength high) G_GNUC_WARN_UNUSED_RESULT;
