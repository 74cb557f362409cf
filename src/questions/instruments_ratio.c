/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "instruments_ratio.h"

#include <math.h>

#include "correlation.h"

/* Of the mean before, of after - ratio * before, and of both together. */
typedef struct parts {
  double before, rest, both;
} parts;

/* An input's slopes of the two means, each for a unit of its uncertainty. */
typedef struct slopes {
  double before, after, rest;
} slopes;

/* The part of a slope that is rounding. */
static const double nothing = 1e-12;

static slopes slopes_of(const scwi_instruments *of, size_t i, double before,
                        double after, const scwi_two_means *means) {
  double unit = of->u[i] / means->scale, ratio = means->after / means->before;
  slopes s = {unit * scwi_instrument_slope(of, i, before),
              unit * scwi_instrument_slope(of, i, after), 0};
  s.rest = s.after - ratio * s.before;
  if (fabs(s.rest) <= nothing * fabs(s.after)) s.rest = 0;
  return s;
}

static void add_pair(const scwi_instruments *of, size_t i, size_t j,
                     double before, double after, const scwi_two_means *means,
                     parts *to) {
  double r = i == j ? 1 : scwi_correlation_of(of->correlation, of->n, i, j);
  double ratio = means->after / means->before;
  slopes a = slopes_of(of, i, before, after, means);
  slopes b = slopes_of(of, j, before, after, means);
  if (of->same[i] != of->same[j]) return;
  double common = r * a.before * b.before;
  to->before += common;
  to->rest += of->same[i] ? r * a.rest * b.rest
                          : r * a.after * b.after + ratio * ratio * common;
  to->both += of->same[i] ? r * a.before * b.rest : -ratio * common;
}

void scwi_instruments_on_ratio(const scwi_instruments *instruments,
                               double before, double after,
                               scwi_two_means *means) {
  const scwi_instruments *of = instruments;
  if (!(means->rest_variance > 0)) return;
  scwi_two_means alone = *means;
  for (size_t i = 0; i < of->n; i++) {
    parts term = {0, 0, 0};
    double df = INFINITY;
    if (!scwi_instruments_opens_term(of, i)) continue;
    for (size_t j = i; j < of->n; j++) {
      if (!scwi_instruments_together(of, i, j)) continue;
      if (of->u[j] > 0) df = fmin(df, of->df[j]);
      for (size_t k = i; k < of->n; k++)
        if (scwi_instruments_together(of, i, k))
          add_pair(of, j, k, before, after, &alone, &term);
    }
    scwi_means_add(means, term.before, fmax(term.rest, 0), term.both, df);
  }
}
