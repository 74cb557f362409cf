/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "regular_spots.h"

#include <math.h>

/* Rows of `most` spots; shifted ones lie half a step further, and have one
 * less where that would leave the field. */
typedef struct rows {
  size_t rows, most;
  bool shifted, one_less, upright;
  double apart;
} rows;

static double step_along(const rows *r, double along) {
  double gaps = (double)r->most - 1;
  if (r->shifted && !r->one_less) gaps += 0.5;
  return gaps > 0 ? along / gaps : INFINITY;
}

static double step_across(const rows *r, double across) {
  return r->rows > 1 ? across / (double)(r->rows - 1) : INFINITY;
}

static double distance_of(const rows *r, scwi_rectangle field) {
  double along = r->upright ? field.height : field.width;
  double across = r->upright ? field.width : field.height;
  double right = step_along(r, along), up = step_across(r, across);
  double in_row = r->most > 1 ? right : INFINITY;
  if (!r->shifted) return fmin(in_row, up);
  double next_row = r->rows > 1 ? hypot(right / 2, up) : INFINITY;
  return fmin(fmin(in_row, next_row), r->rows > 2 ? 2 * up : INFINITY);
}

static void keep_better(rows *best, rows one, scwi_rectangle field) {
  one.apart = distance_of(&one, field);
  if (one.apart > best->apart * (1 + 1e-12)) *best = one;
}

static rows best_rows(scwi_rectangle field, size_t n) {
  rows best = {.rows = 1, .most = n};
  for (size_t r = 1; r <= n; r++)
    for (int upright = 0; upright <= 1; upright++) {
      size_t most = (n + r - 1) / r, uneven = (n + r / 2 + r - 1) / r;
      keep_better(&best, (rows){r, most, false, false, upright, 0}, field);
      if (r < 2) continue;
      keep_better(&best, (rows){r, most, true, false, upright, 0}, field);
      if (uneven > 1)
        keep_better(&best, (rows){r, uneven, true, true, upright, 0}, field);
    }
  return best;
}

static size_t spots_in(const rows *r, size_t row) {
  return r->most - (r->one_less && row % 2);
}

/* Where there is room for more than n, the ones left free are spread out. */
static void put(const rows *r, scwi_rectangle field, double border, size_t n,
                double *x, double *y) {
  double *along = r->upright ? y : x, *across = r->upright ? x : y;
  double right = step_along(r, r->upright ? field.height : field.width);
  double up = step_across(r, r->upright ? field.width : field.height);
  size_t room = r->rows * r->most - (r->one_less ? r->rows / 2 : 0);
  size_t seen = 0, put = 0;
  for (size_t row = 0; row < r->rows; row++)
    for (size_t i = 0; i < spots_in(r, row); i++, seen++) {
      if ((seen + 1) * n / room == seen * n / room) continue;
      double shift = r->shifted && row % 2 ? 0.5 : 0;
      double steps = (double)i + shift;
      along[put] = border + (steps > 0 ? steps * right : 0);
      across[put++] = border + (row > 0 ? (double)row * up : 0);
    }
}

static scwi_rectangle inside(scwi_rectangle field, double border) {
  return (scwi_rectangle){fmax(0, field.width - 2 * border),
                      fmax(0, field.height - 2 * border)};
}

/* The border that is half the distance. */
static double half_a_distance(scwi_rectangle field, size_t n) {
  double low = 0, high = fmin(field.width, field.height) / 2;
  for (int i = 0; i < 60; i++) {
    double middle = (low + high) / 2;
    rows r = best_rows(inside(field, middle), n);
    *(r.apart >= 2 * middle ? &low : &high) = middle;
  }
  return low;
}

double scwi_regular_spots(scwi_rectangle field, bool to_border, size_t n, double *x,
                          double *y) {
  if (n == 1) {
    *x = field.width / 2;
    *y = field.height / 2;
    return INFINITY;
  }
  double border = to_border ? 0 : half_a_distance(field, n);
  scwi_rectangle left = inside(field, border);
  rows r = best_rows(left, n);
  put(&r, left, border, n, x, y);
  /* A row alone lies in the middle. */
  double *across = r.upright ? x : y;
  double middle = (r.upright ? field.width : field.height) / 2;
  for (size_t i = 0; r.rows == 1 && i < n; i++)
    across[i] = middle;
  return r.apart;
}
