/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person can do, as one table: name, keys, title and group, read by the window, the menus'
 * test and the shortcuts window. Also the acts on the selection that need nothing but the session.
 */
#pragma once

#include "ui/session.h"

G_BEGIN_DECLS

typedef enum {
  DRY_ACTIONS_FILE,
  DRY_ACTIONS_EDIT,
  DRY_ACTIONS_VIEW,
  DRY_ACTIONS_LAYERS,
  DRY_ACTIONS_ROOM,
  DRY_ACTIONS_HELP,
  DRY_N_ACTION_GROUPS,
} DryActionGroup;

typedef struct {
  const char *name;  /* "win.save"; with a target: "win.layer::studs" */
  const char *accel; /* "<Control>s", or several separated by spaces; NULL: menu only */
  const char *title; /* untranslated, marked with N_() */
  const char *help;  /* page id in help/ */
  DryActionGroup group;
} DryActionInfo;

const DryActionInfo *dry_actions_list (guint *n);
/* TRUE when a focused text entry may use the same keys: then they are bound after it. */
gboolean dry_action_is_local (const DryActionInfo *info);
/* Appends an item with the action's first key beside it. `label` is translated. */
void dry_actions_append (GMenu *menu, const char *label, const char *name);
const char *dry_action_group_title (DryActionGroup group); /* untranslated, marked with N_() */

/* "Niche 12\" x 20\"" and "on the back wall, 48\" above the floor, 20\" from its left end": how an
 * object is called and where it is. Free both with g_free(). */
char *dry_object_name (DrySession *session, DryId object);
char *dry_object_place (DrySession *session, DryId object);

/* Acts on an object; each is one undo step and tells a toast where that helps. TRUE when done. */
gboolean dry_act_delete (DrySession *session, DryId object);
gboolean dry_act_duplicate (DrySession *session, DryId object);
/* Adds a copied part or opening (one of them NULL) to the selected wall, else to its own, at the
 * first free place. */
gboolean dry_act_paste (DrySession *session, const DryPart *part, const DryOpening *opening);
/* The first u to the right or left of the part's own where it covers no other part of the wall. */
DryLength dry_free_place (const DryRoom *room, const DryWall *wall, const DryPart *part);
/* Moves along (du, to the right as seen facing the wall) and up; basin: along and away from its
 * wall; walls: dz into the room. */
gboolean dry_act_nudge (DrySession *session, DryId object, DryLength du, DryLength dz);

/* "Stud 3" and "Back wall, 32\" from the left to its center". Free both with g_free(). */
char *dry_stud_name (DrySession *session, DryId wall, gint stud);
char *dry_stud_place (DrySession *session, DryId wall, gint stud);
/* The selected stud: moves it along its wall, takes it out; adds one beside it or on the selected
 * wall. */
gboolean dry_act_nudge_stud (DrySession *session, DryLength du);
gboolean dry_act_delete_stud (DrySession *session);
gboolean dry_act_add_stud (DrySession *session);

G_END_DECLS
