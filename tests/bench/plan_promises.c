/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether plans keep what they promise: plan_promises [TRIALS [SEED]].
 *
 * settle: draws whole comparisons of the size scwi_settle asks for and counts
 * verdicts other than cannot_tell; promised: at least 0.80, and less with one
 * reading fewer. designs: draws whole readings of the cheapest design on two to
 * four levels; promised: the chance to see the change, the level, and the
 * half-width. */
#include <stdio.h>
#include <stdlib.h>

#include "design.h"
#include "draw.h"
#include "figure.h"
#include "planning.h"
#include "two_sample.h"

enum { MOST = 512 };

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "plan_promises: %s\n", scw_context_message(context));
  exit(1);
}

static scwi_moments side(draw *random, size_t n, double mean, double sd) {
  double x[MOST];
  scwi_sample sample = {.n = n, .x = x};
  for (size_t i = 0; i < n; i++)
    x[i] = mean + sd * draw_normal(random);
  return scwi_moments_of(&sample);
}

static bool told(scw_context *context, draw *random, const scwi_comparison *c,
                 size_t n, double change, scw_figure margin) {
  scw_estimate e;
  if (c->paired) {
    scwi_moments m = side(random, n, change, c->sd_before);
    must(context, scwi_estimate(context, m.mean,
                                scwi_difference_uncertainty(
                                    m.sd, n, (scwi_display){c->step, 0}),
                                c->level, &e));
  } else {
    must(context, scwi_welch(context, side(random, n, 0, c->sd_before),
                             side(random, n, change, c->sd_after), c->step,
                             c->step, c->level, &e));
  }
  return scwi_verdict(e.interval, margin) != SCW_CANNOT_TELL;
}

static double share_told(scw_context *context, draw *random,
                         const scwi_comparison *c, size_t n, double change,
                         scw_figure margin, long trials) {
  long count = 0;
  for (long i = 0; i < trials; i++)
    count += told(context, random, c, n, change, margin);
  return (double)count / (double)trials;
}

static void settle(scw_context *context, draw *random, long trials) {
  static const struct {
    scwi_comparison c;
    double change, margin;
  } cases[] = {
      {{true, 1, 0, 0, 0.95, 0}, 0.5, 0},  {{true, 1, 0, 0, 0.95, 0}, 0.2, 0.6},
      {{true, 1, 0, 0, 0.95, 0}, 0, 0.5},  {{true, 1, 0, 0, 0.95, 0}, 0.8, 0.5},
      {{false, 1, 1, 0, 0.95, 0}, 0.7, 0}, {{false, 1, 3, 0, 0.95, 0}, 1.5, 0},
      {{false, 1, 3, 0, 0.95, 0}, 0.5, 2}, {{false, 0.5, 0.5, 0, 0.9, 0}, 0.9, 0},
      {{false, 1, 1, 0, 0.95, 0}, 2.2, 0}};
  printf(
      "paired,sd_before,sd_after,level,change,margin,n,told,told_n_less_1\n");
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    const scwi_comparison *c = &cases[i].c;
    scw_figure margin = cases[i].margin > 0 ? scwi_figure(cases[i].margin)
                                            : scwi_missing(SCW_NO_MARGIN);
    scw_settle s;
    must(context,
         scwi_settle(context, c, cases[i].change, margin, 3, 3, 0.8, &s));
    size_t n = (size_t)s.total.value;
    printf(
        "%d,%g,%g,%g,%g,%g,%zu,%.4f,%.4f\n", c->paired, c->sd_before,
        c->sd_after, c->level, cases[i].change, cases[i].margin, n,
        share_told(context, random, c, n, cases[i].change, margin, trials),
        share_told(context, random, c, n - 1, cases[i].change, margin, trials));
  }
}

/* One unit of a design: its panel or spot, and all below it. */
static double unit_mean(draw *random, const scwi_design_scatter *scatter,
                        const scwi_design *design, int level) {
  double own = sqrt(scatter->variance[level]) * draw_normal(random);
  if (level + 1 == SCW_LEVEL_COUNT) return own;
  double sum = 0;
  size_t n = design->count[level + 1];
  for (size_t i = 0; i < n; i++)
    sum += unit_mean(random, scatter, design, level + 1);
  return own + sum / (double)n;
}

static scwi_moments units_of(draw *random, const scwi_design_scatter *scatter,
                             const scwi_design *design, double change) {
  double x[MOST];
  int top = (int)scwi_design_top(scatter);
  size_t n = design->count[top];
  scwi_sample sample = {.n = n, .x = x};
  for (size_t i = 0; i < n; i++)
    x[i] = change + unit_mean(random, scatter, design, top);
  return scwi_moments_of(&sample);
}

static scw_interval interval_of(scw_context *context, draw *random,
                                const scwi_design_task *task,
                                const scwi_design_scatter *scatter,
                                const scwi_design *design, double change) {
  scw_estimate e;
  scwi_moments m = units_of(random, scatter, design, change);
  if (task->form == SCWI_TWO_SIDES || task->form == SCWI_CONTROL_HALF)
    must(context, scwi_welch(context, units_of(random, scatter, design, 0), m,
                             0, 0, task->level, &e));
  else
    must(context,
         scwi_estimate(context, m.mean, scwi_mean_uncertainty(m.sd, m.n, 0),
                       task->level, &e));
  return e.interval;
}

/* The cheapest design for a scatter of panels, spots and repeats that is known:
 * how often its interval excludes 0 and holds the change, and its average
 * half-width. */
static void designs(scw_context *context, draw *random, long trials) {
  static const scwi_design_scatter scatters[] = {
      {{0, 0, 0.16, 0.09}, {false, false, true, true}},
      {{0.09, 0, 0.16, 0.09}, {true, false, true, true}},
      {{0.04, 0.02, 0.09, 0.25}, {true, true, true, true}}};
  static const char *const forms[] = {"one mean", "paired", "two sides",
                                      "control half"};
  printf("\nform,levels,units,below,excludes,promised,holds,half_width,"
         "promised_half_width\n");
  for (size_t s = 0; s < 3; s++)
    for (int form = SCWI_PAIRED; form <= SCWI_CONTROL_HALF; form++) {
      scwi_design_task task = {.form = (scwi_design_form)form,
                               .goal = {SCW_PLAN_DETECT, 0.6, 0.8},
                               .level = 0.95,
                               .cost = {s ? 20 : 0, s == 2 ? 8 : 0, 2, 1}};
      scwi_design design;
      scw_design_figures figures;
      scw_presence why;
      size_t n;
      long excludes = 0, holds = 0;
      double width = 0;
      must(context, scwi_best_designs(context, &task, &scatters[s], &design, 1,
                                      &n, &why));
      must(context, scwi_design_figures(context, &task, &scatters[s], &design,
                                        &figures));
      for (long i = 0; i < trials; i++) {
        scw_interval found = interval_of(context, random, &task, &scatters[s],
                                         &design, task.goal.target);
        excludes += found.low > 0 || found.high < 0;
        holds += found.low <= task.goal.target && found.high >= task.goal.target;
        width += (found.high - found.low) / 2;
      }
      printf("%s,%zu,%zu,%zu x %zu x %zu,%.4f,%.4f,%.4f,%.4f,%.4f\n",
             forms[form], s + 2, design.count[scwi_design_top(&scatters[s])],
             design.count[1], design.count[2], design.count[3],
             (double)excludes / (double)trials, figures.power.value,
             (double)holds / (double)trials, width / (double)trials,
             figures.half_width.value);
    }
}

int main(int argc, char **argv) {
  long trials = argc > 1 ? strtol(argv[1], NULL, 10) : 100000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20250819};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  settle(context, &random, trials);
  designs(context, &random, trials);
  scw_context_free(context);
  return 0;
}
