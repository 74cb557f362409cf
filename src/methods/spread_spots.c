/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spots as far apart as they go: uphill on a smoothed smallest distance, the
 * smoothing taken away step by step. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "regular_spots.h"

enum {
  MOST_MOVED = 200,      /* spots; more are left on their arrangement */
  STARTS = 150,          /* scattered ones, for up to this many pairs of spots */
  PAIRS_AT_FULL = 200,
  ROUGHEST = 16, SMOOTH = 64, ROUGH = 1024, FINEST = 1 << 17,
  ROUGH_STEPS = 50, FINE_STEPS = 300 /* for one smoothing */
};

typedef struct spread {
  scwi_rectangle field;
  bool to_border;
  size_t n;
  double *x, *y;         /* the spots being moved */
  double *to_x, *to_y;   /* where they are tried */
  double *pull_x, *pull_y;
} spread;

/* The distances that count: between spots, and twice that from the border. */
static double smallest(const spread *s, const double *x, const double *y) {
  double found = scwi_nearest(x, y, s->n);
  for (size_t i = 0; i < s->n && !s->to_border; i++) {
    double sides[] = {x[i], s->field.width - x[i], y[i],
                      s->field.height - y[i]};
    for (int k = 0; k < 4; k++)
      found = fmin(found, 2 * sides[k]);
  }
  return found;
}

/* Weight of a distance against the smallest one; nothing beyond `reach`. */
static double weight(double least, double distance, double power) {
  return exp(power * log(least / distance));
}

static double pull_apart(spread *s, const double *x, const double *y, size_t i,
                         double least, double power, double reach) {
  double sum = 0;
  for (size_t j = 0; j < i; j++) {
    double right = x[i] - x[j], up = y[i] - y[j];
    double square = right * right + up * up;
    if (square > reach * reach) continue;
    double w = weight(least, sqrt(square), power);
    sum += w;
    s->pull_x[i] += w * right / square;
    s->pull_y[i] += w * up / square;
    s->pull_x[j] -= w * right / square;
    s->pull_y[j] -= w * up / square;
  }
  return sum;
}

static double pull_in(double at, double size, double least, double power,
                      double reach, double *pull) {
  double sum = 0, sides[] = {at, size - at};
  for (int k = 0; k < 2; k++) {
    if (2 * sides[k] > reach) continue;
    double w = weight(least, 2 * sides[k], power);
    sum += w;
    *pull += (k ? -w : w) / sides[k];
  }
  return sum;
}

/* The smoothed smallest distance, as a logarithm, and its uphill direction. */
static double smoothed(spread *s, const double *x, const double *y,
                       double power) {
  double least = smallest(s, x, y), reach = least * exp(40 / power), sum = 0;
  memset(s->pull_x, 0, s->n * sizeof *s->pull_x);
  memset(s->pull_y, 0, s->n * sizeof *s->pull_y);
  if (!(least > 0)) return -INFINITY;
  for (size_t i = 0; i < s->n; i++) {
    sum += pull_apart(s, x, y, i, least, power, reach);
    if (s->to_border) continue;
    sum += pull_in(x[i], s->field.width, least, power, reach, &s->pull_x[i]);
    sum += pull_in(y[i], s->field.height, least, power, reach, &s->pull_y[i]);
  }
  return log(least) - log(sum) / power;
}

/* What pulls a spot out of the field moves nothing. */
static void stop_at_border(const double *at, double size, size_t n,
                           double *pull) {
  for (size_t i = 0; i < n; i++)
    if ((at[i] <= 0 && pull[i] < 0) || (at[i] >= size && pull[i] > 0))
      pull[i] = 0;
}

static double clamp(double value, double most) {
  return fmin(fmax(value, 0), most);
}

static void try_step(spread *s, double length) {
  double longest = 0;
  stop_at_border(s->x, s->field.width, s->n, s->pull_x);
  stop_at_border(s->y, s->field.height, s->n, s->pull_y);
  for (size_t i = 0; i < s->n; i++)
    longest = fmax(longest, hypot(s->pull_x[i], s->pull_y[i]));
  double factor = longest > 0 ? length / longest : 0;
  for (size_t i = 0; i < s->n; i++) {
    s->to_x[i] = clamp(s->x[i] + factor * s->pull_x[i], s->field.width);
    s->to_y[i] = clamp(s->y[i] + factor * s->pull_y[i], s->field.height);
  }
}

/* Uphill at one smoothing. */
static void climb(spread *s, double power, int steps, double *length) {
  double here = smoothed(s, s->x, s->y, power);
  double shortest = 1e-9 * fmin(s->field.width, s->field.height);
  for (int step = 0; step < steps && *length > shortest; step++) {
    try_step(s, *length);
    double there = smoothed(s, s->to_x, s->to_y, power);
    if (there > here) {
      memcpy(s->x, s->to_x, s->n * sizeof *s->x);
      memcpy(s->y, s->to_y, s->n * sizeof *s->y);
      here = there;
      *length *= 1.5;
    } else {
      *length /= 3;
      smoothed(s, s->x, s->y, power);
    }
  }
}

static void climb_all(spread *s, double power, double finest, int steps) {
  double size = fmin(s->field.width, s->field.height);
  double length = fmax(smallest(s, s->x, s->y) / 4, size / 100);
  for (; power <= finest; power *= 4) {
    climb(s, power, steps, &length);
    length = fmax(length, 1e-4 * size);
  }
}

static void scatter(spread *s, scwi_random *random) {
  enum { FINE = 1 << 20 };
  for (size_t i = 0; i < s->n; i++) {
    s->x[i] = s->field.width * (double)(1 + scwi_random_below(random, FINE)) /
              (FINE + 1);
    s->y[i] = s->field.height * (double)(1 + scwi_random_below(random, FINE)) /
              (FINE + 1);
  }
}

static void keep_better(spread *s, double *best, double *x, double *y) {
  double found = smallest(s, s->x, s->y);
  if (found <= *best * (1 + 1e-9)) return;
  *best = found;
  memcpy(x, s->x, s->n * sizeof *x);
  memcpy(y, s->y, s->n * sizeof *y);
}

static size_t starts_for(size_t n) {
  size_t pairs = n * n / 2;
  return pairs <= PAIRS_AT_FULL ? STARTS : STARTS * PAIRS_AT_FULL / pairs;
}

/* The best of the scattered starts, roughly. Starts inside the border are
 * those up to it in a field that much smaller: fewer of them end badly. */
static double best_start(const spread *whole, double border,
                         scwi_random *random, double *x, double *y) {
  double best = 0;
  spread s = *whole;
  s.to_border = true;
  s.field.width -= 2 * border;
  s.field.height -= 2 * border;
  for (size_t start = starts_for(s.n); start > 0; start--) {
    scatter(&s, random);
    climb_all(&s, ROUGHEST, ROUGH, ROUGH_STEPS);
    keep_better(&s, &best, x, y);
  }
  for (size_t i = 0; i < s.n; i++) {
    x[i] += border;
    y[i] += border;
  }
  return best;
}

/* Shaken a little, since uphill ends on saddles too: three spots on the border
 * of a square, two of them in corners of one side. */
static void refine(spread *s, scwi_random *random, const double *x,
                   const double *y, double power) {
  enum { FINE = 1 << 10 };
  double most = smallest(s, x, y) / 50;
  for (size_t i = 0; i < s->n; i++) {
    double right = (double)scwi_random_below(random, FINE) / FINE - 0.5;
    double up = (double)scwi_random_below(random, FINE) / FINE - 0.5;
    s->x[i] = clamp(x[i] + most * right, s->field.width);
    s->y[i] = clamp(y[i] + most * up, s->field.height);
  }
  climb_all(s, power, FINEST, FINE_STEPS);
}

scw_status scwi_spread_spots(scw_context *context, scwi_rectangle field,
                             bool to_border, size_t n, double *x, double *y) {
  scwi_random *random = NULL;
  double *room = NULL;
  double best = scwi_regular_spots(field, to_border, n, x, y);
  if (n < 2 || n > MOST_MOVED) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, 8 * n, &room);
  if (!status) status = scwi_random_new(context, 1, &random);
  if (!status) {
    double *start_x = room + 6 * n, *start_y = room + 7 * n;
    spread s = {field,        to_border,    n,
                room,         room + n,     room + 2 * n,
                room + 3 * n, room + 4 * n, room + 5 * n};
    refine(&s, random, x, y, SMOOTH);
    keep_better(&s, &best, x, y);
    double border = to_border ? 0 : best / 2;
    if (best_start(&s, border, random, start_x, start_y) > 0) {
      refine(&s, random, start_x, start_y, SMOOTH);
      keep_better(&s, &best, x, y);
    }
  }
  scwi_random_free(random);
  free(room);
  return status;
}
