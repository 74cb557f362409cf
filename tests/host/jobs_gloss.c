/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gloss scale, asked and refused. */
#include "jobs_inside.h"

#include <stdio.h>

scw_status job_gloss(scw_context *context, job_output *out) {
  double gloss, index, back;
  char line[64];
  job_expect(out,
             scw_gloss_of_index(context, 0, 60, &gloss) == SCW_BAD_ARGUMENT,
             "an index below 1 is refused");
  scw_status status = scw_gloss_of_index(context, 1.523, 60, &gloss);
  if (status == SCW_OK)
    status = scw_index_of_gloss(context, gloss, 60, &index);
  if (status == SCW_OK)
    status = scw_gloss_of_index(context, index, 20, &back);
  if (status != SCW_OK) return status;
  snprintf(line, sizeof line, "%ld %ld %d\n", (long)(gloss * 1e6),
           (long)(back * 1e6), scw_gloss_angle_for(gloss));
  job_say(out, line);
  job_say(out, scw_ratio_set_code(SCW_RATIO_BETWEEN));
  return SCW_OK;
}
