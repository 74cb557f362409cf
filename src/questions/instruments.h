/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the instruments' uncertainty does to a change: the model of a bench's
 * quantity as a straight line in the reading, value = offset + factor *
 * reading, and the slopes of the value by every other input. */
#ifndef SCWI_INSTRUMENTS_H
#define SCWI_INSTRUMENTS_H

#include "bench_quantity.h"
#include "model.h"
#include "moments.h"
#include "scatterwise/change.h"

typedef struct scwi_instruments {
  const scw_bench_quantity *quantity;
  const scw_bench_input *reading;
  double offset, factor;
  /* The other inputs, in the model's order; the reading is left out. */
  size_t n;
  const scw_bench_input **input;
  double *u, *df;
  double *slope; /* of the value by the input, at a reading of 0 */
  double *gain;  /* what a unit of value adds to that slope: 0 for an offset */
  bool *same;    /* one and the same value on all sides */
  size_t *group; /* of correlated inputs; 0: on its own */
  double *correlation; /* n x n; null: independent */
} scwi_instruments;

/* The quantity that scwi_bench_quantity_for finds. SCW_BAD_INPUT where its
 * model is no straight line in the reading, does not depend on it, has no value
 * at the estimates, or the reading is correlated with another input. Free with
 * scwi_instruments_free, also after a failure. */
scw_status scwi_instruments_of(scw_context *context, const scw_bench *bench,
                               const char *name, scwi_read_facts readings,
                               scwi_instruments *out);
void scwi_instruments_free(scwi_instruments *instruments);

/* Whether two inputs are one term of the Welch-Satterthwaite sum: correlated,
 * or the same one; and whether an input is the first of its term. */
bool scwi_instruments_together(const scwi_instruments *of, size_t i, size_t j);
bool scwi_instruments_opens_term(const scwi_instruments *of, size_t i);

/* Slope of the value by input i where the value is this. */
double scwi_instrument_slope(const scwi_instruments *of, size_t i,
                             double value);

/* The sides of a change as means of the value; the signs do not matter, since
 * what is not shared adds up by squares. */
typedef struct scwi_side_means {
  double value[4];
  size_t n;
} scwi_side_means;

/* The instruments' part in a change of `change` between these sides (with a
 * control: the difference of the two changes). Shared inputs act by the
 * difference of their slopes, which is their gain times the change; others by
 * the slope of every side. One u with its df, whatever number of sides it acts
 * on, is one term of the Welch-Satterthwaite sum; correlated inputs are one
 * term together, with the smallest of their df. */
scwi_uncertainty scwi_instruments_uncertainty(
    const scwi_instruments *instruments, const scwi_side_means *sides,
    double change);

/* The same input by input. value[0] is the value after. `out` takes as many
 * rows as are returned, those with an uncertainty, n at most. */
size_t scwi_instruments_rows(const scwi_instruments *instruments,
                             const scwi_side_means *sides, double change,
                             scw_instrument *out);

#endif
