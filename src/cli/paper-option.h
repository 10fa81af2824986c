/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The --paper option of the commands that write pages. */
#pragma once

#include "papers/papers.h"

/* `text` is the option's value or NULL: then the locale decides. FALSE with an error for an unknown
 * size. */
gboolean dry_cli_choose_paper (const char *text, DryPaperSize *out, GError **error);
