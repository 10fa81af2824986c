/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds rows from the field tables and keeps them in step with the session; a row being typed in
 * is left alone. With nothing selected the sections are folded and filled when opened. What fields
 * there are is in inspector-tables.c, how they are set in inspector-fields.c. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/access.h"
#include "ui/actions.h"
#include "ui/inspector-fields.h"
#include "ui/inspector-tile.h"
#include "ui/later.h"
#include "ui/length-row.h"
#include "ui/system-chooser.h"

/* A row and what it shows. */
typedef struct {
  DryInspector *inspector;
  DrySubjectRef subject;
  const DryField *field;
  GtkWidget *row;
  GtkWidget *control; /* switch or spin button in the row, or the row itself */
} Binding;

/* A foldable section of what concerns the whole job. */
typedef struct {
  DryInspector *inspector;
  DrySubjectRef subject;
  GtkWidget *expander;
} Section;

struct _DryInspector {
  GtkWidget parent_instance;
  DrySession *session;
  GtkLabel *title, *place;
  GtkBox *groups, *acts;
  GtkWidget *scroller, *heading, *corner, *duplicate;
  GtkWidget *chooser; /* while nothing is selected */
  GPtrArray *bindings, *sections;
  guint unfolded;  /* bit per DrySubjectKind: sections a person opened stay so */
  gboolean ready;  /* seen once; before that nothing is built */
  DryId shown;     /* selection the rows were built for */
  guint signature; /* which fields are shown; another one means building anew */
  gboolean filling, building, built;
  gboolean again; /* the session changed while rows were being taken away */
};

G_DEFINE_FINAL_TYPE (DryInspector, dry_inspector, GTK_TYPE_WIDGET)

/* --- what is shown --- */

static guint
list_subjects (DryInspector *self, DrySubjectRef subjects[4])
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId id = dry_session_get_selection (self->session);

  if (room && id) {
    if (dry_room_get_part (room, id))
      subjects[0] = (DrySubjectRef){DRY_SUBJECT_PART, id};
    else if (dry_room_get_opening (room, id))
      subjects[0] = (DrySubjectRef){DRY_SUBJECT_OPENING, id};
    else if (dry_room_get_wall (room, id))
      subjects[0] = (DrySubjectRef){DRY_SUBJECT_WALL, id};
    else if (room->basin.id == id)
      subjects[0] = (DrySubjectRef){DRY_SUBJECT_BASIN, id};
    else
      id = 0;
  }
  if (room && id)
    return 1;
  /* The finish comes first, under the systems: it is what people change most. */
  subjects[0] = (DrySubjectRef){DRY_SUBJECT_FINISH, 0};
  subjects[1] = (DrySubjectRef){DRY_SUBJECT_WET, 0};
  subjects[2] = (DrySubjectRef){DRY_SUBJECT_ROOM, 0};
  subjects[3] = (DrySubjectRef){DRY_SUBJECT_JOB, 0};
  return 4;
}

static guint
make_signature (DryInspector *self)
{
  DrySubjectRef subjects[4];
  guint n = list_subjects (self, subjects), hash = dry_session_get_room_id (self->session);

  for (guint i = 0; i < n; i++) {
    guint n_fields;
    const DryField *fields = dry_fields_list (subjects[i].kind, &n_fields);

    hash = hash * 31 + subjects[i].kind;
    for (guint j = 0; j < n_fields; j++)
      hash = hash * 31 + (guint) dry_field_is_shown (self->session, subjects[i], &fields[j]) + 1;
  }
  return hash;
}

/* --- from row to session --- */

static void
length_entered_cb (DryLengthRow *row, Binding *binding)
{
  dry_field_set_length (binding->inspector->session, binding->subject, binding->field,
                        dry_length_row_get_value (row));
}

static void
switched_cb (GtkSwitch *control, GParamSpec *pspec, Binding *binding)
{
  if (!binding->inspector->filling)
    dry_field_set_index (binding->inspector->session, binding->subject, binding->field,
                         gtk_switch_get_active (control));
}

static void
chosen_cb (AdwComboRow *row, GParamSpec *pspec, Binding *binding)
{
  if (!binding->inspector->filling)
    dry_field_set_index (binding->inspector->session, binding->subject, binding->field,
                         adw_combo_row_get_selected (row));
}

static void
number_changed_cb (GtkSpinButton *control, Binding *binding)
{
  if (!binding->inspector->filling)
    dry_field_set_number (binding->inspector->session, binding->subject, binding->field,
                          gtk_spin_button_get_value (control));
}

static void
text_applied_cb (AdwEntryRow *row, Binding *binding)
{
  if (!binding->inspector->filling)
    dry_field_set_text (binding->inspector->session, binding->subject, binding->field,
                        gtk_editable_get_text (GTK_EDITABLE (row)));
}

/* --- from session to row --- */

static void
fill_row (Binding *binding)
{
  DrySession *session = binding->inspector->session;
  const DryField *field = binding->field;

  switch (field->kind) {
  case DRY_FIELD_LENGTH: {
    DryLengthFormat format = dry_session_get_length_format (session);
    DryLengthRow *row = DRY_LENGTH_ROW (binding->row);
    dry_length_row_set_format (row, &format, dry_session_get_bare_unit (session));
    dry_length_row_set_value (row, dry_field_get_length (session, binding->subject, field));
    break;
  }
  case DRY_FIELD_BOOLEAN:
    gtk_switch_set_active (GTK_SWITCH (binding->control),
                           dry_field_get_index (session, binding->subject, field) != 0);
    break;
  case DRY_FIELD_CHOICE:
    adw_combo_row_set_selected (ADW_COMBO_ROW (binding->row),
                                dry_field_get_index (session, binding->subject, field));
    break;
  case DRY_FIELD_NUMBER:
  case DRY_FIELD_INTEGER:
    if (!(gtk_widget_get_state_flags (binding->control) & GTK_STATE_FLAG_FOCUS_WITHIN))
      gtk_spin_button_set_value (GTK_SPIN_BUTTON (binding->control),
                                 dry_field_get_number (session, binding->subject, field));
    break;
  case DRY_FIELD_TEXT:
  default: {
    const char *text = dry_field_get_text (session, binding->subject, field);
    GtkEditable *entry = GTK_EDITABLE (binding->row);
    /* Setting it anew would throw away what is being typed and the cursor's place. */
    if (!(gtk_widget_get_state_flags (binding->row) & GTK_STATE_FLAG_FOCUS_WITHIN) &&
        g_strcmp0 (gtk_editable_get_text (entry), text) != 0)
      gtk_editable_set_text (entry, text);
  }
  }
}

/* What is in a folded section, in a few words. */
static char *
describe_subject (DrySession *session, DrySubjectKind kind)
{
  const DryRoom *room = dry_session_get_room (session);
  const DryJob *job = dry_project_get_job (dry_session_get_project (session));

  if (!room)
    return g_strdup ("");
  switch (kind) {
  case DRY_SUBJECT_FINISH:
    return dry_tile_describe (session);
  case DRY_SUBJECT_WET: {
    g_autofree char *height = dry_session_format_length (session, room->wet.height);
    return room->wet.height ? g_strdup_printf (_ ("%s high"), height)
                            : g_strdup (_ ("Up to the ceiling"));
  }
  case DRY_SUBJECT_ROOM: {
    g_autofree char *ceiling = dry_session_format_length (session, room->ceiling);
    return g_strdup_printf (_ ("%s, ceiling %s"), room->name ? room->name : "", ceiling);
  }
  case DRY_SUBJECT_JOB:
  default:
    return g_strdup (job->client && *job->client ? job->client : job->title);
  }
}

static void
fill_section (Section *section)
{
  g_autofree char *text = describe_subject (section->inspector->session, section->subject.kind);

  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (section->expander), text);
}

static void
fill (DryInspector *self)
{
  DryId id = dry_session_get_selection (self->session);
  g_autofree char *name = dry_object_name (self->session, id);
  g_autofree char *place = dry_object_place (self->session, id);
  gboolean any = *name != '\0';

  if (!self->ready)
    return;
  self->filling = TRUE;
  gtk_widget_set_visible (self->heading, any);
  gtk_label_set_text (self->title, name);
  gtk_label_set_text (self->place, place);
  gtk_widget_set_visible (GTK_WIDGET (self->place), any && *place);
  for (guint i = 0; i < self->bindings->len; i++)
    fill_row (self->bindings->pdata[i]);
  for (guint i = 0; i < self->sections->len; i++)
    fill_section (self->sections->pdata[i]);
  self->filling = FALSE;
}

/* --- building rows --- */

static GtkWidget *
make_length_row (Binding *binding)
{
  const DryField *field = binding->field;
  GtkWidget *row = dry_length_row_new (_ (field->label));

  dry_length_row_set_limits (DRY_LENGTH_ROW (row), field->low, field->high);
  if (field->zero_text)
    dry_length_row_set_zero_text (DRY_LENGTH_ROW (row), _ (field->zero_text));
  if (field->hint)
    dry_length_row_set_hint (DRY_LENGTH_ROW (row), _ (field->hint));
  g_signal_connect (row, "entered", G_CALLBACK (length_entered_cb), binding);
  return row;
}

static GtkWidget *
make_row_with_control (Binding *binding, GtkWidget *control)
{
  const DryField *field = binding->field;
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (field->label));
  if (field->hint)
    adw_action_row_set_subtitle (ADW_ACTION_ROW (row), _ (field->hint));
  gtk_widget_set_valign (control, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), control);
  /* The row's title names it from here on. */
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), control);
  binding->control = control;
  return row;
}

static GtkWidget *
make_switch_row (Binding *binding)
{
  GtkWidget *control = gtk_switch_new ();

  g_signal_connect (control, "notify::active", G_CALLBACK (switched_cb), binding);
  return make_row_with_control (binding, control);
}

static GtkWidget *
make_number_row (Binding *binding)
{
  const DryField *field = binding->field;
  GtkWidget *control =
      gtk_spin_button_new_with_range (field->number_low, field->number_high, field->step);

  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (control), field->digits);
  g_signal_connect (control, "value-changed", G_CALLBACK (number_changed_cb), binding);
  return make_row_with_control (binding, control);
}

static GtkWidget *
make_choice_row (Binding *binding)
{
  const DryField *field = binding->field;
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  GtkWidget *row = adw_combo_row_new ();

  for (guint i = 0; field->choices[i]; i++)
    gtk_string_list_append (words, _ (field->choices[i]));
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (field->label));
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (words));
  g_signal_connect (row, "notify::selected", G_CALLBACK (chosen_cb), binding);
  return row;
}

static GtkWidget *
make_text_row (Binding *binding)
{
  GtkWidget *row = adw_entry_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (binding->field->label));
  adw_entry_row_set_show_apply_button (ADW_ENTRY_ROW (row), TRUE);
  g_signal_connect (row, "apply", G_CALLBACK (text_applied_cb), binding);
  return row;
}

static GtkWidget *
make_row (DryInspector *self, DrySubjectRef subject, const DryField *field)
{
  static GtkWidget *(*const MAKERS[]) (Binding *) = {
      [DRY_FIELD_LENGTH] = make_length_row,  [DRY_FIELD_NUMBER] = make_number_row,
      [DRY_FIELD_INTEGER] = make_number_row, [DRY_FIELD_BOOLEAN] = make_switch_row,
      [DRY_FIELD_CHOICE] = make_choice_row,  [DRY_FIELD_TEXT] = make_text_row,
  };
  Binding *binding = g_new0 (Binding, 1);

  binding->inspector = self;
  binding->subject = subject;
  binding->field = field;
  self->filling = TRUE;
  binding->row = MAKERS[field->kind](binding);
  self->filling = FALSE;
  if (!binding->control)
    binding->control = binding->row;
  g_ptr_array_add (self->bindings, binding);
  return binding->row;
}

static void
add_groups (DryInspector *self, DrySubjectRef subject)
{
  GtkWidget *group = NULL;
  guint n;
  const DryField *fields = dry_fields_list (subject.kind, &n);
  const char *heading = NULL;

  for (guint i = 0; i < n; i++) {
    if (fields[i].group) {
      heading = fields[i].group;
      group = NULL;
    }
    if (!dry_field_is_shown (self->session, subject, &fields[i]))
      continue;
    if (!group) {
      group = adw_preferences_group_new ();
      adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _ (heading));
      gtk_box_append (self->groups, group);
    }
    adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), make_row (self, subject, &fields[i]));
  }
}

static const char *
name_section (DrySubjectKind kind)
{
  switch (kind) {
  case DRY_SUBJECT_FINISH:
    return _ ("Tile");
  case DRY_SUBJECT_WET:
    return _ ("Wet wall");
  case DRY_SUBJECT_ROOM:
    return _ ("Room");
  default:
    return _ ("Job");
  }
}

static void
fill_expander (Section *section)
{
  DryInspector *self = section->inspector;
  guint n, before = self->bindings->len;
  const DryField *fields = dry_fields_list (section->subject.kind, &n);

  if (section->subject.kind == DRY_SUBJECT_FINISH)
    adw_expander_row_add_row (ADW_EXPANDER_ROW (section->expander),
                              dry_tile_row_new (self->session));
  for (guint i = 0; i < n; i++)
    if (dry_field_is_shown (self->session, section->subject, &fields[i]))
      adw_expander_row_add_row (ADW_EXPANDER_ROW (section->expander),
                                make_row (self, section->subject, &fields[i]));
  self->filling = TRUE;
  for (guint i = before; i < self->bindings->len; i++)
    fill_row (self->bindings->pdata[i]);
  self->filling = FALSE;
}

static void
section_unfolded_cb (GtkWidget *expander, GParamSpec *pspec, Section *section)
{
  guint bit = 1u << section->subject.kind;

  if (!adw_expander_row_get_expanded (ADW_EXPANDER_ROW (expander))) {
    section->inspector->unfolded &= ~bit;
    return;
  }
  section->inspector->unfolded |= bit;
  if (!g_object_get_data (G_OBJECT (expander), "filled"))
    fill_expander (section);
  g_object_set_data (G_OBJECT (expander), "filled", section);
}

static void
add_sections (DryInspector *self, const DrySubjectRef *subjects, guint n)
{
  GtkWidget *group = adw_preferences_group_new ();

  dry_access_name_lists (group, _ ("Tile, walls, room and job"));
  gtk_box_append (self->groups, group);
  for (guint i = 0; i < n; i++) {
    Section *section = g_new0 (Section, 1);

    section->inspector = self;
    section->subject = subjects[i];
    section->expander = adw_expander_row_new ();
    adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (section->expander), FALSE);
    adw_preferences_row_set_title (ADW_PREFERENCES_ROW (section->expander),
                                   name_section (subjects[i].kind));
    dry_access_name_expander_row (ADW_EXPANDER_ROW (section->expander));
    g_signal_connect (section->expander, "notify::expanded", G_CALLBACK (section_unfolded_cb),
                      section);
    g_ptr_array_add (self->sections, section);
    adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), section->expander);
    if (self->unfolded & 1u << subjects[i].kind)
      adw_expander_row_set_expanded (ADW_EXPANDER_ROW (section->expander), TRUE);
  }
}

/* The field being typed in, so that building anew gives the focus back to it. */
static const DryField *
get_focused_field (DryInspector *self)
{
  for (guint i = 0; i < self->bindings->len; i++) {
    const Binding *binding = self->bindings->pdata[i];
    if (gtk_widget_get_state_flags (binding->row) & GTK_STATE_FLAG_FOCUS_WITHIN)
      return binding->field;
  }
  return NULL;
}

static void
focus_field (DryInspector *self, const DryField *field)
{
  for (guint i = 0; field && i < self->bindings->len; i++) {
    const Binding *binding = self->bindings->pdata[i];
    if (binding->field == field)
      gtk_widget_child_focus (binding->row, GTK_DIR_TAB_FORWARD);
  }
}

static void
build (DryInspector *self)
{
  const DryField *focused = get_focused_field (self);
  DrySubjectRef subjects[4];
  guint n = list_subjects (self, subjects);
  gboolean one = n == 1;
  GtkWidget *child;

  /* Rows go first: losing the focus may still want to enter what was typed. */
  for (guint i = 0; i < self->sections->len; i++) {
    Section *section = self->sections->pdata[i];
    g_signal_handlers_disconnect_by_data (section->expander, section);
  }
  for (child = gtk_widget_get_first_child (GTK_WIDGET (self->groups)); child;) {
    GtkWidget *next = gtk_widget_get_next_sibling (child);
    if (one || child != self->chooser)
      gtk_box_remove (self->groups, child);
    child = next;
  }
  g_ptr_array_set_size (self->bindings, 0);
  g_ptr_array_set_size (self->sections, 0);
  if (one) {
    self->chooser = NULL;
    add_groups (self, subjects[0]);
  } else {
    if (!self->chooser) {
      self->chooser = dry_system_chooser_new (self->session);
      gtk_box_append (self->groups, self->chooser);
    }
    add_sections (self, subjects, n);
  }
  focus_field (self, focused);
  gtk_widget_set_visible (GTK_WIDGET (self->acts), one);
  gtk_widget_set_visible (self->corner, one && subjects[0].kind == DRY_SUBJECT_WALL);
  gtk_widget_set_visible (self->duplicate, one && (subjects[0].kind == DRY_SUBJECT_PART ||
                                                   subjects[0].kind == DRY_SUBJECT_OPENING));
}

static void
update (DryInspector *self)
{
  DryId id = dry_session_get_selection (self->session);
  guint signature = make_signature (self);

  if (!self->ready)
    return;
  if (self->building) {
    self->again = TRUE;
    return;
  }
  if (id != self->shown || signature != self->signature || !self->built) {
    gboolean another = id != self->shown;
    self->shown = id;
    self->signature = signature;
    self->building = TRUE;
    build (self);
    self->building = FALSE;
    self->built = TRUE;
    if (another)
      gtk_adjustment_set_value (
          gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller)), 0);
  }
  fill (self);
  if (self->again) {
    self->again = FALSE;
    update (self);
  }
}

static void
begin (GtkWidget *widget)
{
  DryInspector *self = DRY_INSPECTOR (widget);

  self->ready = TRUE;
  update (self);
}

/* --- object --- */

static void
dry_inspector_dispose (GObject *object)
{
  DryInspector *self = DRY_INSPECTOR (object);

  for (guint i = 0; self->sections && i < self->sections->len; i++) {
    Section *section = self->sections->pdata[i];
    g_signal_handlers_disconnect_by_data (section->expander, section);
  }
  g_clear_pointer (&self->sections, g_ptr_array_unref);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_pointer (&self->bindings, g_ptr_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_inspector_parent_class)->dispose (object);
}

static void
dry_inspector_class_init (DryInspectorClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_inspector_dispose;
  gtk_widget_class_set_css_name (widget_class, "inspector");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/drybay/Drybay/inspector.ui");
  gtk_widget_class_bind_template_child (widget_class, DryInspector, title);
  gtk_widget_class_bind_template_child (widget_class, DryInspector, place);
  gtk_widget_class_bind_template_child (widget_class, DryInspector, groups);
  gtk_widget_class_bind_template_child (widget_class, DryInspector, acts);
  gtk_widget_class_bind_template_child (widget_class, DryInspector, scroller);
  gtk_widget_class_bind_template_child (widget_class, DryInspector, heading);
  gtk_widget_class_bind_template_child (widget_class, DryInspector, corner);
  gtk_widget_class_bind_template_child (widget_class, DryInspector, duplicate);
}

static void
dry_inspector_init (DryInspector *self)
{
  self->bindings = g_ptr_array_new_with_free_func (g_free);
  self->sections = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
dry_inspector_new (DrySession *session)
{
  DryInspector *self = g_object_new (DRY_TYPE_INSPECTOR, NULL);

  self->session = g_object_ref (session);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (update), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (update), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "plan-changed", G_CALLBACK (fill), self, G_CONNECT_SWAPPED);
  dry_later_after_frame (GTK_WIDGET (self), begin);
  return GTK_WIDGET (self);
}
