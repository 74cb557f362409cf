/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cliff, A. D. & Ord, J. K., Spatial Processes, Pion, London 1981: I, its
 * moments under randomisation, and for residuals of a regression under
 * normality (from memory; judged by dense matrices in R and by counting all
 * orders of a few values).
 *
 * With W the weights and M = I - Q Q' what the plane leaves, Q its orthonormal
 * columns: tr MW = -tr Q'WQ, and tr MWMW = tr WW - 2 tr (WQ)'(WQ) +
 * tr (Q'WQ)^2. So one pass over the pairs gives both. */
#include <math.h>
#include <stdlib.h>

#include "distributions.h"
#include "memory.h"
#include "place.h"
#include "place_figures.h"

enum { COLUMNS = 3, BLOCK = 512 };

/* Weighted sums over pairs of places. */
typedef struct pair_sums {
  size_t n, columns;
  double weight, weight_squared; /* of w_ij, w_ij^2, each pair once */
  double product;                /* of w_ij r_i r_j, each pair once */
  double *column[COLUMNS];       /* orthonormal columns of the plane */
  double *weighted[COLUMNS];     /* W times them; the first column is constant,
                                    so that these are the row sums too */
  double *block;                 /* holds them all */
} pair_sums;

/* Four sums side by side: one after the other they would wait for each
 * other. */
static double inner(const double *a, const double *b, size_t n) {
  double sum[4] = {0};
  size_t i = 0;
  for (; i + 4 <= n; i += 4)
    for (size_t k = 0; k < 4; k++) sum[k] += a[i + k] * b[i + k];
  for (; i < n; i++) sum[0] += a[i] * b[i];
  return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

/* Takes from column k what it shares with those before, and makes its length
 * 1; twice, which leaves nothing. */
static void make_orthonormal(pair_sums *s, size_t k) {
  double *x = s->column[k];
  for (size_t pass = 0; pass < 2 * k; pass++) {
    const double *y = s->column[pass % k];
    double shared = inner(x, y, s->n);
    for (size_t i = 0; i < s->n; i++) x[i] -= shared * y[i];
  }
  double length = sqrt(inner(x, x, s->n));
  for (size_t i = 0; i < s->n; i++) x[i] /= length;
}

static scw_status prepare(scw_context *context, const scwi_places *places,
                          pair_sums *out) {
  size_t n = places->n, columns = scwi_plane_columns(places->span);
  *out = (pair_sums){.n = n, .columns = columns};
  scw_status status = SCWI_ALLOCATE(context, 2 * columns * n, &out->block);
  if (status != SCW_OK) return status;
  for (size_t k = 0; k < columns; k++) {
    out->column[k] = out->block + 2 * k * n;
    out->weighted[k] = out->column[k] + n;
    for (size_t i = 0; i < n; i++)
      out->column[k][i] = scwi_plane_entry(places, i, k);
    make_orthonormal(out, k);
  }
  return SCW_OK;
}

/* Places from..to, all before i. Separate loops, so that the compiler can do
 * several places at a time. */
static void add_block(const scwi_places *p, const double *r, size_t i,
                      size_t from, size_t to, pair_sums *s) {
  double weight[BLOCK], u = p->u[i], v = p->v[i];
  for (size_t j = from; j < to; j++) {
    double du = p->u[j] - u, dv = p->v[j] - v;
    weight[j - from] = 1 / sqrt(du * du + dv * dv);
  }
  size_t n = to - from;
  double sum = 0;
  for (size_t j = 0; j < n; j++) sum += weight[j];
  s->weight += sum;
  s->weight_squared += inner(weight, weight, n);
  s->product += inner(weight, r + from, n) * r[i];
  for (size_t k = 0; k < s->columns; k++) {
    const double *x = s->column[k];
    double *y = s->weighted[k] + from, at_i = x[i];
    s->weighted[k][i] += k > 0 ? inner(weight, x + from, n) : sum * at_i;
    for (size_t j = 0; j < n; j++) y[j] += weight[j] * at_i;
  }
}

/* Mean and variance of I for residuals of independent normal readings. */
static void residual_moments(const pair_sums *s, double *mean,
                             double *variance) {
  double n = (double)s->n, df = n - (double)s->columns;
  double trace = 0, square = 2 * s->weight_squared;
  for (size_t k = 0; k < s->columns; k++) {
    trace -= inner(s->column[k], s->weighted[k], s->n);
    square -= 2 * inner(s->weighted[k], s->weighted[k], s->n);
    for (size_t l = 0; l < s->columns; l++) {
      double a = inner(s->column[k], s->weighted[l], s->n);
      square += a * a;
    }
  }
  double unit = n / (2 * s->weight) / df;
  *mean = unit * trace;
  /* 2 (df square - trace^2) / (df^2 (df + 2)) without the difference of two
     large second moments */
  *variance = 2 * unit * unit * (df * square - trace * trace) / (df + 2);
}

/* Variance of I were the residuals shuffled, for symmetric weights; b2 is
 * their kurtosis. */
static double shuffled_variance(const pair_sums *s, double b2) {
  double n = (double)s->n, s0 = 2 * s->weight, s1 = 4 * s->weight_squared;
  /* the constant column is 1/sqrt(n): row sums are sqrt(n) times weighted */
  double s2 = 4 * n * inner(s->weighted[0], s->weighted[0], s->n);
  double evenly = n * ((n * n - 3 * n + 3) * s1 - n * s2 + 3 * s0 * s0);
  double peaked = b2 * ((n * n - n) * s1 - 2 * n * s2 + 6 * s0 * s0);
  return (evenly - peaked) / ((n - 1) * (n - 2) * (n - 3) * s0 * s0) -
         1 / ((n - 1) * (n - 1));
}

/* Two-sided normal p; a variance that is rounding means equal distances. */
static scw_figure p_of(double i, double expected, double variance) {
  if (!(variance > 1e-12 * expected * expected))
    return scwi_missing(SCW_NO_SCATTER);
  double p = 2 * scwi_normal_upper(fabs(i - expected) / sqrt(variance));
  return p > 0 ? scwi_figure(p) : scwi_missing(SCW_OUT_OF_RANGE);
}

static void tell(const pair_sums *s, double squares, double fourth,
                 scw_moran *out) {
  double n = (double)s->n, mean, variance;
  double i = n * s->product / (s->weight * squares);
  double b2 = n * fourth / (squares * squares);
  residual_moments(s, &mean, &variance);
  out->i = scwi_figure(i);
  out->expected = scwi_figure(mean);
  out->p = p_of(i, mean, variance);
  if (out->p.state != SCW_NO_SCATTER) out->sd = scwi_figure(sqrt(variance));
  out->p_shuffled = p_of(i, -1 / (n - 1), shuffled_variance(s, b2));
}

scw_status scwi_moran(scw_context *context, const scwi_places *places,
                      const double *residual, scw_moran *out) {
  size_t n = places->n;
  bool few = n < 4 || n < scwi_plane_columns(places->span) + 2;
  scw_figure none = scwi_missing(few ? SCW_TOO_FEW : SCW_NO_SCATTER);
  double squares = 0, fourth = 0;
  pair_sums sums;
  *out = (scw_moran){none, none, none, none, none};
  for (size_t i = 0; i < n; i++) {
    double square = residual[i] * residual[i];
    squares += square;
    fourth += square * square;
  }
  if (few || sqrt(squares / (double)n) <= 2 * places->noise) return SCW_OK;
  scw_status status = prepare(context, places, &sums);
  if (status != SCW_OK) return status;
  for (size_t from = 0; from < n; from += BLOCK)
    for (size_t i = from + 1; i < n; i++)
      add_block(places, residual, i, from, i < from + BLOCK ? i : from + BLOCK,
                &sums);
  tell(&sums, squares, fourth, out);
  free(sums.block);
  return SCW_OK;
}
