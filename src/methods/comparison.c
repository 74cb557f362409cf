/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "comparison.h"

#include "chi_average.h"
#include "distributions.h"
#include "figure.h"
#include "t_power.h"

static scwi_uncertainty of_readings(const scwi_comparison *c, size_t n_before,
                                    size_t n_after) {
  if (c->paired)
    return scwi_difference_uncertainty(c->sd_before, n_before,
                                       (scwi_display){c->step, c->sides});
  return scwi_uncertainty_sum(
      scwi_mean_uncertainty(c->sd_before, n_before, c->step),
      scwi_mean_uncertainty(c->sd_after, n_after, c->step));
}

scwi_uncertainty scwi_comparison_uncertainty(const scwi_comparison *comparison,
                                             size_t n_before, size_t n_after) {
  scwi_uncertainty u = of_readings(comparison, n_before, n_after);
  return comparison->fixed.u > 0 ? scwi_uncertainty_sum(u, comparison->fixed)
                                 : u;
}

bool scwi_has_floor(const scwi_comparison *comparison) {
  /* Scatter alone has at most 2 n - 2 df, the step infinitely many. */
  return comparison->fixed.u > 0 ||
         of_readings(comparison, SCWI_ENDLESS, SCWI_ENDLESS).df >
             2.0 * SCWI_ENDLESS;
}

scw_status scwi_critical(scw_context *context, double df, double level,
                         double *out) {
  scw_interval interval;
  scw_status status =
      scwi_t_interval(context, 0, (scwi_uncertainty){1, df}, level, &interval);
  *out = interval.high;
  return status;
}

scw_status scwi_chance_to_exclude(scw_context *context, scwi_uncertainty u,
                                  double level, double effect, double *out) {
  double ncp = fabs(effect / u.u);
  if (u.u <= 0 || isinf(ncp)) {
    *out = effect != 0;
    return SCW_OK;
  }
  return scwi_t_power(context, ncp, u.df, 1 - level, out);
}

/* Of a chance. */
#define ACCURACY 1e-11

/* Everything in units of u; s is the u that will be found over u. */
typedef struct frame {
  double t, effect, margin;
} frame;

static scw_status frame_of(scw_context *context, scwi_uncertainty u,
                           double level, double effect, double margin,
                           frame *out) {
  *out = (frame){.effect = fabs(effect) / u.u, .margin = margin / u.u};
  return scwi_critical(context, u.df, level, &out->t);
}

/* P(|d| < half) for d normal around the effect with SD 1. */
static double within(double half, double effect) {
  if (half <= 0) return 0;
  return scwi_normal_upper(effect - half) - scwi_normal_upper(effect + half);
}

static double inside_given(double s, void *parameters) {
  const frame *f = parameters;
  return within(f->margin - f->t * s, f->effect);
}

scw_status scwi_chance_inside(scw_context *context, scwi_uncertainty u,
                              double level, double effect, double margin,
                              double *out) {
  frame f;
  *out = fabs(effect) < margin;
  if (u.u <= 0) return SCW_OK;
  scw_status status = frame_of(context, u, level, effect, margin, &f);
  if (status != SCW_OK) return status;
  return scwi_chi_average(context, inside_given, &f, u.df, 0, f.margin / f.t,
                          ACCURACY, out);
}

/* Cannot tell: zero is contained and the margin is reached. */
static double untold_given(double s, void *parameters) {
  const frame *f = parameters;
  double half = f->t * s;
  return within(half, f->effect) - within(f->margin - half, f->effect);
}

scw_status scwi_chance_to_tell(scw_context *context, scwi_uncertainty u,
                               double level, double effect, double margin,
                               double *out) {
  frame f;
  double narrow, wide;
  *out = 1;
  if (u.u <= 0) return SCW_OK;
  scw_status status = frame_of(context, u, level, effect, margin, &f);
  if (status != SCW_OK) return status;
  /* An interval narrower than the margin always tells; the integrand has
   * corners where the half-width is half the margin and the margin. */
  double half = f.margin / (2 * f.t), full = f.margin / f.t;
  status = scwi_chi_average(context, untold_given, &f, u.df, half, full,
                            ACCURACY, &narrow);
  if (status != SCW_OK) return status;
  status = scwi_chi_average(context, untold_given, &f, u.df, full, INFINITY,
                            ACCURACY, &wide);
  *out = fmax(0, 1 - narrow - wide);
  return status;
}

scw_status scwi_power(scw_context *context, const scwi_comparison *comparison,
                      size_t n_before, size_t n_after, double effect,
                      double *power) {
  return scwi_chance_to_exclude(
      context, scwi_comparison_uncertainty(comparison, n_before, n_after),
      comparison->level, effect, power);
}

scw_status scwi_detectable_at(scw_context *context, scwi_uncertainty u,
                              double level, double power, scw_figure *out) {
  double ncp = 0, alpha = 1 - level;
  *out = scwi_missing(SCW_NO_SCATTER);
  if (u.u <= 0) return SCW_OK;
  *out = scwi_missing(SCW_NOT_COMPUTED);
  scw_status status = power > alpha
                          ? scwi_t_power_ncp(context, power, u.df, alpha, &ncp)
                          : SCW_OK;
  if (status == SCW_OK) *out = scwi_figure(ncp * u.u);
  return status;
}

scw_status scwi_detectable(scw_context *context,
                           const scwi_comparison *comparison, size_t n_before,
                           size_t n_after, double power, scw_figure *out) {
  *out = scwi_missing(SCW_ONE_READING);
  if (n_before < 2 || (!comparison->paired && n_after < 2)) return SCW_OK;
  return scwi_detectable_at(
      context, scwi_comparison_uncertainty(comparison, n_before, n_after),
      comparison->level, power, out);
}
