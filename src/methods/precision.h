/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Repeatability and reproducibility of one quantity read by several
 * laboratories or operators, and which of them do not fit (ISO 5725-2). */
#ifndef SCWI_PRECISION_H
#define SCWI_PRECISION_H

#include "context.h"
#include "sample.h"
#include "scatterwise/components.h"

/* lab_of[i] is the number of reading i's laboratory or operator, 0 to labs - 1;
 * each has at least one reading (else SCW_BAD_ARGUMENT). All readings are of
 * one spot, or of spots that count as alike. n >= 1. Free with
 * scwi_precision_free, also after a failure. */
scw_status scwi_precision(scw_context *context, const scwi_sample *sample,
                          const uint32_t *lab_of, size_t labs, double level,
                          scw_precision *out);
void scwi_precision_free(scw_precision *precision);

#endif
