/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "instruments_words.h"

#include <string.h>

#include "figure.h"

scw_status scwi_check_bench(scw_context *context,
                            const scw_change_options *options) {
  if (!options->instruments)
    return options->quantity || options->margin_unit
               ? scwi_fail(context, SCW_BAD_ARGUMENT,
                           "a quantity was named without the bench it is of")
               : SCW_OK;
  if (options->has_block)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a block and a bench were given; the bench's model says "
                     "what pulls become, so leave the block out and give it "
                     "as an input of the bench");
  if (options->bench)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a scatter bank and a bench's model were given; a verdict "
                     "rests on the one or on the other, so ask for them in two "
                     "runs");
  if (options->has_baseline)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a baseline number and a bench were given; nobody knows "
                     "which instruments the number was read with, so give the "
                     "readings before, or leave the bench out");
  return SCW_OK;
}

static scw_status other_unit(scw_context *context, const char *given,
                             const scw_bench_quantity *quantity) {
  const char *unit = scwi_quantity_unit(quantity);
  return *unit ? scwi_fail(context, SCW_BAD_ARGUMENT,
                           "the margin is given in %s and %s is in %s", given,
                           quantity->name, unit)
               : scwi_fail(context, SCW_BAD_ARGUMENT,
                           "the margin is given in %s and %s has no unit",
                           given, quantity->name);
}

scw_status scwi_bench_margin(scw_context *context,
                             const scw_change_options *options,
                             const scwi_instruments *instruments,
                             double *margin) {
  const scw_bench_quantity *quantity = instruments->quantity;
  const char *given = options->margin_unit;
  if (options->margin > 0 && given && *given && strcmp(given, quantity->unit))
    return other_unit(context, given, quantity);
  if (options->margin > 0)
    *margin = options->margin;
  else
    *margin = scwi_present(quantity->margin) ? quantity->margin.value : 0;
  return SCW_OK;
}

const char *scwi_quantity_unit(const scw_bench_quantity *quantity) {
  return strcmp(quantity->unit, "1") ? quantity->unit : "";
}

const char *scwi_quantity_words(const scw_bench_quantity *quantity) {
  switch (quantity->measures) {
    case SCW_MEASURES_FRICTION:
      return "the static coefficient of friction";
    case SCW_MEASURES_GLOSS:
      return "gloss";
    case SCW_MEASURES_RETENTION:
      return "the retention";
    default:
      return quantity->name;
  }
}

void scwi_tell_bench(const scwi_instruments *instruments, double margin,
                     scw_change_result *out) {
  if (!instruments) return;
  out->quantity = instruments->quantity;
  out->reading = instruments->reading;
  out->offset = instruments->offset;
  out->factor = instruments->factor;
  out->margin_of_bench = out->options.margin == 0 && margin > 0;
  out->options.margin = margin;
}

/* "gauge, block and span": the uncertain inputs that `chosen` holds of. */
static size_t list(scwi_text *text, const scwi_instruments *of,
                   bool (*chosen)(const scwi_instruments *, size_t)) {
  size_t n = 0, told = 0;
  for (size_t i = 0; i < of->n; i++)
    n += of->u[i] > 0 && chosen(of, i);
  for (size_t i = 0; i < of->n; i++) {
    if (!(of->u[i] > 0) || !chosen(of, i)) continue;
    scwi_text_add(text, told == 0 ? "" : told + 1 == n ? " and " : ", ");
    scwi_text_add(text, of->input[i]->given.name);
    told++;
  }
  return n;
}

static bool not_said(const scwi_instruments *of, size_t i) {
  return of->input[i]->shared == SCW_SHARED_NOT_SAID;
}

static bool dragged(const scwi_instruments *of, size_t i) {
  return of->input[i]->shared == SCW_SHARED && !of->same[i];
}

static bool uncertain(const scwi_instruments *of, size_t i) {
  return of->u[i] > 0;
}

static scw_status note_model(scw_context *context, const scwi_instruments *of,
                             scwi_notes *notes) {
  return scwi_note(context, notes, "by_the_model",
                   "Each reading became %s by the model %s of the bench; the "
                   "readings of the table stand for %s, and what the bench "
                   "says of %s itself is not used.",
                   of->quantity->name, of->quantity->model,
                   of->reading->given.name, of->reading->given.name);
}

static scw_status note_shared(scw_context *context, const scwi_instruments *of,
                              scwi_notes *notes) {
  scwi_text text = {0};
  if (list(&text, of, not_said)) {
    scwi_text_add(&text,
                  ": the bench does not say whether one and the same "
                  "value acted before and after. Nothing is taken to "
                  "cancel; say it with \"shared\".");
    scw_status status =
        scwi_note_take(context, notes, "shared_not_said", &text);
    if (status) return status;
  }
  scwi_text_clear(&text);
  if (list(&text, of, dragged)) {
    scwi_text_add(&text,
                  ": said to be shared, but correlated with an input "
                  "that is not, so taken as not shared.");
    return scwi_note_take(context, notes, "shared_with_unshared", &text);
  }
  scwi_text_free(&text);
  return SCW_OK;
}

scw_status scwi_instruments_run_notes(scw_context *context,
                                      const scwi_instruments *instruments,
                                      scwi_notes *notes) {
  scwi_text text = {0};
  scw_status status = note_model(context, instruments, notes);
  size_t n = list(&text, instruments, uncertain);
  scwi_text_free(&text);
  if (!status && n == 0)
    return scwi_note(context, notes, "nothing_uncertain",
                     "The bench knows no uncertainty of the other inputs of "
                     "%s, so the scatter of the readings stands alone.",
                     instruments->quantity->name);
  if (!status) status = note_shared(context, instruments, notes);
  if (!status)
    status = scwi_note(context, notes, "scatter_alone",
                       "The sides before and after, shuffling, ranks and the "
                       "ratio of SDs speak of the readings' scatter alone.");
  return status;
}
