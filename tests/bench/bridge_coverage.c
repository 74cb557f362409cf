/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often the intervals of a bridge hold the truth, as tables for
 * docs/methods/bridge.md: bridge_coverage [RUNS]. True levels are even over a
 * range whose SD is a multiple of the old method's error SD, which is 1; new =
 * 2 + 1.1 old. */
#include <stdio.h>
#include <stdlib.h>

#include "agreement.h"
#include "distributions.h"
#include "draw.h"
#include "errors_in_both.h"

enum { MOST = 20 };

typedef struct design {
  size_t n, repeats; /* items; readings by each method */
  double range;      /* SD of the true levels */
  double ratio;      /* error variance of the new method */
  double own;        /* SD of what an item does to the new method */
  bool by_repeats;   /* the ratio is estimated */
} design;

typedef struct shares {
  size_t runs, bounded, exact, analytic, jackknife, line, next, limit;
} shares;

static const double slope = 1.1, level = 0.95;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "%s\n", scw_context_message(context));
  exit(1);
}

typedef struct set {
  double x[MOST], y[MOST];
  scwi_repeats of_old, of_new;
} set;

static double read_item(draw *d, double truth, double error, size_t repeats,
                        double *squares) {
  double x[8], mean = 0;
  for (size_t r = 0; r < repeats; r++) {
    x[r] = truth + error * draw_normal(d);
    mean += x[r] / (double)repeats;
  }
  for (size_t r = 0; r < repeats; r++)
    *squares += (x[r] - mean) * (x[r] - mean);
  return mean;
}

static double true_level(draw *d, const design *of) {
  return 50 + of->range * sqrt(12) * (draw_uniform(d) - 0.5);
}

static double new_level(draw *d, const design *of, double truth) {
  return 2 + slope * truth + of->own * draw_normal(d);
}

static void make(draw *d, const design *of, set *out) {
  double old_squares = 0, new_squares = 0;
  double df = (double)(of->n * (of->repeats - 1));
  for (size_t i = 0; i < of->n; i++) {
    double truth = true_level(d, of), other = new_level(d, of, truth);
    out->x[i] = read_item(d, truth, 1, of->repeats, &old_squares);
    out->y[i] = read_item(d, other, sqrt(of->ratio), of->repeats, &new_squares);
  }
  out->of_old = (scwi_repeats){df > 0 ? sqrt(old_squares / df) : 0, df,
                               1 / (double)of->repeats};
  out->of_new = (scwi_repeats){df > 0 ? sqrt(new_squares / df) : 0, df,
                               1 / (double)of->repeats};
}

static bool near(double got, double wanted, double u, double t) {
  return fabs(got - wanted) <= t * u;
}

static void count_line(scw_context *context, draw *d, const design *of,
                       const set *data, double t, shares *out) {
  scwi_pairs pairs = {of->n, data->x, data->y, of->ratio, false};
  double by_repeats = data->of_new.sd / data->of_old.sd;
  if (of->by_repeats) pairs.ratio = by_repeats * by_repeats;
  scwi_deming line;
  scw_interval exact;
  scwi_jackknife shaken;
  must(context, scwi_deming_of(context, &pairs, &line));
  must(context, scwi_deming_slope_interval(context, &pairs, &line, level,
                                           &exact));
  must(context, scwi_deming_jackknife(context, &pairs, &line, &shaken));
  bool bounded = exact.state == SCW_PRESENT;
  double squares = 0, truth = true_level(d, of);
  double end = 50 + of->range * sqrt(3);
  double x = read_item(d, truth, 1, of->repeats, &squares);
  double y = read_item(d, new_level(d, of, truth), sqrt(of->ratio),
                       of->repeats, &squares);
  out->bounded += bounded;
  out->exact += !bounded || (exact.low <= slope && slope <= exact.high);
  if (!bounded) return; /* no conversion is given */
  out->analytic += near(line.slope, slope, line.slope_u, t);
  out->jackknife += shaken.state == SCW_PRESENT &&
                    near(line.slope, slope, shaken.slope_u, t);
  out->line += near(line.intercept + line.slope * end, 2 + slope * end,
                    scwi_deming_line_u(&line, of->n, end), t);
  out->next += near(line.intercept + line.slope * x, y,
                    hypot(line.scatter, scwi_deming_line_u(&line, of->n, x)),
                    t);
}

/* The upper limit of differences that are scatter alone: true 0 + z SD. */
static void count_limit(scw_context *context, draw *d, const design *of,
                        double z, shares *out) {
  scwi_agreement found;
  double old_squares = 0, new_squares = 0, mean = 0, squares = 0, diff[MOST];
  double df = (double)(of->n * (of->repeats - 1));
  double one_over = 1 / (double)of->repeats;
  for (size_t i = 0; i < of->n; i++) {
    double x = read_item(d, 50, 1, of->repeats, &old_squares);
    diff[i] = read_item(d, 50 + of->own * draw_normal(d), sqrt(of->ratio),
                        of->repeats, &new_squares) -
              x;
    mean += diff[i] / (double)of->n;
  }
  for (size_t i = 0; i < of->n; i++)
    squares += (diff[i] - mean) * (diff[i] - mean);
  scwi_agreement_given given = {.n = of->n,
                                .bias = mean,
                                .sd = sqrt(squares / (double)(of->n - 1)),
                                .content = 0.95,
                                .level = level};
  if (df > 0) {
    given.of_old = (scwi_repeats){sqrt(old_squares / df), df, one_over};
    given.of_new = (scwi_repeats){sqrt(new_squares / df), df, one_over};
  }
  must(context, scwi_agreement_of(context, &given, &found));
  double truth = z * sqrt(1 + of->ratio + of->own * of->own);
  out->limit += found.high_interval.low <= truth &&
                truth <= found.high_interval.high;
}

static void row(scw_context *context, const design *of, size_t runs) {
  draw d = {0x9E3779B97F4A7C15ULL};
  shares s = {.runs = runs};
  double t = 0, z = 0, all = (double)runs;
  must(context, scwi_t_quantile(context, (1 + level) / 2, (double)(of->n - 2),
                                &t));
  must(context, scwi_normal_quantile(context, 0.975, &z));
  for (size_t r = 0; r < runs; r++) {
    set data;
    make(&d, of, &data);
    count_line(context, &d, of, &data, t, &s);
    count_limit(context, &d, of, z, &s);
  }
  double held = s.bounded ? (double)s.bounded : 1;
  printf("%zu,%zu,%g,%g,%g,%s,%.3f,%.3f,%.3f,%.3f,%.3f,%.3f,%.3f\n", of->n,
         of->repeats, of->range, of->ratio, of->own,
         of->by_repeats ? "repeats" : "known", (double)s.bounded / all,
         (double)s.exact / all, (double)s.analytic / held,
         (double)s.jackknife / held, (double)s.line / held,
         (double)s.next / held, (double)s.limit / all);
  fflush(stdout);
}

int main(int argc, char **argv) {
  static const design designs[] = {
      {5, 1, 5, 1, 0, false},     {10, 1, 5, 1, 0, false},
      {20, 1, 5, 1, 0, false},    {5, 1, 20, 1, 0, false},
      {10, 1, 20, 1, 0, false},   {20, 1, 20, 1, 0, false},
      {10, 1, 20, 4, 0, false},   {5, 2, 20, 1, 0, true},
      {10, 2, 20, 1, 0, true},    {20, 2, 20, 1, 0, true},
      {10, 2, 5, 1, 0, true},     {10, 2, 20, 4, 0, true},
      {5, 2, 20, 1, 1, true},     {10, 2, 20, 1, 1, true},
      {20, 2, 20, 1, 1, true},    {10, 3, 5, 1, 2, true}};
  size_t runs = argc > 1 ? strtoull(argv[1], NULL, 10) : 20000;
  scw_context *context = NULL;
  must(context, scw_context_new(&context));
  printf("items,repeats,range,ratio,own,ratio_is,bounded,slope_exact,"
         "slope_analytic,slope_jackknife,line_at_end,next_result,limit\n");
  for (size_t i = 0; i < sizeof designs / sizeof *designs; i++)
    row(context, &designs[i], runs);
  scw_context_free(context);
  return 0;
}
