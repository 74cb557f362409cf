/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change as a whole: design, pairing, verdict, words. The figures of each
 * design are judged in the tests of the methods; here they are held against
 * published ones and against sums done by hand. */
#include "from_text.h"

#include <math.h>
#include <string.h>

typedef struct run {
  scw_context *context;
  scw_table *table;
  scw_change_result result;
} run;

static run change_of(const char *text, const scw_change_options *options,
                     const scw_settings *settings) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  went_well(r.context,
            scw_change(r.context, r.table, settings, options, &r.result));
  return r;
}

static void done(run *r) {
  scw_change_result_free(&r->result);
  scw_table_free(r->table);
  scw_context_free(r->context);
}

static scw_status refused(const char *text, const scw_change_options *options,
                          const char *word_a, const char *word_b) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  scw_status status =
      scw_change(r.context, r.table, NULL, options, &r.result);
  assert_int_not_equal(status, SCW_OK);
  assert_int_equal(r.result.n_changes, 0);
  assert_null(r.result.changes);
  message_names(r.context, word_a, word_b, NULL);
  done(&r);
  return status;
}

/* Student 1908, the sleep data, as printed in R's documentation of t.test:
 * t = -4.0621 for group 1 minus group 2, p = 0.002833, interval of the
 * difference 0.7001142 to 2.4598858. */
static const char sleep_pairs[] =
    "spot,before,after\n1,0.7,1.9\n2,-1.6,0.8\n3,-0.2,1.1\n4,-1.2,0.1\n"
    "5,-0.1,-0.1\n6,3.4,4.4\n7,3.7,5.5\n8,0.8,1.6\n9,0.0,4.6\n10,2.0,3.4\n";

static void pairs_by_spot_as_published(void **state) {
  run r = change_of(sleep_pairs, NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->design, SCW_PAIRED);
  check_absolute(c->change.estimate.value, 1.58, 1e-14);
  check_absolute(c->change.interval.low, 0.7001142, 5e-8);
  check_absolute(c->change.interval.high, 2.4598858, 5e-8);
  check_absolute(c->change.p.value, 0.002833, 5e-7);
  assert_true(c->change.df.value == 9);
  assert_int_equal(c->pairs, 10);
  assert_int_equal(c->verdict, SCW_CHANGED);
  assert_string_equal(c->df_origin, "10 spot pairs minus 1");
  assert_non_null(strstr(c->sentence, "rose by 1.58"));
  assert_non_null(strstr(c->sentence, "on this panel, this application"));
  done(&r);
}

/* The same numbers without spots are two independent sides: Welch as printed
 * in R's documentation of t.test: df = 17.776, p = 0.07939, interval of group
 * 1 minus group 2 -3.3654832 to 0.2054832. */
static void without_spots_welch_as_published(void **state) {
  run r = change_of(
      "state,reading\nbefore,0.7\nbefore,-1.6\nbefore,-0.2\nbefore,-1.2\n"
      "before,-0.1\nbefore,3.4\nbefore,3.7\nbefore,0.8\nbefore,0.0\n"
      "before,2.0\nafter,1.9\nafter,0.8\nafter,1.1\nafter,0.1\nafter,-0.1\n"
      "after,4.4\nafter,5.5\nafter,1.6\nafter,4.6\nafter,3.4\n",
      NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->design, SCW_UNPAIRED);
  check_absolute(c->change.df.value, 17.776, 5e-4);
  check_absolute(c->change.p.value, 0.07939, 5e-6);
  check_absolute(c->change.interval.low, -0.2054832, 5e-8);
  check_absolute(c->change.interval.high, 3.3654832, 5e-8);
  assert_int_equal(c->verdict, SCW_CANNOT_TELL);
  assert_true(c->settle.more.state == SCW_PRESENT);
  assert_true(c->settle.total.value - c->settle.more.value == 10);
  assert_non_null(strstr(c->sentence, "annot tell"));
  assert_non_null(strstr(c->sentence, "more readings on each side"));
  assert_non_null(note_text(c->notes, c->n_notes, "not_paired"));
  done(&r);
}

static void repeats_at_a_spot_add_no_freedom(void **state) {
  run r = change_of("spot,before 1,before 2,after 1,after 2\n"
                    "a,10.0,10.2,11.1,11.3\nb,9.0,9.4,10.2,10.8\n"
                    "c,8.8,8.6,9.9,9.9\n",
                    NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->pairs, 3);
  assert_true(c->change.df.value == 2);
  /* spot means 10.1 9.2 8.7 and 11.2 10.5 9.9: differences 1.1 1.3 1.2 */
  check_absolute(c->change.estimate.value, 1.2, 1e-15);
  check_absolute(c->difference_sd.value, 0.1, 1e-15);
  assert_int_equal(c->before.readings, 6);
  assert_int_equal(c->before.spots, 3);
  done(&r);
}

static void unmatched_spots_are_named(void **state) {
  run r = change_of("state,spot,reading\nbefore,1,80.1\nbefore,2,81.3\n"
                    "before,3,79.2\nbefore,7,80.0\nafter,1,82.0\n"
                    "after,2,83.5\nafter,3,81.0\nafter,9,84.0\n",
                    NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->pairs, 3);
  assert_int_equal(c->n_unmatched, 2);
  assert_string_equal(c->unmatched[0],
                      "spot 7 was read before (line 5) but not after");
  assert_string_equal(c->unmatched[1],
                      "spot 9 was read after (line 9) but not before");
  done(&r);
}

static void one_spot_gives_no_verdict(void **state) {
  run r = change_of("state,spot,reading\nbefore,1,80.1\nbefore,1,80.3\n"
                    "before,1,80.2\nafter,1,84.0\nafter,1,84.2\nafter,1,84.4\n",
                    NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->verdict, SCW_NO_VERDICT);
  check_absolute(c->change.estimate.value, 4.0, 1e-13);
  assert_true(c->change.interval.state == SCW_PRESENT);
  assert_non_null(note_text(c->notes, c->n_notes, "one_spot"));
  assert_null(strstr(c->sentence, "on this panel"));
  done(&r);
}

static void panels_are_the_unit_where_there_are_several(void **state) {
  run r = change_of(
      "panel,spot,before,after\nA,1,80.0,82.0\nA,2,81.0,83.2\n"
      "B,1,75.0,76.8\nB,2,76.0,78.2\nC,1,90.0,91.9\nC,2,91.0,92.7\n",
      NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  /* panel changes 2.1, 2.0, 1.8 */
  assert_true(c->change.df.value == 2);
  check_absolute(c->change.estimate.value, 5.9 / 3, 1e-13);
  assert_string_equal(c->df_origin, "3 panel pairs minus 1");
  assert_non_null(strstr(c->sentence, "over 3 panels"));
  assert_non_null(note_text(c->notes, c->n_notes, "panel_means"));
  done(&r);
}

static void margins_decide_the_words(void **state) {
  static const struct {
    double margin;
    scw_verdict verdict;
    const char *words;
  } cases[] = {
      {0.5, SCW_CHANGED, "rose by"},
      {1.2, SCW_CHANGED_SIZE_UNCLEAR, "whether by more than your 1.2"},
      {3.0, SCW_CHANGED_BUT_SMALL, "but by less than your 3"}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scw_change_options options = {.margin = cases[i].margin};
    run r = change_of(sleep_pairs, &options, NULL);
    assert_int_equal(r.result.changes[0].verdict, cases[i].verdict);
    assert_non_null(strstr(r.result.changes[0].sentence, cases[i].words));
    done(&r);
  }
}

static void same_beyond_doubt_needs_a_margin(void **state) {
  const char *text = "spot,before,after\n1,80.1,80.2\n2,81.4,81.3\n"
                     "3,79.0,79.1\n4,80.5,80.4\n5,82.2,82.3\n";
  scw_change_options options = {.margin = 0.5};
  run with = change_of(text, &options, NULL);
  run without = change_of(text, NULL, NULL);
  (void)state;
  assert_int_equal(with.result.changes[0].verdict,
                   SCW_NO_CHANGE_BEYOND_MARGIN);
  assert_int_equal(without.result.changes[0].verdict, SCW_CANNOT_TELL);
  assert_non_null(strstr(with.result.changes[0].sentence,
                         "did not change by as much as your 0.5"));
  done(&with);
  done(&without);
}

static void no_scatter_is_never_certainty(void **state) {
  run r = change_of("spot,before,after\n1,80.1,80.2\n2,80.1,80.2\n"
                    "3,80.1,80.2\n",
                    NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  /* step 0.1 assumed: u^2 = q^2/6, so the interval is +-1.96 * 0.0408 */
  assert_true(c->change.standard_uncertainty.value > 0);
  check_relative(c->change.standard_uncertainty.value, 0.1 / sqrt(6), 1e-12);
  assert_true(c->change.p.state != SCW_PRESENT || c->change.p.value > 0);
  done(&r);
}

static void few_on_a_side_is_said(void **state) {
  run four = change_of("state,reading\nbefore,1.0\nbefore,2.0\nbefore,1.5\n"
                       "before,1.2\nafter,3.0\nafter,4.0\nafter,3.1\n"
                       "after,3.9\nafter,3.3\n",
                       NULL, NULL);
  run five = change_of("state,reading\nbefore,1.0\nbefore,2.0\nbefore,1.5\n"
                       "before,1.2\nbefore,1.4\nafter,3.0\nafter,4.0\n"
                       "after,3.1\nafter,3.9\nafter,3.3\n",
                       NULL, NULL);
  const scw_change_report *c = &four.result.changes[0];
  (void)state;
  assert_non_null(note_text(c->notes, c->n_notes, "few_and_unequal"));
  c = &five.result.changes[0];
  assert_null(note_text(c->notes, c->n_notes, "few_and_unequal"));
  done(&four);
  done(&five);
}

static void one_reading_a_side_differs_in_decimals(void **state) {
  run r = change_of("state,reading\nbefore,80.1\nafter,82.0\n", NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_true(c->change.estimate.value == 1.9);
  assert_int_equal(c->change.interval.state, SCW_ONE_READING);
  assert_int_equal(c->verdict, SCW_CANNOT_TELL);
  done(&r);
}

static void several_products_are_a_family(void **state) {
  run r = change_of(
      "product,spot,before,after\nK1,1,80.0,82.0\nK1,2,81.0,83.3\n"
      "K1,3,79.0,80.8\nK1,4,80.5,82.6\nK2,1,80.0,80.4\nK2,2,81.0,80.9\n"
      "K2,3,79.0,79.8\nK2,4,80.5,80.2\n",
      NULL, NULL);
  (void)state;
  assert_int_equal(r.result.n_changes, 2);
  const scw_change_report *k1 = &r.result.changes[0];
  const scw_change_report *k2 = &r.result.changes[1];
  assert_string_equal(k1->product, "K1");
  check_absolute(k1->family_interval.level, 0.975, 1e-15);
  assert_true(k1->family_interval.low < k1->change.interval.low);
  check_relative(k1->family_p.value, 2 * k1->change.p.value, 1e-14);
  check_relative(k2->family_p.value, k2->change.p.value, 1e-14);
  assert_non_null(note_text(r.result.notes, r.result.n_notes, "family"));
  done(&r);
}

static void a_product_with_one_side_is_named(void **state) {
  run r = change_of("product,state,reading\nK1,before,80.0\nK1,before,81.0\n"
                    "K1,after,84.0\nK1,after,84.5\nK2,before,80.0\n"
                    "K2,before,80.5\n",
                    NULL, NULL);
  (void)state;
  assert_int_equal(r.result.n_changes, 1);
  assert_string_equal(
      note_text(r.result.notes, r.result.n_notes, "one_side_only"),
      "K2 has no after readings and takes no part.");
  done(&r);
}

static const char pulls[] =
    "state,track,pull [g]\nbefore,1,210\nbefore,2,200\nbefore,3,190\n"
    "before,4,205\nafter,1,120\nafter,2,115\nafter,3,100\nafter,4,110\n";

static void pulls_over_the_block(void **state) {
  scw_change_options options = {.has_block = true, .block = 500};
  scw_change_options newtons = {
      .has_block = true, .block = 4.903325, .block_unit = "N"};
  run g = change_of(pulls, &options, NULL);
  run n = change_of(pulls, &newtons, NULL);
  const scw_change_report *c = &g.result.changes[0];
  (void)state;
  /* differences -90 -85 -90 -95 g over 500 g */
  check_relative(c->change.estimate.value, -0.18, 1e-14);
  check_relative(n.result.changes[0].change.estimate.value, -0.18, 1e-14);
  assert_true(g.result.friction);
  assert_true(c->has_without_first);
  assert_non_null(note_text(g.result.notes, g.result.n_notes,
                            "friction_caution"));
  /* the step of the pulls over the block */
  check_relative(c->before.summary.step.size,
                 c->before.summary.step.size > 0.01 ? 0.02 : 0.01, 1e-12);
  done(&g);
  done(&n);
}

static void both_directions_cancel_the_tilt(void **state) {
  scw_change_options options = {.has_block = true, .block = 500};
  run r = change_of(
      "state,track,direction,pull [g]\nbefore,1,up,220\nbefore,1,down,200\n"
      "before,2,up,225\nbefore,2,down,205\nbefore,3,up,223\n"
      "before,3,down,198\nafter,1,up,130\nafter,1,down,110\n"
      "after,2,up,128\nafter,2,down,104\nafter,3,up,129\nafter,3,down,107\n"
      "after,4,up,140\n",
      &options, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  /* track means 210 215 210.5 and 120 116 118 g */
  assert_int_equal(c->pairs, 3);
  check_relative(c->change.estimate.value, -(90 + 99 + 92.5) / 3 / 500,
                 1e-14);
  assert_non_null(note_text(c->after.notes, c->after.n_notes,
                            "one_direction_only"));
  done(&r);
}

/* Sums by hand: differences K1 2.0 2.2 1.8, control K0 0.3 0.1 0.2; variances
 * 0.04/3 and 0.01/3 add. */
static void less_what_the_control_did(void **state) {
  const char *text =
      "product,spot,before,after\nK1,1,80.0,82.0\nK1,2,81.0,83.2\n"
      "K1,3,79.0,80.8\nK0,1,80.0,80.3\nK0,2,81.0,81.1\nK0,3,79.0,79.2\n";
  scw_change_options plain = {.control = "K0"};
  scw_change_options halves = {.control = "K0", .paired_halves = true};
  run r = change_of(text, &plain, NULL);
  run h = change_of(text, &halves, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(r.result.n_changes, 1);
  assert_int_equal(c->design, SCW_CONTROL);
  check_absolute(c->change.estimate.value, 1.8, 1e-13);
  check_relative(c->change.standard_uncertainty.value, sqrt(0.05 / 3), 1e-12);
  check_relative(c->change.df.value, 0.05 * 0.05 / (0.0016 / 2 + 0.0001 / 2),
                 1e-12);
  check_absolute(c->control_change.estimate.value, 0.2, 1e-13);
  check_absolute(c->treated_change.estimate.value, 2.0, 1e-13);
  assert_non_null(strstr(c->sentence, "gainst the control K0"));
  assert_non_null(strstr(c->sentence, "on these panels"));
  /* halves: 1.7 2.1 1.6 */
  c = &h.result.changes[0];
  assert_int_equal(c->design, SCW_CONTROL_PAIRED);
  assert_true(c->change.df.value == 2);
  check_absolute(c->change.estimate.value, 1.8, 1e-13);
  check_relative(c->difference_sd.value, sqrt(0.07), 1e-12);
  done(&r);
  done(&h);
}

static void a_control_by_its_panel(void **state) {
  scw_change_options options = {.control = "bare"};
  run r = change_of("panel,spot,before,after\nA,1,80.0,82.0\nA,2,81.0,83.2\n"
                    "A,3,79.0,80.8\nbare,1,80.0,80.3\nbare,2,81.0,81.1\n"
                    "bare,3,79.0,79.2\n",
                    &options, NULL);
  (void)state;
  assert_int_equal(r.result.n_changes, 1);
  check_absolute(r.result.changes[0].change.estimate.value, 1.8, 1e-13);
  done(&r);
}

static void controls_that_are_refused(void **state) {
  const char *text = "product,spot,before,after\nK1,1,80.0,82.0\n"
                     "K1,2,81.0,83.2\nK0,5,80.0,80.3\nK0,6,81.0,81.1\n";
  scw_change_options unknown = {.control = "K9"};
  scw_change_options alone = {.paired_halves = true};
  scw_change_options apart = {.control = "K0", .paired_halves = true};
  (void)state;
  assert_int_equal(refused(text, &unknown, "K9", "no product"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused(text, &alone, "halves", "--control"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused(text, &apart, "both halves", "shed.csv"),
                   SCW_BAD_INPUT);
}

/* A bare baseline number: the verdict hangs on how good it is. The published
 * sums of the sleep data: after group mean 2.33, SD 2.002249, n 10. */
static void a_remembered_baseline(void **state) {
  const char *text = "reading\n1.9\n0.8\n1.1\n0.1\n-0.1\n4.4\n5.5\n1.6\n"
                     "4.6\n3.4\n";
  scw_change_options bare = {.has_baseline = true, .baseline = {.mean = 0}};
  scw_change_options near = {.has_baseline = true, .baseline = {.mean = 1.5}};
  scw_change_options known = {
      .has_baseline = true,
      .baseline = {.mean = 0.75, .has_sd = true, .sd = 1.789010, .n = 10}};
  run b = change_of(text, &bare, NULL);
  run n = change_of(text, &near, NULL);
  run k = change_of(text, &known, NULL);
  const scw_change_report *c = &b.result.changes[0];
  (void)state;
  assert_int_equal(c->design, SCW_AGAINST_BASELINE);
  assert_int_equal(c->verdict, SCW_CONDITIONAL);
  assert_true(c->break_even_baseline_u.value > 0);
  assert_int_equal(c->settle.total.state, SCW_BARE_NUMBER);
  assert_non_null(strstr(c->sentence, "only if the bare number is good to"));
  assert_non_null(note_text(c->notes, c->n_notes, "interval_if_exact"));
  assert_int_equal(n.result.changes[0].verdict, SCW_CANNOT_TELL);
  /* with SD and n it is Welch on the sleep data, as R prints it */
  c = &k.result.changes[0];
  check_absolute(c->change.p.value, 0.07939, 5e-6);
  check_absolute(c->change.df.value, 17.776, 5e-4);
  assert_int_equal(c->verdict, SCW_CANNOT_TELL);
  done(&b);
  done(&n);
  done(&k);
}

static scw_change_result from_numbers(scw_given_change change,
                                      const scw_change_options *options) {
  scw_context *context = a_context();
  scw_change_result result;
  went_well(context, scw_change_from_numbers(context, &change, 1, "GU",
                                             "gloss", NULL, options, &result));
  scw_context_free(context);
  return result;
}

/* e-Handbook 1.3.5.3 (AUTO83B): Welch by the means and SDs printed there:
 * 20.14458, 6.414700, 249 and 30.48101, 6.107710, 79; T = -12.94627. */
static void numbers_as_published(void **state) {
  scw_given_change both = {
      .before = {.mean = 30.48101, .has_sd = true, .sd = 6.107710, .n = 79},
      .after = {.mean = 20.14458, .has_sd = true, .sd = 6.414700, .n = 249}};
  scw_given_change bare = {.before = {.mean = 83.5, .n = 10, .step = 0.1},
                           .after = {.mean = 85.0, .n = 10, .step = 0.1}};
  scw_given_change near = {.before = {.mean = 83.5, .n = 10, .step = 0.1},
                           .after = {.mean = 83.6, .n = 10, .step = 0.1}};
  scw_change_result r = from_numbers(both, NULL);
  const scw_change_report *c = &r.changes[0];
  (void)state;
  assert_int_equal(c->design, SCW_FROM_SUMMARY);
  check_absolute(c->change.estimate.value /
                     c->change.standard_uncertainty.value,
                 -12.94627, 5e-6);
  assert_non_null(strstr(c->sentence, "going by the numbers given"));
  scw_change_result_free(&r);
  /* (1.5 - 0.1) / (t(0.975, 18) sqrt(0.2)), t = 2.101 (JCGM 100 Table G.2
     prints 2.10) */
  r = from_numbers(bare, NULL);
  assert_int_equal(r.changes[0].design, SCW_BREAK_EVEN);
  assert_int_equal(r.changes[0].verdict, SCW_CONDITIONAL);
  check_absolute(r.changes[0].break_even_sd.value, 1.4 / (2.101 * sqrt(0.2)),
                 5e-4);
  scw_change_result_free(&r);
  r = from_numbers(near, NULL);
  assert_int_equal(r.changes[0].verdict, SCW_CANNOT_TELL);
  scw_change_result_free(&r);
}

static void numbers_that_are_refused(void **state) {
  scw_context *context = a_context();
  scw_change_result result;
  scw_given_change lone = {
      .before = {.mean = 1, .has_sd = true, .sd = 1, .n = 1},
      .after = {.mean = 1}};
  scw_change_options block = {.has_block = true, .block = 500};
  scw_given_change fine = {.before = {.mean = 1}, .after = {.mean = 2}};
  (void)state;
  assert_int_equal(scw_change_from_numbers(context, &lone, 1, NULL, NULL, NULL,
                                           NULL, &result),
                   SCW_BAD_ARGUMENT);
  message_names(context, "before", "two readings", NULL);
  assert_int_equal(scw_change_from_numbers(context, &fine, 1, NULL, NULL, NULL,
                                           &block, &result),
                   SCW_BAD_ARGUMENT);
  message_names(context, "block", NULL);
  scw_context_free(context);
}

static void tile_readings_stand_beside(void **state) {
  const char *text =
      "state,spot,reading\ntile,,94.9\nbefore,1,80.0\nbefore,2,81.0\n"
      "before,3,79.5\nafter,1,82.1\nafter,2,83.0\nafter,3,81.7\n"
      "tile,,95.2\n";
  scw_change_options options = {.has_tile = true, .tile = 95.0};
  run r = change_of(text, &options, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->pairs, 3);
  assert_int_equal(c->tile.n, 2);
  check_absolute(c->tile.difference.value, 0.05, 1e-13);
  check_absolute(c->tile.drift.value, 0.3, 1e-15);
  check_relative(c->tile.drift_steps.value,
                 0.3 / c->before.summary.step.size, 1e-14);
  assert_non_null(note_text(c->notes, c->n_notes, "tile"));
  done(&r);
}

/* Spot 3 after was read as 99.7 and again as 81.7: the first stands, the other
 * verdict is beside it. Differences 2.1 2.0 20.2, and 2.1 2.0 2.2. */
static void readings_taken_again_are_both_kept(void **state) {
  run r = change_of("state,spot,reading,replaces\nbefore,1,80.0,\n"
                    "before,2,81.0,\nbefore,3,79.5,\nafter,1,82.1,\n"
                    "after,2,83.0,\nafter,3,99.7,\nafter,3,81.7,smudge\n",
                    NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->repicked, 1);
  check_relative(c->change.estimate.value, 24.3 / 3, 1e-14);
  assert_int_equal(c->verdict, SCW_CANNOT_TELL);
  check_relative(c->with_repicked.estimate.value, 2.1, 1e-14);
  assert_int_equal(c->verdict_with_repicked, SCW_CHANGED);
  assert_non_null(strstr(note_text(c->notes, c->n_notes, "read_again"),
                         "hangs on"));
  done(&r);
}

/* Without spots the cell names the place on its side. */
static void taken_again_by_place(void **state) {
  run r = change_of("state,reading,replaces\nbefore,1.0,\nbefore,9.0,\n"
                    "before,1.2,\nbefore,1.4,2\nafter,2.0,\nafter,2.1,\n"
                    "after,2.2,\n",
                    NULL, NULL);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  check_relative(c->change.estimate.value, 2.1 - 11.2 / 3, 1e-14);
  check_relative(c->with_repicked.estimate.value, 2.1 - 1.2, 1e-14);
  done(&r);
  assert_int_equal(refused("state,reading,replaces\nbefore,1.0,\n"
                           "before,2.0,\nbefore,3.0,7\nafter,2.0,\n"
                           "after,2.5,\n",
                           NULL, "line 4", "replaces '7'"),
                   SCW_BAD_INPUT);
}

static void what_is_refused(void **state) {
  scw_change_options negative = {.has_block = true, .block = -500};
  scw_change_options stone = {
      .has_block = true, .block = 1, .block_unit = "stone"};
  scw_change_options margin = {.margin = -1};
  (void)state;
  assert_int_equal(refused(pulls, &negative, "-500", "positive"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused(pulls, &stone, "stone", "cannot be combined"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused(sleep_pairs, &margin, "-1", "positive"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused("87.4\n88.1\n", NULL, "shed.csv", "before"),
                   SCW_BAD_INPUT);
  assert_int_equal(refused("state,reading\nbefore,1.0\nbefore,2.0\n", NULL,
                           "only before", "after"),
                   SCW_BAD_INPUT);
  assert_int_equal(
      refused("state,geometry,reading\nbefore,60,80.1\nbefore,60,80.4\n"
              "after,20,60.1\nafter,20,60.7\n",
              NULL, "20", "60"),
      SCW_BAD_INPUT);
}

static void shift_and_scale(void **state) {
  run one = change_of(sleep_pairs, NULL, NULL);
  run ten = change_of(
      "spot,before,after\n1,1007,1019\n2,984,1008\n3,998,1011\n4,988,1001\n"
      "5,999,999\n6,1034,1044\n7,1037,1055\n8,1008,1016\n9,1000,1046\n"
      "10,1020,1034\n",
      NULL, NULL);
  (void)state;
  check_relative(ten.result.changes[0].change.interval.low,
                 10 * one.result.changes[0].change.interval.low, 1e-13);
  check_relative(ten.result.changes[0].change.p.value,
                 one.result.changes[0].change.p.value, 1e-12);
  done(&one);
  done(&ten);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(pairs_by_spot_as_published),
      cmocka_unit_test(without_spots_welch_as_published),
      cmocka_unit_test(repeats_at_a_spot_add_no_freedom),
      cmocka_unit_test(unmatched_spots_are_named),
      cmocka_unit_test(one_spot_gives_no_verdict),
      cmocka_unit_test(panels_are_the_unit_where_there_are_several),
      cmocka_unit_test(margins_decide_the_words),
      cmocka_unit_test(same_beyond_doubt_needs_a_margin),
      cmocka_unit_test(no_scatter_is_never_certainty),
      cmocka_unit_test(few_on_a_side_is_said),
      cmocka_unit_test(one_reading_a_side_differs_in_decimals),
      cmocka_unit_test(several_products_are_a_family),
      cmocka_unit_test(a_product_with_one_side_is_named),
      cmocka_unit_test(pulls_over_the_block),
      cmocka_unit_test(both_directions_cancel_the_tilt),
      cmocka_unit_test(less_what_the_control_did),
      cmocka_unit_test(a_control_by_its_panel),
      cmocka_unit_test(controls_that_are_refused),
      cmocka_unit_test(a_remembered_baseline),
      cmocka_unit_test(numbers_as_published),
      cmocka_unit_test(numbers_that_are_refused),
      cmocka_unit_test(tile_readings_stand_beside),
      cmocka_unit_test(readings_taken_again_are_both_kept),
      cmocka_unit_test(taken_again_by_place),
      cmocka_unit_test(what_is_refused),
      cmocka_unit_test(shift_and_scale),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
