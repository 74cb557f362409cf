/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Recalibrations: days from which on the readings are another series. */
#include <stdlib.h>
#include <string.h>

#include "drift_inside.h"
#include "memory.h"

static bool contains(const char *text, const char *word) {
  size_t n = strlen(word);
  for (; strlen(text) >= n; text++)
    if (scwi_same_letters(text, word, n)) return true;
  return false;
}

/* Does a remark say that something was changed? */
static bool is_recalibration(const char *text) {
  static const char *const words[] = {"recalib",  "re-calib", "readjust",
                                      "adjusted", "repaired", "serviced",
                                      "replaced", "overhaul"};
  if (contains(text, "not ")) return false;
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (contains(text, words[i])) return true;
  return false;
}

typedef struct marks {
  long *day;
  size_t n;
  const char *remark; /* the first one that is no recalibration */
  size_t remarks;
} marks;

static void add(marks *to, long day) {
  size_t i = 0;
  while (i < to->n && to->day[i] < day) i++;
  if (i < to->n && to->day[i] == day) return;
  memmove(to->day + i + 1, to->day + i, (to->n - i) * sizeof *to->day);
  to->day[i] = day;
  to->n++;
}

static void take(const scwi_drift_frame *frame, const scw_reading *reading,
                 long day, marks *to) {
  const char *text = scw_table_label(frame->table, reading->event);
  if (reading->event == SCW_NO_LABEL) return;
  if (is_recalibration(text))
    add(to, day);
  else if (to->remarks++ == 0)
    to->remark = text;
}

/* An event that names no instrument or no standard is one of all. */
static bool concerns(const scw_reading *event, const scw_reading *key) {
  bool instrument = event->instrument == SCW_NO_LABEL ||
                    event->instrument == key->instrument;
  bool standard =
      event->standard == SCW_NO_LABEL || event->standard == key->standard;
  return instrument && standard;
}

scw_status scwi_drift_marks(scw_context *context, const scwi_drift_frame *frame,
                            const scwi_drift_series *series, scwi_notes *notes,
                            long **out, size_t *n) {
  size_t events = scw_table_events(frame->table);
  marks found = {0};
  *n = 0;
  scw_status status = SCWI_ALLOCATE(
      context, series->n + events + frame->n_recalibrated, &found.day);
  *out = found.day;
  if (status) return status;
  for (size_t i = 0; i < series->n; i++) {
    size_t index = series->reading[i];
    take(frame, &scw_table_readings(frame->table)[index], frame->day[index],
         &found);
  }
  for (size_t i = 0; i < events; i++) {
    const scw_reading *event = scw_table_event(frame->table, i);
    if (concerns(event, &series->key))
      take(frame, event, frame->event_day[i], &found);
  }
  for (size_t i = 0; i < frame->n_recalibrated; i++)
    add(&found, frame->recalibrated[i]);
  *n = found.n;
  if (found.remarks)
    status = scwi_note(context, notes, "remarks_not_taken",
                       "%zu remark%s not taken for a recalibration, such as "
                       "'%.60s'; where one was, say so with --recalibrated "
                       "DATE.",
                       found.remarks, found.remarks == 1 ? " is" : "s are",
                       found.remark);
  return status;
}
