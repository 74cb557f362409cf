/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Designs in words. */
#include "figure.h"
#include "notes.h"
#include "plan_designs.h"
#include "words.h"

static size_t whole(scw_figure figure) { return (size_t)figure.value; }

static bool told_apart(const scw_plan_result *result, int level) {
  return scwi_present(result->scatter.variance[level]);
}

/* "3 panels, 2 sessions on each, 4 spots in each, 2 readings at each spot";
 * "8 paired spots on this panel". */
static void say_counts(scwi_text *text, const scw_plan_result *result,
                       const scw_plan_design *design) {
  bool above = false;
  if (told_apart(result, SCW_LEVEL_PANEL)) {
    scwi_say_count(text, whole(design->panels), "panel");
    above = true;
  }
  if (told_apart(result, SCW_LEVEL_SESSION) && design->sessions.value > 1) {
    scwi_text_add(text, above ? ", " : "");
    scwi_say_count(text, whole(design->sessions), "session");
    scwi_text_add(text, above ? " on each" : "");
    above = true;
  }
  scwi_text_add(text, above ? ", " : "");
  scwi_say_count(text, whole(design->spots),
                 result->request.paired ? "paired spot" : "spot");
  scwi_text_add(text, above ? " in each" : " on this panel");
  if (result->request.control_half) scwi_text_add(text, ", on either half");
  if (!told_apart(result, SCW_LEVEL_REPEAT)) return;
  scwi_text_add(text, ", ");
  scwi_say_count(text, whole(design->repeats), "reading");
  scwi_text_add(text, " at each spot");
}

void scwi_say_plan_design(scwi_text *text, const scw_plan_result *result,
                          const scw_plan_design *design) {
  const scw_plan_request *request = &result->request;
  say_counts(text, result, design);
  if (request->paired || request->control_half)
    scwi_text_add(text, ", before and after,");
  else if (request->goal != SCW_PLAN_HALF_WIDTH)
    scwi_text_add(text, ", on each side,");
  else
    scwi_text_add(text, ",");
}

static void say_cost(scwi_text *text, const scw_plan_result *result,
                     scw_figure cost) {
  scwi_text_add(text, ", at a cost of ");
  scwi_say_given(text, cost.value, result->cost_unit);
}

static void say_cheapest(scwi_text *text, const scw_plan_result *result,
                         const scw_plan_design *design) {
  if (!scwi_present(design->cost)) {
    scwi_text_format(text, "no design reaches it (%s)",
                     design->cost.state == SCW_NEVER && result->request.fits
                         ? "too few spots fit"
                         : scw_presence_text(design->cost.state));
    return;
  }
  say_counts(text, result, design);
  say_cost(text, result, design->cost);
}

void scwi_say_no_room(scwi_text *text, const scw_plan_result *result) {
  const scw_plan_row *best = &result->plan;
  bool width = result->request.goal == SCW_PLAN_HALF_WIDTH;
  scwi_text_format(text, "The %zu spots that fit on a panel are too few for ",
                   result->request.fits);
  scwi_say_given(text, result->request.target, result->unit);
  scw_figure reach = width ? best->half_width : best->detectable;
  if (scwi_present(reach)) {
    scwi_text_add(text, ": read without end they ");
    scwi_text_add(text, width ? "still leave " : "let a change be seen of ");
    scwi_say_digits(text, reach.value, 2, result->unit);
  }
  scwi_text_add(text, told_apart(result, SCW_LEVEL_PANEL)
                          ? "; ask for less"
                          : "; ask for less, or take more panels (a pilot of "
                            "several plans them)");
}

/* Levels of the pilot that differ no more than those below them would. */
static const char *level_at_zero(const scw_plan_result *result) {
  static const char *const names[] = {"panels", "sessions", "spots"};
  for (int level = 0; level < SCW_LEVEL_REPEAT; level++)
    if (told_apart(result, level) &&
        !(result->scatter.variance[level].value > 0))
      return names[level];
  return NULL;
}

static scw_status note_upper(scw_context *context,
                             const scw_plan_result *result,
                             scwi_notes *notes) {
  scwi_text text = {0};
  const char *zero = level_at_zero(result);
  scwi_text_add(&text, "With the scatter at its upper limits (");
  scwi_say_percent(&text, result->scatter.assurance);
  scwi_text_add(&text, "): ");
  say_cheapest(&text, result, &result->design_upper);
  scwi_text_add(&text, ".");
  if (zero)
    scwi_text_format(&text, " Take that one: the pilot's %s differed no more "
                            "than what lies below them makes them, which in a "
                            "pilot of this size is no proof that they are "
                            "alike.",
                     zero);
  return scwi_note_take(context, notes,
                        zero ? "component_at_zero" : "at_upper_limits", &text);
}

/* The plan takes it that what spots differ by goes away with the same spots
 * read again, and the pilot cannot show it. */
static bool rests_on_pairs(const scw_plan_result *result) {
  bool change = result->request.paired || result->request.control_half;
  return result->n_designs && change && !result->scatter.of_differences;
}

void scwi_say_if_nothing_cancels(scwi_text *text,
                                 const scw_plan_result *result) {
  if (!rests_on_pairs(result)) return;
  scwi_text_add(text, " That is the least: if reading the same spots again took "
                      "none of their differences away, it would be ");
  say_cheapest(text, result, &result->design_uncancelled);
  scwi_text_add(text, ".");
}

static scw_status note_uncancelled(scw_context *context,
                                   const scw_plan_result *result,
                                   scwi_notes *notes) {
  if (!rests_on_pairs(result)) return SCW_OK;
  return scwi_note(context, notes, "one_side",
                   "The pilot holds one side, so it is not known how much of "
                   "the spots' differences goes away when the same spots are "
                   "read again; the plan takes it that all of it does. A pilot "
                   "read before and after tells.");
}

static scw_status note_pilot(scw_context *context,
                             const scw_plan_result *result,
                             scwi_notes *notes) {
  const scw_plan_scatter *pilot = &result->scatter;
  scw_status status = SCW_OK;
  if (!told_apart(result, SCW_LEVEL_PANEL))
    status = scwi_note(context, notes, "one_panel",
                       "The pilot is one panel: the plan, and the interval it "
                       "leads to, speak of this panel and this application.");
  if (!status && pilot->unmatched)
    status = scwi_note(context, notes, "unmatched",
                       "%zu %s of the pilot found no partner on the other side "
                       "of the same spot and %s not used.",
                       pilot->unmatched,
                       pilot->unmatched == 1 ? "reading" : "readings",
                       pilot->unmatched == 1 ? "was" : "were");
  if (!status && !pilot->balanced)
    status = scwi_note(context, notes, "unbalanced",
                       "The pilot's spots were not read equally often; its "
                       "scatter is split up approximately (unweighted means).");
  return status;
}

scw_status scwi_note_plan_designs(scw_context *context, scw_plan_result *out) {
  scwi_notes notes = {0};
  scw_status status = note_uncancelled(context, out, &notes);
  if (!status && out->n_designs) status = note_upper(context, out, &notes);
  if (!status) status = note_pilot(context, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  return status;
}
