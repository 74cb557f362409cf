/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences of an audit. They judge figures, never a product or a person. */
#include <math.h>

#include "audit_inside.h"
#include "figure.h"
#include "words.h"

static double u_of(const scw_claim *claim) {
  scw_figure u = claim->change.standard_uncertainty;
  return scwi_present(u) ? u.value : 0;
}

static void say_change(scwi_text *text, const scw_claim *claim) {
  scwi_text_add(text, "change of ");
  scwi_say_value(text, claim->change.estimate.value, u_of(claim), claim->unit);
  if (claim->change.interval.state != SCW_PRESENT) return;
  scwi_text_add(text, " (");
  scwi_say_interval(text, claim->change.interval, u_of(claim), claim->unit);
  scwi_text_add(text, ")");
}

static void say_faults(scwi_text *text, const scw_claim *claim) {
  for (size_t i = 0; i < claim->n_faults; i++) {
    scwi_text_add(text, i ? "; " : "");
    scwi_text_add(text, scw_fault_text(claim->faults[i]));
  }
}

static void say_settle(scwi_text *text, const scw_settle *settle) {
  if (!scwi_present(settle->more)) return;
  size_t more = (size_t)settle->more.value;
  const char *thing = settle->per_spot ? (more == 1 ? "spot" : "spots")
                      : more == 1      ? "reading a side"
                                       : "readings a side";
  scwi_text_format(text, " About %zu more %s would settle it, were the change "
                         "this one.",
                   more, thing);
}

static void say_beyond(scwi_text *text, const scw_claim *claim) {
  scwi_text_add(text, "Beyond the scatter on file: ");
  say_change(text, claim);
  scwi_text_add(text, ".");
}

static void say_within(scwi_text *text, const scw_audit *audit,
                       const scw_claim *claim) {
  scwi_text_add(text, "Within the scatter: not shown, not refuted; ");
  say_change(text, claim);
  if (scwi_present(claim->change.p) &&
      claim->change.p.value < 1 - audit->settings.level) {
    scwi_text_format(text, ", which is no longer beyond it when all %zu ",
                     audit->summary.judged);
    scwi_text_add(text, "claims are looked at together");
  } else if (!scwi_present(claim->change.p)) {
    scwi_text_add(text, claim->design == SCW_BY_BASELINE
                            ? ", were the baseline exact"
                            : ", no larger than the display steps");
  }
  scwi_text_add(text, ".");
  say_settle(text, &claim->settle);
}

static void say_only_if(scwi_text *text, const scw_claim *claim) {
  if (claim->design == SCW_BY_BASELINE) {
    scwi_text_add(text, "Stands only if the baseline is good to ");
    scwi_say_digits(text, claim->break_even_baseline_u.value, 2, claim->unit);
    scwi_text_add(text, " (standard uncertainty), which nobody wrote down.");
    return;
  }
  scwi_text_add(text, "Stands only if the SD of single readings was below ");
  scwi_say_digits(text, claim->break_even_sd.value, 2, claim->unit);
  if (claim->bank_sd.state == SCW_PRESENT) {
    scwi_text_add(text, "; your bench says ");
    scwi_say_digits(text, claim->bank_sd.low, 2, NULL);
    scwi_text_add(text, " to ");
    scwi_say_digits(text, claim->bank_sd.high, 2, claim->unit);
  }
  scwi_text_add(text, ".");
}

static void say_disagrees(scwi_text *text, const scw_claim *claim) {
  scwi_text_add(text, "Figures do not agree (");
  say_faults(text, claim);
  scwi_text_add(text, "): check n, step, transcription.");
}

scw_status scwi_claim_sentence(scw_context *context, const scw_audit *audit,
                               scw_claim *claim) {
  scwi_text text = {0};
  switch (claim->verdict) {
    case SCW_CLAIM_BEYOND: say_beyond(&text, claim); break;
    case SCW_CLAIM_WITHIN: say_within(&text, audit, claim); break;
    case SCW_CLAIM_ONLY_IF: say_only_if(&text, claim); break;
    case SCW_CLAIM_DISAGREES: say_disagrees(&text, claim); break;
    default:
      scwi_text_add(&text, "Cannot be judged: ");
      scwi_text_add(&text, scw_claim_design_text(claim->design));
      scwi_text_add(&text, ".");
  }
  if (claim->n_faults && claim->verdict != SCW_CLAIM_DISAGREES) {
    scwi_text_add(&text, " But ");
    say_faults(&text, claim);
    scwi_text_add(&text, ".");
  }
  return scwi_text_take(context, &text, &claim->sentence);
}

static void say_part(scwi_text *text, size_t n, const char *one,
                     const char *many, bool *any) {
  if (!n) return;
  scwi_text_format(text, "%s%zu %s", *any ? ", " : "", n, n == 1 ? one : many);
  *any = true;
}

scw_status scwi_audit_sentence(scw_context *context, scw_audit *audit) {
  const scw_audit_summary *s = &audit->summary;
  scwi_text text = {0};
  bool any = false;
  scwi_text_add(&text, "Of ");
  scwi_say_count(&text, s->claims, "claim");
  scwi_text_add(&text, ": ");
  say_part(&text, s->beyond, "lies beyond the scatter on file",
           "lie beyond the scatter on file", &any);
  say_part(&text, s->only_if, "stands only if something unsaid was small enough",
           "stand only if something unsaid was small enough", &any);
  say_part(&text, s->within, "lies within the scatter (not shown, not refuted)",
           "lie within the scatter (not shown, not refuted)", &any);
  say_part(&text, s->figures_disagree, "has figures that do not agree",
           "have figures that do not agree", &any);
  say_part(&text, s->not_judged, "cannot be judged", "cannot be judged", &any);
  scwi_text_add(&text, ".");
  return scwi_text_take(context, &text, &audit->sentence);
}
