/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets by trade: the pages each trade needs behind a cover with one datum for all of them.
 * Every trade's heights are picked from one list, so that no two can differ; chooses no height. */
#pragma once

#include "papers/papers.h"

typedef enum {
  DRY_TRADE_FRAMER,
  DRY_TRADE_PLUMBER, /* and electrician: what is roughed in */
  DRY_TRADE_HANGER,
  DRY_TRADE_WATERPROOFER,
  DRY_TRADE_SETTER,
  DRY_N_TRADES
} DryTrade;

#define DRY_TRADES_ALL ((1u << DRY_N_TRADES) - 1)

/* One bit a trade, from the words "framer", "plumber", "electrician" (on the plumber's sheet),
 * "hanger", "waterproofer" and "setter", separated by commas, or "all". Errors:
 * DRY_ERROR_UNSUPPORTED for another word or none. */
gboolean dry_trades_from_text (const char *text, guint *out, GError **error);

/* A point a trade measures to. */
typedef struct {
  const char *what;        /* "Valve: middle" */
  const char *wall;        /* "A – Back wall" */
  DryId object;            /* part, opening or basin; 0: none */
  gint face;               /* in the plan; -1: a wall that is not boarded */
  DryLength u, z;          /* from the wall's left corner at the studs; above the finished floor */
  DryLength width, height; /* of the thing; 0, 0: it has none */
  gboolean round;          /* its width is a diameter */
  guint trades;            /* one bit a trade that measures it */
} DryTradeMark;

typedef struct {
  DryArena *arena;
  DryTradeMark *items; /* by face, then from the floor up */
  guint n;
} DryTradeMarks;

/* All points of the room, for all trades. Free with dry_trade_marks_free(). */
DryTradeMarks *dry_trade_marks_new (const DryPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
void dry_trade_marks_free (DryTradeMarks *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryTradeMarks, dry_trade_marks_free)

/* The sheets of the trades in the bits, trade by trade, each room of it behind a cover. Errors:
 * DRY_ERROR_UNSUPPORTED without a room or trade. */
DryPapers *dry_papers_new_trades (const DryPlan *const *plans, guint n_plans, guint trades,
                                  const DryPaperOptions *options, GError **error);
