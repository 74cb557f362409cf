/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 6, first half: is the meter, the tile or the panel moving? */
#include "scatterwise/drift.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "codes.h"
#include "drift_inside.h"
#include "drift_pairs.h"
#include "figure.h"
#include "memory.h"
#include "settings.h"

SCWI_CODE_FUNCTION(scw_drift_start_code, scw_drift_start, SCW_DRIFT_START_LIST,
                   SCWI_KEY, SCW_DRIFT_START_END, "unknown")

static scw_status check_size(scw_context *context, const char *what,
                             double value) {
  if (value >= 0 && isfinite(value)) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "%s must be a number of 0 or more, in the unit of the "
                   "readings",
                   what);
}

static scw_status take_options(scw_context *context,
                               const scw_drift_options *options,
                               scw_drift_result *out) {
  bool assigned = scwi_present(options->assigned);
  const struct {
    const char *what;
    double value;
  } sizes[] = {{"the uncertainty of the assigned value", options->assigned_u},
               {"its coverage factor", options->assigned_k},
               {"the permitted deviation", options->limit},
               {"the margin", options->margin}};
  for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
    scw_status status = check_size(context, sizes[i].what, sizes[i].value);
    if (status) return status;
  }
  if (!assigned && (options->assigned_u > 0 || options->limit > 0))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "an uncertainty of the assigned value and a permitted "
                     "deviation from it need the value itself");
  if (options->assigned_k > 0 && !(options->assigned_u > 0))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a coverage factor belongs to the uncertainty of the "
                     "assigned value, and that is not given");
  if (assigned && !isfinite(options->assigned.value))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the assigned value must be a number");
  double k = options->assigned_k > 0 ? options->assigned_k : 1;
  out->assigned = assigned ? options->assigned
                           : scwi_missing(SCW_NO_ASSIGNED_VALUE);
  out->assigned_u = assigned ? scwi_figure(options->assigned_u / k)
                             : scwi_missing(SCW_NO_ASSIGNED_VALUE);
  out->limit = options->limit;
  out->margin = options->margin;
  return SCW_OK;
}

static scw_status copy(scw_context *context, const char *text, char **out) {
  return scwi_copy_text(context, text, strlen(text), out);
}

static scw_status copy_facts(scw_context *context,
                             const scwi_table_facts *facts,
                             scw_drift_result *out) {
  out->step = facts->step;
  scw_status status = copy(context, facts->unit, &out->unit);
  if (!status) status = copy(context, facts->quantity, &out->quantity);
  if (!status) status = copy(context, facts->geometry, &out->geometry);
  return status;
}

/* A day just at the limit is permitted; what the subtraction rounds is none of
 * its deviation. */
static void mark_permitted(const scw_drift_result *result,
                           scw_drift_log *log) {
  double assigned = result->assigned.value;
  for (size_t i = 0; i < log->n_days && result->limit > 0; i++) {
    double mean = log->day[i].mean;
    double rounding = 4 * DBL_EPSILON * fmax(fabs(mean), fabs(assigned));
    log->day[i].beyond_permitted =
        fabs(mean - assigned) > result->limit + rounding;
  }
}

static scw_status look_at(scw_context *context, const scwi_drift_frame *frame,
                          const scwi_drift_series *series,
                          scw_drift_log *log) {
  scwi_drift_values values = {0};
  scwi_drift_seen seen = {.sorted = series->sorted, .values = &values};
  scwi_notes notes = {0};
  long *mark = NULL;
  size_t marks = 0;
  scw_status status = scwi_drift_days(context, frame, series, log, &values);
  if (!status)
    status = scwi_drift_marks(context, frame, series, &notes, &mark, &marks);
  if (!status)
    status = scwi_drift_stretches(context, frame, &values, mark, marks, log,
                                  &seen.line);
  if (!status) status = scwi_drift_charts_of(context, &values, log);
  if (!status)
    status = scwi_drift_now(context, frame, &values,
                            marks ? &mark[marks - 1] : NULL, log);
  if (!status) mark_permitted(frame->result, log);
  if (!status) status = scwi_drift_sentence(context, frame->result, log);
  if (!status)
    status = scwi_drift_notes(context, frame->result, log, &seen, &notes);
  log->notes = notes.note;
  log->n_notes = notes.n;
  scwi_drift_values_free(&values);
  free(mark);
  return status;
}

static scw_status look_at_all(scw_context *context,
                              const scwi_drift_frame *frame,
                              scw_drift_result *out) {
  scwi_drift_list list = {0};
  scwi_notes notes = {0};
  scw_status status = scwi_drift_series_of(context, frame, &list);
  if (!status) status = SCWI_ALLOCATE(context, list.n, &out->log);
  for (size_t i = 0; i < list.n && !status; i++) {
    out->n_logs = i + 1; /* also what a failure leaves is freed */
    status = scwi_drift_name(context, frame, &list, i, &out->log[i]);
    if (!status)
      status = look_at(context, frame, &list.series[i], &out->log[i]);
  }
  if (!status) status = scwi_drift_pairs(context, &list, out);
  if (!status) status = scwi_drift_sentence_of_all(context, out);
  if (!status) status = scwi_drift_notes_of_all(context, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  scwi_drift_list_free(&list);
  return status;
}

scw_status scw_drift(scw_context *context, const scw_table *table,
                     const scw_settings *settings,
                     const scw_drift_options *options, scw_drift_result *out) {
  static const scw_drift_options none;
  scwi_table_facts facts = {0};
  *out = (scw_drift_result){.n_logs = 0};
  if (!options) options = &none;
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = take_options(context, options, out);
  if (!status)
    status = scwi_table_facts_of(context, table, &out->settings, &facts);
  if (!status) status = copy_facts(context, &facts, out);
  scwi_drift_frame frame = {.table = table, .facts = &facts, .result = out};
  if (!status) status = scwi_drift_dates(context, options, &frame);
  if (!status) status = look_at_all(context, &frame, out);
  scwi_drift_frame_free(&frame);
  scwi_table_facts_free(&facts);
  if (status) scw_drift_result_free(out);
  return status;
}

static void free_log(scw_drift_log *log) {
  free(log->label);
  free(log->instrument);
  free(log->standard);
  free(log->sentence);
  free(log->day);
  free(log->stretch);
  free(log->shift);
  scwi_notes_free(log->notes, log->n_notes);
}

void scw_drift_result_free(scw_drift_result *result) {
  for (size_t i = 0; i < result->n_logs; i++) free_log(&result->log[i]);
  free(result->log);
  free(result->pair);
  free(result->unit);
  free(result->quantity);
  free(result->geometry);
  free(result->sentence);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_drift_result){.n_logs = 0};
}
