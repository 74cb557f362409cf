/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Matheron, G., Principles of geostatistics, Economic Geology 58 (1963). A
 * third of the diagonal and 15 bins are common practice, no source. */
#include <math.h>

#include "figure.h"
#include "place.h"

/* A pair exactly on the border of two bins belongs to the nearer one; so far
 * off a border, in bins, still counts as on it. */
#define ON_THE_BORDER 1e-9

/* How far places may be out of order, see place_spots.c. */
#define UNSORTED 1e-8

typedef struct bin_sums {
  size_t pairs;
  double distance, square;
} bin_sums;

static size_t bin_of(double distance, double bins_per_length) {
  double place = distance * bins_per_length - ON_THE_BORDER;
  size_t bin = place > 0 ? (size_t)(int)place : 0;
  return bin < SCW_VARIOGRAM_BINS ? bin : SCW_VARIOGRAM_BINS - 1;
}

static void add_pairs(const scwi_places *p, const double *residual,
                      double cutoff, bin_sums *bins) {
  double per_length = SCW_VARIOGRAM_BINS / cutoff;
  double reach = cutoff * (1 + ON_THE_BORDER / SCW_VARIOGRAM_BINS);
  for (size_t i = 0; i < p->n; i++)
    for (size_t j = i; j-- > 0;) {
      double du = p->u[i] - p->u[j], dv = p->v[i] - p->v[j];
      if (du > reach + UNSORTED) break; /* places are sorted by u */
      double square = du * du + dv * dv;
      if (square > reach * reach) continue;
      double distance = sqrt(square), apart = residual[i] - residual[j];
      bin_sums *bin = &bins[bin_of(distance, per_length)];
      bin->pairs++;
      bin->distance += distance;
      bin->square += apart * apart;
    }
}

void scwi_semivariogram(const scwi_places *places, const double *residual,
                        scw_semivariogram *out) {
  *out = (scw_semivariogram){.state = SCW_TOO_FEW};
  if (places->n < 2 || places->length <= 0) return;
  bin_sums bins[SCW_VARIOGRAM_BINS] = {{0}};
  double cutoff = 2 * hypot(places->half_u, places->half_v) / 3;
  add_pairs(places, residual, cutoff, bins);
  out->cutoff = cutoff * places->length;
  out->state = isfinite(out->cutoff) ? SCW_PRESENT : SCW_OUT_OF_RANGE;
  for (size_t b = 0; b < SCW_VARIOGRAM_BINS; b++) {
    double pairs = (double)bins[b].pairs;
    if (bins[b].pairs == 0) continue;
    out->bins[out->n_bins++] = (scw_variogram_bin){
        bins[b].pairs, bins[b].distance / pairs * places->length,
        bins[b].square / (2 * pairs) * places->scale *
            places->scale};
  }
  for (size_t b = 0; b < out->n_bins; b++)
    if (!isfinite(out->bins[b].semivariance)) out->state = SCW_OUT_OF_RANGE;
  if (out->state != SCW_PRESENT) out->n_bins = 0;
}
