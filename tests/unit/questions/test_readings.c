/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading sets as a whole: what is the unit, what is said, what is left out.
 * The figures are judged in the tests of the methods. */
#include "from_text.h"

#include <math.h>
#include <string.h>

typedef struct run {
  scw_context *context;
  scw_table *table;
  scw_readings_result result;
} run;

static run readings_of(const char *text, const scw_settings *settings,
                       const scw_leave_out *out, size_t n_out) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  went_well(r.context, scw_readings(r.context, r.table, settings, out, n_out,
                                    &r.result));
  return r;
}

static void done(run *r) {
  scw_readings_result_free(&r->result);
  scw_table_free(r->table);
  scw_context_free(r->context);
}

static scw_status refused(const char *text, const scw_settings *settings,
                          const scw_leave_out *out, size_t n_out,
                          const char *word) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  scw_status status = scw_readings(r.context, r.table, settings, out, n_out,
                                   &r.result);
  assert_int_not_equal(status, SCW_OK);
  assert_int_equal(r.result.n_sets, 0);
  assert_null(r.result.sets);
  message_names(r.context, word, NULL);
  done(&r);
  return status;
}

static const char list[] = "87.4\n88.1\n86.9\n87.7\n87.2\n88.0\n87.5\n";

/* Mean 612.8/7 and SD by hand; t(0.975, 6) = 2.447 (JCGM 100 Table G.2,
 * 2.45). */
static void a_bare_list(void **state) {
  run r = readings_of(list, NULL, NULL, 0);
  const scw_set_report *set = &r.result.sets[0];
  (void)state;
  assert_int_equal(r.result.n_sets, 1);
  assert_int_equal(set->readings, 7);
  assert_int_equal(set->spots, 0);
  check_relative(set->summary.mean.value, 612.8 / 7, 1e-15);
  check_absolute((set->summary.interval.high - set->summary.mean.value) /
                     set->summary.standard_uncertainty.value,
                 2.45, 0.005);
  assert_non_null(strstr(set->sentence, "from 7 readings"));
  assert_non_null(note_text(set->notes, set->n_notes,
                            "assumes_one_reading_per_spot"));
  assert_int_equal(set->lines[2], 3);
  assert_int_equal(set->places[2], 3);
  done(&r);
}

static void spots_count_once(void **state) {
  run r = readings_of("spot,reading\n1,80.0\n1,80.4\n2,82.0\n3,81.0\n3,81.2\n"
                      "3,81.4\n",
                      NULL, NULL, 0);
  const scw_set_report *set = &r.result.sets[0];
  (void)state;
  assert_int_equal(set->readings, 6);
  assert_int_equal(set->spots, 3);
  assert_int_equal(set->summary.n, 3);
  /* spot means 80.2 82 81.2 */
  check_relative(set->summary.mean.value, (80.2 + 82 + 81.2) / 3, 1e-15);
  assert_non_null(note_text(set->notes, set->n_notes, "spot_means"));
  done(&r);
}

static void one_spot_says_so(void **state) {
  run r = readings_of("spot,reading\n4,80.0\n4,80.4\n4,80.1\n", NULL, NULL, 0);
  const scw_set_report *set = &r.result.sets[0];
  (void)state;
  assert_non_null(note_text(set->notes, set->n_notes, "one_spot"));
  done(&r);
}

static void leaving_out_is_echoed(void **state) {
  scw_leave_out out = {.place = 3, .because = "smudge on the lens"};
  run all = readings_of(list, NULL, NULL, 0);
  run rest = readings_of(list, NULL, &out, 1);
  const scw_set_report *set = &rest.result.sets[0];
  (void)state;
  assert_int_equal(set->readings, 6);
  assert_int_equal(set->n_left_out, 1);
  assert_int_equal(set->left_out[0].place, 3);
  assert_string_equal(set->left_out[0].because, "smudge on the lens");
  assert_int_equal(set->places[2], 4); /* the fourth of the file moved up */
  check_relative(set->summary.mean.value * 6 + 86.9,
                 all.result.sets[0].summary.mean.value * 7, 1e-15);
  done(&all);
  done(&rest);
}

static void leave_outs_that_fit_nothing(void **state) {
  const char *two = "panel,reading\nA,1.0\nA,2.0\nB,3.0\nB,4.5\n";
  scw_leave_out no_reason = {.place = 1};
  scw_leave_out far = {.place = 9, .because = "x"};
  scw_leave_out twice[2] = {{.place = 1, .because = "x"},
                            {.place = 1, .because = "y"}};
  scw_leave_out no_set = {.place = 1, .because = "x"};
  scw_leave_out wrong_set = {.place = 1, .set = "Z", .because = "x"};
  (void)state;
  assert_int_equal(refused(list, NULL, &no_reason, 1, "--because"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused(list, NULL, &far, 1, "no reading 9"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused(list, NULL, twice, 2, "twice"), SCW_BAD_ARGUMENT);
  assert_int_equal(refused(two, NULL, &no_set, 1, "which one"),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(refused(two, NULL, &wrong_set, 1, "'Z'"),
                   SCW_BAD_ARGUMENT);
}

static void settings_out_of_range(void **state) {
  scw_settings settings;
  (void)state;
  scw_settings_init(&settings);
  settings.level = 1;
  assert_int_equal(refused(list, &settings, NULL, 0, "level"),
                   SCW_BAD_ARGUMENT);
  scw_settings_init(&settings);
  settings.power = NAN;
  assert_int_equal(refused(list, &settings, NULL, 0, "power"),
                   SCW_BAD_ARGUMENT);
  scw_settings_init(&settings);
  settings.step = (scw_step){-0.1, SCW_STEP_GIVEN};
  assert_int_equal(refused(list, &settings, NULL, 0, "step"),
                   SCW_BAD_ARGUMENT);
  scw_settings_init(&settings);
  settings.candidates = 1000;
  assert_int_equal(refused(list, &settings, NULL, 0, "1000"),
                   SCW_BAD_ARGUMENT);
}

static void an_expected_count_that_differs(void **state) {
  scw_settings settings;
  scw_settings_init(&settings);
  settings.expect = 10;
  run r = readings_of(list, &settings, NULL, 0);
  (void)state;
  assert_string_equal(note_text(r.result.sets[0].notes,
                                r.result.sets[0].n_notes, "count_differs"),
                      "10 readings were expected, 7 are there.");
  done(&r);
}

static void a_reading_that_stands_out(void **state) {
  run r = readings_of("87.4\n88.1\n86.9\n87.7\n87.2\n88.0\n87.5\n80.1\n", NULL,
                      NULL, 0);
  const scw_set_report *set = &r.result.sets[0];
  (void)state;
  assert_int_equal(set->summary.stand_out.n_flags, 1);
  assert_int_equal(set->summary.n, 8); /* a flag is never a removal */
  assert_int_equal(set->without_flagged.n, 7);
  check_relative(set->without_flagged.mean.value, 612.8 / 7, 1e-15);
  assert_non_null(strstr(set->sentence, "reading 8 stands out"));
  done(&r);
}

/* 18 readings, one far out: the limits are approximate, and the rate of false
 * flags is named where it was measured. */
static void approximate_limits_are_said(void **state) {
  const char *const text =
      "87.4\n88.1\n86.9\n87.7\n87.2\n88.0\n87.5\n80.1\n87.3\n87.6\n87.1\n87.8\n"
      "87.0\n87.9\n87.4\n86.8\n88.2\n87.5\n";
  scw_settings settings;
  scw_settings_init(&settings);
  (void)state;
  for (int asked = 0; asked < 2; asked++) {
    settings.candidates = asked ? 2 : 0;
    run r = readings_of(text, &settings, NULL, 0);
    const scw_set_report *set = &r.result.sets[0];
    assert_int_equal(set->summary.stand_out.n_flags, 1);
    const char *note =
        note_text(set->notes, set->n_notes, "limits_approximate");
    assert_non_null(note);
    assert_int_equal(strstr(note, "of 18 sound readings 6.2 %") != NULL,
                     !asked);
    done(&r);
  }
}

static void a_coarse_display_is_part_of_the_sd(void **state) {
  run coarse = readings_of("80\n81\n82\n81\n80\n81\n", NULL, NULL, 0);
  run fine = readings_of("80\n84\n82\n85\n79\n81\n", NULL, NULL, 0);
  (void)state;
  assert_non_null(note_text(coarse.result.sets[0].notes,
                            coarse.result.sets[0].n_notes, "display_in_sd"));
  assert_null(note_text(fine.result.sets[0].notes,
                        fine.result.sets[0].n_notes, "display_in_sd"));
  done(&coarse);
  done(&fine);
}

static void friction_carries_its_caution(void **state) {
  run pulls = readings_of("pull [g]\n210\n200\n190\n", NULL, NULL, 0);
  run gloss = readings_of("gloss (GU)\n80\n81\n82\n", NULL, NULL, 0);
  (void)state;
  assert_non_null(strstr(note_text(pulls.result.notes, pulls.result.n_notes,
                                   "friction_caution"),
                         "not a slip-resistance rating"));
  assert_null(note_text(gloss.result.notes, gloss.result.n_notes,
                        "friction_caution"));
  done(&pulls);
  done(&gloss);
}

static void degenerate_sets_in_words(void **state) {
  run one = readings_of("87.4\n", NULL, NULL, 0);
  run same = readings_of("87.4\n87.4\n87.4\n", NULL, NULL, 0);
  run two = readings_of("87.4\n87.9\n", NULL, NULL, 0);
  (void)state;
  assert_int_equal(one.result.sets[0].summary.sd.state, SCW_ONE_READING);
  assert_non_null(strstr(one.result.sets[0].sentence, "no interval"));
  assert_true(same.result.sets[0].summary.sd.value == 0);
  assert_true(same.result.sets[0].summary.standard_uncertainty.value > 0);
  assert_non_null(note_text(same.result.sets[0].notes,
                            same.result.sets[0].n_notes, "display_limits"));
  assert_non_null(note_text(two.result.sets[0].notes,
                            two.result.sets[0].n_notes, "two_readings"));
  done(&one);
  done(&same);
  done(&two);
}

static void huge_and_tiny_values(void **state) {
  run huge = readings_of("1e308\n1.2e308\n0.9e308\n", NULL, NULL, 0);
  run tiny = readings_of("1e-300\n3e-300\n2e-300\n", NULL, NULL, 0);
  (void)state;
  check_relative(huge.result.sets[0].summary.mean.value, 1e308 / 3 * 3.1, 1e-15);
  check_relative(tiny.result.sets[0].summary.sd.value, 1e-300, 1e-14);
  done(&huge);
  done(&tiny);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_bare_list),
      cmocka_unit_test(spots_count_once),
      cmocka_unit_test(one_spot_says_so),
      cmocka_unit_test(leaving_out_is_echoed),
      cmocka_unit_test(leave_outs_that_fit_nothing),
      cmocka_unit_test(settings_out_of_range),
      cmocka_unit_test(an_expected_count_that_differs),
      cmocka_unit_test(a_reading_that_stands_out),
      cmocka_unit_test(approximate_limits_are_said),
      cmocka_unit_test(a_coarse_display_is_part_of_the_sd),
      cmocka_unit_test(friction_carries_its_caution),
      cmocka_unit_test(degenerate_sets_in_words),
      cmocka_unit_test(huge_and_tiny_values),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
