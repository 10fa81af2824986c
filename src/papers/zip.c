/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ZIP archives by their published layout (APPNOTE 6.3): local headers, central directory, end
 * record. Inflating is GIO's work; every offset is held against the length before it is followed.
 */
#include "papers/zip.h"

#include <string.h>

#include "base/error.h"

#define LOCAL_SIZE   30
#define CENTRAL_SIZE 46
#define END_SIZE     22
#define FIXED_DATE   0x21 /* 1980-01-01 */
#define MAX_FILES    4096

static guint32
sum_of (gconstpointer data, gsize length)
{
  const guint8 *bytes = data;
  guint32 crc = 0xffffffff;

  for (gsize i = 0; i < length; i++) {
    crc ^= bytes[i];
    for (guint bit = 0; bit < 8; bit++)
      crc = crc >> 1 ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc;
}

/* The whole of `data` through a converter; NULL when it is damaged or gives more than `most`. */
static GByteArray *
convert (GConverter *converter, gconstpointer data, gsize length, gsize most, gboolean *too_long)
{
  g_autoptr (GByteArray) out = g_byte_array_new ();
  const guint8 *at = data;
  GConverterResult result = G_CONVERTER_CONVERTED;
  guint8 block[65536];

  *too_long = FALSE;
  while (result != G_CONVERTER_FINISHED) {
    gsize read = 0, written = 0;
    result = g_converter_convert (converter, at, length, block, sizeof block,
                                  G_CONVERTER_INPUT_AT_END, &read, &written, NULL);
    if (result == G_CONVERTER_ERROR)
      return NULL;
    at += read;
    length -= read;
    g_byte_array_append (out, block, (guint) written);
    if (out->len > most) {
      *too_long = TRUE;
      return NULL;
    }
  }
  return g_steal_pointer (&out);
}

/* --- writing --- */

struct _DryZipWriter {
  GByteArray *bytes, *central;
  guint n;
};

static void
put (GByteArray *out, guint32 value, guint n_bytes)
{
  for (guint i = 0; i < n_bytes; i++) {
    guint8 byte = (guint8) (value >> (8 * i));
    g_byte_array_append (out, &byte, 1);
  }
}

DryZipWriter *
dry_zip_writer_new (void)
{
  DryZipWriter *self = g_new0 (DryZipWriter, 1);

  self->bytes = g_byte_array_new ();
  self->central = g_byte_array_new ();
  return self;
}

/* What the local and the central header say alike. */
static void
put_common (GByteArray *out, guint32 crc, guint32 packed, guint32 size, const char *name)
{
  put (out, 20, 2); /* version needed */
  put (out, 0, 2);  /* flags; names are plain ASCII */
  put (out, 8, 2);  /* deflated */
  put (out, 0, 2);
  put (out, FIXED_DATE, 2);
  put (out, crc, 4);
  put (out, packed, 4);
  put (out, size, 4);
  put (out, (guint32) strlen (name), 2);
  put (out, 0, 2);
}

void
dry_zip_writer_add (DryZipWriter *self, const char *name, const char *text)
{
  g_autoptr (GZlibCompressor) deflate = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_RAW, 6);
  gsize size = strlen (text);
  gboolean too_long;
  g_autoptr (GByteArray) packed =
      convert (G_CONVERTER (deflate), text, size, G_MAXUINT32 / 2, &too_long);
  guint32 crc = sum_of (text, size), offset = self->bytes->len;

  g_assert (packed != NULL); /* nothing in memory is too long or cannot be packed */
  put (self->bytes, 0x04034b50, 4);
  put_common (self->bytes, crc, packed->len, (guint32) size, name);
  g_byte_array_append (self->bytes, (const guint8 *) name, (guint) strlen (name));
  g_byte_array_append (self->bytes, packed->data, packed->len);
  put (self->central, 0x02014b50, 4);
  put (self->central, 20, 2); /* made by */
  put_common (self->central, crc, packed->len, (guint32) size, name);
  put (self->central, 0, 2); /* comment */
  put (self->central, 0, 2); /* disk */
  put (self->central, 0, 2); /* attributes */
  put (self->central, 0, 4);
  put (self->central, offset, 4);
  g_byte_array_append (self->central, (const guint8 *) name, (guint) strlen (name));
  self->n++;
}

GBytes *
dry_zip_writer_finish (DryZipWriter *self)
{
  guint32 offset = self->bytes->len, length = self->central->len;
  GBytes *bytes;

  g_byte_array_append (self->bytes, self->central->data, length);
  put (self->bytes, 0x06054b50, 4);
  put (self->bytes, 0, 4); /* disks */
  put (self->bytes, self->n, 2);
  put (self->bytes, self->n, 2);
  put (self->bytes, length, 4);
  put (self->bytes, offset, 4);
  put (self->bytes, 0, 2);
  bytes = g_byte_array_free_to_bytes (self->bytes);
  g_byte_array_unref (self->central);
  g_free (self);
  return bytes;
}

/* --- reading --- */

static guint32
get (const guint8 *at, guint n_bytes)
{
  guint32 value = 0;

  for (guint i = n_bytes; i-- > 0;)
    value = value << 8 | at[i];
  return value;
}

static gpointer
damaged (GError **error)
{
  g_set_error (error, DRY_ERROR, DRY_ERROR_SYNTAX, "no workbook, or a damaged one");
  return NULL;
}

/* The end record, looked for from the end over a comment of any length. */
static const guint8 *
find_end (const guint8 *bytes, gsize length)
{
  for (gsize back = END_SIZE; back <= length && back <= END_SIZE + G_MAXUINT16; back++)
    if (get (bytes + length - back, 4) == 0x06054b50)
      return bytes + length - back;
  return NULL;
}

static GBytes *
unpack (const guint8 *entry, const guint8 *bytes, gsize length, gsize most, GError **error)
{
  guint method = get (entry + 10, 2);
  gsize packed = get (entry + 20, 4), size = get (entry + 24, 4), offset = get (entry + 42, 4);
  g_autoptr (GByteArray) out = NULL;
  gboolean too_long = FALSE;
  gsize from;

  if (offset > length || length - offset < LOCAL_SIZE || get (bytes + offset, 4) != 0x04034b50)
    return damaged (error);
  from = offset + LOCAL_SIZE + get (bytes + offset + 26, 2) + get (bytes + offset + 28, 2);
  if (from > length || packed > length - from)
    return damaged (error);
  if (size > most || (method == 0 && packed > most))
    too_long = TRUE;
  else if (method == 0)
    out = g_byte_array_append (g_byte_array_new (), bytes + from, (guint) packed);
  else if (method == 8) {
    g_autoptr (GZlibDecompressor) inflate = g_zlib_decompressor_new (G_ZLIB_COMPRESSOR_FORMAT_RAW);
    out = convert (G_CONVERTER (inflate), bytes + from, packed, most, &too_long);
  }
  if (too_long) {
    g_set_error (error, DRY_ERROR, DRY_ERROR_LIMIT, "the workbook is too large when unpacked");
    return NULL;
  }
  if (!out || out->len != size || sum_of (out->data, out->len) != get (entry + 16, 4))
    return damaged (error);
  return g_byte_array_free_to_bytes (g_steal_pointer (&out));
}

GBytes *
dry_zip_read (gconstpointer data, gsize length, const char *name, gsize most, GError **error)
{
  const guint8 *bytes = data, *end = find_end (bytes, length);
  gsize at = end ? get (end + 16, 4) : 0, name_length = strlen (name);
  guint n = end ? get (end + 10, 2) : 0;

  if (!end || n > MAX_FILES)
    return damaged (error);
  for (guint i = 0; i < n; i++) {
    gsize named;
    if (at > length || length - at < CENTRAL_SIZE || get (bytes + at, 4) != 0x02014b50)
      return damaged (error);
    named = get (bytes + at + 28, 2);
    if (length - at - CENTRAL_SIZE < named)
      return damaged (error);
    if (named == name_length && memcmp (bytes + at + CENTRAL_SIZE, name, named) == 0)
      return unpack (bytes + at, bytes, length, most, error);
    at += CENTRAL_SIZE + named + get (bytes + at + 30, 2) + get (bytes + at + 32, 2);
  }
  return NULL;
}
