/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log is what one instrument reads on one standard: readings that share all
 * labels which tell things apart. */
#include <stdlib.h>
#include <string.h>

#include "drift_inside.h"
#include "memory.h"

enum { KEYS = 6 };

/* Labels that tell logs apart, in the order they are named. */
static void keys_of(const scw_reading *reading, int32_t out[KEYS]) {
  const int32_t keys[KEYS] = {reading->instrument, reading->standard,
                              reading->set,        reading->product,
                              reading->panel,      reading->state};
  memcpy(out, keys, sizeof keys);
}

static bool same_log(const scw_reading *a, const scw_reading *b) {
  int32_t left[KEYS], right[KEYS];
  keys_of(a, left);
  keys_of(b, right);
  return memcmp(left, right, sizeof left) == 0 && a->side == b->side;
}

static scw_status take(scw_context *context, scwi_drift_list *list,
                       const scw_reading *reading, size_t index) {
  size_t s = 0;
  while (s < list->n && !same_log(&list->series[s].key, reading)) s++;
  scw_status status = SCW_OK;
  if (s == list->n) {
    status = SCWI_RESERVE(context, s + 1, &list->series, &list->capacity);
    if (status) return status;
    list->series[list->n++] = (scwi_drift_series){.key = *reading};
  }
  scwi_drift_series *series = &list->series[s];
  status = SCWI_RESERVE(context, series->n + 1, &series->reading,
                        &series->capacity);
  if (!status) series->reading[series->n++] = index;
  return status;
}

typedef struct dated {
  long day;
  size_t index;
} dated;

static int by_day(const void *left, const void *right) {
  const dated *a = left, *b = right;
  if (a->day != b->day) return a->day < b->day ? -1 : 1;
  return a->index < b->index ? -1 : a->index > b->index;
}

static scw_status sort_series(scw_context *context,
                              const scwi_drift_frame *frame,
                              scwi_drift_series *series) {
  dated *all;
  scw_status status = SCWI_ALLOCATE(context, series->n, &all);
  if (status) return status;
  for (size_t i = 0; i < series->n; i++) {
    size_t index = series->reading[i];
    all[i] = (dated){frame->day[index], index};
    if (i && all[i].day < all[i - 1].day) series->sorted = true;
  }
  qsort(all, series->n, sizeof *all, by_day);
  for (size_t i = 0; i < series->n; i++) series->reading[i] = all[i].index;
  free(all);
  return SCW_OK;
}

scw_status scwi_drift_series_of(scw_context *context,
                                const scwi_drift_frame *frame,
                                scwi_drift_list *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < scw_table_size(frame->table) && !status; i++)
    status = take(context, out, &scw_table_readings(frame->table)[i], i);
  for (size_t s = 0; s < out->n && !status; s++)
    status = sort_series(context, frame, &out->series[s]);
  return status;
}

void scwi_drift_list_free(scwi_drift_list *list) {
  for (size_t s = 0; s < list->n; s++) free(list->series[s].reading);
  free(list->series);
  *list = (scwi_drift_list){0};
}

/* Names of the labels that differ between the logs; with one log only the
 * instrument and the standard. */
static void add_names(const scwi_drift_frame *frame,
                      const scwi_drift_list *list, size_t which,
                      scwi_text *text) {
  int32_t own[KEYS], other[KEYS];
  keys_of(&list->series[which].key, own);
  for (size_t k = 0; k < KEYS; k++) {
    bool told = list->n == 1 && k < 2;
    for (size_t s = 0; s < list->n && !told; s++) {
      keys_of(&list->series[s].key, other);
      told = other[k] != own[k];
    }
    if (!told || own[k] == SCW_NO_LABEL) continue;
    if (text->length) scwi_text_add(text, k == 1 ? " on " : ", ");
    scwi_text_add(text, scw_table_label(frame->table, own[k]));
  }
}

static scw_status copy(scw_context *context, const char *text, char **out) {
  return scwi_copy_text(context, text, strlen(text), out);
}

scw_status scwi_drift_name(scw_context *context, const scwi_drift_frame *frame,
                           const scwi_drift_list *list, size_t which,
                           scw_drift_log *log) {
  const scw_reading *key = &list->series[which].key;
  scwi_text text = {0};
  scw_status status =
      copy(context, scw_table_label(frame->table, key->instrument),
           &log->instrument);
  if (!status)
    status = copy(context, scw_table_label(frame->table, key->standard),
                  &log->standard);
  if (!status) add_names(frame, list, which, &text);
  if (!status && !text.length && !text.failed)
    scwi_text_add(&text, list->n == 1 ? frame->facts->name : "no name");
  if (!status) status = scwi_text_take(context, &text, &log->label);
  scwi_text_free(&text);
  return status;
}
