/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings by severity with their remedies, and the cautions that fit this house and system.
 * Sources are named; the papers never give permission. */
#include "papers/papers-private.h"

/* The severity's sign in front of a line, the same as on the drawings. */
static void
add_sign (DryFlow *flow, DrySeverity severity)
{
  static const DryMark marks[] = {DRY_MARK_STOP, DRY_MARK_FIX, DRY_MARK_ADVICE};
  static const DryInk inks[] = {DRY_INK_STOP, DRY_INK_FIX, DRY_INK_ADVICE};
  DryArena *arena = dry_arena_new ();
  DryScene *scene = dry_arena_alloc (arena, sizeof (DryScene));
  DryPoint at = {5 * DRY_MM / 2, 2 * DRY_MM};
  guint i = MIN ((guint) severity, 2);

  scene->arena = arena;
  scene->n = 1;
  scene->bounds = (DryRect){0, 0, 5 * DRY_MM, 4 * DRY_MM};
  scene->items = dry_arena_alloc (arena, sizeof (DryPrimitive));
  scene->items[0] = (DryPrimitive){.kind = DRY_PRIMITIVE_MARK,
                                   .layer = DRY_LAYER_FINDINGS,
                                   .index = -1,
                                   .view = -1,
                                   .stroke = inks[i],
                                   .mark = marks[i],
                                   .points = dry_arena_copy (arena, &at, sizeof at),
                                   .n_points = 1};
  dry_page_add_scene (flow->page, scene, flow->left, flow->y, 1);
  dry_scene_unref (scene);
}

static void
add_finding (DryFlow *flow, const DryFinding *finding)
{
  const DryRule *rule = finding->rule;
  GString *more = g_string_new (NULL);
  g_autofree char *source = dry_papers_source (&rule->source);
  double indent = 7, width = flow->width - indent;
  g_autofree char *head = finding->where && *finding->where
                              ? g_strdup_printf ("%s: %s", finding->where, finding->message)
                              : g_strdup (finding->message);

  if (rule->why && *rule->why)
    g_string_append_printf (more, "%s", rule->why);
  if (more->len && !g_str_has_suffix (more->str, "."))
    g_string_append_c (more, '.');
  for (guint i = 0; i < rule->n_remedies; i++) {
    const char *text = rule->remedies[i].text;
    g_string_append_printf (
        more, "%s%s%s",
        i == 0 ? (more->len ? " Remedy: " : "Remedy: ") : "; or: ", text ? text : "", "");
  }
  if (source)
    g_string_append_printf (more, "\nSource: %s", source);
  if (finding->answered_by && *finding->answered_by)
    g_string_append_printf (more, ". Asked by: %s", finding->answered_by);
  dry_flow_need (flow, dry_page_measure (dry_type_strong, head, width) +
                           dry_page_measure (dry_type_small, more->str, width) + 3);
  add_sign (flow, finding->severity);
  dry_flow_text (flow, dry_type_strong, indent, head);
  if (more->len)
    dry_flow_text (flow, dry_type_small, indent, more->str);
  dry_flow_skip (flow, 1.2);
  g_string_free (more, TRUE);
}

void
dry_papers_add_findings (DryFlow *flow)
{
  static const char *const headings[] = {"Stop: must not be built so", "Fix before tiling",
                                         "Advice"};
  const DryFindings *findings = flow->plan->findings;

  if (findings->n == 0) {
    dry_flow_heading (flow, "Findings", 8);
    dry_flow_text (flow, dry_type_body, 0,
                   "The rules named above find nothing in this plan. They do not know what they "
                   "were not told, and an inspector may.");
    return;
  }
  for (guint severity = 0; severity < 3; severity++) {
    if (findings->count[severity] == 0)
      continue;
    dry_flow_heading (flow, headings[severity], 14);
    for (guint i = 0; i < findings->n; i++)
      if ((guint) findings->items[i].severity == severity)
        add_finding (flow, &findings->items[i]);
  }
}

static void
add_caution (DryFlow *flow, const char *topic, const char *text)
{
  double indent = 34;
  double height = dry_page_measure (dry_type_body, text, flow->width - indent);

  dry_flow_need (flow, height + 1.4);
  dry_page_add_text (flow->page, flow->left, flow->y, indent - 2, dry_type_strong, topic);
  dry_flow_text (flow, dry_type_body, indent, text);
  dry_flow_skip (flow, 0.8);
}

/* The heaviest pane of glass; 0 without any or with its thickness untold. */
static double
find_heaviest_pane (const DryPlan *plan)
{
  double most = 0;

  for (guint i = 0; i < plan->measures->n; i++) {
    const DrySubject *subject = &plan->measures->items[i];
    const DryMeasure *mass =
        g_str_equal (subject->kind, "glass") ? dry_subject_get (subject, "mass") : NULL;
    most = MAX (most, mass ? mass->number : 0);
  }
  return most;
}

/* The heaviest thing one pair of hands is tempted to lift: a whole sheet of the board. */
static void
add_lifting (DryFlow *flow)
{
  const DrySystem *system = flow->plan->context.system;
  g_autofree char *mass = NULL, *text = NULL, *pane = NULL, *all = NULL;
  double area = 0, glass = find_heaviest_pane (flow->plan);

  for (guint i = 0; i < system->n_sheets; i++)
    area = MAX (area, dry_length_to_mm (system->sheets[i].width) / 1000 *
                          (dry_length_to_mm (system->sheets[i].height) / 1000));
  mass = dry_papers_mass (flow, area * system->mass.value);
  text = area > 0 && system->mass.value > 0
             ? g_strdup_printf ("The largest sheet of this board weighs about %s. Two people carry "
                                "tubs, glass and whole sheets (common practice, no source).",
                                mass)
             : g_strdup ("Two people carry tubs, glass and bags of mortar up the stairs (common "
                         "practice, no source).");
  if (glass > 0)
    pane = dry_papers_mass (flow, glass);
  all = pane ? g_strdup_printf ("%s The heaviest pane of glass weighs about %s.", text, pane)
             : g_strdup (text);
  add_caution (flow, "Lifting", all);
}

void
dry_papers_add_cautions (DryFlow *flow)
{
  gint year = flow->plan->context.job->year_built;

  dry_flow_heading (flow, "Cautions", 12);
  add_caution (
      flow, "Silica dust",
      "Cement board, fiber-cement, mortar and tile give off silica dust when cut or ground: "
      "the limit is 50 µg/m³ over a shift (29 CFR 1926.1153). Score and snap, or cut wet. "
      "Power-saw fiber-cement outdoors only, with a dust collector. Vacuum with a HEPA "
      "filter; do not sweep.");
  if (year == 0 || year < 1978)
    add_caution (flow, "Lead",
                 year == 0
                     ? "The year of the house is not given. Before 1978, lead paint must be "
                       "reckoned with: taking out a tiled wall is never minor work under 40 "
                       "CFR 745. Test, or have a certified renovator do it."
                     : "A house built before 1978: taking out a tiled wall is never minor work "
                       "under 40 CFR 745. Test for lead, or have a certified renovator do it.");
  if (year == 0 || year <= 1980)
    add_caution (
        flow, "Asbestos",
        "In buildings up to 1980 insulation, surfacing and resilient flooring are presumed "
        "to hold asbestos (29 CFR 1926.1101); wallboard, joint compound and tile mastic are "
        "suspect. Have samples tested before anything is torn out.");
  add_caution (
      flow, "Electricity",
      "Switch off and test before opening a wall. Bathroom receptacles need GFCI (NEC "
      "210.8); no hanging light or paddle fan within 3 ft of the rim or threshold and 8 ft "
      "above it (NEC 410.10(D)); no switch in the wet space (NEC 404.4). Wiring is a "
      "licensed electrician's work.");
  add_caution (flow, "Scalding",
               "The mixing valve must limit the water to 120 °F (49 °C) and be listed to ASSE 1016 "
               "(UPC 408.3); the water heater's thermostat does not count. Set and measure it "
               "before anyone bathes.");
  add_caution (flow, "Safety glazing",
               "Glass by the tub or shower whose lower edge is less than 60 in above where one "
               "stands must be marked safety glass (IRC R308.4.5). Order it after tiling, to "
               "measured sizes.");
  add_caution (
      flow, "Structure",
      "A bearing or fire-rated wall, a joist or a stud cut for a niche, pipe or recess is a "
      "structural change (IRC R602.6 limits notches and bores): ask the building "
      "department, and an engineer where it bears.");
  add_lifting (flow);
}
