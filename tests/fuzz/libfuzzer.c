/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What libFuzzer calls: the entry named when this file is compiled. Knows nothing else. */
#include <signal.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include "fuzz/entries.h"

int LLVMFuzzerInitialize (int *argc, char ***argv);
int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

/* GLib ends with a trap, which libFuzzer does not know; it keeps the input of an abort. */
static void
abort_instead (int number)
{
  abort ();
}

int
LLVMFuzzerInitialize (int *argc, char ***argv)
{
  g_log_set_always_fatal (G_LOG_FATAL_MASK | G_LOG_LEVEL_CRITICAL | G_LOG_LEVEL_WARNING);
  signal (SIGTRAP, abort_instead);
  return 0;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  FUZZ_ENTRY (data, size);
  return 0;
}
