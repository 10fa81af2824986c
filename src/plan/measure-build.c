/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes subjects and measures into the plan's arena.
 * Knows how a measure is stored, not what any of them means. */
#include "plan/measure-build.h"

#include <string.h>

void
dry_measuring_begin (DryMeasuring *self, const char *kind, DryId object, gint face, DryRect place,
                     const char *name)
{
  const DryFaces *faces = self->plan->faces;
  const char *face_name = face >= 0 && (guint) face < faces->n ? faces->items[face].name : NULL;

  name = name ? name : kind;
  if (face_name && strcmp (face_name, name) != 0)
    name = dry_arena_printf (self->context->arena, "%s, %s", face_name, name);
  self->measures = g_array_new (FALSE, TRUE, sizeof (DryMeasure));
  self->current =
      (DrySubject){.kind = kind, .object = object, .face = face, .place = place, .name = name};
}

void
dry_measuring_end (DryMeasuring *self)
{
  self->current.n_measures = self->measures->len;
  self->current.measures =
      dry_arena_take_array (self->context->arena, g_steal_pointer (&self->measures));
  if (self->current.n_measures)
    g_array_append_val (self->subjects, self->current);
}

static const char *write_how (DryMeasuring *self, const char *how, va_list arguments)
    G_GNUC_PRINTF (2, 0);

static const char *
write_how (DryMeasuring *self, const char *how, va_list arguments)
{
  g_autofree char *text = how ? g_strdup_vprintf (how, arguments) : NULL;

  return dry_arena_strdup (self->context->arena, text);
}

void
dry_measuring_length (DryMeasuring *self, const char *name, DryLength value, const char *how, ...)
{
  DryMeasure measure = {.name = name, .kind = DRY_MEASURE_LENGTH, .length = value, .unit = ""};
  va_list arguments;

  va_start (arguments, how);
  measure.how = write_how (self, how, arguments);
  va_end (arguments);
  g_array_append_val (self->measures, measure);
}

void
dry_measuring_number (DryMeasuring *self, const char *name, double value, const char *unit,
                      const char *how, ...)
{
  DryMeasure measure = {.name = name, .kind = DRY_MEASURE_NUMBER, .number = value, .unit = unit};
  va_list arguments;

  va_start (arguments, how);
  measure.how = write_how (self, how, arguments);
  va_end (arguments);
  g_array_append_val (self->measures, measure);
}

void
dry_measuring_boolean (DryMeasuring *self, const char *name, gboolean value, const char *how, ...)
{
  DryMeasure measure = {
      .name = name, .kind = DRY_MEASURE_BOOLEAN, .number = value ? 1 : 0, .unit = ""};
  va_list arguments;

  va_start (arguments, how);
  measure.how = write_how (self, how, arguments);
  va_end (arguments);
  g_array_append_val (self->measures, measure);
}

const char *
dry_measuring_text (DryMeasuring *self, DryLength length)
{
  return dry_context_length (self->context, length);
}

const char *
dry_measuring_decimal (DryMeasuring *self, double value, gint decimals)
{
  char format[8] = "%.0f", text[G_ASCII_DTOSTR_BUF_SIZE + 320];

  format[2] = (char) ('0' + CLAMP (decimals, 0, 9));
  return dry_arena_strdup (self->context->arena,
                           g_ascii_formatd (text, sizeof text, format, value));
}

const DryMeasure *
dry_subject_get (const DrySubject *self, const char *name)
{
  for (guint i = 0; i < self->n_measures; i++)
    if (strcmp (self->measures[i].name, name) == 0)
      return &self->measures[i];
  return NULL;
}
