/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: the tail over the tail of one member is a smooth function between 1
 * and the number of members. It is interpolated by Chebyshev polynomials on
 * pieces: of length 1 above 1, each half as long as the one above it below,
 * since what strongly correlated members do near zero has every scale. */
#include "studentised_tail.h"

#include <math.h>

#include "distributions.h"

enum { BELOW_ONE = 44, ABOVE_ONE = SCWI_TAIL_PIECES - BELOW_ONE };

static double one_member(const scwi_studentised *of, double w) {
  return 2 * scwi_normal_upper(w / of->scale);
}

static double node(int i) {
  return cos(M_PI * (i + 0.5) / SCWI_TAIL_TERMS);
}

static void fill(scwi_studentised *of, int piece, double middle, double half) {
  double value[SCWI_TAIL_TERMS];
  for (int i = 0; i < SCWI_TAIL_TERMS; i++) {
    double w = middle + half * node(i);
    value[i] = of->tail(w, of) / one_member(of, w);
  }
  for (int k = 0; k < SCWI_TAIL_TERMS; k++) {
    double sum = 0;
    for (int i = 0; i < SCWI_TAIL_TERMS; i++)
      sum += value[i] * cos(M_PI * k * (i + 0.5) / SCWI_TAIL_TERMS);
    of->piece[piece][k] = sum * 2 / SCWI_TAIL_TERMS;
  }
  of->known[piece] = true;
}

/* Clenshaw's recurrence at t in [-1, 1]. */
static double chebyshev(const double *term, double t) {
  double b1 = 0, b2 = 0;
  for (int k = SCWI_TAIL_TERMS - 1; k > 0; k--) {
    double b = 2 * t * b1 - b2 + term[k];
    b2 = b1;
    b1 = b;
  }
  return t * b1 - b2 + term[0] / 2;
}

double scwi_studentised_tail(scwi_studentised *of, double w) {
  int exponent = 0;
  bool below = w < 1;
  if (below) (void)frexp(w, &exponent); /* w in [2^(e-1), 2^e) */
  if (below && -exponent >= BELOW_ONE) return 1;
  /* less than 1e-149: Bonferroni's bound is as good as any figure */
  if (!below && w >= ABOVE_ONE + 1) return of->members * one_member(of, w);
  int piece = below ? -exponent : BELOW_ONE + (int)w - 1;
  double half = below ? ldexp(0.25, exponent) : 0.5;
  double middle = below ? 3 * half : floor(w) + half;
  if (!of->known[piece]) fill(of, piece, middle, half);
  return one_member(of, w) * chebyshev(of->piece[piece], (w - middle) / half);
}
