/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 4, first half: what is the uncertainty of a figure, where does it
 * come from, and what would make it smaller? */
#ifndef SCATTERWISE_BENCH_BUDGET_H
#define SCATTERWISE_BENCH_BUDGET_H

#include "scatterwise/bench.h"
#include "scatterwise/monte_carlo.h"
#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct scw_bench_budget_options {
  const char *quantity;      /* only this one; null: all of them */
  bool no_trials;            /* the law of propagation alone */
  scw_trials_options trials;
} scw_bench_budget_options;

/* Two results of one quantity beside each other, readings a tenth apart:
 * standard uncertainty of the difference, in the quantity's unit, and of the
 * ratio, as a part of it. One meter: what the bench says is shared is the same
 * on both sides. Two meters: nothing is. */
typedef struct scw_two_results {
  double apart;          /* 0.1 */
  char *moved;           /* the readings that are: "pull_there, pull_back"; all
                            that act on the result the way the strongest do */
  scw_presence state;    /* SCW_PRESENT; SCW_NOT_COMPUTED where no readings
                            act on the result */
  scw_figure difference_one_meter, difference_two_meters;
  scw_figure ratio_one_meter, ratio_two_meters;
  char *cancel_in_difference; /* names, "zero, tile"; "" for none */
  char *cancel_in_ratio;
} scw_two_results;

/* One quantity. Names and texts of inputs are borrowed from the bench. */
typedef struct scw_quantity_budget {
  const scw_bench_quantity *quantity; /* borrowed from the bench */
  char *sentence;        /* the answer, fit to publish */
  char *why_not;         /* why there is no figure; null: there is one */
  scw_budget budget;
  const scw_bench_input **input; /* of each line of the budget, in the bench */
  scw_figure more_readings; /* the combined standard uncertainty with twice as
                            many readings, where they help most */
  bool has_trials;
  scw_monte_carlo trials;
  bool has_limits;
  scw_conformance conformance;
  scw_two_results two;
  scw_note *notes;
  size_t n_notes;
} scw_quantity_budget;

typedef struct scw_bench_budget {
  scw_settings settings;
  scw_bench_budget_options options; /* quantity: null */
  scw_quantity_budget *quantities;
  size_t n_quantities;
  scw_input bench;       /* the account of the bench file */
  scw_note *notes;
  size_t n_notes;
} scw_bench_budget;

/* The readings of bench->input[input] from a table that holds one set of them;
 * spot means where it names spots, as everywhere. SCW_BAD_INPUT for several
 * sets or none. */
SCW_API scw_status scw_bench_take_table(scw_context *context,
                                        scw_bench *bench, size_t input,
                                        const scw_table *table,
                                        const scw_settings *settings);

/* The budget of every quantity, or of one. The bench must outlive *out.
 * SCW_BAD_INPUT names what the bench lacks. A model without a value at the
 * estimates is told in its quantity, and the others stand. Free with
 * scw_bench_budget_free. */
SCW_API scw_status scw_bench_budget_of(scw_context *context,
                                       const scw_bench *bench,
                                       const scw_settings *settings,
                                       const scw_bench_budget_options *options,
                                       scw_bench_budget *out);
SCW_API void scw_bench_budget_free(scw_bench_budget *budget);

#ifdef __cplusplus
}
#endif
#endif
