/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where scatter comes from: panels, sessions, spots, repeats, operators.
 * Definitions, sources and what the intervals deliver:
 * docs/methods/panel-scatter.md. Variances are in the squared unit of the
 * readings, SDs in the unit. */
#ifndef SCATTERWISE_COMPONENTS_H
#define SCATTERWISE_COMPONENTS_H

#include "scatterwise/comparison.h"
#include "scatterwise/figures.h"
#include "scatterwise/planning.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One source of scatter: how much one reading scatters because of it. When
 * `state` is not SCW_PRESENT every figure below it is missing with it. */
typedef struct scw_component {
  scw_presence state; /* SCW_NOT_COMPUTED: no such labels; SCW_ONE_OF_IT: one
                         label throughout; SCW_NOT_TOLD_APART: just one in each
                         of the level above (repeats: one reading at each
                         spot), whose scatter then holds this one's;
                         SCW_ONE_READING */
  size_t groups;           /* of it, in all; repeats: readings */
  scw_figure df;           /* of its mean square */
  scw_figure mean_square;  /* unbalanced: of unweighted means */
  scw_figure per_group;    /* readings in a group: mean_square estimates the
                              variance so often, and the levels' below */
  scw_figure variance;     /* raw: negative where it differs less than the
                              levels below let expect */
  scw_figure sd;           /* root of it; 0 where it is negative */
  scw_interval interval;   /* of the SD, two-sided, never below 0 */
  scw_figure at_most;      /* one-sided limit of the SD at the level of the
                              interval. 0: even less scatter than the levels
                              below let expect, which itself is odd */
  scw_figure share;        /* of the variance of one reading, 0 to 1, negative
                              variances counting 0 */
  scw_figure f, f_df, p;   /* mean square over what it would be without this
                              component, df of the latter (its own is df), and
                              the chance of an f so large */
  bool distinguishable;    /* from zero: interval.low > 0, which balanced is p
                              below half of 1 - level. The lowest level: any
                              scatter at all */
  bool approximate;        /* the lowest level scatters less than 3/4 of a
                              display step, which is then part of what it
                              shows: the interval's coverage was measured below
                              its level, see the page */
} scw_component;

/* Levels within each other: panel > session > spot > repeat. */
typedef struct scw_nested {
  size_t n;                /* readings */
  double level;
  scw_component component[SCW_LEVEL_COUNT]; /* by scw_plan_level */
  size_t levels;           /* components present */
  scw_plan_level top;      /* highest present; the unit of the mean */
  scw_plan_level lowest;   /* lowest present: the scatter left over */
  bool balanced;           /* false: intervals and f are approximate */
  scw_figure total_sd;     /* of one reading: root of the sum of the components,
                              negative ones counting 0 */
  scw_estimate mean;       /* of the units of the top level, each with the same
                              weight; t on units - 1 df, display step
                              included. SCW_ONE_READING when n is 1 */
} scw_nested;

/* The same by restricted maximum likelihood: no variance below 0. */
typedef struct scw_reml {
  scw_presence state;      /* SCW_PRESENT when fitted; SCW_TOO_FEW: fewer than
                              two levels; SCW_NO_SCATTER: the repeats are all
                              equal, or all readings */
  scw_figure sd[SCW_LEVEL_COUNT];
  scw_figure share[SCW_LEVEL_COUNT];
  bool at_zero[SCW_LEVEL_COUNT]; /* this component ends at 0 */
  scw_estimate mean;       /* generalised least squares; df by Satterthwaite
                              from the observed information; no df and no
                              interval when a component is 0 (SCW_AT_ZERO) or
                              less than half a df is left (SCW_FLAT) */
  scw_figure log_likelihood; /* restricted, all constants included */
  size_t steps;            /* of the search */
} scw_reml;

/* Variance components of operators who all read the same spots. */
typedef struct scw_crossed_model {
  bool with_interaction;
  scw_component operators, spots, interaction, repeats; /* interaction:
                              SCW_NOT_COMPUTED without it */
  scw_figure repeatability_sd;   /* one operator, one spot */
  scw_interval repeatability;
  scw_figure reproducibility_sd; /* one spot, any operator: repeatability,
                                    operators and interaction together */
  scw_interval reproducibility;
  scw_figure repeatability_limit, reproducibility_limit; /* see scw_precision */
} scw_crossed_model;

typedef struct scw_crossed {
  scw_presence state;      /* SCW_PRESENT; SCW_TOO_FEW: fewer than two operators
                              or spots; SCW_EMPTY_CELLS: a spot was not read by
                              every operator; SCW_NO_SCATTER */
  size_t n, operators, spots, empty_cells;
  bool balanced;           /* as many readings of each spot by each operator;
                              else cell means, and all is approximate */
  double level;
  double limit_factor;     /* sqrt(2) z((1+level)/2): 2.77 at 95 % */
  scw_estimate mean;       /* df by Satterthwaite; no interval where operators
                              and spots leave nothing (SCW_NO_SCATTER) or less
                              than half a df (SCW_FLAT) */
  scw_crossed_model with, without; /* interaction. One reading in each cell:
                              `with` has nothing to tell it by, and its
                              components are SCW_NOT_TOLD_APART */
} scw_crossed;

/* A laboratory or an operator among others (ISO 5725-2). */
typedef struct scw_lab {
  size_t n;                /* its readings */
  scw_figure mean, sd;     /* sd: SCW_ONE_READING */
  scw_figure h;            /* (mean - mean of the means)/SD of the means */
  scw_figure k;            /* sd/repeatability SD */
  scw_figure k_limit, k_limit_strict; /* by its own n */
} scw_lab;

/* Tests of the odd one out: statistic, chance of one so large, its limits at
 * 5 % and 1 %, and the place of the one it names. */
typedef struct scw_odd_one {
  scw_figure statistic, p, limit, limit_strict;
  size_t lab;              /* index from 0 */
} scw_odd_one;

typedef struct scw_precision {
  scw_presence state;      /* SCW_PRESENT; SCW_TOO_FEW: fewer than two labs, or
                              no repeats; SCW_NO_SCATTER */
  size_t n, labs;
  bool balanced;           /* as many readings from each */
  double level;            /* of the intervals and of the limits */
  scw_figure mean;         /* of all readings */
  scw_figure per_lab;      /* readings from each; unbalanced: ISO 5725-2's
                              average */
  scw_figure f, p;         /* between labs */
  scw_figure between_variance; /* raw */
  scw_figure s_r, s_l, s_R; /* repeatability, between labs (0 where raw is
                              below), reproducibility SD */
  scw_interval s_r_interval, s_R_interval; /* unbalanced: s_R approximate */
  double limit_factor;     /* sqrt(2) z((1+level)/2): 2.77 at 95 %, which ISO
                              5725-6 rounds to 2.8 */
  scw_figure r_limit, R_limit; /* factor times s_r, s_R: two single readings
                              seldom differ by more */
  scw_odd_one cochran;     /* largest variance over the sum; unequal n: p by the
                              share in the sum of squares, no limits */
  scw_odd_one grubbs;      /* mean farthest from the mean of means, in SDs of
                              means; from 3 labs on, else SCW_TOO_FEW */
  scw_figure h_limit, h_limit_strict; /* of |h|, at 5 % and 1 % */
  scw_lab *lab;            /* as numbered; owned */
} scw_precision;

#ifdef __cplusplus
}
#endif
#endif
