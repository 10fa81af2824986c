/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standard drawing scales and how they are written: 1:20, or 3/4" = 1'-0".
 * Knows numbers only. Private to the papers floor. */
#pragma once

#include "draw/scene.h"

/* The largest standard scale, as the n of 1:n, at which `width` by `height` of the world fits in
 * the room given in paper mm. Metric: ISO 5455 and 1:25; else architect's scales. Always an answer:
 * beyond the list, the next power of ten. */
double dry_scale_choose (gboolean metric, DryLength width, DryLength height, double room_width,
                         double room_height);
/* The next larger standard scale, or 0 after full size. */
double dry_scale_larger (gboolean metric, double ratio);
/* "1:20", or "3/4\" = 1'-0\" (1:16)". Free with g_free(). */
char *dry_scale_to_text (gboolean metric, double ratio) G_GNUC_WARN_UNUSED_RESULT;
