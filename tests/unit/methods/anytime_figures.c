/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The anytime-valid interval, its E-value and the top-up for the judge in
 * SciPy, see figures_filter.h. */
#include "anytime.h"
#include "figures_filter.h"
#include "top_up.h"

static scwi_moments take_moments(char **rest) {
  scwi_moments m = {.n = take_count(rest)};
  m.mean = take_number(rest);
  m.sd = take_number(rest);
  return m;
}

static void say_interval(scw_interval interval) {
  double values[] = {interval.state == SCW_PRESENT ? interval.low : NAN,
                     interval.state == SCW_PRESENT ? interval.high : NAN};
  say(values, 2);
}

static void interval(scw_context *context, char *rest) {
  (void)context;
  scwi_moments m = take_moments(&rest);
  double rounding = take_number(&rest), level = take_number(&rest);
  say_interval(scwi_anytime_interval(m, rounding, level, take_number(&rest)));
}

static void e_value(scw_context *context, char *rest) {
  (void)context;
  scwi_moments m = take_moments(&rest);
  double null_value = take_number(&rest), rounding = take_number(&rest);
  double e = shown(
      scwi_anytime_e_value(m, null_value, rounding, take_number(&rest)));
  say(&e, 1);
}

static void total(scw_context *context, char *rest) {
  scw_figure n;
  double sd = take_number(&rest);
  size_t m = take_count(&rest);
  double level = take_number(&rest);
  must(context,
       scwi_top_up_total(context, sd, m, level, take_number(&rest), &n));
  double value = shown(n);
  say(&value, 1);
}

static void top_up(scw_context *context, char *rest) {
  scw_interval out;
  scwi_moments m = take_moments(&rest);
  size_t pilot = take_count(&rest);
  double rounding = take_number(&rest);
  must(context, scwi_top_up_interval(context, m.mean, m.n, m.sd, pilot,
                                     rounding, take_number(&rest), &out));
  say_interval(out);
}

int main(void) {
  static const verb verbs[] = {{"interval", interval},
                               {"e", e_value},
                               {"total", total},
                               {"top_up", top_up}};
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
