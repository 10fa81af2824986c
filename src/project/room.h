/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A room: outline walls, added walls, openings, one basin, wet zone, finish and parts, as a plain
 * value. Read-only once inside a DryProject; knows no catalogue and computes no plan. */
#pragma once

#include "project/part.h"

/* What tile does at the ends of a wall. */
typedef enum {
  DRY_TILE_ENDS_AS_ROOM,
  DRY_TILE_ENDS_BALANCED,    /* cuts at both ends alike */
  DRY_TILE_ENDS_WHOLE_OUTER, /* a whole tile at the open edge, the cut in the corner */
} DryTileEnds;

/* A wall. Outline walls run clockwise seen from above (y up), so a person inside sees `start` on
 * the left. Coordinates are faces of studs. An outline wall ends where the next one starts. */
typedef struct {
  DryId id;
  char *name; /* the user's own, or NULL: then the plan names it */
  DryPoint start;
  DryPoint end;        /* added walls only; outline walls: kept equal to the next start */
  gboolean added;      /* FALSE: part of the outline */
  DryLength height;    /* 0 = the room's ceiling; less = a half wall */
  DryLength thickness; /* added walls: stud depth plus nothing; 0 = stud_depth */
  gboolean bearing, exterior, fire_rated, plumbing; /* none of the first three: a plain partition */
  gboolean steel_studs;
  DryLength stud_width;   /* 1-1/2 in */
  DryLength stud_depth;   /* 3-1/2 in */
  DryLength stud_spacing; /* on centre */
  DryLength first_stud;   /* u of the centre of the first stud after the one at the left end */
  DryLength *
      found_studs; /* u of stud centres as found one by one, ascending; replaces spacing when any */
  guint n_found_studs;
  DryLength lining;        /* thickness of the drywall or plaster outside the wet area; 0 = none */
  DryLength insulation;    /* thickness left in the cavity; exterior walls */
  gboolean vapour_barrier; /* polyethylene behind the board */
  gboolean air_barrier;    /* sealed, behind the tub; exterior walls */
  /* As measured; 0 = not measured or true. */
  DryLength plane_error;  /* out of flat under a 10 ft straightedge */
  DryLength plumb_error;  /* lean over the wall's height; + into the room at the top */
  DryLength square_error; /* taper of the corner at the wall's right end over the wall's height */
  DryLength width_bow; /* back of an alcove: its width in the middle of the depth less the mean of
                          back and front; 0 = not measured or straight */
  double cap_pitch;    /* half walls: fall of the cap toward the wet side */
  DryLength tile_from; /* u where a tile starts, when set */
  gboolean tile_set;
  DryTileEnds tile_ends; /* of this wall; as the room's finish says unless set */
} DryWall;

typedef enum { DRY_OPENING_DOOR, DRY_OPENING_WINDOW, DRY_OPENING_PASSAGE } DryOpeningKind;

typedef struct {
  DryId id;
  DryOpeningKind kind;
  DryId wall;
  DryLength u; /* left edge */
  DryLength z; /* bottom edge: sill height; 0 for doors */
  DryLength width, height;
  gboolean safety_glass; /* window: pane tempered or laminated */
  gboolean sloped_sill;  /* window: sill pitched to the wet side */
  gboolean wooden_jamb;
} DryOpening;

typedef enum { DRY_BASIN_TUB, DRY_BASIN_PAN } DryBasinKind;
typedef enum { DRY_END_LEFT, DRY_END_RIGHT, DRY_END_CENTRE, DRY_END_BACK } DryEnd;

/* The tub or pan. It stands against one wall: seen facing that wall, its left edge is `along` from
 * the wall's left end and its back `away` from the studs. Turned, its length runs out from the
 * wall. */
typedef struct {
  DryId id; /* 0: the room has no basin yet */
  DryBasinKind kind;
  char *item;
  char *label;
  DryId wall;
  DryLength along, away;
  gboolean turned;
  DryLength length, width; /* of the basin itself, length along the wall unless turned */
  DryLength height;        /* tub: rim above floor; pan: top of curb */
  DryLength flange;        /* upturned lip above rim or pan edge; 0 = none */
  DryLength
      flange_thickness; /* how far the lip stands proud of the stud faces; 0 = let in or furred */
  DryEnd drain;
  DryLength drain_diameter; /* of the waste pipe */
  gboolean drop_in;         /* tub let into a framed deck instead of standing in an alcove */
  DryLength rim_error;      /* tub out of level over its length */
  DryLength recess;         /* pan or mortar floor let into the joists; 0 = none */
  double slope;             /* pan: fall of its floor to the drain, rise/run; 0 = not known */
  gboolean linear_drain;    /* a channel instead of a point drain */
  DryLength corner_cut;     /* neo-angle pan: each leg of the cut-off front corner; 0 = square */
  gboolean site_built;      /* floor of mortar made on site instead of a ready pan */
  gboolean liner;           /* a liner under the mortar bed instead of a membrane on it */
  gboolean pre_slope;       /* that liner lies on a slope */
  gboolean weeps_open;      /* weep holes of the drain kept open */
  DryLength liner_turn_up;  /* liner or membrane above the threshold; 0 = not known */
  gboolean clamping_drain;  /* drain with a clamping ring instead of a bonding flange */
  gboolean curb_wrapped;    /* membrane goes over the curb, down outside and up the jambs */
  double curb_pitch;        /* fall of the curb's top inward */
  gboolean dam;             /* a temporary dam is planned for the flood test */
} DryBasin;

typedef struct {
  DryLength height; /* top of the wet wall above the floor; 0 = to the ceiling */
  DryLength past;   /* how far the wet wall goes past the basin's open edge */
  gboolean leg;     /* that strip runs down to the floor beside the apron or curb */
  gboolean ceiling; /* the ceiling over the basin is tiled too */
} DryWetZone;

typedef enum {
  DRY_PATTERN_STRAIGHT,
  DRY_PATTERN_OFFSET,
  DRY_PATTERN_VERTICAL,
  DRY_PATTERN_DIAGONAL,
  DRY_PATTERN_HERRINGBONE, /* level and upright by turns */
  DRY_PATTERN_HEXAGON,     /* points up; width is across the flats */
} DryPattern;

/* What tile is set in: as the system says, or what was chosen instead. */
typedef enum {
  DRY_MORTAR_AS_SYSTEM,
  DRY_MORTAR_UNMODIFIED,
  DRY_MORTAR_MODIFIED,
  DRY_MORTAR_EPOXY
} DryMortarKind;

/* How the wet walls are built and finished. */
typedef struct {
  char *system;    /* catalogue id of the backer system; never NULL */
  char *sheet;     /* id of the sheet size wished, or NULL: the plan chooses among the system's */
  DryLength board; /* board thickness; 0 = the system's default */
  char *tile;      /* catalogue id, or NULL */
  DryLength tile_width, tile_height, tile_thickness;
  DryLength joint;  /* between tiles */
  DryLength mortar; /* bed under the tile after bedding */
  DryPattern pattern;
  double offset;    /* offset pattern: share of the tile's length, 0..0.5 */
  gboolean stepped; /* offset pattern: every course goes on by the offset, not there and back */
  gboolean tiled;   /* FALSE: no tile chosen yet */
  gboolean wrap;    /* courses go on round inside corners with the rest of the cut tile */
  DryLength joint_min, joint_max; /* the joint may be chosen between; 0 = it is as it is */
  DryLength level;                /* z where a course starts, when set */
  gboolean level_set;
  DryLength variation;         /* of the tiles' faces: largest less smallest; 0 = not measured */
  gboolean whole_outer;        /* whole tile at the open edges of walls instead of balanced cuts */
  DryLength niche_tolerance;   /* a niche's edge this near a joint is on it; 0 = as the rules say */
  gint box;                    /* tiles in a box; 0 = the catalogue's, or not known */
  gint chips_across, chips_up; /* of a sheet of mosaic; 0 = the catalogue's, or loose tile */
  double breakage;             /* bought over, per cent; 0 = the catalogue's, or the usual */
  DryMortarKind mortar_kind;   /* what the tile is set in */
  DryLength trim;              /* depth of the edge trim; 0 = none */
  double coverage;             /* mortar found behind lifted tile, per cent; 0 = not checked */
  double membrane_used;        /* of liquid membrane, in litres; 0 = not recorded */
  gboolean no_listing;         /* nobody can show the membrane's listing */
  gboolean mixed_makers;       /* parts of several makers without a letter that they go together */
  gboolean plain_screws;       /* drywall screws, or mesh that alkali eats */
  gboolean gap_mortar; /* the gap at the tub filled with mortar instead of what the system says */
  gint tiles_ordered;  /* tiles, or sheets of mosaic; 0 = not recorded */
  gboolean mixed_lots; /* their boxes are of several dye lots */
  double grout_after;  /* hours from the last tile to grouting, meant or done; 0 = as planned */
  double water_after;  /* hours from grouting to the first shower; 0 = as planned */
  gboolean cut_guard;  /* a strip guards the band against the knife when the joint is renewed */
} DryFinish;

/* Where the user wants a seam between boards: the plan lays one of that direction through the point
 * and chooses the others round it. */
typedef struct {
  DryId id;
  DryId wall;
  DrySide side;
  gboolean level;    /* FALSE: upright */
  DryLength at;      /* u of an upright seam, z of a level one */
  DryLength through; /* the point's other coordinate: z of an upright seam, u of a level one */
} DrySeamWish;

#define DRY_MAX_COUNT 10000 /* boards of one size on hand */

/* Sheets or offcuts the job has already: cut first, not bought. */
typedef struct {
  char *system;    /* catalogue id of the backer system the board is of; NULL = any */
  DryLength board; /* thickness; 0 = any */
  DryLength width, height;
  gint count;
  char *note; /* where it stands, where it came from; may be NULL */
} DryOnHand;

typedef struct {
  DryId id;
  char *name;
  DryLength ceiling;             /* height above the finished floor */
  DryLength joist_spacing;       /* ceiling framing; 0 = unknown */
  double fan;                    /* exhaust fan, L/s; 0 = not known */
  gboolean steam;                /* the wet area is a steam room */
  double ceiling_slope;          /* fall of the ceiling over the wet area, rise/run; 0 = level */
  gboolean damp;                 /* studs or substrate are damp */
  gboolean timber_floor;         /* the floor is framed and sheathed in wood */
  gboolean floor_protected;      /* waterproofed outside the wet area too */
  gboolean floor_stone;          /* stone is laid on it */
  gboolean floor_i_joists;       /* I-joists instead of sawn ones */
  DryLength floor_joist_depth;   /* of the floor's joists; 0 = not known, like the next three */
  DryLength floor_joist_spacing; /* on centre */
  DryLength floor_joist_span;    /* clear */
  double floor_joist_stiffness;  /* modulus of elasticity, MPa */
  DryLength floor_tile;          /* longer edge of the tile on the wet floor; 0 = none */
  double floor_dcof;             /* its wet dynamic friction; 0 = not known */
  DryLength
      toilet_side; /* from a toilet's centre line to the nearest finish or fixture; 0 = none */
  DryLength toilet_front; /* clear before it */
  DryLength shower_front; /* clear floor before the shower or tub; 0 = not measured */
  DryLength light_above;  /* lowest part of a hanging light above the rim or threshold; 0 = none */
  DryLength light_away;   /* its distance from the water on the plan */
  DryLength outlet_away;  /* nearest receptacle to the water; 0 = none within reach */
  gboolean switch_inside; /* a switch within the shower */
  double hot_water;       /* hottest water at the shower; 0 = not measured */
  DryWall *walls;         /* outline first, in order, then added walls */
  guint n_walls, n_outline;
  DryOpening *openings;
  guint n_openings;
  DryBasin basin;
  DryWetZone wet;
  DryFinish finish;
  DryPart *parts;
  guint n_parts;
  DrySeamWish *seams; /* wished by the user */
  guint n_seams;
  DryOnHand *on_hand;
  guint n_on_hand;
  char *done;    /* steps of the order of work that are done and when, as the plan reads it
                    (plan/done.h): "boards=2026-12-01T16:30 coat-1=2026-12-02T10:00"; or NULL */
  char *unknown; /* fields a newer Drybay wrote, as raw JSON object text, or NULL */
} DryRoom;

/* Deep copy and free; for the edits and for tests that build rooms by hand. */
DryRoom *dry_room_copy (const DryRoom *self) G_GNUC_WARN_UNUSED_RESULT;
void dry_room_free (DryRoom *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryRoom, dry_room_free)

/* Borrowed look-ups; NULL when not there. */
const DryWall *dry_room_get_wall (const DryRoom *self, DryId id);
const DryOpening *dry_room_get_opening (const DryRoom *self, DryId id);
const DryPart *dry_room_get_part (const DryRoom *self, DryId id);
const DrySeamWish *dry_room_get_seam (const DryRoom *self, DryId id);
guint dry_room_find_wall (const DryRoom *self, DryId id); /* index; n_walls when not there */
/* The user's own word for the part, else its kind, untranslated, with its number among several of
 * that kind in the order of the room: "niche 2". Free with g_free(). */
char *dry_room_dup_part_name (const DryRoom *self, const DryPart *part) G_GNUC_WARN_UNUSED_RESULT;

DryLength dry_wall_length (const DryWall *self);
DryLength dry_wall_height (const DryRoom *room, const DryWall *self); /* resolves 0 */
/* From face to face of its framing: what an added wall is given to be thick, or its studs. */
DryLength dry_wall_depth (const DryWall *self);
/* Unit direction from start to end and the normal into the room on `side`. */
void dry_wall_axes (const DryWall *self, DrySide side, double *ux, double *uy, double *nx,
                    double *ny);
/* The plan point `u` along the face (from its left end as seen on `side`) and `out` from it. */
DryPoint dry_wall_point (const DryWall *self, DrySide side, DryLength u, DryLength out);
/* The `u` of a plan point along the face, however far it is from there. */
DryLength dry_wall_along (const DryWall *self, DrySide side, DryPoint point);

/* The three widths of an alcove, between stud faces along its back wall: at the back, in the middle
 * and at the front of `depth`. */
typedef struct {
  DryLength back, middle, front;
  DryLength depth; /* of the basin in it, but no more than the shorter side wall's */
} DryWidths;

/* FALSE when the wall is no back of an alcove: an outline wall whose neighbours both run from it
 * into the room. */
gboolean dry_room_get_widths (const DryRoom *self, DryId wall, DryWidths *out);

/* A pan that can be rolled into: the change of level at its edge is 1/2 in or less, which may be
 * beveled, ADA 2010 608.7 and 303.3. FALSE for tubs and without a basin. */
gboolean dry_basin_is_curbless (const DryBasin *self);

/* The basin's four corners on the plan, counter-clockwise seen from above, beginning at the back
 * left as seen facing its wall. FALSE when there is no basin or its wall is gone. */
gboolean dry_room_basin_corners (const DryRoom *self, DryPoint corners[4]);
