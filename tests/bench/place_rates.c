/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tests and intervals of place deliver: place_rates [SETS [SEED]].
 * Panels of side 1, readings of SD 1, mean 0.
 *
 * First table: independent normal readings shown in steps of so many SD (0:
 * continuous): share of panels where the gradient's F test and Moran's I give
 * a p below 0.05; 10 SETS panels a line, standard error 0.0022 at 0.05 and
 * SETS = 1000.
 *
 * Second table: correlation exp(-distance/range), a share of it nugget; truth
 * is the mean of all such panels (0), or the mean of this panel, from points
 * drawn together with the spots. Columns: alike, Moran's p below 0.05; flat,
 * beyond: no range is told; plain, told: 95 % intervals that hold the mean of
 * all such panels, without a model, and with it where one is said; plain_own,
 * told_own: the same for this panel's mean, the plain interval standing in
 * where the model is silent; half: half-widths of those. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "draw.h"
#include "place.h"

enum { MOST = 60, FINE = 16, POINTS = FINE * FINE, ALL = MOST + POINTS };

typedef struct panel {
  scw_place_spot spot[ALL]; /* the spots, then the points of the panel */
  size_t n, all;
} panel;

/* A grid of columns by rows with spots at the middles of its cells, or spots
 * anywhere. */
static void lay_out(panel *p, size_t columns, size_t rows, int scattered,
                    draw *random) {
  p->n = columns * rows;
  p->all = p->n + POINTS;
  for (size_t i = 0; i < p->n; i++) {
    double x = ((double)(i % columns) + 0.5) / (double)columns;
    double y = ((double)(i / columns) + 0.5) / (double)rows;
    p->spot[i] = (scw_place_spot){scattered ? draw_uniform(random) : x,
                                  scattered ? draw_uniform(random) : y, 0};
  }
}

/* The points over which the panel's own mean is taken: the rectangle that the
 * spots fill, as the library takes it. */
static void lay_points(panel *p) {
  double low[2] = {1, 1}, high[2] = {0, 0};
  for (size_t i = 0; i < p->n; i++) {
    low[0] = fmin(low[0], p->spot[i].x);
    high[0] = fmax(high[0], p->spot[i].x);
    low[1] = fmin(low[1], p->spot[i].y);
    high[1] = fmax(high[1], p->spot[i].y);
  }
  for (size_t i = 0; i < POINTS; i++) {
    double x = ((double)(i % FINE) + 0.5) / FINE;
    double y = ((double)(i / FINE) + 0.5) / FINE;
    p->spot[p->n + i].x = low[0] + x * (high[0] - low[0]);
    p->spot[p->n + i].y = low[1] + y * (high[1] - low[1]);
  }
}

/* Lower triangle of the Cholesky factor of the correlation of all points. */
static void factor(const panel *p, double range, double *l) {
  for (size_t i = 0; i < p->all; i++)
    for (size_t j = 0; j <= i; j++) {
      double d = hypot(p->spot[i].x - p->spot[j].x,
                       p->spot[i].y - p->spot[j].y);
      double sum = i == j ? 1 + 1e-10 : range > 0 ? exp(-d / range) : 0;
      for (size_t k = 0; k < j; k++) sum -= l[i * ALL + k] * l[j * ALL + k];
      l[i * ALL + j] = i == j ? sqrt(sum) : sum / l[j * ALL + j];
    }
}

/* Draws the panel; returns its own mean. */
static double paint(panel *p, const double *l, double nugget, draw *random) {
  double z[ALL], mean = 0, shared = sqrt(1 - nugget), own = sqrt(nugget);
  for (size_t i = 0; i < p->all; i++) z[i] = draw_normal(random);
  for (size_t i = 0; i < p->all; i++) {
    double sum = 0;
    for (size_t k = 0; k <= i; k++) sum += l[i * ALL + k] * z[k];
    p->spot[i].mean = shared * sum;
    if (i < p->n) p->spot[i].mean += own * draw_normal(random);
    else mean += p->spot[i].mean / POINTS;
  }
  return mean;
}

static scw_place told(scw_context *context, const panel *p, double step) {
  static scw_place place;
  scwi_place_options options = {0.95, step, 0};
  if (scwi_place(context, p->spot, p->n, &options, &place) != SCW_OK) {
    fprintf(stderr, "%s\n", scw_context_message(context));
    exit(1);
  }
  return place;
}

static int small(scw_figure p) {
  return p.state == SCW_PRESENT && p.value < 0.05;
}

static void false_alarms(scw_context *context, draw *random, long sets,
                         int scattered, size_t columns, size_t rows) {
  static const double steps[] = {0, 0.5, 1, 2};
  static panel p;
  for (size_t s = 0; s < sizeof steps / sizeof *steps; s++) {
    long slopes = 0, alike = 0;
    for (long k = 0; k < sets; k++) {
      double step = steps[s];
      scw_gradient g;
      scw_moran m;
      scwi_places places;
      double residual[MOST];
      lay_out(&p, columns, rows, scattered, random);
      for (size_t i = 0; i < p.n; i++) {
        double z = draw_normal(random);
        p.spot[i].mean = step > 0 ? step * round(z / step) : z;
      }
      if (scwi_places_of(context, p.spot, p.n, &places) != SCW_OK ||
          scwi_gradient(context, &places, 0.95, &g, residual) != SCW_OK ||
          scwi_moran(context, &places, residual, &m) != SCW_OK)
        exit(1);
      scwi_places_free(&places);
      slopes += small(g.p);
      alike += small(m.p);
    }
    printf("%s,%zu,%g,%.4f,%.4f\n", scattered ? "scattered" : "grid",
           columns * rows, steps[s], (double)slopes / (double)sets,
           (double)alike / (double)sets);
    fflush(stdout);
  }
}

/* Shares of panels, one column each. */
typedef struct shares {
  long alike;             /* Moran's p below 0.05 */
  long flat, beyond;      /* the model keeps silent */
  long plain;             /* truth is the mean of all such panels */
  long said, model;
  long plain_own, told_own; /* truth is the mean of this panel; told: by the
                               model, else plain */
  double half_plain, half_told;
} shares;

static int holds(scw_interval i, double truth) {
  return i.state == SCW_PRESENT && i.low <= truth && truth <= i.high;
}

/* `shown`: the model is to be used. */
static void count(const scw_place *p, const scw_place_model *m, int shown,
                  double own, shares *s) {
  int area = shown && m->area_mean.interval.state == SCW_PRESENT;
  scw_interval plain = p->plain.interval;
  scw_interval told = area ? m->area_mean.interval : plain;
  s->alike += small(p->moran.p);
  s->flat += m->range.state == SCW_FLAT;
  s->beyond += m->range.state == SCW_UNBOUNDED;
  s->plain += holds(plain, 0);
  s->said += shown && m->mean.interval.state == SCW_PRESENT;
  s->model += shown && holds(m->mean.interval, 0);
  s->plain_own += holds(plain, own);
  s->told_own += holds(told, own);
  s->half_plain += (plain.high - plain.low) / 2;
  s->half_told += (told.high - told.low) / 2;
}

static void print(const char *model, const shares *s, double n) {
  printf(",%s,%.3f,%.3f,%.3f,%.3f,%.3f,%.3f,%.3f,%.3f,%.3f,%.3f\n", model,
         (double)s->alike / n, (double)s->flat / n, (double)s->beyond / n,
         (double)s->plain / n, (double)s->said / n,
         s->said ? (double)s->model / (double)s->said : 0,
         (double)s->plain_own / n, (double)s->told_own / n, s->half_plain / n,
         s->half_told / n);
}

/* As the command panel does it: a model where Moran's I shows neighbours that
 * resemble each other, about the plane where that has a slope. */
static void count_picked(const scw_place *p, double own, shares *s) {
  count(p, small(p->gradient.p) ? &p->model_about_plane : &p->model,
        small(p->moran.p) && p->moran.i.value > p->moran.expected.value, own,
        s);
}

static void coverage(scw_context *context, draw *random, long sets,
                     int scattered, size_t columns, size_t rows, double range,
                     double nugget) {
  static panel p;
  static double l[ALL * ALL];
  static const char *names[] = {"level", "plane", "picked"};
  shares found[3] = {{0}};
  for (long k = 0; k < sets; k++) {
    if (k == 0 || (scattered && k % 50 == 0)) {
      lay_out(&p, columns, rows, scattered, random);
      lay_points(&p);
      factor(&p, range, l);
    }
    double own = paint(&p, l, nugget, random);
    scw_place place = told(context, &p, 0);
    count(&place, &place.model, 1, own, &found[0]);
    count(&place, &place.model_about_plane, 1, own, &found[1]);
    count_picked(&place, own, &found[2]);
  }
  for (int k = 0; k < 3; k++) {
    printf("%s,%zu,%g,%g", scattered ? "scattered" : "grid", p.n, range,
           nugget);
    print(names[k], &found[k], (double)sets);
  }
  fflush(stdout);
}

int main(int argc, char **argv) {
  static const size_t shapes[][2] = {{6, 5}, {10, 6}};
  static const double ranges[] = {0, 0.1, 0.3, 0.6}, nuggets[] = {0, 0.3};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 2000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260420};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("layout,spots,step,gradient,moran\n");
  for (size_t k = 0; k < 2; k++)
    for (int scattered = 0; scattered < 2; scattered++)
      false_alarms(context, &random, 10 * sets, scattered, shapes[k][0],
                   shapes[k][1]);
  printf("layout,spots,range,nugget,model,alike,flat,beyond,plain,said,"
         "told,plain_own,told_own,half_plain,half_told\n");
  for (size_t k = 0; k < 2; k++)
    for (int scattered = 0; scattered < 2; scattered++)
      for (size_t r = 0; r < 4; r++)
        for (size_t g = 0; g < (r ? 2 : 1); g++)
          coverage(context, &random, sets, scattered, shapes[k][0],
                   shapes[k][1], ranges[r], nuggets[g]);
  scw_context_free(context);
  return 0;
}
