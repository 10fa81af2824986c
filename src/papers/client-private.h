/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces the papers for client, supplier and calendar are put together from.
 * Private to the papers floor. */
#pragma once

#include "papers/client-papers.h"
#include "papers/papers-private.h"

/* Empty papers and a flow into them; dry_client_close() writes and frees both. */
DryPapers *dry_client_open (DryFlow *flow, const DryPlan *plan, const DryPaperOptions *options);
gboolean dry_client_close (DryFlow *flow, const char *subject, const char *path, GError **error);
/* "1,234.50 USD", also for nothing; `currency` may be NULL. Free with g_free(). */
char *dry_client_money (const DryPapers *papers, gint64 hundredths,
                        const char *currency) G_GNUC_WARN_UNUSED_RESULT;
/* What the client will see, as large as `height` mm and the page allow; no standard scale. */
void dry_client_picture (DryFlow *flow, const DryPlan *plan, double height);
/* A label and what it stands for; nothing without a value. */
void dry_client_fact (DryFlow *flow, const char *label, const char *value);
/* Two lines to sign on, under `text`. */
void dry_client_sign (DryFlow *flow, const char *text);
/* That prices are samples, missing or expired, where they are. */
void dry_client_sample_note (DryFlow *flow, const DryCost *cost);
/* Table of the cut edges of tile on each wall; nothing without tile. */
void dry_proposal_add_cuts (DryFlow *flow, const DryPlan *plan);
