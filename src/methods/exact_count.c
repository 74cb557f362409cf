/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "exact_count.h"

__extension__ typedef unsigned __int128 wide;

/* 2^63 minus these are its largest primes; that they are prime is a test. */
static const unsigned short below_2_63[SCWI_COUNT_PRIMES] = {
    25,  165, 259, 301, 375, 387, 391, 409,
    457, 471, 517, 529, 549, 627, 649, 669};

uint64_t scwi_count_prime(size_t i) {
  return ((uint64_t)1 << 63) - below_2_63[i];
}

size_t scwi_count_primes_for(double bits) {
  /* Each prime is above 2^62.99. */
  double needed = bits / 62.99;
  return needed >= SCWI_COUNT_PRIMES ? SCWI_COUNT_PRIMES + 1
                                     : (size_t)needed + 1;
}

static uint64_t times(uint64_t a, uint64_t b, uint64_t prime) {
  return (uint64_t)((wide)a * b % prime);
}

/* a^(prime-2), which is 1/a (Fermat). */
static uint64_t inverse(uint64_t a, uint64_t prime) {
  uint64_t result = 1;
  for (uint64_t power = prime - 2; power; power >>= 1) {
    if (power & 1) result = times(result, a, prime);
    a = times(a, a, prime);
  }
  return result;
}

/* Mixed-radix digits (Garner): count = d0 + d1 p0 + d2 p0 p1 + ... */
static void digits_of(const scwi_exact_count *count, size_t primes,
                      uint64_t digits[SCWI_COUNT_PRIMES]) {
  for (size_t i = 0; i < primes; i++) {
    uint64_t prime = scwi_count_prime(i), rest = count->remainder[i];
    for (size_t j = 0; j < i; j++) {
      uint64_t digit = digits[j] % prime;
      rest = rest >= digit ? rest - digit : rest + (prime - digit);
      rest = times(rest, inverse(scwi_count_prime(j) % prime, prime), prime);
    }
    digits[i] = rest;
  }
}

/* The count over the product of all primes but the last; no overflow, and
 * each rounding is divided away by the next prime. */
static double scaled(const scwi_exact_count *count, size_t primes) {
  uint64_t digits[SCWI_COUNT_PRIMES];
  double value = 0;
  digits_of(count, primes, digits);
  for (size_t i = 0; i < primes; i++) {
    if (i) value /= (double)scwi_count_prime(i - 1);
    value += (double)digits[i];
  }
  return value;
}

double scwi_count_ratio(const scwi_exact_count *part,
                        const scwi_exact_count *whole, size_t primes) {
  return scaled(part, primes) / scaled(whole, primes);
}
