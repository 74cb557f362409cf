/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A quantity of the bench as a model that can be worked with. */
#ifndef SCWI_BENCH_MODEL_H
#define SCWI_BENCH_MODEL_H

#include "expression.h"
#include "inputs.h"
#include "scatterwise/bench.h"

/* Everything is in the order of expression.input. Texts are borrowed from the
 * bench. */
typedef struct scwi_bench_compiled {
  scwi_expression expression; /* quantities above spliced in */
  size_t n;                   /* its inputs */
  size_t *index;              /* of each in bench->input */
  scw_budget_given *given;
  scwi_known_input *known;
  double *correlation;        /* n x n; null when all are independent */
} scwi_bench_compiled;

/* The model of bench->quantity[quantity]. SCW_BAD_INPUT, which cannot happen
 * for a bench that was read, unless readings are still to be taken from a
 * file. Free with scwi_bench_compiled_free, also after a failure. */
scw_status scwi_bench_model(scw_context *context, const scw_bench *bench,
                            size_t quantity, scwi_bench_compiled *out);
void scwi_bench_compiled_free(scwi_bench_compiled *compiled);

/* The models of the first n quantities, of which *out holds as many as *done
 * says. SCW_BAD_INPUT names the character of the model of bench->quantity[*done]
 * that cannot be used; it is the context's column too. Free with
 * scwi_bench_expressions_free, also after a failure. */
scw_status scwi_bench_expressions(scw_context *context, const scw_bench *bench,
                                  size_t n, scwi_expression **out,
                                  size_t *done);
void scwi_bench_expressions_free(scwi_expression *expressions, size_t n);

#endif
