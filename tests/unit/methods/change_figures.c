/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes and plans for the judges, see figures_filter.h. */
#include "figures_filter.h"
#include "two_sample.h"

static void welch(scw_context *context, char *rest) {
  double level = take_number(&rest), step = take_number(&rest);
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
  double level = take_number(&rest), step = take_number(&rest);
  readings differences;
  scw_estimate e;
  take_readings(&rest, &differences);
  must(context, scwi_paired(context, &differences.sample,
                             (scwi_display){step, 0}, level, &e));
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
  size_t n_before = take_count(&rest), n_after = take_count(&rest);
  double effect = take_number(&rest), wanted = take_number(&rest), values[2];
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
  size_t n = take_count(&rest);
  double effect = take_number(&rest), margin = take_number(&rest), values[2];
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
  scw_plan_goal goal = (scw_plan_goal)take_count(&rest);
  double target = take_number(&rest), wanted = take_number(&rest);
  double assurance = take_number(&rest);
  size_t m = take_count(&rest);
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
  double change = take_number(&rest);
  scw_figure m = take_margin(&rest);
  size_t n_before = take_count(&rest), n_after = take_count(&rest);
  scw_settle s;
  must(context, scwi_settle(context, &c, change, m, n_before, n_after,
                            take_number(&rest), &s));
  double values[] = {shown(s.total), shown(s.more)};
  say(values, 2);
}

static const verb verbs[] = {{"welch", welch},     {"paired", paired},
                             {"holm", holm},       {"power", power},
                             {"chances", chances}, {"plan", plan},
                             {"settle", settle}};

int main(void) {
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
