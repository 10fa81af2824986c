/* SPDX-License-Identifier: GPL-3.0-or-later */
/* STUB, being written. */
#include "plan/cutting.h"
