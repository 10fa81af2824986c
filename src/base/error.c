/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Registers the error domain. It knows no codes: those are in the header. */
#include "base/error.h"

G_DEFINE_QUARK (dry - error - quark, dry_error)
