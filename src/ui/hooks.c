/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hooks on signals and functions of a whole type, whose class may not have been needed yet. Knows
 * no widget. */
#include "ui/hooks.h"

void
dry_hooks_add (GType type, const char *signal, GSignalEmissionHook hook)
{
  g_type_class_unref (g_type_class_ref (type)); /* its signals come with its class */
  g_signal_add_emission_hook (g_signal_lookup (signal, type), 0, hook, NULL, NULL);
}

static GQuark
original_quark (void)
{
  return g_quark_from_static_string ("drybay-hooks-original");
}

void
dry_hooks_replace (GType type, gsize offset, gpointer function)
{
  gpointer class = g_type_class_ref (type);
  gpointer *place = (gpointer *) G_STRUCT_MEMBER_P (class, offset);

  if (*place != function) {
    g_type_set_qdata (type, original_quark (), *place);
    *place = function;
  }
  g_type_class_unref (class);
}

gpointer
dry_hooks_get_original (GType type)
{
  return g_type_get_qdata (type, original_quark ());
}
