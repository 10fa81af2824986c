/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fewest sheets a few pieces can be cut from edge to edge, by trying everything. Written for
 * the tests alone: shares no code and no idea with the engine. */
#pragma once

#include "base/geometry.h"

#define EXACT_MOST_PIECES 9

typedef struct {
  DryLength width, height;
} ExactPiece;

/* Whether the pieces can be cut from at most `sheets` sheets of one size, a kerf lost in every cut.
 * At most EXACT_MOST_PIECES pieces. */
gboolean exact_fits (const ExactPiece *pieces, guint n, gboolean may_turn, DryLength width,
                     DryLength height, DryLength kerf, guint sheets);
