/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_options.h"

#include <math.h>

#include "number_text.h"

scw_status scwi_check_margin(scw_context *context, double margin) {
  char text[SCWI_NUMBER_SIZE];
  if (margin == 0 || (margin > 0 && isfinite(margin))) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "a margin of %s: the smallest change that matters must be "
                   "a positive number",
                   scwi_number_text(margin, text));
}

scw_status scwi_check_given(scw_context *context, const char *name,
                            const scw_given_side *given) {
  char text[SCWI_NUMBER_SIZE];
  if (!isfinite(given->mean) || !(given->step >= 0) || !isfinite(given->step))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%s: mean and display step must be finite numbers, the "
                     "step not negative",
                     name);
  if (!given->has_sd) return SCW_OK;
  if (!(given->sd >= 0) || !isfinite(given->sd))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%s: an SD of %s; it must be a number that is not "
                     "negative",
                     name, scwi_number_text(given->sd, text));
  if (given->n < 2)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%s: an SD needs at least two readings behind it; say "
                     "how many there were",
                     name);
  return SCW_OK;
}
