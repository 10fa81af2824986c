/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets by trade from the window: which trade is the action's target, all rooms in one PDF. What
 * is on them is the papers floor's. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "papers/trades.h"

static void
write_trades (DryWindow *self, const char *path, guint trades)
{
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  g_autoptr (GPtrArray) plans = dry_window_collect_plans (self, 0);
  g_autoptr (DryPapers) papers = NULL;
  g_autoptr (GError) error = NULL;

  if (plans == NULL)
    return;
  papers = dry_papers_new_trades ((const DryPlan *const *) plans->pdata, plans->len, trades,
                                  &options, &error);
  dry_window_tell_outcome (
      self,
      papers != NULL && dry_papers_save (papers, "Sheets by trade of a wet area", path, &error),
      path, error);
}

/* The dialog hands back only where to; so each trade has its own way from it. */
#define WRITE(name, trades)                                                                        \
  static void write_##name (DryWindow *self, const char *path)                                     \
  {                                                                                                \
    write_trades (self, path, trades);                                                             \
  }

WRITE (framer, 1u << DRY_TRADE_FRAMER)
WRITE (plumber, 1u << DRY_TRADE_PLUMBER)
WRITE (hanger, 1u << DRY_TRADE_HANGER)
WRITE (waterproofer, 1u << DRY_TRADE_WATERPROOFER)
WRITE (setter, 1u << DRY_TRADE_SETTER)
WRITE (all, DRY_TRADES_ALL)

static void
on_trade_sheets (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  /* Translators: the endings are ends of files' names. */
  static const struct {
    const char *word, *title, *ending;
    DryFileChosen write;
  } trades[] = {
      {"framer", N_ ("Export the Framer's Sheets"), N_ (" - framer.pdf"), write_framer},
      {"plumber", N_ ("Export the Rough-In Sheets"), N_ (" - rough-in.pdf"), write_plumber},
      {"hanger", N_ ("Export the Board Hanger's Sheets"), N_ (" - boards.pdf"), write_hanger},
      {"waterproofer", N_ ("Export the Waterproofer's Sheets"), N_ (" - waterproofing.pdf"),
       write_waterproofer},
      {"setter", N_ ("Export the Tile Setter's Sheets"), N_ (" - tile.pdf"), write_setter},
      {"all", N_ ("Export the Sheets of All Trades"), N_ (" - trades.pdf"), write_all},
  };
  const char *word = g_variant_get_string (parameter, NULL);

  /* The page of a submenu closes with the focus still in it, and keys would go nowhere after. */
  gtk_widget_grab_focus (GTK_WIDGET (((DryWindow *) data)->canvas));
  for (guint i = 0; i < G_N_ELEMENTS (trades); i++)
    if (g_str_equal (trades[i].word, word))
      dry_window_ask_pdf (data, _ (trades[i].title), _ (trades[i].ending), trades[i].write);
}

void
dry_window_add_trade_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "trade-sheets", .activate = on_trade_sheets, .parameter_type = "s"},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
