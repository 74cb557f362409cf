/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Other views of the same change, shown beside it; the verdict is read from
 * the t interval alone. */
#ifndef SCWI_CHANGE_VIEWS_H
#define SCWI_CHANGE_VIEWS_H

#include "change_report.h"

/* Permutation p, Hodges-Lehmann estimate, SD ratio and the equivalence p. */
scw_status scwi_change_views(scw_context *context, const scwi_change_case *one,
                             scw_change_report *report);
#endif
