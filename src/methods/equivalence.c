/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "equivalence.h"

#include "distributions.h"
#include "figure.h"

scw_tost scwi_tost(const scw_estimate *change, scw_figure margin) {
  scw_tost out = {.level = (1 - change->interval.level) / 2};
  if (!scwi_present(margin)) {
    out.p = scwi_missing(SCW_NO_MARGIN);
    return out;
  }
  if (change->interval.state != SCW_PRESENT) {
    out.p = scwi_missing(change->interval.state);
    return out;
  }
  /* The nearer edge decides. */
  double t = (margin.value - fabs(change->estimate.value)) /
             change->standard_uncertainty.value;
  bool scatters = scwi_present(change->df);
  double p =
      scatters ? scwi_t_upper(t, change->df.value) : scwi_normal_upper(t);
  out.p = p > 0 ? scwi_figure(p)
                : scwi_missing(scatters ? SCW_OUT_OF_RANGE : SCW_NO_SCATTER);
  return out;
}
