/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scoring rules: how a publisher turns measured quantities into points. */
#ifndef SCATTERWISE_RULES_H
#define SCATTERWISE_RULES_H

#include "scatterwise/figures.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What the points are made of. The text is the word of the bench file. */
#define SCW_RULE_LIST(X)                                                       \
  X(SCW_RULE_DIFFERENCE, "difference") /* mean after less mean before */       \
  X(SCW_RULE_MEAN, "mean")             /* the mean itself */                   \
  X(SCW_RULE_PERCENT, "percent")       /* after in percent of before */        \
  X(SCW_RULE_MARKS, "marks")           /* the mean of marks given by eye */    \
  X(SCW_RULE_LADDER, "ladder")         /* passes survived */

typedef enum scw_rule_kind {
#define SCW_RULE_ENUM(code, text) code,
  SCW_RULE_LIST(SCW_RULE_ENUM)
#undef SCW_RULE_ENUM
      SCW_RULE_KIND_END
} scw_rule_kind;

/* Never null. */
SCW_API const char *scw_rule_kind_code(scw_rule_kind kind);

/* What becomes of a value that lies halfway between two steps: 0.25 shown in
 * steps of 0.1. The text is the word of the bench file. */
#define SCW_TIES_LIST(X)                                                       \
  X(SCW_TIES_AWAY, "away") /* from zero: 0.3, -0.3 */                          \
  X(SCW_TIES_EVEN, "even") /* to the even multiple: 0.2, -0.2 */

typedef enum scw_ties {
#define SCW_TIES_ENUM(code, text) code,
  SCW_TIES_LIST(SCW_TIES_ENUM)
#undef SCW_TIES_ENUM
      SCW_TIES_END
} scw_ties;

/* Never null. */
SCW_API const char *scw_ties_code(scw_ties ties);

/* The publisher's own order of rounding, stage by stage. A stage of 0 is not
 * rounded. Scores themselves are made from unrounded means; the figure that
 * this order gives stands beside them. */
typedef struct scw_rounding {
  double mean;       /* each mean, to multiples of this */
  double difference; /* the quantity made of the means */
  double points;     /* the points made of it */
  scw_ties ties;
} scw_rounding;

/* A coat that is fine after so many passes gets so many points. */
typedef struct scw_rung {
  double passes, points;
} scw_rung;

/* One rule. Strings are those of the bench. */
typedef struct scw_rule {
  const char *name;     /* one for the file's rules */
  const char *about;    /* "" for none */
  scw_rule_kind kind;
  const char *reading;  /* header word of the readings it takes: "gloss" */
  const char *unit;     /* of the quantity; "1" for a plain ratio; "" */
  const char *baseline; /* label of the product or panel whose readings are
                           everybody's before side; "" for each its own */
  double points, per;   /* `points` for every `per` of the quantity; not for a
                           ladder */
  double offset;        /* points at a quantity of 0 */
  double low, high;     /* caps of the points; -INFINITY, INFINITY for none */
  const scw_rung *rung; /* ladder: passes and points both rising */
  size_t n_rungs;
  scw_rounding rounding;
  size_t line;
} scw_rule;

/* A rule's share of a score. */
typedef struct scw_score_part {
  size_t rule;          /* index into the bench's rules */
  double weight;
} scw_score_part;

/* The sum of weighted points. */
typedef struct scw_score_rule {
  const char *name, *about;
  bool within_category; /* its points mean something among products of one
                           category only, and are not ranked across */
  const scw_score_part *part;
  size_t n_parts;
  double low, high;     /* caps of the sum; -INFINITY, INFINITY for none */
  scw_rounding rounding; /* points and ties only */
  size_t line;
} scw_score_rule;

#ifdef __cplusplus
}
#endif
#endif
