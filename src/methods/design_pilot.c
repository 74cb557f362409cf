/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "design_pilot.h"

#include "figure.h"
#include "nested.h"

scw_status scwi_scatter_of(scw_context *context, const scwi_sample *sample,
                           const scwi_level_labels *labels, double assurance,
                           scw_plan_scatter *out) {
  scw_nested nested;
  *out = (scw_plan_scatter){.assurance = assurance};
  scw_status status =
      scwi_nested(context, sample, labels, assurance, NULL, &nested);
  if (status != SCW_OK) return status;
  out->balanced = nested.balanced;
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    const scw_component *found = &nested.component[level];
    scw_figure limit = found->at_most;
    out->groups[level] = found->groups;
    out->variance[level] = found->variance;
    out->mean_square[level] = found->mean_square;
    out->per_group[level] = found->per_group;
    out->df[level] = found->df;
    out->upper[level] =
        scwi_present(limit) ? scwi_figure(limit.value * limit.value) : limit;
  }
  return SCW_OK;
}

/* How often a component is met. */
static double factor_of(scwi_design_form form, int level, bool of_differences,
                        bool uncancelled) {
  bool control = form == SCWI_CONTROL_HALF;
  if (control && level == SCW_LEVEL_SESSION) return 0;
  if (of_differences || (form != SCWI_PAIRED && !control)) return 1;
  if (level == SCW_LEVEL_PANEL) return 0;
  return level == SCW_LEVEL_SPOT && !uncancelled ? 0 : 2;
}

scwi_design_scatter scwi_design_scatter_of(scwi_design_form form,
                                           const scw_plan_scatter *pilot,
                                           bool upper, bool uncancelled) {
  scwi_design_scatter met = {{0}, {0}};
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    scw_figure found = pilot->variance[level];
    bool shared = form == SCWI_CONTROL_HALF && level == SCW_LEVEL_SESSION;
    met.told_apart[level] = scwi_present(found) && !shared;
    if (upper && scwi_present(pilot->upper[level])) found = pilot->upper[level];
    if (scwi_present(found) && found.value > 0)
      met.variance[level] =
          found.value *
          factor_of(form, level, pilot->of_differences, uncancelled);
  }
  return met;
}

/* The unit's variance is a sum of components over their numbers, a component
 * the difference of two mean squares over the readings in a group. */
double scwi_design_pilot_df(const scw_plan_scatter *pilot,
                            const scwi_design_scatter *met,
                            const scwi_design *design) {
  scw_plan_level top = scwi_design_top(met);
  double items = 1, from_above = 0, sum = 0, squares = 0;
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    scw_figure variance = pilot->variance[level];
    if (level > (int)top) items *= (double)design->count[level];
    if (!scwi_present(variance) || !scwi_present(pilot->df[level])) continue;
    double often = met->variance[level] > 0
                       ? met->variance[level] / variance.value / items
                       : 0;
    double each = often / pilot->per_group[level].value;
    double part = (each - from_above) * pilot->mean_square[level].value;
    from_above = each;
    sum += part;
    squares += part * part / pilot->df[level].value;
  }
  return squares > 0 ? fmax(1, sum * sum / squares) : 1;
}
