/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "place_spots.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "sum.h"

/* Positions closer than this, in half sides of the panel, are one place; spots
 * no farther than this from a line lie on it. */
#define SAME_PLACE 1e-9

/* A spot in the unit of the places. Sorted by position, then mean, so that no
 * figure depends on the order the spots came in. */
typedef struct spot {
  long long column, row; /* position in whole SAME_PLACE */
  double u, v, w;
} spot;

static int by_place(const void *a, const void *b) {
  const spot *p = a, *q = b;
  if (p->column != q->column) return p->column < q->column ? -1 : 1;
  if (p->row != q->row) return p->row < q->row ? -1 : 1;
  return (p->w > q->w) - (p->w < q->w);
}

typedef struct range {
  double low, high;
} range;

static void stretch(range *to, double value) {
  to->low = fmin(to->low, value);
  to->high = fmax(to->high, value);
}

/* Half sums and half differences never overflow. */
static double middle_of(range r) {
  return r.low / 2 + r.high / 2;
}

static double half_of(range r) {
  return r.high / 2 - r.low / 2;
}

/* The spots that can be used, as they came. */
static size_t pick(const scw_place_spot *spots, size_t n, spot *out) {
  size_t used = 0;
  for (size_t i = 0; i < n; i++) {
    const scw_place_spot *s = &spots[i];
    if (isfinite(s->x) && isfinite(s->y) && isfinite(s->mean))
      out[used++] = (spot){.u = s->x, .v = s->y, .w = s->mean};
  }
  return used;
}

static void scale_positions(scwi_places *places, spot *spots, size_t n) {
  range x = {INFINITY, -INFINITY}, y = x;
  for (size_t i = 0; i < n; i++) {
    stretch(&x, spots[i].u);
    stretch(&y, spots[i].v);
  }
  places->middle_x = middle_of(x);
  places->middle_y = middle_of(y);
  places->length = fmax(half_of(x), half_of(y));
  double length = places->length > 0 ? places->length : 1;
  places->half_u = half_of(x) / length;
  places->half_v = half_of(y) / length;
  for (size_t i = 0; i < n; i++) {
    spots[i].u = (spots[i].u - places->middle_x) / length;
    spots[i].v = (spots[i].v - places->middle_y) / length;
    spots[i].column = llrint(spots[i].u / SAME_PLACE);
    spots[i].row = llrint(spots[i].v / SAME_PLACE);
  }
}

/* Means about the middle of their range, in halves of it. What is left of
 * equal means after dividing sums by counts is rounding, not scatter. */
static void scale_means(scwi_places *places, spot *spots, size_t n) {
  range z = {INFINITY, -INFINITY};
  for (size_t i = 0; i < n; i++) stretch(&z, spots[i].w);
  double half = half_of(z), rounding = fmax(fabs(z.low), fabs(z.high));
  rounding *= 4 * DBL_EPSILON;
  places->middle = middle_of(z);
  places->scale = half > rounding ? half : 0;
  places->noise = half > rounding ? rounding / half : 0;
  for (size_t i = 0; i < n; i++)
    spots[i].w = places->scale > 0
                     ? (spots[i].w - places->middle) / places->scale
                     : 0;
}

/* Averages spots at one place; sorted spots in and out. */
static size_t merge(spot *spots, size_t n) {
  size_t places = 0;
  for (size_t i = 0; i < n;) {
    size_t next = i;
    double sum = 0;
    while (next < n && spots[next].column == spots[i].column &&
           spots[next].row == spots[i].row)
      sum += spots[next++].w;
    spots[places] = spots[i];
    spots[places++].w = sum / (double)(next - i);
    i = next;
  }
  return places;
}

static scw_status hand_over(scw_context *context, scwi_places *places,
                            const spot *spots, size_t n) {
  scw_status status = SCWI_ALLOCATE(context, 3 * n, &places->u);
  if (status != SCW_OK) return status;
  scwi_sum sum = {0};
  for (size_t i = 0; i < n; i++) scwi_sum_add(&sum, spots[i].w);
  double mean = n > 0 ? scwi_sum_of(sum) / (double)n : 0;
  places->n = n;
  places->v = places->u + n;
  places->w = places->v + n;
  for (size_t i = 0; i < n; i++) {
    places->u[i] = spots[i].u;
    places->v[i] = spots[i].v;
    places->w[i] = spots[i].w - mean;
  }
  places->middle += mean * places->scale;
  return SCW_OK;
}

/* Whether b is a straight function of a, `a` being the longer side. */
static bool on_a_line(const double *a, const double *b, size_t n) {
  double n_a = 0, n_b = 0, aa = 0, ab = 0;
  for (size_t i = 0; i < n; i++) {
    n_a += a[i] / (double)n;
    n_b += b[i] / (double)n;
  }
  for (size_t i = 0; i < n; i++) {
    aa += (a[i] - n_a) * (a[i] - n_a);
    ab += (a[i] - n_a) * (b[i] - n_b);
  }
  for (size_t i = 0; i < n; i++)
    if (fabs(b[i] - n_b - ab / aa * (a[i] - n_a)) > SAME_PLACE) return false;
  return true;
}

static scw_span span_of(const scwi_places *p) {
  if (p->n == 0) return SCW_SPAN_NONE;
  if (p->n == 1) return SCW_SPAN_POINT;
  if (p->half_v <= SAME_PLACE) return SCW_SPAN_ALONG_X;
  if (p->half_u <= SAME_PLACE) return SCW_SPAN_ALONG_Y;
  bool line = p->half_u >= p->half_v ? on_a_line(p->u, p->v, p->n)
                                     : on_a_line(p->v, p->u, p->n);
  return line ? SCW_SPAN_SLANTED : SCW_SPAN_AREA;
}

scw_status scwi_places_of(scw_context *context, const scw_place_spot *spots,
                          size_t n, scwi_places *out) {
  spot *work;
  *out = (scwi_places){.given = n};
  scw_status status = SCWI_ALLOCATE(context, n, &work);
  if (status != SCW_OK) return status;
  size_t used = pick(spots, n, work);
  out->unplaced = n - used;
  if (used > 0) {
    scale_positions(out, work, used);
    scale_means(out, work, used);
    qsort(work, used, sizeof *work, by_place);
  }
  size_t places = merge(work, used);
  out->merged = used - places;
  status = hand_over(context, out, work, places);
  if (status == SCW_OK) out->span = span_of(out);
  free(work);
  return status;
}

void scwi_places_free(scwi_places *places) {
  free(places->u);
  places->u = places->v = places->w = NULL;
  places->n = 0;
}
