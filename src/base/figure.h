/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Making figures. */
#ifndef SCWI_FIGURE_H
#define SCWI_FIGURE_H

#include <math.h>

#include "scatterwise/figures.h"

/* A present figure; a value that is not finite becomes "out of range". */
static inline scw_figure scwi_figure(double value) {
  return (scw_figure){value, isfinite(value) ? SCW_PRESENT : SCW_OUT_OF_RANGE};
}

static inline scw_figure scwi_missing(scw_presence why) {
  return (scw_figure){NAN, why};
}

static inline scw_interval scwi_interval(double low, double high,
                                         double level) {
  bool held = isfinite(low) && isfinite(high);
  return (scw_interval){low, high, level,
                        held ? SCW_PRESENT : SCW_OUT_OF_RANGE};
}

static inline scw_interval scwi_no_interval(scw_presence why, double level) {
  return (scw_interval){NAN, NAN, level, why};
}

static inline bool scwi_present(scw_figure figure) {
  return figure.state == SCW_PRESENT;
}

#endif
