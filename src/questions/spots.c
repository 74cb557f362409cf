/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3, where: a list of spots and an order to read them in. */
#include "spots.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "notes.h"
#include "number_text.h"
#include "settings.h"
#include "spacing.h"
#include "spot_layout.h"

enum { MOST_SPOTS = 10000, MOST_TURNS = 1000000 };

const char *scw_layout_code(scw_layout_kind kind) {
  switch (kind) {
    case SCW_LAYOUT_SPREAD:
      return "spread";
    case SCW_LAYOUT_GRID:
      return "grid";
    case SCW_LAYOUT_RANDOM:
      return "random";
    default:
      return "unknown";
  }
}

static scw_status check_length(scw_context *context, const char *what,
                               double value, bool may_be_zero) {
  char text[SCWI_NUMBER_SIZE];
  if (isfinite(value) && (value > 0 || (may_be_zero && value == 0)))
    return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT, "%s of %s: give a %s number",
                   what, scwi_number_text(value, text),
                   may_be_zero ? "finite, not negative" : "positive");
}

static scw_status check_counts(scw_context *context,
                               const scw_layout_request *request) {
  size_t spots = request->spots, panels = request->panels,
         repeats = request->repeats;
  if (spots < 1 || spots > MOST_SPOTS || panels > MOST_SPOTS / spots)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%zu spots on each of %zu panels: a list goes from 1 to "
                     "%d spots in all",
                     spots, panels, MOST_SPOTS);
  if (request->halves && spots % 2)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%zu spots cannot be shared by two halves; give an even "
                     "number",
                     spots);
  if (repeats > MOST_TURNS / (2 * spots * panels))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%zu readings at each of %zu spots are more than a list "
                     "holds",
                     repeats, spots * panels);
  if (request->blind && !request->halves)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "only treated and control halves can be told by codes; "
                     "add the halves");
  if ((unsigned)request->layout >= SCW_LAYOUT_END)
    return scwi_fail(context, SCW_BAD_ARGUMENT, "an unknown layout");
  return SCW_OK;
}

static scw_status take_request(scw_context *context,
                               const scw_layout_request *request,
                               scw_layout_result *out) {
  scw_layout_request *taken = &out->request;
  const char *length = request->length_unit ? request->length_unit : "";
  const char *unit = request->unit ? request->unit : "";
  *taken = *request;
  if (!taken->panels) taken->panels = 1;
  if (!taken->repeats) taken->repeats = 1;
  taken->length_unit = taken->unit = NULL;
  scw_status status = check_counts(context, taken);
  if (!status)
    status = check_length(context, "a panel width", taken->width, false);
  if (!status)
    status = check_length(context, "a panel height", taken->height, false);
  if (!status) status = check_length(context, "a margin", taken->margin, true);
  if (!status) status = check_length(context, "a spacing", taken->apart, true);
  if (!status)
    status =
        scwi_copy_text(context, length, strlen(length), &out->length_unit);
  if (!status) status = scwi_copy_text(context, unit, strlen(unit), &out->unit);
  taken->length_unit = out->length_unit;
  taken->unit = out->unit;
  return status;
}

/* The spots of one panel stand together. */
static double nearest_of(const scw_layout_result *list) {
  size_t each = list->request.spots;
  double nearest = INFINITY;
  for (size_t i = 0; i < list->n_spots; i++)
    for (size_t j = i - i % each; j < i; j++)
      nearest = fmin(nearest, hypot(list->spots[i].x - list->spots[j].x,
                                    list->spots[i].y - list->spots[j].y));
  return nearest;
}

static double edge_of(const scw_layout_result *list) {
  const scw_layout_request *request = &list->request;
  double edge = INFINITY;
  for (size_t i = 0; i < list->n_spots; i++) {
    const scw_spot *spot = &list->spots[i];
    edge = fmin(edge, fmin(fmin(spot->x, request->width - spot->x),
                           fmin(spot->y, request->height - spot->y)));
  }
  return edge;
}

size_t scw_spots_that_fit(double width, double height, double margin,
                          double apart) {
  scw_figure fit =
      scwi_spots_that_fit(width - 2 * margin, height - 2 * margin, apart);
  return scwi_present(fit) && fit.value < 1e15 ? (size_t)fit.value : 0;
}

/* One panel, or both of its halves. */
static scw_figure fits_on(const scw_layout_request *request) {
  double halves = request->halves ? 2 : 1;
  double width = request->width, height = request->height;
  if (!(request->apart > 0)) return scwi_missing(SCW_NOT_COMPUTED);
  *(width >= height ? &width : &height) /= halves;
  size_t fit =
      scw_spots_that_fit(width, height, request->margin, request->apart);
  return scwi_figure(halves * (double)fit);
}

static void measure(scw_layout_result *out) {
  double nearest = nearest_of(out);
  out->nearest = out->request.spots > 1 ? scwi_figure(nearest)
                                        : scwi_missing(SCW_ONE_SPOT);
  out->edge = scwi_figure(edge_of(out));
  out->fits = fits_on(&out->request);
  /* Rounded places may lie nearer by the rounding. */
  out->possible = !(nearest < out->request.apart - 2 * out->resolution);
}

static scw_status lay_out(scw_context *context, scw_layout_result *out) {
  scwi_spot_field field;
  scwi_random *random = NULL;
  scw_status status = scwi_spot_field_of(context, &out->request, &field);
  if (!status) status = scwi_random_new(context, out->settings.seed, &random);
  if (!status) status = scwi_place_spots(context, &field, random, out);
  if (!status) status = scwi_code_spots(context, random, out);
  if (!status) status = scwi_order_spots(context, random, out);
  scwi_random_free(random);
  if (status) return status;
  out->resolution = pow(10, field.exponent);
  measure(out);
  return SCW_OK;
}

scw_status scw_layout(scw_context *context, const scw_layout_request *request,
                      const scw_settings *settings, scw_layout_result *out) {
  *out = (scw_layout_result){0};
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = take_request(context, request, out);
  if (!status) status = lay_out(context, out);
  if (!status) status = scwi_spots_sentence(context, out);
  if (!status) status = scwi_spots_notes(context, out);
  if (status) scw_layout_result_free(out);
  return status;
}

void scw_layout_result_free(scw_layout_result *result) {
  free(result->length_unit);
  free(result->unit);
  free(result->sentence);
  free(result->spots);
  free(result->turns);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_layout_result){0};
}
