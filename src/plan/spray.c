/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flight of drops from a shower head to a wall, without drag: a cone of directions, each a
 * parabola. Knows the plan of the room and no niche. */
#include "plan/spray.h"

#include <math.h>

#define GRAVITY      9.81
#define USUAL_LPM    7.570824 /* 2.0 gpm, EPA WaterSense */
#define HEIGHT_ROUND (DRY_INCH / 4)

DrySprayShape
dry_spray_shape_default (void)
{
  return (DrySprayShape){.out = 6 * DRY_INCH, .tilt = 45, .half_angle = 12, .force = 0.56};
}

double
dry_spray_speed (const DrySprayShape *shape, double flow_lpm)
{
  double kilograms = (flow_lpm > 0 ? flow_lpm : USUAL_LPM) / 60; /* a second; 1 L weighs 1 kg */

  return shape->force / kilograms;
}

/* How far below the head a drop is that left at `angle` below level, `run` m away. */
static double
fall (double angle, double run, double speed)
{
  double level = speed * cos (angle), time = run / level;

  return run * tan (angle) + GRAVITY * time * time / 2;
}

gboolean
dry_spray_at (const DrySprayShape *shape, double speed, double distance, double aside, double *high,
              double *low)
{
  double run = hypot (distance, aside), tilt = shape->tilt * G_PI / 180;
  double a, b, reach, middle, spread, first, last, crest;

  if (run <= 0 || distance <= 0 || speed <= 0)
    return FALSE;
  /* Directions with this bearing lie within the cone where a cos + b sin >= cos (half angle). */
  a = cos (tilt) * distance / run;
  b = sin (tilt);
  reach = hypot (a, b);
  if (cos (shape->half_angle * G_PI / 180) > reach)
    return FALSE;
  middle = atan2 (b, a);
  spread = acos (cos (shape->half_angle * G_PI / 180) / reach);
  first = MAX (middle - spread, -G_PI / 2 + 1e-6);
  last = middle + spread;
  /* Of two flights to one line the flatter need not be the higher: the crest is where they turn. */
  crest = atan (-speed * speed / (GRAVITY * run));
  *high = fall (CLAMP (crest, first, MIN (last, G_PI / 2 - 1e-6)), run, speed);
  *low = last >= G_PI / 2 - 1e-6 ? INFINITY : fall (last, run, speed);
  if (first < crest)
    *low = MAX (*low, fall (first, run, speed));
  return TRUE;
}

/* The head's place and axis on the plan, metres. */
typedef struct {
  double x, y, nx, ny, z;
} Head;

static double
to_m (DryLength length)
{
  return (double) length / (double) (1000 * DRY_MM);
}

static DryLength
round_to (double metres, gboolean up)
{
  double steps = metres * (double) (1000 * DRY_MM) / (double) HEIGHT_ROUND;

  return (DryLength) (up ? ceil (steps - 1e-6) : floor (steps + 1e-6)) * HEIGHT_ROUND;
}

static void
add_strip (const DryPlanContext *context, const Head *head, const DryWall *wall,
           const DryFace *face, DryLength u, double speed, const DrySprayShape *shape,
           GArray *rects)
{
  DryPoint at = dry_wall_point (wall, face->side, u + DRY_SPRAY_STRIP / 2, context->build_up.total);
  double dx = to_m (at.x) - head->x, dy = to_m (at.y) - head->y;
  double ux, uy, nx, ny, high, low;
  DryRect rect = {MAX (u, face->wet_u0), 0, MIN (u + DRY_SPRAY_STRIP, face->wet_u1), 0};

  dry_wall_axes (wall, face->side, &ux, &uy, &nx, &ny);
  if (dx * nx + dy * ny >= 0) /* the wall is seen from behind */
    return;
  if (!dry_spray_at (shape, speed, dx * head->nx + dy * head->ny, dx * head->ny - dy * head->nx,
                     &high, &low))
    return;
  rect.y1 = MIN (round_to (head->z - high, TRUE), face->wet_top);
  rect.y0 = isinf (low) || head->z - low < 0 ? 0 : round_to (head->z - low, FALSE);
  if (!dry_rect_is_empty (rect))
    g_array_append_val (rects, rect);
}

void
dry_spray_on_face (const DryPlanContext *context, const DryPart *part, const DryFace *face,
                   const DrySprayShape *shape, GArray *rects)
{
  const DryWall *own = dry_room_get_wall (context->room, part->wall);
  const DryWall *wall = dry_room_get_wall (context->room, face->wall);
  double ux, uy, speed = dry_spray_speed (shape, part->flow_lpm);
  DryPoint at;
  Head head;

  if (!own || !wall || (face->wall == part->wall && face->side == part->side))
    return;
  at = dry_wall_point (own, part->side, part->u, context->build_up.total + shape->out);
  dry_wall_axes (own, part->side, &ux, &uy, &head.nx, &head.ny);
  head.x = to_m (at.x);
  head.y = to_m (at.y);
  head.z = to_m (part->z);
  for (DryLength u = 0; u < face->length; u += DRY_SPRAY_STRIP)
    add_strip (context, &head, wall, face, u, speed, shape, rects);
}
