/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trials of a score: chances with a closed form, what is shared cancels, the
 * same answer for the same seed. */
#include "check.h"

#include <math.h>
#include <stdlib.h>

#include "distributions.h"
#include "standings.h"

static scw_context *context;
static const scw_rule plain = {.kind = SCW_RULE_DIFFERENCE, .points = 1,
                               .per = 1, .low = -INFINITY, .high = INFINITY};
static const scw_score_part one_part[] = {{0, 1}};
static const scw_score_rule score = {.part = one_part, .n_parts = 1,
                                     .low = -INFINITY, .high = INFINITY};

static int make_context(void **state) {
  (void)state;
  return scw_context_new(&context) != SCW_OK;
}
static int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static void run(const scwi_measured *measured, size_t n_measured,
                const scwi_standing_part *part, size_t products,
                size_t trials, uint64_t seed, scwi_standing *out) {
  const scwi_standings_ask ask = {
      .measured = measured, .n_measured = n_measured, .part = part,
      .products = products, .parts = 1, .score = &score, .level = 0.95,
      .seed = seed, .trials = trials};
  assert_int_equal(scwi_standings(context, &ask, out), SCW_OK);
}

static scwi_standing_part own(int after) {
  return (scwi_standing_part){&plain, 1, SCWI_NOT_MEASURED, after, 0, 0};
}

static void drop(scwi_standing *standing, size_t n) {
  for (size_t i = 0; i < n; i++) scwi_standing_free(&standing[i]);
}

/* Two normal figures: the chance of the first place is Phi(d/u). */
static void two_normals(void **state) {
  scwi_measured m[] = {{10, {1, INFINITY}}, {11, {0.5, INFINITY}}};
  scwi_standing_part part[] = {own(0), own(1)};
  scwi_standing s[2];
  enum { TRIALS = 1000000 };
  (void)state;
  run(m, 2, part, 2, TRIALS, 3, s);
  double p = scwi_normal_cdf(-1 / sqrt(1.25));
  /* five standard errors of a count of so many trials */
  check_absolute(s[0].chance[0], p, 5 * sqrt(p * (1 - p) / TRIALS));
  check_absolute(s[0].chance[0] + s[0].chance[1], 1, 1e-12);
  check_absolute(s[0].chance[1], s[1].chance[0], 1e-12);
  check_absolute(s[0].points.low, 10 - 1.959964, 0.01);
  check_absolute(s[0].points.high, 10 + 1.959964, 0.01);
  assert_true(s[0].tied[1] && s[0].low == 1 && s[0].high == 2);
  drop(s, 2);
}

/* An interval of one t figure is the t interval. */
static void t_interval(void **state) {
  scwi_measured m[] = {{0, {1, 3}}};
  scwi_standing_part part[] = {own(0)};
  scwi_standing s[1];
  (void)state;
  run(m, 1, part, 1, 1000000, 3, s);
  check_absolute(s[0].points.high, 3.182446, 0.03);
  check_absolute(s[0].points.low, -3.182446, 0.03);
  assert_true(s[0].low == 1 && s[0].high == 1 && s[0].chance[0] == 1);
  drop(s, 1);
}

/* A shared baseline, whatever its error, cannot part products whose figures
 * after it are exact. */
static void shared_baseline_cancels(void **state) {
  scwi_measured m[] = {{80, {5, 4}}, {83, {1e-9, 9}}, {82, {1e-9, 9}}};
  scwi_standing_part part[] = {{&plain, 1, 0, 1, 0, 0}, {&plain, 1, 0, 2, 0, 0}};
  scwi_standing s[2];
  (void)state;
  run(m, 3, part, 2, 10000, 3, s);
  assert_true(s[0].chance[0] == 1 && s[1].chance[1] == 1);
  assert_true(s[0].high == 1 && s[1].low == 2 && !s[0].tied[1]);
  assert_true(s[0].points.high - s[0].points.low > 20); /* its own is wide */
  drop(s, 2);
}

/* Equal sums share the better place: caps make them. */
static void caps_make_ties(void **state) {
  static const scw_rule capped = {.kind = SCW_RULE_DIFFERENCE, .points = 1,
                                  .per = 1, .low = 0, .high = 5};
  scwi_measured m[] = {{9, {0.1, INFINITY}}, {12, {0.1, INFINITY}}};
  scwi_standing_part part[] = {{&capped, 1, SCWI_NOT_MEASURED, 0, 0, 0},
                               {&capped, 1, SCWI_NOT_MEASURED, 1, 0, 0}};
  scwi_standing s[2];
  (void)state;
  run(m, 2, part, 2, 10000, 3, s);
  assert_true(s[0].chance[0] == 1 && s[1].chance[0] == 1 && s[0].tied[1]);
  drop(s, 2);
}

/* Ladders: chances evenly between the looks, intervals over every rung that is
 * left open, beyond the last look too. */
static void ladders(void **state) {
  static const scw_rung rungs[] = {{50, 4}, {75, 6}, {200, 9}};
  static const scw_rule ladder = {.kind = SCW_RULE_LADDER, .rung = rungs,
                                  .n_rungs = 3, .low = -INFINITY,
                                  .high = INFINITY};
  scwi_standing_part part[] = {
      {&ladder, 1, SCWI_NOT_MEASURED, SCWI_NOT_MEASURED, 50, 100},
      {&ladder, 1, SCWI_NOT_MEASURED, SCWI_NOT_MEASURED, 75, INFINITY}};
  scwi_standing s[2];
  (void)state;
  run(NULL, 0, part, 2, 1000000, 3, s);
  /* the first reaches 75 in half of the trials, and is then equal */
  check_absolute(s[0].chance[0], 0.5, 0.003);
  assert_true(s[1].chance[0] == 1);
  assert_true(s[0].points.low == 4 && s[0].points.high == 6);
  assert_true(s[1].points.low == 6 && s[1].points.high == 9);
  drop(s, 2);
}

/* Almost all passes between the looks reach the rung, but nothing shows that
 * the coat did: not told apart. */
static void open_rungs_prove_nothing(void **state) {
  static const scw_rung rungs[] = {{1, 5}};
  static const scw_rule ladder = {.kind = SCW_RULE_LADDER, .rung = rungs,
                                  .n_rungs = 1, .low = -INFINITY,
                                  .high = INFINITY};
  scwi_measured m[] = {{2, {0.01, INFINITY}}};
  scwi_standing_part part[] = {
      {&ladder, 1, SCWI_NOT_MEASURED, SCWI_NOT_MEASURED, 0, 1e6},
      {&plain, 1, SCWI_NOT_MEASURED, 0, 0, 0}};
  scwi_standing s[2];
  (void)state;
  run(m, 1, part, 2, 10000, 3, s);
  assert_true(s[0].chance[0] > 0.999 && s[0].tied[1]);
  assert_true(s[0].points.low == 0 && s[0].points.high == 5);
  assert_true(s[0].low == 1 && s[0].high == 2);
  drop(s, 2);
}

/* Sixty products far apart are told apart with the trials asked for. */
static void many_pairs(void **state) {
  enum { N = 60 };
  static scwi_measured m[N];
  static scwi_standing_part part[N];
  static scwi_standing s[N];
  (void)state;
  for (size_t i = 0; i < N; i++) {
    m[i] = (scwi_measured){(double)i, {1e-3, 9}};
    part[i] = own((int)i);
  }
  /* 4 * 1770 / 0.05, up to a whole number */
  check_absolute(scwi_standings_trials(N, 0.95), 141600, 1);
  run(m, N, part, N, 10000, 3, s); /* too few */
  assert_true(s[0].tied[N - 1]);
  drop(s, N);
  run(m, N, part, N, (size_t)scwi_standings_trials(N, 0.95), 3, s);
  assert_true(s[N - 1].high == 1 && s[0].low == N && !s[0].tied[1]);
  drop(s, N);
}

static void seeds(void **state) {
  scwi_measured m[] = {{10, {1, 4}}, {10.5, {1, 5}}, {9, {2, 2}}};
  scwi_standing_part part[] = {own(0), own(1), own(2)};
  scwi_standing a[3], b[3], c[3];
  (void)state;
  run(m, 3, part, 3, 12345, 3, a);
  run(m, 3, part, 3, 12345, 3, b);
  run(m, 3, part, 3, 12345, 4, c);
  assert_memory_equal(a[1].chance, b[1].chance, 3 * sizeof(double));
  assert_true(a[2].points.low == b[2].points.low);
  assert_true(a[2].points.low != c[2].points.low);
  drop(a, 3);
  drop(b, 3);
  drop(c, 3);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(two_normals),  cmocka_unit_test(t_interval),
      cmocka_unit_test(shared_baseline_cancels),
      cmocka_unit_test(caps_make_ties), cmocka_unit_test(ladders),
      cmocka_unit_test(open_rungs_prove_nothing),
      cmocka_unit_test(many_pairs), cmocka_unit_test(seeds)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
