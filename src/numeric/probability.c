/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "probability.h"

#include "context.h"
#include "number_text.h"

scw_status scwi_check_probability(scw_context *context, double p) {
  char text[SCWI_NUMBER_SIZE];
  if (p >= 1e-300 && p <= 1 - 1e-16) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "a probability for a quantile must lie between 1e-300 and "
                   "1 - 1e-16, got %s", scwi_number_text(p, text));
}

bool scwi_df_usable(double df) {
  return df >= SCWI_LEAST_DF && df <= SCWI_MOST_DF;
}

scw_status scwi_check_df(scw_context *context, double df) {
  char text[SCWI_NUMBER_SIZE];
  if (scwi_df_usable(df)) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "degrees of freedom must lie between 0.5 and 1e10, got %s",
                   scwi_number_text(df, text));
}

scw_status scwi_split_probability(scw_context *context, double p,
                                  scwi_split *out) {
  scw_status status = scwi_check_probability(context, p);
  if (status) return status;
  out->upper = p > 0.5;
  double tail = out->upper ? 1 - p : p;
  out->central = tail > 0.25;
  out->mass = out->central ? 0.5 - tail : tail;
  return SCW_OK;
}
