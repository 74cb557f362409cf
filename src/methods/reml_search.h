/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The variances at which the restricted likelihood is highest. */
#ifndef SCWI_REML_SEARCH_H
#define SCWI_REML_SEARCH_H

#include "likelihood.h"

/* Starts at `variance` and leaves the answer there, none below 0; *steps is
 * how many it took. SCW_NOT_REACHED after 200 steps. */
scw_status scwi_reml_search(scw_context *context,
                            const scwi_likelihood *likelihood, double *variance,
                            scwi_likelihood_at *at, size_t *steps);

/* Inverse of the curves of `jet` among its first n parameters; false where
 * they are not positive definite. */
bool scwi_inverse_curves(const scwi_jet *jet, size_t n,
                         double out[SCWI_JET_SLOPES][SCWI_JET_SLOPES]);

#endif
