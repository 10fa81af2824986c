/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row a system: picture of the layers, name, the three figures people compare first, and what
 * would change against the present system. That comes from a thread (system-compare.c) a moment
 * after the last edit, and never while something is dragged. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/system-chooser.h"

#include <glib/gi18n.h>
#include <string.h>

#include "ui/ledger-pages.h"
#include "ui/scene-view.h"
#include "ui/system-compare.h"

#define LB_PER_FT2 4.882427636 /* kg/m2 in one lb/ft2 */
#define QUIET_MS   350         /* after the newest plan, before the others are asked for */

typedef struct {
  const DrySystem *system;
  GtkWidget *row, *view, *tick;
  DryBuildUp build_up; /* as drawn in the view */
  char *change;        /* against the present system; NULL: not known yet */
} Choice;

struct _DrySystemChooser {
  AdwPreferencesGroup parent_instance;
  DrySession *session;
  GArray *choices;
  guint wait;                /* source until the comparison starts */
  GCancellable *cancellable; /* of the comparison under way */
  const DryPlan *compared;   /* which plan the changes are against; never read */
};

G_DEFINE_FINAL_TYPE (DrySystemChooser, dry_system_chooser, ADW_TYPE_PREFERENCES_GROUP)

static char *
describe_mass (const DrySystem *system, gboolean metric)
{
  double value = metric ? system->mass.value : system->mass.value / LB_PER_FT2;

  /* Translators: weight of the board for its area */
  return g_strdup_printf (metric ? _ ("%.1f kg/m²") : _ ("%.1f lb/ft²"), value);
}

static char *
describe_wait (const DrySystem *system)
{
  const DryWait *wait = dry_system_get_wait (system, "tile");

  if (!wait || wait->hours_max <= 0)
    return g_strdup (_ ("tile at once"));
  if (wait->hours_min >= wait->hours_max)
    return g_strdup_printf (_ ("tile after %d h"), (int) (wait->hours_max + 0.5));
  return g_strdup_printf (_ ("tile after %d to %d h"), (int) (wait->hours_min + 0.5),
                          (int) (wait->hours_max + 0.5));
}

/* --- what would change --- */

static void
add_words (GString *text, char *words)
{
  if (text->len)
    g_string_append (text, ", ");
  g_string_append (text, words);
  g_free (words);
}

static char *
describe_change (const DrySystemChange *change)
{
  GString *text = g_string_new (NULL);

  if (!change->known)
    return g_string_free (text, FALSE);
  if (change->has_sheets && change->sheets) {
    guint n = (guint) ABS (change->sheets);
    g_autofree char *sheets = g_strdup_printf (ngettext ("%u sheet", "%u sheets", n), n);
    add_words (text, g_strdup_printf (change->sheets > 0 ? _ ("%s more") : _ ("%s fewer"), sheets));
  }
  if (change->cost != 0) {
    g_autofree char *money = dry_text_money (ABS (change->cost));
    add_words (text,
               g_strdup_printf (change->cost > 0 ? _ ("%s dearer") : _ ("%s cheaper"), money));
  }
  if (ABS (change->hours) >= 0.5) {
    g_autofree char *hours = dry_text_hours (ABS (change->hours));
    add_words (text, g_strdup_printf (change->hours > 0 ? _ ("%s later") : _ ("%s sooner"), hours));
  }
  if (change->findings) {
    guint n = (guint) ABS (change->findings);
    g_autofree char *findings = g_strdup_printf (ngettext ("%u finding", "%u findings", n), n);
    add_words (text,
               g_strdup_printf (change->findings > 0 ? _ ("%s more") : _ ("%s fewer"), findings));
  }
  if (!text->len)
    g_string_append (text, _ ("nothing else changes"));
  return g_string_free (text, FALSE);
}

static void refresh (DrySystemChooser *self);

static void
compared_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GArray) changes = dry_system_compare_finish (result, NULL);
  DrySystemChooser *self = data;

  if (changes && self->choices->len == changes->len &&
      g_task_get_cancellable (G_TASK (result)) == self->cancellable) {
    for (guint i = 0; i < changes->len; i++) {
      Choice *choice = &g_array_index (self->choices, Choice, i);
      g_free (choice->change);
      choice->change = describe_change (&g_array_index (changes, DrySystemChange, i));
    }
    refresh (self);
  }
  g_object_unref (self);
}

static void
call_off (DrySystemChooser *self)
{
  g_clear_handle_id (&self->wait, g_source_remove);
  if (self->cancellable)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

static gboolean
begin_compare (gpointer data)
{
  DrySystemChooser *self = data;
  const DryPlan *plan = dry_session_get_plan (self->session);

  self->wait = 0;
  self->compared = plan;
  self->cancellable = g_cancellable_new ();
  dry_system_compare_async (plan, dry_session_get_catalog (self->session), self->cancellable,
                            compared_cb, g_object_ref (self));
  return G_SOURCE_REMOVE;
}

/* Only what stays is compared: not a drag's passing states, not a list nobody sees. */
static void
plan_changed_cb (DrySystemChooser *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  gboolean settled = dry_session_is_settled (self->session);

  if (settled && plan == self->compared && (self->wait || self->cancellable))
    return;
  call_off (self);
  if (settled && gtk_widget_get_mapped (GTK_WIDGET (self)))
    self->wait = g_timeout_add (QUIET_MS, begin_compare, self);
}

/* --- rows --- */

static void
draw_section (Choice *choice, const DryBuildUp *build_up)
{
  g_autoptr (DryScene) scene = NULL;

  if (memcmp (&choice->build_up, build_up, sizeof *build_up) == 0)
    return;
  choice->build_up = *build_up;
  scene = dry_drawing_section (choice->system, build_up);
  dry_scene_view_set_scene (DRY_SCENE_VIEW (choice->view), scene);
}

/* All sections at one scale: a stub of the stud, the seam over it, and the thickest layers there
 * are, so that a thicker system looks thicker. */
static void
focus_sections (DrySystemChooser *self)
{
  const DryLength stub = DRY_INCH / 3, half = 9 * DRY_INCH / 10;
  DryLength deepest = DRY_INCH;

  for (guint i = 0; i < self->choices->len; i++)
    deepest = MAX (deepest, g_array_index (self->choices, Choice, i).build_up.total);
  for (guint i = 0; i < self->choices->len; i++)
    dry_scene_view_set_focus (DRY_SCENE_VIEW (g_array_index (self->choices, Choice, i).view),
                              (DryRect){-half, -deepest - DRY_INCH / 16, half, stub});
}

static void
refresh (DrySystemChooser *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  gboolean metric = dry_project_get_job (dry_session_get_project (self->session))->metric;

  if (!room)
    return;
  for (guint i = 0; i < self->choices->len; i++) {
    Choice *choice = &g_array_index (self->choices, Choice, i);
    DryBuildUp build_up = dry_build_up_reckon (choice->system, &room->finish);
    g_autofree char *thickness = dry_session_format_length (self->session, build_up.board);
    g_autofree char *mass = describe_mass (choice->system, metric);
    g_autofree char *wait = describe_wait (choice->system);
    gboolean chosen = g_strcmp0 (room->finish.system, choice->system->id) == 0;
    gboolean compared = !chosen && choice->change && *choice->change;
    g_autofree char *text = g_strdup_printf ("%s · %s · %s%s%s", thickness, mass, wait,
                                             compared ? "\n" : "", compared ? choice->change : "");

    g_autofree char *said = g_strdup_printf ("%s. %s", text, choice->system->summary);
    g_autofree char *bound = dry_text_bind_units (text);

    adw_action_row_set_subtitle (ADW_ACTION_ROW (choice->row), bound);
    gtk_accessible_update_property (GTK_ACCESSIBLE (choice->row),
                                    GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, said, -1);
    draw_section (choice, &build_up);
    gtk_widget_set_opacity (choice->tick, chosen ? 1 : 0);
    gtk_accessible_update_state (GTK_ACCESSIBLE (choice->row), GTK_ACCESSIBLE_STATE_SELECTED,
                                 chosen, -1);
    if (chosen)
      gtk_widget_add_css_class (choice->row, "chosen");
    else
      gtk_widget_remove_css_class (choice->row, "chosen");
  }
  focus_sections (self);
}

static void
row_activated_cb (AdwActionRow *row, DrySystemChooser *self)
{
  const char *id = g_object_get_data (G_OBJECT (row), "system");
  const DryRoom *room = dry_session_get_room (self->session);
  GError *error = NULL;
  DryProject *project;

  if (!room || g_strcmp0 (room->finish.system, id) == 0)
    return;
  project = dry_system_swap (dry_session_get_project (self->session), room->id, id, &error);
  dry_session_apply (self->session, project, _ ("Backer system"), NULL, error);
}

static void
add_choice (DrySystemChooser *self, const DrySystem *system)
{
  Choice choice = {.system = system};

  choice.row = adw_action_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (choice.row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (choice.row), system->name);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (choice.row), 0);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (choice.row), 0);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (choice.row), TRUE);
  gtk_widget_set_tooltip_text (choice.row, system->summary);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice.row), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  system->summary, -1);
  choice.view = dry_scene_view_new (64, 48, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice.view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Section through its layers"), -1);
  adw_action_row_add_prefix (ADW_ACTION_ROW (choice.row), choice.view);
  choice.tick = gtk_image_new_from_icon_name ("object-select-symbolic");
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice.tick), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Chosen"), -1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (choice.row), choice.tick);
  g_object_set_data (G_OBJECT (choice.row), "system", (gpointer) system->id);
  g_signal_connect (choice.row, "activated", G_CALLBACK (row_activated_cb), self);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self), choice.row);
  g_array_append_val (self->choices, choice);
}

static void
dry_system_chooser_dispose (GObject *object)
{
  call_off (DRY_SYSTEM_CHOOSER (object));
  G_OBJECT_CLASS (dry_system_chooser_parent_class)->dispose (object);
}

static void
clear_choice (gpointer data)
{
  g_free (((Choice *) data)->change);
}

static void
dry_system_chooser_finalize (GObject *object)
{
  DrySystemChooser *self = DRY_SYSTEM_CHOOSER (object);

  g_array_unref (self->choices);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_system_chooser_parent_class)->finalize (object);
}

static void
dry_system_chooser_class_init (DrySystemChooserClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = dry_system_chooser_dispose;
  G_OBJECT_CLASS (klass)->finalize = dry_system_chooser_finalize;
}

static void
dry_system_chooser_init (DrySystemChooser *self)
{
  self->choices = g_array_new (FALSE, TRUE, sizeof (Choice));
  g_array_set_clear_func (self->choices, clear_choice);
  g_signal_connect (self, "map", G_CALLBACK (plan_changed_cb), NULL);
  g_signal_connect (self, "unmap", G_CALLBACK (call_off), NULL);
}

GtkWidget *
dry_system_chooser_new (DrySession *session)
{
  const DryCatalog *catalog = dry_session_get_catalog (session);
  DrySystemChooser *self =
      g_object_new (DRY_TYPE_SYSTEM_CHOOSER, "title", _ ("Backer system"), NULL);

  self->session = g_object_ref (session);
  for (guint i = 0; i < dry_catalog_get_n_systems (catalog); i++)
    add_choice (self, dry_catalog_get_system_at (catalog, i));
  g_signal_connect_object (session, "document-changed", G_CALLBACK (refresh), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "plan-changed", G_CALLBACK (plan_changed_cb), self,
                           G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}
