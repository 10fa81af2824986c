/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ties rows to settings both ways; what a setting does is its reader's business.
 * Knows no project: what is set here is for the next new one, for papers and for the style. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/preferences.h"

#include <glib/gi18n.h>

#include "ui/application.h"
#include "ui/length-row.h"
#include "ui/preferences-packs.h"

struct _DryPreferences {
  AdwPreferencesWindow parent_instance;
  GSettings *settings;
  const DryCatalog *catalog; /* held by the application */
  GtkWidget *units, *denominator, *rule_pack, *projects, *paper, *style, *niches;
};

#define DRY_TYPE_PREFERENCES (dry_preferences_get_type ())
G_DECLARE_FINAL_TYPE (DryPreferences, dry_preferences, DRY, PREFERENCES, AdwPreferencesWindow)
G_DEFINE_FINAL_TYPE (DryPreferences, dry_preferences, ADW_TYPE_PREFERENCES_WINDOW)

/* The words of a setting in the order of its row. */
static const char *const UNITS[] = {"feet-inches", "millimetres", NULL};
static const char *const PAPERS[] = {"locale", "letter", "tabloid", "a4", "a3", NULL};
static const char *const STYLES[] = {"system", "light", "dark", NULL};
static const gint DENOMINATORS[] = {8, 16, 32, 64};

/* --- between settings and rows --- */

static gboolean
word_to_index (GValue *value, GVariant *variant, gpointer words)
{
  const char *word = g_variant_get_string (variant, NULL);
  const char *const *list = words;

  for (guint i = 0; list[i] != NULL; i++)
    if (g_str_equal (list[i], word)) {
      g_value_set_uint (value, i);
      return TRUE;
    }
  return FALSE;
}

static GVariant *
index_to_word (const GValue *value, const GVariantType *type, gpointer words)
{
  const char *const *list = words;
  guint index = g_value_get_uint (value);

  return index < g_strv_length ((char **) list) ? g_variant_new_string (list[index]) : NULL;
}

/* A number between the offered ones, set by hand, shows as the next finer one. */
static gboolean
denominator_to_index (GValue *value, GVariant *variant, gpointer data)
{
  guint index = 0;

  while (index + 1 < G_N_ELEMENTS (DENOMINATORS) &&
         DENOMINATORS[index] < g_variant_get_int32 (variant))
    index++;
  g_value_set_uint (value, index);
  return TRUE;
}

static GVariant *
index_to_denominator (const GValue *value, const GVariantType *type, gpointer data)
{
  guint index = g_value_get_uint (value);

  return index < G_N_ELEMENTS (DENOMINATORS) ? g_variant_new_int32 (DENOMINATORS[index]) : NULL;
}

static gboolean
pack_to_index (GValue *value, GVariant *variant, gpointer data)
{
  const DryCatalog *catalog = data;
  const char *id = g_variant_get_string (variant, NULL);

  /* A pack that is gone shows as nothing chosen; new projects then take their own default. */
  g_value_set_uint (value, GTK_INVALID_LIST_POSITION);
  for (guint i = 0; i < dry_catalog_get_n_rule_packs (catalog); i++)
    if (g_str_equal (dry_catalog_get_rule_pack_at (catalog, i)->id, id))
      g_value_set_uint (value, i);
  return TRUE;
}

static GVariant *
index_to_pack (const GValue *value, const GVariantType *type, gpointer data)
{
  const DryCatalog *catalog = data;
  guint index = g_value_get_uint (value);

  return index < dry_catalog_get_n_rule_packs (catalog)
             ? g_variant_new_string (dry_catalog_get_rule_pack_at (catalog, index)->id)
             : NULL;
}

static void
show_edition (DryPreferences *self)
{
  guint index = adw_combo_row_get_selected (ADW_COMBO_ROW (self->rule_pack));
  g_autofree char *edition =
      index < dry_catalog_get_n_rule_packs (self->catalog)
          ? g_markup_escape_text (dry_catalog_get_rule_pack_at (self->catalog, index)->edition, -1)
          : NULL;

  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->rule_pack), edition != NULL ? edition : "");
}

static void
list_rule_packs (DryPreferences *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < dry_catalog_get_n_rule_packs (self->catalog); i++)
    gtk_string_list_append (names, dry_catalog_get_rule_pack_at (self->catalog, i)->name);
  adw_combo_row_set_model (ADW_COMBO_ROW (self->rule_pack), G_LIST_MODEL (names));
}

static void
bind_words (DryPreferences *self, const char *key, GtkWidget *row, const char *const *words)
{
  g_settings_bind_with_mapping (self->settings, key, row, "selected", G_SETTINGS_BIND_DEFAULT,
                                word_to_index, index_to_word, (gpointer) words, NULL);
}

static void
bind_settings (DryPreferences *self)
{
  bind_words (self, "units", self->units, UNITS);
  bind_words (self, "paper", self->paper, PAPERS);
  bind_words (self, "style", self->style, STYLES);
  g_settings_bind_with_mapping (self->settings, "denominator", self->denominator, "selected",
                                G_SETTINGS_BIND_DEFAULT, denominator_to_index, index_to_denominator,
                                NULL, NULL);
  if (self->catalog == NULL) {
    gtk_widget_set_visible (self->rule_pack, FALSE);
    return;
  }
  list_rule_packs (self);
  g_settings_bind_with_mapping (self->settings, "rule-pack", self->rule_pack, "selected",
                                G_SETTINGS_BIND_DEFAULT, pack_to_index, index_to_pack,
                                (gpointer) self->catalog, NULL);
  g_signal_connect_swapped (self->rule_pack, "notify::selected", G_CALLBACK (show_edition), self);
  show_edition (self);
}

/* --- niches: lengths kept in millimetres, shown in the units of new projects --- */

static void
on_length_entered (DryLengthRow *row, DryPreferences *self)
{
  g_settings_set_double (self->settings, g_object_get_data (G_OBJECT (row), "key"),
                         dry_length_to_mm (dry_length_row_get_value (row)));
}

static void
add_length (DryPreferences *self, const char *key, const char *title, const char *hint,
            const char *zero, DryLength most)
{
  gboolean metric = g_settings_get_enum (self->settings, "units") != 0;
  DryLengthFormat format = {
      .style = metric ? DRY_LENGTH_MM : DRY_LENGTH_INCHES, .denominator = 16, .decimal = '.'};
  GtkWidget *row = dry_length_row_new (title);
  DryLength value = 0;

  dry_length_from_mm (g_settings_get_double (self->settings, key), &value);
  dry_length_row_set_format (DRY_LENGTH_ROW (row), &format, metric ? DRY_UNIT_MM : DRY_UNIT_INCH);
  dry_length_row_set_limits (DRY_LENGTH_ROW (row), 0, most);
  dry_length_row_set_zero_text (DRY_LENGTH_ROW (row), zero);
  dry_length_row_set_hint (DRY_LENGTH_ROW (row), hint);
  dry_length_row_set_value (DRY_LENGTH_ROW (row), value);
  g_object_set_data (G_OBJECT (row), "key", (gpointer) key);
  g_signal_connect (row, "entered", G_CALLBACK (on_length_entered), self);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->niches), row);
}

static void
add_niche_lengths (DryPreferences *self)
{
  add_length (self, "tallest-bottle", _ ("Tallest bottle"), _ ("A niche must take it and an inch"),
              _ ("as the rules say"), 1000 * DRY_MM);
  add_length (self, "joint-tolerance", _ ("Edge on a tile joint within"),
              _ ("Further off, it counts as off the joint"), NULL, 50 * DRY_MM);
}

static void
update_fraction (DryPreferences *self)
{
  /* Millimetres have no fractions to choose. */
  gtk_widget_set_sensitive (self->denominator,
                            adw_combo_row_get_selected (ADW_COMBO_ROW (self->units)) == 0);
}

/* --- object --- */

static void
dry_preferences_dispose (GObject *object)
{
  DryPreferences *self = DRY_PREFERENCES (object);

  g_clear_object (&self->settings);
  G_OBJECT_CLASS (dry_preferences_parent_class)->dispose (object);
}

static void
dry_preferences_class_init (DryPreferencesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = dry_preferences_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, DRY_RESOURCE_ROOT "/preferences.ui");
  gtk_widget_class_bind_template_child (widget_class, DryPreferences, units);
  gtk_widget_class_bind_template_child (widget_class, DryPreferences, denominator);
  gtk_widget_class_bind_template_child (widget_class, DryPreferences, rule_pack);
  gtk_widget_class_bind_template_child (widget_class, DryPreferences, projects);
  gtk_widget_class_bind_template_child (widget_class, DryPreferences, paper);
  gtk_widget_class_bind_template_child (widget_class, DryPreferences, style);
  gtk_widget_class_bind_template_child (widget_class, DryPreferences, niches);
}

static void
dry_preferences_init (DryPreferences *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* The preferences may be asked for while they are the active window. */
static GtkWindow *
find_shown (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++) {
    g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

    if (DRY_IS_PREFERENCES (window))
      return window; /* toplevels are held by GTK */
  }
  return NULL;
}

void
dry_preferences_present (GtkWindow *parent)
{
  GtkWindow *shown = find_shown ();
  DryApplication *application;
  DryPreferences *self;

  if (shown != NULL) {
    gtk_window_present (shown);
    return;
  }
  application = DRY_APPLICATION (gtk_window_get_application (parent));
  self = g_object_new (DRY_TYPE_PREFERENCES, "transient-for", parent, NULL);
  self->settings = g_object_ref (dry_application_get_settings (application));
  self->catalog = dry_application_get_catalog (application);
  bind_settings (self);
  dry_preferences_add_packs (ADW_PREFERENCES_WINDOW (self), ADW_PREFERENCES_GROUP (self->projects),
                             self->catalog);
  add_niche_lengths (self);
  g_signal_connect_swapped (self->units, "notify::selected", G_CALLBACK (update_fraction), self);
  update_fraction (self);
  gtk_window_present (GTK_WINDOW (self));
}
