/* SPDX-License-Identifier: GPL-3.0-or-later */
/* By what a claim can be judged: its change and the uncertainty of it. */
#include <float.h>
#include <math.h>

#include "audit_inside.h"
#include "decimal.h"
#include "distributions.h"
#include "figure.h"
#include "moments.h"

/* One side as it counts: of readings where there are any. */
typedef struct side {
  bool has;
  double mean, sd; /* sd NaN: no scatter on file */
  size_t n;
  double step;
  double printed; /* standard uncertainty of the mean by its last decimal */
} side;

/* Of the last decimal. */
static double unit_of(const scw_stated *number) {
  return number->has ? pow(10, -number->digits) : 0;
}

/* Of a multiple of q/n printed in units D of its last decimal, as a standard
 * uncertainty: sqrt((D^2 - (q/n)^2)/12), nothing where D holds all of it. A
 * mean printed to whole units knows no better than that, whatever its SD. */
static double printed_u(const scw_stated *number, size_t n, double step) {
  double unit = unit_of(number), own = n ? step / (double)n : 0;
  return sqrt(fmax(0, unit * unit - own * own) / 12);
}

static scwi_uncertainty with_printed(scwi_uncertainty u, double printed) {
  if (!(printed > 0)) return u;
  return scwi_uncertainty_sum(u, (scwi_uncertainty){printed, INFINITY});
}

static double stated_sd(const scwi_record *r, int i) {
  if (!r->scatter[i].has || r->n[i] < 2) return NAN;
  double sd = r->scatter[i].value;
  return r->standard_error ? sd * sqrt((double)r->n[i]) : sd;
}

static side side_of(const scw_audit *audit, const scwi_record *r,
                    const scwi_facts *facts, int i) {
  const scwi_record_side *own = &r->readings[i];
  double file_step = audit->step.size;
  side out = {.has = r->mean[i].has, .mean = r->mean[i].value,
              .sd = stated_sd(r, i), .n = r->n[i], .step = facts->step[i],
              .printed = printed_u(&r->mean[i], r->n[i], facts->step[i])};
  if (own->n)
    out = (side){true, own->mean, own->n > 1 ? own->sd : NAN, own->n,
                 facts->step[i] > 0 ? facts->step[i] : file_step, 0};
  if (!facts->convert) return out;
  double factor = fabs(audit->options.factor);
  out.mean = audit->options.offset + audit->options.factor * out.mean;
  out.sd *= factor;
  out.step *= factor;
  out.printed *= factor;
  return out;
}

static scw_figure converted_change(const scw_audit *audit,
                                   const scwi_facts *facts, double change) {
  return scwi_figure(facts->convert ? audit->options.factor * change : change);
}

static void set_sides(scwi_judged *out, const side *before, const side *after) {
  const side *both[] = {before, after};
  for (int i = 0; i < 2; i++) {
    out->sd[i] = both[i]->sd;
    out->n[i] = both[i]->n;
    out->step[i] = both[i]->step;
  }
}

/* Both means are on file. */
static void by_means(const scw_audit *audit, const scwi_record *r,
                     const scwi_facts *facts, side before, side after,
                     scwi_judged *out) {
  bool scatter[] = {!isnan(before.sd), !isnan(after.sd)};
  double factor = facts->convert ? fabs(audit->options.factor) : 1;
  bool own = r->readings[0].n && r->readings[1].n; /* means are no decimals */
  out->change = scwi_figure(
      own ? after.mean - before.mean
          : scwi_decimal_difference(after.mean, before.mean));
  set_sides(out, &before, &after);
  if (scatter[0] && scatter[1]) {
    out->design = own ? SCW_BY_READINGS : SCW_BY_SUMMARY;
    out->u = with_printed(
        scwi_uncertainty_sum(
            scwi_mean_uncertainty(before.sd, before.n, before.step),
            scwi_mean_uncertainty(after.sd, after.n, after.step)),
        hypot(before.printed, after.printed));
    return;
  }
  if (!before.n && scatter[1]) {
    out->design = SCW_BY_BASELINE;
    out->u = with_printed(
        scwi_mean_uncertainty(after.sd, after.n, after.step), after.printed);
    return;
  }
  if (!before.n || !after.n) {
    out->design = SCW_NOT_N;
    return;
  }
  if (facts->bank) {
    const scwi_bank_side sides[] = {{before.n, before.step},
                                    {after.n, after.step}};
    out->design = SCW_BY_BANK;
    out->u = with_printed(scwi_bank_uncertainty(audit->bank, sides, 2),
                          hypot(before.printed, after.printed));
    out->sd[0] = out->sd[1] = audit->bank.sd;
    return;
  }
  /* two bare means are known to the coarser of display and print */
  for (int i = 0; i < 2; i++)
    out->step[i] = fmax(out->step[i], unit_of(&r->mean[i]) * factor);
  out->design =
      before.n + after.n < 3 ? SCW_NOT_ONE : SCW_BY_BREAK_EVEN;
}

/* Only the change is stated: with the SD of its differences, or without. */
static void by_change(const scw_audit *audit, const scwi_record *r,
                      const scwi_facts *facts, scwi_judged *out) {
  size_t n = r->n[1];
  double sd = stated_sd(r, 1), factor = facts->convert
                                            ? fabs(audit->options.factor)
                                            : 1;
  out->change = converted_change(audit, facts, r->change.value);
  out->n[0] = out->n[1] = n;
  out->step[0] = out->step[1] = facts->step[1] * factor;
  if (n == 0) {
    out->design = SCW_NOT_N;
  } else if (!isnan(sd)) {
    out->design = SCW_BY_PAIRS;
    out->sd[0] = out->sd[1] = sd * factor;
    out->u = with_printed(
        scwi_difference_uncertainty(sd * factor, n,
                                    (scwi_display){out->step[0], 0}),
        factor * printed_u(&r->change, n, facts->step[1]));
  } else if (facts->bank) {
    const scwi_bank_side sides[] = {{n, out->step[0]}, {n, out->step[1]}};
    out->design = SCW_BY_BANK;
    out->u = with_printed(scwi_bank_uncertainty(audit->bank, sides, 2),
                          factor * printed_u(&r->change, n, facts->step[1]));
    out->sd[0] = out->sd[1] = audit->bank.sd;
  } else {
    out->step[1] = fmax(out->step[1], unit_of(&r->change) * factor);
    out->design = n < 2 ? SCW_NOT_ONE : SCW_BY_BREAK_EVEN;
  }
}

/* Only points: the change nearest to zero that the rule gives them for. */
static void by_points(const scwi_record *r, const scwi_facts *facts,
                      scwi_judged *out) {
  const scw_rule *rule = facts->rule;
  double half = 0.5 * pow(10, -r->points.digits);
  if (!rule) {
    out->design = SCW_NOT_RULE;
    return;
  }
  half = fmax(half, rule->rounding.points / 2);
  double least = r->points.value - half, most = r->points.value + half;
  if (rule->kind != SCW_RULE_DIFFERENCE || least <= rule->low ||
      most >= rule->high) {
    out->design = SCW_NOT_INVERTED;
    return;
  }
  double a = (least - rule->offset) * (rule->per / rule->points);
  double b = (most - rule->offset) * (rule->per / rule->points);
  bool spans = (a < 0) != (b < 0);
  out->change = scwi_figure(spans ? 0 : fabs(a) < fabs(b) ? a : b);
  out->n[0] = r->n[0];
  out->n[1] = r->n[1];
  out->step[0] = facts->step[0];
  out->step[1] = facts->step[1];
  out->design = !r->n[0] || !r->n[1]  ? SCW_NOT_N
                : r->n[0] + r->n[1] < 3 ? SCW_NOT_ONE
                                        : SCW_BY_POINTS;
}

static void choose(const scw_audit *audit, const scwi_record *r,
                   const scwi_facts *facts, scwi_judged *out) {
  side before = side_of(audit, r, facts, 0);
  side after = side_of(audit, r, facts, 1);
  if (r->paired) {
    out->design = SCW_BY_PAIRS;
    out->change = converted_change(audit, facts, r->paired_change);
    out->u = (scwi_uncertainty){r->paired_u, r->paired_df};
    if (facts->convert) out->u.u *= fabs(audit->options.factor);
    set_sides(out, &before, &after);
    out->sd[0] = out->sd[1] = r->paired_u * sqrt(r->paired_df + 1);
    out->n[0] = out->n[1] = (size_t)r->paired_df + 1;
  } else if (before.has && after.has) {
    by_means(audit, r, facts, before, after, out);
  } else if (r->change.has) {
    by_change(audit, r, facts, out);
  } else if (r->points.has) {
    by_points(r, facts, out);
  } else {
    out->design = SCW_NOT_FIGURES;
  }
}

static double p_of(double t, double df) {
  return isinf(df) ? 2 * scwi_normal_upper(t) : 2 * scwi_t_upper(t, df);
}

/* A bare number counts as shown in steps of its last decimal. */
static bool can_stand(const scw_audit *audit, const scwi_record *r,
                      scwi_judged *out) {
  double size = fabs(out->change.value);
  if (out->design == SCW_BY_BREAK_EVEN || out->design == SCW_BY_POINTS)
    return size > (out->step[0] + out->step[1]) / 2;
  if (out->design != SCW_BY_BASELINE) return false;
  if (!(out->step[0] > 0)) out->step[0] = pow(10, -r->mean[0].digits);
  double left = size - out->step[0] / 2;
  return left > 0 && p_of(left / out->u.u, out->u.df) < 1 - audit->settings.level;
}

void scwi_audit_judge(const scw_audit *audit, const scwi_record *record,
                      const scwi_facts *facts, scwi_judged *out) {
  *out = (scwi_judged){.change = scwi_missing(SCW_NOT_COMPUTED)};
  choose(audit, record, facts, out);
  if (facts->meters_differ) out->design = SCW_NOT_METERS;
  if (facts->panels_differ) out->design = SCW_NOT_PANELS;
  bool needs_u = out->design <= SCW_BY_BANK || out->design == SCW_BY_BASELINE;
  if (needs_u && !(out->u.u > 0)) out->design = SCW_NOT_SCATTER;
  out->by_p = out->design <= SCW_BY_BANK;
  out->stands = can_stand(audit, record, out);
}

double scwi_judged_p(const scwi_judged *judged) {
  double p = p_of(fabs(judged->change.value) / judged->u.u, judged->u.df);
  return fmax(DBL_MIN, fmin(1, p));
}
