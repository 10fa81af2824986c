/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bump allocation in blocks, freed together when the last reference goes.
 * Not safe for two threads allocating at once: the stage that fills an arena owns it. */
#define G_LOG_DOMAIN "drybay-base"
#include "base/arena.h"

#include <string.h>

#if defined(__SANITIZE_ADDRESS__)
#  define SEPARATE_BLOCKS 1
#elif defined(__has_feature)
#  if __has_feature(address_sanitizer)
#    define SEPARATE_BLOCKS 1
#  endif
#endif
#ifndef SEPARATE_BLOCKS
#  define SEPARATE_BLOCKS 0
#endif

#define BLOCK_BYTES ((gsize) 64 * 1024)
#define ALIGNMENT   ((gsize) 16)

typedef struct _Block Block;
struct _Block {
  Block *next;
  gsize used, size;
  /* the bytes follow, at a multiple of ALIGNMENT */
};

#define HEADER_BYTES ((sizeof (Block) + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT)

struct _DryArena {
  Block *blocks; /* newest first */
};

DryArena *
dry_arena_new (void)
{
  return g_atomic_rc_box_new0 (DryArena);
}

DryArena *
dry_arena_ref (DryArena *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
free_blocks (gpointer data)
{
  DryArena *self = data;

  while (self->blocks) {
    Block *next = self->blocks->next;
    g_free (self->blocks);
    self->blocks = next;
  }
}

void
dry_arena_unref (DryArena *self)
{
  g_atomic_rc_box_release_full (self, free_blocks);
}

static Block *
add_block (DryArena *self, gsize size)
{
  Block *block = g_malloc0 (HEADER_BYTES + size);

  block->size = size;
  block->next = self->blocks;
  self->blocks = block;
  return block;
}

gpointer
dry_arena_alloc (DryArena *self, gsize size)
{
  gsize room = MAX ((size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT, ALIGNMENT);
  Block *block = self->blocks;
  gpointer memory;

  if (SEPARATE_BLOCKS)
    return (char *) add_block (self, MAX (size, 1)) + HEADER_BYTES;
  if (!block || block->size - block->used < room)
    block = add_block (self, MAX (BLOCK_BYTES, room));
  memory = (char *) block + HEADER_BYTES + block->used;
  block->used += room;
  return memory;
}

gpointer
dry_arena_copy (DryArena *self, gconstpointer data, gsize size)
{
  gpointer memory = dry_arena_alloc (self, size);

  if (size > 0)
    memcpy (memory, data, size);
  return memory;
}

char *
dry_arena_strdup (DryArena *self, const char *text)
{
  return text ? dry_arena_copy (self, text, strlen (text) + 1) : NULL;
}

char *
dry_arena_printf (DryArena *self, const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list arguments;

  va_start (arguments, format);
  text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  return dry_arena_strdup (self, text);
}

gpointer
dry_arena_take_array (DryArena *self, GArray *array)
{
  gpointer memory = NULL;

  if (array->len > 0)
    memory =
        dry_arena_copy (self, array->data, (gsize) array->len * g_array_get_element_size (array));
  g_array_unref (array);
  return memory;
}
