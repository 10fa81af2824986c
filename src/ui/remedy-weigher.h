/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the remedies of the findings somebody looks at cost, weighed on a thread of its own once the
 * design has come to rest. Knows the session; no widget, and nothing of a drag. */
#pragma once

#include "ui/session.h"

G_BEGIN_DECLS

/* One remedy as it is told and offered. */
typedef struct {
  char *text; /* what to do */
  char *edit; /* its name for dry_remedy_apply(), or NULL: by hand */
  char *cost; /* what it costs, in words; why it cannot be done here; NULL by hand */
  gboolean refused;
} DryWeighed;

typedef struct _DryWeigher DryWeigher;

/* `weighed` is called in the main context whenever remedies were weighed. */
DryWeigher *dry_weigher_new (DrySession *session, void (*weighed) (gpointer data), gpointer data);
/* Cancels; `weighed` is not called any more. */
void dry_weigher_free (DryWeigher *self);

/* The findings of these ids (NULL-ended) are looked at. What is known of others is forgotten; what
 * is not known of the session's plan is weighed soon, unless a drag is under way. */
void dry_weigher_look_at (DryWeigher *self, const char *const *ids);
/* The remedies of a finding, best first (of DryWeighed), by the newest plan they were weighed for;
 * NULL when they never were. Borrowed until the next call of any of these. */
const GPtrArray *dry_weigher_get (DryWeigher *self, const char *id);

G_END_DECLS
