/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes the window's description from the table of actions and has GTK build it: groups and keys
 * stand in one place only. Keys of the board that are no actions are the one table here. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/shortcuts.h"

#include <glib/gi18n.h>
#include <string.h>

#include "ui/actions.h"

/* What pointer and keys do on the board; canvas-keys.c, canvas-drag.c and canvas-outline.c heed
 * them. */
static const struct {
  const char *keys;    /* accelerators, or NULL for something done with the mouse */
  const char *gesture; /* N_() */
  const char *title;   /* N_() */
} BOARD[] = {
    {"Tab <Shift>Tab", NULL, N_ ("Next or previous part; with one in hand, next wall")},
    {"Left Right Up Down", NULL, N_ ("Move by 1/16″ or 1 mm; with nothing selected, the view")},
    {"<Shift>Left <Shift>Right <Shift>Up <Shift>Down", NULL, N_ ("Move by 1″ or 10 mm")},
    {"Return", NULL, N_ ("Put down what is in hand; else type exact sizes")},
    {"Escape", NULL, N_ ("Put back what is in hand; else select nothing")},
    {"Menu <Shift>F10", NULL, N_ ("Menu of the selected part")},
    {"plus minus", NULL, N_ ("Zoom in or out")},
    {"0", NULL, N_ ("Show everything")},
    {"BackSpace", NULL, N_ ("Drawing an outline: take back the last corner")},
    {"c", NULL, N_ ("Drawing an outline: close it")},
    {NULL, N_ ("Drag with Alt held"), N_ ("Move without snapping")},
    {NULL, N_ ("Drag with Space held, or with the middle button"), N_ ("Move the view")},
    {NULL, N_ ("Turn the wheel, or pinch"), N_ ("Zoom at the pointer")},
    {NULL, N_ ("Turn the wheel with Shift held, or slide two fingers"), N_ ("Move the view")},
};

/* Keys of the number block only repeat others and would crowd the window. */
static char *
drop_keypad (const char *accels)
{
  g_auto (GStrv) list = g_strsplit (accels, " ", -1);
  g_autoptr (GString) kept = g_string_new (NULL);

  for (guint i = 0; list[i] != NULL; i++)
    if (strstr (list[i], "KP_") == NULL)
      g_string_append_printf (kept, "%s%s", kept->len > 0 ? " " : "", list[i]);
  return g_string_free (g_steal_pointer (&kept), FALSE);
}

static void
write_property (GString *xml, const char *name, const char *text)
{
  g_autofree char *escaped = g_markup_escape_text (text, -1);

  g_string_append_printf (xml, "<property name='%s'>%s</property>", name, escaped);
}

static void
write_shortcut (GString *xml, const char *keys, const char *gesture, const char *title)
{
  g_string_append (xml, "<child><object class='GtkShortcutsShortcut'>");
  write_property (xml, "title", title);
  if (keys != NULL) {
    write_property (xml, "accelerator", keys);
  } else {
    write_property (xml, "shortcut-type", "gesture");
    g_string_append (xml, "<property name='icon'><object class='GThemedIcon'>"
                          "<property name='name'>input-mouse-symbolic</property></object>"
                          "</property>");
    write_property (xml, "subtitle", gesture);
  }
  g_string_append (xml, "</object></child>");
}

static void
begin_group (GString *xml, const char *title)
{
  g_string_append (xml, "<child><object class='GtkShortcutsGroup'>");
  write_property (xml, "title", title);
}

static void
end_group (GString *xml)
{
  g_string_append (xml, "</object></child>");
}

static void
write_actions (GString *xml, DryActionGroup group)
{
  guint n;
  const DryActionInfo *actions = dry_actions_list (&n);

  begin_group (xml, _ (dry_action_group_title (group)));
  for (guint i = 0; i < n; i++) {
    g_autofree char *keys = NULL;

    if (actions[i].group != group || actions[i].accel == NULL)
      continue;
    keys = drop_keypad (actions[i].accel);
    write_shortcut (xml, keys, NULL, _ (actions[i].title));
  }
  end_group (xml);
}

static void
write_board (GString *xml)
{
  begin_group (xml, _ ("On the Board"));
  for (guint i = 0; i < G_N_ELEMENTS (BOARD); i++)
    write_shortcut (xml, BOARD[i].keys, BOARD[i].gesture != NULL ? _ (BOARD[i].gesture) : NULL,
                    _ (BOARD[i].title));
  end_group (xml);
}

static char *
describe_window (void)
{
  g_autoptr (GString) xml = g_string_new ("<interface><object class='GtkShortcutsWindow' id='it'>"
                                          "<property name='modal'>True</property>"
                                          "<property name='destroy-with-parent'>True</property>"
                                          "<child><object class='GtkShortcutsSection'>"
                                          "<property name='section-name'>keys</property>"
                                          "<property name='max-height'>14</property>");

  for (guint group = 0; group < DRY_N_ACTION_GROUPS; group++)
    write_actions (xml, group);
  write_board (xml);
  g_string_append (xml, "</object></child></object></interface>");
  return g_string_free (g_steal_pointer (&xml), FALSE);
}

void
dry_shortcuts_present (GtkWindow *parent)
{
  g_autofree char *xml = describe_window ();
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_string (xml, -1);
  GtkWindow *window = GTK_WINDOW (gtk_builder_get_object (builder, "it"));

  gtk_window_set_transient_for (window, parent);
  gtk_window_present (window);
}
