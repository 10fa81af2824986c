/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The grammar check before cJSON sees a text: RFC 8259 to the letter, with line and column of the
 * first fault. Private to the base floor; builds nothing. */
#pragma once

#include <glib.h>

/* Checks `length` bytes of `text` against grammar, UTF-8 and the caps of base/json.h. */
gboolean dry_json_scan (const char *text, gsize length, const char *name, GError **error);
