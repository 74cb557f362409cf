/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dated_steps.h"

#include <stdlib.h>

#include "dated_line.h"
#include "figure.h"
#include "level_shift.h"
#include "memory.h"
#include "sum.h"

typedef struct span {
  size_t first, n;
} span;

typedef struct search {
  const double *day;
  const scwi_sample *sample;
  double alpha;
  unsigned long long seed;
  scwi_dated_steps *out;
  span *waiting; /* stretches still to be looked at */
  size_t n_waiting;
} search;

static scwi_sample part_of(const scwi_sample *s, span part) {
  scwi_sample out = *s;
  out.n = part.n;
  out.x = s->x + part.first;
  out.ticks = s->ticks ? s->ticks + part.first : NULL;
  return out;
}

/* About the two means, in the unit of the deviations. */
static double squares_about_means(const scwi_workings *w, size_t k) {
  scwi_sum squares = {0};
  for (size_t side = 0; side < 2; side++) {
    size_t first = side ? k : 0, end = side ? w->n : k;
    scwi_sum sum = {0};
    for (size_t i = first; i < end; i++) scwi_sum_add(&sum, w->deviation[i]);
    double mean = scwi_sum_of(sum) / (double)(end - first);
    for (size_t i = first; i < end; i++) {
      double away = w->deviation[i] - mean;
      scwi_sum_add(&squares, away * away);
    }
  }
  return scwi_sum_of(squares);
}

static void keep_step(search *s, span part, const scw_level_shift *shift) {
  size_t at = part.first + shift->after_place, i = s->out->n++;
  for (; i > 0 && s->out->step[i - 1].at > at; i--)
    s->out->step[i] = s->out->step[i - 1];
  s->out->step[i] = (scwi_dated_step){at, shift->p.value, shift->counted};
  s->waiting[s->n_waiting++] = (span){part.first, shift->after_place};
  s->waiting[s->n_waiting++] = (span){at, part.n - shift->after_place};
}

static scw_status look_at(scw_context *context, search *s, span part) {
  scwi_sample sample = part_of(s->sample, part);
  scwi_workings w = {0};
  scw_level_shift shift;
  scwi_dated_line line;
  scw_status status = scwi_workings_of(context, &sample, &w);
  if (status == SCW_OK)
    status = scwi_level_split(context, &w, s->seed, &shift);
  if (status == SCW_OK)
    status = scwi_dated_line_of(context, s->day + part.first, &sample, 0.95,
                                &line);
  if (status == SCW_OK && scwi_present(shift.p) && shift.p.value <= s->alpha) {
    if (line.squares < squares_about_means(&w, shift.after_place))
      s->out->line = true;
    else
      keep_step(s, part, &shift);
  }
  scwi_workings_free(&w);
  return status;
}

scw_status scwi_dated_steps_of(scw_context *context, const double *day,
                               const scwi_sample *sample, double alpha,
                               unsigned long long seed,
                               scwi_dated_steps *out) {
  search s = {.day = day, .sample = sample, .alpha = alpha, .seed = seed,
              .out = out};
  out->n = 0;
  out->line = false;
  /* Every step turns one stretch into two; n values have n-1 steps at most. */
  scw_status status = SCWI_ALLOCATE(context, 2 * sample->n + 1, &s.waiting);
  if (status == SCW_OK) s.waiting[s.n_waiting++] = (span){0, sample->n};
  while (status == SCW_OK && s.n_waiting > 0) {
    span part = s.waiting[--s.n_waiting];
    if (part.n >= 4) status = look_at(context, &s, part);
  }
  free(s.waiting);
  return status;
}
