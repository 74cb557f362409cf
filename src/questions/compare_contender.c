/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figure of one product, and what of its readings could not be used. */
#include <math.h>

#include "arm_forms.h"
#include "compare_inside.h"
#include "figure.h"
#include "intervals.h"
#include "stand_out.h"
#include "text.h"
#include "two_sample.h"

enum { MOST_NAMED = 3 };

/* Changes: pairs by spot, or two sides; with the SD as if equal SDs were taken
 * for granted. */
static void entry_of_change(const scwi_arm_estimate *found, scw_step step,
                            scwi_contender *out) {
  const scwi_comparison *c = &found->comparison;
  const scw_estimate *change = &found->change;
  double nb = (double)found->n_before, na = (double)found->n_after;
  out->entry = (scwi_entry){.estimate = change->estimate.value,
                            .state = change->interval.state,
                            .step = step.size,
                            .sides = 2};
  if (scwi_present(change->standard_uncertainty))
    out->entry.u = (scwi_uncertainty){
        change->standard_uncertainty.value,
        scwi_present(change->df) ? change->df.value : INFINITY};
  if (c->paired) {
    out->entry.sd = c->sd_before;
    out->entry.sd_df = nb - 1;
    out->entry.weight = 1 / nb;
  } else if (nb + na > 2) {
    double b = c->sd_before, a = c->sd_after;
    out->entry.sd_df = nb + na - 2;
    out->entry.sd =
        hypot(b * sqrt((nb - 1) / (nb + na - 2)), a * sqrt((na - 1) / (nb + na - 2)));
    out->entry.weight = 1 / nb + 1 / na;
  }
  out->moments = (scwi_moments){c->paired ? found->n_before
                                          : found->n_before + found->n_after - 1,
                                change->estimate.value, out->entry.sd};
}

static scw_status take_change(scw_context *context, const scwi_compare_run *run,
                              const scwi_arm *arm, scwi_contender *out) {
  scwi_arm_estimate found;
  scw_status status = scwi_arm_estimate_of(context, arm, run->step,
                                           run->settings.level, &found);
  if (!status && arm->one_spot)
    found.change = scwi_bare_estimate(found.change.estimate.value, SCW_ONE_SPOT,
                                      run->settings.level);
  if (!status && arm->paired)
    status = scwi_arm_differences(context, arm, &out->values);
  if (status) return status;
  entry_of_change(&found, run->step, out);
  out->own = found.change;
  out->plan = found.comparison;
  out->n_before = found.n_before;
  out->n_after = found.n_after;
  return SCW_OK;
}

/* The values are taken over from the arm. */
static scw_status take_mean(scw_context *context, const scwi_compare_run *run,
                            scwi_arm *arm, scwi_contender *out) {
  double level = run->settings.level;
  scw_status status = SCW_OK;
  scwi_uncertainty u = {0, 0};
  out->values = arm->after;
  arm->after = (scwi_values){0};
  if (out->values.n == 0) { /* tracks pulled in one direction only */
    out->own = scwi_bare_estimate(NAN, SCW_TOO_FEW, level);
    out->entry.state = SCW_TOO_FEW;
    return SCW_OK;
  }
  scwi_sample sample = scwi_values_sample(&out->values, run->step);
  scwi_moments m = out->moments = scwi_moments_of(&sample);
  scw_presence state = scwi_uncertainty_of_mean(m, run->step, &u);
  if (out->values.by_spot && m.n == 1 && arm->panels < 2) state = SCW_ONE_SPOT;
  out->own = scwi_bare_estimate(m.mean, state, level);
  if (state == SCW_PRESENT)
    status = scwi_estimate(context, m.mean, u, level, &out->own);
  out->own.p = scwi_missing(SCW_NOT_COMPUTED); /* of a mean against zero */
  out->n_after = m.n;
  out->plan = (scwi_comparison){.sd_before = m.sd, .sd_after = m.sd,
                                .step = run->step.size, .level = level};
  out->entry = (scwi_entry){.estimate = m.mean, .u = u, .state = state,
                            .sd = m.sd, .sd_df = (double)m.n - 1,
                            .weight = 1 / (double)m.n,
                            .step = run->step.size, .sides = 1};
  return status;
}

/* ---- what is said of its readings ---- */

static scw_status note_unmatched(scw_context *context, scwi_compare_run *run,
                                 const char *name, const scwi_arm *arm) {
  scwi_text text = {0};
  size_t n = arm->n_unmatched;
  if (n == 0) return SCW_OK;
  scwi_text_format(&text, "%s: ", name);
  for (size_t i = 0; i < n && i < MOST_NAMED; i++)
    scwi_text_format(&text, "%s%s", i ? "; " : "", arm->unmatched[i]);
  if (n > MOST_NAMED)
    scwi_text_format(&text, "; and %zu more", n - MOST_NAMED);
  scwi_text_add(&text, ". What has no partner takes no part.");
  return scwi_note_take(context, &run->notes, "unmatched", &text);
}

static scw_status note_again(scw_context *context, scwi_compare_run *run,
                             const char *name, size_t replaced) {
  if (replaced == 0) return SCW_OK;
  return scwi_note(context, &run->notes, "read_again",
                   "%s: %zu reading%s taken again; the figures are those of "
                   "the first readings.",
                   name, replaced, replaced == 1 ? " was" : "s were");
}

/* A flag is never a removal. `what` is "", "before" or "after". */
static scw_status note_stand_out(scw_context *context, scwi_compare_run *run,
                                 const char *name, const char *what,
                                 const scwi_values *values) {
  scwi_workings workings = {0};
  scw_stand_out found = {.n_flags = 0};
  scwi_sample sample = scwi_values_sample(values, run->step);
  scw_status status = SCW_OK;
  if (values->n < 3) return SCW_OK;
  status = scwi_workings_of(context, &sample, &workings);
  if (!status)
    status = scwi_stand_out(context, &workings, run->settings.stand_out,
                            run->settings.candidates, &found);
  for (size_t i = 0; i < found.n_flags && !status; i++)
    status = scwi_note(context, &run->notes, "stands_out",
                       "%s: the %s of line %zu stands out from its others. It "
                       "is kept; look at what happened there.",
                       name, what, values->line[found.flags[i].place - 1]);
  scwi_workings_free(&workings);
  return status;
}

static scw_status notes_of(scw_context *context, scwi_compare_run *run,
                           const char *name, const scwi_arm_forms *forms,
                           const scwi_contender *one) {
  const scwi_arm *arm = &forms->first;
  const char *after = one->n_before ? "value after" : "value";
  scw_status status = note_unmatched(context, run, name, arm);
  if (!status) status = note_again(context, run, name, forms->replaced);
  if (status) return status;
  if (one->values.n)
    return note_stand_out(context, run, name,
                          arm->paired ? "change" : after, &one->values);
  status = note_stand_out(context, run, name, "value before", &arm->before);
  return status ? status
                : note_stand_out(context, run, name, after, &arm->after);
}

scw_status scwi_contender_of(scw_context *context, scwi_compare_run *run,
                             const scwi_product *product, bool changes,
                             scwi_contender *out) {
  scwi_arm_forms forms = {0};
  scw_status status =
      scwi_arm_forms_of(context, run->table, &run->facts, product,
                        run->divisor, false, &forms);
  out->panels = forms.first.panels;
  out->panel = scw_table_readings(run->table)[product->after[0]].panel;
  if (!status)
    status = changes ? take_change(context, run, &forms.first, out)
                     : take_mean(context, run, &forms.first, out);
  if (!status)
    status = notes_of(context, run, scwi_product_name(run->table, product),
                      &forms, out);
  scwi_arm_forms_free(&forms);
  return status;
}
