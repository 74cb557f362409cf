/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spacing.h"

#include <math.h>

#include "figure.h"

scw_figure scwi_spacing(scw_figure range, scw_figure nugget_share,
                        double correlation) {
  if (range.state == SCW_NO_DEPENDENCE) return scwi_figure(0);
  if (!scwi_present(range)) return range;
  if (!scwi_present(nugget_share)) return nugget_share;
  double near = 1 - nugget_share.value;
  if (near <= correlation) return scwi_figure(0);
  return scwi_figure(range.value * log(near / correlation));
}

/* Steps that fit a length; a length that is a whole number of steps up to
 * rounding holds them all. */
static double steps(double length, double step) {
  return floor(length / step * (1 + 1e-12));
}

static double square_grid(double width, double height, double spacing) {
  return (steps(width, spacing) + 1) * (steps(height, spacing) + 1);
}

/* Rows sqrt(3)/2 apart, every other one moved by half a step. */
static double triangular_grid(double width, double height, double spacing) {
  double rows = steps(height, spacing * sqrt(0.75)) + 1;
  double odd = ceil(rows / 2), even = floor(rows / 2);
  double full = steps(width, spacing) + 1;
  double moved = width * (1 + 1e-12) < spacing / 2
                     ? 0
                     : steps(width - spacing / 2, spacing) + 1;
  return odd * full + even * moved;
}

scw_figure scwi_spots_that_fit(double width, double height, double spacing) {
  if (!isfinite(width) || !isfinite(height) || !isfinite(spacing) ||
      width < 0 || height < 0 || spacing < 0)
    return scwi_missing(SCW_OUT_OF_RANGE);
  if (spacing <= 0) return scwi_missing(SCW_UNBOUNDED);
  double square = square_grid(width, height, spacing);
  double lying = triangular_grid(width, height, spacing);
  double standing = triangular_grid(height, width, spacing);
  return scwi_figure(fmax(square, fmax(lying, standing)));
}
