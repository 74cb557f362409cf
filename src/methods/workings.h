/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every method on one set starts from, worked out once: deviations in
 * reading order, distances ascending, ties, median and mad. "Scaled" is the
 * unit of deviations.h. */
#ifndef SCWI_WORKINGS_H
#define SCWI_WORKINGS_H

#include "context.h"
#include "deviations.h"

typedef struct scwi_workings {
  const scwi_sample *sample;
  size_t n;
  scwi_centre centre;
  double scaled_sd;     /* 0: no scatter */
  double *deviation;    /* scaled, from the mean, in reading order */
  double *ascending;    /* scaled, from `origin`, sorted: a reading far away
                           costs the others no digits */
  size_t origin;        /* place of the (lower) median reading */
  size_t *place;        /* 0-based place in reading order of the k-th smallest;
                           equal readings keep their order */
  size_t *rank;         /* of each reading in order: 0, 1, 2 ..., equal readings
                           share one number */
  size_t distinct;      /* how many different readings */
  double middle;        /* scaled, the median seen from `origin` */
  double scaled_mad;    /* 0: half of the readings are the median */
} scwi_workings;

/* n >= 1. Free with scwi_workings_free, also after a failure. */
scw_status scwi_workings_of(scw_context *context, const scwi_sample *sample,
                            scwi_workings *out);
void scwi_workings_free(scwi_workings *workings);

#endif
