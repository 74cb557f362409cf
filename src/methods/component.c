/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "component.h"

#include "distributions.h"
#include "figure.h"

static double root_of(double variance) {
  return sqrt(fmax(0, variance));
}

static double sum_of(const scwi_square_term *terms, size_t n) {
  double sum = 0;
  for (size_t i = 0; i < n; i++)
    sum += terms[i].coefficient * terms[i].square;
  return sum;
}

static bool all_zero(const scwi_square_term *terms, size_t n) {
  for (size_t i = 0; i < n; i++)
    if (terms[i].square > 0) return false;
  return true;
}

static scw_status limits(scw_context *context,
                         const scwi_limit_setting *setting,
                         const scwi_square_term *terms, size_t n,
                         scwi_sd_limits *out) {
  double low, high, most, unused, unit = setting->unit;
  double both = (1 + setting->level) / 2;
  scw_status status = scwi_large_sample_limits(context, setting->memo, terms, n,
                                               both, &low, &high);
  if (status == SCW_OK)
    status = scwi_large_sample_limits(context, setting->memo, terms, n,
                                      setting->level, &unused, &most);
  if (status != SCW_OK) return status;
  out->interval =
      scwi_interval(unit * root_of(low), unit * root_of(high), setting->level);
  out->at_most = scwi_figure(unit * root_of(most));
  return SCW_OK;
}

scw_status scwi_sd_of_terms(scw_context *context,
                            const scwi_limit_setting *setting,
                            const scwi_square_term *terms, size_t n,
                            scwi_sd_limits *out) {
  double variance = sum_of(terms, n), sd = setting->unit * sqrt(fabs(variance));
  out->variance = scwi_figure(copysign(sd * sd, variance));
  out->sd = scwi_figure(variance > 0 ? sd : 0);
  out->at_most = scwi_missing(SCW_NO_SCATTER);
  out->interval = scwi_no_interval(SCW_NO_SCATTER, setting->level);
  return all_zero(terms, n) ? SCW_OK : limits(context, setting, terms, n, out);
}

scw_component scwi_no_component(scw_presence why, size_t groups, double level) {
  scw_figure none = scwi_missing(why);
  return (scw_component){.state = why,
                         .groups = groups,
                         .df = none,
                         .mean_square = none,
                         .per_group = none,
                         .variance = none,
                         .sd = none,
                         .interval = scwi_no_interval(why, level),
                         .at_most = none,
                         .share = none,
                         .f = none,
                         .f_df = none,
                         .p = none};
}

/* The own mean square against the others, whose df are Satterthwaite's where
 * there are several. */
static void compare(const scwi_square_term *terms, size_t n,
                    scw_component *out) {
  double expected = 0, spread = 0;
  for (size_t i = 1; i < n; i++) {
    double part = -terms[i].coefficient * terms[i].square;
    expected += part;
    spread += part * part / terms[i].df;
  }
  scw_presence why = n < 2 ? SCW_NOT_COMPUTED : SCW_NO_SCATTER;
  out->f = out->f_df = out->p = scwi_missing(why);
  if (n < 2 || expected <= 0) return;
  double f = terms[0].coefficient * terms[0].square / expected;
  double df = n == 2 ? terms[1].df : expected * expected / spread;
  out->f = scwi_figure(f);
  out->f_df = df >= 0.5 ? scwi_figure(df) : scwi_missing(SCW_FLAT);
  out->p = scwi_present(out->f) ? out->f_df : out->f;
  if (scwi_present(out->p))
    out->p = scwi_figure(scwi_f_upper(f, terms[0].df, df));
}

scw_status scwi_component_of(scw_context *context,
                             const scwi_limit_setting *setting,
                             const scwi_square_term *terms, size_t n,
                             size_t groups, scw_component *out) {
  double root = setting->unit * sqrt(terms[0].square);
  scwi_sd_limits found;
  *out = scwi_no_component(SCW_NOT_COMPUTED, groups, setting->level);
  scw_status status = scwi_sd_of_terms(context, setting, terms, n, &found);
  if (status != SCW_OK) return status;
  out->state = SCW_PRESENT;
  out->df = scwi_figure(terms[0].df);
  out->mean_square = scwi_figure(root * root);
  out->per_group = scwi_figure(1 / terms[0].coefficient);
  out->variance = found.variance;
  out->sd = found.sd;
  out->interval = found.interval;
  out->at_most = found.at_most;
  out->distinguishable =
      n < 2 ? terms[0].square > 0
            : found.interval.state == SCW_PRESENT && found.interval.low > 0;
  compare(terms, n, out);
  return SCW_OK;
}

scw_status scwi_limit_factor(scw_context *context, double level, double *out) {
  scw_status status = scwi_normal_quantile(context, (1 + level) / 2, out);
  *out *= sqrt(2);
  return status;
}

scw_figure scwi_share_out(scw_component *const *components, size_t n) {
  double sd = 0;
  for (size_t i = 0; i < n; i++)
    if (components[i]->state == SCW_PRESENT)
      sd = hypot(sd, components[i]->sd.value);
  for (size_t i = 0; i < n; i++) {
    double part = components[i]->sd.value / sd;
    if (components[i]->state == SCW_PRESENT)
      components[i]->share =
          sd > 0 ? scwi_figure(part * part) : scwi_missing(SCW_NO_SCATTER);
  }
  return scwi_figure(sd);
}
