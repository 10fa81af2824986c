/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random projects with a wall added along one end of the basin, half or full height. Shared by
 * tests of several stages; knows none of them. */
#pragma once

#include "project/edit.h"

/* The random project of the seed as it is where the wall cannot stand there. */
DryProject *walled_project (guint32 seed);
