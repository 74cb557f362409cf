/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "summarise.h"

#include "creep.h"
#include "figure.h"
#include "intervals.h"
#include "level_shift.h"
#include "moments.h"
#include "quantiles.h"
#include "robust.h"
#include "serial.h"
#include "shape.h"
#include "stand_out.h"
#include "workings.h"

static void order_statistics(const scwi_workings *w, scw_summary *out) {
  const scwi_sample *s = w->sample;
  out->smallest = scwi_figure(s->x[w->place[0]]);
  out->largest = scwi_figure(s->x[w->place[w->n - 1]]);
  out->q1 = scwi_figure(scwi_quartile(s, w->place, 1));
  out->median = scwi_figure(scwi_quartile(s, w->place, 2));
  out->q3 = scwi_figure(scwi_quartile(s, w->place, 3));
  if (w->n < 2) {
    out->mad = out->mad_sd = scwi_missing(SCW_ONE_READING);
    return;
  }
  double mad = scwi_unscaled(&w->centre, w->scaled_mad);
  out->mad = scwi_figure(mad);
  /* A set is never said to have an SD of zero because half of it is equal. */
  out->mad_sd =
      mad > 0 ? scwi_figure(mad / SCWI_NORMAL_MAD)
              : scwi_missing(w->scaled_sd > 0 ? SCW_MAD_ZERO : SCW_NO_SCATTER);
}

static scw_status all_figures(scw_context *context, const scwi_workings *w,
                              const scwi_summary_settings *settings,
                              scw_summary *out) {
  scwi_moments moments = {w->n, w->centre.mean,
                          scwi_unscaled(&w->centre, w->scaled_sd)};
  order_statistics(w, out);
  scw_status status =
      scwi_intervals(context, moments, settings->level, settings->content, out);
  if (status == SCW_OK) status = scwi_robust(context, w, out);
  if (status == SCW_OK)
    status = scwi_stand_out(context, w, settings->stand_out,
                            settings->candidates, &out->stand_out);
  if (status == SCW_OK)
    status = scwi_creep(context, w, settings->level, &out->creep);
  if (status == SCW_OK) status = scwi_serial(context, w, &out->serial);
  if (status == SCW_OK)
    status = scwi_level_shift(context, w, settings->seed, &out->level_shift);
  if (status == SCW_OK) status = scwi_shape(context, w, &out->shape);
  return status;
}

scw_status scwi_summarise(scw_context *context, const scwi_sample *sample,
                          const scwi_summary_settings *settings,
                          scw_summary *out) {
  scwi_workings workings;
  *out = (scw_summary){.step = sample->step};
  scw_status status = scwi_workings_of(context, sample, &workings);
  if (status != SCW_OK) return status;
  status = all_figures(context, &workings, settings, out);
  scwi_workings_free(&workings);
  if (status != SCW_OK) *out = (scw_summary){0};
  return status;
}
