/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hooks on signals of a whole type, whose class may not have been needed yet. Knows no widget. */
#include "ui/hooks.h"

void
dry_hooks_add (GType type, const char *signal, GSignalEmissionHook hook)
{
  g_type_class_unref (g_type_class_ref (type)); /* its signals come with its class */
  g_signal_add_emission_hook (g_signal_lookup (signal, type), 0, hook, NULL, NULL);
}
