/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The long search for boards: which layouts of seams, all faces together, need the fewest sheets
 * when they are nested with care. Knows layouts by their pieces and faults; breaks no rule. */
#pragma once

#include "plan/boards-private.h"

/* No boards that keep the rules, wherever their seams fall, can be cut from fewer sheets bought:
 * by the area of the faces, less all joint gaps there could be. Valid for every layout, listed or
 * not, and whatever is cut from the openings of other boards. */
guint dry_nest_least_sheets (DryBoardFace *const *faces, guint n_faces, DryLength kerf);

/* Betters `chosen` (one layout a face, of `layouts`), which holds the live choice: fewer faults
 * first, then fewer sheets, less seam, fewer pieces, less money. Stops after `effort` work units,
 * when cancelled, or when `least` sheets are reached and no layout has less seam. Deterministic. */
void dry_nest_choose_on (DryBoardFace *const *faces, GPtrArray *const *layouts, guint n_faces,
                         DryLength kerf, guint least, guint64 effort, GCancellable *cancellable,
                         const DryLayout **chosen);
