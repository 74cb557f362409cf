/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products judged together: what one of them is, and what becomes of a
 * comparison of two when many are made. */
#ifndef SCWI_SEVERAL_H
#define SCWI_SEVERAL_H

#include "scatterwise/comparison.h"
#include "moments.h"
#include "studentised.h"

/* One product: its mean or change, independent of the other products'. */
typedef struct scwi_entry {
  double estimate;
  scwi_uncertainty u; /* its own; u = 0: nothing scatters */
  scw_presence state; /* SCW_PRESENT, or why it has no uncertainty */
  /* For the SDs taken as equal: u^2 = sd^2 weight + rounding. A mean of n has
   * weight 1/n and one side, a change of two sides 1/n_before + 1/n_after. */
  double sd, sd_df, weight;
  double step, sides;
} scwi_entry;

/* The difference of two entries, alone and among all that were asked for. */
typedef struct scwi_adjusted {
  scw_estimate own;      /* its own interval at the level, its own p */
  scw_interval interval; /* all intervals hold together at the level */
  scw_figure p;          /* adjusted */
} scwi_adjusted;

/* A copy of the entries with the uncertainty that the SD pooled over all of
 * them gives; entries without an SD stay without. */
void scwi_pool_entries(const scwi_entry *entries, size_t n, scwi_entry *out);

/* entries[i] - entries[j], alone. `pooled`: both stand on the same SD, whose df
 * are the difference's too. */
scw_status scwi_entry_difference(scw_context *context, const scwi_entry *i,
                                 const scwi_entry *j, bool pooled,
                                 double level, scw_estimate *out);

/* A comparison adjusted by `of`, whose quantiles and tails are those of
 * `factor` times abs(t). Without an interval of its own: none, for its
 * reason. */

scw_status scwi_adjust(scw_context *context, scwi_studentised *of,
                       double factor, const scw_estimate *own, double level,
                       scwi_adjusted *out);
#endif
