/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fields.h"

#include "figure.h"

#define FIELD(key, member)                                                     \
  { key, offsetof(scw_summary, member) }

const scwi_field scwi_summary_fields[] = {
    FIELD("mean", mean),
    FIELD("sd", sd),
    FIELD("standard_uncertainty", standard_uncertainty),
    FIELD("standard_uncertainty_scatter", standard_uncertainty_scatter),
    FIELD("df", df),
    FIELD("median", median),
    FIELD("q1", q1),
    FIELD("q3", q3),
    FIELD("mad", mad),
    FIELD("mad_sd", mad_sd),
    FIELD("robust_mean", robust_mean),
    FIELD("robust_sd", robust_sd),
    FIELD("smallest", smallest),
    FIELD("largest", largest),
    FIELD("lag1", serial.lag1),
    FIELD("lag1_p", serial.lag1_p),
    FIELD("rank_von_neumann", serial.rank_von_neumann)};

const size_t scwi_n_summary_fields =
    sizeof scwi_summary_fields / sizeof *scwi_summary_fields;

scw_figure scwi_step_figure(scw_step step) {
  if (step.origin == SCW_STEP_UNSET) return scwi_missing(SCW_NOT_COMPUTED);
  if (step.origin == SCW_STEP_NOT_KNOWN) return scwi_missing(SCW_STEP_UNKNOWN);
  return scwi_figure(step.size);
}

const char *scwi_step_origin_code(scw_step_origin origin) {
  switch (origin) {
    case SCW_STEP_GIVEN:
      return "given";
    case SCW_STEP_INFERRED:
      return "inferred";
    case SCW_STEP_ASSUMED:
      return "assumed";
    case SCW_STEP_NOT_KNOWN:
      return "not_known";
    default:
      return "unset";
  }
}

const char *scwi_stand_out_code(scw_stand_out_test test) {
  switch (test) {
    case SCW_GRUBBS:
      return "grubbs";
    case SCW_ESD:
      return "generalised_esd";
    case SCW_ALL_EQUAL_BUT_ONE:
      return "all_equal_but_one";
    default:
      return "unknown";
  }
}

const char *scwi_settle_per(const scw_settle *settle) {
  return settle->per_spot ? "spot" : "reading_per_side";
}
