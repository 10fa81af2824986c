/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a parsed file of data/systems to a DrySystem in the catalogue's arena.
 * Problems are recorded in the document; these readers open no files. */
#pragma once

#include "base/json.h"
#include "catalog/system.h"

/* Reads and checks a whole system file. NULL after a failure. */
const DrySystem *dry_system_read (DryJson root, const char *file, DryArena *arena);
/* The member "treatments": one treatment for every kind of joint. */
void dry_treatments_read (DryJson object, DryTreatment treatments[DRY_N_JOINT_KINDS],
                          DryArena *arena);
/* What one value alone cannot tell: products that are named but missing or reckoned otherwise, ends
 * of ranges the wrong way round, ids twice. */
void dry_system_check (DryJson root, const DrySystem *system);
