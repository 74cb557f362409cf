/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Do several sets scatter alike? */
#ifndef SCWI_HOMOGENEITY_H
#define SCWI_HOMOGENEITY_H

#include "moments.h"
#include "scatterwise/pooling.h"

typedef enum scwi_levene_centre {
  SCWI_ABOUT_MEAN,  /* Levene 1960 */
  SCWI_ABOUT_MEDIAN /* Brown & Forsythe 1974 */
} scwi_levene_centre;

/* Bartlett's test (e-Handbook 1.3.5.7) of sets with two readings or more; the
 * others take no part. SCW_TOO_FEW below two such sets; SCW_NO_SCATTER when
 * one of them has no scatter, for then the statistic is infinite. */
scw_status scwi_bartlett(scw_context *context, const scwi_moments *set,
                         size_t n, scw_homogeneity *out);

/* The F test of the absolute deviations from each set's centre (e-Handbook
 * 1.3.5.10), again of sets with two readings or more. SCW_TOO_FEW, and
 * SCW_NO_SCATTER when the deviations do not differ within any set. */
scw_status scwi_levene(scw_context *context, const scwi_sample *set, size_t n,
                       scwi_levene_centre centre, scw_homogeneity *out);

#endif
