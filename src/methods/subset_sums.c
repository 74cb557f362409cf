/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "subset_sums.h"

#include <math.h>
#include <stdlib.h>

#include "exact_count.h"
#include "memory.h"

enum { MOST_STEPS = 50000000, MOST_LISTED = 5000000 };

static scwi_wide distance_of(const scwi_subsets *q, scwi_wide sum) {
  scwi_wide apart = q->times * sum - q->centre;
  return apart < 0 ? -apart : apart;
}

double scwi_subset_share_of_one(const scwi_subsets *q) {
  if (q->any_size) return exp2(-(double)q->n);
  double share = 1;
  for (size_t i = 0; i < q->size; i++)
    share *= (double)(q->size - i) / (double)(q->n - i);
  return share;
}

/* --- listing ------------------------------------------------------------- */

typedef struct listing {
  const scwi_subsets *q;
  scwi_wide largest;
  size_t whole, as_far, farthest;
} listing;

static void list_one(listing *l, scwi_wide sum) {
  scwi_wide distance = distance_of(l->q, sum);
  l->whole++;
  l->as_far += distance >= l->q->distance;
  if (distance > l->largest) l->farthest = 0;
  if (distance >= l->largest) {
    l->largest = distance;
    l->farthest++;
  }
}

/* Every way to take `left` more values from `from` on; never deeper than
 * `size`, which is small where listing is allowed. */
static void list_sized(listing *l, size_t from, size_t left, scwi_wide sum) {
  if (left == 0) {
    list_one(l, sum);
    return;
  }
  for (size_t i = from; i + left <= l->q->n; i++)
    list_sized(l, i + 1, left - 1, sum + l->q->value[i]);
}

/* All subsets, one value put in or taken out at a time (Gray code). */
static void list_all(listing *l) {
  scwi_wide sum = 0;
  size_t taken = 0;
  list_one(l, sum);
  for (size_t step = 1; step < (size_t)1 << l->q->n; step++) {
    size_t i = 0;
    while (!(step >> i & 1))
      i++;
    taken ^= (size_t)1 << i;
    sum += taken >> i & 1 ? l->q->value[i] : -(scwi_wide)l->q->value[i];
    list_one(l, sum);
  }
}

static void list_shares(const scwi_subsets *q, scwi_subset_shares *out) {
  listing l = {.q = q, .largest = -1};
  if (q->any_size)
    list_all(&l);
  else
    list_sized(&l, 0, q->size, 0);
  *out = (scwi_subset_shares){true, (double)l.as_far / (double)l.whole,
                              (double)l.farthest / (double)l.whole};
}

/* --- counting ------------------------------------------------------------ */

/* Row j counts the subsets of j values by their sum (any_size: one row for
 * all). prefix[i] is the sum of the i smallest values. */
typedef struct counting {
  const scwi_subsets *q;
  size_t *prefix, *row_start;
  uint64_t *table;
  size_t last_row, cells;
} counting;

/* The sums that j-1 of the first i-1 values can have. */
static size_t lowest_sum(const counting *c, size_t j) {
  return c->prefix[j - 1];
}

static size_t highest_sum(const counting *c, size_t i, size_t j) {
  return c->prefix[i - 1] - c->prefix[i - j];
}

/* Rows that value i can still bring to the full size. */
static size_t first_row(const scwi_subsets *q, size_t i) {
  return q->size + i > q->n + 1 ? q->size + i - q->n : 1;
}

static size_t final_row(const scwi_subsets *q, size_t i) {
  return i < q->size ? i : q->size;
}

/* Additions one pass takes; stops counting above the limit. */
static double steps_of(const counting *c) {
  const scwi_subsets *q = c->q;
  double steps = 0;
  for (size_t i = 1; i <= q->n && steps <= MOST_STEPS; i++) {
    if (q->any_size) {
      steps += (double)(c->prefix[i - 1] + 1);
      continue;
    }
    for (size_t j = first_row(q, i); j <= final_row(q, i); j++)
      steps += (double)(highest_sum(c, i, j) - lowest_sum(c, j) + 1);
  }
  return steps;
}

static void add_shifted(uint64_t *into, const uint64_t *from, size_t n,
                        uint64_t prime) {
  for (size_t s = 0; s < n; s++)
    into[s] = scwi_count_add(into[s], from[s], prime);
}

/* Downward, so that every source still lacks the new value. */
static void add_within_row(uint64_t *row, size_t highest, size_t shift,
                           uint64_t prime) {
  for (size_t s = highest + 1; s-- > 0;)
    row[s + shift] = scwi_count_add(row[s + shift], row[s], prime);
}

static void build_table(const counting *c, uint64_t prime) {
  const scwi_subsets *q = c->q;
  for (size_t cell = 0; cell < c->cells; cell++)
    c->table[cell] = 0;
  c->table[0] = 1;
  for (size_t i = 1; i <= q->n; i++) {
    size_t value = (size_t)q->value[i - 1];
    if (q->any_size) {
      add_within_row(c->table, c->prefix[i - 1], value, prime);
      continue;
    }
    for (size_t j = final_row(q, i); j >= first_row(q, i); j--) {
      size_t low = lowest_sum(c, j);
      add_shifted(c->table + c->row_start[j] + low + value,
                  c->table + c->row_start[j - 1] + low,
                  highest_sum(c, i, j) - low + 1, prime);
    }
  }
}

/* Sums a full subset can have: `low` to the end of the last row. */
static size_t lowest_full(const counting *c) {
  return c->q->any_size ? 0 : c->prefix[c->q->size];
}

static void add_up(const counting *c, size_t which, scwi_wide largest,
                   scwi_exact_count *whole, scwi_exact_count *as_far,
                   scwi_exact_count *farthest) {
  uint64_t prime = scwi_count_prime(which), sums[3] = {0};
  const uint64_t *row = c->table + c->last_row;
  for (size_t s = lowest_full(c); s < c->cells - c->last_row; s++) {
    scwi_wide distance = distance_of(c->q, (scwi_wide)s);
    sums[0] = scwi_count_add(sums[0], row[s], prime);
    if (distance >= c->q->distance)
      sums[1] = scwi_count_add(sums[1], row[s], prime);
    if (distance == largest) sums[2] = scwi_count_add(sums[2], row[s], prime);
  }
  whole->remainder[which] = sums[0];
  as_far->remainder[which] = sums[1];
  farthest->remainder[which] = sums[2];
}

static void count_shares(const counting *c, size_t primes,
                         scwi_subset_shares *out) {
  scwi_exact_count whole, as_far, farthest;
  /* The distance is largest at one of the two extreme sums, and both occur. */
  scwi_wide low = distance_of(c->q, (scwi_wide)lowest_full(c));
  scwi_wide high = distance_of(c->q, (scwi_wide)(c->cells - c->last_row - 1));
  for (size_t which = 0; which < primes; which++) {
    build_table(c, scwi_count_prime(which));
    add_up(c, which, low > high ? low : high, &whole, &as_far, &farthest);
  }
  *out = (scwi_subset_shares){true, scwi_count_ratio(&as_far, &whole, primes),
                              scwi_count_ratio(&farthest, &whole, primes)};
}

/* Sums of the smallest values; false when they outgrow any table. */
static bool add_prefix(const counting *c) {
  scwi_wide sum = 0;
  for (size_t i = 0; i < c->q->n; i++) {
    sum += c->q->value[i];
    if (sum > MOST_STEPS) return false;
    c->prefix[i + 1] = (size_t)sum;
  }
  return true;
}

static void lay_out_rows(counting *c) {
  const scwi_subsets *q = c->q;
  size_t rows = q->any_size ? 0 : q->size;
  for (size_t j = 0; j <= rows; j++) {
    size_t taken = q->any_size ? q->n : j;
    c->row_start[j] = c->last_row = c->cells;
    c->cells += c->prefix[q->n] - c->prefix[q->n - taken] + 1;
  }
}

static scw_status try_counting(scw_context *context, counting *c,
                               scwi_subset_shares *out) {
  const scwi_subsets *q = c->q;
  size_t primes = scwi_count_primes_for(1 - log2(scwi_subset_share_of_one(q)));
  scw_status status = SCWI_ALLOCATE(context, q->n + 1, &c->prefix);
  if (status == SCW_OK)
    status = SCWI_ALLOCATE(context, q->size + 1, &c->row_start);
  if (status != SCW_OK || primes > SCWI_COUNT_PRIMES || !add_prefix(c))
    return status;
  lay_out_rows(c);
  double steps = steps_of(c) + (double)c->cells;
  if (steps * (double)primes > MOST_STEPS) return SCW_OK;
  status = SCWI_ALLOCATE(context, c->cells, &c->table);
  if (status == SCW_OK) count_shares(c, primes, out);
  return status;
}

scw_status scwi_subset_shares_of(scw_context *context,
                                 const scwi_subsets *subsets,
                                 scwi_subset_shares *out) {
  counting c = {.q = subsets};
  *out = (scwi_subset_shares){0};
  scw_status status = try_counting(context, &c, out);
  free(c.prefix);
  free(c.row_start);
  free(c.table);
  if (status == SCW_OK && !out->counted &&
      scwi_subset_share_of_one(subsets) * MOST_LISTED >= 1)
    list_shares(subsets, out);
  return status;
}
