/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The --book option of the commands that need prices or hours. */
#pragma once

#include "plan/plan.h"

/* `text`: the id of a price book of the catalogue, a file that ends in .json, .csv or .xlsx, or
 * NULL: the one the job names, else the catalogue's first. Values live in `arena`, which must live
 * as long as the catalogue does. NULL with an error that lists the books there are. */
const DryPriceBook *dry_cli_choose_book (const DryCatalog *catalog, const DryJob *job,
                                         const char *text, DryArena *arena, GError **error);
/* The same for plans of one project. */
const DryPriceBook *dry_cli_choose_book_for (const GPtrArray *plans, const char *text,
                                             DryArena *arena, GError **error);
/* Reads a price book from such a file. */
const DryPriceBook *dry_cli_read_book (const char *path, DryArena *arena, GError **error);
