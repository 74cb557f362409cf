/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "one_set.h"

#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "display_step.h"

const scwi_summary_settings one_set_defaults = {
    .level = 0.95, .content = 0.95, .stand_out = 0.05, .seed = 1};

static one_set with_room(size_t n) {
  one_set set = {.n = n,
                 .x = calloc(n, sizeof *set.x),
                 .ticks = calloc(n, sizeof *set.ticks)};
  assert_non_null(set.x);
  assert_non_null(set.ticks);
  return set;
}

static scwi_decimal decimal_of(const char *text) {
  scwi_decimal decimal;
  assert_int_equal(scwi_decimal_read(text, strlen(text), '.', &decimal),
                   SCWI_DECIMAL_OK);
  assert_true(decimal.exact);
  return decimal;
}

one_set one_set_from_texts(const char *const *texts, size_t n) {
  one_set set = with_room(n);
  set.digits = decimal_of(texts[0]).digits;
  for (size_t i = 1; i < n; i++) {
    int digits = decimal_of(texts[i]).digits;
    if (digits > set.digits) set.digits = digits;
  }
  for (size_t i = 0; i < n; i++) {
    scwi_decimal decimal = decimal_of(texts[i]);
    set.x[i] = decimal.value;
    assert_true(scwi_decimal_ticks(&decimal, set.digits, &set.ticks[i]));
  }
  return set;
}

one_set one_set_from_file(const char *name, const char *column) {
  char path[4096];
  snprintf(path, sizeof path, "%s/%s", REFERENCE_DATA, name);
  check_table table = check_table_read(path);
  const char **texts = calloc(table.rows, sizeof *texts);
  assert_non_null(texts);
  for (size_t row = 0; row < table.rows; row++)
    texts[row] = check_table_text(&table, row, column);
  one_set set = one_set_from_texts(texts, table.rows);
  free(texts);
  check_table_free(&table);
  return set;
}

one_set one_set_from_ticks(const int64_t *ticks, size_t n, int digits) {
  one_set set = with_room(n);
  set.digits = digits;
  for (size_t i = 0; i < n; i++) {
    char text[64];
    snprintf(text, sizeof text, "%lldE%d", (long long)ticks[i], -digits);
    set.ticks[i] = ticks[i];
    set.x[i] = strtod(text, NULL);
  }
  return set;
}

void one_set_free(one_set *set) {
  free(set->x);
  free(set->ticks);
  *set = (one_set){0};
}

scwi_sample one_set_sample(const one_set *set) {
  char text[32];
  snprintf(text, sizeof text, "1E%d", -set->digits);
  return (scwi_sample){
      .n = set->n,
      .x = set->x,
      .ticks = set->ticks,
      .tick_size = strtod(text, NULL),
      .step = scwi_display_step(set->ticks, set->n, set->digits)};
}

scwi_sample one_set_doubles(const one_set *set) {
  scwi_sample sample = one_set_sample(set);
  sample.ticks = NULL;
  return sample;
}

scw_context *one_set_context(void) {
  static scw_context *context;
  if (!context) assert_int_equal(scw_context_new(&context), SCW_OK);
  return context;
}

scw_summary one_set_summary_with(scwi_sample sample,
                                 const scwi_summary_settings *settings) {
  scw_summary summary;
  scw_context *context = one_set_context();
  if (scwi_summarise(context, &sample, settings, &summary) != SCW_OK)
    fail_msg("%s", scw_context_message(context));
  return summary;
}

scw_summary one_set_summary(scwi_sample sample) {
  return one_set_summary_with(sample, &one_set_defaults);
}

unsigned long long one_set_random(unsigned long long *state) {
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return *state * 0x2545F4914F6CDD1DULL;
}

double one_set_normal(unsigned long long *state) {
  double u = ((double)(one_set_random(state) >> 11) + 0.5) * 0x1p-53;
  double v = (double)(one_set_random(state) >> 11) * 0x1p-53;
  return sqrt(-2 * log(u)) * cos(6.283185307179586477 * v);
}

#define END(interval, end)                                                     \
  { s->interval.end, s->interval.state }

void one_set_list(const scw_summary *s, one_set_named out[ONE_SET_FIGURES]) {
  const one_set_named all[ONE_SET_FIGURES] = {
      {"mean", s->mean},
      {"sd", s->sd},
      {"standard_uncertainty_scatter", s->standard_uncertainty_scatter},
      {"standard_uncertainty", s->standard_uncertainty},
      {"df", s->df},
      {"low", END(interval, low)},
      {"high", END(interval, high)},
      {"sd_low", END(sd_interval, low)},
      {"sd_high", END(sd_interval, high)},
      {"prediction_low", END(prediction, low)},
      {"prediction_high", END(prediction, high)},
      {"k", s->tolerance.k},
      {"tolerance_low", END(tolerance.interval, low)},
      {"tolerance_high", END(tolerance.interval, high)},
      {"median", s->median},
      {"q1", s->q1},
      {"q3", s->q3},
      {"mad", s->mad},
      {"mad_sd", s->mad_sd},
      {"robust_mean", s->robust_mean},
      {"robust_sd", s->robust_sd},
      {"grubbs_statistic", s->stand_out.grubbs_statistic},
      {"grubbs_limit", s->stand_out.grubbs_limit},
      {"grubbs_p", s->stand_out.grubbs_p},
      {"slope", s->creep.slope},
      {"slope_p", s->creep.p},
      {"slope_low", END(creep.slope_interval, low)},
      {"slope_high", END(creep.slope_interval, high)},
      {"sd_about_line", s->creep.sd_about_line},
      {"kendall_s", s->creep.kendall_s},
      {"kendall_p", s->creep.kendall_p},
      {"lag1", s->serial.lag1},
      {"lag1_p", s->serial.lag1_p},
      {"rank_von_neumann", s->serial.rank_von_neumann},
      {"shift", s->level_shift.size},
      {"shift_p", s->level_shift.p},
      {"shapiro_w", s->shape.shapiro_w},
      {"shapiro_p", s->shape.shapiro_p},
      {"anderson_darling", s->shape.anderson_darling},
      {"anderson_darling_p", s->shape.anderson_darling_p}};
  memcpy(out, all, sizeof all);
}

scw_figure one_set_find(const scw_summary *summary, const char *name) {
  one_set_named all[ONE_SET_FIGURES];
  one_set_list(summary, all);
  for (size_t i = 0; i < ONE_SET_FIGURES; i++)
    if (!strcmp(all[i].name, name)) return all[i].figure;
  fail_msg("no figure %s", name);
  return (scw_figure){0};
}
