/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reader of a log must know beside the answer. */
#include <stdlib.h>

#include "drift_inside.h"
#include "figure.h"
#include "memory.h"
#include "serial.h"
#include "words.h"

enum { FEWEST_DAYS = 8 };

static scw_status note_days(scw_context *context, const scw_drift_log *log,
                            const scwi_drift_seen *seen, scwi_notes *notes) {
  size_t newest = scwi_drift_newest(log)->days;
  scw_status status = SCW_OK;
  if (seen->sorted)
    status = scwi_note(context, notes, "sorted_by_date",
                       "The rows of the file are not in the order of their "
                       "dates; they were sorted.");
  if (!status && log->readings > log->n_days)
    status = scwi_note(context, notes, "day_is_the_unit",
                       "%zu readings on %zu days: the day is the unit, repeats "
                       "of one day sharpen its mean and count once.",
                       log->readings, log->n_days);
  if (!status && newest < FEWEST_DAYS)
    status = scwi_note(context, notes, "few_days",
                       "%zu day%s since the last step or recalibration: few "
                       "to see a movement with.",
                       newest, newest == 1 ? "" : "s");
  return status;
}

/* Does the newest stretch move? */
static bool moves(const scw_drift_log *log) {
  const scw_interval *slope = &log->slope.interval;
  return slope->state == SCW_PRESENT && (slope->low > 0 || slope->high < 0);
}

/* Do neighbouring days of the newest stretch resemble each other? Where it
 * moves they do, and what it moves by is taken out first. */
static scw_status serial_of(scw_context *context, const scw_drift_log *log,
                            const scwi_drift_values *values, scw_serial *out) {
  const scw_drift_stretch *newest = scwi_drift_newest(log);
  scwi_sample sample = scwi_drift_sample(values, newest->first, newest->days);
  scwi_workings w = {0};
  double *rest = NULL;
  scw_status status = SCW_OK;
  if (moves(log)) {
    double per_day = log->slope.estimate.value / scwi_days_in_month;
    status = SCWI_ALLOCATE(context, sample.n, &rest);
    for (size_t i = 0; i < sample.n && !status; i++)
      rest[i] = sample.x[i] - per_day * (values->day[newest->first + i] -
                                         values->day[newest->first]);
    sample.x = rest;
    sample.ticks = NULL;
  }
  if (!status) status = scwi_workings_of(context, &sample, &w);
  if (!status) status = scwi_serial(context, &w, out);
  scwi_workings_free(&w);
  free(rest);
  return status;
}

static scw_status note_dependence(scw_context *context,
                                  const scw_drift_result *result,
                                  const scw_drift_log *log,
                                  const scwi_drift_seen *seen,
                                  scwi_notes *notes) {
  scw_serial serial;
  scw_status status = serial_of(context, log, seen->values, &serial);
  if (status || !scwi_present(serial.lag1_p) ||
      serial.lag1_p.value > 1 - result->settings.level ||
      !scwi_present(serial.lag1) || serial.lag1.value < 0)
    return status;
  return scwi_note(context, notes, "dependent_days",
                   "Neighbouring days resemble each other, which a movement "
                   "does too; if it is none, the intervals and the p of a step "
                   "are too small.");
}

static scw_status note_steps(scw_context *context,
                             const scw_drift_result *result,
                             const scw_drift_log *log, bool line,
                             scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (line)
    status = scwi_note(context, notes, "line_rather_than_step",
                       "A steady movement describes the days better than a "
                       "step does, so none is named.");
  if (!status && log->n_shifts)
    status = scwi_note(context, notes, "step_date_taken_as_known",
                       "The interval of a step takes its date as known; the "
                       "date is the one that parts the days best.");
  if (!status && log->n_shifts && log->shift[log->n_shifts - 1].counted)
    status = scwi_note(context, notes, "counted_orders",
                       "The p of a step was counted from random orders (seed "
                       "%llu).",
                       result->settings.seed);
  return status;
}

static scw_status note_charts(scw_context *context,
                              const scw_drift_result *result,
                              const scw_drift_log *log, scwi_notes *notes) {
  scwi_text text = {0};
  if (log->charts.limits.state != SCW_PRESENT) return SCW_OK;
  scwi_text_format(&text,
                   "The charts' limits come from %zu moving ranges, and the "
                   "days they judge are among them: with limits from so few, "
                   "false alarms come at other intervals than told, often "
                   "sooner.",
                   log->charts.ranges);
  scw_status status = scwi_note_take(context, notes, "limits_estimated", &text);
  if (!status && result->step.size > 0 &&
      log->charts.day_sd.value <= result->step.size / 2)
    status = scwi_note(context, notes, "step_decides",
                       "The days scatter less than the display shows; the "
                       "charts take half a display step for their SD.");
  return status;
}

scw_status scwi_drift_notes(scw_context *context,
                            const scw_drift_result *result,
                            const scw_drift_log *log,
                            const scwi_drift_seen *seen, scwi_notes *notes) {
  scw_status status = note_days(context, log, seen, notes);
  if (!status) status = note_steps(context, result, log, seen->line, notes);
  if (!status) status = note_dependence(context, result, log, seen, notes);
  return status ? status : note_charts(context, result, log, notes);
}

scw_status scwi_drift_notes_of_all(scw_context *context,
                                   const scw_drift_result *result,
                                   scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (!scwi_present(result->assigned))
    status = scwi_note(context, notes, "no_assigned_value",
                       "No assigned value: a bias cannot be given, only "
                       "movement. Give the certified value with --assigned.");
  else if (!(result->assigned_u.value > 0))
    status = scwi_note(context, notes, "assigned_value_exact",
                       "The assigned value is taken as exact; give its "
                       "uncertainty with --assigned-u.");
  if (!status && result->n_pairs == 0)
    status = scwi_note(context, notes, "instrument_or_standard",
                       "One instrument on one standard cannot tell which of "
                       "the two moves; a second one beside it can.");
  if (!status && result->n_pairs)
    status = scwi_note(context, notes, "pairs_on_shared_days",
                       "Two instruments on one standard: what moves in both "
                       "alike is the standard, what moves in their difference "
                       "is an instrument.");
  return status;
}
