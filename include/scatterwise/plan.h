/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3: how many readings? */
#ifndef SCATTERWISE_PLAN_H
#define SCATTERWISE_PLAN_H

#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef enum scw_plan_goal {
  SCW_PLAN_HALF_WIDTH, /* the interval of a mean is no wider than +- target */
  SCW_PLAN_DETECT,     /* a change of `target` is seen */
  SCW_PLAN_WITHIN,     /* "it did not change by more than target" is shown */
  SCW_PLAN_READINGS    /* what can `readings` readings see? */
} scw_plan_goal;

/* Readings for sides of unequal scatter or in a ratio asked for. */
typedef struct scw_plan_split {
  scw_figure before, after;
} scw_plan_split;

/* Scatter of a balanced pilot, split into spots and repeats (variances). */
typedef struct scw_spot_components {
  size_t spots, repeats;
  double assurance;              /* of the two upper limits */
  scw_figure spot, repeat;       /* spot: raw, negative when below what
                                    repeats alone would give */
  scw_figure spot_upper, repeat_upper;
} scw_spot_components;

/* The cheapest way to reach a goal with spots and repeats at each. */
typedef struct scw_spots_plan {
  scw_figure spots, repeats, readings, cost;
} scw_spots_plan;

typedef struct scw_plan_request {
  scw_plan_goal goal;
  double target;        /* H, D or the change; > 0 */
  size_t readings;      /* for SCW_PLAN_READINGS; per side, or spots */
  bool paired;          /* sd is that of the spot-wise differences */
  double sd;            /* > 0; or from the pilot */
  double sd_after;      /* 0: as sd */
  size_t pilot_readings;/* m: the SD came from so many readings; 0: known */
  /* Unequal numbers on two sides (DETECT and WITHIN, not paired): after over
   * before, or 0 for the split that takes the fewest readings in all. */
  bool unequal;
  double ratio;
  /* Spots and repeats from a balanced pilot: its components (scw_plan_pilot)
   * and what a spot and a repeat cost, in any one unit. */
  const scw_spot_components *components;
  double cost_spot, cost_repeat;
} scw_plan_request;

/* One line of the plan: a number of readings and what it buys. */
typedef struct scw_plan_row {
  scw_figure readings_per_side; /* one of these two is absent */
  scw_figure spots;
  scw_figure half_width;        /* of the mean, or of the change */
  scw_figure detectable;        /* change seen with the power asked for */
  scw_figure power;             /* to see `target`, or to show it within */
} scw_plan_row;

enum { SCW_PLAN_TABLE_ROWS = 7 };

typedef struct scw_plan_result {
  scw_settings settings;
  scw_plan_request request;
  char *unit;
  char *sentence;
  scw_plan_row plan;
  /* From a pilot: enough with the stated assurance though its SD is itself
   * uncertain, and by power averaged over that uncertainty. */
  scw_figure assured, expected;
  scw_figure top_up_total;      /* Stein 1945, half-width only */
  scw_plan_split split;         /* with request.unequal */
  scw_spot_components components; /* with request.components: at the estimates
                                   and at their upper limits */
  scw_spots_plan spots_plan, spots_plan_upper;
  scw_plan_row table[SCW_PLAN_TABLE_ROWS];
  size_t n_table;
  bool possible;                /* false: said in words, exit status 1 */
  scw_note *notes;
  size_t n_notes;
} scw_plan_result;

/* Errors: SCW_BAD_ARGUMENT. An impossible plan is an answer: SCW_OK with
 * possible = false. Free with scw_plan_result_free. */
SCW_API scw_status scw_plan(scw_context *context,
                            const scw_plan_request *request, const char *unit,
                            const scw_settings *settings, scw_plan_result *out);
/* The scatter of a balanced pilot (every spot read equally often, at least
 * twice, on one side and one panel), split into spots and repeats.
 * SCW_BAD_INPUT, naming the spot that differs, when it is not balanced. */
SCW_API scw_status scw_plan_pilot(scw_context *context, const scw_table *table,
                                  const scw_settings *settings,
                                  scw_spot_components *out);

SCW_API void scw_plan_result_free(scw_plan_result *result);

#ifdef __cplusplus
}
#endif
#endif
