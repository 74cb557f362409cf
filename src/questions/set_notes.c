/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "set_notes.h"

#include <math.h>

#include "figure.h"
#include "number_words.h"
#include "stand_out.h"
#include "words.h"

/* Evidence needed before a note speaks of dependence or shape. */
static const double note_significance = 0.05;

static scw_status note_unit(scw_context *context,
                            const scw_set_report *report, scwi_notes *notes) {
  if (report->spots == 1)
    return scwi_note(context, notes, "one_spot",
                     "All readings are of one spot: the figures describe this "
                     "spot and say nothing about the rest of the panel.");
  if (report->spots && report->readings > report->spots)
    return scwi_note(context, notes, "spot_means",
                     "%zu readings at %zu spots: each spot counts once, by "
                     "the mean of its readings.",
                     report->readings, report->spots);
  if (!report->spots && report->summary.n > 1)
    return scwi_note(context, notes, "assumes_one_reading_per_spot",
                     "No spot column: every reading is taken as another spot. "
                     "Repeats of one spot would make the interval too "
                     "narrow.");
  return SCW_OK;
}

static scw_status note_count(scw_context *context,
                             const scw_settings *settings,
                             const scw_set_report *report, scwi_notes *notes) {
  if (settings->expect && settings->expect != report->readings)
    return scwi_note(context, notes, "count_differs",
                     "%zu readings were expected, %zu are there.",
                     settings->expect, report->readings);
  return SCW_OK;
}

static scw_status note_few(scw_context *context, const scw_set_report *report,
                           scwi_notes *notes) {
  if (report->summary.n == 2)
    return scwi_note(context, notes, "two_readings",
                     "Two readings leave one degree of freedom: the interval "
                     "is as wide as it is because two readings can agree by "
                     "chance. A third narrows it most.");
  return SCW_OK;
}

/* From so many steps on, rounding no longer shows in the SD
 * (docs/methods/honesty.md, "The other intervals"). */
#define COARSE_STEPS 1.5

/* The display step: how it is known, and whether it carries the figure. */
static scw_status note_step(scw_context *context, const scw_set_report *report,
                            scwi_notes *notes) {
  const scw_summary *s = &report->summary;
  scwi_text text = {0};
  if (s->step.origin == SCW_STEP_NOT_KNOWN)
    return scwi_note(context, notes, "step_unknown",
                     "The display step cannot be told from these readings; "
                     "give it with --step.");
  bool stepped = scwi_present(s->sd) && s->step.size > 0;
  if (!stepped || s->sd.value >= COARSE_STEPS * s->step.size) return SCW_OK;
  if (s->sd.value >= s->step.size / 2)
    return scwi_note(context, notes, "display_in_sd",
                     "The scatter is hardly larger than the display step: "
                     "rounding is part of the SD, and the interval of the SD "
                     "holds it a little less often than it says (93 %% at 20 "
                     "readings was the worst measured).");
  scwi_text_add(&text, "The scatter is smaller than half the display step of ");
  scwi_say_given(&text, s->step.size, report->unit);
  scwi_text_add(&text, ": the display, not the panel, sets the uncertainty.");
  return scwi_note_take(context, notes, "display_limits", &text);
}

static scw_status note_stand_out(scw_context *context,
                                 const scw_set_report *report,
                                 scwi_notes *notes) {
  const scw_stand_out *found = &report->summary.stand_out;
  scw_status status = SCW_OK;
  if (found->may_hide_each_other)
    status = scwi_note(context, notes, "may_hide_each_other",
                       "%zu readings lie far from the median although the "
                       "test is silent: several stand-outs can hide each "
                       "other. Look again with --candidates %zu.",
                       found->beyond_3_5, found->beyond_3_5);
  if (!status && found->n_flags)
    status = scwi_note(context, notes, "flag_is_no_removal",
                       "A reading that stands out is still counted. Look at "
                       "the spot; leave a reading out only for a reason you "
                       "can write down.");
  return status;
}

/* Rosner's limits are approximate in small sets; the rate was measured for the
 * usual significance and number of candidates. */
static scw_status note_limits(scw_context *context,
                              const scw_settings *settings,
                              const scw_set_report *report,
                              scwi_notes *notes) {
  const scw_summary *s = &report->summary;
  if (!s->stand_out.limits_approximate || !s->stand_out.n_flags)
    return SCW_OK;
  scw_figure rate = scwi_esd_false_rate(s->n);
  bool measured = scwi_present(rate) && settings->candidates == 0 &&
                  fabs(settings->stand_out - 0.05) < 1e-12;
  scwi_text text = {0};
  scwi_text_add(&text,
                "Below 25 readings the limits for several stand-outs are "
                "approximate");
  if (measured) {
    scwi_text_format(&text, ": of sets of %zu sound readings ", s->n);
    scwi_say_digits(&text, 100 * rate.value, 2, "%");
    scwi_text_add(&text, " were flagged in our simulation, where 5 % are "
                         "meant");
  }
  scwi_text_add(&text, ".");
  return scwi_note_take(context, notes, "limits_approximate", &text);
}

static scw_status note_creep(scw_context *context, const scwi_values *values,
                             const scw_set_report *report, scwi_notes *notes) {
  const scw_summary *s = &report->summary;
  bool dependent = scwi_present(s->serial.lag1) &&
                   s->serial.lag1.value > 0 &&
                   scwi_present(s->serial.lag1_p) &&
                   s->serial.lag1_p.value < note_significance;
  scw_status status = SCW_OK;
  if (s->creep.creeping) {
    status = scwi_note(context, notes, "creep",
                       "The readings drift in the order they were taken%s: "
                       "part of the scatter is drift, and the mean depends on "
                       "when reading stopped.",
                       dependent ? " (neighbours also resemble each other, "
                                   "which makes the drift look surer than it "
                                   "is)"
                                 : "");
    if (!status && values->by_spot)
      status = scwi_note(context, notes, "order_is_place",
                         "Each spot was read in turn, so drift and place "
                         "cannot be told apart.");
  } else if (dependent) {
    status = scwi_note(context, notes, "neighbours_resemble",
                       "Neighbouring readings resemble each other. If they "
                       "are repeats of one spot, name the spots: the interval "
                       "is too narrow otherwise.");
  }
  return status;
}

static scw_status note_shape(scw_context *context,
                             const scw_set_report *report, scwi_notes *notes) {
  const scw_summary *s = &report->summary;
  scwi_text text = {0};
  if (!scwi_present(s->shape.shapiro_p) ||
      s->shape.shapiro_p.value >= note_significance)
    return SCW_OK;
  scwi_text_add(&text,
                "The readings do not look normally spread (Shapiro-Wilk p ");
  if (s->shape.shapiro_p.value >= 0.0001) scwi_text_add(&text, "= ");
  scwi_put_p(&text, s->shape.shapiro_p.value);
  scwi_text_add(&text,
                "): take the intervals as approximate, above all where a "
                "reading stands out.");
  return scwi_note_take(context, notes, "not_normal", &text);
}

scw_status scwi_set_notes(scw_context *context, const scwi_values *values,
                          const scw_settings *settings,
                          const scw_set_report *report, scwi_notes *notes) {
  scw_status status = note_unit(context, report, notes);
  if (!status) status = note_count(context, settings, report, notes);
  if (!status) status = note_few(context, report, notes);
  if (!status) status = note_step(context, report, notes);
  if (!status) status = note_stand_out(context, report, notes);
  if (!status) status = note_limits(context, settings, report, notes);
  if (!status) status = note_creep(context, values, report, notes);
  if (!status) status = note_shape(context, report, notes);
  if (!status && values->n_one_way)
    status = scwi_note(context, notes, "one_direction_only",
                       "%zu of the tracks were pulled in one direction only "
                       "and are set aside: the mean of both directions is "
                       "what cancels the panel's tilt.",
                       values->n_one_way);
  return status;
}
