/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A part: anything that hangs on, stands at or hides in a wall (niche, valve, bench, glass, pipe
 * ...). One plain value for all kinds; knows where it is on its face, not what it does to the
 * boards. */
#pragma once

#include "base/geometry.h"

typedef guint32 DryId; /* unique in a project, never reused; 0 means none */

typedef enum {
  DRY_PART_NICHE,
  DRY_PART_VALVE,
  DRY_PART_SPOUT,
  DRY_PART_SHOWER_HEAD,
  DRY_PART_HAND_SHOWER,
  DRY_PART_GRAB_BAR,
  DRY_PART_BENCH,
  DRY_PART_GLASS,
  DRY_PART_PIPE, /* these three are found in the wall and marked by the user */
  DRY_PART_VENT,
  DRY_PART_CABLE,
  DRY_N_PART_KINDS,
} DryPartKind;

/* Which face of a wall. Outline walls have only DRY_SIDE_INSIDE; added walls have both. */
typedef enum {
  DRY_SIDE_INSIDE,  /* seen with the wall's start on the left */
  DRY_SIDE_OUTSIDE, /* the other side of an added wall: its end is on the left */
} DrySide;

typedef struct {
  DryId id;
  DryPartKind kind;
  DryId wall;
  DrySide side;
  char *item;  /* catalogue id it was made from, or NULL */
  char *label; /* the user's own name, or NULL */

  /* On the face. `u` is the centre. `z` is the height people name, above the finished floor:
   * niche, glass, pipe, vent, cable: bottom edge; valve, spout, heads: centre; grab bar: top of the
   * gripping surface; bench: top of the seat. */
  DryLength u, z;
  /* Finished size on the face: niche opening; fitting's trim; bar's length by its thickness;
   * bench's length and (height) thickness of its top, a built bench reaching the floor; glass:
   * width is how far it stands out from the wall, height its height; pipes: the space they take. */
  DryLength width, height;
  DryLength depth; /* into the wall (niche, pipe) or out from it (bench, glass thickness, bar) */

  DryLength hole;       /* fittings: diameter cut in the board; 0 = none */
  DryLength body_width; /* ready-made niche: the box behind the board; 0 = site-built */
  DryLength body_height;
  DryLength flange;      /* ready-made niche: lip lying on the board */
  gboolean site_built;   /* niche framed and lined from board on site */
  gboolean fold_down;    /* bench hung on blocking instead of framed from the floor */
  gboolean safety_glass; /* glass: tempered or laminated, marked as such */
  gboolean hinged;       /* glass: a door */
  gboolean toward_entry; /* shower head: its spray meets whoever opens the shower */
  double
      pitch; /* fall toward the room of niche floor, bench top: rise/run, 1/4 in per ft = 0.0208 */
  double flow_lpm;              /* heads: litres a minute at the rated pressure */
  DryLength trim_min, trim_max; /* valve: from stud face to finished face, what its trim takes; 0 =
                                   not known */
  gboolean screwed_down;        /* glass: its channel is screwed through the curb */
  gboolean ordered_early;       /* glass: made before the tile was there to measure */
} DryPart;

/* Deep copy, free. */
DryPart *dry_part_copy (const DryPart *self) G_GNUC_WARN_UNUSED_RESULT;
void dry_part_free (DryPart *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryPart, dry_part_free)

/* The finished rectangle on the face (x = u, y = z). Glass gives the slice of wall it touches. */
DryRect dry_part_rect (const DryPart *self);
/* "niche", "mixing valve", ... for messages (untranslated, lower case), and the word used in files.
 */
const char *dry_part_kind_name (DryPartKind kind);
const char *dry_part_kind_to_text (DryPartKind kind);
gboolean dry_part_kind_from_text (const char *text, DryPartKind *out);
gboolean dry_part_kind_is_hidden (DryPartKind kind); /* pipe, vent, cable */
