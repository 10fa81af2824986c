/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawer of pages under the line of totals. Refreshed when a newer plan arrives; the pages are
 * built when first seen and filled only while seen, so that a drag pays for nothing hidden. */
#define G_LOG_DOMAIN "drybay-ui"
#include "ui/ledger.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/ledger-alternates.h"
#include "ui/ledger-findings.h"
#include "ui/ledger-list.h"
#include "ui/ledger-pages.h"
#include "ui/ledger-schedule.h"
#include "ui/ledger-sheets.h"
#include "ui/ledger-totals.h"
#include "ui/popover-place.h"
#include "ui/symbol.h"

typedef enum {
  PAGE_FINDINGS,
  PAGE_TAKEOFF,
  PAGE_SHEETS,
  PAGE_ORDER,
  PAGE_SCHEDULE,
  PAGE_ALTERNATES,
  N_PAGES
} Page;

struct _DryLedger {
  GtkWidget parent_instance;
  DrySession *session;
  DryWeigher *weigher; /* of remedies */
  GtkWidget *bar, *toggle, *copy, *sort, *taller, *drawer, *handle;
  GtkLabel *note;
  DryLedgerTotals *totals;
  GtkSpinner *spinner;
  GtkRevealer *revealer;
  GtkStack *pages;
  GtkWidget *page[N_PAGES];
  const DryPlan *filled[N_PAGES]; /* compared only, never read */
  gboolean choosing;
  int height;      /* of the drawer, as asked for */
  int drag_height; /* when its handle was taken */
  guint schedule_timer;
};

/* The board keeps at least this much of the window. */
#define LEAST_HEIGHT     160
#define BOARD_HEIGHT     300
#define TALL_HEIGHT      460
#define SCHEDULE_REST_MS 120

G_DEFINE_FINAL_TYPE (DryLedger, dry_ledger, GTK_TYPE_WIDGET)

enum { PROP_OPEN = 1, PROP_DRAWER_HEIGHT, N_PROPS };
static GParamSpec *properties[N_PROPS];

/* --- pages --- */

static Page
get_page (DryLedger *self)
{
  GtkWidget *shown = gtk_stack_get_visible_child (self->pages);

  for (Page page = 0; page < N_PAGES; page++)
    if (self->page[page] == shown)
      return page;
  return PAGE_FINDINGS;
}

static DryLedgerSort
get_sort (DryLedger *self)
{
  return (DryLedgerSort) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->sort));
}

/* How the total behind the page came to be. */
static void
fill_note (DryLedger *self, Page page)
{
  static const DryTotal TOTALS[N_PAGES] = {DRY_TOTAL_FINDINGS, DRY_TOTAL_COST, DRY_TOTAL_SHEETS,
                                           DRY_TOTAL_TIME,     DRY_TOTAL_TIME, DRY_TOTAL_COST};
  g_autofree char *working = dry_total_working (self->session, TOTALS[page]);

  gtk_label_set_text (self->note, working);
}

static gboolean
fill_schedule_cb (gpointer data)
{
  DryLedger *self = data;
  g_autofree char *note =
      dry_ledger_fill_schedule (self->session, DRY_LEDGER_LIST (self->page[PAGE_SCHEDULE]));

  self->schedule_timer = 0;
  if (get_page (self) == PAGE_SCHEDULE)
    gtk_label_set_text (self->note, note);
  return G_SOURCE_REMOVE;
}

/* A schedule takes longer to reckon and to set in rows than a frame lasts: it waits until a drag
 * rests. The first one is there at once. */
static void
fill_schedule (DryLedger *self, gboolean first)
{
  if (self->schedule_timer)
    g_source_remove (self->schedule_timer);
  self->schedule_timer = 0;
  if (first)
    fill_schedule_cb (self);
  else
    self->schedule_timer = g_timeout_add (SCHEDULE_REST_MS, fill_schedule_cb, self);
}

static void
fill_shown_page (DryLedger *self)
{
  Page page = get_page (self);
  const DryPlan *plan = dry_session_get_plan (self->session);
  gboolean first;

  gtk_widget_set_visible (self->copy, page == PAGE_TAKEOFF);
  gtk_widget_set_visible (self->sort, page == PAGE_TAKEOFF);
  if (!gtk_revealer_get_reveal_child (self->revealer) || !plan || !self->page[page] ||
      self->filled[page] == plan ||
      dry_popover_place_wait (GTK_WIDGET (self), (DryLaterFunc) fill_shown_page))
    return;
  first = self->filled[page] == NULL;
  self->filled[page] = plan;
  if (page != PAGE_SCHEDULE)
    fill_note (self, page);
  switch (page) {
  case PAGE_FINDINGS:
    dry_ledger_fill_findings (self->session, self->weigher, DRY_LEDGER_LIST (self->page[page]));
    break;
  case PAGE_TAKEOFF:
    dry_ledger_fill_takeoff (self->session, get_sort (self), DRY_LEDGER_LIST (self->page[page]));
    break;
  case PAGE_ORDER:
    dry_ledger_fill_order (self->session, DRY_LEDGER_LIST (self->page[page]));
    break;
  case PAGE_SCHEDULE:
    fill_schedule (self, first);
    break;
  case PAGE_ALTERNATES:
    dry_ledger_alternates_fill (DRY_LEDGER_ALTERNATES (self->page[page]));
    break;
  case PAGE_SHEETS:
  case N_PAGES:
  default:
    dry_ledger_sheets_fill (DRY_LEDGER_SHEETS (self->page[PAGE_SHEETS]));
    break;
  }
}

/* Only what is seen is weighed. */
static void
weigh_findings (DryLedger *self)
{
  static const char *const NONE[] = {NULL};
  GtkWidget *findings = self->page[PAGE_FINDINGS];

  if (findings && get_page (self) == PAGE_FINDINGS &&
      gtk_revealer_get_reveal_child (self->revealer))
    dry_ledger_weigh_findings (self->weigher, DRY_LEDGER_LIST (findings));
  else
    dry_weigher_look_at (self->weigher, NONE);
}

static void
weighed_cb (gpointer data)
{
  DryLedger *self = data;

  self->filled[PAGE_FINDINGS] = NULL;
  fill_shown_page (self);
}

static void
refresh_page (DryLedger *self)
{
  fill_shown_page (self);
  weigh_findings (self);
}

static void
plan_changed_cb (DryLedger *self)
{
  gboolean busy = dry_session_is_busy (self->session);

  gtk_spinner_set_spinning (self->spinner, busy && !dry_session_get_plan (self->session));
  dry_ledger_totals_fill (self->totals);
  refresh_page (self);
}

/* --- what people do --- */

static void
finding_chosen_cb (DryLedgerList *list, guint index, DryLedger *self)
{
  self->choosing = TRUE;
  dry_session_select_finding (self->session, (gint) index);
  self->choosing = FALSE;
}

static void
selection_changed_cb (DryLedger *self)
{
  gint finding = dry_session_get_selected_finding (self->session);

  if (self->choosing || !self->page[PAGE_FINDINGS])
    return;
  if (finding < 0) {
    dry_ledger_list_show (DRY_LEDGER_LIST (self->page[PAGE_FINDINGS]), G_MAXUINT);
    return;
  }
  gtk_stack_set_visible_child (self->pages, self->page[PAGE_FINDINGS]);
  if (gtk_revealer_get_reveal_child (self->revealer))
    dry_ledger_list_show (DRY_LEDGER_LIST (self->page[PAGE_FINDINGS]), (guint) finding);
}

/* The things a quantity counts are lit up on the board; choosing the row again puts them out. */
static void
quantity_chosen_cb (DryLedgerList *list, guint index, DryLedger *self)
{
  g_autofree char *key = dry_ledger_takeoff_key (self->session, get_sort (self), index);
  gboolean lit = g_strcmp0 (key, dry_session_get_counted (self->session)) == 0;

  dry_session_set_counted (self->session, lit ? NULL : key);
}

static void
counted_changed_cb (DryLedger *self)
{
  if (self->page[PAGE_TAKEOFF] && dry_session_get_counted (self->session) == NULL)
    dry_ledger_list_show (DRY_LEDGER_LIST (self->page[PAGE_TAKEOFF]), G_MAXUINT);
}

static void
finding_acted_cb (DryLedgerList *list, guint index, guint act, DryLedger *self)
{
  dry_ledger_act_on_finding (self->session, self->weigher, index, act);
}

static void
schedule_acted_cb (DryLedgerList *list, guint index, guint act, DryLedger *self)
{
  dry_ledger_tick_schedule (self->session, index);
}

static void
copy_clicked_cb (DryLedger *self)
{
  const DryPlan *plan = dry_session_get_plan (self->session);
  g_autofree char *table = NULL;

  if (!plan)
    return;
  table = dry_ledger_copy_takeoff (self->session, get_sort (self));
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), table);
  g_signal_emit_by_name (self->session, "told", _ ("Take-off copied"), NULL);
}

static void
sort_changed_cb (DryLedger *self)
{
  self->filled[PAGE_TAKEOFF] = NULL;
  fill_shown_page (self);
}

/* --- height --- */

static void
set_height (DryLedger *self, int height)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  int most = root ? gtk_widget_get_height (GTK_WIDGET (root)) - BOARD_HEIGHT : 0;

  height = MAX (height, LEAST_HEIGHT);
  if (most > LEAST_HEIGHT)
    height = MIN (height, most);
  if (height == self->height)
    return;
  self->height = height;
  gtk_widget_set_size_request (self->drawer, -1, height);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_DRAWER_HEIGHT]);
}

static void
drag_begin_cb (DryLedger *self)
{
  self->drag_height = self->height;
}

static void
drag_update_cb (DryLedger *self, double dx, double dy, GtkGestureDrag *gesture)
{
  GtkWidget *widget = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture));
  double x, y, root_y, unused;

  /* The handle moves with the height: reckon on the window, which stays. */
  gtk_gesture_drag_get_start_point (gesture, &x, &y);
  gtk_widget_translate_coordinates (widget, GTK_WIDGET (gtk_widget_get_root (widget)), x, y + dy,
                                    &unused, &root_y);
  gtk_widget_translate_coordinates (widget, GTK_WIDGET (gtk_widget_get_root (widget)), x, y,
                                    &unused, &y);
  set_height (self, self->height - (int) (root_y - y));
}

static void
taller_clicked_cb (DryLedger *self)
{
  set_height (self, self->height < (TALL_HEIGHT + LEAST_HEIGHT) / 2 ? TALL_HEIGHT : LEAST_HEIGHT);
}

/* --- building --- */

static void
add_page (DryLedger *self, Page page, GtkWidget *child, const char *name, const char *title)
{
  self->page[page] = child;
  gtk_stack_add_titled (self->pages, child, name, title);
}

/* More rows of the shown page are asked for. */
static void
more_cb (DryLedger *self)
{
  self->filled[get_page (self)] = NULL;
  fill_shown_page (self);
}

static void
add_list (DryLedger *self, Page page, const char *name, const char *title, const char *empty)
{
  add_page (self, page, dry_ledger_list_new (title, empty), name, title);
  g_signal_connect_object (self->page[page], "more", G_CALLBACK (more_cb), self, G_CONNECT_SWAPPED);
}

static void
build_pages (DryLedger *self)
{
  GtkWidget **page_of = self->page;

  if (page_of[PAGE_FINDINGS])
    return;
  add_list (self, PAGE_FINDINGS, "findings", _ ("Findings"),
            _ ("Nothing to mind: no rule of the pack is broken"));
  add_list (self, PAGE_TAKEOFF, "takeoff", _ ("Take-off"), _ ("Nothing to buy yet"));
  add_page (self, PAGE_SHEETS, dry_ledger_sheets_new (self->session), "sheets", _ ("Cut sheets"));
  add_list (self, PAGE_ORDER, "order", _ ("Order of work"), _ ("Nothing to do yet"));
  add_list (self, PAGE_SCHEDULE, "schedule", _ ("Schedule"), _ ("Nothing to do yet"));
  add_page (self, PAGE_ALTERNATES, dry_ledger_alternates_new (self->session), "alternates",
            _ ("Alternates"));
  g_signal_connect (page_of[PAGE_FINDINGS], "chosen", G_CALLBACK (finding_chosen_cb), self);
  g_signal_connect (page_of[PAGE_FINDINGS], "acted", G_CALLBACK (finding_acted_cb), self);
  dry_ledger_list_set_stepping (DRY_LEDGER_LIST (page_of[PAGE_FINDINGS]), TRUE);
  dry_ledger_list_set_stepping (DRY_LEDGER_LIST (page_of[PAGE_TAKEOFF]), TRUE);
  g_signal_connect (page_of[PAGE_TAKEOFF], "chosen", G_CALLBACK (quantity_chosen_cb), self);
  g_signal_connect_object (self->session, "counted-changed", G_CALLBACK (counted_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect (page_of[PAGE_SCHEDULE], "acted", G_CALLBACK (schedule_acted_cb), self);
  g_signal_connect_object (page_of[PAGE_FINDINGS], "unfolded", G_CALLBACK (weigh_findings), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_swapped (self->pages, "notify::visible-child", G_CALLBACK (refresh_page), self);
}

static void
total_chosen_cb (DryLedger *self, guint total)
{
  static const Page PAGES[DRY_N_TOTALS] = {
      [DRY_TOTAL_AREA] = PAGE_TAKEOFF,      [DRY_TOTAL_SHEETS] = PAGE_SHEETS,
      [DRY_TOTAL_TIME] = PAGE_ORDER,        [DRY_TOTAL_COST] = PAGE_TAKEOFF,
      [DRY_TOTAL_FINDINGS] = PAGE_FINDINGS,
  };
  gboolean shown =
      gtk_revealer_get_reveal_child (self->revealer) && get_page (self) == PAGES[total];

  build_pages (self);
  gtk_stack_set_visible_child (self->pages, self->page[PAGES[total]]);
  g_object_set (self, "open", !shown, NULL);
}

/* --- object --- */

static void
reveal_changed_cb (DryLedger *self)
{
  gboolean open = gtk_revealer_get_reveal_child (self->revealer);

  gtk_button_set_icon_name (GTK_BUTTON (self->toggle),
                            open ? "pan-down-symbolic" : "pan-up-symbolic");
  if (open)
    build_pages (self);
  refresh_page (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_OPEN]);
}

static void
dry_ledger_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_OPEN)
    g_value_set_boolean (value, gtk_revealer_get_reveal_child (DRY_LEDGER (object)->revealer));
  else if (id == PROP_DRAWER_HEIGHT)
    g_value_set_int (value, DRY_LEDGER (object)->height);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
dry_ledger_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_OPEN)
    gtk_revealer_set_reveal_child (DRY_LEDGER (object)->revealer, g_value_get_boolean (value));
  else if (id == PROP_DRAWER_HEIGHT)
    set_height (DRY_LEDGER (object), g_value_get_int (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
dry_ledger_dispose (GObject *object)
{
  DryLedger *self = DRY_LEDGER (object);
  GtkWidget *child;

  if (self->schedule_timer)
    g_source_remove (self->schedule_timer);
  self->schedule_timer = 0;
  if (self->pages)
    g_signal_handlers_disconnect_by_data (self->pages, self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))))
    gtk_widget_unparent (child);
  self->pages = NULL;
  g_clear_pointer (&self->weigher, dry_weigher_free);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (dry_ledger_parent_class)->dispose (object);
}

static void
dry_ledger_class_init (DryLedgerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (DRY_TYPE_LEDGER_TOTALS);
  object_class->dispose = dry_ledger_dispose;
  object_class->get_property = dry_ledger_get_property;
  object_class->set_property = dry_ledger_set_property;
  properties[PROP_OPEN] =
      g_param_spec_boolean ("open", NULL, NULL, FALSE,
                            G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  properties[PROP_DRAWER_HEIGHT] =
      g_param_spec_int ("drawer-height", NULL, NULL, 0, G_MAXINT, 0,
                        G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "ledger");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/drybay/Drybay/ledger.ui");
  gtk_widget_class_bind_template_child (widget_class, DryLedger, bar);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, toggle);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, copy);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, totals);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, sort);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, taller);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, drawer);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, handle);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, note);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, spinner);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, revealer);
  gtk_widget_class_bind_template_child (widget_class, DryLedger, pages);
  gtk_widget_class_bind_template_callback (widget_class, total_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, copy_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, sort_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, taller_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_begin_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_update_cb);
}

static void
dry_ledger_init (DryLedger *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_button_set_child (GTK_BUTTON (self->taller),
                        gtk_image_new_from_paintable (dry_symbol_get ("drybay-taller-symbolic")));
  gtk_widget_set_cursor_from_name (self->handle, "ns-resize");
  set_height (self, 280);
  g_object_bind_property (self->toggle, "active", self->revealer, "reveal-child",
                          G_BINDING_BIDIRECTIONAL | G_BINDING_SYNC_CREATE);
  g_signal_connect_object (self->revealer, "notify::reveal-child", G_CALLBACK (reveal_changed_cb),
                           self, G_CONNECT_SWAPPED);
}

GtkWidget *
dry_ledger_new (DrySession *session)
{
  DryLedger *self = g_object_new (DRY_TYPE_LEDGER, NULL);

  self->session = g_object_ref (session);
  self->weigher = dry_weigher_new (session, weighed_cb, self);
  dry_ledger_totals_set_session (self->totals, session);
  g_signal_connect_object (session, "plan-changed", G_CALLBACK (plan_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "document-changed", G_CALLBACK (plan_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  plan_changed_cb (self);
  return GTK_WIDGET (self);
}
