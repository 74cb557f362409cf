/* SPDX-License-Identifier: GPL-3.0-or-later */
/* False alarms and finds in dated logs: drift_rates [LOGS [SEED]]. A log has n
 * days, 3 to 11 days apart; a day's mean scatters normally with SD 1, shown to
 * `step`; neighbours are correlated by `lag1`; from the middle on the level is
 * `shift` higher. Prints the shares of logs in which a step is found, in which
 * the slope's 95 % interval of the newest stretch leaves 0, and in which some
 * day of it lies beyond the chart's limits, its weighted average or its sums
 * (8 days or more). The standard error at 2000 logs is 0.005 where the share is
 * 0.05. */
#include <stdio.h>
#include <stdlib.h>

#include "control_charts.h"
#include "dated_line.h"
#include "dated_steps.h"
#include "draw.h"
#include "moments.h"

enum { MOST = 60 };

typedef struct setting {
  size_t n;
  double step, lag1, shift;
} setting;

typedef struct log_days {
  double day[MOST], x[MOST];
  int64_t ticks[MOST];
} log_days;

static void draw_log(draw *random, const setting *s, log_days *out) {
  double state = draw_normal(random), day = 20454;
  for (size_t i = 0; i < s->n; i++) {
    out->day[i] = day;
    day += 3 + floor(9 * draw_uniform(random));
    out->x[i] = state + (i >= s->n / 2 ? s->shift : 0);
    state = s->lag1 * state +
            sqrt(1 - s->lag1 * s->lag1) * draw_normal(random);
    if (s->step <= 0) continue;
    out->ticks[i] = (int64_t)nearbyint(out->x[i] / s->step);
    out->x[i] = (double)out->ticks[i] * s->step;
  }
}

typedef struct counts {
  long step, slope, limits, average, sum;
} counts;

/* The charts as the command draws them. */
static void count_charts(const double *x, size_t n, double step, double centre,
                         counts *to) {
  double sd = fmax(scwi_moving_range_sd(x, n), step / 2);
  double average[MOST], up[MOST], down[MOST];
  bool beyond[3] = {false, false, false};
  if (n < 8) return;
  scwi_weighted_average(x, n, centre, 0.2, average);
  scwi_cumulative_sums(x, n, centre, sd, 0.5, up, down);
  for (size_t i = 0; i < n; i++) {
    beyond[0] = beyond[0] || fabs(x[i] - centre) > 3 * sd;
    beyond[1] = beyond[1] || fabs(average[i] - centre) >
                                 scwi_weighted_half_width(i + 1, sd, 0.2, 3);
    beyond[2] = beyond[2] || up[i] > 5 || down[i] > 5;
  }
  to->limits += beyond[0];
  to->average += beyond[1];
  to->sum += beyond[2];
}

static void look_at(scw_context *context, const setting *s,
                    const log_days *days, counts *to) {
  scwi_dated_step step[MOST];
  scwi_dated_steps steps = {.step = step};
  scwi_dated_line line;
  scwi_sample sample = {.n = s->n,
                        .x = days->x,
                        .ticks = s->step > 0 ? days->ticks : NULL,
                        .tick_size = s->step,
                        .step = {s->step, SCW_STEP_GIVEN}};
  if (scwi_dated_steps_of(context, days->day, &sample, 0.05, 1, &steps)) exit(1);
  size_t from = steps.n ? step[steps.n - 1].at : 0;
  sample.n -= from;
  sample.x += from;
  if (sample.ticks) sample.ticks += from;
  if (scwi_dated_line_of(context, days->day + from, &sample, 0.95, &line))
    exit(1);
  const scw_interval *slope = &line.slope.interval;
  to->step += steps.n > 0;
  to->slope += slope->state == SCW_PRESENT && (slope->low > 0 || slope->high < 0);
  count_charts(sample.x, sample.n, s->step, scwi_moments_of(&sample).mean, to);
}

int main(int argc, char **argv) {
  static const size_t sizes[] = {6, 8, 12, 18, 30, 60};
  static const setting kinds[] = {{0, 0, 0, 0},   {0, 1, 0, 0}, {0, 0, 0.5, 0},
                                  {0, 0, 0, 1.5}, {0, 0, 0, 3}};
  long logs = argc > 1 ? strtol(argv[1], NULL, 10) : 2000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260314};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("days,step,lag1,shift,step_found,slope,limits,average,sum\n");
  for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++)
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
      setting s = kinds[k];
      counts c = {0};
      log_days days;
      s.n = sizes[i];
      for (long l = 0; l < logs; l++) {
        draw_log(&random, &s, &days);
        look_at(context, &s, &days, &c);
      }
      double per = 1 / (double)logs;
      printf("%zu,%g,%g,%g,%.4f,%.4f,%.4f,%.4f,%.4f\n", s.n, s.step, s.lag1,
             s.shift, (double)c.step * per, (double)c.slope * per,
             (double)c.limits * per, (double)c.average * per,
             (double)c.sum * per);
      fflush(stdout);
    }
  scw_context_free(context);
  return 0;
}
