/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Look-ups within one backer system.
 * Reading is system-read.c's work; nothing here changes a system. */
#define G_LOG_DOMAIN "drybay-catalog"
#include "catalog/system.h"

const DryProduct *
dry_system_get_product (const DrySystem *self, const char *id)
{
  for (guint i = 0; id && i < self->n_products; i++)
    if (g_str_equal (self->products[i].id, id))
      return &self->products[i];
  return NULL;
}

const DryWait *
dry_system_get_wait (const DrySystem *self, const char *id)
{
  for (guint i = 0; id && i < self->n_waits; i++)
    if (g_str_equal (self->waits[i].id, id))
      return &self->waits[i];
  return NULL;
}

const DrySheet *
dry_system_get_sheet (const DrySystem *self, const char *id)
{
  for (guint i = 0; id && i < self->n_sheets; i++)
    if (g_str_equal (self->sheets[i].id, id))
      return &self->sheets[i];
  return NULL;
}
