/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "permutation.h"

#include <stdlib.h>

#include "figure.h"
#include "memory.h"
#include "subset_sums.h"

/* Largest whole-number part of a ratio of tick sizes, and the span that the
 * values may have without any sum overflowing. */
enum { MOST_RATIO = 1000 };
static const int64_t most_span = (int64_t)1 << 62;

static int ascending(const void *left, const void *right) {
  int64_t a = *(const int64_t *)left, b = *(const int64_t *)right;
  return (a > b) - (a < b);
}

static int64_t common_divisor(int64_t a, int64_t b) {
  while (b) {
    int64_t rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

/* Divides everything by its common divisor, so that the table is as small as
 * it can be; returns the divisor. */
static int64_t shrink(int64_t *value, size_t n) {
  int64_t divisor = 0;
  for (size_t i = 0; i < n; i++)
    divisor = common_divisor(divisor, value[i]);
  for (size_t i = 0; divisor > 1 && i < n; i++)
    value[i] /= divisor;
  return divisor > 0 ? divisor : 1;
}

/* Whole p, q with tick size a / tick size b = p/q; false when there are no
 * small ones. */
static bool tick_ratio(double a, double b, int64_t *p, int64_t *q) {
  for (*q = 1; *q <= MOST_RATIO; ++*q) {
    double near = rint(a / b * (double)*q);
    if (near >= 1 && near <= MOST_RATIO &&
        fabs(a / b * (double)*q - near) <= 1e-12 * near) {
      *p = (int64_t)near;
      return true;
    }
  }
  return false;
}

static bool copy_scaled(const scwi_sample *sample, int64_t factor,
                        int64_t *out) {
  for (size_t i = 0; i < sample->n; i++)
    if (__builtin_mul_overflow(sample->ticks[i], factor, &out[i])) return false;
  return true;
}

/* Shifts the values so that the smallest is 0; false when they span too
 * much. */
static bool shift_to_zero(int64_t *value, size_t n) {
  int64_t least = value[0];
  for (size_t i = 1; i < n; i++)
    if (value[i] < least) least = value[i];
  for (size_t i = 0; i < n; i++)
    if (__builtin_sub_overflow(value[i], least, &value[i]) ||
        value[i] > most_span)
      return false;
  return true;
}

/* Both sides in one array of common ticks from 0 up, before's first. */
static bool put_together(const scwi_sample *before, const scwi_sample *after,
                         int64_t *value) {
  int64_t p, q;
  return before->ticks && after->ticks &&
         tick_ratio(before->tick_size, after->tick_size, &p, &q) &&
         copy_scaled(before, p, value) &&
         copy_scaled(after, q, value + before->n) &&
         shift_to_zero(value, before->n + after->n);
}

static scw_figure figure_of_share(const scwi_subset_shares *shares,
                                  double share) {
  if (!shares->counted) return scwi_missing(SCW_TOO_FINE);
  return share > 0 ? scwi_figure(share) : scwi_missing(SCW_OUT_OF_RANGE);
}

static scw_permutation missing(scw_presence why) {
  return (scw_permutation){scwi_missing(why), scwi_missing(why),
                           scwi_missing(why)};
}

/* `mirrored`: without ties two assignments share the largest |D|. */
static scw_status answer(scw_context *context, const scwi_subsets *subsets,
                         bool mirrored, scw_permutation *out) {
  scwi_subset_shares shares;
  scw_status status = scwi_subset_shares_of(context, subsets, &shares);
  if (status != SCW_OK) return status;
  double rarest = scwi_subset_share_of_one(subsets) * (mirrored ? 2 : 1);
  out->p = figure_of_share(&shares, shares.as_far);
  out->smallest_p = figure_of_share(&shares, shares.farthest);
  out->smallest_p_design =
      rarest > 0 ? scwi_figure(rarest) : scwi_missing(SCW_OUT_OF_RANGE);
  return SCW_OK;
}

/* With S the sum over the smaller side (k of N readings) and T that over all,
 * |D| grows with |N S - k T|. */
static scw_status shuffle_sides(scw_context *context, int64_t *value,
                                size_t n_before, size_t n_after,
                                scw_permutation *out) {
  size_t n = n_before + n_after;
  bool count_before = n_before <= n_after;
  scwi_wide total = 0, sum = 0;
  scwi_subsets subsets = {.value = value, .n = n, .times = (int64_t)n};
  subsets.size = count_before ? n_before : n_after;
  shrink(value, n);
  for (size_t i = 0; i < n; i++) {
    total += value[i];
    if ((i < n_before) == count_before) sum += value[i];
  }
  subsets.centre = (scwi_wide)subsets.size * total;
  subsets.distance = (scwi_wide)n * sum - subsets.centre;
  if (subsets.distance < 0) subsets.distance = -subsets.distance;
  qsort(value, n, sizeof *value, ascending);
  return answer(context, &subsets, n_before == n_after, out);
}

scw_status scwi_permutation_unpaired(scw_context *context,
                                     const scwi_sample *before,
                                     const scwi_sample *after,
                                     scw_permutation *out) {
  int64_t *value;
  *out = missing(SCW_TOO_FEW);
  if (!before->n || !after->n) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, before->n + after->n, &value);
  if (status != SCW_OK) return status;
  *out = missing(SCW_TOO_FINE);
  if (put_together(before, after, value))
    status = shuffle_sides(context, value, before->n, after->n, out);
  free(value);
  return status;
}

/* D* is 2 S - T, S being the sum of the sizes that got a plus. */
static scw_status shuffle_signs(scw_context *context,
                                const scwi_sample *differences, int64_t *value,
                                scw_permutation *out) {
  scwi_subsets subsets = {
      .value = value, .n = differences->n, .any_size = true, .times = 2};
  for (size_t i = 0; i < differences->n; i++) {
    int64_t ticks = differences->ticks[i];
    if (ticks > most_span || ticks < -most_span) return SCW_OK;
    subsets.distance += ticks;
    value[i] = ticks < 0 ? -ticks : ticks;
  }
  if (subsets.distance < 0) subsets.distance = -subsets.distance;
  subsets.distance /= shrink(value, differences->n);
  for (size_t i = 0; i < differences->n; i++)
    subsets.centre += value[i];
  qsort(value, differences->n, sizeof *value, ascending);
  return answer(context, &subsets, true, out);
}

scw_status scwi_permutation_paired(scw_context *context,
                                   const scwi_sample *differences,
                                   scw_permutation *out) {
  int64_t *value;
  *out = missing(SCW_TOO_FEW);
  if (!differences->n) return SCW_OK;
  *out = missing(SCW_TOO_FINE);
  if (!differences->ticks) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, differences->n, &value);
  if (status != SCW_OK) return status;
  status = shuffle_signs(context, differences, value, out);
  free(value);
  return status;
}
