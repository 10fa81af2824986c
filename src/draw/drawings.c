/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawings by name, for the command line.
 * Knows which drawings there are, not how they are made. */
#include "draw/drawing-private.h"

static DryScene *
refuse (const DryPlan *plan, const char *name, GError **error)
{
  GString *names = g_string_new ("board, plan, strip, water, section, client, room");
  guint n_sheets = plan->boards->cutting ? plan->boards->cutting->n_sheets : 0;

  for (guint i = 0; i < plan->faces->n; i++)
    g_string_append_printf (names, ", face:%s", plan->faces->items[i].mark);
  if (n_sheets > 0)
    g_string_append (names, ", sheet:1");
  if (n_sheets > 1)
    g_string_append_printf (names, " to sheet:%u", n_sheets);
  g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
               "There is no drawing “%s”; this plan has: %s", name ? name : "", names->str);
  g_string_free (names, TRUE);
  return NULL;
}

DryScene *
dry_drawing_by_name (const DryPlan *plan, const char *name, GError **error)
{
  guint64 sheet;

  if (g_strcmp0 (name, "board") == 0)
    return dry_drawing_board (plan);
  if (g_strcmp0 (name, "plan") == 0)
    return dry_drawing_plan (plan);
  if (g_strcmp0 (name, "strip") == 0)
    return dry_drawing_strip (plan);
  if (g_strcmp0 (name, "client") == 0)
    return dry_drawing_client (plan);
  if (g_strcmp0 (name, "room") == 0)
    return dry_drawing_room (plan, FALSE);
  if (g_strcmp0 (name, "water") == 0)
    return dry_drawing_water (plan);
  if (g_strcmp0 (name, "section") == 0)
    return dry_drawing_section (plan->context.system, &plan->context.build_up);
  if (name && g_str_has_prefix (name, "face:"))
    for (guint i = 0; i < plan->faces->n; i++)
      if (g_ascii_strcasecmp (plan->faces->items[i].mark, name + 5) == 0)
        return dry_drawing_face (plan, i);
  if (name && g_str_has_prefix (name, "sheet:") && plan->boards->cutting &&
      g_ascii_string_to_unsigned (name + 6, 10, 1, MAX (plan->boards->cutting->n_sheets, 1), &sheet,
                                  NULL) &&
      sheet <= plan->boards->cutting->n_sheets)
    return dry_drawing_cut_sheet (plan, (guint) sheet - 1);
  return refuse (plan, name, error);
}
