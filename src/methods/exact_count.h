/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact counts of any size, kept as remainders: a count is known modulo
 * several 63-bit primes and therefore known exactly, as long as it is smaller
 * than their product. One prime at a time, so that a table of counts needs one
 * machine word a cell whatever their size. */
#ifndef SCWI_EXACT_COUNT_H
#define SCWI_EXACT_COUNT_H

#include <stddef.h>
#include <stdint.h>

enum { SCWI_COUNT_PRIMES = 16 };

typedef struct scwi_exact_count {
  uint64_t remainder[SCWI_COUNT_PRIMES];
} scwi_exact_count;

uint64_t scwi_count_prime(size_t i); /* i < SCWI_COUNT_PRIMES; below 2^63 */

/* (a + b) mod prime for a, b < prime. */
static inline uint64_t scwi_count_add(uint64_t a, uint64_t b, uint64_t prime) {
  uint64_t sum = a + b;
  return sum >= prime ? sum - prime : sum;
}

/* How many primes hold every count up to 2^bits; more than
 * SCWI_COUNT_PRIMES: too large. */
size_t scwi_count_primes_for(double bits);

/* part/whole of two counts known modulo the first `primes` primes; relative
 * error below 5e-16 times the number of primes. */
double scwi_count_ratio(const scwi_exact_count *part,
                        const scwi_exact_count *whole, size_t primes);
#endif
