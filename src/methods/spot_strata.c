/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Equal areas for spots, and spots in them. */
#include <math.h>

#include "spot_layout.h"

/* First spot of row i. */
static size_t first_of(const scwi_strata *strata, size_t i) {
  return i * strata->n / strata->rows;
}

/* The narrowest side of the areas when n of them stand in so many rows; rows
 * are as high as they have areas. */
static double narrowest(double along, double across, size_t n, size_t rows) {
  double fewest = (double)(n / rows), most = (double)((n + rows - 1) / rows);
  return fmin(along / most, across * fewest / (double)n);
}

scwi_strata scwi_strata_of(scwi_rectangle field, size_t n) {
  scwi_strata best = {.field = field, .n = n, .rows = 1};
  double widest = 0;
  for (size_t rows = 1; rows <= n; rows++)
    for (int upright = 0; upright <= 1; upright++) {
      double here = upright ? narrowest(field.height, field.width, n, rows)
                            : narrowest(field.width, field.height, n, rows);
      if (here <= widest * (1 + 1e-12)) continue;
      widest = here;
      best.rows = rows;
      best.upright = upright;
    }
  return best;
}

scwi_area scwi_area_of(const scwi_strata *strata, size_t i) {
  double along = strata->upright ? strata->field.height : strata->field.width;
  double across = strata->upright ? strata->field.width : strata->field.height;
  size_t row = ((i + 1) * strata->rows - 1) / strata->n;
  size_t first = first_of(strata, row), next = first_of(strata, row + 1);
  double n = (double)strata->n, areas = (double)(next - first);
  scwi_area area = {along * (double)(i - first) / areas,
                    along * (double)(i - first + 1) / areas,
                    across * (double)first / n, across * (double)next / n};
  if (strata->upright)
    area = (scwi_area){area.low, area.high, area.left, area.right};
  return area;
}

void scwi_grid_spots(const scwi_strata *strata, double *x, double *y) {
  for (size_t i = 0; i < strata->n; i++) {
    scwi_area area = scwi_area_of(strata, i);
    x[i] = (area.left + area.right) / 2;
    y[i] = (area.low + area.high) / 2;
  }
}

/* A whole number drawn from [low, high); the low end where there is none. */
static double whole_in(double low, double high, scwi_random *random) {
  double first = ceil(low), end = ceil(high);
  if (end <= first) return first;
  return first + (double)scwi_random_below(random, (size_t)(end - first));
}

void scwi_random_spots(const scwi_strata *strata, scwi_random *random,
                       double *x, double *y) {
  for (size_t i = 0; i < strata->n; i++) {
    scwi_area area = scwi_area_of(strata, i);
    x[i] = whole_in(area.left, area.right, random);
    y[i] = whole_in(area.low, area.high, random);
  }
}

static void swap(double *a, double *b) {
  double kept = *a;
  *a = *b;
  *b = kept;
}

/* Insertion sort of spots by `key`, the other coordinate deciding ties. */
static void sort_spots(double *key, double *other, size_t n) {
  for (size_t i = 1; i < n; i++)
    for (size_t j = i; j > 0 && (key[j] < key[j - 1] ||
                                 (key[j] == key[j - 1] &&
                                  other[j] < other[j - 1]));
         j--) {
      swap(&key[j], &key[j - 1]);
      swap(&other[j], &other[j - 1]);
    }
}

void scwi_walk_spots(const scwi_strata *strata, double *x, double *y) {
  double *along = strata->upright ? y : x, *across = strata->upright ? x : y;
  sort_spots(across, along, strata->n);
  for (size_t row = 0; row < strata->rows; row++) {
    size_t first = first_of(strata, row), next = first_of(strata, row + 1);
    sort_spots(along + first, across + first, next - first);
    for (size_t i = first, j = next; row % 2 && i + 1 < j; i++) {
      j--;
      swap(&along[i], &along[j]);
      swap(&across[i], &across[j]);
    }
  }
}

double scwi_nearest(const double *x, const double *y, size_t n) {
  double nearest = INFINITY;
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < i; j++)
      nearest = fmin(nearest, hypot(x[i] - x[j], y[i] - y[j]));
  return nearest;
}
