/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a spot list. */
#ifndef SCWI_SPOTS_H
#define SCWI_SPOTS_H

#include "random.h"
#include "scatterwise/layout.h"

/* Everything in whole ticks of the resolution, 10^exponent. */
typedef struct scwi_spot_field {
  int exponent;
  size_t spots;          /* in one field: a panel, or half of one */
  double margin;         /* ticks from the edge of the panel to the field */
  double width, height;  /* of the field */
  double mirror_x, mirror_y; /* with halves: second half's x is mirror_x - x;
                                0: that side is not mirrored */
} scwi_spot_field;

/* SCW_BAD_ARGUMENT when no field is left. */
scw_status scwi_spot_field_of(scw_context *context,
                              const scw_layout_request *request,
                              scwi_spot_field *out);

/* x and y of all spots, numbered along a short path. */
scw_status scwi_place_spots(scw_context *context, const scwi_spot_field *field,
                            scwi_random *random, scw_layout_result *out);

/* Halves drawn to treated and control, labels, codes of the spots. */
scw_status scwi_code_spots(scw_context *context, scwi_random *random,
                           scw_layout_result *out);

/* The turns, in the order of reading. */
scw_status scwi_order_spots(scw_context *context, scwi_random *random,
                            scw_layout_result *out);

scw_status scwi_spots_sentence(scw_context *context, scw_layout_result *out);
scw_status scwi_spots_notes(scw_context *context, scw_layout_result *out);

#endif
