/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A trade's set: the cover that states the datum and lists its points, and the pages it needs with
 * what is not its work left out of the drawings. Says the datum once, in the same words for all. */
#include "base/error.h"
#include "papers/frame.h"
#include "papers/papers-private.h"
#include "papers/trades.h"

#define LAYER(name) (1u << DRY_LAYER_##name)

typedef void (*AddPages) (DryFlow *flow);

/* For those who work on bare studs: a figure of a board or finished edge would mislead them. */
#define BARE                                                                                       \
  (LAYER (BOARDS) | LAYER (FASTENERS) | LAYER (JOINTS) | LAYER (COATING) | LAYER (TILE) |          \
   LAYER (DIMENSIONS) | LAYER (LABELS))

static const struct {
  const char *word, *name, *set, *does; /* `set`: short, for the title block */
  guint hidden;                         /* layers of the faces that are other trades' work */
  AddPages pages[6];                    /* behind the cover */
} TRADES[DRY_N_TRADES] = {
    [DRY_TRADE_FRAMER] = {"framer",
                          "Framer",
                          "Framer",
                          "Studs, blocking, headers and rough openings before anything is closed.",
                          BARE,
                          {dry_papers_add_plan, dry_papers_add_faces, dry_papers_add_niches}},
    [DRY_TRADE_PLUMBER] = {"plumber",
                           "Plumber and electrician",
                           "Rough-in",
                           "What is roughed in: valve, heads, drain, pipes and cables.",
                           BARE,
                           {dry_papers_add_plan, dry_papers_add_faces}},
    [DRY_TRADE_HANGER] = {"hanger",
                          "Board hanger",
                          "Board hanger",
                          "Boards, their cuts, holes and fasteners.",
                          LAYER (TILE) | LAYER (COATING),
                          {dry_papers_add_plan, dry_papers_add_faces, dry_papers_add_niches,
                           dry_papers_add_cut_sheets}},
    [DRY_TRADE_WATERPROOFER] = {"waterproofer",
                                "Waterproofer",
                                "Waterproofer",
                                "Seams, corners, holes and the membrane; niches in the order they "
                                "are closed.",
                                LAYER (TILE),
                                {dry_papers_add_faces, dry_papers_add_niches, dry_papers_add_water,
                                 dry_papers_add_order}},
    [DRY_TRADE_SETTER] = {"setter",
                          "Tile setter",
                          "Tile setter",
                          "Courses, cuts and what is set into them.",
                          0,
                          {dry_papers_add_plan, dry_papers_add_niches, dry_papers_add_tile_cuts}},
};

gboolean
dry_trades_from_text (const char *text, guint *out, GError **error)
{
  g_auto (GStrv) words = g_strsplit (text, ",", -1);
  guint trades = 0;

  for (guint i = 0; words[i]; i++) {
    const char *word = g_strstrip (words[i]);
    guint found = g_str_equal (word, "all")           ? DRY_TRADES_ALL
                  : g_str_equal (word, "electrician") ? 1u << DRY_TRADE_PLUMBER
                                                      : 0;

    for (guint t = 0; t < DRY_N_TRADES; t++)
      if (g_str_equal (word, TRADES[t].word))
        found |= 1u << t;
    if (!found) {
      g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
                   "“%s” is no trade; there are framer, plumber, electrician, hanger, "
                   "waterproofer, setter and all",
                   word);
      return FALSE;
    }
    trades |= found;
  }
  if (!trades) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED, "No trade is named");
    return FALSE;
  }
  *out = trades;
  return TRUE;
}

/* --- the cover --- */

static void
add_datum (DryFlow *flow)
{
  const DryBuildUp *built = &flow->plan->context.build_up;
  g_autofree char *board = dry_flow_length (flow->papers, flow->plan, built->board);
  g_autofree char *total = dry_flow_length (flow->papers, flow->plan, built->total);
  g_autofree char *layers =
      g_strdup_printf ("The board's face stands %s and the tile's face %s in front of the studs. "
                       "Where the wall at the left corner is already boarded or tiled, take that "
                       "off the figure.",
                       board, total);

  dry_flow_heading (flow, "The datum, the same for every trade", 30);
  dry_flow_text (flow, dry_type_strong, 0,
                 "Heights from the finished floor. Widths from the left inside corner of each wall "
                 "at the faces of the studs, facing the wall; where there is no corner, from the "
                 "wall's left end.");
  if (built->total > 0)
    dry_flow_text (flow, dry_type_body, 0, layers);
  dry_flow_text (flow, dry_type_body, 0,
                 "Mark one level line round the room before the first trade begins, and measure "
                 "every height from it, not from the subfloor, the tub or a course of tile "
                 "(common practice, no source).");
  dry_flow_text (flow, dry_type_body, 0,
                 "The level line stands  ______________  above the finished floor.   Marked by  "
                 "______________");
}

static char *
write_size (const DryFlow *flow, const DryTradeMark *mark)
{
  g_autofree char *w = dry_flow_length (flow->papers, flow->plan, mark->width);
  g_autofree char *h = dry_flow_length (flow->papers, flow->plan, mark->height);

  if (mark->width <= 0 && mark->height <= 0)
    return g_strdup ("");
  if (mark->round)
    return g_strdup_printf ("ø %s", w);
  if (mark->height <= 0)
    return g_strdup_printf ("%s wide", w);
  return g_strdup_printf ("%s × %s", w, h);
}

static void
add_marks (DryFlow *flow, DryTrade trade)
{
  static const DryColumn columns[] = {{"What, and where it is measured", 0.44, DRY_ALIGN_LEFT},
                                      {"From left corner", 0.16, DRY_ALIGN_RIGHT},
                                      {"Above finished floor", 0.18, DRY_ALIGN_RIGHT},
                                      {"Size", 0.22, DRY_ALIGN_RIGHT}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  g_autoptr (DryTradeMarks) marks = dry_trade_marks_new (flow->plan);
  const char *wall = NULL;

  dry_flow_heading (flow, "Heights and widths", 20);
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < marks->n; i++) {
    const DryTradeMark *mark = &marks->items[i];
    g_autofree char *u = NULL, *z = NULL, *size = NULL;

    if (!(mark->trades & 1u << trade))
      continue;
    if (g_strcmp0 (wall, mark->wall) != 0)
      dry_flow_table_group (flow, &table, mark->wall);
    wall = mark->wall;
    u = dry_flow_length (flow->papers, flow->plan, mark->u);
    z = dry_flow_length (flow->papers, flow->plan, mark->z);
    size = write_size (flow, mark);
    {
      const char *cells[] = {mark->what, u, z, size};

      dry_flow_table_row (flow, &table, cells, FALSE, NULL, 0);
    }
  }
  dry_flow_table_end (flow);
  if (!wall)
    dry_flow_text (flow, dry_type_body, 0, "Nothing of this room is measured by this trade yet.");
}

/* The drain is drawn at an end of the basin; how far in, only its maker knows. */
static void
add_drain (DryFlow *flow)
{
  static const char *const ends[] = {[DRY_END_LEFT] = "at the left end",
                                     [DRY_END_RIGHT] = "at the right end",
                                     [DRY_END_CENTRE] = "in the middle",
                                     [DRY_END_BACK] = "at the back"};
  const DryBasin *basin = &flow->plan->context.room->basin;
  const DryFace *face = dry_faces_get_wall (flow->plan->faces, basin->wall, DRY_SIDE_INSIDE);
  const char *thing = basin->kind == DRY_BASIN_TUB ? "tub" : "pan";
  DryLength along = basin->turned ? basin->width : basin->length;
  g_autofree char *u0 = dry_flow_length (flow->papers, flow->plan, basin->along);
  g_autofree char *u1 = dry_flow_length (flow->papers, flow->plan, basin->along + along);
  g_autofree char *out = dry_flow_length (flow->papers, flow->plan, basin->away);
  g_autofree char *pipe = dry_flow_length (flow->papers, flow->plan, basin->drain_diameter);
  g_autofree char *waste =
      basin->drain_diameter > 0 ? g_strdup_printf (", waste pipe ø %s", pipe) : g_strdup ("");
  g_autofree char *text = NULL;

  if (!basin->id)
    return;
  text = g_strdup_printf (
      "Drain: %s of the %s, facing the wall it stands against%s. The %s stands from %s to %s from "
      "the left corner of its wall (%s), its back %s from the studs. Take the middle of the drain "
      "within it "
      "from the maker's sheet for the very piece, and measure the piece before the floor is "
      "opened.",
      ends[basin->drain], thing, waste, thing, u0, u1, face ? face->name : "not boarded", out);
  dry_flow_heading (flow, "Drain", 20);
  dry_flow_text (flow, dry_type_body, 0, text);
}

static void
add_valve_depth (DryFlow *flow)
{
  const DryRoom *room = flow->plan->context.room;
  g_autofree char *total =
      dry_flow_length (flow->papers, flow->plan, flow->plan->context.build_up.total);

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    g_autofree char *least = dry_flow_length (flow->papers, flow->plan, part->trim_min);
    g_autofree char *most = dry_flow_length (flow->papers, flow->plan, part->trim_max);
    g_autofree char *name = dry_papers_part_name (flow->plan, part), *text = NULL;

    if (part->kind != DRY_PART_VALVE)
      continue;
    text = part->trim_max > 0
               ? g_strdup_printf ("%s: its trim takes %s to %s from the studs to the finished "
                                  "face, which stands %s in front of them.",
                                  name, least, most, total)
               : g_strdup_printf ("%s: set its body by the maker's depth marks to a finished face "
                                  "%s in front of the studs.",
                                  name, total);
    dry_flow_text (flow, dry_type_body, 0, text);
  }
}

static void
add_open_findings (DryFlow *flow)
{
  const DryFindings *findings = flow->plan->findings;
  g_autofree char *text = NULL;

  if (findings->count[DRY_SEVERITY_STOP] + findings->count[DRY_SEVERITY_FIX] == 0)
    return;
  text = g_strdup_printf ("Open in this plan: %u stop, %u fix before tiling. Ask for them before "
                          "you begin; heights may still change.",
                          findings->count[DRY_SEVERITY_STOP], findings->count[DRY_SEVERITY_FIX]);
  dry_flow_text (flow, dry_type_strong, 0, text);
}

static void
add_cover (DryFlow *flow, DryTrade trade)
{
  dry_flow_begin (flow, "Heights from one datum");
  dry_flow_text (flow, dry_type_heading, 0, TRADES[trade].name);
  dry_flow_text (flow, dry_type_body, 0, TRADES[trade].does);
  add_open_findings (flow);
  add_datum (flow);
  add_marks (flow, trade);
  if (TRADES[trade].hidden & LAYER (DIMENSIONS))
    dry_flow_text (flow, dry_type_small, 0,
                   "The drawings of the walls show bare studs and carry no figures: measure by "
                   "this table.");
  if (trade == DRY_TRADE_PLUMBER) {
    add_drain (flow);
    add_valve_depth (flow);
  }
  dry_papers_add_cautions (flow);
}

static void
add_set (DryPapers *papers, const DryPlan *plan, DryTrade trade)
{
  DryFlow flow;

  dry_flow_init (&flow, papers, plan);
  flow.set = TRADES[trade].set;
  add_cover (&flow, trade);
  for (guint i = 0; i < G_N_ELEMENTS (TRADES[trade].pages) && TRADES[trade].pages[i]; i++) {
    AddPages add_pages = TRADES[trade].pages[i];

    flow.hidden = add_pages == dry_papers_add_faces ? TRADES[trade].hidden : 0;
    add_pages (&flow);
  }
  dry_flow_clear (&flow);
}

DryPapers *
dry_papers_new_trades (const DryPlan *const *plans, guint n_plans, guint trades,
                       const DryPaperOptions *options, GError **error)
{
  DryPapers *papers;

  if (n_plans == 0 || !(trades & DRY_TRADES_ALL)) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_UNSUPPORTED,
                 n_plans == 0 ? "There is no room to write sheets of" : "No trade is named");
    return NULL;
  }
  papers = dry_papers_new_empty (plans, n_plans, options);
  for (guint t = 0; t < DRY_N_TRADES; t++)
    for (guint i = 0; trades & 1u << t && i < n_plans; i++)
      add_set (papers, plans[i], t);
  dry_frame_close (papers);
  return papers;
}
