/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "recompute.h"

#include <math.h>

#include "decimal.h"
#include "figure.h"

static const double slack = 1e-9; /* as in attainable.c */

scw_interval scwi_shown_range(scwi_shown_number number) {
  double half = scwi_shown_half(number);
  return scwi_interval(number.value - half, number.value + half, 1);
}

scw_interval scwi_change_range(scwi_shown_number before,
                               scwi_shown_number after) {
  double half = scwi_shown_half(before) + scwi_shown_half(after);
  double change = scwi_decimal_difference(after.value, before.value);
  return scwi_interval(change - half, change + half, 1);
}

static bool meet(scw_interval a, scw_interval b) {
  double size = fmax(fmax(fabs(a.low), fabs(a.high)),
                     fmax(fabs(b.low), fabs(b.high)));
  return a.low <= b.high + slack * size && b.low <= a.high + slack * size;
}

scwi_follows scwi_shown_follows(scwi_shown_number number, scw_interval range) {
  scwi_shown_number turned = {-number.value, number.digits};
  if (meet(scwi_shown_range(number), range)) return SCWI_FOLLOWS;
  if (meet(scwi_shown_range(scwi_shown_cut_off(number)), range)) return SCWI_CUT_OFF;
  if (meet(scwi_shown_range(turned), range)) return SCWI_SIGN_REVERSED;
  return SCWI_DOES_NOT_FOLLOW;
}
