/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What tests of the advisor have in common: advice for a part of a project's first room, and niches
 * of several sizes. Fails the test on an error. */
#pragma once

#include "plan/advisor.h"
#include "plan/rule-room.h"

DryAdvice *advice_rig_advise (const DryProject *project, const DryPart *part,
                              const DryAdviceOptions *options);
/* Small niches for the first wall, each `which` of another size; odd ones are ready-made. */
DryPart advice_rig_small_niche (const DryProject *project, guint which);
