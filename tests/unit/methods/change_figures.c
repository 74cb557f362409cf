/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A filter for the judges in R and SciPy: one question a line in, its figures
 * a line out ("nan" where there is none). Words and numbers are separated by
 * spaces; readings come as their number and the values. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "planning.h"
#include "two_sample.h"

enum { MOST_READINGS = 512, LINE = 1 << 16 };

typedef struct readings {
  scwi_sample sample;
  double x[MOST_READINGS];
} readings;

static void stop(const char *what) {
  fprintf(stderr, "change_figures: %s\n", what);
  exit(1);
}

static void must(scw_context *context, scw_status status) {
  if (status != SCW_OK) stop(scw_context_message(context));
}

static double number(char **rest) {
  char *end;
  double value = strtod(*rest, &end);
  if (end == *rest) stop("a number is missing");
  *rest = end;
  return value;
}

static size_t count(char **rest) {
  return (size_t)number(rest);
}

static void take_readings(char **rest, readings *out) {
  size_t n = count(rest);
  if (n > MOST_READINGS) stop("too many readings");
  for (size_t i = 0; i < n; i++)
    out->x[i] = number(rest);
  out->sample = (scwi_sample){.n = n, .x = out->x};
}

static scwi_comparison take_comparison(char **rest) {
  scwi_comparison c = {.paired = number(rest) > 0};
  c.sd_before = number(rest);
  c.sd_after = number(rest);
  c.step = number(rest);
  c.level = number(rest);
  return c;
}

static double shown(scw_figure figure) {
  return scwi_present(figure) ? figure.value : NAN;
}

static void say(const double *values, size_t n) {
  for (size_t i = 0; i < n; i++)
    printf("%s%.17g", i ? " " : "", values[i]);
  putchar('\n');
}

static void say_estimate(const scw_estimate *e) {
  double values[] = {shown(e->estimate), shown(e->standard_uncertainty),
                     shown(e->df),       shown(e->p),
                     e->interval.low,    e->interval.high};
  say(values, 6);
}

static void welch(scw_context *context, char *rest) {
  double level = number(&rest), step = number(&rest);
  readings before, after;
  scw_estimate e;
  take_readings(&rest, &before);
  take_readings(&rest, &after);
  must(context,
       scwi_welch(context, scwi_moments_of(&before.sample),
                  scwi_moments_of(&after.sample), step, step, level, &e));
  say_estimate(&e);
}

static void paired(scw_context *context, char *rest) {
  double level = number(&rest), step = number(&rest);
  readings differences;
  scw_estimate e;
  take_readings(&rest, &differences);
  must(context, scwi_paired(context, &differences.sample, step, level, &e));
  say_estimate(&e);
}

static void holm(scw_context *context, char *rest) {
  readings p;
  take_readings(&rest, &p);
  must(context, scwi_holm(context, p.x, p.sample.n));
  say(p.x, p.sample.n);
}

/* COMPARISON n_before n_after effect power: power, detectable change. */
static void power(scw_context *context, char *rest) {
  scwi_comparison c = take_comparison(&rest);
  size_t n_before = count(&rest), n_after = count(&rest);
  double effect = number(&rest), wanted = number(&rest), values[2];
  scw_figure change;
  must(context, scwi_power(context, &c, n_before, n_after, effect, &values[0]));
  must(context,
       scwi_detectable(context, &c, n_before, n_after, wanted, &change));
  values[1] = shown(change);
  say(values, 2);
}

/* COMPARISON n effect margin: chance inside, chance to tell. */
static void chances(scw_context *context, char *rest) {
  scwi_comparison c = take_comparison(&rest);
  size_t n = count(&rest);
  double effect = number(&rest), margin = number(&rest), values[2];
  scwi_uncertainty u = scwi_comparison_uncertainty(&c, n, n);
  must(context,
       scwi_chance_inside(context, u, c.level, effect, margin, &values[0]));
  must(context,
       scwi_chance_to_tell(context, u, c.level, effect, margin, &values[1]));
  say(values, 2);
}

/* COMPARISON goal target power assurance m: n, assured, expected, top-up. */
static void plan(scw_context *context, char *rest) {
  scwi_comparison c = take_comparison(&rest);
  scw_plan_goal goal = (scw_plan_goal)count(&rest);
  double target = number(&rest), wanted = number(&rest);
  double assurance = number(&rest);
  size_t m = count(&rest);
  scw_figure f[4];
  must(context, scwi_plan_n(context, &c, goal, target, wanted, &f[0]));
  must(context, scwi_plan_from_pilot(context, &c, goal, target, wanted,
                                     assurance, m, &f[1], &f[2], &f[3]));
  double values[] = {shown(f[0]), shown(f[1]), shown(f[2]), shown(f[3])};
  say(values, 4);
}

/* COMPARISON change margin n_before n_after power: total, more. */
static void settle(scw_context *context, char *rest) {
  scwi_comparison c = take_comparison(&rest);
  double change = number(&rest), margin = number(&rest);
  size_t n_before = count(&rest), n_after = count(&rest);
  scw_settle s;
  scw_figure m = margin > 0 ? scwi_figure(margin) : scwi_missing(SCW_NO_MARGIN);
  must(context, scwi_settle(context, &c, change, m, n_before, n_after,
                            number(&rest), &s));
  double values[] = {shown(s.total), shown(s.more)};
  say(values, 2);
}

typedef struct verb {
  const char *name;
  void (*answer)(scw_context *context, char *rest);
} verb;

static const verb verbs[] = {{"welch", welch},     {"paired", paired},
                             {"holm", holm},       {"power", power},
                             {"chances", chances}, {"plan", plan},
                             {"settle", settle}};

static void answer(scw_context *context, char *line) {
  char *rest = line, *name = strsep(&rest, " \n");
  for (size_t i = 0; i < sizeof verbs / sizeof *verbs; i++)
    if (!strcmp(name, verbs[i].name)) {
      verbs[i].answer(context, rest);
      return;
    }
  stop(name);
}

int main(void) {
  static char line[LINE];
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) stop("no memory");
  while (fgets(line, sizeof line, stdin))
    answer(context, line);
  scw_context_free(context);
  return 0;
}
