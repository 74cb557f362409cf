/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "verdict.h"

#include "figure.h"

scw_verdict scwi_verdict(scw_interval interval, scw_figure margin) {
  if (interval.state != SCW_PRESENT) return SCW_NO_VERDICT;
  double low = interval.low, high = interval.high;
  bool excludes_zero = low > 0 || high < 0;
  if (!scwi_present(margin))
    return excludes_zero ? SCW_CHANGED : SCW_CANNOT_TELL;
  bool beyond = low > margin.value || high < -margin.value;
  bool inside = low > -margin.value && high < margin.value;
  if (beyond) return SCW_CHANGED;
  if (excludes_zero)
    return inside ? SCW_CHANGED_BUT_SMALL : SCW_CHANGED_SIZE_UNCLEAR;
  return inside ? SCW_NO_CHANGE_BEYOND_MARGIN : SCW_CANNOT_TELL;
}
