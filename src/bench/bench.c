/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scatterwise/bench.h"

#include <stdlib.h>
#include <string.h>

#include "expression.h"
#include "input.h"
#include "quantity.h"
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

static scw_status check_input(scw_context *context, const scw_bench *bench,
                              const scw_bench_input *input) {
  const char *name = input->given.name;
  scwi_known_input known;
  if (!name || !scwi_expression_is_name(name, strlen(name)))
    return scwi_fail(context, SCW_BAD_INPUT,
                     "an input cannot be called `%s`: a letter, then letters, "
                     "digits and _, and no function or constant",
                     name ? name : "");
  for (size_t i = 0; i < bench->n_quantities; i++)
    if (!strcmp(bench->quantity[i].name, name))
      return scwi_fail(context, SCW_BAD_INPUT,
                       "input `%s`: a quantity of the bench has that name",
                       name);
  return scwi_input_waits(input)
             ? SCW_OK
             : scwi_input_known(context, &input->given, &known);
}

scw_status scw_bench_put_input(scw_context *context, scw_bench *bench,
                               const scw_bench_input *input) {
  scw_bench_input made = *input, copy;
  scw_status status = check_input(context, bench, input);
  if (status) return status;
  made.line = 0;
  size_t i = scwi_input_find(bench, input->given.name);
  if (i == bench->n_inputs) return scwi_input_append(context, bench, &made);
  status = scwi_input_copy(context, &made, &copy);
  if (status) return status;
  scwi_input_free(&bench->input[i]);
  bench->input[i] = copy;
  return SCW_OK;
}
