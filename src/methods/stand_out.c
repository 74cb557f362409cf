/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rosner, Percentage points for a generalized ESD many-outlier procedure,
 * Technometrics 25(2), 1983, 165-172. Grubbs' test is its first step. The
 * reading farthest from the mean is always the smallest or the largest, so a
 * step only moves one end of the sorted readings. */
#include "stand_out.h"

#include "figure.h"
#include "outlier_limits.h"
#include "sum.h"

enum { FEWEST = 3, FEWEST_ESD = 15, MOST = 100000, FEWEST_EXACT_LIMIT = 25 };

/* Sorted readings low to high - 1 are left. */
typedef struct range {
  const scwi_workings *w;
  size_t low, high;
} range;

typedef struct farthest {
  size_t place;      /* 0-based, in reading order */
  double statistic;  /* |reading - mean| / sd */
  bool others_equal; /* all the rest are the same */
} farthest;

static bool equal(const scwi_workings *w, size_t a, size_t b) {
  return w->rank[w->place[a]] == w->rank[w->place[b]];
}

static void mean_and_sd(range r, double *mean, double *sd) {
  scwi_sum sum = {0}, squares = {0};
  double n = (double)(r.high - r.low);
  for (size_t k = r.low; k < r.high; k++)
    scwi_sum_add(&sum, r.w->ascending[k]);
  *mean = scwi_sum_of(sum) / n;
  for (size_t k = r.low; k < r.high; k++) {
    double away = r.w->ascending[k] - *mean;
    scwi_sum_add(&squares, away * away);
  }
  *sd = sqrt(scwi_sum_of(squares) / (n - 1));
}

/* Takes the farthest reading out of a range that holds different ones. Of two
 * equally far it is the earlier in reading order. */
static farthest take_farthest(range *r) {
  const scwi_workings *w = r->w;
  double mean, sd;
  mean_and_sd(*r, &mean, &sd);
  double above = w->ascending[r->high - 1] - mean;
  double below = mean - w->ascending[r->low];
  size_t top = w->place[r->high - 1], bottom = w->place[r->low];
  bool upper = above > below || (above >= below && top < bottom);
  if (upper)
    r->high--;
  else
    r->low++;
  return (farthest){upper ? top : bottom, (upper ? above : below) / sd,
                    equal(w, r->low, r->high - 1)};
}

/* Reading minus median in scaled units. */
static double from_median(const scwi_workings *w, size_t place) {
  return scwi_distance(&w->centre, place, w->origin) - w->middle;
}

/* Within two display steps of the median: the display explains it. Medians lie
 * on half ticks, so both sides are counted in those, as whole numbers. */
static bool display_explains(const scwi_workings *w, size_t place) {
  const scwi_sample *s = w->sample;
  double away = fabs(from_median(w, place));
  if (!s->ticks)
    return scwi_unscaled(&w->centre, away) <= 2 * s->step.size * (1 + 1e-12);
  double limit = 4 * s->step.size / s->tick_size;
  if (fabs(limit - rint(limit)) <= 1e-6) limit = rint(limit);
  return 2 * away / (double)w->n <= limit;
}

static scw_figure modified_z(const scwi_workings *w, size_t place) {
  if (w->scaled_mad <= 0) return scwi_missing(SCW_MAD_ZERO);
  return scwi_figure(0.6745 * from_median(w, place) / w->scaled_mad);
}

/* One step of the procedure as it was taken. */
typedef struct taken {
  farthest reading;
  double limit;
  scw_figure p; /* null where it would be 0 for want of other scatter */
} taken;

static scw_status take_step(scw_context *context, range *left, size_t i,
                            double significance, taken *out) {
  size_t n = left->w->n, still = left->high - left->low;
  out->reading = take_farthest(left);
  out->p = scwi_missing(SCW_NO_SCATTER);
  scw_status status = scwi_esd_limit(context, n, i, significance, &out->limit);
  if (status != SCW_OK || out->reading.others_equal) return status;
  double p;
  status = scwi_grubbs_p(context, still, out->reading.statistic, &p);
  if (status == SCW_OK) out->p = scwi_figure(p);
  return status;
}

static scw_flag flag_of(const scwi_workings *w, const taken *step,
                        scw_stand_out_test test) {
  size_t place = step->reading.place;
  return (scw_flag){.place = place + 1,
                    .reading = w->sample->x[place],
                    .test = test,
                    .statistic = scwi_figure(step->reading.statistic),
                    .limit = scwi_figure(step->limit),
                    .p = step->p,
                    .distance_sd = w->deviation[place] / w->scaled_sd,
                    .modified_z = modified_z(w, place)};
}

static void record_flags(const scwi_workings *w, const taken *steps,
                         size_t n_steps, scw_stand_out_test test,
                         scw_stand_out *out) {
  size_t flagged = 0; /* the last step beyond its limit, not the first within */
  for (size_t i = 0; i < n_steps; i++)
    if (steps[i].reading.statistic > steps[i].limit ||
        (i == 0 && steps[i].reading.others_equal))
      flagged = i + 1;
  if (steps[0].reading.others_equal) test = SCW_ALL_EQUAL_BUT_ONE;
  for (size_t i = 0; i < flagged; i++)
    if (!display_explains(w, steps[i].reading.place))
      out->flags[out->n_flags++] = flag_of(w, &steps[i], test);
}

/* Two or more readings far from the median in mads, and a silent test: each
 * may widen the SD that hides the other. */
static void look_for_hiding(const scwi_workings *w, scw_stand_out *out) {
  for (size_t i = 0; i < w->n; i++) {
    scw_figure z = modified_z(w, i);
    if (scwi_present(z) && fabs(z.value) > 3.5 && !display_explains(w, i))
      out->beyond_3_5++;
  }
  out->may_hide_each_other = out->beyond_3_5 >= 2 && out->n_flags == 0;
}

/* Never more than half of the readings: the rest must be able to speak. */
static size_t candidates_for(size_t n, size_t asked) {
  size_t wanted = asked ? asked : n < FEWEST_ESD ? 1 : n / 5;
  size_t most =
      (n - 1) / 2 < SCW_MAX_CANDIDATES ? (n - 1) / 2 : SCW_MAX_CANDIDATES;
  return wanted < most ? wanted : most;
}

static scw_status run(scw_context *context, const scwi_workings *w,
                      double significance, bool esd, scw_stand_out *out) {
  taken steps[SCW_MAX_CANDIDATES];
  size_t n_steps = 0;
  range left = {w, 0, w->n};
  do {
    scw_status status =
        take_step(context, &left, n_steps + 1, significance, &steps[n_steps]);
    if (status != SCW_OK) return status;
  } while (!steps[n_steps++].reading.others_equal && n_steps < out->candidates);
  out->grubbs_statistic = scwi_figure(steps[0].reading.statistic);
  out->grubbs_limit = scwi_figure(steps[0].limit);
  out->grubbs_p = steps[0].p;
  for (size_t i = 0; esd && i < n_steps; i++)
    out->steps[out->n_steps++] = (scw_esd_step){
        steps[i].reading.place + 1, steps[i].reading.statistic, steps[i].limit};
  record_flags(w, steps, n_steps, esd ? SCW_ESD : SCW_GRUBBS, out);
  return SCW_OK;
}

scw_status scwi_stand_out(scw_context *context, const scwi_workings *w,
                          double significance, size_t candidates,
                          scw_stand_out *out) {
  scw_presence why = w->n < 2            ? SCW_ONE_READING
                     : w->n < FEWEST     ? SCW_TWO_READINGS
                     : w->scaled_sd <= 0 ? SCW_NO_SCATTER
                     : w->n > MOST       ? SCW_TOO_MANY
                                         : SCW_PRESENT;
  *out = (scw_stand_out){.grubbs_statistic = scwi_missing(why),
                         .grubbs_limit = scwi_missing(why),
                         .grubbs_p = scwi_missing(why)};
  if (why != SCW_PRESENT) return SCW_OK;
  bool esd = candidates > 0 || w->n >= FEWEST_ESD;
  out->candidates = candidates_for(w->n, candidates);
  out->limits_approximate = esd && w->n < FEWEST_EXACT_LIMIT;
  scw_status status = run(context, w, significance, esd, out);
  if (status == SCW_OK) look_for_hiding(w, out);
  return status;
}
