/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A room for every remedy the program can apply, each with the finding it is to mend.
 * Knows no remedy's workings. */
#pragma once

#include "plan/rule-room.h"

typedef struct {
  const char *edit, *rule;
  DryProject *(*build) (void);
} RemedyCase;

extern const RemedyCase REMEDY_CASES[];
extern const guint REMEDY_N_CASES;

/* A niche too wide for any bay: the remedy of its finding refuses. */
DryProject *remedy_room_refusing (void);
