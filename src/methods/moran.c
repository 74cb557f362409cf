/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cliff, A. D. & Ord, J. K., Spatial Processes, Pion, London 1981: I and its
 * moments under randomisation (from memory; judged by a second computation in
 * R and by counting all orders of a few values). */
#include <math.h>
#include <stdlib.h>

#include "distributions.h"
#include "memory.h"
#include "place.h"
#include "place_figures.h"

/* Sums over pairs of places, each pair once. */
typedef struct pair_sums {
  double weight, weight_squared; /* of w_ij, w_ij^2 */
  double product;                /* of w_ij r_i r_j */
  double row_squared;            /* of the squared row sums of w */
} pair_sums;

/* One row of the weights: places before i. Separate loops, so that the
 * compiler can do several places at a time in the first. */
static void add_row(const scwi_places *p, const double *r, size_t i,
                    double *weight, double *row, pair_sums *sums) {
  double u = p->u[i], v = p->v[i], sum = 0, squares = 0, product = 0;
  for (size_t j = 0; j < i; j++) {
    double du = p->u[j] - u, dv = p->v[j] - v;
    weight[j] = 1 / sqrt(du * du + dv * dv);
    row[j] += weight[j];
  }
  for (size_t j = 0; j < i; j++) {
    sum += weight[j];
    squares += weight[j] * weight[j];
    product += weight[j] * r[j];
  }
  row[i] += sum;
  sums->weight += sum;
  sums->weight_squared += squares;
  sums->product += product * r[i];
}

static scw_status add_pairs(scw_context *context, const scwi_places *places,
                            const double *r, pair_sums *out) {
  double *weight;
  size_t n = places->n;
  scw_status status = SCWI_ALLOCATE(context, 2 * n, &weight);
  *out = (pair_sums){0};
  if (status != SCW_OK) return status;
  double *row = weight + n;
  for (size_t i = 0; i < n; i++) add_row(places, r, i, weight, row, out);
  for (size_t i = 0; i < n; i++) out->row_squared += row[i] * row[i];
  free(weight);
  return SCW_OK;
}

/* E(I^2) under randomisation, for symmetric weights; b2 is the kurtosis. */
static double second_moment(const pair_sums *sums, double n, double b2) {
  double s0 = 2 * sums->weight, s1 = 4 * sums->weight_squared;
  double s2 = 4 * sums->row_squared;
  double evenly = n * ((n * n - 3 * n + 3) * s1 - n * s2 + 3 * s0 * s0);
  double peaked = b2 * ((n * n - n) * s1 - 2 * n * s2 + 6 * s0 * s0);
  return (evenly - peaked) / ((n - 1) * (n - 2) * (n - 3) * s0 * s0);
}

scw_status scwi_moran(scw_context *context, const scwi_places *places,
                      const double *residual, scw_moran *out) {
  scw_figure none = scwi_missing(places->n < 4 ? SCW_TOO_FEW : SCW_NO_SCATTER);
  double n = (double)places->n, squares = 0, fourth = 0;
  pair_sums sums;
  *out = (scw_moran){none, none, none, none};
  for (size_t i = 0; i < places->n; i++) {
    double square = residual[i] * residual[i];
    squares += square;
    fourth += square * square;
  }
  if (places->n < 4 || sqrt(squares / n) <= 2 * places->noise) return SCW_OK;
  scw_status status = add_pairs(context, places, residual, &sums);
  if (status != SCW_OK) return status;
  double expected = -1 / (n - 1), i = n * sums.product / (sums.weight * squares);
  double b2 = n * fourth / (squares * squares);
  double variance = second_moment(&sums, n, b2) - expected * expected;
  *out = (scw_moran){scwi_figure(i), scwi_figure(expected), none, none};
  /* all distances equal: I is the same for every order */
  if (!(variance > 1e-12 * expected * expected)) return SCW_OK;
  double p = 2 * scwi_normal_upper(fabs(i - expected) / sqrt(variance));
  out->sd = scwi_figure(sqrt(variance));
  out->p = p > 0 ? scwi_figure(p) : scwi_missing(SCW_OUT_OF_RANGE);
  return SCW_OK;
}
