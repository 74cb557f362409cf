/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moments from exact deviations: whole numbers where the readings are whole
 * ticks, else doubles scaled by a power of two and a mean kept in two parts. */
#include "moments.h"

#include <math.h>

#include "distributions.h"
#include "figure.h"

__extension__ typedef __int128 wide;

/* A sum with Neumaier's correction: the lost low parts are added at the end. */
typedef struct total {
  double high, low;
} total;

static void add(total *sum, double x) {
  double next = sum->high + x;
  sum->low += fabs(sum->high) >= fabs(x) ? (sum->high - next) + x
                                         : (x - next) + sum->high;
  sum->high = next;
}

/* numerator / denominator * tick_size. A tick such as 0.1 is no double, but
 * its inverse is a whole number, and dividing by that rounds only once. */
static double in_units(double numerator, double denominator, double tick_size) {
  double inverse = rint(1 / tick_size);
  return inverse >= 1 && 1 / inverse == tick_size
             ? numerator / (denominator * inverse)
             : numerator / denominator * tick_size;
}

/* n * tick - sum is a whole number, so every deviation is exact before it is
 * rounded to a double. */
static scwi_moments from_ticks(const scwi_sample *s) {
  wide sum = 0, count = (wide)s->n;
  double n = (double)s->n;
  for (size_t i = 0; i < s->n; i++)
    sum += s->ticks[i];
  scwi_moments out = {.n = s->n,
                      .mean = in_units((double)sum, n, s->tick_size)};
  if (s->n < 2) return out;
  total squares = {0};
  for (size_t i = 0; i < s->n; i++) {
    double deviation = (double)(count * s->ticks[i] - sum);
    add(&squares, deviation * deviation);
  }
  double sd = sqrt((squares.high + squares.low) / (n - 1));
  out.sd = in_units(sd, n, s->tick_size);
  return out;
}

/* The binary exponent that brings every reading into [-1, 1]. */
static int exponent_of(const scwi_sample *s) {
  double largest = 0;
  int exponent = 0;
  for (size_t i = 0; i < s->n; i++)
    largest = fmax(largest, fabs(s->x[i]));
  frexp(largest, &exponent);
  return exponent;
}

static scwi_moments from_doubles(const scwi_sample *s) {
  int exponent = exponent_of(s);
  double n = (double)s->n;
  total sum = {0}, left = {0}, squares = {0};
  for (size_t i = 0; i < s->n; i++)
    add(&sum, ldexp(s->x[i], -exponent));
  double mean = (sum.high + sum.low) / n;
  for (size_t i = 0; i < s->n; i++)
    add(&left, ldexp(s->x[i], -exponent) - mean);
  double rest = (left.high + left.low) / n; /* what rounding the mean lost */
  scwi_moments out = {.n = s->n, .mean = ldexp(mean + rest, exponent)};
  if (scwi_sample_all_equal(s)) return out;
  for (size_t i = 0; i < s->n; i++) {
    double deviation = (ldexp(s->x[i], -exponent) - mean) - rest;
    add(&squares, deviation * deviation);
  }
  double sd = sqrt((squares.high + squares.low) / (n - 1));
  out.sd = ldexp(sd, exponent);
  return out;
}

scwi_moments scwi_moments_of(const scwi_sample *sample) {
  return sample->ticks ? from_ticks(sample) : from_doubles(sample);
}

/* sqrt(max(0, (half^2 - sd^2) / 3)) without squares that could overflow. */
static double step_part(double half_step, double sd) {
  if (sd >= half_step) return 0;
  return sqrt((half_step - sd) / 3) * sqrt(half_step + sd);
}

static scwi_uncertainty with_step(double sd, size_t n, double step_u) {
  double scatter = sd / sqrt((double)n), df = (double)n - 1;
  if (step_u <= 0) return (scwi_uncertainty){scatter, df};
  double u = hypot(scatter, step_u);
  double share = scatter / u;
  return (scwi_uncertainty){u, df / (share * share * share * share)};
}

scwi_uncertainty scwi_mean_uncertainty(double sd, size_t n, double step) {
  return with_step(sd, n, step_part(step / 2, sd));
}

scwi_uncertainty scwi_difference_uncertainty(double sd, size_t m, double step) {
  /* q^2/6 - 2 sd^2/3 = 2 (q^2/12 - sd^2/3) */
  return with_step(sd, m, sqrt(2) * step_part(step / 2, sd));
}

scwi_uncertainty scwi_uncertainty_sum(scwi_uncertainty a, scwi_uncertainty b) {
  double u = hypot(a.u, b.u);
  if (u <= 0) return (scwi_uncertainty){0, fmin(a.df, b.df)};
  double part_a = pow(a.u / u, 4) / a.df, part_b = pow(b.u / u, 4) / b.df;
  return (scwi_uncertainty){u, 1 / (part_a + part_b)};
}

scw_status scwi_t_interval(scw_context *context, double estimate,
                           scwi_uncertainty uncertainty, double level,
                           scw_interval *out) {
  double lower, tail = (1 - level) / 2;
  /* Beyond 1e17 degrees of freedom t and normal are the same double. */
  scw_status status =
      uncertainty.df > 1e17
          ? scwi_normal_quantile(context, tail, &lower)
          : scwi_t_quantile(context, tail, uncertainty.df, &lower);
  if (status != SCW_OK) {
    *out = scwi_no_interval(SCW_NOT_COMPUTED, level);
    return status;
  }
  double half = -lower * uncertainty.u;
  *out = scwi_interval(estimate - half, estimate + half, level);
  return SCW_OK;
}
