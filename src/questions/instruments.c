/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "instruments.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "correlation.h"
#include "figure.h"
#include "memory.h"
#include "straight_line.h"
#include "two_sides.h"

/* The part of a slope that is rounding. */
static const double nothing = 1e-12;

/* What the model is worked out from: the bench with the reading as a number, so
 * that its own readings are neither needed nor used. */
static scw_status compile(scw_context *context, const scw_bench *bench,
                          size_t quantity, size_t reading,
                          scwi_bench_compiled *out) {
  scw_bench other = *bench;
  scw_status status = SCWI_ALLOCATE(context, bench->n_inputs, &other.input);
  if (status) return status;
  memcpy(other.input, bench->input, bench->n_inputs * sizeof *bench->input);
  other.input[reading] =
      (scw_bench_input){.given = {.name = bench->input[reading].given.name,
                                  .kind = SCW_KIND_EXACT},
                        .about = "",
                        .unit = "",
                        .file = "",
                        .column = ""};
  status = scwi_bench_model(context, &other, quantity, out);
  free(other.input);
  return status;
}

static scw_status refuse(scw_context *context, const scw_bench *bench,
                         size_t quantity, const char *why) {
  const scw_bench_quantity *of = &bench->quantity[quantity];
  char words[SCWI_MESSAGE_SIZE / 2]; /* `why` may be the context's message */
  strncpy(words, why, sizeof words - 1);
  words[sizeof words - 1] = '\0';
  return scwi_fail_at(context, SCW_BAD_INPUT,
                      bench->name ? bench->name : "the bench", of->line, 0,
                      "the model of %s: %s", of->name, words);
}

static scw_status check_straight(scw_context *context, const scw_bench *bench,
                                 size_t quantity, const scwi_expression *model,
                                 size_t at) {
  uint32_t place;
  if (scwi_straight_line(model, at, &place)) return SCW_OK;
  scwi_fail(context, SCW_BAD_INPUT,
            "`%s` is no straight line in %s from character %u on, so a change "
            "of it is not the change of the readings times a factor",
            model->text, model->input[at], place);
  return refuse(context, bench, quantity, scw_context_message(context));
}

static scw_status check_independent(scw_context *context,
                                    const scw_bench *bench, size_t quantity,
                                    const scwi_bench_compiled *model,
                                    size_t at) {
  for (size_t i = 0; model->correlation && i < model->n; i++) {
    if (i == at || model->correlation[at * model->n + i] == 0) continue;
    scwi_fail(
        context, SCW_BAD_INPUT,
        "%s is correlated with %s, and how the readings of the table vary "
        "with it nobody knows; leave that correlation out",
        model->given[at].name, model->given[i].name);
    return refuse(context, bench, quantity, scw_context_message(context));
  }
  return SCW_OK;
}

static scw_status make_room(scw_context *context, size_t n, bool correlated,
                            scwi_instruments *out) {
  scw_status status = SCWI_ALLOCATE(context, n, &out->input);
  if (!status) status = SCWI_ALLOCATE(context, 4 * n, &out->u);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->same);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->group);
  if (!status && correlated)
    status = SCWI_ALLOCATE(context, n * n, &out->correlation);
  if (status) return status;
  out->df = out->u + n;
  out->slope = out->u + 2 * n;
  out->gain = out->u + 3 * n;
  return SCW_OK;
}

/* Where input `i` of the model stands once the reading is left out. */
static size_t without(size_t at, size_t i) {
  return i < at ? i : i - 1;
}

/* Takes slopes (with second ones) of the model at a reading of 0. */
static void take_inputs(const scw_bench *bench,
                        const scwi_bench_compiled *model, size_t at,
                        const double *gradient, const double *hessian,
                        scwi_instruments *out) {
  size_t n = model->n;
  for (size_t i = 0; i < n; i++) {
    if (i == at) continue;
    size_t to = without(at, i);
    out->input[to] = &bench->input[model->index[i]];
    out->u[to] = model->known[i].u;
    out->df[to] = model->known[i].df;
    out->gain[to] = hessian[i * n + at] / out->factor;
    out->slope[to] = gradient[i];
    out->same[to] = out->input[to]->shared == SCW_SHARED;
    for (size_t j = 0; out->correlation && j < n; j++)
      if (j != at)
        out->correlation[to * (n - 1) + without(at, j)] =
            model->correlation[i * n + j];
  }
  out->n = n - 1;
}

/* Inputs that count: without an uncertainty a correlation joins nothing. */
static scw_status take_groups(scw_context *context, scwi_instruments *out) {
  bool *used = NULL;
  if (!out->correlation) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, out->n, &used);
  for (size_t i = 0; i < out->n && !status; i++)
    used[i] = out->u[i] > 0;
  if (!status)
    scwi_correlation_groups(out->correlation, used, out->n, out->group);
  free(used);
  return status ? status
                : scwi_two_sides_shared(context, out->correlation, out->n,
                                        out->same);
}

static scw_status take_slopes(scw_context *context, const scw_bench *bench,
                              size_t quantity, const scwi_bench_compiled *model,
                              size_t at, scwi_instruments *out) {
  double *x = NULL, *gradient, *hessian;
  size_t n = model->n;
  scw_status status = SCWI_ALLOCATE(context, n * (n + 2), &x);
  if (status) return status;
  gradient = x + n;
  hessian = x + 2 * n;
  for (size_t i = 0; i < n; i++)
    x[i] = model->known[i].estimate;
  x[at] = 0;
  status = scwi_expression_derivatives(context, &model->expression, x,
                                       &out->offset, gradient, hessian);
  if (status == SCW_NO_FIGURE)
    status = refuse(context, bench, quantity, scw_context_message(context));
  out->factor = status ? 1 : gradient[at];
  if (!status && out->factor == 0)
    status = refuse(context, bench, quantity,
                    "at the bench's estimates it does not depend on the "
                    "readings");
  if (!status) status = make_room(context, n, model->correlation, out);
  if (!status) take_inputs(bench, model, at, gradient, hessian, out);
  free(x);
  return status;
}

scw_status scwi_instruments_of(scw_context *context, const scw_bench *bench,
                               const char *name, scwi_read_facts readings,
                               scwi_instruments *out) {
  size_t quantity, reading, at = 0;
  scwi_bench_compiled model = {.n = 0};
  *out = (scwi_instruments){.factor = 1};
  scw_status status = scwi_bench_quantity_for(context, bench, name, readings,
                                              &quantity, &reading);
  if (status) return status;
  out->quantity = &bench->quantity[quantity];
  out->reading = &bench->input[reading];
  status = compile(context, bench, quantity, reading, &model);
  if (!status)
    at = scwi_expression_find(&model.expression, out->reading->given.name);
  if (!status)
    status = check_straight(context, bench, quantity, &model.expression, at);
  if (!status) status = check_independent(context, bench, quantity, &model, at);
  if (!status) status = take_slopes(context, bench, quantity, &model, at, out);
  if (!status) status = take_groups(context, out);
  scwi_bench_compiled_free(&model);
  return status;
}

void scwi_instruments_free(scwi_instruments *instruments) {
  free(instruments->input);
  free(instruments->u);
  free(instruments->same);
  free(instruments->group);
  free(instruments->correlation);
  *instruments = (scwi_instruments){.factor = 1};
}

/* ---- what they do to a change ---- */

double scwi_instrument_slope(const scwi_instruments *of, size_t i,
                             double value) {
  return of->slope[i] + of->gain[i] * (value - of->offset);
}

static double steepest(const scwi_instruments *of, size_t i,
                       const scwi_side_means *sides) {
  double most = 0;
  for (size_t s = 0; s < sides->n; s++)
    most = fmax(most, fabs(scwi_instrument_slope(of, i, sides->value[s])));
  return most;
}

/* A shared input acts on the change by this slope; 0 where it cancels. */
static double net_slope(const scwi_instruments *of, size_t i,
                        const scwi_side_means *sides, double change) {
  double net = of->gain[i] * change;
  return fabs(net) <= nothing * steepest(of, i, sides) ? 0 : net;
}

/* Covariance of what inputs i and j do to the change. */
static double covariance(const scwi_instruments *of, size_t i, size_t j,
                         const scwi_side_means *sides, double change) {
  double r = i == j ? 1 : scwi_correlation_of(of->correlation, of->n, i, j);
  double sum = 0;
  if (of->same[i] != of->same[j]) return 0;
  if (of->same[i])
    sum = net_slope(of, i, sides, change) * net_slope(of, j, sides, change);
  else
    for (size_t s = 0; s < sides->n; s++)
      sum += scwi_instrument_slope(of, i, sides->value[s]) *
             scwi_instrument_slope(of, j, sides->value[s]);
  return sum * of->u[i] * r * of->u[j];
}

bool scwi_instruments_together(const scwi_instruments *of, size_t i, size_t j) {
  return i == j || (of->group[i] && of->group[i] == of->group[j]);
}

bool scwi_instruments_opens_term(const scwi_instruments *of, size_t i) {
  for (size_t j = 0; j < i; j++)
    if (scwi_instruments_together(of, i, j)) return false;
  return true;
}

/* The term that input `first` opens. */
static scwi_uncertainty term_of(const scwi_instruments *of, size_t first,
                                const scwi_side_means *sides, double change) {
  double variance = 0, df = INFINITY;
  for (size_t i = first; i < of->n; i++) {
    if (!scwi_instruments_together(of, first, i)) continue;
    if (covariance(of, i, i, sides, change) > 0) df = fmin(df, of->df[i]);
    for (size_t j = first; j < of->n; j++)
      if (scwi_instruments_together(of, first, j))
        variance += covariance(of, i, j, sides, change);
  }
  return (scwi_uncertainty){sqrt(fmax(variance, 0)), df};
}

scwi_uncertainty scwi_instruments_uncertainty(
    const scwi_instruments *instruments, const scwi_side_means *sides,
    double change) {
  const scwi_instruments *of = instruments;
  scwi_uncertainty sum = {0, INFINITY};
  for (size_t i = 0; i < of->n; i++) {
    if (!scwi_instruments_opens_term(of, i)) continue;
    scwi_uncertainty term = term_of(of, i, sides, change);
    if (term.u > 0) sum = scwi_uncertainty_sum(sum, term);
  }
  return sum;
}

size_t scwi_instruments_rows(const scwi_instruments *instruments,
                             const scwi_side_means *sides, double change,
                             scw_instrument *out) {
  const scwi_instruments *of = instruments;
  size_t n = 0;
  for (size_t i = 0; i < of->n; i++) {
    if (!(of->u[i] > 0)) continue;
    double most = steepest(of, i, sides);
    double here = sqrt(covariance(of, i, i, sides, change));
    out[n++] = (scw_instrument){
        .name = of->input[i]->given.name,
        .about = of->input[i]->about,
        .shared = of->input[i]->shared,
        .same = of->same[i],
        .standard_uncertainty = of->u[i],
        .df = isfinite(of->df[i]) ? scwi_figure(of->df[i])
                                  : scwi_missing(SCW_UNBOUNDED),
        .one_side =
            fabs(scwi_instrument_slope(of, i, sides->value[0])) * of->u[i],
        .contribution = here,
        .cancels = of->same[i] && most > 0 && here == 0};
  }
  return n;
}
