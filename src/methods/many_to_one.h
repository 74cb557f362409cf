/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products, each against one control. */
#ifndef SCWI_MANY_TO_ONE_H
#define SCWI_MANY_TO_ONE_H

#include "several.h"

/* out[i] = entries[i] - entries[control]; out[control] is left empty. Each
 * comparison is judged by the largest of all their abs(t), with its own
 * Satterthwaite df and the correlations that the uncertainties found give:
 * lambda_i^2 = u_0^2 / (u_0^2 + u_i^2) (Hasler & Hothorn 2008, Biometrical
 * Journal 50, 793-800). With equal_sd the SD is pooled over all entries (Dunnett
 * 1955, JASA 50, 1096-1121), the exact method where the SDs are equal. Entries
 * without an uncertainty are left out of the family. SCW_BAD_ARGUMENT for more
 * than 100 comparisons. */
scw_status scwi_many_to_one(scw_context *context, const scwi_entry *entries,
                            size_t n, size_t control, bool equal_sd,
                            double level, scwi_adjusted *out);
#endif
