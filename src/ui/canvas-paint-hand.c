/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is in hand, painted: distances to its neighbours, guide lines, why it snapped or is refused,
 * walls being drawn, and a line on how to go on. Moves nothing. */
#include "ui/canvas-distance.h"
#include "ui/canvas-mark.h"
#include "ui/canvas-seam.h"

#include <glib/gi18n.h>
#include <math.h>

static void
draw_snap (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DrySnap *snap = &self->hand.snap;
  const DryWall *wall = dry_room_get_wall (dry_session_get_room (self->session), self->hand.wall);
  gint view = dry_canvas_find_view (self, FALSE, self->hand.wall, self->hand.side);
  GdkRGBA colour = dry_mark_accent (self, 0.9f);
  DryPoint o;

  if (view < 0 || wall == NULL || !self->hand.on_wall)
    return;
  o = self->scene->views[view].origin;
  if (snap->u_reason != NULL)
    dry_mark_line (
        snapshot, dry_mark_spot (self, (DryPoint){o.x + snap->u_line, o.y}),
        dry_mark_spot (
            self, (DryPoint){o.x + snap->u_line,
                             o.y + dry_wall_height (dry_session_get_room (self->session), wall)}),
        colour, 1.2, TRUE);
  if (snap->z_reason != NULL)
    dry_mark_line (
        snapshot, dry_mark_spot (self, (DryPoint){o.x, o.y + snap->z_line}),
        dry_mark_spot (self, (DryPoint){o.x + dry_wall_length (wall), o.y + snap->z_line}), colour,
        1.2, TRUE);
}

static void
draw_reason (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DrySnap *snap = &self->hand.snap;
  g_autoptr (GString) text = g_string_new (NULL);
  DrySpot at = dry_mark_foot (self, 0);

  if (self->hand.refusal != NULL) {
    dry_mark_chip (self, snapshot, at, self->hand.refusal, DRY_CHIP_WARNING);
    return;
  }
  if (self->hand.on_wall && snap->u_reason != NULL)
    g_string_append (text, _ (snap->u_reason));
  if (self->hand.on_wall && snap->z_reason != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", _ (snap->z_reason));
  if (!self->hand.on_wall && self->hand.reason != NULL)
    g_string_append (text, _ (self->hand.reason));
  if (text->len > 0)
    dry_mark_chip (self, snapshot, at, text->str, DRY_CHIP_ACCENT);
}

/* Lengths of the walls that change while a wall or corner is pulled. */
static void
draw_wall_lengths (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DryRoom *room = dry_session_get_room (self->session);
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  DryPoint o;

  if (view < 0 || room == NULL)
    return;
  o = self->scene->views[view].origin;
  for (guint i = 0; i < room->n_walls; i++) {
    const DryWall *wall = &room->walls[i];
    const DryRoom *before = dry_hand_room (self);
    const DryWall *was = before != NULL ? dry_room_get_wall (before, wall->id) : NULL;

    if (was != NULL && dry_wall_length (was) == dry_wall_length (wall))
      continue;
    DryPoint middle = dry_wall_point (wall, DRY_SIDE_INSIDE, dry_wall_length (wall) / 2, 0);
    double ux, uy, nx, ny;
    DrySpot at = dry_mark_spot (self, (DryPoint){middle.x + o.x, middle.y + o.y});
    g_autofree char *text = dry_session_format_length (self->session, dry_wall_length (wall));

    dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
    dry_mark_chip (self, snapshot, (DrySpot){at.x + nx * 26, at.y - ny * 18}, text, DRY_CHIP_QUIET);
  }
}

/* What is being sized says how large it is; how far it stands out, beside its edge on the plan. */
static void
draw_size (DryCanvas *self, GtkSnapshot *snapshot)
{
  DryPoint at;
  g_autofree char *text = dry_hand_size_text (self, &at);
  const DryWall *wall = dry_room_get_wall (dry_session_get_room (self->session), self->hand.wall);
  DrySpot spot;
  double ux, uy, nx, ny;

  if (text == NULL)
    return;
  spot = dry_mark_spot (self, at);
  if (self->hand.grip == DRY_GRIP_OUT && wall != NULL) {
    dry_wall_axes (wall, self->hand.side, &ux, &uy, &nx, &ny);
    spot = (DrySpot){spot.x + nx * 30, spot.y - ny * 22};
  }
  dry_mark_chip (self, snapshot, spot, text, DRY_CHIP_QUIET);
}

static void
draw_outline_walls (DryCanvas *self, GtkSnapshot *snapshot)
{
  GArray *corners = self->hand.corners;
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  GdkRGBA colour = dry_mark_accent (self, 1);
  DryPoint o, last = self->hand.next;
  DrySpot tip;

  if (view < 0)
    return;
  o = self->scene->views[view].origin;
  for (guint i = 0; i < corners->len; i++) {
    DryPoint from = g_array_index (corners, DryPoint, i);
    DryPoint to = i + 1 < corners->len ? g_array_index (corners, DryPoint, i + 1) : last;
    DrySpot a = dry_mark_spot (self, (DryPoint){from.x + o.x, from.y + o.y});
    DrySpot b = dry_mark_spot (self, (DryPoint){to.x + o.x, to.y + o.y});
    gboolean open = i + 1 == corners->len;
    g_autofree char *text =
        open && self->hand.typed->len > 0
            ? g_strdup_printf ("%s▏", self->hand.typed->str)
            : dry_session_format_length (self->session, dry_point_distance (from, to));

    dry_mark_line (snapshot, a, b, colour, open ? 2 : 3, open);
    if (hypot (b.x - a.x, b.y - a.y) > 30 || (open && self->hand.typed->len > 0))
      dry_mark_chip (self, snapshot, (DrySpot){(a.x + b.x) / 2, (a.y + b.y) / 2}, text,
                     open ? DRY_CHIP_ACCENT : DRY_CHIP_QUIET);
    dry_mark_line (snapshot, (DrySpot){a.x - 4, a.y}, (DrySpot){a.x + 4, a.y}, colour, 8, FALSE);
  }
  tip = dry_mark_spot (self, (DryPoint){last.x + o.x, last.y + o.y});
  dry_mark_line (snapshot, (DrySpot){tip.x - 8, tip.y}, (DrySpot){tip.x + 8, tip.y}, colour, 2,
                 FALSE);
  dry_mark_line (snapshot, (DrySpot){tip.x, tip.y - 8}, (DrySpot){tip.x, tip.y + 8}, colour, 2,
                 FALSE);
}

static const char *
hint_text (DryCanvas *self)
{
  if (self->hand.kind == DRY_HAND_OUTLINE)
    return self->hand.corners->len < 3
               ? _ ("Click the corners, or type a length and press Enter · Backspace takes one "
                    "back "
                    "· Esc leaves")
               : _ ("Click the first corner to close, or press C · Esc leaves");
  if (!self->hand.sticky || self->hand.dropping)
    return NULL;
  return _ (
      "Click where it goes · arrow keys move it, Tab changes the wall, a number sets a distance "
      "· Enter puts it down · Esc leaves");
}

void
dry_canvas_paint_hand (DryCanvas *self, GtkSnapshot *snapshot)
{
  const char *hint = hint_text (self);

  switch (self->hand.kind) {
  case DRY_HAND_PART:
  case DRY_HAND_OPENING:
  case DRY_HAND_SIZE:
    dry_mark_group (self, snapshot, dry_canvas_paint_distances);
    draw_snap (self, snapshot);
    draw_size (self, snapshot);
    break;
  case DRY_HAND_SEAM:
    dry_canvas_paint_seam (self, snapshot);
    break;
  case DRY_HAND_BASIN:
  case DRY_HAND_STUD:
    dry_mark_group (self, snapshot, dry_canvas_paint_distances);
    break;
  case DRY_HAND_WALL:
  case DRY_HAND_CORNER:
    draw_wall_lengths (self, snapshot);
    break;
  case DRY_HAND_OUTLINE:
    draw_outline_walls (self, snapshot);
    break;
  default:
    break;
  }
  if (self->hand.changed)
    dry_canvas_paint_breakage (self, snapshot);
  if (self->hand.kind != DRY_HAND_EMPTY && self->hand.kind != DRY_HAND_PAN)
    draw_reason (self, snapshot);
  if (hint != NULL)
    dry_mark_chip (self, snapshot, (DrySpot){gtk_widget_get_width (GTK_WIDGET (self)) / 2.0, 26},
                   hint, DRY_CHIP_QUIET);
}
