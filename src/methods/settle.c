/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "settle.h"

#include "figure.h"
#include "smallest.h"

/* Above both of these it is more than is practical. */
enum { PRACTICAL_TIMES = 10, PRACTICAL = 200, LEAST = 3 };

typedef struct question {
  const scwi_comparison *comparison;
  double change, power;
  scw_figure margin;
} question;

static scw_status told(scw_context *context, void *parameters, size_t n,
                       bool *reached) {
  const question *q = parameters;
  const scwi_comparison *c = q->comparison;
  double chance;
  scwi_uncertainty u = scwi_comparison_uncertainty(c, n, n);
  scw_status status =
      scwi_present(q->margin)
          ? scwi_chance_to_tell(context, u, c->level, q->change,
                                q->margin.value, &chance)
          : scwi_chance_to_exclude(context, u, c->level, q->change, &chance);
  *reached = status == SCW_OK && chance >= q->power;
  return status;
}

/* A change computed from decimals lies at the margin up to rounding. */
static bool at_margin(double change, scw_figure margin) {
  return scwi_present(margin) &&
         fabs(fabs(change) - margin.value) <= 1e-12 * margin.value;
}

/* Why no search is needed, or SCW_PRESENT. */
static scw_presence obstacle(const question *q, size_t smaller) {
  const scwi_comparison *c = q->comparison;
  if (smaller < 2) return SCW_ONE_READING;
  if (q->change == 0 && !scwi_present(q->margin)) return SCW_ZERO_CHANGE;
  if (at_margin(q->change, q->margin)) return SCW_NEVER;
  if (scwi_comparison_uncertainty(c, smaller, smaller).u <= 0)
    return SCW_NO_SCATTER;
  return SCW_PRESENT;
}

/* Why not even endless readings tell: without the fixed part they would, or
 * they would not either. */
static scw_status why_never(scw_context *context, const question *q,
                            scw_presence *why) {
  scwi_comparison without = *q->comparison;
  question other = *q;
  bool ever = false;
  scw_status status = SCW_OK;
  without.fixed.u = 0;
  other.comparison = &without;
  if (q->comparison->fixed.u > 0)
    status = told(context, &other, SCWI_ENDLESS, &ever);
  *why = ever ? SCW_INSTRUMENTS : SCW_NEVER;
  return status;
}

static scw_status search(scw_context *context, question *q, size_t smaller,
                         size_t larger, scw_settle *out) {
  size_t most = larger > PRACTICAL / PRACTICAL_TIMES ? PRACTICAL_TIMES * larger
                                                     : PRACTICAL;
  size_t least = smaller < LEAST ? LEAST : smaller + 1, n;
  scw_status status =
      scwi_smallest(context, told, q, 2 * smaller, least, most, &n);
  if (status != SCW_OK) return status;
  if (n) {
    out->total = scwi_figure((double)n);
    out->more = scwi_figure((double)(n - smaller));
    return SCW_OK;
  }
  bool ever = true;
  scw_presence why = SCW_TOO_MANY;
  if (scwi_has_floor(q->comparison))
    status = told(context, q, SCWI_ENDLESS, &ever);
  if (status == SCW_OK && !ever) status = why_never(context, q, &why);
  if (status == SCW_OK) out->total = out->more = scwi_missing(why);
  return status;
}

scw_status scwi_settle(scw_context *context, const scwi_comparison *comparison,
                       double change, scw_figure margin, size_t n_before,
                       size_t n_after, double power, scw_settle *out) {
  bool paired = comparison->paired;
  size_t smaller = paired || n_before < n_after ? n_before : n_after;
  size_t larger = paired || n_before > n_after ? n_before : n_after;
  question q = {comparison, change, power, margin};
  scw_presence why = obstacle(&q, smaller);
  *out = (scw_settle){.per_spot = paired,
                      .chance = power,
                      .total = scwi_missing(why),
                      .more = scwi_missing(why)};
  if (why != SCW_PRESENT) return SCW_OK;
  out->total = out->more = scwi_missing(SCW_NOT_COMPUTED);
  return search(context, &q, smaller, larger, out);
}
