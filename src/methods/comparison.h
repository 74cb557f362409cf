/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison that is planned or judged: its scatter, its uncertainty at so
 * many readings, and the chance of what its interval will say.
 *
 * The estimate is normal around the true change with the standard uncertainty
 * u of these readings; the u that will be found is u times sqrt(chi2(df)/df),
 * df being the design's (Satterthwaite for two sides). So the chances are
 * exact for paired spots and for equal sides up to Welch's approximation, and
 * the display step enters through u and df. */
#ifndef SCWI_COMPARISON_H
#define SCWI_COMPARISON_H

#include <stdbool.h>

#include "context.h"
#include "moments.h"
#include "scatterwise/figures.h"

/* For paired designs sd_before is the SD of the spot-wise differences and
 * sd_after is not used. */
typedef struct scwi_comparison {
  bool paired;
  double sd_before, sd_after;
  double step; /* display step; 0: continuous */
  double level;
  double sides; /* paired: as in scwi_display; 0 in a plan, where the sides
                   are not known */
  scwi_uncertainty fixed; /* what no number of readings makes smaller: the
                             instruments'; u = 0: nothing */
} scwi_comparison;

/* More readings than anyone takes: where only the display step is left. */
#define SCWI_ENDLESS ((size_t)1 << 30)

/* Whether the display step or a fixed part leaves an uncertainty that no number
 * of readings removes. */
bool scwi_has_floor(const scwi_comparison *comparison);

/* Standard uncertainty and df of the change with n_before and n_after
 * readings (paired: n_before spots); both at least 2. */
scwi_uncertainty scwi_comparison_uncertainty(const scwi_comparison *comparison,
                                             size_t n_before, size_t n_after);

/* t((1+level)/2, df), by the same rule as every interval. */
scw_status scwi_critical(scw_context *context, double df, double level,
                         double *out);

/* Chance that the interval excludes zero when the true change is `effect`
 * (both tails counted). u = 0: 1 for any effect but zero. */
scw_status scwi_chance_to_exclude(scw_context *context, scwi_uncertainty u,
                                  double level, double effect, double *out);

/* Chance that the interval lies wholly inside -+margin. */
scw_status scwi_chance_inside(scw_context *context, scwi_uncertainty u,
                              double level, double effect, double margin,
                              double *out);

/* Chance that the verdict with this margin is any but cannot_tell: that the
 * interval excludes zero or lies wholly inside -+margin. */
scw_status scwi_chance_to_tell(scw_context *context, scwi_uncertainty u,
                               double level, double effect, double margin,
                               double *out);

/* Power to find a change of `effect`: scwi_chance_to_exclude at these
 * numbers of readings. */
scw_status scwi_power(scw_context *context, const scwi_comparison *comparison,
                      size_t n_before, size_t n_after, double effect,
                      double *power);

/* Smallest change found with probability `power` at this uncertainty: 0 for a
 * power that chance alone gives, SCW_NO_SCATTER. */
scw_status scwi_detectable_at(scw_context *context, scwi_uncertainty u,
                              double level, double power, scw_figure *out);

/* Smallest change found with probability `power` (noncentral t): 0 for a
 * power that chance alone gives, SCW_ONE_READING, SCW_NO_SCATTER. */
scw_status scwi_detectable(scw_context *context,
                           const scwi_comparison *comparison, size_t n_before,
                           size_t n_after, double power, scw_figure *out);

#endif
