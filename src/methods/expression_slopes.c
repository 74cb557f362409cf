/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact first and second derivatives, forward: each step has a value, the
 * slope by every input, and the curvature by every pair (lower triangle). */
#include <float.h>
#include <stdlib.h>

#include "elementary.h"
#include "expression_value.h"
#include "memory.h"

/* Derivatives of one operation by its operands. */
typedef struct partials {
  double a, b, aa, ab, bb;
} partials;

static partials power_partials(const scwi_expression *e,
                               const scwi_expression_step *step, double a,
                               double b) {
  if (e->step[step->b].operation == SCWI_NUMBER) {
    double d[4];
    scwi_power_slopes(a, b, d);
    return (partials){d[1], 0, d[2], 0, 0};
  }
  double value = scwi_power(a, b), lower = scwi_power(a, b - 1), l = log(a);
  return (partials){b * lower, value * l, b * (b - 1) * scwi_power(a, b - 2),
                    lower * (1 + b * l), value * l * l};
}

static partials partials_of(const scwi_expression *e,
                            const scwi_expression_step *step, double a,
                            double b) {
  double d[4];
  switch (step->operation) {
    case SCWI_ADD:
      return (partials){1, 1, 0, 0, 0};
    case SCWI_SUBTRACT:
      return (partials){1, -1, 0, 0, 0};
    case SCWI_MULTIPLY:
      return (partials){b, a, 0, 1, 0};
    case SCWI_DIVIDE:
      return (partials){1 / b, -(a / b) / b, 0, -1 / b / b,
                        2 * (a / b) / b / b};
    case SCWI_POWER:
      return power_partials(e, step, a, b);
    case SCWI_NEGATE:
      return (partials){-1, 0, 0, 0, 0};
    default:
      scwi_function_slopes(step->operation, a, d);
  }
  return (partials){d[1], 0, d[2], 0, 0};
}

/* `size` adds up what `out` adds up, without the signs. */
static void combine_slopes(partials p, const double *a, const double *b,
                           const double *size_a, const double *size_b, size_t n,
                           double *out, double *size) {
  for (size_t i = 0; i < n; i++) {
    out[i] = p.a * a[i] + p.b * b[i];
    size[i] = fabs(p.a) * size_a[i] + fabs(p.b) * size_b[i];
  }
}

/* The curvatures stand behind the n slopes. */
static void combine_curvatures(partials p, const double *a, const double *b,
                               size_t n, double *out) {
  const double *aa = a + n, *bb = b + n;
  double *to = out + n;
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j <= i; j++)
      *to++ = p.a * *aa++ + p.b * *bb++ + p.aa * a[i] * a[j] +
              p.ab * (a[i] * b[j] + a[j] * b[i]) + p.bb * b[i] * b[j];
}

/* room: for each step its slopes and curvatures (`stride` of them); sizes: for
 * each step n. */
static void all_slopes(const scwi_expression *e, const double *value,
                       size_t stride, double *room, double *sizes) {
  size_t n = e->n_inputs;
  for (size_t i = 0; i < e->n_steps; i++) {
    const scwi_expression_step *step = &e->step[i];
    double *out = room + i * stride, *size = sizes + i * n;
    if (step->operation == SCWI_INPUT) out[step->a] = size[step->a] = 1;
    if (step->operation == SCWI_INPUT || step->operation == SCWI_NUMBER)
      continue; /* the rest is 0 */
    partials p = partials_of(e, step, value[step->a], value[step->b]);
    const double *a = room + step->a * stride, *b = room + step->b * stride;
    combine_slopes(p, a, b, sizes + step->a * n, sizes + step->b * n, n, out,
                   size);
    if (stride > n) combine_curvatures(p, a, b, n, out);
  }
}

/* What cancels, cancels: a slope that rounding alone can explain is 0. Each
 * step rounds a few times. */
static void drop_rounding(const scwi_expression *e, const double *size,
                          double *slopes) {
  double rounding = 4 * DBL_EPSILON * (double)e->n_steps;
  for (size_t i = 0; i < e->n_inputs; i++)
    if (isfinite(size[i]) && fabs(slopes[i]) <= rounding * size[i])
      slopes[i] = 0;
}

static scw_status check_finite(scw_context *context, const scwi_expression *e,
                               const double *slopes, size_t stride) {
  for (size_t k = 0; k < stride; k++)
    if (!isfinite(slopes[k]))
      return scwi_no_figure_at(context, e, &e->step[e->n_steps - 1],
                               "this is too steep to work with");
  return SCW_OK;
}

static void unpack(const double *slopes, size_t n, double *gradient,
                   double *hessian) {
  const double *from = slopes + n;
  for (size_t i = 0; i < n; i++) {
    gradient[i] = slopes[i];
    for (size_t j = 0; hessian && j <= i; j++)
      hessian[i * n + j] = hessian[j * n + i] = *from++;
  }
}

scw_status scwi_expression_derivatives(scw_context *context,
                                       const scwi_expression *expression,
                                       const double *x, double *value,
                                       double *gradient, double *hessian) {
  size_t n = expression->n_inputs, steps = expression->n_steps;
  size_t stride = hessian ? n + n * (n + 1) / 2 : n;
  double *values, *room = NULL, *sizes = NULL;
  *value = 0;
  scw_status status = SCWI_ALLOCATE(context, steps, &values);
  if (!status) status = SCWI_ALLOCATE(context, steps * stride, &room);
  if (!status) status = SCWI_ALLOCATE(context, steps * n, &sizes);
  if (!status)
    status = scwi_values(context, expression, x, hessian ? 2 : 1, values);
  if (!status) {
    double *last = room + (steps - 1) * stride;
    all_slopes(expression, values, stride, room, sizes);
    drop_rounding(expression, sizes + (steps - 1) * n, last);
    status = check_finite(context, expression, last, stride);
    if (!status) unpack(last, n, gradient, hessian);
    if (!status) *value = values[steps - 1];
  }
  free(values);
  free(room);
  free(sizes);
  return status;
}
