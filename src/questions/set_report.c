/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "set_report.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "moments.h"
#include "set_notes.h"
#include "settings.h"
#include "summarise.h"
#include "words.h"

size_t scwi_mark_flagged(const scw_summary *summary, bool *drop) {
  size_t marked = 0;
  for (size_t i = 0; i < summary->stand_out.n_flags; i++) {
    size_t place = summary->stand_out.flags[i].place;
    if (!drop[place - 1]) marked++;
    drop[place - 1] = true;
  }
  return marked;
}

/* "87.42 GU, interval 87.10 to 87.74 GU (95 %), from 10 readings". */
static void say_mean(scwi_text *text, const scw_set_report *report) {
  const scw_summary *s = &report->summary;
  const char *thing = report->spots ? "spot" : "reading";
  double u = scwi_present(s->standard_uncertainty)
                 ? s->standard_uncertainty.value
                 : 0;
  scwi_say_value(text, s->mean.value, u, report->unit);
  if (s->interval.state == SCW_PRESENT) {
    scwi_text_add(text, ", interval ");
    scwi_say_interval(text, s->interval, u, report->unit);
    scwi_text_add(text, " (");
    scwi_say_percent(text, s->interval.level);
    scwi_text_add(text, "), from ");
    scwi_say_count(text, s->n, thing);
  } else {
    scwi_text_add(text, " from ");
    scwi_say_count(text, s->n, thing);
    scwi_text_format(text, "; no interval can be given: %s",
                     scw_presence_text(s->interval.state));
  }
}

static void say_warnings(scwi_text *text, const scw_set_report *report) {
  const scw_summary *s = &report->summary;
  size_t flags = s->stand_out.n_flags;
  if (flags == 1)
    scwi_text_format(text, "; %s %zu stands out",
                     report->spots ? "value" : "reading",
                     report->places[s->stand_out.flags[0].place - 1]);
  else if (flags > 1)
    scwi_text_format(text, "; %zu %s stand out", flags,
                     report->spots ? "values" : "readings");
  if (s->creep.creeping)
    scwi_text_format(text, "; the readings creep %s while they are taken",
                     s->creep.slope.value > 0 ? "upward" : "downward");
}

static scw_status say_sentence(scw_context *context, scwi_set_words words,
                               scw_set_report *report) {
  scwi_text text = {0};
  if (words.alone)
    scwi_text_add(&text, "Mean ");
  else
    scwi_text_format(&text, "%s: mean ", words.label);
  say_mean(&text, report);
  say_warnings(&text, report);
  scwi_text_add(&text, ".");
  return scwi_text_take(context, &text, &report->sentence);
}

static scw_status copy_values(scw_context *context, const scwi_values *values,
                              scw_set_report *out) {
  scw_status status = SCWI_ALLOCATE(context, values->n, &out->values);
  if (!status) status = SCWI_ALLOCATE(context, values->n, &out->lines);
  if (!status) status = SCWI_ALLOCATE(context, values->n, &out->places);
  if (status) return status;
  memcpy(out->values, values->x, values->n * sizeof *out->values);
  memcpy(out->lines, values->line, values->n * sizeof *out->lines);
  memcpy(out->places, values->place, values->n * sizeof *out->places);
  out->readings = values->readings;
  out->spots = values->by_spot ? values->n : 0;
  return SCW_OK;
}

/* The figures without the flagged values, when there are any. */
static scw_status summarise_without(scw_context *context,
                                    const scwi_values *values, scw_step step,
                                    const scwi_summary_settings *settings,
                                    scw_set_report *out) {
  bool *drop = NULL;
  scwi_values rest = {0};
  if (out->summary.stand_out.n_flags == 0) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, values->n, &drop);
  if (!status) {
    scwi_mark_flagged(&out->summary, drop);
    status = scwi_values_without(context, values, drop, &rest);
  }
  if (!status && rest.n) {
    scwi_sample sample = scwi_values_sample(&rest, step);
    status = scwi_summarise(context, &sample, settings, &out->without_flagged);
  }
  scwi_values_free(&rest);
  free(drop);
  return status;
}

scw_status scwi_set_report(scw_context *context, const scwi_values *values,
                           scwi_set_words words, scw_step step,
                           const scw_settings *settings, scw_set_report *out) {
  scwi_summary_settings how = scwi_settings_for_summary(settings);
  scwi_sample sample = scwi_values_sample(values, step);
  scwi_notes notes = {0};
  *out = (scw_set_report){0};
  scw_status status = scwi_copy_text(context, words.label, strlen(words.label),
                                     &out->label);
  if (!status)
    status = scwi_copy_text(context, words.unit, strlen(words.unit),
                            &out->unit);
  if (!status) status = copy_values(context, values, out);
  if (!status)
    status = scwi_summarise(context, &sample, &how, &out->summary);
  if (!status)
    status = summarise_without(context, values, step, &how, out);
  if (!status) status = say_sentence(context, words, out);
  if (!status)
    status = scwi_set_notes(context, values, settings, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  if (status) scwi_set_report_free(out);
  return status;
}

static scw_status given_summary(scw_context *context,
                                const scw_given_side *given, double level,
                                scw_summary *out) {
  scw_presence why = SCW_BARE_NUMBER;
  out->n = given->n;
  out->mean = scwi_figure(given->mean);
  if (given->step > 0) out->step = (scw_step){given->step, SCW_STEP_GIVEN};
  out->sd = scwi_missing(why);
  out->standard_uncertainty = out->df = scwi_missing(why);
  out->interval = scwi_no_interval(why, level);
  if (!given->has_sd) return SCW_OK;
  scwi_uncertainty u = scwi_mean_uncertainty(given->sd, given->n, given->step);
  out->sd = scwi_figure(given->sd);
  if (u.u == 0) return SCW_OK;
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = isfinite(u.df) ? scwi_figure(u.df) : scwi_missing(SCW_UNBOUNDED);
  return scwi_t_interval(context, given->mean, u, level, &out->interval);
}

scw_status scwi_given_report(scw_context *context, const scw_given_side *given,
                             scwi_set_words words,
                             const scw_settings *settings,
                             scw_set_report *out) {
  *out = (scw_set_report){.readings = given->n};
  scw_status status = scwi_copy_text(context, words.label, strlen(words.label),
                                     &out->label);
  if (!status)
    status = scwi_copy_text(context, words.unit, strlen(words.unit),
                            &out->unit);
  if (!status)
    status = given_summary(context, given, settings->level, &out->summary);
  if (status) scwi_set_report_free(out);
  return status;
}

void scwi_set_report_free(scw_set_report *report) {
  for (size_t i = 0; i < report->n_left_out; i++) {
    free((char *)report->left_out[i].set);
    free((char *)report->left_out[i].because);
  }
  free(report->left_out);
  free(report->label);
  free(report->unit);
  free(report->sentence);
  free(report->values);
  free(report->lines);
  free(report->places);
  scwi_notes_free(report->notes, report->n_notes);
  *report = (scw_set_report){0};
}
