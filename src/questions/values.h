/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The values a set is judged by: the spot is the unit. Repeats at one spot
 * become that spot's mean; pulls in both directions of a track become the mean
 * of the two direction means, so that the panel's tilt cancels. Without spots
 * every reading stands for itself. */
#ifndef SCWI_VALUES_H
#define SCWI_VALUES_H

#include "context.h"
#include "sample.h"
#include "scatterwise/table.h"

typedef struct scwi_values {
  size_t n;
  double *x;
  int64_t *ticks;     /* x = offset + ticks / (denominator * ticks_per_unit),
                         exact; null when no common decimal exists */
  double offset;      /* 0 unless the values were shifted */
  int64_t denominator;
  double ticks_per_unit;
  int32_t *spot;      /* label of each, or SCW_NO_LABEL */
  size_t *line;       /* line of the first reading behind each */
  size_t *count;      /* readings behind each */
  size_t *place;      /* 1-based place of each in the whole set */
  size_t readings;    /* all of them */
  bool by_spot;       /* the readings carry spots */
  bool both_directions;
  int32_t *one_way;   /* spots pulled in one direction only, set aside */
  size_t n_one_way;
} scwi_values;

/* The decimals of the whole table, made once for all sets. */
typedef struct scwi_table_decimals {
  int64_t *ticks; /* of every reading of the table, or null */
  int digits;
} scwi_table_decimals;

/* `index` names the readings of the set in reading order; each value is
 * divided by `divisor` (1, or the block's mass; below 0 where the value falls
 * as the reading rises). */
scw_status scwi_values_of(scw_context *context, const scw_table *table,
                          const scwi_table_decimals *decimals,
                          const size_t *index, size_t n, double divisor,
                          scwi_values *out);
void scwi_values_free(scwi_values *values);

/* The same with every reading for itself, whatever its spot. */
scw_status scwi_values_each(scw_context *context, const scw_table *table,
                            const scwi_table_decimals *decimals,
                            const size_t *index, size_t n, double divisor,
                            scwi_values *out);

/* Empty values with room for n, without ticks. */
scw_status scwi_values_room(scw_context *context, size_t n, scwi_values *out);
/* Adds `offset` to all of them. */
void scwi_values_shift(scwi_values *values, double offset);

/* The same values without those marked in `drop` (one entry each). */
scw_status scwi_values_without(scw_context *context, const scwi_values *values,
                               const bool *drop, scwi_values *out);

/* from[from_place[i]] - less[less_place[i]] for n pairs, exact in ticks where
 * both sides have them. Spots and their order are those of `less`, lines those
 * of `from`. */
scw_status scwi_values_minus(scw_context *context, const scwi_values *from,
                             const size_t *from_place, const scwi_values *less,
                             const size_t *less_place, size_t n,
                             scwi_values *out);

scwi_sample scwi_values_sample(const scwi_values *values, scw_step step);

#endif
