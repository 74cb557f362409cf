/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All sums run over contributions divided by the largest of them, so that no
 * unit is too small or too large to be squared. */
#include "propagate.h"

#include <float.h>
#include <stdlib.h>

#include "distributions.h"
#include "figure.h"
#include "memory.h"
#include "second_order.h"

typedef struct budget_room {
  size_t n;
  double *x, *u, *slope, *hessian;
  double *s;   /* signed contributions over `unit` */
  double unit; /* the largest contribution */
  const double *correlation;
  bool *used;
  size_t *group;
} budget_room;

static void room_free(budget_room *r) {
  free(r->x);
  free(r->used);
  free(r->group);
}

static scw_status room_make(scw_context *context, size_t n,
                            const double *correlation, budget_room *r) {
  *r = (budget_room){.n = n, .correlation = correlation};
  scw_status status = SCWI_ALLOCATE(context, n * (n + 4), &r->x);
  if (!status) status = SCWI_ALLOCATE(context, n, &r->used);
  if (!status) status = SCWI_ALLOCATE(context, n, &r->group);
  if (status) return status;
  r->u = r->x + n;
  r->slope = r->u + n;
  r->s = r->slope + n;
  r->hessian = r->s + n;
  return SCW_OK;
}

static void find_contributions(budget_room *r) {
  r->unit = 0;
  for (size_t i = 0; i < r->n; i++) {
    r->s[i] = r->slope[i] * r->u[i];
    r->used[i] = r->s[i] != 0;
    r->unit = fmax(r->unit, fabs(r->s[i]));
  }
  for (size_t i = 0; i < r->n && r->unit > 0; i++)
    r->s[i] /= r->unit;
  scwi_correlation_groups(r->correlation, r->used, r->n, r->group);
}

/* Variance (over unit^2) of the contributions that `take` lets in. What
 * rounding alone could leave of terms that cancel is 0. */
static double variance_of(const budget_room *r,
                          bool (*take)(const budget_room *, size_t, size_t),
                          size_t which) {
  double sum = 0, size = 0;
  for (size_t i = 0; i < r->n; i++)
    for (size_t j = 0; j < r->n && take(r, i, which); j++) {
      if (!take(r, j, which)) continue;
      double term =
          r->s[i] * scwi_correlation_of(r->correlation, r->n, i, j) * r->s[j];
      sum += term;
      size += fabs(term);
    }
  return sum > (double)r->n * DBL_EPSILON * size ? sum : 0;
}

static bool all(const budget_room *r, size_t i, size_t which) {
  (void)r, (void)i, (void)which;
  return true;
}

static bool all_but(const budget_room *r, size_t i, size_t which) {
  (void)r;
  return i != which;
}

static bool in_group(const budget_room *r, size_t i, size_t which) {
  return r->group[i] == which;
}

/* One term of Welch-Satterthwaite for each input on its own and for each
 * group; within a group the smallest df. */
static double group_term(const budget_room *r, const scwi_known_input *known,
                         size_t group, scw_budget_df *from) {
  double least = INFINITY, most = 0, variance = variance_of(r, in_group, group);
  for (size_t i = 0; i < r->n; i++)
    if (r->group[i] == group) {
      least = fmin(least, known[i].df);
      most = fmax(most, known[i].df);
    }
  if (least < most) *from = SCW_DF_CAUTIOUS;
  return variance * variance / least;
}

static double effective_df(const budget_room *r, const scwi_known_input *known,
                           double variance, scw_budget_df *from) {
  double sum = 0;
  size_t groups = 0;
  *from = SCW_DF_INDEPENDENT;
  for (size_t i = 0; i < r->n; i++) {
    double square = r->s[i] * r->s[i];
    if (r->group[i] == 0) sum += square * square / known[i].df;
    if (r->group[i] > groups) groups = r->group[i];
  }
  if (groups > 0) *from = SCW_DF_GROUPS;
  for (size_t g = 1; g <= groups; g++)
    sum += group_term(r, known, g, from);
  return sum > 0 ? variance * variance / sum : INFINITY;
}

static void fill_lines(const budget_room *r, const scw_budget_given *given,
                       const scwi_known_input *known, double variance,
                       scw_budget *out) {
  double best = variance;
  out->most_help = r->n;
  for (size_t i = 0; i < r->n; i++) {
    double with = r->s[i] * scwi_correlation_row(r->correlation, r->s, r->n, i);
    double without = variance_of(r, all_but, i);
    out->lines[i] =
        (scw_budget_line){.name = given[i].name,
                          .kind = given[i].kind,
                          .estimate = known[i].estimate,
                          .standard_uncertainty = known[i].u,
                          .df = isinf(known[i].df) ? scwi_missing(SCW_UNBOUNDED)
                                                   : scwi_figure(known[i].df),
                          .sensitivity = r->slope[i],
                          .contribution = fabs(r->s[i]) * r->unit,
                          .share = variance > 0 ? scwi_figure(with / variance)
                                                : scwi_missing(SCW_NO_SCATTER),
                          .if_perfect = scwi_figure(sqrt(without) * r->unit),
                          .group = r->group[i]};
    if (without < best) {
      best = without;
      out->most_help = i;
    }
  }
}

static scw_status expand(scw_context *context, double u, double df,
                         double level, scw_budget *out) {
  double k;
  out->standard_uncertainty = scwi_figure(u);
  out->df =
      isinf(df) ? scwi_missing(SCW_UNBOUNDED) : scwi_figure(fmax(df, 0.5));
  scw_status status =
      scwi_t_quantile(context, 0.5 + level / 2, fmax(df, 0.5), &k);
  if (status) return status;
  out->k = scwi_figure(k);
  out->expanded = scwi_figure(k * u);
  out->interval =
      scwi_interval(out->estimate - k * u, out->estimate + k * u, level);
  return SCW_OK;
}

static void no_uncertainty(double level, scw_budget *out) {
  out->standard_uncertainty = out->df = out->k = out->expanded =
      scwi_missing(SCW_NO_SCATTER);
  out->interval = scwi_no_interval(SCW_NO_SCATTER, level);
}

/* The value and slopes; with the curvature where there is one, else *curved is
 * false. */
static scw_status find_slopes(scw_context *context,
                              const scwi_expression *expression, budget_room *r,
                              double *value, bool *curved) {
  scw_status status = scwi_expression_derivatives(context, expression, r->x,
                                                  value, r->slope, r->hessian);
  *curved = status == SCW_OK;
  if (status != SCW_NO_FIGURE) return status;
  return scwi_expression_derivatives(context, expression, r->x, value, r->slope,
                                     NULL);
}

static scw_status work_out(scw_context *context,
                           const scwi_expression *expression,
                           const scw_budget_given *given,
                           const scwi_known_input *known, double level,
                           budget_room *r, scw_budget *out) {
  bool curved;
  for (size_t i = 0; i < r->n; i++) {
    r->x[i] = known[i].estimate;
    r->u[i] = known[i].u;
  }
  scw_status status =
      find_slopes(context, expression, r, &out->estimate, &curved);
  if (status) return status;
  find_contributions(r);
  double variance = variance_of(r, all, 0);
  double u = sqrt(variance) * r->unit;
  fill_lines(r, given, known, variance, out);
  if (variance > 0)
    status = expand(context, u, effective_df(r, known, variance, &out->df_from),
                    level, out);
  else
    no_uncertainty(level, out);
  out->second_order = scwi_no_second_order();
  if (!status && curved)
    status = scwi_second_order(context, expression, r->x, r->u, r->correlation,
                               r->slope, r->hessian, u * u, &out->second_order);
  return status;
}

scw_status scwi_propagate(scw_context *context,
                          const scwi_expression *expression,
                          const scw_budget_given *given,
                          const scwi_known_input *known,
                          const double *correlation, double level,
                          scw_budget *out) {
  size_t n = expression->n_inputs;
  budget_room room;
  *out = (scw_budget){.n_lines = n};
  if (!(level > 0 && level < 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the level must lie between 0 and 1, such as 0.95");
  scw_status status = room_make(context, n, correlation, &room);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->lines);
  if (!status)
    status = work_out(context, expression, given, known, level, &room, out);
  room_free(&room);
  if (status) scwi_budget_free(out);
  return status;
}

void scwi_budget_free(scw_budget *budget) {
  free(budget->lines);
  *budget = (scw_budget){0};
}

double scwi_result_covariance(const double *slopes_a, const double *slopes_b,
                              const double *u, const double *correlation,
                              size_t n) {
  double sum = 0;
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < n; j++)
      sum += slopes_a[i] * u[i] * scwi_correlation_of(correlation, n, i, j) *
             slopes_b[j] * u[j];
  return sum;
}
