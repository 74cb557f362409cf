/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What goes with every comparison of several. */
#include "compare_inside.h"
#include "figure.h"
#include "friction.h"
#include "words.h"

static scw_status note_family(scw_context *context, scwi_compare_run *run,
                              const scw_compare_result *out) {
  scwi_text text = {0};
  if (out->n_comparisons < 2) return SCW_OK;
  scwi_text_format(&text, "%zu comparisons are judged together; method: %s. "
                          "Their intervals all hold at once with ",
                   out->n_comparisons, scw_adjustment_text(out->method));
  scwi_say_percent(&text, run->settings.level);
  scwi_text_add(&text, ", and their p is adjusted; the interval beside a "
                       "product is its own.");
  return scwi_note_take(context, &run->notes, "family", &text);
}

/* Holm's p is sharper than the intervals that go with it. */
static scw_status note_holm(scw_context *context, scwi_compare_run *run,
                            const scw_compare_result *out) {
  size_t apart = 0;
  for (size_t i = 0; i < out->n_comparisons; i++) {
    const scw_product_comparison *c = &out->comparison[i];
    apart += c->interval.state == SCW_PRESENT && c->interval.low <= 0 &&
             c->interval.high >= 0 && scwi_present(c->p_adjusted) &&
             c->p_adjusted.value < 1 - run->settings.level;
  }
  if (out->method != SCW_ADJUST_HOLM || apart == 0) return SCW_OK;
  return scwi_note(context, &run->notes, "p_and_interval_differ",
                   "%zu %s a small p although the interval holds 0: Holm's p "
                   "steps down from the smallest one, Bonferroni's intervals "
                   "do not. The verdict is that of the interval.",
                   apart, apart == 1 ? "comparison has" : "comparisons have");
}

static size_t smallest_group(const scwi_compare_run *run) {
  size_t least = 0;
  for (size_t i = 0; i < run->n; i++) {
    const scwi_contender *one = &run->contender[i];
    if (one->entry.state != SCW_PRESENT) continue; /* not of the family */
    size_t n = one->n_before && one->n_before < one->n_after ? one->n_before
                                                             : one->n_after;
    if (!least || n < least) least = n;
  }
  return least;
}

/* Of 3 to 10 alike products, docs/methods/several-products.md. */
static const char *small_rates(const scw_compare_result *out, size_t least) {
  bool crowded = out->n_comparisons > 10; /* pairs of more than 5 */
  if (out->method == SCW_ADJUST_MAX_T && least < 5)
    return "with 3 or 4 in each group some of 3 to 10 alike products were "
           "shown to differ in up to 7.3 % of cases, with 3 beside 20 in up "
           "to 8.6 %";
  if (out->method != SCW_ADJUST_GAMES_HOWELL) return NULL;
  if (least < 5)
    return "with 3 or 4 in each group some of 3 to 5 alike products were "
           "shown to differ in up to 6.9 % of cases, some of 10 in up to "
           "11.6 %; with 3 beside 20 in up to 9.5 %";
  return crowded && least < 10
             ? "with 5 in each group some of 10 alike products were shown to "
               "differ in up to 8.1 % of cases"
             : NULL;
}

static scw_status note_small(scw_context *context, scwi_compare_run *run,
                             const scw_compare_result *out) {
  size_t least = smallest_group(run);
  const char *rates = least ? small_rates(out, least) : NULL;
  if (!rates || out->n_comparisons < 2) return SCW_OK;
  return scwi_note(context, &run->notes, "few_per_group",
                   "The smallest group holds %zu: so few make the adjusted "
                   "intervals approximate. At a nominal 5 %%, %s.",
                   least, rates);
}

static scw_status note_luck(scw_context *context, scwi_compare_run *run,
                            const scw_compare_result *out) {
  const scw_compare_best *b = &out->best;
  scwi_text text = {0};
  if (!scwi_present(b->luck_second)) return SCW_OK;
  scwi_text_format(&text, "The best of %zu looks better than it is: %s leads "
                          "the next by ",
                   b->of, out->product[b->product].label);
  scwi_say_value(&text, b->over_second.value, b->luck_second.value, run->unit);
  scwi_text_add(&text, ", and were all of them alike, the best would lead by ");
  scwi_say_digits(&text, b->luck_second.value, 2, run->unit);
  scwi_text_add(&text, " by luck alone.");
  return scwi_note_take(context, &run->notes, "best_of_several", &text);
}

static scw_status note_equal_sd(scw_context *context, scwi_compare_run *run) {
  if (!run->options.equal_sd) return SCW_OK;
  return scwi_note(context, &run->notes, "equal_sd",
                   "The SDs were taken as equal, because you said so: one "
                   "uneven panel then lends its scatter to all others, and "
                   "takes theirs.");
}

static scw_status note_untreated(scw_context *context, scwi_compare_run *run) {
  scwi_text text = {0};
  if (!run->options.untreated) return SCW_OK;
  scwi_text_format(&text, "The change of the untreated %s, ",
                   run->options.untreated);
  scw_figure u = run->untreated.standard_uncertainty;
  scwi_say_value(&text, run->untreated.estimate.value,
                 scwi_present(u) ? u.value : 0, run->unit);
  scwi_text_add(&text, ", is taken off each product's own figure. In the "
                       "differences between products it cancels, and with it "
                       "its uncertainty.");
  return scwi_note_take(context, &run->notes, "untreated", &text);
}

/* On fewest panels: of one product. */
static size_t fewest_panels(const scwi_compare_run *run) {
  size_t least = run->contender[0].panels;
  for (size_t i = 1; i < run->n; i++)
    if (run->contender[i].panels < least) least = run->contender[i].panels;
  return least;
}

static scw_status note_panel(scw_context *context, scwi_compare_run *run) {
  size_t panels = fewest_panels(run);
  if (run->options.shared_spots && panels > 1)
    return scwi_note(context, &run->notes, "shared_panels",
                     "All products were read on the same panels, as you said; "
                     "each panel counts once, and differences are made panel "
                     "by panel.");
  if (run->options.shared_spots)
    return scwi_note(context, &run->notes, "shared_spots",
                     "All products were read at the same spots of one panel, "
                     "as you said; differences are made spot by spot and are "
                     "of that panel.");
  if (panels > 1)
    return scwi_note(context, &run->notes, "panel_means",
                     "Each panel counts once, by the mean of its spots.");
  return scwi_note(context, &run->notes, "one_panel_each",
                   "One panel for each product, or panels not named: what is "
                   "shown is a difference between these panels and these "
                   "applications. Several panels for each product would tell "
                   "product from panel.");
}

/* Those that stand aside, each with its reason. */
static scw_status note_unjudged(scw_context *context, scwi_compare_run *run,
                                const scw_compare_result *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < run->n && !status; i++) {
    scw_presence why = run->contender[i].entry.state;
    if (why == SCW_PRESENT) continue;
    status = scwi_note(context, &run->notes, "not_judged",
                       "%s cannot be judged: %s.", out->product[i].label,
                       scw_presence_text(why));
  }
  return status;
}

scw_status scwi_compare_notes(scw_context *context, scwi_compare_run *run,
                              const scw_compare_result *out) {
  scw_status status = note_family(context, run, out);
  if (!status) status = note_holm(context, run, out);
  if (!status) status = note_luck(context, run, out);
  if (!status) status = note_small(context, run, out);
  if (!status) status = note_equal_sd(context, run);
  if (!status) status = note_untreated(context, run);
  if (!status) status = note_panel(context, run);
  if (!status) status = note_unjudged(context, run, out);
  if (!status && run->friction)
    status = scwi_friction_caution(context, &run->notes);
  return status;
}
