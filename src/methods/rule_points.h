/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points of a quantity by a rule: unrounded, and as the publisher rounds. */
#ifndef SCWI_RULE_POINTS_H
#define SCWI_RULE_POINTS_H

#include "scatterwise/rules.h"

/* The multiple of `step` (>= 0; 0: the value itself) nearest to the value,
 * decided on the shortest decimals of both, so that 0.15 lies halfway between
 * 0.1 and 0.2. */
double scwi_round_to(double value, double step, scw_ties ties);

/* Points of an unrounded quantity: offset + points * quantity / per, or the
 * highest rung reached, within the caps. On decimals as written where they fit:
 * 3 * 0.15 is 0.45. */
double scwi_rule_points(const scw_rule *rule, double quantity);

/* Points of everything between two values of the quantity: they rise or fall
 * with it all along. An interval that does not exist has none. */
scw_interval scwi_rule_image(const scw_rule *rule, scw_interval quantity);

/* The rule's quantity from its two means, each unrounded: after less before
 * (which they decide as decimals), after alone, or after in percent of before. A
 * `before` of 0 leaves no percent: SCW_ZERO_BEFORE. */
scw_figure scwi_rule_quantity(const scw_rule *rule, double before,
                              double after);

/* The same figures in the publisher's order of rounding. */
typedef struct scwi_published {
  double before, after; /* as rounded */
  scw_figure quantity, points;
} scwi_published;
scwi_published scwi_rule_published(const scw_rule *rule, double before,
                                   double after);

/* The points that the publisher's last stages make of a quantity that may lie
 * anywhere from low to high. */
scw_interval scwi_rule_published_image(const scw_rule *rule, double low,
                                       double high);

/* A sum within its caps. `points` are those of the parts. */
double scwi_score_sum(const scw_score_rule *score, const double *points);

#endif
