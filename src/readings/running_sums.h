/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sink that keeps running sums of every set instead of its readings. The
 * sums are of whole ticks, so that they are exact and neither the order of the
 * readings nor the number of threads can show. Where the readings have no
 * common tick (20 digits, 1e300 beside 0.1) pairs of doubles take over.
 *
 * With spots or directions a set's values are means of readings: then the
 * readings are kept as in any table. */
#ifndef SCWI_RUNNING_SUMS_H
#define SCWI_RUNNING_SUMS_H

#include "loose_sums.h"
#include "set_keys.h"

typedef struct scwi_set_sums {
  size_t line, column; /* of its first reading */
  union {
    scwi_tick_sums exact;
    scwi_loose_sums loose;
  } of;
} scwi_set_sums;

typedef struct scwi_sums {
  scw_table *table;      /* labels and account; readings only by_table */
  bool by_table;         /* nothing is summed: see above */
  scwi_set_index index;
  scwi_set_sums *set;    /* one for each key of the index */
  size_t capacity;
  scwi_tick_scale scale; /* of all sets together */
  bool loose;
  int32_t geometry[2];   /* the first two, or SCW_NO_LABEL */
  size_t geometry_line;  /* where the second was met */
  struct scwi_fast *fast;
} scwi_sums;

/* Reads the source to its end; errors as scw_table_read. Free in any case. */
scw_status scwi_sums_read(scw_context *context,
                          const scw_table_options *options, scw_source source,
                          scwi_sums *out);
void scwi_sums_free(scwi_sums *sums);

/* The numbers of the sets in the order in which they first appear, in an
 * array of sums->index.n freed by the caller. */
scw_status scwi_sums_order(scw_context *context, const scwi_sums *sums,
                           size_t **out);

/* Of one set, in ticks: the sum, and the sum of (n * reading - sum)^2. */
typedef struct scwi_set_figures {
  size_t n;
  double sum, spread;
  double tick; /* in the unit of the readings */
} scwi_set_figures;
scwi_set_figures scwi_sums_figures(const scwi_sums *sums, size_t set);

/* For sets summed elsewhere, after the last reading was taken: makes room for
 * their ticks and for that many sets, adds sets not met before, and the sums
 * to a set; `digits` are those of their ticks, `line` is that of their first
 * reading. */
void scwi_sums_meet(scwi_sums *sums, const scwi_tick_scale *scale);
scw_status scwi_sums_reserve(scw_context *context, scwi_sums *sums,
                             size_t sets);
scw_status scwi_sums_append(scw_context *context, scwi_sums *sums,
                            const scwi_set_key *key, size_t *out);
void scwi_sums_absorb(scwi_sums *sums, size_t set, size_t line,
                      const scwi_tick_sums *more, int digits);

#endif
