/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes and plans read from tables of numbers instead of readings. */
#ifndef SCATTERWISE_GIVEN_H
#define SCATTERWISE_GIVEN_H

#include "scatterwise/change.h"
#include "scatterwise/plan.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Changes known by numbers, one per product. Strings are owned. */
typedef struct scw_given_changes {
  scw_given_change *change;
  size_t n;
  scw_table *account; /* without readings: the input, for the report */
} scw_given_changes;

/* Reads a table of summaries:
 *   product,state,n,mean,sd      a row before and a row after per product
 *   product,n,mean,sd            the after side; `before` holds for all
 *   product,before n,before mean,before sd,after n,after mean,after sd
 *   product,before,after,n       published means: bare numbers on both sides
 * `se` in place of `sd` is the standard error of the mean, SD over the root of
 * n; a scatter that does not say which of them it is, or is a share of the
 * mean, is refused. `step` is the step the mean was shown in. Headings may
 * carry the unit, "mean (GU)"; units that differ are refused. `before` is null
 * or a side common to all rows. Of `options` (or null) separator, decimal
 * mark, unit, geometry and the labels of the state column count; naming a
 * column is SCW_BAD_ARGUMENT. SCW_BAD_INPUT names line and column. Free with
 * scw_given_changes_free. */
SCW_API scw_status scw_given_changes_read(scw_context *context,
                                          const scw_table_options *options,
                                          scw_source source,
                                          const scw_given_side *before,
                                          scw_given_changes *out);

/* Works the changes out, as scw_change_from_numbers, in the unit and under the
 * quantity the headings name; a note names each column of numbers whose
 * heading was not understood. Free with scw_change_result_free. */
SCW_API scw_status scw_change_from_given(scw_context *context,
                                         const scw_given_changes *given,
                                         const scw_settings *settings,
                                         const scw_change_options *options,
                                         scw_change_result *out);
SCW_API void scw_given_changes_free(scw_given_changes *changes);

/* One row of a grid: how many readings show `effect` at this `sd`. */
typedef struct scw_grid_row {
  double effect, sd;
  scw_figure readings_per_side, spots; /* two sides; pairs, sd of differences */
} scw_grid_row;

typedef struct scw_plan_grid_result {
  scw_settings settings;
  scw_grid_row *row;
  size_t n;
  scw_table *account;
} scw_plan_grid_result;

/* Reads columns effect and sd, by the rules of scw_given_changes_read, and
 * plans every row at the level and power of the settings. Free with
 * scw_plan_grid_result_free. */
SCW_API scw_status scw_plan_grid(scw_context *context,
                                 const scw_table_options *options,
                                 scw_source source,
                                 const scw_settings *settings,
                                 scw_plan_grid_result *out);
SCW_API void scw_plan_grid_result_free(scw_plan_grid_result *result);

#ifdef __cplusplus
}
#endif
#endif
