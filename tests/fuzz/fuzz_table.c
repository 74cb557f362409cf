/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a reading table, under options the first byte chooses: what is
 * read must be whole and finite and the same for any block size, every reading
 * must be in one set, and a refusal must say why and leave nothing. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "chopped.h"
#include "scatterwise/table.h"
#include "sets.h"

static scw_table_options options_of(uint8_t choice) {
  static const char marks[] = {0, 0, '.', ','};
  static const char separators[] = {0, 0, 0, 0, ',', ';', '\t', ' '};
  scw_table_options options = {.decimal_mark = marks[choice & 3],
                               .separator = separators[choice >> 2 & 7]};
  if (options.separator == ',' && options.decimal_mark == ',')
    options.decimal_mark = 0;
  switch (choice >> 5) {
    case 1: options.side = SCW_SIDE_AFTER; break;
    case 2: options.geometry = "60"; break;
    case 3: options.column[SCW_ROLE_READING] = "*s*"; break;
    case 4:
      options.before_label = "b*";
      options.after_label = "a*";
      break;
    case 5: options.column[SCW_ROLE_SET] = "product,*a*"; break;
    case 6:
      options.column[SCW_ROLE_SPOT] = "*o*";
      options.log = true;
      break;
    case 7:
      options.bridge = true;
      options.before_label = "old*";
      options.after_label = "new*";
      break;
    default: break;
  }
  return options;
}

static void check_label(const scw_table *table, int32_t label) {
  demand(label >= SCW_NO_LABEL);
  if (label != SCW_NO_LABEL) demand(scw_table_label(table, label) != NULL);
}

static void check_reading(const scw_table *table, const scw_reading *r) {
  const int32_t labels[] = {r->set,     r->product,   r->panel,
                            r->state,   r->spot,      r->repeat,
                            r->session, r->direction, r->geometry,
                            r->date,    r->instrument, r->standard, r->event};
  demand(isfinite(r->value) && r->line >= 1 && r->column >= 1);
  demand(r->side <= SCW_SIDE_AFTER && r->mark <= SCW_MARK_BRACKET);
  demand(!isinf(r->order) && !isinf(r->x) && !isinf(r->y));
  if (r->exact && r->mantissa == 0) demand(r->value == 0);
  for (size_t i = 0; i < sizeof labels / sizeof *labels; i++)
    check_label(table, labels[i]);
}

static void check_events(const scw_table *table) {
  for (size_t i = 0; i < scw_table_events(table); i++) {
    const scw_reading *event = scw_table_event(table, i);
    demand(event->event != SCW_NO_LABEL && event->line >= 1);
    check_label(table, event->event);
    check_label(table, event->date);
  }
}

static void check_input(const scw_table *table, size_t size) {
  const scw_input *input = scw_table_input(table, 0);
  demand(input->used == scw_table_size(table) && input->used > 0);
  demand(input->rows >= 1 && input->bytes == size);
  demand(strlen(input->sha256) == 64 && input->shape[0]);
  demand(input->encoding[0] && input->unit && input->quantity);
  for (size_t i = 0; i < input->n_not_used; i++)
    demand(input->not_used[i].line >= 1 && input->not_used[i].reason[0] &&
           input->not_used[i].text);
}

static void check_sets(scw_context *context, const scw_table *table) {
  scwi_sets sets;
  size_t n = scw_table_size(table), seen = 0;
  char *once = calloc(n, 1);
  demand(once != NULL);
  demand(scwi_sets_of(context, table, &sets) == SCW_OK);
  for (size_t s = 0; s < sets.n; s++) {
    demand(sets.set[s].n > 0 && sets.set[s].label[0]);
    for (size_t i = 0; i < sets.set[s].n; i++) {
      size_t reading = sets.set[s].reading[i];
      demand(reading < n && !once[reading]);
      once[reading] = 1;
      seen++;
    }
  }
  demand(seen == n);
  scwi_sets_free(&sets);
  free(once);
}

static scw_table *read_table(scw_context *context, uint8_t choice,
                             const uint8_t *bytes, size_t size, size_t block) {
  chopped left = {bytes, size, 0, block};
  scw_table_options options = options_of(choice);
  scw_table *table;
  scw_status status = scw_table_read(
      context, &options, (scw_source){read_chopped, &left, "shed"}, &table);
  demand((status == SCW_OK) == (table != NULL));
  demand(status == SCW_OK || status == SCW_BAD_INPUT ||
         status == SCW_BAD_ARGUMENT);
  if (status != SCW_OK) demand(scw_context_message(context)[0] != 0);
  return table;
}

static void check_same(const scw_table *a, const scw_table *b) {
  demand(scw_table_size(a) == scw_table_size(b));
  for (size_t i = 0; i < scw_table_size(a); i++) {
    const scw_reading *one = scw_table_readings(a) + i;
    const scw_reading *other = scw_table_readings(b) + i;
    demand(one->value == other->value && one->line == other->line &&
           one->column == other->column && one->spot == other->spot &&
           one->product == other->product && one->side == other->side);
  }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
  scw_context *context;
  if (size == 0 || scw_context_new(&context) != SCW_OK) return 0;
  uint8_t choice = bytes[size - 1];
  scw_table *whole = read_table(context, choice, bytes, size, 0);
  scw_table *parts = read_table(context, choice, bytes, size, 1 + size % 7);
  demand((whole == NULL) == (parts == NULL));
  if (whole) {
    for (size_t i = 0; i < scw_table_size(whole); i++)
      check_reading(whole, scw_table_readings(whole) + i);
    check_input(whole, size);
    check_events(whole);
    check_sets(context, whole);
    check_same(whole, parts);
    demand(scw_table_append(context, whole, parts) == SCW_OK);
    check_sets(context, whole);
  }
  scw_table_free(whole);
  scw_table_free(parts);
  scw_context_free(context);
  return 0;
}
