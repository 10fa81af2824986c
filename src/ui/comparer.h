/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Compares the session's project with its alternates in a thread; the newest wins, and the last
 * good comparison stays until a newer one has come. Knows no widget. */
#pragma once

#include <gio/gio.h>

#include "plan/compare.h"
#include "ui/session.h"

G_BEGIN_DECLS

#define DRY_TYPE_COMPARER (dry_comparer_get_type ())
G_DECLARE_FINAL_TYPE (DryComparer, dry_comparer, DRY, COMPARER, GObject)

/* Signal "compared": a comparison has come, or the error why there is none. */
DryComparer *dry_comparer_new (DrySession *session);
/* Compares the room shown, once nobody has asked again for `rest` milliseconds. */
void dry_comparer_ask (DryComparer *self, guint rest);
void dry_comparer_stop (DryComparer *self);
/* The newest there is: NULL before the first, and while the newest failed. */
const DryComparison *dry_comparer_get (DryComparer *self);
const char *dry_comparer_get_error (DryComparer *self); /* NULL when the newest went well */
/* The newest is kept beside whatever comes after it, until another is marked or none. */
void dry_comparer_mark (DryComparer *self);
void dry_comparer_unmark (DryComparer *self);
const DryComparison *dry_comparer_get_marked (DryComparer *self);                 /* NULL: none */
const DryOption *dry_comparison_find (const DryComparison *comparison, DryId id); /* or NULL */

G_END_DECLS
