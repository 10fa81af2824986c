/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where things are on the board, and one transparent child widget for each of them, so that the
 * keyboard and assistive tools can walk a drawing. Knows no drag and no paint. */
#include "ui/canvas-private.h"

#include "ui/actions.h"
#include "ui/canvas-seam.h"
#include "ui/studs.h"

/* --- the child widgets --- */

#define DRY_TYPE_CANVAS_OBJECT (dry_canvas_object_get_type ())
G_DECLARE_FINAL_TYPE (DryCanvasObject, dry_canvas_object, DRY, CANVAS_OBJECT, GtkWidget)

struct _DryCanvasObject {
  GtkWidget parent_instance;
  DryId id;
  gint stud;         /* of the wall `id`, or -1: the wall itself or another thing */
  DryPieceRef piece; /* of the wall `id`, or of no kind */
  char *label;
  char *place;
  gint selected; /* as told; -1: not yet */
};

G_DEFINE_FINAL_TYPE (DryCanvasObject, dry_canvas_object, GTK_TYPE_WIDGET)

static void
dry_canvas_object_finalize (GObject *object)
{
  DryCanvasObject *self = DRY_CANVAS_OBJECT (object);

  g_free (self->label);
  g_free (self->place);
  G_OBJECT_CLASS (dry_canvas_object_parent_class)->finalize (object);
}

static void
dry_canvas_object_class_init (DryCanvasObjectClass *class)
{
  G_OBJECT_CLASS (class)->finalize = dry_canvas_object_finalize;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "boardobject");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_LIST_ITEM);
}

static void
on_object_focused (GtkWidget *widget, GParamSpec *pspec, DryCanvas *canvas)
{
  if (!gtk_widget_has_focus (widget) || canvas->session == NULL)
    return;
  canvas->focusing = TRUE;
  if (DRY_CANVAS_OBJECT (widget)->piece.kind != DRY_PIECE_NONE)
    dry_session_select_piece (canvas->session, &DRY_CANVAS_OBJECT (widget)->piece);
  else if (dry_session_get_selection (canvas->session) != DRY_CANVAS_OBJECT (widget)->id ||
           dry_session_get_selected_stud (canvas->session) != DRY_CANVAS_OBJECT (widget)->stud ||
           dry_session_get_selected_piece (canvas->session) != NULL)
    dry_session_select_stud (canvas->session, DRY_CANVAS_OBJECT (widget)->id,
                             DRY_CANVAS_OBJECT (widget)->stud);
  dry_canvas_reveal (canvas, DRY_CANVAS_OBJECT (widget)->id);
  canvas->focusing = FALSE;
  dry_canvas_redraw (canvas);
}

static void
dry_canvas_object_init (DryCanvasObject *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  self->selected = -1;
}

/* No piece is one too: that of the wall itself. */
static gboolean
is_selected_piece (DryCanvas *self, const DryPieceRef *piece)
{
  const DryPieceRef *selected = dry_session_get_selected_piece (self->session);

  return selected != NULL ? dry_piece_meant_same (self->plan, selected, piece)
                          : piece->kind == DRY_PIECE_NONE;
}

/* Only what is new: a thousand objects told at every step of the keyboard are a thousand messages.
 */
static void
tell_selected (DryCanvasObject *object, gboolean selected)
{
  if (object->selected == selected)
    return;
  object->selected = selected;
  gtk_accessible_update_state (GTK_ACCESSIBLE (object), GTK_ACCESSIBLE_STATE_SELECTED, selected,
                               -1);
}

static void
describe_object (DryCanvas *self, DryCanvasObject *object)
{
  gboolean of_boards = object->piece.kind != DRY_PIECE_NONE;
  char *label = of_boards           ? dry_piece_name (self->session, &object->piece)
                : object->stud >= 0 ? dry_stud_name (self->session, object->id, object->stud)
                                    : dry_object_name (self->session, object->id);
  char *place = of_boards           ? dry_piece_place (self->session, &object->piece)
                : object->stud >= 0 ? dry_stud_place (self->session, object->id, object->stud)
                                    : dry_object_place (self->session, object->id);
  DryPoint at;
  g_autofree char *size = object->id == self->hand.object ? dry_hand_size_text (self, &at) : NULL;

  if (size != NULL) { /* while a grip is pulled, what it has come to */
    char *longer = g_strdup_printf ("%s, %s", place, size);

    g_free (place);
    place = longer;
  }

  if (g_strcmp0 (label, object->label) != 0 || g_strcmp0 (place, object->place) != 0)
    gtk_accessible_update_property (GTK_ACCESSIBLE (object), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                    GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, place, -1);
  g_free (object->label);
  g_free (object->place);
  object->label = label;
  object->place = place;
  tell_selected (object, object->id == dry_session_get_selection (self->session) &&
                             object->stud == dry_session_get_selected_stud (self->session) &&
                             is_selected_piece (self, &object->piece));
}

static DryCanvasObject *
find_object (DryCanvas *self, DryId id, gint stud, const DryPieceRef *piece)
{
  for (guint i = 0; i < self->objects->len; i++) {
    DryCanvasObject *object = g_ptr_array_index (self->objects, i);

    if (object->id == id && object->stud == stud &&
        (piece != NULL ? dry_piece_meant_same (self->plan, piece, &object->piece)
                       : object->piece.kind == DRY_PIECE_NONE))
      return object;
  }
  return NULL;
}

void
dry_canvas_describe_hand (DryCanvas *self)
{
  DryCanvasObject *object = find_object (self, self->hand.object, self->hand.stud, NULL);

  if (object != NULL)
    describe_object (self, object);
}

typedef struct {
  DryId id;
  DryLength u;
} OnWall;

static gint
compare_on_wall (gconstpointer a, gconstpointer b)
{
  const OnWall *left = a, *right = b;

  return left->u < right->u ? -1 : left->u > right->u ? 1 : 0;
}

typedef struct {
  DryId id;
  gint stud;
  DryPieceRef piece;
} Listed;

static void
list_object (GArray *list, DryId id, gint stud)
{
  Listed listed = {id, stud, {0}};

  g_array_append_val (list, listed);
}

/* Boards and seams of the selected wall only: all of them would drown the rest. */
static void
list_pieces (DryCanvas *self, GArray *list, DryId wall)
{
  g_autoptr (GArray) pieces = NULL;

  if (wall != dry_session_get_selection (self->session) ||
      (dry_session_get_layers (self->session) & 1u << DRY_LAYER_BOARDS) == 0)
    return;
  pieces = dry_pieces_list (self->plan, wall);
  for (guint i = 0; i < pieces->len; i++) {
    Listed listed = {wall, -1, g_array_index (pieces, DryPieceRef, i)};

    g_array_append_val (list, listed);
  }
}

/* Basin, then wall by wall what hangs on it from left to right: the order of the Tab key. */
static GArray *
list_objects (DryCanvas *self, const DryRoom *room)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (Listed));
  const DryWall *studded = dry_canvas_stud_wall (self);
  g_autoptr (GArray) on_wall = g_array_new (FALSE, FALSE, sizeof (OnWall));

  if (room == NULL)
    return ids;
  if (room->basin.id != 0)
    list_object (ids, room->basin.id, -1);
  for (guint w = 0; w < room->n_walls; w++) {
    list_object (ids, room->walls[w].id, -1);
    if (studded == &room->walls[w]) {
      g_autoptr (GArray) studs = dry_studs_list (studded);

      for (guint i = 0; i < studs->len; i++)
        list_object (ids, studded->id, (gint) i);
    }
    list_pieces (self, ids, room->walls[w].id);
    g_array_set_size (on_wall, 0);
    for (guint i = 0; i < room->n_openings; i++)
      if (room->openings[i].wall == room->walls[w].id)
        g_array_append_vals (on_wall, &(OnWall){room->openings[i].id, room->openings[i].u}, 1);
    for (guint i = 0; i < room->n_parts; i++)
      if (room->parts[i].wall == room->walls[w].id)
        g_array_append_vals (on_wall, &(OnWall){room->parts[i].id, room->parts[i].u}, 1);
    g_array_sort (on_wall, compare_on_wall);
    for (guint i = 0; i < on_wall->len; i++)
      list_object (ids, g_array_index (on_wall, OnWall, i).id, -1);
  }
  return ids;
}

void
dry_canvas_sync_objects (DryCanvas *self)
{
  g_autoptr (GArray) ids = list_objects (self, dry_session_get_room (self->session));
  g_autoptr (GPtrArray) old = g_steal_pointer (&self->objects);
  GtkWidget *previous = NULL;

  self->objects = g_ptr_array_new ();
  for (guint i = 0; i < ids->len; i++) {
    DryCanvasObject *object = NULL;
    Listed listed = g_array_index (ids, Listed, i);

    for (guint k = 0; k < old->len && object == NULL; k++)
      if (DRY_CANVAS_OBJECT (g_ptr_array_index (old, k))->id == listed.id &&
          DRY_CANVAS_OBJECT (g_ptr_array_index (old, k))->stud == listed.stud &&
          dry_piece_equal (&DRY_CANVAS_OBJECT (g_ptr_array_index (old, k))->piece, &listed.piece))
        object = g_ptr_array_steal_index (old, k);
    if (object == NULL) {
      object = g_object_new (DRY_TYPE_CANVAS_OBJECT, NULL);
      object->id = listed.id;
      object->stud = listed.stud;
      object->piece = listed.piece;
      g_signal_connect (object, "notify::has-focus", G_CALLBACK (on_object_focused), self);
    }
    gtk_widget_insert_after (GTK_WIDGET (object), GTK_WIDGET (self), previous);
    previous = GTK_WIDGET (object);
    g_ptr_array_add (self->objects, object);
    describe_object (self, object);
  }
  for (guint k = 0; k < old->len; k++) {
    GtkWidget *gone = g_ptr_array_index (old, k);

    if (gtk_widget_has_focus (gone))
      gtk_widget_grab_focus (GTK_WIDGET (self));
    gtk_widget_unparent (gone);
  }
}

void
dry_canvas_allocate_objects (DryCanvas *self)
{
  const DryRoom *room = dry_session_get_room (self->session);

  for (guint i = 0; i < self->objects->len; i++) {
    DryCanvasObject *object = g_ptr_array_index (self->objects, i);
    DryShape shapes[8];
    const DryWall *wall = object->stud >= 0 ? dry_canvas_stud_wall (self) : NULL;
    guint n = object->piece.kind != DRY_PIECE_NONE
                  ? dry_canvas_piece_shapes (self, &object->piece, shapes)
              : wall != NULL ? dry_canvas_stud_shapes (self, wall, object->stud, shapes)
              : room != NULL ? dry_canvas_shapes (self, room, object->id, shapes, 8)
                             : 0;
    double x0 = 0, y0 = 0, x1 = 1, y1 = 1;

    for (guint k = 0; n > 0 && k < 4; k++) {
      double x, y;

      dry_canvas_to_device (self, shapes[n - 1].points[k], &x, &y);
      x0 = k == 0 ? x : MIN (x0, x);
      y0 = k == 0 ? y : MIN (y0, y);
      x1 = k == 0 ? x : MAX (x1, x);
      y1 = k == 0 ? y : MAX (y1, y);
    }
    x0 = CLAMP (x0, -20000, 20000);
    y0 = CLAMP (y0, -20000, 20000);
    gtk_widget_allocate (
        GTK_WIDGET (object), CLAMP ((int) (x1 - x0), 1, 20000), CLAMP ((int) (y1 - y0), 1, 20000),
        -1, gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) x0, (float) y0)));
  }
}

DryId
dry_canvas_focused_object (DryCanvas *self)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (self));

  return child != NULL && DRY_IS_CANVAS_OBJECT (child) && gtk_widget_has_focus (child)
             ? DRY_CANVAS_OBJECT (child)->id
             : 0;
}

void
dry_canvas_focus_object (DryCanvas *self, DryId id)
{
  gint stud = id == dry_session_get_selection (self->session)
                  ? dry_session_get_selected_stud (self->session)
                  : -1;
  DryCanvasObject *object = find_object (self, id, stud,
                                         id == dry_session_get_selection (self->session)
                                             ? dry_session_get_selected_piece (self->session)
                                             : NULL);

  gtk_widget_grab_focus (object != NULL ? GTK_WIDGET (object) : GTK_WIDGET (self));
}

static gboolean
is_passed_by (const DryCanvasObject *object, gint stud, const DryPieceRef *piece)
{
  return (object->stud >= 0 && stud < 0) || (object->piece.kind != DRY_PIECE_NONE && piece == NULL);
}

gboolean
dry_canvas_walk (DryCanvas *self, GtkDirectionType direction)
{
  gint step = direction == GTK_DIR_TAB_FORWARD ? 1 : direction == GTK_DIR_TAB_BACKWARD ? -1 : 0;
  gint n = (gint) self->objects->len, at = -1;
  DryId focused = dry_canvas_focused_object (self);
  gint stud = dry_session_get_selected_stud (self->session);
  const DryPieceRef *piece = dry_session_get_selected_piece (self->session);
  DryCanvasObject *selected =
      find_object (self, dry_session_get_selection (self->session), stud, piece);

  if (step == 0)
    return FALSE;
  if (n == 0)
    return !gtk_widget_has_focus (GTK_WIDGET (self)) && gtk_widget_grab_focus (GTK_WIDGET (self));
  if (focused == 0 && selected != NULL && !gtk_widget_has_focus (GTK_WIDGET (self)))
    return gtk_widget_grab_focus (GTK_WIDGET (selected));
  for (gint i = 0; i < n && focused != 0; i++)
    if (g_ptr_array_index (self->objects, i) ==
        (gpointer) gtk_widget_get_focus_child (GTK_WIDGET (self)))
      at = i;
  if (at < 0)
    at = step > 0 ? 0 : n - 1;
  else
    at += step;
  /* Studs are walked one by one only from a stud on, boards and seams from one of them. */
  while (at >= 0 && at < n && is_passed_by (g_ptr_array_index (self->objects, at), stud, piece))
    at += step;
  if (at < 0 || at >= n)
    return FALSE;
  return gtk_widget_grab_focus (g_ptr_array_index (self->objects, at));
}
