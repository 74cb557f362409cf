/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as an archive of claims, under options the last byte chooses: the
 * audit must be the same for any block size and number of threads, count every
 * claim once, say nothing that is NaN, infinite or out of its range, and a
 * refusal must say why and leave nothing. */
#include <math.h>

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
  return options;
}

static scw_audit *audit_of(uint8_t choice, const uint8_t *bytes, size_t size,
                           size_t block, unsigned threads) {
  chopped left = {bytes, size, 0, block};
  scw_table_options table = options_of(choice);
  scw_settings settings;
  scw_audit_options options = {.brief = choice & 32};
  scw_context *context;
  scw_audit *audit;
  scw_settings_init(&settings);
  if (choice & 64)
    settings.step = (scw_step){0.1, SCW_STEP_GIVEN};
  if (choice & 128) {
    options.old_method = "old";
    options.offset = 1;
    options.factor = -0.5;
  }
  if (scw_context_new(&context) != SCW_OK) return NULL;
  demand(scw_context_set_threads(context, threads) == SCW_OK);
  scw_status status =
      scw_audit_read(context, &table, &settings, &options,
                     (scw_source){read_chopped, &left, "shed"}, &audit);
  demand(status == SCW_OK || status == SCW_BAD_INPUT ||
         status == SCW_BAD_ARGUMENT);
  if (status != SCW_OK)
    demand(!audit && scw_context_message(context)[0] != 0);
  scw_context_free(context);
  return audit;
}

static void check_figure(scw_figure figure) {
  if (figure.state == SCW_PRESENT) demand(isfinite(figure.value));
}

static void check_share(scw_figure figure) {
  if (figure.state == SCW_PRESENT)
    demand(figure.value >= 0 && figure.value <= 1);
}

static void check_claim(const scw_claim *claim) {
  const scw_interval *interval = &claim->change.interval;
  demand(claim->id && claim->sentence && claim->sentence[0]);
  demand(claim->line >= 1);
  for (int side = 0; side < 2; side++) {
    check_figure(claim->recomputed.mean[side]);
    check_figure(claim->recomputed.sd[side]);
    check_figure(claim->stated.step[side]);
  }
  for (size_t i = 0; i < claim->n_faults; i++)
    demand(scw_fault_code(claim->faults[i])[0] != 0);
  check_figure(claim->change.estimate);
  check_figure(claim->change.standard_uncertainty);
  check_figure(claim->break_even_sd);
  check_figure(claim->break_even_baseline_u);
  check_figure(claim->settle.more);
  check_share(claim->change.p);
  check_share(claim->q_value);
  check_share(claim->p_holm);
  if (claim->p_holm.state == SCW_PRESENT)
    demand(claim->q_value.value <= claim->p_holm.value);
  if (interval->state == SCW_PRESENT)
    demand(isfinite(interval->low) && interval->low <= interval->high);
}

static void same_figure(scw_figure a, scw_figure b) {
  demand(a.state == b.state);
  if (a.state == SCW_PRESENT) demand(a.value == b.value);
}

static void check_same(const scw_claim *a, const scw_claim *b) {
  demand(!strcmp(a->id, b->id) && a->line == b->line);
  demand(!strcmp(a->sentence, b->sentence));
  demand(a->verdict == b->verdict && a->design == b->design);
  demand(a->n_faults == b->n_faults);
  same_figure(a->change.estimate, b->change.estimate);
  same_figure(a->change.p, b->change.p);
  same_figure(a->q_value, b->q_value);
  same_figure(a->p_holm, b->p_holm);
}

static void check_claims(const scw_audit *whole, const scw_audit *parts,
                         size_t n) {
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return;
  for (size_t i = 0; i < n; i++) {
    scw_claim one, other;
    demand(scw_audit_claim(context, whole, i, &one) == SCW_OK);
    demand(scw_audit_claim(context, parts, i, &other) == SCW_OK);
    demand(one.verdict == scw_audit_verdict(whole, i));
    check_claim(&one);
    check_same(&one, &other);
    scw_claim_free(&one);
    scw_claim_free(&other);
  }
  scw_context_free(context);
}

static void check_lists(const scw_audit *audit, size_t n) {
  const scw_audit_rank *rank;
  const scw_audit_work *work;
  size_t ranks = scw_audit_ranks(audit, &rank);
  size_t works = scw_audit_work_list(audit, &work);
  for (size_t i = 0; i < ranks; i++)
    demand(rank[i].claim < n && rank[i].low >= 1 &&
           rank[i].low <= rank[i].high && rank[i].high <= rank[i].of);
  for (size_t i = 0; i < works; i++) demand(work[i].claim < n);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
  if (size == 0) return 0;
  uint8_t choice = bytes[size - 1];
  scw_audit *whole = audit_of(choice, bytes, size - 1, 0, 1);
  scw_audit *parts = audit_of(choice, bytes, size - 1, 1 + size % 7, 2);
  demand(!whole == !parts);
  if (whole) {
    scw_audit_summary s = scw_audit_summary_of(whole);
    demand(s.claims >= 1 && s.claims == scw_audit_input(whole)->rows);
    demand(s.claims == s.beyond + s.only_if + s.within + s.not_judged +
                           s.figures_disagree);
    demand(!strcmp(scw_audit_sentence(whole), scw_audit_sentence(parts)));
    check_claims(whole, parts, s.claims);
    check_lists(whole, s.claims);
  }
  scw_audit_free(whole);
  scw_audit_free(parts);
  return 0;
}
