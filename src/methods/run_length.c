/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The integral equations are smooth, so a Gauss-Legendre rule of few nodes
 * solves them (Nystroem): L at the nodes from a small linear system. */
#include "run_length.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "context.h"
#include "distributions.h"
#include "memory.h"

enum { NODES = 60 };

typedef struct rule {
  double node[NODES], weight[NODES];
} rule;

static double density(double z) {
  static const double root_2_pi = 2.5066282746310002;
  return exp(-z * z / 2) / root_2_pi;
}

/* Roots of the Legendre polynomial by Newton's method, on [low, high]. */
static void gauss_legendre(double low, double high, rule *out) {
  const double pi = 3.141592653589793;
  double half = (high - low) / 2;
  for (int i = 0; i < NODES; i++) {
    double x = cos(pi * (i + 0.75) / (NODES + 0.5)), slope = 1;
    for (int turn = 0; turn < 8; turn++) {
      double now = x, before = 1;
      for (int k = 2; k <= NODES; k++) {
        double next = ((2 * k - 1) * x * now - (k - 1) * before) / k;
        before = now;
        now = next;
      }
      slope = NODES * (x * now - before) / (x * x - 1);
      x -= now / slope;
    }
    out->node[i] = (low + high) / 2 + half * x;
    out->weight[i] = 2 * half / ((1 - x * x) * slope * slope);
  }
}

/* Solves a x = b (n x n, rows of n) by elimination with row exchange; x is left
 * in b. False where the matrix is singular. */
static bool solve(double *a, double *b, size_t n) {
  for (size_t c = 0; c < n; c++) {
    size_t best = c;
    for (size_t r = c + 1; r < n; r++)
      if (fabs(a[r * n + c]) > fabs(a[best * n + c])) best = r;
    if (!(fabs(a[best * n + c]) > 0)) return false;
    for (size_t k = 0; k < n; k++) {
      double held = a[c * n + k];
      a[c * n + k] = a[best * n + k];
      a[best * n + k] = held;
    }
    double held = b[c];
    b[c] = b[best];
    b[best] = held;
    for (size_t r = c + 1; r < n; r++) {
      double factor = a[r * n + c] / a[c * n + c];
      for (size_t k = c; k < n; k++) a[r * n + k] -= factor * a[c * n + k];
      b[r] -= factor * b[c];
    }
  }
  for (size_t c = n; c-- > 0;) {
    for (size_t k = c + 1; k < n; k++) b[c] -= a[c * n + k] * b[k];
    b[c] /= a[c * n + c];
  }
  return true;
}

typedef struct equation {
  double n[2]; /* parameters of the chart */
  double shift;
  /* Density of coming from `from` to `to`; and, where the chart can come to
   * rest at 0, the probability of that. */
  double (*go)(const struct equation *e, double from, double to);
  double (*rest)(const struct equation *e, double from);
} equation;

/* L at 0, the unknowns being L at 0 and at the nodes. */
static scw_status run_length(scw_context *context, const equation *e,
                             double low, double high, double *out) {
  enum { N = NODES + 1 };
  double *a, *b;
  rule r;
  scw_status status = SCWI_ALLOCATE(context, (size_t)N * (N + 1), &a);
  *out = 0;
  if (status != SCW_OK) return status;
  b = a + (size_t)N * N;
  gauss_legendre(low, high, &r);
  for (size_t i = 0; i < N; i++) {
    double from = i ? r.node[i - 1] : 0;
    a[i * N] = e->rest ? -e->rest(e, from) : 0;
    for (size_t j = 1; j < N; j++)
      a[i * N + j] = -r.weight[j - 1] * e->go(e, from, r.node[j - 1]);
    a[i * N + i] += 1;
    b[i] = 1;
  }
  if (solve(a, b, N) && isfinite(b[0]) && b[0] >= 1)
    *out = b[0];
  else
    status = scwi_fail(context, SCW_NOT_REACHED,
                       "an average run length could not be worked out");
  free(a);
  return status;
}

static double sum_go(const equation *e, double from, double to) {
  return density(to - from + e->n[0] - e->shift);
}

static double sum_rest(const equation *e, double from) {
  return scwi_normal_cdf(e->n[0] - e->shift - from);
}

static double average_go(const equation *e, double from, double to) {
  double value = (to - (1 - e->n[0]) * from) / e->n[0];
  return density(value - e->shift) / e->n[0];
}

double scwi_run_length_limits(double width, double shift) {
  return 1 / (scwi_normal_upper(width - shift) +
              scwi_normal_upper(width + shift));
}

scw_status scwi_run_length_average(scw_context *context, double weight,
                                   double width, double shift, double *out) {
  equation e = {{weight, width}, shift, average_go, NULL};
  double limit = width * sqrt(weight / (2 - weight));
  return run_length(context, &e, -limit, limit, out);
}

scw_status scwi_run_length_sum(scw_context *context, double reference,
                               double decision, double shift, double *out) {
  equation e = {{reference, decision}, shift, sum_go, sum_rest};
  double up, down;
  *out = 0;
  scw_status status = run_length(context, &e, 0, decision, &up);
  e.shift = -shift;
  if (status == SCW_OK) status = run_length(context, &e, 0, decision, &down);
  if (status == SCW_OK) *out = 1 / (1 / up + 1 / down);
  return status;
}
