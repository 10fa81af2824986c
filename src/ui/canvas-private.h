/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the canvas's own files share: its fields, what is in hand, where things are on the board.
 * Nobody but canvas*.c includes this. */
#pragma once

#include "draw/painter.h"
#include "ui/canvas.h"
#include "ui/canvas-cells.h"
#include "ui/canvas-snap.h"
#include "ui/screen-style.h"

G_BEGIN_DECLS

#define HANDLE_REACH   22.0 /* half of the 44 px a handle can be hit in */
#define DRAG_THRESHOLD 5.0  /* px before a press becomes a drag */

typedef enum {
  DRY_HAND_EMPTY,
  DRY_HAND_PAN,
  DRY_HAND_PART,
  DRY_HAND_OPENING,
  DRY_HAND_BASIN,
  DRY_HAND_WALL,    /* parallel to itself */
  DRY_HAND_CORNER,  /* one end of a wall; handle: DRY_GRIP_LEFT its start, DRY_GRIP_RIGHT its end */
  DRY_HAND_SIZE,    /* an edge or corner of a part or opening */
  DRY_HAND_STUD,    /* one stud of a wall, along it */
  DRY_HAND_SEAM,    /* a seam between boards, across itself */
  DRY_HAND_OUTLINE, /* a new outline, corner by corner */
} DryHandKind;

typedef enum {
  DRY_GRIP_NONE = 0,
  DRY_GRIP_LEFT = 1,
  DRY_GRIP_RIGHT = 2,
  DRY_GRIP_BOTTOM = 4,
  DRY_GRIP_TOP = 8,
  DRY_GRIP_OUT = 16, /* on the plan: how far it stands out from its wall */
} DryGrip;

/* Where a point of the board lies. */
typedef struct {
  gint view;
  gboolean plan; /* else on a face */
  DryId wall;    /* face only */
  DrySide side;
  DryPoint local;
} DryPlace;

/* Where an object is drawn: a quadrilateral in one view, in scene coordinates. */
typedef struct {
  gint view;
  gboolean plan;
  DryPoint points[4];
} DryShape;

/* Why a seam in hand stands where it does. */
typedef enum {
  DRY_SEAM_SNAP_NONE,
  DRY_SEAM_SNAP_STUD,
  DRY_SEAM_SNAP_WHOLE, /* a whole sheet beside it */
  DRY_SEAM_SNAP_BACK,  /* where it was taken */
} DrySeamSnap;

/* What the pointer holds: an object of `base`, or the view itself. */
typedef struct {
  DryHandKind kind;
  gboolean sticky;   /* follows the pointer with no button down; a click puts it down */
  gboolean adding;   /* new: cancelling leaves nothing */
  gboolean dropping; /* held by a drag from the shelf */
  gboolean changed;
  const DryProject *base;
  DryId object;
  gint stud;        /* of the wall `object`; -1 = none */
  DryId face;       /* basin: the wall on whose face it was taken; 0 = on the plan */
  gboolean on_plan; /* stud: dragged on the plan, else on the face */
  DryPlan *before;  /* as it was when the thing was taken: what it breaks is told against this */
  guint grip;
  DryPoint grab;
  DryPoint at; /* unsnapped u,z or plan point, for the arrow keys */
  char *name;  /* of the undo step */
  char *refusal;
  double start_x, start_y; /* where the press was */
  double view_x, view_y;   /* pan: where the view was */

  gboolean on_wall; /* the fields below are worth drawing */
  DryId wall;
  DrySide side;
  DryRect rect;
  DrySnap snap;
  DryLength out;      /* while DRY_GRIP_OUT is pulled */
  const char *reason; /* for things that stand on no wall */

  DryPieceRef piece, piece_now; /* seam: as taken, and where it is held */
  DrySeamSnap seam_snap;

  GArray *corners; /* outline: DryPoint in plan coordinates */
  DryPoint next;
  GString *typed;
} DryHand;

/* What can be pulled at on the selected object. */
typedef struct {
  DryHandKind kind;
  guint grip;
  gint view;
  DryPoint at; /* scene */
} DryGripPlace;

/* What a press would take up if it became a drag. */
typedef struct {
  DryHandKind kind;
  DryId object;
  gint stud; /* -1 = none */
  DryGripPlace grip;
  DryPieceRef piece; /* DRY_HAND_SEAM */
  gboolean taken;    /* it did */
} DryPress;

typedef struct _DryCanvasAdvice DryCanvasAdvice; /* canvas-advice.c */

struct _DryCanvas {
  GtkWidget parent_instance;

  DrySession *session;
  gboolean seen; /* it was on the screen once; before, it stays empty */
  DryTransform view;
  gboolean fitted; /* nobody zoomed or panned yet: keep everything in sight */
  gint facing;     /* the view kept in sight instead of everything, or -1 */

  double pan_x, pan_y;   /* how far the view was moved since it was zoomed, in whole pixels */
  double rest_x, rest_y; /* of a slow finger: less than a pixel, still to be panned */
  DryCells *cells;       /* the painted scene */
  guint keeping;         /* timeout: it is painted to be kept when a zoom rests; 0: none */
  DryScene *scene;       /* the one shown; held */
  DryPlan *plan;         /* that goes with it; held */

  DryCanvasAdvice *advice; /* NULL until first needed */
  DryHand hand;
  DryPress press;
  double pointer_x, pointer_y;
  gboolean pointer_in;
  gboolean space; /* held: drags pan */
  DryId hover;
  guint hover_grip;
  gint hover_stud;         /* -1 = none */
  DryPieceRef hover_piece; /* of no kind: none */
  GPtrArray *objects;      /* child widgets, in the order the keyboard walks */
  gboolean focusing;
  double pinch_scale;
  GtkWidget *menu;             /* NULL until first asked for */
  GMenu *menu_sections[3];     /* edits, clipboard, view; filled when it opens */
  int menu_width, menu_height; /* of the board when it opened */

  /* The typed distance; widgets NULL until it is first needed. */
  struct {
    GtkWidget *box, *caption, *text, *reading;
    DryNeighbourSide side;
    DryId object; /* it was last open for */
    gint stud;
    graphene_rect_t area;
  } entry;
};

/* canvas.c */
void dry_canvas_set_view (DryCanvas *self, double scale, double x, double y);
void dry_canvas_zoom_at (DryCanvas *self, double factor, double x, double y);
void dry_canvas_redraw (DryCanvas *self);
void dry_canvas_fit (DryCanvas *self); /* everything, or the face turned to */
DryPoint dry_canvas_to_scene (DryCanvas *self, double x, double y);
void dry_canvas_to_device (DryCanvas *self, DryPoint at, double *x, double *y);
DryLength dry_canvas_pixels (DryCanvas *self, double pixels); /* as a length at this zoom */

/* canvas-paint.c */
void dry_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot);
void dry_canvas_paint_counted (DryCanvas *self, GtkSnapshot *snapshot); /* canvas-counted.c */

/* canvas-objects.c: where objects are, and the child widgets standing for them */
gboolean dry_canvas_locate (DryCanvas *self, double x, double y, DryPlace *place);
gint dry_canvas_find_view (DryCanvas *self, gboolean plan, DryId wall, DrySide side);
guint dry_canvas_shapes (DryCanvas *self, const DryRoom *room, DryId object, DryShape *shapes,
                         guint max);
gboolean dry_canvas_nearest_wall (const DryRoom *room, DryPoint at, gboolean outline_only,
                                  DryId *wall, DrySide *side, DryLength *u, DryLength *out);
DryId dry_canvas_pick (DryCanvas *self, double x, double y, DryHit *hit);
void dry_canvas_sync_objects (DryCanvas *self);
void dry_canvas_describe_hand (DryCanvas *self); /* says where the thing in hand is now */
void dry_canvas_allocate_objects (DryCanvas *self);
gboolean dry_canvas_walk (DryCanvas *self, GtkDirectionType direction);
DryId dry_canvas_focused_object (DryCanvas *self);

/* canvas-studs.c */
const DryWall *dry_canvas_stud_wall (DryCanvas *self); /* NULL: no studs to handle now */
guint dry_canvas_stud_shapes (DryCanvas *self, const DryWall *wall, gint index, DryShape shapes[2]);
gint dry_canvas_pick_stud (DryCanvas *self, double x, double y); /* -1 = none */
DryProject *dry_canvas_drag_stud (DryCanvas *self, double x, double y, gboolean freely,
                                  GError **error);
DryLength dry_canvas_stud_grab (DryCanvas *self, double x, double y);
void dry_canvas_paint_studs (DryCanvas *self, GtkSnapshot *snapshot, gboolean focused);

/* canvas-grips.c */
guint dry_canvas_grips (DryCanvas *self, DryGripPlace *grips, guint max);
gboolean dry_canvas_pick_grip (DryCanvas *self, double x, double y, DryGripPlace *grip);
const char *dry_canvas_grip_cursor (const DryGripPlace *grip);

/* canvas-hand.c: what is in hand */
void dry_hand_take (DryCanvas *self, DryHandKind kind, DryId object, const DryProject *base,
                    const char *name);
void dry_hand_point (DryCanvas *self, double x, double y, gboolean freely);
void dry_hand_step (DryCanvas *self, DryLength dx, DryLength dy);
void dry_hand_next_wall (DryCanvas *self, gint direction);
void dry_hand_put_down (DryCanvas *self);
void dry_hand_drop (DryCanvas *self);           /* empties it and ends the preview */
const DryRoom *dry_hand_room (DryCanvas *self); /* of the base */

/* Takes an edit's result (both consumed): shows it, or says why it is refused. */
void dry_hand_show (DryCanvas *self, DryProject *project, GError *error);
DrySnapRequest dry_hand_snap_request (DryCanvas *self, DryRect rect, gboolean freely);
/* canvas-size.c */
void dry_hand_size (DryCanvas *self, double x, double y, gboolean freely);
/* The length or lengths a held grip changes, and where they are read; NULL: none is held. Free. */
char *dry_hand_size_text (DryCanvas *self, DryPoint *at);

/* canvas-outline.c */
void dry_outline_point (DryCanvas *self, double x, double y, gboolean freely);
void dry_outline_click (DryCanvas *self);
gboolean dry_outline_key (DryCanvas *self, guint key);

/* canvas-drag.c, canvas-place.c, canvas-keys.c: controllers */
void dry_canvas_add_pointer (DryCanvas *self);
void dry_canvas_add_drop (DryCanvas *self);
void dry_canvas_add_keys (DryCanvas *self);
void dry_canvas_popup_menu (DryCanvas *self, double x, double y);
gboolean dry_canvas_has_menu_open (DryCanvas *self);
void dry_canvas_allocate_menu (DryCanvas *self, int width, int height);
void dry_canvas_dispose_menu (DryCanvas *self);
void dry_canvas_update_cursor (DryCanvas *self);

G_END_DECLS
