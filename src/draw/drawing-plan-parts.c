/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts on the plan: each where it stands on its wall, drawn so a plumber knows it.
 * Sizes are the part's own; small shapes without a size are drawn by eye. */
#include "draw/drawing-private.h"

typedef struct {
  DrySceneBuilder *b;
  const DryWall *wall;
  const DryPart *part;
} PartView;

static DryPoint
at (const PartView *v, DryLength u, DryLength out)
{
  return dry_wall_point (v->wall, v->part->side, u, out);
}

static void
draw_box (const PartView *v, DryLook look, DryLength u0, DryLength u1, DryLength from, DryLength to)
{
  DryPoint p[4] = {at (v, u0, from), at (v, u1, from), at (v, u1, to), at (v, u0, to)};

  dry_scene_builder_path (v->b, look, p, 4, TRUE);
}

static void
draw_niche (const PartView *v)
{
  const DryPart *p = v->part;
  DryLook look = {.stroke = DRY_INK_FITTING, .pen = DRY_PEN_035, .fill = DRY_INK_PAPER, .alpha = 1};
  DryLook inside = {
      .stroke = DRY_INK_FITTING, .pen = DRY_PEN_018, .fill = DRY_INK_WET, .alpha = 0.12};

  draw_box (v, look, p->u - p->width / 2, p->u + p->width / 2, -p->depth, 0);
  draw_box (v, inside, p->u - p->width / 2, p->u + p->width / 2, -p->depth, 0);
}

static void
draw_fitting (const PartView *v)
{
  const DryPart *p = v->part;
  DryLook solid = {
      .stroke = DRY_INK_FITTING, .pen = DRY_PEN_025, .fill = DRY_INK_FITTING, .alpha = 0.25};
  DryLength w = MAX (p->width, DRY_INCH), plate = 12 * DRY_MM;

  switch (p->kind) {
  case DRY_PART_VALVE:
    draw_box (v, solid, p->u - w / 2, p->u + w / 2, 0, plate);
    draw_box (v, solid, p->u - 12 * DRY_MM, p->u + 12 * DRY_MM, plate, plate + 50 * DRY_MM);
    break;
  case DRY_PART_SPOUT:
    draw_box (v, solid, p->u - w / 2, p->u + w / 2, 0, p->depth > 0 ? p->depth : 5 * DRY_INCH);
    break;
  case DRY_PART_SHOWER_HEAD: {
    DryLength arm = p->depth > 0 ? p->depth : 6 * DRY_INCH;
    draw_box (v, solid, p->u - 10 * DRY_MM, p->u + 10 * DRY_MM, 0, arm);
    dry_scene_builder_circle (v->b, solid, at (v, p->u, arm), w / 2);
    dry_scene_builder_circle (v->b, DRY_LOOK_LINE (DRY_INK_FITTING, DRY_PEN_013), at (v, p->u, arm),
                              w / 3);
    break;
  }
  default:
    draw_box (v, solid, p->u - MIN (w, 3 * DRY_INCH) / 2, p->u + MIN (w, 3 * DRY_INCH) / 2, 0,
              55 * DRY_MM);
    dry_scene_builder_circle (v->b, DRY_LOOK_LINE (DRY_INK_FITTING, DRY_PEN_018),
                              at (v, p->u, 70 * DRY_MM), 28 * DRY_MM);
  }
}

static void
draw_bar (const PartView *v)
{
  const DryPart *p = v->part;
  DryLook solid = {
      .stroke = DRY_INK_FITTING, .pen = DRY_PEN_025, .fill = DRY_INK_FITTING, .alpha = 0.3};
  /* An inch and a half clear of the wall, ADA 609.3. */
  DryLength clear = 3 * DRY_INCH / 2, thick = MAX (MIN (p->width, p->height), DRY_INCH);
  DryLength half = p->width / 2;

  draw_box (v, solid, p->u - half, p->u + half, clear, clear + thick);
  if (half > thick) {
    draw_box (v, solid, p->u - half, p->u - half + thick, 0, clear);
    draw_box (v, solid, p->u + half - thick, p->u + half, 0, clear);
  }
}

static void
draw_bench (const PartView *v)
{
  const DryPart *p = v->part;
  DryLook look = {.stroke = DRY_INK_FITTING,
                  .pen = DRY_PEN_035,
                  .fill = DRY_INK_PAPER,
                  .alpha = 0.8,
                  .dash = p->fold_down ? DRY_DASH_DASHED : DRY_DASH_SOLID};
  DryLook slat = DRY_LOOK_LINE (DRY_INK_FAINT, DRY_PEN_018);

  draw_box (v, look, p->u - p->width / 2, p->u + p->width / 2, 0, p->depth);
  for (int i = 1; i < 5 && p->fold_down; i++)
    dry_scene_builder_line (v->b, slat, at (v, p->u - p->width / 2, p->depth * i / 5),
                            at (v, p->u + p->width / 2, p->depth * i / 5));
}

static void
draw_glass (const PartView *v)
{
  const DryPart *p = v->part;
  DryLook look = {
      .stroke = DRY_INK_GLASS, .pen = DRY_PEN_035, .fill = DRY_INK_GLASS, .alpha = 0.35};
  DryLength half = MAX (p->depth, 6 * DRY_MM) / 2;
  DryPoint arc[2 * DRY_CURVE_POINTS];

  draw_box (v, look, p->u - half, p->u + half, 0, p->width);
  if (!p->hinged)
    return;
  /* A door, hung at the wall, opens away from the basin: shown to both sides by half a swing. */
  dry_points_arc (arc, (DryPoint){0, 0}, (double) p->width, (double) p->width, 45, 135,
                  2 * DRY_CURVE_POINTS);
  for (guint i = 0; i < 2 * DRY_CURVE_POINTS; i++)
    arc[i] = at (v, p->u + arc[i].x, arc[i].y);
  dry_scene_builder_path (
      v->b, (DryLook){.stroke = DRY_INK_GLASS, .pen = DRY_PEN_013, .dash = DRY_DASH_DASHED}, arc,
      2 * DRY_CURVE_POINTS, FALSE);
}

static void
draw_hidden (const PartView *v)
{
  const DryPart *p = v->part;
  DryLength t = dry_wall_depth (v->wall), r = MIN (MAX (p->width, DRY_INCH), t) / 2;
  DryLook look = {.stroke = DRY_INK_PIPE, .pen = DRY_PEN_035, .fill = DRY_INK_PAPER, .alpha = 0.9};
  DryPoint centre = at (v, p->u, -t / 2);

  if (p->kind == DRY_PART_CABLE)
    look.fill = DRY_INK_PIPE;
  dry_scene_builder_circle (v->b, look, centre, r);
  if (p->kind == DRY_PART_VENT)
    dry_scene_builder_circle (v->b, DRY_LOOK_LINE (DRY_INK_PIPE, DRY_PEN_018), centre, r * 3 / 4);
}

void
dry_draw_plan_parts (DrySceneBuilder *b, const DryPlan *plan)
{
  const DryRoom *room = plan->context.room;

  for (guint i = 0; i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];
    PartView v = {b, dry_room_get_wall (room, part->wall), part};
    gboolean hidden = dry_part_kind_is_hidden (part->kind);

    dry_scene_builder_tag (b, hidden ? DRY_LAYER_HIDDEN : DRY_LAYER_PARTS, DRY_SHOWS_PART, part->id,
                           (gint) i);
    if (hidden)
      draw_hidden (&v);
    else if (part->kind == DRY_PART_NICHE)
      draw_niche (&v);
    else if (part->kind == DRY_PART_GRAB_BAR)
      draw_bar (&v);
    else if (part->kind == DRY_PART_BENCH)
      draw_bench (&v);
    else if (part->kind == DRY_PART_GLASS)
      draw_glass (&v);
    else
      draw_fitting (&v);
  }
}
