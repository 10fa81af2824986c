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
gboolean dry_comparer_is_busy (DryComparer *self);
/* Hands the newest over to the caller, who frees it; NULL when there is none. */
DryComparison *dry_comparer_take (DryComparer *self) G_GNUC_WARN_UNUSED_RESULT;
const DryOption *dry_comparison_find (const DryComparison *comparison, DryId id); /* or NULL */

G_END_DECLS
