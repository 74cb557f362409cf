/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scatterwise/bench.h"

#include <stdlib.h>

#include "input.h"
#include "quantity.h"
#include "rule.h"
#include "scatter.h"

void scw_bench_free(scw_bench *bench) {
  free(bench->name);
  for (size_t i = 0; i < bench->n_scatter; i++)
    scwi_scatter_free(&bench->scatter[i]);
  free(bench->scatter);
  for (size_t i = 0; i < bench->n_inputs; i++)
    scwi_input_free(&bench->input[i]);
  for (size_t i = 0; i < bench->n_quantities; i++)
    scwi_quantity_free(&bench->quantity[i]);
  free(bench->about);
  free(bench->input);
  free(bench->correlation);
  free(bench->quantity);
  scwi_rules_free(bench);
  *bench = (scw_bench){0};
}

scw_status scw_bench_put_scatter(scw_context *context, scw_bench *bench,
                                 const scw_bench_scatter *entry) {
  const char *words, *key = scwi_scatter_fault(entry, &words);
  if (key)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "this scatter cannot go into a bench file: its %s %s",
                     key, words);
  scw_bench_scatter made = *entry, copy;
  made.line = 0;
  size_t i = 0;
  while (i < bench->n_scatter &&
         !scwi_same_scatter(&bench->scatter[i], entry))
    i++;
  if (i == bench->n_scatter) return scwi_bench_append(context, bench, &made);
  scw_status status = scwi_scatter_copy(context, &made, &copy);
  if (status) return status;
  scwi_scatter_free(&bench->scatter[i]);
  bench->scatter[i] = copy;
  return SCW_OK;
}
