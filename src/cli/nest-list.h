/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of sheets and pieces of drybay-cli nest as values the cutting stage takes. Knows neither
 * files nor the answer. */
#pragma once

#include "base/json.h"
#include "plan/cutting.h"

typedef struct {
  DryLength kerf;
  GArray *stock;   /* DryStock; ids are borrowed from the document */
  GArray *pieces;  /* DryPiece, one for each that is to be cut; names are borrowed too */
  GArray *number;  /* guint: which of its row a piece is, from 1 */
  GHashTable *ids; /* while reading */
} DryNestList;

/* Fills `self`; whatever it answers, clear it afterwards. Errors as in base/json.h. */
gboolean dry_nest_list_read (DryNestList *self, DryJsonDocument *document, GError **error);
void dry_nest_list_clear (DryNestList *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (DryNestList, dry_nest_list_clear)
