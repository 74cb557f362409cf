/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One input of the bench file: its fields by their keys, and what it may
 * hold. */
#ifndef SCWI_BENCH_INPUT_H
#define SCWI_BENCH_INPUT_H

#include "inputs.h"
#include "scatterwise/bench.h"

/* The fields that are numbers, in the order they are written. */
typedef struct scwi_input_number {
  const char *key;
  size_t offset;    /* of the double in scw_budget_given */
  bool may_be_zero; /* else 0 is "not given" */
} scwi_input_number;

enum { SCWI_INPUT_DECIMALS = 17 }; /* the most kept of readings */
enum { SCWI_INPUT_NUMBERS = 11 };
extern const scwi_input_number scwi_input_numbers[SCWI_INPUT_NUMBERS];

double *scwi_input_number_of(scw_budget_given *given,
                             const scwi_input_number *number);

/* n, mean, SD and (where it is SCW_STEP_UNSET) display step of
 * input->readings. */
scw_status scwi_input_from_readings(scw_context *context,
                                    scw_bench_input *input);

/* Whether its readings are still in a file. */
bool scwi_input_waits(const scw_bench_input *input);

/* With texts and readings of its own. */
scw_status scwi_input_copy(scw_context *context, const scw_bench_input *from,
                           scw_bench_input *out);
void scwi_input_free(scw_bench_input *input);

/* A copy of the input at the end of the list. */
scw_status scwi_input_append(scw_context *context, scw_bench *bench,
                             const scw_bench_input *input);

/* Index of the input of that name; n_inputs for none. */
size_t scwi_input_find(const scw_bench *bench, const char *name);

#endif
