/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a budget takes from a log. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "context.h"
#include "figure.h"
#include "scatterwise/drift.h"

enum { LONGEST_NAME = 40 };

static bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static bool is_name(const char *name) {
  size_t n = strlen(name);
  bool good = n > 0 && n <= LONGEST_NAME && is_letter(name[0]);
  for (size_t i = 1; i < n && good; i++)
    good = is_letter(name[i]) || (name[i] >= '0' && name[i] <= '9');
  return good;
}

static void add_bias(const scw_estimate *bias, scw_drift_inputs *out) {
  if (bias->interval.state != SCW_PRESENT) return;
  bool t = scwi_present(bias->df);
  out->about[out->n] = "mean of the check standard less its assigned value";
  out->shared[out->n] = SCW_SHARED;
  out->given[out->n++] = (scw_budget_given){
      .name = out->bias_name,
      .kind = t ? SCW_KIND_T : SCW_KIND_NORMAL,
      .value = bias->estimate.value,
      .uncertainty = bias->standard_uncertainty.value,
      .df = t ? bias->df.value : 0};
}

static void add_drift(scw_figure half_width, scw_drift_inputs *out) {
  if (!scwi_present(half_width) || !(half_width.value > 0)) return;
  out->about[out->n] = "what the check log allows between two checks";
  out->shared[out->n] = SCW_NOT_SHARED;
  out->given[out->n++] = (scw_budget_given){.name = out->drift_name,
                                            .kind = SCW_KIND_RECTANGULAR,
                                            .half_width = half_width.value};
}

scw_status scw_drift_inputs_of(scw_context *context, const scw_drift_log *log,
                               const char *name, scw_drift_inputs *out) {
  *out = (scw_drift_inputs){.n = 0};
  if (!is_name(name))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "'%.60s' is no name for an input: use letters, digits and "
                     "_, a letter first, at most %d of them",
                     name, LONGEST_NAME);
  snprintf(out->bias_name, sizeof out->bias_name, "%s_bias", name);
  snprintf(out->drift_name, sizeof out->drift_name, "%s_drift", name);
  add_bias(&log->bias, out);
  add_drift(log->drift_half_width, out);
  return SCW_OK;
}
