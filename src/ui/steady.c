/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays toasts and the titles of entry rows out at their own size while they move. Knows how
 * libadwaita builds these two and nothing of what they say. */
#define G_LOG_DOMAIN "drybay-ui"

#include "ui/steady.h"

#include <math.h>

#include "ui/hooks.h"
#include "ui/plain-entry.h"

#define TITLE_GAP 3 /* px between title and text, as libadwaita has it */

/* --- toasts --- */

typedef void (*SizeAllocate) (GtkWidget *widget, int width, int height, int baseline);

/* What a widget takes beyond its content, which is what it says its size is. Its style is the one
 * thing that tells, though GTK 4.10 and later call that deprecated. */
static void
find_edges (GtkWidget *widget, int *across, int *along)
{
  GtkBorder margin, border, padding;
  GtkStyleContext *style;

  G_GNUC_BEGIN_IGNORE_DEPRECATIONS
  style = gtk_widget_get_style_context (widget);
  gtk_style_context_get_margin (style, &margin);
  gtk_style_context_get_border (style, &border);
  gtk_style_context_get_padding (style, &padding);
  G_GNUC_END_IGNORE_DEPRECATIONS
  *across = margin.left + margin.right + border.left + border.right + padding.left + padding.right;
  *along = margin.top + margin.bottom + border.top + border.bottom + padding.top + padding.bottom;
}

static gboolean
is_shrunk (GtkWidget *toast, GtkWidget *overlay)
{
  graphene_point_t from, to;
  float width = (float) gtk_widget_get_width (toast);

  return gtk_widget_compute_point (toast, overlay, &GRAPHENE_POINT_INIT (0, 0), &from) &&
         gtk_widget_compute_point (toast, overlay, &GRAPHENE_POINT_INIT (width, 0), &to) &&
         fabsf (to.x - from.x - width) > 1e-4f;
}

/* It lies at the lower edge when it goes, in the middle. */
static void
keep_toast_size (GtkWidget *toast, int width, int height)
{
  int across, along, toast_width, toast_height;

  find_edges (toast, &across, &along);
  toast_width = gtk_widget_get_width (toast) + across;
  toast_height = gtk_widget_get_height (toast) + along;
  gtk_widget_allocate (
      toast, toast_width, toast_height, -1,
      gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) ((width - toast_width) / 2),
                                                           (float) (height - toast_height))));
}

static void
allocate_overlay (GtkWidget *overlay, int width, int height, int baseline)
{
  GtkWidget *content = adw_toast_overlay_get_child (ADW_TOAST_OVERLAY (overlay));
  SizeAllocate original = (SizeAllocate) dry_hooks_get_original (ADW_TYPE_TOAST_OVERLAY);

  original (overlay, width, height, baseline);
  for (GtkWidget *child = gtk_widget_get_first_child (overlay); child;
       child = gtk_widget_get_next_sibling (child))
    if (child != content && is_shrunk (child, overlay))
      keep_toast_size (child, width, height);
}

void
dry_steady_install (void)
{
  dry_hooks_replace (ADW_TYPE_TOAST_OVERLAY, G_STRUCT_OFFSET (GtkWidgetClass, size_allocate),
                     (gpointer) allocate_overlay);
}

/* --- titles of entry rows --- */

/* The text and, in this order, the title of a row that is empty and that of one that is not. */
typedef struct {
  GtkWidget *text, *empty_title, *title;
} Parts;

static gboolean
find_parts (GtkWidget *area, Parts *out)
{
  *out = (Parts){NULL};
  for (GtkWidget *child = gtk_widget_get_first_child (area); child;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_TEXT (child))
      out->text = child;
    else if (GTK_IS_LABEL (child) && gtk_widget_has_css_class (child, "title"))
      out->empty_title = child;
    else if (GTK_IS_LABEL (child) && gtk_widget_has_css_class (child, "subtitle"))
      out->title = child;
    else
      return FALSE;
  return out->text && out->empty_title && out->title;
}

static GtkSizeRequestMode
get_request_mode (GtkWidget *area)
{
  return GTK_SIZE_REQUEST_CONSTANT_SIZE;
}

static void
measure_area (GtkWidget *area, GtkOrientation orientation, int for_size, int *minimum, int *natural,
              int *minimum_baseline, int *natural_baseline)
{
  Parts parts;
  int least[3] = {0}, usual[3] = {0};

  if (!find_parts (area, &parts))
    return;
  gtk_widget_measure (parts.text, orientation, for_size, &least[0], &usual[0], NULL, NULL);
  gtk_widget_measure (parts.title, orientation, for_size, &least[1], &usual[1], NULL, NULL);
  gtk_widget_measure (parts.empty_title, orientation, for_size, &least[2], &usual[2], NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = MAX (MAX (least[0], least[1]), least[2]);
    *natural = MAX (MAX (usual[0], usual[1]), usual[2]);
  } else {
    *minimum = MAX (least[0] + TITLE_GAP + least[1], least[2]);
    *natural = MAX (usual[0] + TITLE_GAP + usual[1], usual[2]);
  }
}

static void
allocate_title (GtkWidget *title, int width, int height, float y)
{
  gtk_widget_allocate (title, width, height, -1,
                       gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (0, y)));
}

/* How much of the way from an empty row to one that is typed into is gone is told by how much of
 * the text is seen. */
static void
allocate_area (GtkWidget *area, int width, int height, int baseline)
{
  Parts parts;
  int empty_height, title_height, text_height, text_baseline;
  double share;
  float y;

  if (!find_parts (area, &parts))
    return;
  gtk_widget_measure (parts.title, GTK_ORIENTATION_VERTICAL, width, NULL, &title_height, NULL,
                      NULL);
  gtk_widget_measure (parts.empty_title, GTK_ORIENTATION_VERTICAL, width, NULL, &empty_height, NULL,
                      NULL);
  gtk_widget_measure (parts.text, GTK_ORIENTATION_VERTICAL, width, NULL, &text_height, NULL,
                      &text_baseline);
  share = gtk_widget_get_opacity (parts.text);
  y = (float) ((1 - share) * (height - empty_height) / 2.0 +
               share * (height - title_height - text_height - TITLE_GAP) / 2.0);
  allocate_title (parts.empty_title, width, empty_height, y);
  allocate_title (parts.title, width, title_height, y);
  text_baseline += (int) ((height + title_height - text_height + TITLE_GAP) / 2.0);
  gtk_widget_allocate (parts.text, width, height, text_baseline, NULL);
}

static void
keep_title (AdwEntryRow *row)
{
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (row));
  GtkWidget *area = text ? gtk_widget_get_parent (GTK_WIDGET (text)) : NULL;
  Parts parts;

  if (area && find_parts (area, &parts))
    gtk_widget_set_layout_manager (
        area, gtk_custom_layout_new (get_request_mode, measure_area, allocate_area));
}

GtkWidget *
dry_steady_entry_row_new (const char *title)
{
  GtkWidget *row = adw_entry_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_entry_row_set_show_apply_button (ADW_ENTRY_ROW (row), TRUE);
  dry_plain_entry_set_up (row);
  keep_title (ADW_ENTRY_ROW (row));
  return row;
}
