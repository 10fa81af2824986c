/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which line of the take-off is shown on the board, until something is selected. Knows neither
 * board nor ledger. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/session-private.h"

const char *
dry_session_get_counted (DrySession *self)
{
  return self->counted;
}

void
dry_session_set_counted (DrySession *self, const char *line)
{
  if (g_strcmp0 (line, self->counted) == 0)
    return;
  g_free (self->counted);
  self->counted = g_strdup (line);
  g_signal_emit_by_name (self, "counted-changed");
}
