/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer of a budget in words, in the form JCGM 100 7.2.4 asks for. */
#include <math.h>
#include <string.h>

#include "budget_parts.h"
#include "number_text.h"
#include "number_words.h"
#include "text.h"
#include "words.h"

const char *scwi_shown_unit(const char *unit) {
  return unit && strcmp(unit, "1") ? unit : "";
}

bool scwi_budget_uncertain(const scw_budget *budget) {
  for (size_t i = 0; i < budget->n_lines; i++)
    if (budget->lines[i].standard_uncertainty > 0) return true;
  return false;
}

/* "0.320 ± 0.021 GU". */
static void say_result(scwi_text *to, const scw_budget *budget,
                       const char *unit) {
  int decimals = scwi_decimals_for(budget->expanded.value, budget->estimate);
  scwi_put_fixed(to, budget->estimate, decimals);
  scwi_text_add(to, " \xC2\xB1 ");
  scwi_put_fixed(to, budget->expanded.value, decimals);
  if (*unit) scwi_text_format(to, " %s", unit);
}

/* "2.11 times the standard uncertainty 0.0090, by t with 16.8 degrees of
 * freedom." */
static void say_made_of(scwi_text *to, const scw_quantity_budget *of) {
  const scw_budget *budget = &of->budget;
  scwi_put_fixed(to, budget->k.value, 2);
  scwi_text_add(to, " times the standard uncertainty ");
  scwi_say_digits(to, budget->standard_uncertainty.value, 2,
                  scwi_shown_unit(of->quantity->unit));
  if (budget->df.state == SCW_PRESENT) {
    scwi_text_add(to, ", by t with ");
    scwi_put_short(to, budget->df.value, 3);
    scwi_text_add(to, " degrees of freedom");
  }
  scwi_text_add(to, ".");
}

static void say_law(scwi_text *to, const scw_quantity_budget *of,
                    double level) {
  scwi_text_format(to, "%s = ", of->quantity->name);
  say_result(to, &of->budget, scwi_shown_unit(of->quantity->unit));
  scwi_text_add(to, " at ");
  scwi_say_percent(to, level);
  scwi_text_add(to, ": the number after \xC2\xB1 is the expanded uncertainty, ");
  say_made_of(to, of);
}

static void say_interval(scwi_text *to, const scw_quantity_budget *of) {
  const scw_interval *ends = &of->trials.symmetric;
  scwi_say_interval(to, *ends, (ends->high - ends->low) / 2,
                    scwi_shown_unit(of->quantity->unit));
}

static bool has_interval(const scw_quantity_budget *of) {
  return of->has_trials && of->trials.symmetric.state == SCW_PRESENT;
}

/* The trials' interval, then what the law would have said. */
static void say_trials(scwi_text *to, const scw_quantity_budget *of,
                       double level) {
  const scw_budget *budget = &of->budget;
  const scw_interval *ends = &of->trials.symmetric;
  const char *unit = scwi_shown_unit(of->quantity->unit);
  scwi_text_format(to, "%s = ", of->quantity->name);
  scwi_say_value(to, budget->estimate, (ends->high - ends->low) / 2, unit);
  scwi_text_add(to, ", from ");
  say_interval(to, of);
  scwi_text_add(to, " at ");
  scwi_say_percent(to, level);
  scwi_text_add(to, " by trials of the inputs. The law of propagation, which "
                    "differs from them, gives ");
  say_result(to, budget, unit);
  scwi_text_add(to, ": ");
  say_made_of(to, of);
}

/* Where the law gives nothing, or something else than the trials, the trials
 * speak (JCGM 101, 8.1.3: the law is then not validated). */
static void say_answer(scwi_text *to, const scw_quantity_budget *of,
                       double level) {
  const scw_budget *budget = &of->budget;
  if (budget->expanded.state == SCW_PRESENT) {
    if (has_interval(of) && of->trials.agreement == SCW_DIFFERS)
      say_trials(to, of, level);
    else
      say_law(to, of, level);
    return;
  }
  scwi_text_format(to, "%s = ", of->quantity->name);
  if (has_interval(of)) {
    say_interval(to, of);
    scwi_text_add(to, " at ");
    scwi_say_percent(to, level);
    scwi_text_add(to, ", by trials of the inputs; the law of propagation gives "
                      "no uncertainty at these estimates.");
    return;
  }
  scwi_say_given(to, budget->estimate, scwi_shown_unit(of->quantity->unit));
  if (!scwi_budget_uncertain(budget))
    scwi_text_add(to, ", taken as exact: no input of it is uncertain.");
  else
    scwi_text_add(to, of->has_trials
                          ? ", and no uncertainty can be given for it."
                          : ", and the law of propagation gives no uncertainty "
                            "for it at these estimates; trials may.");
}

scw_status scwi_budget_sentence(scw_context *context,
                                const scw_quantity_budget *of, double level,
                                char **out) {
  scwi_text text = {0};
  if (of->why_not)
    scwi_text_format(&text, "%s has no value: %s.", of->quantity->name,
                     of->why_not);
  else
    say_answer(&text, of, level);
  return scwi_text_take(context, &text, out);
}
