/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far apart spots should lie so that each says something of its own, and
 * how many then fit on a panel. */
#ifndef SCWI_SPACING_H
#define SCWI_SPACING_H

#include "scatterwise/figures.h"

/* Distance at which (1 - nugget_share) exp(-distance/range) has dropped to
 * `correlation` (0.05 is common practice: three ranges without a nugget); 0
 * where it never exceeds that. A range that is missing hands its state on;
 * SCW_NO_DEPENDENCE gives 0. */
scw_figure scwi_spacing(scw_figure range, scw_figure nugget_share,
                        double correlation);

/* Spots at least `spacing` apart that surely fit on a rectangle of this size
 * (margins taken off before): the better of a square and a triangular grid,
 * either way round. More may fit. Spacing 0 or a size that is not finite and
 * >= 0: SCW_UNBOUNDED and SCW_OUT_OF_RANGE. */
scw_figure scwi_spots_that_fit(double width, double height, double spacing);

#endif
