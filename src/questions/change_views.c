/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_views.h"

#include "equivalence.h"
#include "hodges_lehmann.h"
#include "permutation.h"
#include "sd_ratio.h"

static scw_status view_pairs(scw_context *context, const scwi_change_case *one,
                             scw_change_report *out) {
  scwi_values differences = {0};
  scw_status status = scwi_arm_differences(context, one->view, &differences);
  if (status) return status;
  scwi_sample sample = scwi_values_sample(&differences, one->step);
  status = scwi_permutation_paired(context, &sample, &out->permutation);
  if (!status)
    status = scwi_hodges_lehmann_paired(
        context, &sample, one->settings->level, &out->hodges_lehmann);
  scwi_values_free(&differences);
  return status;
}

static scw_status view_sides(scw_context *context, const scwi_change_case *one,
                             scw_change_report *out) {
  scwi_sample before = scwi_values_sample(&one->view->before, one->step);
  scwi_sample after = scwi_values_sample(&one->view->after, one->step);
  scw_status status = scwi_permutation_unpaired(context, &before, &after,
                                                &out->permutation);
  if (status) return status;
  return scwi_hodges_lehmann_unpaired(
      context, &before, &after, one->settings->level, &out->hodges_lehmann);
}

scw_status scwi_change_views(scw_context *context, const scwi_change_case *one,
                             scw_change_report *out) {
  const scwi_arm *arm = one->compared.arm;
  out->tost = scwi_tost(&out->change, out->margin);
  if (scwi_by_numbers(&one->compared)) return SCW_OK;
  scwi_sample before = scwi_values_sample(&arm->before, one->step);
  scwi_sample after = scwi_values_sample(&arm->after, one->step);
  scw_status status =
      scwi_sd_ratio(context, scwi_moments_of(&before), scwi_moments_of(&after),
                    one->settings->level, &out->sd_ratio);
  if (!status && one->view)
    status = one->view->paired ? view_pairs(context, one, out)
                               : view_sides(context, one, out);
  return status;
}
