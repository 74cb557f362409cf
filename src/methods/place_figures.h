/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures worked out in the unit of the places, brought back. */
#ifndef SCWI_PLACE_FIGURES_H
#define SCWI_PLACE_FIGURES_H

#include "figure.h"
#include "scatterwise/comparison.h"

static inline scw_figure scwi_scaled_figure(scw_figure figure, double scale) {
  return scwi_present(figure) ? scwi_figure(figure.value * scale) : figure;
}

/* scale > 0; df and p have no unit. */
static inline scw_estimate scwi_scaled_estimate(scw_estimate e, double scale) {
  e.estimate = scwi_scaled_figure(e.estimate, scale);
  e.standard_uncertainty = scwi_scaled_figure(e.standard_uncertainty, scale);
  if (e.interval.state == SCW_PRESENT)
    e.interval = scwi_interval(e.interval.low * scale, e.interval.high * scale,
                               e.interval.level);
  return e;
}

static inline scw_estimate scwi_no_estimate(scw_presence why, double level) {
  scw_figure none = scwi_missing(why);
  return (scw_estimate){.estimate = none, .standard_uncertainty = none,
                        .df = none, .p = none,
                        .interval = scwi_no_interval(why, level)};
}

#endif
