/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stein 1945: a first sample says how many readings a half-width needs, and the
 * final interval keeps the first sample's SD and degrees of freedom. */
#ifndef SCWI_TOP_UP_H
#define SCWI_TOP_UP_H

#include "moments.h"

/* max(m, ceil((t((1+level)/2, m-1) s / half_width)^2)) for the SD s of the first
 * m >= 2 readings; SCW_TOO_MANY above 1e6. */
scw_status scwi_top_up_total(scw_context *context, double sd, size_t m,
                             double level, double half_width, scw_figure *out);

/* mean -+ t u with u^2 = s^2/n + `rounding`^2, on m - 1 degrees of freedom
 * (Welch-Satterthwaite with the display's share, JCGM 100 G.4). `rounding` is
 * the standard uncertainty that the display leaves in the mean. SCW_NO_SCATTER
 * where neither scatters. */
scw_status scwi_top_up_interval(scw_context *context, double mean, size_t n,
                                double sd, size_t m, double rounding,
                                double level, scw_interval *out);
#endif
