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
  const char *keys;
  const char *title; /* N_() */
} BOARD[] = {
    {"Tab <Shift>Tab", N_ ("Next or previous thing")},
    {"Left Right Up Down", N_ ("Move by 1/16″ or 1 mm")},
    {"<Shift>Left <Shift>Right", N_ ("Move by 1″ or 10 mm")},
    {"<Shift>Up <Shift>Down", N_ ("Move by 1″ or 10 mm")},
    {"Left Right Up Down", N_ ("Nothing selected: move the view")},
    {"Tab <Shift>Tab", N_ ("In hand: to the next or previous wall")},
    {"Left Right Up Down", N_ ("A seam: across itself")},
    {"Delete", N_ ("A seam: let the plan choose it")},
    {"Return", N_ ("Put down, or type exact sizes")},
    {"Escape", N_ ("Put back, or select nothing")},
    {"Menu <Shift>F10", N_ ("Menu of the selected thing")},
    {"plus minus", N_ ("Zoom in or out")},
    {"0", N_ ("Nothing selected: show everything")},
    {"1", N_ ("A number begins typing a distance")},
    {"Tab <Shift>Tab", N_ ("While typing a distance: to the next side or the one before")},
    {"Left Right Up Down", N_ ("Outline: direction of the next wall")},
    {"Return", N_ ("Outline: set the corner at the length typed")},
    {"BackSpace", N_ ("Outline: take a corner back")},
    {"c", N_ ("Outline: close it")},
};
static const struct {
  const char *gesture; /* N_() */
  const char *title;   /* N_() */
} MOUSE[] = {
    {N_ ("Double click"), N_ ("Type exact sizes")},
    {N_ ("Right click"), N_ ("Menu of the thing, or put back")},
    {N_ ("Drag a seam between boards"), N_ ("Keep the seam where you put it")},
    {N_ ("Drag with Alt held"), N_ ("Move without snapping")},
    {N_ ("Turn the wheel, or pinch"), N_ ("Zoom at the pointer")},
    {N_ ("Drag with Space held or the middle button"), N_ ("Move the view")},
    {N_ ("Wheel with Shift held, or two fingers"), N_ ("Move the view")},
};

/* A section is one page of the window: more than fit on it would be torn apart. */
static const struct {
  const char *name;
  const char *title; /* N_() */
  DryActionGroup groups[3];
  guint n_groups;
} SECTIONS[] = {
    {"project", N_ ("Project"), {DRY_ACTIONS_FILE, DRY_ACTIONS_HELP}, 2},
    {"editing", N_ ("Editing"), {DRY_ACTIONS_EDIT}, 1},
    {"view", N_ ("View"), {DRY_ACTIONS_VIEW, DRY_ACTIONS_LAYERS}, 2},
    {"room", N_ ("Room"), {DRY_ACTIONS_ROOM}, 1},
    {"board", N_ ("Board"), {0}, 0}, /* its tables are above */
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
  begin_group (xml, _ ("Keys"));
  for (guint i = 0; i < G_N_ELEMENTS (BOARD); i++)
    write_shortcut (xml, BOARD[i].keys, NULL, _ (BOARD[i].title));
  end_group (xml);
  begin_group (xml, _ ("Mouse and Touch Pad"));
  for (guint i = 0; i < G_N_ELEMENTS (MOUSE); i++)
    write_shortcut (xml, NULL, _ (MOUSE[i].gesture), _ (MOUSE[i].title));
  end_group (xml);
}

static char *
describe_window (void)
{
  g_autoptr (GString) xml = g_string_new ("<interface><object class='GtkShortcutsWindow' id='it'>"
                                          "<property name='modal'>True</property>"
                                          "<property name='destroy-with-parent'>True</property>");

  for (guint i = 0; i < G_N_ELEMENTS (SECTIONS); i++) {
    g_string_append (xml, "<child><object class='GtkShortcutsSection'>");
    write_property (xml, "section-name", SECTIONS[i].name);
    write_property (xml, "title", _ (SECTIONS[i].title));
    write_property (xml, "max-height", "18");
    for (guint k = 0; k < SECTIONS[i].n_groups; k++)
      write_actions (xml, SECTIONS[i].groups[k]);
    if (SECTIONS[i].n_groups == 0)
      write_board (xml);
    g_string_append (xml, "</object></child>");
  }
  g_string_append (xml, "</object></interface>");
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
