/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of fields: what each kind of thing lets a person type, in which groups and within
 * which limits. Data only, besides the few lengths that are measured rather than stored. */
#include "ui/inspector-fields.h"
#include "ui/inspector-widths.h"

#include <glib/gi18n.h>

#define IN(n)          ((DryLength) ((n) * (double) DRY_INCH))
#define AT(Type, name) G_STRUCT_OFFSET (Type, name)
#define KIND(name)     (1u << DRY_PART_##name)

#define SLOPE(most)                                                                                \
  .number_low = 0, .number_high = most, .step = 0.005, .digits = 6, .is_slope = TRUE

/* --- lengths that are measured --- */

static DryLength
get_wall_length (const DryRoom *room, gconstpointer value)
{
  return dry_wall_length (value);
}

static DryProject *
set_wall_length (DrySession *session, gconstpointer value, DryLength length, GError **error)
{
  const DryWall *wall = value;

  return dry_edit_set_wall_length (dry_session_get_project (session),
                                   dry_session_get_room_id (session), wall->id, length, error);
}

/* How wide a part is where it touches the wall: glass stands out from it. */
static DryLength
half_width (const DryPart *part)
{
  DryRect rect = dry_part_rect (part);

  return dry_rect_width (rect) / 2;
}

static DryLength
get_part_left (const DryRoom *room, gconstpointer value)
{
  const DryPart *part = value;

  return part->u - half_width (part);
}

static DryLength
get_part_right (const DryRoom *room, gconstpointer value)
{
  const DryPart *part = value;
  const DryWall *wall = dry_room_get_wall (room, part->wall);

  return wall ? dry_wall_length (wall) - part->u - half_width (part) : 0;
}

static DryProject *
move_part_to (DrySession *session, const DryPart *part, DryLength u, GError **error)
{
  return dry_edit_move_part (dry_session_get_project (session), dry_session_get_room_id (session),
                             part->id, part->wall, part->side, u, part->z, error);
}

static DryProject *
set_part_left (DrySession *session, gconstpointer value, DryLength length, GError **error)
{
  const DryPart *part = value;

  return move_part_to (session, part, length + half_width (part), error);
}

static DryProject *
set_part_right (DrySession *session, gconstpointer value, DryLength length, GError **error)
{
  const DryPart *part = value;
  const DryWall *wall = dry_room_get_wall (dry_session_get_room (session), part->wall);

  return move_part_to (session, part,
                       (wall ? dry_wall_length (wall) : 0) - length - half_width (part), error);
}

/* --- when a field is shown --- */

static gboolean
is_tub (const DryRoom *room, gconstpointer value)
{
  return ((const DryBasin *) value)->kind == DRY_BASIN_TUB;
}

static gboolean
is_pan (const DryRoom *room, gconstpointer value)
{
  return !is_tub (room, value);
}

static gboolean
is_outline_wall (const DryRoom *room, gconstpointer value)
{
  return !((const DryWall *) value)->added;
}

static gboolean
is_added_wall (const DryRoom *room, gconstpointer value)
{
  return ((const DryWall *) value)->added;
}

static gboolean
is_exterior_wall (const DryRoom *room, gconstpointer value)
{
  return ((const DryWall *) value)->exterior;
}

static gboolean
is_regular_wall (const DryRoom *room, gconstpointer value)
{
  return ((const DryWall *) value)->n_found_studs == 0;
}

static gboolean
is_window (const DryRoom *room, gconstpointer value)
{
  return ((const DryOpening *) value)->kind == DRY_OPENING_WINDOW;
}

static gboolean
is_tiled (const DryRoom *room, gconstpointer value)
{
  return ((const DryFinish *) value)->tiled;
}

static gboolean
is_offset (const DryRoom *room, gconstpointer value)
{
  return is_tiled (room, value) && ((const DryFinish *) value)->pattern == DRY_PATTERN_OFFSET;
}

static gboolean
is_in_courses (const DryRoom *room, gconstpointer value)
{
  const DryFinish *finish = value;

  return finish->tiled && finish->pattern != DRY_PATTERN_DIAGONAL &&
         finish->pattern != DRY_PATTERN_HERRINGBONE && finish->pattern != DRY_PATTERN_HEXAGON;
}

/* Larger ones do not hang on a mesh. */
static gboolean
is_small_tile (const DryRoom *room, gconstpointer value)
{
  const DryFinish *finish = value;

  return finish->tiled && MAX (finish->tile_width, finish->tile_height) <= IN (4);
}

static gboolean
has_level (const DryRoom *room, gconstpointer value)
{
  return is_tiled (room, value) && ((const DryFinish *) value)->level_set;
}

static gboolean
room_is_tiled (const DryRoom *room, gconstpointer value)
{
  return room->finish.tiled;
}

static gboolean
has_tile_start (const DryRoom *room, gconstpointer value)
{
  return room->finish.tiled && ((const DryWall *) value)->tile_set;
}

static gboolean
is_ready_made (const DryRoom *room, gconstpointer value)
{
  return ((const DryPart *) value)->body_width > 0;
}

static gboolean
is_steam (const DryRoom *room, gconstpointer value)
{
  return ((const DryRoom *) value)->steam;
}

static gboolean
has_timber_floor (const DryRoom *room, gconstpointer value)
{
  return ((const DryRoom *) value)->timber_floor;
}

static gboolean
is_half_wall (const DryRoom *room, gconstpointer value)
{
  return dry_wall_height (room, value) < room->ceiling;
}

static gboolean
is_site_built (const DryRoom *room, gconstpointer value)
{
  return is_pan (room, value) && ((const DryBasin *) value)->site_built;
}

static gboolean
has_liner (const DryRoom *room, gconstpointer value)
{
  return is_site_built (room, value) && ((const DryBasin *) value)->liner;
}

/* --- choices, in the order of their enums --- */

static const char *const ENDS[] = {N_ ("Left"), N_ ("Right"), N_ ("Center"), N_ ("Back"), NULL};
static const char *const PATTERNS[] = {
    N_ ("Straight"), N_ ("Offset"), N_ ("Vertical"), N_ ("Diagonal"), N_ ("Herringbone"),
    N_ ("Hexagon"),  NULL};
static const char *const TILE_ENDS[] = {N_ ("As the room"), N_ ("Balanced cuts"),
                                        N_ ("Whole at the open edge"), NULL};
static const char *const MORTARS[] = {N_ ("As the system says"), N_ ("Unmodified"), N_ ("Modified"),
                                      N_ ("Epoxy"), NULL};

/* --- the tables --- */

static const DryField JOB[] = {
    {N_ ("Job"), N_ ("Title"), NULL, DRY_FIELD_TEXT, AT (DryJob, title)},
    {NULL, N_ ("Client"), NULL, DRY_FIELD_TEXT, AT (DryJob, client)},
    {NULL, N_ ("Year the house was built"), N_ ("0 = not known; old houses bring cautions"),
     DRY_FIELD_INTEGER, AT (DryJob, year_built), .number_low = 0, .number_high = 2100, .step = 1},
    {NULL, N_ ("Room temperature"), N_ ("While boards, bands and coats are worked"),
     DRY_FIELD_NUMBER, AT (DryJob, temperature), .number_low = -30, .number_high = 50, .step = 1,
     .is_temperature = TRUE},
    {NULL, N_ ("Millimeters"), N_ ("Off: feet and inches"), DRY_FIELD_BOOLEAN, AT (DryJob, metric)},
    {N_ ("Tools"), N_ ("Longest cut of the tile saw"), NULL, DRY_FIELD_LENGTH, AT (DryJob, saw), 0,
     IN (120), .zero_text = N_ ("unknown")},
    {NULL, N_ ("Dry power saw indoors"), N_ ("Boards or tile cut without water"), DRY_FIELD_BOOLEAN,
     AT (DryJob, dry_saw)},
    {NULL, N_ ("Grinding out, hours a day"), N_ ("Old grout or mortar; 0 = none"), DRY_FIELD_NUMBER,
     AT (DryJob, grinding_hours), .number_low = 0, .number_high = 24, .step = 0.5, .digits = 1},
};

static const DryField ROOM[] = {
    {N_ ("Room"), N_ ("Name"), NULL, DRY_FIELD_TEXT, AT (DryRoom, name)},
    {NULL, N_ ("Ceiling"), NULL, DRY_FIELD_LENGTH, AT (DryRoom, ceiling), IN (12), IN (400)},
    {NULL, N_ ("Ceiling joists"), N_ ("On center"), DRY_FIELD_LENGTH, AT (DryRoom, joist_spacing),
     0, IN (96), .zero_text = N_ ("unknown")},
    {NULL, N_ ("Exhaust fan, L/s"), N_ ("Ducted outdoors; 25 L/s is about 50 cfm; 0 = not known"),
     DRY_FIELD_NUMBER, AT (DryRoom, fan), .number_low = 0, .number_high = 500, .step = 1,
     .digits = 1},
    {NULL, N_ ("Steam room"), NULL, DRY_FIELD_BOOLEAN, AT (DryRoom, steam)},
    {NULL, N_ ("Slope of the ceiling"), NULL, DRY_FIELD_NUMBER, AT (DryRoom, ceiling_slope),
     SLOPE (1), .zero_text = N_ ("level"), .is_shown = is_steam},
    {NULL, N_ ("Damp substrate"), N_ ("Studs or floor not dry yet"), DRY_FIELD_BOOLEAN,
     AT (DryRoom, damp)},
    {N_ ("Floor"), N_ ("Timber floor"), NULL, DRY_FIELD_BOOLEAN, AT (DryRoom, timber_floor)},
    {NULL, N_ ("Floor waterproofed"), N_ ("Outside the tub or shower too"), DRY_FIELD_BOOLEAN,
     AT (DryRoom, floor_protected)},
    {NULL, N_ ("Stone on the floor"), NULL, DRY_FIELD_BOOLEAN, AT (DryRoom, floor_stone)},
    {NULL, N_ ("I-joists"), N_ ("Instead of sawn joists"), DRY_FIELD_BOOLEAN,
     AT (DryRoom, floor_i_joists), .is_shown = has_timber_floor},
    {NULL, N_ ("Joist depth"), N_ ("2 x 10 is 9 1/4\""), DRY_FIELD_LENGTH,
     AT (DryRoom, floor_joist_depth), 0, IN (40), .zero_text = N_ ("unknown"),
     .is_shown = has_timber_floor},
    {NULL, N_ ("Joist spacing"), N_ ("On center"), DRY_FIELD_LENGTH,
     AT (DryRoom, floor_joist_spacing), 0, IN (96), .zero_text = N_ ("unknown"),
     .is_shown = has_timber_floor},
    {NULL, N_ ("Joist span"), N_ ("Clear, between supports"), DRY_FIELD_LENGTH,
     AT (DryRoom, floor_joist_span), 0, IN (480), .zero_text = N_ ("unknown"),
     .is_shown = has_timber_floor},
    {NULL, N_ ("Joist stiffness, MPa"), N_ ("1.4 million psi is 9650 MPa; 0 = not known"),
     DRY_FIELD_NUMBER, AT (DryRoom, floor_joist_stiffness), .number_low = 0, .number_high = 30000,
     .step = 50, .digits = 0, .is_shown = has_timber_floor},
    {NULL, N_ ("Floor tile, longer edge"), N_ ("In the shower"), DRY_FIELD_LENGTH,
     AT (DryRoom, floor_tile), 0, IN (120), .zero_text = N_ ("none")},
    {NULL, N_ ("Floor tile, wet DCOF"), N_ ("From its data sheet; 0 = not known"), DRY_FIELD_NUMBER,
     AT (DryRoom, floor_dcof), .number_low = 0, .number_high = 2, .step = 0.01, .digits = 2},
    {N_ ("Beside the wet area"), N_ ("Toilet, center to the side"),
     N_ ("To the nearest finish or fixture"), DRY_FIELD_LENGTH, AT (DryRoom, toilet_side), 0,
     IN (200), .zero_text = N_ ("none")},
    {NULL, N_ ("Toilet, clear before it"), NULL, DRY_FIELD_LENGTH, AT (DryRoom, toilet_front), 0,
     IN (200), .zero_text = N_ ("none")},
    {NULL, N_ ("Clear floor before the tub or shower"), NULL, DRY_FIELD_LENGTH,
     AT (DryRoom, shower_front), 0, IN (400), .zero_text = N_ ("unknown")},
    {NULL, N_ ("Hanging light, above the rim"), N_ ("Its lowest part above rim or threshold"),
     DRY_FIELD_LENGTH, AT (DryRoom, light_above), 0, IN (400), .zero_text = N_ ("none")},
    {NULL, N_ ("Hanging light, from the water"), N_ ("On the plan; 0 = over it"), DRY_FIELD_LENGTH,
     AT (DryRoom, light_away), 0, IN (400), .zero_text = N_ ("over it")},
    {NULL, N_ ("Receptacle, from the water"), N_ ("The nearest one"), DRY_FIELD_LENGTH,
     AT (DryRoom, outlet_away), 0, IN (400), .zero_text = N_ ("none")},
    {NULL, N_ ("Switch within reach of the spray"), NULL, DRY_FIELD_BOOLEAN,
     AT (DryRoom, switch_inside)},
    {NULL, N_ ("Hottest water at the shower"), N_ ("Empty = not measured"), DRY_FIELD_NUMBER,
     AT (DryRoom, hot_water), .number_low = 0, .number_high = 100, .step = 1,
     .zero_text = N_ ("not measured"), .is_temperature = TRUE},
};

static const DryField WET[] = {
    {N_ ("Wet wall"), N_ ("Height"), NULL, DRY_FIELD_LENGTH, AT (DryWetZone, height), 0, IN (400),
     .zero_text = N_ ("ceiling")},
    {NULL, N_ ("Past the basin"), NULL, DRY_FIELD_LENGTH, AT (DryWetZone, past), 0, IN (400)},
    {NULL, N_ ("Leg to the floor"), N_ ("Beside the apron or curb"), DRY_FIELD_BOOLEAN,
     AT (DryWetZone, leg)},
    {NULL, N_ ("Ceiling too"), N_ ("Tiled over the basin"), DRY_FIELD_BOOLEAN,
     AT (DryWetZone, ceiling)},
};

static const DryField FINISH[] = {
    {N_ ("Tile"), N_ ("Tiled"), NULL, DRY_FIELD_BOOLEAN, AT (DryFinish, tiled)},
    {NULL, N_ ("Width"), NULL, DRY_FIELD_LENGTH, AT (DryFinish, tile_width), IN (0.25), IN (144),
     .is_shown = is_tiled},
    {NULL, N_ ("Height"), NULL, DRY_FIELD_LENGTH, AT (DryFinish, tile_height), IN (0.25), IN (144),
     .is_shown = is_tiled},
    {NULL, N_ ("Thickness"), NULL, DRY_FIELD_LENGTH, AT (DryFinish, tile_thickness), IN (0.0625),
     IN (4), .is_shown = is_tiled},
    {NULL, N_ ("Joint"), NULL, DRY_FIELD_LENGTH, AT (DryFinish, joint), 0, IN (2),
     .is_shown = is_tiled},
    {NULL, N_ ("Mortar bed"), NULL, DRY_FIELD_LENGTH, AT (DryFinish, mortar), 0, IN (4),
     .is_shown = is_tiled},
    {NULL, N_ ("Pattern"), NULL, DRY_FIELD_CHOICE, AT (DryFinish, pattern), .choices = PATTERNS,
     .is_shown = is_tiled},
    {NULL, N_ ("Offset"), N_ ("Share of the tile's length"), DRY_FIELD_NUMBER,
     AT (DryFinish, offset), .number_low = 0, .number_high = 0.5, .step = 0.05, .digits = 2,
     .is_shown = is_offset},
    {NULL, N_ ("Courses step on"), N_ ("Each by the offset, instead of there and back"),
     DRY_FIELD_BOOLEAN, AT (DryFinish, stepped), .is_shown = is_offset},
    {NULL, N_ ("Joint from"), N_ ("The width may be chosen from here"), DRY_FIELD_LENGTH,
     AT (DryFinish, joint_min), 0, IN (2), .zero_text = N_ ("as set"), .is_shown = is_in_courses},
    {NULL, N_ ("Joint to"), N_ ("up to here, where that cuts better"), DRY_FIELD_LENGTH,
     AT (DryFinish, joint_max), 0, IN (2), .zero_text = N_ ("as set"), .is_shown = is_in_courses},
    {NULL, N_ ("Courses turn inside corners"), N_ ("With the rest of the tile cut there"),
     DRY_FIELD_BOOLEAN, AT (DryFinish, wrap), .is_shown = is_in_courses},
    {NULL, N_ ("Whole tile at the open edge"), N_ ("The cut goes into the corner"),
     DRY_FIELD_BOOLEAN, AT (DryFinish, whole_outer), .is_shown = is_in_courses},
    {NULL, N_ ("Level line set"), N_ ("Instead of the best one for the cuts"), DRY_FIELD_BOOLEAN,
     AT (DryFinish, level_set), .is_shown = is_tiled},
    {NULL, N_ ("Level line"), N_ ("A course starts at this height"), DRY_FIELD_LENGTH,
     AT (DryFinish, level), 0, IN (400), .is_shown = has_level},
    {NULL, N_ ("Faces vary by"), N_ ("Largest tile less smallest, as measured"), DRY_FIELD_LENGTH,
     AT (DryFinish, variation), 0, IN (1), .zero_text = N_ ("not measured"), .is_shown = is_tiled},
    {NULL, N_ ("Niche edge off a joint by"), N_ ("As far is still on it"), DRY_FIELD_LENGTH,
     AT (DryFinish, niche_tolerance), 0, IN (4), .zero_text = N_ ("as the rules say"),
     .is_shown = is_in_courses},
    {NULL, N_ ("Chips across a sheet"), N_ ("Mosaic on mesh; 0 = as the catalog says"),
     DRY_FIELD_INTEGER, AT (DryFinish, chips_across), .number_low = 0, .number_high = 200,
     .step = 1, .digits = 0, .is_shown = is_small_tile},
    {NULL, N_ ("Chips up a sheet"), NULL, DRY_FIELD_INTEGER, AT (DryFinish, chips_up),
     .number_low = 0, .number_high = 200, .step = 1, .digits = 0, .is_shown = is_small_tile},
    {NULL, N_ ("In a box"), N_ ("Tiles or sheets; 0 = as the catalog says"), DRY_FIELD_INTEGER,
     AT (DryFinish, box), .number_low = 0, .number_high = DRY_MAX_COUNT, .step = 1, .digits = 0,
     .is_shown = is_tiled},
    {NULL, N_ ("Spare tile, %"), N_ ("For breakage and repairs; 0 = as the catalog says"),
     DRY_FIELD_NUMBER, AT (DryFinish, breakage), .number_low = 0, .number_high = 100, .step = 1,
     .digits = 1, .is_shown = is_tiled},
    {NULL, N_ ("Mortar"), N_ ("What the tile is set in"), DRY_FIELD_CHOICE,
     AT (DryFinish, mortar_kind), .choices = MORTARS, .is_shown = is_tiled},
    {NULL, N_ ("Edge trim, depth"), NULL, DRY_FIELD_LENGTH, AT (DryFinish, trim), 0, IN (4),
     .zero_text = N_ ("none"), .is_shown = is_tiled},
    {N_ ("As built"), N_ ("Mortar coverage found, %"), N_ ("Lift three tiles; 0 = not checked"),
     DRY_FIELD_NUMBER, AT (DryFinish, coverage), .number_low = 0, .number_high = 100, .step = 1,
     .digits = 0, .is_shown = is_tiled},
    {NULL, N_ ("Membrane used, L"), N_ ("From the empty pails; 0 = not recorded"), DRY_FIELD_NUMBER,
     AT (DryFinish, membrane_used), .number_low = 0, .number_high = 1000, .step = 0.5, .digits = 1},
    {NULL, N_ ("Listing of the membrane missing"),
     N_ ("Nobody can show the inspector ANSI A118.10 papers"), DRY_FIELD_BOOLEAN,
     AT (DryFinish, no_listing)},
    {NULL, N_ ("Makers mixed"), N_ ("Without a letter that the parts go together"),
     DRY_FIELD_BOOLEAN, AT (DryFinish, mixed_makers)},
    {NULL, N_ ("Drywall screws or plain mesh"),
     N_ ("Instead of coated screws and alkali-resistant mesh"), DRY_FIELD_BOOLEAN,
     AT (DryFinish, plain_screws)},
    {NULL, N_ ("Gap at the tub filled with mortar"), N_ ("Instead of what the system says"),
     DRY_FIELD_BOOLEAN, AT (DryFinish, gap_mortar)},
    {NULL, N_ ("Tiles on order"), N_ ("Sheets, for mosaic; 0 = not recorded"), DRY_FIELD_INTEGER,
     AT (DryFinish, tiles_ordered), .number_low = 0, .number_high = 1000000, .step = 1, .digits = 0,
     .is_shown = is_tiled},
    {NULL, N_ ("Boxes of several dye lots"), N_ ("The lot is printed on the box"),
     DRY_FIELD_BOOLEAN, AT (DryFinish, mixed_lots), .is_shown = is_tiled},
    {NULL, N_ ("Grouted after, hours"), N_ ("From the last tile; 0 = as the schedule has it"),
     DRY_FIELD_NUMBER, AT (DryFinish, grout_after), .number_low = 0, .number_high = 10000,
     .step = 1, .digits = 0, .is_shown = is_tiled},
    {NULL, N_ ("First shower after, hours"), N_ ("From grouting; 0 = as the schedule has it"),
     DRY_FIELD_NUMBER, AT (DryFinish, water_after), .number_low = 0, .number_high = 10000,
     .step = 1, .digits = 0, .is_shown = is_tiled},
    {NULL, N_ ("Guard strip behind the sealant"),
     N_ ("Keeps a knife off the band when the joint is renewed"), DRY_FIELD_BOOLEAN,
     AT (DryFinish, cut_guard)},
};

static const DryField WALL[] = {
    {N_ ("Wall"), N_ ("Name"), NULL, DRY_FIELD_TEXT, AT (DryWall, name)},
    {NULL, N_ ("Length"), N_ ("Between stud faces; the next wall follows"), DRY_FIELD_LENGTH, 0,
     IN (1), IN (2000), .is_shown = is_outline_wall, .get = get_wall_length,
     .set = set_wall_length},
    {NULL, N_ ("Width at the back"), N_ ("Between stud faces; the side walls taper to the front's"),
     DRY_FIELD_LENGTH, 0, IN (1), IN (1000), .is_shown = dry_is_alcove_back,
     .get = dry_get_width_back, .set = dry_set_width_back},
    {NULL, N_ ("Width in the middle"), N_ ("The tightest of the three governs"), DRY_FIELD_LENGTH,
     0, IN (1), IN (1000), .is_shown = dry_is_alcove_back, .get = dry_get_width_middle,
     .set = dry_set_width_middle},
    {NULL, N_ ("Width at the front"), N_ ("At the front of the tub or pan, else of the side walls"),
     DRY_FIELD_LENGTH, 0, IN (1), IN (1000), .is_shown = dry_is_alcove_back,
     .get = dry_get_width_front, .set = dry_set_width_front},
    {NULL, N_ ("Height"), NULL, DRY_FIELD_LENGTH, AT (DryWall, height), 0, IN (400),
     .zero_text = N_ ("ceiling")},
    {NULL, N_ ("Thickness"), N_ ("Stud to stud"), DRY_FIELD_LENGTH, AT (DryWall, thickness), 0,
     IN (48), .zero_text = N_ ("stud"), .is_shown = is_added_wall},
    {NULL, N_ ("Plumbing wall"), N_ ("Drywall is in place; the board butts against it"),
     DRY_FIELD_BOOLEAN, AT (DryWall, plumbing)},
    {NULL, N_ ("Bearing"), NULL, DRY_FIELD_BOOLEAN, AT (DryWall, bearing)},
    {NULL, N_ ("Fire-rated"), NULL, DRY_FIELD_BOOLEAN, AT (DryWall, fire_rated)},
    {NULL, N_ ("Exterior"), NULL, DRY_FIELD_BOOLEAN, AT (DryWall, exterior)},
    {NULL, N_ ("Insulation left"), NULL, DRY_FIELD_LENGTH, AT (DryWall, insulation), 0, IN (24),
     .is_shown = is_exterior_wall},
    {NULL, N_ ("Sealed air barrier"), N_ ("Behind the tub, before it is set"), DRY_FIELD_BOOLEAN,
     AT (DryWall, air_barrier), .is_shown = is_exterior_wall},
    {NULL, N_ ("Polyethylene behind"), NULL, DRY_FIELD_BOOLEAN, AT (DryWall, vapour_barrier)},
    {NULL, N_ ("Lining"), N_ ("Drywall or plaster outside the wet area"), DRY_FIELD_LENGTH,
     AT (DryWall, lining), 0, IN (4)},
    {NULL, N_ ("Ends of the tile"), N_ ("Balanced cuts, or a whole tile at the open edge"),
     DRY_FIELD_CHOICE, AT (DryWall, tile_ends), .choices = TILE_ENDS, .is_shown = room_is_tiled},
    {NULL, N_ ("Tile start set"), N_ ("Instead of balanced between the corners"), DRY_FIELD_BOOLEAN,
     AT (DryWall, tile_set), .is_shown = room_is_tiled},
    {NULL, N_ ("Tile starts at"), N_ ("Left edge of a whole tile, from the wall's left end"),
     DRY_FIELD_LENGTH, AT (DryWall, tile_from), IN (-400), IN (2000), .is_shown = has_tile_start},
    {N_ ("Studs"), N_ ("Spacing"), N_ ("On center"), DRY_FIELD_LENGTH, AT (DryWall, stud_spacing),
     IN (4), IN (96), .is_shown = is_regular_wall},
    {NULL, N_ ("First stud"), N_ ("Center, from the wall's left end"), DRY_FIELD_LENGTH,
     AT (DryWall, first_stud), 0, IN (96), .is_shown = is_regular_wall},
    {NULL, N_ ("Width"), NULL, DRY_FIELD_LENGTH, AT (DryWall, stud_width), IN (0.5), IN (12)},
    {NULL, N_ ("Depth"), NULL, DRY_FIELD_LENGTH, AT (DryWall, stud_depth), IN (0.5), IN (24)},
    {NULL, N_ ("Steel"), NULL, DRY_FIELD_BOOLEAN, AT (DryWall, steel_studs)},
    {N_ ("As measured"), N_ ("Out of flat"), N_ ("Under a 10 ft straightedge"), DRY_FIELD_LENGTH,
     AT (DryWall, plane_error), 0, IN (4)},
    {NULL, N_ ("Out of plumb"), N_ ("Over the height; more at the top is positive"),
     DRY_FIELD_LENGTH, AT (DryWall, plumb_error), -IN (12), IN (12)},
    {NULL, N_ ("Corner taper"), N_ ("At the right end, over the height"), DRY_FIELD_LENGTH,
     AT (DryWall, square_error), -IN (12), IN (12)},
    {NULL, N_ ("Pitch of the cap"), N_ ("Half walls; toward the wet side"), DRY_FIELD_NUMBER,
     AT (DryWall, cap_pitch), SLOPE (0.2), .is_shown = is_half_wall},
};

static const DryField BASIN[] = {
    {N_ ("Place"), N_ ("From the wall's left end"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, along),
     -IN (400), IN (2000)},
    {NULL, N_ ("Out from the studs"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, away), 0, IN (2000)},
    {NULL, N_ ("Turned"), N_ ("Its length runs out from the wall"), DRY_FIELD_BOOLEAN,
     AT (DryBasin, turned)},
    {N_ ("Size"), N_ ("Length"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, length), IN (12), IN (240)},
    {NULL, N_ ("Width"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, width), IN (12), IN (240)},
    {NULL, N_ ("Rim height"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, height), IN (1), IN (60),
     .is_shown = is_tub},
    {NULL, N_ ("Curb height"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, height), 0, IN (24),
     .zero_text = N_ ("no curb"), .is_shown = is_pan},
    {NULL, N_ ("Flange"), N_ ("Lip turned up at the walls"), DRY_FIELD_LENGTH,
     AT (DryBasin, flange), 0, IN (6), .zero_text = N_ ("none")},
    {NULL, N_ ("Flange proud of studs"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, flange_thickness), 0,
     IN (2), .zero_text = N_ ("let in")},
    {NULL, N_ ("Drop-in"), N_ ("Let into a framed deck"), DRY_FIELD_BOOLEAN, AT (DryBasin, drop_in),
     .is_shown = is_tub},
    {NULL, N_ ("Out of level"), N_ ("Over its length"), DRY_FIELD_LENGTH, AT (DryBasin, rim_error),
     0, IN (4)},
    {NULL, N_ ("Recess"), N_ ("Let into the joists"), DRY_FIELD_LENGTH, AT (DryBasin, recess), 0,
     IN (12), .zero_text = N_ ("none"), .is_shown = is_pan},
    {N_ ("Drain"), N_ ("Drain end"), NULL, DRY_FIELD_CHOICE, AT (DryBasin, drain), .choices = ENDS},
    {NULL, N_ ("Waste pipe"), NULL, DRY_FIELD_LENGTH, AT (DryBasin, drain_diameter), IN (0.5),
     IN (8)},
    {N_ ("Floor of the shower"), N_ ("Slope of the floor"), N_ ("To the drain"), DRY_FIELD_NUMBER,
     AT (DryBasin, slope), SLOPE (0.2), .zero_text = N_ ("not known"), .is_shown = is_pan},
    {NULL, N_ ("Linear drain"), NULL, DRY_FIELD_BOOLEAN, AT (DryBasin, linear_drain),
     .is_shown = is_pan},
    {NULL, N_ ("Cut-off corner"), N_ ("Neo-angle: each leg cut off the open corner"),
     DRY_FIELD_LENGTH, AT (DryBasin, corner_cut), 0, IN (60), .zero_text = N_ ("none"),
     .is_shown = is_pan},
    {NULL, N_ ("Mortar floor made on site"), N_ ("Instead of a ready-made pan"), DRY_FIELD_BOOLEAN,
     AT (DryBasin, site_built), .is_shown = is_pan},
    {NULL, N_ ("Liner under the bed"), N_ ("Instead of a membrane on top"), DRY_FIELD_BOOLEAN,
     AT (DryBasin, liner), .is_shown = is_site_built},
    {NULL, N_ ("Liner laid on a slope"), NULL, DRY_FIELD_BOOLEAN, AT (DryBasin, pre_slope),
     .is_shown = has_liner},
    {NULL, N_ ("Weep holes kept open"), NULL, DRY_FIELD_BOOLEAN, AT (DryBasin, weeps_open),
     .is_shown = has_liner},
    {NULL, N_ ("Liner above the threshold"), N_ ("How far it is turned up the walls"),
     DRY_FIELD_LENGTH, AT (DryBasin, liner_turn_up), 0, IN (40), .zero_text = N_ ("unknown"),
     .is_shown = is_site_built},
    {NULL, N_ ("Clamping drain"), N_ ("Off: bonding flange"), DRY_FIELD_BOOLEAN,
     AT (DryBasin, clamping_drain), .is_shown = is_site_built},
    {NULL, N_ ("Curb wrapped"), N_ ("Membrane over it, down outside, 3 in up the jambs"),
     DRY_FIELD_BOOLEAN, AT (DryBasin, curb_wrapped), .is_shown = is_site_built},
    {NULL, N_ ("Pitch of the curb"), N_ ("Inward"), DRY_FIELD_NUMBER, AT (DryBasin, curb_pitch),
     SLOPE (0.2), .is_shown = is_site_built},
    {NULL, N_ ("Temporary dam for the test"),
     N_ ("Curbless: 2 in of water need something to stand against"), DRY_FIELD_BOOLEAN,
     AT (DryBasin, dam), .is_shown = is_pan},
};

static const DryField OPENING[] = {
    {N_ ("Opening"), N_ ("From the wall's left end"), NULL, DRY_FIELD_LENGTH, AT (DryOpening, u), 0,
     IN (2000)},
    {NULL, N_ ("Sill above the floor"), NULL, DRY_FIELD_LENGTH, AT (DryOpening, z), 0, IN (400),
     .is_shown = is_window},
    {NULL, N_ ("Width"), NULL, DRY_FIELD_LENGTH, AT (DryOpening, width), IN (4), IN (400)},
    {NULL, N_ ("Height"), NULL, DRY_FIELD_LENGTH, AT (DryOpening, height), IN (4), IN (400)},
    {NULL, N_ ("Safety glass"), N_ ("Marked as tempered or laminated"), DRY_FIELD_BOOLEAN,
     AT (DryOpening, safety_glass), .is_shown = is_window},
    {NULL, N_ ("Sloped sill"), N_ ("Pitched to the wet side"), DRY_FIELD_BOOLEAN,
     AT (DryOpening, sloped_sill), .is_shown = is_window},
    {NULL, N_ ("Wooden jamb"), NULL, DRY_FIELD_BOOLEAN, AT (DryOpening, wooden_jamb),
     .is_shown = is_window},
};

#define BOXES   (KIND (NICHE) | KIND (BENCH) | KIND (PIPE) | KIND (VENT) | KIND (CABLE))
#define POINTS  (KIND (VALVE) | KIND (SPOUT) | KIND (SHOWER_HEAD) | KIND (HAND_SHOWER))
#define HEADS   (KIND (SHOWER_HEAD) | KIND (HAND_SHOWER))
#define PITCHED (KIND (NICHE) | KIND (BENCH))

static const DryField PART[] = {
    {N_ ("Place"), N_ ("From the left end"), N_ ("To its left edge"), DRY_FIELD_LENGTH, 0,
     -IN (400), IN (2000), .kinds = BOXES | KIND (GRAB_BAR), .get = get_part_left,
     .set = set_part_left},
    {NULL, N_ ("From the right end"), N_ ("To its right edge"), DRY_FIELD_LENGTH, 0, -IN (400),
     IN (2000), .kinds = BOXES | KIND (GRAB_BAR), .get = get_part_right, .set = set_part_right},
    {NULL, N_ ("Center from the left end"), NULL, DRY_FIELD_LENGTH, AT (DryPart, u), -IN (400),
     IN (2000)},
    {NULL, N_ ("Bottom above the floor"), NULL, DRY_FIELD_LENGTH, AT (DryPart, z), 0, IN (400),
     .kinds = KIND (NICHE) | KIND (GLASS) | KIND (PIPE) | KIND (VENT) | KIND (CABLE)},
    {NULL, N_ ("Center above the floor"), NULL, DRY_FIELD_LENGTH, AT (DryPart, z), 0, IN (400),
     .kinds = POINTS},
    {NULL, N_ ("Top above the floor"), NULL, DRY_FIELD_LENGTH, AT (DryPart, z), 0, IN (400),
     .kinds = KIND (GRAB_BAR) | KIND (BENCH)},
    {N_ ("Size"), N_ ("Width"), NULL, DRY_FIELD_LENGTH, AT (DryPart, width), IN (0.25), IN (400),
     .kinds = BOXES},
    {NULL, N_ ("Length"), NULL, DRY_FIELD_LENGTH, AT (DryPart, width), IN (4), IN (144),
     .kinds = KIND (GRAB_BAR)},
    {NULL, N_ ("Out from the wall"), NULL, DRY_FIELD_LENGTH, AT (DryPart, width), IN (1), IN (144),
     .kinds = KIND (GLASS)},
    {NULL, N_ ("Height"), NULL, DRY_FIELD_LENGTH, AT (DryPart, height), IN (0.25), IN (400),
     .kinds = BOXES | KIND (GLASS)},
    {NULL, N_ ("Depth"), N_ ("Into the wall"), DRY_FIELD_LENGTH, AT (DryPart, depth), IN (0.25),
     IN (48), .kinds = KIND (NICHE) | KIND (PIPE) | KIND (VENT) | KIND (CABLE)},
    {NULL, N_ ("Seat depth"), NULL, DRY_FIELD_LENGTH, AT (DryPart, depth), IN (4), IN (60),
     .kinds = KIND (BENCH)},
    {NULL, N_ ("Thickness"), NULL, DRY_FIELD_LENGTH, AT (DryPart, depth), IN (0.125), IN (2),
     .kinds = KIND (GLASS)},
    {NULL, N_ ("Hole in the board"), NULL, DRY_FIELD_LENGTH, AT (DryPart, hole), 0, IN (12),
     .zero_text = N_ ("none"), .kinds = POINTS},
    {N_ ("Finished wall its trim takes"), N_ ("From"), N_ ("From the stud face"), DRY_FIELD_LENGTH,
     AT (DryPart, trim_min), 0, IN (12), .zero_text = N_ ("not known"), .kinds = KIND (VALVE)},
    {NULL, N_ ("To"), N_ ("From the stud face"), DRY_FIELD_LENGTH, AT (DryPart, trim_max), 0,
     IN (12), .zero_text = N_ ("not known"), .kinds = KIND (VALVE)},
    {N_ ("Make"), N_ ("Built on site"), N_ ("Framed and lined with board"), DRY_FIELD_BOOLEAN,
     AT (DryPart, site_built), .kinds = KIND (NICHE)},
    {NULL, N_ ("Box width"), N_ ("Behind the board"), DRY_FIELD_LENGTH, AT (DryPart, body_width),
     IN (1), IN (96), .kinds = KIND (NICHE), .is_shown = is_ready_made},
    {NULL, N_ ("Box height"), N_ ("Behind the board"), DRY_FIELD_LENGTH, AT (DryPart, body_height),
     IN (1), IN (96), .kinds = KIND (NICHE), .is_shown = is_ready_made},
    {NULL, N_ ("Pitch of the floor"), N_ ("Fall toward the room"), DRY_FIELD_NUMBER,
     AT (DryPart, pitch), SLOPE (0.2), .kinds = PITCHED},
    {NULL, N_ ("Folds down"), N_ ("Hung on blocking"), DRY_FIELD_BOOLEAN, AT (DryPart, fold_down),
     .kinds = KIND (BENCH)},
    {NULL, N_ ("Safety glass"), N_ ("Marked as tempered or laminated"), DRY_FIELD_BOOLEAN,
     AT (DryPart, safety_glass), .kinds = KIND (GLASS)},
    {NULL, N_ ("Door"), N_ ("Hinged"), DRY_FIELD_BOOLEAN, AT (DryPart, hinged),
     .kinds = KIND (GLASS)},
    {NULL, N_ ("Aims at the entry"), N_ ("Its spray meets whoever opens the shower"),
     DRY_FIELD_BOOLEAN, AT (DryPart, toward_entry), .kinds = HEADS},
    {NULL, N_ ("Flow, L/min"), NULL, DRY_FIELD_NUMBER, AT (DryPart, flow_lpm), .number_low = 0,
     .number_high = 60, .step = 0.5, .digits = 1, .kinds = HEADS},
    {NULL, N_ ("Channel screwed to the curb"), NULL, DRY_FIELD_BOOLEAN, AT (DryPart, screwed_down),
     .kinds = KIND (GLASS)},
    {NULL, N_ ("Ordered before tiling"), NULL, DRY_FIELD_BOOLEAN, AT (DryPart, ordered_early),
     .kinds = KIND (GLASS)},
    {NULL, N_ ("Name"), NULL, DRY_FIELD_TEXT, AT (DryPart, label)},
};

const DryField *
dry_fields_list (DrySubjectKind kind, guint *n)
{
  static const struct {
    const DryField *fields;
    guint n;
  } TABLES[] = {
      [DRY_SUBJECT_JOB] = {JOB, G_N_ELEMENTS (JOB)},
      [DRY_SUBJECT_ROOM] = {ROOM, G_N_ELEMENTS (ROOM)},
      [DRY_SUBJECT_WET] = {WET, G_N_ELEMENTS (WET)},
      [DRY_SUBJECT_FINISH] = {FINISH, G_N_ELEMENTS (FINISH)},
      [DRY_SUBJECT_WALL] = {WALL, G_N_ELEMENTS (WALL)},
      [DRY_SUBJECT_BASIN] = {BASIN, G_N_ELEMENTS (BASIN)},
      [DRY_SUBJECT_OPENING] = {OPENING, G_N_ELEMENTS (OPENING)},
      [DRY_SUBJECT_PART] = {PART, G_N_ELEMENTS (PART)},
  };

  *n = TABLES[kind].n;
  return TABLES[kind].fields;
}
