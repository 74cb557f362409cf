/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often intervals hold the truth with three levels, with operators, and
 * among laboratories, as tables for docs/methods/panel-scatter.md:
 * levels_coverage [RUNS]. Repeats scatter by 1 throughout. */
#include <stdio.h>
#include <stdlib.h>

#include "crossed.h"
#include "draw.h"
#include "nested.h"
#include "precision.h"
#include "reml.h"

enum { MOST = 256 };

typedef struct data {
  scwi_sample sample;
  double x[MOST];
  uint32_t top[MOST], spot[MOST];
} data;

typedef struct share {
  size_t given, held;
} share;

static void count(share *s, scw_interval i, double truth) {
  s->given += i.state == SCW_PRESENT;
  s->held += i.state == SCW_PRESENT && i.low <= truth && truth <= i.high;
}

static double held(share s) {
  return s.given ? (double)s.held / (double)s.given : 0;
}

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "%s\n", scw_context_message(context));
  exit(1);
}

static void add(data *d, size_t top, size_t spot, double x) {
  size_t n = d->sample.n++;
  d->top[n] = (uint32_t)top;
  d->spot[n] = (uint32_t)spot;
  d->x[n] = x;
}

/* --- panels > spots > repeats ------------------------------------------- */

typedef struct nest {
  size_t panels, spots, repeats;
  double panel, spot, gaps; /* variances; share of readings missing */
} nest;

static void draw_nest(draw *d, const nest *c, data *out) {
  out->sample = (scwi_sample){.x = out->x};
  for (size_t p = 0; p < c->panels; p++) {
    double at = sqrt(c->panel) * draw_normal(d);
    for (size_t s = 0; s < c->spots; s++) {
      double here = at + sqrt(c->spot) * draw_normal(d);
      for (size_t r = 0; r < c->repeats; r++) {
        double y = here + draw_normal(d);
        if (s + r == 0 || draw_uniform(d) >= c->gaps) add(out, p, s, y);
      }
    }
  }
}

static void measure_nest(scw_context *context, nest c, size_t runs) {
  static data all;
  draw d = {1442695040888963407ULL + c.panels};
  share panel = {0, 0}, spot = {0, 0}, repeat = {0, 0}, mean = {0, 0};
  share reml_mean = {0, 0};
  scwi_level_labels labels = {
      {[SCW_LEVEL_PANEL] = all.top, [SCW_LEVEL_SPOT] = all.spot}};
  for (size_t i = 0; i < runs; i++) {
    scw_nested got;
    scw_reml reml;
    draw_nest(&d, &c, &all);
    must(context, scwi_nested(context, &all.sample, &labels, 0.95, NULL, &got));
    must(context, scwi_reml(context, &all.sample, &labels, 0.95, &reml));
    count(&panel, got.component[SCW_LEVEL_PANEL].interval, sqrt(c.panel));
    count(&spot, got.component[SCW_LEVEL_SPOT].interval, sqrt(c.spot));
    count(&repeat, got.component[SCW_LEVEL_REPEAT].interval, 1);
    count(&mean, got.mean.interval, 0);
    count(&reml_mean, reml.mean.interval, 0);
  }
  printf(
      "| %zu x %zu x %zu | %g | %g | %g | %.3f | %.3f | %.3f | %.3f | %.3f "
      "| %.2f |\n",
      c.panels, c.spots, c.repeats, c.gaps, c.panel, c.spot, held(panel),
      held(spot), held(repeat), held(mean), held(reml_mean),
      (double)reml_mean.given / (double)runs);
  fflush(stdout);
}

/* --- operators x spots --------------------------------------------------- */

typedef struct cross {
  size_t operators, spots, repeats;
  double operator_variance, interaction;
} cross;

static void draw_cross(draw *d, const cross *c, data *out) {
  double spot[MOST];
  out->sample = (scwi_sample){.x = out->x};
  for (size_t s = 0; s < c->spots; s++)
    spot[s] = 3 * draw_normal(d);
  for (size_t o = 0; o < c->operators; o++) {
    double by = sqrt(c->operator_variance) * draw_normal(d);
    for (size_t s = 0; s < c->spots; s++) {
      double here = spot[s] + by + sqrt(c->interaction) * draw_normal(d);
      for (size_t r = 0; r < c->repeats; r++)
        add(out, o, s, here + draw_normal(d));
    }
  }
}

static void measure_cross(scw_context *context, cross c, size_t runs) {
  static data all;
  draw d = {3202034522624059733ULL + c.operators};
  share by = {0, 0}, inside = {0, 0}, whole = {0, 0}, plain = {0, 0};
  share mean = {0, 0};
  double s_R = sqrt(c.operator_variance + c.interaction + 1);
  for (size_t i = 0; i < runs; i++) {
    scw_crossed got;
    draw_cross(&d, &c, &all);
    must(context,
         scwi_crossed(context, &all.sample, all.top, all.spot, 0.95, &got));
    count(&by, got.with.operators.interval, sqrt(c.operator_variance));
    count(&inside, got.with.interaction.interval, sqrt(c.interaction));
    count(&whole, got.with.reproducibility, s_R);
    count(&plain, got.without.reproducibility, s_R);
    count(&mean, got.mean.interval, 0);
  }
  printf("| %zu x %zu x %zu | %g | %g | %.3f | %.3f | %.3f | %.3f | %.3f |\n",
         c.operators, c.spots, c.repeats, c.operator_variance, c.interaction,
         held(by), held(inside), held(whole), held(plain), held(mean));
  fflush(stdout);
}

/* --- laboratories ----------------------------------------------------------
 */

static void measure_labs(scw_context *context, size_t labs, double between,
                         double gaps, size_t runs) {
  static data all;
  nest c = {labs, 1, 4, between, 0, gaps};
  draw d = {935467894632167ULL + labs};
  share r = {0, 0}, R = {0, 0};
  size_t cochran = 0, grubbs = 0;
  for (size_t i = 0; i < runs; i++) {
    scw_precision got;
    draw_nest(&d, &c, &all);
    must(context,
         scwi_precision(context, &all.sample, all.top, labs, 0.95, &got));
    count(&r, got.s_r_interval, 1);
    count(&R, got.s_R_interval, sqrt(between + 1));
    cochran += got.cochran.p.state == SCW_PRESENT && got.cochran.p.value < 0.05;
    grubbs += got.grubbs.p.state == SCW_PRESENT && got.grubbs.p.value < 0.05;
    scwi_precision_free(&got);
  }
  printf("| %zu | %g | %g | %.3f | %.3f | %.3f | %.3f |\n", labs, gaps, between,
         held(r), held(R), (double)cochran / (double)runs,
         (double)grubbs / (double)runs);
  fflush(stdout);
}

static void nests(scw_context *context, size_t runs) {
  static const size_t sizes[][3] = {{3, 3, 2}, {3, 5, 3}, {6, 4, 2}};
  static const double variances[][2] = {{0, 1}, {1, 0}, {1, 1}, {10, 1}};
  puts(
      "| panels x spots x repeats | gaps | panel | spot | panel SD | spot SD "
      "| repeat SD | mean | REML mean | given |\n"
      "|---|---|---|---|---|---|---|---|---|---|");
  for (size_t s = 0; s < 3; s++)
    for (size_t v = 0; v < 4; v++)
      for (int g = 0; g < 2; g++)
        measure_nest(context,
                     (nest){sizes[s][0], sizes[s][1], sizes[s][2],
                            variances[v][0], variances[v][1], 0.3 * g},
                     runs);
}

static void crosses(scw_context *context, size_t runs) {
  static const size_t sizes[][3] = {
      {2, 5, 2}, {3, 5, 2}, {3, 10, 3}, {5, 5, 2}};
  static const double variances[][2] = {{0, 0}, {0.1, 0}, {1, 0}, {1, 1}};
  puts(
      "\n| operators x spots x repeats | operator | interaction | operator SD "
      "| interaction SD | s_R with | s_R without | mean |\n"
      "|---|---|---|---|---|---|---|---|");
  for (size_t s = 0; s < 4; s++)
    for (size_t v = 0; v < 4; v++)
      measure_cross(context,
                    (cross){sizes[s][0], sizes[s][1], sizes[s][2],
                            variances[v][0], variances[v][1]},
                    runs);
}

int main(int argc, char **argv) {
  size_t runs = argc > 1 ? (size_t)atol(argv[1]) : 20000;
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  nests(context, runs);
  crosses(context, runs);
  puts(
      "\n| laboratories x 4 | gaps | between | s_r | s_R | Cochran flags | "
      "Grubbs flags |\n|---|---|---|---|---|---|---|");
  for (size_t labs = 3; labs <= 12; labs *= 2)
    for (int g = 0; g < 2; g++)
      for (double between = 0.1; between < 20; between *= 10)
        measure_labs(context, labs, between, 0.3 * g, runs);
  scw_context_free(context);
  return 0;
}
