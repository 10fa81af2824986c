/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for the ledger from the newest plan. Texts of rules and workings come as they are in
 * catalogue and plan; everything else is translatable. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger-pages.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "plan/cutting-standing.h"

#define FT2_PER_M2 10.763910417

/* Texts that live as long as the entries being built. */
typedef struct {
  GArray *entries;
  GPtrArray *texts;
} Builder;

static Builder
begin_entries (void)
{
  return (Builder){g_array_new (FALSE, TRUE, sizeof (DryLedgerEntry)),
                   g_ptr_array_new_with_free_func (g_free)};
}

static void
end_entries (Builder *builder, DryLedgerList *list)
{
  dry_ledger_list_set_entries (list, (const DryLedgerEntry *) builder->entries->data,
                               builder->entries->len);
  g_array_unref (builder->entries);
  g_ptr_array_unref (builder->texts);
}

static const char *
keep (Builder *builder, char *text)
{
  g_ptr_array_add (builder->texts, text);
  return text;
}

/* A NULL-ended list of pairs from a growing array of texts. */
static const char *const *
keep_list (Builder *builder, GPtrArray *list)
{
  g_ptr_array_add (list, NULL);
  return (const char *const *) keep (builder, (char *) g_ptr_array_free (list, FALSE));
}

static void
add_pair (GPtrArray *list, const char *heading, const char *text)
{
  if (!text || !*text)
    return;
  g_ptr_array_add (list, (gpointer) heading);
  g_ptr_array_add (list, (gpointer) text);
}

/* --- numbers for people --- */

char *
dry_text_hours (double hours)
{
  int whole = (int) lround (hours);

  if (hours <= 0)
    return g_strdup (_ ("at once"));
  if (hours < 1)
    return g_strdup_printf (_ ("%d min"), (int) lround (hours * 60));
  if (whole < 24)
    return g_strdup_printf (_ ("%d h"), whole);
  if (whole % 24 == 0)
    return g_strdup_printf (ngettext ("%d day", "%d days", (gulong) whole / 24), whole / 24);
  return g_strdup_printf (_ ("%d d %d h"), whole / 24, whole % 24);
}

char *
dry_text_money (gint64 minor)
{
  return g_strdup_printf ("%'.2f", (double) minor / 100.0);
}

char *
dry_text_bind_units (const char *text)
{
  GString *bound = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at++)
    if (*at == ' ' && at > text && g_ascii_isdigit (at[-1]) && !g_ascii_isdigit (at[1]) &&
        !g_ascii_ispunct (at[1]))
      g_string_append (bound, "\u00a0");
    else
      g_string_append_c (bound, *at);
  return g_string_free (bound, FALSE);
}

static char *
text_area (DrySession *session, double m2)
{
  gboolean metric = dry_project_get_job (dry_session_get_project (session))->metric;

  return metric ? g_strdup_printf (_ ("%.1f m²"), m2)
                : g_strdup_printf (_ ("%.0f ft²"), m2 * FT2_PER_M2);
}

/* --- totals --- */

static char *
text_sheets (const DryPlan *plan)
{
  const DryCutting *cutting = plan->boards->cutting;
  DryStanding standing = dry_boards_get_standing (plan->boards);
  guint n = cutting ? cutting->n_sheets : 0;
  g_autofree char *sheets = NULL;

  if (n == 0)
    return g_strdup (_ ("no sheets"));
  sheets = g_strdup_printf (ngettext ("%u sheet", "%u sheets", n), n);
  switch (standing.kind) {
  case DRY_STANDING_FEWEST:
    return g_strdup_printf (_ ("%s, fewest possible"), sheets);
  case DRY_STANDING_BOARDS:
    return g_strdup_printf (_ ("%s, fewest for these boards"), sheets);
  case DRY_STANDING_OPEN:
    return g_strdup_printf (_ ("%s, at most %u from the fewest"), sheets, standing.over);
  case DRY_STANDING_SHORT:
  case DRY_STANDING_NONE:
    break;
  }
  return g_steal_pointer (&sheets);
}

static char *
text_time (const DryPlan *plan)
{
  g_autofree char *low = dry_text_hours (plan->order->hours_to_tile_min);
  g_autofree char *high = dry_text_hours (plan->order->hours_to_tile_max);

  if (g_str_equal (low, high))
    return g_strdup_printf (_ ("%s to tiling"), low);
  return g_strdup_printf (_ ("%s to %s to tiling"), low, high);
}

static char *
text_cost (const DryPlan *plan)
{
  g_autofree char *money = dry_text_money (plan->takeoff->cost);

  if (plan->takeoff->n_unpriced == 0)
    return g_strdup_printf (_ ("%s in sample prices"), money);
  return g_strdup_printf (_ ("%s in sample prices, %u unpriced"), money, plan->takeoff->n_unpriced);
}

static char *
text_findings (const DryPlan *plan)
{
  const DryFindings *findings = plan->findings;

  if (findings->n == 0)
    return g_strdup (_ ("no findings"));
  return g_strdup_printf (_ ("%u to stop for, %u to fix, %u advice"), findings->count[0],
                          findings->count[1], findings->count[2]);
}

char *
dry_total_text (DrySession *session, DryTotal total)
{
  const DryPlan *plan = dry_session_get_plan (session);

  if (!plan)
    return g_strdup ("…");
  switch (total) {
  case DRY_TOTAL_AREA: {
    g_autofree char *area = text_area (session, plan->coating->wet_area);
    return g_strdup_printf (_ ("%s wet wall"), area);
  }
  case DRY_TOTAL_SHEETS:
    return text_sheets (plan);
  case DRY_TOTAL_TIME:
    return text_time (plan);
  case DRY_TOTAL_COST:
    return text_cost (plan);
  case DRY_TOTAL_FINDINGS:
  default:
    return text_findings (plan);
  }
}

char *
dry_total_working (DrySession *session, DryTotal total)
{
  const DryPlan *plan = dry_session_get_plan (session);

  if (!plan)
    return g_strdup ("");
  switch (total) {
  case DRY_TOTAL_AREA: {
    g_autofree char *board = text_area (session, plan->coating->board_area);
    return g_strdup_printf (_ ("Wet wall net of openings; %s of board is hung on it and round it"),
                            board);
  }
  case DRY_TOTAL_SHEETS: {
    const DryCutting *cutting = plan->boards->cutting;
    if (!cutting || !cutting->n_sheets)
      return g_strdup (_ ("This system is laid on site, without sheets"));
    return g_strdup_printf (_ ("%u pieces on %u sheets, %.0f %% waste; these boards need %u at "
                               "least, any boards that keep the rules %u"),
                            cutting->n_pieces, cutting->n_sheets, cutting->waste * 100,
                            cutting->lower_bound, plan->boards->least_sheets);
  }
  case DRY_TOTAL_TIME:
    return g_strdup_printf (_ ("%.1f h of work by one installer, and the waits between the steps"),
                            plan->order->hours);
  case DRY_TOTAL_COST:
    return g_strdup (
        _ ("Packs rounded up; the prices are invented samples until you bring your own"));
  case DRY_TOTAL_FINDINGS:
  default: {
    const DryRulePack *pack = plan->context.rules;
    return g_strdup_printf (_ ("By the rules of %s, %s"), pack->name, pack->edition);
  }
  }
}

/* --- take-off --- */

static const char *
text_inputs (Builder *builder, const DryWorking *working)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < working->n_inputs; i++)
    g_string_append_printf (text, "%s%s = %s", i ? "; " : "", working->inputs[i].name,
                            working->inputs[i].value);
  return keep (builder, g_string_free (text, FALSE));
}

static void
add_working (Builder *builder, GPtrArray *details, const DryWorking *working)
{
  add_pair (details, _ ("Working"), working->formula);
  add_pair (details, _ ("Inputs"), text_inputs (builder, working));
  if (working->source.text && *working->source.text)
    add_pair (details, _ ("Source"),
              keep (builder, g_strdup_printf ("%s (%s)", working->source.text,
                                              dry_certainty_to_text (working->source.certainty))));
}

static const char *
name_group (const char *group)
{
  static const struct {
    const char *id, *name;
  } GROUPS[] = {
      {"sheets", N_ ("Sheets")},     {"fasteners", N_ ("Fasteners")}, {"joints", N_ ("Joints")},
      {"membrane", N_ ("Membrane")}, {"framing", N_ ("Framing")},     {"tile", N_ ("Tile")},
      {"floor", N_ ("Floor")},       {"on-hand", N_ ("On hand")},
  };

  for (guint i = 0; i < G_N_ELEMENTS (GROUPS); i++)
    if (g_strcmp0 (GROUPS[i].id, group) == 0)
      return _ (GROUPS[i].name);
  return group;
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_utf8_collate ((*(const DryTakeoffLine *const *) a)->name,
                         (*(const DryTakeoffLine *const *) b)->name);
}

/* The dearest first; what has no price comes last. */
static int
compare_costs (gconstpointer a, gconstpointer b)
{
  gint64 first = (*(const DryTakeoffLine *const *) a)->cost;
  gint64 second = (*(const DryTakeoffLine *const *) b)->cost;

  return first == second ? compare_names (a, b) : first > second ? -1 : 1;
}

static GPtrArray *
sort_lines (const DryTakeoff *takeoff, DryLedgerSort sort)
{
  GPtrArray *lines = g_ptr_array_new ();

  for (guint i = 0; i < takeoff->n; i++)
    g_ptr_array_add (lines, &takeoff->lines[i]);
  if (sort != DRY_SORT_GROUP)
    g_ptr_array_sort (lines, sort == DRY_SORT_NAME ? compare_names : compare_costs);
  return lines;
}

static void
add_line (Builder *builder, const DryTakeoffLine *line, gboolean grouped)
{
  GPtrArray *details = g_ptr_array_new ();
  g_autofree char *cost = line->price     ? dry_text_money (line->cost)
                          : line->on_hand ? g_strdup (_ ("on hand"))
                                          : g_strdup (_ ("no price"));
  DryLedgerEntry entry = {
      .key = keep (builder, g_strdup_printf ("%s/%s", line->group, line->id)),
      .heading = grouped ? name_group (line->group) : NULL,
      .title = line->name,
      .subtitle =
          keep (builder, g_strdup_printf ("%" G_GINT64_FORMAT " × %s · %.2f %s", line->packs,
                                          line->pack_name ? line->pack_name : _ ("one"),
                                          line->amount, line->unit)),
      .value = keep (builder, g_steal_pointer (&cost)),
  };

  add_working (builder, details, &line->working);
  entry.details = keep_list (builder, details);
  g_array_append_val (builder->entries, entry);
}

void
dry_ledger_fill_takeoff (DrySession *session, DryLedgerSort sort, DryLedgerList *list)
{
  const DryPlan *plan = dry_session_get_plan (session);
  g_autoptr (GPtrArray) lines = plan ? sort_lines (plan->takeoff, sort) : g_ptr_array_new ();
  Builder builder = begin_entries ();

  for (guint i = 0; i < lines->len; i++)
    add_line (&builder, lines->pdata[i], sort == DRY_SORT_GROUP);
  end_entries (&builder, list);
}

char *
dry_ledger_takeoff_key (DrySession *session, DryLedgerSort sort, guint index)
{
  const DryPlan *plan = dry_session_get_plan (session);
  g_autoptr (GPtrArray) lines = plan ? sort_lines (plan->takeoff, sort) : g_ptr_array_new ();
  const DryTakeoffLine *line = index < lines->len ? lines->pdata[index] : NULL;

  return line ? g_strdup_printf ("%s/%s", line->group, line->id) : NULL;
}

/* A text as one cell: no tab or line end splits it, no first character makes it a formula. */
static void
add_cell (GString *out, const char *text)
{
  if (text && *text && strchr ("=+-@", *text))
    g_string_append_c (out, '\'');
  for (const char *at = text ? text : ""; *at; at++)
    g_string_append_c (out, (guchar) *at < ' ' ? ' ' : *at);
}

char *
dry_ledger_copy_takeoff (DrySession *session, DryLedgerSort sort)
{
  const DryPlan *plan = dry_session_get_plan (session);
  g_autoptr (GPtrArray) lines = plan ? sort_lines (plan->takeoff, sort) : g_ptr_array_new ();
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", _ ("Group"), _ ("Item"),
                          _ ("Amount"), _ ("Unit"), _ ("Packs"), _ ("Pack"), _ ("Sample cost"));
  for (guint i = 0; i < lines->len; i++) {
    const DryTakeoffLine *line = lines->pdata[i];

    add_cell (out, name_group (line->group));
    g_string_append_c (out, '\t');
    add_cell (out, line->name);
    g_string_append_printf (out, "\t%.2f\t", line->amount);
    add_cell (out, line->unit);
    g_string_append_printf (out, "\t%" G_GINT64_FORMAT "\t", line->packs);
    add_cell (out, line->pack_name ? line->pack_name : _ ("one"));
    if (line->price)
      g_string_append_printf (out, "\t%.2f\n", (double) line->cost / 100.0);
    else
      g_string_append (out, "\t\n");
  }
  return g_string_free (out, FALSE);
}

/* --- order of work --- */

static void
add_step (Builder *builder, const DryStep *step, guint index)
{
  GPtrArray *details = g_ptr_array_new ();
  g_autofree char *low = dry_text_hours (step->wait_min);
  g_autofree char *high = dry_text_hours (step->wait_max);
  DryLedgerEntry entry = {
      .key = keep (builder, g_strdup_printf ("%s/%u", step->id, index)),
      .title = keep (builder, g_strdup_printf ("%u. %s", index + 1, step->text)),
  };

  if (step->hold)
    entry.subtitle = _ ("Hold: nothing goes on before this passes");
  else if (step->wait_max > 0)
    entry.subtitle = keep (builder, g_str_equal (low, high)
                                        ? g_strdup_printf (_ ("then wait %s"), low)
                                        : g_strdup_printf (_ ("then wait %s to %s"), low, high));
  if (step->hours > 0)
    entry.value = keep (builder, g_strdup_printf (_ ("%.1f h"), step->hours));
  add_working (builder, details, &step->working);
  entry.details = keep_list (builder, details);
  g_array_append_val (builder->entries, entry);
}

void
dry_ledger_fill_order (DrySession *session, DryLedgerList *list)
{
  const DryPlan *plan = dry_session_get_plan (session);
  Builder builder = begin_entries ();

  for (guint i = 0; plan && i < plan->order->n; i++)
    add_step (&builder, &plan->order->items[i], i);
  end_entries (&builder, list);
}
