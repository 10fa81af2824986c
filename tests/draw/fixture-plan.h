/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan put together by hand, so that drawings can be tested without the stages that compute one.
 * Its numbers are invented and need not be buildable. */
#pragma once

#include "plan/plan.h"

/* An alcove: three faces, five boards, some studs, joints, fasteners, one cut sheet and one finding
 * of each severity. The project is dry_test_furnished_alcove(). Lives until dry_fixture_free(). */
typedef struct {
  DryArena *arena;
  DryProject *project;
  DryPlan plan;
} DryFixture;

DryFixture *dry_fixture_new (gboolean metric);
void dry_fixture_free (DryFixture *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DryFixture, dry_fixture_free)
