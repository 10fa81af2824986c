/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules as data: a rule names a kind of subject, conditions on its measures, and what must hold.
 * The plan fills in measures (plan/measures.h); a rule pack is a list of rules read from
 * data/rules. */
#pragma once

#include "base/arena.h"
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
  const char *pack;       /* id of the pack that answered */
  const char *pack_title; /* its name with jurisdiction and edition, for people */
  gboolean usual;         /* that pack asks on nobody's behalf: the trade's custom */
  const char *choice;     /* id of the choice it comes from, or NULL */
  gboolean wished;        /* the project picked it among the choice's options */
} DryRule;

/* One way to answer a choice: the rules that then hold. */
typedef struct {
  const char *id;    /* "15-min" */
  const char *title; /* "15 minutes, as the model code says" */
  DrySource source;
  const DryRule *rules;
  guint n_rules;
} DryRuleOption;

/* Where sources disagree a pack shows each of them and lets the project pick. */
typedef struct {
  const char *id;    /* "flood-test" */
  const char *title; /* "How long the flood test stands" */
  const char *why;   /* what the sources disagree about */
  const DryRuleOption *options;
  guint n_options;
  guint usual;      /* the option taken when the project picks none */
  const char *pack; /* id of the pack that offers it */
} DryRuleChoice;

typedef struct {
  const char *id, *name;
  const char *file; /* it was read from, as shown to people */
  const char *jurisdiction, *edition, *language;
  const char *citations; /* language the cited sources are written in; `language` unless said */
  const char *extends;   /* pack id or NULL */
  const DryRule *rules;  /* resolved: own ones over those of the extended pack, by id; the usual
                            option of every choice among them */
  guint n_rules;
  const DryRuleChoice *choices; /* its own and those of the packs below it that still stand */
  guint n_choices;
} DryRulePack;

/* NULL when the pack offers no such choice. */
const DryRuleChoice *dry_rule_pack_get_choice (const DryRulePack *self, const char *id);
/* The option that `picks` ("flood-test=day jamb=3-in"; may be NULL) takes: its index. Words that
 * name no option of this choice count for nothing, so that a project may change its pack. */
guint dry_rule_choice_get_picked (const DryRuleChoice *self, const char *picks);
/* `picks` with one choice answered anew; the usual option is left out. NULL when none is left. */
char *dry_rule_choice_pick (const DryRuleChoice *self, const char *picks,
                            guint option) G_GNUC_WARN_UNUSED_RESULT;
/* The pack with the rules of the picked options in place of the usual ones; `self` itself when none
 * is picked. In `arena`. */
const DryRulePack *dry_rule_pack_apply (const DryRulePack *self, const char *picks,
                                        DryArena *arena);
