/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The panel beside the board while a part is in hand or its best places are shown: score, what
 * costs points, what an inch each way would cost. Reckons nothing but those four neighbors. */
#include "ui/canvas-advice.h"

#include <glib/gi18n.h>
#include <math.h>

#include "ui/application.h"

#define MOST_REASONS 6

const char *
dry_advice_kind_words (DryAdviceKind kind)
{
  static const char *const words[DRY_N_ADVICE] = {
      [DRY_ADVICE_BOARDED] = N_ ("In the boarded wall"),
      [DRY_ADVICE_FRAME] = N_ ("Leaves the frame of the wall whole"),
      [DRY_ADVICE_STUDS] = N_ ("Clear of studs"),
      [DRY_ADVICE_BAY] = N_ ("Fits its stud bay"),
      [DRY_ADVICE_HIDDEN] = N_ ("Clear of pipes, vents and cables"),
      [DRY_ADVICE_PARTS] = N_ ("Clear of other parts"),
      [DRY_ADVICE_OTHER_SIDE] = N_ ("Room for the niche behind"),
      [DRY_ADVICE_RATED] = N_ ("No fire-rated wall"),
      [DRY_ADVICE_DEPTH] = N_ ("No deeper than the wall"),
      [DRY_ADVICE_INSULATION] = N_ ("Leaves insulation behind it"),
      [DRY_ADVICE_BOTTLE] = N_ ("Takes the tallest bottle"),
      [DRY_ADVICE_HEIGHT] = N_ ("Within reach"),
      [DRY_ADVICE_SPRAY] = N_ ("Out of the direct spray"),
      [DRY_ADVICE_SEAM] = N_ ("Clear of board seams"),
      [DRY_ADVICE_JOINTS] = N_ ("Edges on tile joints"),
      [DRY_ADVICE_NEAR] = N_ ("Room to what stands beside it"),
      [DRY_ADVICE_WALL] = N_ ("In an inner wall without pipes"),
      [DRY_ADVICE_HOLD] = N_ ("Studs behind both ends"),
      [DRY_ADVICE_LAYOUT] = N_ ("Tile stays as it is laid"),
  };

  return (guint) kind < DRY_N_ADVICE ? _ (words[kind]) : "";
}

DryAdviceOptions
dry_advice_user_options (void)
{
  DryAdviceOptions options = dry_advice_options_default ();
  GApplication *application = g_application_get_default ();
  GSettings *settings;
  DryLength length;

  if (application == NULL || !DRY_IS_APPLICATION (application))
    return options;
  settings = dry_application_get_settings (DRY_APPLICATION (application));
  if (dry_length_from_mm (g_settings_get_double (settings, "tallest-bottle"), &length))
    options.tallest_bottle = MAX (length, 0);
  if (dry_length_from_mm (g_settings_get_double (settings, "joint-tolerance"), &length))
    options.joint_tolerance = MAX (length, 0);
  return options;
}

/* --- the widget: a title, the reasons, the inches --- */

GtkWidget *
dry_advice_panel_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  static const char *const classes[] = {"heading", "caption", "caption"};

  for (guint i = 0; i < G_N_ELEMENTS (classes); i++) {
    GtkWidget *label = gtk_label_new (NULL);

    gtk_widget_add_css_class (label, classes[i]);
    gtk_widget_add_css_class (label, "numeric");
    gtk_label_set_xalign (GTK_LABEL (label), 0);
    gtk_label_set_wrap (GTK_LABEL (label), TRUE);
    gtk_label_set_width_chars (GTK_LABEL (label), 34);
    gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
    gtk_box_append (GTK_BOX (box), label);
  }
  gtk_widget_add_css_class (box, "advice-panel");
  gtk_widget_set_can_target (box, FALSE);
  return box;
}

static void
append_points (GString *text, double points)
{
  double rounded = round (points * 10) / 10;

  if (rounded == round (rounded))
    g_string_append_printf (text, "%.0f", rounded);
  else
    g_string_append_printf (text, "%.1f", rounded);
}

static char *
tell_reasons (const DryAdvicePlace *place)
{
  GString *text = g_string_new (NULL);
  guint told = 0;

  for (guint i = 0; i < place->n_reasons && told < MOST_REASONS; i++) {
    const DryAdviceReason *reason = &place->reasons[i];

    if (reason->holds || (!place->legal && !reason->hard))
      continue;
    if (told++ > 0)
      g_string_append_c (text, '\n');
    if (reason->hard) {
      g_string_append (text, "✕ ");
    } else {
      g_string_append (text, "−");
      append_points (text, reason->points);
      g_string_append (text, "  ");
    }
    g_string_append (text, reason->text);
  }
  /* With nothing against it, what matters most and changes while it moves. */
  for (guint i = 0; i < place->n_reasons && told < 4; i++) {
    const DryAdviceReason *reason = &place->reasons[i];

    if (!reason->holds || (reason->kind != DRY_ADVICE_HEIGHT && reason->kind != DRY_ADVICE_SPRAY &&
                           reason->kind != DRY_ADVICE_BAY && reason->kind != DRY_ADVICE_JOINTS))
      continue;
    g_string_append_printf (text, "%s✓ %s", told++ > 0 ? "\n" : "", reason->text);
  }
  return g_string_free (text, FALSE);
}

static char *
tell_inch (const DryAdvice *advice, const DryAdviceFace *face, const DryAdvicePlace *place,
           DryLength du, DryLength dz)
{
  double points = dry_advice_reckon (advice, face, (DryPoint){place->u + du, place->z + dz});
  GString *text;

  if (points < 0)
    return g_strdup ("✕");
  text = g_string_new (NULL);
  points -= place->legal ? place->points : 0;
  if (points > 0.05)
    g_string_append_c (text, '+');
  else if (points < -0.05)
    g_string_append (text, "−");
  append_points (text, fabs (points));
  return g_string_free (text, FALSE);
}

static char *
tell_inches (const DryAdvice *advice, const DryAdvicePlace *place)
{
  const DryAdviceFace *face = dry_advice_get_face (advice, place->wall, place->side);
  g_autofree char *left = NULL, *right = NULL, *up = NULL, *down = NULL;

  if (face == NULL)
    return g_strdup ("");
  left = tell_inch (advice, face, place, -DRY_INCH, 0);
  right = tell_inch (advice, face, place, DRY_INCH, 0);
  up = tell_inch (advice, face, place, 0, DRY_INCH);
  down = tell_inch (advice, face, place, 0, -DRY_INCH);
  /* Points that one inch to each side adds or saves; a cross: it may not stand there. */
  return g_strdup_printf (_ ("An inch left %s · right %s · up %s · down %s"), left, right, up,
                          down);
}

void
dry_advice_panel_tell (GtkWidget *panel, const DryAdvice *advice, const DryAdvicePlace *place)
{
  GtkWidget *title = gtk_widget_get_first_child (panel);
  GtkWidget *reasons = gtk_widget_get_next_sibling (title);
  g_autofree char *score = place->legal
                               ? g_strdup_printf (_ ("Score %.0f of 100"), round (place->score))
                               : g_strdup (_ ("May not stand here"));
  g_autofree char *against = tell_reasons (place);
  g_autofree char *inches = tell_inches (advice, place);

  gtk_label_set_text (GTK_LABEL (title), score);
  gtk_label_set_text (GTK_LABEL (reasons), against);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_next_sibling (reasons)), inches);
}
