/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_words.h"

#include <math.h>
#include <string.h>

#include "change_bank_words.h"
#include "figure.h"
#include "words.h"

static double uncertainty(const scw_change_report *report) {
  const scw_figure *u = &report->change.standard_uncertainty;
  return scwi_present(*u) ? u->value : 0;
}

/* The interval the verdict is read from; `as_size` leaves out the sign of a
 * fall that the words have named. In a family it holds for all its
 * products together at the level asked for. */
static void say_interval(scwi_text *text, const scw_change_report *report,
                         bool as_size) {
  bool family = report->family_interval.state == SCW_PRESENT;
  scw_interval interval =
      family ? report->family_interval : report->change.interval;
  if (as_size && interval.high < 0)
    interval = (scw_interval){-interval.high, -interval.low, interval.level,
                              interval.state};
  scwi_say_percent(text, report->change.interval.level);
  scwi_text_add(text, family ? " family interval " : " interval ");
  scwi_say_interval(text, interval, uncertainty(report), report->unit);
  if (report->instruments.n_inputs)
    scwi_text_add(text, ", instruments included");
}

static void say_margin(scwi_text *text, const scw_change_report *report) {
  scwi_text_add(text, "your ");
  scwi_say_given(text, report->margin.value, report->unit);
}

/* "gloss rose by 1.24 GU (95 % interval 0.80 to 1.68 GU)". */
static void say_moved(scwi_text *text, const char *quantity,
                      const scw_change_report *report) {
  double change = report->change.estimate.value;
  scwi_text_format(text, "%s %s by ", quantity, change > 0 ? "rose" : "fell");
  scwi_say_value(text, fabs(change), uncertainty(report), report->unit);
  scwi_text_add(text, " (");
  say_interval(text, report, true);
  scwi_text_add(text, ")");
}

static void say_signed(scwi_text *text, const scw_change_report *report) {
  if (!scwi_present(report->change.estimate)) {
    scwi_text_add(text, scw_presence_text(report->change.estimate.state));
    return;
  }
  if (report->change.estimate.value > 0) scwi_text_add(text, "+");
  scwi_say_value(text, report->change.estimate.value, uncertainty(report),
                 report->unit);
}

static void say_settle(scwi_text *text, const scw_change_report *report) {
  const scw_settle *settle = &report->settle;
  if (scwi_present(settle->more)) {
    scwi_text_add(text, "; about ");
    scwi_say_count(text, (size_t)settle->more.value,
                   settle->per_spot ? "more spot" : "more reading");
    scwi_text_format(text,
                     "%s (%zu in all) would settle it, if the change really "
                     "is this size",
                     report->control      ? " on treated and control each"
                     : settle->per_spot ? ""
                                          : " on each side",
                     (size_t)settle->total.value);
  } else if (settle->more.state == SCW_ZERO_CHANGE) {
    scwi_text_add(text, "; the change found is zero, which no number of "
                        "readings can show: set the smallest change that "
                        "matters with --margin");
  } else if (settle->more.state == SCW_NEVER) {
    scwi_text_add(text, "; the change found lies at your margin, so no number "
                        "of readings would settle it");
  } else if (settle->more.state == SCW_INSTRUMENTS) {
    scwi_text_add(text, "; no number of readings would settle it: the "
                        "instruments' own standard uncertainty of ");
    scwi_say_digits(text, report->instruments.standard_uncertainty.value, 2,
                    report->unit);
    scwi_text_add(text, " decides");
  } else if (settle->more.state == SCW_TOO_MANY) {
    scwi_text_add(text, "; settling it would take more readings than is "
                        "practical: set a margin or improve the design");
  }
}

/* On how many panels this rests; one panel is one panel. */
static void say_where(scwi_text *text, const scwi_compared *compared) {
  if (compared->given_after)
    scwi_text_add(text, ", going by the numbers given");
  else if (compared->arm->panels > 1)
    scwi_text_format(text, ", over %zu panels", compared->arm->panels);
  else if (compared->control && !compared->halves)
    scwi_text_add(text, ", on these panels, this application");
  else
    scwi_text_add(text, ", on this panel, this application");
}

static void say_cannot_tell(scwi_text *text, const char *quantity,
                            const scwi_compared *compared,
                            const scw_change_report *report) {
  scwi_text_format(text, "cannot tell whether %s changed", quantity);
  say_where(text, compared);
  scwi_text_add(text, ": ");
  say_signed(text, report);
  if (scwi_bank_differs(report)) {
    scwi_text_add(text, "; ");
    scwi_say_both_verdicts(text, report);
    return;
  }
  if (report->change.interval.state != SCW_PRESENT) {
    scwi_text_format(text, ", but no interval can be given: %s",
                     scw_presence_text(report->change.interval.state));
    return;
  }
  scwi_text_add(text, ", ");
  say_interval(text, report, false);
  scwi_text_add(text, report->instruments.n_inputs
                          ? ", is within the uncertainty"
                          : ", is within the scatter");
  if (scwi_present(report->margin)) {
    scwi_text_add(text, " and reaches beyond ");
    say_margin(text, report);
  }
  say_settle(text, report);
}

/* A bare number decides: up to where the change stands. */
static void say_conditional(scwi_text *text, const char *quantity,
                            const scw_change_report *report) {
  scwi_text_format(text, "%s changed (", quantity);
  say_signed(text, report);
  if (scwi_present(report->break_even_sd)) {
    scwi_text_add(text, ") only if single readings scatter by less than ");
    scwi_say_digits(text, report->break_even_sd.value, 2, report->unit);
    scwi_text_add(text, " (SD); the readings themselves would settle it");
  } else {
    scwi_text_add(text, ") only if the bare number is good to ");
    scwi_say_digits(text, report->break_even_baseline_u.value, 2,
                    report->unit);
    scwi_text_add(text, " (standard uncertainty); readings in its place would "
                        "settle it");
  }
}

static void say_one_spot(scwi_text *text, const char *quantity,
                         const scw_change_report *report) {
  scwi_text_format(text, "at this one spot %s changed by ", quantity);
  say_signed(text, report);
  if (report->change.interval.state == SCW_PRESENT) {
    scwi_text_add(text, " (");
    say_interval(text, report, false);
    scwi_text_add(text, ")");
  }
  scwi_text_add(text, "; one spot says nothing about the panel");
}

static void say_verdict(scwi_text *text, const char *quantity,
                        const scwi_compared *compared,
                        const scw_change_report *report) {
  switch (report->verdict) {
  case SCW_CHANGED:
    say_moved(text, quantity, report);
    if (!scwi_present(report->margin)) break;
    scwi_text_add(text, ", by more than ");
    say_margin(text, report);
    break;
  case SCW_CHANGED_SIZE_UNCLEAR:
    say_moved(text, quantity, report);
    scwi_text_add(text, "; whether by more than ");
    say_margin(text, report);
    scwi_text_add(text, " is not clear");
    break;
  case SCW_CHANGED_BUT_SMALL:
    say_moved(text, quantity, report);
    scwi_text_add(text, ", but by less than ");
    say_margin(text, report);
    break;
  case SCW_NO_CHANGE_BEYOND_MARGIN:
    scwi_text_format(text, "%s did not change by as much as ", quantity);
    say_margin(text, report);
    scwi_text_add(text, ": ");
    say_signed(text, report);
    scwi_text_add(text, " (");
    say_interval(text, report, false);
    scwi_text_add(text, ")");
    break;
  case SCW_CONDITIONAL: say_conditional(text, quantity, report); break;
  default:
    if (compared->arm->one_spot)
      say_one_spot(text, quantity, report);
    else
      say_cannot_tell(text, quantity, compared, report);
  }
}

static void capital(scwi_text *text, size_t at) {
  if (text->data && text->length > at && text->data[at] >= 'a' &&
      text->data[at] <= 'z')
    text->data[at] = (char)(text->data[at] - 'a' + 'A');
}

scw_status scwi_change_sentence(scw_context *context,
                                scwi_change_subject subject,
                                const scwi_compared *compared,
                                scw_change_report *report) {
  scwi_text text = {0};
  if (*subject.product) scwi_text_format(&text, "%s: ", subject.product);
  if (report->control)
    scwi_text_format(&text, "against the control %s, ", report->control);
  scw_change_report told = scwi_as_told(report);
  say_verdict(&text, subject.quantity, compared, &told);
  if (!*subject.product) capital(&text, 0);
  if (report->verdict != SCW_CANNOT_TELL && !compared->arm->one_spot)
    say_where(&text, compared);
  scwi_say_bank_agrees(&text, report);
  scwi_text_add(&text, ".");
  return scwi_text_take(context, &text, &report->sentence);
}

static const char *unit_word(const scwi_arm *arm) {
  if (arm->panels > 1) return "panel";
  return arm->before.by_spot ? "spot" : "reading";
}

/* Without pairs the df is a mixture; of what, is said. */
static void say_mixture(scwi_text *text, const scwi_compared *compared,
                        const scwi_arm_estimate *estimate) {
  bool pairs = compared->control && compared->arm->paired &&
               compared->control->paired;
  scwi_text_format(text, "Welch-Satterthwaite from %zu and %zu %s%ss",
                   estimate->n_before, estimate->n_after,
                   unit_word(compared->arm), pairs ? " pair" : "");
}

scw_status scwi_df_origin(scw_context *context, const scwi_compared *compared,
                          const scwi_arm_estimate *estimate,
                          scw_change_report *report) {
  scwi_text text = {0};
  bool paired = estimate->comparison.paired;
  size_t known = compared->given_before && !compared->given_before->has_sd
                     ? estimate->n_after
                     : estimate->n_before;
  if (scwi_by_numbers(compared) && estimate->bare != SCW_VERDICT_END) {
    if (scwi_present(report->change.df))
      scwi_text_format(&text, "%zu %ss minus 1", known,
                       unit_word(compared->arm));
    return scwi_text_take(context, &text, &report->df_origin);
  }
  double pairs = (double)estimate->n_before;
  if (paired)
    scwi_text_format(&text, "%zu %s pair%s minus 1", estimate->n_before,
                     unit_word(compared->arm), pairs == 1 ? "" : "s");
  else
    say_mixture(&text, compared, estimate);
  scw_figure df = estimate->scatter.df; /* before the instruments came in */
  if (df.state == SCW_UNBOUNDED)
    scwi_text_add(&text, "; only the display step speaks, so there is no "
                         "limit");
  else if (paired && df.value > pairs - 1)
    scwi_text_add(&text, ", raised because the display step carries part of "
                         "the uncertainty");
  if (estimate->comparison.fixed.u > 0)
    scwi_text_add(&text, "; with the instruments' part beside it");
  return scwi_text_take(context, &text, &report->df_origin);
}

const char *scwi_verdict_words(scw_verdict verdict, scw_design design) {
  switch (verdict) {
  case SCW_CHANGED: return "changed";
  case SCW_CHANGED_SIZE_UNCLEAR: return "changed, size unclear";
  case SCW_CHANGED_BUT_SMALL: return "changed, but by less than the margin";
  case SCW_NO_CHANGE_BEYOND_MARGIN: return "no change beyond the margin";
  case SCW_CONDITIONAL:
    return design == SCW_BREAK_EVEN
               ? "changed only if both bare numbers are good enough"
               : "changed only if the bare number is good enough";
  case SCW_CANNOT_TELL: return "cannot tell";
  default: return "no verdict";
  }
}
