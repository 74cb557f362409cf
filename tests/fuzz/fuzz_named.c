/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a table of summaries and as a grid, under options the last byte
 * chooses: what is read must be whole, finite and the same for any block size,
 * what is worked out from it never NaN or infinite, and a refusal must say why
 * and leave nothing. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "chopped.h"
#include "scatterwise/scatterwise.h"

static scw_table_options options_of(uint8_t choice) {
  static const char marks[] = {0, 0, '.', ','};
  static const char separators[] = {0, 0, ',', ';'};
  scw_table_options options = {.decimal_mark = marks[choice & 3],
                               .separator = separators[choice >> 2 & 3]};
  if (options.separator == ',' && options.decimal_mark == ',')
    options.decimal_mark = 0;
  if (choice & 16) {
    options.before_label = "b*";
    options.after_label = "a*";
  }
  if (choice & 32) options.unit = "GU";
  return options;
}

static void check_side(const scw_given_side *side) {
  demand(isfinite(side->mean) && side->step >= 0 && isfinite(side->step));
  demand(side->n <= 1000000000);
  if (side->has_sd) demand(side->n >= 2 && side->sd >= 0 && isfinite(side->sd));
}

static void check_input(const scw_input *input, size_t size) {
  demand(input->bytes == size && input->rows >= 1);
  demand(strlen(input->sha256) == 64 && input->encoding[0]);
  demand(input->unit && input->quantity && input->geometry);
  for (size_t i = 0; i < input->n_not_used; i++)
    demand(input->not_used[i].line >= 1 && input->not_used[i].reason[0] &&
           input->not_used[i].text);
}

static void check_status(const scw_context *context, scw_status status) {
  demand(status == SCW_OK || status == SCW_BAD_INPUT ||
         status == SCW_BAD_ARGUMENT);
  if (status != SCW_OK) demand(scw_context_message(context)[0] != 0);
}

static bool read_changes(scw_context *context, uint8_t choice,
                         const uint8_t *bytes, size_t size, size_t block,
                         scw_given_changes *out) {
  chopped left = {bytes, size, 0, block};
  scw_table_options options = options_of(choice);
  scw_given_side common = {.mean = 80, .has_sd = true, .sd = 1, .n = 5};
  scw_status status = scw_given_changes_read(
      context, &options, (scw_source){read_chopped, &left, "shed"},
      choice & 64 ? &common : NULL, out);
  check_status(context, status);
  if (status != SCW_OK) {
    demand(!out->change && !out->account && out->n == 0);
    return false;
  }
  demand(out->n >= 1);
  check_input(scw_table_input(out->account, 0), size);
  for (size_t i = 0; i < out->n; i++) {
    demand(out->change[i].product != NULL);
    check_side(&out->change[i].before);
    check_side(&out->change[i].after);
  }
  return true;
}

static void check_same(const scw_given_changes *a, const scw_given_changes *b) {
  demand(a->n == b->n);
  for (size_t i = 0; i < a->n; i++) {
    const scw_given_change *one = &a->change[i], *other = &b->change[i];
    demand(!strcmp(one->product, other->product));
    demand(one->before.mean == other->before.mean &&
           one->after.mean == other->after.mean);
    demand(one->before.n == other->before.n && one->after.n == other->after.n);
    demand(one->before.sd == other->before.sd &&
           one->after.sd == other->after.sd);
  }
}

static void check_figure(scw_figure figure) {
  if (figure.state == SCW_PRESENT) demand(isfinite(figure.value));
}

static void check_results(scw_context *context,
                          const scw_given_changes *given) {
  scw_change_result result;
  scw_status status =
      scw_change_from_given(context, given, NULL, NULL, &result);
  check_status(context, status);
  if (status != SCW_OK) return;
  demand(result.n_changes == given->n);
  for (size_t i = 0; i < result.n_changes; i++) {
    const scw_change_report *change = &result.changes[i];
    const scw_interval *interval = &change->change.interval;
    demand(change->sentence && change->sentence[0]);
    check_figure(change->change.estimate);
    check_figure(change->change.standard_uncertainty);
    check_figure(change->change.p);
    check_figure(change->break_even_sd);
    check_figure(change->break_even_baseline_u);
    if (interval->state == SCW_PRESENT)
      demand(isfinite(interval->low) && interval->low <= interval->high);
  }
  scw_change_result_free(&result);
}

static void check_grid(scw_context *context, uint8_t choice,
                       const uint8_t *bytes, size_t size) {
  chopped left = {bytes, size, 0, 0};
  scw_table_options options = options_of(choice);
  scw_plan_grid_result grid;
  scw_status status =
      scw_plan_grid(context, &options,
                    (scw_source){read_chopped, &left, "shed"}, NULL, &grid);
  check_status(context, status);
  if (status != SCW_OK) demand(!grid.row && !grid.account && grid.n == 0);
  for (size_t i = 0; i < grid.n; i++) {
    demand(grid.row[i].effect > 0 && grid.row[i].sd > 0);
    check_figure(grid.row[i].readings_per_side);
    check_figure(grid.row[i].spots);
  }
  scw_plan_grid_result_free(&grid);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
  scw_context *context;
  scw_given_changes whole, parts;
  if (size == 0 || scw_context_new(&context) != SCW_OK) return 0;
  uint8_t choice = bytes[size - 1];
  bool read = read_changes(context, choice, bytes, size, 0, &whole);
  demand(read ==
         read_changes(context, choice, bytes, size, 1 + size % 7, &parts));
  if (read) {
    check_same(&whole, &parts);
    check_results(context, &whole);
  }
  check_grid(context, choice, bytes, size);
  scw_given_changes_free(&whole);
  scw_given_changes_free(&parts);
  scw_context_free(context);
  return 0;
}
