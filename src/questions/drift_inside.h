/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the drift question: what its files share. */
#ifndef SCWI_DRIFT_INSIDE_H
#define SCWI_DRIFT_INSIDE_H

#include "notes.h"
#include "sample.h"
#include "scatterwise/drift.h"
#include "table_facts.h"

/* The whole table, dated. */
typedef struct scwi_drift_frame {
  const scw_table *table;
  const scwi_table_facts *facts;
  const scw_drift_result *result; /* settings, assigned value, margin, limit */
  long *day;          /* of every reading */
  long *event_day;    /* of every event without a reading */
  long *recalibrated; /* given by options */
  size_t n_recalibrated;
} scwi_drift_frame;

/* The readings of one log, by date and then as in the file. */
typedef struct scwi_drift_series {
  scw_reading key;  /* its labels; the other fields are not used */
  size_t *reading;
  size_t n, capacity;
  bool sorted;      /* the file had them in another order */
} scwi_drift_series;

typedef struct scwi_drift_list {
  scwi_drift_series *series;
  size_t n, capacity;
} scwi_drift_list;

/* The means of the days as methods want them. */
typedef struct scwi_drift_values {
  double *day, *x;
  int64_t *ticks;   /* null: no common decimal */
  size_t n;
  double tick_size;
  scw_step step;
} scwi_drift_values;

/* drift_dates.c: fills the days of the frame, which scwi_drift_frame_free
 * frees in any case. */
scw_status scwi_drift_dates(scw_context *context,
                            const scw_drift_options *options,
                            scwi_drift_frame *frame);
void scwi_drift_frame_free(scwi_drift_frame *frame);

/* drift_series.c: one series for each log; free in any case. */
scw_status scwi_drift_series_of(scw_context *context,
                                const scwi_drift_frame *frame,
                                scwi_drift_list *out);
void scwi_drift_list_free(scwi_drift_list *list);
scw_status scwi_drift_name(scw_context *context, const scwi_drift_frame *frame,
                           const scwi_drift_list *list, size_t which,
                           scw_drift_log *log);

/* drift_days.c: days of the log and their values; the latter are freed with
 * scwi_drift_values_free in any case. */
scw_status scwi_drift_days(scw_context *context, const scwi_drift_frame *frame,
                           const scwi_drift_series *series, scw_drift_log *log,
                           scwi_drift_values *out);
void scwi_drift_values_free(scwi_drift_values *values);
scwi_sample scwi_drift_sample(const scwi_drift_values *values, size_t first,
                              size_t n);

/* drift_marks.c: days on which a recalibration begins something new, ascending;
 * *n of them, freed by the caller. Remarks that are none are told in a note. */
scw_status scwi_drift_marks(scw_context *context, const scwi_drift_frame *frame,
                            const scwi_drift_series *series, scwi_notes *notes,
                            long **out, size_t *n);

/* drift_stretches.c: segments, stretches and steps. */
scw_status scwi_drift_stretches(scw_context *context,
                                const scwi_drift_frame *frame,
                                const scwi_drift_values *values,
                                const long *mark, size_t marks,
                                scw_drift_log *log, bool *line);
scw_status scwi_drift_mean(scw_context *context, const scwi_sample *sample,
                           double level, scw_estimate *out);
/* How far the mean of `after` is from that of `before`, without a p. */
scw_status scwi_drift_between(scw_context *context,
                              const scwi_drift_values *values,
                              const scw_drift_stretch *before,
                              const scw_drift_stretch *after, double level,
                              scw_estimate *out);
/* Its interval is wholly inside the margin; false where there is no margin. */
bool scwi_drift_is_small(const scw_drift_result *result,
                         const scw_estimate *moved);

/* drift_charts.c */
scw_status scwi_drift_charts_of(scw_context *context,
                                const scwi_drift_values *values,
                                scw_drift_log *log);

/* drift_now.c: bias, slope and fence of the newest stretch; `mark` is the last
 * recalibration or null. */
scw_status scwi_drift_now(scw_context *context, const scwi_drift_frame *frame,
                          const scwi_drift_values *values, const long *mark,
                          scw_drift_log *log);

/* drift_words.c */
scw_status scwi_drift_sentence(scw_context *context,
                               const scw_drift_result *result,
                               scw_drift_log *log);
scw_status scwi_drift_sentence_of_all(scw_context *context,
                                      scw_drift_result *result);

/* drift_notes.c */
typedef struct scwi_drift_seen {
  bool sorted, line;
  const scwi_drift_values *values;
} scwi_drift_seen;
scw_status scwi_drift_notes(scw_context *context,
                            const scw_drift_result *result,
                            const scw_drift_log *log,
                            const scwi_drift_seen *seen, scwi_notes *notes);
scw_status scwi_drift_notes_of_all(scw_context *context,
                                   const scw_drift_result *result,
                                   scwi_notes *notes);

extern const double scwi_days_in_month; /* 30.4375, 365.25 / 12 */
scw_date scwi_drift_date(long day);
const scw_drift_stretch *scwi_drift_newest(const scw_drift_log *log);

#endif
