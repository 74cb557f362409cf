/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The places that each of several products could hold. */
#ifndef SCWI_PLACES_H
#define SCWI_PLACES_H

#include "several.h"

typedef struct scwi_place_range {
  size_t low, high; /* 1: the largest estimate */
} scwi_place_range;

/* One more than the products shown to be better, up to n less those shown to be
 * worse, where shown is: adjusted for all pairs (Games & Howell, as
 * scwi_all_pairs) at the level. So all places hold together. A product without
 * an uncertainty could hold any place. 1 to 100 entries. */
scw_status scwi_places(scw_context *context, const scwi_entry *entries,
                       size_t n, double level, scwi_place_range *out);

#endif
