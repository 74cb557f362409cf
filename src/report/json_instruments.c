/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON of the bench's model: which quantity was used, and what the instruments
 * add to a change. */
#include "json_views.h"

void scwi_json_model(scwi_json *to, const scw_change_result *result) {
  const scw_bench_quantity *quantity = result->quantity;
  if (!quantity) {
    scwi_json_null(to, "bench");
    return;
  }
  const scw_bench *bench = result->options.instruments;
  scwi_json *object = scwi_json_object();
  scwi_json_text(object, "file", bench->name);
  scwi_json_text(object, "sha256", bench->sha256);
  scwi_json_text(object, "quantity", quantity->name);
  scwi_json_text(object, "measures", scw_measures_code(quantity->measures));
  scwi_json_text(object, "unit", quantity->unit);
  scwi_json_text(object, "model", quantity->model);
  scwi_json_text(object, "reading", result->reading->given.name);
  scwi_json_number(object, "offset", result->offset);
  scwi_json_number(object, "factor", result->factor);
  scwi_json_bool(object, "margin_of_bench", result->margin_of_bench);
  scwi_json_add(to, "bench", object);
}

static const char *shared_code(scw_shared shared) {
  switch (shared) {
    case SCW_SHARED:
      return "yes";
    case SCW_NOT_SHARED:
      return "no";
    default:
      return "not_said";
  }
}

static scwi_json *input_of(const scw_instrument *input) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "name", input->name);
  scwi_json_text(to, "shared", shared_code(input->shared));
  scwi_json_bool(to, "same", input->same);
  scwi_json_number(to, "standard_uncertainty", input->standard_uncertainty);
  scwi_json_figure(to, "df", input->df);
  scwi_json_number(to, "one_side", input->one_side);
  scwi_json_number(to, "contribution", input->contribution);
  scwi_json_bool(to, "cancels", input->cancels);
  return to;
}

void scwi_json_instruments(scwi_json *to, const scw_change_result *result,
                           const scw_instruments *instruments) {
  if (!result->quantity) {
    scwi_json_null(to, "bench");
    return;
  }
  scwi_json *object = scwi_json_object(), *inputs = scwi_json_array();
  scwi_json_text(object, "quantity", result->quantity->name);
  scwi_json_figure(object, "standard_uncertainty_scatter",
                   instruments->scatter.standard_uncertainty);
  scwi_json_figure(object, "standard_uncertainty_instruments",
                   instruments->standard_uncertainty);
  scwi_json_figure(object, "df_instruments", instruments->df);
  for (size_t i = 0; i < instruments->n_inputs; i++)
    scwi_json_add(inputs, NULL, input_of(&instruments->input[i]));
  scwi_json_add(object, "inputs", inputs);
  scwi_json_add(object, "scatter", scwi_json_estimate(&instruments->scatter));
  scwi_json_text(object, "scatter_verdict",
                 scw_verdict_code(instruments->scatter_verdict));
  scwi_json_add(to, "bench", object);
}
