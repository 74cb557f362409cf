/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products, each against each. */
#ifndef SCWI_ALL_PAIRS_H
#define SCWI_ALL_PAIRS_H

#include "several.h"

/* Place of the pair i < j of n in a list of n (n - 1) / 2. */
static inline size_t scwi_pair_place(size_t i, size_t j, size_t n) {
  return i * (2 * n - i - 1) / 2 + (j - i - 1);
}

/* out[scwi_pair_place(i, j, n)] = entries[i] - entries[j], judged by the
 * studentised range of all of them at the pair's own Satterthwaite df (Games &
 * Howell 1976, J. Educ. Statist. 1, 113-125). With equal_sd the SD is pooled
 * over all entries (Tukey 1953, Kramer 1956, Biometrics 12, 307-310). Entries
 * without an uncertainty are left out of the family. SCW_BAD_ARGUMENT for more
 * than 100 entries. */
scw_status scwi_all_pairs(scw_context *context, const scwi_entry *entries,
                          size_t n, bool equal_sd, double level,
                          scwi_adjusted *out);
#endif
