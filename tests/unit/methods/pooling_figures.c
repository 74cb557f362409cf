/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A filter for the judges of pooled scatter. One question a line: STEP, the
 * number of sets, then each set as its number of readings and the readings.
 * Out: pooled SD, df and its interval; Bartlett's, Levene's and Brown-Forsythe's
 * statistic and p; then for every set its ratio and adjusted p. */
#include "figures_filter.h"
#include "pooled_scatter.h"

enum { MOST_SETS = 64 };

static void pool(scw_context *context, char *rest) {
  static readings sets[MOST_SETS];
  scwi_sample samples[MOST_SETS];
  double step = take_number(&rest);
  size_t n = take_count(&rest);
  scw_pool pool;
  for (size_t i = 0; i < n && i < MOST_SETS; i++) {
    take_readings(&rest, &sets[i]);
    samples[i] = sets[i].sample;
    samples[i].step = (scw_step){step, SCW_STEP_GIVEN};
  }
  must(context, scwi_pool(context, samples, n, 0.95, 0.05, &pool));
  double values[10 + 2 * MOST_SETS] = {
      shown(pool.sd),
      shown(pool.df),
      pool.interval.low,
      pool.interval.high,
      shown(pool.bartlett.statistic),
      shown(pool.bartlett.p),
      shown(pool.levene.statistic),
      shown(pool.levene.p),
      shown(pool.brown_forsythe.statistic),
      shown(pool.brown_forsythe.p)};
  for (size_t i = 0; i < n; i++) {
    values[10 + 2 * i] = shown(pool.set[i].ratio);
    values[11 + 2 * i] = shown(pool.set[i].p);
  }
  say(values, 10 + 2 * n);
  scwi_pool_free(&pool);
}

static const verb verbs[] = {{"pool", pool}};

int main(void) { return answer_lines(verbs, 1); }
