/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: the number of orders of n readings with d discordant pairs follows
 * from those of n-1 by a running sum, c_n(d) = c_n(d-1) + c_(n-1)(d) -
 * c_(n-1)(d-n) (M. G. Kendall, Biometrika 30 (1938)). Counts up to 50! need 215
 * bits and are kept exact in four words; only the last division rounds. */
#include "kendall_exact.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "context.h"
#include "memory.h"

enum { MOST = 50, WORDS = 4 };

typedef struct count {
  uint64_t word[WORDS]; /* lowest first */
} count;

static void add(count *sum, const count *more) {
  uint64_t carry = 0;
  for (size_t i = 0; i < WORDS; i++) {
    uint64_t before = sum->word[i];
    sum->word[i] = before + more->word[i] + carry;
    carry = carry ? sum->word[i] <= before : sum->word[i] < before;
  }
}

static void subtract(count *sum, const count *less) {
  uint64_t borrow = 0;
  for (size_t i = 0; i < WORDS; i++) {
    uint64_t before = sum->word[i];
    sum->word[i] = before - less->word[i] - borrow;
    borrow = borrow ? sum->word[i] >= before : sum->word[i] > before;
  }
}

/* Rounds each word once, so the result is within a few units of the last
 * place. */
static double as_double(const count *c) {
  double sum = 0;
  for (size_t i = WORDS; i-- > 0;) sum = ldexp(sum, 64) + (double)c->word[i];
  return sum;
}

/* Number of orders of n readings with at most `most` discordant pairs. */
static double orders_up_to(count *now, count *before, size_t n, size_t most) {
  count total = {{0}};
  memset(now, 0, (most + 1) * sizeof *now);
  now[0].word[0] = 1;
  for (size_t m = 2; m <= n; m++) {
    memcpy(before, now, (most + 1) * sizeof *now);
    for (size_t d = 1; d <= most; d++) {
      now[d] = now[d - 1];
      add(&now[d], &before[d]);
      if (d >= m) subtract(&now[d], &before[d - m]);
    }
  }
  for (size_t d = 0; d <= most; d++) add(&total, &now[d]);
  return as_double(&total);
}

scw_status scwi_kendall_exact_p(scw_context *context, size_t n, long s,
                                double *p) {
  count *room;
  *p = 0;
  long pairs = (long)(n * (n - 1) / 2);
  if (n < 2 || n > MOST || s > pairs || s < -pairs)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "an exact p of Kendall's S exists here for 2 to 50 "
                     "readings and |S| up to n(n-1)/2, got n = %zu, S = %ld",
                     n, s);
  if (s == 0) {
    *p = 1;
    return SCW_OK;
  }
  size_t most = (size_t)(pairs - labs(s)) / 2; /* S = pairs - 2 discordant */
  scw_status status = SCWI_ALLOCATE(context, 2 * (most + 1), &room);
  if (status) return status;
  double orders = 1; /* n! */
  for (size_t m = 2; m <= n; m++) orders *= (double)m;
  *p = fmin(1, 2 * orders_up_to(room, room + most + 1, n, most) / orders);
  free(room);
  return SCW_OK;
}
