/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two-way mean squares of cell means; balanced they are the classical ones.
 * Each cell is taken as its distance from the first operator's cell at the same
 * spot, so that spots far apart cost operators and interaction no digits. */
#include "crossed.h"

#include <stdlib.h>

#include "component.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"
#include "sum.h"
#include "tree.h"

/* Cells in rows of one operator each. */
typedef struct cells {
  const scwi_tree *tree; /* operators, and within them spots */
  size_t operators, spots;
  double repeats; /* harmonic mean of the readings in a cell */
  double *apart;  /* of each cell from that of the first operator */
  double *operator_mean, *spot_mean, *spot_apart; /* the last: of the mean of
                            the spot from that of the first */
} cells;

/* Mean squares per reading. */
typedef struct squares {
  scwi_square_term operators, spots, interaction, repeats, rest;
} squares;

static scwi_group_mean cell(const cells *c, size_t o, size_t s) {
  return scwi_child_mean(c->tree, 1, o * c->spots + s);
}

static double mean_over(const double *x, size_t n, size_t stride) {
  scwi_sum sum = {0};
  for (size_t i = 0; i < n; i++)
    scwi_sum_add(&sum, x[i * stride]);
  return scwi_sum_of(sum) / (double)n;
}

static double squares_about_mean(const double *x, size_t n) {
  double mean = mean_over(x, n, 1);
  scwi_sum sum = {0};
  for (size_t i = 0; i < n; i++)
    scwi_sum_add(&sum, (x[i] - mean) * (x[i] - mean));
  return scwi_sum_of(sum);
}

static void fill(cells *c) {
  size_t n_o = c->operators, n_s = c->spots;
  for (size_t o = 0; o < n_o; o++) {
    for (size_t s = 0; s < n_s; s++)
      c->apart[o * n_s + s] =
          scwi_mean_distance(c->tree, cell(c, o, s), cell(c, 0, s));
    c->operator_mean[o] = mean_over(c->apart + o * n_s, n_s, 1);
  }
  for (size_t s = 0; s < n_s; s++) {
    c->spot_mean[s] = mean_over(c->apart + s, n_o, n_s);
    c->spot_apart[s] =
        c->spot_mean[s] +
        scwi_mean_distance(c->tree, cell(c, 0, s), cell(c, 0, 0));
  }
}

static double interaction_squares(const cells *c) {
  double mean = mean_over(c->operator_mean, c->operators, 1);
  scwi_sum sum = {0};
  for (size_t o = 0; o < c->operators; o++)
    for (size_t s = 0; s < c->spots; s++) {
      double left = (c->apart[o * c->spots + s] - c->operator_mean[o]) -
                    (c->spot_mean[s] - mean);
      scwi_sum_add(&sum, left * left);
    }
  return scwi_sum_of(sum);
}

static scwi_square_term term(double sum, double df) {
  return (scwi_square_term){1, df > 0 ? sum / df : 0, df};
}

static squares squares_of(const cells *c) {
  double o = (double)c->operators, s = (double)c->spots, r = c->repeats;
  double df = (o - 1) * (s - 1), within = 0;
  double df_within = (double)c->tree->n - o * s;
  double together = r * interaction_squares(c);
  if (df_within > 0) within = c->tree->spread[2];
  return (squares){
      term(r * s * squares_about_mean(c->operator_mean, c->operators), o - 1),
      term(r * o * squares_about_mean(c->spot_apart, c->spots), s - 1),
      term(together, df), term(within, df_within),
      term(together + within, df + df_within)};
}

static scwi_square_term times(double coefficient, scwi_square_term square) {
  square.coefficient = coefficient;
  return square;
}

/* `rest` is what the mean squares of operators and spots would be without
 * them. */
static scw_status two_ways(scw_context *context, const cells *c,
                           const squares *q, scwi_square_term rest,
                           const scwi_limit_setting *setting,
                           scw_crossed_model *out) {
  double by_spot = 1 / (c->repeats * (double)c->operators);
  double by_operator = 1 / (c->repeats * (double)c->spots);
  scwi_square_term o[] = {times(by_operator, q->operators),
                          times(-by_operator, rest)};
  scwi_square_term s[] = {times(by_spot, q->spots), times(-by_spot, rest)};
  scw_status status =
      scwi_component_of(context, setting, o, 2, c->operators, &out->operators);
  if (status == SCW_OK)
    status = scwi_component_of(context, setting, s, 2, c->spots, &out->spots);
  return status;
}

/* The components are in place; `terms` add up to the reproducibility. */
static scw_status both_sds(scw_context *context,
                           const scwi_limit_setting *setting,
                           const scwi_square_term *terms, size_t n,
                           double factor, scw_crossed_model *out) {
  scw_component *all[] = {&out->operators, &out->spots, &out->interaction,
                          &out->repeats};
  scwi_sd_limits limits;
  scw_status status = scwi_sd_of_terms(context, setting, terms, n, &limits);
  if (status != SCW_OK) return status;
  scwi_share_out(all, 4);
  double sd = hypot(out->repeats.sd.value, out->operators.sd.value);
  if (out->with_interaction) sd = hypot(sd, out->interaction.sd.value);
  out->repeatability_sd = out->repeats.sd;
  out->repeatability = out->repeats.interval;
  out->reproducibility_sd = scwi_figure(sd);
  out->reproducibility = limits.interval;
  /* A negative component counts in the interval and not in the SD. */
  out->reproducibility.high = fmax(sd, limits.interval.high);
  out->repeatability_limit = scwi_figure(factor * out->repeats.sd.value);
  out->reproducibility_limit = scwi_figure(factor * sd);
  return SCW_OK;
}

static scw_status with_interaction(scw_context *context, const cells *c,
                                   const squares *q,
                                   const scwi_limit_setting *setting,
                                   double factor, scw_crossed_model *out) {
  double r = c->repeats, s = (double)c->spots;
  scwi_square_term inside[] = {times(1 / r, q->interaction),
                               times(-1 / r, q->repeats)};
  scwi_square_term all[] = {times(1 / (r * s), q->operators),
                            times((s - 1) / (r * s), q->interaction),
                            times(1 - 1 / r, q->repeats)};
  scw_status status = two_ways(context, c, q, q->interaction, setting, out);
  if (status == SCW_OK)
    status = scwi_component_of(context, setting, inside, 2,
                               c->operators * c->spots, &out->interaction);
  if (status == SCW_OK)
    status = scwi_component_of(context, setting, &q->repeats, 1, c->tree->n,
                               &out->repeats);
  return status == SCW_OK ? both_sds(context, setting, all, 3, factor, out)
                          : status;
}

static scw_status without_interaction(scw_context *context, const cells *c,
                                      const squares *q,
                                      const scwi_limit_setting *setting,
                                      double factor, scw_crossed_model *out) {
  double many = c->repeats * (double)c->spots;
  scwi_square_term all[] = {times(1 / many, q->operators),
                            times(1 - 1 / many, q->rest)};
  scw_status status = two_ways(context, c, q, q->rest, setting, out);
  if (status == SCW_OK)
    status = scwi_component_of(context, setting, &q->rest, 1, c->tree->n,
                               &out->repeats);
  return status == SCW_OK ? both_sds(context, setting, all, 2, factor, out)
                          : status;
}

/* (operators + spots - interaction) / readings, df by Satterthwaite. */
static scw_status mean_of(scw_context *context, const cells *c,
                          const squares *q, double unit, double level,
                          scw_estimate *out) {
  const scwi_square_term *part[] = {&q->operators, &q->spots, &q->interaction};
  double sum = q->operators.square + q->spots.square - q->interaction.square;
  double spread = 0, mean = scwi_mean_value(c->tree, c->tree->mean[0][0]);
  for (size_t i = 0; i < 3; i++)
    spread += part[i]->square * part[i]->square / part[i]->df;
  scw_figure none = scwi_missing(SCW_NO_SCATTER);
  *out = (scw_estimate){scwi_figure(mean), none, none,
                        scwi_missing(SCW_NOT_COMPUTED),
                        scwi_no_interval(SCW_NO_SCATTER, level)};
  if (!(sum > 0)) return SCW_OK;
  double readings = c->repeats * (double)c->operators * (double)c->spots;
  scwi_uncertainty u = {unit * sqrt(sum / readings), sum * sum / spread};
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = u.df >= 0.5 ? scwi_figure(u.df) : scwi_missing(SCW_FLAT);
  out->interval = scwi_no_interval(out->df.state, level);
  if (!scwi_present(out->df)) return SCW_OK;
  return scwi_t_interval(context, mean, u, level, &out->interval);
}

static scw_crossed_model no_model(scw_presence why, double level) {
  scw_component none = scwi_no_component(why, 0, level);
  scw_interval no_interval = scwi_no_interval(why, level);
  scw_figure missing = scwi_missing(why);
  return (scw_crossed_model){false,       none,    none,        none,
                             none,        missing, no_interval, missing,
                             no_interval, missing, missing};
}

static scw_status models(scw_context *context, cells *c, double level,
                         scw_crossed *out) {
  double unit = scwi_unscaled(&c->tree->centre, 1);
  scwi_limits_memo memo = {0};
  scwi_limit_setting setting = {level, unit, &memo};
  fill(c);
  squares q = squares_of(c);
  scw_status status = scwi_limit_factor(context, level, &out->limit_factor);
  out->without.interaction = scwi_no_component(SCW_NOT_COMPUTED, 0, level);
  if (status == SCW_OK)
    status = without_interaction(context, c, &q, &setting, out->limit_factor,
                                 &out->without);
  out->with = no_model(SCW_NOT_TOLD_APART, level);
  out->with.with_interaction = true;
  if (status == SCW_OK && q.repeats.df > 0)
    status = with_interaction(context, c, &q, &setting, out->limit_factor,
                              &out->with);
  return status == SCW_OK ? mean_of(context, c, &q, unit, level, &out->mean)
                          : status;
}

static scw_status all_cells(scw_context *context, const scwi_tree *tree,
                            double level, scw_crossed *out) {
  cells c = {.tree = tree, .operators = out->operators, .spots = out->spots};
  size_t n = c.operators * c.spots, room = n + c.operators + 2 * c.spots;
  double inverse = 0;
  for (size_t i = 0; i < n && tree->depth == 2; i++)
    inverse += 1 / (double)(tree->first[2][i + 1] - tree->first[2][i]);
  c.repeats = tree->depth == 2 ? (double)n / inverse : 1;
  scw_status status = SCWI_ALLOCATE(context, room, &c.apart);
  if (status != SCW_OK) return status;
  c.operator_mean = c.apart + n;
  c.spot_mean = c.operator_mean + c.operators;
  c.spot_apart = c.spot_mean + c.spots;
  status = models(context, &c, level, out);
  free(c.apart);
  return status;
}

/* What cannot be answered, or SCW_PRESENT. */
static scw_presence look(const scwi_tree *tree, const scwi_tree *spots,
                         scw_crossed *out) {
  out->operators = tree->groups[SCW_LEVEL_PANEL];
  out->spots = spots->groups[SCW_LEVEL_SPOT];
  out->empty_cells = out->operators * out->spots - tree->groups[SCW_LEVEL_SPOT];
  out->balanced = tree->balanced;
  if (out->operators < 2 || out->spots < 2) return SCW_TOO_FEW;
  if (out->empty_cells) return SCW_EMPTY_CELLS;
  return scwi_scaled_sd(&tree->centre) > 0 ? SCW_PRESENT : SCW_NO_SCATTER;
}

scw_status scwi_crossed(scw_context *context, const scwi_sample *sample,
                        const uint32_t *operator_of, const uint32_t *spot_of,
                        double level, scw_crossed *out) {
  scwi_level_labels both = {
      {[SCW_LEVEL_PANEL] = operator_of, [SCW_LEVEL_SPOT] = spot_of}};
  scwi_level_labels spot = {{[SCW_LEVEL_SPOT] = spot_of}};
  scwi_tree tree, spots = {0};
  *out = (scw_crossed){.n = sample->n, .level = level};
  scw_status status = scwi_tree_of(context, sample, &both, &tree);
  if (status == SCW_OK) status = scwi_tree_of(context, sample, &spot, &spots);
  if (status == SCW_OK) {
    scw_presence why = look(&tree, &spots, out);
    scw_figure missing = scwi_missing(why);
    out->state = why;
    out->with = out->without = no_model(why, level);
    out->mean = (scw_estimate){missing, missing, missing, missing,
                               scwi_no_interval(why, level)};
    if (why == SCW_PRESENT) status = all_cells(context, &tree, level, out);
  }
  scwi_tree_free(&tree);
  scwi_tree_free(&spots);
  return status;
}
