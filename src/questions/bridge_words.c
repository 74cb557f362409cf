/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer in words. */
#include <math.h>
#include <string.h>

#include "bridge_inside.h"
#include "figure.h"
#include "words.h"

static double u_of(const scw_estimate *estimate) {
  const scw_figure *u = &estimate->standard_uncertainty;
  return scwi_present(*u) ? u->value : 0;
}

static void say_signed(scwi_text *text, double value, double u,
                       const char *unit) {
  if (value > 0) scwi_text_add(text, "+");
  scwi_say_value(text, value, u, unit);
}

/* "+0.42 GU (95 % interval 0.10 to 0.74 GU)". */
static void say_difference(scwi_text *text, const scw_estimate *of,
                           const char *unit) {
  if (!scwi_present(of->estimate)) {
    scwi_text_add(text, scw_presence_text(of->estimate.state));
    return;
  }
  say_signed(text, of->estimate.value, u_of(of), unit);
  if (of->interval.state == SCW_PRESENT) {
    scwi_text_add(text, " (");
    scwi_say_percent(text, of->interval.level);
    scwi_text_add(text, " interval ");
    scwi_say_interval(text, of->interval, u_of(of), unit);
    scwi_text_add(text, ")");
  } else {
    scwi_text_format(text, ", without an interval: %s",
                     scw_presence_text(of->interval.state));
  }
}

static void say_margin(scwi_text *text, const scw_bridge_result *result) {
  scwi_text_add(text, "your ");
  scwi_say_given(text, result->margin.value, result->unit);
}

static void say_bias(scwi_text *text, const scw_bridge_result *result) {
  scwi_text_add(text, "new less old is ");
  say_difference(text, &result->bias, result->unit);
  scwi_text_add(text, " over ");
  scwi_say_count(text, result->pairs, "product");
}

/* "single results differ by -0.8 to +1.6 GU (limits of agreement for 95 %)". */
static void say_limits(scwi_text *text, const scw_bridge_result *result) {
  const scw_limits_of_agreement *limits = &result->agreement;
  if (!scwi_present(limits->low)) return;
  scw_interval ends = {limits->low.value, limits->high.value, limits->content,
                       SCW_PRESENT};
  scwi_text_add(text, "; single results on one item differ by ");
  scwi_say_interval(text, ends, limits->sd.value, result->unit);
  scwi_text_add(text, " for ");
  scwi_say_percent(text, limits->content);
  scwi_text_add(text, " of items");
}

static void say_products(scwi_text *text, const scw_bridge_result *result) {
  const scw_figure *n = &result->planned_products;
  const scw_figure *sure = &result->planned_assured;
  if (scwi_present(*n) && n->value > (double)result->pairs) {
    scwi_text_format(text, "; run at least %zu products on both",
                     (size_t)n->value);
    if (scwi_present(*sure) && sure->value > n->value)
      scwi_text_format(text, " (%zu to be on the safe side)",
                       (size_t)sure->value);
    scwi_text_add(text, ", spread over the range of results");
  } else if (n->state == SCW_NEVER) {
    scwi_text_add(text, "; no number of products would show that they agree "
                        "within ");
    say_margin(text, result);
    scwi_text_add(text, " if bias and scatter are those found");
  } else if (n->state == SCW_TOO_MANY) {
    scwi_text_add(text, "; showing it would take more products than is "
                        "practical");
  } else if (n->state == SCW_NO_MARGIN) {
    scwi_text_add(text, "; set the largest difference that does not matter "
                        "with --margin");
  }
}

static void say_baselines(scwi_text *text, const scw_bridge_result *result) {
  const scw_bridge_baselines *of = &result->baselines;
  if (of->items == 0) return;
  switch (of->verdict) {
    case SCW_NO_CHANGE_BEYOND_MARGIN:
    case SCW_CHANGED_BUT_SMALL:
      scwi_text_add(text, " The baselines agree within ");
      say_margin(text, result);
      scwi_text_add(text, ": new less old is ");
      break;
    case SCW_CHANGED:
    case SCW_CHANGED_SIZE_UNCLEAR:
      scwi_text_add(text, " The baselines differ: new less old is ");
      break;
    default:
      scwi_text_add(text, " Whether the baselines agree cannot be told: new "
                          "less old is ");
  }
  say_difference(text, &of->difference, result->unit);
  scwi_text_add(text, ".");
}

static void say_no_products(scwi_text *text, const scw_bridge_result *result) {
  scwi_text_add(text, "Cannot tell whether old and new results are comparable: "
                      "no product was run on both methods.");
  say_baselines(text, result);
  scwi_text_add(text, " Equal baselines do not show equal response");
  if (scwi_present(result->planned_products) ||
      result->planned_products.state == SCW_NEVER ||
      result->planned_products.state == SCW_TOO_MANY)
    say_products(text, result);
  else
    scwi_text_format(text, "; run at least 3 products on both, spread over the "
                           "range of results (how many: %s)",
                     result->planned_products.state == SCW_NO_MARGIN
                         ? "set a margin with --margin"
                         : "the baselines need repeats on both");
  scwi_text_add(text, ". Until then old and new scores stay apart.");
}

/* "new = 1.2 + 0.98 old", as fine as the conversion is. */
static void say_line(scwi_text *text, const scw_bridge_result *result) {
  const scw_bridge_line *line = scwi_bridge_used(result);
  double u = result->conversion_uncertainty.value;
  double range = result->range_high.value - result->range_low.value;
  double largest = fmax(fabs(result->range_low.value),
                        fabs(result->range_high.value));
  double intercept = line->intercept.value;
  scwi_text_add(text, "new = ");
  scwi_say_value(text, intercept, u, NULL);
  scwi_text_add(text, line->slope.value < 0 ? " - " : " + ");
  scwi_say_value(text, fabs(line->slope.value),
                 u / fmax(range, largest) / 10, NULL);
  scwi_text_add(text, " old");
}

static void say_conversion(scwi_text *text, const scw_bridge_result *result) {
  say_line(text, result);
  scwi_text_add(text, ", each converted result good to ");
  scwi_say_digits(text, result->conversion_half_width.value, 2, result->unit);
  scwi_text_add(text, " or better (");
  scwi_say_percent(text, result->settings.level);
  scwi_text_add(text, ")");
}

/* Why there is no conversion, or that it is not good enough. */
static void say_no_conversion(scwi_text *text,
                              const scw_bridge_result *result) {
  const scw_bridge_line *line = scwi_bridge_used(result);
  scw_presence why = line->slope_interval.state;
  if (why == SCW_TOO_FEW)
    scwi_text_add(text, " No conversion: a line needs 3 products.");
  else if (why == SCW_NO_SCATTER && scwi_present(line->slope))
    scwi_text_add(text, " No conversion: the products lie on a line exactly, "
                        "which says nothing of its uncertainty.");
  else if (why != SCW_PRESENT || !(line->slope_interval.low > 0))
    scwi_text_add(text, " No conversion: these products do not determine how "
                        "new results go with old ones; take products further "
                        "apart.");
  else if (result->convertible == SCW_COMPARABLE_NO)
    scwi_text_add(text, " Converting does not help: the scatter about the line "
                        "is too large for your margin, however many products "
                        "are run.");
  else {
    scwi_text_add(text, " Converted by ");
    say_conversion(text, result);
    scwi_text_add(text, scwi_present(result->margin)
                            ? ", which is not within your margin."
                            : ".");
  }
}

static void say_yes(scwi_text *text, const scw_bridge_result *result) {
  scwi_text_add(text, "Old and new results are comparable as they stand, within ");
  say_margin(text, result);
  scwi_text_add(text, ": ");
  say_bias(text, result);
  say_limits(text, result);
  scwi_text_add(text, ".");
}

static void say_converted(scwi_text *text, const scw_bridge_result *result) {
  scwi_text_add(text, "Old results are comparable with new ones after "
                      "conversion, within ");
  say_margin(text, result);
  scwi_text_add(text, ": ");
  say_conversion(text, result);
  scwi_text_format(text, ". As they stand %s: ",
                   result->comparable == SCW_COMPARABLE_NO
                       ? "they are not"
                       : "that cannot be told");
  say_bias(text, result);
  say_limits(text, result);
  scwi_text_add(text, ".");
}

static void say_no(scwi_text *text, const scw_bridge_result *result) {
  scwi_text_format(text, "Old and new results are not comparable%s: ",
                   result->convertible == SCW_COMPARABLE_NO ? ""
                                                            : " as they stand");
  say_bias(text, result);
  say_limits(text, result);
  scwi_text_add(text, ", beyond ");
  say_margin(text, result);
  scwi_text_add(text, ".");
  say_no_conversion(text, result);
}

static void say_cannot_tell(scwi_text *text, const scw_bridge_result *result) {
  bool moved = result->verdict == SCW_CHANGED && !scwi_present(result->margin);
  if (moved)
    scwi_text_format(text, "The new method reads %s: ",
                     result->bias.estimate.value > 0 ? "higher" : "lower");
  else if (scwi_present(result->margin))
    scwi_text_add(text, "Cannot tell whether old and new results are "
                        "comparable: ");
  else
    scwi_text_add(text, "Cannot tell whether the new method reads differently, "
                        "and no proof of it is no sameness: ");
  say_bias(text, result);
  say_limits(text, result);
  say_products(text, result);
  scwi_text_add(text, ".");
  say_no_conversion(text, result);
}

scw_status scwi_bridge_sentence(scw_context *context,
                                const scwi_bridge_frame *frame,
                                scw_bridge_result *out) {
  scwi_text text = {0};
  (void)frame;
  if (out->pairs == 0)
    say_no_products(&text, out);
  else if (out->comparable == SCW_COMPARABLE_YES)
    say_yes(&text, out);
  else if (out->convertible == SCW_COMPARABLE_YES)
    say_converted(&text, out);
  else if (out->comparable == SCW_COMPARABLE_NO)
    say_no(&text, out);
  else
    say_cannot_tell(&text, out);
  return scwi_text_take(context, &text, &out->sentence);
}
