/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one error domain of everything below the window. An error means "cannot compute";
 * a design that is merely bad is a finding, never an error. */
#pragma once

#include <glib.h>

#define DRY_ERROR (dry_error_quark ())

typedef enum {
  DRY_ERROR_TEXT,        /* text a person typed was not understood */
  DRY_ERROR_SYNTAX,      /* a file is no JSON, not UTF-8, or cut off */
  DRY_ERROR_SCHEMA,      /* JSON, but a wrong type, missing or unknown field, bad value */
  DRY_ERROR_VERSION,     /* another format, or written by a newer Drybay */
  DRY_ERROR_LIMIT,       /* larger than the documented limits */
  DRY_ERROR_REFERENCE,   /* names an object or catalogue item that is not there */
  DRY_ERROR_GEOMETRY,    /* outline that crosses itself, zero-length wall, and the like */
  DRY_ERROR_FILE,        /* cannot be read or written */
  DRY_ERROR_CHANGED,     /* a file was changed by someone else since it was read */
  DRY_ERROR_CANCELLED,   /* a newer project made this computation pointless */
  DRY_ERROR_UNSUPPORTED, /* asked for something that does not exist (sheet name, option) */
} DryErrorCode;

GQuark dry_error_quark (void);
