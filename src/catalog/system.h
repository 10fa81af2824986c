/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A backer system: everything the plan must know of one way to back a wet wall and keep it
 * watertight. Read from data/systems by the catalogue; every figure carries its source. Immutable.
 */
#pragma once

#include "base/geometry.h"
#include "base/working.h"
#include "catalog/joint-kind.h"

typedef struct {
  DryLength value;
  DrySource source;
} DryLengthFigure;

typedef struct {
  double value;
  DrySource source;
} DryNumberFigure;

typedef struct {
  const char *id;          /* "3x5" */
  const char *name;        /* "3 x 5 ft" */
  DryLength width, height; /* as sold; height is the longer side */
  gint64 price;            /* invented sample price, minor units; 0 = none */
} DrySheet;

/* What closes or covers a joint. */
typedef enum {
  DRY_TREAT_NONE,   /* nothing to do (the next trade closes it) */
  DRY_TREAT_BAND,   /* waterproof band embedded in mortar or membrane */
  DRY_TREAT_MESH,   /* alkali-resistant mesh in mortar, membrane over it */
  DRY_TREAT_BEAD,   /* bead of sealant in or on the joint */
  DRY_TREAT_FILLER, /* strip filling the depth, then finished like drywall */
  DRY_TREAT_GASKET, /* collar round a pipe */
} DryTreatmentKind;

typedef struct {
  DryTreatmentKind kind;
  const char *name;    /* "5 in band in unmodified dry-set mortar" */
  DryLength width;     /* of band or mesh; of bead */
  DryLength depth;     /* of bead or filler; of the gap when there is a fill */
  DryLength overlap;   /* of one length over the next, and at corners */
  DryLength smear;     /* width the sealant is smeared to; 0 = none */
  const char *product; /* id of a DryProduct, or NULL */
  const char *bedding; /* id of the product a band or mesh is set in, or NULL */
  gboolean watertight; /* by itself; mesh is not until coated */
  DrySource source;
  const char *fill; /* id of the product that closes the open gap behind it, or NULL: of use LENGTH
                       (filler strip, as long as the joint) or VOLUME (gap x depth x length) */
} DryTreatment;

/* How a product's need is reckoned. */
typedef enum {
  DRY_USE_EACH,   /* pieces: screws, washers, gaskets */
  DRY_USE_LENGTH, /* m of band, mesh, filler strip */
  DRY_USE_VOLUME, /* L of sealant */
  DRY_USE_AREA,   /* per m2 covered: membrane L/m2 a coat or mortar kg/m2 */
} DryUse;

typedef struct {
  const char *id, *name;
  DryUse use;
  const char *unit;      /* "pc", "m", "L", "kg" */
  double rate;           /* of unit per m2 (AREA) ; 1 for the others */
  double pack;           /* units in a pack */
  const char *pack_name; /* "box of 185", "roll of 45 m", "pail of 3.78 L" */
  gint64 price;          /* of a pack, invented, minor units; 0 = none */
  DrySource source;      /* of rate */
} DryProduct;

typedef enum { DRY_MEMBRANE_NONE, DRY_MEMBRANE_LIQUID, DRY_MEMBRANE_SHEET } DryMembraneKind;

typedef struct {
  const char *id; /* "recoat", "tile", "flood-test", "shower" */
  const char *name;
  double hours_min, hours_max; /* at about 21 C */
  DrySource source;
} DryWait;

/* Where the board's bottom edge is measured from at a tub or pan. */
typedef enum { DRY_DATUM_DECK, DRY_DATUM_FLANGE_TOP } DryDatum;

typedef struct {
  const char *id, *name, *summary;
  const char *for_it, *against_it; /* one sentence each */
  const char *file;                /* it came from, for messages */

  const DrySheet *sheets;
  guint n_sheets;
  gboolean directional; /* board may not be turned when cut */
  DryLength kerf;       /* 0 for scored or knifed board */
  DryLength joint_gap;  /* between boards in one plane */
  DryLength corner_gap; /* between boards at an inside corner */
  DrySource gap_source;
  DryLength min_piece; /* narrower pieces are not used; 4 in by common practice */

  const DryLengthFigure *thicknesses; /* offered; first is the default */
  guint n_thicknesses;
  DryNumberFigure mass; /* kg/m2 at the default thickness */
  DryLengthFigure stud_spacing_max;
  DryLengthFigure ceiling_spacing_max; /* value 0: not for ceilings */

  const char *fastener; /* product id */
  const char *washer;   /* product id or NULL */
  DryLength washer_diameter;
  DryLengthFigure edge_spacing, field_spacing;
  DryLengthFigure edge_distance;                        /* the usual */
  DryLengthFigure edge_distance_min, edge_distance_max; /* allowed */
  DryLengthFigure penetration;                          /* into the stud, at least */
  gboolean cover_fasteners;                             /* every head or washer must be covered */
  const char *fastener_cover; /* "band patch", "coat", "sealant"; product id in cover_product */
  const char *cover_product;
  double cover_per_fastener; /* units of cover_product per fastener */

  DryDatum basin_datum;
  DryLengthFigure basin_gap; /* from the datum up to the board */
  gboolean spacers;          /* board stands on spacers while hung */

  DryTreatment treatments[DRY_N_JOINT_KINDS];

  DryMembraneKind membrane;
  gboolean needs_membrane;      /* the board alone is not watertight */
  const char *membrane_product; /* product id or NULL */
  guint coats;
  DryNumberFigure dry_film;   /* mm in all; 0 = does not apply */
  DryNumberFigure wet_film;   /* mm, each coat */
  DryLength membrane_overlap; /* sheet laps */
  const char *mortar_product; /* under sheet membrane, or NULL */

  const DryProduct *products;
  guint n_products;
  const DryWait *waits;
  guint n_waits;
  const char *const *tools;
  guint n_tools;
  const char *cutting;         /* "score and snap", "knife", "shears" */
  DryNumberFigure hours;       /* per m2, one installer */
  DryNumberFigure sample_cost; /* per m2, minor units, invented or low confidence */
  const char *tile_mortar;     /* what the maker's instructions of such boards usually ask for */
  gboolean allows_floor, allows_steam;
  DryNumberFigure tile_mass_max; /* kg/m2; 0 = not known */
} DrySystem;

/* NULL when not there. */
const DryProduct *dry_system_get_product (const DrySystem *self, const char *id);
const DryWait *dry_system_get_wait (const DrySystem *self, const char *id);
const DrySheet *dry_system_get_sheet (const DrySystem *self, const char *id);
