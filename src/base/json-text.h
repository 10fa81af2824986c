/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings and numbers as JSON text, shared by the writer and by printing a node back.
 * Private to the base floor. */
#pragma once

#include <glib.h>

void dry_json_append_string (GString *text, const char *value); /* with quotes and escapes */
void dry_json_append_number (GString *text, double value); /* shortest form that reads back equal */
