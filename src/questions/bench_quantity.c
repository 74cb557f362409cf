/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench_quantity.h"

#include <string.h>

#include "friction.h"
#include "input.h"
#include "model.h"
#include "text.h"

/* A quantity as a candidate. */
typedef struct candidate {
  const scw_bench_quantity *quantity;
  size_t readings; /* how many inputs of its model are readings */
  size_t reading;  /* the first of them, in bench->input */
} candidate;

static candidate candidate_of(const scw_bench *bench, size_t quantity,
                              const scwi_expression *model) {
  candidate found = {.quantity = &bench->quantity[quantity]};
  for (size_t i = 0; i < model->n_inputs; i++) {
    size_t at = scwi_input_find(bench, model->input[i]);
    if (bench->input[at].given.kind != SCW_KIND_READINGS) continue;
    if (found.readings++ == 0) found.reading = at;
  }
  return found;
}

/* Both said, and not the same. */
static bool contradict(const char *a, const char *b) {
  return *a && *b && strcmp(a, b);
}

static bool same_word(const char *a, const char *b) {
  size_t length = strlen(a);
  return length == strlen(b) && scwi_same_letters(a, b, length);
}

/* Whether the header word of the readings is that of the quantity: 2; says
 * nothing: 1; is another word: 0. */
static int word_fits(const scw_bench *bench, const candidate *one,
                     const char *word) {
  const scw_bench_quantity *quantity = one->quantity;
  if (!*word || same_word(word, "reading") || same_word(word, "value"))
    return 1;
  if (same_word(word, quantity->name) ||
      same_word(word, bench->input[one->reading].given.name) ||
      same_word(word, scw_measures_code(quantity->measures)))
    return 2;
  return quantity->measures == SCW_MEASURES_FRICTION && scwi_is_friction(word)
             ? 2
             : 0;
}

static int fits(const scw_bench *bench, const candidate *one,
                scwi_read_facts readings) {
  if (one->readings != 1 ||
      contradict(bench->input[one->reading].unit, readings.unit) ||
      contradict(one->quantity->geometry, readings.geometry))
    return 0;
  return word_fits(bench, one, readings.quantity);
}

static void say_what(scwi_text *words, const char *name, const char *unit,
                     const char *geometry) {
  scwi_text_add(words, name);
  if (*unit) scwi_text_format(words, " in %s", unit);
  if (*geometry) scwi_text_format(words, " at %s degrees", geometry);
}

/* "friction (of pull in g), gloss (of shown in GU at 60 degrees)". */
static void say_candidate(scwi_text *words, const scw_bench *bench,
                          const candidate *one) {
  scwi_text_format(words, "%s (", one->quantity->name);
  if (one->readings == 1) {
    const scw_bench_input *reading = &bench->input[one->reading];
    scwi_text_add(words, "of ");
    say_what(words, reading->given.name, reading->unit,
             one->quantity->geometry);
  } else {
    scwi_text_format(words, "%zu inputs of readings", one->readings);
  }
  scwi_text_add(words, ")");
}

static scw_status fail(scw_context *context, const scw_bench *bench,
                       size_t line, scwi_text *words) {
  scw_status status = scwi_text_status(context, words);
  if (!status)
    status = scwi_fail_at(context, SCW_BAD_INPUT,
                          bench->name ? bench->name : "the bench", line, 0,
                          "%s", words->data);
  scwi_text_free(words);
  return status;
}

static scw_status none_or_several(scw_context *context, const scw_bench *bench,
                                  const scwi_expression *model,
                                  scwi_read_facts readings, size_t found) {
  scwi_text words = {0};
  if (bench->n_quantities == 0) {
    scwi_text_add(&words,
                  "holds no quantities; describe what is worked out "
                  "under \"quantities\"");
    return fail(context, bench, 0, &words);
  }
  scwi_text_add(&words, found ? "several of its quantities fit these readings ("
                              : "none of its quantities fits these readings (");
  say_what(&words, *readings.quantity ? readings.quantity : "not named",
           readings.unit, readings.geometry);
  scwi_text_add(&words, "): it has ");
  for (size_t q = 0; q < bench->n_quantities; q++) {
    candidate one = candidate_of(bench, q, &model[q]);
    scwi_text_add(&words, q ? ", " : "");
    say_candidate(&words, bench, &one);
  }
  scwi_text_add(&words, "; name one with --quantity");
  return fail(context, bench, 0, &words);
}

static scw_status choose(scw_context *context, const scw_bench *bench,
                         const scwi_expression *model, scwi_read_facts readings,
                         size_t *quantity) {
  int best = 0;
  size_t found = 0;
  for (size_t q = 0; q < bench->n_quantities; q++) {
    candidate one = candidate_of(bench, q, &model[q]);
    int how_well = fits(bench, &one, readings);
    if (how_well == 0 || how_well < best) continue;
    found = how_well > best ? 1 : found + 1;
    best = how_well;
    *quantity = q;
  }
  return found == 1 ? SCW_OK
                    : none_or_several(context, bench, model, readings, found);
}

/* A quantity asked for by name may be called what it likes, but not be of
 * other readings. */
static scw_status check(scw_context *context, const scw_bench *bench,
                        const candidate *one, scwi_read_facts readings) {
  const scw_bench_quantity *quantity = one->quantity;
  const char *unit = bench->input[one->reading].unit;
  scwi_text words = {0};
  if (one->readings != 1)
    scwi_text_format(&words,
                     "the model of %s has %zu inputs of readings; those of the "
                     "table can take the place of one",
                     quantity->name, one->readings);
  else if (contradict(quantity->geometry, readings.geometry))
    scwi_text_format(&words,
                     "%s is read at %s degrees and these readings at %s: gloss "
                     "at two angles is never compared",
                     quantity->name, quantity->geometry, readings.geometry);
  else if (contradict(unit, readings.unit))
    scwi_text_format(&words,
                     "%s takes %s in %s and these readings are in %s: bring "
                     "both to one unit",
                     quantity->name, bench->input[one->reading].given.name,
                     unit, readings.unit);
  else
    return SCW_OK;
  return fail(context, bench, quantity->line, &words);
}

scw_status scwi_bench_quantity_for(scw_context *context, const scw_bench *bench,
                                   const char *name, scwi_read_facts readings,
                                   size_t *quantity, size_t *reading) {
  const scw_bench_quantity *named = NULL;
  scwi_expression *model = NULL;
  size_t done = 0;
  scw_status status = scwi_bench_expressions(
      context, bench, bench->n_quantities, &model, &done);
  if (!status && name)
    status = scw_bench_find_quantity(context, bench, name, &named);
  if (!status && named) *quantity = (size_t)(named - bench->quantity);
  if (!status && !named)
    status = choose(context, bench, model, readings, quantity);
  if (!status) {
    candidate one = candidate_of(bench, *quantity, &model[*quantity]);
    *reading = one.reading;
    status = check(context, bench, &one, readings);
  }
  scwi_bench_expressions_free(model, done);
  return status;
}
