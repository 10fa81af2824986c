/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules as data: a rule names a kind of subject, conditions on its measures, and what must hold.
 * The plan fills in measures (plan/measures.h); a rule pack is a list of rules read from
 * data/rules. */
#pragma once

#include "base/length.h"
#include "base/working.h"

typedef enum {
  DRY_SEVERITY_STOP, /* must not be built so */
  DRY_SEVERITY_FIX,  /* before tiling */
  DRY_SEVERITY_ADVICE,
} DrySeverity;

typedef enum {
  DRY_COMPARE_LESS,      /* "<"  */
  DRY_COMPARE_AT_MOST,   /* "<=" */
  DRY_COMPARE_EQUAL,     /* "==" */
  DRY_COMPARE_NOT_EQUAL, /* "!=" */
  DRY_COMPARE_AT_LEAST,  /* ">=" */
  DRY_COMPARE_GREATER,   /* ">"  */
} DryCompare;

/* What a measure is compared with: a number, a length, yes/no, or another measure of the same
 * subject. */
typedef enum {
  DRY_LIMIT_NUMBER,
  DRY_LIMIT_LENGTH,
  DRY_LIMIT_BOOLEAN,
  DRY_LIMIT_MEASURE
} DryLimitKind;

typedef struct {
  const char *measure;
  DryCompare compare;
  DryLimitKind kind;
  double number; /* also 0/1 for booleans */
  DryLength length;
  const char *other; /* DRY_LIMIT_MEASURE */
  double factor;     /* multiplies the other measure; 1 unless given */
  DryLength plus;    /* added to the other measure; 0 unless given */
} DryCondition;

/* A remedy in words, and when `edit` is set one the program can apply: the name of a known edit
 * ("system.stud-spacing", "niche.to-clear-bay", ...; plan/remedy.h lists them). */
typedef struct {
  const char *text;
  const char *edit; /* or NULL */
} DryRemedy;

typedef struct {
  const char *id;      /* "stud-spacing" */
  gint number;         /* in the trade list of the documentation; 0 = none */
  const char *topic;   /* "framing", "boards", "tile", ... */
  const char *subject; /* kind of subject: "room", "wall", "face", "basin", "niche", "board", ... */
  DrySeverity severity;
  const char *title;        /* "Studs too far apart for this board" */
  const char *why;          /* what fails */
  const DryCondition *when; /* all must hold; else the rule is silent */
  guint n_when;
  const DryCondition *require; /* all must hold; else a finding */
  guint n_require;
  const DryRemedy *remedies;
  guint n_remedies;
  DrySource source;
  const char *pack; /* id of the pack that answered */
} DryRule;

typedef struct {
  const char *id, *name;
  const char *jurisdiction, *edition, *language;
  const char *extends;  /* pack id or NULL */
  const DryRule *rules; /* resolved: own ones over those of the extended pack, by id */
  guint n_rules;
} DryRulePack;
