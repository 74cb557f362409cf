/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often the intervals of components of scatter hold the truth, as a table
 * for docs/methods/panel-scatter.md: components_coverage [RUNS].
 *
 * Spots with repeats, spot variance `ratio` times that of repeats; shown in
 * steps of `step` repeat SDs; a share `gaps` of the second and later readings
 * of a spot missing. */
#include <stdio.h>
#include <stdlib.h>

#include "draw.h"
#include "nested.h"
#include "reml.h"

enum { MOST = 64 };

typedef struct design {
  size_t spots, repeats;
  double ratio, step, gaps;
} design;

/* Of the intervals given, those that hold the truth. */
typedef struct share {
  size_t given, held;
} share;

typedef struct counts {
  size_t runs, seen, marked;
  share spot, most, repeat, repeat_unmarked, mean, reml_mean;
} counts;

static double shown(double x, double step) {
  return step > 0 ? step * floor(x / step + 0.5) : x;
}

/* The true mean is 0; where the grid of the display lies is drawn. */
static size_t draw_panel(draw *d, const design *c, double *x, uint32_t *spot) {
  size_t n = 0;
  double offset = draw_uniform(d) * c->step;
  for (size_t s = 0; s < c->spots; s++) {
    double at = offset + sqrt(c->ratio) * draw_normal(d);
    for (size_t r = 0; r < c->repeats; r++) {
      double y = shown(at + draw_normal(d), c->step);
      if (r > 0 && draw_uniform(d) < c->gaps) continue;
      x[n] = y - offset;
      spot[n++] = (uint32_t)s;
    }
  }
  return n;
}

static void count(share *s, scw_interval i, double truth) {
  s->given += i.state == SCW_PRESENT;
  s->held += i.state == SCW_PRESENT && i.low <= truth && truth <= i.high;
}

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "%s\n", scw_context_message(context));
  exit(1);
}

static void one_run(scw_context *context, draw *d, const design *c,
                    scwi_limits_memo *memo, counts *out) {
  double x[MOST], sd = sqrt(c->ratio);
  uint32_t spot[MOST];
  scwi_level_labels labels = {{[SCW_LEVEL_SPOT] = spot}};
  scwi_sample sample = {.n = draw_panel(d, c, x, spot),
                        .x = x,
                        .step = {c->step, SCW_STEP_GIVEN}};
  scw_nested got;
  scw_reml reml;
  must(context, scwi_nested(context, &sample, &labels, 0.95, memo, &got));
  must(context, scwi_reml(context, &sample, &labels, 0.95, &reml));
  const scw_component *s = &got.component[SCW_LEVEL_SPOT];
  const scw_component *r = &got.component[SCW_LEVEL_REPEAT];
  scw_interval most = {0, s->at_most.value, 0.95, s->at_most.state};
  out->runs++;
  out->seen += s->distinguishable;
  out->marked += r->approximate;
  count(&out->spot, s->interval, sd);
  count(&out->most, most, sd);
  count(&out->repeat, r->interval, 1);
  if (!r->approximate) count(&out->repeat_unmarked, r->interval, 1);
  count(&out->mean, got.mean.interval, 0);
  count(&out->reml_mean, reml.mean.interval, 0);
}

static double part(size_t some, size_t all) {
  return all ? (double)some / (double)all : 0;
}

static double held(share s) {
  return part(s.held, s.given);
}

static void measure(scw_context *context, design c, size_t runs) {
  draw d = {88172645463325252ULL + c.spots + 16 * c.repeats};
  scwi_limits_memo memo = {0};
  counts k = {0};
  for (size_t i = 0; i < runs; i++)
    one_run(context, &d, &c, &memo, &k);
  printf("| %zu x %zu | %g | %g | %g |", c.spots, c.repeats, c.gaps, c.ratio,
         c.step);
  printf(" %.3f | %.3f | %.3f | %.2f | %.2f | %.3f |", held(k.spot),
         held(k.most), held(k.repeat), part(k.repeat.given, runs),
         part(k.marked, runs), held(k.repeat_unmarked));
  printf(" %.3f | %.3f | %.2f | %.3f |\n", held(k.mean), held(k.reml_mean),
         part(k.reml_mean.given, runs), part(k.seen, runs));
  fflush(stdout);
}

int main(int argc, char **argv) {
  static const size_t spots[] = {3, 5, 10}, repeats[] = {2, 3};
  static const double ratios[] = {0, 0.1, 1, 10};
  size_t runs = argc > 1 ? (size_t)atol(argv[1]) : 20000;
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  puts(
      "| spots x repeats | gaps | ratio | step | spot SD | at most | "
      "repeat SD | given | marked | not marked | mean | REML mean | given | "
      "distinguishable |\n"
      "|---|---|---|---|---|---|---|---|---|---|---|---|---|---|");
  for (size_t s = 0; s < 3; s++)
    for (size_t r = 0; r < 2; r++)
      for (size_t v = 0; v < 4; v++) {
        design c = {spots[s], repeats[r], ratios[v], 0, 0};
        measure(context, c, runs);
        if (repeats[r] < 3) continue;
        for (c.step = 1; c.step <= 3; c.step++)
          measure(context, c, runs);
        c.step = 0;
        c.gaps = 0.3;
        measure(context, c, runs);
      }
  scw_context_free(context);
  return 0;
}
