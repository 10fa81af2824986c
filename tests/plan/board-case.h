/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A project carried through faces, framing and boards, and what must hold for its boards whatever
 * they look like. Shared by the test and the benchmark of boards; shares no code with the engine.
 */
#pragma once

#include "plan/boards.h"

typedef struct {
  DryProject *project;
  DrySystem system; /* a copy that a test may change between board_case_begin() and compute */
  DryPlanContext context;
  const DryFaces *faces;
  const DryFraming *framing;
  const DryBoards *boards;
} BoardCase;

/* Takes the project over. */
void board_case_begin (BoardCase *self, DryProject *project);
void board_case_compute (BoardCase *self);
void board_case_end (BoardCase *self);

/* Fails the test on anything that may never be. Returns how many rules of building the layout
 * breaks (seam at a niche corner or a hole, no stud, four corners, sliver), each told to the log.
 * What only wished seams break is not counted.
 */
guint board_case_check (const BoardCase *self);
