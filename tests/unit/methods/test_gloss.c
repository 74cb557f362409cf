/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gloss by refractive index: values computed with 30 digits, the published
 * reflectances of the reference, Fresnel's equations in another form, the
 * inverse, and what is refused. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "context.h"
#include "scatterwise/gloss.h"

static scw_context *context;
static const int angles[] = {20, 60, 85};

static int make_context(void **state) {
  (void)state;
  return (int)scw_context_new(&context);
}

static int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static double gloss(double index, int angle) {
  double out = -1;
  assert_int_equal(scw_gloss_of_index(context, index, angle, &out), SCW_OK);
  return out;
}

static double index_of(double value, int angle) {
  double out = -1;
  assert_int_equal(scw_index_of_gloss(context, value, angle, &out), SCW_OK);
  return out;
}

static void published_table(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/gloss/fresnel.csv");
  static const char *const columns[] = {"GU20", "GU60", "GU85"};
  (void)state;
  assert_true(t.rows > 30);
  for (size_t i = 0; i < t.rows; i++)
    for (size_t a = 0; a < 3; a++) {
      double n = check_table_number(&t, i, "n");
      double wanted = check_table_number(&t, i, columns[a]);
      check_relative(gloss(n, angles[a]), wanted, 6e-12); /* 12 printed */
    }
  check_table_free(&t);
}

/* Reflectance by the angle of refraction (Snell), as textbooks print it. */
static double by_refraction(double n, int angle) {
  double pi = acos(-1), in = angle * pi / 180, out = asin(sin(in) / n);
  double across = sin(in - out) / sin(in + out);
  double along = tan(in - out) / tan(in + out);
  return (across * across + along * along) / 2;
}

static void points_of_the_reference(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/gloss/points.csv");
  (void)state;
  for (size_t i = 0; i < t.rows; i++) {
    int angle = (int)check_table_number(&t, i, "angle");
    double wanted = check_table_number(&t, i, "value");
    double last = pow(10, -check_table_number(&t, i, "digits"));
    double n = SCW_GLOSS_REFERENCE_INDEX;
    if (!strcmp(check_table_text(&t, i, "what"), "reflectance_percent"))
      check_absolute(100 * by_refraction(n, angle), wanted, last / 2);
    else
      check_relative(gloss(n + 5e-4, angle) - gloss(n - 5e-4, angle), wanted,
                     1e-11); /* of a difference of values near 100 */
  }
  check_table_free(&t);
}

static void other_form_of_the_equations(void **state) {
  (void)state;
  for (double n = 1.01; n < 4; n += 0.0137)
    for (size_t a = 0; a < 3; a++)
      check_relative(gloss(n, angles[a]),
                     100 * by_refraction(n, angles[a]) /
                         by_refraction(SCW_GLOSS_REFERENCE_INDEX, angles[a]),
                     2e-12); /* the other form cancels near n = 1 */
}

static void reference_and_vacuum(void **state) {
  (void)state;
  for (size_t a = 0; a < 3; a++) {
    check_relative(gloss(SCW_GLOSS_REFERENCE_INDEX, angles[a]), 100, 0);
    check_absolute(gloss(1, angles[a]), 0, 0);
    check_relative(index_of(100, angles[a]), SCW_GLOSS_REFERENCE_INDEX, 1e-14);
    check_relative(index_of(0, angles[a]), 1, 0);
  }
  /* Brewster's angle of n = tan 60: light along the plane is not reflected */
  double n = sqrt(3), across = (n * n - 1) / (n * n + 1);
  check_relative(gloss(n, 60),
                 50 * across * across /
                     by_refraction(SCW_GLOSS_REFERENCE_INDEX, 60), 1e-14);
}

static void rises_and_inverts(void **state) {
  (void)state;
  for (size_t a = 0; a < 3; a++) {
    double before = 0, most = angles[a] == 85 ? 1.9 : 4;
    for (double n = 1.001; n <= most; n += 0.013) {
      double g = gloss(n, angles[a]);
      assert_true(g > before);
      before = g;
      /* the slope at 85 degrees is all but level near 1.9 */
      check_relative(index_of(g, angles[a]), n, angles[a] == 85 ? 1e-12 : 1e-14);
    }
    check_relative(index_of(gloss(most, angles[a]), angles[a]), most, 1e-15);
  }
}

static void refused(void **state) {
  double out;
  (void)state;
  static const double bad[] = {0.999, 4.001, NAN, INFINITY, -1};
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
    assert_int_equal(scw_gloss_of_index(context, bad[i], 60, &out),
                     SCW_BAD_ARGUMENT);
  assert_non_null(strstr(scw_context_message(context), "between 1 and 4"));
  static const double none[] = {-0.001, 101.9, NAN, INFINITY};
  for (size_t i = 0; i < sizeof none / sizeof *none; i++)
    assert_int_equal(scw_index_of_gloss(context, none[i], 85, &out),
                     SCW_BAD_ARGUMENT);
  assert_int_equal(scw_gloss_of_index(context, 1.5, 45, &out),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scw_index_of_gloss(context, 50, 0, &out), SCW_BAD_ARGUMENT);
  assert_non_null(strstr(scw_context_message(context), "20, 60 and 85"));
}

static void advice(void **state) {
  (void)state;
  assert_int_equal(scw_gloss_angle_for(9.99), 85);
  assert_int_equal(scw_gloss_angle_for(10), 60);
  assert_int_equal(scw_gloss_angle_for(70), 60);
  assert_int_equal(scw_gloss_angle_for(70.01), 20);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(published_table),
      cmocka_unit_test(points_of_the_reference),
      cmocka_unit_test(other_form_of_the_equations),
      cmocka_unit_test(reference_and_vacuum),
      cmocka_unit_test(rises_and_inverts),
      cmocka_unit_test(refused),
      cmocka_unit_test(advice),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
