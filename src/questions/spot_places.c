/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Coordinates of the spots, in whole ticks until the end. */
#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "number_text.h"
#include "spot_layout.h"
#include "spots.h"

/* A length in ticks, where a whole number of them is not moved by rounding. */
static double ticks_up(double length, double tick) {
  return ceil(length / tick * (1 - 1e-12));
}

static double ticks_down(double length, double tick) {
  return floor(length / tick * (1 + 1e-12));
}

scw_status scwi_spot_field_of(scw_context *context,
                              const scw_layout_request *request,
                              scwi_spot_field *out) {
  char margin[SCWI_NUMBER_SIZE];
  bool wide = request->width >= request->height;
  double width = request->width, height = request->height;
  if (request->halves) *(wide ? &width : &height) /= 2;
  double least = fmin(width, height) - 2 * request->margin;
  if (!(least > 0))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a margin of %s leaves nothing of the %s; give a smaller "
                     "one",
                     scwi_number_text(request->margin, margin),
                     request->halves ? "halves" : "panel");
  *out = (scwi_spot_field){.exponent = (int)floor(log10(least)) - 3,
                           .spots = request->spots};
  double tick = pow(10, out->exponent);
  out->margin = ticks_up(request->margin, tick);
  out->width = ticks_down(width - request->margin, tick) - out->margin;
  out->height = ticks_down(height - request->margin, tick) - out->margin;
  if (!request->halves) return SCW_OK;
  out->spots /= 2;
  if (wide)
    out->mirror_x = ticks_down(request->width, tick);
  else
    out->mirror_y = ticks_down(request->height, tick);
  return SCW_OK;
}

/* Spots of one field, rounded to ticks, numbered along a short path. */
static scw_status fill_field(scw_context *context,
                             const scw_layout_request *request,
                             const scwi_spot_field *field, scwi_random *random,
                             double *x, double *y) {
  scwi_rectangle size = {field->width, field->height};
  scwi_strata strata = scwi_strata_of(size, field->spots);
  double apart = request->apart / pow(10, field->exponent);
  scw_status status = SCW_OK;
  if (request->layout == SCW_LAYOUT_GRID) scwi_grid_spots(&strata, x, y);
  if (request->layout == SCW_LAYOUT_RANDOM)
    scwi_random_spots(&strata, random, x, y);
  if (request->layout == SCW_LAYOUT_SPREAD) {
    status = scwi_spread_spots(context, size, false, field->spots, x, y);
    if (!status && scwi_nearest(x, y, field->spots) < apart)
      status = scwi_spread_spots(context, size, true, field->spots, x, y);
  }
  for (size_t i = 0; i < field->spots && !status; i++) {
    x[i] = rint(x[i]);
    y[i] = rint(y[i]);
  }
  if (!status) scwi_walk_spots(&strata, x, y);
  return status;
}

/* The decimal nearest to ticks * 10^exponent. */
static double in_units(double ticks, int exponent) {
  return exponent < 0 ? ticks / pow(10, -exponent)
                      : ticks * pow(10, exponent);
}

static double across(double place, double mirror) {
  return mirror > 0 ? mirror - place : place;
}

static void put_spots(const scw_layout_request *request,
                      const scwi_spot_field *field, const double *x,
                      const double *y, size_t panel, scw_layout_result *out) {
  for (int half = request->halves ? 1 : 0; half <= (request->halves ? 2 : 0);
       half++)
    for (size_t i = 0; i < field->spots; i++) {
      double right = x[i] + field->margin, up = y[i] + field->margin;
      if (half == 2) right = across(right, field->mirror_x);
      if (half == 2) up = across(up, field->mirror_y);
      out->spots[out->n_spots++] = (scw_spot){
          .panel = panel,
          .number = i + 1,
          .half = half,
          .x = in_units(right, field->exponent),
          .y = in_units(up, field->exponent)};
    }
}

scw_status scwi_place_spots(scw_context *context, const scwi_spot_field *field,
                            scwi_random *random, scw_layout_result *out) {
  const scw_layout_request *request = &out->request;
  double *x = NULL;
  scw_status status = SCWI_ALLOCATE(context, request->spots * request->panels,
                                    &out->spots);
  if (!status) status = SCWI_ALLOCATE(context, 2 * field->spots, &x);
  for (size_t panel = 1; panel <= request->panels && !status; panel++) {
    /* Without a draw every panel is like the first. */
    if (panel == 1 || request->layout == SCW_LAYOUT_RANDOM)
      status = fill_field(context, request, field, random, x,
                          x + field->spots);
    if (!status)
      put_spots(request, field, x, x + field->spots, panel, out);
  }
  free(x);
  return status;
}
