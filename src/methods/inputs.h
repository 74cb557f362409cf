/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is known of an input -> estimate, standard uncertainty and degrees of
 * freedom (JCGM 100 4.2, 4.3 and G.4.2; JCGM 101 6.4). */
#ifndef SCWI_INPUTS_H
#define SCWI_INPUTS_H

#include <stdbool.h>

#include "context.h"
#include "scatterwise/budget.h"

typedef struct scwi_known_input {
  double estimate, u;
  double df;       /* infinite where nothing limits it */
  double scale;    /* what the width given comes to in the unit of the value
                      (relative worked out): half-width; for readings s/sqrt(n);
                      for normal and t the standard uncertainty, for a
                      certificate U/k */
  double rounding; /* readings: standard uncertainty left by the display step;
                      u^2 = scale^2 + rounding^2 */
  double limit;    /* uncertain_limits: the limits' own half-width, likewise */
  const char *fault; /* after a failure: the field it is about, or null */
} scwi_known_input;

/* Whether a kind has a use for a field of scw_budget_given, such as "sd". */
bool scwi_input_takes(scw_budget_kind kind, const char *field);

/* SCW_BAD_INPUT with a message that names the input, the field and what would
 * do, when a field is missing, out of range or of no use to the kind. u may be
 * 0 only where the width given is 0. */
scw_status scwi_input_known(scw_context *context, const scw_budget_given *given,
                            scwi_known_input *out);

#endif
