/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text reports: answer first, 80 columns, words for what is missing. */
#include <stdlib.h>
#include <string.h>

#include "made_up.h"

static const scw_report_options plain = {0};
static const scw_report_options in_ascii = {.ascii = true};

static void starts_with(const char *text, const char *start) {
  if (strncmp(text, start, strlen(start)) != 0)
    fail_msg("does not start with \"%s\":\n%s", start, text);
}

/* The words with single blanks between them, whatever the lines. */
static char *unwrapped(const char *text) {
  char *out = strdup(text);
  size_t n = 0;
  assert_non_null(out);
  for (const char *at = text; *at; at++) {
    bool blank = *at == ' ' || *at == '\n';
    if (!blank)
      out[n++] = *at;
    else if (n && out[n - 1] != ' ')
      out[n++] = ' ';
  }
  out[n] = 0;
  return out;
}

static void one_set_says_everything(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  char *text = text_of_sets(&set, 1, plain);
  starts_with(text, "Mean 84.96 GU, interval 84.03 to 85.89 GU");
  assert_true(widest_line(text) <= 80);
  /* rounded once, at two digits of the uncertainty 0.41 */
  assert_memory_equal(line_of(text, "mean "),
                      "  mean            84.96 GU   84.03 to 85.89   95 % "
                      "interval, 9.25 df\n",
                      69);
  assert_has(text, "  scatter (SD)     1.30 GU    0.89 to  2.37\n");
  assert_has(text,
             "  the spots                  80.56 to 89.36   90 % of them, "
             "95 % sure\n");
  assert_has(text,
             "reading 9 (88.6 GU, line 9): 2.8 SD above the mean; Grubbs");
  assert_has(text,
             "without it: mean 84.556 GU (84.379 to 84.732), SD 0.230 GU");
  assert_has(text,
             "  median          84.60 GU   84.42 to 84.78   middle half "
             "of the readings\n");
  assert_has(text, "left out        reading 3, because: the meter had slipped");
  assert_has(text, "+1.39 GU after reading 8 (p 0.49), counted on 9999 random");
  assert_has(text, "Shapiro-Wilk W 0.53 (p below 0.0001)");
  assert_has(text, "  - No spot column was there.\n");
  free(text);
}

static void creep_is_never_denied(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  char *text = text_of_sets(&set, 1, plain);
  assert_has(text,
             "creep is between -0.20 and 0.46 GU per reading; 10 readings");
  assert_has(text, "cannot rule creep out below 0.46 GU");
  assert_lacks(text, "no creep");
  free(text);
  set.summary.creep.creeping = true;
  set.summary.creep.slope_interval = INTERVAL(0.11, 0.46);
  text = text_of_sets(&set, 1, plain);
  assert_has(text, "creeping, between 0.11 and 0.46 GU per reading (p 0.40)");
  assert_lacks(text, "cannot rule creep out");
  free(text);
}

static void the_account_names_what_was_not_used(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  char *text = text_of_sets(&set, 1, plain);
  char *account = unwrapped(line_of(text, "read from"));
  assert_has(account,
             "shed \"hull\".csv: 13 rows, 10 readings used; not used:");
  assert_has(account, "2 empty labels read as the one above (first on line 5)");
  assert_has(account, "2 missing from line 7 on,");
  assert_has(account, "(summary line)");
  assert_has(account, "separator tab, decimal comma (given)");
  assert_has(account, "0.1 GU (found");
  assert_has(account, "sha256 0123456789ab.");
  assert_has(account, "level 95 %, stand-outs at 5 %");
  free(account);
  free(text);
}

static void missing_figures_are_words(void **state) {
  (void)state;
  scw_set_report set = made_up_single();
  char *text = text_of_sets(&set, 1, plain);
  assert_has(text,
             "not given       mean (interval), scatter (SD), "
             "uncertainty, next reading, the\n");
  assert_has(text, " spots: one reading has no scatter\n");
  assert_has(text, "shape: too few readings");
  assert_has(text, "display step not known");
  assert_lacks(text, "median"); /* one reading has no middle */
  assert_lacks(text, "nan");
  assert_lacks(text, "NaN");
  assert_lacks(text, " 0.0");
  free(text);
}

static void several_sets_are_a_table(void **state) {
  (void)state;
  scw_set_report sets[] = {made_up_set(), made_up_single()};
  char *text = text_of_sets(sets, 2, plain);
  starts_with(text,
              "2 sets: the mean of each in GU, with its 95 % interval.\n");
  assert_has(text,
             "  K1   10  84.96  84.03 to 85.89  1.30  reading 9 stands "
             "out, 1 left out\n");
  assert_has(text,
             "  K2    1  84.6                         one reading has no "
             "scatter\n");
  assert_has(text, "  stands out      K1: reading 9 (88.6 GU, line 9): 2.8 SD");
  assert_has(text, "  - K1: No spot column was there.\n");
  assert_true(widest_line(text) <= 80);
  free(text);
  sets[1].notes = sets[0].notes;
  sets[1].n_notes = sets[0].n_notes;
  text = text_of_sets(sets, 2, plain);
  assert_has(text, "  - All: No spot column was there.\n");
  free(text);
}

static void ascii_means_ascii(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  set.unit = "\xC2\xB5m";
  set.sentence =
      "Gr\xC3\xB6\xC3\x9F"
      "e 3 \xC2\xB1 1 \xC2\xB5m.";
  char *text = text_of_sets(&set, 1, in_ascii);
  starts_with(text, "Groesse 3 +- 1 um.\n");
  for (const char *at = text; *at; at++)
    assert_true((unsigned char)*at < 128 && (*at >= ' ' || *at == '\n'));
  free(text);
}

/* Colour only repeats what is there without it. */
static void colour_is_an_extra(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  char *without = text_of_sets(&set, 1, plain);
  char *with = text_of_sets(&set, 1, (scw_report_options){.colour = true});
  size_t kept = 0, marks = 0;
  for (char *at = with; *at; at++) {
    if (*at == '\033') {
      at += strcspn(at, "m");
      marks++;
    } else {
      with[kept++] = *at;
    }
  }
  with[kept] = 0;
  assert_true(marks > 0);
  assert_string_equal(with, without);
  free(with);
  free(without);
}

static void labels_cannot_break_the_page(void **state) {
  (void)state;
  char label[300];
  memset(label, 'K', 299);
  label[299] = 0;
  memcpy(label + 10, "\033[2J\n", 5);
  scw_set_report sets[] = {made_up_set(), made_up_set()};
  sets[0].label = label;
  char *text = text_of_sets(sets, 2, plain);
  assert_true(widest_line(text) <= 80);
  assert_null(strchr(text, '\033'));
  free(text);
}

/* Nothing computed: nothing claimed. */
static void an_empty_set_claims_nothing(void **state) {
  (void)state;
  scw_set_report set = {0};
  char *text = text_of_sets(&set, 1, plain);
  assert_lacks(text, "not computed");
  assert_lacks(text, "mean");
  assert_lacks(text, "stands out");
  assert_lacks(text, "creep");
  free(text);
  scw_set_report two[] = {{0}, {0}};
  text = text_of_sets(two, 2, plain);
  assert_lacks(text, "0.0");
  free(text);
}

static void one_change_says_everything(void **state) {
  (void)state;
  scw_change_report change = made_up_change();
  char *text = text_of_changes(&change, 1, plain);
  starts_with(text,
              "Gloss rose by 3.78 GU, on this panel, this application.\n");
  assert_true(widest_line(text) <= 80);
  assert_has(text,
             "  change              +3.78 GU    3.48 to  4.08   95 %, "
             "p 0.002\n");
  assert_has(text,
             "  before              84.56 GU   84.16 to 84.96   4 spots, "
             "SD 0.25\n");
  assert_has(text,
             "  without stand-outs  +3.90 GU    3.60 to  4.20   cannot "
             "tell\n");
  assert_has(text,
             "  would be seen        0.51 GU                    8 times in "
             "10\n");
  assert_has(text, "  your margin          0.5  GU\n");
  assert_has(text, "8.25: Welch-Satterthwaite from 4 and 4 spots");
  assert_has(text,
             "to settle it    25 more readings on each side (29 in all), "
             "8 times in 10\n");
  assert_has(text, "not paired      spot 7 has no after reading (line 12)");
  assert_has(text, "power 80 %, margin 0.5.");
  free(text);
}

static void a_side_that_stands_out_is_named(void **state) {
  (void)state;
  scw_change_report change = made_up_change();
  change.after = made_up_set();
  char *text = text_of_changes(&change, 1, plain);
  assert_has(text, "  stands out      after: reading 9 (88.6 GU, line 9): 2.8");
  free(text);
  scw_change_report two[] = {change, made_up_change()};
  text = text_of_changes(two, 2, plain);
  assert_has(text, "  stands out      K1 after: reading 9 (88.6 GU, line 9)");
  free(text);
}

/* Why nothing would settle it is in the answer. */
static void settling_is_told_where_it_can_be(void **state) {
  static const scw_presence states[] = {SCW_SETTLED, SCW_NEVER,
                                        SCW_BARE_NUMBER};
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    scw_change_report change = made_up_change();
    change.settle.more = change.settle.total = NO_FIGURE(states[i]);
    char *text = text_of_changes(&change, 1, plain);
    assert_lacks(text, "to settle it");
    free(text);
  }
}

static void a_family_is_judged_together(void **state) {
  (void)state;
  scw_change_report changes[] = {made_up_change(), made_up_change()};
  for (size_t i = 0; i < 2; i++) {
    changes[i].family_interval = INTERVAL(3.1, 4.5);
    changes[i].family_p = FIGURE(0.0042);
    changes[i].verdict = SCW_CHANGED;
  }
  changes[1].product = "K2";
  changes[1].family_p = FIGURE(0.00002);
  changes[1].verdict = SCW_CANNOT_TELL;
  char *text = text_of_changes(changes, 2, plain);
  starts_with(text,
              "2 products judged together. Changed: K1. Cannot tell: K2.");
  assert_has(text,
             "  K1             3.78   3.10 to 4.50    0.004  "
             " changed\n");
  assert_has(text, "<0.0001  cannot tell\n");
  assert_has(text,
             "not paired      K1: spot 7 has no after reading (line 12)\n");
  assert_has(text,
             "                K2: spot 7 has no after reading (line 12)\n");
  assert_true(widest_line(text) <= 80);
  free(text);
}

static void an_empty_change_claims_nothing(void **state) {
  (void)state;
  scw_change_report changes[] = {{0}, {0}};
  char *text = text_of_changes(changes, 1, plain);
  assert_lacks(text, "change ");
  assert_lacks(text, "not computed");
  free(text);
  text = text_of_changes(changes, 2, plain);
  assert_lacks(text, "0.0");
  free(text);
}

static char *text_of_plan(const scw_plan_result *plan) {
  scw_context *context = made_up_context();
  const scwi_inputs none = {0};
  written to = {0};
  char *text = NULL;
  assert_int_equal(scwi_text_plan(context, plan, &none, plain, sink_of(&to)),
                   SCW_OK);
  assert_int_equal(scwi_text_take(context, &to.text, &text), SCW_OK);
  scw_context_free(context);
  return text;
}

static void the_plan_is_marked_in_its_table(void **state) {
  (void)state;
  scw_plan_result plan = made_up_plan();
  char *text = text_of_plan(&plan);
  starts_with(text, "With 8 spots you would see a change of 0.5 GU.\n");
  assert_has(text,
             "    spots  half-width, GU  change seen, GU  chance\n");
  assert_has(text,
             "  >     8            0.40             0.50   0.828  this "
             "plan\n");
  assert_has(text,
             "        7            0.40             0.50   0.728\n");
  assert_has(text, ">0.999\n");
  assert_has(text,
             "SD of the differences at a spot 0.43 GU, from a pilot of 6");
  assert_has(text, "  - The SD comes from 6 readings.\n");
  free(text);
}

static void an_impossible_plan_has_no_table(void **state) {
  (void)state;
  scw_plan_result plan = {.settings = made_up_settings(),
                          .sentence = "No number of readings would do."};
  char *text = text_of_plan(&plan);
  starts_with(text, "No number of readings would do.\n\n");
  assert_lacks(text, "half-width");
  assert_lacks(text, "this plan");
  free(text);
}

static void brief_sets_are_a_table(void **state) {
  (void)state;
  scw_brief_set sets[] = {
      {"K1", 10, FIGURE(84.964), FIGURE(1.297), INTERVAL(84.032, 85.888)},
      {"K2", 1, FIGURE(84.6), NO_FIGURE(SCW_ONE_READING),
       NO_INTERVAL(SCW_ONE_READING)}};
  scw_brief_result result = {.sets = sets, .n_sets = 2};
  scw_context *context = made_up_context();
  scwi_inputs inputs = made_up_inputs();
  written to = {0};
  result.input.unit = "GU";
  assert_int_equal(
      scwi_text_brief(context, &result, &inputs, plain, sink_of(&to)), SCW_OK);
  starts_with(to.text.data, "2 sets: the mean of each in GU");
  assert_has(to.text.data, "  K1   10  84.96  84.03 to 85.89  1.30\n");
  assert_has(to.text.data, "one reading has no scatter\n");
  scwi_text_free(&to.text);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(one_set_says_everything),
      cmocka_unit_test(creep_is_never_denied),
      cmocka_unit_test(the_account_names_what_was_not_used),
      cmocka_unit_test(missing_figures_are_words),
      cmocka_unit_test(several_sets_are_a_table),
      cmocka_unit_test(ascii_means_ascii),
      cmocka_unit_test(colour_is_an_extra),
      cmocka_unit_test(labels_cannot_break_the_page),
      cmocka_unit_test(an_empty_set_claims_nothing),
      cmocka_unit_test(one_change_says_everything),
      cmocka_unit_test(a_side_that_stands_out_is_named),
      cmocka_unit_test(settling_is_told_where_it_can_be),
      cmocka_unit_test(a_family_is_judged_together),
      cmocka_unit_test(an_empty_change_claims_nothing),
      cmocka_unit_test(the_plan_is_marked_in_its_table),
      cmocka_unit_test(an_impossible_plan_has_no_table),
      cmocka_unit_test(brief_sets_are_a_table)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
