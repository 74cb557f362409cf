/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every design that could be among the best, looked at once. What cannot be is
 * cut off by a bound: with the levels below costing nothing but one each and
 * scattering nothing at all, the units needed times what one then costs. Around
 * the best real numbers (Cochran 1977, Sampling Techniques, section 10.6, from
 * memory) costs are flat, so most designs are cut. */
#include "design.h"

#include "figure.h"
#include "smallest.h"

enum { MOST_LOWER = 1000 };

/* Near the best: so much dearer. */
#define NEAR 1.1

typedef struct search {
  scw_context *context;
  const scwi_design_task *task;
  const scwi_design_scatter *scatter;
  scw_plan_level top;
  scwi_design *designs;  /* the best so far, cheapest first */
  size_t most, n;
} search;

/* Units needed when each has this variance. */
typedef struct units {
  const scwi_design_task *task;
  double variance;
} units;

static scw_status reached(scw_context *context, void *parameters, size_t n,
                          bool *there) {
  const units *u = parameters;
  const scwi_design_task *task = u->task;
  scwi_uncertainty found = scwi_design_uncertainty(task, u->variance, n);
  double value;
  scw_status status;
  switch (task->goal.kind) {
    case SCW_PLAN_HALF_WIDTH:
      status = scwi_critical(context, found.df, task->level, &value);
      *there = status == SCW_OK && value * found.u <= task->goal.target;
      return status;
    case SCW_PLAN_WITHIN:
      status = scwi_chance_inside(context, found, task->level, 0,
                                  task->goal.target, &value);
      break;
    default:
      status = scwi_chance_to_exclude(context, found, task->level,
                                      task->goal.target, &value);
  }
  *there = status == SCW_OK && value >= task->goal.power;
  return status;
}

/* Smallest number of units, at least 3; 0: more than `most`. */
static scw_status units_for(const search *s, double variance, size_t most,
                            size_t *n) {
  units u = {s->task, variance};
  bool there = false;
  *n = 0;
  if (most < SCWI_PLAN_LEAST) return SCW_OK;
  if (most < SCWI_PLAN_MOST) { /* a bound: most designs end here */
    scw_status status = reached(s->context, &u, most, &there);
    if (status != SCW_OK || !there) return status;
  }
  return scwi_smallest(s->context, reached, &u, SCWI_PLAN_LEAST,
                       SCWI_PLAN_LEAST, most, n);
}

/* What a design may cost and still be shown. */
static double dearest(const search *s) {
  if (s->n == 0) return INFINITY;
  double near = NEAR * s->designs[0].cost;
  return s->n == s->most ? fmin(near, s->designs[s->n - 1].cost) : near;
}

static double readings_in(const scwi_design *design) {
  double readings = 1;
  for (int level = 0; level < SCW_LEVEL_COUNT; level++)
    readings *= (double)design->count[level];
  return readings;
}

static bool better(const scwi_design *a, const scwi_design *b) {
  if (fabs(a->cost - b->cost) > 1e-12 * b->cost) return a->cost < b->cost;
  return readings_in(a) < readings_in(b);
}

/* `b` is `a` and more of something, which only costs more. */
static bool is_more(const scwi_design *a, const scwi_design *b) {
  for (int level = 0; level < SCW_LEVEL_COUNT; level++)
    if (b->count[level] < a->count[level]) return false;
  return true;
}

/* Designs come with smaller counts first, so what one is more of is known. */
static void keep(search *s, scwi_design one) {
  size_t at = 0;
  for (size_t i = 0; i < s->n; i++)
    if (is_more(&s->designs[i], &one)) return;
  while (at < s->n && !better(&one, &s->designs[at]))
    at++;
  if (at == s->most) return;
  if (s->n < s->most) s->n++;
  for (size_t i = s->n - 1; i > at; i--)
    s->designs[i] = s->designs[i - 1];
  s->designs[at] = one;
}

/* Spots that a panel, or a half, has room for. */
static size_t room_of(const search *s) {
  size_t fits = s->task->fits;
  if (fits == 0) return SCWI_PLAN_MOST;
  return s->task->form == SCWI_CONTROL_HALF ? fits / 2 : fits;
}

/* How often a level may occur when those between it and the top are chosen. */
static size_t most_at(const search *s, const scwi_design *design, int level) {
  bool on_one_panel = level == SCW_LEVEL_SESSION || level == SCW_LEVEL_SPOT;
  bool is_top = level == (int)s->top;
  size_t most = is_top ? SCWI_PLAN_MOST : MOST_LOWER, room = room_of(s);
  if (!on_one_panel) return most;
  if (level == SCW_LEVEL_SPOT && !is_top)
    room /= s->top == SCW_LEVEL_SESSION ? 1 : design->count[SCW_LEVEL_SESSION];
  if (level == SCW_LEVEL_SESSION && is_top) room /= design->count[SCW_LEVEL_SPOT];
  return room < most ? room : most;
}

/* A design whose lower levels are chosen. */
static scw_status try_units(search *s, scwi_design *design, size_t *needed) {
  design->count[s->top] = 1;
  double each = scwi_design_cost(s->task, design);
  double affordable = floor(dearest(s) / each * (1 + 1e-12));
  size_t most = most_at(s, design, (int)s->top);
  if (affordable < (double)most) most = (size_t)affordable;
  double variance = scwi_design_unit_variance(s->scatter, design);
  scw_status status = units_for(s, variance, most, needed);
  if (status != SCW_OK || *needed == 0) return status;
  design->count[s->top] = *needed;
  design->cost = scwi_design_cost(s->task, design);
  keep(s, *design);
  return SCW_OK;
}

/* Chooses the count of `level` and, through itself, of those below. `variance`
 * is that of a unit as far as it is settled by the levels above. */
static scw_status choose(search *s, int level, double variance, double items,
                         scwi_design *design) {
  size_t fewest;
  if (level == SCW_LEVEL_COUNT) return try_units(s, design, &fewest);
  scw_status status =
      units_for(s, variance, most_at(s, design, (int)s->top), &fewest);
  if (status != SCW_OK || fewest == 0) return status;
  size_t most = s->scatter->told_apart[level] ? most_at(s, design, level) : 1;
  for (size_t count = 1; count <= most && status == SCW_OK; count++) {
    design->count[level] = count;
    for (int below = level + 1; below < SCW_LEVEL_COUNT; below++)
      design->count[below] = 1;
    design->count[s->top] = fewest;
    if (scwi_design_cost(s->task, design) > dearest(s) * (1 + 1e-12)) break;
    double here = items * (double)count;
    status = choose(s, level + 1,
                    variance + s->scatter->variance[level] / here, here,
                    design);
    /* More repeats would only cost more. */
    if (level == SCW_LEVEL_REPEAT && design->count[s->top] == fewest) break;
  }
  return status;
}

/* Would any number do, were there room and no limit? */
static scw_status why_none(const search *s, scw_presence *why) {
  units u = {s->task, s->scatter->variance[s->top]};
  bool ever;
  scw_status status = reached(s->context, &u, SCWI_ENDLESS, &ever);
  *why = ever && !s->task->fits ? SCW_TOO_MANY : SCW_NEVER;
  return status;
}

scw_status scwi_best_designs(scw_context *context,
                             const scwi_design_task *task,
                             const scwi_design_scatter *scatter,
                             scwi_design *designs, size_t most, size_t *n,
                             scw_presence *why) {
  search s = {.context = context,
              .task = task,
              .scatter = scatter,
              .top = scwi_design_top(scatter),
              .designs = designs,
              .most = most};
  scwi_design design = {.cost = 0};
  for (int level = 0; level < SCW_LEVEL_COUNT; level++)
    design.count[level] = 1;
  scw_status status = choose(&s, (int)s.top + 1, scatter->variance[s.top], 1,
                             &design);
  *n = s.n;
  *why = SCW_PRESENT;
  while (*n > 1 && designs[*n - 1].cost > NEAR * designs[0].cost * (1 + 1e-12))
    --*n;
  return status == SCW_OK && s.n == 0 ? why_none(&s, why) : status;
}
