/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer about a log, dated. */
#include <math.h>
#include <string.h>

#include "drift_inside.h"
#include "figure.h"
#include "memory.h"
#include "words.h"

/* "M1 on T1", "T1" or, where nothing is named, "The standard". */
static void say_subject(scwi_text *text, const scw_drift_log *log) {
  bool named = *log->instrument || *log->standard;
  scwi_text_add(text, named ? log->label : "The standard");
}

/* Since when the newest stretch holds. */
static void say_since(scwi_text *text, const scw_drift_log *log) {
  const scw_drift_stretch *newest = scwi_drift_newest(log);
  scwi_text_format(text, " since %s", log->day[newest->first].date.text);
}

static void say_between(scwi_text *text, const scw_estimate *estimate,
                        const char *unit) {
  scwi_say_interval(text, estimate->interval,
                    estimate->standard_uncertainty.value, unit);
}

static bool excludes_zero(const scw_interval *interval) {
  return interval->state == SCW_PRESENT &&
         (interval->low > 0 || interval->high < 0);
}

/* "reads 0.40 GU low since 2026-03-14 (95 % interval -0.52 to -0.28 GU)". */
static void say_bias(scwi_text *text, const scw_drift_result *result,
                     const scw_drift_log *log) {
  const scw_estimate *bias = &log->bias;
  say_subject(text, log);
  if (bias->interval.state != SCW_PRESENT) {
    scwi_text_add(text, ": no bias can be given, since ");
    scwi_text_add(text, bias->interval.state == SCW_OUT_OF_RANGE
                            ? "it is beyond what a double can hold"
                        : scwi_drift_newest(log)->days < 2
                            ? "one day has no scatter"
                            : "the days are all the same and no display step "
                              "is known");
    return;
  }
  if (excludes_zero(&bias->interval)) {
    scwi_text_add(text, " has read ");
    scwi_say_value(text, fabs(bias->estimate.value),
                   bias->standard_uncertainty.value, result->unit);
    scwi_text_add(text, bias->estimate.value < 0 ? " low" : " high");
    say_since(text, log);
    scwi_text_add(text, " (bias, ");
  } else {
    scwi_text_add(text, ": no bias can be told");
    say_since(text, log);
    scwi_text_add(text, " (");
  }
  scwi_say_percent(text, result->settings.level);
  scwi_text_add(text, " interval ");
  say_between(text, bias, result->unit);
  scwi_text_add(text, ")");
}

static void say_mean(scwi_text *text, const scw_drift_result *result,
                     const scw_drift_log *log) {
  const scw_estimate *mean = &scwi_drift_newest(log)->mean;
  double u = scwi_present(mean->standard_uncertainty)
                 ? mean->standard_uncertainty.value
                 : 0;
  say_subject(text, log);
  scwi_text_add(text, " has read ");
  scwi_say_value(text, mean->estimate.value, u, result->unit);
  scwi_text_add(text, " on average");
  say_since(text, log);
}

/* What the fence parts: today from before it, or all that came after it. */
static const char *words_of_fence(const scw_drift_log *log) {
  bool newest =
      log->fence.day == log->day[scwi_drift_newest(log)->first].date.day;
  if (log->fence_from == SCW_DRIFT_SLOPE)
    return "today's: the movement since has used up the margin. ";
  if (log->fence_from == SCW_DRIFT_RECALIBRATED)
    return "those after it, because of the recalibration. ";
  return newest ? "those after it. " : "today's. ";
}

static void say_fence(scwi_text *text, const scw_drift_log *log) {
  if (!*log->fence.text) {
    scwi_text_add(text, ". ");
    return;
  }
  scwi_text_format(text, "; results from before %s are not comparable with ",
                   log->fence.text);
  scwi_text_add(text, words_of_fence(log));
}

static void say_shift(scwi_text *text, const scw_drift_result *result,
                      const scw_drift_log *log) {
  if (log->n_shifts == 0) return;
  const scw_drift_shift *shift = &log->shift[log->n_shifts - 1];
  const scw_estimate *size = &shift->size;
  double u = scwi_present(size->standard_uncertainty)
                 ? size->standard_uncertainty.value
                 : 0;
  scwi_text_format(text, "The level %s by ",
                   size->estimate.value < 0 ? "fell" : "rose");
  scwi_say_value(text, fabs(size->estimate.value), u, result->unit);
  scwi_text_format(text, " between %s and %s", shift->before.text,
                   shift->date.text);
  scwi_text_add(text, shift->within_margin ? ", which is less than your margin. "
                                           : ". ");
}

static void say_slope(scwi_text *text, const scw_drift_result *result,
                      const scw_drift_log *log) {
  const scw_estimate *slope = &log->slope;
  if (slope->interval.state != SCW_PRESENT) {
    scwi_text_add(text, "Whether it moves cannot be told from ");
    scwi_say_count(text, scwi_drift_newest(log)->days, "day");
    scwi_text_add(text, ".");
    return;
  }
  if (excludes_zero(&slope->interval)) {
    scwi_text_format(text, "It is moving %s by ",
                     slope->estimate.value < 0 ? "down" : "up");
    scwi_say_value(text, fabs(slope->estimate.value),
                   slope->standard_uncertainty.value, result->unit);
    scwi_text_add(text, " a month (");
    say_between(text, slope, result->unit);
    scwi_text_add(text, ").");
    return;
  }
  scwi_text_add(text, "No steady movement can be told; one of up to ");
  scwi_say_digits(text,
                  fmax(fabs(slope->interval.low), fabs(slope->interval.high)),
                  2, result->unit);
  scwi_text_add(text, " a month cannot be ruled out.");
}

/* Recalibrated behind the last reading. */
static bool nothing_since(const scw_drift_log *log) {
  return *log->fence.text &&
         log->fence.day > log->day[log->n_days - 1].date.day;
}

scw_status scwi_drift_sentence(scw_context *context,
                               const scw_drift_result *result,
                               scw_drift_log *log) {
  scwi_text text = {0};
  if (nothing_since(log)) {
    say_subject(&text, log);
    scwi_text_format(&text,
                     ": nothing is known since the recalibration of %s, for no "
                     "reading is dated after it; results from before that day "
                     "are not comparable with those after it.",
                     log->fence.text);
  } else {
    if (scwi_present(result->assigned))
      say_bias(&text, result, log);
    else
      say_mean(&text, result, log);
    say_fence(&text, log);
    say_shift(&text, result, log);
    say_slope(&text, result, log);
  }
  scw_status status = scwi_text_take(context, &text, &log->sentence);
  scwi_text_free(&text);
  return status;
}

static size_t fenced(const scw_drift_result *result) {
  size_t n = 0;
  for (size_t i = 0; i < result->n_logs; i++)
    n += *result->log[i].fence.text != '\0';
  return n;
}

static void say_share(scwi_text *text, size_t n) {
  if (n == 0)
    scwi_text_add(text, "none is");
  else
    scwi_text_format(text, "%zu %s", n, n == 1 ? "is" : "are");
}

scw_status scwi_drift_sentence_of_all(scw_context *context,
                                      scw_drift_result *result) {
  scwi_text text = {0};
  size_t moving = 0;
  if (result->n_logs == 1)
    return scwi_copy_text(context, result->log[0].sentence,
                          strlen(result->log[0].sentence), &result->sentence);
  for (size_t i = 0; i < result->n_logs; i++)
    moving += excludes_zero(&result->log[i].slope.interval);
  scwi_text_format(&text, "Of %zu logs ", result->n_logs);
  say_share(&text, fenced(result));
  scwi_text_add(&text, " fenced");
  if (fenced(result))
    scwi_text_format(&text, " (%s older results are not comparable with today's)",
                     fenced(result) == 1 ? "its" : "their");
  scwi_text_add(&text, ", and ");
  say_share(&text, moving);
  scwi_text_add(&text, " moving now.");
  scw_status status = scwi_text_take(context, &text, &result->sentence);
  scwi_text_free(&text);
  return status;
}
