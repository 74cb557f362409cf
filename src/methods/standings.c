/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "standings.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "deviates.h"
#include "figure.h"
#include "memory.h"
#include "multiplicity.h"
#include "tails.h"
#include "trials.h"

enum { BLOCK = 1000 };

typedef struct run {
  const scwi_standings_ask *ask;
  scwi_ziggurat ziggurat;
  double *drawn; /* drawn[measured * BLOCK + trial] */
  double *room;  /* BLOCK */
  double *total; /* total[product * trials + trial] */
  double *least, *most; /* the same with the worst and the best that ladders
                           leave open; `total` itself where none does */
} run;

/* The sums of one block. */
typedef struct sums {
  double total[BLOCK], least[BLOCK], most[BLOCK];
} sums;

/* Streams: two for each thing measured, then one for each ladder part. */
static void draw_measured(const run *r, uint64_t block) {
  const scwi_standings_ask *ask = r->ask;
  for (size_t i = 0; i < ask->n_measured; i++) {
    const scwi_measured *one = &ask->measured[i];
    double *x = r->drawn + i * BLOCK;
    scwi_stream_at normal = scwi_stream_start(ask->seed, 2 * i, block);
    scwi_stream_at factor = scwi_stream_start(ask->seed, 2 * i + 1, block);
    scwi_normal_deviates(&r->ziggurat, &normal, x, BLOCK);
    if (isfinite(one->u.df))
      scwi_t_factors(&r->ziggurat, &factor, one->u.df, r->room, BLOCK);
    for (size_t t = 0; t < BLOCK; t++) {
      double t_factor = isfinite(one->u.df) ? r->room[t] : 1;
      x[t] = one->estimate + one->u.u * x[t] * t_factor;
    }
  }
}

static void draw_ladder(const run *r, size_t place, uint64_t block,
                        const scwi_standing_part *part, double *passes) {
  const scwi_standings_ask *ask = r->ask;
  scwi_stream_at stream =
      scwi_stream_start(ask->seed, 2 * ask->n_measured + place, block);
  double high = isfinite(part->gone_by) ? part->gone_by : part->ok_at;
  scwi_symmetric_deviates(&stream, passes, BLOCK);
  for (size_t t = 0; t < BLOCK; t++)
    passes[t] = part->ok_at + (high - part->ok_at) * (passes[t] + 1) / 2;
}

/* As scwi_rule_points and scwi_rule_quantity, in plain doubles. */
static double points_of(const scw_rule *rule, double before, double after,
                        bool two) {
  double quantity = after;
  if (two && rule->kind == SCW_RULE_DIFFERENCE) quantity = after - before;
  if (two && rule->kind == SCW_RULE_PERCENT) quantity = 100 * after / before;
  double points = rule->points * quantity / rule->per + rule->offset;
  return fmax(rule->low, fmin(rule->high, points));
}

static void add_ladder(const run *r, const scwi_standing_part *part,
                       size_t place, uint64_t block, sums *to) {
  const scw_rule *rule = part->rule;
  double reach = scwi_ladder_reach(rule, part->ok_at, part->gone_by);
  double a = part->weight * scwi_rule_points(rule, part->ok_at);
  double b = part->weight * scwi_rule_points(rule, reach);
  draw_ladder(r, place, block, part, r->room);
  for (size_t t = 0; t < BLOCK; t++) {
    to->total[t] += part->weight * scwi_rule_points(rule, r->room[t]);
    to->least[t] += fmin(a, b);
    to->most[t] += fmax(a, b);
  }
}

static void add_part(const run *r, const scwi_standing_part *part,
                     size_t place, uint64_t block, sums *to) {
  if (part->rule->kind == SCW_RULE_LADDER) {
    add_ladder(r, part, place, block, to);
    return;
  }
  const double *after = r->drawn + (size_t)part->after * BLOCK;
  bool two = part->before != SCWI_NOT_MEASURED;
  const double *before = two ? r->drawn + (size_t)part->before * BLOCK : after;
  for (size_t t = 0; t < BLOCK; t++) {
    double points =
        part->weight * points_of(part->rule, before[t], after[t], two);
    to->total[t] += points;
    to->least[t] += points;
    to->most[t] += points;
  }
}

static void keep(const scw_score_rule *score, const double *sum, size_t n,
                 double *to) {
  for (size_t t = 0; t < n; t++)
    to[t] = fmax(score->low, fmin(score->high, sum[t]));
}

static void take_block(const run *r, uint64_t block, sums *sum) {
  const scwi_standings_ask *ask = r->ask;
  draw_measured(r, block);
  for (size_t p = 0; p < ask->products; p++) {
    *sum = (sums){0};
    for (size_t i = 0; i < ask->parts; i++) {
      size_t place = p * ask->parts + i;
      add_part(r, &ask->part[place], place, block, sum);
    }
    size_t first = (size_t)block * BLOCK, left = ask->trials - first;
    size_t at = p * ask->trials + first, n = left < BLOCK ? left : BLOCK;
    keep(ask->score, sum->total, n, r->total + at);
    if (r->least == r->total) continue;
    keep(ask->score, sum->least, n, r->least + at);
    keep(ask->score, sum->most, n, r->most + at);
  }
}

/* How often each is ahead of each, whatever the open rungs, and holds each
 * place. */
static void count(const run *r, double *ahead, scwi_standing *out) {
  const scwi_standings_ask *ask = r->ask;
  size_t k = ask->products;
  for (size_t t = 0; t < ask->trials; t++)
    for (size_t i = 0; i < k; i++) {
      double mine = r->total[i * ask->trials + t];
      double surely = r->least[i * ask->trials + t];
      size_t better = 0;
      for (size_t j = 0; j < k; j++) {
        better += r->total[j * ask->trials + t] > mine;
        ahead[i * k + j] += surely > r->most[j * ask->trials + t];
      }
      out[i].chance[better]++;
    }
  for (size_t i = 0; i < k; i++)
    for (size_t j = 0; j < k; j++) out[i].chance[j] /= (double)ask->trials;
}

/* Holm's p of all pairs: in place of `ahead`, above its diagonal. */
static scw_status adjust(scw_context *context, const scwi_standings_ask *ask,
                         double *ahead) {
  size_t k = ask->products, n = 0;
  double *p, all = (double)ask->trials;
  scw_status status = SCWI_ALLOCATE(context, k * (k - 1) / 2, &p);
  if (status) return status;
  for (size_t i = 0; i < k; i++)
    for (size_t j = i + 1; j < k; j++) {
      double most = fmax(ahead[i * k + j], ahead[j * k + i]);
      p[n++] = fmin(1, 2 * (all - most + 1) / (all + 1));
    }
  status = scwi_holm(context, p, n);
  n = 0;
  for (size_t i = 0; i < k && !status; i++)
    for (size_t j = i + 1; j < k; j++) {
      double sign = ahead[i * k + j] > ahead[j * k + i] ? 1 : -1;
      ahead[i * k + j] = sign * p[n++];
    }
  free(p);
  return status;
}

static void place_all(const scwi_standings_ask *ask, const double *signed_p,
                      scwi_standing *out) {
  size_t k = ask->products;
  for (size_t i = 0; i < k; i++) {
    out[i].low = 1;
    out[i].high = k;
  }
  for (size_t i = 0; i < k; i++)
    for (size_t j = i + 1; j < k; j++) {
      double p = signed_p[i * k + j];
      bool apart = fabs(p) < 1 - ask->level;
      out[i].tied[j] = out[j].tied[i] = !apart;
      if (!apart) continue;
      out[p > 0 ? i : j].high--;
      out[p > 0 ? j : i].low++;
    }
}

static void interval_of(const run *r, size_t product, scwi_standing *out) {
  const scwi_standings_ask *ask = r->ask;
  size_t first = product * ask->trials;
  scwi_coverage ends = scwi_coverage_of(ask->trials, ask->level);
  double low = scwi_value_of_rank(r->least + first, ask->trials, ends.low);
  double high = scwi_value_of_rank(r->most + first, ask->trials, ends.high);
  out->points = scwi_interval(low, high, ask->level);
}

double scwi_ladder_reach(const scw_rule *ladder, double ok_at, double gone_by) {
  double most = ladder->n_rungs ? ladder->rung[ladder->n_rungs - 1].passes : 0;
  return fmax(ok_at, isfinite(gone_by) ? nextafter(gone_by, 0) : most);
}

double scwi_standings_trials(size_t n, double level) {
  double pairs = (double)n * ((double)n - 1) / 2;
  return ceil(4 * pairs / (1 - level)); /* half of the limit at the least p */
}

static bool any_open(const scwi_standings_ask *ask) {
  for (size_t i = 0; i < ask->products * ask->parts; i++) {
    const scwi_standing_part *part = &ask->part[i];
    if (part->rule->kind != SCW_RULE_LADDER) continue;
    double reach = scwi_ladder_reach(part->rule, part->ok_at, part->gone_by);
    if (scwi_rule_points(part->rule, reach) !=
        scwi_rule_points(part->rule, part->ok_at))
      return true;
  }
  return false;
}

static scw_status make(scw_context *context, const scwi_standings_ask *ask,
                       run *r, scwi_standing *out) {
  scw_status status = SCWI_ALLOCATE(context, ask->n_measured * BLOCK, &r->drawn);
  if (!status) status = SCWI_ALLOCATE(context, BLOCK, &r->room);
  if (!status)
    status = SCWI_ALLOCATE(context, ask->products * ask->trials, &r->total);
  r->least = r->most = r->total;
  if (!status && any_open(ask)) {
    r->least = r->most = NULL;
    status = SCWI_ALLOCATE(context, ask->products * ask->trials, &r->least);
    if (!status)
      status = SCWI_ALLOCATE(context, ask->products * ask->trials, &r->most);
  }
  for (size_t i = 0; i < ask->products; i++) out[i] = (scwi_standing){0};
  for (size_t i = 0; i < ask->products && !status; i++) {
    status = SCWI_ALLOCATE(context, ask->products, &out[i].tied);
    if (!status) status = SCWI_ALLOCATE(context, ask->products, &out[i].chance);
  }
  scwi_ziggurat_make(&r->ziggurat);
  return status;
}

scw_status scwi_standings(scw_context *context, const scwi_standings_ask *ask,
                          scwi_standing *out) {
  run *r = NULL;
  sums *room = NULL;
  double *ahead = NULL;
  scw_status status = SCWI_ALLOCATE(context, 1, &r);
  if (status) return status;
  r->ask = ask;
  status = make(context, ask, r, out);
  if (!status)
    status = SCWI_ALLOCATE(context, ask->products * ask->products, &ahead);
  if (!status) status = SCWI_ALLOCATE(context, 1, &room);
  for (size_t b = 0; b * BLOCK < ask->trials && !status; b++)
    take_block(r, b, room);
  if (!status) count(r, ahead, out);
  if (!status) status = adjust(context, ask, ahead);
  if (!status) place_all(ask, ahead, out);
  for (size_t i = 0; i < ask->products; i++) {
    if (status)
      scwi_standing_free(&out[i]);
    else
      interval_of(r, i, &out[i]);
  }
  free(ahead);
  free(r->drawn);
  free(r->room);
  free(room);
  if (r->least != r->total) free(r->least);
  if (r->most != r->total) free(r->most);
  free(r->total);
  free(r);
  return status;
}

void scwi_standing_free(scwi_standing *standing) {
  free(standing->tied);
  free(standing->chance);
  *standing = (scwi_standing){0};
}
