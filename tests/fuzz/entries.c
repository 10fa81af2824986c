/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of readers tried with foreign bytes, and what their trials share. Knows no reader. */
#include "fuzz/entries.h"

const FuzzEntry fuzz_entries[] = {
    {"json", fuzz_json},
    {"length", fuzz_length},
    {"project", fuzz_project},
    {"items", fuzz_items},
    {"system", fuzz_system},
    {"rules", fuzz_rules},
    {"prices", fuzz_prices},
    {"sheet", fuzz_sheet},
    {"nest", fuzz_nest},
    {"journal", fuzz_journal},
    {NULL, NULL},
};

char *
fuzz_copy (const guint8 *data, gsize size)
{
  return size > 0 ? g_memdup2 (data, size) : g_strdup ("");
}

void
fuzz_one_of (gboolean read, GError *error)
{
  g_assert_true (read == (error == NULL));
  g_assert_true (error == NULL || *error->message != '\0');
  g_clear_error (&error);
}
