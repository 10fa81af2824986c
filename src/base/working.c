/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds workings in an arena and names certainties.
 * It does no arithmetic: whoever computes a number also says how. */
#include "base/working.h"

static const char *const CERTAINTIES[] = {
    [DRY_CERTAINTY_PUBLISHED] = "published",
    [DRY_CERTAINTY_SECONDARY] = "secondary",
    [DRY_CERTAINTY_COMMON_PRACTICE] = "common practice",
    [DRY_CERTAINTY_MEMORY] = "memory",
    [DRY_CERTAINTY_DERIVED] = "derived",
    [DRY_CERTAINTY_INVENTED] = "invented",
};

const char *
dry_certainty_to_text (DryCertainty certainty)
{
  g_return_val_if_fail ((guint) certainty < G_N_ELEMENTS (CERTAINTIES), "");
  return CERTAINTIES[certainty];
}

gboolean
dry_certainty_from_text (const char *text, DryCertainty *out)
{
  for (guint i = 0; i < G_N_ELEMENTS (CERTAINTIES); i++)
    if (g_str_equal (text, CERTAINTIES[i])) {
      *out = (DryCertainty) i;
      return TRUE;
    }
  return FALSE;
}

DryWorking
dry_working_new (DryArena *arena, DrySource source, const char *formula, ...)
{
  DryWorking working = {.formula = dry_arena_strdup (arena, formula)};
  GArray *inputs = g_array_new (FALSE, FALSE, sizeof (DryInput));
  const char *name;
  va_list arguments;

  working.source.text = dry_arena_strdup (arena, source.text ? source.text : "");
  working.source.certainty = source.certainty;
  va_start (arguments, formula);
  while ((name = va_arg (arguments, const char *))) {
    const char *value = va_arg (arguments, const char *);
    DryInput input = {dry_arena_strdup (arena, name), dry_arena_strdup (arena, value)};
    g_array_append_val (inputs, input);
  }
  va_end (arguments);
  working.n_inputs = inputs->len;
  working.inputs = dry_arena_take_array (arena, inputs);
  return working;
}
