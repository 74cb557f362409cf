/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ratios of two means for the judges, see figures_filter.h. Answers: estimate,
 * df, kind of the set (0 interval, 1 outside, 2 everything, -1 none), low, high,
 * delta low, delta high. */
#include "fieller.h"
#include "figures_filter.h"

static void answer(scw_context *context, const scwi_two_means *means,
                   double level) {
  scw_ratio r;
  must(context, scwi_ratio_of_means(context, means, level, &r));
  double kind = r.state == SCW_PRESENT ? (double)r.set : -1;
  double values[] = {shown(r.estimate), shown(r.df),  kind,
                     shown(r.low),      shown(r.high), r.delta.low,
                     r.delta.high};
  say(values, 7);
}

/* LEVEL STEP_BEFORE STEP_AFTER before after */
static void apart(scw_context *context, char *rest) {
  double level = take_number(&rest), step_before = take_number(&rest);
  double step_after = take_number(&rest);
  readings before, after;
  take_readings(&rest, &before);
  take_readings(&rest, &after);
  scwi_two_means means =
      scwi_means_apart(scwi_moments_of(&before.sample), step_before,
                       scwi_moments_of(&after.sample), step_after);
  answer(context, &means, level);
}

/* LEVEL STEP SIDES before after */
static void pairs(scw_context *context, char *rest) {
  double level = take_number(&rest);
  scwi_display display = {.step = take_number(&rest)};
  display.sides = take_number(&rest);
  readings before, after;
  take_readings(&rest, &before);
  take_readings(&rest, &after);
  scwi_two_means means =
      scwi_means_paired(before.x, after.x, before.sample.n, display);
  answer(context, &means, level);
}

int main(void) {
  static const verb verbs[] = {{"apart", apart}, {"pairs", pairs}};
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
