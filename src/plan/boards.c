/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stage 3, boards: makes each face ready, lists its good layouts, chooses among them for all faces
 * together, writes the boards out and nests them. The work is done in boards-*.c. */
#define G_LOG_DOMAIN "plan"

#include "plan/boards-private.h"

#include "base/error.h"
#include "plan/nest-layouts.h"

static gboolean
fits_system (const DryPlanContext *context, const DryOnHand *board)
{
  return (board->system == NULL || g_str_equal (board->system, context->system->id)) &&
         (board->board == 0 || board->board == context->build_up.board);
}

/* A row of boards on hand keeps its place in the room's list as its id. */
static void
list_on_hand (const DryPlanContext *context, GArray *stock)
{
  for (guint i = 0; i < context->room->n_on_hand; i++) {
    const DryOnHand *board = &context->room->on_hand[i];
    DryStock item = {.id = dry_arena_printf (context->arena, "on-hand-%u", i + 1),
                     .width = board->width,
                     .height = board->height,
                     .count = board->count,
                     .on_hand = TRUE};
    if (fits_system (context, board))
      g_array_append_val (stock, item);
  }
}

/* The sheets that may be bought: the one wished, or all of the system. Then those on hand. */
static GArray *
list_stock (const DryPlanContext *context)
{
  const DrySystem *system = context->system;
  const DrySheet *wished = NULL;
  GArray *stock = g_array_new (FALSE, FALSE, sizeof (DryStock));
  for (guint i = 0; i < system->n_sheets; i++)
    if (g_strcmp0 (system->sheets[i].id, context->room->finish.sheet) == 0)
      wished = &system->sheets[i];
  for (guint i = 0; i < system->n_sheets; i++) {
    const DrySheet *sheet = &system->sheets[i];
    if ((wished != NULL && sheet != wished) || sheet->width <= 0 || sheet->height <= 0)
      continue;
    DryStock item = {sheet->id, sheet->width, sheet->height, sheet->price, -1};
    g_array_append_val (stock, item);
  }
  if (stock->len > 0)
    list_on_hand (context, stock);
  return stock;
}

typedef struct {
  const DryPlanContext *context;
  DryArena *scratch;
  GArray *stock;
  GPtrArray *faces;   /* DryBoardFace */
  GPtrArray *layouts; /* GPtrArray of DryLayout */
  GArray *answers;    /* DryWishAnswer, one a wish of the room */
} Job;

static gboolean
prepare_faces (Job *self, const DryFaces *faces, const DryFraming *framing)
{
  for (guint i = 0; i < faces->n; i++) {
    const DryFace *face = &faces->items[i];
    if (g_cancellable_is_cancelled (self->context->cancellable))
      return FALSE;
    if (dry_region_is_empty (&face->region))
      continue;
    DryBoardFace *ready =
        dry_board_face_new (self->context, face, framing, self->scratch,
                            (const DryStock *) self->stock->data, self->stock->len);
    dry_board_find_wishes (ready, self->answers);
    g_ptr_array_add (self->faces, ready);
    g_ptr_array_add (self->layouts, dry_board_list_layouts (ready));
  }
  return TRUE;
}

static const DryCutting *
nest_boards (const Job *self, const DryBoards *boards)
{
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (DryPiece));
  for (guint i = 0; i < boards->n; i++) {
    const DryBoard *board = &boards->items[i];
    DryPiece piece = {board->mark, dry_rect_width (board->bounds), dry_rect_height (board->bounds),
                      !self->context->system->directional};
    GArray *openings = g_array_new (FALSE, FALSE, sizeof (DryRect));
    dry_cutting_list_openings (&board->shape, board->bounds, self->context->system->kerf, openings);
    piece.n_openings = openings->len;
    piece.openings = dry_arena_take_array (self->scratch, openings);
    g_array_append_val (pieces, piece);
  }
  return dry_cutting_improve (self->context->arena, (const DryStock *) self->stock->data,
                              self->stock->len, (const DryPiece *) pieces->data, pieces->len,
                              self->context->system->kerf, self->context->effort / 2, 1,
                              self->context->cancellable);
}

static const DrySheet *
find_single_sheet (const DryPlanContext *context, const DryCutting *cutting)
{
  if (cutting->n_sheets == 0)
    return NULL;
  for (guint i = 1; i < cutting->n_sheets; i++)
    if (cutting->sheets[i].stock != cutting->sheets[0].stock)
      return NULL;
  const char *id = cutting->stock[cutting->sheets[0].stock].id;
  for (guint i = 0; i < context->system->n_sheets; i++)
    if (g_strcmp0 (context->system->sheets[i].id, id) == 0)
      return &context->system->sheets[i];
  return NULL;
}

static GArray *
list_wishes (const DryRoom *room)
{
  GArray *answers = g_array_new (FALSE, FALSE, sizeof (DryWishAnswer));
  for (guint i = 0; i < room->n_seams; i++) {
    DryWishAnswer answer = {&room->seams[i], -1, DRY_WISH_OFF_BOARD};
    g_array_append_val (answers, answer);
  }
  return answers;
}

/* What could be obeyed and was not gave way to another wish. */
static void
answer_wishes (const Job *self, const GArray *seams)
{
  for (guint i = 0; i < self->answers->len; i++) {
    DryWishAnswer *answer = &g_array_index (self->answers, DryWishAnswer, i);
    gboolean found = FALSE;
    for (guint f = 0; f < self->faces->len && answer->state == DRY_WISH_OBEYED && !found; f++) {
      const DryBoardFace *face = g_ptr_array_index (self->faces, f);
      for (guint k = 0; k < seams->len && (gint) face->face->index == answer->face && !found; k++)
        found = dry_board_is_seam_of (face, &g_array_index (seams, DrySeam, k), answer->wish);
    }
    if (answer->state == DRY_WISH_OBEYED && !found)
      answer->state = DRY_WISH_TOO_NEAR;
  }
}

static gboolean
lay_out (Job *self, DryBoards *boards)
{
  guint n = self->faces->len;
  g_autofree const DryLayout **chosen = g_new0 (const DryLayout *, n + 1);
  if (!dry_board_choose ((DryBoardFace *const *) self->faces->pdata,
                         (GPtrArray *const *) self->layouts->pdata, n, self->context->system->kerf,
                         self->context->cancellable, chosen))
    return FALSE;
  boards->least_sheets = dry_nest_least_sheets ((DryBoardFace *const *) self->faces->pdata, n,
                                                self->context->system->kerf);
  dry_nest_choose_on ((DryBoardFace *const *) self->faces->pdata,
                      (GPtrArray *const *) self->layouts->pdata, n, self->context->system->kerf,
                      boards->least_sheets, self->context->effort / 2, self->context->cancellable,
                      chosen);
  DryBoardWriter writer = {
      .boards = g_array_new (FALSE, TRUE, sizeof (DryBoard)),
      .seams = g_array_new (FALSE, TRUE, sizeof (DrySeam)),
      .blocking = g_array_new (FALSE, TRUE, sizeof (DryMember)),
  };
  for (guint i = 0; i < n; i++)
    dry_board_write (&writer, g_ptr_array_index (self->faces, i), chosen[i]);
  answer_wishes (self, writer.seams);
  boards->n = writer.boards->len;
  boards->n_seams = writer.seams->len;
  boards->n_blocking = writer.blocking->len;
  boards->items = dry_arena_take_array (self->context->arena, writer.boards);
  boards->seams = dry_arena_take_array (self->context->arena, writer.seams);
  boards->blocking = dry_arena_take_array (self->context->arena, writer.blocking);
  return TRUE;
}

const DryBoards *
dry_boards_compute (const DryPlanContext *context, const DryFaces *faces, const DryFraming *framing,
                    GError **error)
{
  DryBoards *boards = dry_arena_alloc (context->arena, sizeof (DryBoards));
  g_autoptr (DryArena) scratch = dry_arena_new ();
  Job job = {
      .context = context,
      .scratch = scratch,
      .stock = list_stock (context),
      .faces = g_ptr_array_new (),
      .layouts = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref),
      .answers = list_wishes (context->room),
  };
  gboolean done = TRUE;
  if (job.stock->len > 0)
    done = prepare_faces (&job, faces, framing) && lay_out (&job, boards);
  if (done) {
    boards->cutting = nest_boards (&job, boards);
    boards->sheet = find_single_sheet (context, boards->cutting);
  }
  /* A search that was stopped half way depends on when. */
  if (context->effort > 0 && g_cancellable_is_cancelled (context->cancellable))
    done = FALSE;
  if (!done) {
    g_set_error_literal (error, DRY_ERROR, DRY_ERROR_CANCELLED, "Cancelled");
  }
  boards->n_wishes = job.answers->len;
  boards->wishes = dry_arena_take_array (context->arena, job.answers);
  g_array_unref (job.stock);
  g_ptr_array_unref (job.faces);
  g_ptr_array_unref (job.layouts);
  return done ? boards : NULL;
}
