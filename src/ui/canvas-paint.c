/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Painting the board: the scene as one recorded node that is replayed, panned and kept until it
 * changes; what follows the pointer as small nodes on top. Changes nothing. */
#include "ui/canvas-private.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <math.h>

const DryStyle *
dry_canvas_style (void)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();
  gboolean dark = adw_style_manager_get_dark (manager);

  if (adw_style_manager_get_high_contrast (manager))
    return dry_style_get (dark ? DRY_STYLE_CONTRAST_DARK : DRY_STYLE_CONTRAST);
  return dry_style_get (dark ? DRY_STYLE_DARK : DRY_STYLE_LIGHT);
}

static GdkRGBA
to_rgba (DryColour colour, double alpha)
{
  return (GdkRGBA){(float) colour.r, (float) colour.g, (float) colour.b, (float) alpha};
}

static GdkRGBA
lookup (DryCanvas *self, const char *name, GdkRGBA otherwise)
{
  GdkRGBA colour;

  if (gtk_style_context_lookup_color (gtk_widget_get_style_context (GTK_WIDGET (self)), name,
                                      &colour))
    return colour;
  return otherwise;
}

static GdkRGBA
accent (DryCanvas *self, float alpha)
{
  GdkRGBA colour = lookup (self, "accent_color", (GdkRGBA){0.11f, 0.44f, 0.85f, 1});

  colour.alpha = alpha;
  return colour;
}

/* --- the scene --- */

/* Records what can be seen and as much again on every side, so that panning only replays. */
static void
record_scene (DryCanvas *self, float width, float height)
{
  graphene_rect_t area = GRAPHENE_RECT_INIT (-width / 2, -height / 2, 2 * width, 2 * height);
  DryPoint low = dry_canvas_to_scene (self, area.origin.x, area.origin.y + area.size.height);
  DryPoint high = dry_canvas_to_scene (self, area.origin.x + area.size.width, area.origin.y);
  DryRect clip = {low.x, low.y, high.x, high.y};
  cairo_t *cr;

  g_clear_pointer (&self->node, gsk_render_node_unref);
  self->node = gsk_cairo_node_new (&area);
  self->node_view = self->view;
  self->node_area = area;
  cr = gsk_cairo_node_get_draw_context (self->node);
  dry_painter_paint (cr, self->scene, &self->view, dry_canvas_style (),
                     dry_session_get_layers (self->session), &clip);
  cairo_destroy (cr);
}

static void
snapshot_scene (DryCanvas *self, GtkSnapshot *snapshot, float width, float height)
{
  float dx = (float) (self->view.x - self->node_view.x);
  float dy = (float) (self->view.y - self->node_view.y);
  graphene_rect_t seen = GRAPHENE_RECT_INIT (-dx, -dy, width, height);

  if (self->node == NULL || self->view.scale != self->node_view.scale ||
      !graphene_rect_contains_rect (&self->node_area, &seen)) {
    record_scene (self, width, height);
    dx = dy = 0;
  }
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (dx, dy));
  gtk_snapshot_append_node (snapshot, self->node);
  gtk_snapshot_restore (snapshot);
}

/* --- small things on top --- */

typedef struct {
  double x, y;
} Spot;

static Spot
to_spot (DryCanvas *self, DryPoint at)
{
  Spot spot;

  dry_canvas_to_device (self, at, &spot.x, &spot.y);
  return spot;
}

static cairo_t *
begin_overlay (GtkSnapshot *snapshot, const Spot *spots, guint n, double margin)
{
  double x0 = spots[0].x, y0 = spots[0].y, x1 = x0, y1 = y0;

  for (guint i = 1; i < n; i++) {
    x0 = MIN (x0, spots[i].x);
    y0 = MIN (y0, spots[i].y);
    x1 = MAX (x1, spots[i].x);
    y1 = MAX (y1, spots[i].y);
  }
  return gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT ((float) (x0 - margin),
                                                                   (float) (y0 - margin),
                                                                   (float) (x1 - x0 + 2 * margin),
                                                                   (float) (y1 - y0 + 2 * margin)));
}

static void
draw_outline (DryCanvas *self, GtkSnapshot *snapshot, const DryShape *shape, GdkRGBA colour,
              double pen, float fill)
{
  Spot spots[4];
  cairo_t *cr;

  for (guint i = 0; i < 4; i++)
    spots[i] = to_spot (self, shape->points[i]);
  cr = begin_overlay (snapshot, spots, 4, pen + 2);
  for (guint i = 0; i < 4; i++)
    cairo_line_to (cr, spots[i].x, spots[i].y);
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &colour);
  if (fill > 0) {
    cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, fill);
    cairo_fill_preserve (cr);
    gdk_cairo_set_source_rgba (cr, &colour);
  }
  cairo_set_line_width (cr, pen);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
draw_line (GtkSnapshot *snapshot, Spot from, Spot to, GdkRGBA colour, double pen, gboolean dashed)
{
  Spot spots[2] = {from, to};
  cairo_t *cr = begin_overlay (snapshot, spots, 2, pen + 1);

  if (dashed)
    cairo_set_dash (cr, (double[]){5, 4}, 2, 0);
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_set_line_width (cr, pen);
  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, to.x, to.y);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

typedef enum { CHIP_QUIET, CHIP_ACCENT, CHIP_WARNING } ChipKind;

/* A rounded label centred on a spot and kept inside the canvas. */
static void
draw_chip (DryCanvas *self, GtkSnapshot *snapshot, Spot at, const char *text, ChipKind kind)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  const DryStyle *style = dry_canvas_style ();
  GdkRGBA ground = to_rgba (style->inks[DRY_INK_PAPER], 0.94);
  GdkRGBA ink = to_rgba (style->inks[DRY_INK_TEXT], 1);
  int w, h, limit = gtk_widget_get_width (GTK_WIDGET (self)) - 32;
  float x, y, width, height;
  GskRoundedRect box;

  if (kind != CHIP_QUIET) {
    ground = lookup (self, kind == CHIP_ACCENT ? "accent_bg_color" : "warning_bg_color", ground);
    ink = lookup (self, kind == CHIP_ACCENT ? "accent_fg_color" : "warning_fg_color", ink);
  }
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_attr_list_insert (attributes, pango_attr_scale_new (kind == CHIP_QUIET ? 0.86 : 0.92));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_get_pixel_size (layout, &w, &h);
  if (w > limit) {
    pango_layout_set_width (layout, MAX (limit, 80) * PANGO_SCALE);
    pango_layout_get_pixel_size (layout, &w, &h);
  }
  width = (float) w + 14;
  height = (float) h + 4;
  x = (float) CLAMP (at.x - width / 2, 8,
                     MAX (8, gtk_widget_get_width (GTK_WIDGET (self)) - width - 8));
  y = (float) CLAMP (at.y - height / 2, 8,
                     MAX (8, gtk_widget_get_height (GTK_WIDGET (self)) - height - 8));
  x = floorf (x);
  y = floorf (y);
  gsk_rounded_rect_init_from_rect (&box, &GRAPHENE_RECT_INIT (x, y, width, height),
                                   MIN (height / 2, 12));
  gtk_snapshot_append_outset_shadow (snapshot, &box, &(GdkRGBA){0, 0, 0, 0.18f}, 0, 1, 0, 3);
  gtk_snapshot_push_rounded_clip (snapshot, &box);
  gtk_snapshot_append_color (snapshot, &ground, &box.bounds);
  gtk_snapshot_pop (snapshot);
  if (kind == CHIP_QUIET) {
    GdkRGBA edge = to_rgba (style->inks[DRY_INK_TEXT], 0.25);

    gtk_snapshot_append_border (snapshot, &box, (float[]){1, 1, 1, 1},
                                (GdkRGBA[]){edge, edge, edge, edge});
  }
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (x + 7, y + 2));
  gtk_snapshot_append_layout (snapshot, layout, &ink);
  gtk_snapshot_restore (snapshot);
}

static void
draw_grips (DryCanvas *self, GtkSnapshot *snapshot)
{
  DryGripPlace grips[16];
  guint n = dry_canvas_grips (self, grips, 16);
  GdkRGBA paper = to_rgba (dry_canvas_style ()->inks[DRY_INK_PAPER], 1);
  GdkRGBA edge = accent (self, 1);

  for (guint i = 0; i < n; i++) {
    Spot at = to_spot (self, grips[i].at);
    GskRoundedRect box;
    float half = grips[i].kind == DRY_HAND_CORNER ? 6 : 4.5f;

    gsk_rounded_rect_init_from_rect (
        &box, &GRAPHENE_RECT_INIT ((float) at.x - half, (float) at.y - half, 2 * half, 2 * half),
        grips[i].kind == DRY_HAND_CORNER ? half : 2);
    gtk_snapshot_push_rounded_clip (snapshot, &box);
    gtk_snapshot_append_color (snapshot, &paper, &box.bounds);
    gtk_snapshot_pop (snapshot);
    gtk_snapshot_append_border (snapshot, &box, (float[]){2, 2, 2, 2},
                                (GdkRGBA[]){edge, edge, edge, edge});
  }
}

static void
draw_selection (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId selection = dry_session_get_selection (self->session);
  gboolean focused =
      selection != 0 && dry_canvas_focused_object (self) == selection &&
      gtk_window_get_focus_visible (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))));
  gboolean held = self->hand.kind != DRY_HAND_EMPTY && self->hand.kind != DRY_HAND_PAN;
  DryShape shapes[8];
  guint n;

  if (self->hover != 0 && self->hover != selection && !held) {
    n = dry_canvas_shapes (self, room, self->hover, shapes, 8);
    for (guint i = 0; i < n; i++)
      draw_outline (self, snapshot, &shapes[i], accent (self, 0.55f), 1.5, 0.05f);
  }
  if (selection == 0)
    return;
  gboolean wall = room != NULL && dry_room_get_wall (room, selection) != NULL;

  n = dry_canvas_shapes (self, room, selection, shapes, 8);
  for (guint i = 0; i < n; i++) {
    /* The keyboard's place has a wide halo, told by more than colour. */
    if (focused)
      draw_outline (self, snapshot, &shapes[i], accent (self, 0.35f), 7, 0);
    draw_outline (self, snapshot, &shapes[i], accent (self, 1), 2,
                  wall   ? 0.04f
                  : held ? 0.18f
                         : 0.08f);
  }
  if (!held)
    draw_grips (self, snapshot);
}

/* --- findings --- */

static void
draw_finding (DryCanvas *self, GtkSnapshot *snapshot)
{
  gint index = dry_session_get_selected_finding (self->session);
  const DryFinding *finding;
  const DryStyle *style = dry_canvas_style ();
  DryShape shape = {0};
  DryInk ink;

  if (index < 0 || self->plan == NULL || (guint) index >= self->plan->findings->n)
    return;
  finding = &self->plan->findings->items[index];
  ink = finding->severity == DRY_SEVERITY_STOP  ? DRY_INK_STOP
        : finding->severity == DRY_SEVERITY_FIX ? DRY_INK_FIX
                                                : DRY_INK_ADVICE;
  if (finding->face < 0 || (guint) finding->face >= self->plan->faces->n)
    return;
  for (guint i = 0; i < self->scene->n_views; i++) {
    const DryView *view = &self->scene->views[i];
    const DryFace *face = &self->plan->faces->items[finding->face];
    DryRect rect = finding->place;

    if (view->kind != DRY_VIEW_FACE || view->face != finding->face)
      continue;
    if (dry_rect_is_empty (rect) && rect.x0 == 0 && rect.y0 == 0 && rect.x1 == 0 && rect.y1 == 0)
      rect = (DryRect){0, 0, face->length, face->height};
    rect = dry_rect_inflate (rect, dry_canvas_pixels (self, 5));
    shape.points[0] = (DryPoint){view->origin.x + rect.x0, view->origin.y + rect.y0};
    shape.points[1] = (DryPoint){view->origin.x + rect.x1, view->origin.y + rect.y0};
    shape.points[2] = (DryPoint){view->origin.x + rect.x1, view->origin.y + rect.y1};
    shape.points[3] = (DryPoint){view->origin.x + rect.x0, view->origin.y + rect.y1};
    draw_outline (self, snapshot, &shape, to_rgba (style->inks[ink], 0.3), 8, 0);
    draw_outline (self, snapshot, &shape, to_rgba (style->inks[ink], 1), 2.5, 0.10f);
  }
}

/* --- what is in hand --- */

static void
draw_distance (DryCanvas *self, GtkSnapshot *snapshot, DryPoint from, DryPoint to,
               DryLength distance)
{
  Spot a = to_spot (self, from), b = to_spot (self, to);
  g_autofree char *text = dry_session_format_length (self->session, distance);
  GdkRGBA colour = accent (self, 1);
  gboolean across = fabs (b.x - a.x) > fabs (b.y - a.y);

  if (distance <= 0)
    return;
  draw_line (snapshot, a, b, colour, 1.2, FALSE);
  for (guint i = 0; i < 2; i++) {
    Spot end = i == 0 ? a : b;

    if (across)
      draw_line (snapshot, (Spot){end.x, end.y - 5}, (Spot){end.x, end.y + 5}, colour, 1.2, FALSE);
    else
      draw_line (snapshot, (Spot){end.x - 5, end.y}, (Spot){end.x + 5, end.y}, colour, 1.2, FALSE);
  }
  Spot middle = {(a.x + b.x) / 2, (a.y + b.y) / 2};

  /* A chip longer than its line steps aside, so that both can be seen. */
  if (across && fabs (b.x - a.x) < 52)
    middle.y += 20;
  else if (!across && fabs (b.y - a.y) < 34)
    middle.x += 34;
  draw_chip (self, snapshot, middle, text, CHIP_QUIET);
}

/* Distances to the neighbours on the face of the thing in hand, or along the wall in plan. */
static void
draw_distances (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DryRoom *room = dry_session_get_room (self->session);
  const DryWall *wall = dry_room_get_wall (room, self->hand.wall);
  gint view = dry_canvas_find_view (self, FALSE, self->hand.wall, self->hand.side);
  gint plan_view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  DryRect r = self->hand.rect;
  DrySnapRequest request = {.room = room,
                            .plan = self->plan,
                            .wall = self->hand.wall,
                            .side = self->hand.side,
                            .moving = self->hand.object,
                            .rect = r};
  DryNeighbours near = dry_snap_neighbours (&request);
  DryLength mx = r.x0 + dry_rect_width (r) / 2, my = r.y0 + dry_rect_height (r) / 2;
  DryLength left = near.distance[DRY_TOWARD_SIDE_LEFT],
            right = near.distance[DRY_TOWARD_SIDE_RIGHT];
  DryLength down = near.distance[DRY_TOWARD_SIDE_DOWN], up = near.distance[DRY_TOWARD_SIDE_UP];

  if (wall == NULL)
    return;
  if (view >= 0) {
    DryPoint o = self->scene->views[view].origin;

    draw_distance (self, snapshot, (DryPoint){o.x + r.x0 - left, o.y + my},
                   (DryPoint){o.x + r.x0, o.y + my}, left);
    draw_distance (self, snapshot, (DryPoint){o.x + r.x1, o.y + my},
                   (DryPoint){o.x + r.x1 + right, o.y + my}, right);
    draw_distance (self, snapshot, (DryPoint){o.x + mx, o.y + r.y0 - down},
                   (DryPoint){o.x + mx, o.y + r.y0}, down);
    draw_distance (self, snapshot, (DryPoint){o.x + mx, o.y + r.y1},
                   (DryPoint){o.x + mx, o.y + r.y1 + up}, up);
  } else if (plan_view >= 0) {
    DryPoint o = self->scene->views[plan_view].origin;
    DryLength us[4] = {r.x0 - left, r.x0, r.x1, r.x1 + right};
    DryPoint at[4];

    for (guint i = 0; i < 4; i++) {
      at[i] = dry_wall_point (wall, self->hand.side, us[i], 4 * DRY_INCH);
      at[i] = (DryPoint){at[i].x + o.x, at[i].y + o.y};
    }
    draw_distance (self, snapshot, at[0], at[1], left);
    draw_distance (self, snapshot, at[2], at[3], right);
  }
}

static void
draw_snap (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DrySnap *snap = &self->hand.snap;
  const DryWall *wall = dry_room_get_wall (dry_session_get_room (self->session), self->hand.wall);
  gint view = dry_canvas_find_view (self, FALSE, self->hand.wall, self->hand.side);
  GdkRGBA colour = accent (self, 0.9f);
  DryPoint o;

  if (view < 0 || wall == NULL || !self->hand.on_wall)
    return;
  o = self->scene->views[view].origin;
  if (snap->u_reason != NULL)
    draw_line (snapshot, to_spot (self, (DryPoint){o.x + snap->u_line, o.y}),
               to_spot (self, (DryPoint){o.x + snap->u_line,
                                         o.y + dry_wall_height (
                                                   dry_session_get_room (self->session), wall)}),
               colour, 1.2, TRUE);
  if (snap->z_reason != NULL)
    draw_line (snapshot, to_spot (self, (DryPoint){o.x, o.y + snap->z_line}),
               to_spot (self, (DryPoint){o.x + dry_wall_length (wall), o.y + snap->z_line}), colour,
               1.2, TRUE);
}

/* Right above the thing in hand, beside the line that measures upward; else under the pointer. */
static Spot
place_reason (DryCanvas *self)
{
  gint view = dry_canvas_find_view (self, FALSE, self->hand.wall, self->hand.side);
  DryRect r = self->hand.rect;
  Spot spot = {self->pointer_x, self->pointer_y + 44};

  if (self->hand.on_wall && view >= 0) {
    DryPoint o = self->scene->views[view].origin;

    spot = to_spot (self, (DryPoint){o.x + r.x1, o.y + r.y1});
    spot.y -= 22;
  }
  return spot;
}

static void
draw_reason (DryCanvas *self, GtkSnapshot *snapshot)
{
  const DrySnap *snap = &self->hand.snap;
  g_autoptr (GString) text = g_string_new (NULL);
  Spot at = place_reason (self);

  if (self->hand.refusal != NULL) {
    draw_chip (self, snapshot, at, self->hand.refusal, CHIP_WARNING);
    return;
  }
  if (self->hand.on_wall && snap->u_reason != NULL)
    g_string_append (text, _ (snap->u_reason));
  if (self->hand.on_wall && snap->z_reason != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", _ (snap->z_reason));
  if (!self->hand.on_wall && self->hand.reason != NULL)
    g_string_append (text, _ (self->hand.reason));
  if (text->len > 0)
    draw_chip (self, snapshot, at, text->str, CHIP_ACCENT);
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
    DryPoint middle = dry_wall_point (wall, DRY_SIDE_INSIDE, dry_wall_length (wall) / 2, 0);
    double ux, uy, nx, ny;
    Spot at = to_spot (self, (DryPoint){middle.x + o.x, middle.y + o.y});
    g_autofree char *text = dry_session_format_length (self->session, dry_wall_length (wall));

    dry_wall_axes (wall, DRY_SIDE_INSIDE, &ux, &uy, &nx, &ny);
    draw_chip (self, snapshot, (Spot){at.x + nx * 26, at.y - ny * 18}, text, CHIP_QUIET);
  }
}

static void
draw_outline_walls (DryCanvas *self, GtkSnapshot *snapshot)
{
  GArray *corners = self->hand.corners;
  gint view = dry_canvas_find_view (self, TRUE, 0, DRY_SIDE_INSIDE);
  GdkRGBA colour = accent (self, 1);
  DryPoint o, last = self->hand.next;
  Spot tip;

  if (view < 0)
    return;
  o = self->scene->views[view].origin;
  for (guint i = 0; i < corners->len; i++) {
    DryPoint from = g_array_index (corners, DryPoint, i);
    DryPoint to = i + 1 < corners->len ? g_array_index (corners, DryPoint, i + 1) : last;
    Spot a = to_spot (self, (DryPoint){from.x + o.x, from.y + o.y});
    Spot b = to_spot (self, (DryPoint){to.x + o.x, to.y + o.y});
    gboolean open = i + 1 == corners->len;
    g_autofree char *text =
        open && self->hand.typed->len > 0
            ? g_strdup_printf ("%s▏", self->hand.typed->str)
            : dry_session_format_length (self->session, dry_point_distance (from, to));

    draw_line (snapshot, a, b, colour, open ? 2 : 3, open);
    if (hypot (b.x - a.x, b.y - a.y) > 30 || (open && self->hand.typed->len > 0))
      draw_chip (self, snapshot, (Spot){(a.x + b.x) / 2, (a.y + b.y) / 2}, text,
                 open ? CHIP_ACCENT : CHIP_QUIET);
    draw_line (snapshot, (Spot){a.x - 4, a.y}, (Spot){a.x + 4, a.y}, colour, 8, FALSE);
  }
  tip = to_spot (self, (DryPoint){last.x + o.x, last.y + o.y});
  draw_line (snapshot, (Spot){tip.x - 8, tip.y}, (Spot){tip.x + 8, tip.y}, colour, 2, FALSE);
  draw_line (snapshot, (Spot){tip.x, tip.y - 8}, (Spot){tip.x, tip.y + 8}, colour, 2, FALSE);
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
  return _ ("Click where it goes · arrow keys move it, Tab changes the wall, Enter puts it down · "
            "Esc leaves");
}

static void
draw_hand (DryCanvas *self, GtkSnapshot *snapshot)
{
  const char *hint = hint_text (self);

  switch (self->hand.kind) {
  case DRY_HAND_PART:
  case DRY_HAND_OPENING:
  case DRY_HAND_SIZE:
    if (self->hand.on_wall)
      draw_distances (self, snapshot);
    draw_snap (self, snapshot);
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
  if (self->hand.kind != DRY_HAND_EMPTY && self->hand.kind != DRY_HAND_PAN)
    draw_reason (self, snapshot);
  if (hint != NULL)
    draw_chip (self, snapshot, (Spot){gtk_widget_get_width (GTK_WIDGET (self)) / 2.0, 26}, hint,
               CHIP_QUIET);
}

void
dry_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DryCanvas *self = DRY_CANVAS (widget);
  float width = (float) gtk_widget_get_width (widget);
  float height = (float) gtk_widget_get_height (widget);
  GdkRGBA paper = to_rgba (dry_canvas_style ()->inks[DRY_INK_PAPER], 1);

  gtk_snapshot_append_color (snapshot, &paper, &GRAPHENE_RECT_INIT (0, 0, width, height));
  if (self->scene == NULL || width < 1 || height < 1)
    return;
  snapshot_scene (self, snapshot, width, height);
  draw_finding (self, snapshot);
  draw_selection (self, snapshot);
  draw_hand (self, snapshot);
}
