/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Do printed figures follow from each other, with all that rounding leaves
 * open? Means may have been rounded before the change was made of them, or
 * after: both pass. */
#ifndef SCWI_RECOMPUTE_H
#define SCWI_RECOMPUTE_H

#include "attainable.h"
#include "rule_points.h"

/* Everything a printed number may stand for. */
scw_interval scwi_shown_range(scwi_shown_number number);

/* Everything the change may be by its printed means. */
scw_interval scwi_change_range(scwi_shown_number before,
                               scwi_shown_number after);

/* How a printed number relates to what it may be. */
typedef enum scwi_follows {
  SCWI_FOLLOWS,
  SCWI_CUT_OFF,       /* would, had it been cut off instead of rounded */
  SCWI_SIGN_REVERSED, /* would with the other sign */
  SCWI_DOES_NOT_FOLLOW
} scwi_follows;

scwi_follows scwi_shown_follows(scwi_shown_number number, scw_interval range);

#endif
