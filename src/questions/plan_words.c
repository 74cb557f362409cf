/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan_words.h"

#include <math.h>

#include "figure.h"
#include "number_text.h"
#include "plan_designs.h"
#include "text.h"
#include "words.h"

/* "8 times in 10" of 0.8; "95 times in 100" of 0.95. */
static void say_times(scwi_text *text, double chance) {
  char number[SCWI_NUMBER_SIZE];
  double of_ten = round(chance * 1e10) / 1e9;
  double of = of_ten == floor(of_ten) ? 10 : 100;
  double times = round(chance * of * 1e9) / 1e9;
  scwi_text_format(text, "%s times in ", scwi_number_text(times, number));
  scwi_text_add(text, scwi_number_text(of, number));
}

static void say_target(scwi_text *text, const scw_plan_result *result) {
  scwi_say_given(text, result->request.target, result->unit);
}

/* Two bare numbers in a row need a comma: "0.5, 8 times in 10". */
static void say_apart(scwi_text *text, const scw_plan_result *result) {
  scwi_text_add(text, result->unit && *result->unit ? " " : ", ");
}

/* "12 spots read before and after", "12 readings on each side". */
static void say_design(scwi_text *text, const scw_plan_result *result,
                       size_t n) {
  bool one_mean = result->request.goal == SCW_PLAN_HALF_WIDTH;
  const scw_plan_split *split = &result->split;
  if (result->n_designs) {
    scwi_say_plan_design(text, result, &result->designs[0]);
  } else if (result->request.unequal && scwi_present(split->before)) {
    scwi_say_count(text, (size_t)split->before.value, "reading");
    scwi_text_format(text, " before and %zu after", (size_t)split->after.value);
  } else if (result->request.paired) {
    scwi_say_count(text, n, "spot");
    scwi_text_add(text, " read before and after");
  } else {
    scwi_say_count(text, n, "reading");
    if (!one_mean) scwi_text_add(text, " on each side");
  }
}

static size_t planned(const scw_plan_result *result) {
  const scw_plan_row *row = &result->plan;
  return (size_t)(result->request.paired ? row->spots.value
                                         : row->readings_per_side.value);
}

static void say_reached(scwi_text *text, const scw_plan_result *result) {
  if (result->request.goal == SCW_PLAN_HALF_WIDTH) {
    say_design(text, result, planned(result));
    bool change = result->request.paired || result->request.control_half;
    scwi_text_add(text, change ? " give the mean change to within "
                               : " give the mean to within ");
    say_target(text, result);
    scwi_text_add(text, " (");
    scwi_say_percent(text, result->settings.level);
    scwi_text_add(text, " interval)");
    return;
  }
  scwi_text_add(text, "With ");
  say_design(text, result, planned(result));
  if (result->request.goal == SCW_PLAN_DETECT) {
    scwi_text_add(text, " you would see a change of ");
    say_target(text, result);
    say_apart(text, result);
  } else {
    scwi_text_add(text, " you could show, if nothing changed, that it did not "
                        "change by more than ");
    say_target(text, result);
    scwi_text_add(text, ", ");
  }
  say_times(text, result->settings.power);
}

static void say_seen(scwi_text *text, const scw_plan_result *result) {
  const scw_plan_row *row = &result->plan;
  scwi_text_add(text, "With ");
  say_design(text, result, result->request.readings);
  if (scwi_present(row->detectable)) {
    scwi_text_add(text, " you would see a change of ");
    scwi_say_digits(text, row->detectable.value, 3, result->unit);
    say_apart(text, result);
    say_times(text, result->settings.power);
  }
  if (scwi_present(row->half_width)) {
    scwi_text_add(text, result->request.paired
                            ? "; the mean change is known to within "
                            : "; one side's mean is known to within ");
    scwi_say_digits(text, row->half_width.value, 2, result->unit);
  }
}

static void say_impossible(scwi_text *text, const scw_plan_result *result) {
  if (result->request.scatter && result->request.fits) {
    scwi_say_no_room(text, result);
    return;
  }
  scw_figure n = result->request.paired ? result->plan.spots
                                        : result->plan.readings_per_side;
  if (result->request.goal == SCW_PLAN_READINGS) {
    scwi_text_add(text, "One reading has no scatter, so nothing can be seen "
                        "with it: take at least 3");
  } else if (n.state == SCW_NEVER || result->design_upper.cost.state == SCW_NEVER) {
    scwi_text_add(text, "No number of readings reaches ");
    say_target(text, result);
    scwi_text_add(text, ": the display step alone is coarser; use a finer "
                        "meter or ask for less");
  } else {
    scwi_text_add(text, "More than a million readings would be needed for ");
    say_target(text, result);
    scwi_text_add(text, ": ask for less, or make the panel more even");
  }
}

scw_status scwi_plan_sentence(scw_context *context, scw_plan_result *result) {
  scwi_text text = {0};
  if (!result->possible)
    say_impossible(&text, result);
  else if (result->request.goal == SCW_PLAN_READINGS)
    say_seen(&text, result);
  else
    say_reached(&text, result);
  scwi_text_add(&text, ".");
  scwi_say_if_nothing_cancels(&text, result);
  return scwi_text_take(context, &text, &result->sentence);
}
