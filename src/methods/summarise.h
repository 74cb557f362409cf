/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All figures of one reading set, put together from the methods. */
#ifndef SCWI_SUMMARISE_H
#define SCWI_SUMMARISE_H

#include "context.h"
#include "sample.h"
#include "scatterwise/summary.h"

typedef struct scwi_summary_settings {
  double level, content;
  double stand_out;        /* significance */
  size_t candidates;       /* 0: by n */
  unsigned long long seed; /* of counted permutations */
} scwi_summary_settings;

/* n >= 1 finite readings; a figure that does not exist says why. Fails only
 * for want of memory or a numerical accuracy not reached. */
scw_status scwi_summarise(scw_context *context, const scwi_sample *sample,
                          const scwi_summary_settings *settings,
                          scw_summary *out);
#endif
