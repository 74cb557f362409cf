/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time of components of scatter: 1,000 panels of 10 spots and 3 repeats, one
 * after the other by mean squares; and one REML over all of them with a tenth
 * of the readings missing, panel as a level. The readings are written to the
 * file given, for peers/components.R: components_speed FILE. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "draw.h"
#include "nested.h"
#include "reml.h"

enum { PANELS = 1000, SPOTS = 10, EACH = 3, PANEL = SPOTS * EACH, ROUNDS = 11 };

typedef struct data {
  size_t n;
  double x[PANELS * PANEL];
  uint32_t panel[PANELS * PANEL], spot[PANELS * PANEL];
} data;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "%s\n", scw_context_message(context));
  exit(1);
}

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void make(data *d, double gaps) {
  draw seed = {2463534242ULL};
  double panel = 0, spot = 0;
  d->n = 0;
  for (size_t i = 0; i < PANELS * PANEL; i++) {
    if (i % PANEL == 0) panel = 2 * draw_normal(&seed);
    if (i % EACH == 0) spot = draw_normal(&seed);
    d->x[d->n] = 70 + panel + spot + 0.5 * draw_normal(&seed);
    d->panel[d->n] = (uint32_t)(i / PANEL);
    d->spot[d->n] = (uint32_t)(i / EACH % SPOTS);
    d->n += draw_uniform(&seed) >= gaps;
  }
}

static double each_panel(scw_context *context, const data *d) {
  double start = now(), sum = 0;
  scwi_limits_memo memo = {0};
  for (size_t p = 0; p < PANELS; p++) {
    scwi_level_labels labels = {{[SCW_LEVEL_SPOT] = d->spot + p * PANEL}};
    scwi_sample sample = {.n = PANEL, .x = d->x + p * PANEL};
    scw_nested out;
    must(context, scwi_nested(context, &sample, &labels, 0.95, &memo, &out));
    sum += out.mean.interval.high;
  }
  return sum > 0 ? now() - start : 0;
}

static double one_reml(scw_context *context, const data *d, scw_reml *out) {
  double start = now();
  scwi_level_labels labels = {
      {[SCW_LEVEL_PANEL] = d->panel, [SCW_LEVEL_SPOT] = d->spot}};
  scwi_sample sample = {.n = d->n, .x = d->x};
  must(context, scwi_reml(context, &sample, &labels, 0.95, out));
  return now() - start;
}

static int ascending(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double median(double *times) {
  qsort(times, ROUNDS, sizeof *times, ascending);
  return times[ROUNDS / 2];
}

static int write_down(const data *d, const char *path) {
  FILE *file = fopen(path, "w");
  if (!file) return 1;
  fputs("panel,spot,reading\n", file);
  for (size_t i = 0; i < d->n; i++)
    fprintf(file, "%u,%u,%.17g\n", d->panel[i], d->spot[i], d->x[i]);
  return fclose(file);
}

int main(int argc, char **argv) {
  static data full, gaps;
  double squares[ROUNDS], likelihood[ROUNDS];
  scw_reml found;
  scw_context *context;
  if (argc != 2 || scw_context_new(&context) != SCW_OK) return 1;
  make(&full, 0);
  make(&gaps, 0.1);
  for (size_t i = 0; i < ROUNDS; i++) {
    squares[i] = each_panel(context, &full);
    likelihood[i] = one_reml(context, &gaps, &found);
  }
  printf("1,000 panels, mean squares: %.4f s\n", median(squares));
  printf("one REML, %zu readings, %zu steps: %.4f s\n", gaps.n, found.steps,
         median(likelihood));
  printf("SD %.10g %.10g %.10g\n", found.sd[SCW_LEVEL_PANEL].value,
         found.sd[SCW_LEVEL_SPOT].value, found.sd[SCW_LEVEL_REPEAT].value);
  scw_context_free(context);
  return write_down(&gaps, argv[1]);
}
