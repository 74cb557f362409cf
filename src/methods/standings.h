/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trials of a score: everything measured is drawn again, scored by the rules,
 * and the products put in order. */
#ifndef SCWI_STANDINGS_H
#define SCWI_STANDINGS_H

#include "context.h"
#include "moments.h"
#include "rule_points.h"

/* Something measured once: drawn as estimate + u t(df), once a trial, for all
 * that use it. */
typedef struct scwi_measured {
  double estimate;
  scwi_uncertainty u;
} scwi_measured;

enum { SCWI_NOT_MEASURED = -1 };

/* One part of one product, from what was measured. */
typedef struct scwi_standing_part {
  const scw_rule *rule;
  double weight;
  int before, after;  /* places in `measured`. Without `before`, `after` is the
                         rule's quantity itself */
  double ok_at, gone_by; /* ladder: for chances drawn evenly between them, an
                            infinite gone_by as ok_at; for intervals and places
                            every rung that they allow */
} scwi_standing_part;

typedef struct scwi_standings_ask {
  const scwi_measured *measured;
  size_t n_measured;
  const scwi_standing_part *part; /* part[product * parts + i] */
  size_t products, parts;
  const scw_score_rule *score;
  double level;
  uint64_t seed;
  size_t trials;
} scwi_standings_ask;

typedef struct scwi_standing {
  scw_interval points;       /* from the (1 - level)/2 to the (1 + level)/2
                                quantile of the trials (JCGM 101 7.7) */
  size_t low, high;          /* places it could hold */
  bool *tied;                /* for each product: not told apart from it */
  double *chance;            /* of each place, 1 first; equal sums share the
                                better place */
} scwi_standing;

/* The most passes that looks leave open: short of those at which the coat was
 * gone, or as many as the ladder counts. */
double scwi_ladder_reach(const scw_rule *ladder, double ok_at, double gone_by);

/* Trials that tell n products apart at all: with fewer no p is small enough
 * for so many pairs. */
double scwi_standings_trials(size_t n, double level);

/* Two products are told apart where one of them is ahead in so many trials,
 * whatever rungs the looks leave open, that its two-sided p, adjusted for all
 * pairs by Holm, is below 1 - level. Trials in blocks from streams of their own:
 * the same for any number of threads. Memory: 8 bytes a trial and product, with
 * open rungs three times that. Free each with scwi_standing_free. */
scw_status scwi_standings(scw_context *context, const scwi_standings_ask *ask,
                          scwi_standing *out);
void scwi_standing_free(scwi_standing *standing);

#endif
