/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Operators crossed with spots: made-up cells whose mean squares are known by
 * hand, identities, gaps. R judges the rest (judge_components). */
#include "check.h"

#include <math.h>

#include "crossed.h"
#include "one_set.h"

enum { MOST = 1024 };
typedef struct cells {
  size_t n;
  double x[MOST];
  uint32_t op[MOST], spot[MOST];
} cells;

static scw_crossed of(const cells *c) {
  scw_crossed out;
  assert_int_equal(
      scwi_crossed(one_set_context(), &(scwi_sample){.n = c->n, .x = c->x},
                   c->op, c->spot, 0.95, &out),
      SCW_OK);
  return out;
}

static void add(cells *c, uint32_t op, uint32_t spot, double x) {
  c->op[c->n] = op;
  c->spot[c->n] = spot;
  c->x[c->n++] = x;
}

/* Operators a apart, spots b apart, a cross of size c, pairs d apart. */
static cells square(double a, double b, double c, double d) {
  cells out = {0};
  for (uint32_t o = 0; o < 2; o++)
    for (uint32_t s = 0; s < 2; s++)
      for (int r = 0; r < 2; r++)
        add(&out, o, s, 60 + a * o + b * s + (o == s ? c : -c) + (r ? d : -d));
  return out;
}

/* 2 x 2 x 2: each mean square is 8 times the square of half the step. */
static void by_hand(void **state) {
  cells c = square(3, 10, 0.5, 0.25);
  (void)state;
  scw_crossed got = of(&c);
  assert_int_equal(got.state, SCW_PRESENT);
  assert_true(got.balanced);
  check_relative(got.with.operators.mean_square.value, 8 * 2.25, 1e-14);
  check_relative(got.with.spots.mean_square.value, 8 * 25, 1e-14);
  check_relative(got.with.interaction.mean_square.value, 8 * 0.25, 1e-14);
  check_relative(got.with.repeats.mean_square.value, 8 * 0.0625 / 4, 1e-14);
  check_relative(got.with.operators.variance.value, (18 - 2) / 4.0, 1e-14);
  check_relative(got.with.spots.variance.value, (200 - 2) / 4.0, 1e-14);
  check_relative(got.with.interaction.variance.value, (2 - 0.125) / 2, 1e-14);
  check_relative(got.with.reproducibility_sd.value, sqrt(4 + 0.9375 + 0.125),
                 1e-14);
  check_relative(got.without.repeats.variance.value, (2 + 0.5) / 5, 1e-14);
  check_relative(got.without.operators.variance.value, (18 - 0.5) / 4, 1e-14);
  check_relative(got.limit_factor, 2.7718076, 1e-7);
  check_relative(got.mean.estimate.value, 60 + 1.5 + 5, 1e-15);
  check_relative(got.mean.standard_uncertainty.value, sqrt(216 / 8.0), 1e-14);
}

/* Spots may be far apart and differ without end: operators do not care. */
static void spots_do_not_matter(void **state) {
  cells near = square(3, 10, 0.5, 0.25), far = square(3, 10, 0.5, 0.25);
  (void)state;
  for (size_t i = 0; i < far.n; i++)
    far.x[i] += 0x1p30 * far.spot[i];
  scw_crossed a = of(&near), b = of(&far);
  check_relative(b.with.operators.sd.value, a.with.operators.sd.value, 1e-15);
  check_relative(b.with.interaction.sd.value, a.with.interaction.sd.value,
                 1e-15);
  check_relative(b.with.reproducibility.high, a.with.reproducibility.high,
                 1e-15);
}

static void any_unit_and_order(void **state) {
  cells c = square(3, 10, 0.5, 0.25), turned = {.n = 8};
  (void)state;
  c.x[3] += 1;
  scw_crossed a = of(&c);
  for (size_t i = 0; i < 8; i++) {
    size_t from = 3 * i % 8;
    turned.x[i] = 0x1p900 * c.x[from];
    turned.op[i] = 9 - c.op[from];
    turned.spot[i] = 5 + 7 * c.spot[from];
  }
  scw_crossed b = of(&turned);
  check_relative(b.with.operators.sd.value, 0x1p900 * a.with.operators.sd.value,
                 1e-13);
  check_relative(b.without.reproducibility_sd.value,
                 0x1p900 * a.without.reproducibility_sd.value, 1e-13);
  check_relative(b.without.spots.share.value, a.without.spots.share.value,
                 1e-13);
}

/* One reading in each cell: interaction and repeats are one. */
static void single_readings(void **state) {
  cells all = square(3, 10, 0.5, 0), one = {0};
  (void)state;
  for (size_t i = 0; i < 8; i += 2)
    add(&one, all.op[i], all.spot[i], all.x[i]);
  scw_crossed got = of(&one);
  assert_int_equal(got.with.operators.state, SCW_NOT_TOLD_APART);
  assert_int_equal(got.with.reproducibility_sd.state, SCW_NOT_TOLD_APART);
  check_relative(got.without.repeats.variance.value, 4 * 0.25, 1e-14);
  check_relative(got.without.operators.variance.value, (9 - 1) / 2.0, 1e-14);
}

/* A reading more in one cell: cell means, at the harmonic mean of their
 * numbers. */
static void unequal_cells(void **state) {
  cells c = square(3, 10, 0.5, 0.25);
  (void)state;
  add(&c, 0, 0, 60.5); /* the mean of its cell */
  scw_crossed got = of(&c);
  double repeats = 4 / (3 / 2.0 + 1 / 3.0);
  assert_false(got.balanced);
  assert_int_equal(got.state, SCW_PRESENT);
  check_relative(got.with.operators.mean_square.value, 4 * repeats * 2.25,
                 1e-14);
  check_relative(got.with.repeats.mean_square.value, 0.5 / 5, 1e-14);
  check_relative(got.with.interaction.variance.value, 0.25 * 4 - 0.1 / repeats,
                 1e-13);
}

static void no_answer(void **state) {
  cells c = square(3, 10, 0.5, 0.25), one = {0}, same = square(0, 0, 0, 0);
  (void)state;
  c.n = 6; /* the second operator has not read the second spot */
  scw_crossed got = of(&c);
  assert_int_equal(got.state, SCW_EMPTY_CELLS);
  assert_int_equal(got.empty_cells, 1);
  assert_int_equal(got.with.operators.state, SCW_EMPTY_CELLS);
  c.n = 4;
  assert_int_equal(of(&c).state, SCW_TOO_FEW); /* one operator */
  add(&one, 0, 0, 5);
  assert_int_equal(of(&one).state, SCW_TOO_FEW);
  assert_int_equal(of(&same).state, SCW_NO_SCATTER);
  /* operators and spots agree better than the cross lets expect */
  cells cross = square(0, 0, 1, 0.25);
  got = of(&cross);
  assert_int_equal(got.state, SCW_PRESENT);
  assert_int_equal(got.mean.interval.state, SCW_NO_SCATTER);
  assert_true(got.with.operators.sd.value == 0);
  assert_true(got.with.reproducibility.high >=
              got.with.reproducibility_sd.value);
}

/* Operators with one mean and crosses of equal size: the negative component
 * brings the interval below the SD, which must not lie outside it. */
static void interval_holds_the_sd(void **state) {
  static cells c;
  (void)state;
  c.n = 0;
  for (uint32_t o = 0; o < 200; o++)
    for (uint32_t s = 0; s < 2; s++)
      for (int r = 0; r < 2; r++)
        add(&c, o, s, 60 + (o % 2 == s ? 1 : -1) + (r ? 0.25 : -0.25));
  scw_crossed got = of(&c);
  assert_true(got.with.operators.variance.value < 0);
  assert_true(got.with.reproducibility.high ==
              got.with.reproducibility_sd.value);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(by_hand),
      cmocka_unit_test(spots_do_not_matter),
      cmocka_unit_test(any_unit_and_order),
      cmocka_unit_test(single_readings),
      cmocka_unit_test(unequal_cells),
      cmocka_unit_test(no_answer),
      cmocka_unit_test(interval_holds_the_sd),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
