/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: P(T > t) is the mean of the normal tail beyond t s + ncp over
 * s = chi / sqrt(df). In u = log(s) the integrand is analytic, log-concave and
 * falls exponentially at least on both sides, so the trapezoidal rule started
 * at its mode converges geometrically (L. N. Trefethen & J. A. C. Weideman,
 * SIAM Review 56 (2014)). With few degrees of freedom its left side falls like
 * exp(df u) only; there u = v - exp(-2v)/2 makes it fall double exponentially (H.
 * Takahasi & M. Mori, Publ. RIMS 9 (1974)). All parts are positive: relative
 * accuracy holds. */
#include "noncentral_far.h"

#include <float.h>
#include <math.h>

#include "distributions.h"
#include "saddle.h"

/* The integrand is tame within pi/4 of the real line; with steps of h the error
 * is about the least (cos 2y)^(-df/2) exp(-2 pi y / h) over y < pi/4. */
#define WIDEST_STEP 0.1
#define STEP_IN_WIDTHS 0.55
#define BENT_BELOW_DF 12.0
#define WIDEST_BENT_STEP 0.12
#define BENT_STEP_IN_WIDTHS 0.35
#define BENT_ZERO 0.28357 /* about where v = exp(-2v)/2 */
#define NEGLIGIBLE 1e-17

typedef struct mean {
  double t, df, ncp, mode;
} mean;

/* Normal density over upper tail, z >= 0. */
static double hazard(double z) {
  if (z > 20) return z + 1 / z * (1 - 2 / (z * z));
  return exp(-0.5 * z * z) * 0.398942280401432677939946 /
         scwi_normal_upper(z);
}

/* Integrand without its constant factor. */
static double integrand(const mean *m, double u) {
  double s = exp(u), spread = expm1(2 * u) - 2 * u;
  return scwi_normal_upper(m->t * s + m->ncp) * exp(-0.5 * m->df * spread);
}

/* Mode in u by Newton; *width is 1 / sqrt(-second derivative of the log). */
static double mode(const mean *m, double *width) {
  double u = fmin(0, log(m->df / (m->t * hazard(m->ncp))));
  for (int i = 0; i < 60; i++) {
    double s = exp(u), z = m->t * s + m->ncp, h = hazard(z);
    double pull = h * m->t * s;
    double first = -pull - m->df * expm1(2 * u);
    double second = -pull * (1 + (h - z) * m->t * s) - 2 * m->df * s * s;
    double step = first / second;
    *width = 1 / sqrt(-second);
    u -= fmax(-2, fmin(2, step));
    if (fabs(step) < 0.01 * *width) break;
  }
  return u;
}

static double bent(const mean *m, double v) {
  double bend = exp(-2 * v);
  return integrand(m, m->mode + v - 0.5 * bend) * (1 + bend);
}

static double straight(const mean *m, double v) {
  return integrand(m, m->mode + v);
}

typedef double (*scale)(const mean *m, double v);

static double one_side(const mean *m, scale f, double from, double step) {
  double sum = 0, value;
  for (int i = 1; i < 100000; i++) {
    sum += value = f(m, from + i * step);
    if (value <= NEGLIGIBLE * sum) break;
  }
  return sum;
}

double scwi_noncentral_far(double t, double df, double ncp) {
  mean m = {t, df, ncp, 0};
  double width, from = 0;
  m.mode = mode(&m, &width);
  double step = fmin(WIDEST_STEP, STEP_IN_WIDTHS * width);
  scale f = straight;
  if (df < BENT_BELOW_DF) {
    f = bent, from = BENT_ZERO;
    step = fmin(WIDEST_BENT_STEP, BENT_STEP_IN_WIDTHS * width);
  }
  double sum = f(&m, from) + one_side(&m, f, from, step) +
               one_side(&m, f, from, -step);
  return sum * step * df * scwi_gamma_term(0.5 * df, 0.5 * df);
}
