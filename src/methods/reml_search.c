/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Newton's method with bounds (Bertsekas 1982, SIAM J. Control Optim. 20,
 * 221-246): a variance at 0 whose slope keeps it there stays out of the step,
 * the others are cut off at 0. Where the likelihood is not curved upwards a
 * ridge is added, and a step that does not help is halved. */
#include "reml_search.h"

#include <string.h>

enum { MOST_STEPS = 200, MOST_HALVINGS = 60, LAST_STEPS = 3 };

typedef double matrix[SCWI_JET_SLOPES][SCWI_JET_SLOPES];

/* Lower factor L of A = L L' in place; false where A has none. */
static bool factor(matrix a, size_t n) {
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j <= i; j++) {
      double sum = a[i][j], size = fabs(a[i][i]);
      for (size_t k = 0; k < j; k++)
        sum -= a[i][k] * a[j][k];
      if (i != j)
        a[i][j] = sum / a[j][j];
      else if (!(sum > 1e-14 * size))
        return false;
      else
        a[i][i] = sqrt(sum);
    }
  return true;
}

static void solve(matrix factors, size_t n, double *b) {
  for (size_t i = 0; i < n; i++) {
    for (size_t k = 0; k < i; k++)
      b[i] -= factors[i][k] * b[k];
    b[i] /= factors[i][i];
  }
  for (size_t i = n; i-- > 0;) {
    for (size_t k = i + 1; k < n; k++)
      b[i] -= factors[k][i] * b[k];
    b[i] /= factors[i][i];
  }
}

bool scwi_inverse_curves(const scwi_jet *jet, size_t n,
                         double out[SCWI_JET_SLOPES][SCWI_JET_SLOPES]) {
  matrix a;
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < n; j++)
      a[i][j] = jet->curve[scwi_jet_at(i, j)];
  if (!factor(a, n)) return false;
  for (size_t j = 0; j < n; j++) {
    memset(out[j], 0, sizeof out[j]);
    out[j][j] = 1;
    solve(a, n, out[j]);
  }
  return true;
}

typedef struct search {
  const scwi_likelihood *likelihood;
  size_t n; /* variances; the last stays above 0 */
  double *variance;
  scwi_likelihood_at at;
  double step[SCWI_JET_SLOPES];
  double gain; /* the step promises half of it */
} search;

/* The Newton step of the variances that are free to move. */
static void aim(search *s) {
  size_t free_one[SCWI_JET_SLOPES], n = 0;
  const scwi_jet *f = &s->at.deviance;
  double ridge = 0, b[SCWI_JET_SLOPES];
  matrix a;
  for (size_t i = 0; i < s->n; i++) {
    s->step[i] = 0;
    if (s->variance[i] > 0 || f->slope[i] < 0) free_one[n++] = i;
  }
  do {
    for (size_t i = 0; i < n; i++) {
      b[i] = -f->slope[free_one[i]];
      for (size_t j = 0; j < n; j++)
        a[i][j] = f->curve[scwi_jet_at(free_one[i], free_one[j])];
      a[i][i] += ridge * fabs(a[i][i]);
    }
    ridge = ridge > 0 ? 4 * ridge : 0.5;
  } while (!factor(a, n) && ridge < 1e30);
  solve(a, n, b);
  s->gain = 0;
  for (size_t i = 0; i < n; i++) {
    s->step[free_one[i]] = b[i];
    s->gain -= b[i] * f->slope[free_one[i]];
  }
}

static double moved(const search *s, size_t i, double share) {
  double to = s->variance[i] + share * s->step[i];
  return fmax(to, i + 1 < s->n ? 0 : s->variance[i] / 8);
}

/* Goes along the step; false where no part of it helps. Close to the end the
 * likelihood is too flat to tell, and the step is taken as it is. */
static bool go(search *s, bool close) {
  double share = 1, there[SCWI_JET_SLOPES];
  for (int halving = 0; halving < MOST_HALVINGS; halving++, share /= 2) {
    double promised = 0;
    for (size_t i = 0; i < s->n; i++) {
      there[i] = moved(s, i, share);
      promised += s->at.deviance.slope[i] * (there[i] - s->variance[i]);
    }
    scwi_likelihood_at at = scwi_likelihood_here(s->likelihood, there);
    double gained = at.deviance.value - s->at.deviance.value;
    if (!close && !(gained <= 1e-4 * promised)) continue;
    memcpy(s->variance, there, s->n * sizeof *there);
    s->at = at;
    return true;
  }
  return false;
}

scw_status scwi_reml_search(scw_context *context,
                            const scwi_likelihood *likelihood, double *variance,
                            scwi_likelihood_at *at, size_t *steps) {
  search s = {.likelihood = likelihood,
              .n = likelihood->tree->depth + 1,
              .variance = variance};
  int last = 0;
  s.at = scwi_likelihood_here(likelihood, variance);
  for (*steps = 0; *steps < MOST_STEPS && last < LAST_STEPS; ++*steps) {
    aim(&s);
    last += s.gain < 1e-9 || last;
    if (s.gain <= 0 || !go(&s, last > 0)) break;
  }
  *at = s.at;
  if (*steps < MOST_STEPS) return SCW_OK;
  return scwi_fail(context, SCW_NOT_REACHED,
                   "the search for the components of scatter did not settle");
}
