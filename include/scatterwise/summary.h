/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of one reading set. All values are in the unit of the readings
 * unless said otherwise. Definitions and sources: docs/methods. */
#ifndef SCATTERWISE_SUMMARY_H
#define SCATTERWISE_SUMMARY_H

#include "scatterwise/figures.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The test that flagged a reading. */
typedef enum scw_stand_out_test {
  SCW_GRUBBS,   /* Grubbs, two-sided, one candidate */
  SCW_ESD,      /* generalised extreme Studentised deviate, Rosner 1983 */
  SCW_ALL_EQUAL_BUT_ONE /* n-1 equal readings and one apart: words, no p */
} scw_stand_out_test;

/* A reading that stands out. A flag is never a removal. */
typedef struct scw_flag {
  size_t place;             /* 1-based place in the set's reading order */
  double reading;
  scw_stand_out_test test;
  scw_figure statistic, limit, p;
  double distance_sd;       /* (reading - mean) / sd */
  scw_figure modified_z;    /* 0.6745 (reading - median) / mad */
} scw_flag;

typedef struct scw_esd_step {
  size_t place;             /* the reading taken away in this step */
  double statistic, limit;  /* R_i and lambda_i */
} scw_esd_step;

enum { SCW_MAX_CANDIDATES = 20 };

/* Readings that stand out: what was tested and what was found. */
typedef struct scw_stand_out {
  size_t candidates;        /* most readings the test could flag; 0: no test;
                               never more than half of the other readings */
  scw_figure grubbs_statistic, grubbs_limit, grubbs_p;
  size_t n_steps;           /* generalised ESD only; ends early where the
                               readings left are all the same */
  scw_esd_step steps[SCW_MAX_CANDIDATES];
  size_t n_flags;
  scw_flag flags[SCW_MAX_CANDIDATES];
  bool limits_approximate;  /* ESD below 25 readings */
  size_t beyond_3_5;        /* readings with modified z beyond 3.5 that lie
                               more than two display steps from the median */
  bool may_hide_each_other; /* two or more beyond 3.5, the test silent */
} scw_stand_out;

/* Drift of the readings over their order; slopes are per reading. */
typedef struct scw_creep {
  scw_figure slope, p, sd_about_line;
  scw_interval slope_interval;
  bool creeping;            /* the slope interval excludes 0; false where
                               there is none, as for an exact line */
  scw_figure kendall_s, kendall_p;
} scw_creep;

/* Do neighbours in order resemble each other? */
typedef struct scw_serial {
  scw_figure lag1;          /* lag-1 autocorrelation */
  scw_figure lag1_p;        /* rank von Neumann ratio (Bartels 1982) */
  scw_figure rank_von_neumann;
} scw_serial;

/* The largest two-mean split of the readings in order. */
typedef struct scw_level_shift {
  size_t after_place;       /* the shift lies after this 1-based place */
  scw_figure size;          /* later mean minus earlier mean */
  scw_figure p;             /* share of all orders with one as large */
  bool counted;             /* p from random orders, not all orders */
  unsigned long long seed;  /* of those random orders */
  size_t orders;            /* how many random orders were drawn */
} scw_level_shift;

/* Does the shape look normal? Adds a note, never switches a method. */
typedef struct scw_shape {
  scw_figure shapiro_w, shapiro_p;
  scw_figure anderson_darling;   /* A2 (1 + 0.75/n + 2.25/n^2) */
  scw_figure anderson_darling_p;
} scw_shape;

typedef struct scw_tolerance {
  double content;           /* share of spots meant to lie inside, 0.95 */
  scw_figure k;
  scw_interval interval;    /* level = confidence */
} scw_tolerance;

/* Everything of one reading set. */
typedef struct scw_summary {
  size_t n;
  scw_figure mean, sd;                      /* sd is 0 when all are equal */
  scw_figure standard_uncertainty_scatter;  /* sd / sqrt(n) */
  scw_figure standard_uncertainty;          /* with the display-step term */
  scw_figure df;                            /* Welch-Satterthwaite; unbounded
                                               when only the display speaks */
  scw_interval interval;                    /* of the mean */
  scw_interval sd_interval;
  scw_interval prediction;                  /* the next reading */
  scw_tolerance tolerance;                  /* where the spots lie */
  scw_figure median, q1, q3, mad, mad_sd;
  scw_figure robust_mean, robust_sd;        /* Algorithm A */
  scw_figure smallest, largest;
  scw_step step;
  scw_stand_out stand_out;
  scw_creep creep;
  scw_serial serial;
  scw_level_shift level_shift;
  scw_shape shape;
} scw_summary;

#ifdef __cplusplus
}
#endif
#endif
