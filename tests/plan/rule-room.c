/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the rooms of the rule tests and looks into their plans.
 * Sizes are invented; what must come of them is said in the tests. */
#include "plan/rule-room.h"

#include <math.h>
#include <string.h>

#include "project/fields.h"

static void
set_pack (DryJob *job, gpointer data)
{
  job->rule_pack = data;
}

DryProject *
rule_room_alcove (const char *system, const char *pack)
{
  return rule_room_set_job (dry_test_alcove (system), set_pack, (gpointer) pack);
}

static DryProject *
add_half_wall (DryProject *project, double x0, double y0, double x1, double y1, double height)
{
  DryWall wall = dry_project_get_room_at (project, 0)->walls[0];
  g_autoptr (GError) error = NULL;

  wall.id = 0;
  wall.name = NULL;
  wall.added = TRUE;
  wall.height = INCH (height);
  wall.start = (DryPoint){INCH (x0), INCH (y0)};
  wall.end = (DryPoint){INCH (x1), INCH (y1)};
  return dry_test_follow (
      project, dry_edit_set_wall (project, dry_test_room (project), &wall, NULL, &error), error);
}

DryProject *
rule_room_half_walls (double side, double length, double front)
{
  const DryPoint corners[] = {{0, INCH (96)}, {INCH (120), INCH (96)}, {INCH (120), 0}, {0, 0}};
  DryProject *alcove = rule_room_alcove ("foam-bands", "us-residential");
  g_autoptr (GError) error = NULL;
  DryProject *wide = dry_test_follow (
      alcove, dry_edit_set_outline (alcove, dry_test_room (alcove), corners, 4, &error), error);

  return add_half_wall (add_half_wall (wide, 60, 96, 60, 96 - length, side), 60, 66, 20, 66, front);
}

DryProject *
rule_room_set_job (DryProject *project, void (*change) (DryJob *, gpointer), gpointer data)
{
  DryJob job = *dry_project_get_job (project);
  g_autoptr (GError) error = NULL;
  DryProject *next;

  change (&job, data);
  next = dry_edit_set_job (project, &job, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
rule_room_set_basin (DryProject *project, void (*change) (DryBasin *, gpointer), gpointer data)
{
  DryBasin basin = dry_project_get_room_at (project, 0)->basin;
  g_autoptr (GError) error = NULL;
  DryProject *next;

  change (&basin, data);
  next = dry_edit_set_basin (project, dry_test_room (project), &basin, NULL, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
rule_room_set_wet (DryProject *project, DryWetZone wet)
{
  g_autoptr (GError) error = NULL;
  DryProject *next = dry_edit_set_wet_zone (project, dry_test_room (project), &wet, &error);

  return dry_test_follow (project, next, error);
}

DryProject *
rule_room_set_finish (DryProject *project, void (*change) (DryFinish *, gpointer), gpointer data)
{
  DryFinish finish = dry_project_get_room_at (project, 0)->finish;
  g_autoptr (GError) error = NULL;
  DryProject *next;

  change (&finish, data);
  next = dry_edit_set_finish (project, dry_test_room (project), &finish, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
rule_room_set_wall (DryProject *project, char compass, void (*change) (DryWall *, gpointer),
                    gpointer data)
{
  DryWall wall =
      *dry_room_get_wall (dry_project_get_room_at (project, 0), dry_test_wall (project, compass));
  g_autoptr (GError) error = NULL;
  DryProject *next;

  change (&wall, data);
  next = dry_edit_set_wall (project, dry_test_room (project), &wall, NULL, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
rule_room_set_room (DryProject *project, void (*change) (DryRoom *, gpointer), gpointer data)
{
  DryRoom room = *dry_project_get_room_at (project, 0);
  g_autoptr (GError) error = NULL;
  DryProject *next;

  change (&room, data);
  next = dry_edit_set_room (project, &room, NULL, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
rule_room_add_part (DryProject *project, char compass, DryPart part)
{
  g_autoptr (GError) error = NULL;
  DryProject *next;

  part.wall = dry_test_wall (project, compass);
  next = dry_edit_set_part (project, dry_test_room (project), &part, NULL, &error);
  return dry_test_follow (project, next, error);
}

DryProject *
rule_room_add_opening (DryProject *project, char compass, DryOpening opening)
{
  g_autoptr (GError) error = NULL;
  DryProject *next;

  opening.wall = dry_test_wall (project, compass);
  next = dry_edit_set_opening (project, dry_test_room (project), &opening, NULL, &error);
  return dry_test_follow (project, next, error);
}

static double
read_number (const char *text, const char **end)
{
  char *stop;
  double number = g_ascii_strtod (text, &stop);

  if (g_str_has_prefix (stop, "in"))
    number *= 25.4;
  else if (g_str_has_prefix (stop, "ft"))
    number *= 304.8;
  while (g_ascii_isalpha (*stop))
    stop++;
  *end = stop;
  return number;
}

static void
set_field (const DryFieldSet *set, gpointer value, const char *key, gsize n_key, double number)
{
  for (guint i = 0; i < set->n; i++) {
    const DryField *field = &set->fields[i];

    if (strlen (field->key) != n_key || strncmp (field->key, key, n_key) != 0)
      continue;
    if (field->type == DRY_FIELD_LENGTH)
      G_STRUCT_MEMBER (DryLength, value, field->offset) =
          (DryLength) llround (number * (double) DRY_MM);
    else if (field->type == DRY_FIELD_NUMBER)
      G_STRUCT_MEMBER (double, value, field->offset) = number;
    else
      G_STRUCT_MEMBER (guint, value, field->offset) = (guint) number;
    return;
  }
  g_error ("There is no field “%.*s”", (int) n_key, key);
}

typedef struct {
  const char *words, *subject;
  const DryFieldSet *set;
} Fields;

static void
apply_words (gpointer value, const Fields *fields)
{
  gsize n = strlen (fields->subject);

  for (const char *at = fields->words; *at;) {
    const char *equals = strchr (at, '='), *end;
    double number = read_number (equals + 1, &end);

    if (strncmp (at, fields->subject, n) == 0 && at[n] == '.')
      set_field (fields->set, value, at + n + 1, (gsize) (equals - at) - n - 1, number);
    for (at = end; *at == ' ';)
      at++;
  }
}

static void
apply_to_job (DryJob *job, gpointer data)
{
  apply_words (job, data);
}

static void
apply_to_room (DryRoom *room, gpointer data)
{
  apply_words (room, data);
}

static void
apply_to_basin (DryBasin *basin, gpointer data)
{
  apply_words (basin, data);
}

static void
apply_to_finish (DryFinish *finish, gpointer data)
{
  apply_words (finish, data);
}

static void
apply_to_wall (DryWall *wall, gpointer data)
{
  apply_words (wall, data);
}

DryProject *
rule_room_set_fields (DryProject *project, const char *words)
{
  Fields job = {words, "job", &dry_job_fields}, room = {words, "room", &dry_room_fields};
  Fields basin = {words, "basin", &dry_basin_fields};
  Fields finish = {words, "finish", &dry_finish_fields};

  project = rule_room_set_job (project, apply_to_job, &job);
  project = rule_room_set_room (project, apply_to_room, &room);
  project = rule_room_set_basin (project, apply_to_basin, &basin);
  project = rule_room_set_finish (project, apply_to_finish, &finish);
  for (const char *wall = "nesw"; *wall; wall++) {
    char subject[] = {'w', 'a', 'l', 'l', '.', *wall, '\0'};
    Fields fields = {words, subject, &dry_wall_fields};
    project = rule_room_set_wall (project, *wall, apply_to_wall, &fields);
  }
  return project;
}

typedef struct {
  DryLength length, width, built;
} ShowerSize;

static void
make_pan (DryBasin *basin, gpointer data)
{
  const ShowerSize *size = data;

  basin->kind = DRY_BASIN_PAN;
  basin->length = size->length;
  basin->width = size->width;
  basin->along = size->built;
  basin->away = size->built;
  basin->turned = FALSE;
  basin->height = 4 * DRY_INCH;
  basin->flange = DRY_INCH;
  basin->flange_thickness = 0;
  basin->drain = DRY_END_CENTRE;
  basin->drain_diameter = 2 * DRY_INCH;
  basin->drop_in = FALSE;
  basin->recess = 0;
  basin->rim_error = 0;
}

DryProject *
rule_room_shower (DryLength length, DryLength width)
{
  DryProject *project = rule_room_alcove ("foam-bands", "us-residential");
  ShowerSize size = {length, width, 0};
  DryPoint corners[4] = {{0}};
  g_autoptr (GError) error = NULL;
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  DryProject *next;

  size.built = plan->context.build_up.total;
  /* Begun at the north-west, so that the walls keep their compass order. */
  corners[0].y = corners[1].y = 96 * DRY_INCH;
  corners[1].x = corners[2].x = length + 2 * size.built;
  next = dry_edit_set_outline (project, dry_test_room (project), corners, 4, &error);
  project = dry_test_follow (project, next, error);
  return rule_room_set_basin (project, make_pan, &size);
}

DryPlan *
rule_room_plan (const DryProject *project)
{
  g_autoptr (GError) error = NULL;
  DryPlan *plan =
      dry_plan_new (project, dry_test_room (project), dry_test_catalog (), NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (plan);
  return plan;
}

const DryFinding *
rule_room_find (const DryPlan *plan, const char *rule)
{
  for (guint i = 0; i < plan->findings->n; i++)
    if (strcmp (plan->findings->items[i].rule->id, rule) == 0)
      return &plan->findings->items[i];
  return NULL;
}

gboolean
rule_room_raises (const DryPlan *plan, gint number)
{
  for (guint i = 0; i < plan->findings->n; i++)
    if (plan->findings->items[i].rule->number == number)
      return TRUE;
  return FALSE;
}

gboolean
rule_room_is_raised (DryProject *project, const char *rule)
{
  g_autoptr (DryPlan) plan = rule_room_plan (project);
  gboolean known = FALSE;

  for (guint i = 0; i < plan->context.rules->n_rules; i++)
    known |= strcmp (plan->context.rules->rules[i].id, rule) == 0;
  g_assert_true (known);
  dry_project_unref (project);
  return rule_room_find (plan, rule) != NULL;
}

const DryMeasure *
rule_room_measure (const DryPlan *plan, const char *kind, const char *name)
{
  for (guint i = 0; i < plan->measures->n; i++) {
    const DrySubject *subject = &plan->measures->items[i];
    const DryMeasure *measure =
        strcmp (subject->kind, kind) == 0 ? dry_subject_get (subject, name) : NULL;
    if (measure)
      return measure;
  }
  g_error ("No %s has a measure “%s”", kind, name);
}

void
rule_room_check_findings (const DryPlan *plan)
{
  for (guint i = 0; i < plan->findings->n; i++) {
    const DryFinding *finding = &plan->findings->items[i];

    g_assert_cmpstr (finding->where, !=, "");
    g_assert_nonnull (finding->where);
    g_assert_cmpstr (finding->message, !=, "");
    g_assert_cmpstr (finding->rule->why, !=, "");
    g_assert_cmpstr (finding->rule->source.text, !=, "");
    g_assert_cmpuint (finding->rule->n_remedies, >, 0);
    g_assert_nonnull (finding->working.formula);
    g_assert_nonnull (finding->working.source.text);
    g_assert_true (finding->face < (gint) plan->faces->n);
    for (guint j = 0; j < i; j++)
      g_assert_cmpstr (plan->findings->items[j].id, !=, finding->id);
    if (i)
      g_assert_true (plan->findings->items[i - 1].severity <= finding->severity);
  }
}
