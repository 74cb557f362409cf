/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tails.h"

#include <math.h>

static void swap(double *x, size_t i, size_t j) {
  double held = x[i];
  x[i] = x[j];
  x[j] = held;
}

static double middle_of(double a, double b, double c) {
  double low = a < b ? a : b, high = a < b ? b : a;
  return c < low ? low : c > high ? high : c;
}

/* Parts x[low..high) about `pivot`, a value of it: none of the first part, which
 * ends before the place returned, is larger than any of the rest, and neither
 * part is empty. At least two values (Hoare 1961). */
static size_t part(double *x, size_t low, size_t high, double pivot) {
  size_t i = low, j = high - 1;
  for (;;) {
    while (x[i] < pivot) i++;
    while (x[j] > pivot) j--;
    if (i >= j) return i > low ? i : low + 1;
    swap(x, i++, j--);
  }
}

static double middle_of_range(const double *x, size_t low, size_t high) {
  return middle_of(x[low], x[low + (high - low) / 2], x[high - 1]);
}

static void insert_sort(double *x, size_t low, size_t high) {
  for (size_t i = low + 1; i < high; i++) {
    double held = x[i];
    size_t j = i;
    for (; j > low && x[j - 1] > held; j--) x[j] = x[j - 1];
    x[j] = held;
  }
}

/* The shorter part first, so that few parts wait at any time. */
static void sort(double *x, size_t low, size_t high) {
  enum { SHORT = 24 };
  while (high - low > SHORT) {
    size_t at = part(x, low, high, middle_of_range(x, low, high));
    if (at - low < high - at) {
      sort(x, low, at);
      low = at;
    } else {
      sort(x, at, high);
      high = at;
    }
  }
  insert_sort(x, low, high);
}

/* A few places about `wanted`, so that the value that ends up there once they
 * are brought in order lies just beyond the one wanted of all [low, high): one
 * pass then leaves little (Floyd & Rivest 1975). */
static void sample(size_t low, size_t high, size_t wanted, size_t *from,
                   size_t *to) {
  double n = (double)(high - low), i = (double)(wanted - low) + 1;
  double size = 0.5 * cbrt(n * n);
  double beyond = 0.5 * sqrt(log(n) * size * (n - size) / n);
  if (i < n / 2) beyond = -beyond;
  double first = (double)wanted - i * size / n + beyond;
  double last = (double)wanted + (n - i) * size / n + beyond;
  *from = first > (double)low ? (size_t)first : low;
  *to = last < (double)high - 1 ? (size_t)last + 1 : high;
  if (*from > wanted) *from = wanted;
  if (*to <= wanted) *to = wanted + 1;
}

/* Afterwards the `rank` smallest of x[low..high) stand before x[low + rank],
 * which is the next. */
static void bring(double *x, size_t low, size_t high, size_t rank) {
  enum { MANY = 600 };
  size_t wanted = low + rank, from, to;
  while (high - low > 1) {
    double pivot = middle_of_range(x, low, high);
    if (high - low > MANY) {
      sample(low, high, wanted, &from, &to);
      bring(x, from, to, wanted - from);
      pivot = x[wanted];
    }
    size_t at = part(x, low, high, pivot);
    if (wanted < at)
      high = at;
    else
      low = at;
  }
}

void scwi_tails_apart(double *x, size_t n, size_t k) {
  if (k == 0) return;
  bring(x, 0, n, k - 1);
  if (n > k) bring(x, k, n, n - 2 * k);
  sort(x, 0, k);
  sort(x, n - k, n);
}

double scwi_value_of_rank(double *x, size_t n, size_t rank) {
  bring(x, 0, n, rank);
  return x[rank];
}
