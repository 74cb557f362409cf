/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bridge as a whole: what is paired, what a verdict needs, what is refused.
 * The figures are judged in the tests of the methods and in tests/cli. */
#include "from_text.h"

#include <math.h>
#include <string.h>

typedef struct run {
  scw_context *context;
  scw_table *table;
  scw_bridge_result result;
} run;

static const char items[] =
    "item,old,new\nK1,58.1,59.2\nK2,63.4,65.3\nK3,71.0,71.6\nK4,78.4,80.8\n"
    "K5,86.5,88.1\n";

static run reading(const char *text) {
  static const scw_table_options options = {
      .before_label = "old*", .after_label = "new*", .bridge = true};
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, &options);
  return r;
}

static run bridge_of(const char *text, const scw_bridge_options *options) {
  run r = reading(text);
  went_well(r.context,
            scw_bridge(r.context, r.table, NULL, options, &r.result));
  return r;
}

static void done(run *r) {
  scw_bridge_result_free(&r->result);
  scw_bridge_result_free(&r->result); /* twice is allowed */
  scw_table_free(r->table);
  scw_context_free(r->context);
}

static void refused(const scw_bridge_options *options, const char *word) {
  run r = reading(items);
  assert_int_equal(scw_bridge(r.context, r.table, NULL, options, &r.result),
                   SCW_BAD_ARGUMENT);
  assert_null(r.result.item);
  assert_null(r.result.sentence);
  assert_int_equal(r.result.n_notes, 0);
  message_names(r.context, word, NULL);
  done(&r);
}

/* Wide and long, and rows in any order, are the same bridge. */
static void same_in_any_shape(void **state) {
  (void)state;
  run wide = bridge_of(items, NULL);
  run rows = bridge_of(
      "method,item,gloss\nnew,K5,88.1\nold,K4,78.4\nold,K1,58.1\nnew,K1,59.2\n"
      "new,K2,65.3\nold,K2,63.4\nnew,K4,80.8\nold,K3,71.0\nold,K5,86.5\n"
      "new,K3,71.6\n",
      NULL);
  assert_int_equal(rows.result.pairs, 5);
  check_relative(rows.result.bias.estimate.value, 1.52, 1e-14);
  check_relative(rows.result.bias.interval.low,
                 wide.result.bias.interval.low, 1e-14);
  check_relative(rows.result.line.slope.value, wide.result.line.slope.value,
                 1e-13);
  check_relative(rows.result.agreement.high_interval.high,
                 wide.result.agreement.high_interval.high, 1e-13);
  done(&wide);
  done(&rows);
}

/* Where both methods are swapped the bias turns round and the line inverts. */
static void swapped(void **state) {
  (void)state;
  run there = bridge_of(items, NULL);
  run back = bridge_of("item,new,old\nK1,58.1,59.2\nK2,63.4,65.3\nK3,71.0,71.6\n"
                       "K4,78.4,80.8\nK5,86.5,88.1\n",
                       NULL);
  check_relative(back.result.bias.estimate.value,
                 -there.result.bias.estimate.value, 1e-14);
  check_relative(back.result.agreement.low.value,
                 -there.result.agreement.high.value, 1e-13);
  check_relative(back.result.line.slope.value,
                 1 / there.result.line.slope.value, 1e-12);
  check_relative(back.result.line.slope_interval.low,
                 1 / there.result.line.slope_interval.high, 1e-11);
  done(&there);
  done(&back);
}

/* Converting the mean of the old results gives the mean of the new ones. */
static void converts_through_the_mean(void **state) {
  (void)state;
  static const scw_old_result mean = {.value = (58.1 + 63.4 + 71.0 + 78.4 + 86.5) / 5};
  static const scw_old_result exact = {.value = 71, .has_u = true, .u = 0};
  const scw_old_result both[] = {mean, exact};
  const scw_bridge_options options = {.convert = both, .n_convert = 2};
  run r = bridge_of(items, &options);
  check_relative(r.result.converted[0].value.value,
                 (59.2 + 65.3 + 71.6 + 80.8 + 88.1) / 5, 1e-13);
  check_relative(r.result.converted[0].standard_uncertainty.value,
                 r.result.conversion_uncertainty.value, 1e-12);
  check_relative(r.result.converted[0].df.value, 3, 0);
  /* no repeats: nothing of the scatter is taken out */
  assert_non_null(note_text(r.result.notes, r.result.n_notes,
                            "old_scatter_counted_twice"));
  done(&r);
}

/* A verdict from its own intervals: one hair on either side of the margin. */
static void verdict_at_the_margin(void **state) {
  (void)state;
  run r = bridge_of(items, NULL);
  double reach = r.result.agreement.high_interval.high;
  double width = r.result.conversion_half_width.value;
  assert_int_equal(r.result.comparable, SCW_COMPARABLE_CANNOT_TELL);
  assert_int_equal(r.result.convertible, SCW_COMPARABLE_CANNOT_TELL);
  assert_true(r.result.fenced);
  done(&r);
  const struct {
    double margin;
    scw_comparable comparable, convertible;
  } cases[] = {{reach * 1.0001, SCW_COMPARABLE_YES, SCW_COMPARABLE_YES},
               {reach * 0.9999, SCW_COMPARABLE_CANNOT_TELL, SCW_COMPARABLE_YES},
               {width * 1.0001, SCW_COMPARABLE_CANNOT_TELL, SCW_COMPARABLE_YES},
               {width * 0.9999, SCW_COMPARABLE_CANNOT_TELL,
                SCW_COMPARABLE_CANNOT_TELL},
               {0.01, SCW_COMPARABLE_NO, SCW_COMPARABLE_NO}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    const scw_bridge_options options = {.margin = cases[i].margin};
    r = bridge_of(items, &options);
    assert_int_equal(r.result.comparable, cases[i].comparable);
    assert_int_equal(r.result.convertible, cases[i].convertible);
    assert_int_equal(r.result.fenced,
                     cases[i].comparable != SCW_COMPARABLE_YES &&
                         cases[i].convertible != SCW_COMPARABLE_YES);
    done(&r);
  }
}

/* So many products as planned would indeed be inside, one fewer would not. */
static void planned(void **state) {
  (void)state;
  const scw_bridge_options options = {.margin = 4};
  run r = bridge_of(items, &options);
  assert_int_equal(r.result.planned_products.state, SCW_PRESENT);
  assert_true(r.result.planned_products.value > 5);
  assert_true(r.result.planned_assured.state != SCW_PRESENT ||
              r.result.planned_assured.value >
                  r.result.planned_products.value);
  assert_non_null(strstr(r.result.sentence, "conversion"));
  done(&r);
}

static void flags_an_item(void **state) {
  (void)state;
  run r = bridge_of("item,old,new\nK1,60.0,61.1\nK2,65.0,65.9\nK3,70.0,71.2\n"
                    "K4,75.0,75.8\nK5,80.0,81.0\nK6,85.0,94.3\nK7,90.0,91.1\n",
                    NULL);
  const char *note = note_text(r.result.notes, r.result.n_notes, "stands_out");
  assert_non_null(note);
  assert_non_null(strstr(note, "K6"));
  assert_true(r.result.item[5].stands_out);
  assert_int_equal(r.result.pairs, 7); /* it is kept */
  done(&r);
}

/* Baselines by a kind, by a product's name, by hand. */
static void baselines(void **state) {
  (void)state;
  static const char *const names[] = {"K2"};
  const scw_bridge_options by_hand = {.baseline = names, .n_baseline = 1};
  run r = bridge_of(items, &by_hand);
  assert_int_equal(r.result.pairs, 4);
  assert_int_equal(r.result.baselines.items, 1);
  assert_true(r.result.item[1].baseline);
  done(&r);
  r = bridge_of("item,kind,old,new\nK1,Treated,60,61\nH0,Bare,55,55.1\n", NULL);
  assert_int_equal(r.result.pairs, 1);
  assert_int_equal(r.result.baselines.items, 1);
  done(&r);
}

static void bad_options(void **state) {
  (void)state;
  static const char *const names[] = {"K9"};
  static const scw_old_result not_finite = {.value = NAN};
  static const scw_old_result below = {.value = 70, .has_u = true, .u = -1};
  static const scw_bridge_fence no_reason = {"2026-03-14", " "};
  static const scw_bridge_fence no_day = {"soon", "rig"};
  refused(&(scw_bridge_options){.margin = -1}, "the margin is -1");
  refused(&(scw_bridge_options){.margin = NAN}, "the margin");
  refused(&(scw_bridge_options){.error_ratio = INFINITY}, "the error ratio");
  refused(&(scw_bridge_options){.baseline = names, .n_baseline = 1}, "K9");
  refused(&(scw_bridge_options){.convert = &not_finite, .n_convert = 1},
          "is no number");
  refused(&(scw_bridge_options){.convert = &below, .n_convert = 1},
          "standard uncertainty");
  refused(&(scw_bridge_options){.fence = &no_reason, .n_fence = 1},
          "has no reason");
  refused(&(scw_bridge_options){.fence = &no_day, .n_fence = 1},
          "is no date");
}

/* Sums of repeats too large for 64 bits, and values at the ends of a double. */
static void extremes(void **state) {
  (void)state;
  run r = bridge_of("item,old,new\nK1,1e300,2e300\nK2,-1e300,3e300\n"
                    "K3,4e300,-2e300\n",
                    NULL);
  assert_int_equal(r.result.pairs, 3);
  done(&r);
  r = bridge_of("item,old,new\nK1,82.4,82.4\nK2,82.4,82.4\nK3,82.4,82.4\n",
                NULL);
  check_absolute(r.result.bias.estimate.value, 0, 0);
  assert_int_equal(r.result.line.slope.state, SCW_NO_SCATTER);
  assert_int_equal(r.result.agreement.low.state, SCW_NO_SCATTER);
  done(&r);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(same_in_any_shape),
      cmocka_unit_test(swapped),
      cmocka_unit_test(converts_through_the_mean),
      cmocka_unit_test(verdict_at_the_margin),
      cmocka_unit_test(planned),
      cmocka_unit_test(flags_an_item),
      cmocka_unit_test(baselines),
      cmocka_unit_test(bad_options),
      cmocka_unit_test(extremes),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
