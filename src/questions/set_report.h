/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report of one set: its figures, what a tester must know about them, and
 * the same without the readings that stand out. */
#ifndef SCWI_SET_REPORT_H
#define SCWI_SET_REPORT_H

#include "notes.h"
#include "scatterwise/change.h"
#include "values.h"

/* What the set is about, for its sentence and notes. */
typedef struct scwi_set_words {
  const char *label;
  const char *unit;
  bool alone; /* the only set: its sentence needs no label */
} scwi_set_words;

/* Fills `out` from values (n >= 1); the values are copied. */
scw_status scwi_set_report(scw_context *context, const scwi_values *values,
                           scwi_set_words words, scw_step step,
                           const scw_settings *settings, scw_set_report *out);

/* The little that numbers say of a set: n, mean, SD, interval. */
scw_status scwi_given_report(scw_context *context, const scw_given_side *given,
                             scwi_set_words words,
                             const scw_settings *settings,
                             scw_set_report *out);
void scwi_set_report_free(scw_set_report *report);

/* drop[i] = true for every flagged value of the summary; returns how many. */
size_t scwi_mark_flagged(const scw_summary *summary, bool *drop);

#endif
