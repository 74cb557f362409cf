/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates: read, or refused in words. */
#include <stdlib.h>
#include <string.h>

#include "calendar.h"
#include "drift_inside.h"
#include "memory.h"

static const char *words_of(scwi_date_fault fault) {
  switch (fault) {
    case SCWI_DATE_TWO:
      return "could be two dates, day or month first; write it year first, as "
             "2026-03-14";
    case SCWI_DATE_SHORT_YEAR:
      return "has a year of two digits; write the year in full and first, as "
             "2026-03-14";
    case SCWI_DATE_NO_MONTH:
      return "is no date: there is no such month";
    case SCWI_DATE_NO_DAY:
      return "is no date: that month has no such day";
    case SCWI_DATE_BAD_TIME:
      return "is a date with something behind it that is no time of day, such "
             "as 10:30";
    default:
      return "is no date; write it as 2026-03-14";
  }
}

scw_date scwi_drift_date(long day) {
  scw_date date = {.day = day};
  scwi_date_text(day, date.text);
  return date;
}

scw_status scw_date_read(scw_context *context, const char *text,
                         scw_date *out) {
  long day = 0;
  *out = (scw_date){.day = 0};
  scwi_date_fault fault = scwi_date_read(text, &day);
  if (fault != SCWI_DATE_OK)
    return scwi_fail(context, SCW_BAD_INPUT, "'%.40s' %s", text,
                     words_of(fault));
  *out = scwi_drift_date(day);
  return SCW_OK;
}

static scw_status date_of(scw_context *context, const scwi_drift_frame *frame,
                          const scw_reading *reading, const char *file,
                          const char *what, long *out) {
  const char *text = scw_table_label(frame->table, reading->date);
  if (reading->date == SCW_NO_LABEL)
    return scwi_fail_at(context, SCW_BAD_INPUT, file, reading->line, 0,
                        "%s has no date; give the day it was taken, as "
                        "2026-03-14",
                        what);
  scwi_date_fault fault = scwi_date_read(text, out);
  if (fault == SCWI_DATE_OK) return SCW_OK;
  return scwi_fail_at(context, SCW_BAD_INPUT, file, reading->line, 0,
                      "'%.40s' %s", text, words_of(fault));
}

static scw_status dates_of_options(scw_context *context,
                                   const scw_drift_options *options,
                                   scwi_drift_frame *frame) {
  scw_status status =
      SCWI_ALLOCATE(context, options->n_recalibrated, &frame->recalibrated);
  for (size_t i = 0; i < options->n_recalibrated && status == SCW_OK; i++) {
    const char *text = options->recalibrated[i];
    scwi_date_fault fault = scwi_date_read(text, &frame->recalibrated[i]);
    if (fault != SCWI_DATE_OK)
      status = scwi_fail(context, SCW_BAD_ARGUMENT, "recalibrated: '%.40s' %s",
                         text, words_of(fault));
    frame->n_recalibrated = i + 1;
  }
  return status;
}

static scw_status check_columns(scw_context *context, const scw_table *table) {
  for (size_t i = 0; i < scw_table_inputs(table); i++) {
    const scw_input *input = scw_table_input(table, i);
    if (!input->role_column[SCW_ROLE_DATE])
      return scwi_fail_at(context, SCW_BAD_INPUT, input->name, 0, 0,
                          "a log needs the day of each reading: give a column "
                          "headed date, or name it with --date");
  }
  return SCW_OK;
}

scw_status scwi_drift_dates(scw_context *context,
                            const scw_drift_options *options,
                            scwi_drift_frame *frame) {
  const scw_table *table = frame->table;
  size_t n = scw_table_size(table), events = scw_table_events(table);
  scw_status status = check_columns(context, table);
  if (!status) status = SCWI_ALLOCATE(context, n, &frame->day);
  if (!status) status = SCWI_ALLOCATE(context, events, &frame->event_day);
  for (size_t i = 0; i < n && !status; i++) {
    const char *file =
        scw_table_input(table, scw_table_input_of(table, i))->name;
    status = date_of(context, frame, &scw_table_readings(table)[i], file,
                     "this reading", &frame->day[i]);
  }
  for (size_t i = 0; i < events && !status; i++)
    status = date_of(context, frame, scw_table_event(table, i),
                     frame->facts->name, "this event", &frame->event_day[i]);
  return status ? status : dates_of_options(context, options, frame);
}

void scwi_drift_frame_free(scwi_drift_frame *frame) {
  free(frame->day);
  free(frame->event_day);
  free(frame->recalibrated);
}
