/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "baseline.h"

#include "comparison.h"
#include "figure.h"
#include "roots.h"
#include "two_sample.h"

/* What has to be filled by the expanded uncertainty, all in units of u. */
typedef struct gap {
  scw_context *context;
  double df, level, room;
  scw_status status;
} gap;

/* Expanded uncertainty at u_b = x u, less the room there is. It may fall at
 * first, because u_b brings df along, and then only rises: one crossing. */
static double excess(double x, void *parameters) {
  gap *g = parameters;
  double t, wider = hypot(1, x);
  g->status = scwi_critical(g->context, g->df * pow(wider, 4), g->level, &t);
  return g->status == SCW_OK ? t * wider - g->room : NAN;
}

/* u_b itself, where u alone leaves room within |d| - number_step/2. */
static scw_status break_even(scw_context *context, scwi_uncertainty u,
                             double level, double room, scw_figure *out) {
  gap g = {context, u.df, level, room / u.u, SCW_OK};
  double z, x, at_zero = excess(0, &g);
  *out = scwi_missing(SCW_WITHIN_STEP);
  if (g.status != SCW_OK || at_zero >= 0) return g.status;
  scw_status status = scwi_critical(context, INFINITY, level, &z);
  if (status == SCW_OK)
    status = scwi_root(context, excess, &g, 0, g.room / z, 1e-14, &x);
  if (status == SCW_OK) *out = scwi_figure(x * u.u);
  return g.status != SCW_OK ? g.status : status;
}

scw_status scwi_against_number_at(scw_context *context, double change,
                                  scwi_uncertainty u, double number_step,
                                  double level, scw_against_number *out) {
  *out = (scw_against_number){.verdict = SCW_NO_VERDICT};
  scw_status status = scwi_estimate(context, change, u, level, &out->if_exact);
  scw_interval *interval = &out->if_exact.interval;
  out->break_even_u = scwi_missing(interval->state);
  if (status != SCW_OK || interval->state != SCW_PRESENT) return status;
  out->verdict = SCW_CANNOT_TELL;
  out->break_even_u = scwi_missing(SCW_NOT_COMPUTED);
  scw_figure no_margin = scwi_missing(SCW_NO_MARGIN);
  if (scwi_verdict(*interval, no_margin) != SCW_CHANGED) return SCW_OK;
  status = break_even(context, u, level, fabs(change) - number_step / 2,
                      &out->break_even_u);
  if (scwi_present(out->break_even_u)) out->verdict = SCW_CONDITIONAL;
  return status;
}

scw_status scwi_against_number(scw_context *context, scwi_moments readings,
                               double step, double number, double number_step,
                               double level, scw_against_number *out) {
  double change = readings.mean - number;
  *out = (scw_against_number){
      .verdict = SCW_NO_VERDICT,
      .if_exact = scwi_bare_estimate(change, SCW_ONE_READING, level),
      .break_even_u = scwi_missing(SCW_ONE_READING)};
  if (readings.n < 2) return SCW_OK;
  return scwi_against_number_at(
      context, change, scwi_mean_uncertainty(readings.sd, readings.n, step),
      number_step, level, out);
}

scw_status scwi_break_even_sd(scw_context *context, double change,
                              size_t n_before, size_t n_after,
                              double step_before, double step_after,
                              double level, scw_figure *out) {
  double n1 = (double)n_before, n2 = (double)n_after, t;
  double room = fabs(change) - (step_before + step_after) / 2;
  *out = scwi_missing(room > 0 ? SCW_TOO_FEW : SCW_WITHIN_STEP);
  if (room <= 0 || n_before < 1 || n_after < 1 || n1 + n2 < 3) return SCW_OK;
  scw_status status = scwi_critical(context, n1 + n2 - 2, level, &t);
  if (status == SCW_OK) *out = scwi_figure(room / (t * sqrt(1 / n1 + 1 / n2)));
  return status;
}
