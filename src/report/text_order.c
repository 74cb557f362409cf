/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that stand out and the order they came in, in words. */
#include <math.h>

#include "figure.h"
#include "number_text.h"
#include "number_words.h"
#include "text_set.h"
#include "wording.h"

static int decimals_of_set(const scw_set_report *set) {
  return scwi_decimals_of(set->summary.standard_uncertainty, set->summary.mean);
}

/* "reading 7 (85.4 GU, line 9)". */
static void name_reading(scwi_text *text, const scw_set_report *set,
                         const scw_flag *flag) {
  char number[SCWI_NUMBER_SIZE];
  size_t line = scwi_line_of_place(set, flag->place);
  bool unit = set->unit && *set->unit;
  scwi_text_format(text, "%s %zu (%s%s%s", scwi_reading_word(set),
                   scwi_place_in_set(set, flag->place),
                   scwi_number_text(flag->reading, number), unit ? " " : "",
                   unit ? set->unit : "");
  if (line) scwi_text_format(text, ", line %zu", line);
  scwi_text_add(text, ")");
}

static void add_test(scwi_text *text, const scw_flag *flag) {
  if (flag->test == SCW_ALL_EQUAL_BUT_ONE) {
    scwi_text_add(text, ": all the others are the same");
    return;
  }
  if (isfinite(flag->distance_sd) && flag->distance_sd != 0) {
    scwi_text_add(text, ": ");
    scwi_put_short(text, fabs(flag->distance_sd), 2);
    scwi_text_format(text, " SD %s the mean",
                     flag->distance_sd > 0 ? "above" : "below");
  }
  if (!scwi_present(flag->statistic)) return;
  scwi_text_add(text,
                flag->test == SCW_GRUBBS ? "; Grubbs " : "; extreme deviate ");
  scwi_put_short(text, flag->statistic.value, 3);
  if (scwi_present(flag->limit)) {
    scwi_text_add(text, ", limit ");
    scwi_put_short(text, flag->limit.value, 3);
  }
  if (scwi_present(flag->p)) {
    scwi_text_add(text, ", ");
    scwi_word_p(text, flag->p);
  }
}

/* Tested and silent: the farthest reading and how far it was. */
static void add_silent(scwi_text *text, const scw_stand_out *found) {
  if (!scwi_present(found->grubbs_statistic)) return;
  scwi_text_add(text, "none by the test; the farthest has Grubbs ");
  scwi_put_short(text, found->grubbs_statistic.value, 3);
  if (scwi_present(found->grubbs_limit)) {
    scwi_text_add(text, ", limit ");
    scwi_put_short(text, found->grubbs_limit.value, 3);
  }
}

static void add_without(scwi_text *text, const scw_set_report *set) {
  const scw_summary *s = &set->without_flagged;
  int decimals = scwi_decimals_of(s->standard_uncertainty, s->mean);
  bool one = set->summary.stand_out.n_flags == 1;
  if (s->n == 0 || !scwi_present(s->mean)) return;
  scwi_text_format(text, "without %s: mean ", one ? "it" : "them");
  scwi_word_quantity(text, s->mean.value, decimals, set->unit);
  if (s->interval.state == SCW_PRESENT) {
    scwi_text_add(text, " (");
    scwi_put_range(text, s->interval.low, s->interval.high, decimals);
    scwi_text_add(text, ")");
  }
  if (!scwi_present(s->sd)) return;
  scwi_text_add(text, ", SD ");
  scwi_word_quantity(text, s->sd.value, decimals, set->unit);
}

void scwi_sheet_stand_out(scwi_sheet *sheet, const scw_set_report *set,
                          const char *whose) {
  const scw_stand_out *found = &set->summary.stand_out;
  scwi_text *text = &sheet->scratch;
  const char *label = "stands out";
  size_t flags =
      found->n_flags < SCW_MAX_CANDIDATES ? found->n_flags : SCW_MAX_CANDIDATES;
  if (flags == 0) add_silent(text, found);
  for (size_t i = 0; i < flags; i++) {
    if (i == 0 && whose && *whose) scwi_text_format(text, "%s: ", whose);
    name_reading(text, set, &found->flags[i]);
    add_test(text, &found->flags[i]);
    scwi_sheet_labelled_scratch(sheet, label);
    label = "";
  }
  if (flags) add_without(text, set);
  scwi_sheet_labelled_scratch(sheet, label);
}

static void add_per_reading(scwi_text *text, double value, int decimals,
                            const char *unit) {
  scwi_word_quantity(text, value, decimals, unit);
  scwi_text_add(text, " per reading");
}

/* Never "no creep": what the readings allow, and how little they rule out. */
static void creep(scwi_sheet *sheet, const scw_set_report *set) {
  const scw_creep *c = &set->summary.creep;
  scwi_text *text = &sheet->scratch;
  if (c->slope_interval.state != SCW_PRESENT) return;
  double low = c->slope_interval.low, high = c->slope_interval.high;
  int decimals = scwi_decimals_for(high / 2 - low / 2, low);
  char number[SCWI_NUMBER_SIZE];
  scwi_text_format(text, "%sbetween %s and ",
                   c->creeping ? "creeping, " : "creep is ",
                   scwi_fixed_text(low, decimals, number));
  add_per_reading(text, high, decimals, set->unit);
  if (c->creeping) {
    scwi_word_p_aside(text, c->p);
  } else {
    scwi_text_add(text, "; ");
    scwi_word_count(text, set->summary.n, scwi_reading_word(set));
    scwi_text_add(text, " cannot rule creep out below ");
    scwi_word_quantity(text, fmax(fabs(low), fabs(high)), decimals, set->unit);
  }
  if (scwi_present(c->sd_about_line)) {
    scwi_text_add(text, "; SD about the line ");
    scwi_word_quantity(text, c->sd_about_line.value, decimals_of_set(set),
                       set->unit);
  }
  scwi_sheet_labelled_scratch(sheet, "in order");
}

static void neighbours(scwi_sheet *sheet, const scw_summary *s) {
  scwi_text *text = &sheet->scratch;
  char number[SCWI_NUMBER_SIZE];
  if (s->n < 3) return;
  if (scwi_present(s->serial.lag1)) {
    scwi_text_format(text, "lag-1 correlation %s",
                     scwi_fixed_text(s->serial.lag1.value, 2, number));
    scwi_word_p_aside(text, s->serial.lag1_p);
  }
  if (scwi_present(s->creep.kendall_s)) {
    scwi_word_join(text, "; ");
    scwi_text_add(text, "Kendall S ");
    scwi_put_short(text, s->creep.kendall_s.value, 12);
    scwi_word_p_aside(text, s->creep.kendall_p);
  }
  scwi_sheet_labelled_scratch(sheet, "neighbours");
}

static void biggest_jump(scwi_sheet *sheet, const scw_set_report *set) {
  const scw_level_shift *shift = &set->summary.level_shift;
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(shift->size)) return;
  if (shift->size.value > 0) scwi_text_add(text, "+");
  scwi_word_quantity(text, shift->size.value, decimals_of_set(set), set->unit);
  scwi_text_format(text, " after %s %zu", scwi_reading_word(set),
                   scwi_place_in_set(set, shift->after_place));
  scwi_word_p_aside(text, shift->p);
  if (shift->counted)
    scwi_text_format(text, ", counted on %zu random orders, seed %llu",
                     shift->orders, shift->seed);
  scwi_sheet_labelled_scratch(sheet, "biggest jump");
}

void scwi_sheet_order(scwi_sheet *sheet, const scw_set_report *set) {
  creep(sheet, set);
  neighbours(sheet, &set->summary);
  biggest_jump(sheet, set);
}
