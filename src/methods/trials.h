/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trials of a model in units of thousands, shared out among threads. */
#ifndef SCWI_TRIALS_H
#define SCWI_TRIALS_H

#include "draw.h"

/* What is known of one unit of trials. */
typedef struct scwi_trial_unit {
  double mean, squares; /* sum of squared deviations from the mean, each over
                           the scale of the trials */
  double low, high;     /* ends of the symmetric interval of its own */
  size_t n, failed;     /* with any failed there are no figures */
} scwi_trial_unit;

typedef struct scwi_trials {
  const scwi_expression *expression;
  scwi_draw draw;
  uint64_t seed;
  double level;
  size_t per_unit;
  double scale;         /* a power of two near the width of the values; 1 */
  double *value;        /* of all trials so far */
  size_t n;
  scwi_trial_unit *unit;
  size_t n_units;
  size_t value_room, unit_room;
  struct scwi_trial_worker *worker; /* one for each thread */
  unsigned threads;
} scwi_trials;

/* `draw` is taken over. */
scw_status scwi_trials_start(scw_context *context,
                             const scwi_expression *expression,
                             scwi_draw *draw, double level, uint64_t seed,
                             size_t per_unit, scwi_trials *out);
void scwi_trials_free(scwi_trials *trials);

/* `more` further trials: whole units, and a last one that may be shorter. */
scw_status scwi_trials_run(scw_context *context, scwi_trials *trials,
                           size_t more);

/* Ranks, from 0, of the ends of the symmetric interval of n values (JCGM 101
 * 7.7); q values lie from one to the other. */
typedef struct scwi_coverage {
  size_t q, low, high;
} scwi_coverage;
scwi_coverage scwi_coverage_of(size_t n, double level);

#endif
