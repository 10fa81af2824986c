/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The menu of the selected thing: every act on it, by right click or the Menu key.
 * Only lists actions; what they do is the window's business. */
#include "ui/canvas-private.h"

#include <glib/gi18n.h>

#include "ui/actions.h"
#include "ui/popover-place.h"

static void
list_edits (DryCanvas *self, GMenu *menu, const DryRoom *room, DryId object)
{
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, object) : NULL;
  gboolean stud = dry_session_get_selected_stud (self->session) >= 0;
  const DryPieceRef *piece = dry_session_get_selected_piece (self->session);

  if (object == 0) {
    dry_actions_append (menu, _ ("_Draw the Outline…"), "win.draw-room");
    dry_actions_append (menu, _ ("Add _Half Wall"), "win.add-half-wall");
    return;
  }
  dry_actions_append (menu, _ ("_Exact Sizes…"), "win.edit-selection");
  if (piece != NULL && piece->kind == DRY_PIECE_SEAM) {
    dry_actions_append (menu, _ ("_Move to…"), "win.move-to");
    if (!piece->level) {
      dry_actions_append (menu, _ ("To the Next Stud on the Le_ft"), "win.seam-left");
      dry_actions_append (menu, _ ("To the Next Stud on the _Right"), "win.seam-right");
    }
    dry_actions_append (menu, _ ("_Let the Plan Choose"), "win.release-seam");
  }
  if (wall != NULL)
    dry_actions_append (menu, _ ("Let the Plan Choose _All Seams"), "win.release-seams");
  if (piece != NULL)
    return;
  dry_actions_append (menu, wall != NULL && !stud ? _ ("Set the _Length…") : _ ("Set a Dis_tance…"),
                      "win.set-distance");
  if (wall == NULL)
    dry_actions_append (menu, _ ("_Move to…"), "win.move-to");
  if (room != NULL && room->basin.id == object)
    dry_actions_append (menu, _ ("_Turn"), "win.turn");
  if (dry_canvas_has_places (self))
    dry_actions_append (menu, _ ("Show the Five _Best Places"), "win.best-places");
  if (wall != NULL) {
    if (!wall->added)
      dry_actions_append (menu, _ ("_Insert Corner"), "win.insert-corner");
    dry_actions_append (menu, _ ("Add _Stud"), "win.add-stud");
    if (!stud)
      dry_actions_append (menu, _ ("Studs _One by One"), "win.studs");
    dry_actions_append (menu, _ ("_Boards and Seams One by One"), "win.pieces");
  }
}

static void
fill_menu (DryCanvas *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId object = dry_session_get_selection (self->session);
  const DryWall *wall = room != NULL ? dry_room_get_wall (room, object) : NULL;
  GMenu *clip = self->menu_sections[1], *view = self->menu_sections[2];
  gboolean hung = object != 0 && wall == NULL && room->basin.id != object;

  for (guint i = 0; i < G_N_ELEMENTS (self->menu_sections); i++)
    g_menu_remove_all (self->menu_sections[i]);
  list_edits (self, self->menu_sections[0], room, object);
  if (hung) {
    dry_actions_append (clip, _ ("Cu_t"), "win.cut");
    dry_actions_append (clip, _ ("_Copy"), "win.copy");
  }
  dry_actions_append (clip, _ ("_Paste"), "win.paste");
  if (hung)
    dry_actions_append (clip, _ ("_Duplicate"), "win.duplicate");
  if (object != 0 && dry_session_get_selected_piece (self->session) == NULL)
    dry_actions_append (clip, _ ("De_lete"), "win.delete");
  if (object != 0)
    dry_actions_append (view, _ ("_Zoom to Selection"), "win.zoom-selection");
  dry_actions_append (view, _ ("_Next Face"), "win.next-face");
  dry_actions_append (view, _ ("_Previous Face"), "win.previous-face");
  dry_actions_append (view, _ ("Show E_verything"), "win.zoom-fit");
}

/* Made once and filled anew. */
static void
make_menu (DryCanvas *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  for (guint i = 0; i < G_N_ELEMENTS (self->menu_sections); i++) {
    self->menu_sections[i] = g_menu_new ();
    g_menu_append_section (menu, NULL, G_MENU_MODEL (self->menu_sections[i]));
  }
  self->menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (menu));
  gtk_popover_set_has_arrow (GTK_POPOVER (self->menu), FALSE);
  gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
  gtk_widget_set_parent (self->menu, GTK_WIDGET (self));
}

gboolean
dry_canvas_has_menu_open (DryCanvas *self)
{
  return self->menu != NULL && gtk_widget_get_visible (self->menu);
}

void
dry_canvas_popup_menu (DryCanvas *self, double x, double y)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  /* A panel that slides in moves the board on before the menu's first frame. */
  if (root != NULL && dry_popover_place_is_moving (GTK_WIDGET (root)))
    return;
  if (self->menu == NULL)
    make_menu (self);
  gtk_popover_popdown (GTK_POPOVER (self->menu)); /* it may still be open elsewhere */
  fill_menu (self);
  /* What is selected may have been panned out of sight; a menu opens on the board all the same. */
  self->menu_width = gtk_widget_get_width (GTK_WIDGET (self));
  self->menu_height = gtk_widget_get_height (GTK_WIDGET (self));
  x = CLAMP (x, 0, MAX (self->menu_width - 1, 0));
  y = CLAMP (y, 0, MAX (self->menu_height - 1, 0));
  gtk_popover_set_pointing_to (GTK_POPOVER (self->menu), &(GdkRectangle){(int) x, (int) y, 1, 1});
  gtk_popover_popup (GTK_POPOVER (self->menu));
}

/* A panel that comes or goes, or another size of the window: what the menu pointed at is elsewhere
 * now, and its place may be beside the screen, for which GDK 4.8 has no monitor. */
void
dry_canvas_allocate_menu (DryCanvas *self, int width, int height)
{
  if (self->menu == NULL)
    return;
  if (gtk_widget_get_mapped (self->menu) &&
      (width != self->menu_width || height != self->menu_height))
    gtk_popover_popdown (GTK_POPOVER (self->menu));
  gtk_popover_present (GTK_POPOVER (self->menu));
}

void
dry_canvas_dispose_menu (DryCanvas *self)
{
  g_clear_pointer (&self->menu, gtk_widget_unparent);
  for (guint i = 0; i < G_N_ELEMENTS (self->menu_sections); i++)
    g_clear_object (&self->menu_sections[i]);
}
