/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds rows from the field tables and keeps them in step with the session; a row being typed in
 * is left alone. With nothing selected the sections are folded and filled when opened. What fields
 * there are is in inspector-tables.c, how they are set in inspector-fields.c. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/inspector.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/access.h"
#include "ui/depth-bar.h"
#include "ui/actions.h"
#include "ui/inspector-checks.h"
#include "ui/inspector-on-hand.h"
#include "ui/inspector-piece.h"
#include "ui/inspector-row.h"
#include "ui/inspector-rules.h"
#include "ui/inspector-schedule.h"
#include "ui/inspector-tile.h"
#include "ui/later.h"
#include "ui/pieces.h"
#include "ui/popover-place.h"
#include "ui/system-chooser.h"
#include "ui/wrapping.h"

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
  GtkWidget *chooser;         /* while nothing is selected */
  GPtrArray *rows, *sections; /* of DryInspectorRow, Section */
  guint unfolded;             /* bit per DrySubjectKind: sections a person opened stay so */
  gboolean ready;             /* seen once; before that nothing is built */
  DryId shown;                /* selection the rows were built for */
  guint signature;            /* which fields are shown; another one means building anew */
  gboolean building, built;
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

  if (dry_session_get_selected_piece (self->session) != NULL)
    hash = hash * 31 + 1;
  for (guint i = 0; i < n; i++) {
    guint n_fields;
    const DryField *fields = dry_fields_list (subjects[i].kind, &n_fields);

    hash = hash * 31 + subjects[i].kind;
    for (guint j = 0; j < n_fields; j++)
      hash = hash * 31 + (guint) dry_field_is_shown (self->session, subjects[i], &fields[j]) + 1;
  }
  return hash;
}

/* --- from session to row --- */

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
  const DryPieceRef *piece = dry_session_get_selected_piece (self->session);
  g_autofree char *name =
      piece != NULL ? dry_piece_name (self->session, piece) : dry_object_name (self->session, id);
  g_autofree char *place =
      piece != NULL ? dry_piece_place (self->session, piece) : dry_object_place (self->session, id);
  g_autofree char *shown = dry_wrapping_shorten (name);
  gboolean any = *name != '\0';

  if (!self->ready)
    return;
  gtk_widget_set_visible (self->heading, any);
  gtk_label_set_text (self->title, shown);
  gtk_label_set_text (self->place, place);
  gtk_widget_set_visible (GTK_WIDGET (self->place), any && *place);
  for (guint i = 0; i < self->rows->len; i++)
    dry_inspector_row_fill (self->rows->pdata[i]);
  for (guint i = 0; i < self->sections->len; i++)
    fill_section (self->sections->pdata[i]);
}

/* --- building rows --- */

static GtkWidget *
make_row (DryInspector *self, DrySubjectRef subject, const DryField *field)
{
  DryInspectorRow *row = dry_inspector_row_new (self->session, subject, field);

  g_ptr_array_add (self->rows, row);
  return row->widget;
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

/* What stands before the studs belongs to a valve, though it is no field of it. */
static void
add_depth_bar (DryInspector *self, DrySubjectRef subject)
{
  const DryPart *part =
      subject.kind == DRY_SUBJECT_PART ? dry_subject_get_value (self->session, subject) : NULL;
  GtkWidget *group;

  if (!part || part->kind != DRY_PART_VALVE)
    return;
  group = adw_preferences_group_new ();
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), _ ("Depth of the wall here"));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group),
                             dry_depth_bar_new (self->session, part->id));
  gtk_box_append (self->groups, group);
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
  guint n, before = self->rows->len;
  const DryField *fields = dry_fields_list (section->subject.kind, &n);

  if (section->subject.kind == DRY_SUBJECT_FINISH)
    adw_expander_row_add_row (ADW_EXPANDER_ROW (section->expander),
                              dry_tile_row_new (self->session));
  for (guint i = 0; i < n; i++)
    if (dry_field_is_shown (self->session, section->subject, &fields[i]))
      adw_expander_row_add_row (ADW_EXPANDER_ROW (section->expander),
                                make_row (self, section->subject, &fields[i]));
  /* Below what every job has: a pack may offer a dozen choices. */
  if (section->subject.kind == DRY_SUBJECT_JOB) {
    dry_checks_add_row (self->session, ADW_EXPANDER_ROW (section->expander));
    dry_rules_add_rows (self->session, ADW_EXPANDER_ROW (section->expander));
  }
  for (guint i = before; i < self->rows->len; i++)
    dry_inspector_row_fill (self->rows->pdata[i]);
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
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), dry_schedule_row_new (self->session));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), dry_on_hand_row_new (self->session));
}

/* The field being typed in, so that building anew gives the focus back to it. */
static const DryField *
get_focused_field (DryInspector *self)
{
  for (guint i = 0; i < self->rows->len; i++) {
    const DryInspectorRow *row = self->rows->pdata[i];
    if (gtk_widget_get_state_flags (row->widget) & GTK_STATE_FLAG_FOCUS_WITHIN)
      return row->field;
  }
  return NULL;
}

static void
focus_field (DryInspector *self, const DryField *field)
{
  for (guint i = 0; field && i < self->rows->len; i++) {
    const DryInspectorRow *row = self->rows->pdata[i];
    if (row->field == field)
      gtk_widget_child_focus (row->widget, GTK_DIR_TAB_FORWARD);
  }
}

static void
build (DryInspector *self)
{
  const DryField *focused = get_focused_field (self);
  DrySubjectRef subjects[4];
  guint n = list_subjects (self, subjects);
  gboolean one = n == 1;
  gboolean piece = dry_session_get_selected_piece (self->session) != NULL;
  GtkWidget *child;

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
  g_ptr_array_set_size (self->rows, 0);
  g_ptr_array_set_size (self->sections, 0);
  if (one && piece) {
    self->chooser = NULL;
    gtk_box_append (self->groups, dry_piece_panel_new (self->session));
  } else if (one) {
    self->chooser = NULL;
    add_depth_bar (self, subjects[0]);
    add_groups (self, subjects[0]);
  } else {
    if (!self->chooser) {
      self->chooser = dry_system_chooser_new (self->session);
      gtk_box_append (self->groups, self->chooser);
    }
    add_sections (self, subjects, n);
  }
  focus_field (self, focused);
  gtk_widget_set_visible (GTK_WIDGET (self->acts), one && !piece);
  gtk_widget_set_visible (self->corner, one && subjects[0].kind == DRY_SUBJECT_WALL);
  gtk_widget_set_visible (self->duplicate, one && (subjects[0].kind == DRY_SUBJECT_PART ||
                                                   subjects[0].kind == DRY_SUBJECT_OPENING));
}

static void update_cb (GtkWidget *widget);

static void
update (DryInspector *self)
{
  DryId id = dry_session_get_selection (self->session);
  guint signature = make_signature (self);

  if (!self->ready || dry_popover_place_wait (GTK_WIDGET (self), update_cb))
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

/* The board shows first what was done, this panel a frame later: its rows take longer to lay out.
 */
static void
update_cb (GtkWidget *widget)
{
  update (DRY_INSPECTOR (widget));
}

static void
update_soon (DryInspector *self)
{
  if (self->ready)
    dry_later_after_frame (GTK_WIDGET (self), update_cb);
}

void
dry_inspector_catch_up (GtkWidget *widget)
{
  DRY_INSPECTOR (widget)->ready = TRUE; /* also before its first frame */
  update (DRY_INSPECTOR (widget));
}

static void
typing_ends_cb (DryInspector *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    dry_inspector_row_confirm (self->rows->pdata[i]);
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
  g_clear_pointer (&self->rows, g_ptr_array_unref);
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
  self->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) dry_inspector_row_free);
  self->sections = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  dry_wrapping_watch (self->title);
  dry_wrapping_watch (self->place);
}

GtkWidget *
dry_inspector_new (DrySession *session)
{
  DryInspector *self = g_object_new (DRY_TYPE_INSPECTOR, NULL);

  self->session = g_object_ref (session);
  g_signal_connect_object (session, "project-changed", G_CALLBACK (update_soon), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "typing-ends", G_CALLBACK (typing_ends_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (update_soon), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (update_soon), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "plan-changed", G_CALLBACK (update_soon), self,
                           G_CONNECT_SWAPPED);
  dry_later_after_frame (GTK_WIDGET (self), begin);
  return GTK_WIDGET (self);
}
