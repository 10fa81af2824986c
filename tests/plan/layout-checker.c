/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An independent check of cutting layouts: cuts the sheets as the list of cuts says and compares
 * what comes off with what was asked. Shares no code with the engine. */
#include "layout-checker.h"

static gboolean
same_rect (const DryRect *a, const DryRect *b)
{
  return a->x0 == b->x0 && a->y0 == b->y0 && a->x1 == b->x1 && a->y1 == b->y1;
}

/* What lies on the bench: of the sheet (-1), or of the opening of a piece. */
typedef struct {
  DryRect rect;
  gint of;
} Part;

static gint
find_part (GArray *parts, const DryRect *rect, gint of)
{
  for (guint i = 0; i < parts->len; i++) {
    const Part *part = &g_array_index (parts, Part, i);
    if (same_rect (&part->rect, rect) && part->of == of)
      return (gint) i;
  }
  return -1;
}

static void
add_part (GArray *parts, DryRect rect, gint of)
{
  Part part = {rect, of};
  if (rect.x0 < rect.x1 && rect.y0 < rect.y1)
    g_array_append_val (parts, part);
}

/* Makes the cuts of the sheet, or of one piece's openings; `parts` are what lies there afterwards.
 */
static char *
cut_parts (const DrySheetLayout *sheet, gint of, DryLength kerf, GArray *parts)
{
  for (guint i = 0; i < sheet->n_cuts; i++) {
    const DryCut *cut = &sheet->cuts[i];
    if (cut->inside != of)
      continue;
    gint at = find_part (parts, &cut->of, of);
    if (at < 0)
      return g_strdup_printf ("cut %u is of a rectangle that is not on the bench", i + 1);
    g_array_remove_index (parts, (guint) at);
    DryRect kept = cut->of, rest = cut->of;
    if (cut->vertical) {
      if (cut->at <= cut->of.x0 || cut->at >= cut->of.x1)
        return g_strdup_printf ("cut %u misses its rectangle", i + 1);
      kept.x1 = cut->at;
      rest.x0 = cut->at + kerf;
    } else {
      if (cut->at <= cut->of.y0 || cut->at >= cut->of.y1)
        return g_strdup_printf ("cut %u misses its rectangle", i + 1);
      kept.y1 = cut->at;
      rest.y0 = cut->at + kerf;
    }
    add_part (parts, kept, of);
    add_part (parts, rest, of);
  }
  return NULL;
}

/* The openings of a piece come free with it, turned with it: a quarter turn counter-clockwise. */
static void
free_openings (const DryCutting *cutting, const DryPlacement *place, GArray *parts)
{
  const DryPiece *piece = &cutting->pieces[place->piece];
  for (guint i = 0; i < piece->n_openings; i++) {
    DryRect o = piece->openings[i];
    if (place->turned)
      o = (DryRect){piece->height - o.y1, o.x0, piece->height - o.y0, o.x1};
    o.x0 += place->rect.x0;
    o.x1 += place->rect.x0;
    o.y0 += place->rect.y0;
    o.y1 += place->rect.y0;
    add_part (parts, o, (gint) place->piece);
  }
}

/* Takes the pieces from the bench, each with its openings, which are cut up at once. */
static char *
take_pieces (const DryCutting *cutting, const DrySheetLayout *sheet, DryLength kerf, GArray *parts,
             guint *seen)
{
  g_autofree gboolean *taken = g_new0 (gboolean, sheet->n_placements + 1);
  gboolean any = TRUE;
  while (any) {
    any = FALSE;
    for (guint i = 0; i < sheet->n_placements; i++) {
      const DryPlacement *place = &sheet->placements[i];
      gint at = taken[i] ? -1 : find_part (parts, &place->rect, place->inside);
      if (at < 0)
        continue;
      g_array_remove_index (parts, (guint) at);
      taken[i] = any = TRUE;
      seen[place->piece]++;
      free_openings (cutting, place, parts);
      char *problem = cut_parts (sheet, (gint) place->piece, kerf, parts);
      if (problem != NULL)
        return problem;
    }
  }
  for (guint i = 0; i < sheet->n_placements; i++)
    if (!taken[i])
      return g_strdup_printf ("the cuts do not free %s",
                              cutting->pieces[sheet->placements[i].piece].name);
  for (guint i = 0; i < sheet->n_cuts; i++) {
    gboolean whose = sheet->cuts[i].inside < 0;
    for (guint k = 0; k < sheet->n_placements && !whose; k++)
      whose = sheet->cuts[i].inside == (gint) sheet->placements[k].piece;
    if (!whose)
      return g_strdup_printf ("cut %u is of a piece that is not on this sheet", i + 1);
  }
  return NULL;
}

/* One lies in the opening of the other, or of one that does. */
static gboolean
is_within (const DrySheetLayout *sheet, const DryPlacement *inner, guint outer)
{
  for (guint steps = 0; inner != NULL && inner->inside >= 0 && steps < sheet->n_placements;
       steps++) {
    if ((guint) inner->inside == outer)
      return TRUE;
    const DryPlacement *next = NULL;
    for (guint i = 0; i < sheet->n_placements; i++)
      if (sheet->placements[i].piece == (guint) inner->inside)
        next = &sheet->placements[i];
    inner = next;
  }
  return FALSE;
}

/* Also without looking at the cuts: inside the sheet, apart by the kerf, of the right size. */
static char *
check_placements (const DryCutting *cutting, const DrySheetLayout *sheet, DryLength kerf)
{
  const DryStock *stock = &cutting->stock[sheet->stock];
  for (guint i = 0; i < sheet->n_placements; i++) {
    const DryPlacement *place = &sheet->placements[i];
    if (place->piece >= cutting->n_pieces)
      return g_strdup ("a placement of no piece");
    const DryPiece *piece = &cutting->pieces[place->piece];
    DryLength width = place->rect.x1 - place->rect.x0, height = place->rect.y1 - place->rect.y0;
    if (place->turned && !piece->may_turn)
      return g_strdup_printf ("%s is turned", piece->name);
    if (width != (place->turned ? piece->height : piece->width) ||
        height != (place->turned ? piece->width : piece->height))
      return g_strdup_printf ("%s has a wrong size", piece->name);
    if (place->rect.x0 < 0 || place->rect.y0 < 0 || place->rect.x1 > stock->width ||
        place->rect.y1 > stock->height)
      return g_strdup_printf ("%s leaves its sheet", piece->name);
    for (guint j = 0; j < i; j++) {
      const DryRect *a = &place->rect, *b = &sheet->placements[j].rect;
      gboolean apart = a->x0 >= b->x1 + kerf || b->x0 >= a->x1 + kerf || a->y0 >= b->y1 + kerf ||
                       b->y0 >= a->y1 + kerf;
      if (!apart && !is_within (sheet, place, sheet->placements[j].piece) &&
          !is_within (sheet, &sheet->placements[j], place->piece))
        return g_strdup_printf ("%s overlaps %s or the kerf between them", piece->name,
                                cutting->pieces[sheet->placements[j].piece].name);
    }
  }
  return NULL;
}

static char *
check_sheet (const DryCutting *cutting, guint index, DryLength kerf, guint *seen)
{
  const DrySheetLayout *sheet = &cutting->sheets[index];
  if (sheet->stock >= cutting->n_stock)
    return g_strdup ("a sheet of no stock");
  if (sheet->n_placements == 0)
    return g_strdup ("an empty sheet");
  char *problem = check_placements (cutting, sheet, kerf);
  if (problem != NULL)
    return problem;
  const DryStock *stock = &cutting->stock[sheet->stock];
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (Part));
  add_part (parts, (DryRect){0, 0, stock->width, stock->height}, -1);
  problem = cut_parts (sheet, -1, kerf, parts);
  if (problem == NULL)
    problem = take_pieces (cutting, sheet, kerf, parts, seen);
  if (problem != NULL)
    return problem;
  __int128 last = -1;
  for (guint i = 0; i < sheet->n_offcuts; i++) {
    const DryRect *rect = &sheet->offcuts[i];
    gint at = -1;
    for (guint k = 0; k < parts->len && at < 0; k++)
      if (same_rect (&g_array_index (parts, Part, k).rect, rect))
        at = (gint) k;
    if (at < 0)
      return g_strdup ("an offcut that does not come off");
    g_array_remove_index (parts, (guint) at);
    __int128 area = (__int128) (rect->x1 - rect->x0) * (rect->y1 - rect->y0);
    if (last >= 0 && area > last)
      return g_strdup ("offcuts are not largest first");
    last = area;
  }
  for (guint i = 0; i < parts->len; i++) {
    const DryRect *rect = &g_array_index (parts, Part, i).rect;
    if (rect->x1 - rect->x0 >= 6 * DRY_INCH && rect->y1 - rect->y0 >= 6 * DRY_INCH)
      return g_strdup ("a part worth keeping is not listed as offcut");
  }
  return NULL;
}

static char *
check_stock (const DryCutting *cutting)
{
  for (guint s = 0; s < cutting->n_stock; s++) {
    gint used = 0;
    for (guint i = 0; i < cutting->n_sheets; i++)
      used += cutting->sheets[i].stock == s;
    if (cutting->stock[s].count >= 0 && used > cutting->stock[s].count)
      return g_strdup_printf ("more sheets %s than there are", cutting->stock[s].id);
  }
  return NULL;
}

static char *
check_bill (const DryCutting *cutting)
{
  guint bought = 0;
  gint64 cost = 0;
  gboolean known = TRUE;
  for (guint i = 0; i < cutting->n_sheets; i++) {
    const DryStock *stock = &cutting->stock[cutting->sheets[i].stock];
    if (stock->on_hand)
      continue;
    bought++;
    cost += stock->price;
    known = known && stock->price > 0;
  }
  if (bought != cutting->n_bought)
    return g_strdup_printf ("%u sheets are bought, said to be %u", bought, cutting->n_bought);
  if (cutting->cost != (known ? cost : -1))
    return g_strdup ("the cost is wrong");
  return NULL;
}

char *
dry_check_cutting (const DryCutting *cutting, DryLength kerf)
{
  g_autofree guint *seen = g_new0 (guint, cutting->n_pieces + 1);
  double used = 0, bought = 0;
  for (guint i = 0; i < cutting->n_sheets; i++) {
    g_autofree char *problem = check_sheet (cutting, i, kerf, seen);
    if (problem != NULL)
      return g_strdup_printf ("sheet %u: %s", i + 1, problem);
    const DryStock *stock = &cutting->stock[cutting->sheets[i].stock];
    bought += (double) stock->width * (double) stock->height;
  }
  for (guint i = 0; i < cutting->n_pieces; i++)
    if (seen[i] > 0) {
      const DryPiece *piece = &cutting->pieces[i];
      used += (double) piece->width * (double) piece->height;
      for (guint k = 0; k < piece->n_openings; k++)
        used -= (double) (piece->openings[k].x1 - piece->openings[k].x0) *
                (double) (piece->openings[k].y1 - piece->openings[k].y0);
    }
  for (guint i = 0; i < cutting->n_unplaced; i++)
    seen[cutting->unplaced[i]]++;
  for (guint i = 0; i < cutting->n_pieces; i++)
    if (seen[i] != 1)
      return g_strdup_printf ("%s is there %u times", cutting->pieces[i].name, seen[i]);
  if (bought > 0 && ABS (cutting->waste - (1 - used / bought)) > 1e-9)
    return g_strdup ("the waste is wrong");
  if (cutting->n_unplaced == 0 && cutting->n_bought < cutting->lower_bound)
    return g_strdup ("fewer sheets than the lower bound");
  if (cutting->proven && cutting->n_bought != cutting->lower_bound)
    return g_strdup ("said to be proven, is not");
  char *problem = check_bill (cutting);
  return problem != NULL ? problem : check_stock (cutting);
}
