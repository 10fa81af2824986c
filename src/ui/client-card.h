/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One option as a card for the client: its name, how it is built, when it is done, what it costs
 * and what is different. A large button that stays down while its picture is shown. */
#pragma once

#include <gtk/gtk.h>

#include "plan/compare.h"

G_BEGIN_DECLS

#define DRY_TYPE_CLIENT_CARD (dry_client_card_get_type ())
G_DECLARE_FINAL_TYPE (DryClientCard, dry_client_card, DRY, CLIENT_CARD, GtkToggleButton)

GtkWidget *dry_client_card_new (void);
/* `base` is what it is compared with: NULL for the first. `why`: what a difference in price is made
 * of too. */
void dry_client_card_fill (DryClientCard *self, const DryOption *option, const DryOption *base,
                           gboolean prices, gboolean why);
DryId dry_client_card_get_option (DryClientCard *self);

G_END_DECLS
