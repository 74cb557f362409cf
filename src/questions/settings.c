/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "settings.h"

#include <math.h>

#include "number_text.h"

void scw_settings_init(scw_settings *settings) {
  *settings = (scw_settings){.level = 0.95,
                             .stand_out = 0.05,
                             .power = 0.80,
                             .assurance = 0.80,
                             .content = 0.95,
                             .seed = 1};
}

static scw_status check_probability(scw_context *context, const char *name,
                                    double value) {
  char text[SCWI_NUMBER_SIZE];
  if (value > 0 && value < 1) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "%s is %s: give a number between 0 and 1, such as 0.95",
                   name, scwi_number_text(value, text));
}

static scw_status check_step(scw_context *context, scw_step step) {
  char text[SCWI_NUMBER_SIZE];
  if (step.origin != SCW_STEP_GIVEN || (step.size >= 0 && isfinite(step.size)))
    return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "the display step is %s: give 0 for continuous values or a "
                   "positive number in the unit of the readings",
                   scwi_number_text(step.size, text));
}

scw_status scwi_settings_take(scw_context *context,
                              const scw_settings *settings,
                              scw_settings *out) {
  scw_settings_init(out);
  if (settings) *out = *settings;
  const struct {
    const char *name;
    double value;
  } probabilities[] = {{"the level", out->level},
                       {"the stand-out significance", out->stand_out},
                       {"the power", out->power},
                       {"the assurance", out->assurance},
                       {"the content", out->content}};
  for (size_t i = 0; i < sizeof probabilities / sizeof *probabilities; i++) {
    scw_status status = check_probability(context, probabilities[i].name,
                                          probabilities[i].value);
    if (status) return status;
  }
  if (out->candidates > SCW_MAX_CANDIDATES)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%zu candidates: at most %d readings of a set can be "
                     "tested for standing out",
                     out->candidates, SCW_MAX_CANDIDATES);
  return check_step(context, out->step);
}

scwi_summary_settings scwi_settings_for_summary(const scw_settings *settings) {
  return (scwi_summary_settings){.level = settings->level,
                                 .content = settings->content,
                                 .stand_out = settings->stand_out,
                                 .candidates = settings->candidates,
                                 .seed = settings->seed};
}
