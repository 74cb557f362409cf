/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is drawn: which half is the control, codes, the order of reading. */
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "spots.h"

/* Nothing here looks like another sign, stands upside down for one, or makes
 * words: no vowels, 0, 1, 2, 5, 6, 8, B, G, L, S, U, V, Z. A letter first, so
 * that no code reads as a number. */
static const char letters[] = "CDFHJKMNPQRTWXY";
static const char signs[] = "CDFHJKMNPQRTWXY3479";

enum { LETTERS = sizeof letters - 1, SIGNS = sizeof signs - 1, SPARE = 4 };

typedef struct codes {
  scwi_random *random;
  size_t length, all;
  bool *used;
} codes;

static scw_status start_codes(scw_context *context, size_t needed,
                              scwi_random *random, codes *out) {
  *out = (codes){.random = random, .length = 3, .all = LETTERS * SIGNS * SIGNS};
  while (out->all < SPARE * needed) {
    out->all *= SIGNS;
    out->length++;
  }
  return SCWI_ALLOCATE(context, out->all, &out->used);
}

static void draw_code(codes *c, char out[SCW_SPOT_CODE]) {
  size_t drawn;
  do drawn = scwi_random_below(c->random, c->all);
  while (c->used[drawn]);
  c->used[drawn] = true;
  for (size_t i = c->length; i-- > 1; drawn /= SIGNS)
    out[i] = signs[drawn % SIGNS];
  out[0] = letters[drawn];
  out[c->length] = 0;
}

/* A drawn order of 0 .. n - 1. */
static void shuffle(scwi_random *random, size_t *order, size_t n) {
  for (size_t i = 0; i < n; i++)
    order[i] = i;
  for (size_t i = n; i > 1; i--) {
    size_t other = scwi_random_below(random, i), kept = order[i - 1];
    order[i - 1] = order[other];
    order[other] = kept;
  }
}

/* The control is the first half on every other panel of a drawn order, so that
 * over an even number of panels either half has it equally often. */
static scw_status draw_halves(scw_context *context, scwi_random *random,
                              scw_layout_result *out) {
  size_t panels = out->request.panels, each = out->request.spots, *order;
  scw_status status = SCWI_ALLOCATE(context, panels, &order);
  if (status) return status;
  shuffle(random, order, panels);
  size_t first = scwi_random_below(random, 2);
  for (size_t p = 0; p < panels; p++)
    for (size_t i = 0; i < each; i++) {
      scw_spot *spot = &out->spots[order[p] * each + i];
      spot->control = (size_t)spot->half == 1 + (first + p) % 2;
    }
  free(order);
  return SCW_OK;
}

scw_status scwi_code_spots(scw_context *context, scwi_random *random,
                           scw_layout_result *out) {
  codes c;
  scw_status status = SCW_OK;
  if (out->request.halves) status = draw_halves(context, random, out);
  if (!status) status = start_codes(context, out->n_spots + 2, random, &c);
  if (status) return status;
  if (out->request.blind) {
    draw_code(&c, out->treated_code);
    draw_code(&c, out->control_code);
  } else if (out->request.halves) {
    strcpy(out->treated_code, "treated");
    strcpy(out->control_code, "control");
  }
  for (size_t i = 0; i < out->n_spots; i++)
    draw_code(&c, out->spots[i].code);
  free(c.used);
  return SCW_OK;
}

/* The spots of one panel in one state. */
static void order_panel(scwi_random *random, size_t first, scw_side side,
                        size_t *order, scw_layout_result *out) {
  const scw_layout_request *request = &out->request;
  shuffle(random, order, request->spots);
  for (size_t i = 0; i < request->spots; i++) {
    size_t spot = request->reading_order == SCW_ORDER_WALK ? i : order[i];
    for (size_t repeat = 1; repeat <= request->repeats; repeat++)
      out->turns[out->n_turns++] = (scw_turn){first + spot, side, repeat};
  }
}

scw_status scwi_order_spots(scw_context *context, scwi_random *random,
                            scw_layout_result *out) {
  const scw_layout_request *request = &out->request;
  const scw_side sides[] = {SCW_SIDE_BEFORE, SCW_SIDE_AFTER};
  size_t states = request->before_after ? 2 : 1, *order = NULL;
  scw_status status = SCWI_ALLOCATE(
      context, states * out->n_spots * request->repeats, &out->turns);
  if (!status) status = SCWI_ALLOCATE(context, request->spots, &order);
  for (size_t state = 0; state < states && !status; state++)
    for (size_t first = 0; first < out->n_spots; first += request->spots)
      order_panel(random, first,
                  request->before_after ? sides[state] : SCW_SIDE_NONE, order,
                  out);
  free(order);
  return status;
}
