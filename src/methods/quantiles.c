/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "quantiles.h"

#include <math.h>

#include "deviations.h"

double scwi_quartile(const scwi_sample *sample, const size_t *place,
                     size_t quarter) {
  size_t at = (sample->n - 1) * quarter;
  size_t low = place[at / 4], high = place[at / 4 + (at % 4 != 0)];
  double part = (double)(at % 4);
  if (sample->ticks) {
    scwi_wide from = sample->ticks[low], to = sample->ticks[high];
    return sample->offset +
           scwi_tick_value(
               (double)(4 * from + (scwi_wide)(at % 4) * (to - from)), 4,
               sample->tick_size);
  }
  double from = sample->x[low], to = sample->x[high], gap = to - from;
  return isfinite(gap) ? from + gap * (part / 4)
                       : from * (1 - part / 4) + to * (part / 4);
}

double scwi_middle(const double *ascending, size_t n) {
  return (ascending[(n - 1) / 2] + ascending[n / 2]) / 2;
}

/* The distances grow outwards from the middle on both sides: taking the
 * nearer side each time meets them in ascending order. */
double scwi_middle_distance(const double *ascending, size_t n, double middle) {
  size_t above = 0, half = n / 2;
  while (above < n && ascending[above] < middle)
    above++;
  size_t below = above; /* the next one down is below - 1 */
  double last = 0, next = 0;
  for (size_t taken = 0; taken <= half; taken++) {
    last = next;
    bool down = below > 0 && (above == n || middle - ascending[below - 1] <=
                                                ascending[above] - middle);
    next = down ? middle - ascending[--below] : ascending[above++] - middle;
  }
  return n % 2 ? next : (last + next) / 2;
}
