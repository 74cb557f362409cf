/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trials of the inputs of a model (JCGM 101, 6.4): for each kind of input the
 * distribution that is meant, correlated ones together. */
#ifndef SCWI_DRAW_H
#define SCWI_DRAW_H

#include "deviates.h"
#include "expression.h"
#include "inputs.h"

typedef struct scwi_draw {
  const scw_budget_given *given; /* borrowed, as are `known` */
  const scwi_known_input *known;
  size_t n;
  double *df;         /* of each input's distribution; infinite for all but t
                         and what an uncertain uncertainty makes of others */
  size_t *group;      /* correlated inputs share a number from 1 on; 0: alone */
  double *root;       /* n x n: root R' is the correlation within groups */
  double *group_df;   /* for each input, those of its group's common factor */
  bool as_normal;     /* some correlated inputs are of other kinds, and are
                         drawn as normal with their standard uncertainties */
  scwi_ziggurat ziggurat;
} scwi_draw;

scw_status scwi_draw_make(scw_context *context, const scw_budget_given *given,
                          const scwi_known_input *known, size_t n,
                          const double *correlation, scwi_draw *out);
void scwi_draw_free(scwi_draw *draw);

/* Trials `block` * SCWI_BLOCK and on: x[i] gets m <= SCWI_BLOCK of input i.
 * `room` has SCWI_BLOCK doubles. The numbers depend on seed, block and the
 * input's place in the model only. */
void scwi_draw_block(const scwi_draw *draw, uint64_t seed, uint64_t block,
                     size_t m, double *const *x, double *room);

#endif
