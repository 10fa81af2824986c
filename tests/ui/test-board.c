/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board in a real window, where no other program can make the event: a pinch on a touch screen
 * or touch pad reaches the board as a signal of its gesture. Places are judged by the objects' own
 * allocations. */
#include <adwaita.h>
#include <math.h>

#include "support/fixtures.h"
#include "ui/application.h"
#include "ui/canvas-distance.h"
#include "ui/screen-style.h"
#include "ui/window.h"
#include "widgets.h"

static DryApplication *application;

typedef struct {
  DryWindow *window;
  DrySession *session;
  GtkWidget *canvas;
} Desk;

/* Where the board's object number `index` is, in its widget's pixels. */
static graphene_rect_t
place_of (Desk *desk, guint index)
{
  GtkWidget *object = gtk_widget_get_first_child (desk->canvas);
  graphene_rect_t place;

  for (guint i = 0; i < index && object != NULL; i++)
    object = gtk_widget_get_next_sibling (object);
  g_assert_nonnull (object);
  g_assert_true (gtk_widget_compute_bounds (object, desk->canvas, &place));
  return place;
}

static void
desk_set_up (Desk *desk, gconstpointer data)
{
  desk->window = DRY_WINDOW (dry_window_new (application));
  desk->session = dry_window_get_session (desk->window);
  desk->canvas = GTK_WIDGET (dry_window_get_canvas (desk->window));
  gtk_window_present (GTK_WINDOW (desk->window));
  gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.new", NULL);
  dry_session_open_project (desk->session, dry_test_furnished_alcove ("foam-bands"), NULL);
  DRY_TEST_WAIT_FOR (gtk_widget_get_mapped (desk->canvas));
  DRY_TEST_WAIT_FOR (!dry_session_is_busy (desk->session));
  DRY_TEST_WAIT_FOR (place_of (desk, 0).size.width > 20); /* laid out */
  dry_test_settle ();
}

static void
desk_tear_down (Desk *desk, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  dry_test_settle ();
}

static void
point_at (Desk *desk, double x, double y)
{
  g_signal_emit_by_name (dry_test_controller (desk->canvas, GTK_TYPE_EVENT_CONTROLLER_MOTION),
                         "motion", x, y);
}

static void
pinch (Desk *desk, const double *scales, guint n)
{
  GtkEventController *gesture = dry_test_controller (desk->canvas, GTK_TYPE_GESTURE_ZOOM);

  g_signal_emit_by_name (gesture, "begin", NULL);
  for (guint i = 0; i < n; i++)
    g_signal_emit_by_name (gesture, "scale-changed", scales[i]);
  g_signal_emit_by_name (gesture, "end", NULL);
  dry_test_settle ();
}

/* The thing under the fingers stays there and everything is as many times larger as they spread. */
static void
test_pinch_zooms (Desk *desk, gconstpointer data)
{
  const double spread[] = {1.1, 1.4, 2.0}, back[] = {0.8, 0.5};
  graphene_rect_t before = place_of (desk, 0), after;
  double x = before.origin.x + before.size.width / 2, y = before.origin.y + before.size.height / 2;

  point_at (desk, x, y);
  pinch (desk, spread, G_N_ELEMENTS (spread));
  after = place_of (desk, 0);
  g_assert_cmpfloat_with_epsilon (after.size.width / before.size.width, 2.0, 0.05);
  g_assert_cmpfloat_with_epsilon (after.origin.x + after.size.width / 2, x, 2.5);
  g_assert_cmpfloat_with_epsilon (after.origin.y + after.size.height / 2, y, 2.5);

  /* A second pinch begins anew from 1, it does not go on from the first. */
  pinch (desk, back, G_N_ELEMENTS (back));
  after = place_of (desk, 0);
  g_assert_cmpfloat_with_epsilon (after.size.width, before.size.width, 2.5);
  g_assert_cmpfloat_with_epsilon (after.origin.x, before.origin.x, 2.5);
  g_assert_cmpfloat_with_epsilon (after.origin.y, before.origin.y, 2.5);
}

/* Away from the middle the point between the fingers is the one that stays. */
static void
test_pinch_keeps_its_place (Desk *desk, gconstpointer data)
{
  const double spread[] = {1.5};
  graphene_rect_t before = place_of (desk, 1), after;
  double x = 12, y = 20;

  point_at (desk, x, y);
  pinch (desk, spread, 1);
  after = place_of (desk, 1);
  g_assert_cmpfloat_with_epsilon (after.origin.x, x + (before.origin.x - x) * 1.5, 2.5);
  g_assert_cmpfloat_with_epsilon (after.origin.y, y + (before.origin.y - y) * 1.5, 2.5);
}

/* However far the fingers go, the view stays finite and comes back. */
static void
test_pinch_has_limits (Desk *desk, gconstpointer data)
{
  graphene_rect_t before = place_of (desk, 0), after;
  const double far[] = {1e3, 1e6, 1e9}, near[] = {1e-3, 1e-9};

  point_at (desk, 100, 100);
  pinch (desk, far, G_N_ELEMENTS (far));
  pinch (desk, near, G_N_ELEMENTS (near));
  after = place_of (desk, 0);
  g_assert_true (isfinite (after.origin.x) && isfinite (after.size.width));
  gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.zoom-fit", NULL);
  dry_test_settle ();
  after = place_of (desk, 0);
  g_assert_cmpfloat_with_epsilon (after.size.width, before.size.width, 1);
  g_assert_cmpfloat_with_epsilon (after.origin.x, before.origin.x, 1);
}

/* --- what is kept of the drawing --- */

static GBytes *
take_picture (Desk *desk)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (desk->canvas);
  int width = gtk_widget_get_width (desk->canvas), height = gtk_widget_get_height (desk->canvas);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (desk->canvas));
  GskRenderNode *node;
  GdkTexture *texture;
  guchar *pixels = g_malloc ((gsize) width * (gsize) height * 4);

  dry_test_settle ();
  gdk_paintable_snapshot (paintable, snapshot, width, height);
  node = gtk_snapshot_free_to_node (snapshot);
  texture = gsk_renderer_render_texture (renderer, node,
                                         &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  gdk_texture_download (texture, pixels, (gsize) width * 4);
  g_object_unref (texture);
  gsk_render_node_unref (node);
  return g_bytes_new_take (pixels, (gsize) width * (gsize) height * 4);
}

/* What is on the board after an act is what a board that had kept nothing would paint. */
static void
check_picture (Desk *desk, const char *after)
{
  static GBytes *before;
  g_autoptr (GBytes) kept = NULL, fresh = NULL;
  const guchar *a, *b;
  guint n = 0;

  DRY_TEST_WAIT_FOR (!dry_session_is_busy (desk->session));
  kept = take_picture (desk);
  for (guint i = 0; i < 40 && before != NULL && g_bytes_equal (before, kept); i++) {
    g_bytes_unref (kept); /* a busy machine: the frame is still to come */
    kept = take_picture (desk);
  }
  g_object_notify (G_OBJECT (adw_style_manager_get_default ()), "dark"); /* lets go of everything */
  fresh = take_picture (desk);
  g_assert_cmpuint (g_bytes_get_size (kept), ==, g_bytes_get_size (fresh));
  a = g_bytes_get_data (kept, NULL);
  b = g_bytes_get_data (fresh, NULL);
  /* Letters may stand a hundredth of a pixel beside where they would, and where strokes cross it
   * matters which were one path; a stale square is off by thousands. */
  for (gsize i = 0; i < g_bytes_get_size (kept); i++)
    n += ABS (a[i] - b[i]) > 12;
  g_test_message ("after %s: %u bytes differ", after, n);
  g_assert_cmpuint (n, <=, 64);
  g_assert_false (before != NULL && g_bytes_equal (before, kept)); /* the act did show */
  g_clear_pointer (&before, g_bytes_unref);
  before = g_bytes_ref (kept);
}

static void
scroll (Desk *desk, double dx, double dy)
{
  gboolean done;

  g_signal_emit_by_name (dry_test_controller (desk->canvas, GTK_TYPE_EVENT_CONTROLLER_SCROLL),
                         "scroll", dx, dy, &done);
}

static void
move_niche (Desk *desk, DryLength by)
{
  const DryRoom *room = dry_session_get_room (desk->session);
  const DryPart *niche = dry_test_niche (room);
  DryProject *moved =
      dry_edit_move_part (dry_session_get_project (desk->session), room->id, niche->id, niche->wall,
                          niche->side, niche->u + by, niche->z, NULL);

  g_assert_nonnull (moved);
  g_assert_true (dry_session_apply (desk->session, moved, "Move", NULL, NULL));
}

static void
test_kept_squares (Desk *desk, gconstpointer data)
{
  const double spread[] = {1.6};

  check_picture (desk, "opening");
  scroll (desk, 0.3, -0.3); /* by fractions of a pixel and of a square */
  scroll (desk, 1.9, 2.35);
  check_picture (desk, "panning a little");
  for (guint i = 0; i < 6; i++)
    scroll (desk, -0.9, 0.5);
  check_picture (desk, "panning far");
  move_niche (desk, DRY_INCH);
  check_picture (desk, "moving the niche");
  point_at (desk, 300, 200);
  pinch (desk, spread, 1);
  check_picture (desk, "zooming");
  move_niche (desk, 3 * DRY_INCH / 8);
  scroll (desk, -3, -2);
  check_picture (desk, "moving and panning");
  /* The whole board again: what is left out or undone must be in the picture to be missed. */
  gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.zoom-fit", NULL);
  check_picture (desk, "showing all");
  dry_session_set_layer (desk->session, DRY_LAYER_FASTENERS, FALSE);
  check_picture (desk, "a layer less");
  dry_session_set_layer (desk->session, DRY_LAYER_FASTENERS, TRUE);
  gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.undo", NULL);
  check_picture (desk, "undoing");
}

/* --- what is written over the drawing --- */

/* It can be seen what a distance is of: it stands at its line, or at the thing. */
static void
check_near (DryCanvas *canvas, const DryMeasured *measured, guint side, const graphene_rect_t *chip)
{
  graphene_rect_t near;
  double x, y;

  dry_canvas_to_device (canvas, measured->sides[side].from, &x, &y);
  near = GRAPHENE_RECT_INIT ((float) x, (float) y, 1, 1);
  for (guint i = 0; i < 4; i++) {
    graphene_rect_t end;

    dry_canvas_to_device (canvas, measured->sides[i].to, &x, &y);
    end = GRAPHENE_RECT_INIT ((float) x, (float) y, 1, 1);
    graphene_rect_union (&near, &end, &near);
  }
  graphene_rect_inset (&near, -chip->size.width / 2, -1.5f * chip->size.height);
  g_assert_true (graphene_rect_intersection (&near, chip, NULL));
}

/* Letters of the drawing, as they are really set, that the distances of the selected thing cover.
 */
static guint
count_covered (DryCanvas *canvas)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, NULL);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (GArray) letters =
      dry_painter_paint_and_tell (cr, canvas->scene, &canvas->view, dry_screen_style (),
                                  dry_session_get_layers (canvas->session));
  DryMeasured measured;
  graphene_rect_t chips[4];
  guint covered = 0;

  g_assert_cmpuint (letters->len, >, 20);
  g_assert_true (dry_canvas_measure_object (canvas, &measured));
  dry_canvas_place_chips (canvas, &measured, chips);
  for (guint side = 0; side < 4; side++) {
    g_assert_cmpfloat (chips[side].size.width, >, 0);
    check_near (canvas, &measured, side, &chips[side]);
    for (guint i = 0; i < letters->len; i++) {
      const DryShownText *shown = &g_array_index (letters, DryShownText, i);
      graphene_rect_t inside =
          GRAPHENE_RECT_INIT ((float) shown->x0, (float) shown->y0, (float) (shown->x1 - shown->x0),
                              (float) (shown->y1 - shown->y0));

      if (shown->item->kind != DRY_PRIMITIVE_TEXT ||
          !graphene_rect_intersection (&chips[side], &inside, NULL))
        continue;
      g_test_message ("side %u covers %s", side, shown->item->text);
      covered++;
    }
  }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return covered;
}

/* Distances stand where they belong; where there is a choice, the names and sizes of boards can
 * still be read. */
static void
test_distances_cover_no_letters (Desk *desk, gconstpointer data)
{
  const DryRoom *room = dry_session_get_room (desk->session);
  const DryPart *niche = dry_test_niche (room);
  DryCanvas *canvas = DRY_CANVAS (desk->canvas);
  guint covered = 0;

  for (guint i = 0; i < room->n_parts; i++) {
    dry_session_select (desk->session, room->parts[i].id);
    count_covered (canvas);
  }
  dry_session_select (desk->session, niche->id);
  for (guint i = 0; i < 12; i++) {
    covered += count_covered (canvas);
    move_niche (desk, (i == 5 ? -9 : 1) * DRY_INCH);
    DRY_TEST_WAIT_FOR (!dry_session_is_busy (desk->session));
    dry_test_settle ();
  }
  g_assert_cmpuint (covered, <=, 4); /* of 48; where the lines are too short for a choice */
}

/* --- the keyboard --- */

/* It does not go out of sight with the panel that is closed. */
static void
test_closed_panel_gives_keyboard (Desk *desk, gconstpointer data)
{
  GtkWidget *search = dry_test_require (GTK_WIDGET (desk->window), GTK_TYPE_SEARCH_ENTRY);

  g_assert_true (gtk_widget_grab_focus (search));
  gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.shelf", NULL);
  g_assert_true (
      gtk_window_get_focus (GTK_WINDOW (desk->window)) == desk->canvas ||
      gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (desk->window)), desk->canvas));
  gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.shelf", NULL);
}

#define ADD(path, test)                                                                            \
  g_test_add ("/ui/board/" path, Desk, NULL, desk_set_up, test, desk_tear_down)

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  application = dry_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  if (!g_application_register (G_APPLICATION (application), NULL, NULL))
    return 99;
  ADD ("pinch-zooms", test_pinch_zooms);
  ADD ("pinch-keeps-its-place", test_pinch_keeps_its_place);
  ADD ("pinch-has-limits", test_pinch_has_limits);
  ADD ("kept-squares", test_kept_squares);
  ADD ("closed-panel-gives-keyboard", test_closed_panel_gives_keyboard);
  ADD ("distances-cover-no-letters", test_distances_cover_no_letters);
  result = g_test_run ();
  g_object_unref (application);
  return result;
}
