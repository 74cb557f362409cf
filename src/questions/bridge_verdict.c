/* SPDX-License-Identifier: GPL-3.0-or-later */
/* May old results stand beside new ones: as they are, or after conversion? */
#include <math.h>

#include "bridge_inside.h"
#include "codes.h"
#include "distributions.h"
#include "figure.h"
#include "intervals.h"
#include "moments.h"

SCWI_CODE_FUNCTION(scw_comparable_code, scw_comparable, SCW_COMPARABLE_LIST,
                   SCWI_KEY, SCW_COMPARABLE_END, "unknown")

SCWI_CODE_FUNCTION(scw_ratio_origin_code, scw_ratio_origin,
                   SCW_RATIO_ORIGIN_LIST, SCWI_KEY, SCW_RATIO_ORIGIN_END,
                   "unknown")

/* The limits with their intervals against the margin: wholly inside, or one of
 * them surely outside. */
static scw_comparable as_they_stand(const scw_bridge_result *result) {
  const scw_limits_of_agreement *limits = &result->agreement;
  if (!scwi_present(result->margin) ||
      limits->low_interval.state != SCW_PRESENT)
    return SCW_COMPARABLE_CANNOT_TELL;
  double margin = result->margin.value;
  if (limits->low_interval.low > -margin && limits->high_interval.high < margin)
    return SCW_COMPARABLE_YES;
  bool beyond = limits->low_interval.high < -margin ||
                limits->high_interval.low > margin;
  return beyond ? SCW_COMPARABLE_NO : SCW_COMPARABLE_CANNOT_TELL;
}

/* A converted result's interval against the margin. It is no where the scatter
 * about the line alone, at its lower limit, is too much: no number of items
 * takes that away. */
static scw_status after_conversion(scw_context *context,
                                   scw_bridge_result *out) {
  const scw_bridge_line *line = scwi_bridge_used(out);
  out->convertible = SCW_COMPARABLE_CANNOT_TELL;
  if (!scwi_present(out->margin) || line->slope_interval.state != SCW_PRESENT ||
      !(line->slope_interval.low > 0))
    return SCW_OK;
  if (out->conversion_half_width.value <= out->margin.value) {
    out->convertible = SCW_COMPARABLE_YES;
    return SCW_OK;
  }
  scw_interval scatter;
  double z = 0, df = (double)(out->pairs - 2);
  scw_status status = scwi_sd_interval(context, line->scatter.value, df,
                                       out->settings.level, &scatter);
  if (!status)
    status = scwi_normal_quantile(context, (1 + out->settings.level) / 2, &z);
  if (!status && z * scatter.low > out->margin.value)
    out->convertible = SCW_COMPARABLE_NO;
  return status;
}

/* The scatter of a single difference at hand: of the pairs, else what repeats
 * of both methods say, which is the least it can be. */
static scwi_uncertainty scatter_at_hand(const scwi_bridge_frame *frame,
                                        const scw_bridge_result *result) {
  const scwi_repeats *of_old = &frame->of_old, *of_new = &frame->of_new;
  if (scwi_present(result->agreement.sd))
    return (scwi_uncertainty){result->agreement.sd.value,
                              result->agreement.df.value};
  if (!(of_old->df > 0) || !(of_new->df > 0))
    return (scwi_uncertainty){0, 0};
  scwi_uncertainty one = {of_old->sd, of_old->df};
  scwi_uncertainty other = {of_new->sd, of_new->df};
  return scwi_uncertainty_sum(one, other);
}

static scw_status plan(scw_context *context, const scwi_bridge_frame *frame,
                       scw_bridge_result *out) {
  const scw_settings *settings = &out->settings;
  scwi_uncertainty hand = scatter_at_hand(frame, out);
  double bias = scwi_present(out->bias.estimate) ? out->bias.estimate.value : 0;
  double assured = 0;
  scw_presence why = !scwi_present(out->margin) ? SCW_NO_MARGIN
                     : hand.df > 0              ? SCW_NO_SCATTER
                                                : SCW_ONE_READING;
  out->planned_products = out->planned_assured = scwi_missing(why);
  if (!scwi_present(out->margin) || !(hand.u > 0)) return SCW_OK;
  scw_status status = scwi_agreement_items(
      context, bias, hand.u, settings->content, settings->level,
      out->margin.value, &out->planned_products);
  if (!status)
    status = scwi_sd_assured(context, hand.u, hand.df, settings->assurance,
                             &assured);
  if (!status)
    status = scwi_agreement_items(context, bias, assured, settings->content,
                                  settings->level, out->margin.value,
                                  &out->planned_assured);
  return status;
}

scw_status scwi_bridge_verdict(scw_context *context,
                               const scwi_bridge_frame *frame,
                               scw_bridge_result *out) {
  out->comparable = as_they_stand(out);
  scw_status status = after_conversion(context, out);
  out->fenced = out->comparable != SCW_COMPARABLE_YES &&
                out->convertible != SCW_COMPARABLE_YES;
  return status ? status : plan(context, frame, out);
}
