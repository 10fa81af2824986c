/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The boundary of a board as directed edges with the board on their left, and spans along a line.
 * Shared by fasteners and joints; knows shapes only, no framing and no systems. */
#pragma once

#include "base/geometry.h"

typedef struct {
  DryPoint from, to; /* walking from -> to the board is on the left */
  gboolean hole;     /* part of an inner ring */
} DryOutlineEdge;

/* All edges, outer ring first, however the rings are oriented. Free with g_array_unref(). */
GArray *dry_outline_edges (const DryPolygon *shape) G_GNUC_WARN_UNUSED_RESULT;
/* Closed: points on the outer ring or on a hole's ring are in. */
gboolean dry_outline_contains (const DryPolygon *shape, DryPoint p);
double dry_outline_area_m2 (const DryPolygon *shape);

static inline gboolean
dry_outline_edge_is_vertical (const DryOutlineEdge *edge)
{
  return edge->from.x == edge->to.x;
}

static inline gboolean
dry_outline_edge_is_horizontal (const DryOutlineEdge *edge)
{
  return edge->from.y == edge->to.y;
}

/* Distance from a point to a segment, to the nearest nanometre or so. */
DryLength dry_outline_distance (DryPoint p, DryPoint from, DryPoint to);

/* --- closed spans on a line, kept ascending and apart --- */
typedef struct {
  DryLength lo, hi;
} DrySpan;

/* Takes the open span (lo, hi) out of `spans`; what is left keeps its ends. */
void dry_spans_remove (GArray *spans, DryLength lo, DryLength hi);
