/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "several.h"

#include <math.h>

#include "figure.h"
#include "two_sample.h"

void scwi_pool_entries(const scwi_entry *entries, size_t n, scwi_entry *out) {
  double df = 0, variance = 0;
  for (size_t i = 0; i < n; i++)
    if (entries[i].sd_df > 0) df += entries[i].sd_df;
  for (size_t i = 0; i < n; i++)
    if (entries[i].sd_df > 0)
      variance += entries[i].sd_df / df * entries[i].sd * entries[i].sd;
  double sd = sqrt(variance);
  for (size_t i = 0; i < n; i++) {
    out[i] = entries[i];
    if (!(df > 0)) continue;
    double rounding = scwi_rounding_left(sd, entries[i].step);
    scwi_uncertainty scatter = {sd * sqrt(entries[i].weight), df};
    scwi_uncertainty display = {rounding * sqrt(entries[i].sides), INFINITY};
    out[i].u = scwi_uncertainty_sum(scatter, display);
    out[i].state = SCW_PRESENT;
  }
}

scw_status scwi_entry_difference(scw_context *context, const scwi_entry *i,
                                 const scwi_entry *j, bool pooled,
                                 double level, scw_estimate *out) {
  double difference = i->estimate - j->estimate;
  scw_presence state = i->state != SCW_PRESENT ? i->state : j->state;
  if (state != SCW_PRESENT) {
    *out = scwi_bare_estimate(difference, state, level);
    return SCW_OK;
  }
  scwi_uncertainty u = scwi_uncertainty_sum(i->u, j->u);
  if (pooled) u.df = fmin(i->u.df, j->u.df);
  return scwi_estimate(context, difference, u, level, out);
}

scw_status scwi_adjust(scw_context *context, scwi_studentised *of,
                       double factor, const scw_estimate *own, double level,
                       scwi_adjusted *out) {
  *out = (scwi_adjusted){.own = *own,
                         .interval = scwi_no_interval(own->interval.state, level),
                         .p = scwi_missing(own->p.state)};
  if (own->interval.state != SCW_PRESENT) return SCW_OK;
  double u = own->standard_uncertainty.value, p, critical;
  double df = own->df.state == SCW_PRESENT ? own->df.value : INFINITY;
  double t = fabs(own->estimate.value) / u;
  scw_status status = scwi_studentised_quantile_upper(
      context, of, 1 - level, df, &critical);
  if (!status)
    status = scwi_studentised_upper(context, of, factor * t, df, &p);
  if (status) return status;
  double half = critical / factor * u;
  out->interval = scwi_interval(own->estimate.value - half,
                                own->estimate.value + half, level);
  if (own->p.state == SCW_PRESENT)
    out->p = p > 0 ? scwi_figure(fmax(p, own->p.value))
                   : scwi_missing(SCW_OUT_OF_RANGE);
  return SCW_OK;
}
