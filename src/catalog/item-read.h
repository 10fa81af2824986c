/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a parsed file of data/items to DryItem values in the catalogue's arena.
 * Problems are recorded in the document; it opens no files. */
#pragma once

#include "base/json.h"
#include "catalog/item.h"

/* Reads a whole items file: entry i is items[i] of the file. Holds DryItem values; empty after a
 * failure. */
GArray *dry_items_read (DryJson root, DryArena *arena) G_GNUC_WARN_UNUSED_RESULT;
