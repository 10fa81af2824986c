/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of measures, as docs/measures.md tells them, and the look-up of what rules name.
 * A test holds the table against the page and against what the plan produces. */
#include "plan/rule-names.h"

#include <string.h>

#include "base/error.h"
#include "plan/remedy.h"

static const DryMeasureName NAMES[] = {
    {"job", "year-built", DRY_MEASURE_NUMBER},
    {"job", "temperature", DRY_MEASURE_NUMBER},
    {"job", "dry-saw", DRY_MEASURE_BOOLEAN},
    {"job", "grinding-hours", DRY_MEASURE_NUMBER},
    {"room", "ceiling", DRY_MEASURE_LENGTH},
    {"room", "ceiling-tiled", DRY_MEASURE_BOOLEAN},
    {"room", "ceiling-framing-known", DRY_MEASURE_BOOLEAN},
    {"room", "ceiling-framing", DRY_MEASURE_LENGTH},
    {"room", "system-allows-ceiling", DRY_MEASURE_BOOLEAN},
    {"room", "system-ceiling-framing", DRY_MEASURE_LENGTH},
    {"room", "has-basin", DRY_MEASURE_BOOLEAN},
    {"room", "has-shower", DRY_MEASURE_BOOLEAN},
    {"room", "has-valve", DRY_MEASURE_BOOLEAN},
    {"room", "heads", DRY_MEASURE_NUMBER},
    {"room", "flow", DRY_MEASURE_NUMBER},
    {"room", "fan", DRY_MEASURE_NUMBER},
    {"room", "steam", DRY_MEASURE_BOOLEAN},
    {"room", "ceiling-slope", DRY_MEASURE_NUMBER},
    {"room", "system-allows-steam", DRY_MEASURE_BOOLEAN},
    {"room", "damp", DRY_MEASURE_BOOLEAN},
    {"room", "toilet-side", DRY_MEASURE_LENGTH},
    {"room", "toilet-front", DRY_MEASURE_LENGTH},
    {"room", "light-above", DRY_MEASURE_LENGTH},
    {"room", "light-away", DRY_MEASURE_LENGTH},
    {"room", "outlet-away", DRY_MEASURE_LENGTH},
    {"room", "switch-inside", DRY_MEASURE_BOOLEAN},
    {"room", "hot-water", DRY_MEASURE_NUMBER},
    {"floor", "timber", DRY_MEASURE_BOOLEAN},
    {"floor", "protected", DRY_MEASURE_BOOLEAN},
    {"floor", "stone", DRY_MEASURE_BOOLEAN},
    {"floor", "i-joists", DRY_MEASURE_BOOLEAN},
    {"floor", "has-pan", DRY_MEASURE_BOOLEAN},
    {"floor", "curbless", DRY_MEASURE_BOOLEAN},
    {"floor", "point-drain", DRY_MEASURE_BOOLEAN},
    {"floor", "recess", DRY_MEASURE_LENGTH},
    {"floor", "joists-known", DRY_MEASURE_BOOLEAN},
    {"floor", "joist-depth", DRY_MEASURE_LENGTH},
    {"floor", "joist-span", DRY_MEASURE_LENGTH},
    {"floor", "span-over-deflection", DRY_MEASURE_NUMBER},
    {"floor", "tile-side", DRY_MEASURE_LENGTH},
    {"floor", "wet-friction", DRY_MEASURE_NUMBER},
    {"system", "board", DRY_MEASURE_LENGTH},
    {"system", "board-offered", DRY_MEASURE_BOOLEAN},
    {"system", "needs-membrane", DRY_MEASURE_BOOLEAN},
    {"system", "has-membrane", DRY_MEASURE_BOOLEAN},
    {"system", "liquid-membrane", DRY_MEASURE_BOOLEAN},
    {"system", "coats", DRY_MEASURE_NUMBER},
    {"system", "dry-film", DRY_MEASURE_NUMBER},
    {"system", "joint-gap", DRY_MEASURE_LENGTH},
    {"system", "must-cover-fasteners", DRY_MEASURE_BOOLEAN},
    {"system", "fasteners", DRY_MEASURE_NUMBER},
    {"system", "covers-fasteners", DRY_MEASURE_BOOLEAN},
    {"system", "allows-floor", DRY_MEASURE_BOOLEAN},
    {"system", "allows-steam", DRY_MEASURE_BOOLEAN},
    {"system", "film-share", DRY_MEASURE_NUMBER},
    {"system", "listing-missing", DRY_MEASURE_BOOLEAN},
    {"system", "mixed-makers", DRY_MEASURE_BOOLEAN},
    {"system", "plain-screws", DRY_MEASURE_BOOLEAN},
    {"system", "gap-mortar", DRY_MEASURE_BOOLEAN},
    {"system", "cut-guard", DRY_MEASURE_BOOLEAN},
    {"system", "sealant-at-basin", DRY_MEASURE_BOOLEAN},
    {"system", "band-at-basin", DRY_MEASURE_BOOLEAN},
    {"tile", "long-side", DRY_MEASURE_LENGTH},
    {"tile", "short-side", DRY_MEASURE_LENGTH},
    {"tile", "thickness", DRY_MEASURE_LENGTH},
    {"tile", "joint", DRY_MEASURE_LENGTH},
    {"tile", "mortar", DRY_MEASURE_LENGTH},
    {"tile", "offset-pattern", DRY_MEASURE_BOOLEAN},
    {"tile", "offset", DRY_MEASURE_NUMBER},
    {"tile", "mass", DRY_MEASURE_NUMBER},
    {"tile", "system-mass", DRY_MEASURE_NUMBER},
    {"tile", "system-allows-floor", DRY_MEASURE_BOOLEAN},
    {"tile", "system-allows-steam", DRY_MEASURE_BOOLEAN},
    {"tile", "area", DRY_MEASURE_NUMBER},
    {"tile", "mortar-as-asked", DRY_MEASURE_BOOLEAN},
    {"tile", "variation", DRY_MEASURE_LENGTH},
    {"tile", "trim-past-tile", DRY_MEASURE_LENGTH},
    {"tile", "coverage", DRY_MEASURE_NUMBER},
    {"tile", "saw", DRY_MEASURE_LENGTH},
    {"tile", "diagonal", DRY_MEASURE_BOOLEAN},
    {"tile", "herringbone", DRY_MEASURE_BOOLEAN},
    {"tile", "mixed-lots", DRY_MEASURE_BOOLEAN},
    {"tile", "ordered-over", DRY_MEASURE_NUMBER},
    {"tile", "ordered-short", DRY_MEASURE_NUMBER},
    {"layout", "smallest-cut", DRY_MEASURE_LENGTH},
    {"layout", "smallest-share", DRY_MEASURE_NUMBER},
    {"layout", "best-share", DRY_MEASURE_NUMBER},
    {"layout", "run", DRY_MEASURE_LENGTH},
    {"order", "is-pan", DRY_MEASURE_BOOLEAN},
    {"order", "flood-test", DRY_MEASURE_BOOLEAN},
    {"order", "hours-to-tile", DRY_MEASURE_NUMBER},
    {"order", "tile-long-side", DRY_MEASURE_LENGTH},
    {"order", "grout-after", DRY_MEASURE_NUMBER},
    {"order", "system-grout-after", DRY_MEASURE_NUMBER},
    {"order", "water-after", DRY_MEASURE_NUMBER},
    {"order", "system-water-after", DRY_MEASURE_NUMBER},
    {"water", "closed", DRY_MEASURE_BOOLEAN},
    {"water", "breaks", DRY_MEASURE_NUMBER},
    {"water", "nowhere", DRY_MEASURE_NUMBER},
    {"wall", "has-shower", DRY_MEASURE_BOOLEAN},
    {"wall", "full-height", DRY_MEASURE_BOOLEAN},
    {"wall", "wet-top", DRY_MEASURE_LENGTH},
    {"wall", "wet-top-above-drain", DRY_MEASURE_LENGTH},
    {"wall", "bearing", DRY_MEASURE_BOOLEAN},
    {"wall", "exterior", DRY_MEASURE_BOOLEAN},
    {"wall", "fire-rated", DRY_MEASURE_BOOLEAN},
    {"wall", "steel-studs", DRY_MEASURE_BOOLEAN},
    {"wall", "air-barrier", DRY_MEASURE_BOOLEAN},
    {"wall", "vapour-barrier", DRY_MEASURE_BOOLEAN},
    {"wall", "membrane-in-front", DRY_MEASURE_BOOLEAN},
    {"wall", "stud-spacing", DRY_MEASURE_LENGTH},
    {"wall", "system-stud-spacing", DRY_MEASURE_LENGTH},
    {"wall", "plane-error", DRY_MEASURE_LENGTH},
    {"wall", "corner-taper", DRY_MEASURE_LENGTH},
    {"wall", "lean", DRY_MEASURE_LENGTH},
    {"wall", "tile-side", DRY_MEASURE_LENGTH},
    {"wall", "past-basin", DRY_MEASURE_LENGTH},
    {"wall", "leg", DRY_MEASURE_BOOLEAN},
    {"wall", "step-to-lining", DRY_MEASURE_LENGTH},
    {"wall", "at-tub", DRY_MEASURE_BOOLEAN},
    {"wall", "at-pan", DRY_MEASURE_BOOLEAN},
    {"wall", "gap-above-ledge", DRY_MEASURE_LENGTH},
    {"wall", "gap-above-flange", DRY_MEASURE_LENGTH},
    {"wall", "wet-top-above-substrate", DRY_MEASURE_LENGTH},
    {"wall", "wet-top-above-rim", DRY_MEASURE_LENGTH},
    {"wall", "half-wall", DRY_MEASURE_BOOLEAN},
    {"wall", "cap-pitch", DRY_MEASURE_NUMBER},
    {"wall", "end-above-next", DRY_MEASURE_LENGTH},
    {"basin", "is-tub", DRY_MEASURE_BOOLEAN},
    {"basin", "is-pan", DRY_MEASURE_BOOLEAN},
    {"basin", "drop-in", DRY_MEASURE_BOOLEAN},
    {"basin", "outside-room", DRY_MEASURE_LENGTH},
    {"basin", "has-shower", DRY_MEASURE_BOOLEAN},
    {"basin", "length", DRY_MEASURE_LENGTH},
    {"basin", "height", DRY_MEASURE_LENGTH},
    {"basin", "opening", DRY_MEASURE_LENGTH},
    {"basin", "inside-length", DRY_MEASURE_LENGTH},
    {"basin", "inside-width", DRY_MEASURE_LENGTH},
    {"basin", "inside-circle", DRY_MEASURE_LENGTH},
    {"basin", "inside-area", DRY_MEASURE_NUMBER},
    {"basin", "curb-above-drain", DRY_MEASURE_LENGTH},
    {"basin", "curbless", DRY_MEASURE_BOOLEAN},
    {"basin", "flange", DRY_MEASURE_LENGTH},
    {"basin", "flange-proud", DRY_MEASURE_LENGTH},
    {"basin", "recess", DRY_MEASURE_LENGTH},
    {"basin", "rim-error", DRY_MEASURE_LENGTH},
    {"basin", "drain", DRY_MEASURE_LENGTH},
    {"basin", "flow", DRY_MEASURE_NUMBER},
    {"basin", "clear-before", DRY_MEASURE_LENGTH},
    {"basin", "overall-length", DRY_MEASURE_LENGTH},
    {"basin", "overall-width", DRY_MEASURE_LENGTH},
    {"basin", "side-ratio", DRY_MEASURE_NUMBER},
    {"basin", "centre-drain", DRY_MEASURE_BOOLEAN},
    {"basin", "slope", DRY_MEASURE_NUMBER},
    {"basin", "site-built", DRY_MEASURE_BOOLEAN},
    {"basin", "dam", DRY_MEASURE_BOOLEAN},
    {"basin", "glass-share", DRY_MEASURE_NUMBER},
    {"basin", "liner", DRY_MEASURE_BOOLEAN},
    {"basin", "clamping-drain", DRY_MEASURE_BOOLEAN},
    {"basin", "curb-wrapped", DRY_MEASURE_BOOLEAN},
    {"basin", "curb-pitch", DRY_MEASURE_NUMBER},
    {"basin", "turn-up", DRY_MEASURE_LENGTH},
    {"basin", "lowest-fastener", DRY_MEASURE_LENGTH},
    {"basin", "pre-slope", DRY_MEASURE_BOOLEAN},
    {"basin", "weeps-open", DRY_MEASURE_BOOLEAN},
    {"window", "bottom", DRY_MEASURE_LENGTH},
    {"window", "width", DRY_MEASURE_LENGTH},
    {"window", "in-wet-wall", DRY_MEASURE_BOOLEAN},
    {"window", "fits-wall", DRY_MEASURE_BOOLEAN},
    {"window", "safety-glass", DRY_MEASURE_BOOLEAN},
    {"window", "sloped-sill", DRY_MEASURE_BOOLEAN},
    {"window", "wooden-jamb", DRY_MEASURE_BOOLEAN},
    {"window", "above-standing", DRY_MEASURE_LENGTH},
    {"window", "from-water", DRY_MEASURE_LENGTH},
    {"door", "bottom", DRY_MEASURE_LENGTH},
    {"door", "width", DRY_MEASURE_LENGTH},
    {"door", "in-wet-wall", DRY_MEASURE_BOOLEAN},
    {"door", "fits-wall", DRY_MEASURE_BOOLEAN},
    {"niche", "bottom", DRY_MEASURE_LENGTH},
    {"niche", "width", DRY_MEASURE_LENGTH},
    {"niche", "clear-height", DRY_MEASURE_LENGTH},
    {"niche", "depth", DRY_MEASURE_LENGTH},
    {"niche", "pitch", DRY_MEASURE_NUMBER},
    {"niche", "ready-made", DRY_MEASURE_BOOLEAN},
    {"niche", "bearing-wall", DRY_MEASURE_BOOLEAN},
    {"niche", "exterior-wall", DRY_MEASURE_BOOLEAN},
    {"niche", "fire-rated-wall", DRY_MEASURE_BOOLEAN},
    {"niche", "in-board", DRY_MEASURE_BOOLEAN},
    {"niche", "body", DRY_MEASURE_LENGTH},
    {"niche", "studs-cut", DRY_MEASURE_NUMBER},
    {"niche", "bay", DRY_MEASURE_LENGTH},
    {"niche", "hidden-in-bay", DRY_MEASURE_NUMBER},
    {"niche", "cavity", DRY_MEASURE_LENGTH},
    {"niche", "cavity-needed", DRY_MEASURE_LENGTH},
    {"niche", "insulation-behind", DRY_MEASURE_LENGTH},
    {"niche", "off-joint", DRY_MEASURE_LENGTH},
    {"niche", "tolerance-set", DRY_MEASURE_BOOLEAN},
    {"niche", "joint-tolerance", DRY_MEASURE_LENGTH},
    {"niche", "overlaps", DRY_MEASURE_NUMBER},
    {"niche", "over-bench", DRY_MEASURE_BOOLEAN},
    {"niche", "above-bench", DRY_MEASURE_LENGTH},
    {"valve", "height", DRY_MEASURE_LENGTH},
    {"valve", "at-tub", DRY_MEASURE_BOOLEAN},
    {"valve", "has-shower", DRY_MEASURE_BOOLEAN},
    {"valve", "exterior-wall", DRY_MEASURE_BOOLEAN},
    {"valve", "wet-top", DRY_MEASURE_LENGTH},
    {"valve", "rim", DRY_MEASURE_LENGTH},
    {"valve", "stud-clear", DRY_MEASURE_LENGTH},
    {"valve", "wall-before-studs", DRY_MEASURE_LENGTH},
    {"valve", "trim-least", DRY_MEASURE_LENGTH},
    {"valve", "trim-most", DRY_MEASURE_LENGTH},
    {"valve", "overlaps", DRY_MEASURE_NUMBER},
    {"spout", "above-rim", DRY_MEASURE_LENGTH},
    {"spout", "height", DRY_MEASURE_LENGTH},
    {"spout", "at-tub", DRY_MEASURE_BOOLEAN},
    {"spout", "has-shower", DRY_MEASURE_BOOLEAN},
    {"spout", "exterior-wall", DRY_MEASURE_BOOLEAN},
    {"spout", "wet-top", DRY_MEASURE_LENGTH},
    {"spout", "rim", DRY_MEASURE_LENGTH},
    {"spout", "stud-clear", DRY_MEASURE_LENGTH},
    {"spout", "overlaps", DRY_MEASURE_NUMBER},
    {"shower-head", "toward-entry", DRY_MEASURE_BOOLEAN},
    {"shower-head", "flow", DRY_MEASURE_NUMBER},
    {"shower-head", "height", DRY_MEASURE_LENGTH},
    {"shower-head", "at-tub", DRY_MEASURE_BOOLEAN},
    {"shower-head", "has-shower", DRY_MEASURE_BOOLEAN},
    {"shower-head", "exterior-wall", DRY_MEASURE_BOOLEAN},
    {"shower-head", "wet-top", DRY_MEASURE_LENGTH},
    {"shower-head", "rim", DRY_MEASURE_LENGTH},
    {"shower-head", "stud-clear", DRY_MEASURE_LENGTH},
    {"shower-head", "overlaps", DRY_MEASURE_NUMBER},
    {"shower-head", "to-open-edge", DRY_MEASURE_LENGTH},
    {"hand-shower", "flow", DRY_MEASURE_NUMBER},
    {"hand-shower", "height", DRY_MEASURE_LENGTH},
    {"hand-shower", "at-tub", DRY_MEASURE_BOOLEAN},
    {"hand-shower", "has-shower", DRY_MEASURE_BOOLEAN},
    {"hand-shower", "exterior-wall", DRY_MEASURE_BOOLEAN},
    {"hand-shower", "wet-top", DRY_MEASURE_LENGTH},
    {"hand-shower", "rim", DRY_MEASURE_LENGTH},
    {"hand-shower", "stud-clear", DRY_MEASURE_LENGTH},
    {"hand-shower", "overlaps", DRY_MEASURE_NUMBER},
    {"grab-bar", "height", DRY_MEASURE_LENGTH},
    {"grab-bar", "length", DRY_MEASURE_LENGTH},
    {"grab-bar", "thickness", DRY_MEASURE_LENGTH},
    {"grab-bar", "blocked", DRY_MEASURE_BOOLEAN},
    {"grab-bar", "overlaps", DRY_MEASURE_NUMBER},
    {"bench", "height", DRY_MEASURE_LENGTH},
    {"bench", "depth", DRY_MEASURE_LENGTH},
    {"bench", "length", DRY_MEASURE_LENGTH},
    {"bench", "pitch", DRY_MEASURE_NUMBER},
    {"bench", "fold-down", DRY_MEASURE_BOOLEAN},
    {"bench", "blocked", DRY_MEASURE_BOOLEAN},
    {"bench", "shower-length", DRY_MEASURE_LENGTH},
    {"bench", "shower-width", DRY_MEASURE_LENGTH},
    {"bench", "system-allows-floor", DRY_MEASURE_BOOLEAN},
    {"glass", "safety-glass", DRY_MEASURE_BOOLEAN},
    {"glass", "hinged", DRY_MEASURE_BOOLEAN},
    {"glass", "width", DRY_MEASURE_LENGTH},
    {"glass", "thickness", DRY_MEASURE_LENGTH},
    {"glass", "mass", DRY_MEASURE_NUMBER},
    {"glass", "blocked", DRY_MEASURE_BOOLEAN},
    {"glass", "lean-in-6-ft", DRY_MEASURE_LENGTH},
    {"glass", "screwed-down", DRY_MEASURE_BOOLEAN},
    {"glass", "ordered-early", DRY_MEASURE_BOOLEAN},
    {"hidden", "pipe", DRY_MEASURE_BOOLEAN},
    {"hidden", "vent", DRY_MEASURE_BOOLEAN},
    {"hidden", "cable", DRY_MEASURE_BOOLEAN},
    {"hidden", "crosses-stud", DRY_MEASURE_BOOLEAN},
    {"hidden", "bearing-wall", DRY_MEASURE_BOOLEAN},
    {"hidden", "bore", DRY_MEASURE_NUMBER},
    {"hidden", "from-stud-face", DRY_MEASURE_LENGTH},
    {"hidden", "wood-left", DRY_MEASURE_LENGTH},
    {"board", "width", DRY_MEASURE_LENGTH},
    {"board", "height", DRY_MEASURE_LENGTH},
    {"board", "least-side", DRY_MEASURE_LENGTH},
    {"board", "system-least-side", DRY_MEASURE_LENGTH},
    {"board", "fits-sheet", DRY_MEASURE_BOOLEAN},
    {"board", "fasteners", DRY_MEASURE_NUMBER},
    {"board", "unheld-edges", DRY_MEASURE_NUMBER},
    {"board", "fastener-to-edge", DRY_MEASURE_LENGTH},
    {"board", "system-edge-distance-min", DRY_MEASURE_LENGTH},
    {"board", "edge-step", DRY_MEASURE_LENGTH},
    {"board", "system-edge-step", DRY_MEASURE_LENGTH},
    {"board", "field-step", DRY_MEASURE_LENGTH},
    {"board", "system-field-step", DRY_MEASURE_LENGTH},
    {"seam", "vertical", DRY_MEASURE_BOOLEAN},
    {"seam", "on-framing", DRY_MEASURE_BOOLEAN},
    {"seam", "bearing", DRY_MEASURE_LENGTH},
    {"seam", "edge-distance", DRY_MEASURE_LENGTH},
    {"seam", "system-edge-distance", DRY_MEASURE_LENGTH},
    {"seam", "needs-second-stud", DRY_MEASURE_BOOLEAN},
    {"seam", "crosses", DRY_MEASURE_NUMBER},
    {"seam", "to-niche-corner", DRY_MEASURE_LENGTH},
    {"seam", "to-hole", DRY_MEASURE_LENGTH},
    {"wished-seam", "vertical", DRY_MEASURE_BOOLEAN},
    {"wished-seam", "on-framing", DRY_MEASURE_BOOLEAN},
    {"wished-seam", "bearing", DRY_MEASURE_LENGTH},
    {"wished-seam", "edge-distance", DRY_MEASURE_LENGTH},
    {"wished-seam", "system-edge-distance", DRY_MEASURE_LENGTH},
    {"wished-seam", "needs-second-stud", DRY_MEASURE_BOOLEAN},
    {"wished-seam", "crosses", DRY_MEASURE_NUMBER},
    {"wished-seam", "to-niche-corner", DRY_MEASURE_LENGTH},
    {"wished-seam", "to-hole", DRY_MEASURE_LENGTH},
    {"wished-seam", "off-stud", DRY_MEASURE_LENGTH},
    {"wished-seam", "off-stud-most", DRY_MEASURE_LENGTH},
    {"wished-seam", "nearest-stud", DRY_MEASURE_LENGTH},
    {"wished-seam", "narrowest-board", DRY_MEASURE_LENGTH},
    {"wished-seam", "system-least-side", DRY_MEASURE_LENGTH},
    {"wished-seam", "stagger", DRY_MEASURE_LENGTH},
    {"wished-seam", "stagger-least", DRY_MEASURE_LENGTH},
    {"wish", "on-board", DRY_MEASURE_BOOLEAN},
    {"wish", "clear-of-wishes", DRY_MEASURE_BOOLEAN},
    {"joint", "wet", DRY_MEASURE_BOOLEAN},
    {"joint", "penetration", DRY_MEASURE_BOOLEAN},
    {"joint", "at-basin", DRY_MEASURE_BOOLEAN},
    {"joint", "in-plane", DRY_MEASURE_BOOLEAN},
    {"joint", "at-drywall", DRY_MEASURE_BOOLEAN},
    {"joint", "gap", DRY_MEASURE_LENGTH},
    {"joint", "liquid-membrane", DRY_MEASURE_BOOLEAN},
    {"joint", "treated", DRY_MEASURE_BOOLEAN},
    {"joint", "tight", DRY_MEASURE_BOOLEAN},
    {"joint", "band", DRY_MEASURE_BOOLEAN},
    {"joint", "overlap", DRY_MEASURE_LENGTH},
};

const DryMeasureName *
dry_measure_names (guint *n)
{
  *n = G_N_ELEMENTS (NAMES);
  return NAMES;
}

static gboolean
is_subject (const char *subject)
{
  for (guint i = 0; i < G_N_ELEMENTS (NAMES); i++)
    if (strcmp (NAMES[i].subject, subject) == 0)
      return TRUE;
  return FALSE;
}

static const DryMeasureName *
find_name (const char *subject, const char *measure)
{
  for (guint i = 0; i < G_N_ELEMENTS (NAMES); i++)
    if (strcmp (NAMES[i].subject, subject) == 0 && strcmp (NAMES[i].measure, measure) == 0)
      return &NAMES[i];
  return NULL;
}

static gboolean fail (const DryRulePack *pack, const DryRule *rule, GError **error,
                      const char *format, ...) G_GNUC_PRINTF (4, 5);

static gboolean
fail (const DryRulePack *pack, const DryRule *rule, GError **error, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, DRY_ERROR, DRY_ERROR_REFERENCE, "%s: rule “%s”: %s",
               pack->file ? pack->file : pack->id, rule->id, what);
  return FALSE;
}

static gboolean
check_condition (const DryRulePack *pack, const DryRule *rule, const DryCondition *condition,
                 GError **error)
{
  static const char *const KINDS[] = {[DRY_MEASURE_LENGTH] = "a length, compared with “mm”",
                                      [DRY_MEASURE_NUMBER] = "a number, compared with “value”",
                                      [DRY_MEASURE_BOOLEAN] = "yes or no, compared with “yes”"};
  static const DryMeasureKind WANTED[] = {[DRY_LIMIT_NUMBER] = DRY_MEASURE_NUMBER,
                                          [DRY_LIMIT_LENGTH] = DRY_MEASURE_LENGTH,
                                          [DRY_LIMIT_BOOLEAN] = DRY_MEASURE_BOOLEAN};
  const DryMeasureName *name = find_name (rule->subject, condition->measure);
  const DryMeasureName *other;

  if (!name)
    return fail (pack, rule, error, "“%s” has no measure “%s”", rule->subject, condition->measure);
  if (condition->kind != DRY_LIMIT_MEASURE)
    return WANTED[condition->kind] == name->kind
               ? TRUE
               : fail (pack, rule, error, "“%s” is %s", name->measure, KINDS[name->kind]);
  other = find_name (rule->subject, condition->other);
  if (!other)
    return fail (pack, rule, error, "“%s” has no measure “%s”", rule->subject, condition->other);
  if (other->kind != name->kind)
    return fail (pack, rule, error, "“%s” is %s: not to be compared with “%s”", name->measure,
                 KINDS[name->kind], other->measure);
  return TRUE;
}

static gboolean
check_rule (const DryRulePack *pack, const DryRule *rule, GError **error)
{
  if (!is_subject (rule->subject))
    return fail (pack, rule, error, "there is no subject “%s”", rule->subject);
  for (guint i = 0; i < rule->n_when; i++)
    if (!check_condition (pack, rule, &rule->when[i], error))
      return FALSE;
  for (guint i = 0; i < rule->n_require; i++)
    if (!check_condition (pack, rule, &rule->require[i], error))
      return FALSE;
  for (guint i = 0; i < rule->n_remedies; i++)
    if (rule->remedies[i].edit && !dry_remedy_is_known (rule->remedies[i].edit))
      return fail (pack, rule, error, "there is no edit “%s”", rule->remedies[i].edit);
  return TRUE;
}

static gboolean
is_own (const DryRulePack *pack, const DryRule *rule)
{
  return !rule->pack || strcmp (rule->pack, pack->id) == 0;
}

gboolean
dry_rule_names_check (const DryRulePack *pack, GError **error)
{
  for (guint i = 0; i < pack->n_rules; i++)
    if (is_own (pack, &pack->rules[i]) && !check_rule (pack, &pack->rules[i], error))
      return FALSE;
  for (guint c = 0; c < pack->n_choices; c++)
    for (guint o = 0; o < pack->choices[c].n_options; o++) {
      const DryRuleOption *option = &pack->choices[c].options[o];
      for (guint i = 0; i < option->n_rules; i++)
        if (is_own (pack, &option->rules[i]) && !check_rule (pack, &option->rules[i], error))
          return FALSE;
    }
  return TRUE;
}
