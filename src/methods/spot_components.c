/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spot_components.h"

#include <stdlib.h>

#include "distributions.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"

/* Mean squares with their df. */
typedef struct squares {
  double between, within, df_between, df_within;
} squares;

static scw_status mean_squares(scw_context *context, const double *x,
                               size_t spots, size_t repeats, squares *out) {
  double *means, within = 0;
  scw_status status = SCWI_ALLOCATE(context, spots, &means);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < spots; i++) {
    scwi_sample spot = {.n = repeats, .x = x + i * repeats};
    scwi_moments m = scwi_moments_of(&spot);
    means[i] = m.mean;
    within += m.sd * m.sd / (double)spots;
  }
  scwi_sample all = {.n = spots, .x = means};
  double sd = scwi_moments_of(&all).sd;
  free(means);
  *out = (squares){(double)repeats * sd * sd, within, (double)spots - 1,
                   (double)(spots * (repeats - 1))};
  return SCW_OK;
}

/* Upper limit of the expected difference of the mean squares. The constants
 * make it exact when either of them is zero. */
static scw_status upper_difference(scw_context *context, const squares *s,
                                   double assurance, double *out) {
  double chi2_b, chi2_w, f;
  scw_status status =
      scwi_chi2_quantile(context, 1 - assurance, s->df_between, &chi2_b);
  if (status == SCW_OK)
    status = scwi_chi2_quantile(context, assurance, s->df_within, &chi2_w);
  if (status == SCW_OK)
    status = scwi_f_quantile(context, 1 - assurance, s->df_between,
                             s->df_within, &f);
  if (status != SCW_OK) return status;
  double h = s->df_between / chi2_b - 1, g = 1 - s->df_within / chi2_w;
  double mixed = ((1 - f) * (1 - f) - h * h * f * f - g * g) / f;
  double square = h * h * s->between * s->between +
                  g * g * s->within * s->within +
                  mixed * s->between * s->within;
  *out = s->between - s->within + sqrt(fmax(0, square));
  return SCW_OK;
}

scw_status scwi_spot_components(scw_context *context, const double *x,
                                size_t spots, size_t repeats, double assurance,
                                scw_spot_components *out) {
  scw_figure few = scwi_missing(SCW_TOO_FEW);
  squares s;
  double chi2, upper;
  *out = (scw_spot_components){spots, repeats, assurance, few, few, few, few};
  if (spots < 2 || repeats < 2) return SCW_OK;
  scw_status status = mean_squares(context, x, spots, repeats, &s);
  if (status == SCW_OK)
    status = scwi_chi2_quantile(context, 1 - assurance, s.df_within, &chi2);
  if (status == SCW_OK)
    status = upper_difference(context, &s, assurance, &upper);
  if (status != SCW_OK) return status;
  double per_spot = (double)repeats;
  out->repeat = scwi_figure(s.within);
  out->spot = scwi_figure((s.between - s.within) / per_spot);
  out->repeat_upper = scwi_figure(s.within * s.df_within / chi2);
  out->spot_upper = scwi_figure(fmax(0, upper) / per_spot);
  return SCW_OK;
}
