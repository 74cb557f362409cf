/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sums of ticks against the readings themselves: two passes in 128-bit whole
 * numbers, partition and order, the display step from what is kept, pairs of
 * doubles against exact sums. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "display_step.h"
#include "loose_sums.h"
#include "tick_sums.h"

static unsigned long long next_random(unsigned long long *random) {
  *random ^= *random << 13;
  *random ^= *random >> 7;
  *random ^= *random << 17;
  return *random;
}

static int64_t random_tick(unsigned long long *random, int bits) {
  int64_t size = (int64_t)(next_random(random) >> (64 - bits));
  return next_random(random) & 1 ? size : -size;
}

static scwi_tick_sums sums_of(const int64_t *ticks, size_t n) {
  scwi_tick_sums sums = {0};
  for (size_t i = 0; i < n; i++) scwi_tick_sums_add(&sums, ticks[i]);
  return sums;
}

/* The sum of (n tick - sum)^2 by two passes; exact below 2^127. */
static double spread_of(const int64_t *ticks, size_t n) {
  scwi_tick_sum sum = 0, spread = 0;
  for (size_t i = 0; i < n; i++) sum += ticks[i];
  for (size_t i = 0; i < n; i++) {
    scwi_tick_sum deviation = (scwi_tick_sum)n * ticks[i] - sum;
    spread += deviation * deviation;
  }
  return (double)spread;
}

static void spread_is_exact(void **state) {
  unsigned long long random = 20260406;
  (void)state;
  for (unsigned round = 0; round < 2000 * check_multiplier(); round++) {
    int64_t ticks[40];
    size_t n = 1 + next_random(&random) % 40;
    int bits = 1 + (int)(next_random(&random) % 50);
    int64_t offset = random_tick(&random, 61); /* must not matter */
    for (size_t i = 0; i < n; i++)
      ticks[i] = offset + random_tick(&random, bits);
    scwi_tick_sums sums = sums_of(ticks, n);
    assert_true(scwi_tick_sums_spread(&sums) == spread_of(ticks, n));
  }
}

static void the_largest_ticks(void **state) {
  int64_t ticks[1000];
  (void)state;
  for (size_t i = 0; i < 1000; i++)
    ticks[i] = i % 2 ? SCWI_LARGEST_TICK : -SCWI_LARGEST_TICK;
  scwi_tick_sums sums = sums_of(ticks, 1000);
  assert_true(sums.sum == 0);
  assert_true(scwi_tick_sums_squares(&sums) == 1000 * 0x1p124);
  assert_true(scwi_tick_sums_spread(&sums) == 1e9 * 0x1p124);
  for (size_t i = 0; i < 1000; i++) ticks[i] = SCWI_LARGEST_TICK - (i == 7);
  sums = sums_of(ticks, 1000);
  assert_true(scwi_tick_sums_spread(&sums) == 1000.0 * 999);
}

static void order_and_partition_do_not_show(void **state) {
  unsigned long long random = 5;
  int64_t ticks[500];
  (void)state;
  for (size_t i = 0; i < 500; i++) ticks[i] = random_tick(&random, 60);
  scwi_tick_sums all = sums_of(ticks, 500), back = {0}, parts = {0};
  for (size_t i = 500; i-- > 0;) scwi_tick_sums_add(&back, ticks[i]);
  for (size_t i = 0; i < 500; i += 50) {
    scwi_tick_sums part = sums_of(ticks + i, 50);
    scwi_tick_sums_join(&parts, &part);
  }
  assert_memory_equal(&all.squares, &back.squares, sizeof all.squares);
  assert_memory_equal(&all.squares, &parts.squares, sizeof all.squares);
  assert_true(all.sum == back.sum && all.sum == parts.sum &&
              all.n == parts.n);
}

static void ten_times_the_ticks(void **state) {
  unsigned long long random = 6;
  int64_t ticks[50], tenfold[50];
  (void)state;
  for (size_t i = 0; i < 50; i++)
    tenfold[i] = 10 * (ticks[i] = random_tick(&random, 58));
  scwi_tick_sums sums = sums_of(ticks, 50), wanted = sums_of(tenfold, 50);
  scwi_tick_sums_times_ten(&sums);
  assert_true(sums.sum == wanted.sum);
  assert_memory_equal(&sums.squares, &wanted.squares, sizeof sums.squares);
}

/* Readings with up to three decimals, many of them multiples of something. */
static scwi_decimal random_reading(unsigned long long *random, int64_t of) {
  int64_t mantissa = of * (int64_t)(next_random(random) % 50);
  int16_t digits = (int16_t)(next_random(random) % 3);
  return (scwi_decimal){(double)mantissa, mantissa, digits, true};
}

static void take_all(scwi_tick_scale *scale, const scwi_decimal *readings,
                     size_t n) {
  for (size_t i = 0; i < n; i++) {
    int powers = scwi_tick_scale_rise(scale, &readings[i]);
    assert_true(powers >= 0);
    scwi_tick_scale_raise(scale, powers);
    scwi_tick_scale_take(scale, &readings[i]);
  }
}

/* The step from what the scale keeps is the step from all the readings. */
static void the_display_step_needs_no_readings(void **state) {
  static const int64_t multiples[] = {1, 2, 5, 10, 20, 25, 50, 100, 1000};
  unsigned long long random = 20260407;
  (void)state;
  for (unsigned round = 0; round < 5000 * check_multiplier(); round++) {
    scwi_decimal readings[30];
    int64_t ticks[30];
    size_t n = 1 + next_random(&random) % 30, half = next_random(&random) % n;
    int64_t of = multiples[next_random(&random) % 9];
    for (size_t i = 0; i < n; i++) readings[i] = random_reading(&random, of);
    scwi_tick_scale scale = {0}, rest = {0};
    take_all(&scale, readings, half);
    take_all(&rest, readings + half, n - half);
    int powers = scwi_tick_scale_meet(&scale, &rest);
    assert_true(powers >= 0);
    scwi_tick_scale_raise(&scale, powers);
    if (half) scwi_tick_scale_raise(&rest, scale.digits - rest.digits);
    scwi_tick_scale_join(&scale, &rest);
    int most = readings[0].digits;
    for (size_t i = 0; i < n; i++)
      if (readings[i].digits > most) most = readings[i].digits;
    for (size_t i = 0; i < n; i++)
      assert_true(scwi_decimal_ticks(&readings[i], most, &ticks[i]));
    scw_step wanted = scwi_display_step(ticks, n, most);
    scw_step got = scwi_display_step_of(scale.n, scale.different,
                                        scale.divisor, scale.digits);
    assert_int_equal(scale.digits, most);
    assert_int_equal(got.origin, wanted.origin);
    assert_true(got.size == wanted.size);
  }
}

static void what_no_tick_can_hold(void **state) {
  const scwi_decimal small = {0.001, 1, 3, true}, large = {5e15, 5, -15, true},
                     zero = {0, 0, 40, true}, many = {1, 0, 0, false},
                     finest = {0, 1, 18, true};
  scwi_tick_scale scale = {0};
  (void)state;
  assert_int_equal(scwi_tick_scale_rise(&scale, &many), -1);
  take_all(&scale, &small, 1);
  assert_int_equal(scwi_tick_scale_rise(&scale, &large), -1); /* 5e18 ticks */
  assert_int_equal(scwi_tick_scale_rise(&scale, &finest), 15);
  take_all(&scale, &finest, 1);
  assert_true(scale.digits == 18 && scale.largest == 1000000000000000);
  assert_int_equal(scwi_tick_scale_rise(&scale, &zero), -1); /* 1e37 ticks */
  scwi_tick_scale other = {0};
  take_all(&other, &large, 1);
  assert_int_equal(scwi_tick_scale_meet(&scale, &other), -1);
  assert_int_equal(scwi_tick_scale_meet(&other, &scale), -1);
}

static void pairs_of_doubles(void **state) {
  unsigned long long random = 20260408;
  (void)state;
  for (unsigned round = 0; round < 500 * check_multiplier(); round++) {
    int64_t ticks[60];
    int digits = (int)(next_random(&random) % 20) - 6;
    int bits = 1 + (int)(next_random(&random) % 30);
    int64_t offset = random_tick(&random, 40);
    for (size_t i = 0; i < 60; i++)
      ticks[i] = offset + random_tick(&random, bits);
    scwi_tick_sums exact = sums_of(ticks, 60), half = sums_of(ticks, 25);
    double tick = digits > 0 ? 1 / pow(10, digits) : pow(10, -digits);
    scwi_loose_sums all = scwi_loose_of(&exact, digits), parts = {0};
    scwi_loose_sums first = scwi_loose_of(&half, digits);
    scwi_loose_join(&parts, &first);
    scwi_tick_sums rest = sums_of(ticks + 25, 35);
    scwi_loose_sums second = scwi_loose_of(&rest, digits);
    scwi_loose_join(&parts, &second);
    double unit = ldexp(1, all.exponent), other = ldexp(1, parts.exponent);
    double spread = spread_of(ticks, 60), wanted = spread * tick * tick;
    /* 2^-104, times what the difference of sums takes away from the left */
    double lost = 60 * 60 * scwi_tick_sums_squares(&exact) / spread;
    double relative = 1e-15 + 10 * 0x1p-104 * lost;
    if (spread <= 0) continue;
    check_relative(all.sum.high * unit, (double)exact.sum * tick, 1e-15);
    check_relative(scwi_loose_spread(&all) * unit * unit, wanted, relative);
    check_relative(scwi_loose_spread(&parts) * other * other, wanted,
                   relative);
  }
}

/* Added one by one, at both ends of what doubles hold. */
static void pairs_of_any_size(void **state) {
  static const double scales[] = {1e300, 1e-300, 1, 5e-320};
  (void)state;
  for (size_t s = 0; s < 4; s++) {
    scwi_loose_sums sums = {0};
    scwi_loose_add(&sums, 0);
    for (int i = 1; i <= 9; i++) scwi_loose_add(&sums, i * scales[s]);
    double unit = ldexp(1, sums.exponent);
    /* 0 to 9: sum 45, sum of (10 x - 45)^2 = 8250 */
    double relative = s == 3 ? 1e-3 : 1e-15; /* 5e-320 has four digits */
    check_relative(sums.sum.high * unit, 45 * scales[s], relative);
    check_relative(sqrt(scwi_loose_spread(&sums)) * unit / scales[s],
                   sqrt(8250), relative);
  }
  scwi_loose_sums sums = {0};
  scwi_loose_add(&sums, 1e-300);
  scwi_loose_add(&sums, 1e300); /* the exponent rises on the way */
  check_relative(sqrt(scwi_loose_spread(&sums)) * ldexp(1, sums.exponent),
                 sqrt(2) * 1e300, 1e-15);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(spread_is_exact),
      cmocka_unit_test(the_largest_ticks),
      cmocka_unit_test(order_and_partition_do_not_show),
      cmocka_unit_test(ten_times_the_ticks),
      cmocka_unit_test(the_display_step_needs_no_readings),
      cmocka_unit_test(what_no_tick_can_hold),
      cmocka_unit_test(pairs_of_doubles),
      cmocka_unit_test(pairs_of_any_size),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
