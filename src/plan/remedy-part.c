/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies that change one part: niche, fitting, bar, bench, glass.
 * Target sizes are those the rules ask for, with a little in hand where taste decides. */
#include "plan/advisor.h"
#include "plan/remedy-private.h"

static DryProject *
set_part (const DryRemedyWork *work, const DryPart *part, GError **error)
{
  return dry_edit_set_part (work->project, work->room->id, part, NULL, error);
}

static DryProject *
refuse (GError **error, const char *why)
{
  g_set_error_literal (error, DRY_ERROR, DRY_ERROR_GEOMETRY, why);
  return NULL;
}

/* --- niches --- */

static DryProject *
move_to_clear_bay (const DryRemedyWork *work, GError **error)
{
  DryMeasuring measuring = work->measuring;
  g_autoptr (GArray) standing = dry_measuring_standing (&measuring, work->wall, work->part->side);
  DryPart part = *work->part;
  DryLength best = -1;

  for (guint i = 0; i + 1 < standing->len; i++) {
    DryStanding bay = {g_array_index (standing, DryStanding, i).u1,
                       g_array_index (standing, DryStanding, i + 1).u0};
    DryLength u = bay.u0 + (bay.u1 - bay.u0) / 2, away = ABS (u - work->part->u);

    if (!dry_measuring_niche_fits (&measuring, work->part, u, bay) || (best >= 0 && away >= best))
      continue;
    best = away;
    part.u = u;
  }
  if (best < 0)
    return refuse (error, "No clear bay of this wall takes the niche: make it narrower, or frame "
                          "an opening for it");
  return set_part (work, &part, error);
}

/* Whether a change brings every edge within reach of a joint and breaks nothing that may not be.
 * Another tile is for people to choose. */
static gboolean
is_on_joints (const DryAdvicePlace *place)
{
  if (place->tile)
    return FALSE;
  for (guint i = 0; i < place->n_reasons; i++)
    if (place->reasons[i].kind == DRY_ADVICE_JOINTS)
      return place->legal && place->reasons[i].holds;
  return FALSE;
}

/* The advisor's smallest change that does it, as it ranks them; else the best place it knows. */
static DryProject *
bring_to_joints (const DryRemedyWork *work, GError **error)
{
  DryAdviceOptions options = dry_advice_options_default ();
  g_autoptr (DryArena) arena = dry_arena_new ();
  const DryAdviceFreedom free = {.size = TRUE, .datum = TRUE};
  const DryAdviceChange *changes;
  const DryAdvicePlace *places;
  g_autoptr (DryAdvice) advice = NULL;
  guint n;

  advice = dry_advice_new (work->project, work->room->id, work->part,
                           work->measuring.context->catalog, &options, NULL, error);
  if (advice == NULL)
    return NULL;
  changes = dry_advice_find_changes (advice, arena, &n);
  for (guint i = 0; i < n; i++)
    if (is_on_joints (&changes[i].place))
      return dry_advice_apply (advice, work->project, &changes[i].place, NULL, error);
  places = dry_advice_find_best (advice, arena, free, 5, &n);
  for (guint i = 0; i < n; i++)
    if (is_on_joints (&places[i]))
      return dry_advice_apply (advice, work->project, &places[i], NULL, error);
  return refuse (error, "No place, size or start of the tile brings all its edges onto joints: "
                        "choose another tile or another joint");
}

static DryProject *
raise_into_reach (const DryRemedyWork *work, GError **error)
{
  DryLength least = 36 * DRY_INCH, most = 60 * DRY_INCH;
  DryPart part = *work->part;

  dry_remedy_get_bounds (work, "bottom", &least, &most);
  part.z = CLAMP (part.z, least, most);
  return set_part (work, &part, error);
}

static DryProject *
set_above_bench (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;
  DryRect rect = dry_part_rect (&part);

  for (guint i = 0; i < work->room->n_parts; i++) {
    const DryPart *bench = &work->room->parts[i];
    DryRect seat = dry_part_rect (bench);
    if (bench->kind != DRY_PART_BENCH || bench->wall != part.wall || bench->side != part.side ||
        seat.x0 >= rect.x1 || seat.x1 <= rect.x0)
      continue;
    part.z = bench->z + 15 * DRY_INCH;
    return set_part (work, &part, error);
  }
  return refuse (error, "There is no bench under this niche");
}

static DryProject *
make_taller (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  if (part.body_width > 0)
    return refuse (error, "A ready-made niche has the height it has: choose a taller one");
  part.height = 14 * DRY_INCH;
  return set_part (work, &part, error);
}

static DryProject *
fit_cavity (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  if (part.body_width > 0)
    return refuse (error, "A ready-made niche has the depth it has: choose a shallower one");
  part.depth = dry_wall_depth (work->wall);
  return set_part (work, &part, error);
}

static DryProject *
pitch_part (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.pitch = 1.0 / 48; /* 1/4 in per foot */
  return set_part (work, &part, error);
}

/* --- fittings --- */

static DryProject *
move_off_stud (const DryRemedyWork *work, GError **error)
{
  DryMeasuring measuring = work->measuring;
  g_autoptr (GArray) standing = dry_measuring_standing (&measuring, work->wall, work->part->side);
  DryLength half = work->part->hole / 2, best = -1;
  DryPart part = *work->part;

  for (guint i = 0; i + 1 < standing->len; i++) {
    DryLength u0 = g_array_index (standing, DryStanding, i).u1 + half;
    DryLength u1 = g_array_index (standing, DryStanding, i + 1).u0 - half;
    DryLength u = CLAMP (work->part->u, u0, MAX (u0, u1)), away = ABS (u - work->part->u);

    if (u1 < u0 || (best >= 0 && away >= best))
      continue;
    best = away;
    part.u = u;
  }
  if (best < 0)
    return refuse (error, "No bay of this wall is wide enough for the hole");
  return set_part (work, &part, error);
}

static DryProject *
set_valve_in_reach (const DryRemedyWork *work, GError **error)
{
  const DryBasin *basin = &work->room->basin;
  DryPart part = *work->part;

  if (dry_measuring_has_shower (&work->measuring)) {
    DryLength least = 38 * DRY_INCH, most = 48 * DRY_INCH;
    dry_remedy_get_bounds (work, "height", &least, &most);
    part.z = CLAMP (part.z, least, most);
  } else if (basin->id && basin->kind == DRY_BASIN_TUB && basin->height <= 33 * DRY_INCH)
    part.z = CLAMP (part.z, basin->height, 33 * DRY_INCH);
  else
    return refuse (error, "The rim is higher than 33 in: no height is in reach");
  return set_part (work, &part, error);
}

static DryProject *
raise_spout (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.z = MAX (part.z, work->room->basin.height + 4 * DRY_INCH);
  return set_part (work, &part, error);
}

static DryProject *
turn_head_away (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.toward_entry = FALSE;
  return set_part (work, &part, error);
}

/* --- bar, bench, glass --- */

static DryProject *
set_bar_height (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.z = 34 * DRY_INCH;
  return set_part (work, &part, error);
}

static DryProject *
set_bench_height (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.z = 18 * DRY_INCH;
  return set_part (work, &part, error);
}

static DryProject *
set_bench_depth (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.depth = CLAMP (part.depth, 15 * DRY_INCH, 16 * DRY_INCH);
  return set_part (work, &part, error);
}

static DryProject *
fold_bench (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.fold_down = TRUE;
  return set_part (work, &part, error);
}

static DryProject *
set_safety_glass (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.safety_glass = TRUE;
  return set_part (work, &part, error);
}

static DryProject *
bond_channel (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.screwed_down = FALSE;
  return set_part (work, &part, error);
}

static DryProject *
widen_door (const DryRemedyWork *work, GError **error)
{
  DryPart part = *work->part;

  part.width = MAX (part.width, 24 * DRY_INCH);
  return set_part (work, &part, error);
}

const DryRemedyEntry DRY_REMEDIES_OF_PARTS[] = {
    {"niche.to-clear-bay", DRY_ABOUT_PART, move_to_clear_bay},
    {"niche.to-joints", DRY_ABOUT_PART, bring_to_joints},
    {"niche.raise-into-reach", DRY_ABOUT_PART, raise_into_reach},
    {"niche.above-bench", DRY_ABOUT_PART, set_above_bench},
    {"niche.taller", DRY_ABOUT_PART, make_taller},
    {"niche.to-cavity", DRY_ABOUT_PART, fit_cavity},
    {"part.pitch", DRY_ABOUT_PART, pitch_part},
    {"fitting.off-stud", DRY_ABOUT_PART, move_off_stud},
    {"valve.to-reach", DRY_ABOUT_PART, set_valve_in_reach},
    {"spout.raise", DRY_ABOUT_PART, raise_spout},
    {"head.turn-away", DRY_ABOUT_PART, turn_head_away},
    {"bar.to-height", DRY_ABOUT_PART, set_bar_height},
    {"bench.to-height", DRY_ABOUT_PART, set_bench_height},
    {"bench.to-depth", DRY_ABOUT_PART, set_bench_depth},
    {"bench.fold-down", DRY_ABOUT_PART, fold_bench},
    {"glass.safety-glass", DRY_ABOUT_PART, set_safety_glass},
    {"glass.bond-channel", DRY_ABOUT_PART, bond_channel},
    {"glass.door-width", DRY_ABOUT_PART, widen_door},
};
const guint DRY_N_REMEDIES_OF_PARTS = G_N_ELEMENTS (DRY_REMEDIES_OF_PARTS);
