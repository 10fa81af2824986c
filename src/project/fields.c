/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of fields and what can be done with any of them: own, clear, reset, check.
 * Knows no file and no geometry; what spans several fields is room-check.c's. */
#define G_LOG_DOMAIN "drybay-project"

#include "project/fields.h"

#include <string.h>

/* Enums, flags and counts are moved as guint below. */
G_STATIC_ASSERT (sizeof (DryPartKind) == sizeof (guint) && sizeof (DrySide) == sizeof (guint));
G_STATIC_ASSERT (sizeof (DryPattern) == sizeof (guint) && sizeof (gboolean) == sizeof (guint));

static const char *const unit_words[] = {"inches", "millimetres", NULL};
static const char *const opening_words[] = {"door", "window", "passage", NULL};
static const char *const basin_words[] = {"tub", "pan", NULL};
static const char *const end_words[] = {"left", "right", "centre", "back", NULL};
static const char *const pattern_words[] = {"straight",    "offset",  "vertical", "diagonal",
                                            "herringbone", "hexagon", NULL};
static const char *const mortar_words[] = {"as-system", "unmodified", "modified", "epoxy", NULL};
static const char *const ends_words[] = {"as-room", "balanced", "whole-outer", NULL};
static const char *const side_words[] = {"inside", "outside", NULL};
static const char *const direction_words[] = {"upright", "level", NULL};
const char *const dry_part_kind_words[] = {
    "niche", "valve", "spout", "shower-head", "hand-shower", "grab-bar",
    "bench", "glass", "pipe",  "vent",        "cable",       NULL,
};
G_STATIC_ASSERT (G_N_ELEMENTS (dry_part_kind_words) == DRY_N_PART_KINDS + 1);

#define AT(member) G_STRUCT_OFFSET (OWNER, member)
#define ID(key, member)                                                                            \
  {                                                                                                \
    key, DRY_FIELD_ID, AT (member), DRY_FIELD_REQUIRED, 1, G_MAXUINT32, 0                          \
  }
#define TEXT(key, member, flags)                                                                   \
  {                                                                                                \
    key, DRY_FIELD_TEXT, AT (member), flags, 0, DRY_MAX_TEXT, 0                                    \
  }
#define FLAG(key, member, flags)                                                                   \
  {                                                                                                \
    key, DRY_FIELD_FLAG, AT (member), flags, 0, 1, 0                                               \
  }
#define CHOICE(key, member, flags, words)                                                          \
  {                                                                                                \
    key, DRY_FIELD_CHOICE, AT (member), flags, 0, G_N_ELEMENTS (words) - 2, 0, words               \
  }
#define NUMBER(key, member, flags, minimum, maximum, fallback)                                     \
  {                                                                                                \
    key, DRY_FIELD_NUMBER, AT (member), flags, minimum, maximum, fallback                          \
  }
#define LENGTH(key, member, flags, minimum, maximum, fallback)                                     \
  {                                                                                                \
    key, DRY_FIELD_LENGTH, AT (member), flags, minimum, maximum, fallback                          \
  }
/* A size that must be there and cannot be nothing; one that may be 0; a place on a wall or floor.
 */
#define SIZE(key, member)  LENGTH (key, member, DRY_FIELD_REQUIRED, 1, DRY_SIZE_MAX, 0)
#define EXTRA(key, member) LENGTH (key, member, 0, 0, DRY_SIZE_MAX, 0)
#define PLACE(key, member)                                                                         \
  LENGTH (key, member, DRY_FIELD_REQUIRED, -DRY_LENGTH_MAX, DRY_LENGTH_MAX, 0)
#define ABOVE(key, member) LENGTH (key, member, DRY_FIELD_ALWAYS, 0, DRY_SIZE_MAX, 0)
#define POINT(key, member, flags)                                                                  \
  {                                                                                                \
    key, DRY_FIELD_POINT, AT (member), DRY_FIELD_REQUIRED | (flags), -DRY_LENGTH_MAX,              \
        DRY_LENGTH_MAX                                                                             \
  }
#define SET(name, array) const DryFieldSet name = {array, G_N_ELEMENTS (array)}

#define OWNER DryJob
static const DryField job_table[] = {
    TEXT ("title", title, DRY_FIELD_KEPT | DRY_FIELD_ALWAYS),
    TEXT ("client", client, 0),
    {"note", DRY_FIELD_TEXT, AT (note), 0, 0, DRY_MAX_NOTE, 0},
    TEXT ("rule_pack", rule_pack, DRY_FIELD_REQUIRED | DRY_FIELD_KEPT | DRY_FIELD_FILLED),
    {"year_built", DRY_FIELD_INTEGER, AT (year_built), 0, 0, 9999, 0},
    NUMBER ("temperature_celsius", temperature, DRY_FIELD_ALWAYS, -60, 80, 21),
    CHOICE ("units", metric, DRY_FIELD_ALWAYS, unit_words),
    {"denominator", DRY_FIELD_INTEGER, AT (denominator), DRY_FIELD_ALWAYS, 8, 64, 16},
    TEXT ("rule_choices", choices, 0),
    EXTRA ("saw", saw),
    FLAG ("dry_saw", dry_saw, 0),
    NUMBER ("grinding_hours", grinding_hours, 0, 0, 24, 0),
    TEXT ("start", start, 0),
    {"crew", DRY_FIELD_INTEGER, AT (crew), 0, 0, 50, 0},
    TEXT ("work_days", work_days, 0),
    NUMBER ("day_start_hours", day_start, 0, 0, 23.5, 0),
    NUMBER ("day_hours", day_hours, 0, 0, 24, 0),
    TEXT ("holidays", holidays, 0),
    TEXT ("price_book", prices, 0),
};
SET (dry_job_fields, job_table);
#undef OWNER

#define OWNER DryRoom
static const DryField room_table[] = {
    ID ("id", id),
    TEXT ("name", name, DRY_FIELD_KEPT | DRY_FIELD_ALWAYS),
    SIZE ("ceiling", ceiling),
    EXTRA ("joist_spacing", joist_spacing),
    NUMBER ("fan_litres_per_second", fan, 0, 0, 1000, 0),
    FLAG ("steam", steam, 0),
    NUMBER ("ceiling_slope", ceiling_slope, 0, 0, 1, 0),
    FLAG ("damp", damp, 0),
    FLAG ("timber_floor", timber_floor, 0),
    FLAG ("floor_protected", floor_protected, 0),
    FLAG ("floor_stone", floor_stone, 0),
    FLAG ("floor_i_joists", floor_i_joists, 0),
    EXTRA ("floor_joist_depth", floor_joist_depth),
    EXTRA ("floor_joist_spacing", floor_joist_spacing),
    EXTRA ("floor_joist_span", floor_joist_span),
    NUMBER ("floor_joist_megapascals", floor_joist_stiffness, 0, 0, 100000, 0),
    EXTRA ("floor_tile", floor_tile),
    NUMBER ("floor_dcof", floor_dcof, 0, 0, 2, 0),
    EXTRA ("toilet_side", toilet_side),
    EXTRA ("toilet_front", toilet_front),
    EXTRA ("shower_front", shower_front),
    EXTRA ("light_above", light_above),
    EXTRA ("light_away", light_away),
    EXTRA ("outlet_away", outlet_away),
    FLAG ("switch_inside", switch_inside, 0),
    NUMBER ("hot_water_celsius", hot_water, 0, 0, 100, 0),
    {"done", DRY_FIELD_TEXT, AT (done), 0, 0, DRY_MAX_NOTE, 0},
};
SET (dry_room_fields, room_table);
#undef OWNER

/* Fallbacks of framing are the common 2x4 wall, 16 in on centre, under 1/2 in drywall. A spacing
 * below 2 in is no framing but a slip. */
#define OWNER DryWall
static const DryField wall_table[] = {
    ID ("id", id),
    TEXT ("name", name, 0),
    POINT ("start", start, 0),
    POINT ("end", end, DRY_FIELD_ADDED_WALL),
    EXTRA ("height", height),
    LENGTH ("thickness", thickness, DRY_FIELD_ADDED_WALL, 0, DRY_SIZE_MAX, 0),
    FLAG ("bearing", bearing, 0),
    FLAG ("exterior", exterior, 0),
    FLAG ("fire_rated", fire_rated, 0),
    FLAG ("plumbing", plumbing, 0),
    FLAG ("steel_studs", steel_studs, 0),
    LENGTH ("stud_width", stud_width, DRY_FIELD_ALWAYS, 10 * DRY_MM, DRY_SIZE_MAX, 38100000),
    LENGTH ("stud_depth", stud_depth, DRY_FIELD_ALWAYS, 10 * DRY_MM, DRY_SIZE_MAX, 88900000),
    LENGTH ("stud_spacing", stud_spacing, DRY_FIELD_ALWAYS, 2 * DRY_INCH, DRY_SIZE_MAX, 406400000),
    LENGTH ("first_stud", first_stud, DRY_FIELD_ALWAYS, 0, DRY_LENGTH_MAX, 406400000),
    {"found_studs", DRY_FIELD_LENGTHS, AT (found_studs), 0, 0, DRY_LENGTH_MAX, 0, NULL,
     AT (n_found_studs)},
    LENGTH ("lining", lining, DRY_FIELD_ALWAYS, 0, DRY_SIZE_MAX, 12700000),
    EXTRA ("insulation", insulation),
    FLAG ("vapour_barrier", vapour_barrier, 0),
    FLAG ("air_barrier", air_barrier, 0),
    EXTRA ("plane_error", plane_error),
    LENGTH ("plumb_error", plumb_error, 0, -DRY_SIZE_MAX, DRY_SIZE_MAX, 0),
    LENGTH ("square_error", square_error, 0, -DRY_SIZE_MAX, DRY_SIZE_MAX, 0),
    LENGTH ("width_bow", width_bow, 0, -DRY_SIZE_MAX, DRY_SIZE_MAX, 0),
    NUMBER ("cap_pitch", cap_pitch, 0, 0, 1, 0),
    FLAG ("tile_set", tile_set, 0),
    LENGTH ("tile_from", tile_from, 0, -DRY_SIZE_MAX, DRY_SIZE_MAX, 0),
    CHOICE ("tile_ends", tile_ends, 0, ends_words),
};
SET (dry_wall_fields, wall_table);
#undef OWNER

#define OWNER DryOpening
static const DryField opening_table[] = {
    ID ("id", id),
    CHOICE ("kind", kind, DRY_FIELD_REQUIRED, opening_words),
    ID ("wall", wall),
    PLACE ("u", u),
    ABOVE ("z", z),
    SIZE ("width", width),
    SIZE ("height", height),
    FLAG ("safety_glass", safety_glass, 0),
    FLAG ("sloped_sill", sloped_sill, 0),
    FLAG ("wooden_jamb", wooden_jamb, 0),
};
SET (dry_opening_fields, opening_table);
#undef OWNER

#define OWNER DryBasin
static const DryField basin_table[] = {
    ID ("id", id),
    CHOICE ("kind", kind, DRY_FIELD_REQUIRED, basin_words),
    TEXT ("item", item, 0),
    TEXT ("label", label, 0),
    ID ("wall", wall),
    PLACE ("along", along),
    PLACE ("away", away),
    FLAG ("turned", turned, 0),
    SIZE ("length", length),
    SIZE ("width", width),
    ABOVE ("height", height),
    EXTRA ("flange", flange),
    EXTRA ("flange_thickness", flange_thickness),
    CHOICE ("drain", drain, DRY_FIELD_ALWAYS, end_words),
    EXTRA ("drain_diameter", drain_diameter),
    FLAG ("drop_in", drop_in, 0),
    EXTRA ("rim_error", rim_error),
    EXTRA ("recess", recess),
    NUMBER ("floor_slope", slope, 0, 0, 1, 0),
    FLAG ("linear_drain", linear_drain, 0),
    EXTRA ("corner_cut", corner_cut),
    FLAG ("site_built", site_built, 0),
    FLAG ("liner", liner, 0),
    FLAG ("pre_slope", pre_slope, 0),
    FLAG ("weeps_open", weeps_open, 0),
    EXTRA ("liner_turn_up", liner_turn_up),
    FLAG ("clamping_drain", clamping_drain, 0),
    FLAG ("curb_wrapped", curb_wrapped, 0),
    NUMBER ("curb_pitch", curb_pitch, 0, 0, 1, 0),
    FLAG ("temporary_dam", dam, 0),
};
SET (dry_basin_fields, basin_table);
#undef OWNER

#define OWNER DryWetZone
static const DryField wet_zone_table[] = {
    EXTRA ("height", height),
    ABOVE ("past", past),
    FLAG ("leg", leg, DRY_FIELD_ALWAYS),
    FLAG ("ceiling", ceiling, 0),
};
SET (dry_wet_zone_fields, wet_zone_table);
#undef OWNER

#define OWNER DryFinish
static const DryField finish_table[] = {
    TEXT ("system", system, DRY_FIELD_REQUIRED | DRY_FIELD_KEPT | DRY_FIELD_FILLED),
    TEXT ("sheet", sheet, 0),
    EXTRA ("board", board),
    FLAG ("tiled", tiled, DRY_FIELD_ALWAYS),
    TEXT ("tile", tile, 0),
    EXTRA ("tile_width", tile_width),
    EXTRA ("tile_height", tile_height),
    EXTRA ("tile_thickness", tile_thickness),
    EXTRA ("joint", joint),
    EXTRA ("mortar", mortar),
    CHOICE ("pattern", pattern, 0, pattern_words),
    NUMBER ("offset", offset, 0, 0, 0.5, 0),
    FLAG ("offset_stepped", stepped, 0),
    FLAG ("wrap", wrap, 0),
    EXTRA ("joint_min", joint_min),
    EXTRA ("joint_max", joint_max),
    FLAG ("level_set", level_set, 0),
    EXTRA ("level", level),
    EXTRA ("variation", variation),
    FLAG ("whole_outer", whole_outer, 0),
    EXTRA ("niche_tolerance", niche_tolerance),
    {"tiles_in_box", DRY_FIELD_INTEGER, AT (box), 0, 0, DRY_MAX_COUNT, 0},
    {"chips_across", DRY_FIELD_INTEGER, AT (chips_across), 0, 0, 200, 0},
    {"chips_up", DRY_FIELD_INTEGER, AT (chips_up), 0, 0, 200, 0},
    NUMBER ("breakage_percent", breakage, 0, 0, 100, 0),
    CHOICE ("mortar_kind", mortar_kind, 0, mortar_words),
    EXTRA ("trim", trim),
    NUMBER ("mortar_coverage", coverage, 0, 0, 100, 0),
    NUMBER ("membrane_litres_used", membrane_used, 0, 0, 100000, 0),
    FLAG ("listing_missing", no_listing, 0),
    FLAG ("mixed_makers", mixed_makers, 0),
    FLAG ("plain_screws", plain_screws, 0),
    FLAG ("basin_gap_mortar", gap_mortar, 0),
    {"tiles_ordered", DRY_FIELD_INTEGER, AT (tiles_ordered), 0, 0, 1000000, 0},
    FLAG ("dye_lots_mixed", mixed_lots, 0),
    NUMBER ("grouted_after_hours", grout_after, 0, 0, 10000, 0),
    NUMBER ("showered_after_hours", water_after, 0, 0, 10000, 0),
    FLAG ("cut_guard", cut_guard, 0),
};
SET (dry_finish_fields, finish_table);
#undef OWNER

#define OWNER DryPart
static const DryField part_table[] = {
    ID ("id", id),
    CHOICE ("kind", kind, DRY_FIELD_REQUIRED, dry_part_kind_words),
    TEXT ("item", item, 0),
    TEXT ("label", label, 0),
    ID ("wall", wall),
    CHOICE ("side", side, 0, side_words),
    PLACE ("u", u),
    ABOVE ("z", z),
    SIZE ("width", width),
    SIZE ("height", height),
    EXTRA ("depth", depth),
    EXTRA ("hole", hole),
    EXTRA ("body_width", body_width),
    EXTRA ("body_height", body_height),
    EXTRA ("flange", flange),
    FLAG ("site_built", site_built, 0),
    FLAG ("fold_down", fold_down, 0),
    FLAG ("safety_glass", safety_glass, 0),
    FLAG ("hinged", hinged, 0),
    FLAG ("toward_entry", toward_entry, 0),
    NUMBER ("pitch", pitch, 0, -1, 1, 0),
    NUMBER ("flow_litres_per_minute", flow_lpm, 0, 0, 1000, 0),
    EXTRA ("trim_min", trim_min),
    EXTRA ("trim_max", trim_max),
    FLAG ("screwed_down", screwed_down, 0),
    FLAG ("ordered_early", ordered_early, 0),
};
SET (dry_part_fields, part_table);
#undef OWNER

#define OWNER DrySeamWish
static const DryField seam_table[] = {
    ID ("id", id),
    ID ("wall", wall),
    CHOICE ("side", side, 0, side_words),
    CHOICE ("direction", level, DRY_FIELD_REQUIRED, direction_words),
    PLACE ("at", at),
    PLACE ("through", through),
};
SET (dry_seam_fields, seam_table);
#undef OWNER

#define OWNER DryOnHand
static const DryField on_hand_table[] = {
    TEXT ("system", system, 0),
    EXTRA ("board", board),
    SIZE ("width", width),
    SIZE ("height", height),
    {"count", DRY_FIELD_INTEGER, AT (count), DRY_FIELD_ALWAYS, 1, DRY_MAX_COUNT, 1},
    {"note", DRY_FIELD_TEXT, AT (note), 0, 0, DRY_MAX_NOTE, 0},
};
SET (dry_on_hand_fields, on_hand_table);
#undef OWNER

void
dry_problem_set (DryProblem *self, DryErrorCode code, const char *key, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  self->code = code;
  self->key = key;
  self->list = NULL;
  self->index = -1;
  g_free (self->message);
  self->message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
}

void
dry_problem_clear (DryProblem *self)
{
  g_clear_pointer (&self->message, g_free);
}

static char *
copy_text (const DryField *field, const char *text)
{
  if (field->flags & DRY_FIELD_KEPT)
    return g_strdup (text != NULL ? text : "");
  return text != NULL && *text != '\0' ? g_strdup (text) : NULL;
}

void
dry_fields_own (const DryFieldSet *set, gpointer value)
{
  for (guint i = 0; i < set->n; i++) {
    const DryField *field = &set->fields[i];
    gpointer *at = G_STRUCT_MEMBER_P (value, field->offset);

    if (field->type == DRY_FIELD_TEXT) {
      *at = copy_text (field, *at);
    } else if (field->type == DRY_FIELD_LENGTHS) {
      guint *count = G_STRUCT_MEMBER_P (value, field->count_offset);

      if (*at == NULL)
        *count = 0;
      *at = *count > 0 ? g_memdup2 (*at, sizeof (DryLength) * *count) : NULL;
    }
  }
}

void
dry_fields_clear (const DryFieldSet *set, gpointer value)
{
  for (guint i = 0; i < set->n; i++) {
    const DryField *field = &set->fields[i];
    gpointer *at = G_STRUCT_MEMBER_P (value, field->offset);

    if (field->type == DRY_FIELD_TEXT || field->type == DRY_FIELD_LENGTHS)
      g_clear_pointer (at, g_free);
    if (field->type == DRY_FIELD_LENGTHS)
      G_STRUCT_MEMBER (guint, value, field->count_offset) = 0;
  }
}

void
dry_fields_reset (const DryFieldSet *set, gpointer value)
{
  for (guint i = 0; i < set->n; i++) {
    const DryField *field = &set->fields[i];

    if (field->type == DRY_FIELD_TEXT)
      G_STRUCT_MEMBER (char *, value, field->offset) = copy_text (field, NULL);
    else if (field->type == DRY_FIELD_NUMBER)
      G_STRUCT_MEMBER (double, value, field->offset) = field->fallback;
    else if (field->type == DRY_FIELD_LENGTH)
      G_STRUCT_MEMBER (DryLength, value, field->offset) = (DryLength) field->fallback;
    else if (field->type == DRY_FIELD_INTEGER)
      G_STRUCT_MEMBER (gint, value, field->offset) = (gint) field->fallback;
  }
}

static gboolean
check_text (const DryField *field, const char *text, DryProblem *problem)
{
  gsize length = text != NULL ? strlen (text) : 0;

  if (length == 0 && (field->flags & DRY_FIELD_FILLED))
    dry_problem_set (problem, DRY_ERROR_REFERENCE, field->key, "%s is empty", field->key);
  else if (length > (gsize) field->maximum)
    dry_problem_set (problem, DRY_ERROR_LIMIT, field->key, "%s is longer than %d bytes", field->key,
                     (int) field->maximum);
  else if (length > 0 && !g_utf8_validate (text, (gssize) length, NULL))
    dry_problem_set (problem, DRY_ERROR_TEXT, field->key, "%s is not UTF-8 text", field->key);
  else
    return TRUE;
  return FALSE;
}

static gboolean
check_length (const DryField *field, DryLength length, DryProblem *problem)
{
  g_autofree char *limit = NULL;

  if (length >= (DryLength) field->minimum && length <= (DryLength) field->maximum)
    return TRUE;
  if (length > (DryLength) field->maximum) {
    limit = dry_length_to_mm_text ((DryLength) field->maximum);
    dry_problem_set (problem, DRY_ERROR_LIMIT, field->key, "%s is more than %s mm", field->key,
                     limit);
  } else if (field->minimum == 1) {
    dry_problem_set (problem, DRY_ERROR_GEOMETRY, field->key, "%s must be more than zero",
                     field->key);
  } else if (field->minimum == 0) {
    dry_problem_set (problem, DRY_ERROR_GEOMETRY, field->key, "%s must not be negative",
                     field->key);
  } else {
    limit = dry_length_to_mm_text ((DryLength) field->minimum);
    dry_problem_set (problem, DRY_ERROR_GEOMETRY, field->key, "%s is less than %s mm", field->key,
                     limit);
  }
  return FALSE;
}

static gboolean
check_lengths (const DryField *field, const DryLength *lengths, guint n, DryProblem *problem)
{
  if (n > DRY_MAX_FOUND_STUDS) {
    dry_problem_set (problem, DRY_ERROR_LIMIT, field->key, "%s holds %u places; at most %d may be",
                     field->key, n, DRY_MAX_FOUND_STUDS);
    return FALSE;
  }
  for (guint i = 0; i < n; i++) {
    if (!check_length (field, lengths[i], problem))
      return FALSE;
    if (i > 0 && lengths[i] <= lengths[i - 1]) {
      dry_problem_set (problem, DRY_ERROR_GEOMETRY, field->key,
                       "%s must ascend from left to right, none twice", field->key);
      return FALSE;
    }
  }
  return TRUE;
}

static gboolean
check_number (const DryField *field, double number, DryProblem *problem)
{
  char low[G_ASCII_DTOSTR_BUF_SIZE], high[G_ASCII_DTOSTR_BUF_SIZE];

  /* Written so that a NaN fails. */
  if (number >= field->minimum && number <= field->maximum)
    return TRUE;
  g_ascii_formatd (low, sizeof low, "%.10g", field->minimum);
  g_ascii_formatd (high, sizeof high, "%.10g", field->maximum);
  dry_problem_set (problem, DRY_ERROR_LIMIT, field->key, "%s must be from %s to %s", field->key,
                   low, high);
  return FALSE;
}

static gboolean
check_field (const DryField *field, gconstpointer value, DryProblem *problem)
{
  gconstpointer at = (const guint8 *) value + field->offset;
  const DryPoint *point = at;

  switch (field->type) {
  case DRY_FIELD_ID:
  case DRY_FIELD_FLAG: /* any value but 0 is TRUE */
    return TRUE;
  case DRY_FIELD_TEXT:
    return check_text (field, *(const char *const *) at, problem);
  case DRY_FIELD_CHOICE:
    return check_number (field, *(const guint *) at, problem);
  case DRY_FIELD_INTEGER:
    return check_number (field, *(const gint *) at, problem);
  case DRY_FIELD_NUMBER:
    return check_number (field, *(const double *) at, problem);
  case DRY_FIELD_LENGTH:
    return check_length (field, *(const DryLength *) at, problem);
  case DRY_FIELD_POINT:
    return check_length (field, point->x, problem) && check_length (field, point->y, problem);
  case DRY_FIELD_LENGTHS:
    return check_lengths (field, *(const DryLength *const *) at,
                          *(const guint *) ((const guint8 *) value + field->count_offset), problem);
  }
  return FALSE;
}

gboolean
dry_fields_check (const DryFieldSet *set, guint omit, gconstpointer value, DryProblem *problem)
{
  for (guint i = 0; i < set->n; i++)
    if (!(set->fields[i].flags & omit) && !check_field (&set->fields[i], value, problem))
      return FALSE;
  return TRUE;
}
