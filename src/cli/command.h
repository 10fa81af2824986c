/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a subcommand of drybay-cli is, and what they share: options, loading, exit codes.
 * One source file a subcommand; none of them computes anything the floors below do not. */
#pragma once

#include "plan/plan.h"

/* Exit codes. */
enum { DRY_EXIT_OK = 0, DRY_EXIT_OPEN = 1, DRY_EXIT_ERROR = 2 };

typedef struct {
  const char *name;
  const char *arguments;              /* "FILE -o OUT.pdf" */
  const char *summary;                /* one line */
  const char *details;                /* shown by --help below the options; may be NULL */
  const GOptionEntry *entries;        /* may be NULL */
  gboolean takes_room, takes_catalog; /* adds --room, --catalog */
  guint n_files;                      /* how many FILE arguments it needs */
  int (*run) (char **files);
} DryCommand;

extern const DryCommand dry_command_remedy, dry_command_template, dry_command_water;
extern const DryCommand dry_command_check, dry_command_compare, dry_command_cost,
    dry_command_drawing, dry_command_findings, dry_command_nest, dry_command_papers,
    dry_command_places, dry_command_plan, dry_command_prices, dry_command_schedule,
    dry_command_systems, dry_command_takeoff, dry_command_tile;

/* Options every project command has; set by the parser before run(). */
typedef struct {
  char *room;      /* name or number, or NULL for all */
  char **catalogs; /* further catalogue folders */
  char **packs;    /* further files, each a rule pack; set by the command itself */
  double seconds;  /* search for fewer sheets, a room */
} DryCliOptions;

const DryCliOptions *dry_cli_get_options (void);

/* Prints "drybay-cli: message" and gives DRY_EXIT_ERROR. */
int dry_cli_fail (const GError *error);

/* Reads these files (NULL-ended, borrowed), each a rule pack, into the catalogue as well. */
void dry_cli_set_pack_files (char **paths);

/* The catalogue with --catalog folders read after the shipped ones. NULL on error. */
DryCatalog *dry_cli_load_catalog (GError **error);
/* Plans of the rooms asked for, in file order. NULL on error. */
GPtrArray *dry_cli_load_plans (const char *path, GError **error);
/* The room asked for with --room, 0 when none is; FALSE with an error when there is no such room.
 */
gboolean dry_cli_find_room (const DryProject *project, DryId *room, GError **error);
/* How long to search, from --search; see dry_plan_new_searched(). */
gboolean dry_cli_get_effort (guint64 *effort, GError **error);
/* Writes all of `text` to standard output; DRY_EXIT_ERROR when it cannot (full disk, closed pipe).
 */
int dry_cli_print (const char *text, gsize length);
