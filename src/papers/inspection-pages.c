/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet for whoever inspects: what applies with what is asked and what is planned side by side,
 * the holds with room to write the test down, and what is to be photographed. Permits nothing. */
#include "papers/papers-private.h"
#include "plan/rule-checks.h"

/* --- what applies --- */

static void
add_basis (DryFlow *flow)
{
  const DryPlanContext *context = &flow->plan->context;
  const DryRulePack *pack = context->rules;
  g_autofree char *rules = g_strdup_printf ("%s, %s", pack->name, pack->edition);

  dry_flow_text (flow, dry_type_strong, 0, rules);
  for (guint i = 0; i < pack->n_choices; i++) {
    const DryRuleChoice *choice = &pack->choices[i];
    const DryRuleOption *option =
        &choice->options[dry_rule_choice_get_picked (choice, context->job->choices)];
    g_autofree char *source = dry_papers_source (&option->source);
    g_autofree char *line = g_strdup_printf ("%s: %s (%s)", choice->title, option->title,
                                             source ? source : "no source");
    dry_flow_text (flow, dry_type_body, 0, line);
  }
  dry_flow_text (flow, dry_type_small, 0,
                 "Held against the figures of this pack and of the backer system. Local code, the "
                 "makers' instructions and licensed practice decide; a sheet like this is a "
                 "reminder, not permission.");
}

static char *
write_topic (const char *topic)
{
  char *text = g_strdup (topic ? topic : "other");

  text[0] = g_ascii_toupper (text[0]);
  return text;
}

static void
add_check (DryFlow *flow, const DryTable *table, const DryCheck *check)
{
  g_autofree char *source = dry_papers_source (&check->rule->source);
  g_autofree char *what = g_strdup_printf ("%s: %s", check->where, check->measure);
  g_autofree char *broken =
      check->n_broken ? g_strdup_printf ("%s. Asked by: %s", check->rule->title, check->answered_by)
                      : NULL;
  const char *cells[] = {
      what, check->required, check->planned, check->n_broken ? "✕" : "✓", source ? source : "",
      "☐"};

  dry_flow_table_row (flow, table, cells, check->n_broken > 0, broken, 0);
}

static void
add_checks (DryFlow *flow)
{
  static const DryColumn columns[] = {{"What is held to it", 0.32, DRY_ALIGN_LEFT},
                                      {"Required", 0.17, DRY_ALIGN_LEFT},
                                      {"Planned", 0.15, DRY_ALIGN_LEFT},
                                      {"", 0.04, DRY_ALIGN_CENTRE},
                                      {"Citation", 0.25, DRY_ALIGN_LEFT},
                                      {"Seen", 0.07, DRY_ALIGN_CENTRE}};
  const DryTable table = {columns, G_N_ELEMENTS (columns)};
  g_autoptr (DryChecks) checks = dry_checks_new (flow->plan);
  const char *topic = NULL;

  dry_flow_heading (flow, "What applies", 20);
  dry_flow_table_head (flow, &table);
  for (guint i = 0; i < checks->n; i++) {
    const DryCheck *check = &checks->items[i];

    if (!dry_check_is_official (flow->plan, check))
      continue;
    if (g_strcmp0 (topic, check->rule->topic) != 0) {
      g_autofree char *name = write_topic (check->rule->topic);
      dry_flow_table_group (flow, &table, name);
    }
    topic = check->rule->topic;
    add_check (flow, &table, check);
  }
  dry_flow_table_end (flow);
}

/* --- holds --- */

/* Labels with a line to write on behind each, `n` in a row. */
static void
add_blanks (DryFlow *flow, const char *const *labels, guint n)
{
  double each = flow->width / n, label_width = 21;

  dry_flow_need (flow, 9);
  dry_flow_skip (flow, 4);
  for (guint i = 0; i < n; i++) {
    double x = flow->left + i * each;

    dry_page_add_text (flow->page, x, flow->y, label_width, dry_type_small, labels[i]);
    dry_page_add_line (flow->page, DRY_INK_LINE, DRY_PEN_018, x + label_width, flow->y + 3.4,
                       each - label_width - 4, 0);
  }
  dry_flow_skip (flow, 5);
}

static void
add_flood_record (DryFlow *flow)
{
  const DryPlanContext *context = &flow->plan->context;
  const DryRuleChoice *choice = dry_rule_pack_get_choice (context->rules, "flood-test");
  const DryRuleOption *option =
      choice ? &choice->options[dry_rule_choice_get_picked (choice, context->job->choices)] : NULL;
  g_autofree char *asked =
      option ? g_strdup_printf ("It stands: %s (%s).", option->title, option->source.text)
             : g_strdup ("How long it stands is for the local code: 15 minutes by the model codes "
                         "(IPC 312.9), a day by custom (common practice, no source).");

  dry_flow_text (flow, dry_type_body, 0, asked);
  add_blanks (flow, (const char *const[]){"Depth at start", "Depth at end", "Asked, hours"}, 3);
  add_blanks (flow, (const char *const[]){"Start, date", "Start, time"}, 2);
  add_blanks (flow, (const char *const[]){"End, date", "End, time"}, 2);
}

static void
add_hold (DryFlow *flow, const DryStep *step)
{
  static const struct {
    const char *id, *name;
  } NAMES[] = {{"rough-inspection", "Before the walls are covered"},
               {"flood-test", "Flood test"},
               {"inspection", "Waterproofing, before tile"}};
  const char *name = step->id;

  for (guint i = 0; i < G_N_ELEMENTS (NAMES); i++)
    if (g_str_equal (NAMES[i].id, step->id))
      name = NAMES[i].name;
  dry_flow_need (flow, g_str_equal (step->id, "flood-test") ? 62 : 34);
  dry_flow_skip (flow, 2);
  dry_flow_text (flow, dry_type_strong, 0, name);
  dry_flow_text (flow, dry_type_body, 0, step->text);
  if (g_str_equal (step->id, "flood-test"))
    add_flood_record (flow);
  dry_flow_text (flow, dry_type_body, 0, "☐ passed      ☐ to be mended, and seen again");
  add_blanks (flow, (const char *const[]){"Date", "Name", "Signature"}, 3);
}

static void
add_holds (DryFlow *flow)
{
  const DryOrder *order = flow->plan->order;

  dry_flow_heading (flow, "Holds: nothing goes on before these are passed", 40);
  for (guint i = 0; i < order->n; i++)
    if (order->items[i].hold)
      add_hold (flow, &order->items[i]);
}

/* --- photographs --- */

static void
add_photo (DryFlow *flow, const char *format, const char *name)
{
  g_auto (GStrv) parts = g_strsplit (format, "%s", 2);
  g_autofree char *line =
      g_strconcat ("☐ ", parts[0], parts[1] ? name : "", parts[1] ? parts[1] : "", NULL);

  dry_flow_text (flow, dry_type_body, 0, line);
}

static void
add_photos_of_walls (DryFlow *flow, const char *format)
{
  const DryFaces *faces = flow->plan->faces;

  for (guint i = 0; i < faces->n; i++)
    if (faces->items[i].kind == DRY_FACE_WALL)
      add_photo (flow, format, faces->items[i].name);
}

static void
add_photos_of_parts (DryFlow *flow)
{
  const DryRoom *room = flow->plan->context.room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    g_autofree char *name = dry_papers_part_name (flow->plan, part);

    if (part->kind == DRY_PART_NICHE)
      add_photo (flow, "%s: floor, corners and flange, waterproofed", name);
    else if (part->kind == DRY_PART_BENCH && !part->fold_down)
      add_photo (flow, "%s: top and front edge, waterproofed", name);
    else if (part->kind == DRY_PART_VALVE)
      add_photo (flow, "%s: its hole sealed, and how far it stands from the studs", name);
  }
}

/* Which pictures settle a dispute later: common practice, no source. */
static void
add_photos (DryFlow *flow)
{
  const DryPlanContext *context = &flow->plan->context;
  gboolean pan = context->room->basin.id && context->room->basin.kind == DRY_BASIN_PAN;
  guint lines = 2 * flow->plan->faces->n + context->room->n_parts + 7;

  dry_flow_need (flow, MIN (lines * 4.3 + 20, 200)); /* one list, on one page */
  dry_flow_heading (flow, "Photographs, each with a rule in the picture", 20);
  dry_flow_text (flow, dry_type_small, 0,
                 "Common practice, no source: what is asked for locally comes first.");
  dry_flow_text (flow, dry_type_strong, 0, "Before the walls are covered");
  add_photos_of_walls (flow, "%s: studs, blocking, pipes and cables, from floor to ceiling");
  dry_flow_text (flow, dry_type_strong, 0, "Before tile");
  add_photos_of_walls (flow, "%s: seams, corners and heads covered");
  add_photos_of_parts (flow);
  if (context->room->basin.id)
    add_photo (flow,
               pan ? "Curb ends, both corners at the threshold, and the drain's flange"
                   : "The joint at the tub, both ends and the legs below its rim",
               NULL);
  if (context->system->membrane_product)
    add_photo (flow,
               "Labels of membrane and bands with their listing (ANSI A118.10), and the "
               "empty pails",
               NULL);
  if (pan) {
    add_photo (flow, "Flood test at its start: level marked, clock in the picture", NULL);
    add_photo (flow, "Flood test at its end: same mark, and the ceiling or ground below", NULL);
  }
}

void
dry_papers_add_inspection (DryFlow *flow)
{
  if (flow->plan->order->n == 0)
    return;
  dry_flow_begin (flow, "For the inspector");
  add_basis (flow);
  add_checks (flow);
  add_holds (flow);
  add_photos (flow);
}
