/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Arithmetic and rounding of a claim's own figures. */
#include <math.h>

#include "audit_inside.h"
#include "figure.h"
#include "recompute.h"

#define BIT(fault) (1U << (fault))

static scwi_shown_number shown(const scw_stated *number) {
  return (scwi_shown_number){number->value, number->digits};
}

static scw_interval exactly(double value) {
  return scwi_interval(value, value, 1);
}

static bool differs(const scw_stated *number, double value) {
  return number->has &&
         scwi_shown_follows(shown(number), exactly(value)) != SCWI_FOLLOWS;
}

/* Stated figures against the readings themselves. */
static uint32_t against_readings(const scwi_record *r, int side) {
  const scwi_record_side *own = &r->readings[side];
  double sd = own->sd;
  uint32_t faults = 0;
  if (r->standard_error) sd /= sqrt((double)own->n);
  if (differs(&r->mean[side], own->mean))
    faults |= BIT(SCW_FAULT_MEAN_BEFORE_DIFFERS) << side;
  if (own->n > 1 && differs(&r->scatter[side], sd))
    faults |= BIT(SCW_FAULT_SCATTER_BEFORE_DIFFERS) << side;
  if (r->n[side] && r->n[side] != own->n)
    faults |= BIT(SCW_FAULT_N_BEFORE_DIFFERS) << side;
  return faults;
}

/* What else an impossible mean may be. */
static uint32_t mean_hint(scwi_shown_number mean, size_t n, double step) {
  if (!scwi_mean_impossible(scwi_shown_cut_off(mean), n, step))
    return BIT(SCW_FAULT_CUT_OFF);
  bool other = (n > 1 && !scwi_mean_impossible(mean, n - 1, step)) ||
               !scwi_mean_impossible(mean, n + 1, step);
  return other ? BIT(SCW_FAULT_OTHER_N) : 0;
}

static bool scatter_fits(scwi_shown_number mean, scwi_shown_number scatter,
                         scwi_scatter_of of, size_t n, double step) {
  return n > 1 && !scwi_mean_impossible(mean, n, step) &&
         !scwi_scatter_impossible(mean, scatter, of, n, step);
}

/* What else an impossible scatter may be: the likeliest one. */
static uint32_t scatter_hint(scwi_shown_number mean, scwi_shown_number scatter,
                             scwi_scatter_of of, size_t n, double step) {
  bool sd = of == SCWI_SAMPLE_SD;
  if (sd && scatter_fits(mean, scatter, SCWI_POPULATION_SD, n, step))
    return BIT(SCW_FAULT_POPULATION_SD);
  if (sd && scatter_fits(mean, scatter, SCWI_STANDARD_ERROR, n, step))
    return BIT(SCW_FAULT_STANDARD_ERROR);
  if (scatter_fits(mean, scwi_shown_cut_off(scatter), of, n, step))
    return BIT(SCW_FAULT_CUT_OFF);
  if (scatter_fits(mean, scatter, of, n - 1, step) ||
      scatter_fits(mean, scatter, of, n + 1, step))
    return BIT(SCW_FAULT_OTHER_N);
  return 0;
}

/* Stated figures that no readings on the step have; what else would fit. */
static uint32_t possible(const scwi_record *r, double step, int side) {
  scwi_shown_number mean = shown(&r->mean[side]);
  scwi_shown_number scatter = shown(&r->scatter[side]);
  size_t n = r->n[side];
  if (!r->mean[side].has || n == 0 || !(step > 0)) return 0;
  if (scwi_mean_impossible(mean, n, step))
    return BIT(SCW_FAULT_MEAN_BEFORE) << side | mean_hint(mean, n, step);
  scwi_scatter_of of = r->standard_error ? SCWI_STANDARD_ERROR : SCWI_SAMPLE_SD;
  if (!r->scatter[side].has || n < 2 ||
      !scwi_scatter_impossible(mean, scatter, of, n, step))
    return 0;
  return BIT(SCW_FAULT_SCATTER_BEFORE) << side |
         scatter_hint(mean, scatter, of, n, step);
}

/* Everything the change may be by what is on file. */
static scw_interval change_range(const scwi_record *r) {
  scw_interval side[2];
  for (int i = 0; i < 2; i++) {
    if (r->readings[i].n)
      side[i] = exactly(r->readings[i].mean);
    else if (r->mean[i].has)
      side[i] = scwi_shown_range(shown(&r->mean[i]));
    else
      return scwi_no_interval(SCW_NOT_COMPUTED, 1);
  }
  if (r->paired) return exactly(r->paired_change);
  if (r->mean[0].has && r->mean[1].has) {
    /* made of the printed means, or of those behind them */
    scw_interval printed =
        scwi_change_range(shown(&r->mean[0]), shown(&r->mean[1]));
    if (!r->readings[0].n && !r->readings[1].n) return printed;
    return scwi_interval(fmin(printed.low, side[1].low - side[0].high),
                         fmax(printed.high, side[1].high - side[0].low), 1);
  }
  return scwi_interval(side[1].low - side[0].high, side[1].high - side[0].low,
                       1);
}

static uint32_t fault_of(scwi_follows follows, scw_fault none, scw_fault sign,
                         scw_fault cut) {
  switch (follows) {
    case SCWI_FOLLOWS: return 0;
    case SCWI_CUT_OFF: return BIT(cut);
    case SCWI_SIGN_REVERSED: return BIT(sign);
    default: return BIT(none);
  }
}

/* Points by the rule from whatever the change may be. */
static uint32_t points_fault(const scwi_record *r, const scw_rule *rule,
                             scw_interval change) {
  scw_interval quantity = change;
  if (!rule || !r->points.has) return 0;
  if (rule->kind == SCW_RULE_MEAN || rule->kind == SCW_RULE_MARKS) {
    if (r->readings[1].n)
      quantity = exactly(r->readings[1].mean);
    else if (r->mean[1].has)
      quantity = scwi_shown_range(shown(&r->mean[1]));
    else
      return 0;
  } else if (rule->kind != SCW_RULE_DIFFERENCE) {
    return 0;
  } else if (quantity.state != SCW_PRESENT) {
    if (!r->change.has) return 0;
    quantity = scwi_shown_range(shown(&r->change));
  } else if (r->change.has) {
    /* the printed change itself may have been scored */
    scw_interval printed = scwi_shown_range(shown(&r->change));
    quantity.low = fmin(quantity.low, printed.low);
    quantity.high = fmax(quantity.high, printed.high);
  }
  if (rule->kind == SCW_RULE_DIFFERENCE && r->readings[0].n &&
      r->readings[1].n && !r->paired) {
    /* or that of the means rounded in the publisher's order */
    scw_figure own = scwi_rule_published(rule, r->readings[0].mean,
                                         r->readings[1].mean).quantity;
    quantity.low = fmin(quantity.low, own.value);
    quantity.high = fmax(quantity.high, own.value);
  }
  scw_interval rounded =
      scwi_rule_published_image(rule, quantity.low, quantity.high);
  return fault_of(scwi_shown_follows(shown(&r->points), rounded),
                  SCW_FAULT_POINTS, SCW_FAULT_POINTS_SIGN,
                  SCW_FAULT_POINTS_CUT);
}

uint32_t scwi_audit_faults(const scwi_record *record,
                           const scwi_facts *facts) {
  uint32_t faults = 0;
  for (int side = 0; side < 2; side++)
    faults |= record->readings[side].n
                  ? against_readings(record, side)
                  : possible(record, facts->step[side], side);
  scw_interval change = change_range(record);
  if (record->change.has && change.state == SCW_PRESENT)
    faults |= fault_of(scwi_shown_follows(shown(&record->change), change),
                       SCW_FAULT_CHANGE, SCW_FAULT_CHANGE_SIGN,
                       SCW_FAULT_CHANGE_CUT);
  return faults | points_fault(record, facts->rule, change);
}
