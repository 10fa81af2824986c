/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks the advisor with the shipped catalogue.
 * Judges nothing; the tests do. */
#include "advice-rig.h"

DryAdvice *
advice_rig_advise (const DryProject *project, const DryPart *part, const DryAdviceOptions *options)
{
  g_autoptr (GError) error = NULL;
  DryAdvice *advice = dry_advice_new (project, dry_project_get_room_at (project, 0)->id, part,
                                      dry_test_catalog (), options, NULL, &error);

  g_assert_no_error (error);
  return advice;
}

DryPart
advice_rig_small_niche (const DryProject *project, guint which)
{
  return (DryPart){.kind = DRY_PART_NICHE,
                   .wall = dry_project_get_room_at (project, 0)->walls[0].id,
                   .u = 23 * DRY_INCH + which,
                   .z = (40 + which) * DRY_INCH,
                   .width = (10 + which % 3) * DRY_INCH,
                   .height = (12 + which) * DRY_INCH,
                   .depth = 2 * DRY_INCH,
                   .body_width = which % 2 ? (11 + which % 3) * DRY_INCH : 0,
                   .body_height = which % 2 ? (13 + which) * DRY_INCH : 0,
                   .flange = which % 2 ? 2 * DRY_INCH : 0,
                   .pitch = 0.020833};
}
