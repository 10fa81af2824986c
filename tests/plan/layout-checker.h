/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An independent check of cutting layouts: cuts the sheets as the list of cuts says and compares
 * what comes off with what was asked. Shares no code with the engine. */
#pragma once

#include "plan/cutting.h"

/* NULL when the layout holds; else what is wrong, to be freed with g_free(). */
char *dry_check_cutting (const DryCutting *cutting, DryLength kerf) G_GNUC_WARN_UNUSED_RESULT;
