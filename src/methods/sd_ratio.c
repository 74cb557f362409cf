/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sd_ratio.h"

#include "distributions.h"
#include "figure.h"

scw_status scwi_sd_ratio(scw_context *context, scwi_moments before,
                         scwi_moments after, double level, scw_sd_ratio *out) {
  bool enough = before.n >= 2 && after.n >= 2;
  scw_presence why = enough ? SCW_NO_SCATTER : SCW_ONE_READING;
  *out = (scw_sd_ratio){scwi_missing(why), scwi_no_interval(why, level)};
  if (!enough || before.sd <= 0 || after.sd <= 0) return SCW_OK;
  double ratio = after.sd / before.sd, tail = (1 - level) / 2, low, high;
  double df_before = (double)before.n - 1, df_after = (double)after.n - 1;
  scw_status status = scwi_f_quantile(context, tail, df_after, df_before, &low);
  if (status == SCW_OK)
    status = scwi_f_upper_quantile(context, tail, df_after, df_before, &high);
  if (status != SCW_OK) return status;
  out->ratio = scwi_figure(ratio);
  out->interval = scwi_interval(ratio / sqrt(high), ratio / sqrt(low), level);
  return SCW_OK;
}
