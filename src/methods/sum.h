/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sum that keeps the low parts lost on the way (Neumaier 1974) and adds them
 * at the end. */
#ifndef SCWI_SUM_H
#define SCWI_SUM_H

#include <math.h>

typedef struct scwi_sum {
  double high, low;
} scwi_sum;

static inline void scwi_sum_add(scwi_sum *sum, double x) {
  double next = sum->high + x;
  sum->low += fabs(sum->high) >= fabs(x) ? (sum->high - next) + x
                                         : (x - next) + sum->high;
  sum->high = next;
}

static inline double scwi_sum_of(scwi_sum sum) {
  return sum.high + sum.low;
}

#endif
