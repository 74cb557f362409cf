/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "monte_carlo.h"

#include <math.h>
#include <stdlib.h>

#include "codes.h"
#include "distributions.h"
#include "tail_index.h"
#include "tails.h"
#include "trials.h"

enum {
  LEAST_UNIT = 10000, /* JCGM 101 7.9.4: that, or 100/(1 - level) */
  MOST_UNIT = 1000000,
  ROUND = 16,         /* units drawn at a time by adaptive trials; the first
                         look is after so many, since two or three units say
                         little of their own scatter */
  ENOUGH = 1000000,   /* trials that do once the digits stand and it is clear
                         whether the law holds */
  CLOSER = 5          /* JCGM 101 8.2: trials that judge the law settle to a
                         fifth of its tolerance */
};

SCWI_CODE_FUNCTION(scw_agreement_code, scw_agreement, SCW_AGREEMENT_LIST,
                   SCWI_KEY, SCW_AGREEMENT_END, "unknown")

double scwi_tolerance_of(double u, int digits) {
  double unit = pow(10, floor(log10(u)) - digits + 1);
  if (round(u / unit) >= pow(10, digits)) unit *= 10; /* 0.0996 is 0.10 */
  return unit / 2;
}

/* Which figures the distribution has. */
typedef struct moments_there {
  bool mean, sd;
} moments_there;

static scw_figure figure(double value) {
  return (scw_figure){value, SCW_PRESENT};
}

/* Mean and SD of the first `units` units together (Chan et al. 1979). */
static void pool(const scwi_trials *trials, size_t units, double *mean,
                 double *sd) {
  double n = 0, squares = 0, shift = 0, about = trials->unit[0].mean;
  for (size_t i = 0; i < units; i++) {
    const scwi_trial_unit *unit = &trials->unit[i];
    double m = (double)unit->n, apart = (unit->mean - about) - shift;
    double d = apart / trials->scale;
    squares += unit->squares + d * d * (n * m / (n + m));
    n += m;
    shift += apart * (m / n);
  }
  *mean = about + shift;
  *sd = trials->scale * sqrt(squares / (n - 1));
}

/* One figure of a unit. */
typedef double (*unit_figure)(const scwi_trials *trials, size_t unit);

static double mean_of(const scwi_trials *trials, size_t unit) {
  return trials->unit[unit].mean;
}

static double low_of(const scwi_trials *trials, size_t unit) {
  return trials->unit[unit].low;
}

static double high_of(const scwi_trials *trials, size_t unit) {
  return trials->unit[unit].high;
}

static double sd_of(const scwi_trials *trials, size_t unit) {
  const scwi_trial_unit *of = &trials->unit[unit];
  return trials->scale * sqrt(of->squares / (double)(of->n - 1));
}

/* Its mean over the first `units` units. */
static double mean_over(const scwi_trials *trials, size_t units,
                        unit_figure of) {
  double about = of(trials, 0), sum = 0;
  for (size_t i = 0; i < units; i++) sum += of(trials, i) - about;
  return about + sum / (double)units;
}

/* The standard error of that mean; the units are whole. */
static double error_of(const scwi_trials *trials, size_t units,
                       unit_figure of) {
  double mean = mean_over(trials, units, of), squares = 0;
  for (size_t i = 0; i < units; i++) {
    double d = (of(trials, i) - mean) / trials->scale;
    squares += d * d;
  }
  return trials->scale *
         sqrt(squares / ((double)units * (double)(units - 1)));
}

static size_t whole_units(const scwi_trials *trials) {
  size_t n = trials->n_units;
  return n && trials->unit[n - 1].n < trials->per_unit ? n - 1 : n;
}

static void take_errors(const scwi_trials *trials, size_t units,
                        moments_there has, scw_monte_carlo *out) {
  const scw_figure none = {0, SCW_TOO_FEW};
  bool several = units >= 2;
  out->mean_error = !has.mean ? (scw_figure){0, SCW_NO_MEAN}
                    : several ? figure(error_of(trials, units, mean_of))
                              : none;
  out->sd_error = !has.sd   ? (scw_figure){0, SCW_NO_SD}
                  : several ? figure(error_of(trials, units, sd_of))
                            : none;
  out->low_error = several ? figure(error_of(trials, units, low_of)) : none;
  out->high_error = several ? figure(error_of(trials, units, high_of)) : none;
}

/* The largest of the standard errors that count. */
static double largest_error(const scw_monte_carlo *out) {
  const scw_figure errors[] = {out->mean_error, out->sd_error, out->low_error,
                               out->high_error};
  double largest = 0;
  for (size_t i = 0; i < sizeof errors / sizeof *errors; i++)
    if (errors[i].state == SCW_PRESENT && errors[i].value > largest)
      largest = errors[i].value;
  return largest;
}

/* What stands for the standard uncertainty where there is none: that of a
 * normal with the same interval. */
static scw_status uncertainty(scw_context *context, const scwi_trials *trials,
                              size_t units, moments_there has, double *u) {
  double mean, z = 1;
  if (has.sd) {
    pool(trials, units, &mean, u);
    return SCW_OK;
  }
  double low = mean_over(trials, units, low_of);
  double high = mean_over(trials, units, high_of);
  scw_status status =
      scwi_t_quantile(context, 0.5 + trials->level / 2, INFINITY, &z);
  *u = (high - low) / 2 / z;
  return status;
}

/* JCGM 101 8.1. */
static void compare(const scw_budget *law, moments_there has,
                    scw_monte_carlo *out) {
  bool there = law && law->interval.state == SCW_PRESENT && has.sd &&
               law->standard_uncertainty.value > 0;
  out->agreement = SCW_AGREEMENT_NOT_APPLICABLE;
  if (!there) return;
  double tolerance =
      scwi_tolerance_of(law->standard_uncertainty.value, out->digits);
  double low = fabs(law->interval.low - out->symmetric.low);
  double high = fabs(law->interval.high - out->symmetric.high);
  double error = 2 * largest_error(out), most = low > high ? low : high;
  out->d_low = figure(low);
  out->d_high = figure(high);
  out->agreement = most + error <= tolerance   ? SCW_AGREES
                   : most - error > tolerance ? SCW_DIFFERS
                                              : SCW_AGREEMENT_UNDECIDED;
  if (out->low_error.state != SCW_PRESENT)
    out->agreement = SCW_AGREEMENT_UNDECIDED;
}

/* Of the first n trials, which are put in another order. */
static void take_intervals(scwi_trials *trials, size_t n,
                           scw_monte_carlo *out) {
  double *x = trials->value, level = trials->level;
  scwi_coverage ends = scwi_coverage_of(n, level);
  size_t tail = n - ends.q < n / 2 ? n - ends.q : n / 2, best = 0;
  scwi_tails_apart(x, n, tail);
  for (size_t r = 1; r < n - ends.q; r++)
    if (x[r + ends.q] - x[r] < x[best + ends.q] - x[best]) best = r;
  out->symmetric =
      (scw_interval){x[ends.low], x[ends.high], level, SCW_PRESENT};
  out->shortest =
      (scw_interval){x[best], x[best + ends.q], level, SCW_PRESENT};
  double *middle = x + tail;
  size_t inside = n - 2 * tail, rank = n / 2 - tail;
  double upper = inside ? scwi_value_of_rank(middle, inside, rank) : x[n / 2];
  double lower = upper;
  if (n % 2 == 0)
    lower = rank ? scwi_value_of_rank(middle, inside, rank - 1) : x[n / 2 - 1];
  out->median = figure(lower + (upper - lower) / 2);
}

/* Whether `units` units are enough: looked at as JCGM 101 7.9.4 does. The law
 * is judged at *next trials and whenever they have doubled, since that costs
 * time. */
static scw_status enough(scw_context *context, scwi_trials *trials,
                         size_t units, moments_there has,
                         const scw_budget *law, size_t *next, bool *stop,
                         scw_monte_carlo *out) {
  double u;
  size_t n = units * trials->per_unit;
  scw_status status = uncertainty(context, trials, units, has, &u);
  if (status) return status;
  take_errors(trials, units, has, out);
  double error = 2 * largest_error(out);
  out->tolerance = u > 0 ? scwi_tolerance_of(u, out->digits) : 0;
  *stop = error <= out->tolerance / CLOSER || n >= SCW_TRIALS_ADAPTIVE;
  if (*stop || error > out->tolerance || n < *next) return SCW_OK;
  take_intervals(trials, n, out);
  compare(law, has, out);
  *next = 2 * n;
  *stop = out->agreement != SCW_AGREEMENT_UNDECIDED;
  return SCW_OK;
}

static size_t count_failed(const scwi_trials *trials) {
  size_t failed = 0;
  for (size_t i = 0; i < trials->n_units; i++) failed += trials->unit[i].failed;
  return failed;
}

/* About the size of the law's standard uncertainty: a power of two, which
 * changes no digit. Squares neither overflow nor vanish in it. */
static double scale_of(const scw_budget *law) {
  double u = law ? law->standard_uncertainty.value : 0;
  int exponent = 0;
  if (u > 0 && isfinite(u)) frexp(u, &exponent);
  return ldexp(1, exponent < -1000 ? -1000 : exponent > 1000 ? 1000 : exponent);
}

/* Units beyond the one at which the digits stood are dropped, so that the
 * answer is that of one who looked after each. */
static scw_status run_adaptive(scw_context *context, scwi_trials *trials,
                               moments_there has, const scw_budget *law,
                               scw_monte_carlo *out) {
  size_t units = ROUND - 1, next = ENOUGH;
  bool stop = false;
  while (!stop) {
    scw_status status = SCW_OK;
    if (++units > trials->n_units)
      status = scwi_trials_run(context, trials, ROUND * trials->per_unit);
    if (!status && count_failed(trials)) return SCW_OK;
    if (!status)
      status = enough(context, trials, units, has, law, &next, &stop, out);
    if (status) return status;
  }
  trials->n_units = units;
  trials->n = units * trials->per_unit;
  return SCW_OK;
}

static void take_figures(scwi_trials *trials, moments_there has,
                         scw_monte_carlo *out) {
  double mean, sd;
  pool(trials, trials->n_units, &mean, &sd);
  take_errors(trials, whole_units(trials), has, out);
  out->mean = has.mean ? figure(mean) : (scw_figure){0, SCW_NO_MEAN};
  out->sd = has.sd ? figure(sd) : (scw_figure){0, SCW_NO_SD};
  take_intervals(trials, trials->n, out);
}

static bool settled(const scw_monte_carlo *out) {
  return out->low_error.state == SCW_PRESENT &&
         2 * largest_error(out) <= out->tolerance;
}

static void none(scw_monte_carlo *out) {
  const scw_figure missing = {0, SCW_NO_VALUE};
  out->mean = out->sd = out->median = missing;
  out->mean_error = out->sd_error = out->low_error = out->high_error = missing;
  out->symmetric.state = out->shortest.state = SCW_NO_VALUE;
  out->d_low = out->d_high = missing;
  out->tolerance = 0;
  out->settled = false;
  out->agreement = SCW_AGREEMENT_NOT_APPLICABLE;
}

static scw_status run(scw_context *context, scwi_trials *trials,
                      const scw_trials_options *options, moments_there has,
                      const scw_budget *law, scw_monte_carlo *out) {
  scw_status status =
      options->trials
          ? scwi_trials_run(context, trials, options->trials)
          : run_adaptive(context, trials, has, law, out);
  if (status) return status;
  out->trials = trials->n;
  out->failed = count_failed(trials);
  if (out->failed) {
    none(out);
    return SCW_OK;
  }
  double u;
  take_figures(trials, has, out);
  status = uncertainty(context, trials, trials->n_units, has, &u);
  if (status) return status;
  out->tolerance = u > 0 ? scwi_tolerance_of(u, out->digits) : 0;
  out->settled = settled(out);
  compare(law, has, out);
  return SCW_OK;
}

static scw_status check(scw_context *context,
                        const scw_trials_options *options) {
  if (options->trials &&
      (options->trials < SCW_TRIALS_LEAST || options->trials > SCW_TRIALS_MOST))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%zu trials: choose from %d to %d", options->trials,
                     SCW_TRIALS_LEAST, SCW_TRIALS_MOST);
  if (options->digits < 0 || options->digits > 3)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%d digits of the standard uncertainty: choose 1, 2 or 3",
                     options->digits);
  return SCW_OK;
}

scw_status scwi_monte_carlo(scw_context *context,
                            const scwi_expression *expression,
                            const scw_budget_given *given,
                            const scwi_known_input *known,
                            const double *correlation, double level,
                            const scw_trials_options *options,
                            const scw_budget *law, scw_monte_carlo *out) {
  scwi_draw draw;
  scwi_trials trials = {.n = 0};
  double index, least = ceil(100 / (1 - level));
  *out = (scw_monte_carlo){.seed = options->seed,
                           .digits = options->digits ? options->digits : 2,
                           .adaptive = options->trials == 0};
  scw_status status = check(context, options);
  if (status) return status;
  status = scwi_draw_make(context, given, known, expression->n_inputs,
                          correlation, &draw);
  if (status) return status;
  status = scwi_tail_index(context, expression, draw.df, &index);
  out->as_normal = draw.as_normal;
  if (!status)
    status = scwi_trials_start(
        context, expression, &draw, level, options->seed,
        (size_t)fmin(fmax(least, LEAST_UNIT), MOST_UNIT), &trials);
  trials.scale = scale_of(law);
  if (!status)
    status = run(context, &trials, options,
                 (moments_there){index > 1, index > 2}, law, out);
  scwi_trials_free(&trials);
  scwi_draw_free(&draw);
  return status;
}
