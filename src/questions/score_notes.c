/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What goes with every score. */
#include <math.h>
#include <string.h>

#include "figure.h"
#include "friction.h"
#include "score_inside.h"
#include "words.h"

static scw_status note_trials(scw_context *context, scwi_score_run *run,
                              const scw_score_result *out) {
  scwi_text text = {0};
  scwi_text_format(&text, "Intervals of sums, places and their chances come "
                          "from %zu trials (seed %llu) in which everything "
                          "measured is drawn again; a place is one it could "
                          "hold with all pairs considered, at ",
                   out->trials, run->settings.seed);
  scwi_say_percent(&text, run->settings.level);
  scwi_text_add(&text, ".");
  return scwi_note_take(context, &run->notes, "trials", &text);
}

static scw_status note_baseline(scw_context *context, scwi_score_run *run) {
  if (!run->shared_baseline) return SCW_OK;
  return scwi_note(context, &run->notes, "shared_baseline",
                   "Products scored against the same baseline share its error: "
                   "it widens each product's points and cancels between "
                   "products, as far as their rules are alike.");
}

/* A product without a part of the score is named. */
static scw_status note_missing(scw_context *context, scwi_score_run *run,
                               const scw_score_result *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < out->n_products && !status; i++) {
    const scw_scored_product *p = &out->product[i];
    for (size_t k = 0; k < out->score->n_parts && !status; k++) {
      const scw_scored_part *part = &p->part[k];
      const char *rule = out->rules[part->rule].name;
      if (!scwi_present(part->points))
        status = scwi_note(context, &run->notes, "part_missing",
                           "%s has no figure for '%s' and is not ranked.",
                           p->label, rule);
      else if (p->of == 0 && part->interval.state != SCW_PRESENT)
        status = scwi_note(context, &run->notes, "part_without_interval",
                           "%s is not ranked: '%s' has no interval (%s).",
                           p->label, rule,
                           scw_presence_text(part->interval.state));
    }
  }
  return status;
}

/* The largest move that the publisher's rounding makes. */
static scw_status note_rounding(scw_context *context, scwi_score_run *run,
                                const scw_score_result *out) {
  size_t worst = out->n_products;
  double most = 0;
  scwi_text text = {0};
  for (size_t i = 0; i < out->n_products; i++) {
    const scw_scored_product *p = &out->product[i];
    if (!scwi_present(p->points) || !scwi_present(p->published)) continue;
    double moved = fabs(p->published.value - p->points.value);
    if (moved <= most) continue;
    most = moved;
    worst = i;
  }
  if (worst == out->n_products || most < 1e-9) return SCW_OK;
  const scw_scored_product *p = &out->product[worst];
  scwi_text_add(&text, "Rounding in the publisher's order moves scores by up "
                       "to ");
  scwi_say_digits(&text, most, 2, "points");
  scwi_text_format(&text, " (%s: ", p->label);
  scwi_say_digits(&text, p->points.value, 4, NULL);
  scwi_text_add(&text, " becomes ");
  scwi_say_given(&text, p->published.value, NULL);
  scwi_text_add(&text, ").");
  return scwi_note_take(context, &run->notes, "rounding", &text);
}

/* A step of points that the data cannot tell apart. */
static scw_status note_step(scw_context *context, scwi_score_run *run,
                            const scw_score_result *out) {
  double step = out->score->rounding.points, widest = 0;
  scwi_text text = {0};
  for (size_t i = 0; i < out->n_products; i++) {
    scw_interval ends = out->product[i].interval;
    if (ends.state == SCW_PRESENT) widest = fmax(widest, ends.high - ends.low);
  }
  if (!(step > 0) || !(widest > 2 * step)) return SCW_OK;
  scwi_text_add(&text, "Points are stated in steps of ");
  scwi_say_given(&text, step, NULL);
  scwi_text_add(&text, ", finer than the data allow: an interval is up to ");
  scwi_say_digits(&text, widest, 2, "points");
  scwi_text_add(&text, " wide.");
  return scwi_note_take(context, &run->notes, "step_too_fine", &text);
}

static scw_status note_ladder(scw_context *context, scwi_score_run *run,
                              const scw_score_result *out) {
  for (size_t k = 0; k < out->score->n_parts; k++)
    if (out->rules[out->score->part[k].rule].kind == SCW_RULE_LADDER)
      return scwi_note(context, &run->notes, "ladder",
                       "A coat that was looked at after some passes only may "
                       "have gone at any of those between two looks: its "
                       "ladder points are all the rungs that allows. "
                       "Intervals and places count them all; for chances "
                       "alone every number of passes between two looks is "
                       "taken as equally likely, and none beyond the last "
                       "look (an assumption). It is one coat on one panel.");
  return SCW_OK;
}

static scw_status note_category(scw_context *context, scwi_score_run *run,
                                const scw_score_result *out) {
  if (!out->score->within_category) return SCW_OK;
  return scwi_note(context, &run->notes, "within_category",
                   "The points of '%s' are relative to a category: they are "
                   "not ranked across categories.",
                   out->score->name);
}

static bool any_friction(const scw_score_result *out) {
  for (size_t k = 0; k < out->score->n_parts; k++)
    if (scwi_is_friction(out->rules[out->score->part[k].rule].reading))
      return true;
  return false;
}

scw_status scwi_score_notes(scw_context *context, scwi_score_run *run,
                            const scw_score_result *out) {
  scw_status status = note_missing(context, run, out);
  if (!status) status = note_rounding(context, run, out);
  if (!status) status = note_step(context, run, out);
  if (!status) status = note_baseline(context, run);
  if (!status) status = note_ladder(context, run, out);
  if (!status) status = note_category(context, run, out);
  if (!status) status = note_trials(context, run, out);
  if (!status)
    status = scwi_note(context, &run->notes, "one_panel_each",
                       "Ranks are those of these panels and applications; "
                       "with one panel for each product, product and panel "
                       "cannot be told apart.");
  if (!status && any_friction(out))
    status = scwi_friction_caution(context, &run->notes);
  return status;
}
