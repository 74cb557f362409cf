/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3: how many readings? */
#ifndef SCATTERWISE_PLAN_H
#define SCATTERWISE_PLAN_H

#include "scatterwise/bench.h"
#include "scatterwise/planning.h"
#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

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
  /* Designs of panels, sessions, spots and repeats: the scatter of a pilot
   * (scw_plan_scatter_of; null: none) and what one more of each costs, in any
   * one unit. `paired` reads the same spots before and after; `control_half`
   * reads both halves of a panel before and after and takes the change of one
   * from that of the other; else DETECT and WITHIN take other spots on each
   * side, HALF_WIDTH one mean. */
  double cost_spot, cost_repeat;   /* >= 0, > 0 */
  const scw_plan_scatter *scatter;
  bool control_half;
  double cost_session, cost_panel; /* >= 0; only of levels the pilot holds */
  const char *cost_unit;           /* "min"; null: not said */
  size_t fits;                     /* spots that a panel has room for; 0: any
                                      number */
  /* The scatter of a bench in place of sd and pilot_readings: its SD as from a
   * pilot of its df + 1 readings; null: none. Not with `paired`. The bench must
   * outlive the result. */
  const scw_bench *bench;
  scw_scatter_wanted bank;
} scw_plan_request;

enum { SCW_PLAN_TABLE_ROWS = 7, SCW_PLAN_DESIGNS = 5 };

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
  scw_plan_row table[SCW_PLAN_TABLE_ROWS];
  size_t n_table;
  bool possible;                /* false: said in words, exit status 1 */
  scw_note *notes;
  size_t n_notes;
  /* With request.scatter: the cheapest design first, then others that cost at
   * most a tenth more, none of them another one and more of something. */
  scw_plan_scatter scatter;
  char *cost_unit;              /* never null */
  scw_plan_design designs[SCW_PLAN_DESIGNS];
  size_t n_designs;
  /* The cheapest design that still does it with every component at its upper
   * limit; and, paired or with a control half from a pilot of one side, the
   * cheapest if nothing of the spots' differences cancels. State of cost: why
   * there is none. With designs, `plan` holds the figures of the cheapest; of
   * all the spots there is room for, where no design does it. */
  scw_plan_design design_upper, design_uncancelled;
  const scw_bench_scatter *bank; /* the entry used; null: none */
} scw_plan_result;

/* Errors: SCW_BAD_ARGUMENT. An impossible plan is an answer: SCW_OK with
 * possible = false. Free with scw_plan_result_free. */
SCW_API scw_status scw_plan(scw_context *context,
                            const scw_plan_request *request, const char *unit,
                            const scw_settings *settings, scw_plan_result *out);
/* The scatter of a pilot of any shape, split into the levels it holds: panels,
 * sessions on a panel, spots, repeats; balanced or not, one product. With
 * readings before and after the scatter is that of the differences at a spot
 * (repeats paired in the order of reading). SCW_BAD_INPUT names what is in the
 * way. */
SCW_API scw_status scw_plan_scatter_of(scw_context *context,
                                       const scw_table *table,
                                       const scw_settings *settings,
                                       scw_plan_scatter *out);

SCW_API void scw_plan_result_free(scw_plan_result *result);

#ifdef __cplusplus
}
#endif
#endif
