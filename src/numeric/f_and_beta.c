/* SPDX-License-Identifier: GPL-3.0-or-later */
/* F and beta on the incomplete beta function: F times df1/df2 are the odds of
 * Beta(df1/2, df2/2) (Abramowitz & Stegun 26.6.2). */
#include <math.h>

#include "beta_tails.h"
#include "context.h"
#include "distributions.h"
#include "probability.h"

static scwi_beta_tails f_at(double x, double df1, double df2) {
  if (isnan(x) || !scwi_df_usable(df1) || !scwi_df_usable(df2))
    return (scwi_beta_tails){NAN, NAN, NAN};
  if (!(x > 0)) return (scwi_beta_tails){0, 1, 0};
  double odds = x * (df1 / df2);
  if (isinf(odds)) return (scwi_beta_tails){1, 0, 0};
  return scwi_beta_at(0.5 * df1, 0.5 * df2, odds / (1 + odds), 1 / (1 + odds));
}

double scwi_f_cdf(double x, double df1, double df2) {
  return f_at(x, df1, df2).lower;
}

double scwi_f_upper(double x, double df1, double df2) {
  return f_at(x, df1, df2).upper;
}

static scw_status check_f(scw_context *context, double p, double df1,
                          double df2) {
  scw_status status = scwi_check_df(context, df1);
  if (!status) status = scwi_check_df(context, df2);
  return status ? status : scwi_check_probability(context, p);
}

scw_status scwi_f_quantile(scw_context *context, double p, double df1,
                           double df2, double *out) {
  double odds;
  *out = 0;
  scw_status status = check_f(context, p, df1, df2);
  if (!status)
    status = scwi_beta_odds(context, p, 0.5 * df1, 0.5 * df2, &odds);
  if (!status) *out = odds * (df2 / df1);
  return status;
}

scw_status scwi_f_upper_quantile(scw_context *context, double q, double df1,
                                 double df2, double *out) {
  scw_status status = scwi_f_quantile(context, q, df2, df1, out);
  if (!status) *out = 1 / *out;
  return status;
}

static scwi_beta_tails beta_at(double x, double a, double b) {
  if (isnan(x) || !scwi_df_usable(2 * a) || !scwi_df_usable(2 * b))
    return (scwi_beta_tails){NAN, NAN, NAN};
  if (!(x > 0)) return (scwi_beta_tails){0, 1, 0};
  if (x >= 1) return (scwi_beta_tails){1, 0, 0};
  return scwi_beta_at(a, b, x, 1 - x);
}

double scwi_beta_cdf(double x, double a, double b) {
  return beta_at(x, a, b).lower;
}

double scwi_beta_upper(double x, double a, double b) {
  return beta_at(x, a, b).upper;
}

scw_status scwi_beta_quantile(scw_context *context, double p, double a,
                              double b, double *out) {
  double odds;
  *out = 0;
  if (!scwi_df_usable(2 * a) || !scwi_df_usable(2 * b))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "both shapes of a beta distribution must lie between 0.25 "
                     "and 5e9");
  scw_status status = scwi_check_probability(context, p);
  if (!status) status = scwi_beta_odds(context, p, a, b, &odds);
  if (!status) *out = odds / (1 + odds);
  return status;
}
