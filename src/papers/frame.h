/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame and title block every page carries: job, sheet, scale, date, page, and the caution.
 * Private to the papers floor. */
#pragma once

#include "papers/flow.h"

/* What the frame leaves free, mm. */
void dry_frame_field (const DryPapers *papers, double *left, double *top, double *width,
                      double *height);
/* Adds frame and title block to every page, once all pages are there. */
void dry_frame_close (DryPapers *papers);
