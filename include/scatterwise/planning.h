/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of a plan: goals, and what so many readings buy. */
#ifndef SCATTERWISE_PLANNING_H
#define SCATTERWISE_PLANNING_H

#include "scatterwise/figures.h"

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

/* Where scatter comes from, the highest level first. */
typedef enum scw_plan_level {
  SCW_LEVEL_PANEL,
  SCW_LEVEL_SESSION,
  SCW_LEVEL_SPOT,
  SCW_LEVEL_REPEAT,
  SCW_LEVEL_COUNT
} scw_plan_level;

/* Scatter of a pilot split into levels (variances of one reading). A level the
 * pilot does not tell apart is SCW_NOT_COMPUTED: one panel says nothing about
 * panels, and single readings leave repeats inside the spots. */
typedef struct scw_plan_scatter {
  scw_figure variance[SCW_LEVEL_COUNT]; /* raw, negative where a level differs
                                           less than the levels below let
                                           expect */
  scw_figure upper[SCW_LEVEL_COUNT];    /* one-sided limit at `assurance` */
  scw_figure mean_square[SCW_LEVEL_COUNT]; /* of the level */
  scw_figure per_group[SCW_LEVEL_COUNT];   /* readings in one of its groups */
  scw_figure df[SCW_LEVEL_COUNT];          /* of its mean square */
  size_t groups[SCW_LEVEL_COUNT];       /* panels, sessions, spots, readings in
                                           the pilot */
  double assurance;
  bool of_differences;   /* after less before at a spot: both sides are in it */
  size_t unmatched;      /* readings that found no partner for a difference */
  bool balanced;         /* else approximate */
} scw_plan_scatter;

/* What a design gives. */
typedef struct scw_design_figures {
  scw_figure half_width; /* of the mean, or of the change */
  scw_figure detectable; /* change seen with the power asked for */
  scw_figure power;      /* to see the target, or to show it within */
} scw_design_figures;

/* Panels, sessions on each, spots in each session, readings at each spot; on
 * each side, or half, where there are two. */
typedef struct scw_plan_design {
  scw_figure panels, sessions, spots, repeats;
  scw_figure readings;   /* in all */
  scw_figure cost;       /* in all */
  scw_figure df;         /* of the interval */
  scw_design_figures at_estimate, at_upper_limit;
  scw_figure expected;   /* DETECT, WITHIN: the chance averaged over what the
                            scatter of a unit may be, given the pilot's df */
  scw_design_figures uncancelled; /* paired, from a pilot of one side: if
                                     nothing of the spots' differences cancels;
                                     at_estimate then is if all does */
} scw_plan_design;

/* One line of the plan: a number of readings and what it buys. */
typedef struct scw_plan_row {
  scw_figure readings_per_side; /* one of these two is absent */
  scw_figure spots;
  scw_figure half_width;        /* of the mean, or of the change */
  scw_figure detectable;        /* change seen with the power asked for */
  scw_figure power;             /* to see `target`, or to show it within */
} scw_plan_row;

#ifdef __cplusplus
}
#endif
#endif
