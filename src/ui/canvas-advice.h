/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Advice on the board: where the part in hand may stand glows, it snaps to the best place near by,
 * a panel tells what each place costs, and the best places stand as ghosts to be chosen. */
#pragma once

#include "plan/advisor.h"
#include "ui/canvas-private.h"

G_BEGIN_DECLS

/* While a part is in hand. Begin reckons once; the rest is cheap. Parts that nobody advises on do
 * nothing. */
void dry_advice_begin (DryCanvas *self);
void dry_advice_end (DryCanvas *self);
/* Puts the best place near by into the snap, with its reason, where it beats what it snapped to. */
void dry_advice_attract (DryCanvas *self, DryPoint at, gboolean lock_z, DryLength reach,
                         DrySnap *snap);
void dry_advice_follow (DryCanvas *self); /* the panel tells of where it is now */

/* The five best places of the selected part as ghosts; FALSE when there is none to show. */
gboolean dry_advice_show_places (DryCanvas *self);
void dry_advice_hide_places (DryCanvas *self);
gboolean dry_advice_key (DryCanvas *self, guint key); /* while they are shown */

void dry_advice_allocate (DryCanvas *self);
/* A picture, since every step of a drag paints part of it again: a hatch is far dearer to stroke
 * than a picture to lay down. In the widget's pixels; the caller's. */
cairo_surface_t *dry_advice_picture (DryCanvas *self, const DryAdvice *advice, int width,
                                     int height) G_GNUC_WARN_UNUSED_RESULT;
void dry_advice_paint_bands (DryCanvas *self, GtkSnapshot *snapshot); /* under what is in hand */
void dry_advice_paint_panel (DryCanvas *self, GtkSnapshot *snapshot); /* over everything */
void dry_advice_dispose (DryCanvas *self);

/* canvas-advice-panel.c: the panel's words. */
GtkWidget *dry_advice_panel_new (void);
void dry_advice_panel_tell (GtkWidget *panel, const DryAdvice *advice, const DryAdvicePlace *place);
/* What a demand is called when something snapped to keep it; translated. */
const char *dry_advice_kind_words (DryAdviceKind kind);
/* What the user set: bottle and tolerance. */
DryAdviceOptions dry_advice_user_options (void);

G_END_DECLS
