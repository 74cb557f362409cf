/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any lines at the end of a long table of sets and readings: in brief must
 * find what the whole table finds, or fail with the same words. A comment makes
 * the table long enough for the quick way, which must put aside all it cannot
 * take. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "scatterwise/readings.h"
#include "sets.h"
#include "text.h"

typedef struct text_source {
  const scwi_text *text;
  size_t at;
} text_source;

static int read_text(void *user, char *buffer, size_t size, size_t *got) {
  text_source *source = user;
  size_t n = source->text->length - source->at;
  if (n > size) n = size;
  memcpy(buffer, source->text->data + source->at, n);
  source->at += n;
  *got = n;
  return 0;
}

static void demand(int holds) {
  if (!holds) abort();
}

/* Whole numbers at first when `choice` is odd: the decimal mark is open. The
 * header and roles are decided on 64 KiB of cells. */
static void make_text(scwi_text *text, uint8_t choice, const uint8_t *end,
                      size_t size) {
  scwi_text_add(text, "set,reading\n");
  for (unsigned i = 0; i < 20; i++)
    scwi_text_format(text, "%c%u,8%u%s\n", 'a' + (char)(i % 5), i % 9, i % 7,
                     choice & 1 ? "" : i % 2 ? ".5" : ".4");
  scwi_text_add(text, "# ");
  scwi_text_repeat(text, 'x', 66000);
  scwi_text_add(text, "\n");
  for (int times = 0; times < 1 + (choice >> 1 & 3); times++) {
    scwi_text_append(text, (const char *)end, size);
    scwi_text_add(text, "a1,80\nb2,81\n");
  }
}

static void compare_sets(scw_context *context, const scw_table *table,
                         const scw_brief_result *brief) {
  scwi_sets sets;
  demand(scwi_sets_of(context, table, &sets) == SCW_OK);
  demand(sets.n == brief->n_sets);
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < sets.n; i++) {
    const scw_brief_set *got = &brief->sets[i];
    long double sum = 0, size = 0;
    for (size_t k = 0; k < sets.set[i].n; k++) {
      sum += (long double)readings[sets.set[i].reading[k]].value;
      size += fabsl((long double)readings[sets.set[i].reading[k]].value);
    }
    demand(strcmp(got->label, sets.set[i].label) == 0);
    demand(got->n == sets.set[i].n);
    if (got->mean.state != SCW_PRESENT) continue;
    long double apart = (long double)got->mean.value * got->n - sum;
    demand(fabsl(apart) <= 1e-14L * size);
  }
  scwi_sets_free(&sets);
}

static void compare_inputs(const scw_input *got, const scw_input *wanted) {
  demand(got->rows == wanted->rows && got->used == wanted->used &&
         got->labels_carried == wanted->labels_carried &&
         got->n_not_used == wanted->n_not_used &&
         strcmp(got->sha256, wanted->sha256) == 0);
  for (size_t i = 0; i < got->n_not_used; i++)
    demand(got->not_used[i].line == wanted->not_used[i].line &&
           got->not_used[i].column == wanted->not_used[i].column &&
           strcmp(got->not_used[i].text, wanted->not_used[i].text) == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  scw_context *context, *other;
  scwi_text text = {0};
  scw_brief_result brief;
  scw_table *table;
  if (size < 1 || scw_context_new(&context) != SCW_OK) return 0;
  if (scw_context_new(&other) != SCW_OK) return 0;
  make_text(&text, data[0], data + 1, size - 1);
  text_source first = {&text, 0}, second = {&text, 0};
  scw_context_set_threads(context, 1 + (data[0] >> 3 & 1));
  scw_status got = scw_readings_brief(
      context, NULL, NULL, (scw_source){read_text, &first, "input"}, &brief);
  scw_status wanted = scw_table_read(
      other, NULL, (scw_source){read_text, &second, "input"}, &table);
  demand(got == wanted);
  if (got == SCW_OK) {
    compare_sets(context, table, &brief);
    compare_inputs(&brief.input, scw_table_input(table, 0));
  } else {
    demand(strcmp(scw_context_message(context),
                  scw_context_message(other)) == 0);
  }
  scw_brief_result_free(&brief);
  scw_table_free(table);
  scwi_text_free(&text);
  scw_context_free(context);
  scw_context_free(other);
  return 0;
}
