/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change by ranks: Hodges & Lehmann 1963, Ann. Math. Statist. 34,
 * 598-611. */
#ifndef SCWI_HODGES_LEHMANN_H
#define SCWI_HODGES_LEHMANN_H

#include "context.h"
#include "sample.h"
#include "scatterwise/comparison.h"

/* Median of all after-minus-before differences; the interval runs between two
 * of them, by the exact distribution of U. With ties the same ones, closed
 * ends. SCW_TOO_FEW for an empty side, SCW_TOO_MANY above a million pairs (for
 * the interval above 14 thousand). */
scw_status scwi_hodges_lehmann_unpaired(scw_context *context,
                                        const scwi_sample *before,
                                        const scwi_sample *after, double level,
                                        scw_hodges_lehmann *out);

/* Median of the m(m+1)/2 means of two differences (each with itself too); the
 * interval by the exact distribution of the signed-rank sum; zeros kept. */
scw_status scwi_hodges_lehmann_paired(scw_context *context,
                                      const scwi_sample *differences,
                                      double level, scw_hodges_lehmann *out);
#endif
