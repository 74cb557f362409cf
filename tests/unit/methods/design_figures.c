/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Permutation, ranks, equivalence, control, baselines and unequal plans for
 * the judges, see figures_filter.h. */
#include "baseline.h"
#include "control.h"
#include "design.h"
#include "equivalence.h"
#include "figures_filter.h"
#include "hodges_lehmann.h"
#include "permutation.h"
#include "sd_ratio.h"
#include "split.h"

static void say_permutation(const scw_permutation *p) {
  double values[] = {shown(p->p), shown(p->smallest_p),
                     shown(p->smallest_p_design)};
  say(values, 3);
}

static void shuffle(scw_context *context, char *rest) {
  static readings before, after;
  scw_permutation p;
  take_ticks(&rest, &before);
  take_ticks(&rest, &after);
  must(context,
       scwi_permutation_unpaired(context, &before.sample, &after.sample, &p));
  say_permutation(&p);
}

static void flip(scw_context *context, char *rest) {
  static readings differences;
  scw_permutation p;
  take_ticks(&rest, &differences);
  must(context, scwi_permutation_paired(context, &differences.sample, &p));
  say_permutation(&p);
}

static void say_hodges_lehmann(const scw_hodges_lehmann *h) {
  double values[] = {shown(h->estimate), h->interval.low, h->interval.high,
                     shown(h->coverage)};
  say(values, 4);
}

static void ranks(scw_context *context, char *rest) {
  static readings before, after;
  scw_hodges_lehmann h;
  double level = take_number(&rest);
  take_readings(&rest, &before);
  take_readings(&rest, &after);
  must(context, scwi_hodges_lehmann_unpaired(context, &before.sample,
                                             &after.sample, level, &h));
  say_hodges_lehmann(&h);
}

static void signed_ranks(scw_context *context, char *rest) {
  static readings differences;
  scw_hodges_lehmann h;
  double level = take_number(&rest);
  take_readings(&rest, &differences);
  must(context,
       scwi_hodges_lehmann_paired(context, &differences.sample, level, &h));
  say_hodges_lehmann(&h);
}

static void sd_ratio(scw_context *context, char *rest) {
  static readings before, after;
  scw_sd_ratio r;
  double level = take_number(&rest);
  take_readings(&rest, &before);
  take_readings(&rest, &after);
  must(context, scwi_sd_ratio(context, scwi_moments_of(&before.sample),
                              scwi_moments_of(&after.sample), level, &r));
  double values[] = {shown(r.ratio), r.interval.low, r.interval.high};
  say(values, 3);
}

static scw_estimate take_welch(scw_context *context, double level,
                               char **rest) {
  static readings before, after;
  scw_estimate e;
  take_readings(rest, &before);
  take_readings(rest, &after);
  must(context, scwi_welch(context, scwi_moments_of(&before.sample),
                           scwi_moments_of(&after.sample), 0, 0, level, &e));
  return e;
}

static void tost(scw_context *context, char *rest) {
  double level = take_number(&rest);
  scw_figure margin = take_margin(&rest);
  scw_estimate e = take_welch(context, level, &rest);
  scw_tost t = scwi_tost(&e, margin);
  double values[] = {shown(t.p), t.level};
  say(values, 2);
}

static void control(scw_context *context, char *rest) {
  double level = take_number(&rest);
  scw_estimate treated = take_welch(context, level, &rest);
  scw_estimate untreated = take_welch(context, level, &rest), e;
  must(context, scwi_control(context, &treated, &untreated, level, &e));
  say_estimate(&e);
}

/* level number number_step step readings: break-even u and the interval. */
static void number(scw_context *context, char *rest) {
  static readings after;
  double level = take_number(&rest), bare = take_number(&rest);
  double bare_step = take_number(&rest), step = take_number(&rest);
  scw_against_number a;
  take_readings(&rest, &after);
  must(context, scwi_against_number(context, scwi_moments_of(&after.sample),
                                    step, bare, bare_step, level, &a));
  double values[] = {shown(a.break_even_u), a.if_exact.interval.low,
                     a.if_exact.interval.high, (double)a.verdict};
  say(values, 4);
}

static scwi_goal take_goal(char **rest) {
  scwi_goal goal = {.kind = (scw_plan_goal)take_count(rest)};
  goal.target = take_number(rest);
  goal.power = take_number(rest);
  return goal;
}

/* COMPARISON goal target power ratio: before, after. */
static void split(scw_context *context, char *rest) {
  scwi_comparison c = take_comparison(&rest);
  scwi_goal goal = take_goal(&rest);
  scw_plan_split s;
  must(context, scwi_plan_split(context, &c, goal, take_number(&rest), &s));
  double values[] = {shown(s.before), shown(s.after)};
  say(values, 2);
}

/* form goal target power level step fits, then by level: costs, variances, told
 * apart. Half-width, change seen and chance of the cheapest; then counts and
 * cost of every design. */
static void designs(scw_context *context, char *rest) {
  enum { MOST = 5 };
  scwi_design_task task = {.form = (scwi_design_form)take_count(&rest)};
  scwi_design_scatter scatter;
  scwi_design found[MOST];
  scw_design_figures figures;
  scw_presence why;
  size_t n, k = 0;
  double values[3 + MOST * (SCW_LEVEL_COUNT + 1)];
  task.goal = take_goal(&rest);
  task.level = take_number(&rest);
  task.step = take_number(&rest);
  task.fits = take_count(&rest);
  for (int level = 0; level < SCW_LEVEL_COUNT; level++)
    task.cost[level] = take_number(&rest);
  for (int level = 0; level < SCW_LEVEL_COUNT; level++)
    scatter.variance[level] = take_number(&rest);
  for (int level = 0; level < SCW_LEVEL_COUNT; level++)
    scatter.told_apart[level] = take_count(&rest) != 0;
  must(context,
       scwi_best_designs(context, &task, &scatter, found, MOST, &n, &why));
  if (n == 0) {
    say((double[]){-(double)why}, 1);
    return;
  }
  must(context,
       scwi_design_figures(context, &task, &scatter, &found[0], &figures));
  values[k++] = shown(figures.half_width);
  values[k++] = shown(figures.detectable);
  values[k++] = shown(figures.power);
  for (size_t i = 0; i < n; i++) {
    for (int level = 0; level < SCW_LEVEL_COUNT; level++)
      values[k++] = (double)found[i].count[level];
    values[k++] = found[i].cost;
  }
  say(values, k);
}

/* form goal target power level df variance n: the averaged chance. */
static void expected(scw_context *context, char *rest) {
  scwi_design_task task = {.form = (scwi_design_form)take_count(&rest)};
  scwi_design_scatter scatter = {{0}, {false, false, true, false}};
  scwi_design design = {{1, 1, 1, 1}, 0};
  scw_figure chance;
  task.goal = take_goal(&rest);
  task.level = take_number(&rest);
  double df = take_number(&rest);
  scatter.variance[SCW_LEVEL_SPOT] = take_number(&rest);
  design.count[SCW_LEVEL_SPOT] = take_count(&rest);
  must(context, scwi_design_expected(context, &task, &scatter, &design, df,
                                     &chance));
  say(&chance.value, 1);
}

static const verb verbs[] = {
    {"shuffle", shuffle},           {"flip", flip},         {"ranks", ranks},
    {"signed_ranks", signed_ranks}, {"sd_ratio", sd_ratio}, {"tost", tost},
    {"control", control},           {"number", number},     {"split", split},
    {"designs", designs},           {"expected", expected}};

int main(void) {
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
