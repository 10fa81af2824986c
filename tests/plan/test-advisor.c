/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bands of niches against a check of single places written from the trade's rules: studs counted
 * from the wall's own spacing, areas by overlay. It shares no code with the advisor. */
#include "plan/advisor.h"
#include "plan/rule-room.h"

/* --- the check --- */

typedef struct {
  const DryPlan *plan; /* of the room without the niche */
  const DryRoom *room;
  const DryPart *niche;
  const DryFace *face;
  const DryWall *wall;
  DryLength build_up;
} Check;

typedef struct {
  DryLength u0, u1;
} Wood;

static gint
compare_wood (gconstpointer a, gconstpointer b)
{
  const Wood *x = a, *y = b;

  return (x->u0 > y->u0) - (x->u0 < y->u0);
}

/* Uprights as a carpenter would find them, left to right on this side. */
static GArray *
find_wood (const Check *check)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Wood));
  g_autoptr (GArray) raw = g_array_new (FALSE, FALSE, sizeof (Wood));
  const DryWall *wall = check->wall;
  DryLength length = check->face->length, w = wall->stud_width;
  DryLength spacing = wall->stud_spacing ? wall->stud_spacing : 16 * DRY_INCH;
  Wood ends[] = {{0, w}, {length - w, length}};

  if (wall->n_found_studs)
    for (guint i = 0; i < wall->n_found_studs; i++) {
      Wood stud = {wall->found_studs[i] - w / 2, wall->found_studs[i] + w / 2};
      g_array_append_val (raw, stud);
    }
  else
    for (DryLength at = wall->first_stud ? wall->first_stud : spacing; at < length; at += spacing) {
      Wood stud = {at - w / 2, at + w / 2};
      g_array_append_val (raw, stud);
    }
  for (guint i = 0; i < check->room->n_openings; i++) {
    const DryOpening *o = &check->room->openings[i];
    Wood sides[] = {{o->u - w, o->u}, {o->u + o->width, o->u + o->width + w}};
    if (o->wall != wall->id)
      continue;
    for (guint k = raw->len; o->kind != DRY_OPENING_WINDOW && k-- > 0;) {
      Wood stud = g_array_index (raw, Wood, k);
      if (stud.u0 >= o->u - w / 2 && stud.u1 <= o->u + o->width + w / 2)
        g_array_remove_index (raw, k);
    }
    g_array_append_vals (raw, sides, 2);
  }
  g_array_append_vals (raw, ends, 2);
  for (guint i = 0; check->face->side == DRY_SIDE_OUTSIDE && i < raw->len; i++) {
    Wood *stud = &g_array_index (raw, Wood, i);
    *stud = (Wood){length - stud->u1, length - stud->u0};
  }
  g_array_sort (raw, compare_wood);
  for (guint i = 0; i < raw->len; i++) {
    Wood stud = g_array_index (raw, Wood, i);
    Wood *last = all->len ? &g_array_index (all, Wood, all->len - 1) : NULL;
    if (last && stud.u0 <= last->u1)
      last->u1 = MAX (last->u1, stud.u1);
    else
      g_array_append_val (all, stud);
  }
  return all;
}

static gboolean
overlap (DryLength a0, DryLength a1, DryLength b0, DryLength b1)
{
  return a0 < b1 && b0 < a1;
}

/* Boarded all over: nothing of the rough opening lies outside the region, openings of other things
 * left aside. */
static gboolean
is_all_boarded (const Check *check, DryRect rough)
{
  g_autoptr (DryArena) arena = dry_arena_new ();
  DryRegion rest = dry_region_from_rect (arena, rough);

  rest = dry_region_difference (arena, &rest, &check->face->region);
  for (guint i = 0; i < check->face->n_cutouts; i++) {
    DryRegion hole = dry_region_from_rect (arena, check->face->cutouts[i].rough);
    rest = dry_region_difference (arena, &rest, &hole);
  }
  return dry_region_is_empty (&rest);
}

static DryRect
seen (const Check *check, const DryPart *part)
{
  DryRect r = dry_part_rect (part);

  if (part->side != check->face->side)
    r = (DryRect){check->face->length - r.x1, r.y0, check->face->length - r.x0, r.y1};
  return r;
}

static gboolean
hits_stud (const Check *check, const GArray *wood, DryRect body)
{
  gboolean ready = check->niche->body_width > 0;

  for (guint i = 0; i < wood->len; i++) {
    Wood stud = g_array_index (wood, Wood, i);
    gboolean fixed = i == 0 || i + 1 == wood->len;
    for (guint o = 0; o < check->room->n_openings; o++) {
      const DryOpening *opening = &check->room->openings[o];
      DryLength left = opening->u, right = opening->u + opening->width;
      if (opening->wall != check->wall->id)
        continue;
      if (check->face->side == DRY_SIDE_OUTSIDE) {
        DryLength swap = left;
        left = check->face->length - right;
        right = check->face->length - swap;
      }
      fixed |= (stud.u0 <= left && left <= stud.u1) || (stud.u0 <= right && right <= stud.u1);
    }
    if (overlap (stud.u0, stud.u1, body.x0, body.x1) && (ready || check->wall->bearing || fixed))
      return TRUE;
  }
  return FALSE;
}

/* A ready-made box wants 1/4 in over its size; pipes anywhere in its bay are in its way. */
static gboolean
bay_refuses (const Check *check, const GArray *wood, DryRect body)
{
  DryLength middle = body.x0 + (body.x1 - body.x0) / 2, u0 = body.x0, u1 = body.x1;
  gboolean in_bay = FALSE;

  for (guint i = 0; i + 1 < wood->len; i++) {
    DryLength left = g_array_index (wood, Wood, i).u1, right = g_array_index (wood, Wood, i + 1).u0;
    if (left > middle || right < middle)
      continue;
    in_bay = TRUE;
    u0 = MIN (u0, left);
    u1 = MAX (u1, right);
    if (check->niche->body_width > 0 && right - left < body.x1 - body.x0 + DRY_INCH / 4)
      return TRUE;
  }
  if (check->niche->body_width > 0 && !in_bay)
    return TRUE;
  for (guint i = 0; i < check->room->n_parts; i++) {
    const DryPart *part = &check->room->parts[i];
    DryRect r = seen (check, part);
    if ((part->kind == DRY_PART_PIPE || part->kind == DRY_PART_VENT ||
         part->kind == DRY_PART_CABLE) &&
        part->wall == check->wall->id && overlap (r.x0, r.x1, u0, u1) &&
        overlap (r.y0, r.y1, body.y0, body.y1))
      return TRUE;
  }
  return FALSE;
}

static gboolean
meets_part (const Check *check, DryRect body)
{
  for (guint i = 0; i < check->room->n_parts; i++) {
    const DryPart *part = &check->room->parts[i];
    DryRect r = dry_part_rect (part);
    if (part->wall == check->wall->id && part->side == check->face->side &&
        part->kind != DRY_PART_PIPE && part->kind != DRY_PART_VENT &&
        part->kind != DRY_PART_CABLE && overlap (r.x0, r.x1, body.x0, body.x1) &&
        overlap (r.y0, r.y1, body.y0, body.y1))
      return TRUE;
  }
  for (guint i = 0; i < check->room->n_openings; i++) {
    const DryOpening *o = &check->room->openings[i];
    DryLength u0 =
        check->face->side == DRY_SIDE_OUTSIDE ? check->face->length - o->u - o->width : o->u;
    if (o->wall == check->wall->id && overlap (u0, u0 + o->width, body.x0, body.x1) &&
        overlap (o->z, o->z + o->height, body.y0, body.y1))
      return TRUE;
  }
  return FALSE;
}

static DryLength
depth_in_wall (const Check *check, const DryPart *niche)
{
  return MAX (0, niche->depth - (niche->body_width > 0 ? check->plan->context.build_up.board : 0));
}

/* What stands behind the board: the ready-made box in the middle of its opening, or what is left
 * open for the lining. */
static DryRect
box_of (const Check *check, const DryPart *niche)
{
  DryRect r = {niche->u - niche->width / 2, niche->z, niche->u - niche->width / 2 + niche->width,
               niche->z + niche->height};
  DryLength bh = niche->body_height ? niche->body_height : niche->height;

  if (niche->body_width <= 0 || niche->site_built)
    return (DryRect){r.x0 - check->build_up, r.y0 - check->build_up, r.x1 + check->build_up,
                     r.y1 + check->build_up};
  r.x0 += (niche->width - niche->body_width) / 2;
  r.y0 += (niche->height - bh) / 2;
  r.x1 = r.x0 + niche->body_width;
  r.y1 = r.y0 + bh;
  return r;
}

/* May the niche stand with its middle at u and its bottom at z? */
static gboolean
may_stand (const Check *check, DryLength u, DryLength z)
{
  const DryPart *niche = check->niche;
  const DryWall *wall = check->wall;
  DryRect open = {u - niche->width / 2, z, u - niche->width / 2 + niche->width, z + niche->height};
  DryPart there = *niche;
  DryRect body;
  DryLength cavity = wall->added && wall->thickness ? wall->thickness : wall->stud_depth;
  DryLength need = depth_in_wall (check, niche), t = wall->stud_width;
  DryLength plates = (wall->steel_studs ? 1 : 2) * t;
  g_autoptr (GArray) wood = find_wood (check);

  there.u = u;
  there.z = z;
  body = box_of (check, &there);
  if (wall->fire_rated || need > cavity)
    return FALSE;
  if (wall->exterior && MIN (wall->insulation, cavity - need) < DRY_INCH)
    return FALSE;
  if (body.x0 < 0 || body.x1 > check->face->length || body.y0 < t ||
      body.y1 > check->face->height - plates)
    return FALSE;
  if ((check->face->left.face >= 0 && open.x0 < check->build_up) ||
      (check->face->right.face >= 0 && open.x1 > check->face->length - check->build_up))
    return FALSE;
  for (guint i = 0; i < check->room->n_parts; i++) {
    const DryPart *other = &check->room->parts[i];
    DryRect r;
    if (other->kind != DRY_PART_NICHE || other->wall != wall->id ||
        other->side == check->face->side || need + depth_in_wall (check, other) <= cavity)
      continue;
    r = box_of (check, other);
    r = (DryRect){check->face->length - r.x1, r.y0, check->face->length - r.x0, r.y1};
    if (overlap (r.x0, r.x1, body.x0, body.x1) && overlap (r.y0, r.y1, body.y0, body.y1))
      return FALSE;
  }
  return !hits_stud (check, wood, body) && !bay_refuses (check, wood, body) &&
         !meets_part (check, body) && is_all_boarded (check, body);
}

/* --- sampling --- */

static gboolean
in_any (const DryRect *bands, guint n, DryLength u, DryLength z)
{
  for (guint i = 0; i < n; i++)
    if (u >= bands[i].x0 && u <= bands[i].x1 && z >= bands[i].y0 && z <= bands[i].y1)
      return TRUE;
  return FALSE;
}

static guint
compare_at (const Check *check, const DryAdviceFace *face, DryLength u, DryLength z,
            const char *what)
{
  gboolean band, truth;

  if (u < 0 || u > face->length || z < 0 || z > face->height)
    return 0;
  band = in_any (face->legal, face->n_legal, u, z);
  truth = may_stand (check, u, z);
  if (band != truth)
    g_error ("%s, %s: at %.6f in, %.6f in the bands say %s and the check %s", what, face->name,
             dry_length_to_inches (u), dry_length_to_inches (z), band ? "yes" : "no",
             truth ? "yes" : "no");
  return truth;
}

/* Random places, and the edges and corners of every band: on them, just in, just out. */
static guint
compare_face (const Check *check, const DryAdviceFace *face, GRand *rand, const char *what)
{
  static const DryLength steps[] = {-DRY_INCH / 16, -1, 0, 1, DRY_INCH / 16};
  guint legal = 0;

  for (guint i = 0; i < 400; i++)
    legal += compare_at (check, face, (DryLength) (g_rand_double (rand) * (double) face->length),
                         (DryLength) (g_rand_double (rand) * (double) face->height), what);
  for (guint i = 0; i < MIN (face->n_legal, 40u); i++) {
    DryRect band = face->legal[i];
    DryLength us[] = {band.x0, (band.x0 + band.x1) / 2, band.x1};
    DryLength zs[] = {band.y0, (band.y0 + band.y1) / 2, band.y1};
    for (guint a = 0; a < 3; a++)
      for (guint b = 0; b < 3; b++)
        for (guint k = 0; k < G_N_ELEMENTS (steps); k++) {
          legal += compare_at (check, face, us[a] + steps[k], zs[b], what);
          legal += compare_at (check, face, us[a], zs[b] + steps[k], what);
        }
  }
  return legal;
}

static guint
compare_room (const DryProject *project, const DryRoom *room, const DryPart *niche, GRand *rand,
              const char *what)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (DryProject) without = niche->id
                                       ? dry_edit_remove (project, room->id, niche->id, &error)
                                       : dry_project_ref (project);
  g_autoptr (DryPlan) plan = dry_plan_new (without, room->id, dry_test_catalog (), NULL, &error);
  g_autoptr (DryAdvice) advice = NULL;
  guint legal = 0;

  g_assert_no_error (error);
  advice = dry_advice_new (project, room->id, niche, dry_test_catalog (), NULL, NULL, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < dry_advice_get_n_faces (advice); i++) {
    const DryAdviceFace *face = dry_advice_get_face_at (advice, i);
    Check check = {.plan = plan,
                   .room = plan->context.room,
                   .niche = niche,
                   .face = dry_faces_get_wall (plan->faces, face->wall, face->side),
                   .wall = dry_room_get_wall (plan->context.room, face->wall),
                   .build_up = plan->context.build_up.total};
    legal += compare_face (&check, face, rand, what);
  }
  return legal;
}

/* --- tests --- */

static const char *const CASES[] = {"01-alcove.drybay",         "02-old-house.drybay",
                                    "03-window-wall.drybay",    "11-bearing-outside.drybay",
                                    "12-steel-rated.drybay",    "20-vent-bay.drybay",
                                    "20b-vent-bay-moved.drybay"};

/* A site-built and a ready-made niche of odd sizes, of the room's own or new. */
static DryPart
make_niche (guint which, const DryRoom *room)
{
  DryPart niche = {.kind = DRY_PART_NICHE,
                   .wall = room->walls[0].id,
                   .u = 20 * DRY_INCH,
                   .z = 44 * DRY_INCH,
                   .width = 12 * DRY_INCH,
                   .height = 20 * DRY_INCH,
                   .depth = 3 * DRY_INCH,
                   .pitch = 0.020833};

  if (which % 2 == 1) {
    niche.body_width = 13 * DRY_INCH;
    niche.body_height = 21 * DRY_INCH + 1;
    niche.flange = 2 * DRY_INCH;
  }
  if (which == 2) {
    niche.width = 31 * DRY_INCH + 3;
    niche.height = 8 * DRY_INCH + 1;
    niche.depth = 7 * DRY_INCH / 4;
    niche.site_built = TRUE;
  }
  if (which == 3) { /* fits a 16 in bay with exactly 1/4 in to spare: one line */
    niche.width = 13 * DRY_INCH;
    niche.body_width = 14 * DRY_INCH + DRY_INCH / 4;
  }
  return niche;
}

static void
test_cases (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  guint legal = 0;

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autoptr (DryProject) project = dry_test_load (CASES[i]);
    const DryRoom *room = dry_project_get_room_at (project, 0);
    for (guint k = 0; k < 4; k++) {
      DryPart niche = make_niche (k, room);
      legal += compare_room (project, room, &niche, rand, CASES[i]);
    }
    for (guint p = 0; p < room->n_parts; p++)
      if (room->parts[p].kind == DRY_PART_NICHE)
        legal += compare_room (project, room, &room->parts[p], rand, CASES[i]);
  }
  g_assert_cmpuint (legal, >, 2000); /* the comparison saw places of both kinds */
}

/* Random rooms, with pipes behind random walls and walls of all natures. */
static void
test_random (void)
{
  guint legal = 0;

  for (guint32 seed = 1; seed <= 30; seed++) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
    g_autoptr (DryProject) plain = dry_test_random_project (seed);
    const DryRoom *before = dry_project_get_room_at (plain, 0);
    g_autoptr (GError) error = NULL;
    g_autoptr (DryProject) project = dry_project_ref (plain);
    g_autofree char *what = g_strdup_printf ("seed %u", seed);

    for (guint i = 0; i < before->n_walls; i++) {
      DryWall wall = before->walls[i];
      DryPart pipe = {.kind = DRY_PART_VENT,
                      .wall = wall.id,
                      .u = (DryLength) (g_rand_double (rand) * (double) dry_wall_length (&wall)),
                      .z = g_rand_int_range (rand, 0, 40) * DRY_INCH,
                      .width = 2 * DRY_INCH + 3,
                      .height = g_rand_int_range (rand, 10, 90) * DRY_INCH,
                      .depth = 2 * DRY_INCH};
      DryProject *next;
      wall.bearing = g_rand_int_range (rand, 0, 3) == 0;
      wall.exterior = g_rand_int_range (rand, 0, 3) == 0;
      wall.fire_rated = g_rand_int_range (rand, 0, 6) == 0;
      wall.insulation = g_rand_int_range (rand, 0, 4) * DRY_INCH;
      next = dry_edit_set_wall (project, before->id, &wall, NULL, &error);
      g_assert_no_error (error);
      dry_project_unref (project);
      project = next;
      next = dry_edit_set_part (project, before->id, &pipe, NULL, &error);
      if (next) {
        dry_project_unref (project);
        project = next;
      }
      g_clear_error (&error);
    }
    for (guint k = 0; k < 3; k++) {
      const DryRoom *room = dry_project_get_room_at (project, 0);
      DryPart niche = make_niche ((seed + k) % 4, room);
      legal += compare_room (project, room, &niche, rand, what);
    }
  }
  g_assert_cmpuint (legal, >, 2000);
}

/* 16 in centers leave 14-1/2 in; a body of 14-1/4 in and its 1/4 in just fit, one of 14-5/16 in
 * does not. */
static void
test_clearance (void)
{
  g_autoptr (DryProject) project = dry_test_alcove ("foam-bands");
  const DryRoom *room = dry_project_get_room_at (project, 0);
  DryPart niche = make_niche (3, room);
  g_autoptr (GError) error = NULL;
  g_autoptr (DryAdvice) fits = NULL, tight = NULL;
  const DryAdviceFace *face;

  niche.wall = dry_test_wall (project, 'n');
  fits = dry_advice_new (project, room->id, &niche, dry_test_catalog (), NULL, NULL, &error);
  g_assert_no_error (error);
  face = dry_advice_get_face (fits, niche.wall, DRY_SIDE_INSIDE);
  g_assert_cmpuint (face->n_legal, >, 0);
  for (guint i = 0; i < face->n_legal; i++)
    g_assert_cmpint (dry_rect_width (face->legal[i]), ==, DRY_INCH / 4);
  niche.body_width += DRY_INCH / 16;
  tight = dry_advice_new (project, room->id, &niche, dry_test_catalog (), NULL, NULL, &error);
  g_assert_no_error (error);
  face = dry_advice_get_face (tight, niche.wall, DRY_SIDE_INSIDE);
  g_assert_cmpuint (face->n_legal, ==, 0);
}

/* What the bands allow, the findings do not stop: the niche is set there and the room planned. */
static void
test_agrees_with_findings (void)
{
  guint planned = 0;

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++) {
    g_autoptr (DryProject) project = dry_test_load (CASES[i]);
    const DryRoom *room = dry_project_get_room_at (project, 0);
    g_autoptr (GError) error = NULL;
    DryPart niche = make_niche (i % 2, room);
    g_autoptr (DryAdvice) advice =
        dry_advice_new (project, room->id, &niche, dry_test_catalog (), NULL, NULL, &error);

    g_assert_no_error (error);
    for (guint f = 0; f < dry_advice_get_n_faces (advice); f++) {
      const DryAdviceFace *face = dry_advice_get_face_at (advice, f);
      for (guint b = 0; b < MIN (face->n_legal, 3u); b++) {
        DryId id = 0;
        g_autoptr (DryProject) placed = NULL;
        g_autoptr (DryPlan) plan = NULL;
        niche.wall = face->wall;
        niche.side = face->side;
        niche.u = face->legal[b].x0;
        niche.z = face->legal[b].y1;
        placed = dry_edit_set_part (project, room->id, &niche, &id, &error);
        g_assert_no_error (error);
        plan = dry_plan_new (placed, room->id, dry_test_catalog (), NULL, &error);
        g_assert_no_error (error);
        for (guint k = 0; k < plan->findings->n; k++)
          if (plan->findings->items[k].object == id &&
              plan->findings->items[k].severity == DRY_SEVERITY_STOP)
            g_error ("%s, %s: %s", CASES[i], face->name, plan->findings->items[k].message);
        planned++;
      }
    }
  }
  g_assert_cmpuint (planned, >, 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advisor/bands/cases", test_cases);
  g_test_add_func ("/advisor/bands/random", test_random);
  g_test_add_func ("/advisor/bands/clearance", test_clearance);
  g_test_add_func ("/advisor/bands/findings", test_agrees_with_findings);
  return g_test_run ();
}
