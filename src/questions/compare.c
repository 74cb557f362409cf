/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products beside each other. */
#include "scatterwise/compare.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "analysis_of_variance.h"
#include "best_of.h"
#include "change_options.h"
#include "codes.h"
#include "compare_inside.h"
#include "figure.h"
#include "memory.h"
#include "settings.h"

SCWI_CODE_FUNCTION(scw_compared_code, scw_compared, SCW_COMPARED_LIST, SCWI_KEY,
                   SCW_COMPARED_END, "unknown")
SCWI_CODE_FUNCTION(scw_adjustment_code, scw_adjustment, SCW_ADJUSTMENT_LIST,
                   SCWI_KEY_OF_3, SCW_ADJUSTMENT_END, "unknown")
SCWI_CODE_FUNCTION(scw_adjustment_text, scw_adjustment, SCW_ADJUSTMENT_LIST,
                   SCWI_TEXT_OF_3, SCW_ADJUSTMENT_END, "unknown")

static scw_status background(scw_context *context, const scwi_compare_run *run,
                             scw_compare_result *out) {
  scwi_moments *groups;
  scw_status status = SCWI_ALLOCATE(context, run->n, &groups);
  if (status) return status;
  bool whole = true;
  for (size_t i = 0; i < run->n; i++) {
    groups[i] = run->contender[i].moments;
    /* changes of two sides are no single sample of which F could be made, and
     * shared spots make the samples of a kind */
    whole = whole && !run->options.shared_spots &&
            (run->contender[i].plan.paired ||
             out->compared == SCW_COMPARED_MEANS);
  }
  scw_figure none = scwi_missing(SCW_NOT_COMPUTED);
  out->one_way = out->welch_one_way = (scw_f_test){none, none, none, none};
  if (whole) {
    out->one_way = scwi_one_way(groups, run->n);
    out->welch_one_way = scwi_welch_one_way(groups, run->n);
  }
  free(groups);
  return SCW_OK;
}

/* The best, and by how much it leads, as found and by luck. */
static scw_status best(scw_context *context, const scwi_compare_run *run,
                       scw_compare_result *out) {
  double sign = run->options.smaller_is_better ? -1 : 1, rest = 0;
  double *u;
  size_t n = 0;
  scw_compare_best *b = &out->best;
  b->over_second = b->over_rest = scwi_missing(SCW_TOO_FEW);
  b->luck_second = b->luck_rest = scwi_missing(SCW_NOT_COMPUTED);
  scw_status status = SCWI_ALLOCATE(context, run->n, &u);
  if (status) return status;
  b->product = b->second = run->n;
  for (size_t i = 0; i < run->n; i++) {
    const scwi_entry *entry = &run->contender[i].entry;
    double x = sign * entry->estimate;
    if (i == out->control || entry->state != SCW_PRESENT) continue;
    u[n++] = run->options.shared_spots ? run->block_u : entry->u.u;
    rest += x;
    if (b->product == run->n ||
        x > sign * run->contender[b->product].entry.estimate) {
      b->second = b->product;
      b->product = i;
    } else if (b->second == run->n ||
               x > sign * run->contender[b->second].entry.estimate) {
      b->second = i;
    }
  }
  if (n >= 2) {
    double first = sign * run->contender[b->product].entry.estimate;
    double second = sign * run->contender[b->second].entry.estimate;
    scwi_best_of luck = scwi_best_of_alike(u, n);
    b->over_second = scwi_figure(first - second);
    b->over_rest = scwi_figure(first - (rest - first) / ((double)n - 1));
    b->luck_second = luck.over_second;
    b->luck_rest = luck.over_rest;
    b->of = n;
  }
  free(u);
  return SCW_OK;
}

static scw_status check(scw_context *context,
                        const scw_compare_options *options) {
  scw_status status = scwi_check_margin(context, options->margin);
  if (!status && options->control && options->untreated &&
      !strcmp(options->control, options->untreated))
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "%s was named as the control and as the untreated "
                       "panel whose change is taken off; as the control it is "
                       "taken off already, so name it once",
                       options->control);
  return status;
}

static scw_status work(scw_context *context, scwi_compare_run *run,
                       scw_compare_result *out) {
  scw_status status = scwi_compare_products(context, run, out);
  if (!status)
    status = scwi_copy_text(context, run->unit, strlen(run->unit), &out->unit);
  if (!status) status = scwi_compare_pairs(context, run, out);
  if (!status) status = background(context, run, out);
  if (!status) status = best(context, run, out);
  out->step = run->step;
  out->untreated = run->untreated;
  if (!status) status = scwi_compare_sentence(context, out);
  return status ? status : scwi_compare_notes(context, run, out);
}

scw_status scw_compare(scw_context *context, const scw_table *table,
                       const scw_settings *settings,
                       const scw_compare_options *options,
                       scw_compare_result *out) {
  static const scw_compare_options none;
  scwi_compare_run run = {.table = table,
                          .options = options ? *options : none};
  *out = (scw_compare_result){.options = run.options};
  scw_status status = check(context, &run.options);
  if (!status) status = scwi_settings_take(context, settings, &run.settings);
  out->settings = run.settings;
  if (!status) status = work(context, &run, out);
  if (!status) {
    out->notes = run.notes.note;
    out->n_notes = run.notes.n;
    run.notes = (scwi_notes){0};
  }
  scwi_compare_run_free(&run);
  if (status) scw_compare_result_free(out);
  return status;
}

void scw_compare_result_free(scw_compare_result *result) {
  for (size_t i = 0; i < result->n_products; i++) {
    free(result->product[i].label);
    free(result->product[i].tied);
  }
  free(result->product);
  free(result->comparison);
  free(result->unit);
  free(result->sentence);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_compare_result){0};
}
