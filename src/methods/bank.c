/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bank.h"

#include "distributions.h"
#include "figure.h"

scwi_uncertainty scwi_bank_uncertainty(scwi_bank bank,
                                       const scwi_bank_side *side,
                                       size_t sides) {
  double shares = 0, rounding = 0;
  for (size_t i = 0; i < sides; i++) {
    shares += 1 / (double)side[i].n;
    rounding = hypot(rounding, scwi_rounding_left(bank.sd, side[i].step));
  }
  return scwi_uncertainty_sum(
      (scwi_uncertainty){bank.sd * sqrt(shares), bank.df},
      (scwi_uncertainty){rounding, INFINITY});
}

void scwi_bank_f(scwi_bank bank, scwi_uncertainty own, scw_figure *f,
                 scw_figure *p) {
  *f = *p = scwi_missing(SCW_ONE_READING);
  if (own.df <= 0) return;
  double ratio = own.u / bank.sd, found = ratio * ratio;
  *f = scwi_figure(found);
  *p = scwi_missing(SCW_NO_SCATTER);
  if (own.u <= 0) return;
  double tail = fmin(scwi_f_cdf(found, own.df, bank.df),
                     scwi_f_upper(found, own.df, bank.df));
  *p = tail > 0 ? scwi_figure(fmin(1, 2 * tail))
                : scwi_missing(SCW_OUT_OF_RANGE);
}
