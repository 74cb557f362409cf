/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Repeatability and reproducibility: ASTM E691 and ISO 5725-2 figures, their
 * tables of limits, and laboratories that say little. R judges the rest
 * (judge_components). */
#include "check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "labelled.h"
#include "odd_lab.h"
#include "precision.h"

static scw_precision of_labs(const scwi_sample *sample, const uint32_t *lab,
                             size_t labs) {
  scw_precision out;
  assert_int_equal(
      scwi_precision(one_set_context(), sample, lab, labs, 0.95, &out), SCW_OK);
  return out;
}

static scw_precision from_file(const char *name, const char *where,
                               const char *is) {
  const char *columns[LABELLED_COLUMNS] = {"laboratory", NULL, NULL};
  labelled d = labelled_from_file(name, columns, where, is);
  scwi_sample sample = one_set_sample(&d.set);
  scw_precision out = of_labs(&sample, d.label[0], 8);
  labelled_free(&d);
  return out;
}

/* h and k at 10 digits, worked out in rational arithmetic. */
static void glucose(void **state) {
  static const double h[] = {-0.3877072438, -0.1292357479,  -0.1127375673,
                             -0.1017387803, -0.09073999323, 0.8276587261,
                             -1.751556839,  1.746057445};
  static const double k[] = {0.2097485202, 0.4562323588, 0.9977213845,
                             1.704039642,  0.3448487094, 1.324385985,
                             1.173610743,  0.7735486305};
  (void)state;
  scw_precision a = from_file("components/glucose.csv", "material", "A");
  check_absolute(a.mean.value, 41.5183, 5e-5);
  check_absolute(a.s_r.value, 1.0632, 5e-5);
  check_absolute(a.s_R.value, 1.0632, 5e-5);
  assert_true(a.between_variance.value < 0 && a.s_l.value == 0);
  check_relative(a.between_variance.value, -0.009424801587301587, 1e-12);
  check_relative(a.cochran.statistic.value, 0.3629688876, 1e-9);
  assert_int_equal(a.cochran.lab, 3);
  for (size_t i = 0; i < 8; i++) {
    check_relative(a.lab[i].h.value, h[i], 1e-9);
    check_relative(a.lab[i].k.value, k[i], 1e-9);
  }
  scw_precision b = from_file("components/glucose.csv", "material", "B");
  /* the standard averages rounded cell means */
  check_absolute(b.mean.value, 79.6796, 5e-5);
  check_absolute(b.s_r.value, 1.4949, 5e-5);
  check_absolute(b.s_R.value, 1.5796, 5e-5);
  check_relative(b.s_R.value, 1.579631072559927, 1e-13);
  check_relative(b.cochran.statistic.value, 0.4262382505, 1e-9);
  check_relative(b.limit_factor, 2.7718076, 1e-7);
  check_relative(b.R_limit.value, b.limit_factor * b.s_R.value, 1e-15);
  scwi_precision_free(&a);
  scwi_precision_free(&b);
}

static void sulfur(void **state) {
  (void)state;
  scw_precision got = from_file("components/sulfur.csv", NULL, NULL);
  check_absolute(got.mean.value, 0.690, 5e-4);
  check_absolute(got.s_r.value, 0.015, 5e-4);
  check_absolute(got.s_R.value, 0.026, 5e-4);
  assert_false(got.balanced);
  assert_int_equal(got.cochran.limit.state, SCW_NOT_COMPUTED);
  assert_int_equal(got.lab[4].n, 5);
  scwi_precision_free(&got);
}

/* Twelve digits, and the standard's three decimals, which round some up. */
static void cochran_table(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/components/cochran.csv");
  (void)state;
  assert_true(t.rows >= 50);
  for (size_t i = 0; i < t.rows; i++) {
    double got, df = check_table_number(&t, i, "n") - 1;
    size_t p = (size_t)check_table_number(&t, i, "p");
    assert_int_equal(
        scwi_cochran_limit(one_set_context(), p, df,
                           check_table_number(&t, i, "alpha"), &got),
        SCW_OK);
    check_absolute(got, check_table_number(&t, i, "bonferroni_F"), 5.1e-13);
    /* three decimals; five of them are rounded up from just below the half */
    check_absolute(got, check_table_number(&t, i, "published"), 5.6e-4);
  }
  check_table_free(&t);
}

static void mandel_table(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/components/mandel.csv");
  (void)state;
  assert_true(t.rows > 40);
  for (size_t i = 0; i < t.rows; i++) {
    size_t p = (size_t)check_table_number(&t, i, "p");
    double got, alpha = check_table_number(&t, i, "alpha");
    if (check_table_text(&t, i, "statistic")[0] == 'h') {
      assert_int_equal(scwi_mandel_h_limit(one_set_context(), p, alpha, &got),
                       SCW_OK);
    } else {
      double df = check_table_number(&t, i, "n") - 1;
      assert_int_equal(scwi_mandel_k_limit(one_set_context(), df,
                                           df * (double)p, alpha, &got),
                       SCW_OK);
    }
    check_relative(got, check_table_number(&t, i, "exact"), 1e-11);
    if (check_table_text(&t, i, "published")[0])
      check_absolute(got, check_table_number(&t, i, "published"), 5.1e-3);
  }
  check_table_free(&t);
}

/* p falls through alpha where the statistic passes its limit. */
static void limit_and_p_agree(void **state) {
  static const uint32_t lab[] = {0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3};
  (void)state;
  for (double wide = 1.05; wide < 12; wide += 0.1) {
    double x[] = {-1, 0, 1, 1, 3, 2, 5, 6.5, 5, 7, 7 + wide, 7 - wide};
    scw_precision got = of_labs(&(scwi_sample){.n = 12, .x = x}, lab, 4);
    assert_int_equal(got.cochran.lab, 3);
    assert_int_equal(got.cochran.p.value<0.05, got.cochran.statistic.value> got
                         .cochran.limit.value);
    assert_int_equal(got.cochran.p.value<0.01, got.cochran.statistic.value> got
                         .cochran.limit_strict.value);
    assert_int_equal(got.grubbs.p.value<0.05, got.grubbs.statistic.value> got
                         .grubbs.limit.value);
    scwi_precision_free(&got);
  }
}

static void little_to_say(void **state) {
  static const uint32_t two[] = {0, 0, 1, 1}, uneven[] = {0, 0, 0, 1};
  static const uint32_t each[] = {0, 1, 2, 3}, one[] = {0, 0, 0, 0};
  static const double x[] = {1, 2, 4, 7}, same[] = {5, 5, 5, 5};
  static const double exact[] = {1, 1, 2, 2};
  scwi_sample sample = {.n = 4, .x = x};
  scw_precision got = of_labs(&sample, two, 2);
  (void)state;
  assert_int_equal(got.state, SCW_PRESENT);
  assert_int_equal(got.grubbs.limit.state, SCW_TOO_FEW);
  assert_int_equal(got.h_limit.state, SCW_TOO_FEW);
  assert_int_equal(got.cochran.limit_strict.state, SCW_PRESENT);
  scwi_precision_free(&got);
  got = of_labs(&sample, uneven, 2);
  assert_int_equal(got.cochran.p.state, SCW_TOO_FEW);
  assert_int_equal(got.lab[1].sd.state, SCW_ONE_READING);
  assert_int_equal(got.lab[0].k_limit.state, SCW_TOO_FEW);
  scwi_precision_free(&got);
  assert_int_equal(of_labs(&sample, each, 4).state, SCW_TOO_FEW);
  assert_int_equal(of_labs(&sample, one, 1).state, SCW_TOO_FEW);
  sample.x = same;
  assert_int_equal(of_labs(&sample, two, 2).state, SCW_NO_SCATTER);
  sample.x = exact;
  got = of_labs(&sample, two, 2);
  assert_true(got.s_r.value == 0);
  check_relative(got.s_R.value, sqrt(0.5), 1e-15);
  assert_int_equal(got.s_r_interval.state, SCW_NO_SCATTER);
  assert_int_equal(got.lab[0].k.state, SCW_NO_SCATTER);
  assert_int_equal(got.cochran.p.state, SCW_NO_SCATTER);
  scwi_precision_free(&got);
  assert_int_equal(
      scwi_precision(one_set_context(), &sample, two, 3, 0.95, &got),
      SCW_BAD_ARGUMENT);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(glucose),           cmocka_unit_test(sulfur),
      cmocka_unit_test(cochran_table),     cmocka_unit_test(mandel_table),
      cmocka_unit_test(limit_and_p_agree), cmocka_unit_test(little_to_say),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
