/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One scatter from many small sets of one panel type: its size, and whether
 * the sets belong together. Definitions: docs/methods/scatter-bank.md. */
#ifndef SCATTERWISE_POOLING_H
#define SCATTERWISE_POOLING_H

#include "scatterwise/figures.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A test that all sets scatter alike. df2 is missing (SCW_NOT_COMPUTED) for
 * Bartlett's test, whose statistic is chi-square with df1. */
typedef struct scw_homogeneity {
  scw_figure statistic, df1, df2, p;
} scw_homogeneity;

/* One set and its place in the pool. */
typedef struct scw_pooled_set {
  size_t n;
  scw_figure mean, sd;  /* SCW_ONE_READING: counts for nothing in the pool */
  scw_figure ratio;     /* its SD over the pooled SD of the other sets that
                           belong */
  scw_figure p;         /* two-sided F of the set against the others, adjusted
                           for the number of sets; at its weakest wherever
                           within half a display step the set's readings lay,
                           so never small from rounding alone */
  bool apart;           /* p < significance: does not belong */
} scw_pooled_set;

/* Many sets, one scatter. Sets apart are named, never removed: the pooled SD
 * is that of all sets with two readings or more. A set whose readings are all
 * equal counts with an SD of 0 and its n - 1 degrees of freedom. */
typedef struct scw_pool {
  size_t sets;          /* with two readings or more: those pooled */
  size_t alike;         /* of these, sets whose readings are all equal */
  size_t n_apart;
  scw_figure sd, df;    /* pooled; SCW_ONE_READING without any such set */
  scw_interval interval; /* of the SD, chi-square */
  double significance;  /* at which a set is apart */
  scw_step step;        /* display step of the readings */
  bool step_decides;    /* pooled SD below half a display step: what the sets
                           show is mostly the step; the tests say little */
  scw_homogeneity bartlett, levene, brown_forsythe;
  scw_pooled_set *set;  /* as given; owned */
  size_t n_sets;
} scw_pool;

#ifdef __cplusplus
}
#endif
#endif
