/* SPDX-License-Identifier: GPL-3.0-or-later */
/* n * tick - sum of ticks is a whole number, so a deviation is rounded once.
 * Readings without ticks are scaled by a power of two, and their mean is kept
 * in two doubles. */
#include "deviations.h"

#include "sum.h"

/* A tick such as 0.1 is no double, but its inverse is a whole number, and
 * dividing by that rounds only once. */
double scwi_tick_value(double numerator, double denominator, double tick_size) {
  double inverse = rint(1 / tick_size);
  return inverse >= 1 && 1 / inverse == tick_size
             ? numerator / (denominator * inverse)
             : numerator / denominator * tick_size;
}

static scwi_centre of_ticks(const scwi_sample *s) {
  scwi_centre centre = {.sample = s};
  for (size_t i = 0; i < s->n; i++)
    centre.sum += s->ticks[i];
  centre.mean = s->offset + scwi_tick_value((double)centre.sum, (double)s->n,
                                            s->tick_size);
  return centre;
}

/* The binary exponent that brings every reading below 2 in size. */
static int exponent_of(const scwi_sample *s) {
  double largest = 0;
  int exponent = 0;
  for (size_t i = 0; i < s->n; i++)
    largest = fmax(largest, fabs(s->x[i]));
  frexp(largest, &exponent);
  return exponent - 1;
}

static scwi_centre of_doubles(const scwi_sample *s) {
  scwi_centre centre = {.sample = s, .exponent = exponent_of(s)};
  double n = (double)s->n;
  scwi_sum sum = {0};
  if (scwi_sample_all_equal(s)) {
    centre.scaled = ldexp(s->x[0], -centre.exponent);
    centre.mean = s->x[0];
    return centre;
  }
  for (size_t i = 0; i < s->n; i++)
    scwi_sum_add(&sum, ldexp(s->x[i], -centre.exponent));
  centre.scaled = scwi_sum_of(sum) / n;
  centre.rest = (fma(-centre.scaled, n, sum.high) + sum.low) / n;
  centre.mean = ldexp(centre.scaled + centre.rest, centre.exponent);
  return centre;
}

scwi_centre scwi_centre_of(const scwi_sample *sample) {
  return sample->ticks ? of_ticks(sample) : of_doubles(sample);
}

double scwi_deviation(const scwi_centre *centre, size_t i) {
  const scwi_sample *s = centre->sample;
  if (s->ticks) return (double)((scwi_wide)s->n * s->ticks[i] - centre->sum);
  return (ldexp(s->x[i], -centre->exponent) - centre->scaled) - centre->rest;
}

double scwi_distance(const scwi_centre *centre, size_t i, size_t j) {
  const scwi_sample *s = centre->sample;
  if (s->ticks)
    return (double)((scwi_wide)s->n * ((scwi_wide)s->ticks[i] - s->ticks[j]));
  return ldexp(s->x[i], -centre->exponent) - ldexp(s->x[j], -centre->exponent);
}

double scwi_scaled_sd(const scwi_centre *centre) {
  scwi_sum squares = {0};
  size_t n = centre->sample->n;
  if (n < 2) return 0;
  for (size_t i = 0; i < n; i++) {
    double deviation = scwi_deviation(centre, i);
    scwi_sum_add(&squares, deviation * deviation);
  }
  return sqrt(scwi_sum_of(squares) / (double)(n - 1));
}

double scwi_unscaled(const scwi_centre *centre, double scaled) {
  const scwi_sample *s = centre->sample;
  return s->ticks ? scwi_tick_value(scaled, (double)s->n, s->tick_size)
                  : ldexp(scaled, centre->exponent);
}
