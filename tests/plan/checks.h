/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must hold for the faces and the framing of any room, however odd.
 * Reads only the public answers of the stages. */
#pragma once

#include "plan/framing.h"

void check_faces (const DryPlanContext *context, const DryFaces *faces);
void check_framing (const DryPlanContext *context, const DryFaces *faces,
                    const DryFraming *framing);
