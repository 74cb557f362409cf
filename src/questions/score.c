/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points with intervals, and which ranks are real. */
#include "scatterwise/score.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "rule_points.h"
#include "score_inside.h"
#include "settings.h"

enum { MOST_PRODUCTS = 100 };

/* Unrounded and as published: the sums of the parts; the first part that is
 * missing says why there is none. */
static void sum_up(const scwi_score_run *run, const scwi_scored *from,
                   scw_scored_product *out, double *room) {
  const scw_score_rule *score = run->score;
  scw_figure first = scwi_figure(0);
  out->points = out->published = first;
  for (size_t i = 0; i < score->n_parts; i++) {
    if (!scwi_present(from->part[i].points) && scwi_present(out->points))
      out->points = out->published = scwi_missing(from->part[i].points.state);
    room[i] = from->part[i].points.value;
  }
  if (!scwi_present(out->points)) return;
  out->points = scwi_figure(scwi_score_sum(score, room));
  for (size_t i = 0; i < score->n_parts; i++)
    room[i] = from->part[i].published.value;
  out->published = scwi_figure(scwi_round_to(scwi_score_sum(score, room),
                                             score->rounding.points,
                                             score->rounding.ties));
}

static bool can_be_drawn(const scwi_score_run *run, const scwi_scored *from) {
  for (size_t i = 0; i < run->score->n_parts; i++)
    if (from->state[i] != SCW_PRESENT) return false;
  return true;
}

/* Products that are ranked with each other. */
typedef struct group {
  size_t *member; /* of run->scored */
  size_t n;
} group;

/* A score of one rule needs no trials for its interval. */
static scw_interval of_one_part(const scwi_score_run *run,
                                const scw_scored_part *part) {
  double a = scwi_score_sum(run->score, &part->interval.low);
  double b = scwi_score_sum(run->score, &part->interval.high);
  return scwi_interval(fmin(a, b), fmax(a, b), part->interval.level);
}

static scw_status stand(scw_context *context, const scwi_score_run *run,
                        const group *g, scw_score_result *out) {
  size_t parts = run->score->n_parts;
  scwi_standing *standing = NULL;
  scwi_standing_part *part = NULL;
  scw_status status = SCWI_ALLOCATE(context, g->n, &standing);
  if (!status) status = SCWI_ALLOCATE(context, g->n * parts, &part);
  for (size_t i = 0; i < g->n && !status; i++)
    memcpy(part + i * parts, run->scored[g->member[i]].draw,
           parts * sizeof *part);
  const scwi_standings_ask ask = {
      .measured = run->measured, .n_measured = run->n_measured,
      .part = part, .products = g->n, .parts = parts, .score = run->score,
      .level = run->settings.level, .seed = run->settings.seed,
      .trials = out->trials};
  bool made = false;
  if (!status) {
    status = scwi_standings(context, &ask, standing);
    made = !status;
  }
  for (size_t i = 0; made && i < g->n; i++) {
    scw_scored_product *to = &out->product[g->member[i]];
    to->interval = parts == 1 ? of_one_part(run, to->part)
                              : standing[i].points;
    to->place_low = standing[i].low;
    to->place_high = standing[i].high;
    to->of = g->n;
    to->chance = standing[i].chance;
    standing[i].chance = NULL;
    for (size_t j = 0; j < g->n; j++)
      if (standing[i].tied[j]) to->tied[to->n_tied++] = g->member[j];
    scwi_standing_free(&standing[i]);
  }
  free(standing);
  free(part);
  return status;
}

/* All that can be drawn, or those of one category after the other. */
static scw_status rank(scw_context *context, const scwi_score_run *run,
                       scw_score_result *out) {
  bool *done = NULL;
  group g = {0};
  scw_status status = SCWI_ALLOCATE(context, run->n, &g.member);
  if (!status) status = SCWI_ALLOCATE(context, run->n, &done);
  for (size_t i = 0; i < run->n && !status; i++) {
    if (done[i] || !can_be_drawn(run, &run->scored[i])) continue;
    g.n = 0;
    for (size_t j = i; j < run->n; j++) {
      bool same = !run->score->within_category ||
                  !strcmp(run->scored[i].category, run->scored[j].category);
      if (done[j] || !same || !can_be_drawn(run, &run->scored[j])) continue;
      done[j] = true;
      g.member[g.n++] = j;
    }
    status = stand(context, run, &g, out);
  }
  free(g.member);
  free(done);
  return status;
}

static scw_status hand_over(scw_context *context, scwi_score_run *run,
                            scw_score_result *out) {
  size_t parts = run->score->n_parts;
  double *room;
  scw_status status = SCWI_ALLOCATE(context, run->n, &out->product);
  if (status) return status;
  out->n_products = run->n;
  status = SCWI_ALLOCATE(context, parts, &room);
  for (size_t i = 0; i < run->n && !status; i++) {
    const scwi_scored *from = &run->scored[i];
    scw_scored_product *to = &out->product[i];
    const char *name = scwi_labels_text(&run->names, (int32_t)i);
    to->interval = scwi_no_interval(SCW_NOT_COMPUTED, run->settings.level);
    status = scwi_copy_text(context, name, strlen(name), &to->label);
    if (!status)
      status = scwi_copy_text(context, from->category, strlen(from->category),
                              &to->category);
    if (!status) status = SCWI_ALLOCATE(context, run->n, &to->tied);
    if (!status) status = SCWI_ALLOCATE(context, parts, &to->part);
    if (status) break;
    memcpy(to->part, from->part, parts * sizeof *to->part);
    sum_up(run, from, to, room);
  }
  free(room);
  return status;
}

/* By points, the best first; those not ranked last. */
static int best_first(const void *left, const void *right) {
  const scw_scored_product *a = *(scw_scored_product *const *)left,
                           *b = *(scw_scored_product *const *)right;
  if ((a->of == 0) != (b->of == 0)) return a->of == 0 ? 1 : -1;
  bool both = scwi_present(a->points) && scwi_present(b->points);
  if (both && a->points.value != b->points.value)
    return a->points.value > b->points.value ? -1 : 1;
  return (a > b) - (a < b);
}

static scw_status sort(scw_context *context, scw_score_result *out) {
  size_t n = out->n_products, *place = NULL;
  scw_scored_product **order = NULL, *sorted = NULL;
  scw_status status = SCWI_ALLOCATE(context, n, &order);
  if (!status) status = SCWI_ALLOCATE(context, n, &sorted);
  if (!status) status = SCWI_ALLOCATE(context, n, &place);
  for (size_t i = 0; i < n && !status; i++) order[i] = &out->product[i];
  if (!status) {
    qsort(order, n, sizeof *order, best_first);
    for (size_t i = 0; i < n; i++) place[order[i] - out->product] = i;
    for (size_t i = 0; i < n; i++) {
      sorted[i] = *order[i];
      for (size_t k = 0; k < sorted[i].n_tied; k++)
        sorted[i].tied[k] = place[sorted[i].tied[k]];
    }
    memcpy(out->product, sorted, n * sizeof *sorted);
  }
  free(order);
  free(sorted);
  free(place);
  return status;
}

static scw_status check(scw_context *context, const scwi_score_run *run) {
  size_t trials = run->options.trials;
  if (!run->options.bench)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "points need the rules of a bench file");
  if (trials && (trials < SCW_SCORE_TRIALS_LEAST ||
                 trials > SCW_SCORE_TRIALS_MOST))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the number of trials must lie between 10000 and "
                     "1000000");
  return SCW_OK;
}

static scw_status check_products(scw_context *context,
                                 const scwi_score_run *run) {
  if (run->n == 0)
    return scwi_fail(context, SCW_BAD_INPUT, "no products to score");
  if (run->n > MOST_PRODUCTS)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "%zu products; up to 100 can be scored at once", run->n);
  for (size_t i = 0; i < run->n; i++)
    if (run->score->within_category && !*run->scored[i].category)
      return scwi_fail(context, SCW_BAD_INPUT,
                       "the points of '%s' mean something within a category "
                       "only, and nothing says of which category %s is; name "
                       "the column that does",
                       run->score->name,
                       scwi_labels_text(&run->names, (int32_t)i));
  return SCW_OK;
}

static scw_status work(scw_context *context, scwi_score_run *run,
                       scw_score_result *out) {
  scw_status status = scwi_score_parts(context, run);
  if (!status) status = check_products(context, run);
  double needed = scwi_standings_trials(run->n, run->settings.level);
  if (needed > (double)out->trials)
    out->trials = (size_t)fmin(needed, SCW_SCORE_TRIALS_MOST);
  if (!status) status = hand_over(context, run, out);
  if (!status) status = rank(context, run, out);
  if (!status) status = sort(context, out);
  if (!status) status = scwi_score_sentence(context, out);
  return status ? status : scwi_score_notes(context, run, out);
}

scw_status scw_score(scw_context *context, const scw_score_table *tables,
                     size_t n_tables, const scw_settings *settings,
                     const scw_score_options *options, scw_score_result *out) {
  scwi_score_run run = {.options = *options, .tables = tables,
                        .n_tables = n_tables};
  *out = (scw_score_result){0};
  scw_status status = check(context, &run);
  if (!status) status = scwi_settings_take(context, settings, &run.settings);
  if (!status)
    status = scw_bench_find_score(context, options->bench, options->score,
                                  &run.score);
  if (status) return status;
  run.rules = options->bench->rule;
  out->settings = run.settings;
  out->score = run.score;
  out->rules = run.rules;
  out->trials = options->trials ? options->trials : SCW_SCORE_TRIALS;
  status = work(context, &run, out);
  if (!status) {
    out->notes = run.notes.note;
    out->n_notes = run.notes.n;
    run.notes = (scwi_notes){0};
  }
  scwi_score_run_free(&run);
  if (status) scw_score_result_free(out);
  return status;
}

void scw_score_result_free(scw_score_result *result) {
  for (size_t i = 0; i < result->n_products; i++) {
    free(result->product[i].label);
    free(result->product[i].category);
    free(result->product[i].part);
    free(result->product[i].chance);
    free(result->product[i].tied);
  }
  free(result->product);
  free(result->sentence);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_score_result){0};
}
