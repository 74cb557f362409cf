/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Does the side before drift over the years? The means before on one panel, by
 * one meter and method, over their dates. */
#include <stdlib.h>
#include <string.h>

#include "audit_inside.h"
#include "dated_line.h"
#include "figure.h"
#include "memory.h"

enum { LEAST_DATES = 4, MOST_SERIES = 50 };
#define DAYS_A_YEAR 365.25

typedef struct dated {
  const scwi_facts *facts;
  double mean;
} dated;

static int compare_series(const scwi_facts *a, const scwi_facts *b) {
  static const scwi_context_text same[] = {SCWI_OF_PANEL, SCWI_OF_METER,
                                           SCWI_OF_METHOD, SCWI_OF_GEOMETRY,
                                           SCWI_OF_UNIT};
  for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
    int order = strcmp(a->text[same[i]], b->text[same[i]]);
    if (order) return order;
  }
  return 0;
}

static int by_series(const void *left, const void *right) {
  const dated *a = left, *b = right;
  int order = compare_series(a->facts, b->facts);
  if (order) return order;
  return (a->facts->day > b->facts->day) - (a->facts->day < b->facts->day);
}

static bool mean_before(const scwi_record *r, double *out) {
  if (r->readings[0].n)
    *out = r->readings[0].mean;
  else
    *out = r->mean[0].value;
  return r->readings[0].n || r->mean[0].has;
}

static scw_status gather(scw_context *context, const scw_audit *audit,
                         dated **out, size_t *n) {
  scw_status status = SCWI_ALLOCATE(context, audit->n, out);
  *n = 0;
  for (size_t i = 0; i < audit->n && !status; i++) {
    const scwi_facts *facts = scwi_facts_of(audit, i);
    scwi_record record;
    double mean;
    scwi_audit_record_of(audit, i, &record);
    if (!facts->has_day || !mean_before(&record, &mean) ||
        scwi_is_grave(scwi_audit_faults(&record, facts)))
      continue;
    (*out)[(*n)++] = (dated){facts, mean};
  }
  if (*n) qsort(*out, *n, sizeof **out, by_series);
  return status;
}

static size_t dates_of(const dated *series, size_t n) {
  size_t dates = n > 0;
  for (size_t i = 1; i < n; i++)
    dates += series[i].facts->day != series[i - 1].facts->day;
  return dates;
}

static scw_estimate times(scw_estimate slope, double factor) {
  slope.estimate.value *= factor;
  slope.standard_uncertainty.value *= factor;
  slope.interval.low *= factor;
  slope.interval.high *= factor;
  return slope;
}

static scw_status add(scw_context *context, const dated *series, size_t n,
                      scw_audit *audit) {
  double *day = NULL, *mean = NULL;
  scw_status status = SCWI_ALLOCATE(context, n, &day);
  if (!status) status = SCWI_ALLOCATE(context, n, &mean);
  for (size_t i = 0; i < n && !status; i++) {
    day[i] = (double)(series[i].facts->day - series[0].facts->day);
    mean[i] = series[i].mean;
  }
  scwi_dated_line line;
  const scwi_sample sample = {
      .n = n, .x = mean, .step = {series[0].facts->step[0], SCW_STEP_GIVEN}};
  if (!status)
    status = scwi_dated_line_of(context, day, &sample, audit->settings.level,
                                &line);
  const scwi_facts *first = series[0].facts, *last = series[n - 1].facts;
  if (!status)
    audit->baseline[audit->n_baselines++] = (scw_audit_baseline){
        first->text[SCWI_OF_PANEL], first->text[SCWI_OF_METER],
        first->text[SCWI_OF_METHOD], n, first->text[SCWI_OF_DATE],
        last->text[SCWI_OF_DATE], times(line.slope, DAYS_A_YEAR)};
  free(day);
  free(mean);
  return status;
}

scw_status scwi_audit_baselines(scw_context *context, scw_audit *audit) {
  dated *all = NULL;
  size_t n = 0;
  scw_status status = gather(context, audit, &all, &n);
  if (!status) status = SCWI_ALLOCATE(context, MOST_SERIES, &audit->baseline);
  for (size_t i = 0, end; i < n && !status; i = end) {
    for (end = i + 1; end < n && !compare_series(all[i].facts, all[end].facts);)
      end++;
    if (dates_of(all + i, end - i) >= LEAST_DATES &&
        audit->n_baselines < MOST_SERIES)
      status = add(context, all + i, end - i, audit);
  }
  free(all);
  return status;
}
