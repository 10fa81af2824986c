/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Papers at full size from the window: the template of a niche and the story pole of the room
 * shown, to a PDF or a printer. What is on them is the papers floor's. */
#include "ui/window-private.h"

#include <glib/gi18n.h>

typedef DryPapers *(*MakePapers) (DryWindow *self, const DryPlan *plan,
                                  const DryPaperOptions *options, GError **error);

/* The niche selected, else the only one of the room, else the first. 0: none. */
static DryId
find_niche (DryWindow *self)
{
  const DryRoom *room = dry_session_get_room (self->session);
  DryId selected = dry_session_get_selection (self->session), first = 0;

  for (guint i = 0; room != NULL && i < room->n_parts; i++) {
    const DryPart *part = &room->parts[i];

    if (part->kind != DRY_PART_NICHE)
      continue;
    if (part->id == selected)
      return selected;
    first = first != 0 ? first : part->id;
  }
  return first;
}

static DryPapers *
make_template (DryWindow *self, const DryPlan *plan, const DryPaperOptions *options, GError **error)
{
  return dry_papers_new_template (plan, find_niche (self), options, error);
}

static DryPapers *
make_story_pole (DryWindow *self, const DryPlan *plan, const DryPaperOptions *options,
                 GError **error)
{
  return dry_papers_new_story_pole (plan, options, error);
}

/* Of the room that is shown; NULL after telling why. */
static DryPapers *
make_papers (DryWindow *self, MakePapers make)
{
  DryId room = dry_session_get_room_id (self->session);
  g_autoptr (GPtrArray) plans = room != 0 ? dry_window_collect_plans (self, room) : NULL;
  g_autofree char *date = NULL;
  DryPaperOptions options = dry_window_paper_options (self, &date);
  g_autoptr (GError) error = NULL;
  DryPapers *papers = NULL;

  if (plans != NULL && plans->len > 0)
    papers = make (self, plans->pdata[0], &options, &error);
  if (error != NULL)
    dry_window_tell (self, error->message);
  return papers;
}

static void
export_to (DryWindow *self, const char *path, MakePapers make)
{
  g_autoptr (DryPapers) papers = make_papers (self, make);
  g_autoptr (GError) error = NULL;

  if (papers != NULL)
    dry_window_tell_outcome (
        self, dry_papers_save (papers, "Full-size papers of a wet area", path, &error), path,
        error);
}

static void
export_template_to (DryWindow *self, const char *path)
{
  export_to (self, path, make_template);
}

static void
export_pole_to (DryWindow *self, const char *path)
{
  export_to (self, path, make_story_pole);
}

/* TRUE after telling that there is nothing a template could be of. */
static gboolean
lacks_niche (DryWindow *self)
{
  if (find_niche (self) != 0)
    return FALSE;
  dry_window_tell (self, _ ("Put a niche on a wall first: the template is of a niche"));
  return TRUE;
}

static void
on_export_template (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  if (!lacks_niche (data))
    dry_window_ask_pdf (data, _ ("Export the Niche's Template"),
                        /* Translators: end of a file's name */
                        _ (" - template.pdf"), export_template_to);
}

static void
on_export_pole (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  dry_window_ask_pdf (data, _ ("Export the Story Pole"),
                      /* Translators: end of a file's name */
                      _ (" - story pole.pdf"), export_pole_to);
}

static void
on_print_template (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryPapers *papers = lacks_niche (data) ? NULL : make_papers (data, make_template);

  if (papers != NULL)
    dry_window_print (data, papers);
}

static void
on_print_pole (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DryPapers *papers = make_papers (data, make_story_pole);

  if (papers != NULL)
    dry_window_print (data, papers);
}

void
dry_window_add_full_size_actions (DryWindow *self)
{
  static const GActionEntry entries[] = {
      {.name = "export-template", .activate = on_export_template},
      {.name = "export-story-pole", .activate = on_export_pole},
      {.name = "print-template", .activate = on_print_template},
      {.name = "print-story-pole", .activate = on_print_pole},
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
